package hydraulics

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// Discharge coefficients of openings on the area of the opening; from memory,
// as hydraulics texts quote them. They are bands, not values.
const (
	SharpOrifice     = 0.61 // sharp edge, 0.60 to 0.62
	ShortTubeOrifice = 0.81 // tube of two to three diameters, 0.80 to 0.82
	BellmouthOrifice = 0.98 // well rounded, 0.96 to 0.99
)

// OrificeFlow returns the flow through an opening that is small beside the head
// difference across it, or drowned.
//
//	Q = Cd A √(2g h)
//
// h is the difference between the pond and the opening's centre, or the
// tailwater where that is higher.
//
// Errors: ErrDomain (value NaN) for a coefficient outside 0 to 1, an area that
// is not above zero, or a negative head.
//
// Source: Torricelli's theorem with a discharge coefficient, as in every
// hydraulics text.
func OrificeFlow(cd float64, area units.Area, head units.Length) (units.Flow, error) {
	const fn = "hydraulics.OrificeFlow"
	err := errors.Join(
		bounded(fn, "cd", cd, 0, 1, "", "a discharge coefficient"),
		units.Positive(fn, "area", float64(area), "m2"),
		units.NonNegative(fn, "head", float64(head), "m"))
	if err != nil {
		return units.Flow(math.NaN()), err
	}
	return units.Flow(cd * float64(area) * math.Sqrt(2*gravity*float64(head))), nil
}

// OrificeSpec describes an opening in a vertical wall. Give a diameter, or a
// width and a height.
type OrificeSpec struct {
	Invert      units.Length `json:"invert"`            // level of the lowest point of the opening
	Diameter    units.Length `json:"diameter,omitzero"` // of a circular opening; zero for a rectangle
	Width       units.Length `json:"width,omitzero"`    // of a rectangular opening
	Height      units.Length `json:"height,omitzero"`   // of a rectangular opening
	Coefficient float64      `json:"coefficient"`       // Cd, such as SharpOrifice
	Backflow    Backflow     `json:"backflow"`          // required
}

// Validate reports every field that cannot be used, joined.
func (s OrificeSpec) Validate() error {
	const fn = "hydraulics.OrificeSpec"
	errs := []error{
		units.Finite(fn, "invert", float64(s.Invert), "m"),
		bounded(fn, "coefficient", s.Coefficient, 0, 1, "", "a discharge coefficient"),
		backflowError(fn, s.Backflow),
	}
	if s.Diameter != 0 {
		errs = append(errs, bounded(fn, "diameter", float64(s.Diameter), 0, 20, "m", "a diameter; is it in millimetres?"))
		if s.Width != 0 || s.Height != 0 {
			errs = append(errs, &units.InputError{Func: fn, Field: "width", Value: float64(s.Width), Unit: "m",
				Reason: fmt.Sprintf("an opening is a circle of %v or a rectangle, not both", s.Diameter)})
		}
	} else {
		errs = append(errs,
			bounded(fn, "width", float64(s.Width), 0, 100, "m", "a width above zero"),
			bounded(fn, "height", float64(s.Height), 0, 20, "m", "a height above zero"))
	}
	return errors.Join(errs...)
}

// Orifice is an opening in a vertical wall at any level of pond and tailwater:
// part-full, full or drowned.
//
// Equation: Q = Cd √(2g) ∫ w(z) √(min(h - z, h - t)) dz over the wetted height
// of the opening, z above its invert, w its width there, h the pond and t the
// tailwater. The part above the tailwater discharges freely and the part below
// it under the difference of levels. The rectangle has the closed form
// (2/3) Cd b √(2g) (h1^1.5 - h2^1.5); the circle is integrated to 1e-9.
//
// Source: the integration is in every hydraulics text; that the free and the
// drowned part add up is common practice. Approach velocity is neglected.
//
// Accuracy: that of Cd, 2 to 5 %; part-full openings 5 to 10 %.
type Orifice struct {
	spec   OrificeSpec
	invert float64
	height float64
	factor float64 // Cd √(2g)
}

