package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// OperatingPoint is where a pump curve meets a system curve.
type OperatingPoint struct {
	Flow         units.Flow            `json:"flow"`
	Head         units.Length          `json:"head"`
	Speed        units.RotationalSpeed `json:"speed"`
	SpeedRatio   float64               `json:"speedRatio"`   // speed over rated speed
	Lift         units.Length          `json:"lift"`         // static head of the system, at no flow
	ShutOffHead  units.Length          `json:"shutOffHead"`  // of the pump at this speed
	MinimumSpeed units.RotationalSpeed `json:"minimumSpeed"` // whose shut-off head just reaches the lift; zero without a lift
	UnstableFlow units.Flow            `json:"unstableFlow"` // lower crossing of a rising curve; zero when there is none
	CanStart     bool                  `json:"canStart"`     // shut-off head above the lift: flow starts from rest
	Notices      []units.Notice        `json:"notices,omitempty"`
}

const (
	// furthest is how far beyond the last data-sheet point an answer is still
	// given without an error, as a ratio of flows.
	furthest = 1.1
	// searched is how far the search for a crossing goes.
	searched = 2.0
	// nearMinimum is the ratio of speed to minimum speed below which a small
	// sag of the engine stops the flow (common practice).
	nearMinimum = 1.15
	// scanned is the number of steps in which a curve that rises somewhere is
	// searched for crossings.
	scanned = 96
)

// Meet finds the operating point of the pump at speed n on the system: the
// flow at which both ask for the same head.
//
// A curve that rises with flow can meet the system twice; the upper, stable
// crossing is returned and the lower one told. A duty up to 10 % beyond the
// last data-sheet point carries the notice PUMP_EXTRAPOLATED; beyond that the
// extrapolated duty is returned with ErrRange.
//
// Errors: ErrDomain for a speed that is not positive or a system without a
// finite head; ErrNoSolution when the lift is above the shut-off head, with
// MinimumSpeed set in the result and named in the error, so that the question
// "then what speed" is answered; ErrNoSolution when the curves do not meet up
// to twice the flow of the last point.
// Source: affinity laws, bracketed root of pump head minus system head.
func (c Curve) Meet(sys System, n units.RotationalSpeed) (OperatingPoint, error) {
	const fn = "pumpsizing.Curve.Meet"
	if err := errors.Join(c.built(fn), units.Positive(fn, "n", n.In(units.RevolutionsPerMinute), "r/min")); err != nil {
		return OperatingPoint{}, err
	}
	op := OperatingPoint{Speed: n, SpeedRatio: n.RadiansPerSecond() / c.speed}
	if err := c.lift(fn, sys, &op); err != nil {
		return op, err
	}
	r := op.SpeedRatio
	last := c.last * r * c.flowScale
	end := searched * last
	gap := func(q float64) float64 {
		return c.head(q, r) - sys.Head(units.Flow(q)).Metres()
	}
	lo, hi, lower, ok := c.bracket(gap, last)
	if !ok {
		err := c.missed(fn, &op, gap(end), end)
		return op, err
	}
	q, err := root.Find(gap, lo, hi, 0)
	if err != nil {
		return OperatingPoint{}, unsolved(fn, err)
	}
	op.Flow, op.Head = units.Flow(q), units.Length(c.head(q, r))
	if err := soundAll(fn, q, op.Head.Metres(), op.ShutOffHead.Metres(), op.MinimumSpeed.RadiansPerSecond(), op.SpeedRatio); err != nil {
		return OperatingPoint{}, err
	}
	op.UnstableFlow = units.Flow(lower)
	err = c.reach(fn, &op)
	return op, err
}

// built refuses the zero value of Curve.
func (c *Curve) built(fn string) error {
	if c.speed > 0 {
		return nil
	}
	return &units.InputError{Func: fn, Field: "curve", Value: 0, Reason: "an empty curve: build it with FitCurve"}
}

// lift asks the system for its lift and sets what follows from it.
func (c *Curve) lift(fn string, sys System, op *OperatingPoint) error {
	if sys == nil {
		return &units.InputError{Func: fn, Field: "sys", Value: math.NaN(), Reason: "no system was given"}
	}
	op.Lift = sys.Head(0)
	if err := units.Finite(fn, "sys.Head(0)", op.Lift.Metres(), "m"); err != nil {
		op.Lift = 0
		return err
	}
	op.MinimumSpeed = units.RotationalSpeed(c.speed * math.Sqrt(max(0, op.Lift.Metres())/c.head(0, 1)))
	if op.SpeedRatio > 0 {
		op.ShutOffHead = units.Length(c.head(0, op.SpeedRatio))
		op.CanStart = op.ShutOffHead > op.Lift
	}
	return nil
}

// bracket returns two flows between which gap falls through zero, the upper
// crossing when there are two, and the lower crossing if there is one. last is
// the flow of the last data-sheet point at this speed; the stretch that the data
// support is looked at first, since a fit may do anything beyond.
func (c *Curve) bracket(gap func(float64) float64, last float64) (lo, hi, lower float64, ok bool) {
	near, end := furthest*last, searched*last
	first := gap(0)
	if gap(near) > 0 { // the crossing is beyond the data
		lo, hi, ok = near, end, gap(end) <= 0
	} else if c.falling {
		return 0, near, 0, first > 0
	} else {
		lo, hi, ok = upperCrossing(gap, near)
	}
	if ok && first < 0 {
		if q, err := root.Find(gap, 0, lo, 0); err == nil {
			lower = q
		}
	}
	return lo, hi, lower, ok
}

