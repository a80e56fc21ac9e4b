package hydraulics

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// StoplogBaySpec describes a bay closed by boards that are lifted one by one.
type StoplogBaySpec struct {
	Sill         units.Length   `json:"sill"`         // level on which the lowest board stands
	Boards       []units.Length `json:"boards"`       // height of each board in place, the lowest first; may be empty
	Width        units.Length   `json:"width"`        // clear width of the bay
	Thickness    units.Length   `json:"thickness"`    // of the boards along the flow
	ChannelWidth units.Length   `json:"channelWidth"` // of the approach; equal to Width for a bay between walls

	// Leakage is the flow through one metre of joint under one metre of head,
	// and grows with the root of the head. It has no published value: 0.05 to
	// 0.3 L/s is common practice for wet boards; measure it, as the fall of a
	// pond with no water over the boards. Zero is a tight bay.
	Leakage units.Flow `json:"leakage"`

	Backflow Backflow `json:"backflow"` // required
}

// Validate reports every field that cannot be used, joined.
func (s StoplogBaySpec) Validate() error {
	const fn = "hydraulics.StoplogBaySpec"
	errs := []error{
		units.Finite(fn, "sill", float64(s.Sill), "m"),
		bounded(fn, "width", float64(s.Width), 0, 100, "m", "a width above zero"),
		bounded(fn, "thickness", float64(s.Thickness), 0, 1, "m", "a board thickness; is it in millimetres?"),
		units.Within(fn, "channelWidth", float64(s.ChannelWidth), float64(s.Width), 1e6, "m"),
		units.Within(fn, "leakage", float64(s.Leakage), 0, 0.01, "m3/s"),
		backflowError(fn, s.Backflow),
	}
	for i, b := range s.Boards {
		errs = append(errs, bounded(fn, fmt.Sprintf("boards[%d]", i), float64(b), 0, 2, "m", "a board height above zero"))
	}
	return errors.Join(errs...)
}

// StoplogBay is a bay with its boards ready for use.
//
// Method. The top board is a crest. Above a head of 1.6 times the board's
// thickness the nappe springs clear and the bay is a thin-plate weir
// (Kindsvater-Carter, [KindsvaterCarterUSBR]); below 0.4 times it is broad,
// C = 0.864; between, the coefficient moves in a straight line with the head.
// Without boards the sill is a broad crest. A tailwater above the crest
// multiplies the flow by the [VillemonteRatio]. Every joint below the pond
// leaks like an orifice under its own head.
//
// Source: as [RectangularWeir] and [BroadCrest]; the change between them and
// the leakage are common practice, no source.
//
// Accuracy: 5 % over the boards, the leakage a factor of two.
type StoplogBay struct{ p *stoplogBay }

type stoplogBay struct {
	spec   StoplogBaySpec
	crest  float64
	thin   overfall
	broad  overfall
	joints []float64 // levels, the sill first
}

// NewStoplogBay validates the description and prepares the bay. The slice of
// boards is copied.
func NewStoplogBay(s StoplogBaySpec) (StoplogBay, error) {
	if err := s.Validate(); err != nil {
		return StoplogBay{}, err
	}
	s.Boards = append([]units.Length(nil), s.Boards...)
	p := &stoplogBay{spec: s, crest: float64(s.Sill)}
	for _, b := range s.Boards {
		p.joints = append(p.joints, p.crest)
		p.crest += float64(b)
	}
	b := float64(s.Width)
	p.broad = overfall{crest: p.crest, c0: idealWeir * math.Sqrt(gravity) * broadC * b, power: RectangularExponent, backflow: s.Backflow}
	if height := p.crest - float64(s.Sill); height > 0 {
		c := kindsvaterCarter(b/float64(s.ChannelWidth), KindsvaterCarterUSBR)
		p.thin = overfall{crest: p.crest, hmin: leastWeirHead, hHold: 2.5 * height, kh: c.kh, power: RectangularExponent,
			c0: c.scale * c.alpha * (b + c.kb), c1: c.scale * c.alpha1 / height * (b + c.kb), backflow: s.Backflow}
	}
	return StoplogBay{p}, nil
}

// WithBoards returns the bay with only the n lowest of its boards in place.
func (w StoplogBay) WithBoards(n int) (StoplogBay, error) {
	s := w.Spec()
	if !(n >= 0 && n <= len(s.Boards)) {
		return StoplogBay{}, &units.InputError{Func: "hydraulics.StoplogBay.WithBoards", Field: "n", Value: float64(n),
			Min: 0, Max: float64(len(s.Boards)), Reason: "boards in place"}
	}
	s.Boards = s.Boards[:n]
	return NewStoplogBay(s)
}

