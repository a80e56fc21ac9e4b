package hydraulics

import (
	"math"

	"pondwright.example/internal/seawater"
	"pondwright.example/units"
)

// Altitudes and pressures of the standard atmosphere that ponds can have.
const (
	minAltitude, maxAltitude     = -500.0, 6000.0 // m
	minAirPascals, maxAirPascals = 40e3, 115e3    // Pa
)

// AirPressure returns the pressure of the standard atmosphere at an altitude z
// above sea level, as maps give it, of -500 to 6000 m; ErrDomain outside.
// Weather moves the pressure of a day by ± 3 kPa: a barometer at the pond is
// better.
//
// Equation: p = 101325 Pa (1 - 0.0065 h/288.15)^5.25588 with the geopotential
// altitude h = r z/(r + z) in metres, r = 6356766 m.
//
// Source: ISO 2533:1975; U.S. Standard Atmosphere 1976, eq. 18 and 33a.
func AirPressure(altitude units.Length) (units.AbsolutePressure, error) {
	z := altitude.Metres()
	if err := units.Within("hydraulics.AirPressure", "altitude", z, minAltitude, maxAltitude, "m"); err != nil {
		return units.AbsolutePressure(math.NaN()), err
	}
	return units.AbsolutePressure(seawater.AirPressure(seawater.Geopotential(z))), nil
}

// StationPressure returns the pressure at an altitude when a weather report
// gives the pressure reduced to sea level. A reduced reading taken for the local
// one overstates the atmospheric head by 1.2 m per 1000 m.
//
// Source: standard atmosphere as in [AirPressure].
func StationPressure(seaLevel units.AbsolutePressure, altitude units.Length) (units.AbsolutePressure, error) {
	const fn = "hydraulics.StationPressure"
	p, z := seaLevel.PascalsAbsolute(), altitude.Metres()
	if err := units.Within(fn, "altitude", z, minAltitude, maxAltitude, "m"); err != nil {
		return units.AbsolutePressure(math.NaN()), err
	}
	if !(p >= 87e3 && p <= 109e3) { // records of sea-level pressure
		return units.AbsolutePressure(math.NaN()), &units.InputError{Func: fn, Field: "seaLevel", Value: p, Unit: "Pa",
			Min: 87e3, Max: 109e3, Reason: "pressure reduced to sea level", Kind: units.ErrDomain}
	}
	return units.AbsolutePressure(seawater.StationPressure(p, seawater.Geopotential(z))), nil
}

// AltitudeOfPressure returns the altitude at which the standard atmosphere has
// the pressure p, 40 to 115 kPa; the inverse of [AirPressure].
func AltitudeOfPressure(p units.AbsolutePressure) (units.Length, error) {
	v := p.PascalsAbsolute()
	if err := units.Within("hydraulics.AltitudeOfPressure", "p", v, minAirPascals, maxAirPascals, "Pa"); err != nil {
		return units.Length(math.NaN()), err
	}
	return units.Length(seawater.Geometric(seawater.PressureAltitude(v))), nil
}
