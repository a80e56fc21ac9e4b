package oil

import (
	"fmt"
	"math"
	"testing"

	"pondwright.example/internal/check"
)

func TestTable(t *testing.T) {
	line := func(r check.Row) Line {
		return Fit(r.Float("t1_k"), r.Float("v1_mm2_s"), r.Float("t2_k"), r.Float("v2_mm2_s"))
	}
	check.Run(t, "testdata/oil.csv", map[string]func(check.Row) (float64, error){
		"Line.Viscosity":   func(r check.Row) (float64, error) { return line(r).Viscosity(r.Float("t_k")), nil },
		"Line.Temperature": func(r check.Row) (float64, error) { return line(r).Temperature(r.Float("t_k")), nil },
		"Index":            func(r check.Row) (float64, error) { return Index(r.Float("v1_mm2_s"), r.Float("v2_mm2_s")), nil },
		"Density":          func(r check.Row) (float64, error) { return Density(r.Float("rho15_kg_m3"), r.Float("t_k")), nil },
		"Barus":            func(r check.Row) (float64, error) { return Barus(r.Float("pressure_pa")), nil },
		"Grade": func(r check.Row) (float64, error) {
			mid, ok := Grade(int(r.Float("grade")))
			if !ok {
				return math.NaN(), fmt.Errorf("no grade %v", r.Float("grade"))
			}
			switch r.Text("quantity") {
			case "min":
				return mid * (1 - GradeTolerance), nil
			case "max":
				return mid * (1 + GradeTolerance), nil
			}
			return math.NaN(), fmt.Errorf("quantity %q", r.Text("quantity"))
		},
	})
	check.Coverage(t, ".")
}

// The quadratics of the reference oils must meet where one hands over to the
// next, as the table they stand for does.
func TestReferenceOilsJoin(t *testing.T) {
	for i := 1; i < len(referenceOils); i++ {
		p, r := referenceOils[i-1], referenceOils[i]
		y := r.from
		lp, lr := p.c+y*(p.b+y*p.a), r.c+y*(r.b+y*r.a)
		hp, hr := p.f+y*(p.e+y*p.d), r.f+y*(r.e+y*r.d)
		if math.Abs(lp/lr-1) > 5e-3 || math.Abs(hp/hr-1) > 5e-3 {
			t.Errorf("at %g mm²/s L jumps from %.2f to %.2f, H from %.2f to %.2f", y, lp, lr, hp, hr)
		}
	}
}

func TestIndexOfReferenceOils(t *testing.T) {
	for v := 2.5; v < 100; v += 0.7 {
		lo, hi := Index(1e4, v), Index(v*1.5, v)
		if !(lo < 0 && hi > 100) {
			t.Errorf("at %g mm²/s a very thick oil has index %g, a very even one %g", v, lo, hi)
		}
	}
}
