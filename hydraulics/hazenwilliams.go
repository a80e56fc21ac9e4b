package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Constants of the Hazen-Williams formula in SI, from V = 0.849 C R^0.63 S^0.54.
const (
	hazenConstant     = 10.67
	hazenExponent     = 1.852
	hazenBoreExponent = 4.8704

	minHazenC, maxHazenC               = 60.0, 160.0
	minHazenBore                       = 0.050      // m
	minHazenVelocity, maxHazenVelocity = 0.3, 3.0   // m/s
	minHazenNu, maxHazenNu             = 8e-7, 2e-6 // m2/s: water from 0 to 30 °C
)

func hazenWilliams(q, d, l, c float64) float64 {
	return hazenConstant * l * math.Pow(q/c, hazenExponent) / math.Pow(d, hazenBoreExponent)
}

func hazenWilliamsC(fn, field string, c float64) error {
	if c >= minHazenC && c <= maxHazenC {
		return nil
	}
	return &units.InputError{Func: fn, Field: field, Value: c, Min: minHazenC, Max: maxHazenC,
		Reason: "the coefficient of published tables: 150 new plastic, 130 new steel, 100 old iron, 60 corrugated"}
}

// HazenWilliams returns the head lost to friction over a length of pipe.
//
// Equation: h = 10.67 L Q^1.852/(C^1.852 D^4.8704), SI.
//
// Validity: water near 15 °C, bore from 50 mm, speed 0.3 to 3 m/s, C 60 to 160.
// ErrRange with the value for another bore or speed, ErrDomain for another C: the
// formula knows no viscosity and is not for oil.
//
// Source: Williams & Hazen 1905, Hydraulic Tables; SI constants from V = 0.849 C
// R^0.63 S^0.54.
//
// Accuracy: within 5 to 10 % of [Colebrook] inside its range, worse outside.
func HazenWilliams(q units.Flow, bore, length units.Length, c float64) (units.Length, error) {
	const fn = "hydraulics.HazenWilliams"
	err := errors.Join(units.NonNegative(fn, "q", q.CubicMetresPerSecond(), "m3/s"), boreError(fn, "bore", bore),
		units.NonNegative(fn, "length", length.Metres(), "m"), hazenWilliamsC(fn, "c", c))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	d := bore.Metres()
	var errs []error
	if d < minHazenBore {
		errs = append(errs, &units.InputError{Func: fn, Field: "bore", Value: d,
			Unit: "m", Min: minHazenBore, Max: MaxBore.Metres(), Kind: units.ErrRange})
	}
	if v := q.CubicMetresPerSecond() / (math.Pi / 4 * d * d); q != 0 && !(v >= minHazenVelocity && v <= maxHazenVelocity) {
		errs = append(errs, &units.InputError{Func: fn, Field: "q", Value: v, Unit: "m/s", Min: minHazenVelocity, Max: maxHazenVelocity,
			Reason: "speed in the bore", Kind: units.ErrRange})
	}
	return units.Length(finite(hazenWilliams(q.CubicMetresPerSecond(), d, length.Metres(), c))), errors.Join(errs...)
}
