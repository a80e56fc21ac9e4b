package biomass

import "math"

// line is a least-squares straight line y = intercept + slope x with what its
// standard errors need.
type line struct {
	n                float64
	slope, intercept float64
	s                float64 // residual standard deviation, n − 2 degrees of freedom
	xMean, sxx       float64
	slopeSE, r2      float64
}

// fitLine fits a straight line to at least three points. A constant x gives a
// slope of zero.
func fitLine(x, y []float64) line {
	l := line{n: float64(len(x))}
	yMean := 0.0
	for i := range x {
		l.xMean += x[i] / l.n
		yMean += y[i] / l.n
	}
	sxy, syy := 0.0, 0.0
	for i := range x {
		dx, dy := x[i]-l.xMean, y[i]-yMean
		l.sxx += dx * dx
		sxy += dx * dy
		syy += dy * dy
	}
	if l.sxx > 0 {
		l.slope = sxy / l.sxx
	}
	l.intercept = yMean - l.slope*l.xMean
	ss := 0.0
	for i := range x {
		d := y[i] - l.intercept - l.slope*x[i]
		ss += d * d
	}
	l.s = math.Sqrt(ss / (l.n - 2))
	if l.sxx > 0 {
		l.slopeSE = l.s / math.Sqrt(l.sxx)
	}
	if syy > 0 {
		l.r2 = 1 - ss/syy
	}
	return l
}
