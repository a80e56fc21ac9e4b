package biomass_test

import (
	"fmt"
	"time"

	"pondwright.example/biomass"
	"pondwright.example/units"
)

const day = 24 * time.Hour

func ExampleNetArea() {
	a, err := biomass.NetArea(6*units.Foot, 0.9)
	fmt.Printf("%.3f %v\n", a, err)
	// Output:
	// 9.456 m2 <nil>
}

func ExampleCasts() {
	k, _ := biomass.SummariseCasts([]int{14, 22, 9, 31, 18, 12, 25, 16, 20, 11})
	patchiness, _ := biomass.NegativeBinomialK(k.Mean, k.SD)
	fmt.Printf("%d casts, mean %.1f, standard error %.1f %%, k = %.1f\n", k.N, k.Mean, 100*k.CV(), patchiness)
	fmt.Printf("ten empty casts: fewer than %.2f animals per cast\n", biomass.ZeroCountBound(10))
	// Output:
	// 10 casts, mean 17.8, standard error 12.2 %, k = 10.8
	// ten empty casts: fewer than 0.30 animals per cast
}

func ExampleCalibrateEfficiency() {
	e, sd, err := biomass.CalibrateEfficiency([]float64{0.62, 0.74, 0.58, 0.70})
	fmt.Printf("%.2f ± %.2f %v\n", e, sd, err)
	// Output:
	// 0.66 ± 0.08 <nil>
}

func ExampleFeedRecord() {
	e, err := biomass.FeedRecord{Feed: 6900 * units.Kilogram, FeedCV: 0.02, Conversion: 1.5, ConversionCV: 0.12}.Estimate()
	fmt.Printf("%s %.0f, P10 %.0f to P90 %.0f, mostly %s %v\n", e.Name, e.P50, e.P10, e.P90, e.Dominant, err)
	// Output:
	// feed record 4600 kg, P10 3938 kg to P90 5373 kg, mostly feed conversion <nil>
}

func ExampleWeightProjection() {
	w, cv, err := biomass.WeightProjection{Sampled: 18 * units.Gram, SampledCV: 0.03, Gain: 1.4 * units.Gram, GainCV: 0.25, Elapsed: 10 * day}.Project()
	fmt.Printf("%.1f g, CV %.1f %% %v\n", w.In(units.Grams), 100*cv, err)
	// Output:
	// 20.0 g, CV 3.7 % <nil>
}

func ExampleStratify() {
	k, err := biomass.Stratify([]biomass.Stratum{
		{Area: 1000 * units.SquareMetre, Casts: biomass.Casts{N: 9, Mean: 90, SD: 30}}, // feeding band
		{Area: 4000 * units.SquareMetre, Casts: biomass.Casts{N: 9, Mean: 25, SD: 12}}, // open middle
	})
	fmt.Printf("%.1f per cast, standard error %.1f %% %v\n", k.Mean, 100*k.CV(), err)
	// Output:
	// 38.0 per cast, standard error 9.9 % <nil>
}

func ExampleCountOf() {
	c, _ := biomass.CountOf(19.5 * units.Gram)
	tails, _ := biomass.HeadlessCount(c, 0.65)
	back, _ := biomass.HeadOnCount(tails, 0.65)
	w, _ := biomass.WeightAtCount(back)
	fmt.Printf("%.2f /lb head-on, %.2f /lb headless, back to %.1f g\n", c.In(units.CountsPerPound), tails.In(units.CountsPerPound), w.In(units.Grams))
	// Output:
	// 23.26 /lb head-on, 35.79 /lb headless, back to 19.5 g
}

func ExampleCountTable() {
	count := 20.4 * units.PerPound
	for _, edge := range []biomass.EdgeRule{biomass.EdgeMidway, biomass.EdgeUpperLabel, biomass.EdgeLowerLabel} {
		t := biomass.HeadlessPerPound(edge)
		i := t.ClassOf(count)
		fmt.Printf("%s: %s, which ends at %.4g /lb\n", edge, t.Classes[i].Name, t.EdgeOf(i).In(units.CountsPerPound))
	}
	// Output:
	// midway between labels: 16/20, which ends at 20.5 /lb
	// upper label inclusive: 21/25, which ends at 25 /lb
	// lower label inclusive: 16/20, which ends at 21 /lb
}

func ExampleEstimate() {
	e, _ := biomass.NewEstimate("crop", 4600*units.Kilogram, biomass.Component{Name: "catch efficiency", CV: 0.15}, biomass.Component{Name: "mean weight", CV: 0.03})
	promise, _ := e.Quantile(0.25)
	fmt.Printf("mean %.0f, promise %.0f, below 4 t with %.0f %%\n", e.Mean(), promise, 100*e.ProbabilityBelow(4*units.Tonne))
	// Output:
	// mean 4654 kg, promise 4151 kg, below 4 t with 18 %
}

