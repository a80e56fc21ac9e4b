package drawdown

import (
	"slices"

	"pondwright.example/units"
)

// run is the state of one run. Clocks: t is real time in seconds since the
// plan's start; the integrator's own clock is t too, or in a rooted stretch the
// root of the time since rootedAt.
type run struct {
	recording bool
	opening   float64

	// Clocks.
	t         float64
	rooted    bool
	rootedAt  float64 // real time at which the rooted stretch began
	rootSteps int

	// Where the pond stands.
	placed  bool    // low is set
	low     int     // the pond lies between marks low and low+1
	slice   slice   // of the stage table there
	gap     float64 // pond above tailwater
	gapRate float64 // its rate
	above   bool    // the side of the tailwater the pond counts as being on
	shut    bool    // a gate is open by schedule and shut by the tide
	wary    bool    // a head did not vanish as foreseen: no second try before the next break
	empty   bool    // at the bottom, what comes in going out at once
	riding  bool    // on the tailwater

	stiffNext float64 // next implicit step; zero outside stiff stretches
	stiffWait int     // explicit steps before the next look for stiffness

	// Breaks ahead.
	piece    *tailPiece // of the tailwater now
	nextTail int
	calendar []float64
	nextDate int

	// Flows by the clock, and the account.
	present  []float64 // rate of every series now
	steady   float64   // their sum
	legStart float64   // since when they are not yet counted
	tally    tally

	// Events within a step.
	found             found
	seek              seek
	seekValue         float64
	seekGate, seekOrd int

	// Results.
	done    bool
	reached bool
	ready   float64
	reason  StopReason
	events  []Event
	trace   []tracePiece
	steps   int
	locked  float64 // seconds shut by the tide
	lockAt  float64
	still   bool // since stillAt no gate is open to the way out
	stillAt float64
	gaps    []span
	peak    units.Velocity // fastest fall of the stage
	peakAt  float64
	lowest  float64 // stages met
	highest float64
	top     bool // stood above the table

	// Workspace.
	y       []float64
	scratch []float64
	kinkBuf []units.Length
}

// begin resets the run.
func (s *Solver) begin(opening float64) {
	keep := s.run
	s.run = run{recording: keep.recording, opening: opening, calendar: keep.calendar[:0], present: keep.present,
		y: keep.y, scratch: keep.scratch, kinkBuf: keep.kinkBuf[:0], events: keep.events[:0], gaps: keep.gaps[:0], trace: keep.trace[:0],
		tally: tally{series: zeroed(keep.tally.series, len(s.series)), out: zeroed(keep.tally.out, len(s.gates)), in: zeroed(keep.tally.in, len(s.gates))}}
	for i := range s.gates {
		g := &s.gates[i]
		g.running = g.gate.Float == nil || floatAtStart(*g.gate.Float, s.plan.Stage)
		for _, a := range g.after {
			s.calendar = append(s.calendar, opening+a)
		}
	}
	s.calendar = append(s.calendar, opening)
	s.calendar = append(s.calendar, s.static...)
	slices.Sort(s.calendar)
	for s.nextDate < len(s.calendar) && s.calendar[s.nextDate] <= 0 {
		s.nextDate++
	}
	if s.tail != nil {
		s.piece = &s.tail.pieces[s.tail.find(0)]
	}
	clear(s.y)
	s.y[0] = s.start
	s.main.Start(s, 0, s.y[:len(s.y)-1], 0)
	s.close.Start(&s.closing, 0, s.y, 0)
	s.lowest, s.highest = float64(s.plan.Stage), float64(s.plan.Stage)
	if s.start <= s.target {
		s.place(s.start, 0) // for the level of what is noted
		s.reach(0)
	}
	s.settle(false)
	if opening == 0 {
		s.note(GatesOpened, -1)
	}
	if s.horizon <= 0 {
		s.done = true
	}
}

// floatAtStart is whether a float runs when the plan starts.
func floatAtStart(f FloatSwitch, stage units.Length) bool {
	hi, lo := f.Start, f.Stop
	if f.Start < f.Stop {
		hi, lo = lo, hi
	}
	switch {
	case stage >= hi:
		return f.Start > f.Stop
	case stage <= lo:
		return f.Start < f.Stop
	}
	return f.Running
}
