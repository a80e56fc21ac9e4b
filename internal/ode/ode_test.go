package ode

import (
	"errors"
	"math"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// problem is an initial value problem whose first component is asked for.
type problem struct {
	f      Func
	y0     []float64
	t0, t1 float64
	rel    float64
	abs    float64
}

var problems = map[string]problem{
	"arenstorf": {arenstorf, []float64{0.994, 0, 0, -2.00158510637908252}, 0, 17.0652165601579625588917206249, 1e-11, 1e-11},
	"logistic":  {func(_ float64, y, d []float64) { d[0] = y[0] * (1 - y[0]) }, []float64{0.1}, 0, 5, 1e-11, 1e-12},
	"detest A4": {func(_ float64, y, d []float64) { d[0] = y[0] / 4 * (1 - y[0]/20) }, []float64{1}, 0, 20, 1e-11, 1e-12},
	"detest A2": {func(_ float64, y, d []float64) { d[0] = -y[0] * y[0] * y[0] / 2 }, []float64{1}, 0, 20, 1e-11, 1e-12},
	"detest A3": {func(t float64, y, d []float64) { d[0] = y[0] * math.Cos(t) }, []float64{1}, 0, 20, 1e-11, 1e-12},
	"backwards": {func(t float64, y, d []float64) { d[0] = y[0] * math.Cos(t) }, []float64{math.Exp(math.Sin(20))}, 20, 0, 1e-11, 1e-12},
	"robertson": {func(_ float64, y, d []float64) {
		d[0] = -.04*y[0] + 1e4*y[1]*y[2]
		d[2] = 3e7 * y[1] * y[1]
		d[1] = -d[0] - d[2]
	}, []float64{1, 0, 0}, 0, 40, 1e-9, 1e-13},
}

// arenstorf is the restricted three-body problem with Earth and Moon, the state
// being x, y and their rates in the turning frame.
func arenstorf(_ float64, y, d []float64) {
	const mu, nu = 0.012277471, 1 - 0.012277471
	p := math.Pow((y[0]+mu)*(y[0]+mu)+y[1]*y[1], 1.5)
	q := math.Pow((y[0]-nu)*(y[0]-nu)+y[1]*y[1], 1.5)
	d[0], d[1] = y[2], y[3]
	d[2] = y[0] + 2*y[3] - nu*(y[0]+mu)/p - mu*(y[0]-nu)/q
	d[3] = y[1] - 2*y[2] - nu*y[1]/p - mu*y[1]/q
}

func TestAgainstPublishedAndClosedForms(t *testing.T) {
	check.Run(t, "testdata/ode.csv", map[string]func(check.Row) (float64, error){
		"Solver.Step": func(r check.Row) (float64, error) {
			p := problems[r.Text("case")]
			s, err := New(len(p.y0), 0, Options{RelTol: p.rel, AbsTol: []float64{p.abs}})
			if err != nil {
				return 0, err
			}
			s.Start(p.f, p.t0, p.y0, 0)
			for s.T() != p.t1 {
				if err := s.Step(p.t1); err != nil {
					return math.NaN(), err
				}
			}
			return s.Y()[0], nil
		},
		"Solver.Advance": func(r check.Row) (float64, error) { return events[r.Text("case")]() },
	})
}

var level = Event{G: func(_ float64, y []float64) float64 { return y[0] }, Direction: -1}

var events = map[string]func() (float64, error){
	"torricelli": func() (float64, error) {
		s, _ := New(1, 0, Options{RelTol: 1e-12, AbsTol: []float64{1e-22}})
		s.Start(Func(func(_ float64, y, d []float64) { d[0] = -0.001 * math.Sqrt(math.Max(y[0], 0)) }), 0, []float64{1.5}, 0)
		_, err := s.Advance(1e4, []Event{{G: func(_ float64, y []float64) float64 { return y[0] - 1e-18 }, Direction: -1}})
		return s.T(), err
	},
	"ball": func() (float64, error) { return bounce(1) },
	"ball bounce 4": func() (float64, error) {
		return bounce(4)
	},
	"cosine": func() (float64, error) {
		s, _ := New(2, 0, Options{RelTol: 1e-11, AbsTol: []float64{1e-12}})
		s.Start(Func(func(_ float64, y, d []float64) { d[0], d[1] = y[1], -y[0] }), 0, []float64{1, 0}, 0)
		i, err := s.Advance(100, []Event{{G: level.G, Direction: +1}})
		if i != 0 {
			return math.NaN(), err
		}
		return s.T(), err
	},
}

// bounce returns the time of the n-th impact of a ball dropped from 10 m that
// loses nothing.
func bounce(n int) (float64, error) {
	s, err := New(2, 0, Options{})
	if err != nil {
		return 0, err
	}
	s.Start(Func(func(_ float64, y, d []float64) { d[0], d[1] = y[1], -9.80665 }), 0, []float64{10, 0}, 0)
	for range n {
		i, err := s.Advance(100, []Event{level})
		if err != nil || i != 0 {
			return math.NaN(), err
		}
		s.Y()[1] = -s.Y()[1]
		s.Restart()
	}
	return s.T(), nil
}

// The tableau meets the order conditions it must (Hairer, Norsett and Wanner
// (1993), II.1): sums of b c^k equal 1/(k+1), every row sums to its c, and the
// error weights cancel up to order four.
func TestOrderConditions(t *testing.T) {
	near := func(what string, got, want float64) {
		if math.Abs(got-want) > 4e-15 {
			t.Errorf("%s = %.17g, want %.17g", what, got, want)
		}
	}
	near("row 2", a21, c2)
	near("row 3", a31+a32, c3)
	near("row 4", a41+a42+a43, c4)
	near("row 5", a51+a52+a53+a54, c5)
	near("row 6", a61+a62+a63+a64+a65, 1)
	c := []float64{0, c2, c3, c4, c5, 1, 1}
	b := []float64{b1, 0, b3, b4, b5, b6, 0}
	e := []float64{e1, 0, e3, e4, e5, e6, e7}
	for k := range 5 {
		sum, sumErr := 0.0, 0.0
		for i := range c {
			sum += b[i] * math.Pow(c[i], float64(k))
			sumErr += e[i] * math.Pow(c[i], float64(k))
		}
		near("sum b c^k", sum, 1/float64(k+1))
		if k < 4 {
			near("sum e c^k", sumErr, 0)
		} else if math.Abs(sumErr) < 1e-4 {
			t.Error("the two members of the pair do not differ in order five")
		}
	}
	near("sum d", d1+d3+d4+d5+d6+d7, 0)
}

// Halving the step divides the error at the end by 2^5 and the error of the
// dense output in the middle of the steps by 2^5 locally (order four).
func TestOrderOfConvergence(t *testing.T) {
	run := func(h float64) (end, middle float64) {
		s, _ := New(1, 0, Options{RelTol: 0.1, AbsTol: []float64{1e9}, MaxStep: h})
		s.Start(Func(func(t float64, y, d []float64) { d[0] = y[0] * math.Cos(t) }), 0, []float64{1}, h)
		var v [1]float64
		for s.T() < 4 {
			if err := s.Step(4); err != nil {
				t.Fatal(err)
			}
			at := (s.Previous() + s.T()) / 2
			s.At(at, v[:])
			middle = math.Max(middle, math.Abs(v[0]-math.Exp(math.Sin(at))))
		}
		return math.Abs(s.Y()[0] - math.Exp(math.Sin(4))), middle
	}
	e1, m1 := run(0.125)
	e2, m2 := run(0.0625)
	if r := math.Log2(e1 / e2); r < 4.6 || r > 6 {
		t.Errorf("order of the step %.2f", r)
	}
	if r := math.Log2(m1 / m2); r < 3.7 {
		t.Errorf("order of the dense output %.2f", r)
	}
}

// Dense output reproduces a quartic exactly and meets the step ends.
func TestDenseOutput(t *testing.T) {
	s, _ := New(1, 1, Options{RelTol: 1e-3, AbsTol: []float64{1}})
	s.Start(Func(func(t float64, _, d []float64) { d[0], d[1] = 4*t*t*t-2*t, 1 }), 1, []float64{0, 7}, 1)
	if err := s.Step(3); err != nil {
		t.Fatal(err)
	}
	var v [2]float64
	for k := 0; k <= 10; k++ {
		at := s.Previous() + (s.T()-s.Previous())*float64(k)/10
		s.At(at, v[:])
		if want := at*at*at*at - at*at; math.Abs(v[0]-want) > 1e-12*(1+want) || math.Abs(v[1]-6-at) > 1e-14*at {
			t.Errorf("at %v: %v, want %v", at, v, want)
		}
		length, c := s.Coefficients(0)
		x := (at - s.Previous()) / length
		if got := c[0] + x*(c[1]+(1-x)*(c[2]+x*(c[3]+(1-x)*c[4]))); math.Abs(got-v[0]) > 1e-13*(1+v[0]) {
			t.Errorf("coefficients at %v: %v, want %v", at, got, v[0])
		}
	}
}

// A step never passes the end it was given, and a jump of the law there is met
// exactly: the integral of a staircase is exact.
func TestStepEnds(t *testing.T) {
	s, _ := New(1, 0, Options{})
	rate := 1.0
	s.Start(Func(func(_ float64, _, d []float64) { d[0] = rate }), 0, []float64{0}, 0)
	for _, end := range []float64{0.3, 0.7, 10, 10.001} {
		for s.T() != end {
			if err := s.Step(end); err != nil {
				t.Fatal(err)
			}
			if s.T() > end {
				t.Fatalf("passed %v: %v", end, s.T())
			}
		}
		rate *= -3
		s.Restart()
	}
	if want := 0.3 - 3*0.4 + 9*9.3 - 27*0.001; math.Abs(s.Y()[0]-want) > 1e-12 {
		t.Errorf("got %v, want %v", s.Y()[0], want)
	}
}

// A conserved sum of state and quadratures stays conserved at step ends, at
// events and between.
func TestQuadraturesConserve(t *testing.T) {
	s, _ := New(1, 2, Options{RelTol: 1e-4})
	s.Start(Func(func(t float64, y, d []float64) {
		in, out := 2+math.Sin(t), 0.7*y[0]
		d[0], d[1], d[2] = in-out, in, out
	}), 0, []float64{10, 0, 0}, 0)
	closes := func(v []float64) {
		if e := v[0] - 10 - v[1] + v[2]; math.Abs(e) > 1e-12 {
			t.Errorf("balance off by %v", e)
		}
	}
	var v [3]float64
	for s.T() < 30 {
		i, err := s.Advance(30, []Event{{G: func(_ float64, y []float64) float64 { return y[0] - 3 }}})
		if err != nil {
			t.Fatal(err)
		}
		closes(s.Y())
		s.At((s.T()+s.Previous())/2, v[:])
		closes(v[:])
		if i == 0 && math.Abs(s.Y()[0]-3) > 1e-13 {
			t.Errorf("event at %v", s.Y()[0])
		}
	}
}

// Retaking a step at an event gains the accuracy of the step: the state at a
// time found on the dense output is far closer to the closed form.
func TestRetakeAndShift(t *testing.T) {
	s, _ := New(1, 1, Options{RelTol: 1e-6})
	f := Func(func(t float64, y, d []float64) { d[0], d[1] = y[0]*math.Cos(t), y[0]*math.Cos(t) })
	worstDense, worstRetaken := 0.0, 0.0
	s.Start(f, 0, []float64{1, 0}, 0)
	for s.T() < 10 {
		if err := s.Step(10); err != nil {
			t.Fatal(err)
		}
		var v [1]float64
		at := s.Previous() + 0.8*(s.T()-s.Previous())
		s.At(at, v[:])
		worstDense = math.Max(worstDense, math.Abs(v[0]-math.Exp(math.Sin(at))))
		s.Retake(at)
		if s.T() != at || s.Y()[0]-1-s.Y()[1] > 1e-14 {
			t.Fatalf("retaken to %v, %v", s.T(), s.Y())
		}
		worstRetaken = math.Max(worstRetaken, math.Abs(s.Y()[0]-math.Exp(math.Sin(at))))
		before := s.Y()[0]
		s.Shift(1e-9)
		if want := before + 1e-9*before*math.Cos(at); s.T() != at+1e-9 || math.Abs(s.Y()[0]-want) > 1e-15*want {
			t.Fatalf("shifted to %v, %v", s.T(), s.Y())
		}
	}
	if !(worstRetaken < worstDense) {
		t.Errorf("retaken %g, dense %g", worstRetaken, worstDense)
	}
	s.Continue(0, []float64{1, 0}, 0.1)
	if tries := s.Tries(); s.T() != 0 || s.Step(0.5) != nil || s.Tries() != tries+1 {
		t.Errorf("continued at %v with %d tries after %d", s.T(), s.Tries(), tries)
	}
}

func TestErrors(t *testing.T) {
	for _, c := range []struct {
		n, q int
		o    Options
	}{
		{0, 0, Options{}}, {1, -1, Options{}}, {1, 0, Options{RelTol: math.NaN()}}, {1, 0, Options{RelTol: -1}},
		{2, 0, Options{AbsTol: []float64{1, 2, 3}}}, {1, 0, Options{AbsTol: []float64{0}}}, {1, 0, Options{MaxStep: -1}},
	} {
		if _, err := New(c.n, c.q, c.o); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%+v: %v", c, err)
		}
	}
	var e *Error
	s, _ := New(1, 0, Options{})
	s.Start(Func(func(_ float64, y, d []float64) { d[0] = y[0] * y[0] }), 0, []float64{1}, 0)
	if _, err := s.Advance(2, nil); !errors.Is(err, units.ErrNoConvergence) || !errors.As(err, &e) || math.Abs(e.T-1) > 1e-6 {
		t.Errorf("blow-up at t = 1: %v", err)
	}
	s.Start(Func(func(t float64, _, d []float64) { d[0] = math.Sqrt(1 - t) }), 0, []float64{0}, 0)
	if _, err := s.Advance(2, nil); !errors.As(err, &e) || math.Abs(e.T-1) > 1e-3 {
		t.Errorf("not a number after t = 1: %v", err)
	}
	s, _ = New(1, 0, Options{MaxSteps: 10})
	s.Start(Func(func(t float64, _, d []float64) { d[0] = math.Cos(100 * t) }), 0, []float64{0}, 0)
	if _, err := s.Advance(100, nil); !errors.Is(err, units.ErrNoConvergence) {
		t.Errorf("too many steps: %v", err)
	}
}

