// Package seawater holds the properties of fresh, brackish and sea water at
// the temperatures of ponds, and the pressure of the air above them.
//
// All functions take plain float64: t is the temperature in degrees Celsius on
// ITS-90, s the practical salinity (dimensionless, close to grams per kilogram;
// fresh water is 0). Results are SI. Functions check nothing and return the
// value of their polynomial wherever it is asked; callers hold arguments to the
// ranges TMin..TMax and 0..SMax, which every function of t and s covers unless
// its comment says otherwise.
//
//	property            equation                         agrees with
//	density             EOS-80                           TEOS-10 to 0.005 kg/m³
//	bulk modulus        EOS-80
//	viscosity           Sharqawy et al. 2010             1.5 %; IAPWS fresh 0.05 %
//	specific heat       UNESCO 1983                      TEOS-10 to 0.09 %
//	vapour pressure     Wagner & Pruss 1993, Weiss       0.1 %
//	                    & Price 1980 for the salt
//	surface tension     IAPWS 2014 and 2019              0.5 %
//	freezing point      UNESCO 1983                      TEOS-10 to 0.01 K
//	air pressure        ISO 2533                         weather adds ± 3 kPa
//
// Practical salinity s is taken as 35.16504/35 s grams of salt per kilogram
// where an equation asks for that (TEOS-10, without the regional anomaly).
package seawater

// The common range of the equations of this package.
const (
	TMin, TMax = -2.0, 40.0 // °C
	SMax       = 42.0       // practical salinity
)

// saltFraction returns kilograms of salt per kilogram of sea water.
func saltFraction(s float64) float64 { return s * (35.16504 / 35 / 1000) }

// t68 converts a temperature from ITS-90 to IPTS-68 (Saunders 1990), the scale
// on which the UNESCO equations were published.
func t68(t float64) float64 { return 1.00024 * t }
