package biomass

import (
	"fmt"
	"math"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestCoverage(t *testing.T) { check.Coverage(t, ".") }
func TestDocs(t *testing.T)     { check.Docs(t, ".") }
func TestSources(t *testing.T)  { check.Sources(t, ".") }

// pick returns the number named by the row's quantity.
func pick(r check.Row, err error, values map[string]float64) (float64, error) {
	name := r.Text("quantity")
	if err != nil {
		return math.NaN(), err
	}
	v, ok := values[name]
	if !ok {
		return math.NaN(), fmt.Errorf("no quantity %q", name)
	}
	return v, nil
}

// optional reads a number that a row may leave blank.
func optional(r check.Row, column string, otherwise float64) float64 {
	if r.Has(column) {
		return r.Float(column)
	}
	return otherwise
}

func ints(xs []float64) []int {
	out := make([]int, len(xs))
	for i, x := range xs {
		out[i] = int(x)
	}
	return out
}

func grams(xs []float64) []units.Mass {
	out := make([]units.Mass, len(xs))
	for i, x := range xs {
		out[i] = units.Grams.Of(x)
	}
	return out
}

func days(d float64) time.Duration { return time.Duration(d * 24 * float64(time.Hour)) }

func castsOf(r check.Row) (Casts, error) {
	if r.Has("counts") {
		return SummariseCasts(ints(r.Floats("counts")))
	}
	return Casts{N: int(r.Float("n")), Mean: r.Float("mean"), SD: r.Float("sd")}, nil
}

func castNetOf(r check.Row) (CastNet, error) {
	k, err := castsOf(r)
	if err != nil {
		return CastNet{}, err
	}
	c := CastNet{Casts: k, Efficiency: r.Float("efficiency"), EfficiencySD: optional(r, "efficiency_sd", 0)}
	if r.Has("swept_area_m2") {
		c.SweptArea = units.SquareMetres.Of(r.Float("swept_area_m2"))
		return c, nil
	}
	c.SweptArea, err = NetArea(units.Metres.Of(r.Float("net_radius_m")), r.Float("opening"))
	return c, err
}

func TestCastNetTable(t *testing.T) {
	twoStrata := []Stratum{
		{Area: 1000 * units.SquareMetre, Casts: Casts{N: 9, Mean: 90, SD: 30}},
		{Area: 4000 * units.SquareMetre, Casts: Casts{N: 9, Mean: 25, SD: math.Sqrt(162)}},
	}
	check.Run(t, "testdata/castnet.csv", map[string]func(check.Row) (float64, error){
		"NetArea": func(r check.Row) (float64, error) {
			a, err := NetArea(units.Metres.Of(r.Float("net_radius_m")), r.Float("opening"))
			return a.SquareMetres(), err
		},
		"ZeroCountBound": func(r check.Row) (float64, error) { return ZeroCountBound(int(r.Float("n"))), nil },
		"Casts.CV": func(r check.Row) (float64, error) {
			k, err := castsOf(r)
			return k.CV(), err
		},
		"SummariseCasts": func(r check.Row) (float64, error) {
			k, err := castsOf(r)
			return pick(r, err, map[string]float64{"sd": k.SD, "mean": k.Mean})
		},
		"CastNet.Density": func(r check.Row) (float64, error) {
			c, err := castNetOf(r)
			if err != nil {
				return math.NaN(), err
			}
			d, err := c.Density()
			return pick(r, err, map[string]float64{"density_per_m2": d.Density.CountsPerSquareMetre(), "se_per_m2": d.SE.CountsPerSquareMetre(), "cv": d.CV})
		},
		"EstimateCrop": func(r check.Row) (float64, error) {
			c, err := castNetOf(r)
			if err != nil {
				return math.NaN(), err
			}
			d, err := c.Density()
			return pick(r, err, map[string]float64{"number_se": d.SE.Times(units.SquareMetres.Of(r.Float("pond_area_m2")))})
		},
		"CalibrateEfficiency": func(r check.Row) (float64, error) {
			e, sd, err := CalibrateEfficiency(r.Floats("past"))
			return pick(r, err, map[string]float64{"mean": e, "sd": sd})
		},
		"NegativeBinomialK": func(r check.Row) (float64, error) {
			k, err := castsOf(r)
			if err != nil {
				return math.NaN(), err
			}
			return NegativeBinomialK(k.Mean, k.SD)
		},
		"Stratify": func(r check.Row) (float64, error) {
			k, err := Stratify(twoStrata)
			return pick(r, err, map[string]float64{"mean": k.Mean, "n": float64(k.N), "se": k.SD / math.Sqrt(float64(k.N))})
		},
	})
}

func TestSampleTable(t *testing.T) {
	mean := func(r check.Row, m MeanWeight, err error) (float64, error) {
		return pick(r, err, map[string]float64{
			"mean_g": m.Mean.In(units.Grams), "sd_g": m.SD.In(units.Grams), "se_g": m.SE.In(units.Grams),
			"low_g": m.Low.In(units.Grams), "high_g": m.High.In(units.Grams), "animal_cv": float64(m.SD / m.Mean),
		})
	}
	size := func(f func(SampleSizeInput) (int, error)) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) {
			n, err := f(SampleSizeInput{CV: r.Float("animal_cv"), HalfWidth: r.Float("half_width"), Population: int(optional(r, "population", 0))})
			return float64(n), err
		}
	}
	check.Run(t, "testdata/sample.csv", map[string]func(check.Row) (float64, error){
		"SampleMean": func(r check.Row) (float64, error) {
			m, err := SampleMean(grams(r.Floats("weights_g")), SampleOptions{Population: int(optional(r, "population", 0))})
			return mean(r, m, err)
		},
		"BatchMean": func(r check.Row) (float64, error) {
			masses, counts := grams(r.Floats("batch_masses_g")), ints(r.Floats("batch_counts"))
			var b []Batch
			for i := range masses {
				b = append(b, Batch{Mass: masses[i], Count: counts[i]})
			}
			m, err := BatchMean(b, SampleOptions{})
			return mean(r, m, err)
		},
		"ZeroAcceptanceSample": func(r check.Row) (float64, error) {
			n, err := ZeroAcceptanceSample(r.Float("limit"), optional(r, "level", 0))
			return float64(n), err
		},
		"WeightProjection.Project": func(r check.Row) (float64, error) {
			m, cv, err := WeightProjection{Sampled: 18 * units.Gram, SampledCV: 0.03, Gain: 1.4 * units.Gram, GainCV: 0.25, Elapsed: days(10)}.Project()
			return pick(r, err, map[string]float64{"mean_g": m.In(units.Grams), "cv": cv})
		},
		"SampleSize":  size(SampleSize),
		"SampleSizeT": size(SampleSizeT),
	})
}

