package drawdown

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// basin is a Storage with level floor and even banks: its area is quadratic in
// stage and its volume cubic. A vertical tank has no bank slope.
type basin struct{ length, width, bank, top float64 }

func (b basin) Bottom() units.Length    { return 0 }
func (b basin) Top() units.Length       { return units.Length(b.top) }
func (b basin) Corners() []units.Length { return nil }
func (b basin) Area(stage units.Length) units.Area {
	h := float64(stage)
	return units.Area((b.length + 2*b.bank*h) * (b.width + 2*b.bank*h))
}
func (b basin) Volume(stage units.Length) units.Volume {
	h := float64(stage)
	return units.Volume(h * (b.length*b.width + h*(b.bank*(b.length+b.width)+h*4*b.bank*b.bank/3)))
}
func (b basin) Stage(volume units.Volume) units.Length {
	h := float64(volume) / (b.length * b.width) // above the root; Newton falls to it
	for range 50 {
		step := (float64(b.Volume(units.Length(h))) - float64(volume)) / float64(b.Area(units.Length(h)))
		h -= step
		if math.Abs(step) <= 1e-15*h {
			break
		}
	}
	return units.Length(h)
}

// weir is Q = c b H^n over a crest.
type weir struct{ c, width, crest, power float64 }

func (w weir) Discharge(level, _ units.Length) units.Flow {
	if x := float64(level) - w.crest; x > 0 {
		return units.Flow(w.c * w.width * math.Pow(x, w.power))
	}
	return 0
}
func (w weir) Kinks(_ units.Length, dst []units.Length) []units.Length {
	return append(dst, units.Length(w.crest))
}

// curvePump lifts to a discharge level: h0 - a Q - b Q^2 = rise + k Q^2.
type curvePump struct{ h0, a, b, to, k float64 }

func (p curvePump) Discharge(level, _ units.Length) units.Flow {
	head := p.h0 - (p.to - float64(level))
	if head <= 0 {
		return 0
	}
	return units.Flow(2 * head / (p.a + math.Sqrt(p.a*p.a+4*(p.b+p.k)*head)))
}
func (curvePump) Kinks(_ units.Length, dst []units.Length) []units.Length { return dst }

// steady is a pump of constant flow.
type steady float64

func (q steady) Discharge(_, _ units.Length) units.Flow { return units.Flow(q) }
func (steady) Kinks(_ units.Length, dst []units.Length) []units.Length {
	return dst
}

func emptyingPlan(r check.Row) Plan {
	p := Plan{Start: midnight, Stage: units.Length(r.Float("start_m")), Target: units.Length(r.Float("end_m")), Horizon: 5000 * time.Hour, Tolerance: 2e-14}
	switch r.Text("pond") {
	case "prismatic":
		p.Pond = basin{length: r.Float("area_m2"), width: 1, top: 5}
	case "frustum":
		p.Pond = basin{r.Float("floor_length_m"), r.Float("floor_width_m"), r.Float("bank_slope_hv"), 5}
	default:
		var rows []StageArea
		for _, cell := range strings.Split(r.Text("stage_table_m_m2"), ";") {
			h, a, _ := strings.Cut(cell, ":")
			hv, _ := strconv.ParseFloat(h, 64)
			av, _ := strconv.ParseFloat(a, 64)
			rows = append(rows, StageArea{units.Length(hv), units.Area(av)})
		}
		p.Pond = mustTable(rows)
	}
	gate := func(o Outlet) { p.Gates = append(p.Gates, Gate{Outlet: o, Backflow: Pumped}) }
	if r.Has("orifice_area_m2") {
		gate(orifice{cd: r.Float("orifice_cd"), area: r.Float("orifice_area_m2"), centre: r.Float("orifice_centre_m")})
	}
	if r.Has("tail_m") {
		p.Tailwater = ConstantTailwater(r.Float("tail_m"))
	}
	if r.Has("weir_width_m") {
		gate(weir{r.Float("weir_coeff_si"), r.Float("weir_width_m"), r.Float("weir_crest_m"), r.Float("weir_exponent")})
	}
	if r.Has("pump_flow_m3_s") {
		gate(steady(r.Float("pump_flow_m3_s")))
	}
	if r.Has("pump_h0_m") {
		gate(curvePump{r.Float("pump_h0_m"), r.Float("pump_a_s_m2"), r.Float("pump_b_s2_m5"), r.Float("pump_discharge_level_m"), r.Float("line_k_s2_m5")})
	}
	if r.Has("inflow_m3_s") {
		p.Inflows = []Inflow{{Rate: units.Flow(r.Float("inflow_m3_s"))}}
	}
	return p
}

