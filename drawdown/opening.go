package drawdown

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"pondwright.example/units"
)

// CodeOpeningCliff marks an opening shortly before a cliff: a little later costs
// hours.
const CodeOpeningCliff = "DRAW_OPENING_CLIFF"

// CodeOpeningNotUnique marks an answer of which there are several: the ready
// time falls somewhere as the opening is put off.
const CodeOpeningNotUnique = "DRAW_OPENING_NOT_UNIQUE"

// Cliff is a jump of the ready time with the opening: opening at Before is ready
// at ReadyBefore, opening a second later, at After, is ready Jump later. It
// happens where a later opening just misses a tide. Never says that the later
// opening is not ready within the plan's horizon; ReadyAfter is then zero and
// Jump reaches to the horizon.
type Cliff struct {
	Before      time.Time     `json:"before"`
	After       time.Time     `json:"after"`
	ReadyBefore time.Time     `json:"readyBefore"`
	ReadyAfter  time.Time     `json:"readyAfter"`
	Jump        time.Duration `json:"jump"`
	Never       bool          `json:"never,omitempty"`
}

// OpeningSearch bounds the search for an opening. Zero values: from the plan's
// start to the asked hour, looked at every five minutes, jumps of ten minutes
// and more being cliffs.
type OpeningSearch struct {
	Earliest time.Time     `json:"earliest"`
	Latest   time.Time     `json:"latest"`
	Every    time.Duration `json:"every"`
	MinJump  time.Duration `json:"minJump"`
}

// LatestOpening is the answer to the backward question.
type LatestOpening struct {
	ReadyBy   time.Time      `json:"readyBy"`
	Opening   time.Time      `json:"opening"`   // the latest that is not late
	Ready     time.Time      `json:"ready"`     // when it is ready then
	Later     time.Time      `json:"later"`     // a second later
	ReadyThen time.Time      `json:"readyThen"` // when it is ready then; zero: not within the horizon
	Cliffs    []Cliff        `json:"cliffs"`    // all within the search, rising
	Unique    bool           `json:"unique"`    // every earlier opening looked at is ready in time too
	Runs      int            `json:"runs"`      // drawdowns computed
	Notices   []units.Notice `json:"notices"`
}

// LatestOpening finds the latest opening for which the pond is at its target by
// the asked hour, and every cliff on the way: see [Solver.LatestOpening].
func (p Plan) LatestOpening(readyBy time.Time, q OpeningSearch) (LatestOpening, error) {
	s, err := NewSolver(p)
	if err != nil {
		return LatestOpening{}, err
	}
	return s.LatestOpening(readyBy, q)
}

