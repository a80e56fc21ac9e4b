package drawdown

import (
	"fmt"
	"math"
	"sort"
	"time"

	"pondwright.example/units"
)

// EventKind is what happened at an [Event]: [GatesOpened], [TargetReached],
// [StagePassed], [TideShut], [TideFreed], [PumpStarted], [PumpStopped],
// [PondEmpty], [PondRefilled], [Overtopped] or [TailwaterEnded].
type EventKind uint8

const (
	GatesOpened    EventKind = iota // the plan's opening
	TargetReached                   // the stage fell to the target
	StagePassed                     // a watched stage, either way
	TideShut                        // the tailwater rose to the pond: flaps shut
	TideFreed                       // flaps free again
	PumpStarted                     // by its float
	PumpStopped                     // by its float
	PondEmpty                       // down to the bottom
	PondRefilled                    // water stays again
	Overtopped                      // above the top of the stage table
	TailwaterEnded                  // the tide table or series ran out
)

var eventNames = [...]string{"gates opened", "target reached", "stage passed", "shut by the tide", "freed by the tide",
	"pump started", "pump stopped", "pond empty", "pond refilled", "overtopped", "tailwater data ended"}

// String names the event.
func (k EventKind) String() string {
	if int(k) < len(eventNames) {
		return eventNames[k]
	}
	return fmt.Sprintf("EventKind(%d)", uint8(k))
}

// MarshalText writes the name.
func (k EventKind) MarshalText() ([]byte, error) {
	if int(k) >= len(eventNames) {
		return nil, fmt.Errorf("drawdown.EventKind: %d is not a known event", uint8(k))
	}
	return []byte(eventNames[k]), nil
}

// UnmarshalText reads the name.
func (k *EventKind) UnmarshalText(text []byte) error {
	for i, n := range eventNames {
		if string(text) == n {
			*k = EventKind(i)
			return nil
		}
	}
	return fmt.Errorf("drawdown.EventKind: %q is none of %q", text, eventNames)
}

// Event is something that happened in a run, with the stage at that moment. Gate
// is the index of the gate it concerns, or -1.
type Event struct {
	At    time.Time    `json:"at"`
	Kind  EventKind    `json:"kind"`
	Gate  int          `json:"gate"`
	Stage units.Length `json:"stage"`
}

func (s *Solver) note(k EventKind, gate int) {
	s.events = append(s.events, Event{At: clockAt(s.plan.Start, s.t), Kind: k, Gate: gate, Stage: units.Length(s.levelOf(s.main.Y()[0]))})
}

// Events returns the events of the last run in order. The slice is the
// Solver's own until the next run.
func (s *Solver) Events() []Event { return s.events }

// Record turns the recording of the hydrograph on or off for the runs to come.
func (s *Solver) Record(on bool) { s.recording = on }

// tracePiece is one step of a recorded run: volume as the integrator's own
// interpolant.
type tracePiece struct {
	from, to   float64 // real time
	x0, length float64 // the integrator's clock
	clock      traceClock
	rootedAt   float64
	v, t       [5]float64
}

type traceClock uint8

const (
	plainClock   traceClock = iota
	rootedClock             // x = sqrt(t - rootedAt)
	closingClock            // x = root of the head; t is an interpolant too
	stillClock              // v[0] throughout
)

// keep records the step just made.
func (s *Solver) keep() {
	if s.main.Previous() == s.main.T() {
		return
	}
	h := s.levelOf(s.main.Y()[0])
	s.lowest, s.highest = math.Min(s.lowest, h), math.Max(s.highest, h)
	if !s.rooted {
		fall := -s.main.Slope()[0] / s.areaOf(h)
		if fall > float64(s.peak) {
			s.peak, s.peakAt = units.Velocity(fall), s.t
		}
	}
	if !s.recording {
		return
	}
	p := tracePiece{x0: s.main.Previous(), from: s.real(s.main.Previous()), to: s.t}
	p.length, p.v = s.main.Coefficients(0)
	if s.rooted {
		p.clock, p.rootedAt = rootedClock, s.rootedAt
	}
	if p.length == 0 {
		return
	}
	s.trace = append(s.trace, p)
}

func (s *Solver) keepClosing() {
	if !s.recording || s.close.Previous() == s.close.T() {
		return
	}
	p := tracePiece{x0: s.close.Previous(), clock: closingClock}
	p.length, p.v = s.close.Coefficients(0)
	_, p.t = s.close.Coefficients(1)
	p.t[0] += s.closing.from
	p.from, p.to = p.t[0], s.closing.from+s.close.Y()[1]
	s.trace = append(s.trace, p)
}

