package pumpsizing

import (
	"errors"

	"pondwright.example/units"
)

// Relief is the relief valve of the hydraulic set.
type Relief struct {
	Set    units.GaugePressure `json:"set"`             // setting
	Margin float64             `json:"margin,omitzero"` // least share of the setting to keep free; zero: 0.15
}

const (
	// reliefMargin is kept free because a relief valve cracks at 85 to 90 % of
	// its setting (common practice).
	reliefMargin = 0.15
	// highestRelief is the top of mobile hydraulics (common practice).
	highestRelief = 400e5 // Pa
	psi           = 6894.757293168361
)

// Validate reports every problem of the data. A setting above 400 bar is
// refused: no mobile set carries it, and the number was probably pounds per
// square inch.
func (r Relief) Validate() error { return r.check("pumpsizing.Relief") }

func (r Relief) check(fn string) error {
	set := r.Set.PascalsGauge()
	err := units.Positive(fn, "set", set/1e5, "bar")
	if set > highestRelief {
		bar := set / 1e5
		err = &units.InputError{Func: fn, Field: "set", Value: bar, Unit: "bar", Min: 0, Max: highestRelief / 1e5,
			Reason: num(bar) + " bar is beyond any mobile hydraulic set; if the gauge says psi, " + num(bar) + " psi is " + num(bar*psi/1e5) + " bar"}
	}
	if r.Margin != 0 {
		err = errors.Join(err, units.Within(fn, "margin", r.Margin, 0, 1, ""))
	}
	return err
}

// FreeShare returns the relief margin: the share of the setting that the
// working pressure leaves, (set - working)/set. It is negative when the relief
// is open.
//
// Errors: ErrDomain for a setting that cannot be or a negative working pressure.
// Source: by definition.
func (r Relief) FreeShare(working units.GaugePressure) (float64, error) {
	const fn = "pumpsizing.Relief.FreeShare"
	if err := errors.Join(r.check(fn), units.NonNegative(fn, "working", working.PascalsGauge()/1e5, "bar")); err != nil {
		return nan[float64](), err
	}
	return sound(fn, (r.Set.PascalsGauge()-working.PascalsGauge())/r.Set.PascalsGauge())
}

// notices judges a working pressure, Pa.
func (r Relief) notices(list []units.Notice, working float64) []units.Notice {
	set, keep := r.Set.PascalsGauge(), r.Margin
	if keep == 0 {
		keep = reliefMargin
	}
	limit := (1 - keep) * set
	switch {
	case working >= set:
		return note(list, CodeReliefExceeded, units.Danger, "relief", working/1e5, set/1e5, "bar",
			"the relief valve opens before this duty is reached: the motor stalls and all oil flow turns to heat", "energy balance")
	case working > limit:
		return note(list, CodeReliefMargin, units.Warning, "relief", working/1e5, limit/1e5, "bar",
			"working pressure is within "+percent(keep)+" of the relief setting: the valve cracks and heats the oil", commonPractice)
	}
	return list
}

// Heat returns the heat made by flow q over the relief valve, p Q. With the
// motor stalled it is the whole delivery of the pump.
//
// Errors: ErrDomain for a setting that cannot be or a negative flow.
// Source: energy balance.
func (r Relief) Heat(q units.Flow) (units.Power, error) {
	const fn = "pumpsizing.Relief.Heat"
	if err := errors.Join(r.check(fn), units.NonNegative(fn, "q", q.In(units.LitresPerMinute), "L/min")); err != nil {
		return nan[units.Power](), err
	}
	return sound(fn, units.Power(r.Set.PascalsGauge()*q.CubicMetresPerSecond()))
}

// SinglePassRise returns how much oil warms in one pass over the relief valve,
// p/(rho c).
//
// Errors: ErrDomain for a setting, density or specific heat that cannot be.
// Source: energy balance of a throttling.
func (r Relief) SinglePassRise(rho units.Density, c units.SpecificHeat) (units.TempDelta, error) {
	const fn = "pumpsizing.Relief.SinglePassRise"
	err := errors.Join(r.check(fn), units.Positive(fn, "rho", rho.KilogramsPerCubicMetre(), "kg/m3"), units.Positive(fn, "c", c.JoulesPerKilogramKelvin(), "J/(kg K)"))
	if err != nil {
		return nan[units.TempDelta](), err
	}
	return sound(fn, units.TempDelta(r.Set.PascalsGauge()/(rho.KilogramsPerCubicMetre()*c.JoulesPerKilogramKelvin())))
}

// FlowControl is a set in which the motor takes less than the pump delivers.
type FlowControl struct {
	Delivered units.Flow     `json:"delivered"` // by the pump
	Taken     units.Flow     `json:"taken"`     // by the motor
	Load      units.Pressure `json:"load"`      // at the motor
}

func (c FlowControl) check(fn string) error {
	err := errors.Join(units.NonNegative(fn, "taken", c.Taken.In(units.LitresPerMinute), "L/min"), units.NonNegative(fn, "load", c.Load.In(units.Bars), "bar"),
		units.Positive(fn, "delivered", c.Delivered.In(units.LitresPerMinute), "L/min"))
	if err == nil && c.Taken > c.Delivered {
		err = &units.InputError{Func: fn, Field: "taken", Value: c.Taken.In(units.LitresPerMinute), Unit: "L/min", Min: 0, Max: c.Delivered.In(units.LitresPerMinute), Reason: "more than the pump delivers"}
	}
	return err
}

// BypassHeat returns the heat of a three-port regulator, which sends the
// surplus back at load pressure: p (Qp - Qm).
//
// Errors: ErrDomain for flows or pressure that cannot be.
// Source: energy balance.
func (c FlowControl) BypassHeat() (units.Power, error) {
	if err := c.check("pumpsizing.FlowControl.BypassHeat"); err != nil {
		return nan[units.Power](), err
	}
	return sound("pumpsizing.FlowControl.BypassHeat", units.Power(c.Load.Pascals()*(c.Delivered-c.Taken).CubicMetresPerSecond()))
}

// ThrottleHeat returns the heat of a two-port throttle with the surplus over
// the relief valve: ps (Qp - Qm) + (ps - p) Qm.
//
// Errors: ErrDomain for flows or pressures that cannot be, and for a load at or
// above the relief setting.
// Source: energy balance.
func (c FlowControl) ThrottleHeat(r Relief) (units.Power, error) {
	const fn = "pumpsizing.FlowControl.ThrottleHeat"
	if err := errors.Join(c.check(fn), r.check(fn)); err != nil {
		return nan[units.Power](), err
	}
	ps, p := r.Set.PascalsGauge(), c.Load.Pascals()
	if !(p < ps) {
		return nan[units.Power](), &units.InputError{Func: fn, Field: "load", Value: p / 1e5, Unit: "bar", Min: 0, Max: ps / 1e5, Reason: "must be below the relief setting"}
	}
	return sound(fn, units.Power(ps*(c.Delivered-c.Taken).CubicMetresPerSecond()+(ps-p)*c.Taken.CubicMetresPerSecond()))
}
