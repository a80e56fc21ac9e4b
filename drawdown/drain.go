package drawdown

import (
	"math"
	"slices"
	"time"

	"pondwright.example/internal/ode"
	"pondwright.example/units"
)

// Solver is a plan made ready to run many times: for another opening, or in a
// loop over tides. Set-up validates and allocates; runs allocate nothing once
// their event list has grown. A Solver is for one goroutine.
//
// The state is the volume V, so that the water balance
//
//	dV/dt = inflows + rain - evaporation - seepage - sum of gates
//
// closes to rounding: every term is counted by the same formula that moves V.
// The integrator is Dormand and Prince's pair of orders 5 and 4. It stops at
// everything that is not smooth: moves and windows, corners of the tide, stages
// at which the area's slope or an outlet's law changes, tailwater passing an
// outlet's sill, and the flap's meeting of pond and tailwater. There the flow
// goes as the square root of the head; the solver changes variable to that root
// while a flap closes, and to the root of the time since it opened.
type Solver struct {
	plan    Plan
	pond    Storage
	table   *StageTable // the pond when it is a table, for its segments
	tol     float64
	horizon float64
	free    float64 // level told beside a free outfall
	start   float64 // volume at the start
	target  float64 // volume at the target

	gates  []gateState
	series [][]rateStep // inflows, then rain
	loss   float64      // evaporation and seepage, m/s
	leak   float64      // conductance, 1/s
	areal  int          // index of the area integral among the quadratures, or -1
	leaky  int          // likewise of the leakage
	first  int          // of the gates
	next   *nextDoor

	reachOfTail float64 // how near to the tailwater is on it, m

	marks  []mark    // rising
	static []float64 // breaks of the calendar that do not move with the opening
	tail   *tailCurve
	breaks tailBreaks
	plain  bool // an outlet or the tailwater does not tell its corners

	main, close *ode.Solver
	surfaceFn   func(float64, []float64) float64
	closing     closingLaw
	runs        int // since the last inverse question
	run
}

// mark is a stage at which a step must end, as a volume.
type mark struct {
	volume, stage float64
	corner        bool // of the stage table
	target, watch bool
	float, sill   bool
}

// gateState is a gate as numbers and its present setting.
type gateState struct {
	gate         *Gate
	after        []float64 // moves, seconds after the opening
	runs, pauses []span
	kinked       []kinked // its outlets in order, the first being the gate's own

	outlet   Outlet
	law      KinkedOutlet // the present outlet if it tells its kinks, else nil
	fraction float64
	running  bool // its float
	open     bool // by schedule and float
	way      int8 // +1 out, -1 in, 0 nothing passes
	side     []bool
}

// kinked is an outlet and, where it tells them, its kinks.
type kinked struct {
	outlet Outlet
	law    KinkedOutlet
}

