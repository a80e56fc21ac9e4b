package drawdown

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// Turbulence is how disturbed the water is that runs over the stones:
// [HighTurbulence] or [LowTurbulence].
type Turbulence uint8

const (
	HighTurbulence Turbulence = iota // below a pipe or gate, Isbash C = 0.86
	LowTurbulence                    // tranquil channel flow, Isbash C = 1.20
)

// IsbashStone returns the median diameter of stone that stays put at the
// outfall in water of the given velocity.
//
// Equation: D50 = (V/C)^2/(2 g (S - 1)), S the stone's specific gravity.
//
// Validity: loose stone on a nearly level bed; slopes and bends need more.
// Errors: velocity negative, specific gravity not within 1.5 to 4, unknown
// turbulence.
//
// Source: Isbash (1936), Construction of dams by depositing rock in running
// water, with the constants of NCHRP (2006), Report 568, p. 14. A licensed
// engineer decides on the protection of a dike.
func IsbashStone(velocity units.Velocity, specificGravity float64, turbulence Turbulence) (units.Length, error) {
	const fn = "drawdown.IsbashStone"
	err := errors.Join(units.NonNegative(fn, "velocity", float64(velocity), "m/s"), units.Within(fn, "specificGravity", specificGravity, 1.5, 4, ""))
	if turbulence > LowTurbulence {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "turbulence", Value: float64(turbulence), Reason: "not a named turbulence"})
	}
	if err != nil {
		return units.Length(math.NaN()), err
	}
	c := 0.86
	if turbulence == LowTurbulence {
		c = 1.20
	}
	v := float64(velocity) / c
	return units.Length(v * v / (2 * standardGravity * (specificGravity - 1))), nil
}

// CodeOutfallVelocity tells that the outfall may scour.
const CodeOutfallVelocity = "DRAW_OUTFALL_VELOCITY"

// Outfall is the ditch or pipe end that receives the pond's water.
type Outfall struct {
	Flow  units.Flow     `json:"flow"`
	Area  units.Area     `json:"area"`            // of the water's cross-section
	Limit units.Velocity `json:"limit,omitempty"` // permissible for the soil or lining, the user's; zero: none
}

// OutfallResult is the velocity at an outfall.
type OutfallResult struct {
	Velocity units.Velocity `json:"velocity"`
	Notices  []units.Notice `json:"notices,omitempty"`
}

// Velocity returns the mean velocity at the outfall, with a notice when it
// passes the limit.
//
// Equation: v = Q/A. Source: by definition. Errors: flow negative, area not
// positive.
func (o Outfall) Velocity() (OutfallResult, error) {
	const fn = "drawdown.Outfall"
	if err := errors.Join(units.NonNegative(fn, "flow", float64(o.Flow), "m3/s"), units.Positive(fn, "area", float64(o.Area), "m2"),
		units.NonNegative(fn, "limit", float64(o.Limit), "m/s")); err != nil {
		return OutfallResult{}, err
	}
	r := OutfallResult{Velocity: o.Flow.Through(o.Area)}
	if o.Limit > 0 && r.Velocity > o.Limit {
		r.Notices = append(r.Notices, units.Notice{Code: CodeOutfallVelocity, Severity: units.Warning, Field: "velocity", Value: float64(r.Velocity),
			Limit: float64(o.Limit), Unit: "m/s", Message: fmt.Sprintf("the outfall runs at %.2g m/s, above the %.2g m/s that its bed stands: protect it or drain slower", float64(r.Velocity), float64(o.Limit))})
	}
	return r, nil
}
