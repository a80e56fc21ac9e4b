package hydraulics

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// BarShape is the cross-section of the bars of a trash rack. It is [SharpBars],
// [RoundedNose], [RoundedBoth], [RoundBars] or [TearBars].
type BarShape uint8

// The shapes of Kirschmer.
const (
	SharpBars   BarShape = iota // square edges: 2.42
	RoundedNose                 // upstream edge rounded: 1.83
	RoundedBoth                 // both edges rounded: 1.67
	RoundBars                   // circular: 1.79
	TearBars                    // fish-form: 0.76
)

var barBeta = [...]float64{2.42, 1.83, 1.67, 1.79, 0.76}

// BarRack returns the loss of a rack of parallel bars on the velocity of
// approach, with a blocked fraction of its openings.
//
// Equation: K = β (s/b)^(4/3) sin θ, s the bar thickness, b the clear gap and θ
// the angle of the rack to the horizontal; debris narrows the gaps to b (1 -
// blocked), as thickness s + b blocked.
//
// Validity: s/b to 3 clean, blocked to 0.9. The velocity of approach is that
// ahead of the rack, not in the pipe behind: restate it with [Loss.OnBore] or as
// a ratio of areas squared.
//
// Source: Kirschmer 1926, β from memory. The blockage term is common practice.
func BarRack(shape BarShape, bar, gap units.Length, toHorizontal units.Angle, blocked float64) (Loss, error) {
	const fn = "hydraulics.BarRack"
	deg := toHorizontal.In(units.Degrees)
	errs := []error{units.Positive(fn, "bar", bar.Metres(), "m"), units.Positive(fn, "gap", gap.Metres(), "m"),
		bendAngle(fn, deg, 90), blockedError(fn, blocked)}
	if int(shape) >= len(barBeta) {
		errs = append(errs, units.Within(fn, "shape", float64(shape), 0, float64(len(barBeta)-1), ""))
	}
	if err := errors.Join(errs...); err != nil {
		return Loss{}, err
	}
	ratio := bar.Metres() / gap.Metres()
	if ratio > 3 {
		return Loss{}, units.Within(fn, "bar/gap", ratio, 0, 3, "")
	}
	ratio = (ratio + blocked) / (1 - blocked)
	return handbookLoss(fmt.Sprintf("bar rack, %.0f %% blocked", 100*blocked), barBeta[shape]*math.Pow(ratio, 4.0/3)*math.Sin(toHorizontal.Radians()),
		"Kirschmer 1926 (from memory); blockage by common practice"), nil
}

func blockedError(fn string, blocked float64) error {
	if blocked >= 0 && blocked <= 0.9 {
		return nil
	}
	return &units.InputError{Func: fn, Field: "blocked", Value: blocked, Min: 0, Max: 0.9, Reason: "fraction of the openings, not percent"}
}

// WireScreen returns the loss of a woven screen across the flow on the velocity
// of approach, with the open fraction of the clean screen and the blocked
// fraction of its openings.
//
// Equation: K = 1.3 (1 - φ) + (1/φ - 1)², φ = open (1 - blocked).
//
// Validity: open 0.1 to 0.95, wire Reynolds number above 1000; a finer or slower
// screen loses more.
//
// Source: Idelchik, diagram 8-6, from memory. The blockage term is common
// practice. Band ± 25 %.
func WireScreen(open, blocked float64) (Loss, error) {
	const fn = "hydraulics.WireScreen"
	if err := errors.Join(units.Within(fn, "open", open, 0.1, 0.95, ""), blockedError(fn, blocked)); err != nil {
		return Loss{}, err
	}
	p := open * (1 - blocked)
	return handbookLoss(fmt.Sprintf("wire screen, %.0f %% blocked", 100*blocked), 1.3*(1-p)+(1/p-1)*(1/p-1), idelchik), nil
}

// ScreenOnPipe restates the loss of a rack or screen of clear face area for the
// velocity in the pipe behind it: K falls with the square of the area ratio.
//
// Source: continuity, by definition of the loss coefficient.
func ScreenOnPipe(screen Loss, face units.Area, bore units.Length) (Loss, error) {
	const fn = "hydraulics.ScreenOnPipe"
	if err := errors.Join(screen.Validate(), units.Positive(fn, "face", face.SquareMetres(), "m2"), boreError(fn, "bore", bore)); err != nil {
		return Loss{}, err
	}
	r := math.Pi / 4 * bore.Metres() * bore.Metres() / face.SquareMetres()
	screen.Coefficient, screen.Low, screen.High = r*r*screen.Coefficient, r*r*screen.Low, r*r*screen.High
	return screen.checked()
}
