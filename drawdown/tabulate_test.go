package drawdown

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

func TestTabulateKeepsVolume(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 42))
	bed, err := bedSurvey(bedCloud(rng, 2000, 100, func(x, y float64) float64 {
		return math.Max(0, math.Hypot(x-50, y-50)/40-0.3) + 0.03*rng.Float64()
	})).Bed()
	require.NoError(t, err)
	own := stTable(t)
	for name, pond := range map[string]Storage{"bed": bed, "table": own} {
		for _, tol := range []float64{1e-3, 1e-5} {
			tab, err := Tabulate(pond, tol)
			require.NoError(t, err)
			limit := 1.01 * tol * float64(pond.Volume(pond.Top()))
			for _, c := range tab.Corners() {
				require.InDelta(t, float64(pond.Volume(c)), float64(tab.Volume(c)), limit, name)
			}
			for range 200 {
				h := pond.Bottom() + units.Length(rng.Float64())*(pond.Top()-pond.Bottom())
				require.InDelta(t, float64(pond.Volume(h)), float64(tab.Volume(h)), 3*limit, name)
			}
		}
	}
	tab, err := Tabulate(own, 0)
	require.NoError(t, err)
	require.Equal(t, own.Rows(), tab.Rows(), "a table is its own tabulation")
}

func TestTabulateRefuses(t *testing.T) {
	for _, tol := range []float64{-1, 0.5, 1e-12, math.NaN()} {
		_, err := Tabulate(stTable(t), tol)
		require.ErrorIs(t, err, units.ErrDomain)
	}
	_, err := Tabulate(nil, 0)
	require.ErrorIs(t, err, units.ErrDomain)
	_, err = Tabulate(StageTable{}, 0)
	require.ErrorContains(t, err, "capacity")
}