func TestEmptyingTimes(t *testing.T) {
	for _, table := range []string{"testdata/emptying.csv", "testdata/emptying_closed.csv"} {
		check.Run(t, table, map[string]func(check.Row) (float64, error){
			"Plan.Run": func(r check.Row) (float64, error) {
				r.Text("case")
				r.Text("outlet")
				res, err := emptyingPlan(r).Run()
				if err == nil && !res.Reached {
					return math.NaN(), nil
				}
				if c := math.Abs(float64(res.Balance.Closure)); c > 1e-9*float64(res.Balance.Start) {
					t.Errorf("case %s: balance off by %g m3", r.Text("case"), c)
				}
				return res.Elapsed.Seconds(), err
			},
			"SteadyDrain.Time": func(r check.Row) (float64, error) {
				r.Text("case")
				r.Text("outlet")
				p := emptyingPlan(r)
				d := SteadyDrain{Pond: p.Pond, From: p.Stage, To: p.Target}
				for _, g := range p.Gates {
					d.Outlets = append(d.Outlets, g.Outlet)
				}
				for _, in := range p.Inflows {
					d.Inflow += in.Rate
				}
				if c, ok := p.Tailwater.(ConstantTailwater); ok {
					d.Tailwater = level(units.Length(c))
				}
				t, err := d.Time()
				return t.Seconds(), err
			},
		})
	}
}

// A pond that cannot fall so far is told the stage it stays at, by the closed
// form h = (inflow/k)^2 of an orifice.
func TestSteadyDrainStopsAtTheBalance(t *testing.T) {
	o := orifice{0.6, 0.07068583470577035, 0, false}
	d := SteadyDrain{Pond: basin{10000, 1, 0, 3}, From: 1.5, To: 0.05, Inflow: 0.05, Outlets: []Outlet{o}}
	var in *units.InputError
	_, err := d.Time()
	if !errors.Is(err, units.ErrNoSolution) || !errors.As(err, &in) || math.Abs(in.Min-0.07086341130192451) > 1e-8 {
		t.Errorf("%v", err)
	}
	d.To = 0.0709 // just above: long, but reached
	if at, err := d.Time(); err != nil || at < 24*time.Hour {
		t.Errorf("%v, %v", at, err)
	}
	d.Inflow, d.To, d.Outlets = 0, 0, []Outlet{weir{1.7, 1, 0, 1.5}}
	if _, err := d.Time(); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("to a crest: %v", err)
	}
	d.Outlets = nil
	if _, err := d.Time(); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("no way out: %v", err)
	}
	for _, bad := range []SteadyDrain{{}, {Pond: linedPond, From: 1, To: 1.2}, {Pond: linedPond, From: 9, To: 1}, {Pond: linedPond, From: 1, To: 0.5, Inflow: units.Flow(math.NaN())}, {Pond: linedPond, From: 1, To: 0.5, Outlets: []Outlet{nil}}} {
		if _, err := bad.Time(); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

func BenchmarkSteadyDrain(b *testing.B) {
	d := SteadyDrain{Pond: linedPond, From: 1.4, To: 0.25, Outlets: []Outlet{orifice{0.6, 0.0707, 0, false}}}
	for b.Loop() {
		if _, err := d.Time(); err != nil {
			b.Fatal(err)
		}
	}
}
