package drawdown

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pondwright.example/units"
)

// scaled is an outlet some times as big.
type scaled struct {
	KinkedOutlet
	by float64
}

func (s scaled) Discharge(level, tailwater units.Length) units.Flow {
	return units.Flow(s.by) * s.KinkedOutlet.Discharge(level, tailwater)
}

// randomPlan draws a pond, outlets, a tailwater, schedules and flows. With
// ordered set, nothing flows back, no pump goes by the level, and gates only
// open further as time goes on.
func randomPlan(r *rand.Rand, ordered bool) Plan {
	n := 2 + r.IntN(6)
	rows := make([]StageArea, n)
	h, a := 0.4*r.Float64(), 10+500*r.Float64()
	for i := range rows {
		rows[i] = StageArea{units.Length(h), units.Area(a)}
		h += 0.05 + 0.5*r.Float64()
		a += 3000 * r.Float64() * r.Float64()
	}
	pond := mustTable(rows)
	bottom, top := float64(pond.Bottom()), float64(pond.Top())
	level := func(lo, hi float64) units.Length {
		return units.Length(bottom + (top-bottom)*(lo+(hi-lo)*r.Float64()))
	}
	p := Plan{Pond: pond, Start: midnight, Stage: level(0.5, 1), Target: level(0, 0.5), Horizon: time.Duration(1+r.IntN(72)) * time.Hour,
		RunOn: r.IntN(3) == 0, Tolerance: math.Pow(10, -4-5*r.Float64())}
	if r.IntN(8) == 0 {
		p.Target = pond.Bottom()
	}
	p.Opening = p.Start.Add(time.Duration(r.IntN(8*3600)) * time.Second)
	p.Tailwater = randomTail(r, bottom, top)
	for range 1 + r.IntN(3) {
		p.Gates = append(p.Gates, randomGate(r, p, ordered))
	}
	for range r.IntN(3) {
		in := Inflow{Rate: units.Flow(0.02 * r.Float64())}
		if r.IntN(2) == 0 {
			in.Runs = []Window{randomWindow(r)}
		}
		p.Inflows = append(p.Inflows, in)
	}
	if r.IntN(3) == 0 {
		at := p.Start
		rain := Rain{Catchment: units.Area(a)}
		for range 3 {
			at = at.Add(time.Duration(1+r.IntN(6)) * time.Hour)
			rain.Steps = append(rain.Steps, RainStep{at, units.Velocity(1e-5 * r.Float64())})
		}
		p.Rain = []Rain{rain}
	}
	if r.IntN(2) == 0 {
		p.Evaporation, p.Seepage = units.Velocity(1e-7*r.Float64()), units.Velocity(1e-7*(r.Float64()-0.5))
	}
	if !ordered && r.IntN(6) == 0 {
		p.Neighbour = &Neighbour{Pond: mustTable([]StageArea{{units.Length(bottom), 300}, {units.Length(top), 2000}}), Stage: level(0, 1),
			Through: orifice{0.6, 0.1 * r.Float64(), at(bottom, top, 0.5*r.Float64()), false}}
		if r.IntN(2) == 0 {
			p.Neighbour.Runs = []Window{randomWindow(r)}
		}
	}
	if p.Tailwater != nil && r.IntN(3) == 0 {
		p.Leakage = &Leakage{Conductance: units.Rate(1e-6 * r.Float64())}
	}
	return p
}

// at is a level between two.
func at(lo, hi, f float64) float64 { return lo + (hi-lo)*f }

func randomWindow(r *rand.Rand) Window {
	from := midnight.Add(time.Duration(r.IntN(30*3600)) * time.Second)
	return Window{from, from.Add(time.Duration(1+r.IntN(10*3600)) * time.Second)}
}

func randomTail(r *rand.Rand, bottom, top float64) Tailwater {
	zero := units.Length(bottom)
	span := top - bottom
	switch r.IntN(6) {
	case 0:
		return nil
	case 1:
		return ConstantTailwater(bottom + span*(r.Float64()*1.2-0.4))
	case 2:
		t := &TideTable{Zone: time.UTC, Datum: "chart", ZeroAbovePond: &zero}
		at, up := midnight.Add(-time.Duration(r.IntN(6*3600))*time.Second), r.IntN(2) == 0
		for range 16 {
			z := span * (0.1 - 0.5*r.Float64())
			if up {
				z = span * (0.2 + 0.9*r.Float64())
			}
			t.Turnings = append(t.Turnings, Turning{at, units.Length(z)})
			at, up = at.Add(time.Duration(5*3600+r.IntN(2*3600))*time.Second), !up
		}
		return t
	case 3:
		t := &TailwaterSeries{Datum: "chart", ZeroAbovePond: &zero}
		at := midnight
		for range 40 {
			t.Points = append(t.Points, TailwaterPoint{at, units.Length(span * (r.Float64()*1.3 - 0.4))})
			at = at.Add(time.Duration(1800+r.IntN(3*3600)) * time.Second)
		}
		return t
	}
	t := &HarmonicTide{Mean: units.Length(span * (0.6*r.Float64() - 0.2)), Reference: midnight, Datum: "chart", ZeroAbovePond: &zero}
	for _, speed := range []float64{28.9841042, 30, 15.0410686, 57.9682084}[:1+r.IntN(4)] {
		t.Constituents = append(t.Constituents, Constituent{Amplitude: units.Length(span * 0.5 * r.Float64()), DegreesPerHour: speed, NodalFactor: 1, PhaseLag: units.Angle(6 * r.Float64())})
	}
	return t
}

