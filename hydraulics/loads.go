package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// FilledHoseMass returns the mass of a length of hose full of liquid or mixture.
//
// Equation: m + ρ π D²/4 L, m the mass of the empty hose.
//
// Source: volume of a cylinder, by definition. An empty hose of 150 to 250 mm
// bore weighs 3 to 9 kg a metre (common practice).
func FilledHoseMass(empty units.Mass, bore, length units.Length, contents units.Density) (units.Mass, error) {
	const fn = "hydraulics.FilledHoseMass"
	err := errors.Join(units.NonNegative(fn, "empty", empty.Kilograms(), "kg"), boreError(fn, "bore", bore),
		units.NonNegative(fn, "length", length.Metres(), "m"),
		units.Within(fn, "contents", contents.KilogramsPerCubicMetre(), 0, 3000, "kg/m3"))
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	return units.Mass(finite(empty.Kilograms() + contents.KilogramsPerCubicMetre()*math.Pi/4*bore.Metres()*bore.Metres()*length.Metres())), nil
}

// FilledHoseWeight returns the weight of a full hose per length, what slings,
// floats and [HoseTension] ask for.
//
// Equation: (m/L + ρ π D²/4) g.
//
// Source: as for [FilledHoseMass]; standard gravity.
func FilledHoseWeight(empty units.Mass, bore, length units.Length, contents units.Density) (units.ForcePerLength, error) {
	m, err := FilledHoseMass(empty, bore, length, contents)
	err = errors.Join(err, units.Positive("hydraulics.FilledHoseWeight", "length", length.Metres(), "m"))
	if err != nil {
		return units.ForcePerLength(math.NaN()), err
	}
	return units.ForcePerLength(finite(m.Kilograms() * gravity / length.Metres())), nil
}

// PipeBeam is a pipe that spans between supports.
type PipeBeam struct {
	Outside  units.Length   `json:"outside"`
	Bore     units.Length   `json:"bore"`
	Modulus  units.Pressure `json:"modulus"` // of elasticity of the wall
	Stress   units.Pressure `json:"stress"`  // allowed in bending
	Wall     units.Density  `json:"wall"`    // of the wall's material
	Contents units.Density  `json:"contents"`
	Sag      float64        `json:"sag,omitzero"` // allowed sag over span, such as 1/360; zero takes 1/360
}

// SpanLimit is the longest span of a [PipeBeam] and what limits it.
type SpanLimit struct {
	Span     units.Length         `json:"span"` // the lesser of the two
	BySag    units.Length         `json:"bySag"`
	ByStress units.Length         `json:"byStress"`
	Load     units.ForcePerLength `json:"load"` // weight of pipe and contents
}

// SupportSpan returns the longest distance between supports of a pipe carried as
// a simple beam, full and at rest. Shock, wind and people on it are not counted:
// lifting and supports are for a competent person.
//
// Equation: sag 5 w L⁴/(384 E I) <= Sag L; stress w L²/(8 Z) <= Stress; I = π
// (Do⁴ - D⁴)/64, Z = 2 I/Do.
//
// Source: Euler-Bernoulli beam, simply supported, even load.
func SupportSpan(b PipeBeam) (SpanLimit, error) {
	const fn = "hydraulics.SupportSpan"
	sag := b.Sag
	if sag == 0 {
		sag = 1.0 / 360
	}
	err := errors.Join(boreError(fn, "outside", b.Outside), boreError(fn, "bore", b.Bore),
		units.Within(fn, "modulus", b.Modulus.Pascals(), 1e4, 1e13, "Pa"),
		units.Within(fn, "stress", b.Stress.Pascals(), 1, 1e10, "Pa"),
		units.Within(fn, "wall", b.Wall.KilogramsPerCubicMetre(), 10, 25000, "kg/m3"),
		units.Within(fn, "contents", b.Contents.KilogramsPerCubicMetre(), 0, 3000, "kg/m3"),
		units.Within(fn, "sag", sag, 1e-5, 0.1, ""))
	if !(b.Bore < b.Outside) {
		err = errors.Join(err, units.Within(fn, "bore", b.Bore.Metres(), 0, b.Outside.Metres(), "m"))
	}
	if err != nil {
		return SpanLimit{}, err
	}
	do, d := b.Outside.Metres(), b.Bore.Metres()
	w := gravity * math.Pi / 4 * (b.Wall.KilogramsPerCubicMetre()*(do*do-d*d) + b.Contents.KilogramsPerCubicMetre()*d*d)
	i := math.Pi / 64 * (do*do*do*do - d*d*d*d)
	s := SpanLimit{Load: units.ForcePerLength(w),
		BySag:    units.Length(math.Cbrt(sag * 384 * b.Modulus.Pascals() * i / (5 * w))),
		ByStress: units.Length(math.Sqrt(8 * b.Stress.Pascals() * 2 * i / do / w))}
	s.Span = min(s.BySag, s.ByStress)
	return s, nil
}

