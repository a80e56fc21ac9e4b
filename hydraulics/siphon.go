package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// SiphonCrest is what limits how high a siphon can lift water over a bank.
type SiphonCrest struct {
	Atmosphere     units.AbsolutePressure `json:"atmosphere"`     // at the pond
	VapourPressure units.AbsolutePressure `json:"vapourPressure"` // of the water
	Density        units.Density          `json:"density"`        // of the water
	Velocity       units.Velocity         `json:"velocity"`       // in the pipe
	Loss           units.Length           `json:"loss"`           // of head from the pond to the crest
}

// PracticalSiphonRise is how far above the pond a siphon's crest is commonly
// placed at sea level at most: above it the air that leaves the water collects
// faster than the flow carries it out. Common practice, no source.
const PracticalSiphonRise = 6.5 * units.Metre

// MaxRise returns the height of the crest above the pond at which the water in
// the crest would boil.
//
//	z = (p_atm - p_v)/(ρ g) - V²/2g - h_l
//
// It is negative when the velocity and the losses are too much for any crest.
//
// Errors: ErrDomain (value NaN) for a pressure or density that is not above
// zero, a vapour pressure above the atmosphere, a negative velocity or loss.
//
// Source: the energy equation from the pond to the crest, in every hydraulics
// text.
func (s SiphonCrest) MaxRise() (units.Length, error) {
	const fn = "hydraulics.SiphonCrest.MaxRise"
	atm := s.Atmosphere.PascalsAbsolute()
	err := errors.Join(
		units.Within(fn, "atmosphere", atm, 30e3, 120e3, "Pa"),
		units.Within(fn, "vapourPressure", s.VapourPressure.PascalsAbsolute(), 0, math.Min(atm, 120e3), "Pa"),
		units.Within(fn, "density", s.Density.KilogramsPerCubicMetre(), 500, 2000, "kg/m3"),
		units.NonNegative(fn, "velocity", s.Velocity.MetresPerSecond(), "m/s"),
		units.NonNegative(fn, "loss", s.Loss.Metres(), "m"))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	v := float64(s.Velocity)
	return units.Length((atm-float64(s.VapourPressure))/(float64(s.Density)*gravity) - v*v/(2*gravity) - float64(s.Loss)), nil
}

// SiphonSpec describes a siphon over a bank. Levels are above one datum.
type SiphonSpec struct {
	Bore         units.Length `json:"bore"`         // inside
	Length       units.Length `json:"length"`       // of pipe, whole
	Roughness    units.Length `json:"roughness"`    // absolute
	LossSum      float64      `json:"lossSum"`      // ΣK, the exit (1) included
	UpLength     units.Length `json:"upLength"`     // of pipe from the intake to the crest
	UpLossSum    float64      `json:"upLossSum"`    // ΣK from the intake to the crest
	Intake       units.Length `json:"intake"`       // level of the intake's rim; below it air enters and the siphon breaks
	Crest        units.Length `json:"crest"`        // level of the pipe's highest centreline
	OutletCentre units.Length `json:"outletCentre"` // level of the outfall's centreline

	Atmosphere     units.AbsolutePressure   `json:"atmosphere"`
	VapourPressure units.AbsolutePressure   `json:"vapourPressure"`
	Density        units.Density            `json:"density"`
	Viscosity      units.KinematicViscosity `json:"viscosity"`
}

// Validate reports every field that cannot be used, joined.
func (s SiphonSpec) Validate() error {
	const fn = "hydraulics.SiphonSpec"
	_, crest := SiphonCrest{Atmosphere: s.Atmosphere, VapourPressure: s.VapourPressure, Density: s.Density}.MaxRise()
	return errors.Join(
		bounded(fn, "bore", float64(s.Bore), 0, 5, "m", "a bore; is it in millimetres?"),
		bounded(fn, "length", float64(s.Length), 0, 1e4, "m", "a length above zero"),
		units.Within(fn, "roughness", float64(s.Roughness), 0, maxRelativeRoughness*math.Max(0, float64(s.Bore)), "m"),
		units.Within(fn, "lossSum", s.LossSum, 1, 1e4, ""),
		bounded(fn, "upLength", float64(s.UpLength), 0, math.Max(0, float64(s.Length)), "m", "a part of the whole length"),
		units.Within(fn, "upLossSum", s.UpLossSum, 0, math.Max(0, s.LossSum), ""),
		units.Finite(fn, "intake", float64(s.Intake), "m"),
		units.Finite(fn, "crest", float64(s.Crest), "m"),
		units.Finite(fn, "outletCentre", float64(s.OutletCentre), "m"),
		units.Within(fn, "viscosity", float64(s.Viscosity), 1e-7, 1e-4, "m2/s"),
		crest)
}

