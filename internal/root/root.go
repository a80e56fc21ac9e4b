// Package root finds where a function of one variable crosses zero.
//
// Find keeps a bracket at every step, so it cannot wander off, and reports the
// last bracket when it fails. Expand looks for a bracket where only a starting
// interval is known. Neither allocates unless it fails.
package root

import (
	"fmt"
	"math"

	"pondwright.example/units"
)

// MaxIterations bounds the evaluations of one Find. Bisection alone needs about
// 1075 for the widest bracket of doubles and 60 for a usual one; Chandrupatla's
// method halves at least as often as bisection whenever it distrusts itself.
const MaxIterations = 400

// Error says why no root was found and between which arguments the search
// stood. errors.Is reports Kind.
type Error struct {
	Lo, Hi     float64 // last bracket, or the last interval tried by Expand
	FLo, FHi   float64 // values there
	Iterations int     // evaluations beyond the two ends
	Reason     string
	Kind       error // units.ErrDomain, ErrNoSolution or ErrNoConvergence
}

// Error gives the reason and the last bracket with its values.
func (e *Error) Error() string {
	return fmt.Sprintf("root: %s: %s; last bracket [%.17g, %.17g] with values %.6g and %.6g after %d evaluations",
		e.Kind, e.Reason, e.Lo, e.Hi, e.FLo, e.FHi, e.Iterations)
}

// Unwrap returns the kind, so that errors.Is(err, units.ErrNoSolution) works.
func (e *Error) Unwrap() error { return e.Kind }

// Find returns x between a and b with f(x) = 0 by Chandrupatla's hybrid of
// inverse quadratic interpolation and bisection. The ends may come in either
// order; f must have opposite signs there, or be zero at one of them. The
// result is within xtol + 4 ulp of a sign change; xtol = 0 asks for full
// precision. Of the two ends of the final bracket the one with the smaller
// |f| is returned.
//
// Errors (*Error): ErrDomain for an end or a value that is not a number or a
// negative xtol, ErrNoSolution when there is no sign change, ErrNoConvergence
// after MaxIterations.
//
// Source: Chandrupatla (1997), "A new hybrid quadratic/bisection algorithm for
// finding the zero of a nonlinear function without using derivatives",
// Advances in Engineering Software 28:145-149 (from memory).
func Find(f func(float64) float64, a, b, xtol float64) (float64, error) {
	if !finite(a) || !finite(b) || !(xtol >= 0) {
		return math.NaN(), &Error{Lo: a, Hi: b, FLo: math.NaN(), FHi: math.NaN(),
			Reason: "bracket and tolerance must be finite numbers", Kind: units.ErrDomain}
	}
	return FindBetween(f, a, b, f(a), f(b), xtol)
}

// FindBetween is Find for a caller that knows the values fa and fb at the ends.
func FindBetween(f func(float64) float64, a, b, fa, fb, xtol float64) (float64, error) {
	if math.IsNaN(fa) || math.IsNaN(fb) {
		return math.NaN(), fail(a, b, fa, fb, 0, "value at an end is not a number", units.ErrDomain)
	}
	if fa == 0 {
		return a, nil
	}
	if fb == 0 {
		return b, nil
	}
	if (fa > 0) == (fb > 0) {
		return math.NaN(), fail(a, b, fa, fb, 0, "no sign change between the ends", units.ErrNoSolution)
	}
	// a and b bracket the root, a being the newest point; c is the previous b.
	t := 0.5
	for n := 1; n <= MaxIterations; n++ {
		x := a + t*(b-a)
		fx := f(x)
		if math.IsNaN(fx) {
			return math.NaN(), fail(a, b, fa, fb, n, fmt.Sprintf("value at %.17g is not a number", x), units.ErrDomain)
		}
		var c, fc float64
		if (fx > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, fc = b, fb
			b, fb = a, fa
		}
		a, fa = x, fx
		if fa == 0 {
			return a, nil
		}
		best := a
		if math.Abs(fb) < math.Abs(fa) {
			best = b
		}
		tol := 0.5*xtol + 2*epsilon*math.Abs(best)
		limit := tol / math.Abs(b-a)
		if !(limit <= 0.5) { // also when the ends are neighbours
			return best, nil
		}
		t = 0.5
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi { // inverse quadratic is safe, eq. 5
			t = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		if !(t >= limit) {
			t = limit
		}
		if t > 1-limit {
			t = 1 - limit
		}
	}
	return math.NaN(), fail(a, b, fa, fb, MaxIterations, "too many evaluations", units.ErrNoConvergence)
}

// Expand widens the interval from a to b until f changes sign across it and
// returns the bracket with its values. Each time the end with the smaller |f|
// moves out by 1.6 times the width, never past lo or hi; it gives up with
// ErrNoSolution when both limits are reached. The values at the ends are given
// back so that FindBetween need not ask again.
//
// Source: the outward search common to numerical texts; factor from common
// practice.
func Expand(f func(float64) float64, a, b, lo, hi float64) (x0, x1, f0, f1 float64, err error) {
	if a > b {
		a, b = b, a
	}
	if !finite(a) || !finite(b) || !(lo <= a && b <= hi && a < b) {
		return a, b, math.NaN(), math.NaN(), &Error{Lo: a, Hi: b, FLo: math.NaN(), FHi: math.NaN(),
			Reason: "the starting interval must have width and lie within the limits", Kind: units.ErrDomain}
	}
	f0, f1 = f(a), f(b)
	for n := 0; ; n++ {
		switch {
		case math.IsNaN(f0) || math.IsNaN(f1):
			return a, b, f0, f1, fail(a, b, f0, f1, n, "value is not a number", units.ErrDomain)
		case f0 == 0 || f1 == 0 || (f0 > 0) != (f1 > 0):
			return a, b, f0, f1, nil
		case a <= lo && b >= hi:
			return a, b, f0, f1, fail(a, b, f0, f1, n, "no sign change within the limits", units.ErrNoSolution)
		case n >= MaxIterations:
			return a, b, f0, f1, fail(a, b, f0, f1, n, "too many evaluations", units.ErrNoConvergence)
		}
		grow := 1.6 * (b - a)
		if b >= hi || (a > lo && math.Abs(f0) < math.Abs(f1)) {
			a = math.Max(lo, a-grow)
			f0 = f(a)
		} else {
			b = math.Min(hi, b+grow)
			f1 = f(b)
		}
	}
}

// fail orders the bracket, so that a reader sees it low to high.
func fail(a, b, fa, fb float64, n int, reason string, kind error) *Error {
	if a > b {
		a, b, fa, fb = b, a, fb, fa
	}
	return &Error{Lo: a, Hi: b, FLo: fa, FHi: fb, Iterations: n, Reason: reason, Kind: kind}
}

// epsilon is the spacing of doubles at one.
const epsilon = 0x1p-52

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
