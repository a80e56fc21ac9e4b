package drawdown

import (
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// Required is what a deadline asks for.
type Required struct {
	Factor  float64      `json:"factor"`  // of the gate's discharge; its area for an orifice, its crest for a weir
	Pump    units.Flow   `json:"pump"`    // extra constant flow out from the opening on
	Ready   time.Time    `json:"ready"`   // with it
	Without time.Time    `json:"without"` // without it; zero: not within the horizon
	Left    units.Volume `json:"left"`    // water above the target at the asked hour without it
	Runs    int          `json:"runs"`    // drawdowns computed
	InTime  bool         `json:"inTime"`  // nothing is required: the plan meets the hour as it is
	Asked   time.Time    `json:"asked"`   // the hour
}

// RequiredOutlet finds how many times as much gate i must pass, at every head,
// for the pond to be at its target by the asked hour, the opening being the
// plan's. For an orifice or a full pipe that is the ratio of areas, so the ratio
// of diameters is its root; for a weir the ratio of crest lengths.
//
// A factor below one says how far the gate may be smaller. The error is of kind
// ErrNoSolution, with the water left above the target at the asked hour, when
// even a thousand times as much is not enough: the tide or the opening binds,
// not the gate.
//
// Source: bisection on the forward run, the ready time never rising with the
// outlet.
func (p Plan) RequiredOutlet(i int, readyBy time.Time) (Required, error) {
	const fn = "drawdown.Plan.RequiredOutlet"
	if !(i >= 0 && i < len(p.Gates)) {
		return Required{}, &units.InputError{Func: fn, Field: "gate", Value: float64(i), Min: 0, Max: float64(len(p.Gates) - 1), Reason: "there is no such gate"}
	}
	by := new(float64)
	q := p
	q.Gates = append([]Gate(nil), p.Gates...)
	q.Gates[i].Outlet = sized(p.Gates[i].Outlet, by)
	q.Gates[i].Moves = append([]Move(nil), p.Gates[i].Moves...)
	for k := range q.Gates[i].Moves {
		q.Gates[i].Moves[k].Outlet = sized(q.Gates[i].Moves[k].Outlet, by)
	}
	r, f, err := q.require(fn, readyBy, by, 1, 1e-3, 1e3)
	if err == nil {
		r.Factor = f
	}
	return r, err
}

// RequiredPump finds the constant flow that must be pumped out besides, from the
// opening on, for the pond to be at its target by the asked hour. The answer is
// zero, with InTime set, when the plan meets the hour without. The error is of
// kind ErrNoSolution, with the water left, when the asked hour lies before the
// opening.
//
// Source: bisection on the forward run; with nothing else flowing it is
// (V0 - V1)/T + inflow.
func (p Plan) RequiredPump(readyBy time.Time) (Required, error) {
	const fn = "drawdown.Plan.RequiredPump"
	by := new(float64)
	q := p
	q.Gates = append(append([]Gate(nil), p.Gates...), Gate{Name: "extra pump", Backflow: Pumped, Outlet: sized(unitPump{}, by)})
	start := p.Opening
	if start.IsZero() {
		start = p.Start
	}
	span := readyBy.Sub(start).Seconds()
	most := 0.0
	if p.Pond != nil && span > 0 {
		most = 2*float64(p.Pond.Volume(p.Stage)-p.Pond.Volume(p.Target))/span + 1e-3
		for _, in := range p.Inflows {
			most += math.Abs(float64(in.Rate))
		}
	}
	r, f, err := q.require(fn, readyBy, by, 0, 0, 64*most)
	if err == nil {
		r.Pump = units.Flow(f)
	}
	return r, err
}

// unitPump passes one cubic metre per second whatever the levels.
type unitPump struct{}

func (unitPump) Discharge(_, _ units.Length) units.Flow                  { return 1 }
func (unitPump) Kinks(_ units.Length, dst []units.Length) []units.Length { return dst }

// require finds the least value between lo and hi for which the plan is ready in
// time, starting from the plan as it stands at now.
func (p Plan) require(fn string, readyBy time.Time, by *float64, now, lo, hi float64) (Required, float64, error) {
	r := Required{Asked: readyBy}
	*by = now
	s, err := NewSolver(p)
	if err != nil {
		return r, math.NaN(), err
	}
	asked := p.seconds(readyBy)
	opening := p.openingSeconds(p.Opening)
	ready := func(v float64) (float64, error) {
		*by = v
		return s.readyFor(opening)
	}
	first, err := ready(now)
	if err != nil {
		return r, math.NaN(), err
	}
	r.Without, r.Ready = s.clockOrZero(first), s.clockOrZero(first)
	r.InTime = first <= asked
	if !r.InTime {
		if r.Left, err = s.leftAt(asked, opening); err != nil {
			return r, math.NaN(), err
		}
	}
	if r.InTime && lo == now { // nothing to add
		r.Runs = s.runs
		return r, now, nil
	}
	if r.InTime {
		hi = now
	} else {
		lo = now
		for step := math.Max(2*now, hi/1024); ; step *= 4 {
			v := math.Min(step, hi)
			t, err := ready(v)
			if err != nil {
				return r, math.NaN(), err
			}
			if t <= asked {
				hi = v
				break
			}
			lo = v
			if v == hi {
				r.Runs = s.runs
				return r, math.NaN(), &units.InputError{Func: fn, Field: "readyBy", Value: float64(r.Left), Unit: "m3", Kind: units.ErrNoSolution,
					Reason: fmt.Sprintf("that much stands above the target at %s and no size of outlet or pump moves it: the tide, the opening or the hour binds", readyBy.Format("2006-01-02 15:04 MST"))}
			}
		}
	}
	best := math.NaN()
	for n := 0; n < 200 && hi-lo > 1e-12*hi; n++ {
		mid := (lo + hi) / 2
		if lo > 0 && hi > 4*lo {
			mid = math.Sqrt(lo * hi)
		}
		t, err := ready(mid)
		if err != nil {
			return r, math.NaN(), err
		}
		if t <= asked {
			hi, best = mid, t
		} else {
			lo = mid
		}
	}
	if math.IsNaN(best) {
		if best, err = ready(hi); err != nil {
			return r, math.NaN(), err
		}
	}
	r.Ready, r.Runs = s.clockOrZero(best), s.runs
	return r, hi, nil
}

// leftAt is the water above the target at a time, the run going on past it.
func (s *Solver) leftAt(t, opening float64) (units.Volume, error) {
	keepRec, keepOn, keepHorizon := s.recording, s.plan.RunOn, s.horizon
	s.recording, s.plan.RunOn = true, true
	defer func() { s.recording, s.plan.RunOn, s.horizon = keepRec, keepOn, keepHorizon }()
	if _, err := s.runAt(opening); err != nil {
		return 0, err
	}
	v := s.Hydrograph().Volume(clockAt(s.plan.Start, t))
	return max(0, v-units.Volume(s.target)), nil
}

// sized makes an outlet pass *by times as much; nil stays nil.
func sized(o Outlet, by *float64) Outlet {
	switch v := o.(type) {
	case nil:
		return nil
	case KinkedOutlet:
		return sizedKinked{v, by}
	}
	return sizedPlain{o, by}
}

type sizedPlain struct {
	Outlet
	by *float64
}

func (s sizedPlain) Discharge(level, tailwater units.Length) units.Flow {
	return units.Flow(*s.by) * s.Outlet.Discharge(level, tailwater)
}

type sizedKinked struct {
	KinkedOutlet
	by *float64
}

func (s sizedKinked) Discharge(level, tailwater units.Length) units.Flow {
	return units.Flow(*s.by) * s.KinkedOutlet.Discharge(level, tailwater)
}
