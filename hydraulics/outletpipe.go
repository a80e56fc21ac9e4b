package hydraulics

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// Backflow says what happens at an outlet when the tailwater is higher than the
// pond. It must be chosen: water that comes back is never assumed away. It is
// [BackflowFlap] or [BackflowReverse]; [BackflowUnset] is refused.
type Backflow uint8

// The choices of Backflow; the zero value is an error.
const (
	BackflowUnset   Backflow = iota
	BackflowFlap             // a flap gate shuts: no flow
	BackflowReverse          // nothing shuts: the flow is negative
)

// InletControl says whether the mouth of an [OutletPipe] can hold back the
// flow. It is [InletCritical] or [InletNone].
type InletControl uint8

// The choices of InletControl.
const (
	InletCritical InletControl = iota // critical depth in the mouth (the default)
	InletNone                         // only the length limits, as behind a wide bellmouth; level pipes only
)

// OutfallLine says where the pressure line of a full [OutletPipe] ends over its
// free outfall. It is [OutfallCentreline] or [OutfallBrink].
type OutfallLine uint8

// The choices of OutfallLine.
const (
	// OutfallCentreline is the centre of the bore, as pond design commonly has it
	// (the default). It is the optimistic end: with a screen or a long pipe it
	// overstates the flow of a pond within a bore of the pipe by up to 60 %.
	OutfallCentreline OutfallLine = iota
	// OutfallBrink is halfway from critical depth to the crown, as FHWA HDS-5 has
	// it for culverts: within 8 % of a backwater computation with the pond above
	// three quarters of the bore, and up to 20 % below it lower down.
	OutfallBrink
)

// OutletPipeSpec describes a drain pipe through a pond bank. All levels are
// heights above one datum.
type OutletPipeSpec struct {
	Bore      units.Length `json:"bore"`      // inside diameter, above zero to 5 m
	Length    units.Length `json:"length"`    // of pipe, above zero
	Roughness units.Length `json:"roughness"` // absolute, 0 is smooth; at most 0.05 of the bore

	// LossSum is the sum of the loss coefficients on the velocity head in the
	// full pipe: entrance, screen, bends, valve, and the exit, which is 1. It is
	// therefore never less than 1.
	LossSum float64 `json:"lossSum"`

	Invert units.Length `json:"invert"` // inside bottom of the pipe at the pond
	Fall   units.Length `json:"fall"`   // how much lower it is at the outfall; zero is a level pipe

	// EntryLoss is the share of the head above the invert that the mouth takes
	// while it controls, from 0 (ideal) to 0.5. With 0.05 the flow of a level
	// pipe is within 10 % of the curve that FHWA HDS-5 gives for a square-edged
	// concrete mouth, from a tenth of the bore to 1.2 bores above the invert.
	EntryLoss float64 `json:"entryLoss"`

	Viscosity units.KinematicViscosity `json:"viscosity"`        // of the water, 1e-7 to 1e-4 m2/s
	Barrels   int                      `json:"barrels,omitzero"` // equal pipes side by side; zero means one
	Backflow  Backflow                 `json:"backflow"`         // required
	Inlet     InletControl             `json:"inlet"`            // zero means critical depth in the mouth
	Outfall   OutfallLine              `json:"outfall"`          // zero means the centreline
}

// Validate reports every field that cannot be used, joined.
func (s OutletPipeSpec) Validate() error {
	const fn = "hydraulics.OutletPipeSpec"
	bore := float64(s.Bore)
	errs := []error{
		bounded(fn, "bore", bore, 0, 5, "m", "a bore between 0 and 5 m; is it in millimetres or inches?"),
		bounded(fn, "length", float64(s.Length), 0, 1e4, "m", "a pipe length above zero"),
		units.Within(fn, "lossSum", s.LossSum, 1, 1e4, ""),
		units.Finite(fn, "invert", float64(s.Invert), "m"),
		units.NonNegative(fn, "fall", float64(s.Fall), "m"),
		units.Within(fn, "entryLoss", s.EntryLoss, 0, 0.5, ""),
		units.Within(fn, "viscosity", float64(s.Viscosity), 1e-7, 1e-4, "m2/s"),
		units.NonNegative(fn, "roughness", float64(s.Roughness), "m"),
		backflowError(fn, s.Backflow),
	}
	if r := float64(s.Roughness) / bore; r > maxRelativeRoughness {
		errs = append(errs, &units.InputError{Func: fn, Field: "roughness", Value: float64(s.Roughness), Unit: "m",
			Max: maxRelativeRoughness * bore, Min: 0,
			Reason: "more than 0.05 of the bore is not a pipe wall; was it meant in millimetres?"})
	}
	if s.Barrels < 0 {
		errs = append(errs, &units.InputError{Func: fn, Field: "barrels", Value: float64(s.Barrels), Min: 0, Max: math.Inf(1)})
	}
	if s.Inlet > InletNone {
		errs = append(errs, &units.InputError{Func: fn, Field: "inlet", Value: float64(s.Inlet),
			Reason: fmt.Sprintf("must be InletCritical (%d) or InletNone (%d)", InletCritical, InletNone)})
	}
	if s.Outfall > OutfallBrink {
		errs = append(errs, &units.InputError{Func: fn, Field: "outfall", Value: float64(s.Outfall),
			Reason: fmt.Sprintf("must be OutfallCentreline (%d) or OutfallBrink (%d)", OutfallCentreline, OutfallBrink)})
	}
	if s.Inlet == InletNone && s.Fall != 0 {
		errs = append(errs, &units.InputError{Func: fn, Field: "inlet", Value: float64(s.Inlet),
			Reason: "a pipe with a fall would start at full flow when the water reaches its mouth: choose InletCritical, or Fall 0"})
	}
	return errors.Join(errs...)
}

