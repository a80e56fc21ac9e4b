package biomass

import (
	"encoding/json"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pondwright.example/units"
)

func codes(notices []units.Notice) []string {
	var out []string
	for _, n := range notices {
		out = append(out, n.Code)
	}
	return out
}

func TestSurvivalThatCannotBe(t *testing.T) {
	for _, s := range []float64{1.05, 105, 0, -0.2, math.NaN(), math.Inf(1)} {
		in := shrimpPond()
		in.Stocking.Survival = s
		_, err := EstimateCrop(in)
		require.ErrorIs(t, err, units.ErrDomain, s)
		var bad *units.InputError
		require.ErrorAs(t, err, &bad)
		assert.Equal(t, "stocking.survival", bad.Field)
		assert.Contains(t, err.Error(), "80 % is 0.80")
	}
	// 0.8 % is possible after a disease and is asked about, not changed.
	in := shrimpPond()
	in.Stocking.Survival = 0.008
	c, err := EstimateCrop(in)
	require.NoError(t, err)
	assert.Contains(t, codes(c.Notices), CodeLowSurvival)
	assert.Contains(t, codes(c.Notices), CodeDisagreement)
	assert.InDelta(t, 46.8, c.Parts[1].P50.Kilograms(), 1e-9)
}

func TestAllCastsEmpty(t *testing.T) {
	in := shrimpPond()
	var err error
	in.Casts.Casts, err = SummariseCasts(make([]int, 24))
	require.NoError(t, err)
	c, err := EstimateCrop(in)
	require.NoError(t, err)
	assert.Equal(t, NothingCaught, c.Density.Evidence)
	assert.Equal(t, []string{CodeExactEfficiency, CodeNothingCaught, CodePriorOnly, CodeDisagreement}, append([]string{CodeExactEfficiency}, codes(c.Notices)...))
	// −ln 0.05/24 per cast over 3.1 m² × 0.68 is 0.0592 per m²: 5.77 kg in the pond.
	assert.InDelta(t, 5.77, c.UpperBound.Kilograms(), 0.01)
	assert.InDelta(t, 4680, c.Estimate.P50.Kilograms(), 1e-6, "the record alone")
	assert.Len(t, c.Parts, 1)

	in.Stocking = nil
	c, err = EstimateCrop(in)
	require.ErrorIs(t, err, units.ErrNoSolution)
	assert.InDelta(t, 5.77, c.UpperBound.Kilograms(), 0.01, "the bound is still told")
}

func TestOneCastOrOneAnimal(t *testing.T) {
	in := shrimpPond()
	in.Casts.Casts = Casts{N: 1, Mean: 97}
	c, err := EstimateCrop(in)
	require.NoError(t, err)
	assert.Equal(t, Single, c.Density.Evidence)
	assert.Contains(t, codes(c.Notices), CodeSingleObservation)
	assert.Contains(t, codes(c.Notices), CodePriorOnly)
	assert.InDelta(t, 46.015, c.Density.Density.CountsPerSquareMetre(), 0.001, "the value is told, without an interval")
	assert.Zero(t, c.Density.SE)
	assert.InDelta(t, 4680, c.Estimate.P50.Kilograms(), 1e-6)

	m, err := SampleMean([]units.Mass{19.5 * units.Gram}, SampleOptions{})
	require.NoError(t, err)
	assert.Equal(t, Single, m.Evidence)
	assert.Equal(t, []string{CodeSingleObservation}, codes(m.Notices))
	assert.Equal(t, m.Mean, m.Low)
	assert.Zero(t, m.CV)
}

func TestWeightOutsideTheSpecies(t *testing.T) {
	in := shrimpPond()
	shrimp := WhitelegShrimp()
	in.MeanWeight, in.Range = 19.5*units.Kilogram, &shrimp
	c, err := EstimateCrop(in)
	require.NoError(t, err)
	require.Equal(t, CodeWeightRange, c.Notices[0].Code)
	assert.Equal(t, units.Warning, c.Notices[0].Severity)
	assert.Contains(t, c.Notices[0].Message, "grams had been written as kilograms")
	assert.InDelta(t, 4615e3, c.Estimate.P50.Kilograms(), 1e3, "nothing is changed")

	in.MeanWeight = 19.5 * units.Gram
	c, err = EstimateCrop(in)
	require.NoError(t, err)
	assert.Empty(t, c.Notices)

	_, out := shrimp.Check("w", units.Mass(math.NaN()))
	assert.True(t, out)
}

