package drawdown

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

// oxBasin is a 28.8 m3 catch basin with 400 kg crowded at 29 C and 30 ppt.
func oxBasin(mgPerKgHour float64) OxygenBudget {
	return OxygenBudget{
		Volume: 28.8, Stock: 400, Respiration: units.MilligramsPerKilogramHour.Of(mgPerKgHour),
		Start: units.MilligramsPerLitre.Of(4.5), Limit: units.MilligramsPerLitre.Of(2), InflowOxygen: units.MilligramsPerLitre.Of(5.5),
		Temperature: units.Celsius(29), Salinity: 30,
	}
}

// By hand: 2.5 g/m3 * 28.8 m3 / (400 kg * 0.3 g/(kg h)) = 0.6 h, half of it at
// twice the rate; the inflow that holds 3 mg/L is 120 or 240 g/h over 2.5 g/m3.
func TestOxygenOutlookOfACatchBasin(t *testing.T) {
	for _, c := range []struct{ rate, minutes, hold float64 }{{300, 36, 48}, {600, 18, 96}} {
		b := oxBasin(c.rate)
		o, err := b.Outlook()
		require.NoError(t, err)
		require.True(t, o.Meets)
		require.InDelta(t, c.minutes, o.TimeToLimit.Minutes(), 1e-6)
		require.Equal(t, o.TimeToLimit, o.Unsupplied)
		require.InDelta(t, 6.5, o.Saturation.In(units.MilligramsPerLitre), 0.05)
		b.Limit = units.MilligramsPerLitre.Of(3)
		o, err = b.Outlook()
		require.NoError(t, err)
		require.True(t, o.CanHold)
		require.InDelta(t, c.hold, o.InflowToHold.In(units.CubicMetresPerHour), 1e-9)
		// Given that inflow, the water settles at the limit and takes for ever.
		b.Inflow = o.InflowToHold
		o, err = b.Outlook()
		require.NoError(t, err)
		require.InDelta(t, 3, o.Tends.In(units.MilligramsPerLitre), 1e-9)
	}
	o, err := oxBasin(600).Outlook()
	require.NoError(t, err)
	require.Equal(t, CodeOxygenShort, o.Notices[0].Code)
	require.Equal(t, units.Danger, o.Notices[0].Severity)
}

func TestOxygenOutlookEdges(t *testing.T) {
	b := oxBasin(300)
	b.Start = units.MilligramsPerLitre.Of(1.5)
	o, err := b.Outlook()
	require.NoError(t, err)
	require.True(t, o.Meets)
	require.Zero(t, o.TimeToLimit)
	require.Equal(t, CodeOxygenBelowLimit, o.Notices[0].Code)

	b = oxBasin(300)
	b.InflowOxygen = units.MilligramsPerLitre.Of(1.9)
	o, err = b.Outlook()
	require.NoError(t, err)
	require.False(t, o.CanHold)
	require.Zero(t, o.InflowToHold)

	b = oxBasin(0)
	b.Stock = 0
	o, err = b.Outlook()
	require.NoError(t, err)
	require.False(t, o.Meets)
	require.False(t, o.UnsuppliedMeets)
	require.True(t, o.CanHold)
	_, err = json.Marshal(o)
	require.NoError(t, err)

	b = oxBasin(300)
	b.Volume, b.Stock, b.Start = -1, units.Mass(math.NaN()), 7
	_, err = b.Outlook()
	require.ErrorIs(t, err, units.ErrDomain)
	for _, f := range []string{"volume", "stock", "start"} {
		require.ErrorContains(t, err, f)
	}
}

// More animals never gain time, more inflow or aeration never lose it.
func TestOxygenOutlookIsMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 52))
	left := func(b OxygenBudget) time.Duration {
		o, err := b.Outlook()
		require.NoError(t, err)
		if !o.Meets {
			return math.MaxInt64
		}
		return o.TimeToLimit
	}
	for range 2000 {
		b := OxygenBudget{
			Volume: units.Volume(5 + 500*rng.Float64()), Stock: units.Mass(3000 * rng.Float64()),
			Respiration: units.MilligramsPerKilogramHour.Of(100 + 900*rng.Float64()),
			Start:       units.MilligramsPerLitre.Of(4 + 3*rng.Float64()), Limit: units.MilligramsPerLitre.Of(1 + 3*rng.Float64()),
			Inflow: units.Flow(0.05 * rng.Float64()), InflowOxygen: units.MilligramsPerLitre.Of(5 + 3*rng.Float64()),
			SedimentDemand: units.GramsPerSquareMetreDay.Of(3 * rng.Float64()), BedArea: units.Area(500 * rng.Float64()),
			Reaeration: units.TimesPerHour.Of(0.3 * rng.Float64()), Aeration: units.KilogramsPerHour.Of(3 * rng.Float64()),
			Temperature: units.Celsius(15 + 17*rng.Float64()), Salinity: units.PracticalSalinity(35 * rng.Float64()),
		}
		was := left(b)
		more := b
		more.Stock *= 1.1
		require.LessOrEqual(t, left(more), was)
		more = b
		more.Inflow *= 1.1
		require.GreaterOrEqual(t, left(more), was)
		more = b
		more.Aeration *= 1.1
		require.GreaterOrEqual(t, left(more), was)
	}
}

func BenchmarkOxygenOutlook(b *testing.B) {
	basin := oxBasin(300)
	basin.Start = units.MilligramsPerLitre.Of(6)
	b.ReportAllocs()
	for range b.N {
		if _, err := basin.Outlook(); err != nil {
			b.Fatal(err)
		}
	}
}

// By hand: an aerator of 2 kg/h brings 2*0.9*1.024^5*(8.263-C)/9.092 kg/h at
// 25 C, so that 0.5 kg/h of demand settles at 8.263 - 0.5*9.092/(2*0.9*1.1260).
func TestOxygenOutlookAerator(t *testing.T) {
	b := OxygenBudget{Volume: 100, Stock: 1000, Respiration: units.MilligramsPerKilogramHour.Of(500),
		Start: units.MilligramsPerLitre.Of(7), Limit: units.MilligramsPerLitre.Of(3), Aeration: units.KilogramsPerHour.Of(2), Temperature: units.Celsius(25)}
	o, err := b.Outlook()
	require.NoError(t, err)
	require.False(t, o.Meets)
	require.InDelta(t, 8.2635-0.5*9.092/(2*0.9*1.125900), o.Tends.In(units.MilligramsPerLitre), 1e-3)
	require.True(t, o.UnsuppliedMeets)
	require.InDelta(t, 4*100/500.0, o.Unsupplied.Hours(), 1e-9)
	b.Aeration = 0
	b.SedimentDemand, b.BedArea, b.WaterDemand = units.GramsPerSquareMetreDay.Of(2.4), 500, units.GramsPerHour.Of(30)
	o, err = b.Outlook()
	require.NoError(t, err)
	require.InDelta(t, 4*100/(500.0+50+30), o.TimeToLimit.Hours(), 1e-9)
}