func randomGate(r *rand.Rand, p Plan, ordered bool) Gate {
	bottom, top := float64(p.Pond.Bottom()), float64(p.Pond.Top())
	at := func(lo, hi float64) float64 { return bottom + (top-bottom)*(lo+(hi-lo)*r.Float64()) }
	var g Gate
	switch r.IntN(5) {
	case 0:
		g.Outlet = weir{1.7, 0.2 + r.Float64(), at(-0.1, 0.6), 1.5}
	case 1:
		g.Outlet = steady(0.1 * r.Float64())
		g.Backflow = Pumped
	case 2:
		o := orifice{0.6, 0.1 * r.Float64(), at(-0.1, 0.4), false}
		g.Outlet = OutletFunc(o.Discharge)
	default:
		g.Outlet = orifice{0.6, 0.15 * r.Float64(), at(-0.2, 0.4), false}
	}
	if g.Backflow == BackflowUnstated {
		g.Backflow = FlapGate
		if !ordered && r.IntN(3) == 0 {
			if _, ok := g.Outlet.(orifice); ok {
				g.Backflow = BothWays
			}
		}
	}
	after, fraction := time.Duration(0), 0.0
	for range r.IntN(4) {
		if f := r.Float64(); ordered {
			fraction += (1 - fraction) * f
		} else {
			fraction = f
		}
		g.Moves = append(g.Moves, Move{After: after, Fraction: fraction})
		after += time.Duration(1+r.IntN(4*3600)) * time.Second
	}
	if r.IntN(4) == 0 {
		g.Pauses = []Window{randomWindow(r)}
	}
	if r.IntN(4) == 0 {
		g.Clogging = []StageFactor{{units.Length(at(0, 0.4)), 0.3 + 0.7*r.Float64()}, {units.Length(at(0.5, 1)), 1}}
	}
	if !ordered && r.IntN(5) == 0 {
		lo, hi := at(0.05, 0.4), at(0.5, 0.9)
		g.Float = &FloatSwitch{Start: units.Length(hi), Stop: units.Length(lo), Running: r.IntN(2) == 0}
	}
	return g
}

// The water balance of every pond, outlet, tide and schedule closes.
func TestBalanceClosesOnEveryPlan(t *testing.T) {
	cases := 10_000
	if testing.Short() {
		cases = 1000
	}
	worst, reached, most := 0.0, 0, 0
	for i := range cases {
		r := rand.New(rand.NewPCG(uint64(i), 17))
		p := randomPlan(r, false)
		s, err := NewSolver(p)
		if err != nil {
			t.Fatalf("case %d: %v", i, err)
		}
		o, err := s.Run(time.Time{})
		if err != nil {
			t.Errorf("case %d: %v", i, err)
			continue
		}
		b := o.Balance
		size := float64(b.Start + b.Inflow + b.Rain + b.GatesIn)
		off := math.Abs(float64(b.Closure)) / size
		worst = math.Max(worst, off)
		if !(off <= 1e-9) {
			t.Errorf("case %d: balance off by %g of %g m3: %+v", i, off, size, b)
		}
		if o.Reached {
			reached++
		}
		if n := len(s.Stalls()); o.Steps > 50_000 || n > 200 {
			t.Errorf("case %d: %d steps and shut by the tide %d times, as if it chattered", i, o.Steps, n)
		}
		most = max(most, o.Steps)
		if n := p.Neighbour; n != nil {
			stage, over := s.NeighbourStage()
			if d := float64(n.Pond.Volume(stage) - n.Pond.Volume(n.Stage) - over); math.Abs(d) > 1e-9*size && stage > n.Pond.Bottom() {
				t.Errorf("case %d: the neighbour's balance is off by %g m3", i, d)
			}
		}
		if h := float64(o.Stage); math.IsNaN(h) || h < float64(p.Pond.Bottom())-1e-6 {
			t.Errorf("case %d: ends at stage %v, bottom %v", i, o.Stage, p.Pond.Bottom())
		}
	}
	t.Logf("worst closure %.2g, %d of %d reached the target, at most %d steps", worst, reached, cases, most)
}

// Without reverse flow and level-switched pumps a bigger outlet never drains
// later and a later opening is never ready earlier.
func TestOrderIsKept(t *testing.T) {
	cases := 2000
	if testing.Short() {
		cases = 200
	}
	for i := range cases {
		r := rand.New(rand.NewPCG(uint64(i), 99))
		p := randomPlan(r, true)
		p.RunOn, p.Tolerance = false, 1e-9
		ready := func(p Plan) float64 {
			s, err := NewSolver(p)
			if err != nil {
				t.Fatalf("case %d: %v", i, err)
			}
			o, err := s.Run(time.Time{})
			if err != nil {
				t.Fatalf("case %d: %v", i, err)
			}
			if !o.Reached {
				return math.Inf(1)
			}
			return o.Elapsed.Seconds()
		}
		base := ready(p)
		const slack = 0.05 // s; a plain outlet's corners are left to step control
		later := p
		later.Opening = p.Opening.Add(time.Duration(1+r.IntN(3*3600)) * time.Second)
		if got := ready(later); got < base-slack {
			t.Errorf("case %d: opened %v later, ready %v s earlier", i, later.Opening.Sub(p.Opening), base-got)
		}
		bigger := p
		bigger.Gates = append([]Gate(nil), p.Gates...)
		g := &bigger.Gates[0]
		by := 1 + r.Float64()
		if k, ok := g.Outlet.(KinkedOutlet); ok {
			g.Outlet = scaled{k, by}
		} else {
			o := g.Outlet
			g.Outlet = OutletFunc(func(h, z units.Length) units.Flow { return units.Flow(by) * o.Discharge(h, z) })
		}
		if got := ready(bigger); got > base+slack {
			t.Errorf("case %d: outlet %.3f times as big, ready %v s later (%v)", i, by, got-base, base)
		}
	}
}
