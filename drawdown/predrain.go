package drawdown

import (
	"math"
	"time"

	"pondwright.example/units"
)

// CodePreDrainTorn marks a pond for which no stage suits both the oxygen and
// the night.
const CodePreDrainTorn = "DRAW_PREDRAIN_TORN"

// PreDrain asks how far to lower the pond the day before: far enough for the
// night to finish the rest, not so far that the animals run short of oxygen.
type PreDrain struct {
	Night   Plan          `json:"night"`   // the night's plan; its Stage is what is sought
	Opening time.Time     `json:"opening"` // when the gates will be opened that night
	ReadyBy time.Time     `json:"readyBy"` // when the basin must be ready
	Oxygen  OxygenBudget  `json:"oxygen"`  // of the held water; its Volume is set to the pond's
	Hold    time.Duration `json:"hold"`    // how long the held water must last without supply reaching its limit
}

// PreDrainTarget is the answer of [PreDrain].
type PreDrainTarget struct {
	Highest  units.Length   `json:"highest"` // from which the night is still in time
	Lowest   units.Length   `json:"lowest"`  // at which the oxygen still lasts
	Stage    units.Length   `json:"stage"`   // where to stop: the highest, for the most water
	Feasible bool           `json:"feasible"`
	Ready    time.Time      `json:"ready"` // from Stage
	Notices  []units.Notice `json:"notices"`
}

// Target finds the stages between which the pond may be left the evening before:
// the highest from which the night's draining, opened when told, is ready in
// time, and the lowest at which the oxygen lasts for Hold. Stage is the highest;
// when it lies below the lowest nothing suits, Feasible is false and a notice
// says what would help.
//
// The search for the highest takes the ready time to rise with the stage, which
// holds without level-switched pumps, and finds a tide's cliff as what it is: a
// stage above which the night is lost.
//
// Errors: those of the plan and of the budget; ErrNoSolution when the night is
// late even from just above its target.
//
// Source: bisection on forward runs and on the oxygen budget.
func (d PreDrain) Target() (PreDrainTarget, error) {
	const fn = "drawdown.PreDrain.Target"
	p := d.Night
	if err := p.Validate(); err != nil {
		return PreDrainTarget{}, units.AtField("night", err)
	}
	if d.Hold < 0 || !d.ReadyBy.After(d.Opening) || d.Opening.Before(p.Start) {
		return PreDrainTarget{}, &units.InputError{Func: fn, Field: "readyBy", Value: d.ReadyBy.Sub(d.Opening).Hours(), Unit: "h", Reason: "the opening must follow the plan's start and come before the asked hour, and the hold must not be negative"}
	}
	p.RunOn = false
	ready := func(h float64) (time.Time, error) {
		q := p
		q.Stage = units.Length(h)
		s, err := NewSolver(q)
		if err != nil {
			return time.Time{}, err
		}
		o, err := s.Run(d.Opening)
		return o.Ready, err
	}
	inTime := func(h float64) (bool, error) {
		t, err := ready(h)
		return err == nil && !t.IsZero() && !t.After(d.ReadyBy), err
	}
	t := PreDrainTarget{}
	low, high := float64(p.Target)+1e-4, float64(p.Pond.Top())
	switch ok, err := inTime(low); {
	case err != nil:
		return t, err
	case !ok:
		return t, &units.InputError{Func: fn, Field: "readyBy", Value: d.ReadyBy.Sub(d.Opening).Hours(), Unit: "h", Kind: units.ErrNoSolution,
			Reason: "even from just above the target the night is late: inflow, tide or opening binds, not the stage"}
	}
	if ok, err := inTime(high); err != nil {
		return t, err
	} else if ok {
		low = high
	}
	for high-low > 1e-4 {
		mid := (low + high) / 2
		ok, err := inTime(mid)
		if err != nil {
			return t, err
		}
		if ok {
			low = mid
		} else {
			high = mid
		}
	}
	t.Highest, t.Stage = units.Length(low), units.Length(low)
	var err error
	if t.Ready, err = ready(low); err != nil {
		return t, err
	}
	lasts := func(h float64) (bool, error) {
		o, ever, err := oxygenIn(d.Oxygen, p.Pond, h)
		return ever || o >= d.Hold, err
	}
	a, b := float64(p.Pond.Bottom())+1e-6, float64(p.Pond.Top())
	okA, err := lasts(a)
	if err != nil {
		return t, units.AtField("oxygen", err)
	}
	okB, err := lasts(b)
	if err != nil {
		return t, units.AtField("oxygen", err)
	}
	switch {
	case okA:
		t.Lowest = p.Pond.Bottom()
	case !okB:
		t.Lowest = units.Length(math.Inf(1))
	default:
		for b-a > 1e-4 {
			if ok, _ := lasts((a + b) / 2); ok {
				b = (a + b) / 2
			} else {
				a = (a + b) / 2
			}
		}
		t.Lowest = units.Length(b)
	}
	t.Feasible = t.Lowest <= t.Highest
	if math.IsInf(float64(t.Lowest), 0) {
		t.Lowest = p.Pond.Top()
	}
	if !t.Feasible {
		t.Notices = append(t.Notices, units.Notice{Code: CodePreDrainTorn, Severity: units.Danger, Field: "stage", Value: float64(t.Highest), Limit: float64(t.Lowest), Unit: "m",
			Message: "the night needs the pond lower than the oxygen lasts: aerate, keep fresh water running, open earlier, or pump besides"})
	}
	return t, nil
}
