package pumpsizing

import (
	"errors"

	"pondwright.example/units"
)

// WilsonTest is what a maker's sheet says of a motor: both efficiencies at a
// full duty and the hydromechanical one at a light duty of the same speed and
// oil.
type WilsonTest struct {
	Full            MachineDuty    `json:"full"`
	Volumetric      float64        `json:"volumetric"`      // at Full
	Hydromechanical float64        `json:"hydromechanical"` // at Full
	LightPressure   units.Pressure `json:"lightPressure"`
	LightHydromech  float64        `json:"lightHydromech"` // at LightPressure
	BulkModulus     units.Pressure `json:"bulkModulus"`
	DeadVolume      float64        `json:"deadVolume"`
}

// FitWilsonMotor finds the three loss coefficients that give a motor's
// efficiencies.
//
// Errors: ErrDomain for duties or efficiencies that cannot be, or that ask for
// a negative coefficient.
// Source: see Wilson, solved for Cs, Cv and Cf.
func FitWilsonMotor(t WilsonTest) (Wilson, error) {
	const fn = "pumpsizing.FitWilsonMotor"
	err := errors.Join(t.Full.check(fn), fraction(fn, "volumetric", t.Volumetric), fraction(fn, "hydromechanical", t.Hydromechanical),
		fraction(fn, "lightHydromech", t.LightHydromech), units.Positive(fn, "lightPressure", t.LightPressure.In(units.Bars), "bar"),
		units.Within(fn, "bulkModulus", t.BulkModulus.Pascals()/1e9, 0.1, 10, "GPa"), units.NonNegative(fn, "deadVolume", t.DeadVolume, ""))
	if err == nil && !(t.LightPressure < t.Full.Pressure) {
		err = &units.InputError{Func: fn, Field: "lightPressure", Value: t.LightPressure.In(units.Bars), Unit: "bar", Min: 0, Max: t.Full.Pressure.In(units.Bars), Reason: "must be below the full pressure"}
	}
	if err != nil {
		return Wilson{}, err
	}
	p, mw := t.Full.Pressure.Pascals(), t.Full.muOmega()
	w := Wilson{BulkModulus: t.BulkModulus, DeadVolume: t.DeadVolume}
	w.Leakage = (1/t.Volumetric - 1 - p/t.BulkModulus.Pascals()*(t.DeadVolume+1)) * mw / p
	w.Viscous = (t.Hydromechanical - t.LightHydromech) / (mw/t.LightPressure.Pascals() - mw/p)
	w.Dry = 1 - t.Hydromechanical - w.Viscous*mw/p
	return w, w.check(fn)
}
