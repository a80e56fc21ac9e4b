package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/internal/seawater"
	"pondwright.example/units"
)

const standardPressure = 101325.0 // Pa, exact by definition

// AtmosphereMethod names a formula for air pressure against altitude:
// [StandardAtmosphere1976] or [RoundedPowerLaw].
type AtmosphereMethod uint8

const (
	// StandardAtmosphere1976 is the troposphere of the US standard atmosphere
	// 1976, which equals ICAO's and ISO 2533's there: the recommended default.
	StandardAtmosphere1976 AtmosphereMethod = iota
	// RoundedPowerLaw is 101325 Pa (1 - 2.25577e-5 z)^5.25588, the same with
	// geometric taken for geopotential altitude; 0.008 % off at 2000 m.
	RoundedPowerLaw
)

// AtmosphericPressure returns the standard air pressure at an altitude z above
// sea level:
//
//	p = 101325 Pa (1 - 0.0065 h/288.15)^5.2558797,  h = 6356766 z/(6356766 + z)
//
// in metres. Weather moves it by 3 %.
//
// Validity: -500 to 5000 m (ErrRange outside, to 11000 m).
// Errors: ErrDomain outside -500 to 11000 m or for an unknown method.
// Source: U.S. Standard Atmosphere, 1976, eqs. 18, 23 and 33a (from memory).
func AtmosphericPressure(altitude units.Length, method AtmosphereMethod) (units.AbsolutePressure, error) {
	const fn = "pumpsizing.AtmosphericPressure"
	z := altitude.Metres()
	if err := units.Within(fn, "altitude", z, -500, 11000, "m"); err != nil {
		return nan[units.AbsolutePressure](), err
	}
	var p float64
	switch method {
	case StandardAtmosphere1976:
		p = seawater.AirPressure(seawater.Geopotential(z))
	case RoundedPowerLaw:
		p = standardPressure * math.Pow(1-2.25577e-5*z, 5.25588)
	default:
		return nan[units.AbsolutePressure](), &units.InputError{Func: fn, Field: "method", Value: float64(method), Reason: "not a method of this package"}
	}
	return units.AbsolutePressure(p), inRange(fn, "altitude", z, -500, 5000, "m")
}

// Suction describes the inlet side of a pump drawing from an open surface.
type Suction struct {
	Atmosphere     units.AbsolutePressure `json:"atmosphere"`     // on the water surface
	VapourPressure units.AbsolutePressure `json:"vapourPressure"` // of the water at its temperature
	Density        units.Density          `json:"density"`
	Height         units.Length           `json:"height"` // water surface above the pump; negative for a suction lift
	Loss           units.Length           `json:"loss"`   // friction and fittings of the suction side
}

// NPSH is the suction head of a pump.
type NPSH struct {
	Available     units.Length           `json:"available"`
	InletPressure units.AbsolutePressure `json:"inletPressure"` // total pressure at the inlet
	Notices       []units.Notice         `json:"notices,omitempty"`
}

const (
	// lowInlet is the pressure below which dissolved gas comes out in numbers
	// (common practice).
	lowInlet = 50e3 // Pa
	// Margin of available over required: the larger of 10 % and 0.5 m (common
	// practice).
	npshRatio, npshExtra = 1.1, 0.5
)

func (s Suction) check(fn string) error {
	return errors.Join(
		units.Positive(fn, "atmosphere", s.Atmosphere.PascalsAbsolute(), "Pa"),
		units.NonNegative(fn, "vapourPressure", s.VapourPressure.PascalsAbsolute(), "Pa"),
		units.Positive(fn, "density", s.Density.KilogramsPerCubicMetre(), "kg/m3"),
		units.Finite(fn, "height", s.Height.Metres(), "m"),
		units.NonNegative(fn, "loss", s.Loss.Metres(), "m"))
}

