package biomass

import (
	"errors"
	"math"
	"time"

	"pondwright.example/units"
)

// WeightProjection carries a sampled mean weight on to the day of harvest.
type WeightProjection struct {
	// Sampled is the mean weight at sampling, SampledCV its relative standard
	// uncertainty.
	Sampled   units.Mass `json:"sampled"`
	SampledCV float64    `json:"sampledCV"`
	// Gain is the weight gained per week, GainCV its relative standard uncertainty.
	Gain   units.Mass `json:"gain"`
	GainCV float64    `json:"gainCV"`
	// Elapsed is the time from sampling to harvest.
	Elapsed time.Duration `json:"elapsed"`
}

// Project returns the mean weight at harvest and its relative standard
// uncertainty.
//
//	w = w₀ + g t,  u² = (w₀ c₀)² + (g t c_g)²
//
// The gain may be negative, for animals held without feed.
//
// Errors: ErrDomain for a weight not above zero at either end, an uncertainty or
// time that is negative, or a gain that is not finite.
//
// Source: straight line over the few days between sampling and harvest, common
// practice; errors to first order, JCGM 100:2008 eq. 10 (from memory).
func (p WeightProjection) Project() (mean units.Mass, cv float64, err error) {
	const fn = "biomass.WeightProjection"
	err = errors.Join(units.Positive(fn, "sampled", p.Sampled.Kilograms(), "kg"), units.NonNegative(fn, "sampledCV", p.SampledCV, ""),
		units.Finite(fn, "gain", p.Gain.Kilograms(), "kg"), units.NonNegative(fn, "gainCV", p.GainCV, ""),
		units.NonNegative(fn, "elapsed", p.Elapsed.Hours()/24, "d"))
	weeks := p.Elapsed.Hours() / (7 * 24)
	grown := p.Gain.Kilograms() * weeks
	kg := p.Sampled.Kilograms() + grown
	if err == nil {
		err = units.Positive(fn, "gain", kg, "kg at harvest")
	}
	if err != nil {
		return units.Mass(math.NaN()), math.NaN(), err
	}
	cv = math.Hypot(p.Sampled.Kilograms()*p.SampledCV, grown*p.GainCV) / kg
	if err := soundAll(fn, cv); err != nil {
		return units.Mass(math.NaN()), math.NaN(), err
	}
	return units.Kilograms.Of(kg), cv, nil
}
