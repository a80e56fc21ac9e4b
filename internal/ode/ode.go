// Package ode integrates ordinary differential equations y' = f(t, y) that are
// smooth between known or sought corners: Dormand and Prince's embedded pair of
// orders 5 and 4 with dense output, events located on the dense output, and
// restarts where the law changes.
//
// A Solver is stepped. Step never passes the time it is given, so a corner known
// in time is a step end. A corner known as a zero of some function is found by
// Locate inside the last step, and Truncate moves the end of the step back to
// it. Advance does both for a list of events. After set-up nothing allocates.
//
// Components that do not feed back (a volume counted out, an integral) are
// declared as quadratures: they ride along for a seventh of the price and do not
// steer the step. Sums that the equations conserve, such as volume in the pond
// plus volume counted out, are conserved to rounding at step ends and at every
// point of the dense output.
package ode

import (
	"fmt"
	"math"

	"pondwright.example/units"
)

// System is the right-hand side. Derivatives writes y' at time t into dydt and
// must not keep or change y. Quadratures come after the states in dydt; their
// entries of y are not brought up to date within a step and must not be read.
type System interface {
	Derivatives(t float64, y, dydt []float64)
}

// Func makes a function a System.
type Func func(t float64, y, dydt []float64)

// Derivatives calls f.
func (f Func) Derivatives(t float64, y, dydt []float64) { f(t, y, dydt) }

// Options steer a Solver. Zero values mean the defaults named.
type Options struct {
	RelTol   float64   // per step and state; zero means 1e-8
	AbsTol   []float64 // one for all states or one each; nil means 1e-10
	MaxStep  float64   // zero means none
	MaxSteps int       // tried steps between two Starts; zero means 1,000,000
}

// Solver holds the state of one integration and its workspace. Build it with
// New; it is not safe for concurrent use.
type Solver struct {
	n, m     int // states, and states with quadratures
	rel      float64
	abs      []float64
	maxStep  float64
	maxSteps int

	sys     System
	t, told float64
	h       float64 // length of the last accepted step as integrated, before any Truncate
	next    float64 // proposed length of the next step
	dir     float64 // +1 or -1, sense of time
	slope   slope   // where f(t, y) is to be found
	dense   bool    // the interpolant's coefficients are up to date
	stepped bool    // there is a last step to interpolate
	tries   int     // tried steps since Start
	evals   int     // calls of Derivatives since Start

	y, yold, w                 []float64 // now, at the start of the last step, stage values
	k1, k2, k3, k4, k5, k6, k7 []float64
	r2, r3, r4, r5             []float64 // interpolant of the last step
	probe                      []float64 // scratch for Locate
	fired                      int       // event that ended the last Advance
}

// slope says which workspace holds f(t, y).
type slope uint8

const (
	unknown slope = iota
	inFirst       // k1
	inLast        // k7: the last stage of the step just made is the first of the next
)

// New prepares a solver for the given numbers of states and of quadratures,
// which follow the states in y.
func New(states, quadratures int, o Options) (*Solver, error) {
	const fn = "ode.New"
	if states < 1 || quadratures < 0 {
		return nil, &units.InputError{Func: fn, Field: "states", Value: float64(states), Reason: "at least one state and no negative count", Kind: units.ErrDomain}
	}
	if o.RelTol == 0 {
		o.RelTol = 1e-8
	}
	if err := units.Within(fn, "RelTol", o.RelTol, 1e-15, 0.1, ""); err != nil {
		return nil, err
	}
	if o.MaxStep == 0 {
		o.MaxStep = math.Inf(1)
	}
	if !(o.MaxStep > 0) {
		return nil, &units.InputError{Func: fn, Field: "MaxStep", Value: o.MaxStep, Reason: "must be above zero", Kind: units.ErrDomain}
	}
	if o.MaxSteps == 0 {
		o.MaxSteps = 1_000_000
	}
	abs := make([]float64, states)
	switch len(o.AbsTol) {
	case 0, 1, states:
	default:
		return nil, &units.InputError{Func: fn, Field: "AbsTol", Value: float64(len(o.AbsTol)), Reason: "one tolerance for all states or one for each", Kind: units.ErrDomain}
	}
	for i := range abs {
		abs[i] = 1e-10
		if len(o.AbsTol) > 0 {
			abs[i] = o.AbsTol[min(i, len(o.AbsTol)-1)]
		}
		if err := units.Positive(fn, fmt.Sprintf("AbsTol[%d]", i), abs[i], ""); err != nil {
			return nil, err
		}
	}
	m := states + quadratures
	buf := make([]float64, 15*m)
	cut := func() []float64 {
		s := buf[:m:m]
		buf = buf[m:]
		return s
	}
	return &Solver{n: states, m: m, rel: o.RelTol, abs: abs, maxStep: o.MaxStep, maxSteps: o.MaxSteps,
		y: cut(), yold: cut(), w: cut(), k1: cut(), k2: cut(), k3: cut(), k4: cut(), k5: cut(), k6: cut(), k7: cut(),
		r2: cut(), r3: cut(), r4: cut(), r5: cut(), probe: cut(), fired: -1}, nil
}

