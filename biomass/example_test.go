package biomass_test

import (
	"fmt"
	"time"

	"pondwright.example/biomass"
	"pondwright.example/units"
)

// A week before harvest: what stands in the pond, and how well it is known.
func ExampleEstimateCrop() {
	crop, err := biomass.EstimateCrop(biomass.CropInput{
		Casts: &biomass.CastNet{
			Casts:      biomass.Casts{N: 24, Mean: 97, SD: 41},
			SweptArea:  3.1 * units.SquareMetre,
			Efficiency: 0.68, EfficiencySD: 0.10,
		},
		PondArea:   5000 * units.SquareMetre,
		Stocking:   &biomass.Stocking{Stocked: 300_000, Survival: 0.80, SurvivalCV: 0.12},
		MeanWeight: 19.5 * units.Gram, MeanWeightCV: 0.03,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range append(crop.Parts, crop.Estimate) {
		fmt.Printf("%-22s %.0f, P10 %.0f to P90 %.0f, CV %.1f %%; mostly %s\n", e.Name, e.P50, e.P10, e.P90, 100*e.CV, e.Dominant)
	}
	// Output:
	// cast net               4486 kg, P10 3597 kg to P90 5596 kg, CV 17.4 %; mostly catch efficiency
	// stocking and survival  4680 kg, P10 3996 kg to P90 5481 kg, CV 12.4 %; mostly survival
	// standing crop          4615 kg, P10 4048 kg to P90 5261 kg, CV 10.3 %; mostly survival
}

// The buyer asks for a count; it lies at an edge.
func ExampleLotInput_Grade() {
	grade, err := biomass.LotInput{
		MeanWeight: 19.5 * units.Gram, MeanWeightCV: 0.03,
		Yield: 0.65, YieldSD: 0.012,
		Table: biomass.HeadlessPerPound(biomass.EdgeMidway),
	}.Grade()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("head-on %.1f /lb, %.1f /kg\n", grade.HeadOn.In(units.CountsPerPound), grade.HeadOn.CountsPerKilogram())
	fmt.Printf("headless %.1f /lb, %.0f %% of the time %.1f to %.1f\n",
		grade.Count.In(units.CountsPerPound), 100*grade.Band, grade.Low.In(units.CountsPerPound), grade.High.In(units.CountsPerPound))
	for _, p := range grade.Probabilities {
		if p.Probability > 0.01 {
			fmt.Printf("  %s with %.0f %%\n", p.Class, 100*p.Probability)
		}
	}
	fmt.Println(grade.Notices[0].Code)
	// Output:
	// head-on 23.3 /lb, 51.3 /kg
	// headless 35.8 /lb, 80 % of the time 34.2 to 37.4
	//   31/35 with 41 %
	//   36/40 with 59 %
	// BIO_COUNT_STRADDLES_EDGE
}

// A sample of weighed animals, by class.
func ExampleGradeSample() {
	var weights []units.Mass
	for i := range 120 {
		weights = append(weights, units.Grams.Of(15+0.08*float64(i)))
	}
	g, err := biomass.GradeSample(weights, biomass.HeadOnPerKilogram(biomass.EdgeMidway), 0, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range g.Classes {
		if c.Count > 0 {
			fmt.Printf("%s: %d animals, %.0f %% (%.0f to %.0f %%) by number, %.0f ± %.0f %% by mass\n",
				c.Class, c.Count, 100*c.Number, 100*c.NumberLow, 100*c.NumberHigh, 100*c.Mass, 100*c.MassSE)
		}
	}
	fmt.Printf("heaviest tenth over lightest tenth: %.2f\n", g.Uniformity)
	// Output:
	// 40/50: 57 animals, 48 % (39 to 56 %) by number, 54 ± 5 % by mass
	// 50/60: 42 animals, 35 % (27 to 44 %) by number, 32 ± 4 % by mass
	// 60/70: 21 animals, 18 % (12 to 25 %) by number, 14 ± 3 % by mass
	// heaviest tenth over lightest tenth: 1.56
}

// Is the shell hard enough for a limit of 5 %?
func ExampleSoftShellInput_Judge() {
	s, err := biomass.SoftShellInput{Soft: 5, Sample: 120, Limit: 0.05}.Judge()
	fmt.Println(s.Text, s.Verdict, err)
	// Output:
	// 5 of 120 = 4.2 % (1.4 to 9.5 %) unknown <nil>
}

// In the middle of the harvest: what is left, and how long will it take?
func ExampleFitCatchCurve() {
	crop := biomass.Lognormal{Median: 4615, LogSD: 0.102} // kg, from before the harvest
	var tickets []biomass.CatchTicket
	for i, kg := range []float64{900, 700, 640, 430, 380} {
		tickets = append(tickets, biomass.CatchTicket{
			Elapsed: []time.Duration{20, 40, 65, 90, 120}[i] * time.Minute,
			Net:     units.Kilograms.Of(kg),
		})
	}
	curve, err := biomass.FitCatchCurve(biomass.CatchCurveInput{Belief: crop, Tickets: tickets, TicketLogSD: 0.10})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("delivered %.0f, falling %.2f %% a minute\n", curve.Delivered(), 100*curve.Decline().In(units.TimesPerMinute))
	total, _ := curve.Total(0.5)
	fmt.Printf("crop now %.0f; ", total)
	fmt.Printf("tickets stray %.0f %%; less than a tonne left with %.0f %%\n", 100*curve.TicketLogSD(), 100*curve.ProbabilityRemaining(1*units.Tonne))
	for _, p := range []float64{0.1, 0.5, 0.9} {
		left, _ := curve.Remaining(p)
		until, _ := curve.TimeTo(100*units.Kilogram, p)
		fmt.Printf("P%.0f: %.0f left, 100 kg left in %v\n", 100*p, left, until.Round(time.Minute))
	}
	// Output:
	// delivered 3050 kg, falling 1.30 % a minute
	// crop now 3964 kg; tickets stray 10 %; less than a tonne left with 67 %
	// P10: 679 kg left, 100 kg left in 2h14m0s
	// P50: 914 kg left, 100 kg left in 2h49m0s
	// P90: 1181 kg left, 100 kg left in 3h34m0s
}

// Flushes of the catch basin: how many animals are still in it?
func ExampleCarleStrub() {
	r, err := biomass.CarleStrub([]int{1200, 700, 400})
	fmt.Printf("%.0f ± %.0f at the start, %.0f left, a flush takes %.0f %%; %v\n", r.N, r.ScaledSE, r.Left(), 100*r.P, err)
	n, err := r.PassesToRecover(0.95)
	fmt.Printf("the next flush brings %.0f of the %.0f left; %d more recover 95 %%; %v\n", r.NextPass(), r.Left(), n, err)
	_, err = biomass.Zippin([]int{5, 7, 8})
	fmt.Println(err)
	// Output:
	// 2848 ± 62 at the start, 548 left, a flush takes 42 %; <nil>
	// the next flush brings 232 of the 548 left; 3 more recover 95 %; <nil>
	// biomass.Zippin: catches = 20 animals in all: no solution: they do not fall from pass to pass, so no finite population is the most likely; CarleStrub or RemovalPosterior still answer
}

// The plant weighs less than the bank.
func ExampleReconcile() {
	bank := biomass.Scale{Name: "bank", WaterInCommon: true, Tickets: []biomass.Ticket{
		{Gross: 2600 * units.Kilogram, Tare: 105 * units.Kilogram, WaterFraction: 0.08, WaterSD: 0.016, Division: units.Kilogram},
		{Gross: 2600 * units.Kilogram, Tare: 104 * units.Kilogram, WaterFraction: 0.08, WaterSD: 0.016, Division: units.Kilogram},
	}}
	plant := biomass.Scale{Name: "plant", CalibrationCV: 0.002, Tickets: []biomass.Ticket{{Gross: 4450 * units.Kilogram, Division: 5 * units.Kilogram}}}
	r, err := biomass.Reconcile(bank, plant, nil, 0)
	fmt.Printf("%s (z = %.1f), %v\n", r.Text, r.Z, err)
	fmt.Printf("water on the bank scale that would close it: %.1f %%\n", 100*r.ImpliedWater)
	// Output:
	// -3.1 % ± 3.5 %: explained by water (z = -1.8), <nil>
	// water on the bank scale that would close it: 10.8 %
}

// After the harvest: what the next plan should know.
func ExampleHarvestInput_Account() {
	a, err := biomass.HarvestInput{
		Product:   biomass.NetWeight{Net: 4320 * units.Kilogram},
		Mortality: 90 * units.Kilogram, Rejected: 45 * units.Kilogram, Residual: 45 * units.Kilogram,
		MeanWeight: 20 * units.Gram, Stocked: 300_000,
		CastMean: 97, SweptArea: 3.1 * units.SquareMetre, PondArea: 5000 * units.SquareMetre,
	}.Account()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("found %.0f, recovered %.1f %%, died %.1f %%, survival %.2f, the casts caught %.2f of what was there\n",
		a.Found, 100*a.Recovery, 100*a.MortalityFraction, a.Survival, a.CatchEfficiency)
	// Output:
	// found 4500 kg, recovered 96.0 %, died 2.0 %, survival 0.75, the casts caught 0.70 of what was there
}
