package biomass

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pondwright.example/units"
)

// shrimpPond is a lined pond of half a hectare, invented, with 24 casts, a
// stocking record and a weighed sample.
func shrimpPond() CropInput {
	return CropInput{
		Casts: &CastNet{
			Casts:      Casts{N: 24, Mean: 97, SD: 41},
			SweptArea:  3.1 * units.SquareMetre,
			Efficiency: 0.68, EfficiencySD: 0.10,
		},
		PondArea:   5000 * units.SquareMetre,
		Stocking:   &Stocking{Stocked: 300_000, Survival: 0.80, SurvivalCV: 0.12},
		MeanWeight: 19.5 * units.Gram, MeanWeightCV: 0.03,
	}
}

// Derived by hand: density 97/(3.1 × 0.68) = 46.015 per square metre, times
// 5000 m² and 19.5 g is 4486.5 kg. Relative errors: sampling 41/(97√24) = 8.63 %,
// efficiency 0.10/0.68 = 14.71 %, weight 3 %; their root sum of squares is
// 17.3 %. Lognormal about the point value: 4486.5 exp(±1.2816 × 0.173) is 3595 to
// 5599 kg.
func TestScenarioCastsOnly(t *testing.T) {
	in := shrimpPond()
	in.Stocking = nil
	c, err := EstimateCrop(in)
	require.NoError(t, err)
	assert.InDelta(t, 4486, c.Estimate.P50.Kilograms(), 1)
	assert.InDelta(t, 0.173, c.Estimate.CV, 0.001)
	assert.InDelta(t, 3590, c.Estimate.P10.Kilograms(), 10)
	assert.InDelta(t, 5600, c.Estimate.P90.Kilograms(), 10)
	assert.Equal(t, ErrorEfficiency, c.Estimate.Dominant)
	// The efficiency makes 72 % of the variance: 0.02163/0.02997.
	for _, e := range c.Estimate.Budget {
		if e.Name == ErrorEfficiency {
			assert.InDelta(t, 0.72, e.Share, 0.005)
		}
	}
}

// Derived by hand: the record gives 300,000 × 0.80 × 19.5 g = 4680 kg at 12 %.
// On the logarithmic scale the numbers are weighted 1/0.1706² and 1/0.12², that is
// 0.331 and 0.669: 4615 kg. Their error is 9.8 %, and with the 3 % of the mean
// weight, which both share and no blend can reduce, 10.3 %.
//
// A blend on the arithmetic scale that counts the weight's error in the casts and
// not in the record gives 4613 kg and 9.9 %, 4030 to 5200 kg; see InverseVariance
// in the check table. The two differ by less than either is known.
func TestScenarioBlend(t *testing.T) {
	c, err := EstimateCrop(shrimpPond())
	require.NoError(t, err)
	assert.InDelta(t, 4615, c.Estimate.P50.Kilograms(), 1)
	assert.InDelta(t, 0.1025, c.Estimate.CV, 0.0005)
	assert.InDelta(t, 0.331, c.Weights[0], 0.001)
	assert.InEpsilon(t, 4030, c.Estimate.P10.Kilograms(), 0.01)
	assert.InEpsilon(t, 5200, c.Estimate.P90.Kilograms(), 0.02)
	assert.Equal(t, ErrorSurvival, c.Estimate.Dominant)
	assert.Greater(t, c.Agreement, 0.5)
	// Within what engineers with other methods would accept.
	assert.InDelta(t, 4600, c.Estimate.P50.Kilograms(), 100)
	assert.InDelta(t, 0.105, c.Estimate.CV, 0.015)
	sum := 0.0
	for _, e := range c.Estimate.Budget {
		sum += e.Share
	}
	assert.InDelta(t, 1, sum, 1e-12)
}

