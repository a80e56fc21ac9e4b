package biomass

import (
	"errors"
	"math"
	"time"

	"pondwright.example/units"
)

// Stocking is the stocking record with the survival expected of it: what the
// farm believes before any net is thrown.
type Stocking struct {
	// Stocked is the number of animals put in.
	Stocked float64 `json:"stocked"`
	// StockedCV is its relative standard uncertainty; zero takes it as exact.
	StockedCV float64 `json:"stockedCV"`
	// Survival is the expected fraction alive, above 0 and at most 1.
	Survival float64 `json:"survival"`
	// SurvivalCV is its relative standard uncertainty, a fraction of Survival.
	SurvivalCV float64 `json:"survivalCV"`
}

// lowSurvival is the survival below which a caller is asked whether a percentage
// was meant; 0.8 for "0.8 %" and 80 % differ a hundredfold.
const lowSurvival = 0.05

// Validate reports every field that cannot be.
func (s Stocking) Validate() error {
	const fn = "biomass.Stocking"
	var survival error
	if !(s.Survival > 0 && s.Survival <= 1) {
		survival = &units.InputError{Func: fn, Field: "survival", Value: s.Survival, Min: 0, Max: 1,
			Reason: "a fraction of the animals stocked, above 0 and at most 1; 80 % is 0.80"}
	}
	return errors.Join(
		units.Positive(fn, "stocked", s.Stocked, "animals"),
		units.NonNegative(fn, "stockedCV", s.StockedCV, ""),
		survival,
		units.NonNegative(fn, "survivalCV", s.SurvivalCV, ""),
	)
}

// Alive returns the expected number of animals, Stocked · Survival.
//
// Source: by definition.
func (s Stocking) Alive() float64 { return s.Stocked * s.Survival }

func (s Stocking) errorsOf() []Component {
	return []Component{{Name: ErrorStocking, CV: s.StockedCV}, {Name: ErrorSurvival, CV: s.SurvivalCV}}
}

// notices tells of a survival that may be a slip and of a band that reaches
// above the number stocked.
func (s Stocking) notices() []units.Notice {
	var out []units.Notice
	if s.Survival < lowSurvival {
		out = append(out, units.Notice{Code: CodeLowSurvival, Severity: units.Warning, Field: "survival",
			Value: s.Survival, Limit: lowSurvival,
			Message: "survival is below 5 %: confirm that a fraction and not a percentage was meant"})
	}
	if high := s.Survival * math.Exp(normalQuantile(0.9)*logSD(s.SurvivalCV)); high > 1 {
		out = append(out, units.Notice{Code: CodeMoreThanStocked, Severity: units.Caution, Field: "survivalCV",
			Value: high, Limit: 1,
			Message: "the ninetieth percentile of the survival is above 1: more animals than were stocked"})
	}
	return out
}

// Survival returns the fraction alive after a time at a constant instantaneous
// mortality rate.
//
//	S = exp(−M t)
//
// Errors: ErrDomain for a rate or time that is negative.
//
// Source: Ricker (1975), Computation and Interpretation of Biological Statistics
// of Fish Populations, Bull. Fish. Res. Board Can. 191, ch. 1 (from memory).
func Survival(mortality units.Rate, elapsed time.Duration) (float64, error) {
	const fn = "biomass.Survival"
	m, t := mortality.TimesPerSecond(), elapsed.Seconds()
	if err := errors.Join(units.NonNegative(fn, "mortality", m, "1/s"), units.NonNegative(fn, "elapsed", t, "s")); err != nil {
		return math.NaN(), err
	}
	return math.Exp(-m * t), nil
}
