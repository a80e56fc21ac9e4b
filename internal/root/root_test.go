package root

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pondwright.example/units"
)

var cases = map[string]func(float64) float64{
	"x3-2x-5":    func(x float64) float64 { return x*x*x - 2*x - 5 },
	"cos-x":      func(x float64) float64 { return math.Cos(x) - x },
	"exp(-x)-x":  func(x float64) float64 { return math.Exp(-x) - x },
	"sin-x/2":    func(x float64) float64 { return math.Sin(x) - x/2 },
	"x*exp(x)-1": func(x float64) float64 { return x*math.Exp(x) - 1 },
	"x^9":        func(x float64) float64 { return math.Pow(x, 9) },
	"1/x-1/2":    func(x float64) float64 { return 1/x - 0.5 },
}

// The table is read here without internal/check, so that the finder has no
// dependency on a package that may come to use it.
func TestFindAgainstIndependentRoots(t *testing.T) {
	file, err := os.Open("testdata/roots.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, r := range rows[1:] {
		f := cases[r[1]]
		if f == nil {
			t.Fatalf("no function for case %q", r[1])
		}
		want := number(r[4])
		for _, swap := range []bool{false, true} {
			lo, hi := number(r[2]), number(r[3])
			if swap {
				lo, hi = hi, lo
			}
			n := 0
			got, err := Find(func(x float64) float64 { n++; return f(x) }, lo, hi, 0)
			if err != nil {
				t.Errorf("%s: %v", r[1], err)
				continue
			}
			tol := 0.0
			if s, abs := strings.CutPrefix(r[5], "abs "); abs {
				tol = number(s)
			} else {
				tol = number(s) * math.Abs(want)
			}
			if !(math.Abs(got-want) <= tol) {
				t.Errorf("%s: got %.17g, want %.17g within %g", r[1], got, want, tol)
			}
			if n > 40 && r[1] != "x^9" {
				t.Errorf("%s: %d evaluations", r[1], n)
			}
		}
	}
}

func TestFindEndsAndTolerance(t *testing.T) {
	line := func(x float64) float64 { return x - 1 }
	if x, err := Find(line, 1, 5, 0); x != 1 || err != nil {
		t.Errorf("root at the first end: %v, %v", x, err)
	}
	if x, err := Find(line, -5, 1, 0); x != 1 || err != nil {
		t.Errorf("root at the second end: %v, %v", x, err)
	}
	step := func(x float64) float64 { // a jump, not a zero
		if x < math.Pi {
			return -1
		}
		return 3
	}
	x, err := Find(step, -10, 1e6, 1e-6)
	if err != nil || math.Abs(x-math.Pi) > 1e-6 {
		t.Errorf("jump at pi: %v, %v", x, err)
	}
	x, err = Find(step, -10, 1e6, 0)
	if err != nil || math.Abs(x-math.Pi) > 4*epsilon*math.Pi {
		t.Errorf("jump at pi to full precision: %.17g, %v", x, err)
	}
	inf := func(x float64) float64 { return 1 / (x - 2) } // pole: a sign change through infinity
	if x, err = Find(inf, 0, 3, 1e-9); err != nil || math.Abs(x-2) > 1e-9 {
		t.Errorf("pole at 2: %v, %v", x, err)
	}
}

func TestFindErrors(t *testing.T) {
	square := func(x float64) float64 { return x*x + 1 }
	var e *Error
	_, err := Find(square, -2, 3, 0)
	if !errors.Is(err, units.ErrNoSolution) || !errors.As(err, &e) || e.Lo != -2 || e.Hi != 3 || e.FLo != 5 || e.FHi != 10 {
		t.Errorf("no sign change: %v", err)
	}
	for _, bad := range [][3]float64{{math.NaN(), 1, 0}, {0, math.Inf(1), 0}, {0, 1, -1}, {0, 1, math.NaN()}} {
		if x, err := Find(square, bad[0], bad[1], bad[2]); !errors.Is(err, units.ErrDomain) || !math.IsNaN(x) {
			t.Errorf("%v: %v, %v", bad, x, err)
		}
	}
	hole := func(x float64) float64 {
		if x > 0.4 && x < 0.9 {
			return math.NaN()
		}
		return x - 0.5
	}
	if _, err = Find(hole, 0, 1, 0); !errors.Is(err, units.ErrDomain) || !errors.As(err, &e) || e.Lo != 0 || e.Hi != 1 {
		t.Errorf("NaN inside: %v", err)
	}
}

func TestExpand(t *testing.T) {
	f := func(x float64) float64 { return x - 100 }
	a, b, fa, fb, err := Expand(f, 0, 1, 0, 1e6)
	if err != nil || !(a <= 100 && 100 <= b) || fa != f(a) || fb != f(b) {
		t.Errorf("up: %v %v %v %v %v", a, b, fa, fb, err)
	}
	a, b, _, _, err = Expand(func(x float64) float64 { return x + 37 }, 1, 0, -1e3, 2)
	if err != nil || !(a <= -37 && -37 <= b) {
		t.Errorf("down: %v %v %v", a, b, err)
	}
	_, _, _, _, err = Expand(f, 0, 1, -5, 99)
	var e *Error
	if !errors.Is(err, units.ErrNoSolution) || !errors.As(err, &e) || e.Lo != -5 || e.Hi != 99 {
		t.Errorf("limits: %v", err)
	}
	if _, _, _, _, err = Expand(f, 0, 1, 0.5, 9); !errors.Is(err, units.ErrDomain) {
		t.Errorf("outside limits: %v", err)
	}
	if _, _, _, _, err = Expand(func(float64) float64 { return math.NaN() }, 0, 1, 0, 9); !errors.Is(err, units.ErrDomain) {
		t.Errorf("NaN: %v", err)
	}
}

func TestFindAllocatesNothing(t *testing.T) {
	k := 0.25
	if n := testing.AllocsPerRun(100, func() {
		if _, err := Find(func(x float64) float64 { return math.Cos(x) - k*x }, 0, 2, 0); err != nil {
			t.Error(err)
		}
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// Whatever the bracket and the slope, Find ends with a root or an error.
func FuzzFind(f *testing.F) {
	f.Add(0.0, 1.0, 0.3, 3.0)
	f.Add(-1e300, 1e300, 1e-300, 9.0)
	f.Fuzz(func(t *testing.T, a, b, r, p float64) {
		g := func(x float64) float64 { return math.Copysign(math.Pow(math.Abs(x-r), math.Abs(p)), x-r) }
		x, err := Find(g, a, b, 0)
		if err == nil && math.IsNaN(x) {
			t.Errorf("NaN without an error")
		}
		if err == nil && !(x >= math.Min(a, b) && x <= math.Max(a, b)) {
			t.Errorf("%v outside [%v, %v]", x, a, b)
		}
	})
}

func BenchmarkFind(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		k := 0.25 + 1e-6*float64(i%1000)
		if _, err := Find(func(x float64) float64 { return math.Cos(x) - k*x }, 0, 2, 0); err != nil {
			b.Fatal(err)
		}
	}
}