// Spec returns the description the bay was built from, with its own slice.
func (w StoplogBay) Spec() StoplogBaySpec {
	if w.p == nil {
		return StoplogBaySpec{}
	}
	s := w.p.spec
	s.Boards = append([]units.Length(nil), s.Boards...)
	return s
}

// Crest returns the level of the top of the boards.
func (w StoplogBay) Crest() units.Length {
	if w.p == nil {
		return 0
	}
	return units.Length(w.p.crest)
}

// Discharge returns the flow over and between the boards.
func (w StoplogBay) Discharge(level, tailwater units.Length) units.Flow {
	if w.p == nil {
		return 0
	}
	h, t := float64(level), float64(tailwater)
	if t >= h {
		if w.p.spec.Backflow == BackflowFlap {
			return 0
		}
		return units.Flow(0 - w.p.over(t, h) - w.p.leak(t, h)) // not -0
	}
	return units.Flow(w.p.over(h, t) + w.p.leak(h, t))
}

// Leakage returns the part of the discharge that passes between the boards.
func (w StoplogBay) Leakage(level, tailwater units.Length) units.Flow {
	if w.p == nil || tailwater >= level && w.p.spec.Backflow == BackflowFlap {
		return 0
	}
	if tailwater >= level {
		return units.Flow(0 - w.p.leak(float64(tailwater), float64(level)))
	}
	return units.Flow(w.p.leak(float64(level), float64(tailwater)))
}

// over is the flow over the top board.
func (p *stoplogBay) over(hi, lo float64) float64 {
	h := hi - p.crest
	if h <= 0 {
		return 0
	}
	q := p.broad.free(h)
	if len(p.joints) > 0 {
		share := (h/float64(p.spec.Thickness) - broadUpTo) / (thinFrom - broadUpTo)
		if share >= 1 {
			q = p.thin.free(h)
		} else if share > 0 {
			q += share * (p.thin.free(h) - q)
		}
	}
	if r := (lo - p.crest) / h; r > 0 {
		q *= villemonte(r, RectangularExponent)
	}
	return q
}

// leak is the flow through all joints under water.
func (p *stoplogBay) leak(hi, lo float64) float64 {
	var sum float64
	for _, z := range p.joints {
		if head := hi - math.Max(z, lo); head > 0 {
			sum += math.Sqrt(math.Min(head, largestHead))
		}
	}
	return sum * float64(p.spec.Leakage) * float64(p.spec.Width)
}

// Control names what governs: the overfall when there is one, else the joints.
func (w StoplogBay) Control(level, tailwater units.Length) Control {
	if w.p == nil {
		return ControlNone
	}
	if c := w.p.broad.control(level, tailwater); c != ControlNone || level == tailwater {
		return c
	}
	switch {
	case w.Leakage(level, tailwater) > 0:
		return ControlOrifice
	case w.Leakage(level, tailwater) < 0:
		return ControlReversed
	}
	return ControlNone
}

// Kinks appends the levels at which the slope of the discharge jumps, rising,
// as many under every tailwater.
func (w StoplogBay) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	if w.p == nil {
		return dst
	}
	first := len(dst)
	dst = append(dst, max(tailwater, units.Length(w.p.crest)))
	for _, h := range [...]float64{0, broadUpTo * float64(w.p.spec.Thickness), thinFrom * float64(w.p.spec.Thickness), leastWeirHead, w.p.thin.hHold} {
		dst = append(dst, units.Length(w.p.crest+h))
	}
	for _, z := range w.p.joints {
		dst = append(dst, units.Length(z))
	}
	sortLengths(dst[first:])
	return dst
}

// AppendNotices appends a notice for every range of the thin-plate weir that
// the bay is outside of at the two levels.
func (w StoplogBay) AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice {
	if w.p == nil || float64(level) <= w.p.crest {
		return dst
	}
	return appendOutside(dst, w.p.bounds(float64(level)-w.p.crest))
}

// Ranges returns what the sources vouch for.
func (w StoplogBay) Ranges() []PublishedRange {
	if w.p == nil {
		return nil
	}
	return publishedRanges(w.p.bounds(0))
}

func (p *stoplogBay) bounds(h float64) []bounds {
	const src = "ISO 1438:2008, Kindsvater-Carter limits (from memory)"
	list := []bounds{bound(CodeWeirHead, "head", h, leastWeirHead, unbounded, "m", src)}
	if len(p.joints) > 0 {
		list = append(list, bound(CodeWeirHead, "head over crest height", h/(p.crest-float64(p.spec.Sill)), 0, 2.5, "", src))
	}
	return list
}
