package icing

import (
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// maxSalinity is the end of the seawater equation at atmospheric pressure, g/kg.
const maxSalinity = 120.0

// freshest is the salinity in g/kg below which water is fresh: the lever rule
// loses its digits there.
const freshest = 1e-9

func absolute(sp units.PracticalSalinity) float64 { return float64(sp) * salinityRatio }

func checkSalinity(fn string, sp units.PracticalSalinity) error {
	hi := 42.0
	if v := float64(sp); v >= 0 && v <= hi {
		return nil
	}
	err := &units.InputError{Func: fn, Field: "salinity", Value: float64(sp), Min: 0, Max: hi, Unit: "psu", Kind: units.ErrRange}
	if !(float64(sp) >= 0 && absolute(sp) <= maxSalinity) {
		err.Kind = units.ErrDomain
	}
	return err
}

// liquidus returns the freezing temperature in °C of air-free water of absolute
// salinity s, where ice and water have the same chemical potential. It falls
// monotonically from 0.0025 to -6.9 °C over 0 to 120 g/kg.
func liquidus(s float64) float64 {
	f := func(t float64) float64 { return waterPotential(s, t) - iceGibbs(t).g }
	t, err := root.Find(f, -9, 0.1, 0)
	if err != nil { // cannot happen for 0 <= s <= 120: the ends differ in sign
		return math.NaN()
	}
	return t
}

// FreezingPoint returns the temperature at which water of practical salinity sp
// begins to freeze at atmospheric pressure, from the equality of the chemical
// potentials of water and ice. Water saturated with air freezes 0.0019 to
// 0.0024 °C lower than air-free water:
//
//	t = t_f(S) - 0.001·(2.4 - S/(2·35.16504))
//
// Validity: 0 to 42 psu; to about 119 psu with ErrRange beside the value;
// otherwise ErrDomain and an unset temperature. Accuracy: 0.002 °C.
//
// Source: IOC, SCOR & IAPSO (2010), TEOS-10 manual, section 3.33; IAPWS R10-06,
// R13-08 and SR7-09.
func FreezingPoint(sp units.PracticalSalinity, airSaturated bool) (units.Temperature, error) {
	err := checkSalinity("icing.FreezingPoint", sp)
	s := absolute(sp)
	if !(s >= 0 && s <= maxSalinity) {
		return units.Temperature{}, err
	}
	t := liquidus(s)
	if airSaturated {
		t -= 1e-3 * (2.4 - s/(2*35.16504))
	}
	return units.Celsius(t), err
}

// FreezingPointUNESCO1983 returns the freezing temperature of air-saturated
// seawater at a sea pressure of p decibar by the older fit
//
//	t = -0.0575 S + 1.710523e-3 S^1.5 - 2.154996e-4 S² - 7.53e-4 p
//
// Validity: 4 to 40 psu, 0 to 500 dbar; beyond it the value comes with ErrRange,
// negative salinity or NaN is ErrDomain. It differs from [FreezingPoint] by less
// than 0.005 °C.
//
// Source: UNESCO (1983), Technical Papers in Marine Science 44 (Millero & Leung
// 1976); it prints the check value -2.588567 at 40 psu and 500 dbar.
func FreezingPointUNESCO1983(sp units.PracticalSalinity, p units.Pressure) (units.Temperature, error) {
	const fn = "icing.FreezingPointUNESCO1983"
	s, d := float64(sp), float64(p)/1e4
	if err := bounds.Amount(fn, "sp", s, "psu"); err != nil {
		return units.Temperature{}, err
	}
	if err := units.Within(fn, "p", d, 0, 11000, "dbar"); err != nil {
		return units.Temperature{}, err
	}
	if s > 120 {
		return units.Temperature{}, units.Within(fn, "sp", s, 0, 120, "psu")
	}
	t := units.Celsius(-0.0575*s + 1.710523e-3*s*math.Sqrt(s) - 2.154996e-4*s*s - 7.53e-4*d)
	if !(s >= 4 && s <= 40 && d <= 500) && s != 0 {
		return t, &units.InputError{Func: fn, Field: "sp", Value: s, Unit: "psu", Min: 4, Max: 40, Reason: "and 0 to 500 dbar", Kind: units.ErrRange}
	}
	return t, nil
}

// MeltingHeat returns the heat in J/kg that melts ice into a large body of
// seawater of practical salinity sp at its freezing point:
//
//	L = h - S·∂h/∂S - h_ice
//
// Validity and errors as [FreezingPoint], with NaN.
//
// Source: IOC, SCOR & IAPSO (2010), TEOS-10 manual, section 3.34.
func MeltingHeat(sp units.PracticalSalinity) (units.SpecificEnergy, error) {
	err := checkSalinity("icing.MeltingHeat", sp)
	s := absolute(sp)
	if !(s >= 0 && s <= maxSalinity) {
		return units.SpecificEnergy(math.NaN()), err
	}
	t := liquidus(s)
	o := seawaterGibbs(s, t)
	kelvin := t + zeroCelsius
	h := o.g - kelvin*o.gT
	hS := o.gS - kelvin*o.gST
	return units.SpecificEnergy(h - s*hS - iceEnthalpy(t)), err
}

// BrineSalinity returns the absolute salinity of the water that is in
// equilibrium with ice at t, the inverse of [FreezingPoint].
//
// Validity: -6.9 to 0.0025 °C (120 to 0 g/kg); otherwise ErrDomain with NaN.
// Source as [FreezingPoint].
func BrineSalinity(t units.Temperature) (units.AbsoluteSalinity, error) {
	c := t.Celsius()
	coldest, warmest := liquidus(maxSalinity), liquidus(0)
	if !(c >= coldest && c <= warmest) {
		return units.AbsoluteSalinity(math.NaN()), &units.InputError{Func: "icing.BrineSalinity", Field: "t", Value: c, Unit: "°C",
			Min: coldest, Max: warmest, Reason: "no brine of the equation is in equilibrium with ice here"}
	}
	return units.AbsoluteSalinity(brine(c)), nil
}

func brine(celsius float64) float64 {
	ice := iceGibbs(celsius).g
	f := func(s float64) float64 { return waterPotential(s, celsius) - ice }
	s, err := root.Find(f, 0, maxSalinity*1.01, 0)
	if err != nil {
		return math.NaN()
	}
	return s
}

// SlurryIceFraction returns the mass of ice per mass of slurry made from water
// of practical salinity sp and held at t:
//
//	w = 1 - S/S_brine(t)
//
// and zero above the freezing point. Validity: sp above zero up to 42 psu, t as
// [BrineSalinity]; otherwise ErrDomain with NaN.
//
// Source: lever rule on the liquidus of [FreezingPoint].
func SlurryIceFraction(sp units.PracticalSalinity, t units.Temperature) (float64, error) {
	const fn = "icing.SlurryIceFraction"
	s := absolute(sp)
	if err := units.Within(fn, "sp", float64(sp), 0, 42, "psu"); err != nil {
		return math.NaN(), err
	}
	if s < freshest {
		return math.NaN(), &units.InputError{Func: fn, Field: "sp", Value: float64(sp), Unit: "psu", Min: 0, Max: 42,
			Reason: "fresh water holds ice only at its melting point, in any share", Kind: units.ErrNoSolution}
	}
	c := t.Celsius()
	if err := units.Within(fn, "t", c, liquidus(maxSalinity), 40, "°C"); err != nil {
		return math.NaN(), err
	}
	if c >= liquidus(s) {
		return 0, nil
	}
	return 1 - s/brine(c), nil
}

// Slurry is the result of [MeltIntoSeawater].
type Slurry struct {
	Temperature units.Temperature      `json:"temperature"`
	Salinity    units.AbsoluteSalinity `json:"salinity"` // of the liquid
	IceFraction float64                `json:"iceFraction"`
}

// MeltIntoSeawater returns what becomes of ice put into water: share is the mass
// of ice in the mass of ice and water, t the water's temperature, iceTemp the
// ice's. Enthalpy and salt are kept; ice that is left is in equilibrium with the
// water.
//
// Validity: sp 0 to 42 psu, t from freezing to 40 °C, share 0 to 0.9, ice -20 to
// 0 °C; otherwise ErrDomain. A mixture colder than the equation (brine above
// 120 g/kg) is ErrNoSolution.
//
// Source: IOC, SCOR & IAPSO (2010), TEOS-10 manual, on melting of ice into
// seawater (McDougall et al. 2014).
func MeltIntoSeawater(sp units.PracticalSalinity, t units.Temperature, share float64, iceTemp units.Temperature) (Slurry, error) {
	const fn = "icing.MeltIntoSeawater"
	s, c, ci := absolute(sp), t.Celsius(), iceTemp.Celsius()
	if err := units.Within(fn, "sp", float64(sp), 0, 42, "psu"); err != nil {
		return Slurry{}, err
	}
	for _, err := range [...]error{
		units.Within(fn, "t", c, liquidus(s), 40, "°C"),
		units.Within(fn, "share", share, 0, 0.9, ""),
		units.Within(fn, "iceTemp", ci, -20, 0, "°C")} {
		if err != nil {
			return Slurry{}, err
		}
	}
	bulk := share*iceEnthalpy(ci) + (1-share)*seawaterEnthalpy(s, c)
	diluted := (1 - share) * s
	tf := liquidus(diluted)
	if bulk >= seawaterEnthalpy(diluted, tf) { // all ice melts
		f := func(x float64) float64 { return seawaterEnthalpy(diluted, x) - bulk }
		x, err := root.Find(f, tf, max(c, tf)+1, 0)
		if err != nil {
			return Slurry{}, err
		}
		return Slurry{Temperature: units.Celsius(x), Salinity: units.AbsoluteSalinity(diluted)}, nil
	}
	if s < freshest {
		// water and ice side by side at the melting point
		w := (seawaterEnthalpy(0, tf) - bulk) / (seawaterEnthalpy(0, tf) - iceEnthalpy(tf))
		if w > 1 {
			return Slurry{}, allFrozen(fn, share)
		}
		return Slurry{Temperature: units.Celsius(tf), IceFraction: w}, nil
	}
	excess := func(w float64) float64 {
		sb := diluted / (1 - w)
		x := liquidus(sb)
		return w*iceEnthalpy(x) + (1-w)*seawaterEnthalpy(sb, x) - bulk
	}
	most := 1 - diluted/maxSalinity
	if excess(most) > 0 {
		return Slurry{}, allFrozen(fn, share)
	}
	w, err := root.Find(excess, 0, most, 0)
	if err != nil {
		return Slurry{}, err
	}
	sb := diluted / (1 - w)
	return Slurry{Temperature: units.Celsius(liquidus(sb)), Salinity: units.AbsoluteSalinity(sb), IceFraction: w}, nil
}

func allFrozen(fn string, share float64) error {
	return &units.InputError{Func: fn, Field: "share", Value: share, Min: 0, Max: share, Kind: units.ErrNoSolution,
		Reason: "so much cold ice would freeze the water past the equation's 120 g/kg of salt"}
}
