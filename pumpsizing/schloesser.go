package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

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