var edgeRules = map[string]EdgeRule{"midway": EdgeMidway, "upper": EdgeUpperLabel, "lower": EdgeLowerLabel}

func TestCountTable(t *testing.T) {
	perPound := func(r check.Row) units.CountPerMass { return units.CountsPerPound.Of(r.Float("count_per_lb")) }
	check.Run(t, "testdata/count.csv", map[string]func(check.Row) (float64, error){
		"WeightAtCount": func(r check.Row) (float64, error) {
			w, err := WeightAtCount(perPound(r))
			return w.In(units.Grams), err
		},
		"CountOf": func(r check.Row) (float64, error) {
			c, err := CountOf(units.Grams.Of(r.Float("weight_g")))
			return c.CountsPerKilogram(), err
		},
		"HeadOnCount": func(r check.Row) (float64, error) {
			c, err := HeadOnCount(perPound(r), r.Float("yield"))
			return c.In(units.CountsPerPound), err
		},
		"HeadlessCount": func(r check.Row) (float64, error) {
			c, err := HeadlessCount(perPound(r), r.Float("yield"))
			return c.In(units.CountsPerPound), err
		},
		"CountTable.EdgeOf": func(r check.Row) (float64, error) {
			return HeadlessPerPound(edgeRules[r.Text("edge")]).EdgeOf(int(r.Float("index"))).In(units.CountsPerPound), nil
		},
		"CountTable.ClassOf": func(r check.Row) (float64, error) {
			return float64(HeadlessPerPound(edgeRules[r.Text("edge")]).ClassOf(perPound(r))), nil
		},
	})
}

