package pumpsizing

import "math"

// Fit names a way to draw a head curve through data-sheet points: [Quadratic],
// [FallingQuadratic], [MonotoneCubic], [StraightSegments] or [PowerLaw].
type Fit uint8

const (
	// Quadratic is H = H0 - b Q - a Q^2 by least squares, without bounds on a
	// and b, the recommended default: it draws what the points say, a rising
	// piece included, and carries a notice when it rises.
	Quadratic Fit = iota
	// FallingQuadratic is the same with a and b held at zero or above, so that
	// the curve falls everywhere.
	FallingQuadratic
	// MonotoneCubic passes through every point by Fritsch and Butland's
	// monotone cubics; for four measured points or more.
	MonotoneCubic
	// StraightSegments joins the points by straight lines.
	StraightSegments
	// PowerLaw is H = A - B Q^C through three points, the first at zero flow.
	PowerLaw

	lastFit = PowerLaw
)

var fitNames = []string{"quadratic", "falling quadratic", "monotone cubic", "straight segments", "power law"}

// String returns the name of the fit in words.
func (f Fit) String() string { return wordOf("Fit", fitNames, uint8(f)) }

// MarshalText writes the word of String.
func (f Fit) MarshalText() ([]byte, error) { return marshalWord("Fit", fitNames, uint8(f)) }

// UnmarshalText reads a word of String.
func (f *Fit) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Fit", fitNames, text)
	if err == nil {
		*f = Fit(i)
	}
	return err
}

// parabola is H = h0 - b q - a q^2 in m and m3/s.
type parabola struct{ h0, b, a float64 }

func (p parabola) at(q float64) float64 { return p.h0 - q*(p.b+q*p.a) }

// leastSquares fits h0 and those of b and a that are wanted. The flows are
// scaled by the last one, so that the normal equations stay well conditioned.
func leastSquares(pts []point, wantB, wantA bool) parabola {
	scale := pts[len(pts)-1].q
	col := []int{0}
	if wantB {
		col = append(col, 1)
	}
	if wantA {
		col = append(col, 2)
	}
	n := len(col)
	var m [3][4]float64 // normal equations with the right-hand side last
	for _, p := range pts {
		x := [3]float64{1, p.q / scale, p.q / scale * p.q / scale}
		for i := range n {
			for j := range n {
				m[i][j] += x[col[i]] * x[col[j]]
			}
			m[i][3] += x[col[i]] * p.h
		}
	}
	var c [3]float64
	x := solve(m, n)
	for i, j := range col {
		c[j] = x[i]
	}
	return parabola{c[0], -c[1] / scale, -c[2] / (scale * scale)}
}

// solve is Gaussian elimination with row exchange for n unknowns.
func solve(m [3][4]float64, n int) [3]float64 {
	for k := range n {
		p := k
		for i := k + 1; i < n; i++ {
			if math.Abs(m[i][k]) > math.Abs(m[p][k]) {
				p = i
			}
		}
		m[k], m[p] = m[p], m[k]
		for i := k + 1; i < n; i++ {
			f := m[i][k] / m[k][k]
			for j := k; j < 4; j++ {
				m[i][j] -= f * m[k][j]
			}
		}
	}
	var x [3]float64
	for i := n - 1; i >= 0; i-- {
		s := m[i][3]
		for j := i + 1; j < n; j++ {
			s -= m[i][j] * x[j]
		}
		x[i] = s / m[i][i]
	}
	return x
}

// misfit is the sum of the squared distances of the points from the parabola.
func misfit(pts []point, p parabola) float64 {
	s := 0.0
	for _, x := range pts {
		d := x.h - p.at(x.q)
		s += d * d
	}
	return s
}

// collinear tells whether all points lie on one straight line to within a
// millionth of the largest head.
func collinear(pts []point) bool {
	first, last, top := pts[0], pts[len(pts)-1], highest(pts)
	for _, p := range pts {
		line := first.h + (last.h-first.h)*(p.q-first.q)/(last.q-first.q)
		if math.Abs(p.h-line) > 1e-6*top {
			return false
		}
	}
	return true
}

// highest is the largest head of the points.
func highest(pts []point) float64 {
	top := 0.0
	for _, p := range pts {
		top = math.Max(top, p.h)
	}
	return top
}

// fallingFit is least squares with a >= 0 and b >= 0: the best of the fits with
// none, one or both coefficients held at zero that keeps the bounds.
func fallingFit(pts []point) (best parabola, held string) {
	least := math.Inf(1)
	for _, c := range []struct {
		b, a bool
		held string
	}{{true, true, ""}, {false, true, "b"}, {true, false, "a"}, {false, false, "a and b"}} {
		if c.b && c.a && len(pts) < 3 {
			continue
		}
		p := leastSquares(pts, c.b, c.a)
		if s := misfit(pts, p); p.a >= 0 && p.b >= 0 && s < least*(1-1e-12) {
			best, held, least = p, c.held, s
		}
	}
	return best, held
}

// power is H = A - B Q^C in m and m3/s.
type power struct{ a, b, c float64 }

func (p power) at(q float64) float64 { return p.a - p.b*math.Pow(q, p.c) }

// powerThrough passes the power law through a point at zero flow and two more.
func powerThrough(pts []point) power {
	a := pts[0].h
	c := math.Log((a-pts[2].h)/(a-pts[1].h)) / math.Log(pts[2].q/pts[1].q)
	return power{a, (a - pts[1].h) / math.Pow(pts[1].q, c), c}
}
