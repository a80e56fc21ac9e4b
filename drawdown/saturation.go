package drawdown

import (
	"pondwright.example/internal/oxygen"
	"pondwright.example/units"
)

// OxygenSaturation returns the dissolved oxygen of water in equilibrium with
// moist air at temperature t, practical salinity s and pressure p (about
// 101,325 Pa less 1.2 % for every 100 m of height).
//
// Equation: ln C = -139.34411 + 1.575701e5/T - 6.642308e7/T^2 + 1.243800e10/T^3
// - 8.621949e11/T^4 - S (0.017674 - 10.754/T + 2140.7/T^2), C in mg/L at 1 atm
// and T in K; at pressure P (atm) times (P-u)(1-theta P)/((1-u)(1-theta)).
//
// Validity: 0 to 40 C, salinity 0 to 40, 0.5 to 1.1 atm; beyond it the value
// comes with units.ErrRange. Errors: NaN, negative salinity, a pressure at
// which the water boils.
//
// Source: Benson & Krause (1984), Limnology and Oceanography 29, 620-632, eqs
// 24 and 32, the basis of Standard Methods 4500-O and of the USGS tables.
func OxygenSaturation(t units.Temperature, s units.PracticalSalinity, p units.AbsolutePressure) (units.Concentration, error) {
	return oxygen.Saturation("drawdown.OxygenSaturation", oxygen.BensonKrause1984, oxygen.VapourAPHA, t, s, p)
}

// UnionizedAmmonia returns the fraction of total ammonia nitrogen that is NH3,
// the toxic form, in fresh water at temperature t and the given pH.
//
// Equation: 1/(1 + 10^(pKa - pH)), pKa = 0.09018 + 2729.92/T, T in K.
//
// Validity: 0 to 50 C, beyond it with units.ErrRange; fresh water (in sea
// water the fraction is about a sixth lower). Errors: NaN, pH outside 0 to 14.
//
// Source: Emerson, Russo, Lund & Thurston (1975), Journal of the Fisheries
// Research Board of Canada 32, 2379-2383.
func UnionizedAmmonia(t units.Temperature, pH float64) (float64, error) {
	return oxygen.UnionizedAmmonia("drawdown.UnionizedAmmonia", t, pH)
}
