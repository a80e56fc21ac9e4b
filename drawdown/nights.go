package drawdown

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"pondwright.example/units"
)

// CodeNightMiss marks a night that misses its hour more often than one time in
// four.
const CodeNightMiss = "DRAW_NIGHT_MISS"

// Surged is a tailwater raised throughout by what the weather adds (or takes).
type Surged struct {
	Of Tailwater    `json:"-"`
	By units.Length `json:"by"`
}

// Level returns the level of the tailwater raised.
//
// Source: by definition; see [HarmonicTide] for what it raises.
func (s Surged) Level(at time.Time) units.Length {
	if s.Of == nil {
		return s.By
	}
	return s.Of.Level(at) + s.By
}

// Validate reports what is wrong with the tailwater or the surge.
func (s Surged) Validate() error {
	const fn = "drawdown.Surged"
	var all []error
	if s.Of == nil {
		all = append(all, &units.InputError{Func: fn, Field: "of", Value: math.NaN(), Reason: "no tailwater was given"})
	} else if v, ok := s.Of.(interface{ Validate() error }); ok {
		all = append(all, v.Validate())
	}
	return joinErrors(append(all, units.Finite(fn, "by", float64(s.By), "m")))
}

func (s Surged) curve(epoch time.Time) *tailCurve {
	c := curveOf(s.Of, epoch)
	if c.plain {
		return &tailCurve{pieces: []tailPiece{{kind: foreignPiece, foreign: s, epoch: epoch}}, begin: c.begin, end: c.end, plain: true}
	}
	for i := range c.pieces {
		c.pieces[i].mean += float64(s.By)
	}
	return c
}

// NightQuestion asks which of several evenings suits a harvest.
type NightQuestion struct {
	Plan     Plan        `json:"plan"`     // for one evening; moved to each of the others with its whole clock, the tide staying
	Evenings []time.Time `json:"evenings"` // any time on each calendar day, in the zone wanted
	Place    Place       `json:"place"`    // for light and moon

	// The pond must be ready Work before first light. Opening is the wished
	// opening, as a time after the plan's start; zero opens at the start.
	Work    time.Duration `json:"work"`
	Opening time.Duration `json:"opening"`

	SurgeSD  units.Length `json:"surgeSD,omitempty"`  // standard deviation of the weather's part in the tide
	OutletSD float64      `json:"outletSD,omitempty"` // of the logarithm of what the gates pass
	Draws    int          `json:"draws,omitempty"`    // zero means 200
	Seed     uint64       `json:"seed,omitempty"`
}

// NightChoice is one candidate night.
type NightChoice struct {
	Evening time.Time `json:"evening"`
	Night   Night     `json:"night"`
	ReadyBy time.Time `json:"readyBy"`
	Opening time.Time `json:"opening"` // as wished

	Ready  time.Time     `json:"ready"`  // opened as wished, without surge; zero: not within the horizon
	Locked time.Duration `json:"locked"` // gates open and shut by the tide
	Latest time.Time     `json:"latest"` // latest opening that is in time; zero: none is
	Cliffs []Cliff       `json:"cliffs"` // of the ready time with the opening

	// By draws of surge and outlet: the share of them that miss the hour, and
	// the ready times a tenth, half and nine tenths of them are ready by; zero
	// where some are not ready within the horizon.
	Miss   float64   `json:"miss"`
	MissSE float64   `json:"missSE"` // sampling error of Miss
	P10    time.Time `json:"p10"`
	P50    time.Time `json:"p50"`
	P90    time.Time `json:"p90"`

	Notices []units.Notice `json:"notices"`
}

// RankNights runs the plan on every evening and ranks the nights: first by the
// share of draws that miss the hour, to the nearest hundredth; then those whose
// latest safe opening leaves more time after the wished one; then the darker
// moon. It ranks; people choose.
//
// Draws are the same for every night (common random numbers), so that nights
// differ by their tides and not by luck. A night outside the tide's data is an
// error.
//
// Errors: those of the plan, no evening, negative deviations, a place off the
// globe.
func RankNights(q NightQuestion) ([]NightChoice, error) {
	const fn = "drawdown.RankNights"
	if len(q.Evenings) == 0 {
		return nil, &units.InputError{Func: fn, Field: "evenings", Value: 0, Unit: "nights", Reason: "no evening was given"}
	}
	if err := joinErrors([]error{units.NonNegative(fn, "surgeSD", float64(q.SurgeSD), "m"), units.NonNegative(fn, "outletSD", q.OutletSD, "")}); err != nil {
		return nil, err
	}
	if q.Draws == 0 {
		q.Draws = 200
	}
	if !(q.Draws > 0 && q.Draws <= 1_000_000) {
		return nil, &units.InputError{Func: fn, Field: "draws", Value: float64(q.Draws), Min: 1, Max: 1e6}
	}
	out := make([]NightChoice, 0, len(q.Evenings))
	for i, e := range q.Evenings {
		c, err := q.choice(e)
		if err != nil {
			return nil, units.AtField(fmt.Sprintf("evenings[%d]", i), err)
		}
		out = append(out, c)
	}
	slices.SortStableFunc(out, func(a, b NightChoice) int {
		if x, y := math.Round(100*a.Miss), math.Round(100*b.Miss); x != y {
			return cmp.Compare(x, y)
		}
		if x, y := a.slack(), b.slack(); x != y {
			return cmp.Compare(y, x) // the longer first
		}
		return cmp.Compare(a.Night.Midnight.Illuminated, b.Night.Midnight.Illuminated)
	})
	return out, nil
}

