package ode

import (
	"math"

	"pondwright.example/internal/root"
)

// At writes the state at a time within the last step into dst, which may be
// shorter than the state; between steps and before the first it is Y. A time
// outside the last step is taken to its nearer end.
func (s *Solver) At(t float64, dst []float64) {
	if !s.stepped || t == s.t {
		copy(dst, s.y)
		return
	}
	s.form()
	x := (t - s.told) / s.h
	if !(x > 0) {
		copy(dst, s.yold)
		return
	}
	if (t-s.t)*s.dir > 0 {
		copy(dst, s.y)
		return
	}
	x1 := 1 - x
	m := min(len(dst), s.m)
	yold, r2, r3, r4, r5 := s.yold[:m], s.r2[:m], s.r3[:m], s.r4[:m], s.r5[:m]
	for i := range dst[:m] {
		dst[i] = yold[i] + x*(r2[i]+x1*(r3[i]+x*(r4[i]+x1*r5[i])))
	}
}

// form computes the interpolant of the last step once.
func (s *Solver) form() {
	if s.dense || !s.stepped {
		return
	}
	s.dense = true
	h, m := s.h, s.m
	y, yold := s.y[:m], s.yold[:m]
	k1, k3, k4, k5, k6, k7 := s.k1[:m], s.k3[:m], s.k4[:m], s.k5[:m], s.k6[:m], s.k7[:m]
	for i := range m {
		dy := y[i] - yold[i]
		r3 := h*k1[i] - dy
		s.r2[i], s.r3[i], s.r4[i] = dy, r3, dy-h*k7[i]-r3
		s.r5[i] = h * (d1*k1[i] + d3*k3[i] + d4*k4[i] + d5*k5[i] + d6*k6[i] + d7*k7[i])
	}
}

// Coefficients copies the interpolant of the last step: over the step from
// Previous, with x the fraction of the length returned, component i is
//
//	c[0] + x (c[1] + (1-x) (c[2] + x (c[3] + (1-x) c[4]))).
//
// A caller that keeps them can evaluate the trajectory later without the solver.
func (s *Solver) Coefficients(i int) (length float64, c [5]float64) {
	if !s.stepped {
		return 0, [5]float64{s.y[i]}
	}
	s.form()
	return s.h, [5]float64{s.yold[i], s.r2[i], s.r3[i], s.r4[i], s.r5[i]}
}

// Locate returns a time between a and b, both within the last step, at which g
// of the dense output changes sign: the end of the final bracket that lies on
// b's side. The bracket is xtol wide, or one or two units in the last place for
// an xtol of zero. The values ga and gb of g at the ends are given. g must not
// keep y.
func (s *Solver) Locate(g func(t float64, y []float64) float64, a, b, ga, gb, xtol float64) (float64, error) {
	s.form()
	at := func(t float64) float64 {
		s.At(t, s.probe)
		return g(t, s.probe)
	}
	x, err := root.FindBetween(at, a, b, ga, gb, max(xtol, 1e-15*math.Abs(s.h)))
	if err == nil && xtol > 0 && (at(x) > 0) == (ga > 0) {
		x += math.Copysign(min(xtol, math.Abs(b-x)), b-a) // to b's side of the bracket
	}
	return x, err
}

// Truncate moves the end of the last step back to t, a time within it, with the
// state of the dense output there. The length of the next step stays as
// proposed; the slope is asked for again, since an event is where laws change.
func (s *Solver) Truncate(t float64) {
	if !s.stepped || t == s.t {
		s.slope = unknown
		return
	}
	s.At(t, s.w)
	s.y, s.w = s.w, s.y
	s.t = t
	// The interpolant stays valid up to t: it is held by yold, r2..r5 and h.
	s.slope = unknown
}

// Retake makes the last step again so that it ends at t, a time within it. At
// the price of one step, the state there has the order of the step instead of
// that of the dense output: the better way to end at an event that many others
// follow. It must come before the next step begins.
func (s *Solver) Retake(t float64) {
	if !s.stepped || t == s.t || s.slope == inFirst {
		return
	}
	h := t - s.told
	s.y, s.yold, s.w = s.yold, s.w, s.y
	s.t = s.told
	s.try(h, t)
	s.t, s.h = t, h
	s.yold, s.y, s.w = s.y, s.w, s.yold
	s.dense, s.slope = false, inLast
}

// Rewind takes the last step back, for an event that turns out to lie at its
// beginning. It must come before the next step begins; the step's interpolant is
// gone afterwards.
func (s *Solver) Rewind() {
	if !s.stepped || s.slope == inFirst {
		return
	}
	copy(s.y, s.yold)
	s.t = s.told
	s.stepped, s.slope = false, inFirst
}

// Shift moves the end of the last step by dt along the slope there, quadratures
// included: the last correction that brings a retaken step onto an event whose
// time came from the dense output. It is meant for a dt so small that the slope
// does not change; the slope is kept.
func (s *Solver) Shift(dt float64) {
	k := s.Slope()
	for i := range s.y {
		s.y[i] += dt * k[i]
	}
	s.t += dt
}
