package drawdown

import (
	"math"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// half a hectare of lined pond with a catch basin, the stage above the outlet's
// invert (invented).
var linedPond = mustTable([]StageArea{{0, 120}, {0.1, 1500}, {0.2, 3600}, {0.4, 4150}, {0.8, 4500}, {1.2, 4800}, {1.4, 5000}})

func mustTable(rows []StageArea) StageTable {
	t, err := NewStageTable(rows)
	if err != nil {
		panic(err)
	}
	return t
}

var midnight = time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)

const gravity = 9.80665 // m/s2, standard

// orifice is a sharp opening with its centre at a level; a tailwater below the
// centre is no tailwater, unless Unclamped, where it draws like a siphon leg.
type orifice struct {
	cd, area, centre float64
	unclamped        bool
}

func (o orifice) Discharge(level, tailwater units.Length) units.Flow {
	z := float64(tailwater)
	if !o.unclamped {
		z = math.Max(z, o.centre)
	}
	if x := float64(level) - z; x > 0 {
		return units.Flow(o.cd * o.area * math.Sqrt(2*gravity*x))
	}
	return 0
}

func (o orifice) Kinks(_ units.Length, dst []units.Length) []units.Length {
	if o.unclamped {
		return dst
	}
	return append(dst, units.Length(o.centre))
}

// night is the emptying of the lined pond through a flapped pipe under a
// semidiurnal tide, half the boards in for the first hour.
func night(inflow, diameter, tideMean float64, unclamped bool) Plan {
	zero := units.Length(0)
	return Plan{Pond: linedPond, Start: midnight, Stage: 1.4, Target: 0.25, Horizon: 400_000 * time.Second,
		Gates: []Gate{{Name: "pipe", Outlet: orifice{0.6, math.Pi / 4 * diameter * diameter, 0, unclamped}, Backflow: FlapGate,
			Moves: []Move{{0, nil, 0.5}, {time.Hour, nil, 1}}}},
		Inflows: []Inflow{{Name: "well", Rate: units.Flow(inflow)}},
		Tailwater: &HarmonicTide{Mean: units.Length(tideMean), Reference: midnight, Datum: "invert", ZeroAbovePond: &zero,
			Constituents: []Constituent{{Name: "M2", Amplitude: 0.55, DegreesPerHour: 360 * 3600. / 44714, NodalFactor: 1}}},
	}
}

var nights = []struct {
	name   string
	plan   Plan
	want   float64 // s
	within float64 // s
}{
	{"siphon leg", night(0.005, 0.30, 0.15, true), 33726.13538290, 0.001},
	{"free outfall and flap", night(0.005, 0.30, 0.15, false), 58645.29581229, 0.001},
	{"four tides", night(0.010, 0.20, 0.45, false), 206622.1585439, 0.01},
}

func TestNightsAgainstReference(t *testing.T) {
	for _, n := range nights {
		s, err := NewSolver(n.plan)
		if err != nil {
			t.Fatal(err)
		}
		o, err := s.Run(time.Time{})
		if err != nil {
			t.Fatal(err)
		}
		got := o.Elapsed.Seconds()
		t.Logf("%s: %.7f, off by %.2g s, %d steps, %d tries, %d+%d evaluations, closure %g", n.name, got, got-n.want, o.Steps, s.main.Tries(), s.main.Evaluations(), s.close.Evaluations(), o.Balance.Closure)
		if !(math.Abs(got-n.want) <= n.within) {
			t.Errorf("%s: ready at %.7f s, want %.7f within %g", n.name, got, n.want, n.within)
		}
	}
}

func BenchmarkNight(b *testing.B) {
	for _, n := range nights {
		b.Run(n.name, func(b *testing.B) {
			s, err := NewSolver(n.plan)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := s.Run(time.Time{}); err != nil { // set-up: the tide's table
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := s.Run(time.Time{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// While the flap is shut the stage is smooth and the step wants to grow; no
// window in which the tide frees it may be stepped over, at any tolerance.
func TestNoWindowIsSkipped(t *testing.T) {
	check.Run(t, "testdata/flap_windows.csv", map[string]func(check.Row) (float64, error){
		"Solver.Run": func(r check.Row) (float64, error) {
			p := night(0.010, 0.20, r.Float("tide_mean_m"), false)
			p.Tolerance = r.Float("rel_tol_of_run")
			s, err := NewSolver(p)
			if err != nil {
				return 0, err
			}
			o, err := s.Run(time.Time{})
			return o.Elapsed.Seconds(), err
		},
	})
}

// A tide of thirty-seven constituents costs little more than one.
func BenchmarkNightOfManyConstituents(b *testing.B) {
	p := nights[1].plan
	tide := *p.Tailwater.(*HarmonicTide)
	tide.Constituents = append([]Constituent(nil), tide.Constituents...)
	for i := range 36 {
		tide.Constituents = append(tide.Constituents, Constituent{Amplitude: 0.004, DegreesPerHour: 13 + 1.3*float64(i), NodalFactor: 1})
	}
	p.Tailwater = &tide
	s, err := NewSolver(p)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := s.Run(time.Time{}); err != nil {
			b.Fatal(err)
		}
	}
}

// The whole backward question over a night.
func BenchmarkLatestOpening(b *testing.B) {
	p := night(0.005, 0.30, 0.15, false)
	s, err := NewSolver(p)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := s.LatestOpening(midnight.Add(30*time.Hour), OpeningSearch{}); err != nil {
			b.Fatal(err)
		}
	}
}
