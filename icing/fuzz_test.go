package icing

import (
	"math"
	"testing"
	"time"

	"pondwright.example/units"
)

// Any input gives a finite answer or an error, in bounded time.
func FuzzBalance(f *testing.F) {
	f.Add(4614.0, 3600.0, 29.0, 0.0, 0.08, 1500.0, 33.0, 6.0, -3.0, 0.2)
	f.Add(math.NaN(), 0.0, 1e300, -1e300, math.Inf(1), 5e-324, 0.0, 1e9, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, product, heat, start, final, carried, water, ambient, hours, ice, waste float64) {
		l := Load{Product: units.Mass(product), ProductSpecificHeat: units.SpecificHeat(heat), ProductTemperature: units.Celsius(start),
			FinalTemperature: units.Celsius(final), CarriedWater: carried, MakeUpWater: units.Mass(water), Containers: 3, Conductance: 4.5,
			Ambient: units.Celsius(ambient), Hold: time.Duration(hours * float64(time.Hour)), Ice: Ice{Temperature: units.Celsius(ice)}, Waste: waste}
		b, err := l.Balance()
		if err != nil {
			return
		}
		for _, v := range []float64{float64(b.Chill), float64(b.Carried), float64(b.MakeUp), float64(b.Leak), float64(b.Order), b.Ratio} {
			if !(v >= 0) || math.IsInf(v, 0) {
				t.Errorf("%+v gives %+v", l, b)
			}
		}
	})
}

func FuzzCoreTime(f *testing.F) {
	f.Add(uint8(1), 0.0075, 300.0, 0.5, 1.3e-7, 28.0, 0.0, 4.0)
	f.Add(uint8(2), 1e-5, 1e-3, 500.0, 1e-9, 150.0, -60.0, 149.999)
	f.Add(uint8(0), 5.0, 1e6, 0.01, 1e-3, 0.001, 0.0, 1e-9)
	f.Fuzz(func(t *testing.T, shape uint8, half, film, k, a, start, medium, target float64) {
		b := Body{Shape: Shape(shape), HalfDimension: units.Length(half), Film: units.HeatTransferCoefficient(film),
			Conductivity: units.ThermalConductivity(k), Diffusivity: units.Diffusivity(a)}
		for _, x := range []float64{0, -1} {
			d, err := b.timeTo("f", units.Celsius(start), units.Celsius(medium), units.Celsius(target), x)
			if err == nil && d < 0 {
				t.Errorf("%+v: %v", b, d)
			}
		}
	})
}
