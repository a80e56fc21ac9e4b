package oxygen

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Equation is a published fit of oxygen saturation. The zero value is the
// recommended one.
type Equation uint8

const (
	BensonKrause1984 Equation = iota // mg/L directly, as standard methods and the USGS tables use it
	GarciaGordon1992                 // fitted to Benson & Krause's data, as oceanographers use it
	Weiss1970                        // older data, about 0.2 % to 0.6 % lower in warm water
)

// String names the authors and year.
func (e Equation) String() string {
	switch e {
	case BensonKrause1984:
		return "Benson & Krause 1984"
	case GarciaGordon1992:
		return "Garcia & Gordon 1992"
	case Weiss1970:
		return "Weiss 1970"
	}
	return "unknown equation"
}

// Vapour is a published fit of the vapour pressure of water, used to bring a
// saturation from one atmosphere to another pressure. The zero value is the
// recommended one.
type Vapour uint8

const (
	VapourAPHA         Vapour = iota // fresh water, Standard Methods 4500-O
	VapourGreenCarritt               // sea water, Green & Carritt 1967
)

// Published range of the equations.
const (
	MinCelsius, MaxCelsius   = 0.0, 40.0
	MinSalinity, MaxSalinity = 0.0, 40.0     // practical salinity
	MinPressure, MaxPressure = 50e3, 111.5e3 // Pa, 0.5 to 1.1 standard atmospheres
)

const (
	zeroCelsius      = 273.15
	atmosphere       = 101325.0 // Pa
	molarOxygen      = 31.9988  // g/mol
	molarVolumeLitre = 22.3916  // L/mol of oxygen at 0 C and 1 atm, Garcia & Gordon 1992
	oxygenGramsPerML = 1.42905e-3
)

// Saturation returns the concentration of oxygen in water in equilibrium with
// moist air at temperature t, practical salinity s and total pressure p. fn is
// the calling function, named in errors.
//
// Equation: at one atmosphere, Benson & Krause (1984), Limnology and
// Oceanography 29, 620-632, eq. 32; Garcia & Gordon (1992), the same journal
// 37, 1307-1312, eq. 8, Benson & Krause coefficients; or Weiss (1970),
// Deep-Sea Research 17, 721-735, eq. 4. At another pressure
//
//	C(P) = C(1) (P - u)(1 - theta P) / ((1 - u)(1 - theta)), P and u in atm,
//
// Benson & Krause (1984), eq. 24, as in Standard Methods 4500-O and USGS
// Office of Water Quality Technical Memorandum 2011.03.
//
// Validity: 0 to 40 C, salinity 0 to 40, 0.5 to 1.1 atm; outside it the value
// comes with units.ErrRange. Errors: NaN, temperature below -5 C or above
// 100 C, negative salinity, or a pressure not above the vapour pressure.
func Saturation(fn string, e Equation, v Vapour, t units.Temperature, s units.PracticalSalinity, p units.AbsolutePressure) (units.Concentration, error) {
	tc, sp, pa := t.Celsius(), float64(s), float64(p)
	err := errors.Join(
		units.Within(fn, "temperature", tc, -5, 100, "C"),
		units.Within(fn, "salinity", sp, 0, 100, "PSU"),
		units.Within(fn, "pressure", pa, 1e3, 1e7, "Pa"))
	if e > Weiss1970 || v > VapourGreenCarritt {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "equation", Value: float64(e), Reason: "not one of the named equations"})
	}
	if err != nil {
		return units.Concentration(math.NaN()), err
	}
	u := vapourPressure(v, tc+zeroCelsius, sp)
	if !(pa/atmosphere > u) {
		return units.Concentration(math.NaN()), &units.InputError{Func: fn, Field: "pressure", Value: pa, Unit: "Pa",
			Min: u * atmosphere, Max: math.Inf(1), Reason: "water boils at this temperature and pressure"}
	}
	c := units.Concentration(atOneAtmosphere(e, tc, sp) * pressureFactor(tc, u, pa/atmosphere) / 1000) // mg/L to kg/m3
	return c, errors.Join(
		rangeOf(fn, "temperature", tc, MinCelsius, MaxCelsius, "C", e),
		rangeOf(fn, "salinity", sp, MinSalinity, MaxSalinity, "PSU", e),
		rangeOf(fn, "pressure", pa, MinPressure, MaxPressure, "Pa", e))
}

func rangeOf(fn, field string, v, lo, hi float64, unit string, e Equation) error {
	if v >= lo && v <= hi {
		return nil
	}
	return &units.InputError{Func: fn, Field: field, Value: v, Unit: unit, Min: lo, Max: hi, Kind: units.ErrRange, Reason: e.String()}
}

// atOneAtmosphere returns mg/L in equilibrium with moist air at 101,325 Pa.
func atOneAtmosphere(e Equation, tc, s float64) float64 {
	k := tc + zeroCelsius
	switch e {
	case GarciaGordon1992:
		// eq. 8 with the coefficients of table 1 fitted to Benson & Krause's data, cm3/dm3
		x := math.Log((298.15 - tc) / (zeroCelsius + tc))
		a := 2.00907 + x*(3.22014+x*(4.05010+x*(4.94457+x*(-0.256847+x*3.88767))))
		b := -6.24523e-3 + x*(-7.37614e-3+x*(-1.03410e-2+x*-8.17083e-3))
		return math.Exp(a+s*b-4.88682e-7*s*s) * molarOxygen / molarVolumeLitre
	case Weiss1970:
		// eq. 4, ml (STP)/L
		h := k / 100
		ml := math.Exp(-173.4292 + 249.6339/h + 143.3483*math.Log(h) - 21.8492*h + s*(-0.033096+0.014259*h-0.0017*h*h))
		return ml * oxygenGramsPerML * 1000
	}
	// Benson & Krause 1984, eq. 32
	fresh := -139.34411 + 1.575701e5/k - 6.642308e7/(k*k) + 1.2438e10/(k*k*k) - 8.621949e11/(k*k*k*k)
	return math.Exp(fresh - s*(0.017674-10.754/k+2140.7/(k*k)))
}

// vapourPressure returns atm at k kelvin and practical salinity s.
func vapourPressure(v Vapour, k, s float64) float64 {
	if v == VapourGreenCarritt {
		// Green & Carritt (1967), Journal of Marine Research 25, 140-147, with
		// their lowering by salt.
		x := 373.16 / k
		return (1 - 5.370e-4*s) * math.Exp(18.1973*(1-x)+3.1813e-7*(1-math.Exp(26.1205*(1-1/x)))-
			1.8726e-2*(1-math.Exp(8.03945*(1-x)))+5.02802*math.Log(x))
	}
	return math.Exp(11.8571 - 3840.70/k - 216961/(k*k)) // Standard Methods 4500-O
}

// pressureFactor returns C(P)/C(1 atm); p and u in atm.
func pressureFactor(tc, u, p float64) float64 {
	theta := 0.000975 - 1.426e-5*tc + 6.436e-8*tc*tc
	return (p - u) * (1 - theta*p) / ((1 - u) * (1 - theta))
}