func ExampleLognormal() {
	l, _ := biomass.LognormalFromMean(4600, 0.15)
	fmt.Printf("median %.0f, mean %.0f, SD %.0f, CV %.2f\n", l.Median, l.Mean(), l.SD(), l.CV())
	fmt.Printf("P90 %.0f, below 4000 with %.2f\n", l.Quantile(0.9), l.CDF(4000))
	fmt.Printf("P50 when 5000 have been delivered already: %.0f\n", l.QuantileAbove(5000, 0.5))
	after := l.Update(biomass.Lognormal{Median: 4200, LogSD: 0.1})
	fmt.Printf("after a second estimate: median %.0f, CV %.3f\n", after.Median, after.CV())
	// Output:
	// median 4549, mean 4600, SD 690, CV 0.15
	// P90 5507, below 4000 with 0.19
	// P50 when 5000 have been delivered already: 5375
	// after a second estimate: median 4305, CV 0.083
}

func ExampleProductCV() {
	exact, _ := biomass.ProductCV(0.10, 0.05, 0.15)
	first, _ := biomass.DeltaCV(0.10, 0.05, 0.15)
	fmt.Printf("exact %.6f, first order %.6f\n", exact, first)
	tied, _ := biomass.CorrelatedCV([]float64{0.10, 0.05, 0.15}, [][]float64{{1, 0.5, 0}, {0.5, 1, 0}, {0, 0, 1}})
	fmt.Printf("the first two correlated by one half: %.6f\n", tied)
	// Output:
	// exact 0.187901, first order 0.187083
	// the first two correlated by one half: 0.200000
}

func ExampleStocking() {
	s, _ := biomass.Survival(0.002*units.PerDay, 110*day)
	fmt.Printf("survival %.3f, alive %.0f\n", s, biomass.Stocking{Stocked: 300_000, Survival: s}.Alive())
	// Output:
	// survival 0.803, alive 240756
}

func ExampleGainFromFeed() {
	gain, _ := biomass.GainFromFeed(3000*units.Kilogram, 1.5)
	stock, _ := biomass.StockFromRation(120*units.Kilogram, 0.025)
	fmt.Printf("%.0f gained, %.0f stand\n", gain, stock)
	// Output:
	// 2000 kg gained, 4800 kg stand
}

func ExampleSampleSize() {
	in := biomass.SampleSizeInput{CV: 0.22, HalfWidth: 0.03}
	z, _ := biomass.SampleSize(in)
	t, _ := biomass.SampleSizeT(in)
	fmt.Println(z, "by the normal formula,", t, "by Student's t")
	none, _ := biomass.ZeroAcceptanceSample(0.05, 0)
	fmt.Println("none soft of", none, "shows less than 5 %")
	// Output:
	// 207 by the normal formula, 210 by Student's t
	// none soft of 59 shows less than 5 %
}

func ExampleWeightDistribution() {
	d := biomass.WeightDistribution{Cohorts: []biomass.Cohort{
		{Fraction: 0.6, MeanWeight: 21 * units.Gram, CV: 0.15},
		{Fraction: 0.4, MeanWeight: 16 * units.Gram, CV: 0.18},
	}}
	s, err := d.Shares(biomass.HeadlessPerPound(biomass.EdgeMidway), 0.65)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mean %.1f g\n", d.MeanWeight().In(units.Grams))
	for _, c := range s.Classes {
		if c.Mass > 0.05 {
			fmt.Printf("%s: %.1f %% of the animals, %.1f %% of the mass\n", c.Class, 100*c.Number, 100*c.Mass)
		}
	}
	// Output:
	// mean 19.0 g
	// 26/30: 14.2 % of the animals, 18.4 % of the mass
	// 31/35: 26.7 % of the animals, 29.7 % of the mass
	// 36/40: 23.1 % of the animals, 22.4 % of the mass
	// 41/50: 24.6 % of the animals, 20.2 % of the mass
	// 51/60: 7.8 % of the animals, 5.3 % of the mass
}

func ExampleFractionOut() {
	f, _ := biomass.FractionFromMean(3200*units.Kilogram, 0.70, 0.05)
	mean, _ := f.Mean()
	sd, _ := f.SD()
	p10, _ := f.Quantile(0.1)
	p90, _ := f.Quantile(0.9)
	fmt.Printf("crop %.0f ± %.0f, P10 %.0f to P90 %.0f\n", mean, sd, p10, p90)
	// Output:
	// crop 4595 kg ± 338 kg, P10 4193 kg to P90 5042 kg
}

func ExampleVonBertalanffyLength() {
	l, _ := biomass.VonBertalanffyLength(200*units.Millimetre, 0.012*units.PerDay, 90*day, 0)
	w, _ := biomass.VonBertalanffyWeight(35*units.Gram, 0.012*units.PerDay, 90*day, 0, 3)
	g, _ := biomass.GompertzWeight(0.02*units.Gram, 40*units.Gram, 0.035*units.PerDay, 100*day)
	fmt.Printf("%.1f mm, %.2f g, %.2f g\n", l.In(units.Millimetres), w.In(units.Grams), g.In(units.Grams))
	// Output:
	// 132.1 mm, 10.08 g, 31.80 g
}

