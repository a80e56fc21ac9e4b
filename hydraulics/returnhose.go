package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/friction"
	"pondwright.example/units"
)

// StackFlow returns the flow that falls down the wall of an upright pipe open to
// the air without filling it.
//
//	Q = 27.8 r^(5/3) d^(8/3)      gal/min (US), d in inches
//
// r is the share of the section that the water takes; plumbing practice goes to
// 7/24, above which the water plugs the pipe and falls in slugs.
//
// Validity: long vertical drains of 3 to 8 inches, r from 1/4 to 1/3.
//
// Errors: ErrDomain (value NaN) for a bore that is not above zero or r outside 0
// to 1; ErrRange, beside the value, for r above 1/3.
//
// Source: Wyly, R.S. & Eaton, H.N. (1961), Capacities of Stacks in Sanitary
// Drainage Systems for Buildings, NBS Monograph 31 (equation from memory).
func StackFlow(bore units.Length, filled float64) (units.Flow, error) {
	const fn = "hydraulics.StackFlow"
	err := errors.Join(bounded(fn, "bore", float64(bore), 0, 2, "m", "a bore; is it in millimetres?"),
		units.Within(fn, "filled", filled, 0, 1, ""))
	if err != nil {
		return units.Flow(math.NaN()), err
	}
	q := units.Flow(27.8*math.Pow(filled, 5.0/3)*math.Pow(bore.In(units.Inches), 8.0/3)) * units.USGallonPerMinute
	if filled > 1.0/3 {
		return q, &units.InputError{Func: fn, Field: "filled", Value: filled, Min: 0, Max: 1.0 / 3, Kind: units.ErrRange}
	}
	return q, nil
}

// IntakeSubmergence returns the depth of water over the mouth of a pipe that
// keeps an air-drawing vortex away.
//
//	S = D (1 + 2.3 F),  F = V/√(g D)
//
// Errors: ErrDomain (value NaN) for a bore that is not above zero or a negative
// velocity.
//
// Source: ANSI/HI 9.8, Rotodynamic pumps for pump intake design, after Hecker
// (1987) (equation from memory; public codes that cite it agree).
func IntakeSubmergence(bore units.Length, velocity units.Velocity) (units.Length, error) {
	const fn = "hydraulics.IntakeSubmergence"
	err := errors.Join(bounded(fn, "bore", float64(bore), 0, 5, "m", "a bore; is it in millimetres?"),
		units.NonNegative(fn, "velocity", float64(velocity), "m/s"))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	d := float64(bore)
	return units.Length(d * (1 + 2.3*float64(velocity)/math.Sqrt(gravity*d))), nil
}

// ReturnHoseSpec describes the hose that takes the water from under the grate
// back to the basin, or over the bank.
type ReturnHoseSpec struct {
	Bore      units.Length             `json:"bore"` // inside
	Length    units.Length             `json:"length"`
	Roughness units.Length             `json:"roughness"` // absolute
	LossSum   float64                  `json:"lossSum"`   // ΣK: mouth, bends, exit (1)
	Viscosity units.KinematicViscosity `json:"viscosity"`

	// AirShare is the volume of air in a volume of the stream, from 0 to 0.7. A
	// pan too shallow for [IntakeSubmergence] draws 0.1 to 0.3 (common practice,
	// no source).
	AirShare float64 `json:"airShare"`
}

// Validate reports every field that cannot be used, joined.
func (s ReturnHoseSpec) Validate() error {
	const fn = "hydraulics.ReturnHoseSpec"
	return errors.Join(
		bounded(fn, "bore", float64(s.Bore), 0, 2, "m", "a bore; is it in millimetres?"),
		bounded(fn, "length", float64(s.Length), 0, 1e4, "m", "a length above zero"),
		units.Within(fn, "roughness", float64(s.Roughness), 0, maxRelativeRoughness*math.Max(0, float64(s.Bore)), "m"),
		units.Within(fn, "lossSum", s.LossSum, 1, 1e4, ""),
		units.Within(fn, "viscosity", float64(s.Viscosity), 1e-7, 1e-4, "m2/s"),
		units.Within(fn, "airShare", s.AirShare, 0, 0.7, ""))
}

