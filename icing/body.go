package icing

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// Film coefficients between product and medium, for want of a measurement. They
// are from memory of the trade's handbooks and spread by half each way; still
// and stirred bath are what a stirred 20 g shrimp and an unstirred one imply.
const (
	FilmStillAir       units.HeatTransferCoefficient = 7   // chill room, no fan
	FilmForcedAir      units.HeatTransferCoefficient = 40  // air blast 20 to 60
	FilmStillBath      units.HeatTransferCoefficient = 80  // ice and water, nobody stirs
	FilmIceContact     units.HeatTransferCoefficient = 100 // packed in melting ice 100 to 200
	FilmStirredBath    units.HeatTransferCoefficient = 300 // stirred slurry or chilled seawater 200 to 500
	FilmPumpedSlurry   units.HeatTransferCoefficient = 800 // 500 to 1500
	DefaultFlesh       units.ThermalConductivity     = 0.5 // W/(m K), unfrozen fish and shrimp
	DefaultDiffusivity units.Diffusivity             = 1.3e-7
)

// Body is one animal, fillet or layer as far as its cooling goes.
type Body struct {
	Shape         Shape                         `json:"shape"`         // a fish on its side or a layer is a Slab, a shrimp or catfish a Cylinder
	HalfDimension units.Length                  `json:"halfDimension"` // half the thickness or the radius; not the full thickness
	Conductivity  units.ThermalConductivity     `json:"conductivity"`  // zero means DefaultFlesh
	Diffusivity   units.Diffusivity             `json:"diffusivity"`   // zero means DefaultDiffusivity
	Film          units.HeatTransferCoefficient `json:"film"`          // between surface and medium
}

type bodyState struct{ r, k, a, bi float64 }

// Validate reports every field that cannot be a body.
func (b Body) Validate() error {
	_, err := b.check()
	return err
}

func (b Body) check() (bodyState, error) {
	const fn = "icing.Body"
	s := bodyState{r: float64(b.HalfDimension), k: float64(b.Conductivity), a: float64(b.Diffusivity)}
	if s.k == 0 {
		s.k = float64(DefaultFlesh)
	}
	if s.a == 0 {
		s.a = float64(DefaultDiffusivity)
	}
	s.bi = float64(b.Film) * s.r / s.k
	e1 := units.Within(fn, "halfDimension", s.r, 1e-5, 5, "m")
	e2 := units.Within(fn, "conductivity", s.k, 0.01, 500, "W/(m K)")
	e3 := units.Within(fn, "diffusivity", s.a, 1e-9, 1e-3, "m2/s")
	e4 := units.Within(fn, "film", float64(b.Film), 1e-3, 1e6, "W/(m2 K)")
	var e5 error
	if b.Shape > Sphere {
		e5 = &units.InputError{Func: fn, Field: "shape", Value: float64(b.Shape), Reason: "must be Slab, Cylinder or Sphere"}
	}
	if e1 == nil && e2 == nil && e3 == nil && e4 == nil && e5 == nil {
		return s, nil
	}
	return s, errors.Join(e5, e1, e2, e3, e4)
}

// Biot returns the ratio of the resistance inside the body to that of the film,
// h·R/k, dimensionless. Below 0.1 stirring decides; above 10 only thickness.
//
// Validity: as [Body.Validate]; errors are ErrDomain with NaN.
//
// Source: by definition; Incropera & DeWitt, ch. 5.
func (b Body) Biot() (float64, error) {
	s, err := b.check()
	if err != nil {
		return math.NaN(), err
	}
	return s.bi, nil
}

// Fourier returns the dimensionless time a·t/R².
//
// Validity: as [Body.Validate] and t not negative; errors are ErrDomain with
// NaN.
//
// Source: by definition; Incropera & DeWitt, ch. 5.
func (b Body) Fourier(t time.Duration) (float64, error) {
	s, err := b.check()
	if err != nil {
		return math.NaN(), err
	}
	if err := bounds.Amount("icing.Body.Fourier", "t", t.Seconds(), "s"); err != nil {
		return math.NaN(), err
	}
	return s.a * t.Seconds() / (s.r * s.r), nil
}