func ExampleSpecificGrowthRate() {
	r, _ := biomass.SpecificGrowthRate(1*units.Gram, 20*units.Gram, 90*day)
	g, _ := biomass.WeeklyGain(8*units.Gram, 20*units.Gram, 70*day)
	c, _ := biomass.ThermalGrowthCoefficient(8*units.Gram, 20*units.Gram, units.Celsius(28), 70*day)
	fmt.Printf("%.3f %% a day, %.2f g a week, TGC %.4f\n", 100*r.In(units.TimesPerDay), g.In(units.Grams), c)
	// Output:
	// 3.329 % a day, 1.20 g a week, TGC 0.3645
}

func ExampleFitLengthWeight() {
	var l []units.Length
	var w []units.Mass
	for i, g := range []float64{3.9, 6.6, 9.5, 12.9, 17.8, 25.2} {
		l = append(l, []units.Length{80, 95, 107, 118, 131, 146}[i]*units.Millimetre)
		w = append(w, units.Grams.Of(g))
	}
	f, err := biomass.FitLengthWeight(l, w, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	p, _ := f.Predict(120 * units.Millimetre)
	k, _ := biomass.ConditionFactor(14*units.Gram, 120*units.Millimetre)
	rel, _ := f.RelativeCondition(14*units.Gram, 120*units.Millimetre)
	fmt.Printf("exponent %.3f ± %.3f; 120 mm weighs %.2f g (%.2f to %.2f g)\n", f.Slope, f.SlopeSE, p.Mean.In(units.Grams), p.Low.In(units.Grams), p.High.In(units.Grams))
	fmt.Printf("14 g at 120 mm: K %.3f, relative condition %.3f\n", k, rel)
	// Output:
	// exponent 3.097 ± 0.012; 120 mm weighs 13.62 g (13.38 to 13.87 g)
	// 14 g at 120 mm: K 0.810, relative condition 1.028
}

func ExampleMassLoss() {
	lost, _ := biomass.MassLoss(462*units.Kilogram, 0.035)
	net, _ := biomass.Ticket{Gross: 500 * units.Kilogram, Tare: 38 * units.Kilogram, WaterFraction: 0.06, WaterSD: 0.01, Division: 0.5 * units.Kilogram}.Net()
	fmt.Printf("%.2f purged; net %.2f ± %.2f\n", lost, net.Net, net.SE)
	// Output:
	// 16.17 kg purged; net 434.28 kg ± 4.62 kg
}

func ExampleStock() {
	left, err := biomass.Stock{Animals: 200_000, MeanWeight: 18 * units.Gram}.After(biomass.Stock{Animals: 60_000, MeanWeight: 22 * units.Gram})
	fmt.Printf("%.0f animals of %.2f g, %.0f %v\n", left.Animals, left.MeanWeight.In(units.Grams), left.Mass(), err)
	// Output:
	// 140000 animals of 16.29 g, 2280 kg <nil>
}

func ExampleLeslie() {
	var days []biomass.Effort
	for _, c := range []float64{131, 69, 99, 78, 56, 76, 49, 42, 63, 47} {
		days = append(days, biomass.Effort{Catch: c, Effort: 7})
	}
	leslie, _ := biomass.Leslie(days, biomass.MidInterval)
	delury, _ := biomass.DeLury(days, biomass.MidInterval)
	fmt.Printf("Leslie %.0f ± %.0f, DeLury %.0f\n", leslie.N0, leslie.SEN, delury.N0)
	// Output:
	// Leslie 1078 ± 178, DeLury 1150
}

func ExampleMarks() {
	r, err := biomass.Marks{Marked: 421, Caught: 332, Recaptured: 88}.Chapman(0)
	fmt.Printf("%.0f (%.0f to %.0f) %v\n", r.N, r.Low, r.High, err)
	// Output:
	// 1578 (1330 to 1826) <nil>
}

func ExampleRemovalPosterior() {
	r, err := biomass.RemovalPosterior([]int{38, 26, 12}, biomass.RemovalPriors{Max: 500})
	fmt.Printf("median %d, 95 %% %d to %d, mode %d %v\n", r.Median, r.Q025, r.Q975, r.Mode, err)
	// Output:
	// median 98, 95 % 82 to 181, mode 91 <nil>
}

func ExampleUpdateCrop() {
	p, err := biomass.UpdateCrop(biomass.Lognormal{Median: 4615, LogSD: 0.10}, []biomass.TicketShare{
		{Net: 1150 * units.Kilogram, Share: 0.25, LogSD: 0.10},
		{Net: 1210 * units.Kilogram, Share: 0.25, LogSD: 0.10},
	}, 0.05)
	fmt.Printf("crop %.0f (%.0f to %.0f), left %.0f (%.0f to %.0f) %v\n", p.TotalP50, p.TotalP10, p.TotalP90, p.RemainingP50, p.RemainingP10, p.RemainingP90, err)
	// Output:
	// crop 4674 kg (4298 kg to 5083 kg), left 2314 kg (1938 kg to 2723 kg) <nil>
}
