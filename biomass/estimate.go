package biomass

import (
	"errors"
	"math"
	"strconv"

	"pondwright.example/units"
)

// Component is one named error of an estimate.
type Component struct {
	Name string `json:"name"`
	// CV is the relative standard uncertainty it gives the estimate, a fraction.
	CV float64 `json:"cv"`
	// Common marks an error that is one and the same in every estimate that
	// names it, such as the mean weight behind two counts. A blend cannot average
	// it away.
	Common bool `json:"common,omitempty"`
	// Share is its part of the estimate's variance on the logarithmic scale;
	// the shares of a budget sum to one. Output only.
	Share float64 `json:"share"`
}

// Estimate is an uncertain mass: lognormal about its median P50, with the named
// errors that make its spread. Build one with [NewEstimate].
type Estimate struct {
	Name string     `json:"name"`
	P10  units.Mass `json:"p10"`
	P50  units.Mass `json:"p50"`
	P90  units.Mass `json:"p90"`
	// CV is the coefficient of variation of the lognormal, a fraction.
	CV float64 `json:"cv"`
	// LogSD is the standard deviation of its natural logarithm.
	LogSD float64 `json:"logSD"`
	// Budget lists the errors, Dominant names the largest; it is empty when the
	// estimate is exact.
	Budget   []Component `json:"budget,omitempty"`
	Dominant string      `json:"dominant"`
}

// NewEstimate returns the estimate with median p50 and the given independent
// errors. The point value is taken as the median; relative errors multiply, so
// that LogSD² = Σ ln(1 + cᵢ²).
//
// Errors: ErrDomain for a p50 that is not above zero, a cv that is negative, or
// an error without a name.
func NewEstimate(name string, p50 units.Mass, errs ...Component) (Estimate, error) {
	const fn = "biomass.NewEstimate"
	var all []error
	all = append(all, units.Positive(fn, "p50", p50.Kilograms(), "kg"))
	budget := make([]Component, 0, len(errs))
	for i, c := range errs {
		if c.Name == "" {
			all = append(all, &units.InputError{Func: fn, Field: indexed("errs", i) + ".name", Value: c.CV, Reason: "an error needs a name"})
		}
		all = append(all, units.NonNegative(fn, indexed("errs", i)+".cv", c.CV, ""))
		budget = append(budget, c)
	}
	if err := errors.Join(all...); err != nil {
		return Estimate{}, err
	}
	variance := 0.0
	for _, c := range budget {
		variance += math.Log1p(c.CV * c.CV)
	}
	e := Estimate{Name: name, Budget: budget}
	e.spread(p50.Kilograms(), variance)
	e.share(func(c Component) float64 { return math.Log1p(c.CV * c.CV) })
	if err := e.sound(fn); err != nil {
		return Estimate{}, err
	}
	return e, nil
}

// spread sets the quantiles of e from its median in kilograms and the variance
// of its logarithm.
func (e *Estimate) spread(median, variance float64) {
	e.LogSD = math.Sqrt(variance)
	l := Lognormal{Median: median, LogSD: e.LogSD}
	e.CV = l.CV()
	e.P10 = units.Kilograms.Of(l.Quantile(0.10))
	e.P50 = units.Kilograms.Of(median)
	e.P90 = units.Kilograms.Of(l.Quantile(0.90))
}

// sound refuses an estimate whose numbers are not finite.
func (e *Estimate) sound(fn string) error {
	err := soundAll(fn, e.P10.Kilograms(), e.P50.Kilograms(), e.P90.Kilograms(), e.CV, e.LogSD)
	for _, c := range e.Budget {
		err = errors.Join(err, soundAll(fn, c.CV, c.Share))
	}
	return err
}

// share fills the shares of the budget from each component's variance and names
// the largest.
func (e *Estimate) share(variance func(Component) float64) {
	total, best := 0.0, 0.0
	for _, c := range e.Budget {
		total += variance(c)
	}
	if !(total > 0) {
		return
	}
	for i := range e.Budget {
		v := variance(e.Budget[i])
		e.Budget[i].Share = v / total
		if v > best {
			best, e.Dominant = v, e.Budget[i].Name
		}
	}
}

// Lognormal returns the distribution of the estimate, in kilograms.
func (e Estimate) Lognormal() Lognormal {
	return Lognormal{Median: e.P50.Kilograms(), LogSD: e.LogSD}
}

// Quantile returns the mass below which a fraction p of the distribution lies,
// 0 < p < 1.
//
// Errors: ErrDomain for a p outside.
//
// Source: see [Lognormal.Quantile].
func (e Estimate) Quantile(p float64) (units.Mass, error) {
	if !(p > 0 && p < 1) {
		return units.Mass(math.NaN()), &units.InputError{Func: "biomass.Estimate.Quantile", Field: "p", Value: p,
			Reason: "a probability above 0 and below 1"}
	}
	return sound("biomass.Estimate.Quantile", units.Kilograms.Of(e.Lognormal().Quantile(p)))
}

// Mean returns the arithmetic mean of the distribution, above its median.
//
// Source: see [Lognormal.Mean].
func (e Estimate) Mean() units.Mass { return units.Kilograms.Of(e.Lognormal().Mean()) }

// ProbabilityBelow returns the probability that the mass is at most m.
//
// Source: see [Lognormal.CDF].
func (e Estimate) ProbabilityBelow(m units.Mass) float64 { return e.Lognormal().CDF(m.Kilograms()) }

// clone returns e with a budget of its own.
func (e Estimate) clone() Estimate {
	e.Budget = append([]Component(nil), e.Budget...)
	return e
}

// indexed returns "name[i]".
func indexed(name string, i int) string { return name + "[" + strconv.Itoa(i) + "]" }
