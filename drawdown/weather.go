package drawdown

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/seawater"
	"pondwright.example/units"
)

// AirPressure returns the pressure of the standard atmosphere at a height above
// the sea as maps give it, what an [OxygenBudget] away from the sea wants. Weather
// moves the pressure of a day by 3 kPa either way: a barometer at the pond is
// better.
//
// Equation: P = 101325 Pa (1 - 0.0065 h/288.15)^5.25588 with the geopotential
// height h = r z/(r + z) in metres, r = 6356766 m.
//
// Validity: -500 to 6000 m. Errors: not finite or outside.
//
// Source: ISO 2533:1975; U.S. Standard Atmosphere 1976, eq. 18 and 33a.
func AirPressure(elevation units.Length) (units.AbsolutePressure, error) {
	z := float64(elevation)
	if err := units.Within("drawdown.AirPressure", "elevation", z, -500, 6000, "m"); err != nil {
		return units.AbsolutePressure(math.NaN()), err
	}
	return units.AbsolutePressure(seawater.AirPressure(seawater.Geopotential(z))), nil
}

// AirPressureFAO56 returns the mean atmospheric pressure at a height above the
// sea in the form that [PsychrometricConstant] and [OpenWater] are built on. It
// starts from 20 C at the sea and so lies above the standard atmosphere of
// [AirPressure], by 0.36 % at 1950 m.
//
// Equation: P = 101.3 ((293 - 0.0065 z)/293)^5.26 kPa.
//
// Validity: -430 to 5000 m, beyond it with units.ErrRange. Errors: not finite,
// or above the height where the formula ends.
//
// Source: Allen, Pereira, Raes & Smith (1998), FAO Irrigation and drainage
// paper 56, eq. 7.
func AirPressureFAO56(elevation units.Length) (units.AbsolutePressure, error) {
	const fn = "drawdown.AirPressureFAO56"
	z := float64(elevation)
	if err := units.Within(fn, "elevation", z, -5000, 40000, "m"); err != nil {
		return units.AbsolutePressure(math.NaN()), err
	}
	p := units.AbsolutePressure(101.3e3 * math.Pow((293-0.0065*z)/293, 5.26))
	if !(z >= -430 && z <= 5000) {
		return p, &units.InputError{Func: fn, Field: "elevation", Value: z, Unit: "m", Min: -430, Max: 5000, Kind: units.ErrRange, Reason: "FAO paper 56"}
	}
	return p, nil
}

// VapourPressure returns the saturation vapour pressure of water in air at
// temperature t.
//
// Equation: es = 0.6108 exp(17.27 T/(T + 237.3)) kPa, T in C.
//
// Validity: -20 to 50 C, beyond it with units.ErrRange. Errors: NaN, or outside
// -80 to 150 C.
//
// Source: Allen et al. (1998), FAO paper 56, eq. 11 (Tetens 1930).
func VapourPressure(t units.Temperature) (units.Pressure, error) {
	const fn = "drawdown.VapourPressure"
	tc := t.Celsius()
	if err := units.Within(fn, "temperature", tc, -80, 150, "C"); err != nil {
		return units.Pressure(math.NaN()), err
	}
	es := units.Pressure(1000 * vapourKPa(tc))
	if !(tc >= -20 && tc <= 50) {
		return es, &units.InputError{Func: fn, Field: "temperature", Value: tc, Unit: "C", Min: -20, Max: 50, Kind: units.ErrRange, Reason: "FAO paper 56"}
	}
	return es, nil
}

func vapourKPa(tc float64) float64 { return 0.6108 * math.Exp(17.27*tc/(tc+237.3)) } // eq. 11

// PsychrometricConstant returns what relates the vapour pressure of air to the
// cooling of a wet thermometer, in pascals per kelvin.
//
// Equation: gamma = 0.665e-3 P. Source: Allen et al. (1998), FAO paper 56, eq.
// 8. Errors: pressure not positive.
func PsychrometricConstant(p units.AbsolutePressure) (pascalsPerKelvin float64, err error) {
	if err := units.Positive("drawdown.PsychrometricConstant", "pressure", float64(p), "Pa"); err != nil {
		return math.NaN(), err
	}
	return 0.665e-3 * float64(p), nil
}

// solarDay is the sun of one day of the year at a latitude, FAO paper 56.
type solarDay struct{ distance, declination, sunsetAngle, phi float64 }