// upperCrossing walks down from a flow where gap is not positive to the first
// where it is; between the two is the upper crossing of a curve with a hump.
func upperCrossing(gap func(float64) float64, end float64) (lo, hi float64, ok bool) {
	at := func(i int) float64 { return end * float64(i) / scanned }
	best, top := 0, math.Inf(-1)
	for i := scanned - 1; i >= 0; i-- {
		g := gap(at(i))
		if g > 0 {
			return at(i), at(i + 1), true
		}
		if g > top {
			best, top = i, g
		}
	}
	// A hump narrower than a step.
	hi = at(best + 1)
	lo, top = summit(gap, at(max(0, best-1)), hi)
	return lo, hi, top > 0
}

// summit finds the highest gap between two flows by golden section.
func summit(gap func(float64) float64, a, b float64) (at, top float64) {
	const golden = 0.6180339887498949
	x1, x2 := b-golden*(b-a), a+golden*(b-a)
	g1, g2 := gap(x1), gap(x2)
	for range 60 {
		if g1 > g2 {
			b, x2, g2 = x2, x1, g1
			x1 = b - golden*(b-a)
			g1 = gap(x1)
		} else {
			a, x1, g1 = x1, x2, g2
			x2 = a + golden*(b-a)
			g2 = gap(x2)
		}
	}
	if g1 > g2 {
		return x1, g1
	}
	return x2, g2
}

// missed says why there is no crossing.
func (c *Curve) missed(fn string, op *OperatingPoint, gapAtEnd, end float64) error {
	if !op.CanStart {
		low := op.MinimumSpeed.In(units.RevolutionsPerMinute)
		op.Notices = note(op.Notices, CodeBelowMinSpeed, units.Warning, "speed", op.Speed.In(units.RevolutionsPerMinute), low, "r/min",
			"the lift of "+num(op.Lift.Metres())+" m is above the shut-off head of "+num(op.ShutOffHead.Metres())+" m: no flow, animals fall back in the hose", "affinity laws")
		return &units.InputError{Func: fn, Field: "n", Value: op.Speed.In(units.RevolutionsPerMinute), Unit: "r/min", Min: low, Max: math.Inf(1), Kind: units.ErrNoSolution,
			Reason: "lift " + num(op.Lift.Metres()) + " m is above the shut-off head " + num(op.ShutOffHead.Metres()) + " m; the minimum speed for the lift is " + num(low) + " r/min"}
	}
	if math.IsNaN(gapAtEnd) {
		return &units.InputError{Func: fn, Field: "sys", Value: end * 3600, Unit: "m3/h", Reason: "the system gives no head at this flow"}
	}
	op.Flow = 0
	return &units.InputError{Func: fn, Field: "sys", Value: end * 3600, Unit: "m3/h", Kind: units.ErrNoSolution,
		Reason: "pump and system do not meet up to twice the flow of the last data-sheet point: the system is too easy for the pump; throttle it, slow the pump, or give points at larger flow"}
}

// reach adds the notices of an operating point and refuses one too far beyond
// the data.
func (c *Curve) reach(fn string, op *OperatingPoint) error {
	flow := op.Flow.In(units.CubicMetresPerHour)
	if op.UnstableFlow > 0 {
		op.Notices = note(op.Notices, CodeTwoCrossings, units.Warning, "flow", op.UnstableFlow.In(units.CubicMetresPerHour), flow, "m3/h",
			"the rising curve meets the system twice; the lower crossing is unstable", commonPractice)
	}
	if !op.CanStart && op.Flow > 0 {
		op.Notices = note(op.Notices, CodeCannotStart, units.Warning, "speed", op.Speed.In(units.RevolutionsPerMinute), op.MinimumSpeed.In(units.RevolutionsPerMinute), "r/min",
			"runs if already running, but the lift is above the shut-off head, so flow does not start from rest", "affinity laws")
	} else if op.Speed < nearMinimum*op.MinimumSpeed {
		op.Notices = note(op.Notices, CodeNearMinSpeed, units.Caution, "speed", op.Speed.In(units.RevolutionsPerMinute), nearMinimum*op.MinimumSpeed.In(units.RevolutionsPerMinute), "r/min",
			"close to the minimum speed for the lift: a sag of "+percent(1-op.MinimumSpeed.RadiansPerSecond()/op.Speed.RadiansPerSecond())+" stops the flow", commonPractice)
	}
	if !(op.SpeedRatio >= lowSpeedRatio && op.SpeedRatio <= highSpeedRatio) {
		op.Notices = note(op.Notices, CodeSpeedRatio, units.Caution, "speedRatio", op.SpeedRatio, lowSpeedRatio, "",
			"the affinity laws are trusted from half to double the rated speed", commonPractice)
	}
	last := c.last * op.SpeedRatio * c.flowScale * 3600
	if !(flow > last) {
		return nil
	}
	op.Notices = note(op.Notices, CodeExtrapolated, units.Caution, "flow", flow, last, "m3/h",
		"beyond the last data-sheet point at this speed, "+num(last)+" m3/h", "")
	if flow <= furthest*last {
		return nil
	}
	return &units.InputError{Func: fn, Field: "flow", Value: flow, Unit: "m3/h", Min: 0, Max: furthest * last, Kind: units.ErrRange,
		Reason: "more than 10 % beyond the last data-sheet point: the fitted curve says nothing there"}
}

// isRefused tells an error after which no duty exists.
func isRefused(err error) bool { return err != nil && !errors.Is(err, units.ErrRange) }
