package pumpsizing

import (
	"math"

	"pondwright.example/internal/interp"
	"pondwright.example/units"
)

// Curve is the head curve of a pump at its rated speed, built by FitCurve from
// data-sheet points and carried to other speeds by the affinity laws. It is an
// immutable value, safe to copy and to use from many goroutines.
//
// At speed ratio r = n/rated the head at flow Q is r^2 f(Q/r) with f the fitted
// curve; pumps in series multiply the head, pumps in parallel divide the flow.
type Curve struct {
	fit         Fit
	quad        parabola
	pow         power
	cubic       interp.Monotone
	line        interp.Linear
	speed       float64 // rated, rad/s
	first, last float64 // flow of the first and last point, m3/s
	headScale   float64 // pumps in series, trim
	flowScale   float64 // pumps in parallel, trim
	falling     bool    // falls everywhere from zero flow to the last point
	notices     []units.Notice
}

// FitCurve draws the head curve through the points of d.
//
// Three points or more give the parabola H = H0 - b Q - a Q^2 by least squares
// (or what d.Fit asks for). Two points carry only H = H0 - a Q^2, points on one
// line only a straight line; each of these, a curve that rises with flow, and a
// shut-off head that no point shows are told in Notices.
//
// Errors: those of CurveData.Validate; ErrDomain for a PowerLaw without exactly
// three falling points from zero flow; ErrDomain where no point has any head.
//
// Source: least squares; the two-point parabola is common practice.
// Accuracy: as good as the points; a data sheet holds to ISO 9906 grade 2B or
// worse, some 5 % in head (from memory).
func FitCurve(d CurveData) (Curve, error) {
	const fn = "pumpsizing.FitCurve"
	pts, err := d.points(fn)
	if err != nil {
		return Curve{}, err
	}
	n := len(pts)
	c := Curve{fit: d.Fit, speed: d.Speed.RadiansPerSecond(), first: pts[0].q, last: pts[n-1].q, headScale: 1, flowScale: 1}
	switch d.Fit {
	case Quadratic, FallingQuadratic:
		c.fitParabola(d.Fit, pts)
	case PowerLaw:
		if n != 3 || pts[0].q != 0 || !(pts[0].h > pts[1].h && pts[1].h > pts[2].h) {
			return Curve{}, &units.InputError{Func: fn, Field: "points", Value: float64(n), Unit: "points",
				Reason: "a power law needs exactly three points with falling heads, the first at zero flow"}
		}
		c.pow = powerThrough(pts)
	default:
		if err := c.interpolate(d.Fit, pts); err != nil {
			return Curve{}, err
		}
	}
	if h := c.head(0, 1); !(h > 1e-6*highest(pts)) {
		return Curve{}, &units.InputError{Func: fn, Field: "points", Value: h, Unit: "m",
			Reason: "the fitted curve has no head at zero flow: check the units and the order of the points"}
	}
	c.judge(pts)
	return c, nil
}

func (c *Curve) interpolate(f Fit, pts []point) (err error) {
	q, h := make([]float64, len(pts)), make([]float64, len(pts))
	for i, p := range pts {
		q[i], h[i] = p.q, p.h
	}
	if f == MonotoneCubic {
		c.cubic, err = interp.NewMonotone(q, h)
	} else {
		c.line, err = interp.NewLinear(q, h)
	}
	return err
}

func (c *Curve) fitParabola(f Fit, pts []point) {
	switch {
	case len(pts) == 2 && pts[0].q == 0:
		p, l := pts[0], pts[1]
		c.quad = parabola{h0: p.h, a: (p.h - l.h) / (l.q * l.q)}
	case len(pts) == 2:
		c.quad = leastSquares(pts, false, true)
	case collinear(pts):
		c.quad = leastSquares(pts, true, false)
		c.notices = note(c.notices, CodeCurveStraight, units.Caution, "points", float64(len(pts)), 0, "points",
			"the points lie on one straight line, so a straight line was fitted; a real curve bends: look for a reading error", commonPractice)
	case f == FallingQuadratic:
		var held string
		if c.quad, held = fallingFit(pts); held != "" {
			c.notices = note(c.notices, CodeCurveHeld, units.Caution, "points", 0, 0, "",
				"coefficient "+held+" of H0 - b Q - a Q^2 was held at zero so that the curve falls", "")
		}
	default:
		c.quad = leastSquares(pts, true, true)
	}
}

