package transport

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/internal/oxygen"
	"pondwright.example/internal/seawater"
	"pondwright.example/units"
)

// StandardAtmosphere is used where a pressure is left zero.
const StandardAtmosphere units.AbsolutePressure = 101325

// OxygenShare is the mole fraction of oxygen in dry air. Source: US Standard
// Atmosphere (1976), rounded as in gas-solubility work.
const OxygenShare = 0.20946

const gasConstant = 8.31446261815324 // J/(mol K), CODATA 2018

// SaturationModel is a published fit of oxygen saturation; the zero value is the
// recommended one.
type SaturationModel uint8

// The fits.
const (
	BensonKrause1984 SaturationModel = iota
	GarciaGordon1992
	Weiss1970
)

// OxygenSaturation returns the oxygen in water in equilibrium with moist air at
// temperature t, practical salinity s and total pressure p (zero means
// [StandardAtmosphere]), by Benson & Krause.
//
// Validity: 0 to 40 °C, salinity 0 to 40, 0.5 to 1.1 atm; outside, the value
// comes with ErrRange; NaN and impossible inputs are ErrDomain.
//
// Source: Benson & Krause (1984), Limnology and Oceanography 29, eq. 32 and 24,
// as in Standard Methods 4500-O and USGS Technical Memorandum 2011.03.
func OxygenSaturation(t units.Temperature, s units.PracticalSalinity, p units.AbsolutePressure) (units.Concentration, error) {
	return BensonKrause1984.Saturation(t, s, p)
}

// Saturation is [OxygenSaturation] by the given fit: Garcia & Gordon (1992) eq. 8
// with the Benson & Krause coefficients, or Weiss (1970). The three agree within
// 0.6 %.
func (m SaturationModel) Saturation(t units.Temperature, s units.PracticalSalinity, p units.AbsolutePressure) (units.Concentration, error) {
	if p == 0 {
		p = StandardAtmosphere
	}
	return oxygen.Saturation("transport.OxygenSaturation", oxygen.Equation(m), oxygen.VapourAPHA, t, s, p)
}

// OxygenUnderGas returns the oxygen in water in equilibrium with moist gas of the
// given mole fraction of oxygen (0 to 1) in the dry gas: the saturation with air
// times fraction/0.20946. Pure oxygen over 15 °C water holds 48 mg/L: the most
// that a sealed bag or an oxygen-filled headspace can give.
//
// Validity and errors as [OxygenSaturation]. Source: Henry's law on it.
func OxygenUnderGas(fraction float64, t units.Temperature, s units.PracticalSalinity, p units.AbsolutePressure) (units.Concentration, error) {
	if err := units.Within("transport.OxygenUnderGas", "fraction", fraction, 0, 1, ""); err != nil {
		return units.Concentration(math.NaN()), err
	}
	c, err := OxygenSaturation(t, s, p)
	return c * units.Concentration(fraction/OxygenShare), err
}

// OxygenGasDensity returns the density of oxygen gas in kg/m3 at t and p (zero
// means [StandardAtmosphere]). A gas volume means nothing without both: "normal"
// litres at 0 °C hold 7.7 % more than litres at 70 °F (21.1 °C).
//
//	ρ = p·M/(Z·R·T) ,  Z = 0.9993
//
// Validity: -30 to 60 °C, 0.5 to 2 atm (one Z serves within 0.1 %); ErrDomain
// with NaN.
//
// Source: gas law with CODATA (2018) R; NIST gives 1.429 kg/m3 at 0 °C (from
// memory).
func OxygenGasDensity(t units.Temperature, p units.AbsolutePressure) (units.Density, error) {
	const fn = "transport.OxygenGasDensity"
	if p == 0 {
		p = StandardAtmosphere
	}
	err := errors.Join(units.Within(fn, "t", t.Celsius(), -30, 60, "°C"), units.Within(fn, "p", float64(p)/101325, 0.5, 2, "atm"))
	if err != nil {
		return units.Density(math.NaN()), err
	}
	return units.Density(float64(p) * molarOxygen / 1000 / (0.9993 * gasConstant * t.Kelvins())), nil
}

// OxygenNeed returns the oxygen to let out of a store for animals at an oxygen
// demand: m·M/η, with η the share that dissolves: 0.05 to 0.07 from a coarse
// hose, 0.10 to 0.20 from a fine stone 0.6 to 0.9 m down (common practice), up to
// 0.83 from a pressurised injector (Klar & Parker 1990).
//
// Validity: product and demand not negative, η above 0.01 to 1; ErrDomain with
// NaN. Source: mass balance.
func OxygenNeed(product units.Mass, demand units.MassSpecificRate, efficiency float64) (units.MassFlow, error) {
	const fn = "transport.OxygenNeed"
	err := errors.Join(bounds.Amount(fn, "product", float64(product), "kg"), bounds.Amount(fn, "demand", float64(demand), "kg/(kg s)"),
		units.Within(fn, "efficiency", efficiency, 0.01, 1, ""))
	if err != nil {
		return units.MassFlow(math.NaN()), err
	}
	return units.MassFlow(float64(product) * float64(demand) / efficiency), nil
}

