package drawdown

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// FlushCycles is the refilling and pumping out of a catch basin to fetch the
// animals that the first emptying left.
type FlushCycles struct {
	Basin   units.Volume `json:"basin"`   // pumped out each time
	Refill  units.Flow   `json:"refill"`  // water let in
	PumpOut units.Flow   `json:"pumpOut"` // by the pump, animals and water

	// RefillRuns tells that the inflow is left on while the pump empties the
	// basin, so that the pump has it to lift too.
	RefillRuns bool `json:"refillRuns,omitempty"`

	// Removal is the share of the animals present that one cycle takes out,
	// with 0.4 to 0.9 usual (common practice). Removals, when given, are the
	// shares of the first, second ... cycle; the last goes on.
	Removal  float64   `json:"removal,omitempty"`
	Removals []float64 `json:"removals,omitempty"`
}

// FlushPlan is the work of a number of cycles.
type FlushPlan struct {
	Cycles    int           `json:"cycles"`
	Residual  float64       `json:"residual"` // share of the animals left after them
	Recovered units.Mass    `json:"recovered"`
	Left      units.Mass    `json:"left"`
	Cycle     time.Duration `json:"cycle"` // one refill and pump-out
	Time      time.Duration `json:"time"`  // of all
	Water     units.Volume  `json:"water"` // let in, all cycles

	Notices []units.Notice `json:"notices,omitempty"`
}

// CodeFlushRefill tells that refilling, not pumping, takes most of the time.
const CodeFlushRefill = "DRAW_FLUSH_REFILL"

// maxCycles is where a plan stops counting.
const maxCycles = 1000

// Validate reports every problem of the cycles at once.
func (f FlushCycles) Validate() error {
	const fn = "drawdown.FlushCycles"
	all := []error{
		units.Positive(fn, "basin", float64(f.Basin), "m3"),
		units.Positive(fn, "refill", float64(f.Refill), "m3/s"),
		units.Positive(fn, "pumpOut", float64(f.PumpOut), "m3/s"),
	}
	if len(f.Removals) == 0 {
		all = append(all, removalWithin("removal", f.Removal))
	}
	for i, p := range f.Removals {
		all = append(all, removalWithin(fmt.Sprintf("removals[%d]", i), p))
	}
	if f.RefillRuns && f.PumpOut > 0 && !(f.PumpOut > f.Refill) {
		all = append(all, &units.InputError{Func: fn, Field: "pumpOut", Value: float64(f.PumpOut), Unit: "m3/s", Min: float64(f.Refill), Max: math.Inf(1),
			Kind: units.ErrNoSolution, Reason: "the pump cannot empty a basin that fills as fast"})
	}
	return errors.Join(all...)
}

func removalWithin(field string, p float64) error {
	if p > 0 && p <= 1 {
		return nil
	}
	return &units.InputError{Func: "drawdown.FlushCycles", Field: field, Value: p, Min: 0, Max: 1, Reason: "the share taken out by a cycle must be above 0 and at most 1"}
}

func (f FlushCycles) removal(cycle int) float64 {
	switch n := len(f.Removals); {
	case n == 0:
		return f.Removal
	case cycle < n:
		return f.Removals[cycle]
	default:
		return f.Removals[n-1]
	}
}

// Residual returns the share of the animals left after a number of cycles.
//
// Equation: r = product of (1 - p_i). Source: by definition. Errors: as
// Validate, or a negative number of cycles.
func (f FlushCycles) Residual(cycles int) (float64, error) {
	err := f.Validate()
	if cycles < 0 || cycles > maxCycles {
		err = errors.Join(err, units.Within("drawdown.FlushCycles", "cycles", float64(cycles), 0, maxCycles, ""))
	}
	if err != nil {
		return math.NaN(), err
	}
	r := 1.0
	for i := range cycles {
		r *= 1 - f.removal(i)
	}
	return r, nil
}

// Needed returns the fewest cycles that leave no more than the share residual
// of the animals.
//
// Equation: n = ceil(ln r/ln(1-p)) for equal cycles. A share met exactly but
// for rounding counts as met. Source: by definition. Errors: as Validate,
// residual not above 0 and at most 1.
func (f FlushCycles) Needed(residual float64) (int, error) {
	err := f.Validate()
	if !(residual > 0 && residual <= 1) {
		err = errors.Join(err, &units.InputError{Func: "drawdown.FlushCycles", Field: "residual", Value: residual, Min: 0, Max: 1,
			Reason: "the share that may stay must be above 0 and at most 1"})
	}
	if err != nil {
		return 0, err
	}
	r := 1.0
	for n := 0; n <= maxCycles; n++ {
		if r <= residual*(1+1e-12) {
			return n, nil
		}
		r *= 1 - f.removal(n)
	}
	return 0, &units.InputError{Func: "drawdown.FlushCycles", Field: "residual", Value: residual, Kind: units.ErrNoSolution,
		Reason: fmt.Sprintf("not reached in %d cycles", maxCycles)}
}

