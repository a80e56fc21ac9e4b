package icing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Properties of ice and water used when a field is left zero.
//
// Source: latent heat ASHRAE Handbook Refrigeration (2006), ch. 9, 333.6 kJ/kg,
// 0.05 % above the 333.4265 kJ/kg of IAPWS R10-06 (2009) at 0 °C; specific heat
// of ice 2.1 kJ/(kg K) rounds the 2.0967 of IAPWS R10-06 at 0 °C (2.06 at -5 °C);
// water 4.186 kJ/(kg K) is the 15 °C calorie of the older tables.
const (
	DefaultLatentHeat        units.SpecificEnergy = 333.6e3 // J/kg
	DefaultIceSpecificHeat   units.SpecificHeat   = 2100    // J/(kg K)
	DefaultWaterSpecificHeat units.SpecificHeat   = 4186    // J/(kg K)
)

// OldLatentHeat is the 80 kcal/kg that tables of the FAO ice papers use,
// 0.4 % above the modern value. Source: FAO Fisheries Technical Paper 331
// (1992), ch. 3, eq. 4-5; thermochemical or IT calorie not said, 4.1868 taken.
const OldLatentHeat units.SpecificEnergy = 80 * 4186.8

// zeroCelsius is the melting point of fresh-water ice in kelvins.
const zeroCelsius = 273.15

// Ice is ice as it is delivered.
type Ice struct {
	Temperature  units.Temperature    `json:"temperature"`  // 0 °C or colder; unset means melting ice at 0 °C
	LatentHeat   units.SpecificEnergy `json:"latentHeat"`   // zero means DefaultLatentHeat
	SpecificHeat units.SpecificHeat   `json:"specificHeat"` // zero means DefaultIceSpecificHeat
	FreeWater    float64              `json:"freeWater"`    // share of the mass that is water at 0 °C already, 0 to 0.5; crushed or thawing ice holds 0.05 to 0.15 (common practice, no source)
}

func unset(t units.Temperature) bool { return t == units.Temperature{} }

func (i Ice) temperature() float64 { // °C
	if unset(i.Temperature) {
		return 0
	}
	return i.Temperature.Celsius()
}

func (i Ice) latent() float64 {
	if i.LatentHeat == 0 {
		return float64(DefaultLatentHeat)
	}
	return float64(i.LatentHeat)
}

func (i Ice) specificHeat() float64 {
	if i.SpecificHeat == 0 {
		return float64(DefaultIceSpecificHeat)
	}
	return float64(i.SpecificHeat)
}

// Validate reports every field that cannot be ice: warmer than 0 °C or colder
// than -60 °C, a latent heat outside 250 to 340 kJ/kg, a specific heat outside
// 1.5 to 2.3 kJ/(kg K), free water outside 0 to 0.5.
func (i Ice) Validate() error {
	const fn = "icing.Ice"
	t, l, c := i.temperature(), i.latent(), i.specificHeat()
	if t >= -60 && t <= 0 && l >= 250e3 && l <= 340e3 && c >= 1500 && c <= 2300 && i.FreeWater >= 0 && i.FreeWater <= 0.5 {
		return nil
	}
	var errs []error
	if !(t >= -60 && t <= 0) {
		errs = append(errs, &units.InputError{Func: fn, Field: "temperature", Value: t, Unit: "°C", Min: -60, Max: 0,
			Reason: "ice is at 0 °C or colder"})
	}
	errs = append(errs,
		units.Within(fn, "latentHeat", l/1e3, 250, 340, "kJ/kg"),
		units.Within(fn, "specificHeat", c/1e3, 1.5, 2.3, "kJ/(kg K)"),
		units.Within(fn, "freeWater", i.FreeWater, 0, 0.5, ""))
	return errors.Join(errs...)
}

// Cooling returns the heat in J that one kilogram of the ice takes up while it
// warms to 0 °C, melts, and its melt water warms to out:
//
//	q = (1-w)·(L + c_ice·(0-T_ice)) + c_w·(T_out-0)
//
// with w the free water. out is 0 °C for melt that drains away, and the bath's
// temperature for melt that stays in it; waterSpecificHeat zero means
// DefaultWaterSpecificHeat.
//
// Validity: out 0 to 40 °C, ice as [Ice.Validate] says; errors are ErrDomain.
//
// Source: first law of thermodynamics, by definition of the specific heats.
func (i Ice) Cooling(out units.Temperature, waterSpecificHeat units.SpecificHeat) (units.SpecificEnergy, error) {
	if err := i.Validate(); err != nil {
		return units.SpecificEnergy(math.NaN()), err
	}
	t := out.Celsius()
	if err := units.Within("icing.Ice.Cooling", "out", t, 0, 40, "°C"); err != nil {
		return units.SpecificEnergy(math.NaN()), err
	}
	cw, err := waterHeat("icing.Ice.Cooling", "waterSpecificHeat", waterSpecificHeat)
	if err != nil {
		return units.SpecificEnergy(math.NaN()), err
	}
	return units.SpecificEnergy(i.cooling(t, cw)), nil
}

// cooling is Cooling for inputs already checked, out in °C, cw in J/(kg K).
func (i Ice) cooling(out, cw float64) float64 {
	return (1-i.FreeWater)*(i.latent()-i.specificHeat()*i.temperature()) + cw*out
}

// waterHeat returns the specific heat of water or its default, and refuses what
// no water has.
func waterHeat(fn, field string, c units.SpecificHeat) (float64, error) {
	if c == 0 {
		return float64(DefaultWaterSpecificHeat), nil
	}
	if v := float64(c); v >= 3500 && v <= 4300 {
		return v, nil
	}
	return math.NaN(), units.Within(fn, field, float64(c)/1e3, 3.5, 4.3, "kJ/(kg K)")
}
