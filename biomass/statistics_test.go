package biomass

import (
	"math"
	"strings"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestStatisticsTable(t *testing.T) {
	ln := func(r check.Row) Lognormal { return Lognormal{Median: r.Float("median"), LogSD: r.Float("log_sd")} }
	methods := map[string]BinomialMethod{"clopper-pearson": ClopperPearson1934, "wilson": Wilson1927, "jeffreys": Jeffreys}
	curve := func(r check.Row) (CatchCurve, error) {
		in := CatchCurveInput{Belief: ln(r), TicketLogSD: r.Float("ticket_log_sd")}
		nets := r.Floats("nets_kg")
		for i, m := range r.Floats("minutes") {
			in.Tickets = append(in.Tickets, CatchTicket{Elapsed: time.Duration(m * float64(time.Minute)), Net: units.Kilograms.Of(nets[i])})
		}
		return FitCatchCurve(in)
	}
	check.Run(t, "testdata/statistics.csv", map[string]func(check.Row) (float64, error){
		"Lognormal.Quantile": func(r check.Row) (float64, error) { return ln(r).Quantile(r.Float("p")), nil },
		"Lognormal.CDF":      func(r check.Row) (float64, error) { return ln(r).CDF(r.Float("x")), nil },
		"Lognormal.Mean":     func(r check.Row) (float64, error) { return ln(r).Mean(), nil },
		"Lognormal.SD":       func(r check.Row) (float64, error) { return ln(r).SD(), nil },
		"Lognormal.CV":       func(r check.Row) (float64, error) { return ln(r).CV(), nil },
		"LognormalFromMean": func(r check.Row) (float64, error) {
			l, err := LognormalFromMean(r.Float("mean"), r.Float("cv"))
			return l.Quantile(r.Float("p")), err
		},
		"Lognormal.QuantileAbove": func(r check.Row) (float64, error) { return ln(r).QuantileAbove(r.Float("floor"), r.Float("p")), nil },
		"BinomialInterval": func(r check.Row) (float64, error) {
			lo, hi, err := BinomialInterval(int(r.Float("k")), int(r.Float("n")), 0, methods[r.Text("method")])
			return pick(r, err, map[string]float64{"low": lo, "high": hi})
		},
		"WeightDistribution.Below": func(r check.Row) (float64, error) {
			d := WeightDistribution{Cohorts: []Cohort{{Fraction: 1, MeanWeight: units.Grams.Of(r.Float("mean")), CV: r.Float("cv")}}}
			if r.Text("shape") == "normal" {
				d.Shape = NormalWeights
			}
			n, m := d.Below(units.Grams.Of(r.Float("x")))
			return pick(r, nil, map[string]float64{"number": n, "mass": m})
		},
		"LotInput.Grade": func(r check.Row) (float64, error) {
			g, err := LotInput{MeanWeight: units.Grams.Of(r.Float("mean")), MeanWeightCV: r.Float("cv"), MeanWeightDOF: r.Float("dof"),
				Yield: r.Float("yield"), YieldSD: r.Float("yield_sd"), Table: HeadlessPerPound(EdgeMidway)}.Grade()
			v := map[string]float64{"low": g.Low.In(units.CountsPerPound), "high": g.High.In(units.CountsPerPound)}
			for _, c := range g.Probabilities {
				v[c.Class] = c.Probability
			}
			return pick(r, err, v)
		},
		"Blend": func(r check.Row) (float64, error) {
			medians, own, common := r.Floats("medians"), r.Floats("own"), r.Floats("common")
			var parts []Estimate
			for i := range medians {
				e, err := NewEstimate("part", units.Kilograms.Of(medians[i]), Component{Name: "own", CV: own[i]}, Component{Name: "weight", CV: common[i], Common: true})
				if err != nil {
					return math.NaN(), err
				}
				parts = append(parts, e)
			}
			b, err := Blend("blend", parts...)
			if err != nil {
				return math.NaN(), err
			}
			return pick(r, err, map[string]float64{"p50_kg": b.Estimate.P50.Kilograms(), "log_sd": b.Estimate.LogSD,
				"weight0": b.Weights[0], "weight1": b.Weights[1], "weight2": b.Weights[2], "agreement": b.Agreement})
		},
		"MarkSums.Schnabel": func(r check.Row) (float64, error) {
			e, err := MarkSums{CM: r.Float("cm"), R: r.Float("k")}.Schnabel(false, 0)
			return pick(r, err, map[string]float64{"low": e.Low, "high": e.High})
		},
		"CatchCurve.Remaining": func(r check.Row) (float64, error) {
			c, err := curve(r)
			if err != nil {
				return math.NaN(), err
			}
			m, err := c.Remaining(r.Float("p"))
			return m.Kilograms(), err
		},
		"CatchCurve.Total": func(r check.Row) (float64, error) {
			c, err := curve(r)
			if err != nil {
				return math.NaN(), err
			}
			m, err := c.Total(r.Float("p"))
			return m.Kilograms(), err
		},
		"CatchCurve.ProbabilityRemaining": func(r check.Row) (float64, error) {
			c, err := curve(r)
			return c.ProbabilityRemaining(units.Kilograms.Of(r.Float("x"))), err
		},
		"CatchCurve.TimeTo": func(r check.Row) (float64, error) {
			c, err := curve(r)
			if err != nil {
				return math.NaN(), err
			}
			d, err := c.TimeTo(units.Kilograms.Of(r.Float("x")), r.Float("p"))
			return d.Minutes(), err
		},
		"CatchCurve.Decline": func(r check.Row) (float64, error) {
			c, err := curve(r)
			return c.Decline().In(units.TimesPerMinute), err
		},
	})
}

func TestAccountTable(t *testing.T) {
	ticket := func(r check.Row) Ticket {
		return Ticket{Gross: units.Kilograms.Of(r.Float("gross_kg")), Tare: units.Kilograms.Of(r.Float("tare_kg")),
			Ice: units.Kilograms.Of(optional(r, "ice_kg", 0)), WaterFraction: r.Float("fraction"),
			WaterSD: optional(r, "water_sd", 0), Division: units.Kilograms.Of(optional(r, "division_kg", 0))}
	}
	check.Run(t, "testdata/account.csv", map[string]func(check.Row) (float64, error){
		"Ticket.Net": func(r check.Row) (float64, error) {
			n, err := ticket(r).Net()
			return pick(r, err, map[string]float64{"net_kg": n.Net.Kilograms(), "se_kg": n.SE.Kilograms(), "water_kg": n.Water.Kilograms()})
		},
		"Scale.Total": func(r check.Row) (float64, error) {
			s := Scale{WaterInCommon: strings.Contains(r.Text("quantity"), "common")}
			for range int(r.Float("tickets")) {
				s.Tickets = append(s.Tickets, ticket(r))
			}
			n, err := s.Total()
			return pick(r, err, map[string]float64{"se_common_kg": n.SE.Kilograms(), "se_independent_kg": n.SE.Kilograms()})
		},
		"Reconcile": func(r check.Row) (float64, error) {
			one := func(kg, cv float64) Scale {
				return Scale{Tickets: []Ticket{{Gross: units.Kilograms.Of(kg)}}, CalibrationCV: cv}
			}
			c, err := Reconcile(one(1000, 0.03), one(975, 40.0/975), nil, 0)
			return pick(r, err, map[string]float64{"z": c.Z, "relative": c.Relative, "implied_water": c.ImpliedWater})
		},
		"HarvestInput.Account": func(r check.Row) (float64, error) {
			a, err := HarvestInput{Product: NetWeight{Net: 4320 * units.Kilogram}, Mortality: 90 * units.Kilogram, Rejected: 45 * units.Kilogram,
				Residual: 45 * units.Kilogram, Earlier: 300 * units.Kilogram, MeanWeight: 20 * units.Gram, Stocked: 300_000,
				CastMean: 97, SweptArea: 3.1 * units.SquareMetre, PondArea: 5000 * units.SquareMetre}.Account()
			return pick(r, err, map[string]float64{"recovery": a.Recovery, "mortality": a.MortalityFraction, "animals": a.Animals,
				"survival": a.Survival, "efficiency": a.CatchEfficiency})
		},
		"MassLoss": func(r check.Row) (float64, error) {
			m, err := MassLoss(units.Kilograms.Of(r.Float("mass_kg")), r.Float("fraction"))
			return m.Kilograms(), err
		},
		"GradeValue": func(r check.Row) (float64, error) {
			e, err := NewEstimate("crop", units.Kilograms.Of(r.Float("mass_kg")))
			if err != nil {
				return math.NaN(), err
			}
			classes, n := []GradePrice{{Share: 1}}, 1
			if r.Has("price_per_kg") {
				classes[0].PricePerKilogram = r.Float("price_per_kg")
			} else {
				classes = nil
				shares := r.Floats("shares")
				for i, p := range r.Floats("prices") {
					classes = append(classes, GradePrice{Share: shares[i], PricePerKilogram: p})
				}
				n = int(r.Float("n"))
			}
			v, err := GradeValue(e, classes, n)
			return pick(r, err, map[string]float64{"value": v.Value, "grade_sd": v.GradeSD})
		},
		"Stock.Mass": func(r check.Row) (float64, error) {
			return Stock{Animals: 200_000, MeanWeight: 18 * units.Gram}.Mass().Kilograms(), nil
		},
		"Stock.After": func(r check.Row) (float64, error) {
			s, err := Stock{Animals: 200_000, MeanWeight: 18 * units.Gram}.After(Stock{Animals: 60_000, MeanWeight: 22 * units.Gram})
			return pick(r, err, map[string]float64{"animals": s.Animals, "mean_weight_g": s.MeanWeight.In(units.Grams)})
		},
		"WeightDistribution.MeanWeight": func(r check.Row) (float64, error) {
			var d WeightDistribution
			m := r.Floats("means_g")
			for i, f := range r.Floats("fractions") {
				d.Cohorts = append(d.Cohorts, Cohort{Fraction: f, MeanWeight: units.Grams.Of(m[i])})
			}
			return d.MeanWeight().In(units.Grams), nil
		},
		"UpdateCrop": func(r check.Row) (float64, error) {
			common := 0.0
			if r.Text("quantity") == "log_sd" {
				common = 0.05
			}
			p, err := UpdateCrop(Lognormal{Median: 4800, LogSD: 0.1}, []TicketShare{
				{Net: 1200 * units.Kilogram, Share: 0.25, LogSD: 0.1 * math.Sqrt2},
				{Net: 600 * units.Kilogram, Share: 0.125, LogSD: 0.1 * math.Sqrt2}}, common)
			return pick(r, err, map[string]float64{"total_p50_kg": p.TotalP50.Kilograms(), "log_sd": p.Belief.LogSD})
		},
	})
}
