package drawdown

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// Storage is a pond that says how much water it holds at a stage. A
// [StageTable] is one. Volume must rise with stage, Stage must invert it, and
// dV/dh must be Area; Corners lists the stages at which the slope of the area
// jumps.
type Storage interface {
	Bottom() units.Length
	Top() units.Length
	Area(stage units.Length) units.Area
	Volume(stage units.Length) units.Volume
	Stage(volume units.Volume) units.Length
	Corners() []units.Length
}

// Plan is one drawdown: a pond, what lets water out and in, and when. From Start
// to Opening the gates are shut (pumps with Runs follow their own clock); from
// Opening on they move as told. The run ends when the stage has fallen to Target
// or, with RunOn, at the horizon.
//
// All levels are heights above the pond's datum. All times carry a zone; results
// come in the zone of Start.
//
// As JSON a Plan is written for the record, without what stands behind an
// interface: the pond, the tailwater, the outlets of gates and moves, and the
// neighbour's. Reading does not bring them back; set them before running it.
type Plan struct {
	Pond    Storage       `json:"-"`
	Start   time.Time     `json:"start"`
	Stage   units.Length  `json:"stage"`             // at Start
	Opening time.Time     `json:"opening"`           // zero: at Start
	Target  units.Length  `json:"target"`            // stage at which the basin is ready; above Stage it is met at Start, with a notice
	RunOn   bool          `json:"runOn,omitempty"`   // go on to the horizon after the target
	Horizon time.Duration `json:"horizon,omitempty"` // from Start; zero means 30 days

	Gates     []Gate    `json:"gates"`
	Tailwater Tailwater `json:"-"` // nil: free outfall, the outlets being told a level far below the pond

	Inflows     []Inflow       `json:"inflows,omitempty"`
	Rain        []Rain         `json:"rain,omitempty"`
	Evaporation units.Velocity `json:"evaporation,omitempty"` // depth per time from the water surface
	Seepage     units.Velocity `json:"seepage,omitempty"`     // depth per time through the wet bed; negative comes in
	Leakage     *Leakage       `json:"leakage,omitempty"`
	Neighbour   *Neighbour     `json:"neighbour,omitempty"`

	Watch     []units.Length `json:"watch,omitempty"`     // stages whose passing is wanted as an event
	FallLimit units.Velocity `json:"fallLimit,omitempty"` // fall of the stage above which a notice is due; zero: none
	Tolerance float64        `json:"tolerance,omitempty"` // relative, per step; zero means 3e-8
}

const (
	defaultHorizon   = 30 * 24 * time.Hour
	defaultTolerance = 3e-8
	freeOutfallDepth = 1000 // m below the bottom, what an outlet is told beside a free outfall
)

