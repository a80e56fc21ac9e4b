package pumpsizing_test

import (
	"fmt"

	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

// How much can this drive move at most, and what stops it?
func ExampleHydraulicDrive_Greatest() {
	data := drive()
	data.Relief.Set = 110 * units.BarGauge
	h, err := pumpsizing.NewHydraulicDrive(data)
	if err != nil {
		fmt.Println(err)
		return
	}
	g, err := h.Greatest(hoseToTable, false)
	fmt.Printf("%.0f m3/h at %.0f r/min and %.1f bar, bound by %s, %v\n", g.Duty.Pump.Flow.In(units.CubicMetresPerHour),
		g.Duty.Pump.Speed.In(units.RevolutionsPerMinute), g.Duty.PumpPressure.In(units.Bars), g.Binding, err)
	// Output: 267 m3/h at 558 r/min and 93.5 bar, bound by relief margin, <nil>
}

// The flow at the table is low and the gauge reads less than planned: why?
func ExampleHydraulicDrive_Explain() {
	h, err := pumpsizing.NewHydraulicDrive(drive())
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := h.Explain(hoseToTable, pumpsizing.Reading{Speed: units.RevolutionsPerMinute.Of(520),
		Flow: units.CubicMetresPerHour.Of(180), PumpPressure: 62 * units.BarGauge})
	fmt.Printf("flow %.0f %% of plan, pressure %+.0f %%, %v\n", 100*f.FlowRatio, 100*f.PressureGap, err)
	for _, e := range f.Explanations {
		fmt.Printf("%+4.0f %%  %s (%.2f %s)\n", 100*e.Misfit, e.Cause, e.Amount, e.Unit)
	}
	// Output:
	// flow 78 % of plan, pressure -25 %, <nil>
	//   -6 %  air in the pump or a choked eye (0.22 of its head)
	//  -25 %  more resistance in screen, hose or valves (1.08 m)
	//  -25 %  another lift than planned (1.08 m)
	//  -25 %  a worn impeller that gives less head (0.22 of its head)
}

// A tractor at 374 r/min: what comes out of the hose?
func ExampleHydraulicDrive_FromPTO() {
	data := drive()
	data.OilPump = pumpsizing.OilPump{Displacement: 45 * units.CubicCentimetrePerRevolution, Volumetric: 0.93, Hydromechanical: 0.90}
	data.StepUp = 3
	h, err := pumpsizing.NewHydraulicDrive(data)
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := h.FromPTO(hoseToTable, units.RevolutionsPerMinute.Of(374))
	fmt.Printf("%.0f m3/h, impeller at %.0f r/min, engine at %.0f r/min, %.1f L/h of diesel, %.0f %% of its heat reaches the water, %v\n",
		d.Pump.Flow.In(units.CubicMetresPerHour), d.Pump.Speed.In(units.RevolutionsPerMinute), d.Tractor.EngineSpeed.In(units.RevolutionsPerMinute),
		d.Tractor.Fuel.In(units.LitresPerHour), 100*d.Tractor.FuelToWater, err)
	// Output: 250 m3/h, impeller at 540 r/min, engine at 1385 r/min, 3.3 L/h of diesel, 8 % of its heat reaches the water, <nil>
}

// Two different pumps side by side.
func ExampleMeetParallel() {
	big, _ := pumpsizing.FitCurve(dataSheet())
	m3h := units.CubicMetresPerHour.Of
	small, _ := pumpsizing.FitCurve(pumpsizing.CurveData{Speed: units.RevolutionsPerMinute.Of(600), Points: []pumpsizing.CurvePoint{
		{Flow: m3h(0), Head: 5 * units.Metre}, {Flow: m3h(100), Head: 4.2 * units.Metre}, {Flow: m3h(200), Head: 2.2 * units.Metre}}})
	n := units.RevolutionsPerMinute.Of(600)
	d, err := pumpsizing.MeetParallel(hoseToTable, pumpsizing.BankUnit{Curve: big, Speed: n}, pumpsizing.BankUnit{Curve: small, Speed: n})
	fmt.Printf("%.0f m3/h at %.2f m: %.0f and %.0f m3/h, %v\n", d.Flow.In(units.CubicMetresPerHour), d.Head.Metres(),
		d.Flows[0].In(units.CubicMetresPerHour), d.Flows[1].In(units.CubicMetresPerHour), err)
	// Output: 387 m3/h at 4.32 m: 296 and 91 m3/h, <nil>
}
