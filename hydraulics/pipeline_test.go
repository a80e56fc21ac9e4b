package hydraulics

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pondwright.example/units"
)

// pipeHarvestLine is a fish-pump line: suction screen, hose, bend and pipe to a
// table 3 m above the basin.
func pipeHarvestLine(t testing.TB) Pipeline {
	t.Helper()
	water, err := FreshWater(units.Celsius(22))
	if err != nil {
		t.Fatal(err)
	}
	line, err := NewPipeline(PipelineSpec{
		Fluid: water,
		Lift:  3 * units.Metre,
		Runs: []PipeRun{
			{Name: "hose", Bore: 0.2 * units.Metre, Length: 18 * units.Metre, Roughness: 0.3 * units.Millimetre,
				Fittings: []Loss{CustomLoss("mouth", 0.5), HoseCoupling().Times(2)}},
			{Name: "pipe", Bore: 0.25 * units.Metre, Length: 6 * units.Metre, Roughness: 0.015 * units.Millimetre, Fittings: []Loss{Exit()}},
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	return line
}

// pipeRandomLine draws a line of one to four runs.
func pipeRandomLine(t testing.TB, rnd *rand.Rand) Pipeline {
	t.Helper()
	between := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, rnd.Float64()) }
	spec := PipelineSpec{Fluid: Fluid{Density: 1000, Viscosity: units.DynamicViscosity(1000 * between(3e-7, 1e-4))}, Lift: units.Length(10*rnd.Float64() - 5)}
	for range 1 + rnd.IntN(4) {
		d := between(0.01, 1)
		coil := units.Length(0)
		if rnd.IntN(3) == 0 {
			coil = units.Length(d * between(5, 1e4))
		}
		spec.Runs = append(spec.Runs, PipeRun{Bore: units.Length(d), Length: units.Length(between(0.1, 1000)), Coil: coil,
			Roughness: units.Length(d * 0.05 * rnd.Float64() * rnd.Float64()), Fittings: []Loss{CustomLoss("k", 5*rnd.Float64())}})
	}
	line, err := NewPipeline(spec)
	if err != nil {
		t.Fatal(err)
	}
	return line
}

func TestPipelineFlowInvertsHead(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		line := pipeRandomLine(t, rnd)
		q := units.Flow(math.Pow(10, -9+9*rnd.Float64()))
		if rnd.IntN(2) == 0 {
			q = -q
		}
		h := line.Head(q)
		back := line.Flow(h)
		// The lift is added to the loss, so that a small loss loses digits.
		loss := math.Abs((h - line.Spec().Lift).Metres())
		tol := 1e-11 + 4e-16*math.Abs(line.Spec().Lift.Metres())/loss
		if !(math.Abs(float64(back/q)-1) <= tol) {
			t.Fatalf("flow %v gives head %v gives flow %v, relative %g, %+v", q, h, back, float64(back/q)-1, line.Spec())
		}
	}
}

func TestPipelineHeadRisesWithFlowLengthAndRoughness(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for range 500 {
		line := pipeRandomLine(t, rnd)
		last := line.Head(0)
		if last != line.Spec().Lift {
			t.Fatalf("head without flow is %v, lift %v", last, line.Spec().Lift)
		}
		for e := -8.0; e < 2; e += 0.01 {
			h := line.Head(units.Flow(math.Pow(10, e)))
			if !(h >= last) {
				t.Fatalf("head falls from %v to %v at %g m3/s", last, h, math.Pow(10, e))
			}
			last = h
		}
		q := units.Flow(math.Pow(10, -6+6*rnd.Float64()))
		longer, rougher := line.Spec(), line.Spec()
		longer.Runs[0].Length *= 1.1
		rougher.Runs[0].Roughness = min(rougher.Runs[0].Roughness*1.1, rougher.Runs[0].Bore*0.05)
		for _, spec := range []PipelineSpec{longer, rougher} {
			other, err := NewPipeline(spec)
			if err != nil {
				t.Fatal(err)
			}
			if !(other.Head(q) >= line.Head(q)) {
				t.Fatalf("a longer or rougher line loses less: %v against %v", other.Head(q), line.Head(q))
			}
		}
	}
}

