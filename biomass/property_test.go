package biomass

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pondwright.example/units"
)

// First order, exact and sampled spread of N·S·w agree: the first within CV²/2 of
// the exact one, the sample within four of its standard errors.
func TestThreeWaysToTheSpread(t *testing.T) {
	means, cvs := []float64{200_000, 0.75, 0.018}, []float64{0.05, 0.08, 0.06}
	exact, err := ProductOfLognormals(means, cvs)
	require.NoError(t, err)
	first, err := DeltaCV(cvs...)
	require.NoError(t, err)
	assert.Less(t, first, exact.CV())
	assert.InEpsilon(t, exact.CV(), first, exact.CV()*exact.CV()/2)

	const n = 200_000
	rng := rand.New(rand.NewPCG(1, 2))
	var sum, square float64
	below := 0
	p90 := exact.Quantile(0.9)
	for range n {
		x := 1.0
		for i := range means {
			l, _ := LognormalFromMean(means[i], cvs[i])
			x *= l.Median * math.Exp(l.LogSD*rng.NormFloat64())
		}
		sum += x
		square += x * x
		if x <= p90 {
			below++
		}
	}
	mean := sum / n
	sd := math.Sqrt(square/n - mean*mean)
	assert.InDelta(t, exact.Mean(), mean, 4*sd/math.Sqrt(n))
	assert.InDelta(t, exact.SD(), sd, 4*sd/math.Sqrt(n)) // SE of an SD is about sd/√2n, less than this
	assert.InDelta(t, 0.9, float64(below)/n, 4*math.Sqrt(0.09/n))
}

func TestQuantileInvertsTheDistribution(t *testing.T) {
	for _, l := range []Lognormal{{1, 0.01}, {4600, 0.17}, {1e-6, 2}, {1e9, 0.5}} {
		for _, p := range []float64{1e-9, 0.01, 0.5, 0.77, 1 - 1e-9} {
			assert.InEpsilon(t, p, l.CDF(l.Quantile(p)), 1e-7)
			floor := l.Quantile(0.3)
			q := l.QuantileAbove(floor, p)
			assert.GreaterOrEqual(t, q, floor)
			assert.InDelta(t, p, (l.CDF(q)-0.3)/0.7, 1e-9)
		}
		assert.Zero(t, l.CDF(0))
		for _, p := range []float64{-1, 0, 1, 2, math.NaN()} {
			assert.False(t, math.IsNaN(l.Quantile(p)) || math.IsInf(l.Quantile(p), 0), "p %v", p)
		}
	}
	exact := Lognormal{Median: 5}
	assert.Equal(t, 5.0, exact.Quantile(0.9))
	assert.Equal(t, 1.0, exact.CDF(5))
	assert.Equal(t, 0.0, exact.CDF(4.9))
	assert.Equal(t, 7.0, exact.QuantileAbove(7, 0.5))
	// Far above the median the floor itself is the answer, and nothing breaks.
	assert.GreaterOrEqual(t, Lognormal{4600, 0.05}.QuantileAbove(1e6, 0.5), 1e6)
	assert.Less(t, Lognormal{4600, 0.05}.QuantileAbove(1e6, 0.5), 1.001e6)
}

// Updates shrink the spread, and their order does not matter.
func TestUpdateIsOrderless(t *testing.T) {
	a, b, c := Lognormal{9000, 0.2}, Lognormal{7800, 0.08}, Lognormal{8100, 0.15}
	x, y := a.Update(b).Update(c), c.Update(a).Update(b)
	assert.InEpsilon(t, x.Median, y.Median, 1e-14)
	assert.InEpsilon(t, x.LogSD, y.LogSD, 1e-14)
	assert.Less(t, x.LogSD, 0.08)
	assert.Equal(t, a, a.Update(Lognormal{1, math.Inf(1)}), "evidence without information")
	assert.Equal(t, Lognormal{5, 0}, a.Update(Lognormal{5, 0}))
	assert.Equal(t, Lognormal{5, 0}, Lognormal{5, 0}.Update(a))
}