func newSolarDay(fn string, latitude units.Angle, dayOfYear int) (solarDay, error) {
	if err := errors.Join(units.Within(fn, "latitude", latitude.In(units.Degrees), -90, 90, "deg"),
		units.Within(fn, "dayOfYear", float64(dayOfYear), 1, 366, "")); err != nil {
		return solarDay{}, err
	}
	phi := float64(latitude)
	j := 2 * math.Pi * float64(dayOfYear) / 365
	s := solarDay{distance: 1 + 0.033*math.Cos(j), declination: 0.409 * math.Sin(j-1.39), phi: phi} // eqs 23, 24
	s.sunsetAngle = math.Acos(math.Max(-1, math.Min(1, -math.Tan(phi)*math.Tan(s.declination))))    // eq. 25; no sunset or no sunrise in polar days
	return s, nil
}

// ExtraterrestrialRadiation returns the mean over the day of the sun's heat on
// a level surface above the atmosphere: 1 W/m2 is 0.0864 MJ/m2 a day.
//
// Equation: Ra = (24 60/pi) Gsc dr (ws sin phi sin d + cos phi cos d sin ws),
// Gsc = 0.0820 MJ/(m2 min).
//
// Validity: latitudes to 55 degrees by the source; beyond them it is still the
// geometry. Errors: latitude outside 90 degrees, day outside 1 to 366.
//
// Source: Allen et al. (1998), FAO paper 56, eqs 21 to 25.
func ExtraterrestrialRadiation(latitude units.Angle, dayOfYear int) (units.HeatFlux, error) {
	s, err := newSolarDay("drawdown.ExtraterrestrialRadiation", latitude, dayOfYear)
	if err != nil {
		return units.HeatFlux(math.NaN()), err
	}
	return units.HeatFlux(s.radiation() / megajoulesPerDay), nil
}

// radiation returns Ra in MJ/(m2 d), eq. 21.
func (s solarDay) radiation() float64 {
	return 24 * 60 / math.Pi * 0.0820 * s.distance * (s.sunsetAngle*math.Sin(s.phi)*math.Sin(s.declination) +
		math.Cos(s.phi)*math.Cos(s.declination)*math.Sin(s.sunsetAngle))
}

// megajoulesPerDay turns W/m2 into MJ/(m2 d).
const megajoulesPerDay = 0.0864

// DaylightHours returns the time from sunrise to sunset without refraction.
//
// Equation: N = 24 ws/pi. Source: Allen et al. (1998), FAO paper 56, eq. 34.
// For the clock times of a place and date use [SkyAt]. Errors: as for
// [ExtraterrestrialRadiation].
func DaylightHours(latitude units.Angle, dayOfYear int) (time.Duration, error) {
	s, err := newSolarDay("drawdown.DaylightHours", latitude, dayOfYear)
	if err != nil {
		return 0, err
	}
	return time.Duration(24 / math.Pi * s.sunsetAngle * 3600e9), nil
}

// SkyRadiation is the weather of a day as far as a pond's net radiation needs
// it.
type SkyRadiation struct {
	Latitude  units.Angle       `json:"latitude"`
	DayOfYear int               `json:"dayOfYear"`
	Elevation units.Length      `json:"elevation"`
	Sunshine  float64           `json:"sunshine"` // hours of bright sun over the hours of daylight, 0 to 1
	Highest   units.Temperature `json:"highest"`  // air, of the day
	Lowest    units.Temperature `json:"lowest"`
	Vapour    units.Pressure    `json:"vapour"`           // actual vapour pressure of the air
	Albedo    float64           `json:"albedo,omitempty"` // zero means 0.08, open water
}

// NetRadiation is the radiation balance of a day, each a mean over 24 hours.
type NetRadiation struct {
	Extraterrestrial units.HeatFlux `json:"extraterrestrial"`
	Solar            units.HeatFlux `json:"solar"`    // at the surface
	ClearSky         units.HeatFlux `json:"clearSky"` // solar without cloud
	Longwave         units.HeatFlux `json:"longwave"` // net loss
	Net              units.HeatFlux `json:"net"`
}

