package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// GradePrice is one class of a crop with its price.
type GradePrice struct {
	// Share is the fraction of the mass in the class.
	Share float64 `json:"share"`
	// PricePerKilogram is in the caller's currency.
	PricePerKilogram float64 `json:"pricePerKg"`
}

// GradeValueResult is what a crop brings at grade prices, in the currency of the
// prices.
type GradeValueResult struct {
	Value float64 `json:"value"`
	// SD is the standard uncertainty of Value from the mass and from the shares,
	// GradeSD the part from the shares alone.
	SD      float64 `json:"sd"`
	GradeSD float64 `json:"gradeSD"`
	// MeanPrice is Value per kilogram.
	MeanPrice float64 `json:"meanPrice"`
}

// GradeValue returns the value of a crop sold by class, with the uncertainty
// that a sample of n animals leaves in the shares.
//
//	V = B Σ gₖ pₖ
//	var(Σ gₖ pₖ) = (Σ gₖ pₖ² − (Σ gₖ pₖ)²)/n     (multinomial shares)
//	CV²(V) = (1 + c_B²)(1 + c_g²) − 1
//
// The shares are taken as those of n equal portions of mass, which is exact for
// number shares and close for mass shares of a narrow crop.
//
// Errors: ErrDomain for no classes, shares outside 0 to 1 or not summing to one,
// a price that is negative, an n below one or an estimate without a mass.
//
// Source: multinomial covariance: Johnson, Kotz and Balakrishnan (1997), Discrete
// Multivariate Distributions, ch. 35; product: Goodman (1960) (both from memory).
func GradeValue(crop Estimate, classes []GradePrice, n int) (GradeValueResult, error) {
	const fn = "biomass.GradeValue"
	all := []error{units.Positive(fn, "crop.p50", crop.P50.Kilograms(), "kg")}
	if n < 1 {
		all = append(all, &units.InputError{Func: fn, Field: "n", Value: float64(n), Reason: "at least one animal was graded"})
	}
	sum, mean, square := 0.0, 0.0, 0.0
	for i, c := range classes {
		all = append(all, units.Within(fn, indexed("classes", i)+".share", c.Share, 0, 1, ""),
			units.NonNegative(fn, indexed("classes", i)+".pricePerKg", c.PricePerKilogram, "1/kg"))
		sum += c.Share
		mean += c.Share * c.PricePerKilogram
		square += c.Share * c.PricePerKilogram * c.PricePerKilogram
	}
	if !(math.Abs(sum-1) < 1e-6) {
		all = append(all, &units.InputError{Func: fn, Field: "classes", Value: sum, Reason: "the shares must sum to one"})
	}
	if err := errors.Join(all...); err != nil {
		return GradeValueResult{}, err
	}
	mass := crop.P50.Kilograms()
	r := GradeValueResult{Value: mass * mean, MeanPrice: mean}
	if mean == 0 {
		return r, nil
	}
	gradeCV := math.Sqrt(math.Max(0, square-mean*mean)/float64(n)) / mean
	r.GradeSD = r.Value * gradeCV
	r.SD = r.Value * math.Sqrt((1+crop.CV*crop.CV)*(1+gradeCV*gradeCV)-1)
	if err := soundAll(fn, r.Value, r.MeanPrice, r.GradeSD, r.SD); err != nil {
		return GradeValueResult{}, err
	}
	return r, nil
}
