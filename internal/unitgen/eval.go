package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
)

const eql = token.EQL

// exact holds the values of the constants of units/exact.go.
type exact map[string]constant.Value

// exactNames evaluates units/exact.go with Go's exact constant arithmetic.
func exactNames(dir string) (exact, error) {
	f, err := parser.ParseFile(token.NewFileSet(), filepath.Join(dir, "exact.go"), nil, 0)
	if err != nil {
		return nil, err
	}
	names := exact{}
	for _, d := range f.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.CONST {
			continue
		}
		for _, s := range g.Specs {
			v := s.(*ast.ValueSpec)
			for i, n := range v.Names {
				if names[n.Name], err = names.expr(v.Values[i]); err != nil {
					return nil, fmt.Errorf("exact.go: %s: %w", n.Name, err)
				}
			}
		}
	}
	return names, nil
}

// eval evaluates a constant expression in the names of exact.go.
func (x exact) eval(s string) (constant.Value, error) {
	e, err := parser.ParseExpr(s)
	if err != nil {
		return nil, err
	}
	return x.expr(e)
}

func (x exact) expr(e ast.Expr) (constant.Value, error) {
	switch e := e.(type) {
	case *ast.BasicLit:
		return constant.MakeFromLiteral(e.Value, e.Kind, 0), nil
	case *ast.ParenExpr:
		return x.expr(e.X)
	case *ast.Ident:
		if v, ok := x[e.Name]; ok {
			return v, nil
		}
	case *ast.SelectorExpr: // math.Pi
		const digits = "3.14159265358979323846264338327950288419716939937510582097494459"
		if e.Sel.Name == "Pi" {
			return constant.MakeFromLiteral(digits, token.FLOAT, 0), nil
		}
	case *ast.BinaryExpr:
		a, err := x.expr(e.X)
		if err != nil {
			return nil, err
		}
		b, err := x.expr(e.Y)
		if err != nil {
			return nil, err
		}
		op := e.Op
		if op == token.QUO && a.Kind() == constant.Int && b.Kind() == constant.Int {
			return nil, fmt.Errorf("integer division")
		}
		return constant.BinaryOp(a, op, b), nil
	}
	return nil, fmt.Errorf("cannot evaluate %T", e)
}

// decimal prints a factor: every digit when the shortest decimal is exact, else
// twelve and an ellipsis.
func decimal(v constant.Value) string {
	f, _ := constant.Float64Val(v)
	s := strconv.FormatFloat(f, 'g', -1, 64)
	if constant.Compare(constant.MakeFromLiteral(plain(s), token.FLOAT, 0), token.EQL, constant.ToFloat(v)) {
		return s
	}
	s = strconv.FormatFloat(f, 'g', 12, 64)
	if i := strings.IndexByte(s, 'e'); i >= 0 {
		return s[:i] + "…" + s[i:]
	}
	return s + "…"
}

// plain makes a number a Go float literal.
func plain(s string) string {
	if strings.ContainsAny(s, ".e") {
		return s
	}
	return s + "."
}

// letters are the base dimensions in the order of units' dimension type:
// length, mass, mass in a denominator, time, temperature, current, angle,
// charge, cycle, practical salinity. Mass above and below the stroke is kept
// apart, so that mg/(kg·h) is not a plain 1/h.
var letters = []string{"L", "M", "M^", "T", "K", "I", "A", "Q", "C", "S"}

// dimension turns "M L-1 T-2" into the elements of a Go array literal.
func dimension(s string) (string, error) {
	var exps [10]int
	for _, f := range strings.Fields(s) {
		i := strings.IndexAny(f, "-0123456789")
		if i < 0 {
			i, f = len(f), f+"1"
		}
		n, err := strconv.Atoi(f[i:])
		at := -1
		for j, l := range letters {
			if l == f[:i] {
				at = j
			}
		}
		if at < 0 || err != nil {
			return "", fmt.Errorf("dimension %q", f)
		}
		exps[at] = n
	}
	var b strings.Builder
	for i, n := range exps {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(strconv.Itoa(n))
	}
	return b.String(), nil
}
