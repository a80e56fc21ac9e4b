package icing

import (
	"errors"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/internal/interp"
	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// EutecticBrine is the strongest sodium chloride brine that ice can stand in,
// and -21.1 °C its temperature. Source: CRC Handbook, from memory.
const EutecticBrine units.MassFraction = 0.233

// brineTable is the freezing point of sodium chloride brine, °C by mass
// fraction. Source: CRC Handbook of Chemistry and Physics, concentrative
// properties of aqueous solutions; from memory, confirmed to 0.1 °C by the values
// of its 56th edition, pp. D252-253.
var brineTable = mustMonotone(
	[]float64{0, 0.01, 0.02, 0.03, 0.05, 0.10, 0.15, 0.20, 0.233},
	[]float64{0, -0.59, -1.19, -1.79, -3.05, -6.56, -10.89, -16.46, -21.1})

// mustMonotone is for the constant table above; its failure is a programmer's.
func mustMonotone(x, y []float64) interp.Monotone {
	m, err := interp.NewMonotone(x, y)
	if err != nil {
		panic(err)
	}
	return m
}

// BrineFreezing returns the temperature at which a sodium chloride brine of the
// given mass fraction begins to freeze, on a monotone cubic through the
// handbook's table.
//
// Validity: 0 to [EutecticBrine]; otherwise ErrDomain beside an unset
// temperature. Accuracy: 0.05 °C. Slurry below -1 °C freezes the surface of
// shrimp and salts it.
//
// Source: CRC Handbook of Chemistry and Physics, 56th edition, pp. D252-253.
func BrineFreezing(salt units.MassFraction) (units.Temperature, error) {
	if err := units.Within("icing.BrineFreezing", "salt", float64(salt), 0, float64(EutecticBrine), "kg/kg"); err != nil {
		return units.Temperature{}, err
	}
	return units.Celsius(brineTable.Value(float64(salt))), nil
}

// BrineStrength returns the salt, as mass fraction of the brine, that begins to
// freeze at t, the inverse of [BrineFreezing]. Validity: -21.1 to 0 °C;
// otherwise ErrDomain with NaN.
func BrineStrength(t units.Temperature) (units.MassFraction, error) {
	c := t.Celsius()
	if err := units.Within("icing.BrineStrength", "t", c, -21.1, 0, "°C"); err != nil {
		return units.MassFraction(math.NaN()), err
	}
	w, err := brineTable.Inverse(c)
	return units.MassFraction(w), err
}

// SlurryDensity returns the density of slurry in kg/m3 from its mass fraction of
// ice, at the densities of ice and brine:
//
//	1/ρ = w/ρ_ice + (1-w)/ρ_brine
//
// Validity: w 0 to 1, brine 990 to 1200 kg/m3, t as [IceDensity]; ErrDomain with
// NaN. Source: volume balance.
func SlurryDensity(ice float64, brine units.Density, t units.Temperature) (units.Density, error) {
	const fn = "icing.SlurryDensity"
	solid, err := IceDensity(t)
	err = errors.Join(err, units.Within(fn, "ice", ice, 0, 1, ""), units.Within(fn, "brine", float64(brine), 990, 1200, "kg/m3"))
	if err != nil {
		return units.Density(math.NaN()), err
	}
	return 1 / (units.Density(ice)/solid + units.Density(1-ice)/brine), nil
}

// SlurryCooling returns the heat in J that a kilogram of slurry of practical
// salinity sp takes up from t until all its ice has melted and it stands at end:
// the enthalpy of the melted water less that of the slurry.
//
// Validity: sp above 0 to 42 psu, t as [BrineSalinity] and at or below the
// freezing point, end from there to 40 °C; ErrDomain with NaN.
//
// Source: IOC, SCOR & IAPSO (2010), TEOS-10, enthalpies of seawater and ice.
func SlurryCooling(sp units.PracticalSalinity, t, end units.Temperature) (units.SpecificEnergy, error) {
	const fn = "icing.SlurryCooling"
	nan := units.SpecificEnergy(math.NaN())
	w, err := SlurryIceFraction(sp, t)
	if err != nil {
		return nan, err
	}
	s := absolute(sp)
	if err := units.Within(fn, "end", end.Celsius(), liquidus(s), 40, "°C"); err != nil {
		return nan, err
	}
	c := t.Celsius()
	return units.SpecificEnergy(seawaterEnthalpy(s, end.Celsius()) - w*iceEnthalpy(c) - (1-w)*seawaterEnthalpy(s/(1-w), c)), nil
}

// Charge is a chilled-seawater tank ready for fish.
type Charge struct {
	Ice         units.Mass             `json:"ice"`         // to put in
	Temperature units.Temperature      `json:"temperature"` // at which fish, water and ice stand
	Diluted     units.AbsoluteSalinity `json:"diluted"`     // salinity of the water then
	Notices     []units.Notice         `json:"notices"`
}

// ChilledSeawater returns the ice that brings fish and seawater to the freezing
// point of the diluted water, all ice melted:
//
//	m_i·(h_w - h_ice) = m·c_p·(T0 - T_e) + m_w·(h(S0,T_w) - h(S0→S_e,T_e)) + Q
//
// solved with the salinity that the melt leaves. Whatever ice is added beyond it
// is the reserve. Common practice fills three to four parts of fish to one of
// water and ice, by mass.
//
// Validity: sp 0 to 42 psu, water and fish from freezing to 40 °C, fish's
// specific heat 1.5 to 4.2 kJ/(kg K) (zero means [DefaultProductSpecificHeat]),
// ice -20 to 0 °C, water above zero; errors are ErrDomain.
//
// Source: heat and salt balance with IOC, SCOR & IAPSO (2010), TEOS-10.
func ChilledSeawater(b Batch, water units.Mass, sp units.PracticalSalinity, t, iceTemp units.Temperature, leak units.Energy) (Charge, error) {
	const fn = "icing.ChilledSeawater"
	cp, t0, err := b.check()
	s, tw, ti := absolute(sp), t.Celsius(), iceTemp.Celsius()
	err = errors.Join(units.AtField("batch", err), bounds.Positive(fn, "water", float64(water), "kg"), units.Within(fn, "sp", float64(sp), 0, 42, "psu"),
		units.Within(fn, "t", tw, 0, 40, "°C"), units.Within(fn, "iceTemp", ti, -20, 0, "°C"), bounds.Amount(fn, "leak", float64(leak), "J"))
	if err != nil {
		return Charge{}, err
	}
	mw, mf := float64(water), float64(b.Product)
	start := mw*seawaterEnthalpy(s, tw) + float64(leak)
	cold := iceEnthalpy(ti)
	excess := func(ice float64) float64 {
		se := s * mw / (mw + ice)
		te := liquidus(se)
		return start + ice*cold + mf*cp*(t0-te) - (mw+ice)*seawaterEnthalpy(se, te)
	}
	hi := (mf*cp*(t0+3)+mw*4200*(tw+3)+float64(leak))/300e3 + 1
	ice, err := root.Find(excess, 0, hi, 1e-12*hi)
	if err != nil {
		return Charge{}, err
	}
	se := s * mw / (mw + ice)
	c := Charge{Ice: units.Mass(ice), Temperature: units.Celsius(liquidus(se)), Diluted: units.AbsoluteSalinity(se)}
	if n, cold := FreezingNotice(c.Temperature); cold {
		c.Notices = append(c.Notices, n)
	}
	return c, nil
}

// FreezingNotice returns a notice when a medium is colder than -1 °C, where
// flesh starts to freeze at its surface: cod from -0.9 to -1.0 °C (from memory).
// The -2.2 °C of refrigeration handbooks is for the whole fish.
func FreezingNotice(medium units.Temperature) (units.Notice, bool) {
	n, out := units.Outside(CodeFreezing, "medium", medium.Celsius(), fleshFreezing, math.Inf(1), "°C", "from memory of the trade's texts")
	if out {
		n.Message = "the medium is cold enough to freeze the product's surface, and a salted one salts it"
	}
	return n, out
}

const fleshFreezing = -1.0 // °C
