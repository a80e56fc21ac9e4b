// Package interp interpolates tables of one variable without inventing data:
// Linear joins the points by straight lines, Monotone by cubics that never
// overshoot. Neither extrapolates: At refuses an argument outside the table.
// Value, for hot loops, holds the end values there; the caller keeps the
// argument inside or says so in a notice.
package interp

import (
	"fmt"
	"math"
	"slices"

	"pondwright.example/units"
)

// points is the shared table: abscissae that rise strictly.
type points struct{ x, y []float64 }

func newPoints(fn string, x, y []float64) (points, error) {
	if len(x) != len(y) {
		return points{}, &units.InputError{Func: fn, Field: "y", Value: float64(len(y)),
			Reason: fmt.Sprintf("%d abscissae but %d ordinates", len(x), len(y)), Kind: units.ErrDomain}
	}
	if len(x) < 2 {
		return points{}, &units.InputError{Func: fn, Field: "x", Value: float64(len(x)),
			Reason: "at least two points are needed", Kind: units.ErrDomain}
	}
	for i := range x {
		if err := units.Finite(fn, fmt.Sprintf("x[%d]", i), x[i], ""); err != nil {
			return points{}, err
		}
		if err := units.Finite(fn, fmt.Sprintf("y[%d]", i), y[i], ""); err != nil {
			return points{}, err
		}
		if i > 0 && !(x[i] > x[i-1]) {
			return points{}, &units.InputError{Func: fn, Field: fmt.Sprintf("x[%d]", i), Value: x[i],
				Reason: fmt.Sprintf("must be above x[%d] = %g", i-1, x[i-1]), Kind: units.ErrDomain}
		}
	}
	return points{slices.Clone(x), slices.Clone(y)}, nil
}

// Domain returns the first and last abscissa.
func (p points) Domain() (lo, hi float64) { return p.x[0], p.x[len(p.x)-1] }

// Len returns the number of points.
func (p points) Len() int { return len(p.x) }

// Point returns the i-th point of the table.
func (p points) Point(i int) (x, y float64) { return p.x[i], p.y[i] }

// find returns the interval that holds x; beyond the ends, the end interval.
func (p points) find(x float64) int {
	lo, hi := 0, len(p.x)-1
	for hi-lo > 1 {
		mid := int(uint(lo+hi) >> 1)
		if x >= p.x[mid] {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

func (p points) outside(fn string, x float64) error {
	lo, hi := p.Domain()
	if x >= lo && x <= hi {
		return nil
	}
	return &units.InputError{Func: fn, Field: "x", Value: x, Min: lo, Max: hi,
		Reason: "the table does not reach there and is not extrapolated", Kind: units.ErrDomain}
}

// Linear is a table joined by straight lines.
type Linear struct{ points }

// NewLinear builds a table from abscissae that rise strictly and as many
// ordinates, two points at least, all finite. The slices are copied.
func NewLinear(x, y []float64) (Linear, error) {
	p, err := newPoints("interp.NewLinear", x, y)
	return Linear{p}, err
}

// At returns the value at x, and NaN with an error of kind ErrDomain outside
// the table.
func (l Linear) At(x float64) (float64, error) {
	if err := l.outside("interp.Linear.At", x); err != nil {
		return math.NaN(), err
	}
	return l.Value(x), nil
}

// Value is At for hot loops: the end value is held outside the table.
func (l Linear) Value(x float64) float64 {
	lo, hi := l.Domain()
	if !(x > lo) { // NaN too: finite for every argument
		return l.y[0]
	}
	if x >= hi {
		return l.y[len(l.y)-1]
	}
	i := l.find(x)
	f := (x - l.x[i]) / (l.x[i+1] - l.x[i])
	return l.y[i] + f*(l.y[i+1]-l.y[i])
}

// Slope returns the derivative at x, that of the upper interval at a corner
// and zero outside the table.
func (l Linear) Slope(x float64) float64 {
	if lo, hi := l.Domain(); !(x >= lo && x <= hi) {
		return 0
	}
	i := l.find(x)
	return (l.y[i+1] - l.y[i]) / (l.x[i+1] - l.x[i])
}

// Integral returns the exact integral of the table from a to b, with the sign
// turned when b < a; an end outside the table is an error of kind ErrDomain.
func (l Linear) Integral(a, b float64) (float64, error) {
	const fn = "interp.Linear.Integral"
	if err := l.outside(fn, a); err != nil {
		return math.NaN(), err
	}
	if err := l.outside(fn, b); err != nil {
		return math.NaN(), err
	}
	if a > b {
		v, err := l.Integral(b, a)
		return -v, err
	}
	sum := 0.0
	for i := l.find(a); i < len(l.x)-1 && l.x[i] < b; i++ {
		lo, hi := math.Max(a, l.x[i]), math.Min(b, l.x[i+1])
		sum += (hi - lo) * (l.Value(lo) + l.Value(hi)) / 2
	}
	return sum, nil
}
