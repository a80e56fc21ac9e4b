package drawdown

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

func TestCrowdingCurveShape(t *testing.T) {
	for _, c := range []CrowdingCurve{{}, {RunStarts: 0.3, Exponent: 0.6}, {RunStarts: 0.15, Exponent: 2, Stranded: 0.05},
		{Points: []StockPoint{{1, 1}, {0.3, 0.95}, {0.1, 0.4}, {0, 0.02}}}, {Points: []StockPoint{{0, 0.02}, {0.1, 0.4}, {1, 1}}}} {
		require.NoError(t, c.Validate())
		last := -1.0
		for i := range 1001 {
			v := float64(i) / 1000
			r, slope := c.withDefaults().eval(v)
			require.True(t, r >= last && r >= 0 && r <= 1)
			last = r
			if lo, hi := c.Remaining(v-1e-7), c.Remaining(v+1e-7); math.Abs((hi-lo)/2e-7-slope) > 1e-3 {
				// only at a corner may the slope be one-sided
				require.True(t, math.Abs((hi-r)/1e-7-slope) < 1e-2 || math.Abs((r-lo)/1e-7-slope) < 1e-2, "%v at %v", c, v)
			}
			require.InDelta(t, 1, r+c.MovedOut(v), 1e-15)
		}
		require.Equal(t, 1.0, c.Remaining(1))
	}
	require.Zero(t, CrowdingCurve{}.Remaining(0))
	for _, c := range []CrowdingCurve{{RunStarts: 2}, {Exponent: -1}, {Stranded: math.NaN()}, {Points: []StockPoint{{1, 1}}},
		{Points: []StockPoint{{1, 1}, {1, 0.5}}}, {Points: []StockPoint{{1, 0.5}, {0.5, 0.9}}}, {Points: []StockPoint{{1, 1}, {0.2, 0.5}, {0.4, 0.3}}}} {
		require.ErrorIs(t, c.Validate(), units.ErrDomain, "%v", c)
	}
}

// By hand: 5000 kg in 15,790.5 m3; below a fifth of the water animals leave in
// proportion, so they stand at 5000/(0.2*15790.5) = 1.5832 kg/m3 throughout
// and 0.25 m3/s brings 0.3958 kg/s, 631.6 kg of water per kg.
func TestCrowdDensityAndDelivery(t *testing.T) {
	pond, err := RectangularPond{Length: 120, Width: 80, SideSlope: 3, DeepEndSlope: 3, ShallowEndSlope: 3, Crest: 1.5}.Shape()
	require.NoError(t, err)
	c := Crowd{Pond: pond, Start: 1.5, Stock: 5000, Curve: CrowdingCurve{RunStarts: 0.2, Exponent: 1}}
	for _, h := range []units.Length{0.05, 0.15, 0.3} {
		s, err := c.At(h, 0.25)
		require.NoError(t, err)
		require.InDelta(t, 1.5832, float64(s.Density), 5e-5)
		require.InDelta(t, 0.395808, float64(s.Delivery), 5e-7)
		require.InDelta(t, 631.6, s.WaterPerAnimal, 0.05)
		require.InDelta(t, 1/(631.6*1.05), s.SolidsFraction, 1e-6)
		require.Equal(t, CodeCrowdingAssumed, s.Notices[0].Code)
	}
	s, err := c.At(1.2, 0.25)
	require.NoError(t, err)
	require.Zero(t, s.Delivery)
	require.Equal(t, units.Mass(5000), s.Left)
	s, err = c.At(0, 0.25)
	require.NoError(t, err)
	require.Zero(t, s.Density)
	require.Equal(t, CodeCrowdingDry, s.Notices[0].Code)
	_, err = json.Marshal(s)
	require.NoError(t, err)
	c.DensityLimit = 1
	s, err = c.At(0.1, 0.25)
	require.NoError(t, err)
	require.Equal(t, CodeCrowdingDensity, s.Notices[1].Code)
	_, err = Crowd{Start: 1, Stock: -1}.At(0, 0)
	require.ErrorContains(t, err, "pond")
	require.ErrorContains(t, err, "stock")
}

