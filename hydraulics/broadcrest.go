package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// BroadCrestSpec describes a broad-crested rectangular weir: a sill, a bank top
// or a road.
type BroadCrestSpec struct {
	Crest       units.Length `json:"crest"`       // level of the crest
	Width       units.Length `json:"width"`       // across the flow
	Length      units.Length `json:"length"`      // of the crest along the flow
	CrestHeight units.Length `json:"crestHeight"` // of the crest above the approach bed

	// Coefficient C on the flow of critical depth. Zero means that of ISO 3846
	// for the head; 1 is the ideal weir.
	Coefficient float64 `json:"coefficient,omitzero"`

	// ModularLimit is the tailwater head over the upstream head up to which the
	// flow stays free. Zero means 0.66 (common practice: 0.66 to 0.80).
	ModularLimit float64 `json:"modularLimit,omitzero"`

	Backflow Backflow `json:"backflow"` // required
}

// Validate reports every field that cannot be used, joined.
func (s BroadCrestSpec) Validate() error {
	const fn = "hydraulics.BroadCrestSpec"
	return errors.Join(
		units.Finite(fn, "crest", float64(s.Crest), "m"),
		bounded(fn, "width", float64(s.Width), 0, 1e5, "m", "a width above zero"),
		bounded(fn, "length", float64(s.Length), 0, 1000, "m", "a crest length above zero"),
		bounded(fn, "crestHeight", float64(s.CrestHeight), 0, 1000, "m", "a height above the approach bed"),
		units.Within(fn, "coefficient", s.Coefficient, 0, 1.3, ""),
		units.Within(fn, "modularLimit", s.ModularLimit, 0, 0.95, ""),
		backflowError(fn, s.Backflow))
}

// BroadCrest is a broad-crested weir ready for use.
//
// Equation: Q = (2/3)^1.5 C b √g h^1.5, h the head over the crest. C is 0.864
// up to h/L = 0.4 and rises in a straight line to 1.04, the value of a thin
// plate, at h/L = 1.6, where the nappe springs clear. Above its modular limit m
// a tailwater h2 multiplies the flow by the [VillemonteRatio] of
// (h2/h - m)/(1 - m), which starts from one there.
//
// Validity: [BroadCrest.Ranges].
//
// Source: ISO 3846:2008 (C and its range from memory). The rise of C follows
// Brater & King (1976), Handbook of Hydraulics, quoted in U.S. EPA (2017), Storm
// Water Management Model Reference Manual, volume II, table 6-3: 2.63 ft^½/s
// (C = 0.85) below h/L = 0.5 and 3.32 (1.08) above 2. The fading of the modular
// flow is our choice.
//
// Accuracy: 3 % inside the range.
type BroadCrest struct {
	spec   BroadCrestSpec
	over   overfall // with C = 1
	narrow bool     // C follows h/L
}

// Coefficients of a crest against h/L, as in the comment of BroadCrest.
const (
	broadC, thinC       = 0.864, 1.04
	broadUpTo, thinFrom = 0.4, 1.6
	defaultModular      = 0.66
	idealWeir           = 0.5443310539518174 // (2/3)^1.5
)

// NewBroadCrest validates the description and prepares the weir.
func NewBroadCrest(s BroadCrestSpec) (BroadCrest, error) {
	if err := s.Validate(); err != nil {
		return BroadCrest{}, err
	}
	c := s.Coefficient
	if c == 0 {
		c = 1
	}
	m := s.ModularLimit
	if m == 0 {
		m = defaultModular
	}
	o := overfall{crest: float64(s.Crest), c0: idealWeir * math.Sqrt(gravity) * c * float64(s.Width),
		power: RectangularExponent, modular: m, backflow: s.Backflow}
	return BroadCrest{s, o, s.Coefficient == 0}, nil
}

// crestCoefficient is C at a head over a crest of the given length.
func crestCoefficient(headOverLength float64) float64 {
	t := (headOverLength - broadUpTo) / (thinFrom - broadUpTo)
	return broadC + (thinC-broadC)*math.Max(0, math.Min(1, t))
}

// at scales a flow of C = 1 to the crest's own C at the higher of two levels.
func (w BroadCrest) at(level units.Length, q units.Flow) units.Flow {
	if !w.narrow {
		return q
	}
	return q * units.Flow(crestCoefficient((float64(level)-w.over.crest)/float64(w.spec.Length)))
}

// Spec returns the description the weir was built from.
func (w BroadCrest) Spec() BroadCrestSpec { return w.spec }

// Discharge returns the flow at a pond level and a tailwater.
func (w BroadCrest) Discharge(level, tailwater units.Length) units.Flow {
	return w.at(max(level, tailwater), w.over.discharge(level, tailwater))
}

// Control names the state of the weir at the two levels.
func (w BroadCrest) Control(level, tailwater units.Length) Control {
	return w.over.control(level, tailwater)
}

// Kinks appends the levels at which the slope of the discharge jumps, rising, as
// many under every tailwater.
func (w BroadCrest) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	first := len(dst)
	dst = w.over.kinks(tailwater, dst)
	if w.narrow {
		for _, r := range [...]units.Length{broadUpTo, thinFrom} {
			dst = append(dst, w.spec.Crest+r*w.spec.Length)
		}
		sortLengths(dst[first:])
	}
	return dst
}

// Ranges returns what ISO 3846 vouches for.
func (w BroadCrest) Ranges() []PublishedRange { return publishedRanges(w.bounds(0)) }

// AppendNotices appends a notice for every published range that the weir is
// outside of at the two levels.
func (w BroadCrest) AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice {
	if h := float64(level) - w.over.crest; h > 0 {
		dst = appendOutside(dst, w.bounds(h))
	}
	return dst
}

func (w BroadCrest) bounds(h float64) []bounds {
	const src = "ISO 3846:2008, basic range of C (from memory)"
	return []bounds{
		bound(CodeWeirHead, "head", h, 0.06, unbounded, "m", src),
		bound(CodeWeirHead, "head over crest length", h/float64(w.spec.Length), 0.1, broadUpTo, "", src),
		bound(CodeWeirHead, "head over crest height", h/float64(w.spec.CrestHeight), 0, 0.15, "", src),
	}
}

// Flow returns the free flow at a head over the crest.
//
// Errors: ErrDomain (value NaN) for a description that does not validate or a
// negative head; ErrRange, beside the extrapolated value, outside the ranges of
// ISO 3846. Source: as [BroadCrest].
func (s BroadCrestSpec) Flow(head units.Length) (units.Flow, error) {
	const fn = "hydraulics.BroadCrestSpec.Flow"
	w, err := NewBroadCrest(s)
	if err = errors.Join(err, units.NonNegative(fn, "head", float64(head), "m")); err != nil {
		return units.Flow(math.NaN()), err
	}
	return w.at(s.Crest+head, units.Flow(w.over.free(float64(head)))), rangeError(fn, w.bounds(float64(head)))
}
