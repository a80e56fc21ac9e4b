package drawdown

import (
	"math"
	"slices"

	"pondwright.example/units"
)

// seek is what a step may have to stop for.
type seek uint8

const (
	seekNothing seek = iota
	seekLower        // the mark below
	seekUpper        // the mark above
	seekTail         // pond and tailwater at one level
	seekKink         // a kink of an outlet that moves with the tailwater
)

// gapNoise is what rounding makes of a level, in metres.
const gapNoise = 1e-12

// surface is the function whose zero is sought, on the integrator's clock.
func (s *Solver) surface(x float64, y []float64) float64 {
	switch s.seek {
	case seekLower, seekUpper:
		return y[0] - s.seekValue
	case seekTail:
		return s.levelOf(y[0]) - s.tailAt(s.real(x))
	}
	return s.kinkGap(s.levelOf(y[0]), s.tailAt(s.real(x)), s.seekGate, s.seekOrd)
}

// found is the first event known so far within a step.
type found struct {
	kind      seek
	at, value float64
	gate, ord int
}

// stretch is a step under inspection: its ends on the integrator's clock, with
// volume and slope at both and level and tailwater at the second.
type stretch struct {
	xa, xb         float64
	v0, v1         float64
	slope0, slope1 float64
	h, z           float64
}

// inspect looks for the first event within the step just made, goes back to it
// and returns its kind. v0 and slope0 belong to the start of the step.
func (s *Solver) inspect(v0, slope0 float64) seek {
	st := stretch{xa: s.main.Previous(), xb: s.main.T(), v0: v0, v1: s.main.Y()[0], slope0: slope0, slope1: s.main.Slope()[0]}
	st.h, st.z = s.levelOf(st.v1), s.tailAt(s.real(st.xb))
	s.found = found{}
	s.inspectMarks(&st)
	if s.piece != nil {
		s.inspectTail(&st)
	}
	s.inspectKinks(&st)
	if s.found.kind != seekNothing {
		s.goBack(st.xa)
	}
	return s.found.kind
}

// try locates a change of sign between the start of the step and until, and
// keeps it if it comes first.
func (s *Solver) try(f found, st *stretch, ga, gb, until float64) {
	s.seek, s.seekValue, s.seekGate, s.seekOrd = f.kind, f.value, f.gate, f.ord
	from := st.xa
	if math.Abs(ga) <= tinyValue {
		// The step began on the surface: if it first went to the side it counts
		// as being on, the crossing lies ahead and not at the beginning.
		x := from + 1e-4*(until-from)
		s.main.At(x, s.scratch)
		if g := s.surface(x, s.scratch); (g > 0) == (ga > 0) && g != 0 {
			from, ga = x, g
		}
	}
	xtol := 0.0
	if f.kind == seekKink {
		// A bend of the law that moves with the tide is dear to ask for and is
		// only a place to step to: the solution does not jump there.
		xtol = 1e-5 * math.Abs(until-from)
	}
	x, err := s.main.Locate(s.surfaceFn, from, until, ga, gb, xtol)
	if err == nil && (s.found.kind == seekNothing || x < s.found.at) {
		f.at = x
		s.found = f
	}
}

// sideOf is a value with the sign the pond's side is known to have, whatever
// rounding made of it.
func sideOf(v float64, positive bool) float64 {
	switch {
	case positive && !(v > 0):
		return tinyValue
	case !positive && !(v < 0):
		return -tinyValue
	}
	return v
}

// tinyValue has a sign and nothing else.
const tinyValue = 1e-300

// inspectMarks looks at the fixed stages: the pond is known to lie between its
// two marks, and may touch one and turn within the step.
func (s *Solver) inspectMarks(st *stretch) {
	width := st.xb - st.xa
	low := s.marks[max(s.low, 0)].volume // a pond at its bottom that filled a little may empty again
	f := found{kind: seekLower, value: low}
	if st.v1 < low-s.volumeScale() {
		s.try(f, st, sideOf(st.v0-low, true), st.v1-low, st.xb)
	} else if st.slope0 < 0 && st.slope1 > 0 && tangents(st.v0-low, st.slope0, st.v1-low, st.slope1, width) < 0 {
		if x, g := s.dip(seekLower, low, 1, st.xa, st.xb); g < 0 {
			s.try(f, st, sideOf(st.v0-low, true), g, x)
		}
	}
	if s.low+1 >= len(s.marks) {
		return
	}
	high := s.marks[s.low+1].volume
	f = found{kind: seekUpper, value: high}
	if st.v1 > high {
		s.try(f, st, sideOf(st.v0-high, false), st.v1-high, st.xb)
	} else if st.slope0 > 0 && st.slope1 < 0 && tangents(high-st.v0, -st.slope0, high-st.v1, -st.slope1, width) < 0 {
		if x, g := s.dip(seekUpper, high, -1, st.xa, st.xb); g > 0 {
			s.try(f, st, sideOf(st.v0-high, false), g, x)
		}
	}
}