// HoseTension returns the greatest pull in a hose or rope that hangs between two
// level points with a given sag under an even load.
//
// Equation: H = w L²/(8 s), T = √(H² + (w L/2)²), parabola.
//
// Validity: sag to an eighth of the span; ErrRange with the value beyond, where a
// catenary pulls less.
//
// Source: parabolic cable, statics.
func HoseTension(load units.ForcePerLength, span, sag units.Length) (units.Force, error) {
	const fn = "hydraulics.HoseTension"
	err := errors.Join(units.NonNegative(fn, "load", load.NewtonsPerMetre(), "N/m"), units.Positive(fn, "span", span.Metres(), "m"),
		units.Positive(fn, "sag", sag.Metres(), "m"))
	if err != nil {
		return units.Force(math.NaN()), err
	}
	w, l, s := load.NewtonsPerMetre(), span.Metres(), sag.Metres()
	t := units.Force(finite(math.Hypot(w*l*l/(8*s), w*l/2)))
	if s > l/8 {
		return t, &units.InputError{Func: fn, Field: "sag", Value: s, Unit: "m", Min: 0, Max: l / 8, Kind: units.ErrRange}
	}
	return t, nil
}

// BendThrust returns the force that pressure and flow put on a bend, along the
// line that halves it, outwards: what an anchor must hold.
//
// Equation: F = 2 (p A + ρ Q V) sin(θ/2), p the gauge pressure in the bend.
//
// Validity: θ the turn of the flow, above 0 to 180 degrees; p not negative.
//
// Source: momentum; Munson, Young & Okiishi, example 5.11, is a check row.
func BendThrust(turn units.Angle, p units.GaugePressure, q units.Flow, bore units.Length, contents units.Density) (units.Force, error) {
	const fn = "hydraulics.BendThrust"
	err := errors.Join(bendAngle(fn, turn.In(units.Degrees), 180*(1+1e-12)), units.Within(fn, "p", p.PascalsGauge(), 0, 1e9, "Pa"),
		units.Finite(fn, "q", q.CubicMetresPerSecond(), "m3/s"), boreError(fn, "bore", bore),
		units.Positive(fn, "contents", contents.KilogramsPerCubicMetre(), "kg/m3"))
	if err != nil {
		return units.Force(math.NaN()), err
	}
	a := math.Pi / 4 * bore.Metres() * bore.Metres()
	v := q.CubicMetresPerSecond() / a
	return units.Force(finite(2 * (p.PascalsGauge()*a + contents.KilogramsPerCubicMetre()*v*v*a) * math.Sin(turn.Radians()/2))), nil
}

// JetReaction returns the force with which a jet pushes back on the hose it
// leaves: hold or tie the end before the pump starts.
//
// Equation: F = ρ Q V.
//
// Source: momentum.
func JetReaction(q units.Flow, bore units.Length, contents units.Density) (units.Force, error) {
	const fn = "hydraulics.JetReaction"
	err := errors.Join(units.Finite(fn, "q", q.CubicMetresPerSecond(), "m3/s"), boreError(fn, "bore", bore),
		units.Positive(fn, "contents", contents.KilogramsPerCubicMetre(), "kg/m3"))
	if err != nil {
		return units.Force(math.NaN()), err
	}
	return units.Force(finite(contents.KilogramsPerCubicMetre() * float64(q*q) / (math.Pi / 4 * bore.Metres() * bore.Metres()))), nil
}