// Siphon is a primed siphon ready for use: the full pipe, held back where the
// pressure in the crest reaches that of the vapour. It never runs backwards and
// stops at once when the pond falls to the intake; [Siphon.BreaksAt] is where.
// Priming is the user's business.
//
// Source: Darcy-Weisbach and Colebrook (1939) as in [OutletPipe]; the crest as
// in [SiphonCrest.MaxRise].
//
// Accuracy: 10 %, less where air collects in the crest.
type Siphon struct{ p *siphon }

type siphon struct {
	spec  SiphonSpec
	whole pipeWall
	up    pipeWall // to the crest, with the velocity head there
	rise  float64  // (p_atm - p_v)/(ρ g)
}

// NewSiphon validates the description and prepares the siphon.
func NewSiphon(s SiphonSpec) (Siphon, error) {
	if err := s.Validate(); err != nil {
		return Siphon{}, err
	}
	rise, err := SiphonCrest{Atmosphere: s.Atmosphere, VapourPressure: s.VapourPressure, Density: s.Density}.MaxRise()
	if err != nil {
		return Siphon{}, err
	}
	d, k, nu := float64(s.Bore), float64(s.Roughness), float64(s.Viscosity)
	return Siphon{&siphon{spec: s, rise: float64(rise),
		whole: newPipeWall(d, float64(s.Length), k, s.LossSum, nu),
		up:    newPipeWall(d, float64(s.UpLength), k, 1+s.UpLossSum, nu)}}, nil
}

// Spec returns the description the siphon was built from.
func (s Siphon) Spec() SiphonSpec {
	if s.p == nil {
		return SiphonSpec{}
	}
	return s.p.spec
}

// BreaksAt returns the pond level at and below which the siphon has lost its
// prime: the only jump of its discharge.
func (s Siphon) BreaksAt() units.Length { return s.Spec().Intake }

// Discharge returns the flow of the primed siphon.
func (s Siphon) Discharge(level, tailwater units.Length) units.Flow {
	if s.p == nil || level <= s.p.spec.Intake {
		return 0
	}
	pipe, crest := s.p.velocities(float64(level), float64(tailwater))
	return units.Flow(s.p.whole.area * math.Min(pipe, crest))
}

// velocities returns what the pipe carries and what the crest admits.
func (p *siphon) velocities(hi, lo float64) (pipe, crest float64) {
	pipe = p.whole.velocity(hi - math.Max(float64(p.spec.OutletCentre), lo))
	crest = p.up.velocity(p.rise - (float64(p.spec.Crest) - hi))
	return pipe, crest
}

// Control names what governs at the two levels; [ControlCrest] is a siphon that
// boils in its crest.
func (s Siphon) Control(level, tailwater units.Length) Control {
	if s.p == nil || level <= s.p.spec.Intake {
		return ControlNone
	}
	pipe, crest := s.p.velocities(float64(level), float64(tailwater))
	switch {
	case pipe == 0:
		return ControlNone
	case crest < pipe:
		return ControlCrest
	}
	return ControlFullPipe
}

// AppendNotices appends what a siphon's owner must know at the two levels: the
// crest too high or boiling, the flow too slow to carry air out (below 1 m/s,
// common practice).
func (s Siphon) AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice {
	if s.p == nil || level <= s.p.spec.Intake {
		return dst
	}
	rise := float64(s.p.spec.Crest - level)
	// The practical rise shrinks with the atmosphere.
	limit := float64(PracticalSiphonRise) * float64(s.p.spec.Atmosphere) / 101325
	if rise > limit {
		dst = append(dst, units.Notice{Code: CodeSiphonRise, Severity: units.Warning, Field: "crest", Value: rise, Limit: limit,
			Unit: "m", Message: "the crest stands higher above the pond than siphons hold their prime", Source: "common practice"})
	}
	pipe, crest := s.p.velocities(float64(level), float64(tailwater))
	if crest < pipe {
		dst = append(dst, units.Notice{Code: CodeSiphonRise, Severity: units.Warning, Field: "crest", Value: crest, Limit: pipe,
			Unit: "m/s", Message: "the water boils in the crest before the pipe reaches its flow", Source: "energy equation to the crest"})
	}
	if v := math.Min(pipe, crest); v > 0 && v < 1 {
		dst = append(dst, units.Notice{Code: CodeSiphonPriming, Severity: units.Caution, Field: "velocity", Value: v, Limit: 1,
			Unit: "m/s", Message: "slower than carries air out of the crest", Source: "common practice"})
	}
	return dst
}

// Kinks appends the levels at which the discharge jumps or its slope does, as
// many under every tailwater: the intake, where the head begins, and where the
// crest begins to pass water at all.
func (s Siphon) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	if s.p == nil {
		return dst
	}
	first := len(dst)
	dst = append(dst, s.p.spec.Intake, max(s.p.spec.OutletCentre, tailwater), s.p.spec.Crest-units.Length(s.p.rise))
	sortLengths(dst[first:])
	return dst
}
