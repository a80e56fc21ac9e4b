package drawdown

import "math"

// leg goes on by one step, one closing of the flap, or one wait of a dry pond.
func (s *Solver) leg() error {
	end := s.nextBreak()
	if s.empty {
		s.idle(end)
		return nil
	}
	if s.riding || s.mayRide() {
		s.ride(end)
		return nil
	}
	if s.mayClose(end) && s.closeFlap(end) || s.mayRunDry(end) && s.runDry(end) {
		return nil
	}
	if s.creepOntoSill(end) || s.mayStiff() && s.implicit(end) {
		return nil
	}
	stop := end
	if s.plain {
		stop = math.Min(stop, s.t+PlainOutletStep.Seconds())
	}
	x := stop
	if s.rooted {
		x = math.Sqrt(stop - s.rootedAt)
	}
	before := s.main.Slope()[0]
	v0 := s.main.Y()[0]
	if err := s.main.Step(x); err != nil {
		return err
	}
	s.steps++
	kind := s.inspect(v0, before)
	if kind == seekNothing {
		if s.main.T() == x {
			s.t = stop
		} else {
			s.t = s.real(s.main.T())
		}
		s.keep()
		if s.t == end {
			s.pass()
		} else if s.rooted {
			s.rootSteps++
			if s.rootSteps >= 3 || s.t-s.rootedAt > 300 {
				s.unroot()
			}
		}
		return nil
	}
	s.t = s.real(s.main.T())
	s.keep()
	s.happen(kind)
	return nil
}

func (s *Solver) real(x float64) float64 {
	if s.rooted {
		return s.rootedAt + x*x
	}
	return x
}

// nextBreak is the next time at which a step must end.
func (s *Solver) nextBreak() float64 {
	end := s.calendar[s.nextDate]
	if s.tail == nil {
		return end
	}
	s.nextTail = s.breaks.after(s.nextTail, s.t)
	for i := s.nextTail; ; i++ {
		if i >= len(s.breaks.list) && !s.breaks.grow() {
			return end
		}
		b := s.breaks.list[i]
		if b.t >= end {
			return end
		}
		if !b.soft || s.shut || s.riding {
			return b.t
		}
	}
}

// pass handles the breaks due now.
func (s *Solver) pass() {
	s.wary = false
	for s.nextTail < len(s.breaks.list) && s.breaks.list[s.nextTail].t <= s.t {
		s.piece = &s.tail.pieces[s.breaks.list[s.nextTail].next]
		s.nextTail++
	}
	if s.calendar[s.nextDate] > s.t {
		return
	}
	for s.nextDate < len(s.calendar) && s.calendar[s.nextDate] <= s.t {
		s.nextDate++
	}
	switch {
	case s.t >= s.horizon:
		s.finish(HorizonReached)
		return
	case s.tail != nil && s.t >= s.tail.end:
		s.note(TailwaterEnded, -1)
		s.finish(TailwaterDataEnded)
		return
	}
	if s.t == s.opening {
		s.note(GatesOpened, -1)
	}
	s.settle(false)
}

// finish ends the run.
func (s *Solver) finish(r StopReason) {
	s.collect()
	s.trueUp()
	if s.shut {
		s.locked += s.t - s.lockAt
	}
	if s.still {
		s.gaps = append(s.gaps, span{s.stillAt, s.t})
	}
	s.done, s.reason = true, r
}

// reach records the target.
func (s *Solver) reach(t float64) {
	if s.reached {
		return
	}
	s.reached, s.ready = true, t
	s.note(TargetReached, -1)
	if !s.plan.RunOn {
		s.t = t
		s.finish(TargetMet)
	}
}

// settle sets every gate and series for the present time and level. Unless the
// side of the tailwater was just told by an event, it is read off the levels.
func (s *Solver) settle(told bool) {
	if s.done {
		return
	}
	s.collect()
	s.riding = false
	if s.rooted {
		s.unroot()
	}
	v := s.main.Y()[0]
	before := s.low
	s.place(v, 0)
	if s.placed {
		s.catchUp(before)
		if s.done {
			return
		}
	}
	s.placed = true
	h := s.levelOf(v)
	z := s.tailAt(s.t)
	if !told {
		s.above = h > z
	}
	s.gap = h - z
	s.steady = 0
	for i, st := range s.series {
		s.present[i] = rateAt(st, s.t)
		s.steady += s.present[i]
	}
	since := s.t - s.opening
	was := s.shut
	s.shut = false
	for i := range s.gates {
		if s.gates[i].set(s.t, since, s.above || s.tail == nil) {
			s.shut = true
		}
	}
	if s.next != nil {
		s.next.open = len(s.next.runs) == 0 || inside(s.next.runs, s.t)
		s.see(0)
	}
	s.lock(was)
	s.watchFlow()
	s.kinkSides(h, z)
	s.main.Restart()
	slope := s.main.Slope()[0]
	s.place(v, slope)
	s.gapRate = slope/s.areaOf(h) - s.tailSlope(s.t)
	if next := 0.5 * math.Pow(s.tol, 0.2) * math.Max(v, 1e-3*s.start) / math.Abs(slope); next > 0 && !math.IsInf(next, 0) {
		s.main.Propose(next)
	} else {
		s.main.Propose(3600)
	}
	if v <= s.volumeScale() && slope < 0 {
		s.dry()
	}
	s.riding = !s.empty && s.mayRide()
}

