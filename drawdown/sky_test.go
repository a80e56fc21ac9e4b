package drawdown

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestSkyTable(t *testing.T) {
	day := func(r check.Row) time.Time {
		return time.Date(int(r.Float("year")), time.Month(int(r.Float("month"))), int(r.Float("day")), 0, 0, 0, 0, time.UTC)
	}
	// The book gives dynamical time; its places are reached through centuries without the clock drift.
	dynamical := func(d time.Time) float64 { return (julianDay(d) - epoch2000) / 36525 }
	check.Run(t, "testdata/sky.csv", map[string]func(check.Row) (float64, error){
		"SkyAt": func(r check.Row) (float64, error) {
			d := day(r)
			switch r.Text("event") {
			case "sun_declination_deg":
				return sunPosition(dynamical(d)).declination, nil
			case "sun_right_ascension_deg":
				return sunPosition(dynamical(d)).rightAscension, nil
			case "equation_of_time_min":
				return equationOfTime(dynamical(d)), nil
			}
			s, err := SkyAt(Place{units.Degrees.Of(r.Float("latitude_deg")), units.Degrees.Of(r.Float("longitude_deg"))}, d)
			if err != nil {
				return 0, err
			}
			at := map[string]time.Time{"sunrise": s.Sunrise, "sunset": s.Sunset, "first_light": s.FirstLight, "last_light": s.LastLight,
				"nautical_dawn": s.NauticalDawn, "nautical_dusk": s.NauticalDusk, "moonrise": s.Moonrise, "moonset": s.Moonset}
			if r.Text("event") == "moon_illuminated" {
				return s.Moon.Illuminated, nil
			}
			return at[r.Text("event")].Sub(d).Hours(), nil
		},
		"MoonAt": func(r check.Row) (float64, error) {
			p := moonPosition(dynamical(day(r)))
			switch r.Text("event") {
			case "moon_longitude_deg":
				return p.longitude, nil
			case "moon_latitude_deg":
				return p.latitude, nil
			case "moon_distance_km":
				return p.distance, nil
			}
			return MoonAt(day(r)).Illuminated, nil
		},
		"NextMoonPhase": func(r check.Row) (float64, error) {
			for p := range WaningCrescent + 1 {
				if p.String() == r.Text("event") {
					at, err := NextMoonPhase(day(r), p)
					return at.Sub(day(r)).Hours(), err
				}
			}
			return math.NaN(), nil
		},
	})
}

var skyPlace = Place{units.Degrees.Of(30.2), units.Degrees.Of(-93.2)}

