package csvtable

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// metres is a stand-in for a quantity's parser.
func metres(s string) (float64, error) {
	var x float64
	var unit, rest string
	n, _ := fmt.Sscan(s, &x, &unit, &rest)
	switch {
	case n != 2:
		return 0, fmt.Errorf("%q: write a number and a unit", s)
	case unit == "m":
		return x, nil
	case unit == "ft":
		return x * 0.3048, nil
	}
	return 0, fmt.Errorf("%q: not a length", s)
}

func column(t *testing.T, text, name string) ([]float64, error) {
	t.Helper()
	tab, _ := Read("t.csv", []byte(text))
	c := tab.Require(name)
	var out []float64
	if c >= 0 {
		for _, r := range tab.Rows {
			if x, ok := Quantity(tab, r, c, metres); ok {
				out = append(out, x)
			}
		}
	}
	return out, tab.Err()
}

func TestReadsWhatPeopleSave(t *testing.T) {
	for name, text := range map[string]string{
		"plain":                  "depth (m)\n1.5\n2\n",
		"byte order mark":        "\ufeffdepth (m),x\n1.5,1\n2,1\n",
		"square brackets, tabs":  "Depth [m]\tx\n1.5\t\n2\t\n",
		"semicolons and commas":  "x;depth (m)\n1;1,5\n1;2\n",
		"blank and note lines":   "# from the staff\n\ndepth (m),x\n,\n1.5,1\n\n# half way\n2,1\n",
		"unit in the cell":       "depth\n1.5 m\n6.561679790026246 ft\n",
		"cell over heading":      "depth (ft)\n1.5 m\n2 m\n",
		"underscore, more cells": "pond_depth,depth (m)\n1,1.5,,\n2,2\n",
		"quoted, no-break space": "depth (m)\n\"1.5\"\n\"\u00a02\"\n",
	} {
		got, err := column(t, text, "depth")
		if err != nil || !slices.EqualFunc(got, []float64{1.5, 2}, func(a, b float64) bool { return a-b < 1e-12 && b-a < 1e-12 }) {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
}

func TestCommas(t *testing.T) {
	for text, want := range map[string][]float64{
		"z (m);x\n1,250;1\n2,5;1\n":       {1.25, 2.5},
		"z (m);x\n1,250;1\n1,250.5;1\n":   {1250, 1250.5},
		"z (m);x\n1.250,5;1\n2,125;1\n":   {1250.5, 2.125},
		"z (m);x\n0,125;1\n":              {0.125},
		"z (m);x\n\"1,234,567\";1\n7;1\n": {1234567, 7},
	} {
		got, err := column(t, text, "z")
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("%q: %v, %v, want %v", text, got, err, want)
		}
	}
	_, err := column(t, "z (m);x\n1,250;1\n", "z")
	if err == nil || !strings.Contains(err.Error(), `t.csv line 2, column "z": "1,250" could be 1250 or 1.250`) {
		t.Errorf("ambiguous comma: %v", err)
	}
}

func TestEveryFaultHasItsLine(t *testing.T) {
	_, err := column(t, "depth\nabc\n1.5\n2 kg\n2.5\n1 m,2 m\n", "depth")
	want := []string{
		`t.csv line 6: 2 cells under 1 headings`,
		`t.csv line 2, column "depth": "abc" is not a number`,
		`t.csv line 3, column "depth": no unit, neither in the heading nor in the cell: "1.5": write a number and a unit`,
		`t.csv line 4, column "depth": "2 kg": not a length`,
	}
	if err == nil || err.Error() != strings.Join(want, "\n") {
		t.Errorf("got\n%v\nwant\n%s", err, strings.Join(want, "\n"))
	}
	for text, want := range map[string]string{
		"":                      "no header line",
		"x (m)\n1\n":            `no column "depth"; the headings are "x"`,
		"depth (m)\n\"1\n":      "extraneous or missing",
		"depth (m)\n\xff\xfe\n": "not UTF-8",
		"depth,depth\n1,1\n":    "stands twice",
	} {
		if _, err := column(t, text, "depth"); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("depth (m);x\n1,5;1\n"))
	f.Add([]byte("\ufeffdepth\n1,250 m\n\"1.250,5\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		tab, err := Read("t.csv", data)
		if tab == nil || err == nil && tab.Columns == nil {
			t.Fatalf("no table and no error for %q", data)
		}
		for _, r := range tab.Rows {
			if len(r.Cells) != len(tab.Columns) {
				t.Fatalf("line %d has %d cells under %d headings", r.Line, len(r.Cells), len(tab.Columns))
			}
			for c := range tab.Columns {
				tab.Float(r, c)
			}
		}
	})
}
