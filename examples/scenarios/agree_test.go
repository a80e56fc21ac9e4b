package scenarios_test

import (
	"testing"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/icing"
	"pondwright.example/pumpsizing"
	"pondwright.example/transport"
	"pondwright.example/units"
)

// Where two packages answer one question, a program that uses both must not
// hear two answers.

// Air pressure at a height: three packages, one standard atmosphere. The form of
// FAO Irrigation and Drainage Paper 56, from 293 K, which drawdown's evaporation
// is built on, departs by 0.36 % at 1950 m, less than a day's weather.
func TestAirPressureAgrees(t *testing.T) {
	for _, height := range []units.Length{0, 610 * units.Metre, mesaHeight} {
		h := must(hydraulics.AirPressure(height)).PascalsAbsolute()
		near(t, "pumpsizing at "+height.String(), must(pumpsizing.AtmosphericPressure(height, pumpsizing.StandardAtmosphere1976)).PascalsAbsolute(), h, 1e-12)
		near(t, "drawdown at "+height.String(), must(drawdown.AirPressure(height)).PascalsAbsolute(), h, 1e-12)
		near(t, "evaporation at "+height.String(), must(drawdown.AirPressureFAO56(height)).PascalsAbsolute(), h, 0.004)
	}
}

// Oxygen saturation: a pond's and a tank's, fresh and salt, at sea and at height,
// to the last digit a meter shows.
func TestOxygenSaturationAgrees(t *testing.T) {
	for _, c := range []float64{0.5, 10, 22, 29, 35} {
		for _, s := range []units.PracticalSalinity{0, 15, 30} {
			for _, p := range []units.AbsolutePressure{101325, mesaAir} {
				pond := must(drawdown.OxygenSaturation(units.Celsius(c), s, p)).In(units.MilligramsPerLitre)
				tank := must(transport.OxygenSaturation(units.Celsius(c), s, p)).In(units.MilligramsPerLitre)
				within(t, "pond less tank, mg/L", pond-tank, -0.05, 0.05)
			}
		}
	}
}

// Un-ionised ammonia beside a pond and in a tank.
func TestAmmoniaAgrees(t *testing.T) {
	for _, c := range []float64{5, 12, 23.5, 30} {
		tank := must(transport.Emerson1975.Fraction(units.Celsius(c), 7.6, 0))
		near(t, "un-ionised share", must(drawdown.UnionizedAmmonia(units.Celsius(c), 7.6)), tank, 1e-6)
	}
}

// Oxygen left in crowded water without supply: a catch basin's and a tank's.
func TestOxygenTimeAgrees(t *testing.T) {
	b := drawdown.OxygenBudget{Volume: 150 * units.CubicMetre, Stock: 5 * units.Tonne, Respiration: 250 * units.MilligramPerKilogramHour,
		Start: 5 * units.MilligramPerLitre, Limit: 2 * units.MilligramPerLitre, Temperature: units.Celsius(22)}
	tank := must(transport.AlarmTime(b.Volume, b.Stock, b.Respiration, b.Start, b.Limit))
	near(t, "min", must(b.Outlook()).Unsupplied.Minutes(), tank.Minutes(), 1e-9)
}

// Loss of a run of hydraulic hose, 32 mm2/s: laminar, where both packages have
// Hagen and Poiseuille, to rounding.
func TestOilLineAgrees(t *testing.T) {
	q := units.LitresPerMinute.Of(45)
	oil := hydraulics.Fluid{Density: oil32.Density, Viscosity: oil32.Viscosity.Dynamic(oil32.Density)}
	line := must(hydraulics.NewPipeline(hydraulics.PipelineSpec{Fluid: oil, Runs: []hydraulics.PipeRun{{Bore: 19 * units.Millimetre, Length: 30 * units.Metre}}}))
	loss := must(pumpsizing.OilLine{Bore: 19 * units.Millimetre, Length: 30 * units.Metre}.Loss(q, oil32))
	near(t, "loss, bar", loss.Loss.In(units.Bars), must(line.At(q)).PressureDrop.In(units.Bars), 1e-9)
}

// Ice melted through the walls of a bin in the order and on the road.
func TestWallMeltAgrees(t *testing.T) {
	b := must(icing.Load{Product: 1 * units.Kilogram, ProductTemperature: units.Celsius(0), FinalTemperature: units.Celsius(0),
		Containers: 13, Conductance: 4.5 * units.WattPerKelvin, Ambient: units.Celsius(33), Hold: 6 * time.Hour,
		Ice: icing.Ice{Temperature: units.Celsius(0)}}.Balance())
	r := must(transport.Road{Containers: 13, Conductance: 4.5 * units.WattPerKelvin, Ambient: units.Celsius(33), Haul: 6 * time.Hour}.Melt(1 * units.Tonne))
	near(t, "melt, kg", r.Melted.Kilograms(), b.Leak.Kilograms(), 0.002)
}

// Two hydraulic oils of one grade.
func TestOilGradeAgrees(t *testing.T) {
	machine := must(pumpsizing.NewOil(must(pumpsizing.ISOVG(46))))
	line := must(hydraulics.OilGrade(46, 100))
	for _, c := range []float64{20, 40, 60, 80} {
		v := must(line.Viscosity(units.Celsius(c)))
		near(t, "viscosity, mm2/s", must(machine.Viscosity(units.Celsius(c))).In(units.Centistokes), v.In(units.Centistokes), 0.01)
	}
}
