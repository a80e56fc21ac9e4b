package biomass

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/units"
)

func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

func typed(err error) bool { var in *units.InputError; return errors.As(err, &in) }

// Removal estimators return a finite answer or a typed error, and end.
func FuzzRemoval(f *testing.F) {
	f.Add(38, 26, 12)
	f.Add(5, 7, 8)
	f.Add(0, 0, 1)
	f.Add(1_000_000_000, 999_999_999, 999_999_998)
	f.Fuzz(func(t *testing.T, a, b, c int) {
		catches := []int{a, b, c}
		for name, estimate := range map[string]func([]int) (Removal, error){"Zippin": Zippin, "CarleStrub": CarleStrub, "RemovalML": RemovalML,
			"SeberThreePass": func(c []int) (Removal, error) { return SeberThreePass(c[0], c[1], c[2]) },
			"SeberTwoPass":   func(c []int) (Removal, error) { return SeberTwoPass(c[0], c[1]) }} {
			r, err := estimate(catches)
			if err != nil {
				if !typed(err) {
					t.Errorf("%s(%v): untyped error %v", name, catches, err)
				}
				continue
			}
			if !finite(r.N, r.P, r.SE, r.ChiSquare, r.ScaledSE) {
				t.Errorf("%s(%v) = %+v", name, catches, r)
			}
		}
		if r, err := Schnute(catches); err == nil && !finite(r.N, r.P1, r.P, r.LikelihoodRatio, r.PValue) {
			t.Errorf("Schnute(%v) = %+v", catches, r)
		}
	})
}

// A catch curve is refused or answers with finite numbers.
func FuzzCatchCurve(f *testing.F) {
	f.Add(4600.0, 0.1, 0.1, 900.0, 700.0, 640.0, 20.0)
	f.Add(1e-9, 3.0, 1e-6, 1e9, 1e-9, 1.0, 1e-3)
	f.Add(4600.0, 0.1, 0.1, 900.0, 1900.0, 6400.0, 1e4)
	f.Fuzz(func(t *testing.T, median, logSD, noise, a, b, c, minutes float64) {
		if !(minutes > 1e-3 && minutes < 1e6) {
			t.Skip()
		}
		in := CatchCurveInput{Belief: Lognormal{Median: median, LogSD: logSD}, TicketLogSD: noise}
		for i, kg := range []float64{a, b, c} {
			in.Tickets = append(in.Tickets, CatchTicket{Elapsed: time.Duration(float64(i+1) * minutes * float64(time.Minute)), Net: units.Kilograms.Of(kg)})
		}
		curve, err := FitCatchCurve(in)
		if err != nil {
			if !typed(err) {
				t.Errorf("untyped error %v", err)
			}
			return
		}
		m, err := curve.Remaining(0.5)
		if err == nil && !(finite(m.Kilograms()) && m >= 0) {
			t.Errorf("%+v: remaining %v", in, m)
		}
		d, err := curve.TimeTo(units.Kilogram, 0.5)
		if err == nil && d < 0 {
			t.Errorf("%+v: time %v", in, d)
		}
		if k := curve.Decline().TimesPerSecond(); !finite(k) {
			t.Errorf("%+v: decline %v", in, k)
		}
	})
}
