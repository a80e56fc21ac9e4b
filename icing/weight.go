package icing

import (
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Glaze returns the share of a glazed product's gross mass that is ice:
// (gross - net)/gross, 0 to below 1. Net weight excludes glaze by trade custom
// and most laws.
//
// Validity: 0 < net <= gross; errors are ErrDomain with NaN.
//
// Source: by definition.
func Glaze(gross, net units.Mass) (float64, error) {
	return lostShare("icing.Glaze", "gross", "net", float64(gross), float64(net))
}

// Drip returns the share of the mass lost between two weighings:
// (before - after)/before. Drained, iced shrimp lose 0.5 to 3 % a week and may
// gain 1 to 3 % on the first day (from memory): a gain is negative.
//
// Validity: before above zero, after above zero and at most 1.2 of it; errors
// are ErrDomain with NaN.
//
// Source: by definition.
func Drip(before, after units.Mass) (float64, error) {
	const fn = "icing.Drip"
	if err := bounds.Positive(fn, "before", float64(before), "kg"); err != nil {
		return math.NaN(), err
	}
	if err := units.Within(fn, "after", float64(after), bounds.Least, 1.2*float64(before), "kg"); err != nil {
		return math.NaN(), err
	}
	return float64(before-after) / float64(before), nil
}

func lostShare(fn, whole, rest string, a, b float64) (float64, error) {
	if err := bounds.Positive(fn, whole, a, "kg"); err != nil {
		return math.NaN(), err
	}
	if err := units.Within(fn, rest, b, bounds.Least, a, "kg"); err != nil {
		return math.NaN(), err
	}
	return (a - b) / a, nil
}

// Gross returns the mass to pack, glaze included or loss allowed for, so that
// net remains: net/(1 - share).
//
// Validity: net not negative, share 0 to below 1 (0.9 here); errors are
// ErrDomain with NaN.
//
// Source: by definition.
func Gross(net units.Mass, share float64) (units.Mass, error) {
	const fn = "icing.Gross"
	if err := bounds.Amount(fn, "net", float64(net), "kg"); err != nil {
		return units.Mass(math.NaN()), err
	}
	if err := units.Within(fn, "share", share, 0, 0.9, ""); err != nil {
		return units.Mass(math.NaN()), err
	}
	return net / units.Mass(1-share), nil
}
