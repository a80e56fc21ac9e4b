package biomass

import (
	"errors"
	"math"
	"time"

	"pondwright.example/units"
)

// VonBertalanffyLength returns length at an age.
//
//	L = L∞ (1 − exp(−K (t − t₀)))
//
// age and t0 are on one clock, K a first-order rate. An age before t0 has no
// length.
//
// Errors: ErrDomain for an asymptote or rate not above zero or an age before t0.
//
// Source: von Bertalanffy (1938), Human Biology 10:181-213 (from memory).
func VonBertalanffyLength(asymptote units.Length, k units.Rate, age, t0 time.Duration) (units.Length, error) {
	const fn = "biomass.VonBertalanffyLength"
	f, err := grown(fn, asymptote.Metres(), "m", k, age, t0)
	if err != nil {
		return units.Length(math.NaN()), err
	}
	return sound(fn, units.Metres.Of(asymptote.Metres()*f))
}

// VonBertalanffyWeight returns weight at an age, with the exponent b of the
// length-weight relation (3 for growth without change of shape).
//
//	W = W∞ (1 − exp(−K (t − t₀)))ᵇ
//
// Errors: as [VonBertalanffyLength], and ErrDomain for an exponent not above
// zero.
//
// Source: von Bertalanffy (1938), Human Biology 10:181-213 (from memory).
func VonBertalanffyWeight(asymptote units.Mass, k units.Rate, age, t0 time.Duration, exponent float64) (units.Mass, error) {
	const fn = "biomass.VonBertalanffyWeight"
	f, err := grown(fn, asymptote.Kilograms(), "kg", k, age, t0)
	if e := units.Positive(fn, "exponent", exponent, ""); e != nil {
		return units.Mass(math.NaN()), errors.Join(err, e)
	}
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	return sound(fn, units.Kilograms.Of(asymptote.Kilograms()*math.Pow(f, exponent)))
}

// grown is the fraction of the asymptote reached.
func grown(fn string, asymptote float64, unit string, k units.Rate, age, t0 time.Duration) (float64, error) {
	err := errors.Join(units.Positive(fn, "asymptote", asymptote, unit), units.Positive(fn, "k", k.TimesPerSecond(), "1/s"))
	if age < t0 {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "age", Value: age.Hours() / 24, Unit: "d", Min: t0.Hours() / 24, Max: math.Inf(1),
			Reason: "cannot be before t0"})
	}
	if err != nil {
		return math.NaN(), err
	}
	return -math.Expm1(-k.TimesPerSecond() * (age.Seconds() - t0.Seconds())), nil
}

// GompertzWeight returns the weight that an animal of weight start reaches after
// a time.
//
//	W = W₀ exp(ln(W∞/W₀)(1 − exp(−g t)))
//
// Errors: ErrDomain for a weight or rate not above zero or a negative time.
//
// Source: Winsor (1932), "The Gompertz curve as a growth curve", Proc. Natl.
// Acad. Sci. 18:1-8 (from memory).
func GompertzWeight(start, asymptote units.Mass, g units.Rate, elapsed time.Duration) (units.Mass, error) {
	const fn = "biomass.GompertzWeight"
	if err := errors.Join(
		units.Positive(fn, "start", start.Kilograms(), "kg"),
		units.Positive(fn, "asymptote", asymptote.Kilograms(), "kg"),
		units.Positive(fn, "g", g.TimesPerSecond(), "1/s"),
		units.NonNegative(fn, "elapsed", elapsed.Seconds(), "s"),
	); err != nil {
		return units.Mass(math.NaN()), err
	}
	f := -math.Expm1(-g.TimesPerSecond() * elapsed.Seconds())
	return sound(fn, units.Kilograms.Of(start.Kilograms()*math.Exp(math.Log(asymptote.Kilograms()/start.Kilograms())*f)))
}

// SpecificGrowthRate returns the exponential growth rate between two weights;
// read it with TimesPerDay and multiply by 100 for per cent per day.
//
//	SGR = ln(W₂/W₁)/t
//
// Errors: ErrDomain for a weight or time not above zero.
//
// Source: by definition.
func SpecificGrowthRate(start, end units.Mass, elapsed time.Duration) (units.Rate, error) {
	const fn = "biomass.SpecificGrowthRate"
	if err := growthInput(fn, start, end, elapsed); err != nil {
		return units.Rate(math.NaN()), err
	}
	return sound(fn, units.TimesPerSecond.Of(math.Log(end.Kilograms()/start.Kilograms())/elapsed.Seconds()))
}

// WeeklyGain returns the weight gained per week between two weights; negative
// when the animals lost weight.
//
//	(W₂ − W₁)/(t/7 d)
//
// Errors: ErrDomain for a weight or time not above zero.
//
// Source: by definition.
func WeeklyGain(start, end units.Mass, elapsed time.Duration) (units.Mass, error) {
	const fn = "biomass.WeeklyGain"
	if err := growthInput(fn, start, end, elapsed); err != nil {
		return units.Mass(math.NaN()), err
	}
	const week = 7 * 24 * time.Hour
	return sound(fn, units.Kilograms.Of((end-start).Kilograms()/(elapsed.Seconds()/week.Seconds())))
}

// ThermalGrowthCoefficient returns the growth in cube root of weight per
// degree-day, in the customary unit (g^⅓ per °C·d, times 1000).
//
//	TGC = 1000 (W₂^⅓ − W₁^⅓)/(T t)
//
// with W in grams, T the mean temperature in °C (above zero) and t in days.
//
// Errors: ErrDomain for a weight, temperature or time not above zero.
//
// Source: Iwama and Tautz (1981), Can. J. Fish. Aquat. Sci. 38:649-656 (from
// memory).
func ThermalGrowthCoefficient(start, end units.Mass, mean units.Temperature, elapsed time.Duration) (float64, error) {
	const fn = "biomass.ThermalGrowthCoefficient"
	if err := errors.Join(growthInput(fn, start, end, elapsed), units.Positive(fn, "mean", mean.Celsius(), "°C")); err != nil {
		return math.NaN(), err
	}
	days := elapsed.Hours() / 24
	return sound(fn, 1000*(math.Cbrt(end.In(units.Grams))-math.Cbrt(start.In(units.Grams)))/(mean.Celsius()*days))
}

func growthInput(fn string, start, end units.Mass, elapsed time.Duration) error {
	return errors.Join(
		units.Positive(fn, "start", start.Kilograms(), "kg"),
		units.Positive(fn, "end", end.Kilograms(), "kg"),
		units.Positive(fn, "elapsed", elapsed.Seconds(), "s"),
	)
}
