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

// Schloesser is the loss model of a displacement pump after Schloesser, which
// adds turbulent leakage and the torque that moves the oil:
//
//	leak   = Cs D dp/mu + Cst D^(2/3) sqrt(2 dp/rho)
//	torque = Cd mu w D + Cf dp D + Ch rho w^2 D^(5/3)/4
//
// with D in m3 per radian.
//
// Source: Schloesser (1961) (form from memory); coefficients belong to one
// machine.
type Schloesser struct {
	Laminar   float64 `json:"laminar"`   // Cs
	Turbulent float64 `json:"turbulent"` // Cst
	Viscous   float64 `json:"viscous"`   // Cd
	Dry       float64 `json:"dry"`       // Cf
	Inertia   float64 `json:"inertia"`   // Ch
}

// Pump returns the efficiencies of a pump of the given displacement at a duty.
//
// Errors: ErrDomain for a model, displacement or duty that cannot be;
// ErrNoSolution when all flow leaks.
// Source: see Schloesser.
func (s Schloesser) Pump(displacement units.Displacement, d MachineDuty) (volumetric, hydromechanical float64, err error) {
	const fn = "pumpsizing.Schloesser.Pump"
	err = errors.Join(d.check(fn), checkDisplacement(fn, "displacement", displacement),
		units.NonNegative(fn, "laminar", s.Laminar, ""), units.NonNegative(fn, "turbulent", s.Turbulent, ""), units.NonNegative(fn, "viscous", s.Viscous, ""),
		units.NonNegative(fn, "dry", s.Dry, ""), units.NonNegative(fn, "inertia", s.Inertia, ""))
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	v := displacement.CubicMetresPerRevolution() / (2 * math.Pi) // m3/rad
	rho, p, w := d.Density.KilogramsPerCubicMetre(), d.Pressure.Pascals(), d.Speed.RadiansPerSecond()
	mu := d.Viscosity.SquareMetresPerSecond() * rho
	third := math.Cbrt(v)
	leak := s.Laminar*v*p/mu + s.Turbulent*third*third*math.Sqrt(2*p/rho)
	torque := s.Viscous*mu*w*v + s.Dry*p*v + s.Inertia*rho*w*w*v*third*third/4
	ev := 1 - leak/(v*w)
	if !(ev > 0) {
		return math.NaN(), math.NaN(), stalled(fn, d)
	}
	return ev, p * v / (p*v + torque), nil
}