// inspectTail looks at the tailwater: crossed at the end of the step, or twice
// within it.
func (s *Solver) inspectTail(st *stretch) {
	gap := st.h - st.z
	rate := st.slope1/s.areaOf(st.h) - s.tailSlope(st.xb)
	sense := 1.0
	if !s.above {
		sense = -1
	}
	f := found{kind: seekTail}
	switch {
	case (gap > 0) != s.above && math.Abs(gap) > gapNoise:
		s.try(f, st, sideOf(s.gap, s.above), gap, st.xb)
	case s.rooted:
	case sense*s.gapRate < 0 && sense*rate > 0 && tangents(sense*s.gap, sense*s.gapRate, sense*gap, sense*rate, st.xb-st.xa) < 0:
		if x, g := s.dip(seekTail, 0, sense, st.xa, st.xb); (g > 0) != s.above && g != 0 {
			s.try(f, st, sideOf(s.gap, s.above), g, x)
		}
	}
	s.gap, s.gapRate = gap, rate
}

// inspectKinks looks at the kinks that move with the tailwater.
func (s *Solver) inspectKinks(st *stretch) {
	for i := range s.gates {
		g := &s.gates[i]
		if g.way == 0 || g.law == nil || len(g.side) == 0 {
			continue
		}
		s.kinkBuf = g.kinks(st.h, st.z, s.kinkBuf[:0])
		level, tail := st.h, st.z
		if g.way < 0 {
			level, tail = tail, level
		}
		for j, k := range s.kinkBuf[:min(len(s.kinkBuf), len(g.side))] {
			d := level - float64(k)
			switch {
			case d == 0:
			case s.fixed(float64(k), tail):
				g.side[j] = d > 0
			case (d > 0) != g.side[j]:
				s.try(found{kind: seekKink, gate: i, ord: j}, st, sideOf(0, g.side[j]), d, st.xb)
			}
		}
	}
}

// goBack ends the step at the event found: retaken there for accuracy and
// shifted onto the surface.
func (s *Solver) goBack(xa float64) {
	f := &s.found
	s.seek, s.seekValue, s.seekGate, s.seekOrd = f.kind, f.value, f.gate, f.ord
	if f.at-xa <= 1e-14*math.Abs(xa) {
		s.main.Rewind()
	} else {
		s.main.Retake(f.at)
		s.correct(f.kind, f.at-xa)
	}
	v := s.main.Y()[0]
	h, t := s.levelOf(v), s.real(s.main.T())
	s.gap = h - s.tailAt(t)
	if s.piece != nil && !s.rooted {
		s.gapRate = s.main.Slope()[0]/s.areaOf(h) - s.tailSlope(t)
	}
}

// correct shifts the end of a retaken step onto the surface.
func (s *Solver) correct(kind seek, length float64) {
	x, y := s.main.T(), s.main.Y()
	rate := s.main.Slope()[0]
	switch kind {
	case seekTail:
		dt := 1.0
		if s.rooted {
			dt = 2 * x
		}
		rate = rate/s.areaOf(s.levelOf(y[0])) - s.tailSlope(s.real(x))*dt
	case seekKink:
		return
	}
	if dx := -s.surface(x, y) / rate; math.Abs(dx) < 1e-3*length {
		s.main.Shift(dx)
		if s.rooted {
			s.rootedAt -= dx * dx // the shift is along the tangent: so is its time
			s.main.Restart()      // and the slope on this clock goes with x
		}
	}
}

// tangents is the height at which the tangents at the two ends of a valley
// meet: below the lowest point of a convex curve.
func tangents(a, slopeA, b, slopeB, width float64) float64 {
	x := (b - a - slopeB*width) / (slopeA - slopeB)
	return a + slopeA*math.Max(0, math.Min(width, x))
}

