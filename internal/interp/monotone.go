package interp

import (
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// Monotone is a piecewise cubic through every point, with continuous slope,
// that rises where the data rise, falls where they fall and has its turns at
// data points only.
//
// Source: Fritsch and Butland (1984), "A method for constructing local monotone
// piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5:300-304, the
// weighted harmonic mean of eq. 5 (from memory; the values equal those of two
// open numerical libraries). It differs from the original rule of Fritsch and
// Carlson (1980), SIAM J. Numer. Anal. 17:238-246.
type Monotone struct {
	points
	d []float64 // slope at each point
}

// NewMonotone builds the interpolant from abscissae that rise strictly and as
// many ordinates, two points at least, all finite. The slices are copied. With
// two points it is the straight line.
func NewMonotone(x, y []float64) (Monotone, error) {
	p, err := newPoints("interp.NewMonotone", x, y)
	if err != nil {
		return Monotone{}, err
	}
	n := len(x)
	h, s := make([]float64, n-1), make([]float64, n-1) // widths and secants
	for i := range h {
		h[i] = x[i+1] - x[i]
		s[i] = (y[i+1] - y[i]) / h[i]
	}
	d := make([]float64, n)
	if n == 2 {
		d[0], d[1] = s[0], s[0]
		return Monotone{p, d}, nil
	}
	for i := 1; i < n-1; i++ {
		if !(s[i-1] > 0 && s[i] > 0) && !(s[i-1] < 0 && s[i] < 0) {
			continue // a turn or a flat: slope zero
		}
		w1, w2 := 2*h[i]+h[i-1], h[i]+2*h[i-1]
		d[i] = (w1 + w2) / (w1/s[i-1] + w2/s[i]) // Fritsch and Butland eq. 5
	}
	d[0] = endSlope(h[0], h[1], s[0], s[1])
	d[n-1] = endSlope(h[n-2], h[n-3], s[n-2], s[n-3])
	return Monotone{p, d}, nil
}

// endSlope is the one-sided three-point derivative, held to the sign of the end
// secant and to three times it (the end rule in common use with this method).
func endSlope(h0, h1, s0, s1 float64) float64 {
	d := ((2*h0+h1)*s0 - h0*s1) / (h0 + h1)
	switch {
	case d*s0 <= 0:
		return 0
	case s0*s1 <= 0 && math.Abs(d) > 3*math.Abs(s0):
		return 3 * s0
	}
	return d
}

// At returns the value at x, and NaN with an error of kind ErrDomain outside
// the table.
func (m Monotone) At(x float64) (float64, error) {
	if err := m.outside("interp.Monotone.At", x); err != nil {
		return math.NaN(), err
	}
	return m.Value(x), nil
}

// Value is At for hot loops: the end value is held outside the table.
func (m Monotone) Value(x float64) float64 {
	lo, hi := m.Domain()
	if !(x > lo) { // NaN too: finite for every argument
		return m.y[0]
	}
	if x >= hi {
		return m.y[len(m.y)-1]
	}
	i := m.find(x)
	h := m.x[i+1] - m.x[i]
	t := (x - m.x[i]) / h
	s := (m.y[i+1] - m.y[i]) / h
	c2, c3 := 3*s-2*m.d[i]-m.d[i+1], m.d[i]+m.d[i+1]-2*s
	return m.y[i] + h*t*(m.d[i]+t*(c2+t*c3))
}

// Slope returns the derivative at x, zero outside the table.
func (m Monotone) Slope(x float64) float64 {
	if lo, hi := m.Domain(); !(x >= lo && x <= hi) {
		return 0
	}
	i := m.find(x)
	h := m.x[i+1] - m.x[i]
	t := (x - m.x[i]) / h
	s := (m.y[i+1] - m.y[i]) / h
	c2, c3 := 3*s-2*m.d[i]-m.d[i+1], m.d[i]+m.d[i+1]-2*s
	return m.d[i] + t*(2*c2+3*t*c3)
}

// Integral returns the exact integral of the cubics from a to b, with the sign
// turned when b < a; an end outside the table is an error of kind ErrDomain.
func (m Monotone) Integral(a, b float64) (float64, error) {
	const fn = "interp.Monotone.Integral"
	if err := m.outside(fn, a); err != nil {
		return math.NaN(), err
	}
	if err := m.outside(fn, b); err != nil {
		return math.NaN(), err
	}
	if a > b {
		v, err := m.Integral(b, a)
		return -v, err
	}
	sum := 0.0
	for i := m.find(a); i < len(m.x)-1 && m.x[i] < b; i++ {
		lo, hi := math.Max(a, m.x[i]), math.Min(b, m.x[i+1])
		// Simpson's rule is exact for a cubic.
		sum += (hi - lo) / 6 * (m.Value(lo) + 4*m.Value((lo+hi)/2) + m.Value(hi))
	}
	return sum, nil
}

// Inverse returns the x at which the interpolant takes the value y. The data
// must rise or fall strictly throughout; otherwise, and for a y the table does
// not reach, the error is of kind ErrNoSolution or ErrDomain.
func (m Monotone) Inverse(y float64) (float64, error) {
	const fn = "interp.Monotone.Inverse"
	n := len(m.x)
	rising := m.y[n-1] > m.y[0]
	for i := 1; i < n; i++ {
		if m.y[i] == m.y[i-1] || (m.y[i] > m.y[i-1]) != rising {
			return math.NaN(), &units.InputError{Func: fn, Field: "y", Value: y,
				Reason: "the table neither rises nor falls throughout, so a value may have several arguments", Kind: units.ErrNoSolution}
		}
	}
	lo, hi := math.Min(m.y[0], m.y[n-1]), math.Max(m.y[0], m.y[n-1])
	if !(y >= lo && y <= hi) {
		return math.NaN(), &units.InputError{Func: fn, Field: "y", Value: y, Min: lo, Max: hi,
			Reason: "the table does not reach this value", Kind: units.ErrDomain}
	}
	i := 0
	for i < n-2 && (m.y[i+1] < y) == rising && m.y[i+1] != y {
		i++
	}
	return root.Find(func(x float64) float64 { return m.Value(x) - y }, m.x[i], m.x[i+1], 0)
}
