package check

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// recorder is a TB that keeps the failures for inspection.
type recorder struct{ failures []string }

func (r *recorder) Helper() {}
func (r *recorder) Errorf(format string, args ...any) {
	r.failures = append(r.failures, fmt.Sprintf(format, args...))
}
func (r *recorder) Fatalf(format string, args ...any) { r.Errorf(format, args...) }

func (r *recorder) text() string { return strings.Join(r.failures, "\n") }

// writeTree writes files, named by path relative to a new directory.
func writeTree(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

const header = "func,x,y,expected,tol,kind,source,locator,note\n"

func square(r Row) (float64, error) {
	x := r.Float("x")
	if x < 0 {
		return math.NaN(), errors.New("x = -1: impossible input")
	}
	return x * x, nil
}

func TestRun(t *testing.T) {
	cases := []struct {
		name, rows, want string // want "" means the table passes
	}{
		{"relative", "Square,3,,9.0000001,1e-6,published,Euclid,II.4,\n", ""},
		{"absolute", "Square,0,,0,abs 1e-12,derived by hand,closed form,,a note\n", ""},
		{"error row", "Square,-1,,error impossible input,,derived by hand,policy,,\n", ""},
		{"comment", "# a remark\nSquare,3,,9,1e-9,regression,first run,,\n", ""},
		{"value off", "Square,3,,9.1,1e-6,published,Euclid,II.4,\n", "got 9, want 9.0999"},
		{"no error", "Square,1,,error impossible input,,derived by hand,policy,,\n", "want an error"},
		{"other error", "Square,-1,,error bad,,derived by hand,policy,,\n", `want one with "bad"`},
		{"unexpected error", "Square,-1,,1,1e-9,derived by hand,policy,,\n", "got error"},
		{"unknown func", "Cube,3,,27,1e-9,published,Euclid,,\n", "no function is registered"},
		{"bad kind", "Square,3,,9,1e-9,trust me,Euclid,,\n", "kind"},
		{"no source", "Square,3,,9,1e-9,published,,,\n", "source is blank"},
		{"bad tolerance", "Square,3,,9,-1,published,Euclid,,\n", "tol"},
		{"tolerance NaN", "Square,3,,9,NaN,published,Euclid,,\n", "tol"},
		{"relative to zero", "Square,0,,0,1e-9,published,Euclid,,\n", "relative to an expected value of zero"},
		{"expected NaN", "Square,3,,NaN,1e-9,published,Euclid,,\n", "want a finite number"},
		{"input unread", "Square,3,4,9,1e-9,published,Euclid,,\n", `input "y" = "4" was never read`},
		{"input missing", "Square,,,9,1e-9,published,Euclid,,\n", `input "x" is missing`},
		{"input not a number", "Square,three,,9,1e-9,published,Euclid,,\n", "not a number"},
		{"NaN result", "Nan,3,,9,1e9,published,Euclid,,\n", "got NaN"},
		{"no rows", "", "no rows"},
		{"ragged", "Square,3\n", "wrong number of fields"},
	}
	funcs := map[string]func(Row) (float64, error){
		"Square": square,
		"Nan":    func(r Row) (float64, error) { r.Float("x"); return math.NaN(), nil },
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir := writeTree(t, map[string]string{"x.csv": header + c.rows})
			var rec recorder
			Run(&rec, filepath.Join(dir, "x.csv"), funcs)
			checkRecorded(t, &rec, c.want)
		})
	}
}

func checkRecorded(t *testing.T, rec *recorder, want string) {
	t.Helper()
	switch {
	case want == "" && len(rec.failures) > 0:
		t.Errorf("unexpected failure: %s", rec.text())
	case want != "" && !strings.Contains(rec.text(), want):
		t.Errorf("failures %q lack %q", rec.text(), want)
	}
}

func TestRunNeedsItsColumns(t *testing.T) {
	dir := writeTree(t, map[string]string{"x.csv": "func,expected\nSquare,9\n"})
	var rec recorder
	Run(&rec, filepath.Join(dir, "x.csv"), nil)
	checkRecorded(t, &rec, `column "kind" is missing`)
	rec = recorder{}
	Run(&rec, filepath.Join(dir, "absent.csv"), nil)
	checkRecorded(t, &rec, "no such file")
}

func TestRowReads(t *testing.T) {
	r := Row{e: entry{fn: "F", cells: map[string]string{"a": "1;2.5", "b": "text", "c": "1;x"}}, state: &rowState{read: map[string]bool{}}}
	if got := r.Floats("a"); len(got) != 2 || got[0] != 1 || got[1] != 2.5 {
		t.Errorf("Floats = %v", got)
	}
	if r.Text("b") != "text" || r.Has("z") || !r.Has("a") || r.Func() != "F" {
		t.Error("Text, Has or Func disagree with the cells")
	}
	if len(r.state.faults) != 0 {
		t.Errorf("faults: %v", r.state.faults)
	}
	if got := r.Floats("c"); !math.IsNaN(got[1]) || len(r.state.faults) != 1 {
		t.Errorf("Floats of a bad list = %v, faults %v", got, r.state.faults)
	}
}

