package check

import (
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// TB is the part of testing.TB that this package uses. It is an interface of
// its own so that a test can watch a check fail.
type TB interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
}

// The kinds of evidence a row can carry, strongest first.
const (
	Published       = "published"
	IndependentCode = "independent code"
	DerivedByHand   = "derived by hand"
	CommonPractice  = "common practice"
	FromMemory      = "from memory"
	Regression      = "regression"
)

var kinds = []string{Published, IndependentCode, DerivedByHand, CommonPractice, FromMemory, Regression}

// outside tells whether rows of the kind come from outside the code under test.
func outside(kind string) bool {
	return kind == Published || kind == IndependentCode || kind == DerivedByHand
}

var (
	required = []string{"func", "expected", "tol", "kind", "source", "locator"}
	optional = []string{"case", "note", "unit"}
)

// tolerance is the largest |got - expected| a row accepts.
type tolerance struct {
	text     string
	value    float64
	absolute bool
}

func (t tolerance) limit(expected float64) float64 {
	if t.absolute {
		return t.value
	}
	return t.value * math.Abs(expected)
}

func parseTolerance(s string) (tolerance, error) {
	t := tolerance{text: s}
	num, abs := strings.CutPrefix(s, "abs ")
	v, err := strconv.ParseFloat(strings.TrimSpace(num), 64)
	if err != nil || !(v >= 0) || math.IsInf(v, 0) {
		return t, fmt.Errorf(`tol %q: want a relative tolerance such as "1e-6", or "abs 0.01"`, s)
	}
	t.value, t.absolute = v, abs
	return t, nil
}

// entry is one row as written, with its fixed columns understood.
type entry struct {
	line     int
	fn       string
	kind     string
	source   string
	locator  string
	tol      tolerance
	expected float64
	wantErr  string // non-empty: the call must fail with this text
	cells    map[string]string
}

// table is one CSV file.
type table struct {
	path    string
	entries []entry
}

var errNotATable = errors.New("no func and expected columns")

// readTable reads a check table. It returns errNotATable for a CSV file that
// holds something else, and otherwise every fault of the file joined.
func readTable(path string) (table, error) {
	f, err := os.Open(path)
	if err != nil {
		return table{}, err
	}
	defer f.Close()
	rd := csv.NewReader(f)
	rd.Comment = '#'
	rd.TrimLeadingSpace = true
	header, err := rd.Read()
	if err != nil {
		return table{}, fmt.Errorf("%s: %w", path, err)
	}
	for i := range header {
		header[i] = strings.TrimSpace(strings.TrimPrefix(header[i], "\ufeff"))
	}
	if !slices.Contains(header, "func") || !slices.Contains(header, "expected") {
		return table{}, fmt.Errorf("%s: %w", path, errNotATable)
	}
	tab := table{path: path}
	var faults []error
	for _, name := range required {
		if !slices.Contains(header, name) {
			faults = append(faults, fmt.Errorf("%s: column %q is missing", path, name))
		}
	}
	for i, name := range header {
		if name == "" || slices.Contains(header[:i], name) {
			faults = append(faults, fmt.Errorf("%s: column %d has no name or a name used before: %q", path, i+1, name))
		}
	}
	if len(faults) > 0 {
		return tab, errors.Join(faults...)
	}
	for {
		rec, err := rd.Read()
		if rec == nil {
			if err != nil && err.Error() != "EOF" {
				faults = append(faults, fmt.Errorf("%s: %w", path, err))
			}
			break
		}
		line, _ := rd.FieldPos(0)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", path, err))
			continue
		}
		e, err := newEntry(header, rec)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s:%d: %w", path, line, err))
			continue
		}
		e.line = line
		tab.entries = append(tab.entries, e)
	}
	if len(tab.entries) == 0 && len(faults) == 0 {
		faults = append(faults, fmt.Errorf("%s: the table has no rows", path))
	}
	return tab, errors.Join(faults...)
}

func newEntry(header, rec []string) (entry, error) {
	e := entry{cells: map[string]string{}}
	for i, name := range header {
		if v := strings.TrimSpace(rec[i]); v != "" {
			e.cells[name] = v
		}
	}
	e.fn, e.kind, e.source, e.locator = e.cells["func"], e.cells["kind"], e.cells["source"], e.cells["locator"]
	if e.fn == "" {
		return e, errors.New("func is blank")
	}
	if !slices.Contains(kinds, e.kind) {
		return e, fmt.Errorf("kind %q: want one of %s", e.kind, strings.Join(kinds, ", "))
	}
	if e.source == "" {
		return e, errors.New("source is blank")
	}
	if text, ok := strings.CutPrefix(e.cells["expected"], "error "); ok {
		e.wantErr = strings.TrimSpace(text)
		e.tol.text = "error"
		return e, nil
	}
	v, err := strconv.ParseFloat(e.cells["expected"], 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return e, fmt.Errorf(`expected %q: want a finite number or "error TEXT"`, e.cells["expected"])
	}
	e.expected = v
	if e.tol, err = parseTolerance(e.cells["tol"]); err != nil {
		return e, err
	}
	if v == 0 && !e.tol.absolute {
		return e, fmt.Errorf(`tol %q is relative to an expected value of zero: want "abs ..."`, e.tol.text)
	}
	return e, nil
}

// readTables reads every check table in dir/testdata, in name order, and skips
// CSV files that hold other things.
func readTables(dir string) ([]table, error) {
	paths, err := filepath.Glob(filepath.Join(dir, "testdata", "*.csv"))
	if err != nil {
		return nil, err
	}
	slices.Sort(paths)
	var tabs []table
	var faults []error
	for _, p := range paths {
		tab, err := readTable(p)
		if errors.Is(err, errNotATable) {
			continue
		}
		if err != nil {
			faults = append(faults, err)
			continue
		}
		tabs = append(tabs, tab)
	}
	return tabs, errors.Join(faults...)
}
