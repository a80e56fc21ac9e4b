package transport

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Heat capacities used when none is given, J/(kg K): water at 15 °C, and fish as
// common practice has it.
const (
	WaterSpecificHeat units.SpecificHeat = 4186
	FishSpecificHeat  units.SpecificHeat = 3600
)

// IceToCool returns the ice, melting at 0 °C, that cools water (and what is in
// it) of the given heat capacity by drop to final:
//
//	m = C·ΔT/(L + c_w·T_final)
//
// latent zero means [LatentHeat]. The ice adds its own mass of water to the tank:
// leave room. Ice in a live tank must be free of chlorine and clean enough to
// drink. Half a pound per gallon for 10 °F is the trade's rule; the balance says
// 0.487.
//
// Validity: capacity above zero, drop not negative, final 0 to 40 °C, latent 250
// to 340 kJ/kg; ErrDomain with NaN. Source: heat balance.
func IceToCool(capacity units.HeatCapacity, drop units.TempDelta, final units.Temperature, latent units.SpecificEnergy) (units.Mass, error) {
	const fn = "transport.IceToCool"
	if latent == 0 {
		latent = LatentHeat
	}
	f := final.Celsius()
	err := errors.Join(bounds.Amount(fn, "capacity", float64(capacity), "J/K"), units.Within(fn, "drop", float64(drop), 0, 40, "K"),
		units.Within(fn, "final", f, 0, 40, "°C"), units.Within(fn, "latent", float64(latent)/1e3, 250, 340, "kJ/kg"))
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	return units.Mass(float64(capacity) * float64(drop) / (float64(latent) + float64(WaterSpecificHeat)*f)), nil
}

// IceToHold returns the ice that takes up a heat flow for a time and leaves the
// tank at t: P·time/(L + c_w·t). Validity, errors and source as [IceToCool].
func IceToHold(power units.Power, d time.Duration, t units.Temperature, latent units.SpecificEnergy) (units.Mass, error) {
	const fn = "transport.IceToHold"
	if err := errors.Join(bounds.Amount(fn, "power", float64(power), "W"), bounds.Amount(fn, "d", d.Hours(), "h")); err != nil {
		return units.Mass(math.NaN()), err
	}
	return IceToCool(units.HeatCapacity(float64(power)*d.Seconds()), 1, t, latent)
}

// ChillerPower returns the cooling that brings a heat capacity down by drop in a
// time: C·ΔT/t.
//
// Validity: capacity and drop not negative, time above zero; ErrDomain with NaN.
// Source: heat balance.
func ChillerPower(capacity units.HeatCapacity, drop units.TempDelta, d time.Duration) (units.Power, error) {
	const fn = "transport.ChillerPower"
	err := errors.Join(bounds.Amount(fn, "capacity", float64(capacity), "J/K"), units.Within(fn, "drop", float64(drop), 0, 40, "K"),
		bounds.Positive(fn, "d", d.Seconds(), "s"))
	if err != nil {
		return units.Power(math.NaN()), err
	}
	return units.Power(float64(capacity) * float64(drop) / d.Seconds()), nil
}

// Temper returns the temperature of a tank flushed with water at inflow after the
// given number of turnovers (volume through over volume of the tank):
//
//	T = T_in + (T0 - T_in)·e^(-n)
//
// Validity: 0 to 45 °C, turnovers not negative; ErrDomain beside an unset
// temperature. Source: mixed tank.
func Temper(start, inflow units.Temperature, turnovers float64) (units.Temperature, error) {
	const fn = "transport.Temper"
	a, b := start.Celsius(), inflow.Celsius()
	err := errors.Join(units.Within(fn, "start", a, 0, 45, "°C"), units.Within(fn, "inflow", b, 0, 45, "°C"), bounds.Amount(fn, "turnovers", turnovers, ""))
	if err != nil {
		return units.Temperature{}, err
	}
	return units.Celsius(b + (a-b)*math.Exp(-turnovers)), nil
}

