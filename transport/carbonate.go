package transport

import (
	"errors"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/internal/root"
	"pondwright.example/internal/seawater"
	"pondwright.example/units"
)

// Carbonate holds the equilibria that tie pH, alkalinity and carbon dioxide at
// one temperature and salinity. Constants are negative logarithms, in mol per
// kilogram of water; a kilogram is taken as a litre in fresh water.
type Carbonate struct {
	PK1     float64 `json:"pk1"`     // CO2 + H2O to H+ and HCO3-
	PK2     float64 `json:"pk2"`     // HCO3- to H+ and CO3--
	PKW     float64 `json:"pkw"`     // water
	PKB     float64 `json:"pkb"`     // boric acid; not used without Borate
	Borate  float64 `json:"borate"`  // total, mol/kg; zero in fresh water
	Density float64 `json:"density"` // kg of water per litre; zero means 1
}

// FreshCarbonate returns the constants of fresh water at infinite dilution:
//
//	ln K1 = 290.9097 - 14554.21/T - 45.0575 ln T
//	ln K2 = 207.6548 - 11843.79/T - 33.6485 ln T
//	ln Kw = 148.9802 - 13847.26/T - 23.6521 ln T
//
// In real fresh water of ionic strength I the first constant is lower by about
// 0.5·√I (0.035 at I = 0.005 mol/L); pH answers shift by as much.
//
// Validity: 0 to 50 °C; otherwise ErrDomain.
//
// Source: Millero (1979), Geochimica et Cosmochimica Acta 43:1651.
func FreshCarbonate(t units.Temperature) (Carbonate, error) {
	if err := units.Within("transport.FreshCarbonate", "t", t.Celsius(), 0, 50, "°C"); err != nil {
		return Carbonate{}, err
	}
	return freshCarbonate(t.Kelvins()), nil
}

func freshCarbonate(k float64) Carbonate {
	l := math.Log(k)
	return Carbonate{
		PK1: -(290.9097 - 14554.21/k - 45.0575*l) / math.Ln10,
		PK2: -(207.6548 - 11843.79/k - 33.6485*l) / math.Ln10,
		PKW: -(148.9802 - 13847.26/k - 23.6521*l) / math.Ln10,
	}
}

// PlummerBusenberg1982 returns the first two constants of fresh water by another
// fit, within 0.0015 of [FreshCarbonate]:
//
//	log K1 = -356.3094 - 0.06091964 T + 21834.37/T + 126.8339 log T - 1684915/T²
//	log K2 = -107.8871 - 0.03252849 T + 5151.79/T + 38.92561 log T - 563713.9/T²
//
// Validity: 0 to 90 °C; otherwise ErrDomain with NaN.
//
// Source: Plummer & Busenberg (1982), Geochimica et Cosmochimica Acta 46:1011.
func PlummerBusenberg1982(t units.Temperature) (pk1, pk2 float64, err error) {
	if err := units.Within("transport.PlummerBusenberg1982", "t", t.Celsius(), 0, 90, "°C"); err != nil {
		return math.NaN(), math.NaN(), err
	}
	k := t.Kelvins()
	l := math.Log10(k)
	pk1 = 356.3094 + 0.06091964*k - 21834.37/k - 126.8339*l + 1684915/(k*k)
	pk2 = 107.8871 + 0.03252849*k - 5151.79/k - 38.92561*l + 563713.9/(k*k)
	return pk1, pk2, nil
}

// SeaCarbonate returns the constants of seawater on the total pH scale, with
// borate in proportion to the salinity:
//
//	pK1 = 3633.86/T - 61.2172 + 9.6777 ln T - 0.011555 S + 1.152e-4 S²
//	pK2 = 471.78/T + 25.929 - 3.16967 ln T - 0.01781 S + 1.122e-4 S²
//
// A glass electrode on NBS buffers reads about 0.13 higher than this scale.
//
// Validity: 2 to 35 °C, 19 to 43 psu; outside, the values come with ErrRange
// (brackish water has other fits, Millero 2010); below 1 psu, above 50 psu or
// outside -2 to 45 °C ErrDomain.
//
// Source: Lueker, Dickson & Keeling (2000), Marine Chemistry 70:105; borate
// Dickson (1990) and Uppström (1974); water Millero (1995), as in Dickson, Sabine
// & Christian (2007), Guide to best practices for ocean CO2 measurements (the
// last three from memory, confirmed against PyCO2SYS values).
func SeaCarbonate(t units.Temperature, s units.PracticalSalinity) (Carbonate, error) {
	const fn = "transport.SeaCarbonate"
	c, sp, k := t.Celsius(), float64(s), t.Kelvins()
	if err := errors.Join(units.Within(fn, "t", c, -2, 45, "°C"), units.Within(fn, "s", sp, 1, 50, "psu")); err != nil {
		return Carbonate{}, err
	}
	l, q := math.Log(k), math.Sqrt(sp)
	lnB := (-8966.90-2890.53*q-77.942*sp+1.728*sp*q-0.0996*sp*sp)/k +
		148.0248 + 137.1942*q + 1.62142*sp - (24.4344+25.085*q+0.2474*sp)*l + 0.053105*q*k
	lnW := 148.9652 - 13847.26/k - 23.6521*l + (118.67/k-5.977+1.0495*l)*q - 0.01615*sp
	out := Carbonate{
		PK1:     3633.86/k - 61.2172 + 9.6777*l - 0.011555*sp + 1.152e-4*sp*sp,
		PK2:     471.78/k + 25.929 - 3.16967*l - 0.01781*sp + 1.122e-4*sp*sp,
		PKW:     -lnW / math.Ln10,
		PKB:     -lnB / math.Ln10,
		Borate:  0.0004157 * sp / 35,
		Density: seawater.Density(c, sp) / 1000,
	}
	if !(c >= 2 && c <= 35) {
		return out, &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: 2, Max: 35, Kind: units.ErrRange}
	}
	if !(sp >= 19 && sp <= 43) {
		return out, &units.InputError{Func: fn, Field: "s", Value: sp, Unit: "psu", Min: 19, Max: 43, Kind: units.ErrRange}
	}
	return out, nil
}

