package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// WeirMethod is a formula for the free flow over a rectangular thin-plate weir.
// It is [KindsvaterCarterUSBR], [KindsvaterCarterISO], [Rehbock1929] or
// [Francis1883].
type WeirMethod uint8

// The formulas of [RectangularWeirSpec]. The zero value is the recommended one.
const (
	// KindsvaterCarterUSBR takes the constants C1 and C2 of the Bureau of
	// Reclamation's Water Measurement Manual (1997), in feet.
	KindsvaterCarterUSBR WeirMethod = iota
	// KindsvaterCarterISO takes the constants of ISO 1438:2008 (from memory; they
	// are within 0.3 % of the others).
	KindsvaterCarterISO
	// Rehbock1929 is for weirs as wide as their channel.
	Rehbock1929
	// Francis1883 ignores the approach velocity; for a high weir in a wide pool.
	Francis1883
)

// RectangularWeirSpec describes a rectangular notch in a thin plate.
type RectangularWeirSpec struct {
	Crest        units.Length `json:"crest"`        // level of the crest
	Width        units.Length `json:"width"`        // of the notch
	ChannelWidth units.Length `json:"channelWidth"` // of the approach; equal to Width for a full-width weir
	CrestHeight  units.Length `json:"crestHeight"`  // of the crest above the approach bed
	Method       WeirMethod   `json:"method"`
	Backflow     Backflow     `json:"backflow"` // required
}

// Validate reports every field that cannot be used, joined.
func (s RectangularWeirSpec) Validate() error {
	const fn = "hydraulics.RectangularWeirSpec"
	errs := []error{
		units.Finite(fn, "crest", float64(s.Crest), "m"),
		bounded(fn, "width", float64(s.Width), 0, 1000, "m", "a width above zero"),
		units.Within(fn, "channelWidth", float64(s.ChannelWidth), float64(s.Width), 1e6, "m"),
		bounded(fn, "crestHeight", float64(s.CrestHeight), 0, 1000, "m", "a height above the approach bed"),
		backflowError(fn, s.Backflow),
	}
	if s.Method > Francis1883 {
		errs = append(errs, &units.InputError{Func: fn, Field: "method", Value: float64(s.Method), Reason: "is not one of the formulas"})
	}
	if s.Method == Rehbock1929 && s.Width != s.ChannelWidth {
		errs = append(errs, &units.InputError{Func: fn, Field: "width", Value: float64(s.Width), Unit: "m",
			Reason: "Rehbock's formula is for a weir as wide as its channel"})
	}
	return errors.Join(errs...)
}

// RectangularWeir is a rectangular thin-plate weir ready for use.
//
// Equations (h the head over the crest, P its height, b its width, B that of
// the channel):
//
//	Kindsvater-Carter  Q = Ce (2/3)√(2g) (b + kb)(h + kh)^1.5,  Ce = α + α1 h/P
//	Rehbock            Q = (0.602 + 0.083 h/P)(2/3)√(2g) b (h + 1.2 mm)^1.5
//	Francis            Q = 1.8385 (b - 0.1 n h) h^1.5, n = 2 if b < B, else 0
//
// The head correction fades out linearly below 3 cm and h/P counts up to 2.5,
// outside what the sources cover. A tailwater above the crest multiplies the
// flow by the [VillemonteRatio].
//
// Validity: [RectangularWeir.Ranges].
//
// Source: Kindsvater & Carter (1957), J. Hydraul. Div. ASCE 83(HY6); USBR,
// Water Measurement Manual (1997), chapter 7; ISO 1438:2008; Rehbock (1929),
// Trans. ASCE 93; Francis (1883), Lowell Hydraulic Experiments.
//
// Accuracy: 1 to 3 % in a well-made weir.
type RectangularWeir struct {
	spec RectangularWeirSpec
	over overfall
}

