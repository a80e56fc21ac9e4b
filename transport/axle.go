package transport

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// PlacedMass is a mass at a distance behind the front axle.
type PlacedMass struct {
	Mass units.Mass   `json:"mass"`
	At   units.Length `json:"at"` // negative in front of the front axle
}

// AxleLoads returns the masses on the front and rear axle of a two-axle vehicle,
// tare included when it is among the masses:
//
//	rear = Σ m·x/W ,  front = Σ m - rear
//
// Validity: wheelbase 1 to 20 m, masses not negative. A negative axle load, a
// vehicle about to tip, is ErrNoSolution beside the two values; other errors are
// ErrDomain beside NaN.
//
// Source: balance of moments about the front axle.
func AxleLoads(wheelbase units.Length, masses []PlacedMass) (front, rear units.Mass, err error) {
	const fn = "transport.AxleLoads"
	nan := units.Mass(math.NaN())
	if err := units.Within(fn, "wheelbase", float64(wheelbase), 1, 20, "m"); err != nil {
		return nan, nan, err
	}
	var total, moment float64
	for i, p := range masses {
		at := fmt.Sprintf("masses[%d]", i)
		if err := errors.Join(bounds.Amount(fn, at+".Mass", float64(p.Mass), "kg"), units.Within(fn, at+".At", float64(p.At), -5, 30, "m")); err != nil {
			return nan, nan, err
		}
		total += float64(p.Mass)
		moment += float64(p.Mass) * float64(p.At)
	}
	r := moment / float64(wheelbase)
	front, rear = units.Mass(total-r), units.Mass(r)
	if front < 0 || rear < 0 {
		return front, rear, &units.InputError{Func: fn, Field: "masses", Value: min(total-r, r), Unit: "kg on an axle", Min: 0, Max: total,
			Reason: "the vehicle would tip", Kind: units.ErrNoSolution}
	}
	return front, rear, nil
}

// BridgeFormula returns the gross mass that the United States federal bridge
// formula allows on a group of axles:
//
//	W = 500·(L·N/(N-1) + 12·N + 36)   lb, to the nearest 500 lb
//
// with L the distance between the first and last axle of the group in feet and N
// their number. Single axles (20,000 lb), tandems (34,000 lb) and gross
// (80,000 lb) have limits of their own; states and other countries differ: the
// limit to load by is the user's.
//
// Validity: 2 to 9 axles, 4 to 120 ft; otherwise ErrDomain with NaN.
//
// Source: FHWA, Bridge Formula Weights, FHWA-HOP-19-028.
func BridgeFormula(length units.Length, axles int) (units.Mass, error) {
	const fn = "transport.BridgeFormula"
	l, n := length.In(units.Feet), float64(axles)
	if err := errors.Join(units.Within(fn, "length", l, 4, 120, "ft"), units.Within(fn, "axles", n, 2, 9, "")); err != nil {
		return units.Mass(math.NaN()), err
	}
	w := 500 * (l*n/(n-1) + 12*n + 36)
	return units.Pounds.Of(500 * math.Round(w/500)), nil
}
