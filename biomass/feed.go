package biomass

import (
	"errors"
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
	return sound(fn, units.Kilograms.Of(feed.Kilograms()/conversion))
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
	return sound(fn, units.Kilograms.Of(daily.Kilograms()/rate))
}

// FeedRecord is what was fed to a pond since a mass was known to stand in it.
type FeedRecord struct {
	// Start is the mass at the start of the record; zero for postlarvae that weigh
	// next to nothing.
	Start units.Mass `json:"start"`
	// Feed is all feed given since, FeedCV its relative standard uncertainty.
	Feed   units.Mass `json:"feed"`
	FeedCV float64    `json:"feedCV"`
	// Conversion is the feed conversion ratio over the record, feed per mass gained
	// by the animals still alive, ConversionCV its relative standard uncertainty.
	Conversion   float64 `json:"conversion"`
	ConversionCV float64 `json:"conversionCV"`
	// Taken is what partial harvests took since.
	Taken units.Mass `json:"taken"`
}

// Names of the errors of a feed-based estimate.
const (
	PartFeed        = "feed record"
	ErrorFeed       = "feed given"
	ErrorConversion = "feed conversion"
)

// Estimate returns the standing crop that the feed record shows, to be blended
// with others.
//
//	B = start + F/FCR − taken,  cᵢ = (F/FCR) cvᵢ / B
//
// Errors: ErrDomain for amounts that cannot be, or when more was taken than there
// can have been.
//
// Source: by definition of the feed conversion ratio; errors to first order,
// JCGM 100:2008 eq. 10 (from memory).
func (r FeedRecord) Estimate() (Estimate, error) {
	const fn = "biomass.FeedRecord"
	gain, err := GainFromFeed(r.Feed, r.Conversion)
	err = errors.Join(err, units.NonNegative(fn, "start", r.Start.Kilograms(), "kg"), units.NonNegative(fn, "taken", r.Taken.Kilograms(), "kg"),
		units.NonNegative(fn, "feedCV", r.FeedCV, ""), units.NonNegative(fn, "conversionCV", r.ConversionCV, ""))
	if err != nil {
		return Estimate{}, err
	}
	stand := r.Start + gain - r.Taken
	if !(stand > 0) {
		return Estimate{}, &units.InputError{Func: fn, Field: "taken", Value: r.Taken.Kilograms(), Unit: "kg", Max: (r.Start + gain).Kilograms(),
			Reason: "more than the feed can have grown: check the feed conversion"}
	}
	part := float64(gain / stand)
	return NewEstimate(PartFeed, stand, Component{Name: ErrorFeed, CV: part * r.FeedCV}, Component{Name: ErrorConversion, CV: part * r.ConversionCV})
}