// Derived by hand: 453.59237/19.5 = 23.26 head-on per pound, 1000/19.5 = 51.28 per
// kilogram; divided by a yield of 0.63, 0.65 and 0.67: 36.92, 35.79 and 34.72 per
// pound. The edge between 31/35 and 36/40 lies among them under every rule.
func TestScenarioCountStraddlesAnEdge(t *testing.T) {
	for _, c := range []struct {
		yield, count float64
	}{{0.63, 36.9}, {0.65, 35.8}, {0.67, 34.7}} {
		g, err := LotInput{MeanWeight: 19.5 * units.Gram, MeanWeightCV: 0.03, Yield: c.yield, YieldSD: 0.012,
			Table: HeadlessPerPound(EdgeMidway)}.Grade()
		require.NoError(t, err)
		assert.InDelta(t, c.count, g.Count.In(units.CountsPerPound), 0.05)
		assert.InDelta(t, 23.3, g.HeadOn.In(units.CountsPerPound), 0.05)
		assert.InDelta(t, 51.3, g.HeadOn.CountsPerKilogram(), 0.05)
	}
	for edge, class := range map[EdgeRule]string{EdgeMidway: "36/40", EdgeUpperLabel: "36/40", EdgeLowerLabel: "31/35"} {
		g, err := LotInput{MeanWeight: 19.5 * units.Gram, MeanWeightCV: 0.03, Yield: 0.65, YieldSD: 0.012,
			Table: HeadlessPerPound(edge)}.Grade()
		require.NoError(t, err)
		assert.Equal(t, class, g.Class, edge)
		assert.True(t, g.Straddles, edge)
		require.Len(t, g.Notices, 1, edge)
		assert.Equal(t, CodeStraddle, g.Notices[0].Code)
		sum := g.Beyond
		for _, p := range g.Probabilities {
			sum += p.Probability
		}
		assert.InDelta(t, 1, sum, 1e-12)
	}
	// In the middle of a class nothing is said: 18 head-on per pound is 27.7 tails
	// at 0.65, with 1 % of weight and yield known well.
	g, err := LotInput{MeanWeight: units.Grams.Of(453.59237 / 18.2), MeanWeightCV: 0.01, Yield: 0.65, YieldSD: 0.002,
		Table: HeadlessPerPound(EdgeMidway)}.Grade()
	require.NoError(t, err)
	assert.False(t, g.Straddles)
	assert.Empty(t, g.Notices)
}

// Derived by hand: Clopper-Pearson limits of 5 of 120 are 1.4 and 9.5 %.
func TestScenarioSoftShell(t *testing.T) {
	for limit, verdict := range map[float64]Verdict{0.05: Unknown, 0.10: Pass, 0.01: Fail} {
		s, err := SoftShellInput{Soft: 5, Sample: 120, Limit: limit}.Judge()
		require.NoError(t, err)
		assert.Equal(t, "5 of 120 = 4.2 % (1.4 to 9.5 %)", s.Text)
		assert.Equal(t, verdict, s.Verdict)
		assert.Empty(t, s.Notices)
	}
}

// Derived by hand: 4990.4 kg over the bank scale with 8 % water is 4591 kg of
// product; the plant weighs 4450 kg drained, 3.1 % less. Water known to 1.2 points
// is 1.3 % of the product, so ± 2.6 % at two standard uncertainties: not explained
// when the water was known to 1 point, and a larger water fraction is named.
func TestScenarioReconcile(t *testing.T) {
	bank := func(waterSD float64) Scale {
		return Scale{Name: "bank", WaterInCommon: true, Tickets: []Ticket{{Gross: 4990.4 * units.Kilogram, WaterFraction: 0.08, WaterSD: waterSD, Division: units.Kilogram}}}
	}
	plant := Scale{Name: "plant", CalibrationCV: 0.002, Tickets: []Ticket{{Gross: 4450 * units.Kilogram, Division: 5 * units.Kilogram}}}
	r, err := Reconcile(bank(0.010), plant, nil, 0)
	require.NoError(t, err)
	assert.Equal(t, "-3.1 % ± 2.2 %: not explained", r.Text)
	assert.InDelta(t, 0.108, r.ImpliedWater, 0.0005)
	require.Len(t, r.Notices, 1)
	assert.Equal(t, CodeUnexplained, r.Notices[0].Code)

	r, err = Reconcile(bank(0.016), plant, nil, 0)
	require.NoError(t, err)
	assert.Equal(t, "-3.1 % ± 3.5 %: explained by water", r.Text)
	assert.True(t, r.ByWater)
	assert.Empty(t, r.Notices)

	// Animals booked as dead on the way are a line of their own.
	r, err = Reconcile(bank(0.010), plant, []KnownLoss{{Name: "dead on arrival", Mass: 100 * units.Kilogram, SE: 5 * units.Kilogram}}, 0)
	require.NoError(t, err)
	assert.True(t, r.Explained)
	assert.False(t, math.IsNaN(r.Z))
}