// dip finds where within the step sense times the surface is lowest, by golden
// section on the dense output, and returns the surface there.
func (s *Solver) dip(kind seek, value, sense, a, b float64) (x, g float64) {
	s.seek, s.seekValue = kind, value
	f := func(x float64) float64 {
		s.main.At(x, s.scratch)
		return sense * s.surface(x, s.scratch)
	}
	const golden = 0.6180339887498949
	c, d := b-golden*(b-a), a+golden*(b-a)
	fc, fd := f(c), f(d)
	for range 40 {
		if fc < fd {
			b, d, fd = d, c, fc
			c = b - golden*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + golden*(b-a)
			fd = f(d)
		}
	}
	x = (a + b) / 2
	return x, sense * f(x)
}

// happen changes the law for an event the step has been brought to.
func (s *Solver) happen(kind seek) {
	s.wary = false
	switch kind {
	case seekLower:
		m := s.marks[max(s.low, 0)]
		s.setLow(max(s.low, 0) - 1)
		s.passMark(m, false)
	case seekUpper:
		s.setLow(s.low + 1)
		s.stiffWait = 0 // above a sill the law may be steep at once
		s.passMark(s.marks[s.low], true)
	case seekTail:
		s.crossTail()
	case seekKink:
		g := &s.gates[s.seekGate]
		g.side[s.seekOrd] = !g.side[s.seekOrd]
		s.main.Restart()
	}
}

// crossTail puts the pond on the other side of the tailwater.
func (s *Solver) crossTail() {
	s.above = !s.above
	s.settle(true)
	if s.done || s.riding || s.empty {
		return
	}
	for i := range s.gates {
		if g := &s.gates[i]; g.way != 0 && g.gate.Backflow != Pumped {
			s.root() // the flow starts as the root of a head that grows from zero
			return
		}
	}
}

// passMark handles the passing of a fixed stage.
func (s *Solver) passMark(m mark, rising bool) {
	switched := s.passFlags(m, rising)
	switch {
	case s.done:
	case switched:
		s.settle(false)
	case s.low < 0 && !rising:
		s.dry()
	case !m.corner:
		s.main.Restart()
	}
}

// passFlags books what the passing of a stage means: a watched stage, the
// target, the top, floats. It reports whether a float switched.
func (s *Solver) passFlags(m mark, rising bool) (switched bool) {
	if m.watch {
		s.note(StagePassed, -1)
	}
	if m.target && !rising {
		s.reach(s.t)
	}
	if rising && m.stage >= float64(s.pond.Top()) {
		s.top = true
		s.note(Overtopped, -1)
	}
	if !m.float {
		return false
	}
	for i := range s.gates {
		g := &s.gates[i]
		f := g.gate.Float
		if f == nil {
			continue
		}
		drains := f.Start > f.Stop
		switch {
		case m.stage == float64(f.Start) && rising == drains && !g.running:
			g.running, switched = true, true
			s.note(PumpStarted, i)
		case m.stage == float64(f.Stop) && rising != drains && g.running:
			g.running, switched = false, true
			s.note(PumpStopped, i)
		}
	}
	return switched
}

// kinks are the present kinks of a gate's outlet.
func (g *gateState) kinks(h, z float64, dst []units.Length) []units.Length {
	if g.way < 0 {
		z = h
	}
	return g.law.Kinks(units.Length(z), dst)
}

func (s *Solver) kinkGap(h, z float64, gate, ord int) float64 {
	g := &s.gates[gate]
	s.kinkBuf = g.kinks(h, z, s.kinkBuf[:0])
	level := h
	if g.way < 0 {
		level = z
	}
	if ord >= len(s.kinkBuf) {
		return 1
	}
	return level - float64(s.kinkBuf[ord])
}

// kinkSides notes on which side of every moving kink the pond stands.
func (s *Solver) kinkSides(h, z float64) {
	for i := range s.gates {
		g := &s.gates[i]
		g.side = g.side[:0]
		if g.way == 0 || g.law == nil {
			continue
		}
		level := h
		if g.way < 0 {
			level = z
		}
		s.kinkBuf = g.kinks(h, z, s.kinkBuf[:0])
		for _, k := range s.kinkBuf {
			g.side = append(g.side, level > float64(k))
		}
	}
}

// fixed reports whether a kink is one the solver stops at anyway: a sill, or
// the tailwater itself.
func (s *Solver) fixed(k, tail float64) bool {
	if math.Abs(k-tail) < 1e-9 {
		return true
	}
	i, _ := slices.BinarySearch(s.breaks.sills, k-1e-12)
	return i < len(s.breaks.sills) && s.breaks.sills[i] <= k+1e-12
}
