package pumpsizing_test

import (
	"fmt"

	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

func ExampleAffinity() {
	d := pumpsizing.Duty{Flow: 216 * units.CubicMetrePerHour, Head: 9.5 * units.Metre, Power: 8 * units.Kilowatt, Speed: 600 * units.RevolutionPerMinute}
	slow, err := pumpsizing.Affinity(d, 480*units.RevolutionPerMinute)
	fmt.Printf("%.1f m3/h, %.2f m, %.3f kW, %v\n", slow.Flow.In(units.CubicMetresPerHour), slow.Head.Metres(), slow.Power.In(units.Kilowatts), err)
	e, _ := pumpsizing.SteppedEfficiency(0.60, 1, 0.8, pumpsizing.SarbuBorza1998)
	best, _ := pumpsizing.EfficiencyAnderson1980(216*units.CubicMetrePerHour, 600*units.RevolutionPerMinute, 1400)
	fmt.Printf("efficiency 0.60 becomes %.3f; a pump without animals to care for reaches %.2f\n", e, best)
	// Output:
	// 172.8 m3/h, 6.08 m, 4.096 kW, <nil>
	// efficiency 0.60 becomes 0.591; a pump without animals to care for reaches 0.85
}

func ExampleTrimForHead() {
	i := pumpsizing.Impeller{Diameter: 0.30 * units.Metre, Eye: 0.15 * units.Metre}
	d, err := pumpsizing.TrimForHead(i, 12*units.Metre, 10*units.Metre)
	fmt.Printf("%.1f mm, %v\n", d.In(units.Millimetres), err)
	// Output: 273.9 mm, <nil>
}

func ExampleTotalHead() {
	h, err := pumpsizing.TotalHead(pumpsizing.HeadBalance{Rise: 4 * units.Metre, Losses: 0.76 * units.Metre}, 998*units.KilogramPerCubicMetre)
	fmt.Printf("%.2f m, %v\n", h.Metres(), err)
	// Output: 4.76 m, <nil>
}

func ExampleShaftPower() {
	q, h, rho := 216*units.CubicMetrePerHour, 5*units.Metre, 998.2*units.KilogramPerCubicMetre
	water, _ := pumpsizing.WaterPower(q, h, rho)
	shaft, err := pumpsizing.ShaftPower(q, h, rho, 0.55)
	torque, _ := pumpsizing.ShaftTorque(shaft, 520*units.RevolutionPerMinute)
	warm, _ := pumpsizing.HeatToWater(h, 0.55, 4186.8*units.JoulePerKilogramKelvin)
	back, _ := pumpsizing.PumpEfficiency(q, h.Pressure(rho), shaft)
	fmt.Printf("%.3f kW of water power, %.3f kW at the shaft, %.1f N m, water warms %.4f K, efficiency %.2f, %v\n",
		water.In(units.Kilowatts), shaft.In(units.Kilowatts), torque.NewtonMetres(), warm.Kelvins(), back, err)
	_, err = pumpsizing.ShaftPower(q, h, rho, 55)
	fmt.Println(err)
	// Output:
	// 2.937 kW of water power, 5.339 kW at the shaft, 98.1 N m, water warms 0.0096 K, efficiency 0.55, <nil>
	// pumpsizing.ShaftPower: efficiency = 55: impossible input: must be a fraction: write 0.55 for 55 % (valid: 0 to 1)
}

func ExampleSpecificSpeed() {
	n, q, h := 600*units.RevolutionPerMinute, 216*units.CubicMetrePerHour, 9.5*units.Metre
	nq, _ := pumpsizing.SpecificSpeed(n, q, h)
	ns, _ := pumpsizing.SpecificSpeedUS(n, q, h)
	k, _ := pumpsizing.TypeNumber(n, q, h)
	s, _ := pumpsizing.SuctionSpecificSpeedUS(n, q, 3*units.Metre)
	need, err := pumpsizing.NPSHRFromSuctionSpeed(n, q, 8500)
	fmt.Printf("nq %.1f, Ns %.0f, K %.3f, S %.0f, suction head at S 8500 %.2f m, %v\n", nq, ns, k, s, need.Metres(), err)
	// Output: nq 27.2, Ns 1403, K 0.513, S 3330, suction head at S 8500 0.86 m, <nil>
}

// How high above the water may the pump stand at 1950 m?
func ExampleSuction() {
	air, err := pumpsizing.AtmosphericPressure(1950*units.Metre, pumpsizing.StandardAtmosphere1976)
	if err != nil {
		fmt.Println(err)
		return
	}
	s := pumpsizing.Suction{Atmosphere: air, VapourPressure: 2488 * units.PascalAbsolute, Density: 998 * units.KilogramPerCubicMetre,
		Height: -1.8 * units.Metre, Loss: 0.17 * units.Metre}
	have, _ := s.Available()
	lift, _ := s.MaximumLift(4*units.Metre, 1.1)
	flange, _ := pumpsizing.NPSHFromGauge(-19*units.KilopascalGauge, s, 1.4*units.MetrePerSecond, 0)
	fmt.Printf("%.2f kPa, %.2f m of suction head, highest lift for a pump that asks for 4 m: %.2f m; by gauge %.2f m\n",
		air.In(units.KilopascalsAbsolute), have.Metres(), lift.Metres(), flange.Metres())
	// Output: 80.00 kPa, 5.95 m of suction head, highest lift for a pump that asks for 4 m: 3.35 m; by gauge 6.08 m
}

func ExampleHydraulicMotor() {
	m := pumpsizing.HydraulicMotor{Displacement: 80 * units.CubicCentimetrePerRevolution, Volumetric: 0.92, Hydromechanical: 0.88}
	q, _ := m.Flow(520 * units.RevolutionPerMinute)
	dp, _ := m.Pressure(83 * units.NewtonMetre)
	n, _ := m.Speed(45 * units.LitrePerMinute)
	t, _ := m.Torque(74 * units.Bar)
	p, err := m.Power(45*units.LitrePerMinute, 74*units.Bar)
	fmt.Printf("%.1f L/min and %.1f bar; 45 L/min and 74 bar give %.0f r/min, %.1f N m, %.2f kW, %v\n",
		q.In(units.LitresPerMinute), dp.In(units.Bars), n.In(units.RevolutionsPerMinute), t.NewtonMetres(), p.In(units.Kilowatts), err)
	// Output: 45.2 L/min and 74.1 bar; 45 L/min and 74 bar give 518 r/min, 82.9 N m, 4.49 kW, <nil>
}

func ExampleOilPump() {
	p := pumpsizing.OilPump{Displacement: 28 * units.CubicCentimetrePerRevolution, Volumetric: 0.94, Hydromechanical: 0.90}
	q, _ := p.Flow(1500 * units.RevolutionPerMinute)
	n, _ := p.Speed(45 * units.LitrePerMinute)
	t, _ := p.Torque(83 * units.Bar)
	w, err := p.Power(45*units.LitrePerMinute, 83*units.Bar)
	fmt.Printf("%.2f L/min at 1500 r/min; 45 L/min at %.0f r/min, %.1f N m, %.2f kW, %v\n",
		q.In(units.LitresPerMinute), n.In(units.RevolutionsPerMinute), t.NewtonMetres(), w.In(units.Kilowatts), err)
	// Output: 39.48 L/min at 1500 r/min; 45 L/min at 1710 r/min, 41.1 N m, 7.36 kW, <nil>
}

func ExampleOil() {
	data, _ := pumpsizing.ISOVG(46)
	oil, err := pumpsizing.NewOil(data)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range []float64{0, 20, 60} {
		v, _ := oil.Viscosity(units.Celsius(c))
		d, _ := oil.Density(units.Celsius(c))
		fmt.Printf("%2.0f C: %.1f mm2/s, %.1f kg/m3\n", c, v.In(units.Centistokes), d.KilogramsPerCubicMetre())
	}
	a, b := oil.Walther()
	fmt.Printf("A %.4f, B %.4f\n", a, b)
	// Output:
	//  0 C: 577.3 mm2/s, 879.8 kg/m3
	// 20 C: 133.8 mm2/s, 866.8 kg/m3
	// 60 C: 20.6 mm2/s, 840.8 kg/m3
	// A 9.4180, B 3.6844
}

func ExampleOilLine() {
	line := pumpsizing.OilLine{Bore: 19 * units.Millimetre, Length: 30 * units.Metre}
	x, err := line.Loss(45.25*units.LitrePerMinute, pumpsizing.OilState{Viscosity: 32 * units.Centistoke, Density: 870 * units.KilogramPerCubicMetre})
	fmt.Printf("%.2f m/s, Re %.0f, %v, %.2f bar, %v\n", x.Velocity.MetresPerSecond(), x.Reynolds, x.Regime, x.Loss.In(units.Bars), err)
	bore, _ := pumpsizing.BoreForVelocity(45.25*units.LitrePerMinute, 1*units.MetrePerSecond)
	coupler := pumpsizing.ValveRating{Flow: 60 * units.LitrePerMinute, Drop: 5 * units.Bar}
	drop, _ := coupler.DropAt(45.25*units.LitrePerMinute, 1)
	fmt.Printf("suction bore for 1 m/s: %.0f mm; one quick coupler: %.1f bar\n", bore.In(units.Millimetres), drop.In(units.Bars))
	// Output:
	// 2.66 m/s, Re 1579, laminar, 1.97 bar, <nil>
	// suction bore for 1 m/s: 31 mm; one quick coupler: 2.8 bar
}

func ExampleFlowControl() {
	c := pumpsizing.FlowControl{Delivered: 60 * units.LitrePerMinute, Taken: 42 * units.LitrePerMinute, Load: 90 * units.Bar}
	bypass, _ := c.BypassHeat()
	throttle, err := c.ThrottleHeat(pumpsizing.Relief{Set: 175 * units.BarGauge})
	fmt.Printf("bypass regulator %.1f kW, throttle and relief %.1f kW, %v\n", bypass.In(units.Kilowatts), throttle.In(units.Kilowatts), err)
	// Output: bypass regulator 2.7 kW, throttle and relief 11.2 kW, <nil>
}

// A power figure without a basis is answered both ways.
func ExampleTractor() {
	t := pumpsizing.Tractor{Power: units.MechanicalHorsepowers.Of(35), EngineSpeed: 2000 * units.RevolutionPerMinute, AirTemp: units.Celsius(33)}
	p, err := t.PTO()
	fmt.Printf("%.1f kW if PTO power, %.1f kW if engine power; for hours %.1f kW, %v\n", p.IfPTO.In(units.Kilowatts),
		p.IfEngine.In(units.Kilowatts), p.Steady.In(units.Kilowatts), err)
	limit, _ := pumpsizing.PTOShafts()[0].TorqueLimit()
	ratio, _ := pumpsizing.PTORatio(2000*units.RevolutionPerMinute, 540*units.RevolutionPerMinute)
	est, _ := pumpsizing.PTOFromEngine(units.MechanicalHorsepowers.Of(125), 0)
	fmt.Printf("type 1 shaft %.0f N m; ratio %.3f; 125 hp engine %.1f hp at the PTO\n", limit.NewtonMetres(), ratio, est.In(units.MechanicalHorsepowers))
	// Output:
	// 26.1 kW if PTO power, 22.4 kW if engine power; for hours 17.8 kW, <nil>
	// type 1 shaft 1061 N m; ratio 3.704; 125 hp engine 107.5 hp at the PTO
}

func ExampleTractorFuel() {
	full, _ := pumpsizing.TractorFuel(0.5, 1, 50*units.Kilowatt)
	slow, err := pumpsizing.TractorFuel(0.5, 0.8, 50*units.Kilowatt)
	old, _ := pumpsizing.SpecificTractorFuel(0.5)
	year, _ := pumpsizing.AverageTractorFuel(50 * units.Kilowatt)
	share, _ := pumpsizing.FuelEfficiency(25*units.Kilowatt, slow, pumpsizing.DieselHeatPerLitre)
	fmt.Printf("%.1f L/h, throttled %.2f L/h (%.0f %% of the fuel's heat), %v; older rule %.1f L/h; year's average %.1f L/h\n",
		full.In(units.LitresPerHour), slow.In(units.LitresPerHour), 100*share, err, 25*old, year.In(units.LitresPerHour))
	set := pumpsizing.FuelLine{Load1: 25 * units.Kilowatt, Fuel1: 8.48 * units.LitrePerHour, Load2: 50 * units.Kilowatt, Fuel2: 15.3 * units.LitrePerHour}
	at, _ := set.At(40 * units.Kilowatt)
	fmt.Printf("generator at 40 kW: %.1f L/h\n", at.In(units.LitresPerHour))
	// Output:
	// 10.3 L/h, throttled 8.96 L/h (28 % of the fuel's heat), <nil>; older rule 12.6 L/h; year's average 11.2 L/h
	// generator at 40 kW: 12.6 L/h
}

func ExampleDerateISO3046() {
	air, _ := pumpsizing.AtmosphericPressure(1500*units.Metre, pumpsizing.StandardAtmosphere1976)
	d, err := pumpsizing.DerateISO3046(air, units.Celsius(35), pumpsizing.NaturallyAspirated)
	steps, _ := pumpsizing.DerateBySteps(1500*units.Metre, 0, 300*units.Metre, 0.035)
	heat, _ := pumpsizing.DerateByHeat(units.Celsius(45), units.Celsius(40), 5*units.Kelvin, 0.03)
	fmt.Printf("keeps %.3f by the standard, %v; %.3f by 3.5 %% per 300 m; %.2f at 45 C by a generator manual\n", d.Brake, err, steps, heat)
	// Output: keeps 0.794 by the standard, <nil>; 0.825 by 3.5 % per 300 m; 0.97 at 45 C by a generator manual
}

func ExampleSystemFunc() {
	sys := pumpsizing.SystemFunc(func(q units.Flow) units.Length {
		v := q.CubicMetresPerSecond()
		return 4*units.Metre + units.Metres.Of(300*v*v)
	})
	up := pumpsizing.Raised{System: sys, By: 0.5 * units.Metre}
	fmt.Printf("%.2f m, raised %.2f m\n", sys.Head(0.1*units.CubicMetrePerSecond).Metres(), up.Head(0.1*units.CubicMetrePerSecond).Metres())
	// Output: 7.00 m, raised 7.50 m
}