// A blend lies among its parts, is never less certain than the best of them, does
// not depend on their order, and keeps a common error in full.
func TestBlendProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		var parts []Estimate
		lo, hi, best := math.Inf(1), 0.0, math.Inf(1)
		common := 0.05 * rng.Float64()
		for range 2 + rng.IntN(3) {
			m := 1000 * math.Exp(rng.NormFloat64()/4)
			e, err := NewEstimate("x", units.Kilograms.Of(m), Component{Name: "own", CV: 0.05 + 0.3*rng.Float64()}, Component{Name: "weight", CV: common, Common: true})
			require.NoError(t, err)
			parts = append(parts, e)
			lo, hi, best = math.Min(lo, m), math.Max(hi, m), math.Min(best, e.LogSD)
		}
		r, err := Blend("b", parts...)
		require.NoError(t, err)
		m := r.Estimate.P50.Kilograms()
		assert.True(t, m >= lo*(1-1e-12) && m <= hi*(1+1e-12))
		assert.LessOrEqual(t, r.Estimate.LogSD, best*(1+1e-12))
		assert.GreaterOrEqual(t, r.Estimate.LogSD, logSD(common)*(1-1e-12))
		parts[0], parts[1] = parts[1], parts[0]
		swapped, err := Blend("b", parts...)
		require.NoError(t, err)
		assert.InEpsilon(t, m, swapped.Estimate.P50.Kilograms(), 1e-12)
		share := 0.0
		for _, c := range r.Estimate.Budget {
			share += c.Share
		}
		assert.InDelta(t, 1, share, 1e-9)
		assert.True(t, r.Agreement >= 0 && r.Agreement <= 1)
	}
	// Two like estimates of 20 % with nothing in common leave 14 %.
	e, _ := NewEstimate("x", 1000*units.Kilogram, Component{Name: "a", CV: 0.2})
	r, err := Blend("b", e, e)
	require.NoError(t, err)
	assert.InEpsilon(t, logSD(0.2)/math.Sqrt2, r.Estimate.LogSD, 1e-12)
	assert.InDelta(t, 1, r.Agreement, 1e-12)
	// One estimate stays what it is, and its budget is a copy.
	r, err = Blend("b", e)
	require.NoError(t, err)
	assert.Equal(t, e.P90, r.Estimate.P90)
	r.Estimate.Budget[0].CV = 9
	assert.Equal(t, 0.2, e.Budget[0].CV)
}

// A larger error in common than of its own turns a weight negative and says so.
func TestBlendNegativeWeight(t *testing.T) {
	a, _ := NewEstimate("tight", 1000*units.Kilogram, Component{Name: "own a", CV: 0.02}, Component{Name: "weight", CV: 0.05, Common: true})
	b, _ := NewEstimate("loose", 1100*units.Kilogram, Component{Name: "own b", CV: 0.02}, Component{Name: "weight", CV: 0.30, Common: true})
	r, err := Blend("b", a, b)
	require.NoError(t, err)
	assert.Less(t, r.Weights[1], 0.0)
	assert.Contains(t, codes(r.Notices), CodeNegativeWeight)
	assert.InDelta(t, 1, r.Weights[0]+r.Weights[1], 1e-12)
}

// Shares sum to one in every table, and the classes' mean weights make up the
// pond's.
func TestSharesSumToOne(t *testing.T) {
	ended := HeadlessPerPound(EdgeLowerLabel)
	ended.Classes = ended.Classes[2:8]
	for _, table := range []CountTable{HeadlessPerPound(EdgeMidway), HeadlessPerPound(EdgeUpperLabel), HeadOnPerKilogram(EdgeMidway), ended} {
		for _, shape := range []WeightShape{LognormalWeights, NormalWeights} {
			d := WeightDistribution{Shape: shape, Cohorts: []Cohort{{0.3, 12 * units.Gram, 0.3}, {0.7, 24 * units.Gram, 0.2}}}
			s, err := d.Shares(table, 0.62)
			require.NoError(t, err)
			number, mass := s.BeyondNumber+s.BelowZeroNumber, s.BeyondMass+s.BelowZeroMass
			weight := mass * d.MeanWeight().Kilograms()
			for _, c := range s.Classes {
				assert.GreaterOrEqual(t, c.Number, 0.0)
				number += c.Number
				mass += c.Mass
				weight += c.Number * c.MeanWeight.Kilograms()
			}
			assert.InDelta(t, 1, number, 1e-12)
			assert.InDelta(t, 1, mass, 1e-12)
			assert.InEpsilon(t, d.MeanWeight().Kilograms(), weight, 1e-9)
			assert.Equal(t, shape == NormalWeights, len(s.Notices) > 0, "a cv of 0.3 puts 4 in 10,000 below zero")
		}
	}
}

