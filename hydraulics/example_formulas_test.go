package hydraulics_test

import (
	"errors"
	"fmt"
	"log"

	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

// must keeps the examples of single formulas to their formula.
func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}

func ExampleColebrook() {
	const re, rel = 1e5, 1e-4
	fmt.Printf("Colebrook        %.6f\n", must(hydraulics.Colebrook(re, rel)))
	fmt.Printf("Serghides        %.6f\n", must(hydraulics.Serghides(re, rel)))
	fmt.Printf("ZigrangSylvester %.6f\n", must(hydraulics.ZigrangSylvester(re, rel)))
	fmt.Printf("Haaland          %.6f\n", must(hydraulics.Haaland(re, rel)))
	fmt.Printf("SwameeJain       %.6f\n", must(hydraulics.SwameeJain(re, rel)))
	fmt.Printf("Churchill        %.6f\n", must(hydraulics.Churchill(re, rel)))
	// Output:
	// Colebrook        0.018514
	// Serghides        0.018514
	// ZigrangSylvester 0.018500
	// Haaland          0.018265
	// SwameeJain       0.018452
	// Churchill        0.018463
}

func ExampleFrictionFactor() {
	for _, re := range []float64{1000, 3000, 10000} {
		f, err := hydraulics.FrictionFactor(re, 1e-3)
		fmt.Printf("%5.0f %.5f, in the gap: %v\n", re, f, errors.Is(err, units.ErrRange))
	}
	fmt.Printf("laminar %.5f\n", must(hydraulics.LaminarFactor(1000)))
	// Output:
	//  1000 0.06400, in the gap: false
	//  3000 0.03743, in the gap: true
	// 10000 0.03238, in the gap: false
	// laminar 0.06400
}

func ExampleHazenWilliams() {
	q, bore := 20*units.LitrePerSecond, 0.15*units.Metre
	h := must(hydraulics.HazenWilliams(q, bore, 100*units.Metre, 140))
	water := must(hydraulics.FreshWater(units.Celsius(20)))
	c := must(hydraulics.HazenWilliamsFor(q, hydraulics.Pipe{Bore: bore, Length: 100 * units.Metre, Roughness: 0.06 * units.Millimetre}, water))
	fmt.Printf("%.3f m with C 140; a wall of 0.06 mm acts as C %.0f here\n", h.Metres(), c)
	// Output:
	// 0.831 m with C 140; a wall of 0.06 mm acts as C 142 here
}

func ExampleReynolds() {
	water := must(hydraulics.FreshWater(units.Celsius(20)))
	q, bore := 50*units.CubicMetrePerHour, 0.1*units.Metre
	v := must(hydraulics.PipeVelocity(q, bore))
	re := must(hydraulics.Reynolds(q, bore, water.KinematicViscosity()))
	fmt.Printf("%.2f m/s, Re %.0f\n", v.MetresPerSecond(), re)
	// Output:
	// 1.77 m/s, Re 176211
}

func ExampleSeaWater() {
	t, s := units.Celsius(28), units.PracticalSalinity(35)
	fmt.Printf("density         %.2f kg/m3\n", must(hydraulics.WaterDensity(t, s)).KilogramsPerCubicMetre())
	fmt.Printf("viscosity       %.4f mPa·s\n", 1e3*must(hydraulics.WaterViscosity(t, s)).PascalSeconds())
	fmt.Printf("specific heat   %.0f J/(kg K)\n", must(hydraulics.WaterSpecificHeat(t, s)).JoulesPerKilogramKelvin())
	fmt.Printf("vapour pressure %.0f Pa\n", must(hydraulics.WaterVapourPressure(t, s)).PascalsAbsolute())
	fmt.Printf("bulk modulus    %.3f GPa\n", 1e-9*must(hydraulics.WaterBulkModulus(t, s)).Pascals())
	fmt.Printf("surface tension %.1f mN/m\n", 1e3*must(hydraulics.WaterSurfaceTension(t, s)).NewtonsPerMetre())
	// Output:
	// density         1022.39 kg/m3
	// viscosity       0.8982 mPa·s
	// specific heat   4000 J/(kg K)
	// vapour pressure 3712 Pa
	// bulk modulus    2.385 GPa
	// surface tension 72.6 mN/m
}

func ExampleAirPressure() {
	p := must(hydraulics.AirPressure(1950 * units.Metre))
	fmt.Printf("%.1f kPa at 1950 m, back to %.0f m\n", p.PascalsAbsolute()/1000, must(hydraulics.AltitudeOfPressure(p)).Metres())
	report := must(hydraulics.StationPressure(102000, 1950*units.Metre)) // the weather report says 1020 hPa
	fmt.Printf("%.1f kPa on a day of 1020 hPa\n", report.PascalsAbsolute()/1000)
	// Output:
	// 80.0 kPa at 1950 m, back to 1950 m
	// 80.6 kPa on a day of 1020 hPa
}

func ExampleValveKind_EquivalentBores() {
	bore := 0.15 * units.Metre
	n := must(hydraulics.PoppetFoot.EquivalentBores(bore))
	fT := must(hydraulics.FullyRoughFactor(bore))
	fmt.Printf("%v: %.0f bores, K %.2f\n", hydraulics.PoppetFoot, n, n*fT)
	// Output:
	// foot valve with strainer, poppet: 420 bores, K 6.29
}

