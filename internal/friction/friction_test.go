package friction

import (
	"math"
	"math/rand/v2"
	"testing"

	"pondwright.example/internal/check"
)

func formula(f func(re, rel float64) float64) func(check.Row) (float64, error) {
	return func(r check.Row) (float64, error) {
		return f(r.Float("reynolds"), r.Float("relative_roughness")), nil
	}
}

func TestTables(t *testing.T) {
	check.Run(t, "testdata/colebrook.csv", map[string]func(check.Row) (float64, error){"Colebrook": func(r check.Row) (float64, error) {
		f, want := Colebrook(r.Float("reynolds"), r.Float("relative_roughness")), r.Float("expected")
		if ulp := math.Nextafter(want, math.Inf(1)) - want; r.Float("relative_roughness") <= fastRelMax && !(math.Abs(f-want) <= 4*ulp) {
			t.Errorf("%g, %g: %g units in the last place off", r.Float("reynolds"), r.Float("relative_roughness"), (f-want)/ulp)
		}
		return f, nil
	}})
	check.Run(t, "testdata/explicit.csv", map[string]func(check.Row) (float64, error){
		"SwameeJain":       formula(SwameeJain),
		"Haaland":          formula(Haaland),
		"ZigrangSylvester": formula(ZigrangSylvester),
		"Serghides":        formula(Serghides),
		"Churchill":        formula(Churchill),
		"Laminar":          func(r check.Row) (float64, error) { return Laminar(r.Float("reynolds")), nil },
	})
	check.Coverage(t, ".")
}

// sample calls f with pairs spread evenly in the logarithms over a box.
func sample(n int, reMin, reMax, relMin, relMax float64, f func(re, rel float64)) {
	rnd := rand.New(rand.NewPCG(4, 1939))
	between := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, rnd.Float64()) }
	for range n {
		f(between(reMin, reMax), between(relMin, relMax))
	}
}

// The two paths share no logarithm and no correction formula, so that their
// agreement speaks for both.
func TestColebrookPathsAgree(t *testing.T) {
	sample(200000, fastReMin, fastReMax, 1e-9, fastRelMax, func(re, rel float64) {
		got, want := Colebrook(re, rel), colebrookAnywhere(re, rel)
		if !(math.Abs(got-want) <= 2e-15*want) {
			t.Fatalf("Colebrook(%g, %g) = %.17g, by Newton's method %.17g", re, rel, got, want)
		}
	})
}

func TestColebrookEdges(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range [][2]float64{{0, 0}, {-1, 0}, {1e5, -1e-9}, {1e5, 3.7}, {math.NaN(), 0}, {1e5, math.NaN()}, {inf, 0}, {1e-200, 0}} {
		if f := Colebrook(c[0], c[1]); !math.IsNaN(f) {
			t.Errorf("Colebrook(%g, %g) = %g, want NaN", c[0], c[1], f)
		}
	}
	// Fully rough flow: the Nikuradse limit 1/√f = 2 log10(3.7/rel).
	want := 0.25 / math.Pow(math.Log10(3.7/0.01), 2)
	if got := Colebrook(inf, 0.01); math.Abs(got-want) > 1e-15*want {
		t.Errorf("fully rough: %g, want %g", got, want)
	}
}

func TestColebrookFallsWithReynoldsAndRisesWithRoughness(t *testing.T) {
	sample(20000, 1e3, 1e9, 1e-7, 0.1, func(re, rel float64) {
		f := Colebrook(re, rel)
		if g := Colebrook(re*1.001, rel); !(g <= f) {
			t.Fatalf("f rises from %g to %g at re %g, rel %g", f, g, re, rel)
		}
		if g := Colebrook(re, rel*1.001); !(g >= f) {
			t.Fatalf("f falls from %g to %g at re %g, rel %g", f, g, re, rel)
		}
	})
}

func TestExplicitDeviation(t *testing.T) {
	forms := []struct {
		name                         string
		f                            func(re, rel float64) float64
		reMin, reMax, relMin, relMax float64
		stated                       float64 // as in the doc comments
	}{
		{"SwameeJain", SwameeJain, 5e3, 1e8, 1e-6, 1e-2, 0.029},
		{"Haaland", Haaland, 4e3, 1e8, 1e-6, 5e-2, 0.015},
		{"ZigrangSylvester", ZigrangSylvester, 4e3, 1e8, 4e-5, 5e-2, 0.0011},
		{"Serghides", Serghides, 4e3, 1e8, 1e-8, 5e-2, 3.2e-5},
		{"Churchill", Churchill, 4e3, 1e8, 1e-6, 5e-2, 0.032},
	}
	for _, form := range forms {
		worst, atRe, atRel := 0.0, 0.0, 0.0
		see := func(re, rel float64) {
			if dev := math.Abs(form.f(re, rel)/Colebrook(re, rel) - 1); !(dev <= worst) {
				worst, atRe, atRel = dev, re, rel
			}
		}
		sample(100000, form.reMin, form.reMax, form.relMin, form.relMax, see)
		for i := range 401 { // the edges of the box, where the worst lies
			u := float64(i) / 400
			re, rel := form.reMin*math.Pow(form.reMax/form.reMin, u), form.relMin*math.Pow(form.relMax/form.relMin, u)
			see(form.reMin, rel)
			see(form.reMax, rel)
			see(re, form.relMin)
			see(re, form.relMax)
		}
		t.Logf("%s: at most %.3g from Colebrook, at re %.3g, rel %.3g", form.name, worst, atRe, atRel)
		if !(worst <= form.stated && worst > 0.9*form.stated) {
			t.Errorf("%s deviates by %.4g, its comment states %.4g", form.name, worst, form.stated)
		}
	}
}

func TestChurchillJoinsBothRegimes(t *testing.T) {
	for _, re := range []float64{1e-300, 1e-3, 1, 10, 1000} {
		if got, want := Churchill(re, 1e-3), Laminar(re); !(math.Abs(got/want-1) < 1e-4) {
			t.Errorf("Churchill(%g) = %g, laminar %g", re, got, want)
		}
	}
	if !math.IsNaN(Churchill(0, 0)) || !math.IsNaN(Churchill(math.NaN(), 0)) {
		t.Error("Churchill of no flow must be NaN")
	}
}

func TestNoAllocations(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() { sink += Colebrook(1e5, 1e-4) + Churchill(3e3, 1e-4) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
