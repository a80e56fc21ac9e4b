package transport

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// AmmoniaModel is a published pKa of ammonium. The pH it goes with is part of
// it: in seawater a glass electrode on NBS buffers reads about 0.13 above the
// total scale.
type AmmoniaModel uint8

// The models. Khoo et al. (1977) is left out on purpose: Bell et al. (2007) show
// that its published equation is wrong by up to a factor of five.
const (
	Emerson1975        AmmoniaModel = iota // fresh water, 0 to 50 °C
	Bell2008                               // seawater, NBS-type pH
	CleggWhitfield1995                     // seawater 0 to 40 psu, pH on the total scale, -2 to 40 °C
)

// String names the model.
func (m AmmoniaModel) String() string {
	switch m {
	case Emerson1975:
		return "Emerson et al. 1975"
	case Bell2008:
		return "Bell et al. 2008"
	case CleggWhitfield1995:
		return "Clegg & Whitfield 1995"
	}
	return fmt.Sprintf("AmmoniaModel(%d)", uint8(m))
}

// PKa returns the negative logarithm of the acid constant of ammonium at t and
// practical salinity s:
//
//	Emerson            0.09018 + 2729.92/T
//	Bell               10.0423 - 0.0315536·t + 0.003071·S   (t in °C; a copy with T in kelvin is in circulation)
//	Clegg & Whitfield  eq. 18, total scale, per kg of seawater
//
// Validity: Emerson 0 to 50 °C and fresh water (S below 0.5); Bell 0 to 40 °C,
// 5 to 40 psu; Clegg & Whitfield -2 to 40 °C, 0 to 40 psu; outside, the value
// comes with ErrRange. Not a number, below -5 or above 60 °C, S outside 0 to 60:
// ErrDomain with NaN.
//
// Source: Emerson et al. (1975), Journal of the Fisheries Research Board of
// Canada 32:2379; Bell et al. (2008), Environmental Chemistry 5:258; Clegg &
// Whitfield (1995), Geochimica et Cosmochimica Acta 59:2403.
func (m AmmoniaModel) PKa(t units.Temperature, s units.PracticalSalinity) (float64, error) {
	const fn = "transport.AmmoniaModel.PKa"
	c, sp := t.Celsius(), float64(s)
	err := errors.Join(units.Within(fn, "t", c, -5, 60, "°C"), units.Within(fn, "s", sp, 0, 60, "psu"))
	if m > CleggWhitfield1995 {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "model", Value: float64(m), Reason: "unknown model"})
	}
	if err != nil {
		return math.NaN(), err
	}
	k := t.Kelvins()
	lo, hi, sLo, sHi := 0.0, 50.0, 0.0, 0.5
	var pka float64
	switch m {
	case Bell2008:
		pka = 10.0423 - 0.0315536*c + 0.003071*sp
		hi, sLo, sHi = 40, 5, 40
	case CleggWhitfield1995:
		pka = cleggWhitfield(k, sp)
		lo, hi, sHi = -2, 40, 40
	default:
		pka = 0.09018 + 2729.92/k
	}
	if !(c >= lo && c <= hi) {
		return pka, &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: lo, Max: hi, Reason: m.String(), Kind: units.ErrRange}
	}
	if !(sp >= sLo && sp <= sHi) {
		return pka, &units.InputError{Func: fn, Field: "s", Value: sp, Unit: "psu", Min: sLo, Max: sHi, Reason: m.String(), Kind: units.ErrRange}
	}
	return pka, nil
}

// cleggWhitfield is eq. 18 of Clegg & Whitfield (1995), turned from molal to per
// kilogram of seawater.
func cleggWhitfield(k, s float64) float64 {
	r, q := math.Sqrt(k), math.Sqrt(s)
	p := 9.244605 - 2729.33*(1/298.15-1/k) +
		(0.04203362-11.24742/k)*math.Sqrt(q) +
		(-13.6416+1.176949*r-0.02860785*k+545.4834/k)*q +
		(-0.1462507+0.0090226468*r-0.0001471361*k+10.5425/k)*s*q +
		(0.004669309-0.0001691742*r-0.5677934/k)*s*s +
		(-2.354039e-5+0.009698623/k)*s*s*q
	return p - math.Log10(1-0.001005*s)
}