// NewSolver validates a plan and makes it ready to run. It fails with every
// problem the plan's Validate finds, and when an outlet answers with something
// that is no discharge.
func NewSolver(plan Plan) (*Solver, error) {
	if err := plan.Validate(); err != nil {
		return nil, err
	}
	if err := plan.probe(); err != nil {
		return nil, err
	}
	s := &Solver{plan: plan, pond: plan.Pond, tol: plan.Tolerance, areal: -1, leaky: -1}
	if t, ok := plan.Pond.(StageTable); ok {
		s.table = &t
	}
	if s.tol == 0 {
		s.tol = defaultTolerance
	}
	s.horizon = plan.Horizon.Seconds()
	if plan.Horizon == 0 {
		s.horizon = defaultHorizon.Seconds()
	}
	s.free = float64(plan.Pond.Bottom()) - freeOutfallDepth
	s.start = float64(plan.Pond.Volume(plan.Stage))
	s.target = float64(plan.Pond.Volume(plan.Target))
	s.tail = curveOf(plan.Tailwater, plan.Start)
	if s.tail != nil {
		s.plain = s.tail.plain
		for i := range s.tail.pieces {
			s.tail.pieces[i].table = newTailTable(&s.tail.pieces[i])
		}
	}
	for i := range plan.Inflows {
		s.series = append(s.series, plan.Inflows[i].steps(plan.Start))
	}
	for i := range plan.Rain {
		s.series = append(s.series, plan.Rain[i].steps(plan.Start))
	}
	s.setGates()
	quads := len(s.gates)
	s.first = 1
	if n := plan.Neighbour; n != nil {
		s.next = &nextDoor{pond: n.Pond, through: n.Through, runs: spansOf(n.Runs, plan.Start), start: float64(n.Pond.Volume(n.Stage))}
		s.first = 2
		quads++
	}
	if s.loss = float64(plan.Evaporation + plan.Seepage); plan.Evaporation != 0 || plan.Seepage != 0 {
		s.areal = 1 + quads
		quads++
	}
	if plan.Leakage != nil {
		s.leak = float64(plan.Leakage.Conductance)
		s.leaky = 1 + quads
		quads++
	}
	sills := s.sills()
	s.setMarks(sills)
	s.setCalendar()
	s.breaks = tailBreaks{curve: s.tail, sills: sills}
	if err := s.setIntegrators(quads); err != nil {
		return nil, err
	}
	s.surfaceFn = s.surface
	s.setReach()
	s.closing.s = s
	return s, nil
}

func (s *Solver) setIntegrators(quads int) error {
	scale := math.Max(s.start, 1e-3*float64(s.pond.Volume(s.pond.Top())))
	abs := []float64{0.1 * s.tol * scale}
	var err error
	if s.main, err = ode.New(s.first, quads+1-s.first, ode.Options{RelTol: math.Max(s.tol, 1e-15), AbsTol: abs}); err != nil {
		return err
	}
	// A vanishing head is followed in volume and time. The time decides nothing
	// but the tailwater it is met at, so it needs no more than its share.
	s.close, err = ode.New(2, quads, ode.Options{RelTol: math.Max(s.tol, 1e-15), AbsTol: []float64{abs[0], s.tol * 3e3}})
	s.scratch = make([]float64, 2+quads)
	s.y = make([]float64, 2+quads)
	s.present = make([]float64, len(s.series))
	return err
}

func (s *Solver) setGates() {
	for i := range s.plan.Gates {
		g := &s.plan.Gates[i]
		st := gateState{gate: g, runs: spansOf(g.Runs, s.plan.Start), pauses: spansOf(g.Pauses, s.plan.Start)}
		outlet := g.Outlet
		add := func(o Outlet) {
			law, _ := o.(KinkedOutlet)
			if law == nil {
				s.plain = true
			}
			st.kinked = append(st.kinked, kinked{o, law})
		}
		add(outlet)
		for _, m := range g.Moves {
			if m.Outlet != nil {
				outlet = m.Outlet
			}
			add(outlet)
			st.after = append(st.after, m.After.Seconds())
		}
		s.gates = append(s.gates, st)
	}
}

