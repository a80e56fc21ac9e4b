package drawdown

import (
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// CodeBoardRate marks a board schedule during which the stage still falls faster
// than the limit.
const CodeBoardRate = "DRAW_BOARD_RATE"

// BoardPull is one board to pull.
type BoardPull struct {
	At    time.Time      `json:"at"`
	Board int            `json:"board"` // counted from 1 at the top
	Stage units.Length   `json:"stage"`
	Fall  units.Velocity `json:"fall"` // of the stage just after
}

// BoardSchedule is when to pull boards so that the stage never falls faster than
// a limit.
type BoardSchedule struct {
	Pulls   []BoardPull    `json:"pulls"`
	Moves   []Move         `json:"-"` // for the gate, to run the plan with
	Ready   time.Time      `json:"ready"`
	Reached bool           `json:"reached"`
	Peak    units.Velocity `json:"peak"` // the fastest fall of all
	Notices []units.Notice `json:"notices"`
}

// BoardsForRate schedules the pulling of boards at gate i: crests[0] is the
// outlet with every board in and each following one the outlet after one more
// pull. A board is pulled as soon as the stage would then fall no faster than
// limit, and no sooner than minGap after the one before (zero: one minute), so
// that the last water comes as early as the limit allows. The limit is the
// engineer's: for banks, liners and animals left behind.
//
// With the crests fixed the fall is fastest right after a pull and slackens, so
// the limit holds throughout; where a falling tide or a tapering pond quickens
// it afterwards, a notice says so.
//
// Source: the water balance, dh/dt = (inflow - outflow)/A, solved for the pull.
func (p Plan) BoardsForRate(i int, crests []Outlet, limit units.Velocity, minGap time.Duration) (BoardSchedule, error) {
	const fn = "drawdown.Plan.BoardsForRate"
	if !(i >= 0 && i < len(p.Gates)) {
		return BoardSchedule{}, &units.InputError{Func: fn, Field: "gate", Value: float64(i), Min: 0, Max: float64(len(p.Gates) - 1), Reason: "there is no such gate"}
	}
	if len(crests) < 2 {
		return BoardSchedule{}, &units.InputError{Func: fn, Field: "crests", Value: float64(len(crests)), Unit: "outlets", Reason: "give the outlet with all boards in and after each pull"}
	}
	for k, c := range crests {
		if c == nil {
			return BoardSchedule{}, &units.InputError{Func: fn, Field: fmt.Sprintf("crests[%d]", k), Value: 0, Reason: "an outlet is missing"}
		}
	}
	if err := units.Positive(fn, "limit", float64(limit), "m/s"); err != nil {
		return BoardSchedule{}, err
	}
	if minGap <= 0 {
		minGap = time.Minute
	}
	p.Gates = append([]Gate(nil), p.Gates...)
	p.Gates[i].Outlet = crests[0]
	p.Gates[i].Moves = []Move{{After: 0, Outlet: crests[0], Fraction: 1}}
	opening := p.Opening
	if opening.IsZero() {
		opening = p.Start
	}
	sched := BoardSchedule{}
	after := time.Duration(0)
	for k := 1; k < len(crests); k++ {
		r, err := p.Run()
		if err != nil {
			return sched, err
		}
		end := r.Hydrograph.End()
		fall := func(t time.Time) float64 { return p.fallWith(r.Hydrograph, t, crests[k-1], crests[k], i) }
		earliest := opening.Add(after)
		if k > 1 {
			earliest = earliest.Add(minGap)
		}
		at, ok := firstBelow(fall, float64(limit), earliest, end)
		if !ok {
			if !r.Reached { // nothing more happens with the boards that are in
				sched.Notices = append(sched.Notices, units.Notice{Code: CodeBoardRate, Severity: units.Warning, Field: "limit", Value: fall(earliest) * 3600, Limit: float64(limit) * 3600, Unit: "m/h",
					Message: fmt.Sprintf("board %d can never be pulled within the limit: the stage would fall at %.3g m/h; use lower boards or throttle the gate", k, fall(earliest)*3600)})
			}
			break
		}
		after = at.Sub(opening)
		p.Gates[i].Moves = append(p.Gates[i].Moves, Move{After: max(after, time.Nanosecond), Outlet: crests[k], Fraction: 1})
		sched.Pulls = append(sched.Pulls, BoardPull{At: at, Board: k, Stage: r.Hydrograph.Stage(at), Fall: units.Velocity(fall(at))})
	}
	sched.Moves = p.Gates[i].Moves
	r, err := p.Run()
	if err != nil {
		return sched, err
	}
	sched.Ready, sched.Reached = r.Ready, r.Reached
	var when time.Time
	for t := opening; t.Before(r.Hydrograph.End()); t = t.Add(time.Minute) {
		if f := fallAt(r.Hydrograph, t); f > float64(sched.Peak) {
			sched.Peak, when = units.Velocity(f), t
		}
	}
	if float64(sched.Peak) > 1.01*float64(limit) {
		sched.Notices = append(sched.Notices, units.Notice{Code: CodeBoardRate, Severity: units.Warning, Field: "limit", Value: float64(sched.Peak) * 3600, Limit: float64(limit) * 3600, Unit: "m/h",
			Message: fmt.Sprintf("the stage still falls at %.3g m/h at %s: the boards in place then pass too much, or the pond tapers; use lower boards or throttle the gate", float64(sched.Peak)*3600, when.Format("2006-01-02 15:04 MST"))})
	}
	return sched, nil
}

// fallAt is the fall of the stage at a moment of a run, from its dense output.
func fallAt(h Hydrograph, t time.Time) float64 {
	const half = time.Second
	a, b := t.Add(-half), t.Add(half)
	if a.Before(h.Begin()) {
		a = h.Begin()
	}
	if end := h.End(); b.After(end) {
		b = end
	}
	if !b.After(a) {
		return 0
	}
	return float64(h.Stage(a)-h.Stage(b)) / b.Sub(a).Seconds()
}

// fallWith is the fall the stage would have at a moment with one outlet of gate
// i exchanged for another.
func (p Plan) fallWith(h Hydrograph, t time.Time, now, then Outlet, i int) float64 {
	stage := h.Stage(t)
	tail := p.Pond.Bottom() - freeOutfallDepth
	if p.Tailwater != nil {
		tail = p.Tailwater.Level(t)
	}
	more := 0.0
	if stage > tail || p.Gates[i].Backflow == Pumped {
		more = float64(then.Discharge(stage, tail) - now.Discharge(stage, tail))
	}
	return fallAt(h, t) + more/math.Max(float64(p.Pond.Area(stage)), 1e-9)
}

// firstBelow returns the first moment from a to b at which f is at or below
// limit, looking every minute and closing in to the second.
func firstBelow(f func(time.Time) float64, limit float64, a, b time.Time) (time.Time, bool) {
	if !a.Before(b) {
		return a, false
	}
	if f(a) <= limit {
		return a, true
	}
	for t := a; t.Before(b); t = t.Add(time.Minute) {
		next := t.Add(time.Minute)
		if next.After(b) {
			next = b
		}
		if f(next) > limit {
			continue
		}
		for next.Sub(t) > time.Second {
			if mid := t.Add(next.Sub(t) / 2); f(mid) <= limit {
				next = mid
			} else {
				t = mid
			}
		}
		return next, true
	}
	return b, false
}