func TestSkyKnowsZones(t *testing.T) {
	zone, err := time.LoadLocation("America/Chicago")
	if err != nil {
		t.Skip("no time zone database")
	}
	utc, err := SkyAt(skyPlace, time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	local, err := SkyAt(skyPlace, time.Date(2026, 11, 1, 23, 59, 0, 0, zone)) // the clocks go back that night
	require.NoError(t, err)
	require.Less(t, math.Abs(local.Sunrise.Sub(utc.Sunrise).Seconds()), 0.1)
	require.Equal(t, "06:27", local.Sunrise.Format("15:04"))
	require.Empty(t, local.Notices)
	wrong, err := SkyAt(Place{skyPlace.Latitude, -skyPlace.Longitude}, time.Date(2026, 11, 1, 0, 0, 0, 0, zone))
	require.NoError(t, err)
	require.Equal(t, CodeSkyZone, wrong.Notices[0].Code)
	require.Contains(t, wrong.Notices[0].Message, "west is negative")
	old, err := SkyAt(skyPlace, time.Date(1850, 1, 1, 0, 0, 0, 0, time.FixedZone("", -6*3600)))
	require.NoError(t, err)
	require.Equal(t, CodeSkyYears, old.Notices[0].Code)
}

func TestSkyOrderAndOverlaps(t *testing.T) {
	zone := time.FixedZone("CST", -6*3600)
	for d := range 366 {
		s, err := SkyAt(skyPlace, time.Date(2028, 1, 1+d, 5, 0, 0, 0, zone))
		require.NoError(t, err)
		order := []time.Time{s.NauticalDawn, s.FirstLight, s.Sunrise, s.Noon, s.Sunset, s.LastLight, s.NauticalDusk}
		for i := 1; i < len(order); i++ {
			require.True(t, order[i].After(order[i-1]), "day %d", d)
		}
		require.Equal(t, d+1, s.Noon.YearDay())
		if !s.Moonrise.IsZero() {
			require.Equal(t, d+1, s.Moonrise.YearDay())
		}
	}
}

func TestSkyWithoutNightOrDay(t *testing.T) {
	north := Place{units.Degrees.Of(70), units.Degrees.Of(19)}
	s, err := SkyAt(north, time.Date(2026, 6, 21, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	require.True(t, s.Sunrise.IsZero())
	require.True(t, s.Sunset.IsZero())
	s, err = SkyAt(north, time.Date(2026, 12, 21, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	require.True(t, s.Sunrise.IsZero())
	require.False(t, s.FirstLight.IsZero())
	b, err := json.Marshal(s)
	require.NoError(t, err)
	require.NotContains(t, string(b), "0001")
	require.NotContains(t, strings.ToLower(string(b)), "nan")
}

func TestSkyRefusesPlacesOffTheGlobe(t *testing.T) {
	for _, p := range []Place{{units.Degrees.Of(91), 0}, {0, units.Degrees.Of(181)}, {units.Angle(math.NaN()), 0}} {
		_, err := SkyAt(p, time.Now())
		require.ErrorIs(t, err, units.ErrDomain)
	}
	_, err := NextMoonPhase(time.Now(), 8)
	require.ErrorIs(t, err, units.ErrDomain)
}

func TestMoonPhasesFollowEachOther(t *testing.T) {
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	p := NewMoon
	at, err := NextMoonPhase(at, p)
	require.NoError(t, err)
	for range 100 {
		require.Equal(t, p, MoonAt(at).Phase)
		next, err := NextMoonPhase(at, (p+1)%8)
		require.NoError(t, err)
		gap := next.Sub(at).Hours() / 24
		require.True(t, gap > 3 && gap < 4.5, "%v to %v: %v days", p, (p+1)%8, gap)
		same, err := NextMoonPhase(at, p)
		require.NoError(t, err)
		month := same.Sub(at).Hours() / 24
		require.True(t, month > 29.1 && month < 30, "month of %v days", month)
		at, p = next, (p+1)%8
	}
	var back MoonPhase
	require.NoError(t, back.UnmarshalText([]byte("waning gibbous")))
	require.Equal(t, WaningGibbous, back)
	require.Error(t, back.UnmarshalText([]byte("blue")))
}

func BenchmarkSkyAt(b *testing.B) {
	day := time.Date(2026, 11, 1, 0, 0, 0, 0, time.FixedZone("CST", -6*3600))
	b.ReportAllocs()
	for range b.N {
		if _, err := SkyAt(skyPlace, day); err != nil {
			b.Fatal(err)
		}
	}
}

func TestTracksFollowTheSeries(t *testing.T) {
	for d := range 60 {
		w := watch{lat: 30, lon: -93, from: epoch2000 + 9000.25 + 5.3*float64(d)}
		w.to = w.from + 25.0/24
		sun, moon := w.sunTrack(), w.moonTrack()
		for i := range 51 {
			jd := w.from + (w.to-w.from)*float64(i)/50
			require.InDelta(t, sunPosition(centuries(jd)).altitude(jd, w.lat, w.lon), sun.altitude(jd, w.lat, w.lon), 1e-4)
			p := moonPosition(centuries(jd))
			require.InDelta(t, p.altitude(jd, w.lat, w.lon)-0.7275*asind(6378.14/p.distance)+34.0/60, moon.altitude(jd, w.lat, w.lon), 1e-4)
		}
	}
}

func TestNightAfterJoinsTwoDays(t *testing.T) {
	zone := time.FixedZone("CST", -6*3600)
	for d := range 60 {
		evening := time.Date(2027, 3, 1+d, 18, 0, 0, 0, zone)
		n, err := NightAfter(skyPlace, evening)
		require.NoError(t, err)
		require.Equal(t, evening.YearDay(), n.LastLight.YearDay())
		require.Equal(t, evening.YearDay()+1, n.FirstLight.YearDay())
		require.Equal(t, n.FirstLight.Sub(n.LastLight), n.Dark)
		// Count the moonlit minutes one by one.
		lit := 0
		for at := n.LastLight; at.Before(n.FirstLight); at = at.Add(time.Minute) {
			jd := julianDay(at)
			p := moonPosition(centuries(jd))
			if p.altitude(jd, 30.2, -93.2) > 0.7275*asind(6378.14/p.distance)-34.0/60 {
				lit++
			}
		}
		require.InDelta(t, lit, n.Moonlit.Minutes(), 2.1, "night %d", d)
	}
	n, err := NightAfter(Place{units.Degrees.Of(65), units.Degrees.Of(25)}, time.Date(2026, 6, 20, 18, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	require.Zero(t, n.Dark) // no dark at midsummer
	_, err = NightAfter(Place{units.Degrees.Of(95), 0}, time.Now())
	require.ErrorIs(t, err, units.ErrDomain)
}