// Core returns the temperature at the centre of the body after t in a medium,
// from a uniform start. Equation, validity and source as [Theta]; errors are
// ErrDomain beside an unset temperature.
func (b Body) Core(start, medium units.Temperature, t time.Duration) (units.Temperature, error) {
	return b.at(start, medium, t, 0)
}

// Mean returns the mean temperature of the body, the one it would take if left
// to even out; otherwise as [Body.Core].
func (b Body) Mean(start, medium units.Temperature, t time.Duration) (units.Temperature, error) {
	return b.at(start, medium, t, -1)
}

func (b Body) at(start, medium units.Temperature, t time.Duration, x float64) (units.Temperature, error) {
	s, err := b.check()
	if err != nil {
		return units.Temperature{}, err
	}
	const fn = "icing.Body"
	t0, tm := start.Celsius(), medium.Celsius()
	err = errors.Join(bounds.Amount(fn, "t", t.Seconds(), "s"),
		units.Within(fn, "start", t0, -60, 150, "°C"), units.Within(fn, "medium", tm, -60, 150, "°C"))
	if err != nil {
		return units.Temperature{}, err
	}
	m := modes{shape: b.Shape, bi: s.bi}
	return units.Celsius(tm + (t0-tm)*m.theta(s.a*t.Seconds()/(s.r*s.r), x)), nil
}

// CoreTime returns how long the centre of the body takes from start to target
// in a medium of constant temperature, by the exact series of [Theta] and a
// bracketed root. It serves warming as well as cooling.
//
// Validity: target between start and medium, both excluded at the medium's end:
// the medium's own temperature is never reached (ErrNoSolution). Latent heat of
// freezing is not in the series: a target below the start of freezing is
// ErrDomain.
//
// Accuracy: 1e-10 of the equation; 30 % of a real animal, since film coefficient
// and size are not known better.
//
// Source: as [Theta].
func (b Body) CoreTime(start, medium, target units.Temperature) (time.Duration, error) {
	return b.timeTo("icing.Body.CoreTime", start, medium, target, 0)
}

// MeanTime is [Body.CoreTime] for the mean temperature of the body: the time at
// which it has given off all the heat of the chill.
func (b Body) MeanTime(start, medium, target units.Temperature) (time.Duration, error) {
	return b.timeTo("icing.Body.MeanTime", start, medium, target, -1)
}

func (b Body) timeTo(fn string, start, medium, target units.Temperature, x float64) (time.Duration, error) {
	s, err := b.check()
	if err != nil {
		return 0, err
	}
	want, err := unaccomplished(fn, start, medium, target)
	if err != nil {
		return 0, err
	}
	if want >= 1 {
		return 0, nil
	}
	m := modes{shape: b.Shape, bi: s.bi}
	fo, err := m.fourierFor(want, x)
	if err != nil {
		return 0, err
	}
	return durationOf(fn, fo*s.r*s.r/s.a)
}

// unaccomplished is the share of the change that is left at target.
func unaccomplished(fn string, start, medium, target units.Temperature) (float64, error) {
	t0, tm, t1 := start.Celsius(), medium.Celsius(), target.Celsius()
	err := errors.Join(
		units.Within(fn, "start", t0, -60, 150, "°C"),
		units.Within(fn, "medium", tm, -60, 150, "°C"),
		units.Within(fn, "target", t1, -60, 150, "°C"))
	if err != nil {
		return math.NaN(), err
	}
	if t1 == t0 {
		return 1, nil
	}
	if t0 == tm || (t1-tm)/(t0-tm) <= 0 || (t1-tm)/(t0-tm) > 1 {
		return math.NaN(), &units.InputError{Func: fn, Field: "target", Value: t1, Unit: "°C",
			Min: min(t0, tm), Max: max(t0, tm), Kind: units.ErrNoSolution,
			Reason: "the body only ever moves from its start towards the medium and never quite reaches it"}
	}
	if t1 < t0 && t1 < -2.2 && t0 > 0 {
		return math.NaN(), &units.InputError{Func: fn, Field: "target", Value: t1, Unit: "°C", Min: -2.2, Max: t0,
			Reason: "flesh freezes below this: freezing, not chilling"}
	}
	return (t1 - tm) / (t0 - tm), nil
}