// pond is a small package to be examined.
const pond = `// Package pond is an example.
package pond

import "pondwright.example/units"

// Tank is a tank.
type Tank struct{ d float64 }

// Ratio is a number type of this package.
type Ratio float64

// Volume returns the volume.
// Source: closed form.
func Volume(d float64) (float64, error) { return d * d * d, nil }

// Depth returns the depth.
func (t *Tank) Depth() units.Length { return units.Length(t.d) }

// Fill returns the fill ratio, see [Volume].
func (t Tank) Fill() Ratio { return 1 }

// Notice is not a number.
func (t Tank) Notice() units.Notice { return units.Notice{} }

// Name is not a number.
func Name() string { return "" }

func hidden() float64 { return 0 }
`

const goodTable = "func,d_m,expected,tol,kind,source,locator\n" +
	"Volume,2,8,1e-12,derived by hand,closed form: cube,\n" +
	"Tank.Fill,1,1,1e-12,published,\"Euclid, Elements\",I.1 | note\n" +
	"Tank.Fill,2,1,1e-9,published,\"Euclid, Elements\",I.2\n"

const pondTest = `package pond
// runs testdata/a.csv
func ExampleVolume() { Volume(1) }
func ExampleTank() { var t Tank; t.Depth() }
`

func TestCoverage(t *testing.T) {
	cases := []struct {
		name  string
		files map[string]string
		want  string
	}{
		{"listed", map[string]string{"testdata/uncovered.txt": "# list\nTank.Depth: accessor\n"}, ""},
		{"wildcard", map[string]string{"testdata/uncovered.txt": "Tank.*: accessors\n"}, ""},
		{"missing", nil, "Tank.Depth returns a number and has no row"},
		{"no reason", map[string]string{"testdata/uncovered.txt": "Tank.Depth:\n"}, `want "Name: reason"`},
		{"twice", map[string]string{"testdata/uncovered.txt": "Tank.Depth: a\nTank.Depth: b\n"}, "listed twice"},
		{"covered but listed", map[string]string{"testdata/uncovered.txt": "Tank.Depth: accessor\nVolume: no\n"}, "lists Volume"},
		{"gone but listed", map[string]string{"testdata/uncovered.txt": "Tank.Depth: accessor\nGone: no\n"}, "lists Gone"},
		{"regression is not outside", map[string]string{
			"testdata/uncovered.txt": "Tank.Depth: accessor\n",
			"testdata/a.csv":         strings.ReplaceAll(goodTable, "derived by hand", "regression"),
		}, "Volume returns a number"},
		{"table not run", map[string]string{
			"testdata/uncovered.txt": "Tank.Depth: accessor\n",
			"testdata/b.csv":         goodTable,
		}, "testdata/b.csv is run by no test"},
		{"broken table", map[string]string{"testdata/a.csv": "func,expected\nVolume,8\n"}, "is missing"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			files := map[string]string{
				"pond.go": pond, "pond_test.go": pondTest, "testdata/a.csv": goodTable,
				"testdata/data.csv": "t_c,rho\n4,1000\n", // not a check table
			}
			for k, v := range c.files {
				files[k] = v
			}
			var rec recorder
			Coverage(&rec, writeTree(t, files))
			checkRecorded(t, &rec, c.want)
		})
	}
}

func TestDocs(t *testing.T) {
	cases := []struct {
		name, old, new, list, want string
	}{
		{"good", "", "", "docs Tank.Depth: accessor\n", ""},
		{"no source", "", "", "", "Tank.Depth: its doc comment names no Source"},
		{"type carries the source", "// Tank is a tank.", "// Tank is a tank.\n// Source: common sense.", "", ""},
		{"no example", "ExampleVolume() { Volume(1) }", "ExampleOther() {}", "docs Tank.Depth: accessor\n", "Volume: no Example"},
		{"called in an example", "ExampleVolume() { Volume(1) }", "Example() { Volume(1) }", "docs Tank.Depth: accessor\n", ""},
		{"not needed", "", "", "docs Tank.Depth: accessor\ndocs Volume: none\n", "docs Volume, which needs no exemption"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			src, test := pond, pondTest
			if c.old != "" {
				src, test = strings.ReplaceAll(src, c.old, c.new), strings.ReplaceAll(test, c.old, c.new)
			}
			var rec recorder
			Docs(&rec, writeTree(t, map[string]string{"pond.go": src, "pond_test.go": test, "testdata/uncovered.txt": c.list}))
			checkRecorded(t, &rec, c.want)
		})
	}
}

func TestSources(t *testing.T) {
	dir := writeTree(t, map[string]string{"pond.go": pond, "testdata/a.csv": goodTable, "testdata/uncovered.txt": "Tank.Depth: accessor\n"})
	var rec recorder
	Sources(&rec, dir)
	checkRecorded(t, &rec, "no such file")

	text, err := Render(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"# Sources of package pond\n",
		"3 check rows for 2 symbols.",
		"| derived by hand | 1 | 1e-12 | closed form: cube |  |",
		`| published | 2 | 1e-12; 1e-9 | Euclid, Elements | I.1 \| note; I.2 |`,
		"| Tank.Depth | accessor |",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("SOURCES.md lacks %q:\n%s", want, text)
		}
	}
	path := filepath.Join(dir, "SOURCES.md")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	rec = recorder{}
	Sources(&rec, dir)
	checkRecorded(t, &rec, "")
	if err := os.WriteFile(path, []byte(text+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	rec = recorder{}
	Sources(&rec, dir)
	checkRecorded(t, &rec, "SOURCES.md is stale")
}
