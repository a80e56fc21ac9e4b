package biomass

import (
	"math"

	"pondwright.example/units"
)

// GainFromFeed returns the live weight gained on an amount of feed at a feed
// conversion ratio (feed per gain, dimensionless, above zero).
//
//	gain = F / FCR
//
// The ratio is the farm's own record; its error is the error of the result.
//
// Errors: ErrDomain for a feed that is negative or a ratio not above zero.
//
// Source: by definition of the feed conversion ratio.
func GainFromFeed(feed units.Mass, conversion float64) (units.Mass, error) {
	const fn = "biomass.GainFromFeed"
	if err := units.NonNegative(fn, "feed", feed.Kilograms(), "kg"); err != nil {
		return units.Mass(math.NaN()), err
	}
	if err := units.Positive(fn, "conversion", conversion, ""); err != nil {
		return units.Mass(math.NaN()), err
	}
	return units.Kilograms.Of(feed.Kilograms() / conversion), nil
}

// StockFromRation returns the standing stock that a daily ration feeds at a
// feeding rate (fraction of body weight per day, above 0 and at most 1).
//
//	B = ration / rate
//
// Errors: ErrDomain for a ration that is negative or a rate outside 0 to 1.
//
// Source: by definition of the feeding rate.
func StockFromRation(daily units.Mass, rate float64) (units.Mass, error) {
	const fn = "biomass.StockFromRation"
	if err := units.NonNegative(fn, "daily", daily.Kilograms(), "kg"); err != nil {
		return units.Mass(math.NaN()), err
	}
	if err := fraction(fn, "rate", rate); err != nil {
		return units.Mass(math.NaN()), err
	}
	return units.Kilograms.Of(daily.Kilograms() / rate), nil
}
