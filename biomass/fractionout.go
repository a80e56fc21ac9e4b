package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// FractionOut is the whole crop seen from what has been delivered so far, when
// the fraction of it that is out is uncertain: Delivered/F with F distributed as
// Beta(A, B).
type FractionOut struct {
	Delivered units.Mass `json:"delivered"`
	A         float64    `json:"a"`
	B         float64    `json:"b"`
}

// FractionFromMean returns the FractionOut for a fraction out with a mean and a
// standard deviation.
//
//	A + B = m(1−m)/s² − 1,  A = m (A + B)
//
// Errors: ErrDomain for a delivered mass, mean or standard deviation not above
// zero, a mean not below one, or a standard deviation too large for the mean.
//
// Source: moments of the beta distribution.
func FractionFromMean(delivered units.Mass, mean, sd float64) (FractionOut, error) {
	const fn = "biomass.FractionFromMean"
	err := errors.Join(units.Positive(fn, "delivered", delivered.Kilograms(), "kg"), units.Positive(fn, "sd", sd, ""))
	if !(mean > 0 && mean < 1) {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "mean", Value: mean, Reason: "a fraction above 0 and below 1"})
	}
	total := mean*(1-mean)/(sd*sd) - 1
	if err == nil && !(mean*total > 0) {
		err = &units.InputError{Func: fn, Field: "sd", Value: sd, Max: math.Sqrt(mean * (1 - mean)), Reason: "too large for a fraction with this mean"}
	}
	if err != nil {
		return FractionOut{}, err
	}
	if err := soundAll(fn, total); err != nil {
		return FractionOut{}, err
	}
	return FractionOut{Delivered: delivered, A: mean * total, B: (1 - mean) * total}, nil
}

func (f FractionOut) validate(fn string, least float64) error {
	err := errors.Join(units.Positive(fn, "delivered", f.Delivered.Kilograms(), "kg"), units.Positive(fn, "b", f.B, ""))
	if !(f.A > least) || math.IsInf(f.A, 0) {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "a", Value: f.A, Min: least, Max: math.Inf(1),
			Reason: "the fraction out is too uncertain for this answer; ask for a quantile"})
	}
	return err
}

// Mean returns the expected crop, D (A+B−1)/(A−1).
//
// Errors: ErrDomain unless A is above 1.
//
// Source: moment of the inverse of a beta variable, closed form.
func (f FractionOut) Mean() (units.Mass, error) {
	const fn = "biomass.FractionOut.Mean"
	if err := f.validate(fn, 1); err != nil {
		return units.Mass(math.NaN()), err
	}
	return sound(fn, f.Delivered*units.Mass((f.A+f.B-1)/(f.A-1)))
}

// SD returns the standard deviation of the crop, from
// E[1/F²] = (A+B−1)(A+B−2)/((A−1)(A−2)).
//
// Errors: ErrDomain unless A is above 2.
//
// Source: moment of the inverse of a beta variable, closed form.
func (f FractionOut) SD() (units.Mass, error) {
	const fn = "biomass.FractionOut.SD"
	if err := f.validate(fn, 2); err != nil {
		return units.Mass(math.NaN()), err
	}
	// E[1/F²] − E[1/F]² = B (A+B−1)/((A−1)² (A−2)), without cancellation.
	v := f.B * (f.A + f.B - 1) / ((f.A - 1) * (f.A - 1) * (f.A - 2))
	return sound(fn, f.Delivered*units.Mass(math.Sqrt(v)))
}

// Quantile returns the crop below which a fraction p of the distribution lies,
// D over the quantile 1 − p of the fraction out.
//
// Errors: ErrDomain for a p outside 0 to 1 or parameters not above zero.
//
// Source: closed form.
func (f FractionOut) Quantile(p float64) (units.Mass, error) {
	const fn = "biomass.FractionOut.Quantile"
	err := f.validate(fn, 0)
	if !(p > 0 && p < 1) {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "p", Value: p, Reason: "a probability above 0 and below 1"})
	}
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	return sound(fn, f.Delivered/units.Mass(betaQuantile(1-p, f.A, f.B)))
}
