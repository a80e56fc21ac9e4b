package drawdown

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pondwright.example/units"
)

// Every problem of a plan is reported at once, by the path of its field.
func TestPlanRefusals(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name  string
		spoil func(*Plan)
		want  string
	}{
		{"no pond", func(p *Plan) { p.Pond = nil }, "pond"},
		{"zero table", func(p *Plan) { p.Pond = StageTable{} }, "pond"},
		{"stage above the table", func(p *Plan) { p.Stage = 2 }, "stage"},
		{"stage NaN", func(p *Plan) { p.Stage = units.Length(nan) }, "stage"},
		{"target below the bottom", func(p *Plan) { p.Target = -1 }, "target"},
		{"no start", func(p *Plan) { p.Start = time.Time{} }, "start"},
		{"opening before start", func(p *Plan) { p.Opening = p.Start.Add(-time.Hour) }, "opening"},
		{"negative horizon", func(p *Plan) { p.Horizon = -1 }, "horizon"},
		{"no outlet", func(p *Plan) { p.Gates[0].Outlet = nil }, "gates[0].outlet"},
		{"reverse flow not chosen", func(p *Plan) { p.Gates[0].Backflow = BackflowUnstated }, "gates[0].backflow"},
		{"unknown backflow", func(p *Plan) { p.Gates[0].Backflow = 9 }, "gates[0].backflow"},
		{"fraction above one", func(p *Plan) { p.Gates[0].Moves = []Move{{0, nil, 1.2}} }, "gates[0].moves[0].fraction"},
		{"moves out of order", func(p *Plan) { p.Gates[0].Moves = []Move{{2, nil, 1}, {1, nil, 1}} }, "gates[0].moves[1].after"},
		{"window backwards", func(p *Plan) { p.Gates[0].Pauses = []Window{{p.Start.Add(2), p.Start}} }, "gates[0].pauses[0]"},
		{"run backwards", func(p *Plan) { p.Gates[0].Runs = []Window{{p.Start, p.Start}} }, "gates[0].runs[0]"},
		{"float without a gap", func(p *Plan) { p.Gates[0].Float = &FloatSwitch{Start: 0.5, Stop: 0.5} }, "gates[0].float.stop"},
		{"float NaN", func(p *Plan) { p.Gates[0].Float = &FloatSwitch{Start: units.Length(nan), Stop: 0.5} }, "gates[0].float.start"},
		{"clogging above one", func(p *Plan) { p.Gates[0].Clogging = []StageFactor{{0, 1.1}} }, "gates[0].clogging[0].factor"},
		{"clogging unsorted", func(p *Plan) { p.Gates[0].Clogging = []StageFactor{{1, 1}, {0, 1}} }, "gates[0].clogging[1].stage"},
		{"inflow NaN", func(p *Plan) { p.Inflows = []Inflow{{Rate: units.Flow(nan)}} }, "inflows[0].rate"},
		{"rate and steps", func(p *Plan) { p.Inflows = []Inflow{{Rate: 1, Steps: []InflowStep{{p.Start, 1}}}} }, "inflows[0].steps"},
		{"steps out of order", func(p *Plan) { p.Inflows = []Inflow{{Steps: []InflowStep{{p.Start, 1}, {p.Start, 2}}}} }, "inflows[0].steps[1].from"},
		{"inflow window", func(p *Plan) { p.Inflows = []Inflow{{Rate: 1, Runs: []Window{{p.Start, p.Start}}}} }, "inflows[0].runs[0]"},
		{"negative rain", func(p *Plan) { p.Rain = []Rain{{1, []RainStep{{p.Start, -1}}}} }, "rain[0].steps[0].intensity"},
		{"negative catchment", func(p *Plan) { p.Rain = []Rain{{Catchment: -1}} }, "rain[0].catchment"},
		{"rain out of order", func(p *Plan) { p.Rain = []Rain{{1, []RainStep{{p.Start, 1}, {p.Start, 1}}}} }, "rain[0].steps[1].from"},
		{"negative evaporation", func(p *Plan) { p.Evaporation = -1 }, "evaporation"},
		{"seepage NaN", func(p *Plan) { p.Seepage = units.Velocity(nan) }, "seepage"},
		{"negative limit", func(p *Plan) { p.FallLimit = -1 }, "fallLimit"},
		{"leakage without a tailwater", func(p *Plan) { p.Tailwater = nil; p.Leakage = &Leakage{1} }, "leakage"},
		{"negative leakage", func(p *Plan) { p.Leakage = &Leakage{-1} }, "leakage.conductance"},
		{"watch NaN", func(p *Plan) { p.Watch = []units.Length{units.Length(nan)} }, "watch[0]"},
		{"tolerance", func(p *Plan) { p.Tolerance = 1 }, "tolerance"},
		{"tailwater NaN", func(p *Plan) { p.Tailwater = ConstantTailwater(nan) }, "tailwater"},
		{"tide without a datum", func(p *Plan) { p.Tailwater = &HarmonicTide{Reference: midnight} }, "tailwater.datum"},
		{"tide without a reference", func(p *Plan) { p.Tailwater = &HarmonicTide{Datum: "x", ZeroAbovePond: level(0)} }, "tailwater.reference"},
		{"series too short", func(p *Plan) { p.Tailwater = &TailwaterSeries{Datum: "x", ZeroAbovePond: level(0)} }, "tailwater.points"},
		{"series out of order", func(p *Plan) {
			p.Tailwater = &TailwaterSeries{Datum: "x", ZeroAbovePond: level(0), Points: []TailwaterPoint{{p.Start, 0}, {p.Start, 1}}}
		}, "tailwater.points[1].at"},
	} {
		p := evening(clock(1, 17, 0), 0)
		c.spoil(&p)
		err := p.Validate()
		var in *units.InputError
		if !errors.Is(err, units.ErrDomain) || !errors.As(err, &in) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
		if _, err := NewSolver(p); err == nil {
			t.Errorf("%s: a solver was built", c.name)
		}
	}
	p := evening(clock(1, 17, 0), 0)
	p.Stage, p.Target, p.Evaporation = -9, 9, -1
	if err := p.Validate(); strings.Count(err.Error(), "\n") != 2 {
		t.Errorf("three problems, one line each: %v", err)
	}
}

