package drawdown

import "math"

// mayClose reports whether pond and tailwater are about to meet while a gate
// that the meeting shuts or turns lets water through: the stretch worth a change
// of variable.
func (s *Solver) mayClose(end float64) bool {
	if s.piece == nil || s.wary || s.rooted || s.gap == 0 || s.next != nil {
		return false
	}
	sense := 1.0
	if !s.above {
		sense = -1
	}
	gap, rate := sense*s.gap, sense*s.gapRate
	if !(gap > 0 && rate < 0) {
		return false
	}
	passing := false
	for i := range s.gates {
		g := &s.gates[i]
		passing = passing || (g.way != 0 && g.gate.Backflow != Pumped)
	}
	if !passing {
		return false
	}
	// With the head gone the gates carry nothing: that rate closes the rest.
	h := s.levelOf(s.main.Y()[0])
	last := sense * (s.stillRate(h) - s.tailSlope(s.t))
	if !(last < 0) {
		return false
	}
	left := gap / -last
	if !(left < closingLead*s.main.Proposed() && s.t+1.5*left < end) {
		return false
	}
	// They meet about where the tailwater then stands; not if a mark comes first.
	meet := s.tailAt(s.t + left)
	return (s.low < 0 || meet > s.marks[s.low].stage) && (s.low+1 >= len(s.marks) || meet < s.marks[s.low+1].stage)
}

// closingLead is how many steps ahead the change of variable begins.
const closingLead = 2

// stillRate is the rise of the stage with the tide-driven gates shut.
func (s *Solver) stillRate(h float64) float64 {
	area := s.areaOf(h)
	net := s.steady - s.loss*area
	for i := range s.gates {
		if g := &s.gates[i]; g.way != 0 && g.gate.Backflow == Pumped {
			net -= g.passing(h, s.tailAt(s.t))
		}
	}
	return net / area
}

// mayRunDry reports whether the pond is about to fall to an outlet's sill in a
// finite time that only the change of variable resolves: the rate of fall
// vanishes there like the root of the head. (Over a weir it vanishes faster and
// the sill is never reached.)
func (s *Solver) mayRunDry(end float64) bool {
	if s.wary || s.rooted || s.low < 0 || s.next != nil || !s.marks[s.low].sill {
		return false
	}
	v, slope := s.main.Y()[0], s.main.Slope()[0]
	if !(slope < 0) {
		return false
	}
	h, sill := s.levelOf(v), s.marks[s.low].stage
	head, fall := h-sill, -slope/s.areaOf(h)
	if left := 2 * head / fall; !(head > 0 && left < closingLead*s.main.Proposed() && s.t+1.5*left < end) {
		return false
	}
	quarter := sill + head/4
	s.rates(quarter, s.tailAt(s.t), s.scratch)
	ratio := -s.scratch[0] / s.areaOf(quarter) / fall
	return ratio > 0.3 && ratio < 0.9
}

// closeFlap follows the closing of a flap to its end.
func (s *Solver) closeFlap(end float64) bool {
	s.closing.dry, s.closing.sense = false, 1
	if !s.above {
		s.closing.sense = -1
	}
	if !s.vanish(end, math.Sqrt(math.Abs(s.gap))) {
		return false
	}
	s.crossTail()
	return true
}

// runDry follows the pond down to a sill.
func (s *Solver) runDry(end float64) bool {
	m := s.marks[s.low]
	s.closing.dry, s.closing.sense, s.closing.sill = true, 1, m.stage
	if !s.vanish(end, math.Sqrt(s.levelOf(s.main.Y()[0])-m.stage)) {
		return false
	}
	s.setLow(s.low - 1)
	s.gap = m.stage - s.tailAt(s.t)
	s.passMark(m, false)
	return true
}

// vanish integrates down to the end of the head with its root u as the
// independent variable. It reports false, with nothing changed, when the head
// turns out not to vanish before the next break or mark.
func (s *Solver) vanish(end, u float64) bool {
	y := s.main.Y()
	s.y[0], s.y[1] = y[0], 0
	copy(s.y[2:], y[1:])
	s.closing.from = s.t
	s.close.Continue(u, s.y, u)
	s.close.Slope()
	kept := len(s.trace)
	const most = 30
	ok := true
	for n := 0; ok && s.close.T() != 0; n++ {
		v0, t0, d0 := s.close.Y()[0], s.close.Y()[1], s.closing.net
		ok = n < most && s.close.Step(0) == nil && s.between(v0, t0, d0)
		s.keepClosing()
	}
	v, t := s.close.Y()[0], s.t+s.close.Y()[1]
	low := s.low
	if s.closing.dry {
		low-- // the mark it runs down to is met
	}
	inside := (low < 0 || v > s.marks[low].volume) && (s.low+1 >= len(s.marks) || v < s.marks[s.low+1].volume)
	if !ok || !inside || !(t > s.t && t < end) {
		s.wary = true
		s.trace = s.trace[:kept]
		return false
	}
	s.steps++
	s.t = t
	s.y[0] = v
	copy(s.y[1:], s.close.Y()[2:])
	s.main.Continue(t, s.y, 0)
	return true
}

