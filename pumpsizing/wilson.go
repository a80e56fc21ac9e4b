package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Wilson is the loss model of a displacement machine after Wilson: laminar
// leakage, compression of the oil, viscous and dry friction. As a pump
//
//	ev = 1 - Cs dp/(mu w) - (dp/B)(V + 1),   em = 1/(1 + Cv mu w/dp + Cf)
//
// and as a motor
//
//	ev = 1/(1 + Cs dp/(mu w) + (dp/B)(V + 1)),   em = 1 - Cv mu w/dp - Cf
//
// with mu the dynamic viscosity, w the speed in rad/s, B the bulk modulus and V
// the dead volume over the displaced volume.
//
// Validity: one machine, 10 to 100 mm2/s, 20 to 100 % of rated speed and
// pressure. At low speed or with thin oil leakage takes all.
//
// Source: Wilson (1950), Positive-Displacement Pumps and Fluid Motors (form read
// in a script of the University of Minnesota).
type Wilson struct {
	Leakage     float64        `json:"leakage"`     // Cs
	Viscous     float64        `json:"viscous"`     // Cv
	Dry         float64        `json:"dry"`         // Cf
	BulkModulus units.Pressure `json:"bulkModulus"` // 1.4 to 1.8 GPa
	DeadVolume  float64        `json:"deadVolume"`  // Vr, about 1
}

// MachineDuty is the working point of a displacement machine.
type MachineDuty struct {
	Pressure  units.Pressure           `json:"pressure"` // across the machine
	Speed     units.RotationalSpeed    `json:"speed"`
	Viscosity units.KinematicViscosity `json:"viscosity"`
	Density   units.Density            `json:"density"`
}

func (d MachineDuty) check(fn string) error {
	return errors.Join(
		units.Positive(fn, "pressure", d.Pressure.In(units.Bars), "bar"),
		units.Positive(fn, "speed", d.Speed.In(units.RevolutionsPerMinute), "r/min"),
		OilState{d.Viscosity, d.Density}.check(fn))
}

// muOmega is the dynamic viscosity times the speed, in Pa.
func (d MachineDuty) muOmega() float64 {
	return d.Viscosity.SquareMetresPerSecond() * d.Density.KilogramsPerCubicMetre() * d.Speed.RadiansPerSecond()
}

func (w Wilson) check(fn string) error {
	return errors.Join(units.NonNegative(fn, "leakage", w.Leakage, ""), units.NonNegative(fn, "viscous", w.Viscous, ""), units.NonNegative(fn, "dry", w.Dry, ""),
		units.Within(fn, "bulkModulus", w.BulkModulus.Pascals()/1e9, 0.1, 10, "GPa"), units.NonNegative(fn, "deadVolume", w.DeadVolume, ""))
}

// slip is the leakage and compression, a share of the displaced flow.
func (w Wilson) slip(d MachineDuty) float64 {
	p := d.Pressure.Pascals()
	return w.Leakage*p/d.muOmega() + p/w.BulkModulus.Pascals()*(w.DeadVolume+1)
}

// drag is the friction, a share of the ideal torque.
func (w Wilson) drag(d MachineDuty) float64 {
	return w.Viscous*d.muOmega()/d.Pressure.Pascals() + w.Dry
}

// Pump returns the efficiencies of the machine as a pump at a duty.
//
// Errors: ErrDomain for a model or duty that cannot be; ErrNoSolution when all
// flow leaks.
// Source: see Wilson.
func (w Wilson) Pump(d MachineDuty) (volumetric, hydromechanical float64, err error) {
	const fn = "pumpsizing.Wilson.Pump"
	if err := errors.Join(w.check(fn), d.check(fn)); err != nil {
		return math.NaN(), math.NaN(), err
	}
	ev := 1 - w.slip(d)
	if !(ev > 0) {
		return math.NaN(), math.NaN(), stalled(fn, d)
	}
	return ev, 1 / (1 + w.drag(d)), nil
}

// Motor returns the efficiencies of the machine as a motor at a duty.
//
// Errors: ErrDomain for a model or duty that cannot be; ErrNoSolution when
// friction takes all torque.
// Source: see Wilson.
func (w Wilson) Motor(d MachineDuty) (volumetric, hydromechanical float64, err error) {
	const fn = "pumpsizing.Wilson.Motor"
	if err := errors.Join(w.check(fn), d.check(fn)); err != nil {
		return math.NaN(), math.NaN(), err
	}
	em := 1 - w.drag(d)
	if !(em > 0) {
		return math.NaN(), math.NaN(), stalled(fn, d)
	}
	return 1 / (1 + w.slip(d)), em, nil
}

func stalled(fn string, d MachineDuty) error {
	return &units.InputError{Func: fn, Field: "speed", Value: d.Speed.In(units.RevolutionsPerMinute), Unit: "r/min",
		Reason: "at this pressure, speed and viscosity the losses take all: the machine stalls", Kind: units.ErrNoSolution}
}

// motorPressure is the pressure drop at which a motor of displacement v m3/rad
// gives torque t at mu w, in Pa: dp (1 - Cf) - Cv mu w = T/v.
func (w Wilson) motorPressure(t, v, muOmega float64) float64 {
	return (t/v + w.Viscous*muOmega) / (1 - w.Dry)
}

// pumpSpeed is the speed in rad/s at which a pump of displacement v m3/rad
// delivers q m3/s against dp: w v (1 - slip) = q, with the slip falling as 1/w.
func (w Wilson) pumpSpeed(q, v, dp, mu float64) float64 {
	return (q/v + w.Leakage*dp/mu) / (1 - dp/w.BulkModulus.Pascals()*(w.DeadVolume+1))
}
