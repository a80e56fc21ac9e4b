package drawdown

import (
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// tally counts the water of a run, in m3.
type tally struct {
	series       []float64 // by inflow, then by rain
	out, in      []float64 // by gate
	area, leaked float64   // area integral in m2 s, and leakage out
	over         float64   // to the neighbour
}

func zeroed(a []float64, n int) []float64 {
	if cap(a) < n {
		return make([]float64, n)
	}
	a = a[:n]
	clear(a)
	return a
}

// collect moves what the quadratures have counted since the last time into the
// tally. Within a leg no gate turns, so each count has one sign.
func (s *Solver) collect() {
	if s.empty {
		return
	}
	y := s.main.Y()
	for i := range s.gates {
		if q := y[s.first+i]; s.gates[i].way >= 0 {
			s.tally.out[i] += q
		} else {
			s.tally.in[i] -= q
		}
	}
	if s.next != nil {
		s.tally.over += y[1]
	}
	if s.areal > 0 {
		s.tally.area += y[s.areal]
	}
	if s.leaky > 0 {
		s.tally.leaked += y[s.leaky]
	}
	clear(y[1:])
	dt := s.t - s.legStart
	for k, r := range s.present {
		s.tally.series[k] += r * dt
	}
	s.legStart = s.t
}

// Balance is where the water went between the start and the end of a run.
type Balance struct {
	Start      units.Volume `json:"start"` // in the pond
	End        units.Volume `json:"end"`
	Inflow     units.Volume `json:"inflow"`
	Rain       units.Volume `json:"rain"`
	Evaporated units.Volume `json:"evaporated"`
	Seeped     units.Volume `json:"seeped"` // out; negative came in
	Leaked     units.Volume `json:"leaked"` // out past the dike; negative came in
	GatesOut   units.Volume `json:"gatesOut"`
	GatesIn    units.Volume `json:"gatesIn"`
	Neighbour  units.Volume `json:"neighbour"` // gone over to it; negative came
	// Closure is start + all that came in - all that went out - end: what the
	// bookkeeping lost. It is zero to rounding.
	Closure units.Volume `json:"closure"`
}

func (s *Solver) balance() Balance {
	b := Balance{Start: units.Volume(s.start), End: units.Volume(s.main.Y()[0]), Leaked: units.Volume(s.tally.leaked), Neighbour: units.Volume(s.tally.over)}
	for k, v := range s.tally.series {
		if k < len(s.plan.Inflows) {
			b.Inflow += units.Volume(v)
		} else {
			b.Rain += units.Volume(v)
		}
	}
	b.Evaporated = units.Volume(s.tally.area * float64(s.plan.Evaporation))
	b.Seeped = units.Volume(s.tally.area * float64(s.plan.Seepage))
	for i := range s.gates {
		b.GatesOut += units.Volume(s.tally.out[i])
		b.GatesIn += units.Volume(s.tally.in[i])
	}
	b.Closure = b.Start + b.Inflow + b.Rain + b.GatesIn - b.Evaporated - b.Seeped - b.Leaked - b.GatesOut - b.Neighbour - b.End
	return b
}

// StopReason says why a run ended: [NotRun], [TargetMet], [HorizonReached] or
// [TailwaterDataEnded]. The zero value, which an Outcome beside an error holds,
// is NotRun.
type StopReason uint8

const (
	NotRun             StopReason = iota // no run stands behind the outcome
	TargetMet                            // the stage fell to the target or stood there
	HorizonReached                       // the horizon came first, or RunOn asked for it
	TailwaterDataEnded                   // the tide table or series ended first
)

var stopNames = [...]string{"not run", "target met", "horizon reached", "tailwater data ended"}

// String names the reason.
func (r StopReason) String() string {
	if int(r) < len(stopNames) {
		return stopNames[r]
	}
	return fmt.Sprintf("StopReason(%d)", uint8(r))
}

// MarshalText writes the words of String.
func (r StopReason) MarshalText() ([]byte, error) {
	if int(r) >= len(stopNames) {
		return nil, fmt.Errorf("drawdown.StopReason: %d is not a known reason", uint8(r))
	}
	return []byte(stopNames[r]), nil
}

// UnmarshalText reads the words of String.
func (r *StopReason) UnmarshalText(text []byte) error {
	for i, n := range stopNames {
		if string(text) == n {
			*r = StopReason(i)
			return nil
		}
	}
	return fmt.Errorf("drawdown.StopReason: %q is none of %q", text, stopNames)
}

// Outcome is the short answer of one run, a plain value.
type Outcome struct {
	Reached bool          `json:"reached"` // the stage fell to the target
	Ready   time.Time     `json:"ready"`   // when; zero if it did not
	Elapsed time.Duration `json:"elapsed"` // from the plan's start to Ready, or to the end of the run
	Opening time.Time     `json:"opening"`
	Stage   units.Length  `json:"stage"`  // at the end of the run
	Locked  time.Duration `json:"locked"` // gates open and shut by the tide, after the opening
	Stopped StopReason    `json:"stopped"`
	Balance Balance       `json:"balance"`
	Steps   int           `json:"steps"` // of the integrator
}

func (s *Solver) outcome() Outcome {
	o := Outcome{Reached: s.reached, Opening: clockAt(s.plan.Start, s.opening), Stage: units.Length(s.levelOf(s.main.Y()[0])),
		Locked: secondsOf(s.locked), Stopped: s.reason, Balance: s.balance(), Steps: s.steps}
	end := s.t
	if s.reached {
		end = s.ready
		o.Ready = clockAt(s.plan.Start, s.ready)
	}
	o.Elapsed = secondsOf(end)
	return o
}

// secondsOf is a float of seconds as a Duration, to the nearest nanosecond.
func secondsOf(s float64) time.Duration {
	whole, frac := math.Modf(s)
	return time.Duration(whole)*time.Second + time.Duration(math.Round(frac*1e9))
}

// GateVolume returns what gate i of the last run let out and in.
func (s *Solver) GateVolume(i int) (out, in units.Volume) {
	if i < 0 || i >= len(s.gates) || i >= len(s.tally.out) {
		return 0, 0
	}
	return units.Volume(s.tally.out[i]), units.Volume(s.tally.in[i])
}
