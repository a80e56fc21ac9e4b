package drawdown

import "math"

// A pond that a wide gate joins to the water outside stands at its level: what a
// hair of head lets through outweighs everything else, and a flap would flutter.
// The pond then rides on the tailwater: its level is the tide's and the gates
// pass what that takes, until the tide rises faster than a flap lets it follow or
// falls faster than the gates can draw.

// ridePace is the longest stretch of riding between two looks, in seconds.
const ridePace = 300.0

// rideRates returns the rates of the gap with the pond a hair above the
// tailwater, the gates drawing, and a hair below.
func (s *Solver) rideRates(t float64) (above, below float64) {
	z := s.tailAt(t)
	area := s.areaOf(z)
	still := s.steady - s.loss*area
	if s.next != nil {
		still -= s.next.flow(z)
	}
	out, in := 0.0, 0.0
	for i := range s.gates {
		g := &s.gates[i]
		switch {
		case !g.open:
		case g.gate.Backflow == Pumped:
			still -= g.passing(z, z)
		default:
			out += g.passing(z+s.reachOfTail, z)
			if g.gate.Backflow == BothWays {
				in += g.passing(z, z-s.reachOfTail)
			}
		}
	}
	fall := s.tailSlope(t)
	return (still-out)/area - fall, (still+in)/area - fall
}

// setReach sets how near to the tailwater the pond is taken to be on it: a
// hundredth of a millimetre, or what the tolerance leaves unknown of the level.
func (s *Solver) setReach() {
	s.reachOfTail = math.Max(1e-5, 2*s.tol*float64(s.pond.Top()-s.pond.Bottom()))
}

// mayRide reports whether the pond is pressed onto the tailwater from both
// sides.
func (s *Solver) mayRide() bool {
	if s.piece == nil || s.rooted || !(math.Abs(s.gap) < s.reachOfTail) {
		return false
	}
	above, below := s.rideRates(s.t)
	return above < 0 && below > 0
}

// ride follows the tailwater for a stretch.
func (s *Solver) ride(end float64) {
	if !s.riding { // from here on the volume is counted from the tide
		s.collect()
		s.riding = true
	}
	t0, v0 := s.t, s.main.Y()[0]
	pace := ridePace
	if s.next != nil {
		pace /= 10 // the neighbour's level is taken as it stands
	}
	t1 := math.Min(end, t0+pace)
	held := func(t float64) bool {
		above, below := s.rideRates(t)
		return above < 0 && below > 0
	}
	over := !held(t1)
	if over {
		t1 = bisectTime(t0, t1, held)
	}
	// The first mark on the way ends the stretch too.
	kind := seekNothing
	v1 := s.volumeOn(t1)
	if s.low >= 0 && (v1 < s.marks[s.low].volume || s.low == 0 && v1 <= s.marks[0].volume) { // below the bottom there is no volume to tell
		kind = seekLower
		m := s.marks[s.low].volume
		t1 = bisectTime(t0, t1, func(t float64) bool { return s.volumeOn(t) > m })
		v1, over = m, false
	} else if s.low+1 < len(s.marks) && v1 > s.marks[s.low+1].volume {
		kind = seekUpper
		m := s.marks[s.low+1].volume
		t1 = bisectTime(t0, t1, func(t float64) bool { return s.volumeOn(t) < m })
		v1, over = m, false
	}
	s.bookRide(t0, t1, v0, v1)
	s.t = t1
	s.keepCubic(t0, t1, v0, v1, s.tailSlope(t0)*s.areaOf(s.tailAt(t0)), s.tailSlope(t1)*s.areaOf(s.tailAt(t1)))
	s.y[0] = v1
	clear(s.y[1:])
	s.main.Continue(s.t, s.y, 0)
	switch {
	case kind != seekNothing:
		s.happen(kind)
	case over:
		s.riding = false
		above, _ := s.rideRates(t1 + 1e-3)
		s.above = above >= 0
		s.settle(true)
	case s.t == end:
		s.pass()
	}
}

// bisectTime returns the end of the stretch from a in which ok holds, to a
// microsecond.
func bisectTime(a, b float64, ok func(float64) bool) float64 {
	for b-a > 1e-6 {
		if mid := (a + b) / 2; ok(mid) {
			a = mid
		} else {
			b = mid
		}
	}
	return b
}

// volumeOn is the pond's volume at the level of the tailwater.
func (s *Solver) volumeOn(t float64) float64 { return volumeOf(s.pond, s.tailAt(t)) }

// bookRide counts the water of a stretch: what came in less what stayed has gone
// through the gates that meet the tide, in proportion to what each could pass.
func (s *Solver) bookRide(t0, t1, v0, v1 float64) {
	dt := t1 - t0
	simpson := func(f func(t float64) float64) float64 {
		return dt / 6 * (f(t0) + 4*f((t0+t1)/2) + f(t1))
	}
	rest := v0 - v1
	for k, r := range s.present {
		s.tally.series[k] += r * dt
		rest += r * dt
	}
	if s.areal > 0 {
		area := simpson(func(t float64) float64 { return s.areaOf(s.tailAt(t)) })
		s.tally.area += area
		rest -= s.loss * area
	}
	if s.next != nil {
		z := s.tailAt((t0 + t1) / 2)
		q := s.next.flow(z) * dt
		// It moves towards the tide's level and no further.
		if room := volumeOf(s.next.pond, z) - volumeOf(s.next.pond, s.next.level); math.Abs(q) > math.Abs(room) {
			q = room
		}
		s.tally.over += q
		rest -= q
		s.see(0)
	}
	weight := 0.0
	z := s.tailAt(t0)
	for i := range s.gates {
		g := &s.gates[i]
		if !g.open {
			continue
		}
		if g.gate.Backflow == Pumped {
			q := simpson(func(t float64) float64 { return g.passing(s.tailAt(t), s.tailAt(t)) })
			s.tally.out[i] += q
			rest -= q
		} else {
			weight += g.passing(z+s.reachOfTail, z)
		}
	}
	if weight > 0 {
		for i := range s.gates {
			g := &s.gates[i]
			if !g.open || g.gate.Backflow == Pumped {
				continue
			}
			q := rest * g.passing(z+s.reachOfTail, z) / weight
			if q >= 0 {
				s.tally.out[i] += q
			} else {
				s.tally.in[i] -= q
			}
		}
	}
	s.legStart = t1
}
