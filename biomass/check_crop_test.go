package biomass

import (
	"math"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

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
