package hydraulics

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func pipeRunsOf(r check.Row) []PipeRun {
	lengths, bores, rough, k := r.Floats("lengths_m"), r.Floats("bores_m"), r.Floats("roughness_m"), r.Floats("loss_sums")
	var runs []PipeRun
	for i := range lengths {
		runs = append(runs, PipeRun{Bore: units.Length(bores[i]), Length: units.Length(lengths[i]), Roughness: units.Length(rough[i]),
			Fittings: []Loss{CustomLoss("k", k[i])}})
	}
	return runs
}

// pipeLayout builds the row's runs as one line, and each run as its own.
func pipeLayout(r check.Row) (whole Line, err error) {
	spec := PipelineSpec{Fluid: pipeFluid(r), Gravity: units.Acceleration(pipeNumber(r, "g_m_s2"))}
	line := func(runs ...PipeRun) Line {
		spec.Runs = runs
		l, e := NewPipeline(spec)
		err = errors.Join(err, e)
		return l
	}
	runs := pipeRunsOf(r)
	var each []Line
	for _, run := range runs {
		each = append(each, line(run))
	}
	var e error
	switch r.Text("layout") {
	case "series":
		if r.Func() == "Pipeline.Flow" {
			return line(runs...), err
		}
		whole, e = Series(each...)
	case "parallel":
		whole, e = Parallel(each...)
	case "feeder_parallel":
		var side Line
		side, e = Parallel(each[1:]...)
		if e == nil {
			whole, e = Series(each[0], side)
		}
	}
	return whole, errors.Join(err, e)
}

func TestPipeLinesTable(t *testing.T) {
	flow := func(r check.Row) (float64, error) {
		l, err := pipeLayout(r)
		if err != nil {
			return math.NaN(), err
		}
		return float64(l.Flow(pipeHeadOf(r))), nil
	}
	head := func(r check.Row) (float64, error) {
		l, err := pipeLayout(r)
		if err != nil {
			return math.NaN(), err
		}
		return float64(l.Head(units.Flow(r.Float("head_m")))), nil
	}
	square := func(r check.Row) (SquareLine, error) {
		r.Text("layout")
		q := r.Floats("quantity")
		return NewSquareLine(units.Length(q[0]), q[1])
	}
	curve := func(l SquareLine, err error) (CurveLine, error) {
		if err != nil {
			return CurveLine{}, err
		}
		return NewCurveLine(l.Head)
	}
	check.Run(t, "testdata/pipe_lines.csv", map[string]pipeRow{
		"Pipeline.Flow": flow, "ParallelLine.Flow": flow, "SeriesLine.Flow": flow, "SeriesLine.Head": head, "ParallelLine.Head": head,
		"ParallelLine.Split": func(r check.Row) (float64, error) {
			l, err := pipeLayout(r)
			if err != nil {
				return math.NaN(), err
			}
			return float64(l.(ParallelLine).Split(pipeHeadOf(r), nil)[int(r.Float("quantity"))]), nil
		},
		"SquareLine.Head": func(r check.Row) (float64, error) {
			l, err := square(r)
			return float64(l.Head(units.Flow(r.Float("head_m")))), err
		},
		"CurveLine.Head": func(r check.Row) (float64, error) {
			l, err := curve(square(r))
			return float64(l.Head(units.Flow(r.Float("head_m")))), err
		},
		"CurveLine.Flow": func(r check.Row) (float64, error) {
			l, err := curve(square(r))
			return float64(l.Flow(pipeHeadOf(r))), err
		},
		"SquareLine.Flow": func(r check.Row) (float64, error) {
			l, err := square(r)
			return float64(l.Flow(pipeHeadOf(r))), err
		},
	})
}

// pipePairs reads "A:0.02;B:0.03".
func pipePairs(s string) (names []string, values []float64) {
	for part := range strings.SplitSeq(s, ";") {
		name, value, _ := strings.Cut(part, ":")
		v, err := strconv.ParseFloat(value, 64)
		if err != nil {
			v = math.NaN()
		}
		names, values = append(names, name), append(values, v)
	}
	return names, values
}

