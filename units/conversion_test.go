package units

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"

	"pondwright.example/internal/check"
)

// conversions returns, for every type, the function that checks its rows: v
// (one when blank) of the unit from, parsed from text and built with Of, is
// expected in the unit to.
func conversions(t *testing.T) map[string]func(check.Row) (float64, error) {
	funcs := map[string]func(check.Row) (float64, error){}
	for _, c := range everyQuantity {
		funcs[c.name+".In"] = func(r check.Row) (float64, error) {
			v := 1.
			if r.Has("v") {
				v = r.Float("v")
			}
			from, to := r.Text("from"), r.Text("to")
			parsed, err := c.parse(strconv.FormatFloat(v, 'g', -1, 64) + " " + from)
			if err != nil {
				return math.NaN(), err
			}
			for i, s := range c.q.symbols() {
				if built := c.of(i, v); s == from && built != parsed {
					return math.NaN(), fmt.Errorf("parsed %g, built %g", parsed, built)
				}
			}
			return c.in(c.unitNamed(t, to), parsed), nil
		}
	}
	return funcs
}

// TestMatrix converts every unit to every other of its type and compares with
// an independent library.
func TestMatrix(t *testing.T) {
	check.Run(t, "testdata/pint_matrix.csv", conversions(t))
}

// TestMatrixComplete fails when a unit of the table is in no row.
func TestMatrixComplete(t *testing.T) {
	b, err := os.ReadFile("testdata/pint_matrix.csv")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]bool{}
	for line := range strings.Lines(string(b)) {
		if f := strings.Split(line, ","); len(f) > 2 {
			rows[f[0]+","+f[1]+","+f[2]] = true
		}
	}
	for _, c := range everyQuantity {
		for _, a := range c.q.symbols() {
			for _, b := range c.q.symbols() {
				if a != b && !rows[c.name+".In,"+a+","+b] && !strings.Contains(a+b, "CaCO3") {
					t.Errorf("%s: no row from %s to %s", c.name, a, b)
				}
			}
		}
	}
}

// TestPublishedFactors compares with the digits the standards print.
func TestPublishedFactors(t *testing.T) {
	check.Run(t, "testdata/published.csv", conversions(t))
}

// TestRatios holds conversions to two units in the last place of the exact
// decimal value.
func TestRatios(t *testing.T) {
	const maxUlp = 2
	for _, row := range readRows(t, "testdata/ratios.csv") {
		c := caseNamed(t, strings.TrimSuffix(row["func"], ".In"))
		v, err := strconv.ParseFloat(row["v"], 64)
		if err != nil {
			t.Fatal(err)
		}
		got := c.in(c.unitNamed(t, row["to"]), c.of(c.unitNamed(t, row["from"]), v))
		exact, _, err := big.ParseFloat(row["expected"], 10, 200, big.ToNearestEven)
		if err != nil {
			t.Fatal(err)
		}
		if e := ulps(got, exact); e > maxUlp {
			t.Errorf("%s %s in %s = %v, want %s: %.2f ulp off", row["v"], row["from"], row["to"], got, row["expected"], e)
		}
	}
	check.Run(t, "testdata/ratios.csv", conversions(t))
}

// ulps returns how far got is from want, in units of got's last place.
func ulps(got float64, want *big.Float) float64 {
	diff := new(big.Float).SetPrec(200).Sub(big.NewFloat(got).SetPrec(200), want)
	d, _ := diff.Float64()
	a := math.Abs(got)
	return math.Abs(d) / (math.Nextafter(a, math.Inf(1)) - a)
}

// readRows reads a CSV with a header and # comments.
func readRows(t *testing.T, path string) []map[string]string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, record := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = record[i]
		}
		rows = append(rows, row)
	}
	return rows
}
