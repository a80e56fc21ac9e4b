package drawdown

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// Overnight is a stocked pond standing at a lowered stage: may it wait for
// tomorrow night, and can it still be filled up again? Demands scale with the
// stage: animals by their whole mass, sediment by the wet area, water by the
// volume.
type Overnight struct {
	Pond  Storage    `json:"-"`
	Stock units.Mass `json:"stock"`

	Respiration    units.MassSpecificRate `json:"respiration"`
	SedimentDemand units.ArealRate        `json:"sediment_demand,omitempty"`
	WaterDemand    units.Concentration    `json:"water_demand,omitempty"` // taken by plankton and mud in each hour
	Transfer       units.Velocity         `json:"transfer,omitempty"`     // oxygen through the surface, per deficit
	Aeration       units.MassFlow         `json:"aeration,omitempty"`     // standard oxygen transfer rate

	Start units.Concentration `json:"start"`
	Limit units.Concentration `json:"limit"`

	Temperature units.Temperature       `json:"temperature"`
	Salinity    units.PracticalSalinity `json:"salinity,omitempty"`
	Pressure    units.AbsolutePressure  `json:"pressure,omitempty"` // zero means 1 standard atmosphere
}

// At returns the oxygen budget of the pond at a stage, for
// [OxygenBudget.Outlook].
func (o Overnight) At(stage units.Length) (OxygenBudget, error) {
	const fn = "drawdown.Overnight"
	if o.Pond == nil {
		return OxygenBudget{}, &units.InputError{Func: fn, Field: "pond", Value: math.NaN(), Reason: "no pond was given"}
	}
	v, a := float64(o.Pond.Volume(stage)), float64(o.Pond.Area(stage))
	if err := errors.Join(units.Positive(fn, "volume at stage", v, "m3"),
		units.NonNegative(fn, "water_demand", float64(o.WaterDemand), "kg/m3"),
		units.NonNegative(fn, "transfer", float64(o.Transfer), "m/s")); err != nil {
		return OxygenBudget{}, err
	}
	return OxygenBudget{Volume: units.Volume(v), Stock: o.Stock, Respiration: o.Respiration, Start: o.Start, Limit: o.Limit,
		SedimentDemand: o.SedimentDemand, BedArea: units.Area(a), WaterDemand: units.MassFlow(float64(o.WaterDemand) * v / 3600),
		Reaeration: units.Rate(float64(o.Transfer) * a / v), Aeration: o.Aeration,
		Temperature: o.Temperature, Salinity: o.Salinity, Pressure: o.Pressure}, nil
}

// lasts returns how long the oxygen stays above the limit at a stage; an
// infinite time when it always does.
func (o Overnight) lasts(stage float64) (float64, error) {
	b, err := o.At(units.Length(stage))
	if err != nil {
		return 0, err
	}
	out, err := b.Outlook()
	if err != nil {
		return 0, err
	}
	if !out.Meets {
		return math.Inf(1), nil
	}
	return out.TimeToLimit.Seconds(), nil
}

// SafeStage is the answer of [Overnight.SafeStage].
type SafeStage struct {
	Stage units.Length  `json:"stage"` // lowest at which the oxygen lasts
	Lasts time.Duration `json:"lasts"` // there; zero when it lasts for ever, see Always
	// Always tells that the oxygen never meets the limit at this stage.
	Always bool `json:"always"`
}

// SafeStage returns the lowest stage, not above highest, at which the oxygen
// stays above the limit for hold: how far to lower the pond before the night
// of the harvest. It fails with units.ErrNoSolution when even highest does not
// last, with the time it does in the message.
//
// Source: the mass balance of [OxygenBudget.Outlook], by bisection on the
// stage; the oxygen of a lower pond lasts less.
func (o Overnight) SafeStage(highest units.Length, hold time.Duration) (SafeStage, error) {
	const fn = "drawdown.Overnight.SafeStage"
	if err := units.Positive(fn, "hold", hold.Hours(), "h"); err != nil {
		return SafeStage{}, err
	}
	top, err := o.lasts(float64(highest))
	if err != nil {
		return SafeStage{}, err
	}
	if top < hold.Seconds() {
		return SafeStage{}, &units.InputError{Func: fn, Field: "highest", Value: float64(highest), Unit: "m", Kind: units.ErrNoSolution,
			Reason: fmt.Sprintf("even there the oxygen lasts %.1f of the %.1f hours asked; aerate, bring water in, or do not lower the pond", top/3600, hold.Hours())}
	}
	lo, hi := float64(o.Pond.Bottom()), float64(highest)
	for hi-lo > 1e-6 {
		mid := 0.5 * (lo + hi)
		if !(o.Pond.Volume(units.Length(mid)) > 0) {
			lo = mid
			continue
		}
		t, err := o.lasts(mid)
		if err != nil {
			return SafeStage{}, err
		}
		if t >= hold.Seconds() {
			hi = mid
		} else {
			lo = mid
		}
	}
	t, err := o.lasts(hi)
	if err != nil {
		return SafeStage{}, err
	}
	s := SafeStage{Stage: units.Length(hi), Always: !(t < 1e9)}
	if !s.Always {
		s.Lasts = time.Duration(t * 1e9)
	}
	return s, nil
}

// NoReturn is the answer of [Overnight.NoReturn].
type NoReturn struct {
	Stage  units.Length  `json:"stage"`  // below it the stock cannot be saved by refilling
	Refill time.Duration `json:"refill"` // from there up to the safe stage
	Oxygen time.Duration `json:"oxygen"` // that the pond has there

	// Never tells that refilling saves the stock from any stage; Stage is then
	// the bottom of the pond.
	Never bool `json:"never"`
}

// NoReturn returns the stage below which refilling with the given flow up to
// the safe stage takes longer than the oxygen lasts: before it a failed
// harvest can be broken off, past it it must be finished. The oxygen that the
// refill brings is left out, which is the safe side.
//
// Source: refill time (V(safe) - V(h))/Q against the time to the limit of
// [OxygenBudget.Outlook]; the first rises and the second falls with a falling
// stage, so that they meet once.
func (o Overnight) NoReturn(safe units.Length, refill units.Flow) (NoReturn, error) {
	const fn = "drawdown.Overnight.NoReturn"
	if err := units.Positive(fn, "refill", float64(refill), "m3/s"); err != nil {
		return NoReturn{}, err
	}
	if _, err := o.lasts(float64(safe)); err != nil {
		return NoReturn{}, err
	}
	fill := func(h float64) float64 {
		return float64(o.Pond.Volume(safe)-o.Pond.Volume(units.Length(h))) / float64(refill)
	}
	lo, hi := float64(o.Pond.Bottom()), float64(safe)
	for hi-lo > 1e-6 {
		mid := 0.5 * (lo + hi)
		if !(o.Pond.Volume(units.Length(mid)) > 0) {
			lo = mid
			continue
		}
		t, err := o.lasts(mid)
		if err != nil {
			return NoReturn{}, err
		}
		if t >= fill(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	t, err := o.lasts(hi)
	if err != nil {
		return NoReturn{}, err
	}
	n := NoReturn{Stage: units.Length(hi), Refill: time.Duration(math.Min(fill(hi), 9e9) * 1e9), Oxygen: time.Duration(math.Min(t, 9e9) * 1e9)}
	n.Never = hi-float64(o.Pond.Bottom()) < 1e-5
	return n, nil
}