// cycle returns the seconds of refilling and of pumping out.
func (f FlushCycles) cycle() (refill, pump float64) {
	out := float64(f.PumpOut)
	if f.RefillRuns {
		out -= float64(f.Refill)
	}
	return float64(f.Basin) / float64(f.Refill), float64(f.Basin) / out
}

// Plan returns time, water and animals of a number of cycles on stock animals
// in the basin.
//
// Source: by definition: time n (V/Qin + V/Qout), water n V and, when the
// refill runs through the pumping, Qin for that time too.
func (f FlushCycles) Plan(stock units.Mass, cycles int) (FlushPlan, error) {
	r, err := f.Residual(cycles)
	if err = errors.Join(err, units.NonNegative("drawdown.FlushCycles", "stock", float64(stock), "kg")); err != nil {
		return FlushPlan{}, err
	}
	fill, pump := f.cycle()
	if total := (fill + pump) * math.Max(1, float64(cycles)); !(total < 1e9) {
		return FlushPlan{}, &units.InputError{Func: "drawdown.FlushCycles", Field: "refill", Value: float64(f.Refill), Unit: "m3/s",
			Kind: units.ErrNoSolution, Reason: "the cycles would take decades"}
	}
	p := FlushPlan{Cycles: cycles, Residual: r, Left: units.Mass(r) * stock, Recovered: units.Mass(1-r) * stock,
		Cycle: time.Duration((fill + pump) * 1e9), Water: units.Volume(cycles) * f.Basin}
	p.Time = time.Duration(cycles) * p.Cycle
	if f.RefillRuns {
		p.Water += units.Volume(float64(cycles) * float64(f.Refill) * pump)
	}
	if cycles > 0 && fill > 2*pump {
		p.Notices = append(p.Notices, units.Notice{Code: CodeFlushRefill, Severity: units.Info, Field: "refill", Value: fill / 60, Limit: pump / 60, Unit: "min",
			Message: fmt.Sprintf("refilling takes %.0f minutes of a cycle and pumping %.0f: more inflow, not a bigger pump, shortens it", fill/60, pump/60)})
	}
	return p, nil
}

// NextFlush is what one more cycle brings and costs, in the user's currency.
type NextFlush struct {
	Catch units.Mass    `json:"catch"` // expected
	Time  time.Duration `json:"time"`
	Water units.Volume  `json:"water"`
	Net   float64       `json:"net"` // value of the catch less cost of the time
	Worth bool          `json:"worth"`
}

// Next returns the value of one more flush when left animals are still in the
// basin and done cycles have been run: price is per kilogram of animals, cost
// per hour of crew and machines.
//
// Source: expected value, by definition.
func (f FlushCycles) Next(left units.Mass, done int, pricePerKilogram, costPerHour float64) (NextFlush, error) {
	const fn = "drawdown.FlushCycles.Next"
	err := errors.Join(units.NonNegative(fn, "left", float64(left), "kg"),
		units.NonNegative(fn, "price", pricePerKilogram, "per kg"), units.NonNegative(fn, "cost", costPerHour, "per hour"),
		units.Within(fn, "done", float64(done), 0, maxCycles, ""))
	one, planErr := f.Plan(0, 1)
	if err = errors.Join(err, planErr); err != nil {
		return NextFlush{}, err
	}
	n := NextFlush{Catch: units.Mass(f.removal(done)) * left, Time: one.Cycle, Water: one.Water}
	n.Net = float64(n.Catch)*pricePerKilogram - n.Time.Hours()*costPerHour
	n.Worth = n.Net > 0
	return n, nil
}

// RemovalFromCatches returns the share of the animals present that a cycle
// takes, estimated from the catches of two cycles in a row, and the animals
// left after both.
//
// Equation: p = 1 - c2/c1, left = c1/p - c1 - c2. Validity: a closed stock and
// equal effort; the estimate is rough when the second catch is nearly the
// first. Errors: catches not positive; units.ErrNoSolution when the second is
// not smaller.
//
// Source: two-catch estimate, Seber & Le Cren (1967), Journal of Animal Ecology
// 36, 631-643.
func RemovalFromCatches(first, second units.Mass) (removal float64, left units.Mass, err error) {
	const fn = "drawdown.RemovalFromCatches"
	nan := math.NaN()
	if err := errors.Join(units.Positive(fn, "first", float64(first), "kg"), units.NonNegative(fn, "second", float64(second), "kg")); err != nil {
		return nan, units.Mass(nan), err
	}
	if second >= first {
		return nan, units.Mass(nan), &units.InputError{Func: fn, Field: "second", Value: float64(second), Unit: "kg", Min: 0, Max: float64(first),
			Kind: units.ErrNoSolution, Reason: "the catch did not fall, so it does not tell how many are left"}
	}
	removal = 1 - float64(second/first)
	return removal, units.Mass(float64(first)/removal) - first - second, nil
}