// equilibria are the constants as numbers.
type equilibria struct{ k1, k2, kw, kb, borate, litre float64 }

// tenTo is 10^x; math.Exp is several times faster than math.Pow and as good here.
func tenTo(x float64) float64 { return math.Exp(math.Ln10 * x) }

func (c Carbonate) numbers() equilibria {
	d := c.Density
	if d == 0 {
		d = 1
	}
	e := equilibria{k1: tenTo(-c.PK1), k2: tenTo(-c.PK2), kw: tenTo(-c.PKW), borate: c.Borate, litre: d}
	if c.Borate != 0 {
		e.kb = tenTo(-c.PKB)
	}
	return e
}

// Validate reports constants that are no equilibrium of natural water.
func (c Carbonate) Validate() error {
	const fn = "transport.Carbonate"
	density := c.Density
	if density == 0 {
		density = 1
	}
	return errors.Join(units.Within(fn, "pk1", c.PK1, 4, 8, ""), units.Within(fn, "pk2", c.PK2, 8, 12, ""), units.Within(fn, "pkw", c.PKW, 12, 16, ""),
		units.Within(fn, "pkb", c.PKB, 0, 11, ""), units.Within(fn, "borate", c.Borate, 0, 0.01, "mol/kg"), units.Within(fn, "density", density, 0.9, 1.2, "kg/L"))
}

// minor is the alkalinity that is not carbonate, at h = [H+], mol/kg.
func (e equilibria) minor(h float64) float64 {
	a := e.kw/h - h
	if e.borate != 0 {
		a += e.borate * e.kb / (e.kb + h)
	}
	return a
}

// charge is the alkalinity carried by one mole of dissolved inorganic carbon.
func (e equilibria) charge(h float64) float64 {
	return (e.k1*h + 2*e.k1*e.k2) / (h*h + e.k1*h + e.k1*e.k2)
}

// free is the share of dissolved inorganic carbon that is CO2.
func (e equilibria) free(h float64) float64 { return h * h / (h*h + e.k1*h + e.k1*e.k2) }

// acidity solves f, rising with pH, for pH 2 to 13 and returns h.
func acidity(fn string, f func(h float64) float64) (float64, error) {
	x, err := root.Find(func(pH float64) float64 { return f(tenTo(-pH)) }, 2, 13, 1e-13)
	if err != nil {
		return math.NaN(), &units.InputError{Func: fn, Field: "alkalinity", Value: f(1e-7), Unit: "mol/kg left over at pH 7",
			Reason: "no pH from 2 to 13 balances the charges", Kind: units.ErrNoSolution}
	}
	return tenTo(-x), nil
}

// Water is the carbon chemistry of a water.
type Water struct {
	PH         float64             `json:"ph"`         // on the scale of the constants
	Alkalinity units.Alkalinity    `json:"alkalinity"` // mol of charge per m3
	Carbon     units.Concentration `json:"carbon"`     // dissolved inorganic carbon, as CO2 (44.01 g/mol)
	CO2        units.Concentration `json:"co2"`        // free, dissolved
}

// moles turns a concentration as CO2 (kg/m3) into mol/kg of water.
func (e equilibria) moles(c units.Concentration) float64 { return float64(c) / molarCO2 / e.litre }

func (e equilibria) asCO2(mol float64) units.Concentration {
	return units.Concentration(mol * molarCO2 * e.litre)
}

func (e equilibria) charges(a units.Alkalinity) float64 { return float64(a) / 1000 / e.litre }

func checkAlkalinity(fn string, a units.Alkalinity) error {
	return units.Within(fn, "alkalinity", float64(a), 1e-3, 50, "meq/L")
}

