package drawdown

import (
	"math"
	"time"

	"pondwright.example/units"
)

// CodeNoReturn marks a pond below the point of no return.
const CodeNoReturn = "DRAW_NO_RETURN"

// Refill asks whether a half-drained pond can still be filled again before its
// animals run out of oxygen.
type Refill struct {
	Pond Storage      `json:"-"`
	Flow units.Flow   `json:"flow"` // that can be turned in
	Safe units.Length `json:"safe"` // stage at which the stock is safe again
	Now  units.Length `json:"now"`  // present stage

	// Oxygen is the budget of the water while it is refilled; its Volume is set
	// to the pond's at each stage. Leave its Inflow at zero to count on none of
	// the oxygen of the new water (on the safe side), or set it to Flow.
	Oxygen OxygenBudget `json:"oxygen"`
}

// ReturnPoint is the answer of [Refill].
type ReturnPoint struct {
	// Stage is the point of no return: from any stage below it the refill takes
	// longer than the oxygen lasts. It is the pond's bottom when even an almost
	// empty pond can be refilled in time.
	Stage units.Length `json:"stage"`

	RefillNow time.Duration  `json:"refillNow"` // from the present stage to safety
	OxygenNow time.Duration  `json:"oxygenNow"` // to the limit at the present stage; with Lasts it does not run out
	Lasts     bool           `json:"lasts"`     // the oxygen limit is not met at the present stage at all
	GoBack    bool           `json:"goBack"`    // the present stage can still be refilled in time
	RefillBy  time.Duration  `json:"refillBy"`  // how long the refill may be put off; zero when it is too late or Lasts
	Notices   []units.Notice `json:"notices"`
}

// NoReturn finds the stage below which a refill cannot save the stock:
//
//	(V(safe) - V(h))/q = time to the oxygen limit in V(h),
//
// the left falling and the right rising with the stage. The oxygen time is that
// of [OxygenBudget.Outlook] in the water of the stage at the start of the
// refill, so the growing volume is not counted on: the answer errs towards
// turning back too early.
//
// Errors: stages outside the pond, Safe not above the bottom, a flow of zero or
// less, and those of the oxygen budget; ErrNoSolution when even the water just
// below Safe cannot be refilled in time.
//
// Source: mass balance of water and oxygen, bisection.
func (r Refill) NoReturn() (ReturnPoint, error) {
	const fn = "drawdown.Refill.NoReturn"
	if r.Pond == nil {
		return ReturnPoint{}, &units.InputError{Func: fn, Field: "pond", Value: math.NaN(), Reason: "no pond was given"}
	}
	lo, hi := float64(r.Pond.Bottom()), float64(r.Pond.Top())
	all := []error{units.Within(fn, "safe", float64(r.Safe), lo, hi, "m"), units.Within(fn, "now", float64(r.Now), lo, hi, "m"), units.Positive(fn, "flow", float64(r.Flow), "m3/s")}
	if r.Safe == r.Pond.Bottom() {
		all = append(all, &units.InputError{Func: fn, Field: "safe", Value: float64(r.Safe), Unit: "m", Reason: "must lie above the pond's bottom"})
	}
	if err := joinErrors(all); err != nil {
		return ReturnPoint{}, err
	}
	p := ReturnPoint{}
	var err error
	p.RefillNow = r.refill(float64(r.Now))
	if p.OxygenNow, p.Lasts, err = r.oxygen(float64(r.Now)); err != nil {
		return ReturnPoint{}, units.AtField("oxygen", err)
	}
	p.GoBack = p.Lasts || p.RefillNow <= p.OxygenNow
	if p.GoBack && !p.Lasts {
		p.RefillBy = p.OxygenNow - p.RefillNow
	}
	inTime := func(h float64) (bool, error) {
		t, lasts, err := r.oxygen(h)
		return lasts || r.refill(h) <= t, err
	}
	bottom := float64(r.Pond.Bottom())
	low, high := bottom+1e-6*(float64(r.Safe)-bottom), float64(r.Safe)
	ok, err := inTime(low)
	if err != nil {
		return ReturnPoint{}, units.AtField("oxygen", err)
	}
	if ok {
		p.Stage = r.Pond.Bottom()
		return p, nil
	}
	if ok, err = inTime(high - 1e-6*(high-bottom)); err != nil {
		return ReturnPoint{}, units.AtField("oxygen", err)
	} else if !ok {
		return p, &units.InputError{Func: fn, Field: "flow", Value: float64(r.Flow) * 3600, Unit: "m3/h", Kind: units.ErrNoSolution,
			Reason: "at no stage below the safe one does the refill come before the oxygen limit: more flow, aeration or a lower safe stage is needed"}
	}
	for high-low > 1e-9*(float64(r.Safe)-bottom) {
		mid := (low + high) / 2
		if ok, _ = inTime(mid); ok {
			high = mid
		} else {
			low = mid
		}
	}
	p.Stage = units.Length(high)
	if !p.GoBack {
		p.Notices = append(p.Notices, units.Notice{Code: CodeNoReturn, Severity: units.Danger, Field: "now", Value: float64(r.Now), Limit: float64(p.Stage), Unit: "m",
			Message: "the pond stands below the point of no return: a refill now comes after the oxygen limit; go on with the harvest, aerate, or bring water from elsewhere"})
	}
	return p, nil
}

// refill is the time from a stage to safety.
func (r Refill) refill(h float64) time.Duration {
	v := float64(r.Pond.Volume(r.Safe)) - float64(r.Pond.Volume(units.Length(h)))
	return secondsOf(math.Min(math.Max(0, v)/float64(r.Flow), 1e9))
}

// oxygen is the time to the limit in the water of a stage.
func (r Refill) oxygen(h float64) (t time.Duration, lasts bool, err error) {
	return oxygenIn(r.Oxygen, r.Pond, h)
}

func oxygenIn(b OxygenBudget, pond Storage, h float64) (t time.Duration, lasts bool, err error) {
	b.Volume = pond.Volume(units.Length(h))
	o, err := b.Outlook()
	if err != nil {
		return 0, false, err
	}
	return o.TimeToLimit, !o.Meets, nil
}
