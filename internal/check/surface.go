package check

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
)

// symbol is an exported function or method that returns a number.
type symbol struct {
	name     string // Func or Type.Method
	receiver string // Type, or empty
	doc      string
	simple   bool // its results are one number, or a number and an error
}

// surface is what a package exports, as far as this package cares.
type surface struct {
	name    string
	symbols []symbol
	typeDoc map[string]string
	numeric map[string]bool // local defined types with a numeric underlying type
}

// goFiles parses the Go files of dir whose names pass keep.
func goFiles(dir string, keep func(name string) bool) ([]*ast.File, error) {
	items, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	fset := token.NewFileSet()
	var files []*ast.File
	for _, it := range items {
		if it.IsDir() || filepath.Ext(it.Name()) != ".go" || !keep(it.Name()) {
			continue
		}
		f, err := parser.ParseFile(fset, filepath.Join(dir, it.Name()), nil, parser.ParseComments)
		if err != nil {
			return nil, err
		}
		files = append(files, f)
	}
	return files, nil
}

func isTestFile(name string) bool { return strings.HasSuffix(name, "_test.go") }

func readSurface(dir string) (surface, error) {
	files, err := goFiles(dir, func(n string) bool { return !isTestFile(n) })
	if err != nil {
		return surface{}, err
	}
	s := surface{typeDoc: map[string]string{}, numeric: map[string]bool{}}
	for _, f := range files {
		s.name = f.Name.Name
		for _, d := range f.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.TYPE {
				continue
			}
			for _, spec := range g.Specs {
				ts := spec.(*ast.TypeSpec)
				s.typeDoc[ts.Name.Name] = g.Doc.Text() + ts.Doc.Text()
				if id, ok := ts.Type.(*ast.Ident); ok && floatNames[id.Name] {
					s.numeric[ts.Name.Name] = true
				}
			}
		}
	}
	for _, f := range files {
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok {
				s.add(fn)
			}
		}
	}
	return s, nil
}

func (s *surface) add(fn *ast.FuncDecl) {
	if !fn.Name.IsExported() || fn.Type.Results == nil {
		return
	}
	sym := symbol{name: fn.Name.Name, doc: fn.Doc.Text()}
	if fn.Recv != nil {
		sym.receiver = receiverName(fn.Recv.List[0].Type)
		if !ast.IsExported(sym.receiver) {
			return
		}
		sym.name = sym.receiver + "." + sym.name
	}
	numbers, others := 0, 0
	for _, field := range fn.Type.Results.List {
		n := max(1, len(field.Names))
		switch {
		case s.isNumber(field.Type):
			numbers += n
		case isIdent(field.Type, "error"):
		default:
			others += n
		}
	}
	if numbers == 0 {
		return
	}
	sym.simple = numbers == 1 && others == 0
	s.symbols = append(s.symbols, sym)
}

func receiverName(e ast.Expr) string {
	switch x := e.(type) {
	case *ast.StarExpr:
		return receiverName(x.X)
	case *ast.IndexExpr:
		return receiverName(x.X)
	case *ast.IndexListExpr:
		return receiverName(x.X)
	case *ast.Ident:
		return x.Name
	}
	return ""
}

var floatNames = map[string]bool{"float64": true, "float32": true}

var countNames = map[string]bool{"int": true, "int64": true, "int32": true, "uint64": true, "uint32": true, "uint": true}

// notQuantities are the names in package units that are not numbers.
var notQuantities = map[string]bool{"Notice": true, "Severity": true, "InputError": true}

// isNumber tells whether a result type is a number or a quantity: a float, an
// integer, a type of package units, time.Duration or a float type defined here.
func (s *surface) isNumber(e ast.Expr) bool {
	switch x := e.(type) {
	case *ast.Ident:
		return floatNames[x.Name] || countNames[x.Name] || s.numeric[x.Name]
	case *ast.SelectorExpr:
		pkg, ok := x.X.(*ast.Ident)
		if !ok {
			return false
		}
		return pkg.Name == "units" && !notQuantities[x.Sel.Name] || pkg.Name == "time" && x.Sel.Name == "Duration"
	}
	return false
}

func isIdent(e ast.Expr, name string) bool {
	id, ok := e.(*ast.Ident)
	return ok && id.Name == name
}
