package hydraulics

import (
	"math"

	"pondwright.example/units"
)

// overfall is the free flow over a crest in the one form that all weir formulas
// of this package take,
//
//	Q = (c0 + c1 h)(h + kh)^p    p = 1.5 or 2.5
//
// with the head correction kh faded out below the least head hmin of the
// source, so that no head gives no flow, and h in the bracket held at hHold,
// above which the source says nothing.
type overfall struct {
	crest    float64 // level
	c0, c1   float64
	kh, hmin float64
	hHold    float64
	power    float64
	modular  float64 // tailwater to head up to which the flow stays free
	backflow Backflow
}

// free returns the flow at head h above the crest.
func (o *overfall) free(h float64) float64 {
	if h <= 0 {
		return 0
	}
	h = math.Min(h, largestHead)
	e := h
	if o.kh != 0 {
		e += o.kh * math.Min(1, h/o.hmin)
	}
	q := (o.c0 + o.c1*math.Min(h, o.hHold)) * e * math.Sqrt(e)
	if o.power == TriangularExponent {
		q *= e
	}
	return q
}

// flow returns the flow from level hi to level lo < hi.
func (o *overfall) flow(hi, lo float64) float64 {
	h := hi - o.crest
	if h <= 0 {
		return 0
	}
	q := o.free(h)
	if r := o.submergence(h, lo); r > 0 {
		q *= villemonte(r, o.power)
	}
	return q
}

// submergence returns the ratio that the submergence law takes: that of the
// tailwater to the head above the crest, counted from the modular limit on.
func (o *overfall) submergence(h, lo float64) float64 {
	if lo <= o.crest {
		return 0
	}
	return ((lo-o.crest)/h - o.modular) / (1 - o.modular)
}

// discharge is flow both ways round.
func (o *overfall) discharge(level, tailwater units.Length) units.Flow {
	h, t := float64(level), float64(tailwater)
	if t >= h {
		if o.backflow == BackflowFlap {
			return 0
		}
		return units.Flow(0 - o.flow(t, h)) // not -0
	}
	return units.Flow(o.flow(h, t))
}

// control names the state of discharge.
func (o *overfall) control(level, tailwater units.Length) Control {
	h, t := float64(level), float64(tailwater)
	switch {
	case math.Max(h, t) <= o.crest || h == t:
		return ControlNone
	case t > h && o.backflow == BackflowFlap:
		return ControlShut
	case t > h:
		return ControlReversed
	case o.submergence(h-o.crest, t) > 0:
		return ControlDrownedWeir
	}
	return ControlWeir
}

// kinks appends the levels at which the slope of discharge jumps, as many under
// every tailwater: where flow begins, the crest, the ends of the head correction
// and of the source's heads, and the modular limit.
func (o *overfall) kinks(tailwater units.Length, dst []units.Length) []units.Length {
	first := len(dst)
	t := float64(tailwater)
	dst = append(dst, units.Length(math.Max(o.crest, t)), units.Length(o.crest))
	if o.hmin > 0 {
		dst = append(dst, units.Length(o.crest+o.hmin))
	}
	if o.hHold > 0 {
		dst = append(dst, units.Length(o.crest+o.hHold))
	}
	if o.modular > 0 {
		dst = append(dst, units.Length(o.crest+math.Max(0, t-o.crest)/o.modular))
	}
	sortLengths(dst[first:])
	return dst
}