// A tide above the pond at the opening: the flap holds and says for how long, or
// an open pipe lets the sea in, as chosen.
func TestTailwaterAboveThePond(t *testing.T) {
	p := evening(clock(1, 17, 0), 0.3) // high water 1.0 m above the invert, pond 0.9 m
	p.Opening = clock(1, 17, 0)
	r, err := p.Run()
	if err != nil {
		t.Fatal(err)
	}
	codes := map[string]units.Notice{}
	for _, n := range r.Notices {
		codes[n.Code] = n
	}
	if len(r.Stalls) == 0 || !r.Stalls[0].From.Equal(p.Opening) || codes[CodeTideLock].Value <= 0 || codes[CodeStartUnderTail].Code == "" {
		t.Errorf("%v, %v", r.Stalls, r.Notices)
	}
	total := time.Duration(0)
	for _, w := range r.Stalls {
		total += w.Duration()
	}
	if d := (total - r.Locked).Abs(); d > time.Microsecond {
		t.Errorf("stalls add up to %v, locked %v", total, r.Locked)
	}
	if r.Balance.GatesIn != 0 {
		t.Errorf("a flap let %v in", r.Balance.GatesIn)
	}
	p.Gates = []Gate{p.Gates[0]}
	p.Gates[0].Backflow = BothWays
	if r, err = p.Run(); err != nil || r.Balance.GatesIn <= 0 || len(r.Stalls) != 0 {
		t.Errorf("in %v, stalls %v, %v", r.Balance.GatesIn, r.Stalls, err)
	}
}

// The current's gaps are those of the tide and of every pause.
func TestGapsInTheCurrent(t *testing.T) {
	p := evening(clock(1, 17, 0), 0)
	p.Opening = clock(1, 19, 0)
	p.Gates = []Gate{p.Gates[0]}
	p.Gates[0].Pauses = []Window{{clock(1, 21, 0), clock(1, 21, 30)}}
	r, err := p.Run()
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Gaps) != 2 || r.Gaps[0] != (Window{clock(1, 21, 0), clock(1, 21, 30)}) || len(r.Stalls) != 1 || r.Gaps[1] != r.Stalls[0] {
		t.Errorf("gaps %v, stalls %v", r.Gaps, r.Stalls)
	}
	found := false
	for _, n := range r.Notices {
		found = found || n.Code == CodeFlowStopped
	}
	if !found {
		t.Errorf("%v", r.Notices)
	}
	p.Gates[0].Pauses = nil
	p.Opening = clock(1, 15, 0)
	if r, err = p.Run(); err != nil || len(r.Gaps) != 0 {
		t.Errorf("gaps %v, %v", r.Gaps, err)
	}
}