// LatestOpening finds the latest opening for which the pond is at its target by
// readyBy: opened then it is not late, opened a second later it is, and where
// the ready time is continuous in the opening it is ready at the asked hour to
// the millisecond. The ready time is not continuous where an opening misses a
// tide; every such cliff within the search is found and bracketed to one second,
// never smoothed.
//
// The search looks at the ready time every q.Every, so that two cliffs within
// one such stretch that undo each other could pass unseen; without reverse flow
// and level-switched pumps the ready time never falls as the opening is put off,
// and nothing can. Where it does fall, the latest opening of all is given and
// Unique is false.
//
// When no opening is early enough the error is of kind ErrNoSolution and says by
// how much the earliest one is late.
//
// Source: bracketing on the forward run; the balance cannot be run backwards
// because inflows and tide go by the clock.
func (s *Solver) LatestOpening(readyBy time.Time, q OpeningSearch) (LatestOpening, error) {
	const fn = "drawdown.LatestOpening"
	ans := LatestOpening{ReadyBy: readyBy, Unique: true}
	asked := s.plan.seconds(readyBy)
	from, to, every, jump, err := s.searchRange(fn, q, asked)
	if err != nil {
		return ans, err
	}
	grid, err := s.sweep(from, to, every)
	if err != nil {
		return ans, err
	}
	last := -1
	for i, g := range grid {
		if g.ready <= asked {
			if last < i-1 || (last < 0 && i > 0) {
				ans.Unique = false // an earlier opening was late
			}
			last = i
		}
	}
	if last < 0 {
		late := grid[0].ready - asked
		return ans, &units.InputError{Func: fn, Field: "readyBy", Value: late / 3600, Unit: "h", Kind: units.ErrNoSolution,
			Reason: fmt.Sprintf("even the earliest opening is ready that much too late (%s)", s.readyText(grid[0].ready))}
	}
	best := grid[last]
	if last+1 < len(grid) {
		lo, hi := grid[last].opening, grid[last+1].opening
		for hi-lo > 1e-6 {
			mid := (lo + hi) / 2
			r, err := s.readyFor(mid)
			if err != nil {
				return ans, err
			}
			if r <= asked {
				lo, best = mid, openingReady{mid, r}
			} else {
				hi = mid
			}
		}
	}
	later, err := s.readyFor(best.opening + 1)
	if err != nil {
		return ans, err
	}
	ans.Opening = clockAt(s.plan.Start, best.opening)
	ans.Ready = clockAt(s.plan.Start, best.ready)
	ans.Later, ans.ReadyThen = ans.Opening.Add(time.Second), s.clockOrZero(later)
	if ans.Cliffs, err = s.cliffs(grid, jump); err != nil {
		return ans, err
	}
	ans.Runs = s.runs
	s.runs = 0
	ans.Notices = s.openingNotices(ans)
	return ans, nil
}

// Cliffs returns every jump of the ready time of at least minJump (zero: ten
// minutes) for openings from one time to another, each bracketed to one second.
//
// Source: see [Solver.LatestOpening].
func (s *Solver) Cliffs(from, to time.Time, minJump time.Duration) ([]Cliff, error) {
	a, b, every, jump, err := s.searchRange("drawdown.Cliffs", OpeningSearch{Earliest: from, Latest: to, MinJump: minJump}, s.plan.seconds(to))
	if err != nil {
		return nil, err
	}
	grid, err := s.sweep(a, b, every)
	if err != nil {
		return nil, err
	}
	return s.cliffs(grid, jump)
}

// openingReady is an opening and its ready time, seconds since the start; the
// ready time is infinite when the target is not met within the horizon.
type openingReady struct{ opening, ready float64 }

func (s *Solver) searchRange(fn string, q OpeningSearch, asked float64) (from, to, every, jump float64, err error) {
	to, every, jump = asked, 300, 600
	if !q.Earliest.IsZero() {
		from = math.Max(0, s.plan.seconds(q.Earliest))
	}
	if !q.Latest.IsZero() {
		to = s.plan.seconds(q.Latest)
	}
	to = math.Min(to, s.horizon)
	if q.Every > 0 {
		every = q.Every.Seconds()
	}
	if q.MinJump > 0 {
		jump = q.MinJump.Seconds()
	}
	if !(to > from) {
		err = &units.InputError{Func: fn, Field: "latest", Value: (to - from) / 3600, Unit: "h", Kind: units.ErrDomain,
			Reason: "the latest opening to look at lies before the earliest: the asked hour must come after the plan's start"}
	}
	return from, to, every, jump, err
}

// readyFor runs the plan for an opening.
func (s *Solver) readyFor(opening float64) (float64, error) {
	s.runs++
	keep := s.recording
	s.recording = false
	o, err := s.runAt(opening)
	s.recording = keep
	if err != nil {
		return math.NaN(), err
	}
	if !o.Reached {
		return math.Inf(1), nil
	}
	return s.ready, nil
}

// sweep runs the plan over evenly spaced openings, both ends included.
func (s *Solver) sweep(from, to, every float64) ([]openingReady, error) {
	n := int(math.Ceil((to-from)/every)) + 1
	grid := make([]openingReady, 0, n)
	for i := range n {
		o := math.Min(from+float64(i)*every, to)
		r, err := s.readyFor(o)
		if err != nil {
			return nil, err
		}
		grid = append(grid, openingReady{o, r})
	}
	return grid, nil
}

