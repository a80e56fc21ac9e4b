package icing

import (
	"math"
	"testing"
	"time"

	"pondwright.example/units"
)

// Amounts beyond all measure give an error or a finite answer, never an infinity
// without an error.
func TestNothingOverflows(t *testing.T) {
	const huge = 1e308
	c := units.Celsius
	cold := Batch{Temperature: c(20), Product: huge}
	ok := good()
	with := func(f func(*Load)) float64 {
		l := ok
		f(&l)
		b, err := l.Balance()
		return finiteOr(err, float64(b.Order), b.Ratio, float64(b.Heat))
	}
	for name, v := range map[string]float64{
		"product":     with(func(l *Load) { l.Product = huge }),
		"make-up":     with(func(l *Load) { l.MakeUpWater = huge }),
		"conductance": with(func(l *Load) { l.Conductance = huge }),
		"other heat":  with(func(l *Load) { l.OtherHeat = huge }),
		"no product":  with(func(l *Load) { l.Product = 5e-324 }),
		"inventory": func() float64 {
			s, err := Inventory{OnHand: huge, StoreMelt: huge, Rate: 1e-300, Remaining: ok}.Check()
			return finiteOr(err, float64(s.Need))
		}(),
		"MeltRate": func() float64 { r, err := MeltRate(huge, c(50), 0, 0); return finiteOr(err, float64(r)) }(),
		"MeltOver": func() float64 {
			m, err := MeltOver(huge, []Weather{{0, c(50), 0}, {time.Hour, c(50), 0}}, 0)
			return finiteOr(err, float64(m))
		}(),
		"Equilibrium": func() float64 {
			e, err := Equilibrium(Bath{IceMass: huge, Water: huge, WaterTemperature: c(20)}, cold)
			return finiteOr(err, float64(e.IceLeft))
		}(),
		"Capacity":  func() float64 { m, err := Bath{IceMass: huge}.Capacity(cold, c(2)); return finiteOr(err, float64(m)) }(),
		"Thickness": func() float64 { d, err := ThicknessForMass(huge, 1e-300, huge); return finiteOr(err, float64(d)) }(),
		"Gross":     func() float64 { m, err := Gross(huge, 0.9); return finiteOr(err, float64(m)) }(),
		"Tote": func() float64 {
			f, err := Tote{Volume: huge, Fill: 1, IceBulk: 400}.Fillings()
			return finiteOr(err, float64(f.Product))
		}(),
		"Store": func() float64 {
			r, err := Store{Capacity: huge, Production: huge}.Run([]units.MassFlow{huge, 0})
			return finiteOr(err, float64(r.End), float64(r.Shortfall))
		}(),
		"FitMeltTest": func() float64 {
			f, err := FitMeltTest([]MeltTest{{0, huge}, {1, huge / 2}, {2, 1}}, c(30), 0)
			return finiteOr(err, float64(f.Conductance), f.RSquared)
		}(),
		"MidWallArea": func() float64 { a, err := MidWallArea(huge, huge); return finiteOr(err, float64(a)) }(),
	} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s: %v without an error", name, v)
		}
	}
}

// finiteOr is zero beside an error, else the first of the values that is not
// finite, else zero.
func finiteOr(err error, values ...float64) float64 {
	if err != nil {
		return 0
	}
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return v
		}
	}
	return 0
}
