package pumpsizing_test

import (
	"errors"
	"fmt"
	"time"

	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

// dataSheet is five points read off a fish pump's curve at 600 r/min.
func dataSheet() pumpsizing.CurveData {
	m3h := units.CubicMetresPerHour.Of
	return pumpsizing.CurveData{
		Speed: units.RevolutionsPerMinute.Of(600),
		Points: []pumpsizing.CurvePoint{
			{Flow: m3h(0), Head: 9.0 * units.Metre},
			{Flow: m3h(100), Head: 8.2 * units.Metre},
			{Flow: m3h(200), Head: 6.6 * units.Metre},
			{Flow: m3h(300), Head: 4.2 * units.Metre},
			{Flow: m3h(350), Head: 2.7 * units.Metre},
		},
	}
}

func fishPump() pumpsizing.PumpData {
	return pumpsizing.PumpData{
		Curve:      dataSheet(),
		Efficiency: pumpsizing.EfficiencyData{Best: 0.55, BestFlow: units.CubicMetresPerHour.Of(240)},
		Impeller:   0.35 * units.Metre,
	}
}

// hoseToTable lifts 3.6 m and loses 0.256 m at 230 m3/h.
var hoseToTable = pumpsizing.QuadraticSystem{Static: 3.6 * units.Metre, Resistance: 62.6}

// What does the pump move at 520 r/min, and what if the engine sags to 370?
func ExampleCurve_Meet() {
	curve, err := pumpsizing.FitCurve(dataSheet())
	if err != nil {
		fmt.Println(err)
		return
	}
	op, err := curve.Meet(hoseToTable, units.RevolutionsPerMinute.Of(520))
	fmt.Printf("%.1f m3/h at %.3f m, %v\n", op.Flow.In(units.CubicMetresPerHour), op.Head.Metres(), err)

	_, err = curve.Meet(hoseToTable, units.RevolutionsPerMinute.Of(370))
	fmt.Println(errors.Is(err, units.ErrNoSolution), err)
	// Output:
	// 229.6 m3/h at 3.855 m, <nil>
	// true pumpsizing.Curve.Meet: n = 370 r/min: no solution: lift 3.6 m is above the shut-off head 3.423 m; the minimum speed for the lift is 379.5 r/min (valid: at least 379.473 r/min)
}

// The curve, read and carried to other speeds, in series and in parallel.
func ExampleFitCurve() {
	curve, err := pumpsizing.FitCurve(dataSheet())
	if err != nil {
		fmt.Println(err)
		return
	}
	h0, b, a, _ := curve.Coefficients()
	fmt.Printf("H = %.3f - %.2f Q - %.1f Q^2 at %.0f r/min\n", h0, b, a, curve.RatedSpeed().In(units.RevolutionsPerMinute))
	n := units.RevolutionsPerMinute.Of(520)
	_, last := curve.Range(n)
	fmt.Printf("at 520 r/min: shut-off %.2f m, data to %.0f m3/h, %.2f m at 200 m3/h\n",
		curve.ShutOffHead(n).Metres(), last.In(units.CubicMetresPerHour), curve.Head(units.CubicMetresPerHour.Of(200), n).Metres())
	two, err := curve.InParallel(2).Meet(hoseToTable, n)
	fmt.Printf("two side by side: %.0f m3/h, %v\n", two.Flow.In(units.CubicMetresPerHour), err)
	// Output:
	// H = 9.000 - 14.40 Q - 518.4 Q^2 at 600 r/min
	// at 520 r/min: shut-off 6.76 m, data to 303 m3/h, 4.47 m at 200 m3/h
	// two side by side: 407 m3/h, <nil>
}

// How slowly may the pump turn before the flow stops?
func ExampleCurve_MinimumSpeed() {
	curve, _ := pumpsizing.FitCurve(dataSheet())
	m, err := curve.MinimumSpeed(3.6 * units.Metre)
	fmt.Printf("%.1f r/min, %v\n", m.Start.In(units.RevolutionsPerMinute), err)
	// Output: 379.5 r/min, <nil>
}

// What speed and power does a wanted flow take?
func ExamplePump_ForFlow() {
	pump, err := pumpsizing.NewPump(fishPump())
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := pump.ForFlow(hoseToTable, units.CubicMetresPerHour.Of(230), 1018*units.KilogramPerCubicMetre)
	fmt.Printf("%.0f r/min, %.2f kW at an efficiency of %.3f, tip speed %.1f m/s, %v\n", d.Speed.In(units.RevolutionsPerMinute),
		d.ShaftPower.In(units.Kilowatts), d.Efficiency, d.TipSpeed.MetresPerSecond(), err)
	fmt.Printf("half flow at rated speed: efficiency %.3f\n", pump.Efficiency().At(units.CubicMetresPerHour.Of(120), 1))
	// Output:
	// 520 r/min, 4.52 kW at an efficiency of 0.544, tip speed 9.5 m/s, <nil>
	// half flow at rated speed: efficiency 0.413
}

// What does a higher platform cost at a fixed speed?
func ExamplePump_PlatformSweep() {
	pump, _ := pumpsizing.NewPump(fishPump())
	raises := []units.Length{-0.6 * units.Metre, 0, 0.6 * units.Metre, 1.2 * units.Metre}
	for _, s := range pump.PlatformSweep(hoseToTable, raises, units.RevolutionsPerMinute.Of(520), 1018*units.KilogramPerCubicMetre) {
		fmt.Printf("%+.1f m: %.0f m3/h\n", s.Raise.Metres(), s.Duty.Flow.In(units.CubicMetresPerHour))
	}
	// Output:
	// -0.6 m: 254 m3/h
	// +0.0 m: 230 m3/h
	// +0.6 m: 203 m3/h
	// +1.2 m: 174 m3/h
}

func drive() pumpsizing.HydraulicDriveData {
	return pumpsizing.HydraulicDriveData{
		Pump:         fishPump(),
		WaterDensity: 1018 * units.KilogramPerCubicMetre,
		Motor:        pumpsizing.HydraulicMotor{Displacement: 80 * units.CubicCentimetrePerRevolution, Volumetric: 0.92, Hydromechanical: 0.88},
		Oil:          pumpsizing.OilState{Viscosity: 32 * units.Centistoke, Density: 870 * units.KilogramPerCubicMetre},
		Line:         pumpsizing.OilLine{Bore: 19 * units.Millimetre, Length: 30 * units.Metre},
		Valves:       4 * units.Bar,
		Return:       3 * units.Bar,
		OilPump:      pumpsizing.OilPump{Overall: 0.85},
		Relief:       pumpsizing.Relief{Set: 175 * units.BarGauge},
		Tractor: &pumpsizing.Tractor{Power: 26 * units.Kilowatt, Basis: pumpsizing.PTOPower,
			EngineSpeed: 2000 * units.RevolutionPerMinute, AirTemp: units.Celsius(33)},
		Reservoir: &pumpsizing.Reservoir{Oil: 87 * units.Kilogram, Loss: 15.6 * units.WattPerKelvin,
			Ambient: units.Celsius(33), Start: units.Celsius(33), Limit: units.Celsius(82)},
	}
}

// From the water back to the tractor: pressures, flows, power and time to heat.
func ExampleHydraulicDrive_ForFlow() {
	h, err := pumpsizing.NewHydraulicDrive(drive())
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := h.ForFlow(hoseToTable, units.CubicMetresPerHour.Of(230))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("motor %.1f bar, %.1f L/min; pump %.1f bar; PTO %.2f kW, %.0f %% of what the tractor has\n", d.MotorPressure.In(units.Bars),
		d.OilFlow.In(units.LitresPerMinute), d.PumpPressure.In(units.Bars), d.PTOPower.In(units.Kilowatts), 100*d.Tractor.LoadAtSpeed)
	fmt.Printf("%.2f kW to the oil: 82 C after %.0f min; jammed, after %.0f min\n", d.HeatToOil.In(units.Kilowatts),
		d.OilHeating.TimeToLimit.Minutes(), d.Stall.TimeToLimit.Minutes())
	for _, n := range d.Notices {
		if n.Severity >= units.Warning {
			fmt.Println(n.Severity, n.Code)
		}
	}
	// Output:
	// motor 74.0 bar, 45.2 L/min; pump 83.0 bar; PTO 7.37 kW, 29 % of what the tractor has
	// 2.84 kW to the oil: 82 C after 55 min; jammed, after 11 min
	// warning PUMP_OIL_TEMPERATURE
	// danger PUMP_OIL_TEMPERATURE
	// danger PUMP_SAFETY_PTO
	// danger PUMP_SAFETY_OIL
}

// A relief setting typed in the wrong unit is refused with the likely answer.
func ExampleRelief() {
	fmt.Println(pumpsizing.Relief{Set: 2500 * units.BarGauge}.Validate())
	r := pumpsizing.Relief{Set: 175 * units.BarGauge}
	free, _ := r.FreeShare(83 * units.BarGauge)
	heat, _ := r.Heat(45.2 * units.LitrePerMinute)
	pass, _ := r.SinglePassRise(870*units.KilogramPerCubicMetre, 1900*units.JoulePerKilogramKelvin)
	fmt.Printf("%.3f free; stalled %.2f kW, %.1f K in one pass\n", free, heat.In(units.Kilowatts), pass.Kelvins())
	// Output:
	// pumpsizing.Relief: set = 2500 bar: impossible input: 2500 bar is beyond any mobile hydraulic set; if the gauge says psi, 2500 psi is 172.4 bar (valid: 0 to 400 bar)
	// 0.526 free; stalled 13.18 kW, 10.6 K in one pass
}

// Oil temperature against time.
func ExampleReservoir() {
	tank := pumpsizing.Reservoir{Oil: 60 * units.Kilogram, Loss: 45 * units.WattPerKelvin,
		Ambient: units.Celsius(30), Start: units.Celsius(30), Limit: units.Celsius(65)}
	h, _ := tank.Under(2500 * units.Watt)
	half, _ := tank.At(30*time.Minute, 2500*units.Watt)
	cooler, _ := tank.CoolerConductance(2500 * units.Watt)
	fmt.Printf("65 C after %v, levels off at %.1f C; %.1f C after half an hour; %.1f W/K would hold it\n",
		h.TimeToLimit.Round(time.Second), h.Plateau.Celsius(), half.Celsius(), cooler.WattsPerKelvin())
	// Output: 65 C after 41m59s, levels off at 85.6 C; 58.3 C after half an hour; 71.4 W/K would hold it
}

// Cold oil in the morning: how long until it flows easily, and until it is hot?
func ExampleHydraulicDrive_OilCourse() {
	data := drive()
	data.Reservoir.Ambient, data.Reservoir.Start = units.Celsius(5), units.Celsius(5)
	h, err := pumpsizing.NewHydraulicDrive(data)
	if err != nil {
		fmt.Println(err)
		return
	}
	grade, _ := pumpsizing.ISOVG(46)
	oil, _ := pumpsizing.NewOil(grade)
	easy, _ := oil.TemperatureFor(100 * units.Centistoke)
	fmt.Printf("100 mm2/s at %.0f C\n", easy.Celsius())
	c, err := h.OilCourse(hoseToTable, units.CubicMetresPerHour.Of(230), oil, 15*time.Minute, time.Hour)
	for _, s := range c.Steps {
		fmt.Printf("%2.0f min: %.0f C, %.0f mm2/s, %.0f bar\n", s.After.Minutes(), s.Temperature.Celsius(), s.Viscosity.In(units.Centistokes), s.PumpPressure.In(units.Bars))
	}
	fmt.Println(c.ReachesLimit, err)
	// Output:
	// 100 mm2/s at 25 C
	//  0 min: 5 C, 382 mm2/s, 105 bar
	// 15 min: 24 C, 103 mm2/s, 87 bar
	// 30 min: 39 C, 49 mm2/s, 84 bar
	// 45 min: 51 C, 29 mm2/s, 83 bar
	// 60 min: 62 C, 19 mm2/s, 83 bar
	// false <nil>
}
