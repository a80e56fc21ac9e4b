package seawater

import "math"

const (
	zeroC       = 273.15
	criticalT   = 647.096  // K, IAPWS
	criticalP   = 22.064e6 // Pa, IAPWS
	onAtm       = 101325.0 // Pa
	weissPriceS = 5.44e-4  // salinity term of Weiss & Price 1980
)

// Viscosity returns the dynamic viscosity in Pa s at one atmosphere: 0 to
// 180 °C, salt to 150 g/kg, accuracy 1.5 %; fresh water within 0.05 % of IAPWS
// R12-08.
//
// Source: Sharqawy, Lienhard & Zubair 2010, Desalin. Water Treat. 16:354, eq.
// 22 and 23.
func Viscosity(t, s float64) float64 {
	x := saltFraction(s)
	water := 4.2844e-5 + 1/(0.157*(t+64.993)*(t+64.993)-91.296) // eq. 23
	a := 1.541 + t*(1.998e-2+t*-9.52e-5)
	b := 7.974 + t*(-7.561e-2+t*4.724e-4)
	return water * (1 + x*(a+x*b)) // eq. 22
}

// SpecificHeat returns the specific heat at constant pressure in J/(kg K) at
// one atmosphere: 0 to 35 °C (the check value of the source is at 40), salinity
// 0 to 40; up to 0.09 % below TEOS-10.
//
// Source: Millero, Perron & Desnoyers 1973, J. Geophys. Res. 78:4499; UNESCO
// Tech. Pap. Mar. Sci. 44 (1983).
func SpecificHeat(t, s float64) float64 {
	t = t68(t)
	water := 4217.4 + t*(-3.720283+t*(0.1412855+t*(-2.654387e-3+t*2.093236e-5)))
	a := -7.643575 + t*(0.1072763+t*-1.38385e-3)
	b := 0.1770383 + t*(-4.07718e-3+t*5.148e-5)
	return water + s*(a+b*math.Sqrt(s))
}

// VapourPressure returns the absolute vapour pressure in Pa over water of
// salinity s, 0 to 100 °C: the saturation line of pure water, accuracy 0.02 %,
// lowered by the salt as Weiss & Price measured it.
//
// Source: Wagner & Pruss 1993, J. Phys. Chem. Ref. Data 22:783, eq. 1 (IAPWS
// SR1-86); Weiss & Price 1980, Mar. Chem. 8:347, eq. 10, salinity term.
func VapourPressure(t, s float64) float64 {
	T := t + zeroC
	v := 1 - T/criticalT
	r := math.Sqrt(v)
	v3 := v * v * v
	sum := -7.85951783*v + 1.84408259*v*r + v3*(-11.7866497+22.6807411*r+v*(-15.9618719+1.80122502*v3*r))
	return criticalP * math.Exp(criticalT/T*sum-weissPriceS*s)
}

// VapourPressureWeissPrice returns the absolute vapour pressure in Pa by the
// equation that belongs to the gas solubilities of Weiss and his co-authors:
// 0 to 40 °C, salinity 0 to 40. It lies 0.1 % below [VapourPressure].
//
// Source: Weiss & Price 1980, Mar. Chem. 8:347, eq. 10.
func VapourPressureWeissPrice(t, s float64) float64 {
	h := (t + zeroC) / 100
	return onAtm * math.Exp(24.4543-67.4509/h-4.8489*math.Log(h)-weissPriceS*s)
}

// SurfaceTension returns the surface tension against air in N/m: fresh water
// 0.01 to 374 °C, sea water 0 to 92 °C and salt to 131 g/kg, accuracy 0.5 % at
// pond temperatures.
//
// Source: IAPWS R1-76(2014), eq. 1; IAPWS G14-19 (Nayar et al. 2014), eq. 1 for
// the salt.
func SurfaceTension(t, s float64) float64 {
	v := 1 - (t+zeroC)/criticalT
	g := 1000 * saltFraction(s)
	return 0.2358 * math.Pow(v, 1.256) * (1 - 0.625*v) * (1 + g*(3.766e-4+2.347e-6*t))
}

// FreezingPoint returns the temperature in °C at which sea water of salinity s
// (4 to 40) begins to freeze at one atmosphere, air-saturated; fresh water
// gives 0. Within 0.01 K of TEOS-10.
//
// Source: Millero & Leung 1976; UNESCO Tech. Pap. Mar. Sci. 44 (1983).
func FreezingPoint(s float64) float64 {
	return s * (-0.0575 + 1.710523e-3*math.Sqrt(s) - 2.154996e-4*s) / 1.00024
}
