// Package junk hands every exported function of a package the values that people
// and programs get wrong, one place at a time and two at a time, and fails when a
// call panics, returns a number that is not finite without an error, or refuses
// without naming the function and the argument.
package junk

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"math/rand/v2"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"pondwright.example/units"
)

// Call is a function, or a method as an expression (Type.Method), with arguments
// that it answers without an error.
type Call struct {
	Func any
	Args []any
}

// Of is a Call.
func Of(f any, args ...any) Call { return Call{f, args} }

var numbers = []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), -1, 1, 40, 5e-324, 1e-12, 1e6, 1e300, -1e300, math.MaxFloat64}

var durations = []time.Duration{0, 1, -1, -time.Hour, 400 * 24 * time.Hour, math.MaxInt64, math.MinInt64}

var integers = []int64{0, -1, 1, 7, math.MaxInt32, math.MinInt32}

// Run spoils the arguments of every call. pairs is how many pairs of places are
// spoilt at once in each.
func Run(t *testing.T, calls map[string]Call, pairs int) {
	t.Helper()
	for name, c := range calls {
		rnd := rand.New(rand.NewPCG(1, uint64(len(name))))
		call(t, name, "as given", c, nil, true)
		var places []place
		args := c.fresh()
		for i := range args {
			places = append(places, leaves(args[i], fmt.Sprintf("argument %d", i), []int{i})...)
		}
		for _, p := range places {
			for k := range p.n {
				call(t, name, fmt.Sprintf("%s, value %d", p.path, k), c, []spoil{{p, k}}, false)
			}
		}
		if len(places) < 2 {
			continue
		}
		for range pairs {
			a, b := places[rnd.IntN(len(places))], places[rnd.IntN(len(places))]
			s := []spoil{{a, rnd.IntN(a.n)}, {b, rnd.IntN(b.n)}}
			call(t, name, fmt.Sprintf("%s, value %d and %s, value %d", a.path, s[0].value, b.path, s[1].value), c, s, false)
		}
	}
}

// place is a number somewhere in the arguments: the argument, then the fields and
// elements on the way, and how many values it may be spoilt with.
type place struct {
	path string
	at   []int
	n    int
}

type spoil struct {
	place
	value int
}

var (
	temperature = reflect.TypeFor[units.Temperature]()
	duration    = reflect.TypeFor[time.Duration]()
	moment      = reflect.TypeFor[time.Time]()
)

// leaves lists the places under v.
func leaves(v reflect.Value, path string, at []int) []place {
	one := func(n int) []place { return []place{{path, append([]int(nil), at...), n}} }
	switch {
	case v.Type() == temperature:
		return one(len(numbers) + 1)
	case v.Type() == duration:
		return one(len(durations))
	case v.Type() == moment:
		return one(1)
	}
	var out []place
	switch v.Kind() {
	case reflect.Float64:
		return one(len(numbers))
	case reflect.Int, reflect.Int64:
		return one(len(integers))
	case reflect.Uint8:
		return one(1)
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				out = append(out, leaves(v.Field(i), path+"."+f.Name, append(at, i))...)
			}
		}
	case reflect.Array, reflect.Slice:
		if v.Kind() == reflect.Slice {
			out = one(1) // the slice itself, made nil
		}
		for i := range v.Len() {
			out = append(out, leaves(v.Index(i), fmt.Sprintf("%s[%d]", path, i), append(at, i))...)
		}
	}
	return out
}

// fresh returns the arguments as new values whose parts may be set.
func (c Call) fresh() []reflect.Value {
	f := reflect.TypeOf(c.Func)
	out := make([]reflect.Value, len(c.Args))
	for i, a := range c.Args {
		out[i] = reflect.New(f.In(i)).Elem()
		v := reflect.ValueOf(a)
		if f.In(i).Kind() != reflect.Interface {
			v = v.Convert(f.In(i))
		}
		out[i].Set(detached(v))
	}
	return out
}

// detached copies v with every slice in it.
func detached(v reflect.Value) reflect.Value {
	n := reflect.New(v.Type()).Elem()
	n.Set(v)
	switch v.Kind() {
	case reflect.Slice:
		if !v.IsNil() {
			n.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
			for i := range v.Len() {
				n.Index(i).Set(detached(v.Index(i)))
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				n.Field(i).Set(detached(v.Field(i)))
			}
		}
	}
	return n
}

