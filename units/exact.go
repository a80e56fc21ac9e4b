package units

import "math"

// Exact definitions, in SI, from which the unit constants are built. Constants
// are untyped, so that Go keeps every digit and each exported unit is rounded
// once. Only pi is itself rounded, far beyond the precision of a float64.
const (
	minute = 60
	hour   = 60 * minute
	day    = 24 * hour

	inch = 25.4e-3 // international yard and pound agreement, 1 July 1959
	foot = 12 * inch
	yard = 3 * foot
	mile = 5280 * foot
	acre = 43560 * foot * foot

	pound = 0.45359237 // the same agreement
	grain = pound / 7000

	usGallon       = 231 * inch * inch * inch
	imperialGallon = 4.54609e-3

	gravity    = 9.80665 // standard acceleration of gravity, 3rd CGPM 1901
	poundForce = pound * gravity
	water      = 1000.   // kg/m3, conventional
	mercury    = 13595.1 // kg/m3, conventional

	fahrenheit = 5. / 9 // kelvins in one degree Fahrenheit
	calorie    = 4.1868 // International Table calorie, 1956
	btu        = 1e3 * calorie * pound * fahrenheit

	mechanicalHorsepower = 550 * foot * poundForce
	metricHorsepower     = 75 * gravity

	pi = math.Pi
)
