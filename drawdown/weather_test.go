package drawdown

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestWeatherTable(t *testing.T) {
	latitude := func(r check.Row) units.Angle { return units.Degrees.Of(r.Float("latitude_deg")) }
	day := func(r check.Row) int { return int(r.Float("day_of_year")) }
	check.Run(t, "testdata/weather.csv", map[string]func(check.Row) (float64, error){
		"VapourPressure": func(r check.Row) (float64, error) {
			p, err := VapourPressure(units.Celsius(r.Float("temperature_c")))
			return float64(p), err
		},
		"AirPressure": func(r check.Row) (float64, error) {
			p, err := AirPressure(units.Length(r.Float("elevation_m")))
			return float64(p), err
		},
		"AirPressureFAO56": func(r check.Row) (float64, error) {
			p, err := AirPressureFAO56(units.Length(r.Float("elevation_m")))
			return float64(p), err
		},
		"PsychrometricConstant": func(r check.Row) (float64, error) {
			p, err := AirPressureFAO56(units.Length(r.Float("elevation_m")))
			require.NoError(t, err)
			return PsychrometricConstant(p)
		},
		"ExtraterrestrialRadiation": func(r check.Row) (float64, error) {
			f, err := ExtraterrestrialRadiation(latitude(r), day(r))
			return float64(f) * megajoulesPerDay, err
		},
		"DaylightHours": func(r check.Row) (float64, error) {
			d, err := DaylightHours(latitude(r), day(r))
			return d.Hours(), err
		},
		"SkyRadiation.Net": func(r check.Row) (float64, error) {
			n, err := SkyRadiation{Latitude: latitude(r), DayOfYear: day(r), Sunshine: 7.1 / 10.9, Highest: units.Celsius(25.1),
				Lowest: units.Celsius(19.1), Vapour: 2100}.Net()
			return float64(map[string]units.HeatFlux{"solar": n.Solar, "longwave": n.Longwave, "clear_sky": n.ClearSky}[r.Text("quantity")]) * megajoulesPerDay, err
		},
		"OpenWater.Evaporation": func(r check.Row) (float64, error) {
			e, err := OpenWater{Air: units.Celsius(r.Float("air_c")), Humidity: r.Float("humidity"), Wind: units.Velocity(r.Float("wind_m_s")),
				NetRadiation: units.HeatFlux(r.Float("radiation") / megajoulesPerDay)}.Evaporation()
			return e.In(units.MillimetresPerDay), err
		},
		"HeatBalance.Rate": func(r check.Row) (float64, error) {
			h, err := HeatBalance{Water: units.Celsius(r.Float("temperature_c")), Air: units.Celsius(r.Float("air_c")), Humidity: r.Float("humidity"),
				Wind: units.Velocity(r.Float("wind_m_s")), Solar: units.HeatFlux(r.Float("radiation")), Depth: units.Length(r.Float("depth_m"))}.Rate()
			if r.Text("quantity") == "net" {
				return float64(h.Net), err
			}
			return float64(h.Rate) * 3600, err
		},
		"RunoffDepth": func(r check.Row) (float64, error) {
			d, err := RunoffDepth(units.Length(r.Float("rain_m")), r.Float("curve_number"))
			return float64(d), err
		},
	})
}

func wxNoon() HeatBalance {
	return HeatBalance{Water: units.Celsius(30), Air: units.Celsius(32), Humidity: 0.6, Wind: 2, Solar: 900, Depth: 0.3}
}

func TestWarmFollowsTheRate(t *testing.T) {
	h := wxNoon()
	r, err := h.Rate()
	require.NoError(t, err)
	require.InDelta(t, float64(r.Net), float64(r.Solar+r.Atmosphere+r.Back+r.Evaporation+r.Convection+r.Inflow), 1e-9)
	short, err := h.Warm(6*time.Second, units.Celsius(45))
	require.NoError(t, err)
	require.InDelta(t, 30+float64(r.Rate)*6, short.Water.Celsius(), 1e-5)
	long, err := h.Warm(30*24*time.Hour, units.Celsius(33))
	require.NoError(t, err)
	require.InDelta(t, long.Tends.Celsius(), long.Water.Celsius(), 1e-6, "in a month it settles")
	require.True(t, long.Meets)
	require.Equal(t, CodeWarmingLimit, long.Notices[0].Code)
	at, err := h.Warm(long.TimeToLimit, units.Celsius(50))
	require.NoError(t, err)
	require.InDelta(t, 33, at.Water.Celsius(), 2e-3)
	still := h
	still.Water = long.Tends
	s, err := still.Rate()
	require.NoError(t, err)
	require.InDelta(t, 0, float64(s.Net), 1e-6)
	// Steps do not matter: two halves make the whole.
	half, err := h.Warm(time.Hour, units.Celsius(45))
	require.NoError(t, err)
	h.Water = half.Water
	again, err := h.Warm(time.Hour, units.Celsius(45))
	require.NoError(t, err)
	h.Water = units.Celsius(30)
	whole, err := h.Warm(2*time.Hour, units.Celsius(45))
	require.NoError(t, err)
	require.InDelta(t, whole.Water.Celsius(), again.Water.Celsius(), 1e-5)
}