// FromPH returns the water's carbon from its alkalinity and pH:
//
//	DIC = (A - minor)·(h² + K1h + K1K2)/(K1h + 2K1K2)
//
// with minor the part of the alkalinity that water and borate carry.
//
// Validity: alkalinity 0.001 to 50 meq/L, pH 2 to 13; an alkalinity that water
// and borate alone exceed at that pH is ErrNoSolution; other errors are
// ErrDomain.
//
// Source: charge balance of carbonate equilibria, Stumm & Morgan, Aquatic
// Chemistry.
func (c Carbonate) FromPH(a units.Alkalinity, pH float64) (Water, error) {
	const fn = "transport.Carbonate.FromPH"
	if err := errors.Join(c.Validate(), checkAlkalinity(fn, a), units.Within(fn, "pH", pH, 2, 13, "")); err != nil {
		return Water{}, err
	}
	e, h := c.numbers(), tenTo(-pH)
	left := e.charges(a) - e.minor(h)
	if left < 0 {
		return Water{}, &units.InputError{Func: fn, Field: "pH", Value: pH, Min: 2, Max: 13, Reason: "water alone carries more alkalinity at this pH", Kind: units.ErrNoSolution}
	}
	dic := left / e.charge(h)
	return Water{PH: pH, Alkalinity: a, Carbon: e.asCO2(dic), CO2: e.asCO2(dic * e.free(h))}, nil
}

// FromCarbon returns the water's pH from its alkalinity and dissolved inorganic
// carbon (as CO2). Validity, errors and source as [Carbonate.FromPH].
func (c Carbonate) FromCarbon(a units.Alkalinity, carbon units.Concentration) (Water, error) {
	const fn = "transport.Carbonate.FromCarbon"
	if err := errors.Join(c.Validate(), checkAlkalinity(fn, a), bounds.Amount(fn, "carbon", float64(carbon)*1e3, "mg/L")); err != nil {
		return Water{}, err
	}
	e := c.numbers()
	dic, alk := e.moles(carbon), e.charges(a)
	h, err := acidity(fn, func(h float64) float64 { return dic*e.charge(h) + e.minor(h) - alk })
	if err != nil {
		return Water{}, err
	}
	return Water{PH: -math.Log10(h), Alkalinity: a, Carbon: carbon, CO2: e.asCO2(dic * e.free(h))}, nil
}

// FromCO2 returns the water's pH from its alkalinity and free CO2, such as after
// aeration has brought the CO2 to a known value. Validity, errors and source as
// [Carbonate.FromPH]; the CO2 must be above zero.
func (c Carbonate) FromCO2(a units.Alkalinity, co2 units.Concentration) (Water, error) {
	const fn = "transport.Carbonate.FromCO2"
	if err := errors.Join(c.Validate(), checkAlkalinity(fn, a), bounds.Positive(fn, "co2", float64(co2)*1e3, "mg/L")); err != nil {
		return Water{}, err
	}
	e := c.numbers()
	free, alk := e.moles(co2), e.charges(a)
	h, err := acidity(fn, func(h float64) float64 { return free*(e.k1/h+2*e.k1*e.k2/(h*h)) + e.minor(h) - alk })
	if err != nil {
		return Water{}, err
	}
	return Water{PH: -math.Log10(h), Alkalinity: a, Carbon: e.asCO2(free / e.free(h)), CO2: co2}, nil
}

// AddCO2 returns the water after added carbon dioxide (negative when driven
// off), at constant alkalinity: pH falls as the animals breathe, and rises again
// when the water is aerated. Validity, errors and source as [Carbonate.FromPH].
func (c Carbonate) AddCO2(w Water, added units.Concentration) (Water, error) {
	if err := units.Finite("transport.Carbonate.AddCO2", "added", float64(added)*1e3, "mg/L"); err != nil {
		return Water{}, err
	}
	return c.FromCarbon(w.Alkalinity, w.Carbon+added)
}

// FromPHCarbon returns the water's alkalinity from its pH and dissolved
// inorganic carbon (as CO2):
//
//	A = DIC·(K1h + 2K1K2)/(h² + K1h + K1K2) + minor
//
// Validity: pH 2 to 13, carbon not negative; ErrDomain. An alkalinity that comes
// out negative, acid water, is returned as it is. Source as [Carbonate.FromPH].
func (c Carbonate) FromPHCarbon(pH float64, carbon units.Concentration) (Water, error) {
	const fn = "transport.Carbonate.FromPHCarbon"
	if err := errors.Join(c.Validate(), units.Within(fn, "pH", pH, 2, 13, ""), bounds.Amount(fn, "carbon", float64(carbon)*1e3, "mg/L")); err != nil {
		return Water{}, err
	}
	e, h := c.numbers(), tenTo(-pH)
	dic := e.moles(carbon)
	a := dic*e.charge(h) + e.minor(h)
	return Water{PH: pH, Alkalinity: units.Alkalinity(a * 1000 * e.litre), Carbon: carbon, CO2: e.asCO2(dic * e.free(h))}, nil
}
