package drawdown

import (
	"math"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// tidalOrifice is a wide opening to the sea, with a flap or without.
func tidalOrifice(flap bool) Plan {
	way := BothWays
	if flap {
		way = FlapGate
	}
	return Plan{Pond: basin{length: 20000, width: 1, top: 3}, Start: midnight, Stage: 1.6, RunOn: true, Horizon: secondsOf(44714.16), Tolerance: 1e-9,
		Gates: []Gate{{Outlet: orifice{0.62, 0.5, 0, false}, Backflow: way}},
		Tailwater: &HarmonicTide{Mean: 0.8, Reference: midnight, Datum: "chart", ZeroAbovePond: level(0),
			Constituents: []Constituent{{Amplitude: 0.7, DegreesPerHour: 360 * 3600 / 44714.16, NodalFactor: 1}}}}
}

// hourlyBoards is a monk whose boards are pulled one an hour from the start.
func hourlyBoards() Plan {
	p := Plan{Pond: basin{120, 80, 3, 1.6}, Start: midnight, Stage: 1.5, RunOn: true, Horizon: 24 * time.Hour, Tolerance: 1e-11}
	g := Gate{Outlet: weir{1.7, 1, 1.35, 1.5}}
	for k := 1; k < 10; k++ {
		g.Moves = append(g.Moves, Move{After: time.Duration(k) * time.Hour, Outlet: weir{1.7, 1, math.Max(0, 1.5-0.15*float64(k+1)), 1.5}, Fraction: 1})
	}
	p.Gates = []Gate{g}
	return p
}

// everythingAtOnce is a pump stopped by its float, an orifice into a canal, a
// well and the sun.
func everythingAtOnce() Plan {
	return Plan{Pond: basin{120, 80, 3, 1.6}, Start: midnight, Stage: 1.5, Target: 0.1, RunOn: true, Horizon: 24 * time.Hour, Tolerance: 1e-11,
		Gates: []Gate{
			{Outlet: curvePump{h0: 8, b: 40, to: 3.5, k: 60}, Backflow: Pumped, Float: &FloatSwitch{Start: 1.55, Stop: 0.5, Running: true}},
			{Outlet: orifice{0.6, math.Pi / 100, 0, false}, Backflow: FlapGate}},
		Inflows: []Inflow{{Rate: 10 * units.LitrePerSecond}}, Tailwater: ConstantTailwater(0.4),
		Evaporation: units.Velocity(0.005 / 86400), Watch: []units.Length{1}}
}

// oneThing is a vertical pond of one hectare with one thing going on.
func oneThing(what string) Plan {
	p := Plan{Pond: basin{10000, 1, 0, 2}, Start: midnight, Stage: 1.2, RunOn: true, Horizon: 25 * time.Hour, Tolerance: 1e-11}
	hours := func(h float64) time.Time { return hoursAfter(midnight, h) }
	switch what {
	case "leakage":
		p.Leakage, p.Tailwater = &Leakage{2e-6}, ConstantTailwater(0.3)
	case "losses":
		p.Evaporation, p.Seepage = units.Velocity(0.005/86400), units.Velocity(0.003/86400)
	case "rain":
		p.Stage = 1
		p.Rain = []Rain{{12000, []RainStep{{hours(0.5), units.Velocity(0.012 / 3600)}, {hours(1.5), units.Velocity(0.030 / 3600)}, {hours(3.5), 0}}}}
	case "well by the clock":
		p.Stage = 1
		p.Inflows = []Inflow{{Rate: 0.05, Runs: []Window{{hours(1), hours(1.75)}, {hours(2), hours(2.75)}}}}
	case "fouled screen":
		p.Stage = 1.5
		p.Gates = []Gate{{Outlet: orifice{0.6, 0.07068583470577035, 0, false}, Clogging: []StageFactor{{0.2, 0.6}, {1, 0.6}}}}
	}
	return p
}

func TestReferenceRuns(t *testing.T) {
	solve := func(p Plan) (*Solver, Outcome) {
		s, err := NewSolver(p)
		if err != nil {
			t.Fatal(err)
		}
		s.Record(true)
		o, err := s.Run(time.Time{})
		if err != nil {
			t.Fatal(err)
		}
		if c := math.Abs(float64(o.Balance.Closure)); c > 1e-9 {
			t.Errorf("balance off by %g m3", c)
		}
		return s, o
	}
	check.Run(t, "testdata/runs.csv", map[string]func(check.Row) (float64, error){
		"Hydrograph.Stage": func(r check.Row) (float64, error) {
			var s *Solver
			at := 86400.0
			switch r.Text("case") {
			case "tidal orifice":
				s, _ = solve(tidalOrifice(r.Float("flap") == 1))
				at = r.Float("time_s")
			case "boards":
				s, _ = solve(hourlyBoards())
				at = r.Float("time_s")
			case "stage_at_24h_m":
				s, _ = solve(everythingAtOnce())
			default:
				s, _ = solve(oneThing(r.Text("case")))
				at = r.Float("time_s")
			}
			return float64(s.Hydrograph().Stage(midnight.Add(secondsOf(at)))), nil
		},
		"Hydrograph.Volume": func(r check.Row) (float64, error) {
			r.Text("case")
			s, _ := solve(Plan{Pond: basin{10000, 1, 0, 2}, Start: midnight, Stage: 1.2, Target: 0.1, Gates: []Gate{{Outlet: steady(0.25)}}})
			return float64(s.Hydrograph().Volume(midnight.Add(secondsOf(r.Float("time_s"))))), nil
		},
		"Solver.Events": func(r check.Row) (float64, error) {
			s, _ := solve(everythingAtOnce())
			want := StagePassed
			if r.Text("case") == "time_pump_stop_0.5_s" {
				want = PumpStopped
			}
			for _, e := range s.Events() {
				if e.Kind == want {
					return e.At.Sub(midnight).Seconds(), nil
				}
			}
			return math.NaN(), nil
		},
		"Solver.GateVolume": func(r check.Row) (float64, error) {
			s, _ := solve(everythingAtOnce())
			gate := 1
			if r.Text("case") == "pumped_m3" {
				gate = 0
			}
			out, _ := s.GateVolume(gate)
			return float64(out), nil
		},
		"Outcome.Balance": func(r check.Row) (float64, error) {
			r.Text("case")
			_, o := solve(everythingAtOnce())
			return float64(o.Balance.Evaporated), nil
		},
	})
}

// Runs after the first allocate nothing.
func TestRunsAllocateNothing(t *testing.T) {
	plans := []Plan{tidalOrifice(true), hourlyBoards(), everythingAtOnce(), evening(clock(1, 17, 0), 0)}
	for _, n := range nights {
		plans = append(plans, n.plan)
	}
	for i, p := range plans {
		s, err := NewSolver(p)
		if err != nil {
			t.Fatal(err)
		}
		if n := testing.AllocsPerRun(10, func() {
			if _, err := s.Run(time.Time{}); err != nil {
				t.Error(err)
			}
		}); n != 0 {
			t.Errorf("plan %d: %v allocations", i, n)
		}
	}
}

// The hydrograph agrees with the run at its events and with itself.
func TestHydrographIsConsistent(t *testing.T) {
	for i, p := range []Plan{tidalOrifice(true), tidalOrifice(false), everythingAtOnce(), nights[1].plan, nights[2].plan} {
		r, err := p.Run()
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range r.Events {
			if d := float64(r.Hydrograph.Stage(e.At) - e.Stage); math.Abs(d) > 1e-6 {
				t.Errorf("plan %d: %v at %v: hydrograph off by %g m", i, e.Kind, e.At, d)
			}
		}
		most := 0.05 // m3/s, more than the wells and the sun
		for _, g := range p.Gates {
			most += float64(g.Outlet.Discharge(p.Stage, -1))
		}
		last := math.Inf(1)
		for k, row := range r.Hydrograph.Sample(10 * time.Minute) {
			if k > 0 && math.Abs(float64(row.Volume)-last) > 600*most {
				t.Errorf("plan %d: jump to %v at %v", i, row.Volume, row.At)
			}
			last = float64(row.Volume)
		}
	}
}

// risingPipe is a pipe whose control changes a quarter of a metre above the
// tailwater, wherever that stands.
type risingPipe struct{}

func (risingPipe) Discharge(level, tailwater units.Length) units.Flow {
	x := float64(level - tailwater)
	if x <= 0 {
		return 0
	}
	if x <= 0.25 {
		return units.Flow(0.06 * math.Sqrt(x))
	}
	return units.Flow(0.06 * (0.5 + 3*(x-0.25)))
}

func (risingPipe) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	return append(dst, tailwater+0.25)
}