// Fraction returns the share of total ammonia that is un-ionised NH3, the toxic
// form:
//
//	f = 1/(1 + 10^(pKa - pH))
//
// Validity and errors as [AmmoniaModel.PKa]; pH 0 to 14 on the model's scale.
// Source: as there.
func (m AmmoniaModel) Fraction(t units.Temperature, pH float64, s units.PracticalSalinity) (float64, error) {
	if err := units.Within("transport.AmmoniaModel.Fraction", "pH", pH, 0, 14, ""); err != nil {
		return math.NaN(), err
	}
	pka, err := m.PKa(t, s)
	if math.IsNaN(pka) {
		return pka, err
	}
	return 1 / (1 + math.Pow(10, pka-pH)), err
}

// Unionised returns the un-ionised ammonia nitrogen of a total ammonia nitrogen.
// Stress is seen from about 0.05 mg/L and death from about 2 mg/L of NH3-N in
// long exposures (EDIS, Francis-Floyd); short hauls are planned to 0.1 to 0.5
// (from memory).
//
// Validity and errors as [AmmoniaModel.Fraction]; total not negative.
func (m AmmoniaModel) Unionised(total units.Concentration, t units.Temperature, pH float64, s units.PracticalSalinity) (units.Concentration, error) {
	if err := bounds.Amount("transport.AmmoniaModel.Unionised", "total", float64(total)*1e3, "mg/L"); err != nil {
		return units.Concentration(math.NaN()), err
	}
	f, err := m.Fraction(t, pH, s)
	return total * units.Concentration(f), err
}

// AmmoniaRise returns the total ammonia nitrogen that animals add to their water
// in a time, m·E·t/V.
//
// Validity: product, excretion and hours not negative, water above zero;
// ErrDomain with NaN. Source: mass balance.
func AmmoniaRise(product units.Mass, excretion units.MassSpecificRate, hours float64, water units.Volume) (units.Concentration, error) {
	const fn = "transport.AmmoniaRise"
	err := errors.Join(bounds.Amount(fn, "product", float64(product), "kg"), bounds.Amount(fn, "excretion", float64(excretion), "kg/(kg s)"),
		bounds.Amount(fn, "hours", hours, "h"), bounds.Positive(fn, "water", float64(water), "m3"))
	if err != nil {
		return units.Concentration(math.NaN()), err
	}
	return units.Concentration(float64(product) * float64(excretion) * hours * 3600 / float64(water)), nil
}

// AmmoniaPerNitrogen is the mass of NH3 per mass of its nitrogen, molar mass
// 17.03052 over 14.0067 g/mol. Analyses and limits come in both: a result "as N"
// is 18 % lower than the same water "as NH3".
const AmmoniaPerNitrogen = 17.03052 / molarNitrogen

// AsNH3 returns an ammonia concentration given as nitrogen (as all of this
// package's are) as NH3: times [AmmoniaPerNitrogen].
//
// Validity: not negative; ErrDomain with NaN. Source: stoichiometry.
func AsNH3(nitrogen units.Concentration) (units.Concentration, error) {
	if err := bounds.Amount("transport.AsNH3", "nitrogen", float64(nitrogen)*1e3, "mg/L"); err != nil {
		return units.Concentration(math.NaN()), err
	}
	return nitrogen * AmmoniaPerNitrogen, nil
}

// MarshalText writes the model's words.
func (m AmmoniaModel) MarshalText() ([]byte, error) {
	if m > CleggWhitfield1995 {
		return nil, fmt.Errorf("transport.AmmoniaModel: %d is not a known model", uint8(m))
	}
	return []byte(m.String()), nil
}

// UnmarshalText reads the model's words.
func (m *AmmoniaModel) UnmarshalText(text []byte) error {
	for k := Emerson1975; k <= CleggWhitfield1995; k++ {
		if k.String() == string(text) {
			*m = k
			return nil
		}
	}
	return fmt.Errorf("transport.AmmoniaModel: %q is not one of %q, %q, %q", text, Emerson1975, Bell2008, CleggWhitfield1995)
}