// The animals that arrive over a run are the stock that left.
func TestCrowdDeliveryAddsUp(t *testing.T) {
	c := Crowd{Pond: stTable(t), Start: 1.4, Stock: 1000, Curve: CrowdingCurve{RunStarts: 0.3, Exponent: 0.7, Stranded: 0.04}}
	delivered := 0.0
	const n, q = 40000, 0.1
	for i := range n { // by equal parts of volume
		v := 5681 * (1 - (float64(i)+0.5)/n)
		s, err := c.At(c.Pond.Stage(units.Volume(v)), q)
		require.NoError(t, err)
		delivered += float64(s.Delivery) * 5681 / n / q
	}
	require.InDelta(t, 960, delivered, 0.5)
}

func TestFitCrowdingFindsTheCurve(t *testing.T) {
	rng := rand.New(rand.NewPCG(71, 72))
	for range 6 {
		truth := CrowdingCurve{RunStarts: 0.1 + 0.4*rng.Float64(), Exponent: 0.5 + 1.5*rng.Float64(), Stranded: 0.1 * rng.Float64()}
		var pairs []StockPoint
		for i := range 14 {
			v := 0.9 * math.Pow(float64(13-i)/13, 2)
			pairs = append(pairs, StockPoint{v, truth.Remaining(v)})
		}
		fit, err := FitCrowding(pairs)
		require.NoError(t, err)
		require.Less(t, fit.Residual, 1e-4)
		require.InDelta(t, truth.RunStarts, fit.Curve.RunStarts, 2e-3)
		require.InDelta(t, truth.Exponent, fit.Curve.Exponent, 1e-2)
	}
	_, err := FitCrowding([]StockPoint{{1, 1}, {0.5, 1}, {0.3, 0.99}, {0.2, 0.95}})
	require.ErrorIs(t, err, units.ErrNoSolution)
	_, err = FitCrowding([]StockPoint{{1, 1}})
	require.ErrorIs(t, err, units.ErrDomain)
	_, err = FitCrowding([]StockPoint{{1, 1}, {0.5, 1}, {0.3, math.NaN()}, {0.2, 0.5}})
	require.ErrorContains(t, err, "pairs[2].stock")
}

// By hand: animals that hang back (exponent one half) stand at B/(V0 sqrt(v vc)),
// closest at the end; the delivery falls as the outflow does.
func TestCrowdProfilePeaks(t *testing.T) {
	c := Crowd{Pond: stTable(t), Start: 1.4, Stock: 1000, Curve: CrowdingCurve{RunStarts: 0.25, Exponent: 0.5}}
	p, err := c.Profile(0.1, 500, func(h units.Length) units.Flow { return units.Flow(0.1 * math.Sqrt(float64(h))) })
	require.NoError(t, err)
	require.Len(t, p.States, 501)
	require.Equal(t, units.Length(1.4), p.States[0].Stage)
	require.Equal(t, units.Length(0.1), p.PeakDensity.Stage)
	require.InDelta(t, 1000/(5681*math.Sqrt(81.0/5681*0.25)), float64(p.PeakDensity.Density), 1e-9)
	for i := 1; i < len(p.States); i++ {
		require.LessOrEqual(t, float64(p.States[i].Left), float64(p.States[i-1].Left))
		require.LessOrEqual(t, float64(p.States[i].Delivery), float64(p.PeakDelivery.Delivery))
	}
	still, err := c.Profile(0.1, 2, nil)
	require.NoError(t, err)
	require.Zero(t, still.PeakDelivery.Delivery)
	for _, err := range []error{second(c.Profile(0.1, 1, nil)), second(c.Profile(1.4, 10, nil)), second(c.Profile(units.Length(math.NaN()), 10, nil)), second(Crowd{Start: 1}.Profile(0, 10, nil)),
		second(c.Profile(0.1, 10, func(units.Length) units.Flow { return -1 }))} {
		require.ErrorIs(t, err, units.ErrDomain)
	}
}
