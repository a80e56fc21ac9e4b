package pumpsizing

import (
	"errors"

	"pondwright.example/units"
)

// gravity is standard gravity in m/s2, exact by definition.
const gravity = 9.80665

// System is what the pump works against: the head the system asks for at a
// flow, static lift included, in metres of the liquid pumped. The head must not
// fall as the flow rises; Head at zero flow is the static lift. A pipeline with
// a lift satisfies it.
type System interface {
	Head(q units.Flow) units.Length
}

// SystemFunc makes a plain function a System.
type SystemFunc func(q units.Flow) units.Length

// Head calls f, which makes it a [System]. Without a function it is not a
// number, which every solver refuses.
func (f SystemFunc) Head(q units.Flow) units.Length {
	if f == nil {
		return nan[units.Length]()
	}
	return f(q)
}

// QuadraticSystem is the system curve with a constant friction factor:
//
//	H = Static + Resistance Q^2
//
// with Resistance in s2/m5, not negative. The quadratic term keeps the sign of
// the flow. Source: the Darcy-Weisbach equation with constant f.
type QuadraticSystem struct {
	Static     units.Length `json:"static"`     // lift at zero flow; negative when the discharge is below the basin
	Resistance float64      `json:"resistance"` // s2/m5
}

// Head returns the static lift plus the quadratic loss at flow q.
func (s QuadraticSystem) Head(q units.Flow) units.Length {
	v := q.CubicMetresPerSecond()
	if v < 0 {
		return s.Static - units.Length(s.Resistance*v*v)
	}
	return s.Static + units.Length(s.Resistance*v*v)
}

// Raised is a system whose discharge has been moved up by a height, such as a
// dewatering platform that was raised, or down by a negative one.
type Raised struct {
	System System
	By     units.Length
}

// Head returns the head of the [System] plus the height it was raised by.
// Without a system it is not a number, which every solver refuses.
func (s Raised) Head(q units.Flow) units.Length {
	if s.System == nil {
		return nan[units.Length]()
	}
	return s.System.Head(q) + s.By
}

// HeadBalance holds the terms of the total dynamic head between the water
// surface the pump draws from and the point of discharge.
type HeadBalance struct {
	Rise              units.Length   `json:"rise"`              // discharge level above the water surface in the basin, not above the pump
	PressureRise      units.Pressure `json:"pressureRise"`      // pressure at discharge less pressure on the basin; zero for open to open
	DischargeVelocity units.Velocity `json:"dischargeVelocity"` // zero when Losses holds an exit loss of 1
	SuctionVelocity   units.Velocity `json:"suctionVelocity"`   // zero at an open surface
	Losses            units.Length   `json:"losses"`            // friction and fittings
}

// TotalHead returns the total dynamic head of the balance for a liquid of
// density rho:
//
//	H = rise + dp/(rho g) + (v2^2 - v1^2)/2g + losses
//
// Use either the exit loss or the discharge velocity head, never both. Where
// the hose runs over a crown above the discharge, the rise is to the crown
// while priming, and always unless the falling leg runs full.
//
// Errors: ErrDomain for a density that is not positive, negative velocities or
// losses, or a term that is not finite.
// Source: the extended Bernoulli equation.
func TotalHead(b HeadBalance, rho units.Density) (units.Length, error) {
	const fn = "pumpsizing.TotalHead"
	err := errors.Join(
		units.Finite(fn, "rise", b.Rise.Metres(), "m"),
		units.Finite(fn, "pressureRise", b.PressureRise.Pascals(), "Pa"),
		units.NonNegative(fn, "dischargeVelocity", b.DischargeVelocity.MetresPerSecond(), "m/s"),
		units.NonNegative(fn, "suctionVelocity", b.SuctionVelocity.MetresPerSecond(), "m/s"),
		units.NonNegative(fn, "losses", b.Losses.Metres(), "m"),
		units.Positive(fn, "density", rho.KilogramsPerCubicMetre(), "kg/m3"),
	)
	if err != nil {
		return nan[units.Length](), err
	}
	v2, v1 := b.DischargeVelocity.MetresPerSecond(), b.SuctionVelocity.MetresPerSecond()
	h := b.Rise.Metres() + b.PressureRise.Pascals()/(rho.KilogramsPerCubicMetre()*gravity) +
		(v2*v2-v1*v1)/(2*gravity) + b.Losses.Metres()
	return sound(fn, units.Length(h))
}
