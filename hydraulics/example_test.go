package hydraulics_test

import (
	"fmt"
	"log"
	"time"

	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

// A fish pump stands on the bank of a catch basin and lifts shrimp and water
// through hose to a table: what head must it give, what does gravity alone
// return, and do the animals move?
func Example() {
	water, err := hydraulics.SeaWater(units.Celsius(28), 20)
	if err != nil {
		log.Fatal(err)
	}
	mouth, err := hydraulics.Entrance(hydraulics.ProjectingEntrance)
	if err != nil {
		log.Fatal(err)
	}
	hose, err := hydraulics.HoseSpec{
		Kind: hydraulics.SpiralHose, Bore: 0.2 * units.Metre, Length: 18 * units.Metre, Couplings: 2,
		Turns: []hydraulics.HoseTurn{{Angle: 90 * units.Degree, Radius: 0.8 * units.Metre}},
	}.Run()
	if err != nil {
		log.Fatal(err)
	}
	hose.Fittings = append(hose.Fittings, mouth, hydraulics.Exit())
	line, err := hydraulics.NewPipeline(hydraulics.PipelineSpec{
		Fluid: water, Lift: 3.2 * units.Metre, Runs: []hydraulics.PipeRun{hose},
	})
	if err != nil {
		log.Fatal(err)
	}
	s, err := line.At(230 * units.CubicMetrePerHour)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("head %.2f m: lift %.2f, wall %.2f, fittings %.2f\n", s.Head.Metres(), s.Lift.Metres(), s.FrictionLoss.Metres(), s.FittingLoss.Metres())
	fmt.Printf("%.2f m/s, Re %.0f, %v\n", s.Runs[0].Velocity.MetresPerSecond(), s.Runs[0].Reynolds, s.Runs[0].Regime)

	shrimp, err := hydraulics.BodyOfMass(20*units.Gram, 1070*units.KilogramPerCubicMetre, 0.7)
	if err != nil {
		log.Fatal(err)
	}
	sink, err := hydraulics.TerminalSpeed(shrimp, water, hydraulics.HaiderLevenspiel)
	if err != nil {
		log.Fatal(err)
	}
	least, err := hydraulics.MinimumSpeed(hydraulics.CarrySpec{Bore: hose.Bore, Rise: 60 * units.Degree, Terminal: sink, Animal: shrimp.Density, Water: water.Density})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("shrimp sink at %.3f m/s and need %.2f m/s\n", sink.MetresPerSecond(), least.Speed.MetresPerSecond())
	for _, n := range least.Notices {
		fmt.Println(n.Severity, n.Code)
	}
	// Output:
	// head 4.23 m: lift 3.20, wall 0.52, fittings 0.50
	// 2.03 m/s, Re 473554, turbulent
	// shrimp sink at 0.111 m/s and need 0.53 m/s
	// info HYD_BELOW_CARRYING_SPEED
}

// The flow that a head drives, and the bore, length and roughness that fit a
// flow and a head.
func ExamplePipe() {
	oil := hydraulics.Fluid{Density: 950, Viscosity: 950 * 2e-5}
	p := hydraulics.Pipe{Bore: 0.3 * units.Metre, Length: 100 * units.Metre, Roughness: 0.06 * units.Millimetre}
	q, err := p.FlowFor(8*units.Metre, oil)
	if err != nil {
		log.Fatal(err)
	}
	h, err1 := p.HeadLoss(q, oil)
	length, err2 := p.LengthFor(q, h, oil)
	bore, err3 := p.BoreFor(q, h, oil)
	wall, err4 := p.RoughnessFor(q, h, oil)
	if err1 != nil || err2 != nil || err3 != nil || err4 != nil {
		log.Fatal(err1, err2, err3, err4)
	}
	fmt.Printf("%.4f m3/s loses %.3f m in %.1f m of %.1f mm with %.3f mm of roughness\n", q.CubicMetresPerSecond(), h.Metres(), length.Metres(),
		bore.In(units.Millimetres), wall.In(units.Millimetres))
	// Output:
	// 0.3420 m3/s loses 8.000 m in 100.0 m of 300.0 mm with 0.060 mm of roughness
}

// Two return hoses side by side behind one pipe.
func ExampleSeries() {
	water := hydraulics.Fluid{Density: 1000, Viscosity: 1e-3}
	line := func(bore, length units.Length) hydraulics.Line {
		l, err := hydraulics.Pipe{Bore: bore, Length: length, Roughness: 0.1 * units.Millimetre, LossSum: 1.5}.Line(water)
		if err != nil {
			log.Fatal(err)
		}
		return l
	}
	hoses, err := hydraulics.Parallel(line(0.15, 20), line(0.1, 20))
	if err != nil {
		log.Fatal(err)
	}
	whole, err := hydraulics.Series(line(0.2, 12), hoses)
	if err != nil {
		log.Fatal(err)
	}
	q := whole.Flow(1.5 * units.Metre)
	fmt.Printf("%.1f m3/h at %.2f m\n", q.In(units.CubicMetresPerHour), whole.Head(q).Metres())
	for _, part := range hoses.Split(hoses.Head(q), nil) {
		fmt.Printf("%.1f m3/h\n", part.In(units.CubicMetresPerHour))
	}
	fmt.Printf("%.1f m3/h through both\n", hoses.Flow(hoses.Head(q)).In(units.CubicMetresPerHour))
	// Output:
	// 200.8 m3/h at 1.50 m
	// 146.3 m3/h
	// 54.6 m3/h
	// 200.8 m3/h through both
}

// A pond feeds two tanks; a booster pump stands in one branch.
func ExampleNetwork() {
	water := hydraulics.Fluid{Density: 1000, Viscosity: 1e-3}
	pipe := func(bore, length units.Length) hydraulics.Line {
		l, err := hydraulics.Pipe{Bore: bore, Length: length, Roughness: 0.05 * units.Millimetre, LossSum: 2}.Line(water)
		if err != nil {
			log.Fatal(err)
		}
		return l
	}
	pump, err := hydraulics.NewSquareLine(-4*units.Metre, 9000) // 4 m shut off
	if err != nil {
		log.Fatal(err)
	}
	pond, tank := 2*units.Metre, 1*units.Metre
	w, err := hydraulics.NewNetwork(hydraulics.NetworkSpec{
		Nodes: []hydraulics.NetworkNode{{Name: "pond", Level: &pond}, {Name: "tee"}, {Name: "suction"}, {Name: "tank", Level: &tank},
			{Name: "hatchery", Demand: 5 * units.LitrePerSecond}},
		Links: []hydraulics.NetworkLink{
			{Name: "main", From: "pond", To: "tee", Line: pipe(0.15, 40)},
			{Name: "to tank", From: "tee", To: "tank", Line: pipe(0.1, 30), OneWay: true},
			{Name: "to pump", From: "tee", To: "suction", Line: pipe(0.1, 5)},
			{Name: "pump", From: "suction", To: "hatchery", Line: pump},
		},
	})
	if err != nil {
		log.Fatal(err)
	}
	s, err := w.Solve()
	if err != nil {
		log.Fatal(err)
	}
	for _, l := range s.Links {
		fmt.Printf("%-8s %6.2f L/s\n", l.Name, l.Flow.In(units.LitresPerSecond))
	}
	for _, n := range s.Nodes {
		fmt.Printf("%-8s %6.2f m\n", n.Name, n.Head.Metres())
	}
	fmt.Printf("pump lifts %.2f m; 4 m are gone at %.1f L/s\n", -pump.Head(5*units.LitrePerSecond).Metres(), pump.Flow(0).In(units.LitresPerSecond))
	// Output:
	// main      15.53 L/s
	// to tank   10.53 L/s
	// to pump    5.00 L/s
	// pump       5.00 L/s
	// pond       2.00 m
	// tee        1.72 m
	// suction    1.66 m
	// tank       1.00 m
	// hatchery   5.43 m
	// pump lifts 3.77 m; 4 m are gone at 21.1 L/s
}

// A pump's curve, known as a function, enters a line or network with its sign
// turned.
func ExampleNewCurveLine() {
	pump := func(q units.Flow) units.Length { // 8 m shut off
		return units.Metres.Of(8 - 900*q.CubicMetresPerSecond()*q.CubicMetresPerSecond())
	}
	lifted, err := hydraulics.NewCurveLine(func(q units.Flow) units.Length {
		if q < 0 {
			return -pump(0)
		}
		return -pump(q)
	})
	if err != nil {
		log.Fatal(err)
	}
	hose, err := hydraulics.Pipe{Bore: 0.2 * units.Metre, Length: 24 * units.Metre, Roughness: 0.3 * units.Millimetre, LossSum: 2}.Line(hydraulics.Fluid{Density: 1000, Viscosity: 1e-3})
	if err != nil {
		log.Fatal(err)
	}
	whole, err := hydraulics.Series(lifted, hose)
	if err != nil {
		log.Fatal(err)
	}
	q := whole.Flow(-3 * units.Metre) // up to a table 3 m higher
	fmt.Printf("%.0f m3/h at %.2f m of the pump\n", q.In(units.CubicMetresPerHour), -lifted.Head(q).Metres())
	fmt.Printf("%.0f m3/h where the pump gives 5 m\n", lifted.Flow(-5*units.Metre).In(units.CubicMetresPerHour))
	// Output:
	// 238 m3/h at 4.06 m of the pump
	// 208 m3/h where the pump gives 5 m
}

// "It's an elbow" is not a geometry: the band says so.
func ExampleNamedFitting() {
	elbow, err := hydraulics.NamedFitting("elbow")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("K %.2f to %.2f; sizing takes %.2f\n", elbow.K(hydraulics.LowLoss), elbow.K(hydraulics.HighLoss), elbow.K(hydraulics.TypicalLoss))
	bend, err := hydraulics.Bend(90*units.Degree, 3, 0.2*units.Metre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("a 90 degree bend of three bores: K %.2f to %.2f\n", bend.Low, bend.High)
	// Output:
	// K 0.20 to 1.50; sizing takes 1.50
	// a 90 degree bend of three bores: K 0.13 to 0.21
}

// "It's a 12-inch" is not a bore either.
func ExampleNominalPipe() {
	for _, c := range []struct {
		std      hydraulics.PipeStandard
		schedule string
	}{{hydraulics.NoStandard, ""}, {hydraulics.ASMEB3610, "40"}, {hydraulics.ASMEB3610, "80"}} {
		p, err := hydraulics.NominalPipe(12, c.std, c.schedule)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: bore %.1f mm", p.Name, p.Bore.In(units.Millimetres))
		for _, n := range p.Notices {
			fmt.Printf(" (%s)", n.Code)
		}
		fmt.Println()
	}
	// Output:
	// 12 in bore: bore 304.8 mm (HYD_NOMINAL_ASSUMED)
	// NPS 12 schedule 40: bore 303.2 mm
	// NPS 12 schedule 80: bore 288.9 mm
}

// Hydraulic oil of the drive, cold and warm.
func ExampleOilGrade() {
	oil, err := hydraulics.OilGrade(46, 0)
	if err != nil {
		log.Fatal(err)
	}
	for _, c := range []float64{0, 40, 80} {
		nu, err1 := oil.Viscosity(units.Celsius(c))
		rho, err2 := oil.Density(units.Celsius(c))
		if err1 != nil || err2 != nil {
			log.Fatal(err1, err2)
		}
		fmt.Printf("%.0f °C: %.1f mm2/s %.0f kg/m3\n", c, nu.In(units.Centistokes), rho.KilogramsPerCubicMetre())
	}
	start, err := oil.TemperatureFor(1000 * units.Centistoke)
	if err != nil {
		log.Fatal(err)
	}
	factor, err := hydraulics.OilPressureFactor(200 * units.BarGauge)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("1000 mm2/s at %.0f °C; %.2f times thicker at 200 bar\n", start.Celsius(), factor)
	// Output:
	// 0 °C: 584.7 mm2/s 880 kg/m3
	// 40 °C: 46.0 mm2/s 854 kg/m3
	// 80 °C: 11.1 mm2/s 828 kg/m3
	// 1000 mm2/s at -6 °C; 1.49 times thicker at 200 bar
}

// A knife gate slams at the end of a discharge hose.
func ExampleClosureSurge() {
	water := hydraulics.Fluid{Density: 1000, Viscosity: 1e-3, BulkModulus: 2.2e9}
	a, err := hydraulics.WaveSpeedOfHose(water, 0.01, 1*units.Bar) // 1 % more area per bar
	if err != nil {
		log.Fatal(err)
	}
	u, err := hydraulics.ClosureSurge(hydraulics.SurgeSpec{Fluid: water, Length: 60 * units.Metre, Wave: a, Stopped: 2.5 * units.MetrePerSecond,
		Closure: 500 * time.Millisecond, Static: 0.4 * units.BarGauge, Rating: 2 * units.BarGauge})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("wave %.0f m/s, surge %.2f bar, peak %.2f bar\n", a.MetresPerSecond(), u.Pressure.In(units.Bars), u.Peak.In(units.BarsGauge))
	for _, n := range u.Notices {
		fmt.Println(n.Severity, n.Code)
	}
	// Output:
	// wave 100 m/s, surge 2.49 bar, peak 2.89 bar
	// danger HYD_SURGE
	// warning HYD_SURGE_VACUUM
}
