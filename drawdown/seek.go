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

// inspect looks for the first event within the step just made, goes back to it
// and returns its kind. v0 and slope0 belong to the start of the step.
func (s *Solver) inspect(v0, slope0 float64) seek {
	xa, xb := s.main.Previous(), s.main.T()
	v1, slope1 := s.main.Y()[0], s.main.Slope()[0]
	h1, z1 := s.levelOf(v1), s.tailAt(s.real(xb))
	best, at := seekNothing, xb
	value, gate, ord := 0.0, 0, 0
	try := func(kind seek, val float64, g, o int, ga, gb, until float64) {
		s.seek, s.seekValue, s.seekGate, s.seekOrd = kind, val, g, o
		if x, err := s.main.Locate(s.surfaceFn, xa, until, ga, gb); err == nil && (best == seekNothing || x < at) {
			best, at, value, gate, ord = kind, x, val, g, o
		}
	}
	const tiny = 1e-300

	// Fixed stages: the pond is known to lie between its two marks.
	{
		val := s.marks[max(s.low, 0)].volume // a pond at its bottom that filled a little may empty again
		if v1 < val-s.volumeScale() {
			try(seekLower, val, 0, 0, math.Max(v0-val, tiny), v1-val, xb)
		} else if slope0 < 0 && slope1 > 0 && tangents(v0-val, slope0, v1-val, slope1, xb-xa) < 0 {
			if x, g := s.dip(seekLower, val, xa, xb); g < 0 {
				try(seekLower, val, 0, 0, math.Max(v0-val, tiny), g, x)
			}
		}
	}
	if s.low+1 < len(s.marks) {
		if val := s.marks[s.low+1].volume; v1 > val {
			try(seekUpper, val, 0, 0, math.Min(v0-val, -tiny), v1-val, xb)
		}
	}
	// The tailwater: crossed at the end of the step, or twice within it.
	if s.piece != nil {
		gap := h1 - z1
		rate := slope1/s.areaOf(h1) - s.tailSlope(xb)
		side := tiny
		if !s.above {
			side = -tiny
		}
		ga := s.gap
		if (ga > 0) != s.above || ga == 0 {
			ga = side
		}
		switch {
		case (gap > 0) != s.above && math.Abs(gap) > gapNoise:
			try(seekTail, 0, 0, 0, ga, gap, xb)
		case s.rooted:
		case s.above && s.gapRate < 0 && rate > 0 && tangents(s.gap, s.gapRate, gap, rate, xb-xa) < 0,
			!s.above && s.gapRate > 0 && rate < 0 && tangents(-s.gap, -s.gapRate, -gap, -rate, xb-xa) < 0:
			if x, g := s.dip(seekTail, 0, xa, xb); (g > 0) != s.above && g != 0 {
				try(seekTail, 0, 0, 0, ga, g, x)
			}
		}
		s.gap, s.gapRate = gap, rate
	}
	// Kinks that move with the tailwater.
	for i := range s.gates {
		g := &s.gates[i]
		if g.way == 0 || g.law == nil || len(g.side) == 0 {
			continue
		}
		s.kinkBuf = g.kinks(h1, z1, s.kinkBuf[:0])
		level, tail := h1, z1
		if g.way < 0 {
			level, tail = z1, h1
		}
		for j, k := range s.kinkBuf {
			if j >= len(g.side) {
				break
			}
			d := level - float64(k)
			switch {
			case d == 0:
			case s.fixed(float64(k), tail):
				g.side[j] = d > 0
			case (d > 0) != g.side[j]:
				ga := -tiny
				if g.side[j] {
					ga = tiny
				}
				try(seekKink, 0, i, j, ga, d, xb)
			}
		}
	}
	if best == seekNothing {
		return seekNothing
	}
	s.goBack(best, value, gate, ord, xa, at)
	return best
}

// goBack ends the step at the event at x: retaken there for accuracy and
// shifted onto the surface.
func (s *Solver) goBack(kind seek, value float64, gate, ord int, xa, x float64) {
	s.seek, s.seekValue, s.seekGate, s.seekOrd = kind, value, gate, ord
	if x-xa <= 1e-14*math.Abs(xa) {
		s.main.Rewind()
	} else {
		s.main.Retake(x)
		s.correct(kind, x-xa)
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
			s.root0 -= dx * dx // the shift is along the tangent: so is its time
			s.main.Restart()   // and the slope on this clock goes with x
		}
	}
}

// tangents is the height at which the tangents at the two ends of a valley
// meet: below the lowest point of a convex curve.
func tangents(a, slopeA, b, slopeB, width float64) float64 {
	x := (b - a - slopeB*width) / (slopeA - slopeB)
	return a + slopeA*math.Max(0, math.Min(width, x))
}

// dip finds where within the step the surface comes nearest to zero or furthest
// beyond it, by golden section on the dense output.
func (s *Solver) dip(kind seek, value, a, b float64) (x, g float64) {
	s.seek, s.seekValue = kind, value
	sense := 1.0
	if kind == seekTail && !s.above {
		sense = -1
	}
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