// maxRelativeRoughness is where the Colebrook equation stops being about pipes.
const maxRelativeRoughness = 0.05

// bounded is units.Within without the lower bound itself, with a reason.
func bounded(fn, field string, v, above, max float64, unit, reason string) error {
	if v > above && v <= max {
		return nil
	}
	return &units.InputError{Func: fn, Field: field, Value: v, Unit: unit, Min: above, Max: max, Reason: "must be " + reason}
}

// OutletPipe is a drain pipe with its control: the least of the flow its mouth
// admits and the flow its length carries. Build it with [NewOutletPipe]; the
// zero value passes no water. Copies share read-only data, so one value serves
// any number of goroutines.
//
// Method. Three limbs, each rising with the pond level and falling with the
// tailwater:
//
//   - full pipe: V = √(2g h/(ΣK + f L/D)), h from the pond down to the higher
//     of the end of the pressure line ([OutfallLine]) and the tailwater, f by
//     Colebrook (1939) for the velocity itself, never below the laminar 64/Re;
//   - part-full pipe: while the pond stands low, the largest flow that open flow
//     of one depth y, with the same losses and a free brink, can carry:
//     A√(2g(E - y)/(ΣK + f L/4R)), maximal over y;
//   - mouth: critical depth in the circular section at E = (1 - EntryLoss) H
//     with H the pond above the invert, times the [VillemonteRatio] of a
//     tailwater above the invert.
//
// The discharge is min(mouth, max(full, part-full)). It is continuous
// everywhere; its slope jumps at the levels that [OutletPipe.Kinks] lists.
//
// Source: Darcy-Weisbach and Colebrook (1939); critical depth as in Henderson
// (1966) section 2.5; submergence after Villemonte (1947). Taking the least of
// the limbs is common practice (FHWA HDS-5 does so for culverts). The part-full
// limb is the maximum-discharge principle with losses, our own derivation.
//
// Accuracy: 10 to 15 % in the field with the pond two bores or more above the
// pipe, most of it from ΣK and screens that clog. Lower down the mouth limb knows
// nothing of screens and length: for the last water choose [OutfallBrink].
type OutletPipe struct{ p *outletPipe }

// outletPipe is what an OutletPipe precomputes.
type outletPipe struct {
	spec     OutletPipeSpec
	forward  pipeLimbs
	backward pipeLimbs
	barrels  float64
	free     pipeKinks // while the tailwater is below the pipe
}

// NewOutletPipe validates the description and prepares the pipe. The error
// joins every [units.InputError] found.
func NewOutletPipe(spec OutletPipeSpec) (OutletPipe, error) {
	if err := spec.Validate(); err != nil {
		return OutletPipe{}, err
	}
	p := &outletPipe{spec: spec, barrels: max(1, float64(spec.Barrels))}
	wall := newPipeWall(float64(spec.Bore), float64(spec.Length), float64(spec.Roughness), spec.LossSum, float64(spec.Viscosity))
	in, out := float64(spec.Invert), float64(spec.Invert-spec.Fall)
	admitted := 1 - spec.EntryLoss
	if spec.Inlet == InletNone {
		admitted = 0
	}
	top, free := math.Pi/2, (*brinkFlow)(nil)
	if spec.Outfall == OutfallBrink {
		top, free = twoThirds, newBrinkFlow(&wall)
	}
	open := newOpenFlow(wall, top)
	p.forward = newPipeLimbs(wall, &open, free, in, out, admitted)
	p.backward = newPipeLimbs(wall, &open, free, out, in, admitted)
	p.free = p.forward.learn()
	return OutletPipe{p}, nil
}

