package drawdown

import "math"

// The last water of a big outlet over a small sump follows its inflow at once:
// a balance so stiff that an explicit step is held to the emptying time of the
// sump, seconds, while nothing happens for hours. There the solver takes
// implicit steps instead: the two-stage L-stable method of order two,
//
//	k1 = f(t + g h, V + g h k1),  k2 = f(t + h, V + (1-g) h k1 + g h k2),
//	V1 = V + h ((1-g) k1 + g k2),  g = 1 - 1/sqrt(2),
//
// with the same weights for what passed the gates, so that the balance closes.
// A step in which an event falls is not taken but left to the explicit method.
//
// Source: Alexander (1977), "Diagonally implicit Runge-Kutta methods for stiff
// O.D.E.'s", SIAM J. Numer. Anal. 14:1006-1021 (from memory).
const implicitGamma = 1 - math.Sqrt2/2

// stiffStep is the explicit step, in seconds, below which stiffness is looked
// for.
const stiffStep = 20.0

// mayStiff reports whether stability rather than accuracy holds the step down.
func (s *Solver) mayStiff() bool {
	h := s.main.Proposed()
	if s.rooted || !(h < stiffStep) || h == 0 {
		return false
	}
	if s.stiffWait > 0 { // an event stood in the way a moment ago
		s.stiffWait--
		return false
	}
	v := s.main.Y()[0]
	wide := s.sensitivity(s.t, v, 1e-5*v+s.volumeScale())
	near := s.sensitivity(s.t, v, 1e-10*v+s.volumeScale()) // on a sill the law is steep over a hair
	steep := math.Min(wide, near)
	if s.next != nil { // and its own level may answer faster still
		d := 1e-5*v + s.volumeScale()
		over := s.main.Y()[1]
		s.see(over + d)
		more := s.next.flow(s.levelOf(v))
		s.see(over)
		steep += (more - s.next.flow(s.levelOf(v))) / d
	}
	return -steep*h > 1.5
}

// creepOntoSill lifts a pond that a trickle is about to bring up to a wide
// outlet's sill onto it. An explicit step never gets there: its trial stages look
// over the sill, where the outlet takes back more than the trickle brings, and
// it shrinks instead. The last hair is taken along the slope.
func (s *Solver) creepOntoSill(end float64) bool {
	if s.rooted || s.low+1 >= len(s.marks) || !s.marks[s.low+1].sill || !(s.main.Proposed() < stiffStep) {
		return false
	}
	left := s.marks[s.low+1].volume - s.main.Y()[0]
	slope := s.main.Slope()[0]
	dt := left / slope
	if !(slope > 0 && left >= 0 && left < 1e-6*(1+s.start) && dt < 2 && s.t+dt < end) {
		return false
	}
	s.main.Shift(dt)
	s.t += dt
	s.happen(seekUpper)
	s.main.Restart()
	s.readGap()
	return true
}

// sensitivity is d(dV/dt)/dV over a small volume d.
func (s *Solver) sensitivity(t, v, d float64) float64 {
	return (s.net(t, v+d) - s.net(t, v)) / d
}

// net is dV/dt; the flows are left in the scratch.
func (s *Solver) net(t, v float64) float64 {
	s.rates(s.levelOf(v), s.tailAt(t), s.scratch)
	return s.scratch[0]
}

// implicit takes one implicit step; it reports false, with nothing changed, when
// an event falls into it or it does not converge.
func (s *Solver) implicit(end float64) bool {
	v0, t0 := s.main.Y()[0], s.t
	h := math.Max(s.stiffNext, 4*s.main.Proposed())
	for h >= 2*s.main.Proposed() {
		last := t0+h >= end
		if last {
			h = end - t0
		}
		s.weigh(0, 0, h)
		k1, ok1 := s.stage(t0+implicitGamma*h, v0, implicitGamma*h)
		copy(s.y, s.scratch)
		s.weigh(h, s.y[1], h)
		t1 := t0 + h
		if last {
			t1 = end
		}
		k2, ok2 := s.stage(t1, v0+(1-implicitGamma)*h*k1, implicitGamma*h)
		v1 := v0 + h*((1-implicitGamma)*k1+implicitGamma*k2)
		s.unweigh()
		// The difference to the first-order solution with the last slope alone
		// estimates the error of that, which is more than enough.
		err := (1 - implicitGamma) * h * math.Abs(k2-k1) / (0.1*s.tol*math.Max(s.start, 1e-3*s.marks[len(s.marks)-1].volume) + s.tol*v0)
		err *= math.Min(1, 30*math.Sqrt(s.tol)) // order two of it is one better
		if !ok1 || !ok2 || err > 1 || !s.quiet(t1, v1) {
			h /= 4
			continue
		}
		for i := 1; i < len(s.y)-1; i++ {
			s.y[i] = s.main.Y()[i] + h*((1-implicitGamma)*s.y[i]+implicitGamma*s.scratch[i])
		}
		s.y[0] = v1
		s.stiffNext = h * math.Min(4, 0.9/math.Sqrt(math.Max(err, 1e-3)))
		explicit := s.main.Proposed()
		s.main.Continue(t1, s.y[:len(s.y)-1], explicit)
		s.t = t1
		s.steps++
		s.keepCubic(t0, t1, v0, v1, k1, k2)
		s.readGap()
		if s.t == end {
			s.pass()
		}
		return true
	}
	s.stiffNext, s.stiffWait = 0, 20
	return false
}

