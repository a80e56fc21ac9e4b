package biomass

import (
	"encoding"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pondwright.example/units"
)

// Each notice is raised where its comment says and not beside it.
func TestNotices(t *testing.T) {
	g, kg := units.Gram, units.Kilogram
	shrimp := WhitelegShrimp()
	net := func(n int, sd float64) CastNet {
		return CastNet{Casts: Casts{N: n, Mean: 10, SD: 3}, SweptArea: 3, Efficiency: 0.7, EfficiencySD: sd}
	}
	density := func(c CastNet) []units.Notice {
		d, err := c.Density()
		require.NoError(t, err)
		return d.Notices
	}
	crop := func(change func(*CropInput)) []units.Notice {
		in := shrimpPond()
		change(&in)
		c, err := EstimateCrop(in)
		require.NoError(t, err)
		return c.Notices
	}
	batches := func(n int) []units.Notice {
		m, err := BatchMean([]Batch{{400 * g, 20}, {610 * g, 30}, {300 * g, 16}}[:n], SampleOptions{Range: &shrimp})
		require.NoError(t, err)
		return m.Notices
	}
	lot := func(yield float64) []units.Notice {
		r, err := LotInput{MeanWeight: 21.2 * g, Yield: yield, Table: HeadlessPerPound(EdgeMidway)}.Grade()
		require.NoError(t, err)
		return r.Notices
	}
	sample := func(n int) []units.Notice {
		w := make([]units.Mass, n)
		for i := range w {
			w[i] = 20 * g
		}
		r, err := GradeSample(w, HeadlessPerPound(EdgeMidway), 0.65, 0)
		require.NoError(t, err)
		return r.Notices
	}
	account := func(stocked float64) []units.Notice {
		a, err := HarvestInput{Product: NetWeight{Net: 100 * kg}, MeanWeight: 20 * g, Stocked: stocked}.Account()
		require.NoError(t, err)
		return a.Notices
	}
	tickets := func(net units.Mass) []units.Notice {
		p, err := UpdateCrop(Lognormal{4600, 0.1}, []TicketShare{{net, 0.25, 0.1}}, 0)
		require.NoError(t, err)
		return p.Notices
	}
	weights := func(w ...units.Mass) []units.Notice {
		m, err := SampleMean(w, SampleOptions{Range: &shrimp})
		require.NoError(t, err)
		return m.Notices
	}
	lengths := func(mm float64) []units.Notice {
		f, err := FitLengthWeight([]units.Length{0.1, 0.12, 0.14}, []units.Mass{8 * g, 14 * g, 22 * g}, 0)
		require.NoError(t, err)
		p, err := f.Predict(units.Millimetres.Of(mm))
		require.NoError(t, err)
		return p.Notices
	}
	shell := func(n int) []units.Notice {
		s, err := SoftShellInput{Soft: 1, Sample: n, Limit: 0.05}.Judge()
		require.NoError(t, err)
		return s.Notices
	}
	cases := []struct {
		code string
		got  []units.Notice
		not  []units.Notice
	}{
		{CodeFewCasts, density(net(5, 0.1)), density(net(20, 0.1))},
		{CodeExactEfficiency, density(net(20, 0)), density(net(20, 0.1))},
		{CodeMoreThanStocked, crop(func(in *CropInput) { in.Stocking.SurvivalCV = 0.3 }), crop(func(*CropInput) {})},
		{CodeDisagreement, crop(func(in *CropInput) { in.Casts.Casts.Mean, in.Casts.Casts.SD = 30, 10 }), crop(func(*CropInput) {})},
		{CodeFewBatches, batches(2), batches(3)},
		{CodeSingleObservation, batches(1), batches(2)},
		{CodeUnusualYield, lot(0.8), lot(0.65)},
		{CodeSmallSample, sample(50), sample(100)},
		{CodeSmallSample, shell(50), shell(100)},
		{CodeAboveStocked, account(4000), account(6000)},
		{CodeDisagreement, tickets(600 * kg), tickets(1150 * kg)},
		{CodeWeightRange, weights(20*g, 0.019*g, 21*g), weights(20*g, 19*g)},
		{CodeLengthRange, lengths(150), lengths(130)},
	}
	for i, c := range cases {
		assert.Contains(t, codes(c.got), c.code, "case %d", i)
		assert.NotContains(t, codes(c.not), c.code, "case %d", i)
		for _, n := range c.got {
			assert.NotEmpty(t, n.Message)
			assert.NotEmpty(t, n.Field)
			assert.False(t, math.IsNaN(n.Value) || math.IsInf(n.Value, 0) || math.IsNaN(n.Limit) || math.IsInf(n.Limit, 0))
		}
	}
	n, _ := shrimp.Check("w", 0.0195*g)
	assert.Contains(t, n.Message, "kilograms had been written as grams")
	n, _ = shrimp.Check("w", 200*g)
	assert.NotContains(t, n.Message, "would fit")
}