func TestAllocatesNothing(t *testing.T) {
	s, _ := New(2, 1, Options{})
	f := Func(func(_ float64, y, d []float64) { d[0], d[1], d[2] = y[1], -y[0], y[0] })
	y0 := []float64{1, 0, 0}
	ev := []Event{level, {G: func(_ float64, y []float64) float64 { return y[1] }}}
	sys := System(f)
	if n := testing.AllocsPerRun(20, func() {
		s.Start(sys, 0, y0, 0)
		for s.T() < 20 {
			if _, err := s.Advance(20, ev); err != nil {
				t.Error(err)
			}
		}
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func TestInverseFifthRoot(t *testing.T) {
	for x := 1e-10; x < 1e5; x *= 1.7 {
		if got, want := inverseFifthRoot(x), math.Pow(x, -0.2); math.Abs(got/want-1) > 1e-3 {
			t.Errorf("x = %g: %g, want %g", x, got, want)
		}
	}
}

func BenchmarkStep(b *testing.B) {
	s, _ := New(1, 1, Options{})
	sys := System(Func(func(t float64, y, d []float64) { d[0], d[1] = -0.1*y[0], y[0] }))
	y0 := []float64{1, 0}
	s.Start(sys, 0, y0, 0)
	for b.Loop() {
		if err := s.Step(math.Inf(1)); err != nil || s.T() > 50 {
			s.Start(sys, 0, y0, 0.1)
		}
	}
}

// A crossing located to a tolerance lies that near to the exact one, ln 2 of a
// decay to the half, and on the far side of it.
func TestLocateToATolerance(t *testing.T) {
	s, err := New(1, 0, Options{RelTol: 1e-12})
	if err != nil {
		t.Fatal(err)
	}
	s.Start(Func(func(_ float64, y, d []float64) { d[0] = -y[0] }), 0, []float64{1}, 0)
	half := func(_ float64, y []float64) float64 { return y[0] - 0.5 }
	for s.Y()[0] > 0.5 {
		if err := s.Step(10); err != nil {
			t.Fatal(err)
		}
	}
	a, b := s.Previous(), s.T()
	y := make([]float64, 1)
	s.At(a, y)
	ga, gb := half(a, y), half(b, s.Y())
	const dense = 1e-10 // of the interpolant, an order below the step
	for _, tol := range []float64{0, 1e-9, 1e-6, 1e-3, 1} {
		x, err := s.Locate(half, a, b, ga, gb, tol)
		if err != nil {
			t.Fatal(err)
		}
		s.At(x, y)
		if d := x - math.Ln2; d > tol+dense || d < -dense || x > b || tol > 0 && half(x, y) > 0 {
			t.Errorf("to %g: %g past ln 2, value %g", tol, d, half(x, y))
		}
	}
}