// weigh prepares the neighbour for a stage of an implicit step of length h: before
// is what the stages before have let over, at the rate q for the part of h that
// the method gives them.
func (s *Solver) weigh(before, q, h float64) {
	if s.next != nil {
		s.next.base = s.main.Y()[1] + (1-implicitGamma)*before*q
		s.next.weight = implicitGamma * h
	}
}

func (s *Solver) unweigh() {
	if s.next != nil {
		s.next.weight = 0
		s.see(s.main.Y()[1])
	}
}

// stage solves k = f(t, c + w k) by secants held in a bracket: f falls as the
// volume rises. The flows at the solution are left in the scratch.
func (s *Solver) stage(t, c, w float64) (k float64, ok bool) {
	lo, hi := 0.0, c
	f := func(v float64) float64 { return c + w*s.net(t, v) - v }
	flo, fhi := f(lo), f(hi)
	for n := 0; fhi > 0 && n < 60; n++ { // it fills
		lo, flo = hi, fhi
		hi += w*s.scratch[0] + s.volumeScale()
		fhi = f(hi)
	}
	if !(flo >= 0 && fhi <= 0) {
		return 0, false
	}
	v := lo
	for n := 0; n < 60 && hi-lo > 1e-14*hi; n++ {
		v = (lo*fhi - hi*flo) / (fhi - flo)
		if n%3 == 2 || !(v > lo && v < hi) {
			v = (lo + hi) / 2
		}
		fv := f(v)
		if fv == 0 {
			break
		}
		if fv > 0 {
			lo, flo = v, fv
		} else {
			hi, fhi = v, fv
		}
	}
	return s.net(t, v), true
}

// quiet reports whether the pond at the end of a step lies between the marks,
// on the side of the tailwater and of every kink, where it was.
func (s *Solver) quiet(t, v float64) bool {
	if v <= s.marks[max(s.low, 0)].volume || (s.low+1 < len(s.marks) && v >= s.marks[s.low+1].volume) {
		return false
	}
	h, z := s.levelOf(v), s.tailAt(t)
	if s.piece != nil && (h > z) != s.above {
		return false
	}
	for i := range s.gates {
		g := &s.gates[i]
		if g.way == 0 || g.law == nil {
			continue
		}
		level, tail := h, z
		if g.way < 0 {
			level, tail = z, h
		}
		s.kinkBuf = g.kinks(h, z, s.kinkBuf[:0])
		for j, k := range s.kinkBuf {
			if j < len(g.side) && !s.fixed(float64(k), tail) && (level > float64(k)) != g.side[j] {
				return false
			}
		}
	}
	return true
}

// readGap reads the gap to the tailwater and its rate at the present time.
func (s *Solver) readGap() {
	h := s.levelOf(s.main.Y()[0])
	s.gap = h - s.tailAt(s.t)
	s.gapRate = s.main.Slope()[0]/s.areaOf(h) - s.tailSlope(s.t)
}

// keepCubic records a step by its ends and slopes.
func (s *Solver) keepCubic(t0, t1, v0, v1, slope0, slope1 float64) {
	h := s.levelOf(v1)
	s.lowest, s.highest = math.Min(s.lowest, h), math.Max(s.highest, h)
	if !s.recording || t1 == t0 {
		return
	}
	dt, dv := t1-t0, v1-v0
	a := dt*slope0 - dv
	s.trace = append(s.trace, tracePiece{from: t0, to: t1, x0: t0, length: dt, v: [5]float64{v0, dv, a, dv - dt*slope1 - a, 0}})
}