// pipeNetworkOf reads links as name:from:to:length:bore:roughness-or-C[:K], and
// a pump as pump:from:to:shutoff:coefficient.
func pipeNetworkOf(r check.Row) (NetworkSpec, error) {
	var spec NetworkSpec
	names, values := pipePairs(r.Text("demands_m3_s"))
	for i, n := range names {
		spec.Nodes = append(spec.Nodes, NetworkNode{Name: n, Demand: units.Flow(values[i])})
	}
	names, values = pipePairs(r.Text("levels_m"))
	for i, n := range names {
		level := units.Length(values[i])
		spec.Nodes = append(spec.Nodes, NetworkNode{Name: n, Level: &level})
	}
	for text := range strings.SplitSeq(r.Text("links"), ";") {
		part := strings.Split(text, ":")
		var v []float64
		for _, p := range part[3:] {
			x, err := strconv.ParseFloat(p, 64)
			if err != nil {
				return spec, err
			}
			v = append(v, x)
		}
		link := NetworkLink{Name: part[0], From: part[1], To: part[2]}
		var err error
		if part[0] == "pump" {
			link.Line, err = NewSquareLine(units.Length(-v[0]), v[1])
		} else {
			run := PipeRun{Length: units.Length(v[0]), Bore: units.Length(v[1])}
			switch r.Text("law") {
			case "hazen_williams":
				run.HazenWilliams = v[2]
			case "hazen_williams 10.667 4.871": // as a coefficient C of 10.67 and 4.8704
				run.HazenWilliams = v[2] * math.Pow(10.67/10.667*math.Pow(v[1], 4.871-4.8704), 1/1.852)
			default:
				run.Roughness = units.Length(v[2])
			}
			if len(v) > 3 {
				run.Fittings = []Loss{CustomLoss("k", v[3])}
			}
			link.Line, err = NewPipeline(PipelineSpec{Fluid: pipeFluid(r), Gravity: units.Acceleration(pipeNumber(r, "g_m_s2")), Runs: []PipeRun{run}})
		}
		if err != nil {
			return spec, err
		}
		spec.Links = append(spec.Links, link)
	}
	return spec, nil
}

func TestPipeNetworkTable(t *testing.T) {
	check.Run(t, "testdata/pipe_network.csv", map[string]pipeRow{
		"Network.Solve": func(r check.Row) (float64, error) {
			r.Text("law")
			spec, err := pipeNetworkOf(r)
			if err != nil {
				return math.NaN(), err
			}
			w, err := NewNetwork(spec)
			if err != nil {
				return math.NaN(), err
			}
			s, err := w.Solve()
			if err != nil {
				return math.NaN(), err
			}
			kind, name, _ := strings.Cut(r.Text("quantity"), ":")
			for _, n := range s.Nodes {
				if kind == "head_m" && n.Name == name {
					return n.Head.Metres(), nil
				}
			}
			for _, l := range s.Links {
				if kind == "flow_m3_s" && l.Name == name {
					return l.Flow.CubicMetresPerSecond(), nil
				}
			}
			return math.NaN(), fmt.Errorf("no %s in the network", r.Text("quantity"))
		},
	})
}

// pipeRandomNetwork draws a connected network of n junctions with extra loops.
func pipeRandomNetwork(t testing.TB, rnd *rand.Rand, n, loops int) NetworkSpec {
	t.Helper()
	level, second := units.Length(20+10*rnd.Float64()), units.Length(15+10*rnd.Float64())
	spec := NetworkSpec{Nodes: []NetworkNode{{Name: "pond", Level: &level}, {Name: "canal", Level: &second}}}
	water := Fluid{Density: 1000, Viscosity: 1e-3}
	join := func(a, b string) {
		d := 0.05 * math.Pow(6, rnd.Float64())
		line, err := NewPipeline(PipelineSpec{Fluid: water, Runs: []PipeRun{{Bore: units.Length(d), Length: units.Length(5 + 200*rnd.Float64()),
			Roughness: units.Length(1e-3 * d * rnd.Float64()), Fittings: []Loss{CustomLoss("k", 3*rnd.Float64())}}}})
		if err != nil {
			t.Fatal(err)
		}
		spec.Links = append(spec.Links, NetworkLink{Name: strconv.Itoa(len(spec.Links)), From: a, To: b, Line: line, OneWay: rnd.IntN(20) == 0 && len(spec.Links) > n})
	}
	for i := range n {
		spec.Nodes = append(spec.Nodes, NetworkNode{Name: "j" + strconv.Itoa(i), Demand: units.Flow(2e-3 * (rnd.Float64() - 0.3))})
		join(spec.Nodes[rnd.IntN(i+2)].Name, "j"+strconv.Itoa(i))
	}
	for range loops {
		i, j := rnd.IntN(n+2), rnd.IntN(n+2)
		if i != j {
			join(spec.Nodes[i].Name, spec.Nodes[j].Name)
		}
	}
	return spec
}

// pipeNetworkFaults returns the worst imbalance of a junction and the worst
// misfit of a link's head.
func pipeNetworkFaults(spec NetworkSpec, s NetworkState) (mass, energy float64) {
	balance := map[string]float64{}
	for _, n := range spec.Nodes {
		balance[n.Name] = -n.Demand.CubicMetresPerSecond()
	}
	for k, l := range spec.Links {
		q := s.Links[k].Flow
		balance[l.From] -= float64(q)
		balance[l.To] += float64(q)
		if !s.Links[k].Closed {
			energy = max(energy, math.Abs(float64(l.Line.Head(q)-s.Links[k].Head)))
		}
	}
	for i, n := range spec.Nodes {
		mass = max(mass, math.Abs(balance[n.Name]+float64(s.Nodes[i].Supply)))
	}
	return mass, energy
}