// A kink that moves with the tide is met as exactly as one that stands.
func TestMovingKinksAreMet(t *testing.T) {
	p := night(0.005, 0.3, 0.4, false)
	p.Gates = []Gate{{Outlet: risingPipe{}, Backflow: FlapGate}}
	run := func(tol float64) (Outcome, *Solver) {
		p.Tolerance = tol
		s, err := NewSolver(p)
		if err != nil {
			t.Fatal(err)
		}
		o, err := s.Run(time.Time{})
		if err != nil || !o.Reached {
			t.Fatalf("%+v, %v", o, err)
		}
		return o, s
	}
	fine, _ := run(1e-12)
	usual, s := run(0)
	if d := (usual.Elapsed - fine.Elapsed).Abs(); d > 5*time.Millisecond {
		t.Errorf("off by %v of %v", d, fine.Elapsed)
	}
	steps := usual.Steps
	p.Gates = []Gate{{Outlet: SmoothOutlet{Law: risingPipe{}.Discharge}, Backflow: FlapGate}} // the kink not told
	blind, b := run(0)
	t.Logf("%v told in %d steps and %d evaluations, off by %v; untold in %d and %d, off by %v", fine.Elapsed, steps, s.main.Evaluations(), usual.Elapsed-fine.Elapsed, blind.Steps, b.main.Evaluations(), blind.Elapsed-fine.Elapsed)
}