// NewRectangularWeir validates the description and prepares the weir.
func NewRectangularWeir(s RectangularWeirSpec) (RectangularWeir, error) {
	if err := s.Validate(); err != nil {
		return RectangularWeir{}, err
	}
	b, p := float64(s.Width), float64(s.CrestHeight)
	o := overfall{crest: float64(s.Crest), hmin: leastWeirHead, hHold: 2.5 * p, power: RectangularExponent, backflow: s.Backflow}
	switch s.Method {
	case Francis1883:
		o.c0 = 1.8385 * b
		o.hHold = 3 * b // where the flow would begin to fall with the head
		if s.Width < s.ChannelWidth {
			o.c1 = -1.8385 * 0.1 * 2
		}
	case Rehbock1929:
		o.kh = 0.0012
		o.c0 = 2.0 / 3 * math.Sqrt(2*gravity) * 0.602 * b
		o.c1 = o.c0 / 0.602 * 0.083 / p
	default:
		c := kindsvaterCarter(b/float64(s.ChannelWidth), s.Method)
		o.kh = c.kh
		o.c0 = c.scale * c.alpha * (b + c.kb)
		o.c1 = c.scale * c.alpha1 / p * (b + c.kb)
	}
	return RectangularWeir{s, o}, nil
}

// leastWeirHead is the least head that ISO 1438 allows on a thin plate, m.
const leastWeirHead = 0.03

// Spec returns the description the weir was built from.
func (w RectangularWeir) Spec() RectangularWeirSpec { return w.spec }

// Discharge returns the flow at a pond level and a tailwater.
func (w RectangularWeir) Discharge(level, tailwater units.Length) units.Flow {
	return w.over.discharge(level, tailwater)
}

// Control names the state of the weir at the two levels.
func (w RectangularWeir) Control(level, tailwater units.Length) Control {
	return w.over.control(level, tailwater)
}

// Kinks appends the levels at which the slope of the discharge jumps, rising, as
// many under every tailwater.
func (w RectangularWeir) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	return w.over.kinks(tailwater, dst)
}

// Ranges returns what the source of the method vouches for.
func (w RectangularWeir) Ranges() []PublishedRange { return publishedRanges(w.bounds(0)) }

// AppendNotices appends a notice for every published range that the weir is
// outside of at the two levels.
func (w RectangularWeir) AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice {
	if h := float64(level) - w.over.crest; h > 0 {
		dst = appendOutside(dst, w.bounds(h))
	}
	return dst
}

func (w RectangularWeir) bounds(h float64) []bounds {
	b, p := float64(w.spec.Width), float64(w.spec.CrestHeight)
	switch w.spec.Method {
	case Francis1883:
		const src = "Francis 1883 as quoted by USBR, Water Measurement Manual"
		return []bounds{
			bound(CodeWeirHead, "head over crest width", h/b, 0, 1.0/3, "", src),
			bound(CodeWeirHead, "head", h, 0.06, unbounded, "m", src),
		}
	case Rehbock1929:
		const src = "Rehbock 1929 (limits from memory)"
		return []bounds{
			bound(CodeWeirHead, "head", h, leastWeirHead, 0.75, "m", src),
			bound(CodeWeirHead, "head over crest height", h/p, 0, 1, "", src),
			bound(CodeWeirGeometry, "crest height", p, 0.1, unbounded, "m", src),
		}
	}
	const src = "ISO 1438:2008, Kindsvater-Carter limits (from memory)"
	return []bounds{
		bound(CodeWeirHead, "head", h, leastWeirHead, unbounded, "m", src),
		bound(CodeWeirHead, "head over crest height", h/p, 0, 2.5, "", src),
		bound(CodeWeirGeometry, "crest width", b, 0.15, unbounded, "m", src),
		bound(CodeWeirGeometry, "crest height", p, 0.1, unbounded, "m", src),
	}
}

// Flow returns the free flow at a head over the crest.
//
// Errors: ErrDomain (value NaN) for a description that does not validate or a
// negative head; ErrRange, beside the extrapolated value, outside the ranges of
// the method. Source: as [RectangularWeir].
func (s RectangularWeirSpec) Flow(head units.Length) (units.Flow, error) {
	const fn = "hydraulics.RectangularWeirSpec.Flow"
	w, err := NewRectangularWeir(s)
	if err = errors.Join(err, units.NonNegative(fn, "head", float64(head), "m")); err != nil {
		return units.Flow(math.NaN()), err
	}
	return units.Flow(w.over.free(float64(head))), rangeError(fn, w.bounds(float64(head)))
}
