package drawdown

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

func lwFlush() FlushCycles {
	return FlushCycles{Basin: 28.8, Refill: units.CubicMetresPerHour.Of(60), PumpOut: units.CubicMetresPerHour.Of(230), Removal: 0.7}
}

// By hand: 28.8/60 h = 28.8 min of refill and 28.8/230 h = 7.51 min of pumping.
func TestFlushPlan(t *testing.T) {
	p, err := lwFlush().Plan(100, 3)
	require.NoError(t, err)
	require.InDelta(t, 36.313, p.Cycle.Minutes(), 1e-3)
	require.InDelta(t, 1.8157, p.Time.Hours(), 1e-4)
	require.InDelta(t, 2.7, float64(p.Left), 1e-12)
	require.InDelta(t, 97.3, float64(p.Recovered), 1e-12)
	require.InDelta(t, 86.4, float64(p.Water), 1e-12)
	require.Equal(t, CodeFlushRefill, p.Notices[0].Code)
	f := lwFlush()
	f.RefillRuns = true
	q, err := f.Plan(100, 3)
	require.NoError(t, err)
	require.InDelta(t, 28.8+28.8/170*60, q.Cycle.Minutes(), 1e-9)
	require.InDelta(t, 86.4+3*60*28.8/170, float64(q.Water), 1e-9)
	f.Refill = f.PumpOut
	_, err = f.Plan(100, 3)
	require.ErrorIs(t, err, units.ErrNoSolution)
	p, err = lwFlush().Plan(100, 0)
	require.NoError(t, err)
	require.Zero(t, p.Time)
}

func TestFlushNeededIsTheFewest(t *testing.T) {
	rng := rand.New(rand.NewPCG(73, 74))
	for range 2000 {
		f := lwFlush()
		f.Removal = 0.05 + 0.94*rng.Float64()
		if rng.IntN(2) == 0 {
			f.Removals = []float64{0.1 + 0.8*rng.Float64(), 0.1 + 0.8*rng.Float64(), f.Removal}
		}
		want := math.Pow(10, -4*rng.Float64())
		n, err := f.Needed(want)
		require.NoError(t, err)
		r, err := f.Residual(n)
		require.NoError(t, err)
		require.LessOrEqual(t, r, want*(1+1e-9))
		if n > 0 {
			before, err := f.Residual(n - 1)
			require.NoError(t, err)
			require.Greater(t, before, want)
		}
	}
	// Exact powers must not ask for one cycle too many.
	for n := 1; n <= 20; n++ {
		f := lwFlush()
		f.Removal = 0.9
		got, err := f.Needed(math.Pow(0.1, float64(n)))
		require.NoError(t, err)
		require.Equal(t, n, got)
	}
	f := lwFlush()
	for _, r := range []float64{0, -1, 2, math.NaN()} {
		_, err := f.Needed(r)
		require.ErrorIs(t, err, units.ErrDomain)
	}
	f.Removal = 1e-6
	_, err := f.Needed(0.01)
	require.ErrorIs(t, err, units.ErrNoSolution)
	f.Removal = 1.2
	_, err = f.Needed(0.01)
	require.ErrorContains(t, err, "removal")
	_, err = f.Residual(-1)
	require.ErrorIs(t, err, units.ErrDomain)
}

func TestNextFlushPaysOrNot(t *testing.T) {
	n, err := lwFlush().Next(50, 2, 6, 120)
	require.NoError(t, err)
	require.InDelta(t, 35, float64(n.Catch), 1e-9)
	require.InDelta(t, 35*6-36.313/60*120, n.Net, 0.01)
	require.True(t, n.Worth)
	n, err = lwFlush().Next(5, 2, 6, 120)
	require.NoError(t, err)
	require.False(t, n.Worth)
	p, left, err := RemovalFromCatches(100, 30)
	require.NoError(t, err)
	require.InDelta(t, 0.7, p, 1e-12)
	require.InDelta(t, 100/0.7-130, float64(left), 1e-9)
	_, _, err = RemovalFromCatches(30, 30)
	require.ErrorIs(t, err, units.ErrNoSolution)
	_, _, err = RemovalFromCatches(0, 0)
	require.ErrorIs(t, err, units.ErrDomain)
	require.Equal(t, time.Duration(0), FlushPlan{}.Time)
}
