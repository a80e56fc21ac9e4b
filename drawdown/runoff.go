package drawdown

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// RunoffDepth returns the depth of water that a storm sends off a catchment of
// the given curve number: what a rain adds to a pond besides what falls on it.
//
// Equation: S = 25.4 (1000/CN - 10) mm, Q = (P - 0.2 S)^2/(P + 0.8 S) for P >
// 0.2 S, else 0.
//
// Validity: curve numbers 30 to 100, below with units.ErrRange; whole storms,
// not snow melt. Errors: rain negative, curve number not above 0 and at most
// 100.
//
// Source: USDA Soil Conservation Service (1986), Urban hydrology for small
// watersheds, Technical Release 55, eqs 2-3 and 2-4.
func RunoffDepth(rain units.Length, curveNumber float64) (units.Length, error) {
	const fn = "drawdown.RunoffDepth"
	err := units.NonNegative(fn, "rain", float64(rain), "m")
	if !(curveNumber > 0 && curveNumber <= 100) {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "curveNumber", Value: curveNumber, Min: 0, Max: 100, Reason: "a curve number lies above 0 and is at most 100"})
	}
	if err != nil {
		return units.Length(math.NaN()), err
	}
	s := 0.0254 * (1000/curveNumber - 10) // eq. 2-4
	q := 0.0
	if p := float64(rain); p > 0.2*s {
		q = (p - 0.2*s) * (p - 0.2*s) / (p + 0.8*s) // eq. 2-3
	}
	if curveNumber < 30 {
		return units.Length(q), &units.InputError{Func: fn, Field: "curveNumber", Value: curveNumber, Min: 30, Max: 100, Kind: units.ErrRange, Reason: "curve number method"}
	}
	return units.Length(q), nil
}