func TestPipelineSlopeIsTheDerivative(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for range 2000 {
		line := pipeRandomLine(t, rnd)
		q := math.Pow(10, -7+8*rnd.Float64())
		d := 1e-6 * q
		_, slope := line.p.loss(q)
		up, _ := line.p.loss(q + d)
		down, _ := line.p.loss(q - d)
		if got := (up - down) / (2 * d); math.Abs(got/slope-1) > 1e-4 {
			t.Fatalf("slope %g, by difference %g at q %g", slope, got, q)
		}
	}
}

func TestPipelineIsOddAndFinite(t *testing.T) {
	line := pipeHarvestLine(t)
	lift := line.Spec().Lift
	for _, q := range []units.Flow{1e-300, 1e-9, 0.01, 1, 1e9, 1e200, math.MaxFloat64} {
		up, down := line.Head(q), line.Head(-q)
		if math.IsNaN(float64(up)) || math.IsInf(float64(up), 0) || math.IsInf(float64(down), 0) {
			t.Errorf("head at %g is %v and %v", float64(q), up, down)
		}
		if q < 1e6 && math.Abs(float64((up-lift)+(down-lift))) > 1e-12*math.Abs(float64(up)) {
			t.Errorf("losses at ± %v are %v and %v", q, up-lift, down-lift)
		}
	}
	for _, h := range []units.Length{-1e300, 0, lift, 1e300, math.MaxFloat64, math.SmallestNonzeroFloat64} {
		if q := float64(line.Flow(h)); math.IsNaN(q) || math.IsInf(q, 0) {
			t.Errorf("flow at head %g is %g", float64(h), q)
		}
	}
	if !math.IsNaN(float64(line.Head(units.Flow(math.NaN())))) || !math.IsNaN(float64(line.Flow(units.Length(math.NaN())))) {
		t.Error("NaN in must be NaN out")
	}
}

func TestPipelineAllocatesNothing(t *testing.T) {
	line := pipeHarvestLine(t)
	side, err := Parallel(line, line)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := Series(line, side)
	if err != nil {
		t.Fatal(err)
	}
	var sum float64
	for name, f := range map[string]func(){
		"Pipeline.Head":     func() { sum += float64(line.Head(0.06)) },
		"Pipeline.Flow":     func() { sum += float64(line.Flow(5)) },
		"ParallelLine.Head": func() { sum += float64(side.Head(0.06)) },
		"ParallelLine.Flow": func() { sum += float64(side.Flow(5)) },
		"SeriesLine.Head":   func() { sum += float64(whole.Head(0.06)) },
		"SeriesLine.Flow":   func() { sum += float64(whole.Flow(9)) },
	} {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s: %v allocations", name, n)
		}
	}
}

func TestPipelineRefusesImpossibleInput(t *testing.T) {
	good := pipeHarvestLine(t).Spec()
	nan := units.Length(math.NaN())
	cases := []struct {
		name, want string
		spoil      func(*PipelineSpec)
	}{
		{"millimetre roughness", "above 0.05 of the bore", func(s *PipelineSpec) { s.Runs[0].Roughness = 1.5 }},
		{"NaN roughness", "runs[0].roughness", func(s *PipelineSpec) { s.Runs[0].Roughness = nan }},
		{"zero bore", "runs[1].bore", func(s *PipelineSpec) { s.Runs[1].Bore = 0 }},
		{"bore in millimetres", "inches or millimetres taken for metres", func(s *PipelineSpec) { s.Runs[1].Bore = 200 }},
		{"negative length", "runs[0].length", func(s *PipelineSpec) { s.Runs[0].Length = -1 }},
		{"kinked hose", "kinks it", func(s *PipelineSpec) { s.Runs[0].Coil = 0.5 }},
		{"no runs", "number of runs", func(s *PipelineSpec) { s.Runs = nil }},
		{"NaN lift", "lift", func(s *PipelineSpec) { s.Lift = nan }},
		{"centistokes", "1 cSt = 1e-6", func(s *PipelineSpec) { s.Fluid.Viscosity = 1000 }},
		{"no fluid", "fluid.density", func(s *PipelineSpec) { s.Fluid = Fluid{} }},
		{"huge K", "fittings[0].coefficient", func(s *PipelineSpec) { s.Runs[0].Fittings[0].Coefficient = 1e5 }},
		{"negative sum of K", "sum of the coefficients is negative", func(s *PipelineSpec) { s.Runs[1].Fittings = []Loss{CustomLoss("k", -0.5)} }},
		{"both laws", "not both", func(s *PipelineSpec) { s.Runs[0].HazenWilliams = 130 }},
		{"bad C", "coefficient of published tables", func(s *PipelineSpec) { s.Runs[0].Roughness, s.Runs[0].HazenWilliams = 0, 1300 }},
	}
	for _, c := range cases {
		spec := good
		spec.Runs = cloneRuns(good.Runs)
		c.spoil(&spec)
		_, err := NewPipeline(spec)
		if !errors.Is(err, units.ErrDomain) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v lacks %q", c.name, err, c.want)
		}
	}
	spec := good
	spec.Runs = cloneRuns(good.Runs)
	spec.Runs[0].Bore, spec.Runs[1].Length = -1, -1
	if _, err := NewPipeline(spec); err == nil || strings.Count(err.Error(), "\n") != 1 {
		t.Errorf("two faults must both be reported: %v", err)
	}
}