// twoThirds is half the angle at the centre of a circle filled to two thirds.
var twoThirds = math.Acos(-1.0 / 3)

// Spec returns the description the pipe was built from.
func (o OutletPipe) Spec() OutletPipeSpec {
	if o.p == nil {
		return OutletPipeSpec{}
	}
	return o.p.spec
}

// Discharge returns the flow out of the pond at a pond level and a tailwater,
// both above the datum of the invert. It is zero when the pond stands at or
// below the invert, or at or below the tailwater behind a flap gate, and
// negative for a higher tailwater without one. It is finite for finite levels.
func (o OutletPipe) Discharge(level, tailwater units.Length) units.Flow {
	if o.p == nil {
		return 0
	}
	h, t := float64(level), float64(tailwater)
	if t >= h {
		if o.p.spec.Backflow == BackflowFlap {
			return 0
		}
		return units.Flow(0 - o.p.barrels*o.p.backward.flow(t, h)) // not -0
	}
	return units.Flow(o.p.barrels * o.p.forward.flow(h, t))
}

// Control names what limits the discharge at the two levels. Where the length
// does and the pond stands below the crown of the mouth, the pipe is part-full,
// also where the pressure line to the outfall gives the flow.
func (o OutletPipe) Control(level, tailwater units.Length) Control {
	if o.p == nil {
		return ControlNone
	}
	h, t := float64(level), float64(tailwater)
	if t >= h {
		switch {
		case o.p.spec.Backflow == BackflowFlap && t > h:
			return ControlShut
		case o.p.backward.flow(t, h) == 0:
			return ControlNone
		}
		return ControlReversed
	}
	c, _ := o.p.forward.control(h, t)
	if c == ControlFullPipe && h < o.p.forward.mouth+o.p.forward.wall.bore {
		return ControlPartFullPipe
	}
	return c
}

// AppendNotices appends what the reader of a flow at the two levels must know:
// open flow along the whole pipe, which follows a derivation of our own, and a
// pressure line to the centreline with the pond less than two bores up, which is
// optimistic.
func (o OutletPipe) AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice {
	c := o.Control(level, tailwater)
	if c == ControlNone || c == ControlShut || c == ControlReversed {
		return dst
	}
	s := &o.p.spec
	up := level - s.Invert
	if limb, _ := o.p.forward.control(float64(level), float64(tailwater)); limb == ControlPartFullPipe {
		return append(dst, units.Notice{Code: CodePartFullPipe, Severity: units.Info, Field: "level", Value: float64(up),
			Limit: 0.5 * float64(s.Bore), Unit: "m", Source: "maximum-discharge principle with losses, derived; against a backwater computation",
			Message: "the pipe flows part-full all the way: its flow is an estimate to about a fifth, on the low side"})
	}
	if s.Outfall == OutfallCentreline && up < 2*s.Bore && tailwater <= s.Invert-s.Fall+s.Bore/2 {
		dst = append(dst, units.Notice{Code: CodeOutfallLine, Severity: units.Caution, Field: "outfall", Value: float64(up),
			Limit: 2 * float64(s.Bore), Unit: "m", Source: "backwater computation",
			Message: "so low over the pipe, a pressure line to the outfall's centreline promises up to 60 % too much; the lower one of FHWA HDS-5 (OutfallBrink) comes close"})
	}
	return dst
}

// Kinks appends to dst the pond levels above the tailwater at which the slope
// of [OutletPipe.Discharge] jumps while the tailwater stays where it is, always
// seven: where flow begins, the outfall's centreline (a corner in the tailwater)
// or where the tailwater meets the end of the pressure line, where the full pipe
// takes over from the part-full one and where it yielded to it, and up to three
// changes between mouth and length, the highest last, up to twenty bores above
// the pipe.
// One that does not exist under this tailwater is given as the level where flow
// begins, and a pair that has met and vanished as where the two limbs come
// closest, so that the list moves steadily with the tailwater. With room in dst
// nothing is allocated.
func (o OutletPipe) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	if o.p == nil {
		return dst
	}
	t := float64(tailwater)
	if in, out := float64(o.p.spec.Invert), float64(o.p.spec.Invert-o.p.spec.Fall); t <= math.Min(in, out) {
		return append(dst, o.p.free[:]...)
	}
	k := o.p.forward.kinks(t, quickSearch[:])
	return append(dst, k[:]...)
}

// sortLengths sorts the few kinks of a structure without allocating.
func sortLengths(v []units.Length) {
	for i := 1; i < len(v); i++ {
		for j := i; j > 0 && v[j] < v[j-1]; j-- {
			v[j], v[j-1] = v[j-1], v[j]
		}
	}
}
