package transport

import (
	"errors"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Molar masses in g/mol.
const (
	molarOxygen   = 31.998
	molarCO2      = 44.0095
	molarNitrogen = 14.0067
)

// MetabolicHeat is the heat that animals give off per mass of oxygen they take
// up. Source: Elliott & Davison (1975), 13.56 kJ/g.
const MetabolicHeat units.SpecificEnergy = 13.56e6

// Salmonid is a group of Liao's relation.
type Salmonid uint8

// The two groups.
const (
	Trout Salmonid = iota
	Salmon
)

// LiaoDemand returns the oxygen demand of trout or salmon of the given mean mass
// at t, in kg per kg of animals and second:
//
//	M = K·T^n·W^m   lb per 100 lb and day, T in °F, W in lb
//
//	          K        n      m
//	trout     1.90e-6  3.130  -0.138   to 50 °F
//	          3.05e-4  1.855  -0.138   above
//	salmon    7.20e-7  3.200  -0.194   to 50 °F
//	          4.90e-5  2.120  -0.194   above
//
// The branches do not meet at 50 °F (trout step up by 9.5 %, salmon down by
// 0.5 %) and are kept as published.
//
// Validity: 1 to 24 °C and 1 g to 10 kg; outside, the value comes with ErrRange;
// mass not positive or t outside 0 to 40 °C is ErrDomain with NaN. Fed raceway
// fish; fasted fish in a tank use less once they have settled, more while
// loading.
//
// Source: Liao (1971), Progressive Fish-Culturist 33; coefficients from memory.
func LiaoDemand(group Salmonid, mean units.Mass, t units.Temperature) (units.MassSpecificRate, error) {
	const fn = "transport.LiaoDemand"
	c := t.Celsius()
	err := errors.Join(bounds.Positive(fn, "mean", float64(mean), "kg"), units.Within(fn, "t", c, 0, 40, "°C"))
	if group > Salmon {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "group", Value: float64(group), Reason: "must be Trout or Salmon"})
	}
	if err != nil {
		return units.MassSpecificRate(math.NaN()), err
	}
	f := t.Fahrenheit()
	k, n, m := 1.90e-6, 3.130, -0.138
	switch {
	case group == Trout && f > 50:
		k, n = 3.05e-4, 1.855
	case group == Salmon && f > 50:
		k, n, m = 4.90e-5, 2.120, -0.194
	case group == Salmon:
		k, n, m = 7.20e-7, 3.200, -0.194
	}
	v := units.MassSpecificRate(k * math.Pow(f, n) * math.Pow(mean.In(units.Pounds), m) / 100 / 86400)
	if !(c >= 1 && c <= 24 && mean >= 0.001 && mean <= 10) {
		return v, &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: 1, Max: 24, Reason: "and 1 g to 10 kg; extrapolated", Kind: units.ErrRange}
	}
	return v, nil
}

// CatfishDemand returns the oxygen demand of fed channel catfish of the given
// mean mass at t, in kg per kg of animals and second:
//
//	log10 M = -0.999 - 0.000957 W + 6e-7 W² + 0.0327 T - 8.7e-6 T² + 3e-7 W·T
//
// M in mg/(g h), W in g, T in °C. Fasted fish in a tank take 0.5 to 0.7 of it
// (common practice).
//
// Validity: 15 to 32 °C, 2 to 800 g (beyond, the parabola turns up); outside,
// the value comes with ErrRange; ErrDomain with NaN as [LiaoDemand], and above
// 2 kg.
//
// Source: Boyd, Romaire & Johnston (1978), Transactions of the American
// Fisheries Society 107; coefficients from memory.
func CatfishDemand(mean units.Mass, t units.Temperature) (units.MassSpecificRate, error) {
	const fn = "transport.CatfishDemand"
	w, c := mean.In(units.Grams), t.Celsius()
	err := errors.Join(units.Within(fn, "mean", w, bounds.Least, 2000, "g"), units.Within(fn, "t", c, 0, 40, "°C"))
	if err != nil {
		return units.MassSpecificRate(math.NaN()), err
	}
	l := -0.999 - 0.000957*w + 6e-7*w*w + 0.0327*c - 8.7e-6*c*c + 3e-7*w*c
	v := units.MassSpecificRate(math.Pow(10, l) / 1000 / 3600)
	if !(c >= 15 && c <= 32 && w >= 2 && w <= 800) {
		return v, &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: 15, Max: 32, Reason: "and 2 to 800 g; extrapolated", Kind: units.ErrRange}
	}
	return v, nil
}

