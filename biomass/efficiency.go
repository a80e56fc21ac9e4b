package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// CalibrateEfficiency returns the catch efficiency to plan the next harvest with
// and its standard uncertainty, from the efficiencies that past harvests turned
// out to have ([HarvestAccount]). The uncertainty is that of one further pond, not
// of the mean:
//
//	e = Σeᵢ/n,  σ = s √(1 + 1/n)
//
// Errors: ErrDomain for an efficiency outside 0 to 1; ErrNoSolution for fewer
// than two harvests, which show no spread.
//
// Source: prediction of one further observation: Draper and Smith (1998), Applied
// Regression Analysis, sec. 1.4 (from memory).
func CalibrateEfficiency(past []float64) (efficiency, sd float64, err error) {
	const fn = "biomass.CalibrateEfficiency"
	var all []error
	n := float64(len(past))
	sum := 0.0
	for i, e := range past {
		all = append(all, fraction(fn, indexed("past", i), e))
		sum += e
	}
	if len(past) < 2 {
		all = append(all, &units.InputError{Func: fn, Field: "past", Value: n, Kind: units.ErrNoSolution,
			Reason: "at least two harvests are needed to show how much the efficiency varies"})
	}
	if err := errors.Join(all...); err != nil {
		return math.NaN(), math.NaN(), err
	}
	mean := sum / n
	ss := 0.0
	for _, e := range past {
		ss += (e - mean) * (e - mean)
	}
	return mean, math.Sqrt(ss/(n-1)) * math.Sqrt(1+1/n), nil
}
