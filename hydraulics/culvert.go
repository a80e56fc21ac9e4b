package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// CulvertSpec describes a culvert: a short pipe or box through a bank or under a
// road. Give a diameter, or a span and a rise.
type CulvertSpec struct {
	Diameter units.Length `json:"diameter,omitzero"` // of a pipe; zero for a box
	Span     units.Length `json:"span,omitzero"`     // width of a box
	Rise     units.Length `json:"rise,omitzero"`     // height of a box
	Length   units.Length `json:"length"`
	ManningN float64      `json:"manningN"` // s/m^(1/3)
	Invert   units.Length `json:"invert"`   // level of the floor at the pond
	Fall     units.Length `json:"fall"`     // how much lower it is at the outfall
	Inlet    InletType    `json:"inlet"`    // required

	EntranceLoss float64  `json:"entranceLoss,omitzero"` // Ke; zero means that of the mouth
	Barrels      int      `json:"barrels,omitzero"`      // equal barrels side by side; zero means one
	Backflow     Backflow `json:"backflow"`
}

// Validate reports every field that cannot be used, joined.
func (s CulvertSpec) Validate() error {
	const fn = "hydraulics.CulvertSpec"
	errs := []error{
		bounded(fn, "length", float64(s.Length), 0, 1e4, "m", "a length above zero"),
		units.Within(fn, "manningN", s.ManningN, 0.005, 0.1, "s/m^(1/3)"),
		units.Within(fn, "invert", float64(s.Invert), -1e5, 1e5, "m"),
		units.Within(fn, "fall", float64(s.Fall), 0, 0.3*math.Max(0, float64(s.Length)), "m"),
		units.Within(fn, "entranceLoss", s.EntranceLoss, 0, 2, ""),
		units.Within(fn, "barrels", float64(s.Barrels), 0, 100, ""),
		backflowError(fn, s.Backflow),
	}
	c, ok := s.Inlet.Coefficients()
	switch {
	case !ok:
		errs = append(errs, &units.InputError{Func: fn, Field: "inlet", Value: float64(s.Inlet), Reason: "choose the shape of the mouth"})
	case c.Box != (s.Diameter == 0):
		errs = append(errs, &units.InputError{Func: fn, Field: "inlet", Value: float64(s.Inlet),
			Reason: "a mouth of the other shape of barrel: " + c.Name})
	}
	if s.Diameter != 0 {
		errs = append(errs, bounded(fn, "diameter", float64(s.Diameter), 0, 10, "m", "a diameter; is it in millimetres?"))
	} else {
		errs = append(errs, bounded(fn, "span", float64(s.Span), 0, 20, "m", "a span above zero"),
			bounded(fn, "rise", float64(s.Rise), 0, 10, "m", "a rise above zero"))
	}
	return errors.Join(errs...)
}

// Culvert is a culvert ready for use.
//
// Equations (SI; x = 1.811 Q/(A √D), D the height of the barrel, S its slope,
// Hc the critical specific energy, d_c the critical depth):
//
//	inlet, x <= 3.5  HW/D = Hc/D + K x^M + ks S   form 1, or  K x^M   form 2
//	inlet, x >= 4    HW/D = c x² + Y + ks S
//	outlet           HW = (1 + Ke + 19.63 n² L/R^(4/3)) V²/2g + h_o - S L
//	                 h_o = max(tailwater, (d_c + D)/2)
//
// Between x = 3.5 and 4 the inlet curve is a straight line. ks S is faded in up
// to x = 0.5, so that no headwater gives no flow. The larger headwater governs.
// The outlet equation is for barrels that run full over part of their length,
// good for headwaters above 0.75 D; below, the largest open flow against the
// same losses, as in [OutletPipe], takes its place where it is the larger.
//
// Source: Federal Highway Administration (2012), Hydraulic Design of Highway
// Culverts, HDS-5, third edition, chapter III and appendix A.
//
// Accuracy: 10 % of the headwater, by HDS-5's own word.
type Culvert struct{ p *culvert }