// Words and notices a plan can bring about.
func TestRunNotices(t *testing.T) {
	p := Plan{Pond: linedPond, Start: midnight, Stage: 1.3, Target: 0.2, Horizon: 3 * time.Hour, FallLimit: units.Velocity(1e-6),
		Gates:   []Gate{{Outlet: OutletFunc(orifice{0.6, 0.05, 0, false}.Discharge)}},
		Inflows: []Inflow{{Steps: []InflowStep{{midnight, 0.3}, {midnight.Add(time.Hour), 0}}}}}
	r, err := p.Run()
	if err != nil {
		t.Fatal(err)
	}
	codes := map[string]bool{}
	for _, n := range r.Notices {
		codes[n.Code] = true
		if n.Message == "" || n.String() == "" {
			t.Errorf("%+v says nothing", n)
		}
	}
	for _, want := range []string{CodeNotReady, CodeOvertopped, CodeFallRate, CodePlainOutlet} {
		if !codes[want] {
			t.Errorf("%s is missing: %v", want, r.Notices)
		}
	}
	for _, b := range []Backflow{BackflowUnstated, FlapGate, BothWays, Pumped} {
		text, err := b.MarshalText()
		var back Backflow
		if err != nil || back.UnmarshalText(text) != nil || back != b {
			t.Errorf("%v: %q, %v", b, text, err)
		}
	}
	if _, err := Backflow(9).MarshalText(); err == nil {
		t.Error("an unknown backflow has no words")
	}
	if new(Backflow).UnmarshalText([]byte("flap")) == nil {
		t.Error("unknown words were read")
	}
}

// An outlet that answers with no discharge is found out at set-up.
func TestOutletsAreProbed(t *testing.T) {
	for _, q := range []float64{-1, math.NaN(), math.Inf(1)} {
		p := evening(clock(1, 17, 0), 0)
		p.Gates = []Gate{{Outlet: OutletFunc(func(h, z units.Length) units.Flow {
			if h > 1 && z > 0.5 {
				return units.Flow(q)
			}
			return 0.1
		}), Backflow: FlapGate}}
		var in *units.InputError
		if _, err := NewSolver(p); !errors.As(err, &in) || in.Field != "gates[0].outlet" {
			t.Errorf("%v: %v", q, err)
		}
		p.Gates = []Gate{{Outlet: steady(0.1), Backflow: FlapGate, Moves: []Move{{time.Hour, steady(q), 1}}}}
		if _, err := NewSolver(p); !errors.As(err, &in) || in.Field != "gates[0].moves[0].outlet" {
			t.Errorf("%v: %v", q, err)
		}
	}
}

// seaOf hides what a tide is, so that the solver must find its way without
// corners.
type seaOf struct{ tide Tailwater }

func (s seaOf) Level(at time.Time) units.Length { return s.tide.Level(at) }

// A plain function as outlet and a tailwater of unknown making find the same
// windows and nearly the same hour.
func TestPlainOutletsSkipNoWindow(t *testing.T) {
	for _, mean := range []float64{0.33, 0.41, 0.45, 0.488, 0.52} {
		p := night(0.010, 0.20, mean, false)
		want, err := p.Run()
		if err != nil {
			t.Fatal(err)
		}
		plain := p
		plain.Gates = []Gate{p.Gates[0]}
		plain.Gates[0].Outlet = OutletFunc(p.Gates[0].Outlet.Discharge)
		hidden := plain
		hidden.Tailwater = seaOf{p.Tailwater}
		for i, q := range []Plan{plain, hidden} {
			got, err := q.Run()
			if err != nil || math.Abs(got.Elapsed.Seconds()/want.Elapsed.Seconds()-1) > 1e-5 || len(got.Stalls) != len(want.Stalls) {
				t.Errorf("mean %v, %d: %v, want %v; stalls %d and %d; %v", mean, i, got.Elapsed, want.Elapsed, len(got.Stalls), len(want.Stalls), err)
			}
		}
	}
}