// Head returns the head at flow q and speed n, and zero head for a speed that
// is not above zero. Beyond the last point the fit is continued, by its end
// slope for the interpolating fits; Range says where that begins. The flow is
// taken as zero when negative.
//
// Source: affinity laws on the fitted curve.
func (c Curve) Head(q units.Flow, n units.RotationalSpeed) units.Length {
	r := n.RadiansPerSecond() / c.speed
	if !(r > 0) {
		return 0
	}
	return units.Length(finite(c.head(math.Max(0, q.CubicMetresPerSecond()), r)))
}

// head is the head in m at flow q m3/s and speed ratio r > 0.
func (c *Curve) head(q, r float64) float64 {
	return r * r * c.headScale * c.base(q/(r*c.flowScale))
}

// base is the fitted curve of one pump at rated speed.
func (c *Curve) base(q float64) float64 {
	switch c.fit {
	case Quadratic, FallingQuadratic:
		return c.quad.at(q)
	case PowerLaw:
		return c.pow.at(q)
	}
	switch { // interpolating fits: end slopes outside the points
	case q < c.first:
		return c.table(c.first) + (q-c.first)*c.slope(c.first)
	case q > c.last:
		return c.table(c.last) + (q-c.last)*c.slope(c.last)
	}
	return c.table(q)
}

func (c *Curve) table(q float64) float64 {
	if c.fit == MonotoneCubic {
		return c.cubic.Value(q)
	}
	return c.line.Value(q)
}

func (c *Curve) slope(q float64) float64 {
	if c.fit == MonotoneCubic {
		return c.cubic.Slope(q)
	}
	return c.line.Slope(q)
}

// RatedSpeed returns the speed of the data sheet, as given to [FitCurve].
func (c Curve) RatedSpeed() units.RotationalSpeed { return units.RotationalSpeed(c.speed) }

// ShutOffHead returns the head at zero flow and speed n, as [Curve.Head].
func (c Curve) ShutOffHead(n units.RotationalSpeed) units.Length { return c.Head(0, n) }

// Range returns the flows of the first and last data-sheet point, carried to
// speed n by the affinity laws. Outside them the curve is extrapolated.
func (c Curve) Range(n units.RotationalSpeed) (first, last units.Flow) {
	r := math.Max(0, n.RadiansPerSecond()/c.speed) * c.flowScale
	if !(c.speed > 0) || !(r > 0) {
		return 0, 0
	}
	return units.Flow(finite(r * c.first)), units.Flow(finite(r * c.last))
}

// Coefficients returns H0 in metres, b in s/m2 and a in s2/m5 of the parabola
// H = H0 - b Q - a Q^2 at rated speed, and false when the fit is no parabola.
func (c Curve) Coefficients() (h0, b, a float64, ok bool) {
	if !(c.speed > 0) || c.fit != Quadratic && c.fit != FallingQuadratic {
		return 0, 0, 0, false
	}
	s, f := c.headScale, c.flowScale
	return s * c.quad.h0, s * c.quad.b / f, s * c.quad.a / (f * f), true
}

// Notices returns what a reader must know about the fit, in a fresh slice.
func (c Curve) Notices() []units.Notice { return append([]units.Notice(nil), c.notices...) }

// InSeries returns the curve of k identical pumps in series: their heads add.
// A k below one counts as one.
func (c Curve) InSeries(k int) Curve {
	c.headScale *= float64(max(1, k))
	return c
}

// InParallel returns the curve of k identical pumps in parallel: their flows
// add. A k below one counts as one.
func (c Curve) InParallel(k int) Curve {
	c.flowScale *= float64(max(1, k))
	return c
}