// The shares of a large sample agree with the distribution it was drawn from.
func TestSampleAgreesWithItsDistribution(t *testing.T) {
	d := WeightDistribution{Cohorts: []Cohort{{1, 19.5 * units.Gram, 0.2}}}
	table := HeadlessPerPound(EdgeMidway)
	want, err := d.Shares(table, 0.65)
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(5, 6))
	l, _ := LognormalFromMean(19.5, 0.2)
	w := make([]units.Mass, 20_000)
	for i := range w {
		w[i] = units.Grams.Of(l.Median * math.Exp(l.LogSD*rng.NormFloat64()))
	}
	got, err := GradeSample(w, table, 0.65, 0.9999)
	require.NoError(t, err)
	for i, c := range got.Classes {
		assert.True(t, c.NumberLow <= want.Classes[i].Number && want.Classes[i].Number <= c.NumberHigh, c.Class)
		if c.Count > 0 { // an empty class shows no standard error
			assert.InDelta(t, want.Classes[i].Mass, c.Mass, 4*c.MassSE, c.Class)
		}
	}
	assert.Greater(t, got.Uniformity, 1.0)
}

func TestRemovalProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		n, p := 50+rng.IntN(2000), 0.2+0.6*rng.Float64()
		left := n
		c := make([]int, 2+rng.IntN(4))
		total := 0
		for i := range c {
			for range left {
				if rng.Float64() < p {
					c[i]++
				}
			}
			left -= c[i]
			total += c[i]
		}
		if total == 0 {
			continue
		}
		cs, err := CarleStrub(c)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, cs.N, float64(total))
		assert.True(t, cs.P > 0 && cs.P <= 1)
		z, err := Zippin(c)
		if err != nil {
			assert.ErrorIs(t, err, units.ErrNoSolution)
			continue
		}
		ml, err := RemovalML(c)
		require.NoError(t, err)
		assert.InDelta(t, z.N, ml.N, 1.01, "%v", c)
		if cs.N < 20*float64(total) {
			post, err := RemovalPosterior(c, RemovalPriors{Max: 20 * total})
			require.NoError(t, err)
			assert.InDelta(t, cs.N, float64(post.Mode), 0.5, "%v: the mode of the posterior is Carle and Strub's estimate", c)
			assert.True(t, post.Q025 <= post.P10 && post.P10 <= post.Median && post.Median <= post.P90 && post.P90 <= post.Q975)
		}
	}
	// Everything caught in the first pass.
	for _, f := range []func([]int) (Removal, error){Zippin, CarleStrub, RemovalML} {
		r, err := f([]int{40, 0, 0})
		require.NoError(t, err)
		assert.Equal(t, 40.0, r.N)
		assert.Equal(t, 1.0, r.P)
		assert.Zero(t, r.SE)
	}
	// Catches ten times larger estimate about ten times the animals.
	a, _ := RemovalML([]int{120, 70, 40})
	b, _ := RemovalML([]int{1200, 700, 400})
	assert.InEpsilon(t, 10*a.N, b.N, 0.01)
	// A belief with little decline is bounded by its prior, and says so.
	r, err := RemovalPosterior([]int{5, 7, 8}, RemovalPriors{Max: 200})
	require.NoError(t, err)
	assert.Contains(t, codes(r.Notices), CodePriorBinds)
}

// Chapman's estimate is finite without recaptures and not above Petersen's.
func TestChapmanBelowPetersen(t *testing.T) {
	for m := 0; m <= 50; m++ {
		k := Marks{Marked: 60, Caught: 50, Recaptured: m}
		c, err := k.Chapman(0)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, c.Low, float64(60+50-m)-1e-9)
		if m > 0 {
			p, err := k.Petersen(0)
			require.NoError(t, err)
			assert.LessOrEqual(t, c.N, p.N+1e-9)
		}
	}
}

// The binomial limits hold the fraction, widen with confidence, and mirror.
func TestBinomialProperties(t *testing.T) {
	for _, method := range []BinomialMethod{ClopperPearson1934, Wilson1927, Jeffreys} {
		for n := 1; n <= 60; n += 7 {
			for k := 0; k <= n; k++ {
				lo, hi, err := BinomialInterval(k, n, 0.9, method)
				require.NoError(t, err)
				wideLo, wideHi, _ := BinomialInterval(k, n, 0.99, method)
				p := float64(k) / float64(n)
				assert.True(t, 0 <= wideLo && wideLo <= lo && lo <= p && p <= hi && hi <= wideHi && wideHi <= 1, "%s %d of %d", method, k, n)
				a, b, _ := BinomialInterval(n-k, n, 0.9, method)
				assert.InDelta(t, lo, 1-b, 1e-9)
				assert.InDelta(t, hi, 1-a, 1e-9)
			}
		}
	}
}