// Every function refuses what cannot be with an error that names the argument,
// and no result holds a NaN.
func TestImpossibleInputs(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	g, kg := units.Gram, units.Kilogram
	table := HeadlessPerPound(EdgeMidway)
	estimate, err := NewEstimate("crop", 1000*kg, Component{Name: "all", CV: 0.1})
	require.NoError(t, err)
	cases := map[string]func() error{
		"cast negative": func() error { _, err := SummariseCasts([]int{3, -1}); return err },
		"no casts":      func() error { _, err := SummariseCasts(nil); return err },
		"efficiency 1.2": func() error {
			_, err := CastNet{Casts: Casts{N: 2, Mean: 1, SD: 1}, SweptArea: 3, Efficiency: 1.2}.Density()
			return err
		},
		"efficiency zero": func() error {
			_, err := CastNet{Casts: Casts{N: 2, Mean: 1, SD: 1}, SweptArea: 3}.Density()
			return err
		},
		"swept area NaN": func() error {
			_, err := CastNet{Casts: Casts{N: 2, Mean: 1}, SweptArea: units.Area(nan), Efficiency: 1}.Density()
			return err
		},
		"mean NaN": func() error {
			_, err := CastNet{Casts: Casts{N: 2, Mean: nan}, SweptArea: 3, Efficiency: 1}.Density()
			return err
		},
		"net radius":  func() error { _, err := NetArea(units.Length(nan), 1); return err },
		"opening":     func() error { _, err := NetArea(1, 1.1); return err },
		"dispersion":  func() error { _, err := NegativeBinomialK(-1, 2); return err },
		"strata none": func() error { _, err := Stratify(nil); return err },
		"stratum single": func() error {
			_, err := Stratify([]Stratum{{1, Casts{N: 1, Mean: 3}}, {1, Casts{N: 2, Mean: 3, SD: 1}}})
			return err
		},
		"no input":     func() error { _, err := EstimateCrop(CropInput{}); return err },
		"exact record": func() error { in := shrimpPond(); in.Stocking.SurvivalCV = 0; _, err := EstimateCrop(in); return err },
		"pond area":    func() error { in := shrimpPond(); in.PondArea = 0; _, err := EstimateCrop(in); return err },
		"weight": func() error {
			in := shrimpPond()
			in.MeanWeight = units.Mass(nan)
			_, err := EstimateCrop(in)
			return err
		},
		"estimate median":    func() error { _, err := NewEstimate("x", units.Mass(inf)); return err },
		"estimate error":     func() error { _, err := NewEstimate("x", 1, Component{CV: -1}); return err },
		"quantile 0":         func() error { _, err := estimate.Quantile(0); return err },
		"quantile NaN":       func() error { _, err := estimate.Quantile(nan); return err },
		"blend none":         func() error { _, err := Blend("x"); return err },
		"blend exact":        func() error { _, err := Blend("x", estimate, Estimate{P50: 3}); return err },
		"blend zero":         func() error { _, err := Blend("x", Estimate{}); return err },
		"inverse variance":   func() error { _, _, err := InverseVariance([]float64{1, 2}, []float64{1, 0}); return err },
		"inverse length":     func() error { _, _, err := InverseVariance([]float64{1, 2}, []float64{1}); return err },
		"lognormal mean":     func() error { _, err := LognormalFromMean(0, 1); return err },
		"lognormal cv":       func() error { _, err := LognormalFromMean(1, nan); return err },
		"product":            func() error { _, err := ProductOfLognormals([]float64{1}, nil); return err },
		"product cv":         func() error { _, err := ProductCV(0.1, -0.1); return err },
		"delta cv":           func() error { _, err := DeltaCV(nan); return err },
		"correlation square": func() error { _, err := CorrelatedCV([]float64{1, 1}, [][]float64{{1, 0}}); return err },
		"correlation value":  func() error { _, err := CorrelatedCV([]float64{1, 1}, [][]float64{{1, 2}, {2, 1}}); return err },
		"correlation ragged": func() error { _, err := CorrelatedCV([]float64{1, 1}, [][]float64{{1, 0}, {0}}); return err },
		"correlation sum": func() error {
			_, err := CorrelatedCV([]float64{1, 1, 1}, [][]float64{{1, -0.9, -0.9}, {-0.9, 1, -0.9}, {-0.9, -0.9, 1}})
			return err
		},
		"feed record":     func() error { _, err := FeedRecord{Feed: 100, Conversion: 1.5, Taken: 100}.Estimate(); return err },
		"feed conversion": func() error { _, err := FeedRecord{Feed: 100}.Estimate(); return err },
		"past efficiency": func() error { _, _, err := CalibrateEfficiency([]float64{0.6, 1.6}); return err },
		"projection": func() error {
			_, _, err := WeightProjection{Sampled: 1, Gain: -1, Elapsed: 8 * 7 * 24 * time.Hour}.Project()
			return err
		},
		"recover":           func() error { _, err := Removal{N: 10, P: 0.5}.PassesToRecover(1); return err },
		"zero acceptance":   func() error { _, err := ZeroAcceptanceSample(0, 0); return err },
		"survival time":     func() error { _, err := Survival(1, -time.Second); return err },
		"feed ratio":        func() error { _, err := GainFromFeed(1, 0); return err },
		"ration rate":       func() error { _, err := StockFromRation(1, 3); return err },
		"sample none":       func() error { _, err := SampleMean(nil, SampleOptions{}); return err },
		"sample zero":       func() error { _, err := SampleMean([]units.Mass{g, 0}, SampleOptions{}); return err },
		"sample NaN":        func() error { _, err := SampleMean([]units.Mass{g, units.Mass(nan)}, SampleOptions{}); return err },
		"sample level":      func() error { _, err := SampleMean([]units.Mass{g, g}, SampleOptions{Level: 95}); return err },
		"sample population": func() error { _, err := SampleMean([]units.Mass{g, g}, SampleOptions{Population: 1}); return err },
		"batch count":       func() error { _, err := BatchMean([]Batch{{kg, 0}}, SampleOptions{}); return err },
		"batch none":        func() error { _, err := BatchMean(nil, SampleOptions{}); return err },
		"size cv":           func() error { _, err := SampleSize(SampleSizeInput{HalfWidth: 0.1}); return err },
		"size t":            func() error { _, err := SampleSizeT(SampleSizeInput{CV: nan, HalfWidth: 0.1}); return err },
		"range":             func() error { return WeightRange{Low: 2, High: 1}.Validate() },
		"count":             func() error { _, err := CountOf(0); return err },
		"weight at count":   func() error { _, err := WeightAtCount(-1); return err },
		"yield percent":     func() error { _, err := HeadlessCount(23, 65); return err },
		"yield zero":        func() error { _, err := HeadOnCount(23, 0); return err },
		"table empty":       func() error { return CountTable{}.Validate() },
		"edge unstated":     func() error { return HeadlessPerPound(EdgeUnstated).Validate() },
		"table overlaps":    func() error { t := HeadlessPerPound(EdgeMidway); t.Classes[2].Low = 3; return t.Validate() },
		"lot without yield": func() error { _, err := LotInput{MeanWeight: g, Table: table}.Grade(); return err },
		"lot band": func() error {
			_, err := LotInput{MeanWeight: g, Yield: 0.6, Table: table, Band: 80}.Grade()
			return err
		},
		"shares none": func() error { _, err := WeightDistribution{}.Shares(table, 0.6); return err },
		"shares sum": func() error {
			_, err := WeightDistribution{Cohorts: []Cohort{{0.5, g, 0.2}}}.Shares(table, 0.6)
			return err
		},
		"grade sample":        func() error { _, err := GradeSample(nil, table, 0.6, 0); return err },
		"grade sample weight": func() error { _, err := GradeSample([]units.Mass{-g}, table, 0.6, 0); return err },
		"value shares":        func() error { _, err := GradeValue(estimate, []GradePrice{{0.5, 1}}, 10); return err },
		"value n":             func() error { _, err := GradeValue(estimate, []GradePrice{{1, 1}}, 0); return err },
		"binomial":            func() error { _, _, err := BinomialInterval(5, 4, 0, Wilson1927); return err },
		"soft limit":          func() error { _, err := SoftShellInput{Soft: 1, Sample: 10, Limit: 5}.Judge(); return err },
		"removal one pass":    func() error { _, err := CarleStrub([]int{3}); return err },
		"removal negative":    func() error { _, err := Zippin([]int{3, -1}); return err },
		"removal ml":          func() error { _, err := RemovalML(nil); return err },
		"schnute":             func() error { _, err := Schnute([]int{3, 2}); return err },
		"seber negative":      func() error { _, err := SeberTwoPass(-3, -4); return err },
		"seber three":         func() error { _, err := SeberThreePass(-3, 1, 1); return err },
		"posterior max":       func() error { _, err := RemovalPosterior([]int{30, 20}, RemovalPriors{}); return err },
		"posterior prior": func() error {
			_, err := RemovalPosterior([]int{30, 20}, RemovalPriors{Max: 99, A: -1, B: 1})
			return err
		},
		"leslie short":  func() error { _, err := Leslie([]Effort{{1, 1, 0}}, BeforeInterval); return err },
		"delury zero":   func() error { _, err := DeLury([]Effort{{3, 1, 0}, {1, 1, 0}, {0, 1, 0}}, BeforeInterval); return err },
		"effort zero":   func() error { _, err := Leslie([]Effort{{3, 1, 0}, {1, 0, 0}, {1, 1, 0}}, BeforeInterval); return err },
		"marks":         func() error { _, err := Marks{10, 10, 11}.Chapman(0); return err },
		"marks level":   func() error { _, err := Marks{10, 10, 1}.Bailey(95); return err },
		"mark sums":     func() error { _, err := SumMarks([]MarkSample{{10, 0, 10}, {5, 11, 0}}); return err },
		"schnabel":      func() error { _, err := MarkSums{}.Schnabel(false, 0); return err },
		"schumacher":    func() error { _, err := MarkSums{K: 2}.SchumacherEschmeyer(0); return err },
		"update belief": func() error { _, err := UpdateCrop(Lognormal{}, []TicketShare{{kg, 0.1, 0.1}}, 0); return err },
		"update shares": func() error {
			_, err := UpdateCrop(Lognormal{1, 0.1}, []TicketShare{{kg, 0.6, 0.1}, {kg, 0.6, 0.1}}, 0)
			return err
		},
		"fraction mean":     func() error { _, err := FractionFromMean(kg, 1, 0.1); return err },
		"fraction sd":       func() error { _, err := FractionFromMean(kg, 0.5, 0.6); return err },
		"fraction out mean": func() error { _, err := FractionOut{kg, 1, 1}.Mean(); return err },
		"fraction out sd":   func() error { _, err := FractionOut{kg, 2, 1}.SD(); return err },
		"fraction quantile": func() error { _, err := FractionOut{kg, 2, 1}.Quantile(1); return err },
		"curve belief":      func() error { _, err := FitCatchCurve(CatchCurveInput{}); return err },
		"curve not built":   func() error { _, err := CatchCurve{}.Remaining(0.5); return err },
		"ticket tare":       func() error { _, err := Ticket{Gross: 10, Tare: 20}.Net(); return err },
		"ticket water":      func() error { _, err := Ticket{Gross: 10, WaterFraction: 8}.Net(); return err },
		"scale empty":       func() error { _, err := Scale{}.Total(); return err },
		"reconcile":         func() error { _, err := Reconcile(Scale{}, Scale{}, nil, 0); return err },
		"losses": func() error {
			s := Scale{Tickets: []Ticket{{Gross: 5}}}
			_, err := Reconcile(s, s, []KnownLoss{{Mass: 6}}, 0)
			return err
		},
		"loss":               func() error { _, err := MassLoss(1, 1.5); return err },
		"account":            func() error { _, err := HarvestInput{}.Account(); return err },
		"stock":              func() error { _, err := Stock{10, g, 0}.After(Stock{11, g, 0}); return err },
		"stock heavy":        func() error { _, err := Stock{10, g, 0}.After(Stock{9, 2 * g, 0}); return err },
		"length":             func() error { _, err := VonBertalanffyLength(1, 0, 1, 0); return err },
		"age":                func() error { _, err := VonBertalanffyWeight(1, 1, 0, time.Hour, 3); return err },
		"gompertz":           func() error { _, err := GompertzWeight(0, 1, 1, 1); return err },
		"growth rate":        func() error { _, err := SpecificGrowthRate(1, 2, 0); return err },
		"gain":               func() error { _, err := WeeklyGain(1, units.Mass(nan), time.Hour); return err },
		"tgc":                func() error { _, err := ThermalGrowthCoefficient(1, 2, units.Celsius(-1), time.Hour); return err },
		"length weight":      func() error { _, err := FitLengthWeight(nil, nil, 0); return err },
		"lengths equal":      func() error { _, err := FitLengthWeight([]units.Length{1, 1, 1}, []units.Mass{1, 2, 3}, 0); return err },
		"predict":            func() error { _, err := LengthWeight{}.Predict(1); return err },
		"condition":          func() error { _, err := ConditionFactor(0, 1); return err },
		"relative condition": func() error { _, err := LengthWeight{}.RelativeCondition(1, 1); return err },
	}
	for name, f := range cases {
		t.Run(name, func(t *testing.T) {
			err := f()
			require.ErrorIs(t, err, units.ErrDomain)
			var in *units.InputError
			require.ErrorAs(t, err, &in)
			assert.NotEmpty(t, in.Field)
			assert.NotEmpty(t, in.Func)
		})
	}
}

