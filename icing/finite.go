package icing

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// FiniteCylinder is a short cylinder cooled on its side and both ends, such as a
// trimmed tail, a can or a bucket of product.
type FiniteCylinder struct {
	Radius       units.Length                  `json:"radius"`
	Length       units.Length                  `json:"length"`       // end to end
	Conductivity units.ThermalConductivity     `json:"conductivity"` // zero means DefaultFlesh
	Diffusivity  units.Diffusivity             `json:"diffusivity"`  // zero means DefaultDiffusivity
	Film         units.HeatTransferCoefficient `json:"film"`
}

// Brick is a rectangular body cooled on all six faces.
type Brick struct {
	Sides        [3]units.Length               `json:"sides"`        // full lengths of the edges
	Conductivity units.ThermalConductivity     `json:"conductivity"` // zero means DefaultFlesh
	Diffusivity  units.Diffusivity             `json:"diffusivity"`  // zero means DefaultDiffusivity
	Film         units.HeatTransferCoefficient `json:"film"`
}

// product is up to three crossing one-dimensional bodies; the temperature of
// their intersection is the product of theirs (Carslaw & Jaeger 1959, 1.15).
type product struct {
	n int
	m [3]modes
	f [3]float64 // Fourier number per second
}

func (p *product) add(b Body) error {
	s, err := b.check()
	if err != nil {
		return err
	}
	p.m[p.n] = modes{shape: b.Shape, bi: s.bi}
	p.f[p.n] = s.a / (s.r * s.r)
	p.n++
	return nil
}

// theta is the product at the given positions, or the mean for negative ones.
func (p *product) theta(t float64, x [3]float64) float64 {
	v := 1.0
	for i := range p.n {
		v *= p.m[i].theta(p.f[i]*t, x[i])
	}
	return v
}

func (c FiniteCylinder) parts(p *product) error {
	b := Body{Conductivity: c.Conductivity, Diffusivity: c.Diffusivity, Film: c.Film}
	b.Shape, b.HalfDimension = Cylinder, c.Radius
	err := units.AtField("radius", p.add(b))
	b.Shape, b.HalfDimension = Slab, c.Length/2
	return errors.Join(err, units.AtField("length", p.add(b)))
}

func (k Brick) parts(p *product) error {
	b := Body{Shape: Slab, Conductivity: k.Conductivity, Diffusivity: k.Diffusivity, Film: k.Film}
	var errs [3]error
	for i, side := range k.Sides {
		b.HalfDimension = side / 2
		errs[i] = units.AtField("sides", p.add(b))
	}
	return errors.Join(errs[:]...)
}

func checkTime(fn string, t time.Duration) error {
	return bounds.Amount(fn, "t", t.Seconds(), "s")
}

// Theta returns the unaccomplished temperature change at the fraction radial of
// the radius and the fraction axial of the half-length, both 0 at the centre and
// 1 at the surface: the product of a long cylinder's and a slab's [Theta].
//
// Validity: as [Body.Validate], t not negative, positions 0 to 1; errors are
// ErrDomain with NaN.
//
// Source: Carslaw & Jaeger (1959), 1.15, product solutions.
func (c FiniteCylinder) Theta(t time.Duration, radial, axial float64) (float64, error) {
	const fn = "icing.FiniteCylinder.Theta"
	var p product
	err := errors.Join(c.parts(&p), checkTime(fn, t), units.Within(fn, "radial", radial, 0, 1, ""), units.Within(fn, "axial", axial, 0, 1, ""))
	if err != nil {
		return math.NaN(), err
	}
	return p.theta(t.Seconds(), [3]float64{radial, axial}), nil
}

// MeanTheta returns the mean of [FiniteCylinder.Theta] over the body; validity,
// errors and source as there.
func (c FiniteCylinder) MeanTheta(t time.Duration) (float64, error) {
	var p product
	if err := errors.Join(c.parts(&p), checkTime("icing.FiniteCylinder.MeanTheta", t)); err != nil {
		return math.NaN(), err
	}
	return p.theta(t.Seconds(), [3]float64{-1, -1, -1}), nil
}

// CoreTime returns how long the centre takes from start to target in a medium;
// validity and errors as [Body.CoreTime], source as [FiniteCylinder.Theta].
func (c FiniteCylinder) CoreTime(start, medium, target units.Temperature) (time.Duration, error) {
	var p product
	if err := c.parts(&p); err != nil {
		return 0, err
	}
	return p.coreTime("icing.FiniteCylinder.CoreTime", start, medium, target)
}

// Theta returns the unaccomplished temperature change at the centre of the
// brick, the product of three slabs' [Theta]. Validity, errors and source as
// [FiniteCylinder.Theta].
func (k Brick) Theta(t time.Duration) (float64, error) {
	var p product
	if err := errors.Join(k.parts(&p), checkTime("icing.Brick.Theta", t)); err != nil {
		return math.NaN(), err
	}
	return p.theta(t.Seconds(), [3]float64{}), nil
}

// CoreTime returns how long the centre of the brick takes from start to target
// in a medium; validity and errors as [Body.CoreTime], source as
// [FiniteCylinder.Theta].
func (k Brick) CoreTime(start, medium, target units.Temperature) (time.Duration, error) {
	var p product
	if err := k.parts(&p); err != nil {
		return 0, err
	}
	return p.coreTime("icing.Brick.CoreTime", start, medium, target)
}

func (p *product) coreTime(fn string, start, medium, target units.Temperature) (time.Duration, error) {
	want, err := unaccomplished(fn, start, medium, target)
	if err != nil {
		return 0, err
	}
	if want >= 1 {
		return 0, nil
	}
	// Each body alone is slower than all together.
	hi := math.Inf(1)
	for i := range p.n {
		fo, err := p.m[i].fourierFor(want, 0)
		if err != nil {
			return 0, err
		}
		hi = min(hi, fo/p.f[i])
	}
	f := func(t float64) float64 { return p.theta(t, [3]float64{}) - want }
	fhi := f(hi)
	if fhi >= 0 {
		return durationOf(fn, hi)
	}
	t, err := root.FindBetween(f, 0, hi, 1-want, fhi, 1e-13*hi)
	if err != nil {
		return 0, err
	}
	return durationOf(fn, t)
}
