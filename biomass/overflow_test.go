package biomass

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pondwright.example/units"
)

// Answers that a float64 cannot hold are errors, and no struct beside an error
// holds a NaN.
func TestAnswersThatOverflow(t *testing.T) {
	big, tiny := math.MaxFloat64, 5e-324
	heavy, light := units.Mass(big), units.Mass(tiny)
	number := func(v float64, err error) any { assert.True(t, math.IsNaN(v)); return err }
	for name, call := range map[string]func() any{
		"count":         func() any { v, err := CountOf(light); return number(float64(v), err) },
		"weight":        func() any { v, err := WeightAtCount(units.CountPerMass(tiny)); return number(float64(v), err) },
		"headless":      func() any { v, err := HeadlessCount(units.CountPerMass(big), 1e-4); return number(float64(v), err) },
		"gain":          func() any { v, err := GainFromFeed(heavy, 1e-4); return number(float64(v), err) },
		"ration":        func() any { v, err := StockFromRation(heavy, 1e-4); return number(float64(v), err) },
		"net area":      func() any { v, err := NetArea(1e300, 1); return number(float64(v), err) },
		"condition":     func() any { v, err := ConditionFactor(heavy, 1e-3); return number(v, err) },
		"product cv":    func() any { v, err := ProductCV(big, big); return number(v, err) },
		"delta cv":      func() any { v, err := DeltaCV(big, big); return number(v, err) },
		"weekly gain":   func() any { v, err := WeeklyGain(1, heavy, time.Nanosecond); return number(float64(v), err) },
		"fraction out":  func() any { v, err := FractionOut{heavy, 2, 50}.Mean(); return number(float64(v), err) },
		"fraction beta": func() any { f, err := FractionFromMean(1, 0.5, tiny); assert.Zero(t, f); return err },
		"estimate": func() any {
			e, err := NewEstimate("x", heavy, Component{Name: "a", CV: 998})
			assert.Zero(t, e)
			return err
		},
		"lognormal": func() any { l, err := LognormalFromMean(1, big); assert.Zero(t, l); return err },
		"sample": func() any {
			m, err := SampleMean([]units.Mass{heavy, heavy, 1}, SampleOptions{})
			assert.Zero(t, m)
			return err
		},
		"stock":    func() any { s, err := Stock{big, 100, 1}.After(Stock{1, 1, 1}); assert.Zero(t, s); return err },
		"schnabel": func() any { r, err := MarkSums{CM: 10, R: big}.Schnabel(false, 0); assert.Zero(t, r); return err },
		"other estimate": func() any {
			r, err := Blend("x", Estimate{P50: 1, P90: units.Mass(math.Inf(1))})
			assert.Zero(t, r)
			return err
		},
		"handmade fit": func() any {
			p, err := LengthWeight{LnLengthSxx: 1, N: 1, Level: 0.95}.Predict(1)
			assert.Zero(t, p)
			return err
		},
		"cast density": func() any {
			d, err := CastNet{Casts: Casts{N: 2, Mean: 1e300, SD: 1}, SweptArea: 1e-9, Efficiency: 0.5}.Density()
			assert.Zero(t, d)
			return err
		},
	} {
		err, _ := call().(error)
		require.ErrorIs(t, err, units.ErrDomain, name)
		var in *units.InputError
		require.ErrorAs(t, err, &in, name)
		assert.NotEmpty(t, in.Func, name)
		assert.NotEmpty(t, in.Field, name)
	}
	for _, v := range []float64{Lognormal{1, 1e5}.Mean(), Lognormal{1, 1e5}.CV(), Lognormal{1, 1e5}.SD(), Lognormal{1, 1e5}.Quantile(0.99), Casts{N: 4, Mean: 1e-9, SD: big}.CV()} {
		assert.False(t, math.IsInf(v, 0) || math.IsNaN(v), "an evaluation method stays finite")
	}
	n, m := WeightDistribution{}.Below(1)
	assert.Zero(t, n+m+CatchCurve{}.ProbabilityRemaining(1))
}
