package biomass

import (
	"fmt"
	"math"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestCoverage(t *testing.T) { check.Coverage(t, ".") }
func TestDocs(t *testing.T)     { check.Docs(t, ".") }
func TestSources(t *testing.T)  { check.Sources(t, ".") }

// pick returns the number named by the row's quantity.
func pick(r check.Row, err error, values map[string]float64) (float64, error) {
	name := r.Text("quantity")
	if err != nil {
		return math.NaN(), err
	}
	v, ok := values[name]
	if !ok {
		return math.NaN(), fmt.Errorf("no quantity %q", name)
	}
	return v, nil
}

// optional reads a number that a row may leave blank.
func optional(r check.Row, column string, otherwise float64) float64 {
	if r.Has(column) {
		return r.Float(column)
	}
	return otherwise
}

func ints(xs []float64) []int {
	out := make([]int, len(xs))
	for i, x := range xs {
		out[i] = int(x)
	}
	return out
}

func grams(xs []float64) []units.Mass {
	out := make([]units.Mass, len(xs))
	for i, x := range xs {
		out[i] = units.Grams.Of(x)
	}
	return out
}

func days(d float64) time.Duration { return time.Duration(d * 24 * float64(time.Hour)) }