// A curve drawn without noise is found again, and the crop with it.
func TestCatchCurveFindsWhatWasDrawn(t *testing.T) {
	const crop, k = 4600.0, 1.0 / 3000 // kg, 1/s
	in := CatchCurveInput{Belief: Lognormal{Median: 5200, LogSD: 0.3}}
	before := 0.0
	for i := range 8 {
		at := 900 * float64(i+1)
		in.Tickets = append(in.Tickets, CatchTicket{Elapsed: time.Duration(at) * time.Second,
			Net: units.Kilograms.Of(crop * (math.Exp(-k*before) - math.Exp(-k*at)))})
		before = at
	}
	c, err := FitCatchCurve(in)
	require.NoError(t, err)
	assert.Equal(t, leastLogSD, c.TicketLogSD(), "no residual: the least spread that is believed")
	left, err := c.Remaining(0.5)
	require.NoError(t, err)
	assert.InEpsilon(t, crop*math.Exp(-k*before), left.Kilograms(), 0.01)
	assert.InEpsilon(t, k, c.Decline().TimesPerSecond(), 0.002)
	more, err := c.TimeTo(units.Kilograms.Of(left.Kilograms()/2), 0.5)
	require.NoError(t, err)
	assert.InEpsilon(t, math.Ln2/k, more.Seconds(), 0.01)
	none, err := c.TimeTo(10*units.Tonne, 0.9)
	require.NoError(t, err)
	assert.Zero(t, none)

	// Quantiles rise with p, and delivered is never more than the crop.
	last := units.Mass(0)
	for p := 0.001; p < 1; p += 0.037 {
		m, err := c.Remaining(p)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, m, last)
		assert.InDelta(t, p, c.ProbabilityRemaining(m), 1e-6)
		last = m
	}
}

// While the catch does not fall, the belief bounds the crop and nothing breaks;
// each further ticket keeps the band at or below the belief's.
func TestCatchCurveWithoutDecline(t *testing.T) {
	in := CatchCurveInput{Belief: Lognormal{Median: 4600, LogSD: 0.2}, TicketLogSD: 0.1}
	for i := range 3 {
		in.Tickets = append(in.Tickets, CatchTicket{Elapsed: time.Duration(i+1) * 20 * time.Minute, Net: 300 * units.Kilogram})
	}
	c, err := FitCatchCurve(in)
	require.NoError(t, err)
	lo, _ := c.Total(0.1)
	hi, _ := c.Total(0.9)
	assert.Greater(t, lo.Kilograms(), 900.0)
	assert.Less(t, math.Log(float64(hi/lo)), 2*1.2816*0.2*1.05)
	// More delivered than the belief held possible: the tickets win, finitely.
	in.Tickets = append(in.Tickets, CatchTicket{Elapsed: 5 * time.Hour, Net: 20 * units.Tonne})
	c, err = FitCatchCurve(in)
	if err == nil {
		m, err := c.Remaining(0.5)
		require.NoError(t, err)
		assert.False(t, math.IsNaN(m.Kilograms()))
	} else {
		assert.ErrorIs(t, err, units.ErrNoSolution)
	}
}

// Number and mass close over any partial harvest.
func TestPartialHarvestCloses(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 100 {
		s := Stock{Animals: 1000 + 1e5*rng.Float64(), MeanWeight: units.Grams.Of(5 + 20*rng.Float64())}
		taken := Stock{Animals: s.Animals * 0.6 * rng.Float64(), MeanWeight: s.MeanWeight * units.Mass(1+0.5*rng.Float64())}
		left, err := s.After(taken)
		require.NoError(t, err)
		assert.InEpsilon(t, s.Animals, left.Animals+taken.Animals, 1e-12)
		assert.InEpsilon(t, s.Mass().Kilograms(), left.Mass().Kilograms()+taken.Mass().Kilograms(), 1e-12)
	}
}

// The smallest sample that is enough is enough, and one fewer is not.
func TestSampleSizeTIsSmallest(t *testing.T) {
	for _, in := range []SampleSizeInput{{CV: 0.22, HalfWidth: 0.03}, {CV: 0.4, HalfWidth: 0.3}, {CV: 0.3, HalfWidth: 0.05, Population: 400}, {CV: 0.01, HalfWidth: 1}} {
		n, err := SampleSizeT(in)
		require.NoError(t, err)
		half := func(n int) float64 {
			f := 1.0
			if in.Population > 0 {
				f = math.Sqrt(math.Max(0, 1-float64(n)/float64(in.Population)))
			}
			return studentQuantile(0.975, float64(n-1)) * in.CV / math.Sqrt(float64(n)) * f
		}
		assert.LessOrEqual(t, half(n), in.HalfWidth)
		if n > 2 {
			assert.Greater(t, half(n-1), in.HalfWidth)
		}
	}
}