func TestSharesTable(t *testing.T) {
	check.Run(t, "testdata/shares.csv", map[string]func(check.Row) (float64, error){
		"WeightDistribution.Shares": func(r check.Row) (float64, error) {
			d := WeightDistribution{}
			if r.Text("shape") == "normal" {
				d.Shape = NormalWeights
			}
			f, m, c := r.Floats("fractions"), r.Floats("means_g"), r.Floats("cvs")
			for i := range f {
				d.Cohorts = append(d.Cohorts, Cohort{Fraction: f[i], MeanWeight: units.Grams.Of(m[i]), CV: c[i]})
			}
			table := HeadlessPerPound(EdgeMidway)
			if r.Has("under") { // U/10 read as 10 or fewer
				table.Classes[0].High, table.Classes[1].Low = r.Float("under"), r.Float("under")+1
			}
			s, err := d.Shares(table, r.Float("yield"))
			for _, k := range s.Classes {
				if k.Class == r.Text("class") {
					return pick(r, err, map[string]float64{"number": k.Number, "mass": k.Mass})
				}
			}
			return math.NaN(), fmt.Errorf("no class %q: %w", r.Text("class"), err)
		},
	})
}

func TestRemovalTable(t *testing.T) {
	estimate := func(f func([]int) (Removal, error)) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) {
			e, err := f(ints(r.Floats("catches")))
			return pick(r, err, map[string]float64{"n": e.N, "p": e.P, "se": e.SE, "chi_square": e.ChiSquare, "scaled_se": e.ScaledSE,
				"left": e.Left(), "next": e.NextPass()})
		}
	}
	two := func(f func(a, b int) (Removal, error)) func([]int) (Removal, error) {
		return func(c []int) (Removal, error) { return f(c[0], c[1]) }
	}
	check.Run(t, "testdata/removal.csv", map[string]func(check.Row) (float64, error){
		"Zippin":           estimate(Zippin),
		"CarleStrub":       estimate(CarleStrub),
		"RemovalML":        estimate(RemovalML),
		"Removal.Left":     estimate(CarleStrub),
		"Removal.NextPass": estimate(CarleStrub),
		"Removal.PassesToRecover": func(r check.Row) (float64, error) {
			n, err := Removal{N: r.Float("population"), P: r.Float("p"), Total: int(r.Float("total"))}.PassesToRecover(r.Float("fraction"))
			return float64(n), err
		},
		"SeberTwoPass":   estimate(two(SeberTwoPass)),
		"RobsonRegier":   estimate(two(RobsonRegier)),
		"SeberThreePass": estimate(func(c []int) (Removal, error) { return SeberThreePass(c[0], c[1], c[2]) }),
		"Schnute": func(r check.Row) (float64, error) {
			e, err := Schnute(ints(r.Floats("catches")))
			return pick(r, err, map[string]float64{"n": e.N, "p1": e.P1, "p": e.P, "likelihood_ratio": e.LikelihoodRatio, "p_value": e.PValue})
		},
		"RemovalPosterior": func(r check.Row) (float64, error) {
			e, err := RemovalPosterior(ints(r.Floats("catches")), RemovalPriors{Max: int(r.Float("max"))})
			return pick(r, err, map[string]float64{"mean": e.Mean, "mode": float64(e.Mode), "median": float64(e.Median),
				"q025": float64(e.Q025), "q975": float64(e.Q975)})
		},
	})
}