func (s *Solver) keepIdle() {
	if s.recording {
		last := 0.0
		if n := len(s.trace); n > 0 {
			last = s.trace[n-1].to
		}
		s.trace = append(s.trace, tracePiece{from: last, to: s.t, clock: stillClock, v: [5]float64{s.main.Y()[0]}})
	}
}

func quartic(c *[5]float64, x float64) float64 {
	x1 := 1 - x
	return c[0] + x*(c[1]+x1*(c[2]+x*(c[3]+x1*c[4])))
}

// volumeAt is the volume at real time t within the piece.
func (p *tracePiece) volumeAt(t float64) float64 {
	switch p.clock {
	case stillClock:
		return p.v[0]
	case rootedClock:
		return quartic(&p.v, (math.Sqrt(math.Max(0, t-p.rootedAt))-p.x0)/p.length)
	case closingClock:
		lo, hi := 0.0, 1.0
		for range 50 {
			if mid := (lo + hi) / 2; quartic(&p.t, mid) < t {
				lo = mid
			} else {
				hi = mid
			}
		}
		return quartic(&p.v, (lo+hi)/2)
	}
	return quartic(&p.v, (t-p.x0)/p.length)
}

// Hydrograph is the course of a recorded run between its steps too, by the
// integrator's dense output: correct to about the plan's tolerance anywhere. It
// is immutable and safe for concurrent use. It has no JSON form: write a sample of
// its points.
type Hydrograph struct {
	pond  Storage
	start time.Time
	trace []tracePiece
	first float64 // volume at the start
}

// Begin returns the first moment of the run and End the last.
func (h Hydrograph) Begin() time.Time { return h.start }

// End returns the last moment of the run.
func (h Hydrograph) End() time.Time {
	if len(h.trace) == 0 {
		return h.start
	}
	return clockAt(h.start, h.trace[len(h.trace)-1].to)
}

// Volume returns the water in the pond at a time; before the run it is the
// first volume and after it the last.
//
// Source: the integrator's interpolant of order four.
func (h Hydrograph) Volume(at time.Time) units.Volume {
	t := at.Sub(h.start).Seconds()
	n := len(h.trace)
	if n == 0 || t <= 0 {
		return units.Volume(h.first)
	}
	i := sort.Search(n, func(i int) bool { return h.trace[i].to >= t })
	if i == n {
		i, t = n-1, h.trace[n-1].to
	}
	return units.Volume(h.trace[i].volumeAt(math.Max(t, h.trace[i].from)))
}

// Stage returns the stage of the pond at a time, as Volume does.
//
// Source: see [Hydrograph.Volume].
func (h Hydrograph) Stage(at time.Time) units.Length {
	if h.pond == nil {
		return 0
	}
	return h.pond.Stage(h.Volume(at))
}

// HydrographPoint is one row of a hydrograph. Net is the change of the volume,
// falling negative.
type HydrographPoint struct {
	At     time.Time    `json:"at"`
	Stage  units.Length `json:"stage"`
	Volume units.Volume `json:"volume"`
	Net    units.Flow   `json:"net"`
}

// Sample returns rows every so often from the beginning and one at the end. The
// net flow is the mean over the five seconds about each row.
func (h Hydrograph) Sample(every time.Duration) []HydrographPoint {
	if every <= 0 {
		every = time.Hour
	}
	var out []HydrographPoint
	if h.pond == nil {
		return out
	}
	end := h.End()
	row := func(at time.Time) {
		a, b := at.Add(-2500*time.Millisecond), at.Add(2500*time.Millisecond)
		if a.Before(h.start) {
			a = h.start
		}
		if b.After(end) {
			b = end
		}
		p := HydrographPoint{At: at, Volume: h.Volume(at)}
		p.Stage = h.pond.Stage(p.Volume)
		if b.After(a) {
			p.Net = (h.Volume(b) - h.Volume(a)).Per(b.Sub(a))
		}
		out = append(out, p)
	}
	for at := h.start; at.Before(end); at = at.Add(every) {
		row(at)
	}
	row(end)
	return out
}

// Hydrograph returns the recorded course of the last run; it is empty when
// Record was not turned on.
func (s *Solver) Hydrograph() Hydrograph {
	return Hydrograph{pond: s.pond, start: s.plan.Start, trace: append([]tracePiece(nil), s.trace...), first: s.start}
}