// TemperTime returns the shortest time in which a tank may be flushed from start
// to within near of the inflow so that its temperature never changes faster than
// rate, and the constant flow that does it. With constant flow the change is
// fastest at the start:
//
//	Q = rate·V/|T0 - T_in| ,  t = V/Q·ln(|T0 - T_in|/near)
//
// Common practice is 1 K in 10 to 15 minutes when the difference is above 3 K.
//
// Validity: volume, rate and near above zero, 0 to 45 °C; ErrDomain. Already
// within near: zero. Source: mixed tank.
func TemperTime(water units.Volume, start, inflow units.Temperature, rate units.TempRate, near units.TempDelta) (time.Duration, units.Flow, error) {
	const fn = "transport.TemperTime"
	a, b := start.Celsius(), inflow.Celsius()
	err := errors.Join(bounds.Positive(fn, "water", float64(water), "m3"), units.Within(fn, "start", a, 0, 45, "°C"), units.Within(fn, "inflow", b, 0, 45, "°C"),
		bounds.Positive(fn, "rate", float64(rate), "K/s"), units.Within(fn, "near", float64(near), 1e-3, 45, "K"))
	if err != nil {
		return 0, units.Flow(math.NaN()), err
	}
	d := math.Abs(a - b)
	if d <= float64(near) {
		return 0, 0, nil
	}
	s := d / float64(rate) * math.Log(d/float64(near))
	if err := units.Within(fn, "rate", s/86400, 0, 3650, "days"); err != nil {
		return 0, units.Flow(math.NaN()), err
	}
	return seconds(s), units.Flow(float64(rate) * float64(water) / d), nil
}

// SaltFor returns the salt to dissolve so that water of mass w, at fraction now,
// comes to fraction target:
//
//	m = M·(w1 - w0)/(1 - w1)
//
// with M the mass of the water as it is, salt included. The trade also says "0.5 %"
// for 5 g per litre of water, [SaltByVolume]; the two differ by the fraction
// itself. 0.1 to 0.5 % is usual against the stress of a haul, by species.
//
// Validity: 0 <= now <= target <= 0.26; ErrDomain with NaN. Source: by
// definition of mass fraction.
func SaltFor(water units.Mass, now, target units.MassFraction) (units.Mass, error) {
	const fn = "transport.SaltFor"
	err := errors.Join(bounds.Amount(fn, "water", float64(water), "kg"), units.Within(fn, "target", float64(target), 0, 0.26, "kg/kg"),
		units.Within(fn, "now", float64(now), 0, max(0, float64(target)), "kg/kg"))
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	return water * units.Mass((target-now)/(1-target)), nil
}

// SaltByVolume returns the salt for a strength in mass per volume of water, as
// the trade counts it: c·V.
//
// Validity: 0 to 300 g/L; ErrDomain with NaN. Source: by definition.
func SaltByVolume(water units.Volume, strength units.Concentration) (units.Mass, error) {
	const fn = "transport.SaltByVolume"
	err := errors.Join(bounds.Amount(fn, "water", float64(water), "m3"), units.Within(fn, "strength", float64(strength), 0, 300, "g/L"))
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	return strength.Times(water), nil
}

// Losses is the deaths to allow for.
type Losses struct {
	Load   float64 `json:"load"`   // animals to load for the number delivered
	Mean   float64 `json:"mean"`   // expected to die
	StdDev float64 `json:"stdDev"` // of the number that dies
}

// LossAllowance returns how many animals to load so that the expected number
// delivered alive is delivered, when the shares haul and after die on the way and
// afterwards:
//
//	n = delivered/((1-p1)·(1-p2)) ;  mean n·p, sd √(n·p·(1-p)), p = 1-(1-p1)(1-p2)
//
// Deaths in one tank are not independent: the true spread is wider.
//
// Validity: delivered not negative, shares 0 to 0.9; ErrDomain. Source: binomial
// distribution.
func LossAllowance(delivered, haul, after float64) (Losses, error) {
	const fn = "transport.LossAllowance"
	err := errors.Join(bounds.Amount(fn, "delivered", delivered, ""), units.Within(fn, "haul", haul, 0, 0.9, ""), units.Within(fn, "after", after, 0, 0.9, ""))
	if err != nil {
		return Losses{}, err
	}
	live := (1 - haul) * (1 - after)
	n := delivered / live
	return Losses{Load: n, Mean: n * (1 - live), StdDev: math.Sqrt(n * live * (1 - live))}, nil
}
