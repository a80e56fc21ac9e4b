package ode

import (
	"math"

	"pondwright.example/units"
)

// Coefficients of the pair. Source: Dormand and Prince (1980), "A family of
// embedded Runge-Kutta formulae", J. Comput. Appl. Math. 6:19-26, table 2
// (from memory; a test holds the order conditions up to order five).
const (
	c2, c3, c4, c5 = 1. / 5, 3. / 10, 4. / 5, 8. / 9

	a21                     = 1. / 5
	a31, a32                = 3. / 40, 9. / 40
	a41, a42, a43           = 44. / 45, -56. / 15, 32. / 9
	a51, a52, a53, a54      = 19372. / 6561, -25360. / 2187, 64448. / 6561, -212. / 729
	a61, a62, a63, a64, a65 = 9017. / 3168, -355. / 33, 46732. / 5247, 49. / 176, -5103. / 18656

	b1, b3, b4, b5, b6 = 35. / 384, 500. / 1113, 125. / 192, -2187. / 6784, 11. / 84

	// order 5 minus order 4
	e1, e3, e4, e5, e6, e7 = 71. / 57600, -71. / 16695, 71. / 1920, -17253. / 339200, 22. / 525, -1. / 40

	// Dense output of order 4. Source: Hairer, Norsett and Wanner (1993),
	// Solving Ordinary Differential Equations I, II.6 (from memory; a test holds
	// its order).
	d1, d3, d4 = -12715105075. / 11282082432, 87487479700. / 32700410799, -10690763975. / 1880347072
	d5, d6, d7 = 701980252875. / 199316789632, -1453857185. / 822651844, 69997945. / 29380423
)

// Step takes one accepted step towards end and never past it. It returns an
// *Error when the step length falls below what the clock can tell apart, when
// the values are not numbers, or after MaxSteps tries.
func (s *Solver) Step(end float64) error {
	if end == s.t {
		return nil
	}
	s.dir = math.Copysign(1, end-s.t)
	s.begin()
	s.stepped = false
	if !(s.next > 0) {
		s.next = s.firstStep(math.Abs(end - s.t))
	}
	grow := 10.0
	for {
		h, last := math.Min(s.next, s.maxStep), false
		if left := math.Abs(end - s.t); h >= 0.999*left {
			h, last = left, true
		} else if h > 0.5*left {
			h = 0.5 * left // two even steps rather than a long one and a sliver
		}
		if s.tries++; s.tries > s.maxSteps {
			return &Error{T: s.t, Step: h, Reason: "too many steps", Kind: units.ErrNoConvergence}
		}
		tnew := s.t + s.dir*h
		if last {
			tnew = end
		}
		if tnew == s.t {
			return &Error{T: s.t, Step: h, Reason: "step length vanished", Kind: units.ErrNoConvergence}
		}
		err := s.try(s.dir*h, tnew)
		if err <= 1 {
			s.told, s.t, s.h = s.t, tnew, s.dir*h
			s.yold, s.y, s.w = s.y, s.w, s.yold
			s.dense, s.stepped, s.slope = false, true, inLast
			next := h * factor(err, grow)
			if h < s.next && next < s.next {
				next = s.next // cut short by end: the earlier proposal still stands
			}
			s.next = next
			return nil
		}
		if math.IsNaN(err) {
			if h < 1e-12*(1+math.Abs(s.t)) {
				return &Error{T: s.t, Step: h, Reason: "value is not a number", Kind: units.ErrDomain}
			}
			err = math.Inf(1)
		}
		grow = 1
		s.next = h * factor(err, grow)
	}
}