func TestWarmingInflowAndDepth(t *testing.T) {
	h := wxNoon()
	h.Exchange, h.InflowTemperature = 1e-4, units.Celsius(22)
	cool, err := h.Warm(time.Hour, units.Celsius(45))
	require.NoError(t, err)
	h.Exchange = 0
	warm, err := h.Warm(time.Hour, units.Celsius(45))
	require.NoError(t, err)
	require.Less(t, cool.Water.Celsius(), warm.Water.Celsius())
	h.Depth = 0.1
	shallow, err := h.Rate()
	require.NoError(t, err)
	h.Depth = 0.2
	deep, err := h.Rate()
	require.NoError(t, err)
	require.InDelta(t, 2, float64(shallow.Rate/deep.Rate), 1e-12)
	h.Depth, h.Humidity, h.Solar = 0, 2, units.HeatFlux(math.NaN())
	_, err = h.Warm(-time.Hour, units.Celsius(99))
	require.ErrorIs(t, err, units.ErrDomain)
	for _, f := range []string{"depth", "humidity", "solar", "after", "limit"} {
		require.ErrorContains(t, err, f)
	}
	require.ErrorContains(t, HeatBalance{Water: units.Celsius(20), Air: units.Celsius(20), Depth: 1, Exchange: 1}.Validate(), "inflowTemperature")
	_, err = json.Marshal(warm)
	require.NoError(t, err)
}

func TestWeatherEdges(t *testing.T) {
	for _, c := range []error{
		second(AirPressure(units.Length(math.NaN()))), second(AirPressure(50000)), second(AirPressureFAO56(units.Length(math.NaN()))), second(AirPressureFAO56(50000)), second(VapourPressure(units.KelvinScale(0))),
		second(PsychrometricConstant(-1)), second(ExtraterrestrialRadiation(units.Degrees.Of(91), 1)), second(ExtraterrestrialRadiation(0, 367)),
		second(DaylightHours(0, 0)), second(OpenWater{Humidity: 2}.Evaporation()), second(SkyRadiation{Sunshine: 2}.Net()),
	} {
		require.ErrorIs(t, c, units.ErrDomain)
	}
	require.ErrorIs(t, second(AirPressureFAO56(6000)), units.ErrRange)
	require.ErrorIs(t, second(VapourPressure(units.Celsius(60))), units.ErrRange)
	// Polar night and midnight sun.
	n, err := DaylightHours(units.Degrees.Of(80), 355)
	require.NoError(t, err)
	require.Zero(t, n)
	n, err = DaylightHours(units.Degrees.Of(80), 172)
	require.NoError(t, err)
	require.InDelta(t, 24, n.Hours(), 1e-9)
	_, err = SkyRadiation{Latitude: units.Degrees.Of(80), DayOfYear: 355, Highest: units.Celsius(-20), Lowest: units.Celsius(-30)}.Net()
	require.ErrorIs(t, err, units.ErrNoSolution)
}

func second[T any](_ T, err error) error { return err }

// Drier, windier, sunnier air evaporates more.
func TestEvaporationIsMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(81, 82))
	for range 1000 {
		w := OpenWater{Air: units.Celsius(5 + 30*rng.Float64()), Humidity: 0.9 * rng.Float64(), Wind: units.Velocity(8 * rng.Float64()), NetRadiation: units.HeatFlux(250 * rng.Float64())}
		e := func(w OpenWater) float64 {
			v, err := w.Evaporation()
			require.NoError(t, err)
			return float64(v)
		}
		base := e(w)
		dry, windy, sunny := w, w, w
		dry.Humidity *= 0.9
		windy.Wind += 1
		sunny.NetRadiation += 20
		require.GreaterOrEqual(t, e(dry), base)
		require.GreaterOrEqual(t, e(windy), base)
		require.Greater(t, e(sunny), base)
	}
}