// Q10 returns the factor by which a rate grows per 10 K, from two measurements:
//
//	Q10 = (r2/r1)^(10/(t2-t1))
//
// Validity: rates above zero, temperatures at least 0.1 K apart; ErrDomain with
// NaN. Fish and shrimp lie between 1.8 and 4.1 in published pairs; 2 is the
// usual default.
//
// Source: by definition.
func Q10(rate1, rate2 units.MassSpecificRate, t1, t2 units.Temperature) (float64, error) {
	const fn = "transport.Q10"
	d := float64(t2.Sub(t1))
	err := errors.Join(bounds.Positive(fn, "rate1", float64(rate1), "kg/(kg s)"), bounds.Positive(fn, "rate2", float64(rate2), "kg/(kg s)"),
		units.Within(fn, "t2-t1", math.Abs(d), 0.1, 60, "K"))
	if err != nil {
		return math.NaN(), err
	}
	return math.Pow(float64(rate2)/float64(rate1), 10/d), nil
}

// DemandAt returns a rate known at one temperature for another, rate·q10^(ΔT/10).
//
// Validity: rate not negative, q10 0.5 to 10, less than 25 K apart; ErrDomain
// with NaN. Source: by definition of Q10.
func DemandAt(rate units.MassSpecificRate, q10 float64, from, to units.Temperature) (units.MassSpecificRate, error) {
	const fn = "transport.DemandAt"
	d := float64(to.Sub(from))
	err := errors.Join(bounds.Amount(fn, "rate", float64(rate), "kg/(kg s)"), units.Within(fn, "q10", q10, 0.5, 10, ""),
		units.Within(fn, "to-from", d, -25, 25, "K"))
	if err != nil {
		return units.MassSpecificRate(math.NaN()), err
	}
	return rate * units.MassSpecificRate(math.Pow(q10, d/10)), nil
}

// HeatOf returns the heat that animals give off at an oxygen demand, m·M·13.56
// kJ/g.
//
// Validity: both not negative; ErrDomain with NaN. Source: [MetabolicHeat].
func HeatOf(product units.Mass, demand units.MassSpecificRate) (units.Power, error) {
	const fn = "transport.HeatOf"
	err := errors.Join(bounds.Amount(fn, "product", float64(product), "kg"), bounds.Amount(fn, "demand", float64(demand), "kg/(kg s)"))
	if err != nil {
		return units.Power(math.NaN()), err
	}
	return units.Power(float64(product) * float64(demand) * float64(MetabolicHeat)), nil
}

// AmmoniaExcretion returns the ammonia nitrogen given off at an oxygen demand:
//
//	E = M·AQ·14.0067/31.998
//
// with the ammonia quotient AQ in mol per mol, 0.1 for fasted to 0.2 for fed
// fish.
//
// Validity: demand not negative, AQ 0 to 0.5; ErrDomain with NaN. Source:
// stoichiometry; Kutty (1972) for tilapia near 0.2.
func AmmoniaExcretion(demand units.MassSpecificRate, quotient float64) (units.MassSpecificRate, error) {
	return shareOf("transport.AmmoniaExcretion", demand, quotient, 0.5, molarNitrogen/molarOxygen)
}

// CO2Production returns the carbon dioxide given off at an oxygen demand:
//
//	P = M·RQ·44.0095/31.998
//
// with the respiratory quotient RQ in mol per mol, 0.7 to 1.0; it rises far above
// one without oxygen.
//
// Validity: demand not negative, RQ 0.5 to 2; ErrDomain with NaN. Source:
// stoichiometry; Kutty (1972).
func CO2Production(demand units.MassSpecificRate, quotient float64) (units.MassSpecificRate, error) {
	const fn = "transport.CO2Production"
	if err := units.Within(fn, "quotient", quotient, 0.5, 2, "mol/mol"); err != nil {
		return units.MassSpecificRate(math.NaN()), err
	}
	return shareOf(fn, demand, quotient, 2, molarCO2/molarOxygen)
}

func shareOf(fn string, demand units.MassSpecificRate, quotient, most, ratio float64) (units.MassSpecificRate, error) {
	err := errors.Join(bounds.Amount(fn, "demand", float64(demand), "kg/(kg s)"), units.Within(fn, "quotient", quotient, 0, most, "mol/mol"))
	if err != nil {
		return units.MassSpecificRate(math.NaN()), err
	}
	return demand * units.MassSpecificRate(quotient*ratio), nil
}