// try computes the stages of a step of length h to tnew, leaves the new state in
// w and f there in k7, and returns the error estimate in units of the tolerance.
func (s *Solver) try(h, tnew float64) float64 {
	n, m, t := s.n, s.m, s.t
	y, w := s.y[:n], s.w[:n]
	k1, k2, k3, k4, k5, k6 := s.k1[:n], s.k2[:n], s.k3[:n], s.k4[:n], s.k5[:n], s.k6[:n]
	for i, v := range y {
		w[i] = v + h*(a21*k1[i])
	}
	s.sys.Derivatives(t+c2*h, s.w, s.k2)
	for i, v := range y {
		w[i] = v + h*(a31*k1[i]+a32*k2[i])
	}
	s.sys.Derivatives(t+c3*h, s.w, s.k3)
	for i, v := range y {
		w[i] = v + h*(a41*k1[i]+a42*k2[i]+a43*k3[i])
	}
	s.sys.Derivatives(t+c4*h, s.w, s.k4)
	for i, v := range y {
		w[i] = v + h*(a51*k1[i]+a52*k2[i]+a53*k3[i]+a54*k4[i])
	}
	s.sys.Derivatives(t+c5*h, s.w, s.k5)
	for i, v := range y {
		w[i] = v + h*(a61*k1[i]+a62*k2[i]+a63*k3[i]+a64*k4[i]+a65*k5[i])
	}
	s.sys.Derivatives(tnew, s.w, s.k6)
	s.combine(h, m)
	s.sys.Derivatives(tnew, s.w, s.k7)
	s.evals += 6

	worst := 0.0
	k7 := s.k7[:n]
	for i := range n {
		e := h * (e1*k1[i] + e3*k3[i] + e4*k4[i] + e5*k5[i] + e6*k6[i] + e7*k7[i])
		size := math.Abs(y[i])
		if b := math.Abs(w[i]); b > size {
			size = b
		}
		q := math.Abs(e) / (s.abs[i] + s.rel*size)
		if !(q <= worst) { // NaN wins
			worst = q
		}
	}
	return worst
}

// combine writes the state of order 5, quadratures included, into w.
func (s *Solver) combine(h float64, m int) {
	y, w := s.y[:m], s.w[:m]
	k1, k3, k4, k5, k6 := s.k1[:m], s.k3[:m], s.k4[:m], s.k5[:m], s.k6[:m]
	for i, v := range y {
		w[i] = v + h*(b1*k1[i]+b3*k3[i]+b4*k4[i]+b5*k5[i]+b6*k6[i])
	}
}

// factor is the change of step length for an error estimate in units of the
// tolerance: 0.9 err^(-1/5), held between 1/5 and grow.
func factor(err, grow float64) float64 {
	if !(err > 1e-10) {
		return grow
	}
	if err > 1e4 {
		return 0.2
	}
	return math.Max(0.2, math.Min(grow, 0.9*inverseFifthRoot(err)))
}

// inverseFifthRoot returns x^(-1/5) within 1e-4 for a normal x > 0: a first
// guess from the exponent and two Newton steps, six times faster than math.Pow
// in a loop that needs two digits.
func inverseFifthRoot(x float64) float64 {
	const one = 0x3FF0000000000000 // bits of 1.0
	y := math.Float64frombits(one/5*6 - math.Float64bits(x)/5)
	for range 2 {
		y2 := y * y
		y *= 1.2 - 0.2*x*y2*y2*y
	}
	return y
}

// firstStep is a first step length from the sizes of y, y' and y” (one trial
// Euler step). Source: Hairer, Norsett and Wanner (1993), II.4 (from memory).
func (s *Solver) firstStep(span float64) float64 {
	size := func(v, y []float64) float64 {
		worst := 0.0
		for i := range s.n {
			worst = math.Max(worst, math.Abs(v[i])/(s.abs[i]+s.rel*math.Abs(y[i])))
		}
		return worst
	}
	d0, d1 := size(s.y, s.y), size(s.k1, s.y)
	h := 1e-6 * span
	if d0 > 1e-5 && d1 > 1e-5 {
		h = math.Min(0.01*d0/d1, span)
	}
	h = math.Min(h, s.maxStep)
	for i := range s.n {
		s.w[i] = s.y[i] + s.dir*h*s.k1[i]
	}
	s.sys.Derivatives(s.t+s.dir*h, s.w, s.k2)
	s.evals++
	for i := range s.n {
		s.k3[i] = (s.k2[i] - s.k1[i]) / h
	}
	big := math.Max(d1, size(s.k3, s.y))
	next := math.Max(1e-6*span, 1e-3*h)
	if big > 1e-15 {
		next = math.Pow(0.01/big, 0.2)
	}
	return math.Min(math.Min(100*h, next), math.Min(span, s.maxStep))
}
