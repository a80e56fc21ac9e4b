package transport

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// AirCO2 is the mole fraction of carbon dioxide in outdoor air taken when none is
// given; a closed truck box holds more.
const AirCO2 = 420e-6

// CO2Solubility returns Henry's constant of carbon dioxide in mol per kg of water
// and standard atmosphere:
//
//	ln K0 = -60.2409 + 9345.17/T + 23.3585 ln(T/100)
//	        + S·(0.023517 - 0.023656·T/100 + 0.0047036·(T/100)²)
//
// Validity: 0 to 40 °C, 0 to 40 psu; outside, the value comes with ErrRange;
// beyond -5 to 60 °C or 0 to 60 psu ErrDomain with NaN.
//
// Source: Weiss (1974), Marine Chemistry 2:203, eq. 12 and table III.
func CO2Solubility(t units.Temperature, s units.PracticalSalinity) (float64, error) {
	const fn = "transport.CO2Solubility"
	c, sp := t.Celsius(), float64(s)
	if err := errors.Join(units.Within(fn, "t", c, -5, 60, "°C"), units.Within(fn, "s", sp, 0, 60, "psu")); err != nil {
		return math.NaN(), err
	}
	k0 := henry(t.Kelvins(), sp)
	if !(c >= 0 && c <= 40) {
		return k0, &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: 0, Max: 40, Kind: units.ErrRange}
	}
	if sp > 40 {
		return k0, &units.InputError{Func: fn, Field: "s", Value: sp, Unit: "psu", Min: 0, Max: 40, Kind: units.ErrRange}
	}
	return k0, nil
}

func henry(k, s float64) float64 {
	x := k / 100
	return math.Exp(-60.2409 + 93.4517/x + 23.3585*math.Log(x) + s*(0.023517-0.023656*x+0.0047036*x*x))
}

// SteadyCO2 returns the free CO2 at which stripping keeps up with what the
// animals give off:
//
//	C = C_eq + P/kLa
//
// with P the production per volume of water and time. It holds for free CO2
// alone; the bicarbonate in the water delays the approach, not the end.
//
// Validity: P and C_eq not negative, kLa above zero; ErrDomain with NaN. Source:
// mass balance of a mixed volume.
func SteadyCO2(production units.MassFlow, water units.Volume, kla units.Rate, equilibrium units.Concentration) (units.Concentration, error) {
	const fn = "transport.SteadyCO2"
	err := errors.Join(bounds.Amount(fn, "production", float64(production), "kg/s"), bounds.Positive(fn, "water", float64(water), "m3"),
		bounds.Positive(fn, "kla", float64(kla), "1/s"), bounds.Amount(fn, "equilibrium", float64(equilibrium)*1e3, "mg/L"))
	if err != nil {
		return units.Concentration(math.NaN()), err
	}
	return equilibrium + units.Concentration(float64(production)/float64(water)/float64(kla)), nil
}

// CO2After returns the free CO2 after t from start, on the way to [SteadyCO2]:
//
//	C = C_s + (C0 - C_s)·e^(-kLa·t)
//
// with bicarbonate ignored; [Haul] carries it. Validity, errors and source as
// there.
func CO2After(production units.MassFlow, water units.Volume, kla units.Rate, equilibrium, start units.Concentration, t time.Duration) (units.Concentration, error) {
	steady, err := SteadyCO2(production, water, kla, equilibrium)
	const fn = "transport.CO2After"
	err = errors.Join(err, bounds.Amount(fn, "start", float64(start)*1e3, "mg/L"), bounds.Amount(fn, "t", t.Seconds(), "s"))
	if err != nil {
		return units.Concentration(math.NaN()), err
	}
	return steady + (start-steady)*units.Concentration(math.Exp(-float64(kla)*t.Seconds())), nil
}

// StripLimit returns the most carbon dioxide that a flow of air can carry off
// from water holding free CO2: the air leaves in equilibrium with the water.
//
//	dm/dt = Q·(C - C_eq)/(K0·ρ·R·T)
//
// The gas flow is at the water's temperature and one atmosphere; inlet is the
// mole fraction of CO2 in the air that comes in (zero means [AirCO2]). Oxygen
// bubbles alone strip little because their flow is small.
//
// Validity: as [CO2Solubility], gas and CO2 not negative, inlet 0 to 0.1;
// ErrDomain with NaN. Water colder in CO2 than the air gives a negative flow.
//
// Source: gas law and Henry's law, Weiss (1974).
func StripLimit(co2 units.Concentration, gas units.Flow, t units.Temperature, s units.PracticalSalinity, inlet float64) (units.MassFlow, error) {
	const fn = "transport.StripLimit"
	if inlet == 0 {
		inlet = AirCO2
	}
	k0, outside := CO2Solubility(t, s)
	err := errors.Join(bounds.Amount(fn, "co2", float64(co2)*1e3, "mg/L"), bounds.Amount(fn, "gas", float64(gas), "m3/s"),
		units.Within(fn, "inlet", inlet, 0, 0.1, "mol/mol"))
	if err != nil || math.IsNaN(k0) {
		return units.MassFlow(math.NaN()), errors.Join(outside, err)
	}
	atm := float64(co2)/molarCO2/k0 - inlet // partial pressure over the inlet's, mol/kg per mol/(kg atm)
	return units.MassFlow(float64(gas) * atm * 101325 / (gasConstant * t.Kelvins()) * molarCO2 / 1000), outside
}

// VentFlow returns the flow of air that carries off a production of carbon
// dioxide while free CO2 stands at co2, when the air leaves with the share
// approach of its equilibrium content (0.5 for a well-spread agitator; common
// practice): the inverse of [StripLimit].
//
// Validity: as there, approach above 0.01 to 1; water at or below the air's own
// content is ErrNoSolution with NaN.
func VentFlow(production units.MassFlow, co2 units.Concentration, approach float64, t units.Temperature, s units.PracticalSalinity) (units.Flow, error) {
	const fn = "transport.VentFlow"
	nan := units.Flow(math.NaN())
	if err := errors.Join(bounds.Amount(fn, "production", float64(production), "kg/s"), units.Within(fn, "approach", approach, 0.01, 1, "")); err != nil {
		return nan, err
	}
	perFlow, err := StripLimit(co2, 1, t, s, 0)
	if math.IsNaN(float64(perFlow)) {
		return nan, err
	}
	if !(perFlow > 0) {
		return nan, &units.InputError{Func: fn, Field: "co2", Value: float64(co2) * 1e3, Unit: "mg/L", Min: 0, Max: math.Inf(1),
			Reason: "the water holds no more CO2 than the air brings", Kind: units.ErrNoSolution}
	}
	return units.Flow(float64(production) / (approach * float64(perFlow))), err
}
