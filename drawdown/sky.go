package drawdown

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// Place is where a pond lies: north latitudes and east longitudes are
// positive, so that the Americas have negative longitudes.
type Place struct {
	Latitude  units.Angle `json:"latitude"`
	Longitude units.Angle `json:"longitude"`
}

// Sky is the light of one calendar day at a place. Times are in the zone of
// the day asked for; a zero time means that the event does not happen that
// day, as the moon does not rise on one day of a month.
type Sky struct {
	NauticalDawn time.Time `json:"nauticalDawn,omitzero"` // sun 12 degrees below the horizon: horizon visible at sea
	FirstLight   time.Time `json:"firstLight,omitzero"`   // civil dawn, sun 6 degrees below: work without lamps
	Sunrise      time.Time `json:"sunrise,omitzero"`      // upper edge on the horizon, with refraction
	Noon         time.Time `json:"noon"`                  // sun highest
	Sunset       time.Time `json:"sunset,omitzero"`
	LastLight    time.Time `json:"lastLight,omitzero"` // civil dusk
	NauticalDusk time.Time `json:"nauticalDusk,omitzero"`
	Moonrise     time.Time `json:"moonrise,omitzero"`
	Moonset      time.Time `json:"moonset,omitzero"`
	Moon         Moon      `json:"moon"` // at local noon

	Notices []units.Notice `json:"notices,omitempty"`
}

// Moon is the moon's appearance at a moment.
type Moon struct {
	Illuminated float64     `json:"illuminated"` // lit fraction of the disc, 0 to 1
	Elongation  units.Angle `json:"elongation"`  // ahead of the sun along the ecliptic: 0 new, 90 degrees first quarter, 180 full, 270 last quarter
	Phase       MoonPhase   `json:"phase"`
}

// MoonPhase names an eighth of the moon's round, the four principal phases in
// the middle of theirs: [NewMoon], [WaxingCrescent], [FirstQuarter],
// [WaxingGibbous], [FullMoon], [WaningGibbous], [LastQuarter] or
// [WaningCrescent].
type MoonPhase uint8

const (
	NewMoon MoonPhase = iota
	WaxingCrescent
	FirstQuarter
	WaxingGibbous
	FullMoon
	WaningGibbous
	LastQuarter
	WaningCrescent
)

var phaseNames = [...]string{"new moon", "waxing crescent", "first quarter", "waxing gibbous",
	"full moon", "waning gibbous", "last quarter", "waning crescent"}

// String returns the phase in words.
func (p MoonPhase) String() string {
	if int(p) < len(phaseNames) {
		return phaseNames[p]
	}
	return fmt.Sprintf("MoonPhase(%d)", uint8(p))
}

// MarshalText writes the phase in words.
func (p MoonPhase) MarshalText() ([]byte, error) {
	if int(p) >= len(phaseNames) {
		return nil, fmt.Errorf("drawdown.MoonPhase: %d is not a known phase", uint8(p))
	}
	return []byte(phaseNames[p]), nil
}

// UnmarshalText reads the phase in words.
func (p *MoonPhase) UnmarshalText(text []byte) error {
	for i, n := range phaseNames {
		if n == string(text) {
			*p = MoonPhase(i)
			return nil
		}
	}
	return fmt.Errorf("drawdown.MoonPhase: %q is not a phase such as %q", text, phaseNames[0])
}

// Notice codes of the sky.
const (
	CodeSkyZone  = "DRAW_SKY_ZONE"
	CodeSkyYears = "DRAW_SKY_YEARS"
)

// Altitudes of the sun's centre, degrees.
const (
	sunHorizon   = -0.8333 // 34' of refraction and 16' of radius, Meeus (1998), p. 102
	civilDepth   = -6.0
	nauticalDeep = -12.0
)

