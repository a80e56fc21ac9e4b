package biomass

import (
	"math"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

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