// NewCulvert validates the description and prepares the culvert.
func NewCulvert(s CulvertSpec) (Culvert, error) {
	if err := s.Validate(); err != nil {
		return Culvert{}, err
	}
	c, _ := s.Inlet.Coefficients()
	if s.EntranceLoss != 0 {
		c.Ke = s.EntranceLoss
	}
	p := &culvert{spec: s, barrels: math.Max(1, float64(s.Barrels))}
	in, out := float64(s.Invert), float64(s.Invert-s.Fall)
	p.forward = newBarrel(s, c, in, out)
	p.backward = newBarrel(s, c, out, in)
	return Culvert{p}, nil
}

type culvert struct {
	spec              CulvertSpec
	barrels           float64
	forward, backward barrel
}

// Spec returns the description the culvert was built from.
func (c Culvert) Spec() CulvertSpec {
	if c.p == nil {
		return CulvertSpec{}
	}
	return c.p.spec
}

// Discharge returns the flow at a pond level and a tailwater.
func (c Culvert) Discharge(level, tailwater units.Length) units.Flow {
	if c.p == nil {
		return 0
	}
	h, t := float64(level), float64(tailwater)
	if t >= h {
		if c.p.spec.Backflow == BackflowFlap {
			return 0
		}
		q, _ := c.p.backward.flow(t, h)
		return units.Flow(0 - q*c.p.barrels) // not -0
	}
	q, _ := c.p.forward.flow(h, t)
	return units.Flow(q * c.p.barrels)
}

// Control names what governs at the two levels. A barrel is full when the outlet
// governs with the headwater above its crown.
func (c Culvert) Control(level, tailwater units.Length) Control {
	if c.p == nil {
		return ControlNone
	}
	h, t := float64(level), float64(tailwater)
	switch {
	case math.Max(h, t) <= c.p.forward.in || h == t:
		return ControlNone
	case t > h && c.p.spec.Backflow == BackflowFlap:
		return ControlShut
	case t > h:
		return ControlReversed
	}
	_, k := c.p.forward.flow(h, t)
	if k == ControlFullPipe && h < c.p.forward.in+c.p.forward.d {
		return ControlPartFullPipe
	}
	return k
}

// CulvertHeadwater is the water a culvert needs above its mouth for a flow.
type CulvertHeadwater struct {
	Inlet         units.Length   `json:"inlet"`         // above the invert at the mouth, under inlet control
	Outlet        units.Length   `json:"outlet"`        // above the same, under outlet control
	Headwater     units.Length   `json:"headwater"`     // the larger
	Control       Control        `json:"control"`       // ControlInlet, ControlFullPipe or ControlPartFullPipe
	CriticalDepth units.Length   `json:"criticalDepth"` // in the barrel
	Velocity      units.Velocity `json:"velocity"`
}

// Headwater returns the headwater for a flow and a tailwater level by the
// equations of HDS-5 as they stand.
//
// Errors: ErrDomain (values NaN) for a culvert that was not built, a flow that
// is not above zero or a tailwater that is not finite; ErrRange, beside the
// result, when the outlet governs with a headwater below 0.75 D, where a
// backwater computation is needed.
func (c Culvert) Headwater(flow units.Flow, tailwater units.Length) (CulvertHeadwater, error) {
	const fn = "hydraulics.Culvert.Headwater"
	nan := units.Length(math.NaN())
	none := CulvertHeadwater{Inlet: nan, Outlet: nan, Headwater: nan, CriticalDepth: nan, Velocity: units.Velocity(nan)}
	if c.p == nil {
		return none, &units.InputError{Func: fn, Field: "c", Value: math.NaN(), Reason: "build the culvert with NewCulvert"}
	}
	if err := errors.Join(units.Positive(fn, "flow", float64(flow), "m3/s"), units.Finite(fn, "tailwater", float64(tailwater), "m")); err != nil {
		return none, err
	}
	b := &c.p.forward
	q := float64(flow) / c.p.barrels
	t := b.stateOf(q)
	_, dc, _ := b.critical(t)
	in, out := b.inletHead(t), b.outletHead(t, float64(tailwater))
	h := CulvertHeadwater{Inlet: units.Length(in), Outlet: units.Length(out), Headwater: units.Length(math.Max(in, out)),
		Control: ControlInlet, CriticalDepth: units.Length(dc), Velocity: units.Velocity(q / b.area)}
	switch {
	case out > in && out < b.d:
		h.Control = ControlPartFullPipe
	case out > in:
		h.Control = ControlFullPipe
	}
	if out > in && out < 0.75*b.d {
		return h, &units.InputError{Func: fn, Field: "flow", Value: float64(flow), Unit: "m3/s", Kind: units.ErrRange,
			Reason: "the barrel flows part-full all the way: HDS-5 asks for a backwater computation below 0.75 D"}
	}
	return h, nil
}

