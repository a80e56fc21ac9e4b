package check

import (
	"go/ast"
	"regexp"
	"strings"
)

// docLink matches a link of a doc comment to a symbol: [Name] or [Type.Method].
var docLink = regexp.MustCompile(`\[\*?[A-Za-z_]\w*(\.[A-Z]\w*)*\]`)

// Docs fails t for every exported formula of the package in dir, that is a
// function or method that returns a number or a number and an error, which
//
//   - names no source: its doc comment has neither the word Source (or
//     "common practice", or "by definition") nor a link to another symbol, and
//     the doc comment of its receiver type has no Source either; or
//   - has no example: no Example function of the package's tests is named after
//     it, after its type or the type's constructor, or calls it.
//
// Lines "docs Name: reason" of testdata/uncovered.txt exempt a symbol.
func Docs(t TB, dir string) {
	t.Helper()
	s, ex, ok := readPackage(t, dir)
	if !ok {
		return
	}
	shown, err := readExamples(dir)
	if err != nil {
		t.Fatalf("%v", err)
		return
	}
	needed := map[string]bool{}
	for _, sym := range s.symbols {
		if !sym.simple {
			continue
		}
		sourced := namesSource(sym.doc) || sym.receiver != "" && namesSource(s.typeDoc[sym.receiver])
		exampled := shown.covers(sym)
		if sourced && exampled {
			continue
		}
		if key := exempt(ex.docs, sym); key != "" {
			needed[key] = true
			continue
		}
		if !sourced {
			t.Errorf("%s: its doc comment names no Source and links to no symbol that does", sym.name)
		}
		if !exampled {
			t.Errorf("%s: no Example shows it", sym.name)
		}
	}
	for _, key := range sortedKeys(ex.docs) {
		if !needed[key] {
			t.Errorf("testdata/uncovered.txt lists docs %s, which needs no exemption: remove the line", key)
		}
	}
}

func namesSource(doc string) bool {
	lower := strings.ToLower(doc)
	return strings.Contains(doc, "Source") || strings.Contains(lower, "common practice") ||
		strings.Contains(lower, "by definition") || docLink.MatchString(doc)
}

// examples is what the Example functions of a package show.
type examples struct {
	named  map[string]bool // what follows Example in their names, up to a lower-case suffix
	called map[string]bool // every name they select or call
}

func readExamples(dir string) (examples, error) {
	ex := examples{named: map[string]bool{}, called: map[string]bool{}}
	files, err := goFiles(dir, isTestFile)
	if err != nil {
		return ex, err
	}
	for _, f := range files {
		for _, d := range f.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || fn.Recv != nil || !strings.HasPrefix(fn.Name.Name, "Example") {
				continue
			}
			parts := strings.Split(strings.TrimPrefix(fn.Name.Name, "Example"), "_")
			if n := len(parts); n > 1 && !ast.IsExported(parts[n-1]) {
				parts = parts[:n-1] // a suffix such as _seawater
			}
			ex.named[strings.Join(parts, ".")] = true
			ast.Inspect(fn.Body, func(n ast.Node) bool {
				switch x := n.(type) {
				case *ast.SelectorExpr:
					ex.called[x.Sel.Name] = true
				case *ast.CallExpr:
					if id, ok := x.Fun.(*ast.Ident); ok {
						ex.called[id.Name] = true
					}
				}
				return true
			})
		}
	}
	return ex, nil
}

func (ex examples) covers(s symbol) bool {
	if ex.named[s.name] {
		return true
	}
	if s.receiver != "" {
		method := strings.TrimPrefix(s.name, s.receiver+".")
		return ex.named[s.receiver] || ex.named["New"+s.receiver] || ex.called[method]
	}
	return ex.called[s.name]
}
