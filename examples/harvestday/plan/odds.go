package plan

import (
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"time"

	"pondwright.example/biomass"
	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

// Odds is what the doubts about outlet, tide and pond make of one opening: the
// distribution of the ready time over many draws. Near a tide lock it has two
// humps, so there is no mean and no standard deviation here.
type Odds struct {
	Opening time.Time `json:"opening"`
	ReadyBy time.Time `json:"readyBy"`
	Draws   int       `json:"draws"`
	P10     time.Time `json:"p10"`
	P50     time.Time `json:"p50"`
	P90     time.Time `json:"p90"`
	Miss    float64   `json:"miss"`      // probability of being ready after ReadyBy
	MissSE  float64   `json:"missError"` // its sampling error, one standard deviation
	// MissLow and MissHigh bound Miss for what sampling leaves open, nineteen
	// times in twenty; unlike MissSE they do not close up when no draw misses.
	MissLow  float64 `json:"missLow"`
	MissHigh float64 `json:"missHigh"`
	Humps    []Hump  `json:"humps"` // clusters of ready times with nothing between them
	// Ready holds every draw's ready time, rising; draws that the tide table is
	// too short for stand at its end.
	Ready []time.Time `json:"-"`
}

// Hump is a cluster of ready times.
type Hump struct {
	From  time.Time `json:"from"`
	To    time.Time `json:"to"`
	Share float64   `json:"share"`
}

// OddsOptions bound the sampling.
type OddsOptions struct {
	Draws   int    // at least 100; zero means 10,000
	Seed    uint64 // of the streams; equal seeds give equal answers
	Workers int    // zero means one a processor; the answer does not depend on it
}

// gap is how far apart ready times must lie to be two humps, and least is the
// share that a hump must have.
const (
	gap   = time.Hour
	least = 0.005
)

// Likelihood draws the outlet's losses (lognormal, Outlet.Doubt), the surge
// (normal, Tide.Doubt), the tide's range (normal, Tide.RangeDoubt) and the
// pond's area (normal, Pond.AreaDoubt) and runs the night for each opening.
// Every draw has a stream of its own, seeded by its number, so that the answer
// depends neither on the number of workers nor on the other openings.
func Likelihood(in Input, openings []time.Time, o OddsOptions) ([]Odds, error) {
	m, err := build(in)
	if err != nil {
		return nil, err
	}
	return m.likelihood(openings, o)
}

func (m *model) likelihood(openings []time.Time, o OddsOptions) ([]Odds, error) {
	if o.Draws == 0 {
		o.Draws = 10_000
	}
	if o.Draws < 100 || o.Draws > 10_000_000 {
		return nil, &units.InputError{Func: "plan.Likelihood", Field: "draws", Value: float64(o.Draws), Min: 100, Max: 1e7}
	}
	if len(openings) == 0 {
		return nil, &units.InputError{Func: "plan.Likelihood", Field: "openings", Value: 0, Reason: "name at least one opening"}
	}
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	start := slices.MinFunc(openings, time.Time.Compare)
	ready := make([][]time.Time, len(openings))
	for i := range ready {
		ready[i] = make([]time.Time, o.Draws)
	}
	table, err := m.storageTable()
	if err != nil {
		return nil, err
	}
	errs := make([]error, o.Workers)
	var wg sync.WaitGroup
	for w := range o.Workers {
		wg.Go(func() {
			for draw := w; draw < o.Draws && errs[w] == nil; draw += o.Workers {
				errs[w] = m.one(table, start, openings, ready, o.Seed, draw)
			}
		})
	}
	wg.Wait()
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	out := make([]Odds, len(openings))
	for i, opening := range openings {
		out[i] = summarise(opening, m.in.Night.ReadyBy, ready[i])
	}
	return out, nil
}

// one runs a single draw for every opening.
func (m *model) one(table []drawdown.StageArea, start time.Time, openings []time.Time, ready [][]time.Time, seed uint64, draw int) error {
	r := rand.New(rand.NewPCG(seed, uint64(draw)))
	sigma := math.Sqrt(math.Log1p(m.in.Outlet.Doubt * m.in.Outlet.Doubt))
	losses := math.Exp(sigma*r.NormFloat64() - sigma*sigma/2) // mean one
	surge := units.Length(r.NormFloat64()) * m.in.Tide.Doubt
	tideRange := max(0.1, 1+r.NormFloat64()*m.in.Tide.RangeDoubt)
	area := max(0.1, 1+r.NormFloat64()*m.in.Pond.AreaDoubt)

	outlet, err := hydraulics.NewOutletPipe(m.outletSpec(losses))
	if err != nil {
		return err
	}
	rows := make([]drawdown.StageArea, len(table))
	for i, s := range table {
		rows[i] = drawdown.StageArea{Stage: s.Stage, Area: s.Area * units.Area(area)}
	}
	pond, err := drawdown.NewStageTable(rows)
	if err != nil {
		return err
	}
	p, err := m.drawdownPlan(asGiven, start, start, m.in.Pond.Start, m.in.Pond.BasinReady)
	if err != nil {
		return err
	}
	p.Pond, p.Gates[0].Outlet, p.Tailwater = pond, outlet, m.stretchedTide(tideRange, surge, start)
	p.Tolerance = 1e-6 // seconds of a night, far below the doubts drawn
	s, err := drawdown.NewSolver(p)
	if err != nil {
		return err
	}
	for i, opening := range openings {
		run, err := s.Run(opening)
		if err != nil {
			return err
		}
		ready[i][draw] = run.Ready
		if !run.Reached {
			ready[i][draw] = p.Start.Add(run.Elapsed)
		}
	}
	return nil
}

// stretchedTide is the tide with its range multiplied about its mean level and a
// surge on top, for the two days from start: a draw needs no more.
func (m *model) stretchedTide(factor float64, surge units.Length, start time.Time) *drawdown.TideTable {
	t := m.tideTable(m.tide.Zone, surge)
	mean := units.Length(0)
	for _, w := range t.Turnings {
		mean += w.Level / units.Length(len(t.Turnings))
	}
	for i := range t.Turnings {
		t.Turnings[i].Level = mean + (t.Turnings[i].Level-mean)*units.Length(factor)
	}
	first, last := 0, len(t.Turnings)
	for i, w := range t.Turnings {
		if !w.At.After(start) {
			first = i
		}
		if w.At.After(start.Add(48*time.Hour)) && i < last {
			last = i + 1
		}
	}
	t.Turnings = t.Turnings[first:last]
	return t
}

// storageTable is the pond's table of areas, to be scaled.
func (m *model) storageTable() ([]drawdown.StageArea, error) {
	var rows []drawdown.StageArea
	for _, h := range append([]units.Length{m.pond.Bottom()}, append(m.pond.Corners(), m.pond.Top())...) {
		if n := len(rows); n > 0 && h <= rows[n-1].Stage {
			continue
		}
		rows = append(rows, drawdown.StageArea{Stage: h, Area: m.pond.Area(h)})
	}
	return rows, nil
}

func summarise(opening, by time.Time, ready []time.Time) Odds {
	slices.SortFunc(ready, time.Time.Compare)
	n := len(ready)
	at := func(p float64) time.Time { return ready[min(n-1, int(p*float64(n)))] }
	late := 0
	for _, t := range ready {
		if t.After(by) {
			late++
		}
	}
	miss := float64(late) / float64(n)
	o := Odds{Opening: opening, ReadyBy: by, Draws: n, P10: at(0.1), P50: at(0.5), P90: at(0.9),
		Miss: miss, MissSE: math.Sqrt(miss * (1 - miss) / float64(n)), Ready: ready}
	o.MissLow, o.MissHigh, _ = biomass.BinomialInterval(late, n, 0.95, biomass.ClopperPearson1934) // late and n are in range
	from := 0
	for i := 1; i <= n; i++ {
		if i < n && ready[i].Sub(ready[i-1]) < gap {
			continue
		}
		if share := float64(i-from) / float64(n); share >= least {
			o.Humps = append(o.Humps, Hump{From: ready[from], To: ready[i-1], Share: share})
		}
		from = i
	}
	return o
}
