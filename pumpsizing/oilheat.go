package pumpsizing

import (
	"errors"
	"math"
	"time"

	"pondwright.example/units"
)

// Reservoir is the oil of the set as one lump of heat that loses to the air in
// proportion to its excess temperature. Count the oil that takes part, not the
// tank's nominal volume.
type Reservoir struct {
	Oil          units.Mass               `json:"oil"`
	SpecificHeat units.SpecificHeat       `json:"specificHeat,omitzero"` // zero: 1900 J/(kg K), mineral oil at 40 C
	Loss         units.ThermalConductance `json:"loss"`                  // skin, hoses and cooler together; zero: none
	Ambient      units.Temperature        `json:"ambient"`
	Start        units.Temperature        `json:"start"`
	Limit        units.Temperature        `json:"limit"` // the user's limit; seals of mineral-oil sets suffer above about 82 C, 60 to 65 C is good practice
}

// usualOilHeat is the specific heat of mineral oil at 40 C (1800 to 2100,
// from memory).
const usualOilHeat = 1900.0

// OilHeating is the course of the oil temperature under a constant heat.
type OilHeating struct {
	Heat         units.Power       `json:"heat"`
	InitialRate  units.TempRate    `json:"initialRate"`
	TimeConstant time.Duration     `json:"timeConstant"` // zero without heat loss: the rise is linear
	HasPlateau   bool              `json:"hasPlateau"`
	Plateau      units.Temperature `json:"plateau,omitzero"` // final temperature, when HasPlateau
	ReachesLimit bool              `json:"reachesLimit"`
	TimeToLimit  time.Duration     `json:"timeToLimit"` // zero: already there when ReachesLimit, else never
	Notices      []units.Notice    `json:"notices,omitempty"`
}

// Validate reports every problem of the data.
func (r Reservoir) Validate() error { return r.check("pumpsizing.Reservoir") }

func (r Reservoir) check(fn string) error {
	return errors.Join(
		units.Positive(fn, "oil", r.Oil.Kilograms(), "kg"),
		units.NonNegative(fn, "specificHeat", r.SpecificHeat.JoulesPerKilogramKelvin(), "J/(kg K)"),
		units.NonNegative(fn, "loss", r.Loss.WattsPerKelvin(), "W/K"),
		units.Within(fn, "ambient", r.Ambient.Celsius(), -50, 60, "°C"),
		units.Within(fn, "start", r.Start.Celsius(), -50, 200, "°C"),
		units.Within(fn, "limit", r.Limit.Celsius(), 0, 200, "°C"))
}

func (r Reservoir) capacity() float64 { // J/K
	c := r.SpecificHeat.JoulesPerKilogramKelvin()
	if c == 0 {
		c = usualOilHeat
	}
	return c * r.Oil.Kilograms()
}

// Under returns the course of the oil temperature under heat p:
//
//	m c dT/dt = P - UA (T - Ta)
//	T = Tinf + (T0 - Tinf) exp(-t/tau),  Tinf = Ta + P/UA,  tau = m c/UA
//	t to limit = tau ln((Tinf - T0)/(Tinf - Tlim))
//
// A limit above the plateau is never reached; a start at the limit is there at
// once; without heat loss the rise is linear, P/(m c).
//
// Validity: constant heat. Losses fall as the oil thins by friction and rise by
// leakage, so this is a screening; take the heat of the running temperature.
// Errors: ErrDomain for data that cannot be or a negative heat.
// Source: lumped heat balance, closed form.
func (r Reservoir) Under(p units.Power) (OilHeating, error) {
	const fn = "pumpsizing.Reservoir.Under"
	if err := errors.Join(r.check(fn), units.NonNegative(fn, "p", p.Watts(), "W")); err != nil {
		return OilHeating{}, err
	}
	mc, ua := r.capacity(), r.Loss.WattsPerKelvin()
	t0, ta, lim := r.Start.Kelvins(), r.Ambient.Kelvins(), r.Limit.Kelvins()
	out := OilHeating{Heat: p, InitialRate: units.TempRate(finite((p.Watts() - ua*(t0-ta)) / mc))}
	if final := ta + p.Watts()/ua; ua > 0 && !math.IsInf(final, 0) {
		out.HasPlateau = true
		out.Plateau = units.KelvinScale(final)
		out.TimeConstant = seconds(mc / ua)
	}
	switch s := r.secondsTo(p.Watts()); {
	case t0 >= lim:
		out.ReachesLimit = true
	case !math.IsInf(s, 1):
		out.ReachesLimit, out.TimeToLimit = true, seconds(s)
	}
	if out.ReachesLimit {
		out.Notices = note(nil, CodeOilTemperature, units.Warning, "oil", lim-273.15, lim-273.15, "°C",
			"the oil reaches its limit of "+num(lim-273.15)+" °C after "+num(out.TimeToLimit.Minutes())+" min", "lumped heat balance")
	}
	return out, nil
}