func TestNetworkConservesMassAndEnergy(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 12))
	for i := range 60 {
		spec := pipeRandomNetwork(t, rnd, 1+rnd.IntN(80), rnd.IntN(30))
		w, err := NewNetwork(spec)
		if err != nil {
			t.Fatal(err)
		}
		s, err := w.Solve()
		if err != nil {
			t.Fatalf("network %d: %v", i, err)
		}
		mass, energy := pipeNetworkFaults(spec, s)
		if mass > 1e-12 || energy > 1e-8 {
			t.Errorf("network %d: mass off by %g m3/s, energy by %g m, in %d steps", i, mass, energy, s.Iterations)
		}
		for k, l := range s.Links {
			if spec.Links[k].OneWay && l.Flow < -1e-8 {
				t.Errorf("network %d: %v flows back through a check valve", i, l.Flow)
			}
			if l.Closed && l.Head > spec.Links[k].Line.Head(0)+1e-9 {
				t.Errorf("network %d: a check valve holds against a head of %v that would open it", i, l.Head)
			}
		}
	}
}

// A network of lines in series and parallel must repeat the closed laws.
func TestNetworkRepeatsSeriesAndParallel(t *testing.T) {
	rnd := rand.New(rand.NewPCG(21, 22))
	for range 400 {
		a, b, c := pipeRandomLine(t, rnd), pipeRandomLine(t, rnd), pipeRandomLine(t, rnd)
		high, low := 30*units.Metre, 0*units.Metre
		w, err := NewNetwork(NetworkSpec{
			Nodes: []NetworkNode{{Name: "top", Level: &high}, {Name: "mid"}, {Name: "end", Level: &low}},
			Links: []NetworkLink{{Name: "a", From: "top", To: "mid", Line: a}, {Name: "b", From: "mid", To: "end", Line: b}, {Name: "c", From: "mid", To: "end", Line: c}},
		})
		if err != nil {
			t.Fatal(err)
		}
		s, err := w.Solve()
		if err != nil {
			t.Fatal(err)
		}
		side, err := Parallel(b, c)
		if err != nil {
			t.Fatal(err)
		}
		whole, err := Series(a, side)
		if err != nil {
			t.Fatal(err)
		}
		want := float64(whole.Flow(high))
		if got := float64(s.Links[0].Flow); math.Abs(got-want) > 1e-8*math.Abs(want) {
			t.Errorf("network passes %g, series of parallel %g", got, want)
		}
		if back := whole.Head(units.Flow(want)); math.Abs(float64(back-high)) > 1e-8 {
			t.Errorf("head of the flow of 30 m is %v", back)
		}
	}
}

func TestNetworkRefusesFaultySpecs(t *testing.T) {
	level := 3 * units.Metre
	line, err := NewSquareLine(0, 100)
	if err != nil {
		t.Fatal(err)
	}
	good := func() NetworkSpec {
		return NetworkSpec{
			Nodes: []NetworkNode{{Name: "pond", Level: &level}, {Name: "a", Demand: 0.01}, {Name: "b"}},
			Links: []NetworkLink{{Name: "1", From: "pond", To: "a", Line: line}, {Name: "2", From: "a", To: "b", Line: line}},
		}
	}
	cases := []struct {
		name, want string
		spoil      func(*NetworkSpec)
	}{
		{"no level", "no node has a known level", func(s *NetworkSpec) { s.Nodes[0].Level = nil }},
		{"cut off", "no line joins these junctions to a known level: b", func(s *NetworkSpec) { s.Links = s.Links[:1] }},
		{"name twice", "empty or used twice", func(s *NetworkSpec) { s.Nodes[2].Name = "a" }},
		{"unknown node", `no node is named "c"`, func(s *NetworkSpec) { s.Links[1].To = "c" }},
		{"loop on itself", "ends where it begins", func(s *NetworkSpec) { s.Links[1].To = "a" }},
		{"no line", "links[0].line", func(s *NetworkSpec) { s.Links[0].Line = nil }},
		{"NaN demand", "nodes[1].demand", func(s *NetworkSpec) { s.Nodes[1].Demand = units.Flow(math.NaN()) }},
		{"link name twice", "links[1].name", func(s *NetworkSpec) { s.Links[1].Name = "1" }},
	}
	for _, c := range cases {
		s := good()
		c.spoil(&s)
		if _, err := NewNetwork(s); !errors.Is(err, units.ErrDomain) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v lacks %q", c.name, err, c.want)
		}
	}
	if _, err := (Network{}).Solve(); !errors.Is(err, units.ErrDomain) {
		t.Errorf("the zero network: %v", err)
	}
}

func BenchmarkNetwork1000(b *testing.B) {
	spec := pipeRandomNetwork(b, rand.New(rand.NewPCG(5, 5)), 850, 150)
	w, err := NewNetwork(spec)
	if err != nil {
		b.Fatal(err)
	}
	b.ResetTimer()
	for range b.N {
		if _, err := w.Solve(); err != nil {
			b.Fatal(err)
		}
	}
}