// SkyAt returns sunrise, sunset, twilights, moonrise and moonset of the
// calendar day that day falls on in its own zone, and the moon at noon of it.
// Daylight saving is the zone's: days of 23 or 25 hours are handled.
//
// Validity: sun within about half a minute and moon within about a minute of a
// flat sea horizon for 1900 to 2100 and away from the poles' grazing events;
// hills and refraction in unusual air shift real events by minutes. A notice
// warns of years outside and of a longitude that does not fit the zone, the
// usual sign of a west longitude typed without its minus. Errors: latitude
// outside 90, longitude outside 180 degrees.
//
// Source: Meeus (1998), Astronomical Algorithms, 2nd ed., chs 12, 13, 15, 25,
// 47 and 48.
func SkyAt(place Place, day time.Time) (Sky, error) {
	if err := place.Validate(); err != nil {
		return Sky{}, err
	}
	zone := day.Location()
	y, mo, d := day.Date()
	start := time.Date(y, mo, d, 0, 0, 0, 0, zone)
	end := time.Date(y, mo, d+1, 0, 0, 0, 0, zone)
	s := Sky{Moon: MoonAt(time.Date(y, mo, d, 12, 0, 0, 0, zone))}
	w := watch{lat: place.Latitude.In(units.Degrees), lon: place.Longitude.In(units.Degrees), from: julianDay(start), to: julianDay(end), zone: zone}
	sun, moon := w.sunTrack(), w.moonTrack()
	s.FirstLight, s.LastLight = w.crossings(&sun, civilDepth, 10)
	s.NauticalDawn, s.NauticalDusk = w.crossings(&sun, nauticalDeep, 10)
	s.Sunrise, s.Sunset = w.crossings(&sun, sunHorizon, 10)
	s.Moonrise, s.Moonset = w.crossings(&moon, 0, 20)
	s.Noon = w.highest()
	s.Notices = skyNotices(place, s.Noon, y)
	return s, nil
}

// Validate reports a latitude or longitude that is not on the globe.
func (p Place) Validate() error {
	const fn = "drawdown.Place"
	return errors.Join(
		units.Within(fn, "latitude", p.Latitude.In(units.Degrees), -90, 90, "deg"),
		units.Within(fn, "longitude", p.Longitude.In(units.Degrees), -180, 180, "deg"))
}

// MoonAt returns the moon's lit fraction and phase at a moment, the same all
// over the globe.
//
// Source: Meeus (1998), Astronomical Algorithms, 2nd ed., chs 47 and 48.
func MoonAt(t time.Time) Moon {
	ahead, lit := moonPhaseAngle(centuries(julianDay(t)))
	return Moon{Illuminated: lit, Elongation: units.Degrees.Of(ahead), Phase: MoonPhase(uint8(math.Floor(ahead/45+0.5)) % 8)}
}

// NextMoonPhase returns the next moment after t at which the moon reaches the
// middle of phase: the instant of new moon for NewMoon and so on. Accuracy:
// about a minute for 1900 to 2100. Errors: a phase that is not one.
//
// Source: Meeus (1998), ch. 49: the apparent longitudes of moon and sun differ
// by 0, 90, 180 or 270 degrees.
func NextMoonPhase(t time.Time, phase MoonPhase) (time.Time, error) {
	if phase > WaningCrescent {
		return time.Time{}, &units.InputError{Func: "drawdown.NextMoonPhase", Field: "phase", Value: float64(phase), Min: 0, Max: 7,
			Reason: "not a phase of the moon"}
	}
	target := 45 * float64(phase)
	jd := julianDay(t)
	away := func(jd float64) float64 { a, _ := moonPhaseAngle(centuries(jd)); return a }
	jd += turn(target-away(jd)) / 360 * 29.530588853
	for range 30 {
		off := target - away(jd)
		off -= 360 * math.Round(off/360)
		jd += off / 12.19 // degrees the moon gains on the sun in a day
		if math.Abs(off) < 1e-6 {
			break
		}
	}
	if jd <= julianDay(t)+1.0/86400 { // on the phase to within a second: the next round's
		return NextMoonPhase(t.Add(24*time.Hour), phase)
	}
	return ofJulianDay(jd, t.Location()), nil
}

func skyNotices(place Place, noon time.Time, year int) []units.Notice {
	var out []units.Notice
	if !(year >= 1900 && year <= 2100) {
		out = append(out, units.Notice{Code: CodeSkyYears, Severity: units.Caution, Field: "day", Value: float64(year), Limit: 2100,
			Message: "the clock correction and the moon's series are meant for 1900 to 2100"})
	}
	h := float64(noon.Hour()) + float64(noon.Minute())/60
	if math.Abs(place.Latitude.In(units.Degrees)) < 85 && math.Abs(h-12.5) > 3 {
		out = append(out, units.Notice{Code: CodeSkyZone, Severity: units.Warning, Field: "longitude", Value: h, Limit: 12.5, Unit: "h",
			Message: fmt.Sprintf("the sun stands highest at %s by this zone's clock: check the sign of the longitude (west is negative) and the zone", noon.Format("15:04"))})
	}
	return out
}