// InjectorEfficiency is the best case of a pressurised injector; a stone in a
// shallow tank is far below it. Source: Klar & Parker (1990), Progressive
// Fish-Culturist 52:41.
const InjectorEfficiency = 0.828

// PressureAt returns the pressure of the standard atmosphere at a height above
// the sea, for saturation and gas flows on a mountain road; a barometer reading
// at the place (not reduced to sea level) is better.
//
//	p = 101325 Pa (1 - 0.0065 h/288.15)^5.2558797 ,  h = 6356766 z/(6356766 + z)
//
// with the height z in metres. Validity: -500 to 11000 m; ErrDomain with NaN.
//
// Source: ISO 2533:1975, Standard Atmosphere; U.S. Standard Atmosphere 1976.
func PressureAt(height units.Length) (units.AbsolutePressure, error) {
	if err := units.Within("transport.PressureAt", "height", float64(height), -500, 11000, "m"); err != nil {
		return units.AbsolutePressure(math.NaN()), err
	}
	return units.AbsolutePressure(seawater.AirPressure(seawater.Geopotential(float64(height)))), nil
}

// Cylinder is a bottle of compressed oxygen.
type Cylinder struct {
	Gas   units.Volume        `json:"gas"`   // as gas at Reference and one atmosphere when full; 244 cubic feet is a large one
	At    units.Temperature   `json:"at"`    // reference of Gas; unset means 21.1 °C (70 °F), the US one
	Full  units.GaugePressure `json:"full"`  // gauge reading when Gas was stated; zero means all of Gas is usable
	Now   units.GaugePressure `json:"now"`   // gauge reading now; zero means full
	Least units.GaugePressure `json:"least"` // left in it, 10 to 15 bar (common practice)
}

// Oxygen returns the usable mass of oxygen in the cylinder,
//
//	ρ·V·(p_now - p_least)/p_full
//
// with ρ from [OxygenGasDensity] at the reference.
//
// Validity: gas above zero, 0 <= least <= now <= full; ErrDomain with NaN.
// Pressure is taken proportional to content: 5 % at 200 bar.
//
// Source: by definition; 244 cubic feet at 70 °F weigh 9.16 kg, about 20 lb as
// the gas trade says.
func (c Cylinder) Oxygen() (units.Mass, error) {
	const fn = "transport.Cylinder"
	at := c.At
	if at == (units.Temperature{}) {
		at = units.Celsius(21.1)
	}
	rho, err := OxygenGasDensity(at, 0)
	now := c.Now
	if now == 0 {
		now = c.Full
	}
	err = errors.Join(err, bounds.Positive(fn, "gas", float64(c.Gas), "m3"), bounds.Amount(fn, "full", float64(c.Full)/1e5, "bar"),
		units.Within(fn, "now", float64(now)/1e5, 0, float64(c.Full)/1e5, "bar"), units.Within(fn, "least", float64(c.Least)/1e5, 0, float64(now)/1e5, "bar"))
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	m := c.Gas.Mass(rho)
	if c.Full > 0 {
		m *= units.Mass((now - c.Least) / c.Full)
	}
	return m, nil
}

// Count returns how many such cylinders hold a mass of oxygen, part of the last
// one counted whole. Validity and errors as [Cylinder.Oxygen], beside -1; an
// empty cylinder is ErrNoSolution.
func (c Cylinder) Count(need units.Mass) (int, error) {
	const fn = "transport.Cylinder.Count"
	each, err := c.Oxygen()
	if err = errors.Join(err, bounds.Amount(fn, "need", float64(need), "kg")); err != nil {
		return -1, err
	}
	if !(each > 0) {
		return -1, &units.InputError{Func: fn, Field: "now", Value: float64(c.Now) / 1e5, Unit: "bar", Reason: "nothing usable is left in it", Kind: units.ErrNoSolution}
	}
	n := math.Ceil(float64(need)/float64(each) - 1e-12)
	if err := units.Within(fn, "need", n, 0, 1e9, "cylinders"); err != nil {
		return -1, err
	}
	return int(n), nil
}

// LiquidOxygenDensity is that of liquid oxygen at its boiling point; a litre
// gives 860 L of gas at 21.1 °C. It boils off at about 2 % a day on a truck.
// Source: 1.141 kg/L, gas trade; boil-off Wynne (2007), World Aquaculture, p. 43.
const (
	LiquidOxygenDensity units.Density = 1141
	LiquidBoilOff       float64       = 0.02 // share per day
)