// Words of enumerations go out and come back; unknown ones are refused.
func TestWords(t *testing.T) {
	type word interface {
		encoding.TextMarshaler
		fmt.Stringer
	}
	check := func(v word, into encoding.TextUnmarshaler, unknown word) {
		t.Helper()
		b, err := v.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, v.String(), string(b))
		require.NoError(t, into.UnmarshalText(b))
		assert.Error(t, into.UnmarshalText([]byte("no such word")))
		_, err = unknown.MarshalText()
		assert.Error(t, err)
		assert.Contains(t, unknown.String(), "(99)")
	}
	var (
		e Evidence
		f Form
		p Per
		r EdgeRule
		s WeightShape
		m BinomialMethod
		v Verdict
		d DepletionTiming
	)
	check(NothingCaught, &e, Evidence(99))
	check(Headless, &f, Form(99))
	check(PerPound, &p, Per(99))
	check(EdgeUpperLabel, &r, EdgeRule(99))
	check(NormalWeights, &s, WeightShape(99))
	check(Wilson1927, &m, BinomialMethod(99))
	check(Fail, &v, Verdict(99))
	check(MidInterval, &d, DepletionTiming(99))
	assert.Equal(t, []any{NothingCaught, Headless, PerPound, EdgeUpperLabel, NormalWeights, Wilson1927, Fail, MidInterval}, []any{e, f, p, r, s, m, v, d})
}

// A head-on lot needs no yield, an exact one falls in its class with certainty,
// and a table that ends tells what lies beyond.
func TestLotGradeCorners(t *testing.T) {
	g, err := LotInput{MeanWeight: 19.5 * units.Gram, Table: HeadOnPerKilogram(EdgeMidway), Band: 0.9}.Grade()
	require.NoError(t, err)
	assert.Equal(t, g.HeadOn, g.Count)
	assert.Equal(t, "50/60", g.Class)
	assert.False(t, g.Straddles)
	for _, p := range g.Probabilities {
		want := 0.0
		if p.Class == "50/60" {
			want = 1
		}
		assert.Equal(t, want, p.Probability, p.Class)
	}
	table := HeadOnPerKilogram(EdgeMidway)
	table.Classes = table.Classes[:3] // up to 40 per kilogram
	g, err = LotInput{MeanWeight: 19.5 * units.Gram, MeanWeightCV: 0.05, Table: table}.Grade()
	require.NoError(t, err)
	assert.Empty(t, g.Class)
	assert.Greater(t, g.Beyond, 0.99)
	assert.Equal(t, -1, table.ClassOf(51*units.PerKilogram))
	// A small sample widens the band.
	few, err := LotInput{MeanWeight: 19.5 * units.Gram, MeanWeightCV: 0.05, MeanWeightDOF: 4, Table: table}.Grade()
	require.NoError(t, err)
	assert.Less(t, few.Low, g.Low)
	assert.InDelta(t, 4, few.DOF, 1e-9)
}

// Every label that cannot be is named with its class.
func TestTableFaults(t *testing.T) {
	for field, change := range map[string]func(*CountTable){
		"classes[0].low":  func(c *CountTable) { c.Classes[0].Low = -1 },
		"classes[1].high": func(c *CountTable) { c.Classes[1].High = math.Inf(1) },
		"classes[2].high": func(c *CountTable) { c.Classes[2].High = 0 },
		"classes[3].high": func(c *CountTable) { c.Classes[3].High = 1 },
		"classes[4].low":  func(c *CountTable) { c.Classes[4].Low = 3 },
		"form":            func(c *CountTable) { c.Form = FormUnstated },
		"per":             func(c *CountTable) { c.Per = PerUnstated },
		"edge":            func(c *CountTable) { c.Edge = 9 },
		"classes":         func(c *CountTable) { c.Classes = nil },
	} {
		table := HeadlessPerPound(EdgeMidway)
		change(&table)
		var bad *units.InputError
		require.ErrorAs(t, table.Validate(), &bad, field)
		assert.Equal(t, field, bad.Field)
	}
}