func TestDepletionTable(t *testing.T) {
	estimate := func(f func([]Effort, DepletionTiming) (Depletion, error)) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) {
			c, e := r.Floats("catches"), r.Floats("efforts")
			in := make([]Effort, len(c))
			for i := range c {
				in[i] = Effort{Catch: c[i], Effort: e[i]}
			}
			if r.Has("others") {
				for i, o := range r.Floats("others") {
					in[i].Other = o
				}
			}
			timing := BeforeInterval
			if r.Text("timing") == "mid" {
				timing = MidInterval
			}
			d, err := f(in, timing)
			return pick(r, err, map[string]float64{"n0": d.N0, "q": d.Q, "se_n": d.SEN, "se_q": d.SEQ, "q7": 7 * d.Q})
		}
	}
	check.Run(t, "testdata/depletion.csv", map[string]func(check.Row) (float64, error){"Leslie": estimate(Leslie), "DeLury": estimate(DeLury)})
}

func TestRecaptureTable(t *testing.T) {
	marks := func(f func(Marks, float64) (Recapture, error)) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) {
			e, err := f(Marks{Marked: int(r.Float("marked")), Caught: int(r.Float("caught")), Recaptured: int(r.Float("recaptured"))}, 0)
			return pick(r, err, map[string]float64{"n": e.N, "se": e.SE, "low": e.Low, "high": e.High})
		}
	}
	sums := func(r check.Row) (MarkSums, error) {
		c, m, b := ints(r.Floats("samples_caught")), ints(r.Floats("samples_recaptured")), ints(r.Floats("samples_returned"))
		var s []MarkSample
		for i := range c {
			s = append(s, MarkSample{Caught: c[i], Recaptured: m[i], Returned: b[i]})
		}
		return SumMarks(s)
	}
	check.Run(t, "testdata/recapture.csv", map[string]func(check.Row) (float64, error){
		"Marks.Petersen": marks(Marks.Petersen),
		"Marks.Chapman":  marks(Marks.Chapman),
		"Marks.Bailey":   marks(Marks.Bailey),
		"SumMarks": func(r check.Row) (float64, error) {
			s, err := sums(r)
			return pick(r, err, map[string]float64{"cm": s.CM, "cm2": s.CM2, "rm": s.RM, "r": s.R})
		},
		"MarkSums.Schnabel": func(r check.Row) (float64, error) {
			s, err := sums(r)
			if err != nil {
				return math.NaN(), err
			}
			e, err := s.Schnabel(r.Text("quantity") == "n_chapman", 0)
			return pick(r, err, map[string]float64{"n": e.N, "n_chapman": e.N, "se": e.SE, "low": e.Low, "high": e.High})
		},
		"MarkSums.SchumacherEschmeyer": func(r check.Row) (float64, error) {
			s, err := sums(r)
			if err != nil {
				return math.NaN(), err
			}
			e, err := s.SchumacherEschmeyer(0)
			return pick(r, err, map[string]float64{"n": e.N, "low": e.Low, "high": e.High})
		},
	})
}