// cliffs searches every stretch of the grid for jumps.
func (s *Solver) cliffs(grid []openingReady, jump float64) ([]Cliff, error) {
	out := []Cliff{}
	for i := 0; i+1 < len(grid); i++ {
		var err error
		if out, err = s.split(out, grid[i], grid[i+1], jump); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// split halves a stretch until what is left of its rise fits in one second.
func (s *Solver) split(out []Cliff, a, b openingReady, jump float64) ([]Cliff, error) {
	rise := math.Abs(b.ready - a.ready)
	if !(rise >= jump) { // two never-ready ends give NaN
		return out, nil
	}
	if b.opening-a.opening <= 1+1e-9 {
		c := Cliff{Before: clockAt(s.plan.Start, a.opening), After: clockAt(s.plan.Start, b.opening),
			ReadyBefore: s.clockOrZero(a.ready), ReadyAfter: s.clockOrZero(b.ready)}
		if math.IsInf(rise, 0) {
			c.Never = true
			rise = s.horizon - math.Min(a.ready, b.ready)
		}
		c.Jump = secondsOf(rise)
		if b.ready < a.ready {
			c.Jump = -c.Jump
		}
		return append(out, c), nil
	}
	mid := (a.opening + b.opening) / 2
	if b.opening-a.opening < 2 { // end on brackets of one second
		mid = a.opening + 1
	}
	r, err := s.readyFor(mid)
	if err != nil {
		return nil, err
	}
	m := openingReady{mid, r}
	if out, err = s.split(out, a, m, jump); err != nil {
		return nil, err
	}
	return s.split(out, m, b, jump)
}

func (s *Solver) clockOrZero(t float64) time.Time {
	if math.IsInf(t, 0) {
		return time.Time{}
	}
	return clockAt(s.plan.Start, t)
}

func (s *Solver) readyText(ready float64) string {
	if math.IsInf(ready, 0) {
		return "it is not ready within the horizon at all"
	}
	return "at " + clockAt(s.plan.Start, ready).Format("2006-01-02 15:04:05 MST")
}

// openingNotices warns of a target already met, a cliff ahead, data that end and
// an answer that is not unique.
func (s *Solver) openingNotices(a LatestOpening) []units.Notice {
	out := s.plan.belowTarget(nil)
	const soon = time.Hour
	i := slices.IndexFunc(a.Cliffs, func(c Cliff) bool { return !c.Before.Before(a.Opening.Add(-time.Second)) })
	if i >= 0 && a.Cliffs[i].Before.Sub(a.Opening) <= soon {
		c := a.Cliffs[i]
		gap := c.After.Sub(a.Opening)
		out = append(out, units.Notice{Code: CodeOpeningCliff, Severity: units.Warning, Field: "opening", Value: gap.Minutes(), Limit: soon.Minutes(), Unit: "min",
			Message: fmt.Sprintf("opening after %s costs %.1f h at one stroke: the tide shuts the gate before the pond is down", c.Before.Format("15:04:05 MST"), c.Jump.Hours())})
	}
	if s.tail != nil && s.tail.end < s.plan.seconds(a.ReadyBy) {
		out = append(out, units.Notice{Code: CodeTideEnds, Severity: units.Warning, Field: "tailwater", Value: s.tail.end / 3600, Limit: s.plan.seconds(a.ReadyBy) / 3600, Unit: "h",
			Message: "the tailwater's data end before the asked hour: openings that need a later tide count as not ready; extend the table"})
	}
	if !a.Unique {
		out = append(out, units.Notice{Code: CodeOpeningNotUnique, Severity: units.Caution, Field: "opening",
			Message: "some earlier openings are late although this one is not: the ready time does not rise steadily with the opening"})
	}
	return out
}

// isNoSolution tells an hour that cannot be met from a plan that cannot be run.
func isNoSolution(err error) bool { return errors.Is(err, units.ErrNoSolution) }
