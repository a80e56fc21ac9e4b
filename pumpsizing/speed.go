package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// MinimumSpeed is the lowest speed at which a pump holds up a lift.
type MinimumSpeed struct {
	Start units.RotationalSpeed `json:"start"` // shut-off head equals the lift: flow starts from rest above it
	Hold  units.RotationalSpeed `json:"hold"`  // highest head equals the lift; below Start only for a rising curve
}

// MinimumSpeed returns the speed below which the pump cannot lift the water by
// the given lift: n = rated sqrt(lift/H0), where H0 is the shut-off head, and
// the lower one at which a curve with a hump still holds a flow already
// running. It is zero for a lift of zero or a fall. Just above it the flow
// rises as a square root, so leave a margin.
//
// Errors: ErrDomain for a lift that is not finite.
// Source: affinity laws, H ~ n^2.
func (c Curve) MinimumSpeed(lift units.Length) (MinimumSpeed, error) {
	const fn = "pumpsizing.Curve.MinimumSpeed"
	if err := errors.Join(c.built(fn), units.Finite(fn, "lift", lift.Metres(), "m")); err != nil {
		return MinimumSpeed{}, err
	}
	h := math.Max(0, lift.Metres())
	top := c.head(0, 1)
	m := MinimumSpeed{Start: units.RotationalSpeed(c.speed * math.Sqrt(h/top))}
	if !c.falling {
		_, peak := summit(func(q float64) float64 { return c.head(q, 1) }, 0, c.last*c.flowScale)
		top = math.Max(top, peak)
	}
	m.Hold = units.RotationalSpeed(c.speed * math.Sqrt(h/top))
	return m, nil
}

// SpeedForFlow returns the operating point at the speed that moves flow q
// through the system: the root n of n^2 f(Q/n) = Hsys(Q), for a parabola
//
//	r = (b Q + sqrt(b^2 Q^2 + 4 H0 (Hsys + a Q^2)))/(2 H0)
//
// At flow zero it is the minimum speed for the lift.
//
// Errors: ErrDomain for a negative flow or a system without a finite head;
// ErrNoSolution when the system runs by itself at this flow (its head is not
// above zero) or a rising curve cannot be matched; ErrRange when the duty lies
// more than 10 % beyond the data, with the extrapolated point returned.
// Source: affinity laws, solved for the speed.
func (c Curve) SpeedForFlow(sys System, q units.Flow) (OperatingPoint, error) {
	const fn = "pumpsizing.Curve.SpeedForFlow"
	var op OperatingPoint
	if err := errors.Join(c.built(fn), units.NonNegative(fn, "q", q.In(units.CubicMetresPerHour), "m3/h")); err != nil {
		return op, err
	}
	if err := c.lift(fn, sys, &op); err != nil {
		return op, err
	}
	op.Flow, op.Head = q, sys.Head(q)
	if err := units.Finite(fn, "sys.Head(q)", op.Head.Metres(), "m"); err != nil {
		op.Head = 0
		return op, err
	}
	if !(op.Head > 0) {
		return op, &units.InputError{Func: fn, Field: "sys", Value: op.Head.Metres(), Unit: "m", Kind: units.ErrNoSolution,
			Reason: "the system takes this flow by itself, without a pump"}
	}
	r, err := c.ratio(q.CubicMetresPerSecond(), op.Head.Metres())
	if err != nil {
		return op, err
	}
	op.SpeedRatio = r
	op.Speed = units.RotationalSpeed(r * c.speed)
	op.ShutOffHead = units.Length(c.head(0, r))
	if err := soundAll(fn, r, op.Speed.RadiansPerSecond(), op.ShutOffHead.Metres(), op.MinimumSpeed.RadiansPerSecond()); err != nil {
		return OperatingPoint{}, err
	}
	op.CanStart = op.ShutOffHead > op.Lift
	err = c.reach(fn, &op)
	return op, err
}

// ratio solves r^2 f(q/r) = h for the speed ratio r.
func (c *Curve) ratio(q, h float64) (float64, error) {
	if c.fit == Quadratic || c.fit == FallingQuadratic {
		h0, b, a, _ := c.Coefficients()
		bq := b * q
		disc := bq*bq + 4*h0*(h+a*q*q)
		if disc >= 0 && (bq >= 0 || h+a*q*q > 0) {
			return (bq + math.Sqrt(disc)) / (2 * h0), nil
		}
	}
	lacking := func(r float64) float64 { return c.head(q, r) - h }
	lo := q / (searched * c.last * c.flowScale)
	if lo == 0 {
		return math.Sqrt(h / c.head(0, 1)), nil
	}
	hi := math.Max(1, 2*lo)
	for range 60 {
		if lacking(hi) >= 0 {
			break
		}
		hi *= 2
	}
	r, err := root.Find(lacking, lo, hi, 0)
	if errors.Is(err, units.ErrNoSolution) {
		err = &units.InputError{Func: "pumpsizing.Curve.SpeedForFlow", Field: "q", Value: q * 3600, Unit: "m3/h", Kind: units.ErrNoSolution,
			Reason: "no speed brings the pump's data within reach of this flow at a head of " + num(h) + " m: the pump is too small in flow"}
	}
	return r, err
}
