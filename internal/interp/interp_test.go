package interp

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// The Fritsch and Carlson (1980) RPN 14 data (from memory), a pump curve and a
// table with turns and a flat.
var sets = map[string][2][]float64{
	"rpn14": {{7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20},
		{0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.943740, 0.998636, 0.999919, 0.999994}},
	"pump curve": {{0, 100, 200, 300, 350}, {9.0, 8.2, 6.6, 4.2, 2.7}},
	"turns":      {{0, 1, 2.5, 3, 4, 6}, {1, 3, 2, 2, 5, 4.5}},
}

func monotone(r check.Row) Monotone {
	s := sets[r.Text("set")]
	m, err := NewMonotone(s[0], s[1])
	if err != nil {
		panic(err)
	}
	return m
}

func linear(r check.Row) Linear {
	s := sets[r.Text("set")]
	l, err := NewLinear(s[0], s[1])
	if err != nil {
		panic(err)
	}
	return l
}

func TestAgainstIndependentCode(t *testing.T) {
	check.Run(t, "testdata/interp.csv", map[string]func(check.Row) (float64, error){
		"Monotone.Value":    func(r check.Row) (float64, error) { return monotone(r).At(r.Float("x")) },
		"Monotone.Slope":    func(r check.Row) (float64, error) { return monotone(r).Slope(r.Float("x")), nil },
		"Monotone.Integral": func(r check.Row) (float64, error) { return monotone(r).Integral(r.Float("x"), r.Float("to_x")) },
		"Monotone.Inverse":  func(r check.Row) (float64, error) { return monotone(r).Inverse(r.Float("x")) },
		"Linear.Value":      func(r check.Row) (float64, error) { return linear(r).At(r.Float("x")) },
		"Linear.Slope":      func(r check.Row) (float64, error) { return linear(r).Slope(r.Float("x")), nil },
		"Linear.Integral":   func(r check.Row) (float64, error) { return linear(r).Integral(r.Float("x"), r.Float("to_x")) },
	})
}

// No table is extrapolated, and the hot path stays finite whatever it is asked.
func TestOutsideIsRefused(t *testing.T) {
	s := sets["pump curve"]
	l, _ := NewLinear(s[0], s[1])
	m, _ := NewMonotone(s[0], s[1])
	for _, x := range []float64{-1, 350.0001, math.NaN(), math.Inf(1), math.Inf(-1)} {
		if v, err := l.At(x); !errors.Is(err, units.ErrDomain) || !math.IsNaN(v) {
			t.Errorf("Linear.At(%v) = %v, %v", x, v, err)
		}
		if v, err := m.At(x); !errors.Is(err, units.ErrDomain) || !math.IsNaN(v) {
			t.Errorf("Monotone.At(%v) = %v, %v", x, v, err)
		}
		if _, err := m.Integral(0, x); !errors.Is(err, units.ErrDomain) {
			t.Errorf("Monotone.Integral to %v: %v", x, err)
		}
		if _, err := l.Integral(x, 1); !errors.Is(err, units.ErrDomain) {
			t.Errorf("Linear.Integral from %v: %v", x, err)
		}
		for _, v := range []float64{l.Value(x), m.Value(x), l.Slope(x), m.Slope(x)} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("hot path at %v gives %v", x, v)
			}
		}
	}
	if _, err := m.Inverse(9.1); !errors.Is(err, units.ErrDomain) {
		t.Errorf("Inverse above the table: %v", err)
	}
	w, _ := NewMonotone(sets["turns"][0], sets["turns"][1])
	if _, err := w.Inverse(2.5); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("Inverse of a table that turns: %v", err)
	}
}

func TestBadTables(t *testing.T) {
	for _, c := range []struct {
		name string
		x, y []float64
	}{
		{"one point", []float64{1}, []float64{2}},
		{"empty", nil, nil},
		{"lengths", []float64{1, 2, 3}, []float64{1, 2}},
		{"not rising", []float64{1, 3, 2}, []float64{1, 2, 3}},
		{"twice", []float64{1, 1, 2}, []float64{1, 2, 3}},
		{"NaN abscissa", []float64{1, math.NaN(), 2}, []float64{1, 2, 3}},
		{"infinite ordinate", []float64{1, 2, 3}, []float64{1, math.Inf(1), 3}},
	} {
		if _, err := NewLinear(c.x, c.y); !errors.Is(err, units.ErrDomain) {
			t.Errorf("linear, %s: %v", c.name, err)
		}
		if _, err := NewMonotone(c.x, c.y); !errors.Is(err, units.ErrDomain) {
			t.Errorf("monotone, %s: %v", c.name, err)
		}
	}
}

// Rising data give a rising interpolant; the inverse inverts; two points give
// the line; the slope is the derivative and the table is reproduced.
func TestMonotoneProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		n := 2 + rng.IntN(8)
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], y[i] = rng.Float64(), math.Exp(6*rng.NormFloat64())
			if i > 0 {
				x[i] += x[i-1] + 1e-3
				y[i] += y[i-1]
			}
		}
		m, err := NewMonotone(x, y)
		if err != nil {
			t.Fatal(err)
		}
		last := math.Inf(-1)
		for k := 0; k <= 200; k++ {
			q := x[0] + (x[n-1]-x[0])*float64(k)/200
			v := m.Value(q)
			if v < last-1e-12*math.Abs(last) {
				t.Fatalf("falls at %v: %v after %v, table %v %v", q, v, last, x, y)
			}
			last = v
			back, err := m.Inverse(v)
			if err != nil || math.Abs(m.Value(back)-v) > 1e-9*math.Abs(v) {
				t.Fatalf("inverse of %v: %v, %v", v, back, err)
			}
		}
		for i := range x {
			if m.Value(x[i]) != y[i] {
				t.Fatalf("point %d: %v, want %v", i, m.Value(x[i]), y[i])
			}
		}
		if a, _ := m.Integral(x[0], x[n-1]); true {
			b, _ := m.Integral(x[n-1], x[0])
			if a != -b {
				t.Fatalf("integral backwards %v, forwards %v", b, a)
			}
		}
	}
	two, _ := NewMonotone([]float64{1, 3}, []float64{2, 8})
	if two.Value(2) != 5 || two.Slope(1.5) != 3 {
		t.Errorf("two points: %v, slope %v", two.Value(2), two.Slope(1.5))
	}
}

func TestValueAllocatesNothing(t *testing.T) {
	s := sets["rpn14"]
	m, _ := NewMonotone(s[0], s[1])
	l, _ := NewLinear(s[0], s[1])
	var sum float64
	if n := testing.AllocsPerRun(100, func() { sum += m.Value(9) + l.Value(9) + m.Slope(9) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkMonotoneValue(b *testing.B) {
	s := sets["rpn14"]
	m, _ := NewMonotone(s[0], s[1])
	x, sum := 8.0, 0.0
	for b.Loop() {
		if x += 0.37; x > 19 {
			x -= 11
		}
		sum += m.Value(x)
	}
}
