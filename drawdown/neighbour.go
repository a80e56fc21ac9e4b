package drawdown

import (
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// Neighbour is a pond next door whose level moves with what it gives and takes
// through an outlet that works both ways. Its level and the outlet's are heights
// above the same datum as the plan's. Nothing else flows into or out of it; for
// one with a course of its own use a TailwaterSeries, and for two ponds alone
// [Exchange].
//
// Below a tenth of a millimetre of head the flow is taken as linear in the head,
// so that two levels that have met stay together instead of fluttering. The
// neighbour's stage corners are left to step control.
type Neighbour struct {
	Name    string       `json:"name"`
	Pond    Storage      `json:"-"`
	Stage   units.Length `json:"stage"` // at the plan's start
	Through Outlet       `json:"-"`
	Runs    []Window     `json:"runs,omitempty"` // open in these windows; none: all the time
}

func (n *Neighbour) validate() []error {
	const fn = "drawdown.Plan"
	if n.Pond == nil || n.Through == nil {
		return []error{&units.InputError{Func: fn, Field: "neighbour", Value: math.NaN(), Reason: "a neighbour needs a pond and an outlet between"}}
	}
	all := []error{units.Within(fn, "neighbour.stage", float64(n.Stage), float64(n.Pond.Bottom()), float64(n.Pond.Top()), "m")}
	for _, w := range n.Runs {
		if !w.To.After(w.From) {
			all = append(all, &units.InputError{Func: fn, Field: "neighbour.runs", Value: w.Duration().Seconds(), Unit: "s", Reason: "a window ends after it begins"})
		}
	}
	return all
}

// nextDoor is a neighbour as numbers. Its volume is what it held at the start
// and what has gone over since, which is a state of the integration.
type nextDoor struct {
	pond    Storage
	through Outlet
	runs    []span
	start   float64
	open    bool
	level   float64 // now

	// Within an implicit stage what has gone over is base + weight q, with the
	// flow q sought; a zero weight takes the level as it stands.
	base, weight float64
}

// linearHead is the head below which the flow is linear in it, in metres.
const linearHead = 1e-4

// flow is what goes over at a level of the pond, negative when it comes.
func (n *nextDoor) flow(h float64) float64 {
	if !n.open {
		return 0
	}
	head := h - n.level
	sense := 1.0
	if head < 0 {
		sense = -1
	}
	low := math.Min(h, n.level)
	q := func(head float64) float64 {
		return float64(n.through.Discharge(units.Length(low+head), units.Length(low)))
	}
	if x := math.Abs(head); x < linearHead {
		return sense * q(linearHead) * x / linearHead
	}
	return sense * q(math.Abs(head))
}

// settled is the flow that agrees with the level it leads to: more of it brings
// the levels together and leaves less.
func (s *Solver) settled(h float64) float64 {
	n := s.next
	if n.weight == 0 {
		return n.flow(h)
	}
	at := func(q float64) float64 {
		s.see(n.base + n.weight*q)
		return n.flow(h)
	}
	first := at(0)
	if first == 0 {
		return 0
	}
	q, err := root.FindBetween(func(q float64) float64 { return at(q) - q }, 0, first, first, at(first)-first, 1e-12*math.Abs(first))
	if err != nil {
		return first // the level does not answer: nothing to agree with
	}
	return q
}

// see brings the neighbour's level up to what has gone over: counted and, in the
// running leg, over.
func (s *Solver) see(over float64) {
	if s.next != nil {
		s.next.level = float64(s.next.pond.Stage(units.Volume(s.next.start + s.tally.over + over)))
	}
}

// NeighbourStage returns the stage of the neighbouring pond at the end of the
// last run, and the volume that has gone over to it (negative came from it).
//
// Source: water balance of the neighbour.
func (s *Solver) NeighbourStage() (stage units.Length, over units.Volume) {
	if s.next == nil {
		return 0, 0
	}
	return s.next.pond.Stage(units.Volume(s.next.start + s.tally.over)), units.Volume(s.tally.over)
}
