package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// CountOf returns the count, animals per mass, of animals with the given mean
// weight: 28.35 g is 16 per pound.
//
// Errors: ErrDomain for a mean weight not above zero.
//
// Source: by definition; the pound is 0.45359237 kg exactly.
func CountOf(meanWeight units.Mass) (units.CountPerMass, error) {
	const fn = "biomass.CountOf"
	if err := units.Positive(fn, "meanWeight", meanWeight.Kilograms(), "kg"); err != nil {
		return units.CountPerMass(math.NaN()), err
	}
	return sound(fn, units.CountsPerKilogram.Of(1/meanWeight.Kilograms()))
}

// WeightAtCount returns the mean weight of animals of the given count.
//
// Errors: ErrDomain for a count not above zero.
//
// Source: by definition, the inverse of [CountOf].
func WeightAtCount(count units.CountPerMass) (units.Mass, error) {
	const fn = "biomass.WeightAtCount"
	if err := units.Positive(fn, "count", count.CountsPerKilogram(), "1/kg"); err != nil {
		return units.Mass(math.NaN()), err
	}
	return sound(fn, units.Kilograms.Of(1/count.CountsPerKilogram()))
}

// HeadlessCount returns the count of the tails of animals of the given head-on
// count, for a tail yield (tail mass per whole mass, above 0 and at most 1).
//
//	c_tail = c_whole / y
//
// The yield depends on species, size, cut and drain time: use the plant's.
//
// Errors: ErrDomain for a count not above zero or a yield outside 0 to 1.
//
// Source: by definition of the yield.
func HeadlessCount(headOn units.CountPerMass, yield float64) (units.CountPerMass, error) {
	const fn = "biomass.HeadlessCount"
	if err := errors.Join(units.Positive(fn, "headOn", headOn.CountsPerKilogram(), "1/kg"), fraction(fn, "yield", yield)); err != nil {
		return units.CountPerMass(math.NaN()), err
	}
	return sound(fn, headOn/units.CountPerMass(yield))
}

// HeadOnCount returns the head-on count of animals whose tails have the given
// count, for a tail yield.
//
//	c_whole = c_tail · y
//
// Errors: as [HeadlessCount].
//
// Source: by definition of the yield.
func HeadOnCount(headless units.CountPerMass, yield float64) (units.CountPerMass, error) {
	const fn = "biomass.HeadOnCount"
	if err := errors.Join(units.Positive(fn, "headless", headless.CountsPerKilogram(), "1/kg"), fraction(fn, "yield", yield)); err != nil {
		return units.CountPerMass(math.NaN()), err
	}
	return headless * units.CountPerMass(yield), nil
}

// Yields that the trade meets: wild shrimp a little over 0.60, pond-grown
// whiteleg shrimp 0.62 to 0.66, all species and cuts 0.52 to 0.70.
const (
	lowYield  = 0.52
	highYield = 0.70
)

// yieldNotice tells of a tail yield that the trade does not meet.
func yieldNotice(yield float64) (units.Notice, bool) {
	n, out := units.Outside(CodeUnusualYield, "yield", yield, lowYield, highYield, "", "common practice, no source")
	if out {
		n.Message = "a tail yield between 0.52 and 0.70 is usual: check whether head-on and headless were exchanged"
	}
	return n, out
}
