package drawdown

import (
	"errors"
	"math"
	"time"

	"pondwright.example/units"
)

// OverflowRate returns the surface overflow rate of a settling basin: what
// settles faster than it is caught in an ideal basin.
//
// Equation: v0 = Q/A. Source: Hazen (1904), On sedimentation, Transactions
// ASCE 53, 45-71. Errors: inputs not positive.
func OverflowRate(flow units.Flow, area units.Area) (units.Velocity, error) {
	const fn = "drawdown.OverflowRate"
	if err := errors.Join(units.Positive(fn, "flow", float64(flow), "m3/s"), units.Positive(fn, "area", float64(area), "m2")); err != nil {
		return units.Velocity(math.NaN()), err
	}
	return flow.Through(area), nil
}

// SettlingArea returns the least area of an ideal settling basin that catches
// everything settling at v or faster.
//
// Equation: A = Q/v. Validity: even flow without short cuts; real basins need
// more, see [SettledFraction]. Source: Hazen (1904). Errors: inputs not
// positive.
func SettlingArea(flow units.Flow, v units.Velocity) (units.Area, error) {
	const fn = "drawdown.SettlingArea"
	if err := errors.Join(units.Positive(fn, "flow", float64(flow), "m3/s"), units.Positive(fn, "v", float64(v), "m/s")); err != nil {
		return units.Area(math.NaN()), err
	}
	return units.Area(float64(flow) / float64(v)), nil
}

// SettlingVolume returns the volume that holds a flow for a detention time.
//
// Equation: V = Q t. Source: by definition. Errors: flow not positive,
// detention negative.
func SettlingVolume(flow units.Flow, detention time.Duration) (units.Volume, error) {
	const fn = "drawdown.SettlingVolume"
	if err := errors.Join(units.Positive(fn, "flow", float64(flow), "m3/s"), units.NonNegative(fn, "detention", detention.Seconds(), "s")); err != nil {
		return units.Volume(math.NaN()), err
	}
	return flow.Times(detention), nil
}

// Detention returns how long a volume holds a flow.
//
// Equation: t = V/Q. Source: by definition. Errors: inputs not positive, or a
// time too long to count.
func Detention(volume units.Volume, flow units.Flow) (time.Duration, error) {
	const fn = "drawdown.Detention"
	if err := errors.Join(units.Positive(fn, "volume", float64(volume), "m3"), units.Positive(fn, "flow", float64(flow), "m3/s")); err != nil {
		return 0, err
	}
	return volume.At(flow)
}

// SettledFraction returns the share of particles settling at v that a real
// basin of plan area catches, as tanks in series: 1 tank is fully mixed, 3 a
// poor basin, 8 a good one; zero is the ideal basin.
//
// Equation: y = 1 - (1 + v A/(n Q))^-n; ideal y = min(1, v A/Q).
//
// Source: form of Fair & Geyer (1954), Water supply and waste-water disposal,
// from memory; the exact result for n mixed tanks in a row. Errors: inputs not
// positive, tanks negative.
func SettledFraction(v units.Velocity, area units.Area, flow units.Flow, tanks int) (float64, error) {
	const fn = "drawdown.SettledFraction"
	if err := errors.Join(units.NonNegative(fn, "v", float64(v), "m/s"), units.Positive(fn, "area", float64(area), "m2"),
		units.Positive(fn, "flow", float64(flow), "m3/s"), units.Within(fn, "tanks", float64(tanks), 0, 1e6, "")); err != nil {
		return math.NaN(), err
	}
	x := float64(v) * float64(area) / float64(flow)
	if tanks == 0 {
		return math.Min(1, x), nil
	}
	n := float64(tanks)
	return -math.Expm1(-n * math.Log1p(x/n)), nil
}

// StokesVelocity returns the settling velocity of a small sphere: negative
// when it is lighter than the water and rises.
//
// Equation: v = g (rs - rw) d^2/(18 mu).
//
// Validity: Re = v d rw/mu < 0.5; above it the value comes with units.ErrRange
// and overstates; use [FergusonChurchVelocity]. Errors: inputs not positive.
//
// Source: Stokes (1851), Transactions of the Cambridge Philosophical Society 9,
// part II, 8-106.
func StokesVelocity(diameter units.Length, particle, water units.Density, viscosity units.DynamicViscosity) (units.Velocity, error) {
	const fn = "drawdown.StokesVelocity"
	if err := errors.Join(units.Positive(fn, "diameter", float64(diameter), "m"), units.Positive(fn, "particle", float64(particle), "kg/m3"),
		units.Positive(fn, "water", float64(water), "kg/m3"), units.Positive(fn, "viscosity", float64(viscosity), "Pa s")); err != nil {
		return units.Velocity(math.NaN()), err
	}
	d, mu := float64(diameter), float64(viscosity)
	v := standardGravity * float64(particle-water) * d * d / (18 * mu)
	if re := math.Abs(v) * d * float64(water) / mu; !(re < 0.5) {
		return units.Velocity(v), &units.InputError{Func: fn, Field: "Reynolds number", Value: re, Min: 0, Max: 0.5, Kind: units.ErrRange,
			Reason: "too big or too heavy a particle for Stokes' law"}
	}
	return units.Velocity(v), nil
}

// standardGravity is the standard acceleration of free fall, m/s2.
const standardGravity = 9.80665

// Grain is the shape of a grain for [FergusonChurchVelocity]: [NaturalGrain] or
// [SmoothSphere].
type Grain uint8

const (
	NaturalGrain Grain = iota // sieve diameters of natural sand, C1 = 18, C2 = 1.0
	SmoothSphere              // C1 = 18, C2 = 0.4
)

// FergusonChurchVelocity returns the settling velocity of a grain from silt to
// gravel. submerged is the submerged specific gravity (rs - rw)/rw, 1.65 for
// quartz in fresh water.
//
// Equation: v = R g d^2/(C1 nu + sqrt(0.75 C2 R g d^3)).
//
// Validity: 1 um to 0.1 m; beyond it with units.ErrRange. It tends to Stokes'
// law for small grains. Errors: inputs not positive, an unknown grain.
//
// Source: Ferguson & Church (2004), A simple universal equation for grain
// settling velocity, Journal of Sedimentary Research 74, 933-937, eq. 4.
func FergusonChurchVelocity(diameter units.Length, submerged float64, viscosity units.KinematicViscosity, grain Grain) (units.Velocity, error) {
	const fn = "drawdown.FergusonChurchVelocity"
	err := errors.Join(units.Positive(fn, "diameter", float64(diameter), "m"), units.Positive(fn, "submerged", submerged, ""),
		units.Positive(fn, "viscosity", float64(viscosity), "m2/s"))
	if grain > SmoothSphere {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "grain", Value: float64(grain), Reason: "not a named grain"})
	}
	if err != nil {
		return units.Velocity(math.NaN()), err
	}
	c2 := 1.0
	if grain == SmoothSphere {
		c2 = 0.4
	}
	d := float64(diameter)
	rg := submerged * standardGravity
	v := units.Velocity(rg * d * d / (18*float64(viscosity) + math.Sqrt(0.75*c2*rg*d*d*d))) // eq. 4
	if !(d >= 1e-6 && d <= 0.1) {
		return v, &units.InputError{Func: fn, Field: "diameter", Value: d, Unit: "m", Min: 1e-6, Max: 0.1, Kind: units.ErrRange, Reason: "Ferguson & Church 2004"}
	}
	return v, nil
}
