package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// AreaChangeMethod is a published formula for a change of bore. It is
// [CraneArea], [WhiteArea], [RennelsArea] or [HooperArea].
type AreaChangeMethod uint8

// The methods for a sudden contraction, by author and year. CraneArea is the
// default.
const (
	CraneArea   AreaChangeMethod = iota // Crane TP-410: 0.5 (1-β²)
	WhiteArea                           // White, Fluid Mechanics, eq. 6.81
	RennelsArea                         // Rennels & Hudson 2012, sharp edge
	HooperArea                          // Hooper 1988, in turbulent flow at f = 0.018
)

// boreRatio returns the smaller bore over the larger, or an error.
func boreRatio(fn, smallField, largeField string, small, large units.Length) (float64, error) {
	if err := errors.Join(boreError(fn, smallField, small), boreError(fn, largeField, large)); err != nil {
		return math.NaN(), err
	}
	if small > large {
		return math.NaN(), &units.InputError{Func: fn, Field: smallField, Value: small.Metres(), Unit: "m", Min: 0, Max: large.Metres(),
			Reason: "must not be larger than " + largeField}
	}
	return small.Metres() / large.Metres(), nil
}

// SuddenExpansion returns the loss of a step from bore upstream to a larger bore
// downstream, on the velocity in the smaller, upstream bore.
//
// Equation: K = (1 - β²)², β = upstream/downstream. Exact for uniform flow.
//
// Source: Borda 1766, Carnot 1803; momentum.
func SuddenExpansion(upstream, downstream units.Length) (Loss, error) {
	b, err := boreRatio("hydraulics.SuddenExpansion", "upstream", "downstream", upstream, downstream)
	if err != nil {
		return Loss{}, err
	}
	k := (1 - b*b) * (1 - b*b)
	return bandLoss("sudden expansion", k, k, 1.1*k, "Borda-Carnot"), nil
}

// SuddenContraction returns the loss of a step from bore upstream to a smaller
// bore downstream, on the velocity in the smaller, downstream bore. The band runs
// from the lowest to the highest of the four methods.
//
// Source: by method: Crane TP-410, A-26 (default); White, Fluid Mechanics, eq.
// 6.81; Rennels & Hudson 2012, Pipe Flow; Hooper 1988, Calculate head loss caused
// by change in pipe size.
func SuddenContraction(upstream, downstream units.Length, method AreaChangeMethod) (Loss, error) {
	const fn = "hydraulics.SuddenContraction"
	b, err := boreRatio(fn, "downstream", "upstream", downstream, upstream)
	if err == nil && method > HooperArea {
		err = units.Within(fn, "method", float64(method), 0, float64(HooperArea), "")
	}
	if err != nil {
		return Loss{}, err
	}
	all := contractions(b)
	low, high := all[0], all[0]
	for _, k := range all {
		low, high = min(low, k), max(high, k)
	}
	return bandLoss("sudden contraction", low, all[method], high, "Crane TP-410, White, Rennels & Hudson 2012, Hooper 1988"), nil
}

// contractions returns K of a sudden contraction by every method, indexed by it.
func contractions(b float64) [4]float64 {
	b2 := b * b
	white := 0.42 * (1 - b2)
	if b > 0.76 {
		white = (1 - b2) * (1 - b2)
	}
	b5 := b2 * b2 * b
	jet := 1 + 0.622*(1-0.215*b2-0.785*b5) // Rennels & Hudson: contraction of the jet
	rennels := 0.0696*(1-b5)*jet*jet + (jet-1)*(jet-1)
	return [4]float64{0.5 * (1 - b2), white, rennels, (0.6 + 0.48*hooperSmoothFactor) * (1 - b2)}
}

// hooperSmoothFactor is f of a smooth pipe at re 1e5, where Hooper's formula is
// quoted.
const hooperSmoothFactor = 0.017988893

// ConicalExpansion returns the loss of a cone widening from bore upstream to
// downstream with full included angle, on the velocity in the smaller bore.
//
// Equation: K = 2.6 sin(θ/2) (1-β²)² to 45 degrees; (1-β²)² above.
//
// Source: Crane TP-410, A-26 (Gibson's tests). Band ± 25 %.
func ConicalExpansion(upstream, downstream units.Length, included units.Angle) (Loss, error) {
	const fn = "hydraulics.ConicalExpansion"
	b, err := boreRatio(fn, "upstream", "downstream", upstream, downstream)
	deg := included.In(units.Degrees)
	if err = errors.Join(err, bendAngle(fn, deg, 180)); err != nil {
		return Loss{}, err
	}
	k := (1 - b*b) * (1 - b*b)
	if deg <= 45 {
		k *= min(1, 2.6*math.Sin(included.Radians()/2))
	}
	return handbookLoss("conical expansion", k, craneSource), nil
}

// ConicalContraction returns the loss of a cone narrowing from bore upstream to
// downstream with full included angle, on the velocity in the smaller bore.
//
// Equation: K = 0.8 sin(θ/2) (1-β²) to 45 degrees; 0.5 √(sin(θ/2)) (1-β²) above.
//
// Source: Crane TP-410, A-26. Band ± 25 %.
func ConicalContraction(upstream, downstream units.Length, included units.Angle) (Loss, error) {
	const fn = "hydraulics.ConicalContraction"
	b, err := boreRatio(fn, "downstream", "upstream", downstream, upstream)
	deg := included.In(units.Degrees)
	if err = errors.Join(err, bendAngle(fn, deg, 180)); err != nil {
		return Loss{}, err
	}
	s := math.Sin(included.Radians() / 2)
	k := 0.5 * math.Sqrt(s) * (1 - b*b)
	if deg <= 45 {
		k = 0.8 * s * (1 - b*b)
	}
	return handbookLoss("conical contraction", k, craneSource), nil
}