// secondsTo is the time to the limit under heat p in W, infinite when never.
func (r Reservoir) secondsTo(p float64) float64 {
	mc, ua := r.capacity(), r.Loss.WattsPerKelvin()
	t0, ta, lim := r.Start.Kelvins(), r.Ambient.Kelvins(), r.Limit.Kelvins()
	switch inf := ta + p/ua; {
	case t0 >= lim:
		return 0
	case ua == 0 && p == 0:
		return math.Inf(1)
	case ua*(lim-t0) < 1e-9*p: // no loss to speak of: linear
		return mc * (lim - t0) / (p - ua*(t0-ta))
	case !(inf > lim):
		return math.Inf(1)
	default:
		// ln((inf-t0)/(inf-lim)), written to stay exact for a distant plateau.
		return mc / ua * math.Log1p((lim-t0)/(inf-lim))
	}
}

// At returns the oil temperature after a time under heat p.
//
// Errors: ErrDomain for data that cannot be, a negative heat or time, and where
// the answer passes 1000 C, where no oil is left.
// Source: see Under.
func (r Reservoir) At(after time.Duration, p units.Power) (units.Temperature, error) {
	const fn = "pumpsizing.Reservoir.At"
	err := errors.Join(r.check(fn), units.NonNegative(fn, "p", p.Watts(), "W"), units.NonNegative(fn, "after", after.Seconds(), "s"))
	if err != nil {
		return units.Temperature{}, err
	}
	mc, ua, t := r.capacity(), r.Loss.WattsPerKelvin(), after.Seconds()
	t0, ta := r.Start.Kelvins(), r.Ambient.Kelvins()
	// T0 + (P/UA - (T0-Ta)) (1 - exp(-t/tau)), exact as UA goes to zero.
	rise := (p.Watts() - ua*(t0-ta)) * t / mc
	if x := ua * t / mc; x > 0 {
		rise *= -math.Expm1(-x) / x
	}
	if math.IsNaN(rise) || math.IsInf(rise, -1) {
		return units.Temperature{}, overflow(fn)
	}
	if t0+rise > 1273.15 {
		return units.Temperature{}, &units.InputError{Func: fn, Field: "after", Value: t, Unit: "s", Reason: "the oil would have burnt before"}
	}
	return units.KelvinScale(t0 + rise), nil
}

// CoolerConductance returns the heat loss in W/K, tank included, that holds the
// oil at the limit under heat p: UA = P/(Tlim - Ta).
//
// Errors: ErrDomain for data that cannot be, and for a limit not above the
// ambient temperature: no cooler to air reaches it.
// Source: lumped heat balance.
func (r Reservoir) CoolerConductance(p units.Power) (units.ThermalConductance, error) {
	const fn = "pumpsizing.Reservoir.CoolerConductance"
	err := errors.Join(r.check(fn), units.NonNegative(fn, "p", p.Watts(), "W"))
	if err == nil && !r.Ambient.Less(r.Limit) {
		err = &units.InputError{Func: fn, Field: "limit", Value: r.Limit.Celsius(), Unit: "°C", Min: r.Ambient.Celsius(), Max: 200, Reason: "not above the ambient temperature"}
	}
	if err != nil {
		return nan[units.ThermalConductance](), err
	}
	return sound(fn, units.ThermalConductance(p.Watts()/(r.Limit.Kelvins()-r.Ambient.Kelvins())))
}

// seconds turns a number of seconds into a Duration, held at the largest one.
func seconds(s float64) time.Duration {
	if s >= math.MaxInt64/1e9 {
		return math.MaxInt64
	}
	return time.Duration(s * 1e9)
}