// fourierFor inverts theta at the centre (x = 0) or for the mean (x < 0).
func (m *modes) fourierFor(want, x float64) (float64, error) {
	z, c := m.term(0)
	if x < 0 {
		c *= average(m.shape, z)
	}
	late := max(0, math.Log(c/want)/(z*z)) // one term alone
	lo, hi := seriesFloor, late*1.0001+1
	if x >= 0 {
		lo = 0.02 // the centre has hardly felt anything, and ten terms tell
		if m.theta(lo, x) <= want {
			lo = 5e-4
		}
	}
	if x < 0 {
		// No convex body loses heat faster than a flat one held at the medium's
		// temperature: 1-θ <= (shape+1)·2·√(Fo/π).
		g := (1 - want) / float64(m.shape+1) / 2
		lo = max(lo, 0.999*math.Pi*g*g)
	}
	if late > 1 {
		lo = max(lo, 0.9*late) // one term is exact to 1e-3 long before
	}
	f := func(fo float64) float64 { return m.theta(fo, x) - want }
	flo := f(lo)
	if flo <= 0 {
		return lo, nil
	}
	return root.FindBetween(f, lo, hi, flo, f(hi), 0)
}

// durationOf turns seconds into a Duration, or says that it does not fit.
func durationOf(fn string, seconds float64) (time.Duration, error) {
	const year = 365.25 * 86400
	if !(seconds >= 0 && seconds < 100*year) {
		return 0, &units.InputError{Func: fn, Field: "result", Value: seconds / year, Unit: "years", Min: 0, Max: 100,
			Reason: "longer than a duration can usefully hold", Kind: units.ErrNoSolution}
	}
	return time.Duration(math.Round(seconds * float64(time.Second))), nil
}

// ThicknessForMass returns the thickness or diameter of an animal of another
// size from one that was measured, taking the same build:
//
//	d = d_ref·(m/m_ref)^(1/3)
//
// Validity: all positive; errors are ErrDomain with NaN.
//
// Source: geometric similarity, common practice.
func ThicknessForMass(measured units.Length, measuredMass, mass units.Mass) (units.Length, error) {
	const fn = "icing.ThicknessForMass"
	err := bounds.Positive(fn, "measured", float64(measured), "m")
	if err == nil {
		err = bounds.Positive(fn, "measuredMass", float64(measuredMass), "kg")
	}
	if err == nil {
		err = bounds.Positive(fn, "mass", float64(mass), "kg")
	}
	if err != nil {
		return units.Length(math.NaN()), err
	}
	return measured * units.Length(math.Cbrt(float64(mass)/float64(measuredMass))), nil
}

// HalfDimensionFor returns the largest half-dimension whose centre comes from
// start to target within limit, all else as in the body, whose own half-dimension
// is ignored: the thickest layer or fish for a time.
//
// Validity: as [Body.CoreTime], limit above zero; a size outside 10 µm to 5 m is
// ErrNoSolution with NaN. Source: as [Theta], inverted.
func (b Body) HalfDimensionFor(start, medium, target units.Temperature, limit time.Duration) (units.Length, error) {
	const fn = "icing.Body.HalfDimensionFor"
	nan := units.Length(math.NaN())
	const least, most = 1e-5, 5.0
	b.HalfDimension = most
	if err := errors.Join(b.Validate(), bounds.Positive(fn, "limit", limit.Seconds(), "s")); err != nil {
		return nan, err
	}
	if _, err := unaccomplished(fn, start, medium, target); err != nil {
		return nan, err
	}
	excess := func(r float64) float64 {
		b.HalfDimension = units.Length(r)
		s, _ := b.check()
		want, _ := unaccomplished(fn, start, medium, target)
		m := modes{shape: b.Shape, bi: s.bi}
		fo, err := m.fourierFor(want, 0)
		if err != nil {
			return math.NaN()
		}
		return fo*r*r/s.a - limit.Seconds()
	}
	if start == target || excess(least) > 0 || excess(most) < 0 {
		return nan, &units.InputError{Func: fn, Field: "limit", Value: limit.Seconds(), Unit: "s", Reason: "no size from 10 µm to 5 m takes just this long", Kind: units.ErrNoSolution}
	}
	r, err := root.Find(excess, least, most, 1e-12)
	if err != nil {
		return nan, err
	}
	return units.Length(r), nil
}