// ReturnHose is a hose that flows by gravity, ready for use.
//
// Method: full flow by Darcy-Weisbach and Colebrook. Air that the stream carries
// makes it lighter, which cuts the driving head and the friction alike, so that
// the velocity stays that of water alone and the water takes the share
// 1 - AirShare of it.
//
// Source: Darcy-Weisbach, Colebrook (1939); the air derived for a homogeneous
// mixture without slip.
//
// Accuracy: 10 % full of water; with air 30 %, and a hose that rises on its way
// may trap it and stop.
type ReturnHose struct {
	spec ReturnHoseSpec
	wall pipeWall
}

// NewReturnHose validates the description and prepares the hose.
func NewReturnHose(s ReturnHoseSpec) (ReturnHose, error) {
	if err := s.Validate(); err != nil {
		return ReturnHose{}, err
	}
	return ReturnHose{s, newPipeWall(float64(s.Bore), float64(s.Length), float64(s.Roughness), s.LossSum, float64(s.Viscosity))}, nil
}

// Spec returns the description the hose was built from.
func (h ReturnHose) Spec() ReturnHoseSpec { return h.spec }

// Capacity returns the flow of water under a drop from the water in the pan to
// the outfall or the water there; zero for no drop.
func (h ReturnHose) Capacity(drop units.Length) units.Flow {
	if h.spec.Bore == 0 {
		return 0
	}
	return units.Flow((1 - h.spec.AirShare) * h.wall.area * h.wall.velocity(float64(drop)))
}

// DropFor returns the drop that a flow of water needs, the inverse of
// [ReturnHose.Capacity].
//
// Errors: ErrDomain (value NaN) for a hose that was not built or a negative
// flow. Source: as [ReturnHose].
func (h ReturnHose) DropFor(flow units.Flow) (units.Length, error) {
	const fn = "hydraulics.ReturnHose.DropFor"
	if h.spec.Bore == 0 {
		return units.Length(math.NaN()), &units.InputError{Func: fn, Field: "h", Value: 0, Reason: "build the hose with NewReturnHose"}
	}
	if err := units.Within(fn, "flow", float64(flow), 0, 100, "m3/s"); err != nil {
		return units.Length(math.NaN()), err
	}
	if flow == 0 {
		return 0, nil
	}
	v := float64(flow) / ((1 - h.spec.AirShare) * h.wall.area)
	re := v / h.wall.perRe
	f := 64 / re
	if re > 600 { // below, 64/Re is the larger for any wall
		f = math.Max(f, friction.Colebrook(re, float64(h.spec.Roughness/h.spec.Bore)))
	}
	return units.Length((h.spec.LossSum + f*h.wall.slender) * v * v / (2 * gravity)), nil
}

// AppendNotices appends what matters for a flow of water from a pan of the given
// depth over the hose's mouth under a drop: a hose that cannot take it, a pan so
// shallow that it draws air.
func (h ReturnHose) AppendNotices(dst []units.Notice, flow units.Flow, drop, panDepth units.Length) []units.Notice {
	if capacity := h.Capacity(drop); flow > capacity {
		dst = append(dst, units.Notice{Code: CodeHoseFull, Severity: units.Warning, Field: "flow", Value: float64(flow), Limit: float64(capacity),
			Unit: "m3/s", Message: "the hose cannot take the water: the pan fills and spills", Source: "Darcy-Weisbach"})
	}
	if h.spec.Bore == 0 {
		return dst
	}
	v := units.Velocity(float64(flow) / h.wall.area)
	if need, err := IntakeSubmergence(h.spec.Bore, v); err == nil && panDepth < need {
		dst = append(dst, units.Notice{Code: CodeHoseFull, Severity: units.Caution, Field: "panDepth", Value: float64(panDepth), Limit: float64(need),
			Unit: "m", Message: "too shallow over the mouth: a vortex draws air and the hose loses flow", Source: "ANSI/HI 9.8 (from memory)"})
	}
	return dst
}