// Validate reports every problem of the plan at once, each with the path of its
// field.
func (p Plan) Validate() error {
	const fn = "drawdown.Plan"
	var all []error
	bad := func(field string, v float64, unit, format string, args ...any) {
		all = append(all, &units.InputError{Func: fn, Field: field, Value: v, Unit: unit, Reason: fmt.Sprintf(format, args...)})
	}
	check := func(err error) {
		if err != nil {
			all = append(all, err)
		}
	}
	if p.Pond == nil {
		bad("pond", 0, "", "a plan needs a pond")
	} else if !(p.Pond.Top() > p.Pond.Bottom()) {
		bad("pond", float64(p.Pond.Top()-p.Pond.Bottom()), "m", "the pond holds no water: build it with NewStageTable")
	} else {
		lo, hi := float64(p.Pond.Bottom()), float64(p.Pond.Top())
		check(units.Within(fn, "stage", float64(p.Stage), lo, hi, "m"))
		check(units.Within(fn, "target", float64(p.Target), lo, hi, "m"))
	}
	if p.Start.IsZero() {
		bad("start", 0, "", "a plan needs a start, with its zone")
	}
	if !p.Opening.IsZero() && p.Opening.Before(p.Start) {
		bad("opening", p.Opening.Sub(p.Start).Hours(), "h", "the opening lies before the start")
	}
	if p.Horizon < 0 {
		bad("horizon", p.Horizon.Hours(), "h", "must not be negative")
	}
	for i, g := range p.Gates {
		all = append(all, g.validate(fmt.Sprintf("gates[%d]", i), p.Tailwater != nil)...)
	}
	for i := range p.Inflows {
		all = append(all, p.Inflows[i].validate(fmt.Sprintf("inflows[%d]", i))...)
	}
	for i := range p.Rain {
		all = append(all, p.Rain[i].validate(fmt.Sprintf("rain[%d]", i))...)
	}
	check(units.NonNegative(fn, "evaporation", float64(p.Evaporation), "m/s"))
	check(units.Finite(fn, "seepage", float64(p.Seepage), "m/s"))
	check(units.NonNegative(fn, "fallLimit", float64(p.FallLimit), "m/s"))
	if p.Leakage != nil {
		check(units.NonNegative(fn, "leakage.conductance", float64(p.Leakage.Conductance), "1/s"))
		if p.Tailwater == nil {
			bad("leakage", float64(p.Leakage.Conductance), "1/s", "leakage is driven by the level beyond the dike: give a tailwater")
		}
	}
	if p.Neighbour != nil {
		all = append(all, p.Neighbour.validate()...)
	}
	for i, w := range p.Watch {
		check(units.Finite(fn, fmt.Sprintf("watch[%d]", i), float64(w), "m"))
	}
	if p.Tolerance != 0 {
		check(units.Within(fn, "tolerance", p.Tolerance, 1e-14, 1e-3, ""))
	}
	if v, ok := p.Tailwater.(interface{ Validate() error }); ok {
		check(units.AtField("tailwater", v.Validate()))
	} else if c, ok := p.Tailwater.(ConstantTailwater); ok {
		check(units.Finite(fn, "tailwater", float64(c), "m"))
	}
	return joinErrors(all)
}

// probe asks every outlet for its discharge at levels and tailwaters over the
// pond's depth: each must be finite and not negative.
func (p *Plan) probe() error {
	const looks = 8
	bottom, top := float64(p.Pond.Bottom()), float64(p.Pond.Top())
	var all []error
	look := func(path string, o Outlet) {
		for i := range looks + 1 {
			h := bottom + (top-bottom)*float64(i)/looks
			for j := -1; j < i; j++ {
				z := bottom + (top-bottom)*float64(j)/looks
				if j < 0 {
					z = bottom - freeOutfallDepth
				}
				if q := float64(o.Discharge(units.Length(h), units.Length(z))); !(q >= 0) || math.IsInf(q, 0) {
					all = append(all, &units.InputError{Func: "drawdown.NewSolver", Field: path, Value: q, Unit: "m3/s",
						Reason: fmt.Sprintf("the outlet's discharge at level %.4g m and tailwater %.4g m must be finite and not negative", h, z)})
					return
				}
			}
		}
	}
	if p.Neighbour != nil {
		look("neighbour.through", p.Neighbour.Through)
	}
	for i, g := range p.Gates {
		look(fmt.Sprintf("gates[%d].outlet", i), g.Outlet)
		for k, m := range g.Moves {
			if m.Outlet != nil {
				look(fmt.Sprintf("gates[%d].moves[%d].outlet", i, k), m.Outlet)
			}
		}
	}
	return joinErrors(all)
}

// joinErrors is errors.Join flattened, so that a Validate inside a Validate
// still reports one error per line.
func joinErrors(all []error) error {
	var flat []error
	for _, e := range all {
		if j, ok := e.(interface{ Unwrap() []error }); ok {
			flat = append(flat, j.Unwrap()...)
		} else {
			flat = append(flat, e)
		}
	}
	return errors.Join(flat...)
}

// seconds is a moment in seconds since the plan's start.
func (p *Plan) seconds(t time.Time) float64 { return t.Sub(p.Start).Seconds() }

func (p *Plan) openingSeconds(opening time.Time) float64 {
	if opening.IsZero() {
		return 0
	}
	return math.Max(0, p.seconds(opening))
}