func TestGrowthTable(t *testing.T) {
	k := func(r check.Row) units.Rate { return units.TimesPerDay.Of(r.Float("k_per_day")) }
	g := func(r check.Row, c string) units.Mass { return units.Grams.Of(r.Float(c)) }
	check.Run(t, "testdata/growth.csv", map[string]func(check.Row) (float64, error){
		"VonBertalanffyLength": func(r check.Row) (float64, error) {
			l, err := VonBertalanffyLength(units.Millimetres.Of(r.Float("asymptote_mm")), k(r), days(r.Float("time_d")), days(r.Float("t0_d")))
			return l.In(units.Millimetres), err
		},
		"VonBertalanffyWeight": func(r check.Row) (float64, error) {
			w, err := VonBertalanffyWeight(g(r, "asymptote_g"), k(r), days(r.Float("time_d")), days(r.Float("t0_d")), r.Float("exponent"))
			return w.In(units.Grams), err
		},
		"GompertzWeight": func(r check.Row) (float64, error) {
			w, err := GompertzWeight(g(r, "start_g"), g(r, "asymptote_g"), k(r), days(r.Float("time_d")))
			return w.In(units.Grams), err
		},
		"SpecificGrowthRate": func(r check.Row) (float64, error) {
			s, err := SpecificGrowthRate(g(r, "start_g"), g(r, "end_g"), days(r.Float("time_d")))
			return pick(r, err, map[string]float64{"percent_per_day": 100 * s.In(units.TimesPerDay)})
		},
		"WeeklyGain": func(r check.Row) (float64, error) {
			w, err := WeeklyGain(g(r, "start_g"), g(r, "end_g"), days(r.Float("time_d")))
			return w.In(units.Grams), err
		},
		"ThermalGrowthCoefficient": func(r check.Row) (float64, error) {
			return ThermalGrowthCoefficient(g(r, "start_g"), g(r, "end_g"), units.Celsius(r.Float("mean_temperature_c")), days(r.Float("time_d")))
		},
	})
}

func TestLengthWeightTable(t *testing.T) {
	check.Run(t, "testdata/lengthweight.csv", map[string]func(check.Row) (float64, error){
		"ConditionFactor": func(r check.Row) (float64, error) {
			return ConditionFactor(units.Grams.Of(r.Float("weight_g")), units.Millimetres.Of(r.Float("predict_mm")))
		},
		"LengthWeight.RelativeCondition": func(r check.Row) (float64, error) {
			f, err := fitOf(r)
			if err != nil {
				return math.NaN(), err
			}
			return f.RelativeCondition(units.Grams.Of(r.Float("weight_g")), units.Millimetres.Of(r.Float("predict_mm")))
		},
		"FitLengthWeight": func(r check.Row) (float64, error) {
			f, err := fitOf(r)
			if err != nil {
				return math.NaN(), err
			}
			v := map[string]float64{"slope": f.Slope, "ln_a": f.LnA, "a": math.Exp(f.LnA), "s2": f.S2, "sprugel": f.Sprugel, "duan": f.Duan,
				"slope_se": f.SlopeSE, "t_isometry": f.TIsometry, "slope_low": f.SlopeLow, "slope_high": f.SlopeHigh}
			if r.Has("predict_mm") {
				p, err := f.Predict(units.Millimetres.Of(r.Float("predict_mm")))
				if err != nil {
					return math.NaN(), err
				}
				v["predict_g"], v["median_g"], v["low_g"], v["high_g"] = p.Mean.In(units.Grams), p.Median.In(units.Grams), p.Low.In(units.Grams), p.High.In(units.Grams)
			}
			return pick(r, nil, v)
		},
	})
}

func fitOf(r check.Row) (LengthWeight, error) {
	var l []units.Length
	for _, x := range r.Floats("lengths_mm") {
		l = append(l, units.Millimetres.Of(x))
	}
	return FitLengthWeight(l, grams(r.Floats("weights_g")), 0)
}

func TestBayesTable(t *testing.T) {
	out := func(r check.Row) FractionOut {
		return FractionOut{Delivered: units.Kilograms.Of(r.Float("delivered_kg")), A: r.Float("a"), B: r.Float("b")}
	}
	check.Run(t, "testdata/bayes.csv", map[string]func(check.Row) (float64, error){
		"Lognormal.Update": func(r check.Row) (float64, error) {
			l := Lognormal{r.Float("median"), r.Float("log_sd")}.Update(Lognormal{r.Float("other_median"), r.Float("other_log_sd")})
			return pick(r, nil, map[string]float64{"median": l.Median, "log_sd": l.LogSD, "mean": l.Mean()})
		},
		"FractionOut.Mean": func(r check.Row) (float64, error) {
			m, err := out(r).Mean()
			return m.Kilograms(), err
		},
		"FractionOut.SD": func(r check.Row) (float64, error) {
			m, err := out(r).SD()
			return m.Kilograms(), err
		},
		"FractionOut.Quantile": func(r check.Row) (float64, error) {
			m, err := out(r).Quantile(r.Float("p"))
			return m.Kilograms(), err
		},
	})
}