func (s spoil) apply(args []reflect.Value) {
	v := args[s.at[0]]
	for _, i := range s.at[1:] {
		switch v.Kind() {
		case reflect.Struct:
			v = v.Field(i)
		default:
			if i >= v.Len() { // its slice is nil by now
				return
			}
			v = v.Index(i)
		}
	}
	switch {
	case v.Type() == temperature:
		x := units.Temperature{}
		if s.value < len(numbers) {
			x = units.Celsius(numbers[s.value])
		}
		v.Set(reflect.ValueOf(x))
	case v.Type() == duration:
		v.SetInt(int64(durations[s.value]))
	case v.Type() == moment:
		v.Set(reflect.Zero(moment))
	case v.Kind() == reflect.Float64:
		v.SetFloat(numbers[s.value])
	case v.Kind() == reflect.Uint8:
		v.SetUint(250)
	case v.CanInt():
		v.SetInt(integers[s.value])
	default:
		v.Set(reflect.Zero(v.Type()))
	}
}

func call(t *testing.T, name, what string, c Call, spoils []spoil, good bool) {
	t.Helper()
	defer func() {
		if r := recover(); r != nil {
			t.Errorf("%s panics with %s: %v", name, what, r)
		}
	}()
	args := c.fresh()
	for _, s := range spoils {
		s.apply(args)
	}
	var err error
	var values []reflect.Value
	for _, r := range reflect.ValueOf(c.Func).Call(args) {
		if e, ok := r.Interface().(error); ok {
			err = e
		} else if r.Type() != reflect.TypeFor[error]() {
			values = append(values, r)
		}
	}
	if good && err != nil {
		t.Errorf("%s, %s: %v", name, what, err)
		return
	}
	refused := err != nil && !rangeOnly(err)
	for i, v := range values {
		if bad := notFinite(v, fmt.Sprintf("result %d", i)); bad != "" && !(refused && v.Kind() == reflect.Float64) {
			t.Errorf("%s with %s: %s is not finite beside %v", name, what, bad, err)
		}
	}
	if err == nil {
		return
	}
	var in *units.InputError
	if !errors.As(err, &in) || in.Func == "" || in.Field == "" {
		t.Errorf("%s with %s: %v does not name function and argument", name, what, err)
	}
}

// rangeOnly reports whether err says no more than that a published range was
// left, beside which the extrapolated value stands.
func rangeOnly(err error) bool {
	return errors.Is(err, units.ErrRange) && !errors.Is(err, units.ErrDomain) && !errors.Is(err, units.ErrNoSolution) && !errors.Is(err, units.ErrNoConvergence)
}

// notFinite returns the path of the first number in v that is NaN or infinite.
// An unset temperature is none; a notice and an error may quote a bad number.
func notFinite(v reflect.Value, path string) string {
	switch x := v.Interface().(type) {
	case units.Notice:
		return ""
	case units.Temperature:
		if x != (units.Temperature{}) && (math.IsNaN(x.Celsius()) || math.IsInf(x.Celsius(), 0)) {
			return path
		}
		return ""
	}
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return path
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				if bad := notFinite(v.Field(i), path+"."+f.Name); bad != "" {
					return bad
				}
			}
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			if bad := notFinite(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); bad != "" {
				return bad
			}
		}
	}
	return ""
}

// Complete fails when an exported function or method of the package in dir that
// takes arguments, or has a receiver, is neither in calls nor in skip.
func Complete(t *testing.T, dir string, calls map[string]Call, skip ...string) {
	t.Helper()
	left := map[string]bool{}
	for _, s := range skip {
		left[s] = true
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range files {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range f.Decls {
			name := exported(d)
			if _, ok := calls[name]; name != "" && !ok && !left[name] {
				t.Errorf("%s is not tried with bad inputs", name)
			}
		}
	}
}

// exported returns the name of an exported function with arguments or of an
// exported type's exported method, as Type.Method, and "" for anything else.
func exported(d ast.Decl) string {
	f, ok := d.(*ast.FuncDecl)
	if !ok || !f.Name.IsExported() {
		return ""
	}
	if f.Recv == nil {
		if f.Type.Params.NumFields() == 0 {
			return ""
		}
		return f.Name.Name
	}
	r := f.Recv.List[0].Type
	if star, ok := r.(*ast.StarExpr); ok {
		r = star.X
	}
	id, ok := r.(*ast.Ident)
	if !ok || !id.IsExported() {
		return ""
	}
	return id.Name + "." + f.Name.Name
}
