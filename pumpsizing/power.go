package pumpsizing

import (
	"errors"

	"pondwright.example/units"
)

// WaterPower returns the power that a flow q raised by head h takes up:
//
//	P = rho g Q H
//
// in watts, for a liquid of density rho. For water with animals use the density
// of the mixture and heads in metres of mixture.
//
// Errors: ErrDomain for a density that is not positive or a negative flow or
// head.
// Source: by definition of head.
func WaterPower(q units.Flow, h units.Length, rho units.Density) (units.Power, error) {
	const fn = "pumpsizing.WaterPower"
	if err := checkDuty(fn, q, h, rho); err != nil {
		return nan[units.Power](), err
	}
	return sound(fn, waterPower(q, h, rho))
}

func waterPower(q units.Flow, h units.Length, rho units.Density) units.Power {
	return units.Power(rho.KilogramsPerCubicMetre() * gravity * q.CubicMetresPerSecond() * h.Metres())
}

func checkDuty(fn string, q units.Flow, h units.Length, rho units.Density) error {
	return errors.Join(
		units.NonNegative(fn, "q", q.In(units.CubicMetresPerHour), "m3/h"),
		units.NonNegative(fn, "h", h.Metres(), "m"),
		units.Positive(fn, "density", rho.KilogramsPerCubicMetre(), "kg/m3"))
}

// ShaftPower returns the power the pump's shaft takes, rho g Q H / efficiency.
// The efficiency is the pump's own, shaft to water; a data sheet may print
// wire-to-water instead. At zero flow efficiency is zero too and power is 0/0:
// use Pump, whose power stays finite there.
//
// Errors: ErrDomain as WaterPower, and for an efficiency outside (0,1].
// Source: by definition of efficiency.
func ShaftPower(q units.Flow, h units.Length, rho units.Density, efficiency float64) (units.Power, error) {
	const fn = "pumpsizing.ShaftPower"
	if err := errors.Join(checkDuty(fn, q, h, rho), fraction(fn, "efficiency", efficiency)); err != nil {
		return nan[units.Power](), err
	}
	return sound(fn, waterPower(q, h, rho)/units.Power(efficiency))
}

// ShaftTorque returns the torque of power p at speed n, T = P/omega.
//
// Errors: ErrDomain for a speed that is not positive or a power that is not
// finite.
// Source: by definition of power.
func ShaftTorque(p units.Power, n units.RotationalSpeed) (units.Torque, error) {
	const fn = "pumpsizing.ShaftTorque"
	err := errors.Join(units.Finite(fn, "p", p.Watts(), "W"), units.Positive(fn, "n", n.In(units.RevolutionsPerMinute), "r/min"))
	if err != nil {
		return nan[units.Torque](), err
	}
	return sound(fn, units.Torque(p.Watts()/n.RadiansPerSecond()))
}

// HeatToWater returns the warming of the water by the losses of the pump:
//
//	dT = g H (1/efficiency - 1)/c
//
// with c the specific heat of the liquid. It is a hundredth of a kelvin for 5 m
// and of concern only at shut-off.
//
// Errors: ErrDomain for a negative head, an efficiency outside (0,1], or a
// specific heat that is not positive.
// Source: energy balance.
func HeatToWater(h units.Length, efficiency float64, c units.SpecificHeat) (units.TempDelta, error) {
	const fn = "pumpsizing.HeatToWater"
	err := errors.Join(units.NonNegative(fn, "h", h.Metres(), "m"), fraction(fn, "efficiency", efficiency),
		units.Positive(fn, "c", c.JoulesPerKilogramKelvin(), "J/(kg K)"))
	if err != nil {
		return nan[units.TempDelta](), err
	}
	return sound(fn, units.TempDelta(gravity*h.Metres()*(1/efficiency-1)/c.JoulesPerKilogramKelvin()))
}

// PumpEfficiency returns the efficiency of a pump measured by its flow, its
// pressure rise and the power at its shaft, Q dp/P. An answer above one is an
// error: a reading is wrong, or the power was not the shaft's.
//
// Errors: ErrDomain for inputs that are not positive, and for an efficiency
// above one.
// Source: by definition of efficiency.
func PumpEfficiency(q units.Flow, rise units.Pressure, shaft units.Power) (float64, error) {
	const fn = "pumpsizing.PumpEfficiency"
	err := errors.Join(units.Positive(fn, "q", q.In(units.CubicMetresPerHour), "m3/h"),
		units.Positive(fn, "rise", rise.Pascals(), "Pa"), units.Positive(fn, "shaft", shaft.Watts(), "W"))
	if err != nil {
		return nan[float64](), err
	}
	e := q.CubicMetresPerSecond() * rise.Pascals() / shaft.Watts()
	if e > 1 {
		return nan[float64](), &units.InputError{Func: fn, Field: "shaft", Value: shaft.Watts(), Unit: "W",
			Reason: "less than the water takes up: check flow, pressure rise and which power was read"}
	}
	return e, nil
}