func TestCropTable(t *testing.T) {
	check.Run(t, "testdata/crop.csv", map[string]func(check.Row) (float64, error){
		"ProductOfLognormals": func(r check.Row) (float64, error) {
			l, err := ProductOfLognormals(r.Floats("means"), r.Floats("cvs"))
			v := map[string]float64{"mean": l.Mean(), "cv": l.CV()}
			if r.Has("p") {
				v["quantile"] = l.Quantile(r.Float("p"))
			}
			return pick(r, err, v)
		},
		"InverseVariance": func(r check.Row) (float64, error) {
			m, s, err := InverseVariance(r.Floats("means"), r.Floats("sds"))
			return pick(r, err, map[string]float64{"mean": m, "sd": s})
		},
		"Estimate.Mean": func(r check.Row) (float64, error) { return estimateOf(r).Mean().Kilograms(), nil },
		"Estimate.Quantile": func(r check.Row) (float64, error) {
			m, err := estimateOf(r).Quantile(r.Float("p"))
			return m.Kilograms(), err
		},
		"Estimate.ProbabilityBelow": func(r check.Row) (float64, error) {
			return estimateOf(r).ProbabilityBelow(units.Grams.Of(r.Float("weight_g"))), nil
		},
		"ProductCV": func(r check.Row) (float64, error) { return ProductCV(r.Floats("cvs")...) },
		"CorrelatedCV": func(r check.Row) (float64, error) {
			rho := r.Float("rho")
			return CorrelatedCV(r.Floats("cvs"), [][]float64{{1, rho, 0}, {rho, 1, 0}, {0, 0, 1}})
		},
		"DeltaCV": func(r check.Row) (float64, error) { return DeltaCV(r.Floats("cvs")...) },
		"GainFromFeed": func(r check.Row) (float64, error) {
			m, err := GainFromFeed(units.Kilograms.Of(r.Float("feed_kg")), r.Float("ratio"))
			return m.Kilograms(), err
		},
		"FeedRecord.Estimate": func(r check.Row) (float64, error) {
			e, err := FeedRecord{Start: 100 * units.Kilogram, Feed: 6600 * units.Kilogram, FeedCV: 0.02, Conversion: 1.5, ConversionCV: 0.1, Taken: 500 * units.Kilogram}.Estimate()
			if err != nil {
				return math.NaN(), err
			}
			return pick(r, err, map[string]float64{"p50_kg": e.P50.Kilograms(), "conversion_cv": e.Budget[1].CV})
		},
		"StockFromRation": func(r check.Row) (float64, error) {
			m, err := StockFromRation(units.Kilograms.Of(r.Float("feed_kg")), r.Float("ratio"))
			return m.Kilograms(), err
		},
		"Stocking.Alive": func(r check.Row) (float64, error) {
			return Stocking{Stocked: r.Float("stocked"), Survival: r.Float("survival")}.Alive(), nil
		},
		"Survival": func(r check.Row) (float64, error) {
			return Survival(units.TimesPerDay.Of(r.Float("mortality_per_day")), days(r.Float("time_d")))
		},
		"EstimateCrop": func(r check.Row) (float64, error) {
			c, err := EstimateCrop(CropInput{MeanWeight: units.Grams.Of(r.Float("weight_g")),
				Stocking: &Stocking{Stocked: r.Float("stocked"), Survival: r.Float("survival")}})
			return pick(r, err, map[string]float64{"p50_kg": c.Estimate.P50.Kilograms()})
		},
	})
}

func estimateOf(r check.Row) Estimate {
	return Estimate{P50: units.Kilograms.Of(r.Float("median")), LogSD: r.Float("log_sd")}
}
