package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Stock is a number of animals with their mean weight.
type Stock struct {
	Animals    float64    `json:"animals"`
	MeanWeight units.Mass `json:"meanWeight"`
	// SD is the standard uncertainty of the standing mass.
	SD units.Mass `json:"sd"`
}

// Mass returns the standing mass, Animals · MeanWeight.
//
// Source: by definition.
func (s Stock) Mass() units.Mass { return s.MeanWeight * units.Mass(s.Animals) }

// After returns what is left of a stock when animals of another mean weight, the
// larger ones as a rule, are taken.
//
//	N' = N − n,  w' = (N w − n w_h)/(N − n),  u'² = u² + u_h²
//
// Errors: ErrDomain for numbers or weights that cannot be, or when more animals
// or more mass are taken than there are; ErrNoSolution when all are taken, which
// leaves no mean weight.
//
// Source: conservation of number and mass.
func (s Stock) After(taken Stock) (Stock, error) {
	const fn = "biomass.Stock.After"
	err := errors.Join(
		units.Positive(fn, "animals", s.Animals, "animals"), units.Positive(fn, "meanWeight", s.MeanWeight.Kilograms(), "kg"),
		units.NonNegative(fn, "sd", s.SD.Kilograms(), "kg"),
		units.NonNegative(fn, "taken.animals", taken.Animals, "animals"), units.NonNegative(fn, "taken.meanWeight", taken.MeanWeight.Kilograms(), "kg"),
		units.NonNegative(fn, "taken.sd", taken.SD.Kilograms(), "kg"))
	if taken.Animals > s.Animals {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "taken.animals", Value: taken.Animals, Unit: "animals", Max: s.Animals,
			Reason: "more than there are"})
	}
	if err != nil {
		return Stock{}, err
	}
	if taken.Animals == s.Animals {
		return Stock{}, &units.InputError{Func: fn, Field: "taken.animals", Value: taken.Animals, Unit: "animals", Kind: units.ErrNoSolution,
			Reason: "all are taken: nothing is left to have a mean weight"}
	}
	left := s.Mass() - taken.Mass()
	if !(left > 0) {
		return Stock{}, &units.InputError{Func: fn, Field: "taken.meanWeight", Value: taken.MeanWeight.Kilograms(), Unit: "kg",
			Reason: "more mass than there is: the animals taken are too heavy for the stock's mean weight"}
	}
	r := Stock{Animals: s.Animals - taken.Animals, SD: units.Kilograms.Of(math.Hypot(s.SD.Kilograms(), taken.SD.Kilograms()))}
	r.MeanWeight = left / units.Mass(r.Animals)
	if err := soundAll(fn, r.MeanWeight.Kilograms(), r.SD.Kilograms()); err != nil {
		return Stock{}, err
	}
	return r, nil
}
