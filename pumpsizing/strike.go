package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Strike is the meeting of bodies with the leading edges of an impeller's
// blades.
type Strike struct {
	Flow   units.Flow            `json:"flow"`
	Speed  units.RotationalSpeed `json:"speed"`
	Eye    units.Length          `json:"eye"`            // diameter of the inlet
	Hub    units.Length          `json:"hub,omitzero"`   // diameter of the hub in the inlet
	Blades int                   `json:"blades"`         //
	Body   units.Length          `json:"body"`           // length along the flow
	Swirl  units.Angle           `json:"swirl,omitzero"` // of the inflow; zero for axial
}

// StrikeResult is what the geometry says.
type StrikeResult struct {
	InflowVelocity units.Velocity `json:"inflowVelocity"`
	WaterLength    units.Length   `json:"waterLength"`   // between two blades
	Uncapped       float64        `json:"uncapped"`      // ratio of body to water length
	Probability    float64        `json:"probability"`   // the same, not above one
	RelativeSpeed  units.Velocity `json:"relativeSpeed"` // of water and edge at mid radius of the eye
}

// Ratio returns the chance that a straight body meets a blade's edge:
//
//	P = Z n L cos(a)/v,   v = Q/(pi/4 (De^2 - Dh^2))
//	w = sqrt(v^2 + (pi De n/2)^2)
//
// It ranks speeds; it does not predict deaths: bodies bend, a helical vane has
// no edge to speak of, and the chance is one for nearly all long fish.
//
// Validity: rigid straight bodies of 3 to 100 cm, axial entry.
// Errors: ErrDomain for sizes, speed, flow or blades that are not positive, a
// hub not smaller than the eye, or a swirl outside 0 to 90 degrees.
// Source: von Raben (1957) (form from memory); for pumps van Esch (2012),
// abstract.
func (s Strike) Ratio() (StrikeResult, error) {
	const fn = "pumpsizing.Strike.Ratio"
	err := errors.Join(
		units.Positive(fn, "flow", s.Flow.In(units.CubicMetresPerHour), "m3/h"), units.Positive(fn, "speed", s.Speed.In(units.RevolutionsPerMinute), "r/min"),
		units.Positive(fn, "eye", s.Eye.Metres(), "m"), units.NonNegative(fn, "hub", s.Hub.Metres(), "m"), units.Positive(fn, "blades", float64(s.Blades), ""),
		units.Positive(fn, "body", s.Body.Metres(), "m"), units.Within(fn, "swirl", s.Swirl.In(units.Degrees), 0, 90, "deg"))
	if err == nil && !(s.Hub < s.Eye) {
		err = &units.InputError{Func: fn, Field: "hub", Value: s.Hub.Metres(), Unit: "m", Min: 0, Max: s.Eye.Metres(), Reason: "must be smaller than the eye"}
	}
	if err != nil {
		return StrikeResult{}, err
	}
	de, dh, n := s.Eye.Metres(), s.Hub.Metres(), s.Speed.RadiansPerSecond()/(2*math.Pi)
	v := s.Flow.CubicMetresPerSecond() / (math.Pi / 4 * (de*de - dh*dh))
	w := v / (float64(s.Blades) * n)
	u := math.Pi * de * n / 2
	p := s.Body.Metres() * math.Cos(s.Swirl.Radians()) / w
	if err := soundAll(fn, v, w, p); err != nil {
		return StrikeResult{}, err
	}
	return StrikeResult{InflowVelocity: units.Velocity(v), WaterLength: units.Length(w), Uncapped: p, Probability: math.Min(1, p),
		RelativeSpeed: units.Velocity(math.Hypot(v, u))}, nil
}

// MutilationRatio returns the share of struck fish that are injured by their
// length: 0.15533 ln(L/cm) + 0.0125, held between 0 and 1.
//
// Validity: fish of 3 to 100 cm through large axial turbines (ErrRange
// outside); not crustaceans.
// Errors: ErrDomain for a length that is not positive.
// Source: Turnpenny et al. (2000) (coefficients from memory).
func MutilationRatio(body units.Length) (float64, error) {
	const fn = "pumpsizing.MutilationRatio"
	if err := units.Positive(fn, "body", body.Metres(), "m"); err != nil {
		return math.NaN(), err
	}
	cm := body.In(units.Centimetres)
	return math.Max(0, math.Min(1, 0.15533*math.Log(cm)+0.0125)), inRange(fn, "body", cm, 3, 100, "cm")
}

// PressureRatio returns the pressure a fish is used to over the lowest it meets,
// both absolute: the measure of harm to swim bladders. It means nothing for
// crustaceans, which have none. [Thresholds] lists what is published.
//
// Errors: ErrDomain for pressures that are not positive.
// Source: by definition.
func PressureRatio(acclimated, lowest units.AbsolutePressure) (float64, error) {
	const fn = "pumpsizing.PressureRatio"
	err := errors.Join(units.Positive(fn, "acclimated", acclimated.PascalsAbsolute()/1e3, "kPa"), units.Positive(fn, "lowest", lowest.PascalsAbsolute()/1e3, "kPa"))
	if err != nil {
		return math.NaN(), err
	}
	return sound(fn, acclimated.PascalsAbsolute()/lowest.PascalsAbsolute())
}

// SuctionExposure is a fish drawn from a basin to a pump above it.
type SuctionExposure struct {
	Atmosphere units.AbsolutePressure `json:"atmosphere"`
	Density    units.Density          `json:"density"`
	Depth      units.Length           `json:"depth"` // it is used to; the whole depth for animals of the bottom
	Lift       units.Length           `json:"lift"`  // pump inlet above the surface
	Loss       units.Pressure         `json:"loss"`  // of the suction pipe and at the blades
}

// Pressures returns the pressure the fish is used to, pa + rho g depth, and the
// lowest it meets, pa - rho g lift - loss.
//
// Errors: ErrDomain for data that cannot be, or a lift that leaves no pressure.
// Source: hydrostatics.
func (e SuctionExposure) Pressures() (acclimated, lowest units.AbsolutePressure, err error) {
	const fn = "pumpsizing.SuctionExposure"
	err = errors.Join(units.Positive(fn, "atmosphere", e.Atmosphere.PascalsAbsolute(), "Pa"), units.Positive(fn, "density", e.Density.KilogramsPerCubicMetre(), "kg/m3"),
		units.NonNegative(fn, "depth", e.Depth.Metres(), "m"), units.Finite(fn, "lift", e.Lift.Metres(), "m"), units.NonNegative(fn, "loss", e.Loss.Pascals(), "Pa"))
	w := e.Density.KilogramsPerCubicMetre() * gravity
	high := e.Atmosphere.PascalsAbsolute() + w*e.Depth.Metres()
	low := e.Atmosphere.PascalsAbsolute() - w*e.Lift.Metres() - e.Loss.Pascals()
	if err == nil && !(low > 0) {
		err = &units.InputError{Func: fn, Field: "lift", Value: e.Lift.Metres(), Unit: "m", Reason: "leaves no pressure at the inlet: the water column breaks"}
	}
	if err != nil {
		return nan[units.AbsolutePressure](), nan[units.AbsolutePressure](), err
	}
	if err := soundAll(fn, high, low); err != nil {
		return nan[units.AbsolutePressure](), nan[units.AbsolutePressure](), err
	}
	return units.AbsolutePressure(high), units.AbsolutePressure(low), nil
}
