package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// HydraulicJump is a jump on a level floor.
type HydraulicJump struct {
	Upstream     units.Length `json:"upstream"`   // depth before
	Downstream   units.Length `json:"downstream"` // sequent depth after
	Froude       float64      `json:"froude"`     // before the jump
	FroudeAfter  float64      `json:"froudeAfter"`
	EnergyLoss   units.Length `json:"energyLoss"`   // of specific energy
	RelativeLoss float64      `json:"relativeLoss"` // share of the specific energy before
}

// Jump returns the hydraulic jump of a flow that arrives at a shooting depth.
//
// In a rectangle, y2/y1 = (√(1 + 8F²) - 1)/2 and ΔE = (y2 - y1)³/4 y1 y2. In
// other sections the momentum function Q²/gA + A ȳ is the same on both sides.
//
// Errors: ErrDomain (values NaN) for a section, flow or depth that cannot be;
// ErrNoSolution for a depth that is not shooting (Froude number not above one),
// or a closed section that fills in the jump.
//
// Source: Belanger (1828); Chow (1959) sections 3-6 and 15-1; Henderson (1966)
// section 3.5. The bed and side friction within the jump is neglected.
func Jump(s Section, flow units.Flow, depth units.Length) (HydraulicJump, error) {
	const fn = "hydraulics.Jump"
	nan := math.NaN()
	none := HydraulicJump{units.Length(nan), units.Length(nan), nan, nan, units.Length(nan), nan}
	if err := flowInputs(fn, s, flow, depth); err != nil {
		return none, err
	}
	q, y1 := float64(flow), float64(depth)
	f1 := froude(q, float64(s.Area(depth)), float64(s.TopWidth(depth)))
	if !(f1 > 1) {
		return none, &units.InputError{Func: fn, Field: "depth", Value: y1, Unit: "m",
			Reason: "only shooting flow, with a Froude number above one, can jump", Kind: units.ErrNoSolution}
	}
	y2, err := sequent(s, q, y1)
	if err != nil {
		return none, err
	}
	e1 := energy(s, q, y1)
	loss := e1 - energy(s, q, y2)
	if _, ok := s.(RectangularSection); ok {
		loss = (y2 - y1) * (y2 - y1) * (y2 - y1) / (4 * y1 * y2)
	}
	return HydraulicJump{
		Upstream: depth, Downstream: units.Length(y2), Froude: f1,
		FroudeAfter: froude(q, float64(s.Area(units.Length(y2))), float64(s.TopWidth(units.Length(y2)))),
		EnergyLoss:  units.Length(loss), RelativeLoss: loss / e1,
	}, nil
}

// sequent returns the depth with the same momentum function on the other side
// of the critical depth from the shooting depth y1.
func sequent(s Section, q, y1 float64) (float64, error) {
	if r, ok := s.(RectangularSection); ok {
		u := q / float64(r.Width)
		return sequentDepth(y1, u*u/gravity), nil
	}
	force := func(y float64) float64 {
		return q*q/(gravity*float64(s.Area(units.Length(y)))) + moment(s, y)
	}
	yc, err := criticalDepth(s, q)
	if err != nil {
		return math.NaN(), err
	}
	want := force(y1)
	hi := 2 * yc
	top := float64(s.MaxDepth())
	for force(math.Min(hi, top)) < want {
		if hi >= top {
			return math.NaN(), &units.InputError{Func: "hydraulics.Jump", Field: "depth", Value: y1, Unit: "m",
				Reason: "the closed section is full before it holds the jump", Kind: units.ErrNoSolution}
		}
		hi *= 2
	}
	return root.Find(func(y float64) float64 { return force(y) - want }, yc, math.Min(hi, top), 0)
}

// sequentDepth is the depth after a jump from depth y in a rectangle, with k
// the squared unit flow over gravity: y2 = y/2 (√(1 + 8k/y³) - 1).
func sequentDepth(y, k float64) float64 {
	return y / 2 * (math.Sqrt(1+8*k/(y*y*y)) - 1)
}

// JumpPower returns the power that a jump or drop of specific energy turns to
// heat and turbulence.
//
//	P = ρ g Q ΔE
//
// Errors: ErrDomain (value NaN) for a density or flow that is not above zero or
// a negative loss.
//
// Source: by definition; White (2011), Fluid Mechanics, example 10.7.
func JumpPower(density units.Density, flow units.Flow, energyLoss units.Length) (units.Power, error) {
	const fn = "hydraulics.JumpPower"
	err := errors.Join(units.Positive(fn, "density", float64(density), "kg/m3"),
		units.Positive(fn, "flow", float64(flow), "m3/s"),
		units.NonNegative(fn, "energyLoss", float64(energyLoss), "m"))
	if err != nil {
		return units.Power(math.NaN()), err
	}
	return units.Power(float64(density) * gravity * float64(flow) * float64(energyLoss)), nil
}