// slack is how long after the wished opening the latest safe one lies, in whole
// minutes.
func (c NightChoice) slack() int {
	if c.Latest.IsZero() {
		return math.MinInt32
	}
	return int(c.Latest.Sub(c.Opening).Minutes())
}

func (q NightQuestion) choice(evening time.Time) (NightChoice, error) {
	c := NightChoice{Evening: evening}
	var err error
	if c.Night, err = NightAfter(q.Place, evening); err != nil {
		return c, err
	}
	zone := evening.Location()
	y, m, d := evening.Date()
	s := q.Plan.Start.In(zone)
	start := time.Date(y, m, d, s.Hour(), s.Minute(), s.Second(), s.Nanosecond(), zone)
	p := q.Plan.moved(start.Sub(q.Plan.Start))
	p.Start = start
	c.Opening = start.Add(q.Opening)
	p.Opening = c.Opening
	light := c.Night.FirstLight
	if light.IsZero() { // no dawn at this latitude today: noon is as good a bound
		light = time.Date(y, m, d+1, 12, 0, 0, 0, zone)
	}
	c.ReadyBy = light.Add(-q.Work)

	solver, err := NewSolver(p)
	if err != nil {
		return c, err
	}
	o, err := solver.Run(c.Opening)
	if err != nil {
		return c, err
	}
	c.Ready, c.Locked = o.Ready, o.Locked
	switch a, err := solver.LatestOpening(c.ReadyBy, OpeningSearch{}); {
	case err == nil:
		c.Latest, c.Cliffs = a.Opening, a.Cliffs
	case isNoSolution(err):
		if c.Cliffs, err = solver.Cliffs(start, c.ReadyBy, 0); err != nil {
			c.Cliffs = nil
		}
	default:
		return c, err
	}
	if err := q.draw(&c, p); err != nil {
		return c, err
	}
	if c.Miss > 0.25 {
		c.Notices = append(c.Notices, units.Notice{Code: CodeNightMiss, Severity: units.Warning, Field: "miss", Value: c.Miss, Limit: 0.25,
			Message: fmt.Sprintf("opened at %s this night misses its hour %.0f times in a hundred", c.Opening.Format("15:04 MST"), 100*c.Miss)})
	}
	return c, nil
}

// draw runs the night under surges and outlets.
func (q NightQuestion) draw(c *NightChoice, p Plan) error {
	n := q.Draws
	if q.SurgeSD == 0 && q.OutletSD == 0 {
		n = 1
	}
	r := rand.New(rand.NewPCG(q.Seed, 0x9e3779b97f4a7c15))
	by := new(float64)
	p.Gates = slices.Clone(p.Gates)
	for i := range p.Gates {
		g := &p.Gates[i]
		g.Outlet = sized(g.Outlet, by)
		g.Moves = slices.Clone(g.Moves)
		for k := range g.Moves {
			g.Moves[k].Outlet = sized(g.Moves[k].Outlet, by)
		}
	}
	tide := p.Tailwater
	ready := make([]time.Time, 0, n)
	late := 0
	never := time.Unix(1<<40, 0)
	for range n {
		*by = math.Exp(q.OutletSD * r.NormFloat64())
		if surge := units.Length(float64(q.SurgeSD) * r.NormFloat64()); tide != nil {
			p.Tailwater = Surged{tide, surge}
		}
		s, err := NewSolver(p)
		if err != nil {
			return err
		}
		o, err := s.Run(c.Opening)
		if err != nil {
			return err
		}
		if !o.Reached {
			o.Ready = never
		}
		if o.Ready.After(c.ReadyBy) {
			late++
		}
		ready = append(ready, o.Ready)
	}
	slices.SortFunc(ready, time.Time.Compare)
	at := func(f float64) time.Time {
		if t := ready[int(f*float64(n-1)+0.5)]; !t.Equal(never) {
			return t
		}
		return time.Time{}
	}
	c.P10, c.P50, c.P90 = at(0.1), at(0.5), at(0.9)
	c.Miss = float64(late) / float64(n)
	c.MissSE = math.Sqrt(c.Miss * (1 - c.Miss) / float64(n))
	return nil
}

// moved is the plan with its clock moved; the tailwater keeps its own.
func (p Plan) moved(d time.Duration) Plan {
	p.Start = p.Start.Add(d)
	if !p.Opening.IsZero() {
		p.Opening = p.Opening.Add(d)
	}
	windows := func(ws []Window) []Window {
		out := slices.Clone(ws)
		for i := range out {
			out[i].From, out[i].To = out[i].From.Add(d), out[i].To.Add(d)
		}
		return out
	}
	p.Gates = slices.Clone(p.Gates)
	for i := range p.Gates {
		p.Gates[i].Runs, p.Gates[i].Pauses = windows(p.Gates[i].Runs), windows(p.Gates[i].Pauses)
	}
	p.Inflows = slices.Clone(p.Inflows)
	for i := range p.Inflows {
		in := &p.Inflows[i]
		in.Runs, in.Steps = windows(in.Runs), slices.Clone(in.Steps)
		for k := range in.Steps {
			in.Steps[k].From = in.Steps[k].From.Add(d)
		}
	}
	p.Rain = slices.Clone(p.Rain)
	for i := range p.Rain {
		p.Rain[i].Steps = slices.Clone(p.Rain[i].Steps)
		for k := range p.Rain[i].Steps {
			p.Rain[i].Steps[k].From = p.Rain[i].Steps[k].From.Add(d)
		}
	}
	return p
}
