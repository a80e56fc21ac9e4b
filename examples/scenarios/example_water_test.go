package scenarios_test

import (
	"fmt"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

// How much water is in the pond, how long does it take, and what governs the
// outlet at each stage? A pipe of hydraulics drains a pond of drawdown.
func Example_hoursToDrain() {
	pond, pipes := canePond(1), caneDrains(2, 3.4)
	fmt.Printf("%.0f m3, %.2f acre-feet\n", pond.Capacity().CubicMetres(), pond.Capacity().In(units.AcreFeet))
	for _, level := range []units.Length{1.6 * units.Metre, 0.9 * units.Metre, 0.1 * units.Metre} {
		fmt.Printf("%.1f m: %.0f m3/h by the %v\n", level.Metres(), pipes.Discharge(level, -1*units.Metre).In(units.CubicMetresPerHour), pipes.Control(level, -1*units.Metre))
	}
	run, err := drawdown.Plan{
		Pond: pond, Start: morning, Stage: 1.6 * units.Metre, Target: 0.45 * units.Metre,
		Gates:   []drawdown.Gate{{Name: "drains", Outlet: pipes}},
		Inflows: []drawdown.Inflow{{Name: "well", Rate: units.CubicMetresPerHour.Of(75)}},
	}.Run()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("0.45 m after %.1f h\n", run.Elapsed.Hours())
	// Output:
	// 46655 m3, 37.82 acre-feet
	// 1.6 m: 1285 m3/h by the full pipe
	// 0.9 m: 921 m3/h by the full pipe
	// 0.1 m: 29 m3/h by the part-full pipe
	// 0.45 m after 46.9 h
}

// tidalNight is a small pond behind a flap gate on a river mouth.
func tidalNight() drawdown.Plan {
	zero := -0.6 * units.Metre // of the tide table, above the outlet's invert
	high := time.Date(2027, 3, 14, 17, 0, 0, 0, time.UTC)
	tide := &drawdown.TideTable{Zone: time.UTC, Datum: "port", ZeroAbovePond: &zero}
	for i := -1; i < 5; i++ {
		at := high.Add(time.Duration(i) * (12*time.Hour + 25*time.Minute))
		tide.Turnings = append(tide.Turnings, drawdown.Turning{At: at, Level: 1.3 * units.Metre},
			drawdown.Turning{At: at.Add(6*time.Hour + 12*time.Minute), Level: 0.2 * units.Metre})
	}
	pipe := must(hydraulics.NewOutletPipe(hydraulics.OutletPipeSpec{Bore: 300 * units.Millimetre, Length: 18 * units.Metre,
		Roughness: 0.015 * units.Millimetre, LossSum: 2.7, EntryLoss: 0.05, Viscosity: 0.85 * units.Centistoke, Backflow: hydraulics.BackflowFlap}))
	pond := must(drawdown.NewStageTable([]drawdown.StageArea{
		{Stage: 0, Area: 120 * units.SquareMetre}, {Stage: 0.2 * units.Metre, Area: 3600 * units.SquareMetre},
		{Stage: 0.8 * units.Metre, Area: 4500 * units.SquareMetre}, {Stage: 1.4 * units.Metre, Area: 5000 * units.SquareMetre}}))
	return drawdown.Plan{Pond: pond, Start: high.Add(-5 * time.Hour), Stage: 0.9 * units.Metre, Target: 0.25 * units.Metre, Tailwater: tide,
		Gates: []drawdown.Gate{{Name: "drain", Outlet: pipe, Backflow: drawdown.FlapGate}}}
}

// When must the gate open tonight, and what does a moment later cost? The plan
// is asked backward from the hour the basin must be ready.
func Example_latestOpening() {
	p := tidalNight()
	o, err := p.LatestOpening(p.Start.Add(15*time.Hour), drawdown.OpeningSearch{Latest: p.Start.Add(10 * time.Hour)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("open by %s, ready %s\n", o.Opening.Format("15:04"), o.Ready.Format("15:04"))
	for _, c := range o.Cliffs {
		fmt.Printf("opened a second after %s it is ready %.1f h later\n", c.Before.Format("15:04"), c.Jump.Hours())
	}
	// Output:
	// open by 18:45, ready 02:40
	// opened a second after 18:45 it is ready 5.5 h later
}

// The tide will not free the drain in time: what pump over the dike makes the
// hour, and does this one? drawdown asks for a flow, pumpsizing answers.
func Example_pumpOverTheDike() {
	p := tidalNight()
	p.Opening = p.Start.Add(8 * time.Hour)
	need, err := p.RequiredPump(p.Start.Add(15 * time.Hour))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("at %s the tide leaves %.0f m3 to go; a pump of %.1f m3/h from the opening on makes it\n", need.Asked.Format("15:04"), need.Left.CubicMetres(), need.Pump.In(units.CubicMetresPerHour))
	// The hose ends 2.4 m above the pond's datum: sized for the lowest stage.
	hose, end := flatHose(25*units.Metre), 2.4*units.Metre
	d, err := smallPump.ForFlow(pumpsizing.Raised{System: hose, By: end - p.Target}, need.Pump, caneWater.Density)
	if err != nil {
		fmt.Println(err)
		return
	}
	p.Gates = append(p.Gates, drawdown.Gate{Name: "pump", Backflow: drawdown.Pumped, Outlet: pumpOver(smallPump, hose, d.Speed, caneWater.Density, end)})
	run, err := p.Run()
	fmt.Printf("%.0f r/min and %.2f kW; then ready %s %v\n", d.Speed.In(units.RevolutionsPerMinute), d.ShaftPower.In(units.Kilowatts), run.Ready.Format("15:04"), err)
	// Output:
	// at 03:00 the tide leaves 177 m3 to go; a pump of 46.8 m3/h from the opening on makes it
	// 447 r/min and 0.54 kW; then ready 02:32 <nil>
}

// The screen is clogging: stages read by telephone against the plan, and the new
// hour. The readings are of pipes with twice the losses, which pass
// sqrt((3.4 + 1.4)/(6.8 + 1.4)) = 77 % when they run full.
func Example_planAgainstReadings() {
	plan := drawdown.Plan{Pond: canePond(1), Start: morning, Stage: 1.6 * units.Metre, Target: 0.45 * units.Metre,
		Gates: []drawdown.Gate{{Name: "drains", Outlet: caneDrains(2, 3.4)}}}
	clogged := plan
	clogged.Gates = []drawdown.Gate{{Name: "drains", Outlet: caneDrains(2, 6.8)}}
	truth := must(clogged.Run())
	var read []drawdown.StageReading
	for _, h := range []time.Duration{6, 12, 18, 24} {
		at := morning.Add(h * time.Hour)
		read = append(read, drawdown.StageReading{At: at, Stage: truth.Hydrograph.Stage(at), SD: 1 * units.Centimetre})
	}
	c, err := plan.Calibrate(read, drawdown.Priors{Clogging: -1, Area: 0.02})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the outlet passes %.0f %%; planned after %.1f h, now %.1f h; it will be %.1f h\n", 100*c.Outlet.Value,
		c.Planned.Sub(morning).Hours(), c.Ready.Sub(morning).Hours(), truth.Elapsed.Hours())
	// Output:
	// the outlet passes 77 %; planned after 43.0 h, now 56.4 h; it will be 56.4 h
}

// Will the pump lift it, at what speed, and what do the animals meet? A hose of
// hydraulics is the system of a pump.
func Example_pumpSpeed() {
	d, err := canePump.ForFlow(caneHose(), units.CubicMetresPerHour.Of(360), caneWater.Density)
	if err != nil {
		fmt.Println(err)
		return
	}
	least, _ := canePump.Curve().MinimumSpeed(d.Lift)
	fmt.Printf("%.0f r/min for %.2f m, %.2f kW at the shaft; below %.0f r/min nothing flows\n", d.Speed.In(units.RevolutionsPerMinute),
		d.Head.Metres(), d.ShaftPower.In(units.Kilowatts), least.Start.In(units.RevolutionsPerMinute))
	screen, _ := pumpsizing.ScreenAnimals(pumpsizing.AnimalDuty{Flow: d.Flow, Hose: 305 * units.Millimetre, Speed: d.Speed, Solids: 0.04}, pumpsizing.DefaultAnimalLimits())
	fmt.Printf("in the hose %.2f m/s\n", screen.HoseVelocity.MetresPerSecond())
	for _, f := range screen.Flags {
		if f.Verdict == pumpsizing.VerdictClose || f.Verdict == pumpsizing.VerdictBeyond {
			fmt.Println(f.What, f.Verdict)
		}
	}
	// Output:
	// 452 r/min for 5.21 m, 8.87 kW at the shaft; below 340 r/min nothing flows
	// in the hose 1.37 m/s
}

// What does a higher platform cost, and from where does no more than a thousandth
// of the water run down the chute? The pump's flow at each lift is the curve that
// the table is worked with.
func Example_platformHeight() {
	table, err := hydraulics.NewDewateringTable(hydraulics.TableSpec{
		Grate:     hydraulics.GrateSpec{Width: 1.2 * units.Metre, Length: 0.6 * units.Metre, Gap: 8 * units.Millimetre, Bar: 10 * units.Millimetre, Coefficient: 0.6},
		EntryBore: 305 * units.Millimetre, EntryKept: 0.8, SlideSpeed: 0.4 * units.MetrePerSecond, Footprint: 0.02 * units.SquareMetre,
		Adhering: 0.03, WaterDensity: caneWater.Density})
	if err != nil {
		fmt.Println(err)
		return
	}
	curve := liftCurve(canePump, flatHose(18*units.Metre), units.RevolutionsPerMinute.Of(452), caneWater.Density)
	now := hydraulics.TableSetting{Product: 60 * units.KilogramPerMinute, Slope: 10 * units.Degree}
	rows, _ := table.Trade(now, curve, []units.Length{4.3 * units.Metre, 4.9 * units.Metre, 5.5 * units.Metre})
	for _, r := range rows {
		fmt.Printf("%.1f m: %.0f m3/h, water %.0f %% of the product\n", r.Lift.Metres(), r.Flow.In(units.CubicMetresPerHour), 100*r.State.CarryOver)
	}
	height, flow, err := table.DryHeight(now, 0.001, curve, 3*units.Metre, 7*units.Metre)
	fmt.Printf("dry from %.2f m, %.0f m3/h %v\n", height.Metres(), flow.In(units.CubicMetresPerHour), err)
	// Output:
	// 4.3 m: 392 m3/h, water 321 % of the product
	// 4.9 m: 361 m3/h, water 156 % of the product
	// 5.5 m: 327 m3/h, water 43 % of the product
	// dry from 5.81 m, 309 m3/h <nil>
}

// How long does the crowd last, and does water borrowed from the next pond hold
// it? The pipe between the ponds is the basin's inflow.
func Example_borrowedWater() {
	between := caneDrains(1, 3.4)
	b := drawdown.OxygenBudget{Volume: 150 * units.CubicMetre, Stock: 5 * units.Tonne, Respiration: 250 * units.MilligramPerKilogramHour,
		Start: 5 * units.MilligramPerLitre, Limit: 3 * units.MilligramPerLitre, InflowOxygen: 6.5 * units.MilligramPerLitre, Temperature: units.Celsius(22)}
	for _, head := range []units.Length{0.2 * units.Metre, 0.4 * units.Metre, 0.8 * units.Metre} {
		b.Inflow = between.Discharge(0.4*units.Metre+head, 0.4*units.Metre)
		o, err := b.Outlook()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f m more next door: %.0f m3/h; 3 mg/L needs %.0f; ", head.Metres(), b.Inflow.In(units.CubicMetresPerHour), o.InflowToHold.In(units.CubicMetresPerHour))
		if o.Meets {
			fmt.Printf("%.1f min left\n", o.TimeToLimit.Minutes())
		} else {
			fmt.Printf("settles at %.2f mg/L\n", o.Tends.In(units.MilligramsPerLitre))
		}
	}
	// Output:
	// 0.2 m more next door: 237 m3/h; 3 mg/L needs 357; 28.7 min left
	// 0.4 m more next door: 336 m3/h; 3 mg/L needs 357; 62.1 min left
	// 0.8 m more next door: 477 m3/h; 3 mg/L needs 357; settles at 3.88 mg/L
}

// Carry on or turn back? The stage below which the refill takes longer than the
// oxygen lasts; the water comes through the pipes from the next pond.
func Example_pointOfNoReturn() {
	inflow := caneDrains(2, 3.4).Discharge(1.2*units.Metre, 0.3*units.Metre)
	r, err := drawdown.Refill{Pond: mesaPond(), Flow: inflow, Safe: 1.0 * units.Metre, Now: 0.8 * units.Metre,
		Oxygen: drawdown.OxygenBudget{Volume: 1, Stock: 9500 * units.Kilogram, Respiration: 150 * units.MilligramPerKilogramHour,
			Start: 6 * units.MilligramPerLitre, Limit: 2 * units.MilligramPerLitre, Temperature: units.Celsius(21), Pressure: mesaAir}}.NoReturn()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f m3/h; at 0.8 m %.1f h to refill and %.1f h of oxygen; no return below %.2f m\n",
		inflow.In(units.CubicMetresPerHour), r.RefillNow.Hours(), r.OxygenNow.Hours(), r.Stage.Metres())
	// Output:
	// 1012 m3/h; at 0.8 m 1.8 h to refill and 14.5 h of oxygen; no return below 0.42 m
}
