package pumpsizing

import (
	"errors"
	"fmt"

	"pondwright.example/internal/interp"
	"pondwright.example/units"
)

// EfficiencyPoint is one point of a data sheet's efficiency curve.
type EfficiencyPoint struct {
	Flow       units.Flow `json:"flow"`
	Efficiency float64    `json:"efficiency"` // fraction
}

// EfficiencyData says how good the pump is at its rated speed: either a best
// efficiency and the flow it occurs at, or points off the data sheet.
type EfficiencyData struct {
	Best     float64           `json:"best,omitzero"`     // fraction; with BestFlow
	BestFlow units.Flow        `json:"bestFlow,omitzero"` // at rated speed
	Points   []EfficiencyPoint `json:"points,omitempty"`  // flows rising from above zero, instead of Best
}

// Efficiency is a pump's efficiency curve at rated speed, an immutable value
// built by NewEfficiency.
//
// From a best efficiency e0 at flow Qb it is the parabola
//
//	e = e0 (1 - (1 - Q/Qb)^2)
//
// zero at no flow and at twice the best flow; from points it is monotone cubics
// through them and through zero at no flow. At another speed it is read at the
// flow scaled back to rated speed, that is, efficiency does not change along an
// affinity parabola.
type Efficiency struct {
	best, bestFlow float64 // m3/s
	table          interp.Monotone
	tabulated      bool
	last           float64 // last known flow, m3/s; twice bestFlow for the parabola
}

// goodAnimalPump is the efficiency above which a pump with clearances for
// animals is doubted (common practice: 0.35 to 0.65).
const goodAnimalPump = 0.9

// NewEfficiency builds the curve of d.
//
// Errors: ErrDomain for efficiencies outside (0,1], flows that are not positive
// or do not rise, fewer than two points, or both forms at once.
// Source: the parabola is common practice; it is exact at no flow and at best
// efficiency only.
func NewEfficiency(d EfficiencyData) (Efficiency, error) {
	const fn = "pumpsizing.NewEfficiency"
	if len(d.Points) == 0 {
		err := errors.Join(fraction(fn, "best", d.Best), units.Positive(fn, "bestFlow", d.BestFlow.In(units.CubicMetresPerHour), "m3/h"))
		q := d.BestFlow.CubicMetresPerSecond()
		return Efficiency{best: d.Best, bestFlow: q, last: 2 * q}, err
	}
	var faults []error
	if d.Best != 0 || d.BestFlow != 0 {
		faults = append(faults, &units.InputError{Func: fn, Field: "points", Value: float64(len(d.Points)), Unit: "points",
			Reason: "given beside best and bestFlow: keep one form"})
	}
	if len(d.Points) < 2 {
		faults = append(faults, &units.InputError{Func: fn, Field: "points", Value: 1, Unit: "points", Reason: "two points at least"})
	}
	q, e := []float64{0}, []float64{0}
	out := Efficiency{tabulated: true}
	for i, p := range d.Points {
		at := fmt.Sprintf("points[%d]", i)
		v := p.Flow.CubicMetresPerSecond()
		faults = append(faults, fraction(fn, at+".efficiency", p.Efficiency))
		if !(v > q[i]) {
			faults = append(faults, &units.InputError{Func: fn, Field: at + ".flow", Value: p.Flow.In(units.CubicMetresPerHour), Unit: "m3/h",
				Reason: "flows must rise from above zero"})
		}
		q, e = append(q, v), append(e, p.Efficiency)
		if p.Efficiency > out.best {
			out.best, out.bestFlow = p.Efficiency, v
		}
		out.last = v
	}
	if err := errors.Join(faults...); err != nil {
		return Efficiency{}, err
	}
	var err error
	out.table, err = interp.NewMonotone(q, e)
	return out, err
}

// Best returns the best efficiency and the flow it occurs at, at rated speed.
func (e Efficiency) Best() (efficiency float64, at units.Flow) {
	return e.best, units.Flow(e.bestFlow)
}

// At returns the efficiency at flow q and the speed ratio r = n/rated: zero for
// a flow or ratio that is not above zero and beyond the curve's end.
//
// Source: see Efficiency.
func (e Efficiency) At(q units.Flow, r float64) float64 {
	if x := q.CubicMetresPerSecond() / r; r > 0 && x > 0 && e.last > 0 {
		return e.at(x)
	}
	return 0
}

func (e *Efficiency) at(x float64) float64 {
	if e.tabulated {
		if x > e.last {
			return 0
		}
		return e.table.Value(x)
	}
	u := x / e.bestFlow
	return e.best * max(0, u*(2-u)) // e0 (1 - (1-u)^2)
}

// perFlow is the efficiency divided by the flow, in s/m3, which has a limit at
// no flow where the efficiency itself is zero.
func (e *Efficiency) perFlow(x float64) float64 {
	switch {
	case !e.tabulated:
		return e.best * max(0, 2-x/e.bestFlow) / e.bestFlow
	case x > e.last:
		return 0
	case x < 1e-9*e.last:
		return e.table.Slope(0)
	}
	return e.table.Value(x) / x
}
