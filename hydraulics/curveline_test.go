package hydraulics

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pondwright.example/units"
)

func TestCurveLineActsAsTheLineItCopies(t *testing.T) {
	line := pipeHarvestLine(t)
	copied, err := NewCurveLine(line.Head)
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []float64{-0.1, -1e-4, 1e-5, 0.02, 0.3} {
		h := line.Head(units.Flow(q))
		if copied.Head(units.Flow(q)) != h {
			t.Errorf("head at %g differs", q)
		}
		if back := float64(copied.Flow(h)); math.Abs(back/q-1) > 1e-9 {
			t.Errorf("flow %g comes back as %g", q, back)
		}
	}
	// In a network the copy must give the flows of the original.
	high, low := 6*units.Metre, 0*units.Metre
	flow := func(a, b Line) float64 {
		w, err := NewNetwork(NetworkSpec{
			Nodes: []NetworkNode{{Name: "top", Level: &high}, {Name: "mid", Demand: 0.01}, {Name: "end", Level: &low}},
			Links: []NetworkLink{{Name: "a", From: "top", To: "mid", Line: a}, {Name: "b", From: "mid", To: "end", Line: b}},
		})
		if err != nil {
			t.Fatal(err)
		}
		s, err := w.Solve()
		if err != nil {
			t.Fatal(err)
		}
		return float64(s.Links[0].Flow)
	}
	plain, err := Pipe{Bore: 0.15, Length: 40, Roughness: 1e-4, LossSum: 1}.Line(line.Spec().Fluid)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := flow(plain, copied), flow(plain, line); math.Abs(got/want-1) > 1e-9 {
		t.Errorf("network with the copy passes %g, with the line %g", got, want)
	}
}

func TestCurveLineRefusesPumpsTheWrongWayRound(t *testing.T) {
	pump := func(q units.Flow) units.Length { return 8 - units.Length(900*float64(q)*math.Abs(float64(q))) }
	if _, err := NewCurveLine(pump); !errors.Is(err, units.ErrDomain) || !strings.Contains(err.Error(), "turn the sign") {
		t.Errorf("falling head: %v", err)
	}
	turned, err := NewCurveLine(func(q units.Flow) units.Length { return -pump(q) })
	if err != nil {
		t.Fatal(err)
	}
	if q := float64(turned.Flow(-4)); math.Abs(q-math.Sqrt(4.0/900)) > 1e-12 {
		t.Errorf("the pump gives 4 m at %g m3/s", q)
	}
	for _, bad := range []func(units.Flow) units.Length{nil, func(units.Flow) units.Length { return units.Length(math.NaN()) }} {
		if _, err := NewCurveLine(bad); !errors.Is(err, units.ErrDomain) {
			t.Errorf("bad curve: %v", err)
		}
	}
	if (CurveLine{}).Head(1) != 0 {
		t.Error("the zero curve resists")
	}
}