// catchUp books the marks that a step brought back to another event turns out to
// have passed, by no more than its tolerance.
func (s *Solver) catchUp(before int) {
	v := s.main.Y()[0]
	for i := before; i > s.low && i >= 0; i-- {
		if s.marks[i].volume-v > s.volumeScale() {
			s.passFlags(s.marks[i], false)
		}
	}
	for i := before + 1; i <= s.low; i++ {
		if v-s.marks[i].volume > s.volumeScale() {
			s.passFlags(s.marks[i], true)
		}
	}
}

// set gives a gate its outlet, fraction and way; it reports whether the tide
// holds it shut.
func (g *gateState) set(t, since float64, above bool) bool {
	const slack = 1e-6 // s, below anything a clock tells
	g.outlet, g.law, g.fraction = g.kinked[0].outlet, g.kinked[0].law, 1
	g.open = since >= -slack
	if len(g.runs) > 0 {
		g.open = inside(g.runs, t+slack)
	} else {
		for i, a := range g.after {
			if a <= since+slack {
				g.outlet, g.law, g.fraction = g.kinked[i+1].outlet, g.kinked[i+1].law, g.gate.Moves[i].Fraction
			}
		}
	}
	g.open = g.open && g.fraction > 0 && g.running && !inside(g.pauses, t+slack)
	g.way = 0
	switch {
	case !g.open:
	case above || g.gate.Backflow == Pumped:
		g.way = 1
	case g.gate.Backflow == BothWays:
		g.way = -1
	default:
		return true
	}
	return false
}

// lock keeps the account of the hours the tide holds a gate shut.
func (s *Solver) lock(was bool) {
	if s.shut && !was {
		s.lockAt = s.t
		s.note(TideShut, -1)
	}
	if !s.shut && was {
		s.locked += s.t - s.lockAt
		s.note(TideFreed, -1)
	}
}

// watchFlow keeps the account of the stretches after the opening in which no
// gate is open to the way out.
func (s *Solver) watchFlow() {
	still := s.t >= s.opening
	for i := range s.gates {
		still = still && s.gates[i].way <= 0
	}
	if still && !s.still {
		s.stillAt = s.t
	}
	if s.still && !still && s.t > s.stillAt {
		s.gaps = append(s.gaps, span{s.stillAt, s.t})
	}
	s.still = still
}

// place finds the marks the pond lies between; on a mark, the slope decides.
func (s *Solver) place(v, slope float64) {
	low, high := -1, len(s.marks)
	for high-low > 1 {
		if mid := (low + high) / 2; s.marks[mid].volume <= v {
			low = mid
		} else {
			high = mid
		}
	}
	if low >= 0 && v-s.marks[low].volume <= s.volumeScale() && (slope < 0 || slope == 0 && low > 0) {
		low--
	} else if low+1 < len(s.marks) && s.marks[low+1].volume-v <= s.volumeScale() && slope > 0 {
		low++
	}
	s.setLow(low)
}

func (s *Solver) setLow(low int) {
	s.low = low
	s.cut()
}

func (s *Solver) tailAt(t float64) float64 {
	if s.piece == nil {
		return s.free
	}
	return s.piece.at(t)
}

func (s *Solver) tailSlope(t float64) float64 {
	if s.piece == nil {
		return 0
	}
	return s.piece.slope(t)
}

// root starts a rooted stretch; unroot ends it.
func (s *Solver) root() {
	s.rooted, s.rootedAt, s.rootSteps = true, s.t, 0
	s.main.Continue(0, s.main.Y(), 5)
}

func (s *Solver) unroot() {
	x := s.main.T()
	next := s.main.Proposed() * 2 * x
	s.rooted = false
	s.main.Continue(s.t, s.main.Y(), next)
}
