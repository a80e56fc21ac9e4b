package transport

import (
	"math"
	"testing"

	"pondwright.example/units"
)

// Any water has a pH or an error, and the answer balances its charges.
func FuzzCarbonate(f *testing.F) {
	f.Add(15.0, 2.0, 0.1)
	f.Add(0.0, 0.001, 0.0)
	f.Add(50.0, 50.0, 1e3)
	f.Fuzz(func(t *testing.T, celsius, alkalinity, carbon float64) {
		c, err := FreshCarbonate(units.Celsius(celsius))
		if err != nil {
			return
		}
		w, err := c.FromCarbon(units.Alkalinity(alkalinity), units.Concentration(carbon))
		if err != nil {
			return
		}
		e, h := c.numbers(), math.Pow(10, -w.PH)
		off := e.moles(w.Carbon)*e.charge(h) + e.minor(h) - e.charges(w.Alkalinity)
		scale := e.charges(w.Alkalinity) + e.kw/h + h + 2*e.moles(w.Carbon)
		if !(math.Abs(off) <= 1e-9*scale) || !(w.CO2 >= 0) {
			t.Errorf("%+v: charges are off by %v of %v", w, off, scale)
		}
	})
}

func FuzzTank(f *testing.F) {
	f.Add(9.0, 0.05, 2600.0, 1020.0)
	f.Add(5e-324, 0.5, 1e-320, 1100.0)
	f.Fuzz(func(t *testing.T, volume, freeboard, mass, density float64) {
		l, err := Tank{Volume: units.Volume(volume), Freeboard: freeboard}.Load(units.Mass(mass), units.Density(density))
		if err == nil && !(l.Water > 0 && l.PerTank >= 0 && float64(l.PerWater) >= float64(l.PerTank)) {
			t.Errorf("%+v", l)
		}
	})
}