func TestPipelineKeepsItsOwnCopy(t *testing.T) {
	spec := pipeHarvestLine(t).Spec()
	line, err := NewPipeline(spec)
	if err != nil {
		t.Fatal(err)
	}
	before := line.Head(0.05)
	spec.Runs[0].Bore, spec.Runs[0].Fittings[0].Coefficient = 0.01, 99
	got := line.Spec()
	got.Runs[0].Fittings[0].Coefficient = 77
	if line.Head(0.05) != before || line.Spec().Runs[0].Fittings[0].Coefficient != 0.5 {
		t.Error("the line changed with the slices of its caller")
	}
}

func TestUnspecificElbowIsSizedHigh(t *testing.T) {
	elbow, err := NamedFitting("Elbow")
	if err != nil {
		t.Fatal(err)
	}
	if !(elbow.Low < elbow.Coefficient && elbow.Coefficient < elbow.High) {
		t.Errorf("elbow has no band: %+v", elbow)
	}
	spec := pipeHarvestLine(t).Spec()
	spec.Runs[1].Fittings = []Loss{elbow}
	line, err := NewPipeline(spec)
	if err != nil {
		t.Fatal(err)
	}
	s, err := line.At(0.06)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(s.Runs[1].LossSum-elbow.High) > 1e-12 {
		t.Errorf("K used is %v, want the high end %v", s.Runs[1].LossSum, elbow.High)
	}
	if len(s.Notices) != 1 || s.Notices[0].Code != CodeFittingUnspecified || s.Notices[0].Field != "runs[1].fittings[0]" {
		t.Errorf("notices: %v", s.Notices)
	}
	low, err := line.With(LowLoss)
	if err != nil {
		t.Fatal(err)
	}
	if !(low.Head(0.06) < line.Head(0.06)) {
		t.Error("the low end of the band must lose less")
	}
	if _, err := NamedFitting("sprocket"); err == nil || !strings.Contains(err.Error(), "gate valve") {
		t.Errorf("an unknown word must list the known ones: %v", err)
	}
}

func TestPipelineNotices(t *testing.T) {
	codes := func(spec PipelineSpec, q units.Flow) string {
		line, err := NewPipeline(spec)
		if err != nil {
			t.Fatal(err)
		}
		s, err := line.At(q)
		if err != nil {
			t.Fatal(err)
		}
		var out []string
		for _, n := range s.Notices {
			out = append(out, n.Code)
		}
		return strings.Join(out, " ")
	}
	oil := PipelineSpec{Fluid: Fluid{Density: 870, Viscosity: 870 * 32e-6}, Runs: []PipeRun{{Bore: 0.019, Length: 30, Fittings: []Loss{CustomLoss("k", 2)}}}}
	if got := codes(oil, 0.00075); got != CodeReynoldsLaminar {
		t.Errorf("laminar oil with constant K: %q", got)
	}
	if got := codes(oil, 0.0015); got != CodeReynoldsTransition {
		t.Errorf("Re near 3100: %q", got)
	}
	oil.Runs[0].Fittings[0].Laminar = 800
	if got := codes(oil, 0.00075); got != "" {
		t.Errorf("two-K fittings hold in laminar flow: %q", got)
	}
	hw := PipelineSpec{Fluid: Fluid{Density: 1000, Viscosity: 1e-3}, Runs: []PipeRun{{Bore: 0.04, Length: 30, HazenWilliams: 150}}}
	if got := codes(hw, 0.0002); got != CodeHazenWilliams+" "+CodeHazenWilliams {
		t.Errorf("slow flow in a small bore by Hazen-Williams: %q", got)
	}
	if got := codes(PipelineSpec{Fluid: hw.Fluid, Runs: []PipeRun{{Bore: 0.2, Length: 30}}}, 60); got != CodeFlowSuspect {
		t.Errorf("60 m3/s in 0.2 m: %q", got)
	}
}

