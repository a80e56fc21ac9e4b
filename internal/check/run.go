package check

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Row is one row of a table during its check. Its methods read the inputs.
type Row struct {
	e     entry
	state *rowState
}

type rowState struct {
	read   map[string]bool
	faults []string
}

// Has tells whether the row has a value in the column.
func (r Row) Has(column string) bool {
	_, ok := r.e.cells[column]
	r.state.read[column] = true
	return ok
}

// Text returns the cell of the column; a blank or missing cell fails the row.
func (r Row) Text(column string) string {
	if !r.Has(column) {
		r.fault("input %q is missing or blank", column)
	}
	return r.e.cells[column]
}

// Float returns the number in the column. A blank or missing cell, or one that
// is not a number, fails the row and reads as NaN.
func (r Row) Float(column string) float64 {
	s := r.Text(column)
	if s == "" {
		return math.NaN()
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		r.fault("input %q = %q is not a number", column, s)
		return math.NaN()
	}
	return v
}

// Floats returns the numbers in the column, written with semicolons between
// them, for inputs that are short lists.
func (r Row) Floats(column string) []float64 {
	var out []float64
	for part := range strings.SplitSeq(r.Text(column), ";") {
		v, err := strconv.ParseFloat(strings.TrimSpace(part), 64)
		if err != nil {
			r.fault("input %q: %q is not a number", column, part)
			v = math.NaN()
		}
		out = append(out, v)
	}
	return out
}

// Func returns the name in the func column.
func (r Row) Func() string { return r.e.fn }

func (r Row) fault(format string, args ...any) {
	r.state.faults = append(r.state.faults, fmt.Sprintf(format, args...))
}

// Run computes every row of the table at path with the function registered
// under the row's func name and fails t for every row that is outside its
// tolerance, has no function, or leaves an input unread.
func Run(t TB, path string, funcs map[string]func(Row) (float64, error)) {
	t.Helper()
	tab, err := readTable(path)
	if err != nil {
		t.Fatalf("%v", err)
		return
	}
	for _, e := range tab.entries {
		for _, msg := range runEntry(e, funcs) {
			t.Errorf("%s:%d: %s: %s", path, e.line, e.fn, msg)
		}
	}
}

func runEntry(e entry, funcs map[string]func(Row) (float64, error)) []string {
	f := funcs[e.fn]
	if f == nil {
		return []string{"no function is registered under this name"}
	}
	r := Row{e: e, state: &rowState{read: map[string]bool{}}}
	got, err := f(r)
	msgs := r.state.faults
	for _, name := range sortedKeys(e.cells) {
		if !r.state.read[name] && !slices.Contains(required, name) && !slices.Contains(optional, name) {
			msgs = append(msgs, fmt.Sprintf("input %q = %q was never read", name, e.cells[name]))
		}
	}
	if len(msgs) > 0 {
		return msgs
	}
	if e.wantErr != "" {
		if err == nil {
			return []string{fmt.Sprintf("got %v, want an error with %q", got, e.wantErr)}
		}
		if !strings.Contains(err.Error(), e.wantErr) {
			return []string{fmt.Sprintf("got error %q, want one with %q", err, e.wantErr)}
		}
		return nil
	}
	if err != nil {
		return []string{fmt.Sprintf("got error %v, want %v", err, e.expected)}
	}
	off := math.Abs(got - e.expected)
	if !(off <= e.tol.limit(e.expected)) {
		rel := ""
		if e.expected != 0 {
			rel = fmt.Sprintf(", relative %.3g", (got-e.expected)/math.Abs(e.expected))
		}
		return []string{fmt.Sprintf("got %.17g, want %.17g: off by %.3g%s, tol %s (%s; %s)",
			got, e.expected, got-e.expected, rel, e.tol.text, e.kind, e.source)}
	}
	return nil
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
