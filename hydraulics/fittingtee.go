package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// TeeSpec is a tee or wye with a straight run of one bore and a branch.
type TeeSpec struct {
	Branch     units.Flow   `json:"branch"`   // flow in the branch
	Combined   units.Flow   `json:"combined"` // flow in the leg that carries both
	BranchBore units.Length `json:"branchBore"`
	RunBore    units.Length `json:"runBore"`
	Angle      units.Angle  `json:"angle"` // between branch and run: 30 to 60 degrees, or 90
}

// TeeLoss is the pair of losses of a tee, both on the velocity in the leg that
// carries the combined flow. One of them may be negative where the other stream
// gives it energy; the stream as a whole always loses.
type TeeLoss struct {
	Branch float64 `json:"branch"` // K between the branch and the combined leg
	Run    float64 `json:"run"`    // K between the straight leg and the combined leg
}

// shares returns the branch's share of the flow, the bore ratio squared and the
// angle in degrees.
func (s TeeSpec) shares(fn string) (q, b2, deg float64, err error) {
	deg = s.Angle.In(units.Degrees)
	err = errors.Join(units.Positive(fn, "combined", s.Combined.CubicMetresPerSecond(), "m3/s"),
		units.Within(fn, "branch", s.Branch.CubicMetresPerSecond(), 0, s.Combined.CubicMetresPerSecond(), "m3/s"),
		boreError(fn, "runBore", s.RunBore))
	b, errB := boreRatio(fn, "branchBore", "runBore", s.BranchBore, s.RunBore)
	if !(deg >= 29.5 && deg <= 60.5 || deg >= 89.5 && deg <= 90.5) {
		err = errors.Join(err,
			&units.InputError{Func: fn, Field: "angle", Value: deg, Unit: "degrees", Min: 30, Max: 90, Reason: "30 to 60, or 90"})
	}
	return s.Branch.CubicMetresPerSecond() / s.Combined.CubicMetresPerSecond(), b * b, deg, errors.Join(err, errB)
}

// Converging returns the losses of a tee where branch and run join.
//
// Equation: K = C (1 + D (q/β²)² - E (1-q)² - F q²/β²), q the branch's share of
// the flow; the run of a 90 degree tee has K = 1.55 q - q².
//
// Source: Crane TP-410 (2009), chapter 2, converging branches, whose examples 7-35
// and 7-36 are check rows.
func (s TeeSpec) Converging() (TeeLoss, error) {
	q, b2, deg, err := s.shares("hydraulics.TeeSpec.Converging")
	if err != nil {
		return TeeLoss{}, err
	}
	c := 1.0
	switch {
	case b2 > 0.35 && q <= 0.4:
		c = 0.9 * (1 - q)
	case b2 > 0.35:
		c = 0.55
	}
	f := 0.0 // at 90 degrees
	if deg < 75 {
		f = tableAt([][2]float64{{30, 1.74}, {45, 1.41}, {60, 1}}, deg)
	}
	k := TeeLoss{Branch: c * (1 + q*q/(b2*b2) - 2*(1-q)*(1-q) - f*q*q/b2)}
	if f == 0 {
		k.Run = 1.55*q - q*q
	} else {
		k.Run = 1 - (1-q)*(1-q) - f*q*q/b2
	}
	return k, nil
}

// Diverging returns the losses of a tee where the flow divides.
//
// Equation: branch K = G (1 + H (q/β²)² - J (q/β²) cos θ); run K = M q².
//
// Source: Crane TP-410 (2009), chapter 2, diverging branches; example
// 7-36 is a check row. A 90 degree tee of nearly equal bores has K = 1 + 0.3
// (q/β²)² (Levin, in Idelchik), not that twice over, as one copy has it.
func (s TeeSpec) Diverging() (TeeLoss, error) {
	q, b2, deg, err := s.shares("hydraulics.TeeSpec.Diverging")
	if err != nil {
		return TeeLoss{}, err
	}
	g, h, j := 1.0, 0.3, 0.0
	if deg < 75 || b2 <= 4.0/9 {
		h, j = 1, 2
	}
	if deg <= 60.5 {
		switch {
		case b2 <= 0.35 && q <= 0.4:
			g = 1.1 - 0.7*q
		case b2 <= 0.35:
			g = 0.85
		case q <= 0.6:
			g = 1 - 0.6*q
		default:
			g = 0.6
		}
	}
	m := 0.4
	switch {
	case b2 > 0.4 && q <= 0.5:
		m = 2 * (2*q - 1)
	case b2 > 0.4:
		m = 0.3 * (2*q - 1)
	}
	x := q / b2
	return TeeLoss{Branch: g * (1 + h*x*x - j*x*math.Cos(s.Angle.Radians())), Run: m * q * q}, nil
}

// ReducedGateValve returns the loss of an open gate valve whose seat is narrower
// than the pipe, with the full angle of the taper, on the velocity in the pipe.
//
// Equation, β = seat/bore: K = (8 f_T + sin(θ/2) (0.8 (1-β²) + 2.6 (1-β²)²))/β⁴
// to 45 degrees, (8 f_T + 0.5 √sin(θ/2) (1-β²) + (1-β²)²)/β⁴ above.
//
// Source: Crane TP-410 (2009), A-27. Band ± 25 %.
func ReducedGateValve(seat, bore units.Length, taper units.Angle) (Loss, error) {
	const fn = "hydraulics.ReducedGateValve"
	b, err := boreRatio(fn, "seat", "bore", seat, bore)
	deg := taper.In(units.Degrees)
	if err = errors.Join(err, bendAngle(fn, deg, 180)); err != nil {
		return Loss{}, err
	}
	s, r := math.Sin(taper.Radians()/2), 1-b*b
	k := 8*fullyRough(bore.Metres()) + 0.5*math.Sqrt(s)*r + r*r
	if deg <= 45 {
		k = 8*fullyRough(bore.Metres()) + s*r*(0.8+2.6*r)
	}
	return handbookLoss("gate valve, reduced seat", k/(b*b*b*b), craneSource).checked()
}
