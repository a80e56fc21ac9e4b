package biomass

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pondwright.example/units"
)

// sink keeps results alive.
var sink float64

func hotCurve(t testing.TB) CatchCurve {
	in := CatchCurveInput{Belief: Lognormal{Median: 4600, LogSD: 0.1}, TicketLogSD: 0.1}
	for i, kg := range []float64{900, 700, 640, 430, 380} {
		in.Tickets = append(in.Tickets, CatchTicket{Elapsed: time.Duration(i+1) * 25 * time.Minute, Net: units.Kilograms.Of(kg)})
	}
	c, err := FitCatchCurve(in)
	require.NoError(t, err)
	return c
}

// hot are the calls that a sampled plan or a replan makes many times.
func hot(t testing.TB) map[string]func() {
	l := Lognormal{Median: 4600, LogSD: 0.17}
	table := HeadlessPerPound(EdgeMidway)
	d := WeightDistribution{Cohorts: []Cohort{{0.4, 16 * units.Gram, 0.2}, {0.6, 21 * units.Gram, 0.18}}}
	curve := hotCurve(t)
	catches := []int{1200, 700, 400}
	e, err := NewEstimate("crop", 4600*units.Kilogram, Component{Name: "all", CV: 0.1})
	require.NoError(t, err)
	return map[string]func(){
		"Lognormal.Quantile":      func() { sink += l.Quantile(0.9) },
		"Lognormal.CDF":           func() { sink += l.CDF(5000) },
		"Lognormal.QuantileAbove": func() { sink += l.QuantileAbove(3000, 0.9) },
		"Lognormal.Update":        func() { sink += l.Update(Lognormal{4200, 0.1}).Median },
		"Estimate.Quantile":       func() { q, _ := e.Quantile(0.9); sink += float64(q) },
		"HeadlessCount":           func() { c, _ := HeadlessCount(51, 0.65); sink += float64(c) },
		"CountTable.ClassOf":      func() { sink += float64(table.ClassOf(36 * units.PerPound)) },
		"WeightDistribution.Below": func() {
			n, m := d.Below(18 * units.Gram)
			sink += n + m
		},
		"BinomialInterval": func() {
			lo, hi, _ := BinomialInterval(5, 120, 0, ClopperPearson1934)
			sink += lo + hi
		},
		"CarleStrub":                      func() { r, _ := CarleStrub(catches); sink += r.N },
		"Zippin":                          func() { r, _ := Zippin(catches); sink += r.N },
		"RemovalML":                       func() { r, _ := RemovalML(catches); sink += r.N },
		"CatchCurve.ProbabilityRemaining": func() { sink += curve.ProbabilityRemaining(800 * units.Kilogram) },
		"CatchCurve.Remaining":            func() { m, _ := curve.Remaining(0.9); sink += float64(m) },
		"CatchCurve.TimeTo":               func() { d, _ := curve.TimeTo(100*units.Kilogram, 0.5); sink += d.Seconds() },
		"Ticket.Net": func() {
			n, _ := Ticket{Gross: 500, Tare: 38, WaterFraction: 0.08, WaterSD: 0.01, Division: 0.5}.Net()
			sink += float64(n.Net)
		},
	}
}

func TestHotCallsAllocateNothing(t *testing.T) {
	if raceEnabled {
		t.Skip("allocation counts say nothing under the race detector")
	}
	for name, f := range hot(t) {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s allocates %v times a call", name, n)
		}
	}
}

func BenchmarkHot(b *testing.B) {
	for name, f := range hot(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				f()
			}
		})
	}
}

func BenchmarkEstimateCrop(b *testing.B) {
	in := shrimpPond()
	b.ReportAllocs()
	for b.Loop() {
		c, _ := EstimateCrop(in)
		sink += float64(c.Estimate.P50)
	}
}

func BenchmarkLotGrade(b *testing.B) {
	in := LotInput{MeanWeight: 19.5 * units.Gram, MeanWeightCV: 0.03, Yield: 0.65, YieldSD: 0.012, Table: HeadlessPerPound(EdgeMidway)}
	b.ReportAllocs()
	for b.Loop() {
		g, _ := in.Grade()
		sink += g.CV
	}
}

func BenchmarkFitCatchCurve(b *testing.B) {
	in := CatchCurveInput{Belief: Lognormal{Median: 4600, LogSD: 0.1}, TicketLogSD: 0.1}
	for i := range 30 {
		in.Tickets = append(in.Tickets, CatchTicket{Elapsed: time.Duration(i+1) * 5 * time.Minute, Net: units.Kilograms.Of(250 - 6*float64(i))})
	}
	b.ReportAllocs()
	for b.Loop() {
		c, _ := FitCatchCurve(in)
		sink += c.delivered
	}
}