// Questions without an answer say so instead of returning a number.
func TestNoSolution(t *testing.T) {
	cases := map[string]func() error{
		"random counts":   func() error { _, err := NegativeBinomialK(10, 3); return err },
		"too many":        func() error { _, err := SampleSize(SampleSizeInput{CV: 1, HalfWidth: 1e-8}); return err },
		"too many t":      func() error { _, err := SampleSizeT(SampleSizeInput{CV: 1, HalfWidth: 1e-8}); return err },
		"nothing caught":  func() error { _, err := CarleStrub([]int{0, 0, 0}); return err },
		"rising":          func() error { _, err := Zippin([]int{5, 7, 8}); return err },
		"rising ml":       func() error { _, err := RemovalML([]int{5, 7, 8}); return err },
		"rising schnute":  func() error { _, err := Schnute([]int{5, 7, 12}); return err },
		"schnute empty":   func() error { _, err := Schnute([]int{45, 0, 0}); return err },
		"tie ml":          func() error { _, err := RemovalML([]int{7, 9}); return err },
		"one harvest":     func() error { _, _, err := CalibrateEfficiency([]float64{0.6}); return err },
		"no catch":        func() error { _, err := Removal{N: 10}.PassesToRecover(0.5); return err },
		"slow passes":     func() error { _, err := Removal{N: 1e9, P: 1e-9}.PassesToRecover(0.5); return err },
		"zero acceptance": func() error { _, err := ZeroAcceptanceSample(1e-12, 0); return err },
		"two rising":      func() error { _, err := SeberTwoPass(5, 5); return err },
		"three rising":    func() error { _, err := SeberThreePass(5, 5, 5); return err },
		"robson":          func() error { _, err := RobsonRegier(5, 6); return err },
		"leslie":          func() error { _, err := Leslie([]Effort{{1, 1, 0}, {1, 1, 0}, {1, 1, 0}}, MidInterval); return err },
		"delury":          func() error { _, err := DeLury([]Effort{{1, 1, 0}, {2, 1, 0}, {3, 1, 0}}, MidInterval); return err },
		"no recaptures":   func() error { _, err := Marks{10, 10, 0}.Petersen(0); return err },
		"schnabel":        func() error { _, err := MarkSums{CM: 10, K: 3, CM2: 9}.Schnabel(false, 0); return err },
		"schumacher":      func() error { _, err := MarkSums{CM: 10, K: 3, CM2: 9}.SchumacherEschmeyer(0); return err },
		"all taken":       func() error { s := Stock{10, units.Gram, 0}; _, err := s.After(s); return err },
		"empty casts": func() error {
			_, err := EstimateCrop(CropInput{Casts: &CastNet{Casts: Casts{N: 3}, SweptArea: 3, Efficiency: 0.5}, PondArea: 9, MeanWeight: 1})
			return err
		},
	}
	for name, f := range cases {
		t.Run(name, func(t *testing.T) { require.ErrorIs(t, f(), units.ErrNoSolution) })
	}
}