// Start sets the system, the time and the state (quadratures included) and
// forgets everything before. Time may later run either way. A zero first step
// asks for an automatic one.
func (s *Solver) Start(sys System, t0 float64, y0 []float64, first float64) {
	s.sys, s.t, s.told = sys, t0, t0
	copy(s.y, y0)
	copy(s.yold, y0)
	s.next, s.dir = math.Abs(first), 1
	s.slope, s.dense, s.stepped = unknown, false, false
	s.tries, s.evals, s.fired = 0, 0, -1
}

// Continue goes on from another time or state with a new first step (zero: an
// automatic one), keeping the system and the counts of work.
func (s *Solver) Continue(t0 float64, y0 []float64, first float64) {
	s.t, s.told = t0, t0
	copy(s.y, y0)
	s.next = math.Abs(first)
	s.slope, s.dense, s.stepped, s.fired = unknown, false, false, None
}

// T returns the time reached.
func (s *Solver) T() float64 { return s.t }

// Y returns the state at T. The slice is the solver's own: a caller that
// changes it calls Restart.
func (s *Solver) Y() []float64 { return s.y }

// Previous returns the time at which the last step began.
func (s *Solver) Previous() float64 { return s.told }

// Evaluations and Tries count the calls of Derivatives and the tried steps
// since Start.
func (s *Solver) Evaluations() int { return s.evals }

// Tries is described at Evaluations.
func (s *Solver) Tries() int { return s.tries }

// Slope returns y' at T. The slice is the solver's own.
func (s *Solver) Slope() []float64 {
	switch s.slope {
	case inLast:
		return s.k7
	case unknown:
		// Written to k7, so that the interpolant of the last step, which has k1,
		// stays whole.
		s.form()
		s.sys.Derivatives(s.t, s.y, s.k7)
		s.evals++
		s.slope = inLast
		return s.k7
	}
	return s.k1
}

// Proposed returns the length the next step would have if nothing ended it.
func (s *Solver) Proposed() float64 { return s.next }

// Propose sets the length of the next step; zero asks for an automatic one.
func (s *Solver) Propose(h float64) { s.next = math.Abs(h) }

// Restart tells the solver that the law or the state has changed at T, so that
// nothing of the last step is carried over but the length of the next one.
func (s *Solver) Restart() { s.slope, s.stepped = unknown, false }

// begin brings f(t, y) into k1.
func (s *Solver) begin() {
	switch s.slope {
	case unknown:
		s.sys.Derivatives(s.t, s.y, s.k1)
		s.evals++
	case inLast:
		s.k1, s.k7 = s.k7, s.k1
	}
	s.slope = inFirst
}

// Error says where an integration stopped and why. errors.Is reports Kind.
type Error struct {
	T      float64 // time reached
	Step   float64 // length last tried
	Reason string
	Kind   error // units.ErrNoConvergence or units.ErrDomain
}

// Error gives the reason, the time and the step.
func (e *Error) Error() string {
	return fmt.Sprintf("ode: %s: %s at t = %.17g, step %.6g", e.Kind, e.Reason, e.T, e.Step)
}

// Unwrap returns the kind, so that errors.Is(err, units.ErrNoConvergence) works.
func (e *Error) Unwrap() error { return e.Kind }
