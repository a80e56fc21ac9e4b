package pumpsizing

import (
	"fmt"
	"math"

	"pondwright.example/units"
)

// poorFit is the distance of a point from the curve, as a share of shut-off
// head, above which the fit carries a notice (common practice).
const poorFit = 0.05

// judge records what a reader must know about the curve drawn through pts.
func (c *Curve) judge(pts []point) {
	top := c.head(0, 1)
	if len(pts) == 2 {
		shape := "a straight line"
		if c.fit == Quadratic || c.fit == FallingQuadratic {
			shape = "H0 - a Q^2, level at zero flow"
		}
		c.notices = note(c.notices, CodeCurveTwoPoints, units.Caution, "points", 2, 3, "points",
			"two points show no shape: "+shape+" was drawn; a third point would tell", commonPractice)
	}
	if c.first > 0 {
		c.notices = note(c.notices, CodeCurveNoShutOff, units.Caution, "points[0].flow", 3600*c.first, 0, "m3/h",
			"no point at zero flow: the shut-off head "+num(top)+" m and the minimum speed that follows from it are extrapolated", commonPractice)
	}
	worst, at := 0.0, 0
	for i, p := range pts {
		if d := math.Abs(p.h - c.base(p.q)); d > worst {
			worst, at = d, i
		}
	}
	if worst > poorFit*top {
		c.notices = note(c.notices, CodeCurvePoorFit, units.Caution, fmt.Sprintf("points[%d].head", at), worst, poorFit*top, "m",
			"point "+fmt.Sprint(at)+" lies "+num(worst)+" m off the fitted curve: a reading error, mixed speeds, or a shape the fit cannot follow", commonPractice)
	}
	if (c.fit == Quadratic || c.fit == FallingQuadratic) && c.quad.a < 0 {
		c.notices = note(c.notices, CodeCurveConvex, units.Caution, "points", c.quad.a, 0, "s2/m5",
			"the curve bends upward, which centrifugal pumps do not: do not use it beyond its points", commonPractice)
	}
	rises, from := c.rises(pts)
	c.falling = !rises
	if rises {
		c.notices = note(c.notices, CodeCurveRising, units.Warning, "points", 3600*from, 0, "m3/h",
			"head rises with flow from "+num(3600*from)+" m3/h: unstable, two flows at one head; the pump may surge, refuse to start against the lift, and must not run beside another", commonPractice)
	}
}

// rises tells whether data or fit rise with flow anywhere up to the last point,
// and the flow where that begins.
func (c *Curve) rises(pts []point) (bool, float64) {
	for i := 1; i < len(pts); i++ {
		if pts[i].h > pts[i-1].h {
			return true, pts[i-1].q
		}
	}
	const steps = 64
	before := c.base(0)
	for i := 1; i <= steps; i++ {
		h := c.base(c.last * float64(i) / steps)
		if h > before+1e-9*math.Abs(before) {
			return true, c.last * float64(i-1) / steps
		}
		before = h
	}
	return false, 0
}