func TestPipelineRangesEndWhereTheNoticesBegin(t *testing.T) {
	for _, run := range []PipeRun{{Bore: 0.1, Length: 10, Fittings: []Loss{CustomLoss("k", 1)}}, {Bore: 0.1, Length: 10, HazenWilliams: 140}} {
		line, err := NewPipeline(PipelineSpec{Fluid: Fluid{Density: 1000, Viscosity: 1e-3}, Runs: []PipeRun{run}})
		if err != nil {
			t.Fatal(err)
		}
		r := line.Ranges()[0]
		for _, c := range []struct {
			q    float64
			want int
		}{{r.Low * 0.999, 1}, {r.Low * 1.001, 0}} {
			s, err := line.At(units.Flow(c.q))
			if err != nil {
				t.Fatal(err)
			}
			if _, out := r.Check(c.q); out != (c.want == 1) || len(s.Notices) != c.want {
				t.Errorf("at %g m3/s of %+v: %v", c.q, r, s.Notices)
			}
		}
	}
	if (Pipeline{}).Ranges() != nil {
		t.Error("the zero line has ranges")
	}
}

// FuzzPipelineInverse asks for the flow of any head through any line that
// builds, which must end and answer for the head.
func FuzzPipelineInverse(f *testing.F) {
	f.Add(0.2, 24.0, 3e-4, 2.0, 1e-6, 1.5)
	f.Add(0.01, 1000.0, 0.0, 0.0, 3e-5, 1e-9)
	f.Add(4.9, 1e-3, 0.2, 9e3, 1e-7, 1e6)
	f.Fuzz(func(t *testing.T, bore, length, roughness, k, nu, head float64) {
		line, err := Pipe{units.Length(bore), units.Length(length), units.Length(roughness), k}.Line(Fluid{Density: 1000, Viscosity: units.DynamicViscosity(1000 * nu)})
		if err != nil || length == 0 && k == 0 {
			return
		}
		q := line.Flow(units.Length(head))
		if math.IsNaN(head) || math.IsInf(head, 0) {
			return
		}
		if math.IsNaN(float64(q)) || math.IsInf(float64(q), 0) {
			t.Fatalf("head %g drives %g", head, float64(q))
		}
		if back := float64(line.Head(q)); math.Abs(head) > 1e-200 && math.Abs(head) < 1e30 && math.Abs(back-head) > 1e-9*math.Abs(head) {
			t.Fatalf("head %g drives %g, which needs %g", head, float64(q), back)
		}
	})
}

var pipeSink float64

// BenchmarkPipelineFlow asks for the flow of one pipe with fittings at a head,
// to be held against 25 times BenchmarkColebrookPair.
func BenchmarkPipelineFlow(b *testing.B) {
	line, err := Pipe{Bore: 0.2, Length: 24, Roughness: 3e-4, LossSum: 2}.Line(Fluid{Density: 1000, Viscosity: 1e-3})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for i := range b.N {
		pipeSink += float64(line.Flow(units.Length(0.5 + float64(i&1023)*0.005)))
	}
}

// BenchmarkColebrookPair is the pair of BenchmarkPipelineFlow.
func BenchmarkColebrookPair(b *testing.B) {
	for i := range b.N {
		f, _ := Colebrook(4e5+float64(i&1023)*1e3, 1.5e-3)
		pipeSink += f
	}
}

func BenchmarkPipelineHead(b *testing.B) {
	line := pipeHarvestLine(b)
	b.ReportAllocs()
	for i := range b.N {
		pipeSink += float64(line.Head(units.Flow(0.03 + float64(i&1023)*5e-5)))
	}
}
