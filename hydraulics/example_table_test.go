package hydraulics_test

import (
	"fmt"

	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

// The length of grate that 180 m3/h on 0.8 m needs, by five authors: the spread
// is the honest answer.
func ExampleRack_WettedLength() {
	sheet := hydraulics.Sheet{Flow: 180 * units.CubicMetrePerHour, Width: 0.8 * units.Metre}
	slope := 8 * units.Degree
	grate := hydraulics.GrateSpec{Gap: 8 * units.Millimetre, Bar: 10 * units.Millimetre}
	m := grate.VoidRatio()
	rack, err := hydraulics.NewRack(hydraulics.RackSpec{VoidRatio: m, Coefficient: 0.6, Slope: slope})
	if err != nil {
		fmt.Println(err)
		return
	}
	l, _ := rack.WettedLength(sheet)
	band, _ := rack.Band(sheet)
	fmt.Printf("static head %.2f m, between %.2f and %.2f m\n", l.Metres(), band.Shortest.Metres(), band.Longest.Metres())
	mostkow, _ := hydraulics.NewRack(hydraulics.RackSpec{Law: hydraulics.EnergyHead, VoidRatio: m, Coefficient: hydraulics.ParallelBarsEnergyHead, Slope: slope})
	l, _ = mostkow.WettedLength(sheet)
	fmt.Printf("Mostkow %.2f m\n", l.Metres())
	kappa, _ := hydraulics.FrankKappa(slope)
	l, _ = hydraulics.FrankWettedLength(sheet, m, 0.62, slope)
	half, _ := hydraulics.FrankIntercepted(0.5)
	fmt.Printf("Frank %.2f m (kappa %.3f), %.0f %% gone half way\n", l.Metres(), kappa, 100*half)
	l, _ = hydraulics.KrochinWettedLength(sheet, m, 0.2, 0.5, slope)
	fmt.Printf("Krochin %.2f m\n", l.Metres())
	l, _ = hydraulics.BrunellaWettedLength(sheet, m)
	fmt.Printf("Brunella, Hager and Minor %.2f m\n", l.Metres())
	c, _ := hydraulics.NosedaCoefficient(1, m)
	fmt.Printf("Noseda's coefficient at a depth of one pitch %.2f\n", c)
	// Output:
	// static head 0.53 m, between 0.49 and 0.53 m
	// Mostkow 0.18 m
	// Frank 0.50 m (kappa 0.926), 77 % gone half way
	// Krochin 0.45 m
	// Brunella, Hager and Minor 0.20 m
	// Noseda's coefficient at a depth of one pitch 0.75
}

// How much a table dries, and the settings that just dry the product: less flow,
// a higher platform, flatter bars.
func ExampleNewDewateringTable() {
	table, err := hydraulics.NewDewateringTable(hydraulics.TableSpec{
		Grate: hydraulics.GrateSpec{Width: 0.8 * units.Metre, Length: 0.6 * units.Metre,
			Gap: 8 * units.Millimetre, Bar: 10 * units.Millimetre, Coefficient: 0.6},
		EntryBore: 254 * units.Millimetre, EntryKept: 0.8, SlideSpeed: 0.4 * units.MetrePerSecond,
		Footprint: 0.02 * units.SquareMetre, Adhering: 0.03, WaterDensity: 1018 * units.KilogramPerCubicMetre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	now := hydraulics.TableSetting{Flow: 190 * units.CubicMetrePerHour, Product: 0.5 * units.KilogramPerSecond,
		Slope: 8 * units.Degree, Blocked: 0.1}
	state, _ := table.At(now)
	fmt.Printf("%.2f %% runs off: %.0f %% of the product's mass is water\n", 100*state.Grate.RunOffShare, 100*state.CarryOver)

	q, _ := table.DryFlow(now, 0)
	fmt.Printf("dry up to %.0f m3/h\n", q.In(units.CubicMetresPerHour))
	pump := func(lift units.Length) units.Flow {
		return 432*units.CubicMetrePerHour - units.Flow(0.012*lift.Metres())
	}
	z, _, _ := table.DryHeight(now, 0, pump, 2, 8)
	fmt.Printf("dry from %.2f m of lift\n", z.Metres())
	a, err := table.DrySlope(now, 0, 15*units.Degree)
	if err != nil {
		fmt.Println("no slope dries this flow")
	} else {
		fmt.Printf("dry up to %.1f degrees\n", a.In(units.Degrees))
	}
	now.Flow = q * 0.9
	a, _ = table.DryTilt(now, 0, 10*units.Degree)
	fmt.Printf("with a tenth less flow up to %.1f degrees of side tilt\n", a.In(units.Degrees))
	// Output:
	// 0.31 % runs off: 36 % of the product's mass is water
	// dry up to 173 m3/h
	// dry from 6.00 m of lift
	// dry up to 2.3 degrees
	// with a tenth less flow up to 1.1 degrees of side tilt
}

// A weigh-and-drain test tells what the grate really does.
func ExampleCalibrateTable() {
	spec := hydraulics.TableSpec{
		Grate: hydraulics.GrateSpec{Width: 0.8 * units.Metre, Length: 0.6 * units.Metre,
			Gap: 8 * units.Millimetre, Bar: 10 * units.Millimetre, Coefficient: 0.6},
		EntryBore: 254 * units.Millimetre, EntryKept: 0.8, SlideSpeed: 0.4, Footprint: 0.02, Adhering: 0.03, WaterDensity: 1018,
	}
	test := hydraulics.DrainTest{Wet: 21.6 * units.Kilogram, Drained: 20 * units.Kilogram,
		Setting: hydraulics.TableSetting{Flow: 230 * units.CubicMetrePerHour, Product: 0.5, Slope: 8 * units.Degree, Blocked: 0.1}}
	fmt.Printf("carry-over %.0f %%\n", 100*test.CarryOver())
	table, c, err := hydraulics.CalibrateTable(spec, test)
	if err != nil {
		fmt.Println(err)
		return
	}
	q, _ := table.DryFlow(test.Setting, 0)
	fmt.Printf("the grate does %.2f of what the law says and dries %.0f m3/h\n", c.Effectiveness, q.In(units.CubicMetresPerHour))
	// Output:
	// carry-over 8 %
	// the grate does 1.17 of what the law says and dries 223 m3/h
}

// The chute under the table and the hose that takes the water back.
func ExampleNewChute() {
	air, _ := hydraulics.AeratedChuteAir(20 * units.Degree)
	c, err := hydraulics.NewChute(hydraulics.ChuteSpec{Width: 0.5, WallHeight: 0.2, Freeboard: 0.05, Slope: 20 * units.Degree, ManningN: 0.012})
	if err != nil {
		fmt.Println(err)
		return
	}
	flow, _ := c.Carry(20 * units.LitrePerSecond)
	fmt.Printf("up to %.0f %% air; 20 L/s stand %.0f mm deep, the walls hold %.0f L/s\n", 100*air,
		flow.BulkedDepth.In(units.Millimetres), c.Capacity().In(units.LitresPerSecond))
	// Output: up to 34 % air; 20 L/s stand 22 mm deep, the walls hold 418 L/s
}

// A return hose of 200 mm from a pan 2.4 m up, clear and with a fifth of air.
func ExampleNewReturnHose() {
	spec := hydraulics.ReturnHoseSpec{Bore: 200 * units.Millimetre, Length: 12, Roughness: 0.3 * units.Millimetre, LossSum: 2.1, Viscosity: 0.85 * units.Centistoke}
	clear, err := hydraulics.NewReturnHose(spec)
	if err != nil {
		fmt.Println(err)
		return
	}
	spec.AirShare = 0.2
	airy, _ := hydraulics.NewReturnHose(spec)
	drop, _ := clear.DropFor(230 * units.CubicMetrePerHour)
	fmt.Printf("%.0f and %.0f m3/h; 230 m3/h need %.2f m\n", clear.Capacity(2.4).In(units.CubicMetresPerHour),
		airy.Capacity(2.4).In(units.CubicMetresPerHour), drop.Metres())
	deep, _ := hydraulics.IntakeSubmergence(200*units.Millimetre, 2)
	fmt.Printf("the pan needs %.2f m over the mouth to keep air out\n", deep.Metres())
	stack, _ := hydraulics.StackFlow(4*units.Inch, 7.0/24)
	fmt.Printf("an open 4 in stack takes %.0f gal/min\n", stack.In(units.USGallonsPerMinute))
	// Output:
	// 420 and 336 m3/h; 230 m3/h need 0.72 m
	// the pan needs 0.86 m over the mouth to keep air out
	// an open 4 in stack takes 144 gal/min
}