// sills asks every outlet for its kinks beside a tailwater far below.
func (s *Solver) sills() []float64 {
	var out []float64
	var buf []units.Length
	for i := range s.gates {
		for _, k := range s.gates[i].kinked {
			if k.law == nil {
				continue
			}
			buf = k.law.Kinks(units.Length(s.free), buf[:0])
			for _, h := range buf {
				if float64(h) > s.free+freeOutfallDepth/2 {
					out = append(out, float64(h))
				}
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// setMarks lists every fixed stage at which a step must end.
func (s *Solver) setMarks(sills []float64) {
	at := map[float64]*mark{}
	add := func(h float64) *mark {
		if at[h] == nil {
			at[h] = &mark{stage: h, volume: float64(s.pond.Volume(units.Length(h)))}
		}
		return at[h]
	}
	bottom, top := float64(s.pond.Bottom()), float64(s.pond.Top())
	inside := func(h float64) bool { return h >= bottom && h <= top }
	for _, h := range s.pond.Corners() {
		add(float64(h)).corner = true
	}
	add(bottom)
	add(top)
	add(float64(s.plan.Target)).target = true
	for _, h := range s.plan.Watch {
		if inside(float64(h)) {
			add(float64(h)).watch = true
		}
	}
	for _, h := range sills {
		if inside(h) {
			add(h).sill = true
		}
	}
	for i := range s.gates {
		g := s.gates[i].gate
		if f := g.Float; f != nil {
			for _, h := range []units.Length{f.Start, f.Stop} {
				if inside(float64(h)) {
					add(float64(h)).float = true
				}
			}
		}
		for _, c := range g.Clogging {
			if inside(float64(c.Stage)) {
				add(float64(c.Stage))
			}
		}
	}
	for _, m := range at {
		s.marks = append(s.marks, *m)
	}
	slices.SortFunc(s.marks, func(a, b mark) int {
		switch {
		case a.stage < b.stage:
			return -1
		case a.stage > b.stage:
			return 1
		}
		return 0
	})
}

// setCalendar lists the breaks that do not move with the opening.
func (s *Solver) setCalendar() {
	for i := range s.gates {
		s.static = edges(s.static, s.gates[i].runs)
		s.static = edges(s.static, s.gates[i].pauses)
	}
	for _, st := range s.series {
		for _, r := range st {
			s.static = append(s.static, r.t)
		}
	}
	if s.next != nil {
		s.static = edges(s.static, s.next.runs)
	}
	if s.tail != nil {
		s.static = append(s.static, s.tail.end)
	}
	s.static = append(s.static, s.horizon)
	slices.Sort(s.static)
	moving := 1
	for i := range s.gates {
		moving += len(s.gates[i].after)
	}
	s.calendar = make([]float64, 0, len(s.static)+moving)
}

// Run drains the pond for an opening (zero: the plan's own). The Outcome is a
// plain value; Events, Hydrograph and Windows of this run are read from the
// Solver until the next.
//
// It fails when the opening lies before the plan's start, with ErrNoSolution
// when the tailwater's data begin after the start, and with ErrNoConvergence when
// the integrator cannot go on.
func (s *Solver) Run(opening time.Time) (Outcome, error) {
	if opening.IsZero() {
		opening = s.plan.Opening
	}
	if !opening.IsZero() && opening.Before(s.plan.Start) {
		return Outcome{}, &units.InputError{Func: "drawdown.Solver.Run", Field: "opening", Value: opening.Sub(s.plan.Start).Hours(), Unit: "h",
			Reason: "the opening lies before the plan's start"}
	}
	return s.runAt(s.plan.openingSeconds(opening))
}

func (s *Solver) runAt(opening float64) (Outcome, error) {
	if s.tail != nil && s.tail.begin > 0 {
		return Outcome{}, &units.InputError{Func: "drawdown.Solver.Run", Field: "tailwater", Value: s.tail.begin / 3600, Unit: "h", Kind: units.ErrNoSolution,
			Reason: "the tailwater's data begin that long after the plan's start"}
	}
	s.begin(opening)
	for !s.done {
		if err := s.leg(); err != nil {
			return Outcome{}, err
		}
	}
	return s.outcome(), nil
}

// Run validates the plan and drains the pond once, with everything recorded.
func (p Plan) Run() (Result, error) {
	s, err := NewSolver(p)
	if err != nil {
		return Result{}, err
	}
	s.Record(true)
	out, err := s.Run(time.Time{})
	if err != nil {
		return Result{}, err
	}
	return s.result(out), nil
}

// volumeScale is a volume that rounding cannot tell from none.
func (s *Solver) volumeScale() float64 { return 1e-13 * (1 + math.Abs(s.start)) }