// A dry sill, an empty sump under a pump, and a float in a trickle: none
// chatters.
func TestNothingChatters(t *testing.T) {
	trickle := []Inflow{{Rate: 0.2 * units.LitrePerSecond}}
	base := Plan{Pond: linedPond, Start: midnight, Stage: 0.5, RunOn: true, Horizon: 10 * 24 * time.Hour, Inflows: trickle}
	for _, c := range []struct {
		name   string
		gate   Gate
		stage  float64 // at the end
		events int     // at most
	}{
		{"orifice at its sill", Gate{Outlet: orifice{0.6, 0.2, 0.3, false}}, 0.3, 5},
		{"weir at its crest", Gate{Outlet: weir{1.7, 2, 0.3, 1.5}}, 0.3, 5},
		{"pump over an empty sump", Gate{Outlet: steady(0.05), Backflow: Pumped}, 0, 5},
		{"pump on a float", Gate{Outlet: steady(0.05), Backflow: Pumped, Float: &FloatSwitch{Start: 0.35, Stop: 0.3}}, 0.33, 10},
	} {
		p := base
		p.Gates = []Gate{c.gate}
		s, err := NewSolver(p)
		if err != nil {
			t.Fatal(err)
		}
		o, err := s.Run(time.Time{})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if math.Abs(float64(o.Stage)-c.stage) > 0.03 || len(s.Events()) > c.events || o.Steps > 2000 || math.Abs(float64(o.Balance.Closure)) > 1e-9 {
			t.Errorf("%s: stage %v, %d steps, closure %v, events %v", c.name, o.Stage, o.Steps, o.Balance.Closure, s.Events())
		}
	}
}

// Zero values and nil pointers are refused or answered, never a panic.
func TestZeroValuesDoNotPanic(t *testing.T) {
	var tide *TideTable
	var harmonic *HarmonicTide
	var series *TailwaterSeries
	for _, tail := range []Tailwater{tide, harmonic, series, &TideTable{}, &HarmonicTide{}, &TailwaterSeries{}, Surged{}, Surged{Of: tide}} {
		p := evening(clock(1, 17, 0), 0)
		p.Tailwater = tail
		if _, err := NewSolver(p); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%T: %v", tail, err)
		}
		tail.Level(midnight)
		if _, _, err := NextTurning(tail, midnight); err == nil {
			t.Errorf("%T turns", tail)
		}
	}
	if _, err := (Plan{}).Run(); err == nil {
		t.Error("an empty plan ran")
	}
	if _, err := (Plan{}).LatestOpening(midnight, OpeningSearch{}); err == nil {
		t.Error("an empty plan has a latest opening")
	}
	if _, err := (Plan{}).RequiredPump(midnight); err == nil {
		t.Error("an empty plan requires a pump")
	}
	if _, err := (Plan{}).Calibrate(nil, Priors{}); err == nil {
		t.Error("an empty plan was calibrated")
	}
	if _, err := (PreDrain{}).Target(); err == nil {
		t.Error("an empty question was answered")
	}
	if _, err := TimesAbove(nil, 0, midnight, midnight); err == nil {
		t.Error("no tailwater has times")
	}
	var h Hydrograph
	if h.Stage(midnight) != 0 || h.Volume(midnight) != 0 || len(h.Sample(0)) != 0 || !h.End().IsZero() {
		t.Error("an empty hydrograph holds water")
	}
	var c ChannelOutlet
	if c.Discharge(1, 0) != 0 || c.Level(1, 0.5) != 0.5 {
		t.Error("an empty channel runs")
	}
	s, _ := NewSolver(evening(clock(1, 17, 0), 0))
	if out, in := s.GateVolume(7); out != 0 || in != 0 || len(s.Stalls()) != 0 || len(s.Hydrograph().Sample(time.Hour)) != 1 {
		t.Error("a solver that has not run has results")
	}
	if _, err := s.Run(clock(1, 11, 0)); !errors.Is(err, units.ErrDomain) {
		t.Errorf("opened before the start: %v", err)
	}
}
