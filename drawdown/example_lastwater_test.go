package drawdown_test

import (
	"fmt"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/units"
)

// Six hundred kilograms crowded in a basin of 40 m3: how long the oxygen lasts
// as things stand, when the power fails, and what inflow holds it.
func ExampleOxygenBudget_Outlook() {
	o, err := drawdown.OxygenBudget{
		Volume: 40 * units.CubicMetre, Stock: 600 * units.Kilogram,
		Respiration: 350 * units.MilligramPerKilogramHour,
		Start:       5 * units.MilligramPerLitre, Limit: 2.5 * units.MilligramPerLitre,
		Inflow: 40 * units.CubicMetrePerHour, InflowOxygen: 6 * units.MilligramPerLitre,
		Temperature: units.Celsius(28), Salinity: 20 * units.PracticalSalinityUnit,
	}.Outlook()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("saturation %.1f mg/L, limit met: %t, in %.0f min; unsupplied %.0f min\n",
		o.Saturation.In(units.MilligramsPerLitre), o.Meets, o.TimeToLimit.Minutes(), o.Unsupplied.Minutes())
	fmt.Printf("hold it with %.0f m3/h\n", o.InflowToHold.In(units.CubicMetresPerHour))
	// Output:
	// saturation 7.0 mg/L, limit met: true, in 53 min; unsupplied 29 min
	// hold it with 60 m3/h
}

// Saturated oxygen on a high farm and the toxic share of ammonia.
func ExampleOxygenSaturation() {
	p, _ := drawdown.AirPressure(1900 * units.Metre)
	c, err := drawdown.OxygenSaturation(units.Celsius(24), 0, p)
	fmt.Printf("%.2f mg/L %v\n", c.In(units.MilligramsPerLitre), err)
	f, err := drawdown.UnionizedAmmonia(units.Celsius(28), 8)
	fmt.Printf("%.2f %% %v\n", 100*f, err)
	// Output:
	// 6.64 mg/L <nil>
	// 6.54 % <nil>
}

// The crowd as the stage falls past the start of the run.
func ExampleCrowd_At() {
	pond, err := drawdown.NewStageTable([]drawdown.StageArea{{Stage: 0, Area: 40}, {Stage: 0.3, Area: 2800}, {Stage: 1.2, Area: 3400}})
	if err != nil {
		fmt.Println(err)
		return
	}
	curve := drawdown.CrowdingCurve{RunStarts: 0.25, Exponent: 0.8, Stranded: 0.02}
	c := drawdown.Crowd{Pond: pond, Start: 1.2 * units.Metre, Stock: 2400 * units.Kilogram, Curve: curve}
	fmt.Printf("a tenth of the water keeps %.0f %% of the stock, %.0f %% are out\n", 100*curve.Remaining(0.1), 100*curve.MovedOut(0.1))
	s, err := c.At(0.3*units.Metre, 200*units.CubicMetrePerHour)
	fmt.Printf("%.2f kg/m3, %.1f kg/min, %.0f kg of water per kg %v\n", s.Density.KilogramsPerCubicMetreWater(), s.Delivery.In(units.KilogramsPerMinute), s.WaterPerAnimal, err)
	// Output:
	// a tenth of the water keeps 48 % of the stock, 52 % are out
	// 3.39 kg/m3, 9.0 kg/min, 369 kg of water per kg <nil>
}

// Three more flushes of the basin: time, water and whether the next one pays.
func ExampleFlushCycles_Plan() {
	f := drawdown.FlushCycles{Basin: 40 * units.CubicMetre, Refill: 80 * units.CubicMetrePerHour, PumpOut: 250 * units.CubicMetrePerHour, Removal: 0.65}
	n, _ := f.Needed(0.05)
	r, _ := f.Residual(n)
	fmt.Printf("%d flushes leave %.1f %%\n", n, 100*r)
	p, err := f.Plan(90*units.Kilogram, n)
	fmt.Printf("%.0f min, %.0f, %.1f recovered %v\n", p.Time.Minutes(), p.Water, p.Recovered, err)
	next, err := f.Next(p.Left, n, 7, 150)
	fmt.Printf("one more brings %.1f and %.0f net: %t %v\n", next.Catch, next.Net, next.Worth, err)
	removal, left, err := drawdown.RemovalFromCatches(60*units.Kilogram, 21*units.Kilogram)
	fmt.Printf("removal %.2f, left %.1f %v\n", removal, left, err)
	// Output:
	// 3 flushes leave 4.3 %
	// 119 min, 120 m3, 86.1 kg recovered <nil>
	// one more brings 2.5 kg and -81 net: false <nil>
	// removal 0.65, left 11.3 kg <nil>
}

// A drain with its first flush and its muddy end, held against a permit.
func ExampleEffluent_HoldBackFor() {
	mg := units.MilligramsPerLitre.Of
	e := drawdown.Effluent{Volume: 3200 * units.CubicMetre, Samples: []drawdown.EffluentSample{
		{Drained: 0, Concentration: mg(900)}, {Drained: 0.03, Concentration: mg(90)}, {Drained: 0.8, Concentration: mg(80)}, {Drained: 1, Concentration: mg(1100)}}}
	all, _ := e.Load(0, 1)
	last, _ := e.Load(0.8, 1)
	mean, _ := e.Mean(0, 1)
	fmt.Printf("%.0f, of which %.0f in the last fifth, mean %.0f mg/L\n", all, last, mean.In(units.MilligramsPerLitre))
	hold, err := e.HoldBackFor(drawdown.PermitLimit{Name: "suspended solids", Mean: mg(120), Source: "permit of this farm"})
	fmt.Printf("hold back the last %.1f %% %v\n", 100*hold, err)
	// Output:
	// 635 kg, of which 378 kg in the last fifth, mean 198 mg/L
	// hold back the last 11.3 % <nil>
}

// A settling basin for the water held back.
func ExampleSettlingArea() {
	flow := 60 * units.LitrePerSecond
	v, _ := drawdown.StokesVelocity(25*units.Micrometre, 2600*units.KilogramPerCubicMetre, 1010*units.KilogramPerCubicMetre, 0.9*units.MillipascalSecond)
	sand, _ := drawdown.FergusonChurchVelocity(200*units.Micrometre, 1.65, 0.9e-6*units.SquareMetrePerSecond, drawdown.NaturalGrain)
	area, _ := drawdown.SettlingArea(flow, v)
	volume, _ := drawdown.SettlingVolume(flow, 6*time.Hour)
	fmt.Printf("silt %.2f mm/s, sand %.1f mm/s; %.0f and %.0f\n", 1000*v.MetresPerSecond(), 1000*sand.MetresPerSecond(), area, volume)
	rate, _ := drawdown.OverflowRate(flow, 2*area)
	hours, _ := drawdown.Detention(volume, flow)
	share, _ := drawdown.SettledFraction(v, 2*area, flow, 3)
	fmt.Printf("at twice the area: %.3f mm/s, %.0f h, %.0f %% caught\n", 1000*rate.MetresPerSecond(), hours.Hours(), 100*share)
	stone, err := drawdown.IsbashStone(1.8*units.MetrePerSecond, 2.65, drawdown.HighTurbulence)
	fmt.Printf("stone at the outfall: %.0f mm %v\n", stone.In(units.Millimetres), err)
	// Output:
	// silt 0.60 mm/s, sand 24.8 mm/s; 100 m2 and 1296 m3
	// at twice the area: 0.301 mm/s, 6 h, 78 % caught
	// stone at the outfall: 135 mm <nil>
}