// Ranges returns what HDS-5 vouches for.
func (c Culvert) Ranges() []PublishedRange {
	if c.p == nil {
		return nil
	}
	return publishedRanges(c.p.bounds(0))
}

// AppendNotices appends a notice when the headwater is outside the charts, or
// when the outlet governs with so little that the barrel flows part-full.
func (c Culvert) AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice {
	if c.p == nil || level <= c.p.spec.Invert {
		return dst
	}
	dst = appendOutside(dst, c.p.bounds(float64(level-c.p.spec.Invert)))
	hw := float64(level-c.p.spec.Invert) / c.p.forward.d
	if k := c.Control(level, tailwater); hw < 0.75 && (k == ControlFullPipe || k == ControlPartFullPipe) {
		dst = append(dst, units.Notice{Code: CodePartFullPipe, Severity: units.Info, Field: "level", Value: hw, Limit: 0.75,
			Message: "the barrel flows part-full all the way: its flow is an estimate to about a fifth, on the low side", Source: "FHWA HDS-5, which asks for a backwater computation below 0.75 D"})
	}
	return dst
}

func (p *culvert) bounds(hw float64) []bounds {
	return []bounds{bound(CodeCulvertRange, "headwater over height of barrel", hw/p.forward.d, 0.35, 5, "",
		"FHWA HDS-5, span of the inlet-control charts (from memory)")}
}

// EntranceHeadwater returns the headwater of a culvert whose flow just inside
// the mouth has been found by a backwater computation.
//
//	HW = H + ke V²/2g
//
// Errors: ErrDomain (value NaN) for a negative argument.
//
// Source: FHWA, HDS-5, example 5.
func EntranceHeadwater(specificHead, velocityHead units.Length, ke float64) (units.Length, error) {
	const fn = "hydraulics.EntranceHeadwater"
	err := errors.Join(units.NonNegative(fn, "specificHead", float64(specificHead), "m"),
		units.NonNegative(fn, "velocityHead", float64(velocityHead), "m"), units.Within(fn, "ke", ke, 0, 2, ""))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	return specificHead + units.Length(ke)*velocityHead, nil
}

// OvertoppingFlow returns the flow over a road or bank top.
//
//	Q = kt Cd L HW^1.5
//
// cd is in m^½/s, 0.552 times the value of a US chart (1.38 to 1.71 on paved
// and gravel roads), kt the submergence factor (1 is free).
//
// Errors: ErrDomain (value NaN) for cd outside 1 to 2, kt outside 0 to 1, a
// length that is not above zero or a negative head.
//
// Source: FHWA, HDS-5, chapter III, roadway overtopping.
func OvertoppingFlow(cd, kt float64, length, head units.Length) (units.Flow, error) {
	const fn = "hydraulics.OvertoppingFlow"
	h := float64(head)
	err := errors.Join(units.Within(fn, "cd", cd, 1, 2, "m^½/s"), units.Within(fn, "kt", kt, 0, 1, ""),
		units.Positive(fn, "length", float64(length), "m"), units.NonNegative(fn, "head", h, "m"))
	if err != nil {
		return units.Flow(math.NaN()), err
	}
	return units.Flow(kt * cd * float64(length) * h * math.Sqrt(h)), nil
}