// All problems of an input are told at once, each with its path.
func TestValidateTellsAll(t *testing.T) {
	in := shrimpPond()
	in.Casts.Efficiency, in.Casts.Casts.N, in.PondArea, in.Stocking.Survival = -1, 0, -5, 2
	var fields []string
	for _, e := range flatten(in.Validate()) {
		var bad *units.InputError
		require.ErrorAs(t, e, &bad)
		fields = append(fields, bad.Field)
	}
	assert.Equal(t, []string{"casts.casts.n", "casts.efficiency", "pondArea", "stocking.survival"}, fields)
}

func flatten(err error) []error {
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		var out []error
		for _, e := range j.Unwrap() {
			out = append(out, flatten(e)...)
		}
		return out
	}
	return []error{err}
}

// Results travel as JSON with units and come back the same, enumerations as words.
func TestJSON(t *testing.T) {
	c, err := EstimateCrop(shrimpPond())
	require.NoError(t, err)
	b, err := json.Marshal(c)
	require.NoError(t, err)
	assert.Contains(t, string(b), `"evidence":"replicated"`)
	assert.NotContains(t, string(b), "null")
	var back Crop
	require.NoError(t, json.Unmarshal(b, &back))
	assert.Equal(t, c, back)

	var table CountTable
	b, err = json.Marshal(HeadlessPerPound(EdgeLowerLabel))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(b, &table))
	assert.Equal(t, HeadlessPerPound(EdgeLowerLabel), table)
	assert.Contains(t, string(b), `"form":"headless","per":"per pound","edge":"lower label inclusive"`)
	for _, bad := range []string{`{"form":"tails"}`, `{"per":"lb"}`, `{"edge":"inclusive"}`} {
		assert.Error(t, json.Unmarshal([]byte(bad), &table), bad)
	}
	_, err = json.Marshal(Form(9))
	assert.Error(t, err)
}