// Endurance returns how long a store of oxygen lasts at a flow.
//
// Validity: store not negative, flow above zero; ErrDomain. Source: by
// definition.
func Endurance(store units.Mass, flow units.MassFlow) (time.Duration, error) {
	const fn = "transport.Endurance"
	err := errors.Join(bounds.Amount(fn, "store", float64(store), "kg"), bounds.Positive(fn, "flow", float64(flow), "kg/s"))
	if err != nil {
		return 0, err
	}
	s := float64(store) / float64(flow)
	if err := units.Within(fn, "store", s/86400, 0, 36500, "days"); err != nil {
		return 0, err
	}
	return seconds(s), nil
}

// AlarmTime returns the time in which animals draw a tank without any supply
// from start down to limit:
//
//	t = V·(C0 - C1)/(m·M)
//
// Minutes, not hours: at 1 kg per litre and 350 mg/(kg h) the fall from 12 to
// 5 mg/L takes 72 s.
//
// Validity: water, product and demand above zero, 0 <= limit <= start <= 60
// mg/L; ErrDomain.
//
// Source: oxygen balance of a mixed volume, by definition.
func AlarmTime(water units.Volume, product units.Mass, demand units.MassSpecificRate, start, limit units.Concentration) (time.Duration, error) {
	const fn = "transport.AlarmTime"
	err := errors.Join(bounds.Positive(fn, "water", float64(water), "m3"), bounds.Positive(fn, "product", float64(product), "kg"),
		bounds.Positive(fn, "demand", float64(demand), "kg/(kg s)"), units.Within(fn, "start", float64(start)*1e3, 0, 60, "mg/L"),
		units.Within(fn, "limit", float64(limit)*1e3, 0, float64(start)*1e3, "mg/L"))
	if err != nil {
		return 0, err
	}
	b := oxygen.Balance{Volume: float64(water), Demand: float64(product) * float64(demand)}
	s, _ := b.TimeTo(float64(start), float64(limit))
	if err := units.Within(fn, "demand", s/86400, 0, 36500, "days"); err != nil {
		return 0, err
	}
	return seconds(s), nil
}

// BagTime returns how long animals in a sealed bag live on the oxygen of its
// headspace when the share usable of it may be taken up (a half, so that the gas
// stays rich): usable·oxygen/(m·M).
//
// Validity: product and demand above zero, usable 0 to 1; ErrDomain. Source:
// mass balance. Carbon dioxide and ammonia in the bag set their own limits.
func BagTime(oxygenMass units.Mass, usable float64, product units.Mass, demand units.MassSpecificRate) (time.Duration, error) {
	const fn = "transport.BagTime"
	err := errors.Join(bounds.Amount(fn, "oxygenMass", float64(oxygenMass), "kg"), units.Within(fn, "usable", usable, 0, 1, ""),
		bounds.Positive(fn, "product", float64(product), "kg"), bounds.Positive(fn, "demand", float64(demand), "kg/(kg s)"))
	if err != nil {
		return 0, err
	}
	s := usable * float64(oxygenMass) / (float64(product) * float64(demand))
	if err := units.Within(fn, "demand", s/86400, 0, 36500, "days"); err != nil {
		return 0, err
	}
	return seconds(s), nil
}

// OxygenPerKilogram returns the oxygen in water in equilibrium with moist air at
// one atmosphere, in µmol per kg of water, as oceanographers count it:
//
//	ln C = Σ A_i·x^i + S·Σ B_i·x^i + C0·S² ,  x = ln((298.15-t)/(273.15+t))
//
// with t on the IPTS-68 scale. Validity: 0 to 40 °C, 0 to 42 psu; outside, the
// value comes with ErrRange; beyond -5 to 50 °C or 0 to 60 psu ErrDomain with
// NaN.
//
// Source: Garcia & Gordon (1992), Limnology and Oceanography 37:1307, eq. 8 with
// the Benson & Krause coefficients per mass (from memory, confirmed against GSW
// 3.6.16).
func OxygenPerKilogram(t units.Temperature, s units.PracticalSalinity) (float64, error) {
	const fn = "transport.OxygenPerKilogram"
	c, sp := t.Celsius(), float64(s)
	if err := errors.Join(units.Within(fn, "t", c, -5, 50, "°C"), units.Within(fn, "s", sp, 0, 60, "psu")); err != nil {
		return math.NaN(), err
	}
	c68 := 1.00024 * c
	x := math.Log((298.15 - c68) / (273.15 + c68))
	a := 5.80871 + x*(3.20291+x*(4.17887+x*(5.10006+x*(-9.86643e-2+x*3.80369))))
	b := -7.01577e-3 + x*(-7.70028e-3+x*(-1.13864e-2+x*-9.51519e-3))
	v := math.Exp(a + sp*(b-2.75915e-7*sp))
	if !(c >= 0 && c <= 40 && sp <= 42) {
		return v, &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: 0, Max: 40, Reason: "and 0 to 42 psu", Kind: units.ErrRange}
	}
	return v, nil
}