// Net returns the radiation balance of the day.
//
// Equation: Rs = (0.25 + 0.50 n/N) Ra; Rso = (0.75 + 2e-5 z) Ra; Rnl = sigma
// (Tmax^4 + Tmin^4)/2 (0.34 - 0.14 sqrt ea)(1.35 Rs/Rso - 0.35); Rn = (1 -
// albedo) Rs - Rnl, in MJ/(m2 d), kPa and K.
//
// Source: Allen et al. (1998), FAO paper 56, eqs 35, 37, 38, 39 and 40. Errors:
// inputs that cannot be, a day without sun.
func (w SkyRadiation) Net() (NetRadiation, error) {
	const fn = "drawdown.SkyRadiation"
	s, err := newSolarDay(fn, w.Latitude, w.DayOfYear)
	if err = errors.Join(err, units.Within(fn, "elevation", float64(w.Elevation), -430, 6000, "m"),
		units.Within(fn, "sunshine", w.Sunshine, 0, 1, ""),
		units.Within(fn, "highest", w.Highest.Celsius(), -50, 60, "C"), units.Within(fn, "lowest", w.Lowest.Celsius(), -50, w.Highest.Celsius(), "C"),
		units.Within(fn, "vapour", float64(w.Vapour), 0, 12e3, "Pa"), units.Within(fn, "albedo", w.Albedo, 0, 1, "")); err != nil {
		return NetRadiation{}, err
	}
	ra := s.radiation()
	if !(ra > 0) {
		return NetRadiation{}, &units.InputError{Func: fn, Field: "dayOfYear", Value: float64(w.DayOfYear), Kind: units.ErrNoSolution, Reason: "the sun does not rise"}
	}
	albedo := w.Albedo
	if albedo == 0 {
		albedo = 0.08
	}
	rs := (0.25 + 0.50*w.Sunshine) * ra            // eq. 35
	rso := (0.75 + 2e-5*float64(w.Elevation)) * ra // eq. 37
	t4 := 0.5 * (math.Pow(w.Highest.Celsius()+273.16, 4) + math.Pow(w.Lowest.Celsius()+273.16, 4))
	rnl := 4.903e-9 * t4 * (0.34 - 0.14*math.Sqrt(float64(w.Vapour)/1000)) * (1.35*math.Min(1, rs/rso) - 0.35) // eq. 39
	flux := func(mj float64) units.HeatFlux { return units.HeatFlux(mj / megajoulesPerDay) }
	return NetRadiation{flux(ra), flux(rs), flux(rso), flux(rnl), flux((1-albedo)*rs - rnl)}, nil
}

// OpenWater is the weather that evaporates a pond, daily means.
type OpenWater struct {
	Air          units.Temperature `json:"air"`
	Humidity     float64           `json:"humidity"`     // relative, 0 to 1
	Wind         units.Velocity    `json:"wind"`         // 2 m above the water
	NetRadiation units.HeatFlux    `json:"netRadiation"` // mean over 24 hours
	Elevation    units.Length      `json:"elevation,omitempty"`
}

// Evaporation returns the depth that open water loses to the air per time.
//
// Equation: E = [D Rn + gamma 6.43 (1 + 0.536 U)(es - ea)]/[lambda (D +
// gamma)] mm/d, Rn in MJ/(m2 d), U in m/s, es, ea in kPa, lambda = 2.45 MJ/kg,
// D = 4098 es/(T + 237.3)^2.
//
// Validity: days, shallow water: heat stored in the water is left out. Errors:
// inputs that cannot be. A pond that gains dew evaporates a negative depth.
//
// Source: Penman (1948), Proceedings of the Royal Society A 193, 120-145, in
// the form of Shuttleworth (1993), Handbook of hydrology, ch. 4; vapour terms
// of FAO paper 56, eqs 7, 8, 11 and 13.
func (w OpenWater) Evaporation() (units.Velocity, error) {
	const fn = "drawdown.OpenWater"
	tc := w.Air.Celsius()
	if err := errors.Join(units.Within(fn, "air", tc, -20, 55, "C"), units.Within(fn, "humidity", w.Humidity, 0, 1, ""),
		units.Within(fn, "wind", float64(w.Wind), 0, 60, "m/s"), units.Within(fn, "netRadiation", float64(w.NetRadiation), -400, 600, "W/m2"),
		units.Within(fn, "elevation", float64(w.Elevation), -430, 6000, "m")); err != nil {
		return units.Velocity(math.NaN()), err
	}
	es := vapourKPa(tc)
	slope := 4098 * es / ((tc + 237.3) * (tc + 237.3)) // eq. 13
	p, err := AirPressureFAO56(w.Elevation)
	if err != nil && !errors.Is(err, units.ErrRange) {
		return units.Velocity(math.NaN()), err
	}
	gamma := 0.665e-3 * float64(p) / 1000
	rn := float64(w.NetRadiation) * megajoulesPerDay
	mm := (slope*rn + gamma*6.43*(1+0.536*float64(w.Wind))*es*(1-w.Humidity)) / (2.45 * (slope + gamma))
	return units.Velocity(mm / 1000 / 86400), err
}
