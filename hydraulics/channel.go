package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// FroudeNumber returns V/√(g A/T) of a flow at a depth: below one the flow is
// tranquil and feels what is downstream, above one it shoots. In a full pipe,
// which has no surface, it is zero.
//
// Errors: ErrDomain (value NaN) for a section, flow or depth that cannot be.
//
// Source: Chow, V.T. (1959), Open-Channel Hydraulics, section 1-3; Henderson
// (1966) section 2.5 for sections that are not rectangular.
func FroudeNumber(s Section, flow units.Flow, depth units.Length) (float64, error) {
	const fn = "hydraulics.FroudeNumber"
	if err := flowInputs(fn, s, flow, depth); err != nil {
		return math.NaN(), err
	}
	return froude(float64(flow), float64(s.Area(depth)), float64(s.TopWidth(depth))), nil
}

// SpecificEnergy returns y + V²/2g of a flow at a depth.
//
// Errors and source: as [FroudeNumber].
func SpecificEnergy(s Section, flow units.Flow, depth units.Length) (units.Length, error) {
	const fn = "hydraulics.SpecificEnergy"
	if err := flowInputs(fn, s, flow, depth); err != nil {
		return units.Length(math.NaN()), err
	}
	return units.Length(energy(s, float64(flow), float64(depth))), nil
}

func energy(s Section, q, y float64) float64 {
	v := q / float64(s.Area(units.Length(y)))
	return y + v*v/(2*gravity)
}

func flowInputs(fn string, s Section, flow units.Flow, depth units.Length) error {
	if s == nil {
		return &units.InputError{Func: fn, Field: "s", Value: math.NaN(), Reason: "a section is needed"}
	}
	return errors.Join(units.AtField("s", s.Validate()), units.Positive(fn, "flow", float64(flow), "m3/s"),
		depthWithin(fn, s, depth))
}

// CriticalDepth returns the depth at which the flow has the least specific
// energy.
//
//	Q² T = g A³
//
// In a rectangle it is (q²/g)^(1/3). In a circle it always exists below the
// crown.
//
// Errors: ErrDomain (value NaN) for a section that does not validate or a flow
// that is not above zero.
//
// Source: Chow (1959) section 4-3; Henderson (1966) section 2.5.
func CriticalDepth(s Section, flow units.Flow) (units.Length, error) {
	const fn = "hydraulics.CriticalDepth"
	if s == nil {
		return units.Length(math.NaN()), &units.InputError{Func: fn, Field: "s", Value: math.NaN(), Reason: "a section is needed"}
	}
	if err := errors.Join(units.AtField("s", s.Validate()), units.Positive(fn, "flow", float64(flow), "m3/s")); err != nil {
		return units.Length(math.NaN()), err
	}
	y, err := criticalDepth(s, float64(flow))
	return units.Length(y), err
}

func criticalDepth(s Section, q float64) (float64, error) {
	if r, ok := s.(RectangularSection); ok {
		u := q / float64(r.Width)
		return math.Cbrt(u * u / gravity), nil
	}
	// The section factor A√(A/T) = Q/√g rises with the depth.
	factor := func(y float64) float64 {
		a, t := float64(s.Area(units.Length(y))), float64(s.TopWidth(units.Length(y)))
		if t == 0 {
			if y <= 0 {
				return 0
			}
			return math.MaxFloat64
		}
		return a * math.Sqrt(a/t)
	}
	want := q / math.Sqrt(gravity)
	hi := float64(s.MaxDepth())
	if math.IsInf(hi, 1) {
		hi = doubleUntil(factor, want)
	}
	return root.Find(func(y float64) float64 { return factor(y) - want }, 0, hi, 0)
}

// AlternateDepth returns the other depth at which the flow has the same
// specific energy: the shooting one for a tranquil depth and the reverse. At
// the critical depth it is that depth.
//
// Errors: ErrDomain (value NaN) as [FroudeNumber]; ErrNoSolution when a closed
// section is full before it holds the energy.
//
// Source: Chow (1959) section 3-3.
func AlternateDepth(s Section, flow units.Flow, depth units.Length) (units.Length, error) {
	const fn = "hydraulics.AlternateDepth"
	if err := flowInputs(fn, s, flow, depth); err != nil {
		return units.Length(math.NaN()), err
	}
	q, y := float64(flow), float64(depth)
	yc, err := criticalDepth(s, q)
	if err != nil {
		return units.Length(math.NaN()), err
	}
	e := energy(s, q, y)
	diff := func(x float64) float64 { return energy(s, q, x) - e }
	if e <= energy(s, q, yc) {
		return units.Length(yc), nil
	}
	lo, hi := yc, math.Min(e, float64(s.MaxDepth()))
	if y > yc {
		lo, hi = yc, yc/2
		for diff(hi) < 0 && hi > 1e-12*yc {
			hi /= 2
		}
	} else if diff(hi) < 0 {
		return units.Length(math.NaN()), &units.InputError{Func: fn, Field: "depth", Value: y, Unit: "m",
			Reason: "the section is full before its other depth holds this energy", Kind: units.ErrNoSolution}
	}
	x, err := root.Find(diff, lo, hi, 0)
	return units.Length(x), err
}

// PermissibleVelocity is the mean velocity that a bed stands without scour, from
// memory after Fortier, S. and Scobey, F.C. (1926), Trans. ASCE 89, as printed
// in Chow (1959) table 7-3: aged channels, clear water and water with silt.
type PermissibleVelocity struct {
	Bed        string         `json:"bed"`
	ClearWater units.Velocity `json:"clearWater"`
	WithSilt   units.Velocity `json:"withSilt"`
}

// PermissibleVelocities returns the table of permissible velocities.
func PermissibleVelocities() []PermissibleVelocity {
	const fps = 0.3048
	rows := []struct {
		bed         string
		clear, silt units.Velocity
	}{
		{"fine sand", 1.50, 2.50},
		{"sandy loam", 1.75, 2.50},
		{"silt loam", 2.00, 3.00},
		{"alluvial silt, not colloidal", 2.00, 3.50},
		{"firm loam", 2.50, 3.50},
		{"fine gravel", 2.50, 5.00},
		{"stiff clay", 3.75, 5.00},
		{"coarse gravel", 4.00, 6.00},
		{"cobbles and shingle", 5.00, 5.50},
	}
	out := make([]PermissibleVelocity, len(rows))
	for i, r := range rows {
		out[i] = PermissibleVelocity{r.bed, r.clear * fps, r.silt * fps}
	}
	return out
}

// ScourNotice holds the mean velocity of a flow at a depth against a permissible
// velocity and returns a notice, and true, when it is higher.
func ScourNotice(s Section, flow units.Flow, depth units.Length, limit PermissibleVelocity) (units.Notice, bool) {
	v := float64(flow) / float64(s.Area(depth))
	n, out := units.Outside(CodeScour, "velocity at the outfall", v, 0, float64(limit.ClearWater), "m/s",
		"Fortier & Scobey 1926, Trans. ASCE 89 (from memory): "+limit.Bed)
	if out {
		n.Severity = units.Warning
	}
	return n, out
}