// between reports whether the step just made kept the volume between its marks
// all along; a valley whose tangents meet below the lower mark, or a hill above
// the upper, is left to the plain clock.
func (s *Solver) between(v0, t0, d0 float64) bool {
	v1, t1, d1 := s.close.Y()[0], s.close.Y()[1], s.closing.net
	if s.low >= 0 && d0 < 0 && d1 > 0 {
		if m := s.marks[s.low].volume; tangents(v0-m, d0, v1-m, d1, t1-t0) <= 0 {
			return false
		}
	}
	if s.low+1 < len(s.marks) && d0 > 0 && d1 < 0 {
		if m := s.marks[s.low+1].volume; tangents(m-v0, -d0, m-v1, -d1, t1-t0) <= 0 {
			return false
		}
	}
	return true
}

// dry empties the pond: what comes in goes out at once until the inflow exceeds
// what the gates and losses could take at the bottom.
func (s *Solver) dry() {
	s.collect()
	if s.rooted {
		s.unroot()
	}
	s.empty, s.riding = true, false
	s.trueUp()
	s.note(PondEmpty, -1)
	if s.target <= s.volumeScale() {
		s.reach(s.t)
	}
}

// trueUp brings a volume that a step has left below nothing, by no more than its
// tolerance, to nothing: the gate that let most out let that much less.
func (s *Solver) trueUp() {
	v := s.main.Y()[0]
	if v >= 0 || len(s.gates) == 0 {
		return
	}
	most := 0
	for i := range s.tally.out {
		if s.tally.out[i] > s.tally.out[most] {
			most = i
		}
	}
	if s.tally.out[most] >= -v {
		s.tally.out[most] += v
		s.main.Y()[0] = 0
		s.main.Restart()
	}
}

// spare is what would be left to fill an empty pond: inflow less the most the
// gates and losses take at the bottom.
func (s *Solver) spare(t float64) (spare, gross float64) {
	h := float64(s.pond.Bottom())
	s.rates(h, s.tailAt(t), s.scratch)
	gross = s.steady
	for i := range s.gates {
		gross += math.Max(0, -s.scratch[s.first+i])
	}
	if s.leaky > 0 {
		gross += math.Max(0, -s.scratch[s.leaky])
	}
	if s.next != nil {
		gross += math.Max(0, -s.scratch[1])
	}
	gross += math.Max(0, -s.loss*s.areaOf(h))
	return s.scratch[0], gross
}

// idle waits out an empty pond to the next break or until water stays.
func (s *Solver) idle(end float64) {
	const pace = 600.0
	stop := math.Min(end, s.t+pace)
	filling, _ := s.spare(stop)
	first, gross := s.spare(s.t)
	switch {
	case first > 0:
		stop = s.t
	case filling > 0:
		lo := s.t
		for stop-lo > 1e-3 {
			mid := (lo + stop) / 2
			if f, _ := s.spare(mid); f > 0 {
				stop = mid
			} else {
				lo = mid
			}
		}
	}
	s.passThrough(stop-s.t, gross)
	s.t = stop
	s.see(0)
	s.keepIdle()
	refilled := first > 0 || (filling > 0 && stop < end)
	if refilled {
		s.empty = false
		s.note(PondRefilled, -1)
	}
	if s.t == end {
		s.y[0] = s.main.Y()[0]
		clear(s.y[1:])
		s.main.Continue(s.t, s.y, 0)
		s.empty = false
		s.pass()
		s.settle(false)
		return
	}
	s.y[0] = s.main.Y()[0]
	clear(s.y[1:])
	s.main.Continue(s.t, s.y, 0)
	if refilled {
		s.settle(false)
	}
}

// passThrough books dt seconds in which whatever came in went out, shared over
// the ways out in proportion to what each could have taken.
func (s *Solver) passThrough(dt, gross float64) {
	s.legStart = s.t + dt
	if dt == 0 {
		return
	}
	for k, r := range s.present {
		s.tally.series[k] += r * dt
	}
	h := float64(s.pond.Bottom())
	s.rates(h, s.tailAt(s.t), s.scratch)
	out := 0.0
	for i := range s.gates {
		q := s.scratch[s.first+i]
		if q < 0 {
			s.tally.in[i] -= q * dt
		} else {
			out += q
		}
	}
	area := s.areaOf(h)
	losses := math.Max(0, s.loss*area)
	leak := 0.0
	if s.leaky > 0 {
		leak = s.scratch[s.leaky]
	}
	over := 0.0
	if s.next != nil {
		over = s.scratch[1]
	}
	out += losses + math.Max(0, leak) + math.Max(0, over)
	if over < 0 {
		s.tally.over += over * dt
	}
	if s.loss < 0 {
		s.tally.area += area * dt
	}
	if leak < 0 {
		s.tally.leaked += leak * dt
	}
	if out == 0 {
		return
	}
	share := gross / out * dt
	for i := range s.gates {
		if q := s.scratch[s.first+i]; q > 0 {
			s.tally.out[i] += q * share
		}
	}
	if losses > 0 {
		s.tally.area += area * share
	}
	if over > 0 {
		s.tally.over += over * share
	}
	if leak > 0 {
		s.tally.leaked += leak * share
	}
}
