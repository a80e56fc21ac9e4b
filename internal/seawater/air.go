package seawater

import "math"

// Constants of the standard atmosphere below 11 km.
const (
	isaLapse    = 0.0065 // K/m
	isaT0       = 288.15 // K
	isaExponent = 9.80665 * 0.0289644 / (8.31432 * isaLapse)
	earthRadius = 6356766.0 // m, nominal, of the standard
)

// Geopotential returns the geopotential altitude in metres that belongs to a
// geometric one, the height that a map or a survey gives: 0.6 m less at 1950 m,
// which is 6 Pa. [AirPressure] takes the former.
//
// Equation: h = r z/(r + z), r = 6356766 m.
//
// Source: ISO 2533:1975; U.S. Standard Atmosphere 1976, eq. 18.
func Geopotential(z float64) float64 { return earthRadius * z / (earthRadius + z) }

// Geometric returns the geometric altitude in metres of a geopotential one: the
// inverse of [Geopotential].
func Geometric(h float64) float64 { return earthRadius * h / (earthRadius - h) }

// AirPressure returns the pressure of the standard atmosphere in Pa at
// geopotential altitude h in metres, -5000 to 11000 m. Weather moves the
// pressure of a day by ± 3 kPa: a barometer at the pond is better.
//
// Source: ISO 2533:1975; U.S. Standard Atmosphere 1976, eq. 33a.
func AirPressure(h float64) float64 {
	return onAtm * math.Pow(1-isaLapse/isaT0*h, isaExponent)
}

// PressureAltitude returns the geopotential altitude in metres at which the
// standard atmosphere has the pressure p in Pa: the inverse of [AirPressure].
func PressureAltitude(p float64) float64 {
	return isaT0 / isaLapse * (1 - math.Pow(p/onAtm, 1/isaExponent))
}

// StationPressure returns the pressure in Pa at altitude h in metres when a
// weather report gives the pressure reduced to sea level, by the standard
// atmosphere. A reduced reading taken for the local one overstates the
// atmospheric head by 1.2 m per 1000 m.
//
// Source: the definition of the altimeter setting in the standard atmosphere,
// see [AirPressure].
func StationPressure(seaLevel, h float64) float64 {
	return onAtm * math.Pow(math.Pow(seaLevel/onAtm, 1/isaExponent)-isaLapse/isaT0*h, isaExponent)
}