func ExampleCurvedFactor() {
	fmt.Printf("oil in a reel: %.2f times the friction\n", must(hydraulics.CurvedFactor(800, 0.02)))
	fmt.Printf("water in a wide curve: %.2f times\n", must(hydraulics.CurvedFactor(2e5, 0.02)))

	oil := must(must(hydraulics.OilGrade(32, 0)).Fluid(units.Celsius(30), 0))
	for _, coil := range []units.Length{0, 0.9} {
		line := must(hydraulics.NewPipeline(hydraulics.PipelineSpec{Fluid: oil,
			Runs: []hydraulics.PipeRun{{Bore: 19 * units.Millimetre, Length: 30 * units.Metre, Coil: coil}}}))
		s := must(line.At(40 * units.LitrePerMinute))
		fmt.Printf("%.2f bar\n", s.PressureDrop.In(units.Bars))
	}
	// Output:
	// oil in a reel: 1.59 times the friction
	// water in a wide curve: 1.26 times
	// 2.73 bar
	// 4.53 bar
}

func ExampleViscosityIndex() {
	fmt.Printf("%.0f\n", must(hydraulics.ViscosityIndex(73.30*units.Centistoke, 8.86*units.Centistoke)))
	// Output:
	// 92
}

func ExampleMixture() {
	m := hydraulics.Mixture{WaterPerAnimal: 3, Animal: 1060, Water: 1000}
	fmt.Printf("delivered: %.1f %% animals by volume, %.1f kg/m3\n", 100*must(m.VolumeFraction()), must(m.Density()).KilogramsPerCubicMetre())
	fmt.Printf("in a rising hose at 1 m/s: %.1f %%\n", 100*must(hydraulics.HoldUp(1*units.MetrePerSecond, 0.15*units.MetrePerSecond, must(m.VolumeFraction()))))
	// Output:
	// delivered: 23.9 % animals by volume, 1014.4 kg/m3
	// in a rising hose at 1 m/s: 25.8 %
}

func ExampleDragCoefficient() {
	for _, law := range []hydraulics.DragLaw{hydraulics.HaiderLevenspiel, hydraulics.SchillerNaumann, hydraulics.CliftGauvin, hydraulics.CliftGraceWeber} {
		fmt.Printf("%-25v %.3f\n", law, must(hydraulics.DragCoefficient(law, 200, 1)))
	}
	// Output:
	// Haider & Levenspiel 1989  0.796
	// Schiller & Naumann 1933   0.806
	// Clift & Gauvin 1970       0.810
	// Clift, Grace & Weber 1978 0.776
}

func ExampleDurandLimit() {
	bore, animal, water := 0.2*units.Metre, 1060*units.KilogramPerCubicMetre, 1000*units.KilogramPerCubicMetre
	fmt.Printf("settling below %.2f m/s\n", must(hydraulics.DurandLimit(bore, animal, water)).MetresPerSecond())
	fmt.Printf("at 2 m/s a fifth of animals makes %.3f times the friction\n", must(hydraulics.ExtraFriction(0.2, 2*units.MetrePerSecond, bore, animal, water, 0.5)))
	// Output:
	// settling below 0.65 m/s
	// at 2 m/s a fifth of animals makes 1.139 times the friction
}

func ExampleWaveSpeed() {
	water := hydraulics.Fluid{Density: 998.2, Viscosity: 1e-3, BulkModulus: 2.19e9}
	bore, wall := 0.2*units.Metre, 9.6*units.Millimetre
	c1 := must(hydraulics.RestraintFactor(hydraulics.AnchoredAllAlong, 0.45, bore, wall))
	a := must(hydraulics.WaveSpeed(water, bore, wall, 3e9, c1)) // PVC, 3 GPa
	fmt.Printf("%.0f m/s; stopping 1 m/s makes %.2f bar\n", a.MetresPerSecond(), must(hydraulics.Joukowsky(water, a, 1*units.MetrePerSecond)).In(units.Bars))
	soft := must(hydraulics.BulkModulusWithGas(water.BulkModulus, 0.001, 1*units.BarAbsolute))
	fmt.Printf("0.1 %% of air: %.3f GPa for 2.19\n", soft.Pascals()*1e-9)
	// Output:
	// 386 m/s; stopping 1 m/s makes 3.86 bar
	// 0.1 % of air: 0.096 GPa for 2.19
}

func ExampleBendThrust() {
	bore := 0.2 * units.Metre
	fmt.Printf("hose %.0f kg\n", must(hydraulics.FilledHoseMass(60*units.Kilogram, bore, 10*units.Metre, 1022)).Kilograms())
	fmt.Printf("hose %.0f N/m\n", must(hydraulics.FilledHoseWeight(60*units.Kilogram, bore, 10*units.Metre, 1022)).NewtonsPerMetre())
	fmt.Printf("bend %.0f N\n", must(hydraulics.BendThrust(90*units.Degree, 0.5*units.BarGauge, 180*units.CubicMetrePerHour, bore, 1000)).Newtons())
	fmt.Printf("jet %.0f N\n", must(hydraulics.JetReaction(180*units.CubicMetrePerHour, 0.1*units.Metre, 1000)).Newtons())
	fmt.Printf("pull %.0f N\n", must(hydraulics.HoseTension(380*units.NewtonPerMetre, 6*units.Metre, 0.3*units.Metre)).Newtons())
	// Output:
	// hose 381 kg
	// hose 374 N/m
	// bend 2334 N
	// jet 318 N
	// pull 5813 N
}

func ExampleSupportSpan() {
	s := must(hydraulics.SupportSpan(hydraulics.PipeBeam{Outside: 160 * units.Millimetre, Bore: 141.2 * units.Millimetre,
		Modulus: 0.8e9, Stress: 5e6, Wall: 950, Contents: 1000, Sag: 1. / 200}))
	fmt.Printf("%.2f m, by sag %.2f, by stress %.2f\n", s.Span.Metres(), s.BySag.Metres(), s.ByStress.Metres())
	// Output:
	// 2.71 m, by sag 2.71, by stress 5.70
}
