package drawdown

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

func onPond(t *testing.T) Overnight {
	return Overnight{Pond: stTable(t), Stock: 2000, Respiration: units.MilligramsPerKilogramHour.Of(250),
		WaterDemand: units.MilligramsPerLitre.Of(0.05), Start: units.MilligramsPerLitre.Of(6), Limit: units.MilligramsPerLitre.Of(3),
		Temperature: units.Celsius(29), Salinity: 20}
}

// By hand: 3 g/m3 V = (500 g/h + 0.05 g/(m3 h) V) t, so V = 500 t/(3 - 0.05 t):
// ten hours need 2000 m3.
func TestSafeStage(t *testing.T) {
	o := onPond(t)
	s, err := o.SafeStage(1.4, 10*time.Hour)
	require.NoError(t, err)
	require.InDelta(t, 2000, float64(o.Pond.Volume(s.Stage)), 0.01)
	require.InDelta(t, 10, s.Lasts.Hours(), 1e-4)
	require.False(t, s.Always)
	_, err = o.SafeStage(0.5, 10*time.Hour)
	require.ErrorIs(t, err, units.ErrNoSolution)
	require.ErrorContains(t, err, "of the 10.0 hours asked")
	o.Stock, o.WaterDemand = 0, 0
	s, err = o.SafeStage(1.4, 10*time.Hour)
	require.NoError(t, err)
	require.True(t, s.Always)
	_, err = Overnight{}.SafeStage(1, time.Hour)
	require.ErrorContains(t, err, "pond")
	o.Stock = units.Mass(math.NaN())
	_, err = o.SafeStage(1.4, time.Hour)
	require.ErrorIs(t, err, units.ErrDomain)
}

// By hand: without plankton the pond of V m3 lasts 3 V/500 h and takes
// (2841 - V)/200 h to fill to 0.8 m: V = 2841/(1 + 1.2).
func TestNoReturn(t *testing.T) {
	o := onPond(t)
	o.WaterDemand = 0
	n, err := o.NoReturn(0.8, units.CubicMetresPerHour.Of(200))
	require.NoError(t, err)
	require.InDelta(t, 2841/2.2, float64(o.Pond.Volume(n.Stage)), 0.01)
	require.InDelta(t, n.Refill.Seconds(), n.Oxygen.Seconds(), 0.5)
	require.False(t, n.Never)
	o.Stock = 0
	n, err = o.NoReturn(0.8, units.CubicMetresPerHour.Of(200))
	require.NoError(t, err)
	require.True(t, n.Never)
	_, err = o.NoReturn(0.8, 0)
	require.ErrorIs(t, err, units.ErrDomain)
}

// The budget at a stage is the pond's: surface transfer and mud by area.
func TestOvernightScalesWithTheStage(t *testing.T) {
	o := onPond(t)
	o.SedimentDemand, o.Transfer = units.GramsPerSquareMetreDay.Of(1.5), units.MillimetresPerHour.Of(20)
	for _, h := range []units.Length{0.3, 0.9, 1.4} {
		b, err := o.At(h)
		require.NoError(t, err)
		require.Equal(t, o.Pond.Area(h), b.BedArea)
		require.InDelta(t, float64(o.Transfer)*float64(o.Pond.Area(h)), float64(b.Reaeration)*float64(b.Volume), 1e-12)
		require.InDelta(t, 0.05e-3*float64(b.Volume), float64(b.WaterDemand)*3600, 1e-12)
	}
	last := 0.0
	for h := 0.2; h <= 1.4; h += 0.1 {
		s, err := o.lasts(h)
		require.NoError(t, err)
		require.GreaterOrEqual(t, s, last)
		last = s
	}
}