// NewOrifice validates the description and prepares the opening.
func NewOrifice(s OrificeSpec) (Orifice, error) {
	if err := s.Validate(); err != nil {
		return Orifice{}, err
	}
	o := Orifice{spec: s, invert: float64(s.Invert), height: float64(s.Height), factor: s.Coefficient * math.Sqrt(2*gravity)}
	if s.Diameter > 0 {
		o.height = float64(s.Diameter)
	}
	return o, nil
}

// Spec returns the description the orifice was built from.
func (o Orifice) Spec() OrificeSpec { return o.spec }

// Discharge returns the flow at a pond level and a tailwater.
func (o Orifice) Discharge(level, tailwater units.Length) units.Flow {
	h, t := float64(level), float64(tailwater)
	if t >= h {
		if o.spec.Backflow == BackflowFlap {
			return 0
		}
		return units.Flow(0 - o.flow(t, h)) // not -0
	}
	return units.Flow(o.flow(h, t))
}

// flow returns the flow from level hi to level lo < hi.
func (o *Orifice) flow(hi, lo float64) float64 {
	h := math.Min(hi-o.invert, largestHead)
	if h <= 0 {
		return 0
	}
	drowned := math.Max(0, math.Min(lo-o.invert, o.height))
	top := math.Min(h, o.height)
	var sum float64
	if drowned > 0 {
		sum = o.areaBelow(drowned) * math.Sqrt(math.Min(hi-lo, largestHead))
	}
	if top > drowned {
		sum += o.integral(h, drowned, top)
	}
	return o.factor * sum
}

// areaBelow is the area of the opening below height z.
func (o *Orifice) areaBelow(z float64) float64 {
	if o.spec.Diameter == 0 {
		return float64(o.spec.Width) * z
	}
	return circleSegment(z, o.height)
}

// integral is ∫ w(z) √(h - z) dz from a to m.
func (o *Orifice) integral(h, a, m float64) float64 {
	if o.spec.Diameter == 0 {
		u, v := h-a, h-m
		return 2.0 / 3 * float64(o.spec.Width) * (u*math.Sqrt(u) - v*math.Sqrt(v))
	}
	if a > 0 && a < m/2 {
		return o.strip(h, 0, m) - o.strip(h, 0, a) // keeps the root at z = 0 at an end
	}
	return o.strip(h, a, m)
}

// strip is the integral over a circle. z = a + (m - a) sin²ψ makes the integrand
// smooth at both ends.
func (o *Orifice) strip(h, a, m float64) float64 {
	d := o.height
	var sum float64
	for i := range gaussSin2 {
		z := a + (m-a)*gaussSin2[i]
		sum += gaussWeight[i] * math.Sqrt(math.Max(0, z*(d-z)*(h-z)))
	}
	return 2 * (m - a) * sum
}

// circleSegment is the area of a circle of diameter d below height z.
func circleSegment(z, d float64) float64 {
	switch {
	case z <= 0:
		return 0
	case z >= d:
		return math.Pi / 4 * d * d
	}
	a := 2 * math.Asin(math.Sqrt(z/d)) // half the angle, without cancellation
	return d * d / 4 * (a - math.Sin(a)*math.Cos(a))
}

// Control names the state of the opening at the two levels.
func (o Orifice) Control(level, tailwater units.Length) Control {
	h, t := float64(level), float64(tailwater)
	switch {
	case math.Max(h, t) <= o.invert || h == t:
		return ControlNone
	case t > h && o.spec.Backflow == BackflowFlap:
		return ControlShut
	case t > h:
		return ControlReversed
	case h < o.invert+o.height:
		if t > o.invert {
			return ControlDrownedWeir
		}
		return ControlWeir
	case t > o.invert:
		return ControlDrownedOrifice
	}
	return ControlOrifice
}

// Kinks appends the levels at which the slope of the discharge jumps, rising, as
// many under every tailwater: where flow begins, the invert and the top.
func (o Orifice) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	first := len(dst)
	dst = append(dst, o.spec.Invert, max(o.spec.Invert, tailwater), o.spec.Invert+units.Length(o.height))
	sortLengths(dst[first:])
	return dst
}