// NPSH returns the net positive suction head available:
//
//	NPSHa = (pa - pv)/(rho g) + z - hf
//
// with z the height of the water surface over the pump, negative for a suction
// lift. A result below zero is an answer: the water boils before it arrives.
// The head a maker asks for (3 % loss of head) says nothing of what animals
// bear: see PressureRatio.
//
// Errors: ErrDomain for pressures or a density that cannot be, a negative loss,
// or a height that is not finite.
// Source: by definition; ISO 17769-1 (from memory).
func (s Suction) NPSH() (NPSH, error) {
	const fn = "pumpsizing.Suction.NPSH"
	if err := s.check(fn); err != nil {
		return NPSH{}, err
	}
	w := s.Density.KilogramsPerCubicMetre() * gravity
	out := NPSH{
		Available:     units.Length((s.Atmosphere.PascalsAbsolute()-s.VapourPressure.PascalsAbsolute())/w) + s.Height - s.Loss,
		InletPressure: s.Atmosphere + units.AbsolutePressure(w*(s.Height-s.Loss).Metres()),
	}
	if err := soundAll(fn, out.Available.Metres(), out.InletPressure.PascalsAbsolute()); err != nil {
		return NPSH{}, err
	}
	if p := out.InletPressure.PascalsAbsolute(); p < lowInlet {
		out.Notices = note(nil, CodeSuctionPressure, units.Caution, "inletPressure", p/1e3, lowInlet/1e3, "kPa",
			"dissolved gas comes out of the water below 50 kPa absolute, well before it boils", commonPractice)
	}
	return out, nil
}

// Available is the number of [Suction.NPSH] alone.
//
// Errors and source as NPSH.
func (s Suction) Available() (units.Length, error) {
	n, err := s.NPSH()
	if err != nil {
		return nan[units.Length](), err
	}
	return n.Available, nil
}

// Margin compares the suction head available with the one required by the pump
// and adds a notice when less than 1.1 times or 0.5 m more is there.
//
// Errors: those of NPSH; ErrDomain for a required head that is not positive.
func (s Suction) Margin(required units.Length) (NPSH, error) {
	const fn = "pumpsizing.Suction.Margin"
	if err := units.Positive(fn, "required", required.Metres(), "m"); err != nil {
		return NPSH{}, err
	}
	n, err := s.NPSH()
	if want := math.Max(npshRatio*required.Metres(), required.Metres()+npshExtra); err == nil && n.Available.Metres() < want {
		sev := units.Caution
		if n.Available < required {
			sev = units.Warning
		}
		n.Notices = note(n.Notices, CodeNPSH, sev, "available", n.Available.Metres(), want, "m",
			num(n.Available.Metres())+" m of suction head for a pump that asks for "+num(required.Metres())+" m: it cavitates or is close to it", commonPractice)
	}
	return n, err
}

// MaximumLift returns the highest the pump may stand above the water, as a
// positive number, for a required suction head times margin (1 for none): the
// Height of s is not used. A negative answer is the depth the pump must stand
// below the surface.
//
// Errors: those of NPSH; ErrDomain for a required head that is not positive or
// a margin below one.
// Source: the definition of NPSH, solved for the height.
func (s Suction) MaximumLift(required units.Length, margin float64) (units.Length, error) {
	const fn = "pumpsizing.Suction.MaximumLift"
	s.Height = 0
	err := errors.Join(s.check(fn), units.Positive(fn, "required", required.Metres(), "m"), units.Within(fn, "margin", margin, 1, 10, ""))
	if err != nil {
		return nan[units.Length](), err
	}
	w := s.Density.KilogramsPerCubicMetre() * gravity
	return sound(fn, units.Length((s.Atmosphere.PascalsAbsolute()-s.VapourPressure.PascalsAbsolute())/w)-s.Loss-required*units.Length(margin))
}

// NPSHFromGauge returns the suction head available from a gauge at the suction
// flange:
//
//	NPSHa = (pg + pa - pv)/(rho g) + v^2/2g + height
//
// with height of the gauge above the pump's datum and v the velocity in the
// suction pipe.
//
// Errors: ErrDomain for pressures or a density that cannot be, or terms that
// are not finite.
// Source: by definition.
func NPSHFromGauge(reading units.GaugePressure, s Suction, v units.Velocity, gaugeAbove units.Length) (units.Length, error) {
	const fn = "pumpsizing.NPSHFromGauge"
	s.Height, s.Loss = 0, 0
	err := errors.Join(s.check(fn), units.Finite(fn, "reading", reading.PascalsGauge(), "Pa"), units.NonNegative(fn, "v", v.MetresPerSecond(), "m/s"),
		units.Finite(fn, "gaugeAbove", gaugeAbove.Metres(), "m"))
	if err != nil {
		return nan[units.Length](), err
	}
	w := s.Density.KilogramsPerCubicMetre() * gravity
	u := v.MetresPerSecond()
	return sound(fn, units.Length((reading.PascalsGauge()+s.Atmosphere.PascalsAbsolute()-s.VapourPressure.PascalsAbsolute())/w+u*u/(2*gravity)+gaugeAbove.Metres()))
}
