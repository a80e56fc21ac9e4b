package icing_test

import (
	"fmt"
	"time"

	"pondwright.example/icing"
	"pondwright.example/units"
)

// The night's ice: 4.6 t of shrimp at 29 °C, 8 % water down the chute, a slurry
// tank started with 1.5 t of pond water, thirteen bins on the road for six hours.
func Example() {
	night := icing.Load{
		ProductSpecificHeat: 3.6 * units.KilojoulePerKilogramKelvin,
		ProductTemperature:  units.Celsius(29),
		FinalTemperature:    units.Celsius(0),
		CarriedWater:        0.08,
		MakeUpWater:         1500 * units.Kilogram,
		WaterSpecificHeat:   4.0 * units.KilojoulePerKilogramKelvin, // 30 psu
		Containers:          13,
		Conductance:         4.5 * units.WattPerKelvin,
		Ambient:             units.Celsius(33),
		Hold:                6 * time.Hour,
		Ice:                 icing.Ice{Temperature: units.Celsius(-3)},
		Waste:               0.20,
	}
	plan, err := night.Plan(icing.Crop{P10: 4030 * units.Kilogram, P50: 4614 * units.Kilogram, P90: 5198 * units.Kilogram}, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	m := plan.Median
	fmt.Printf("melt: chill %.0f, carried %.0f, make-up %.0f, leak %.0f kg\n", m.Chill.Kilograms(), m.Carried.Kilograms(), m.MakeUp.Kilograms(), m.Leak.Kilograms())
	fmt.Printf("order %.0f kg at P50, %.0f kg at P90; %.2f kg/kg\n", m.Order.Kilograms(), plan.Order.Kilograms(), m.Ratio)
	for _, n := range plan.Notices {
		fmt.Println(n.Severity, n.Code)
	}
	// Output:
	// melt: chill 1417, carried 126, make-up 512, leak 123 kg
	// order 2722 kg at P50, 2966 kg at P90; 0.59 kg/kg
	// info ICE_MAKE_UP_SHARE
	// info ICE_SPREAD_OF_CROP
}

// How long until the core of a 15 mm shrimp is at 4 °C, stirred and not.
func ExampleBody() {
	shrimp := icing.Body{Shape: icing.Cylinder, HalfDimension: 7.5 * units.Millimetre, Film: icing.FilmStirredBath}
	stirred, _ := shrimp.CoreTime(units.Celsius(28), units.Celsius(0), units.Celsius(4))
	shrimp.Film = icing.FilmStillBath
	still, _ := shrimp.CoreTime(units.Celsius(28), units.Celsius(0), units.Celsius(4))
	bi, _ := shrimp.Biot()
	fo, _ := shrimp.Fourier(still)
	fmt.Printf("stirred %.1f min, still %.1f min (Bi %.1f, Fo %.2f)\n", stirred.Minutes(), still.Minutes(), bi, fo)

	core, _ := shrimp.Core(units.Celsius(28), units.Celsius(0), 3*time.Minute)
	mean, _ := shrimp.Mean(units.Celsius(28), units.Celsius(0), 3*time.Minute)
	fmt.Printf("after 3 min still: core %.1f, mean %.1f\n", core, mean)
	// Output:
	// stirred 4.4 min, still 8.6 min (Bi 1.2, Fo 1.19)
	// after 3 min still: core 16.3 °C, mean 12.9 °C
}

func ExampleThicknessForMass() {
	d, _ := icing.ThicknessForMass(15*units.Millimetre, 20*units.Gram, 30*units.Gram)
	fmt.Printf("%.1f mm\n", d.In(units.Millimetres))
	// Output: 17.2 mm
}

func ExampleTheta() {
	centre, _ := icing.Theta(icing.Slab, 1, 0.5, 0)
	surface, _ := icing.Theta(icing.Slab, 1, 0.5, 1)
	mean, _ := icing.MeanTheta(icing.Slab, 1, 0.5)
	root, _ := icing.Root(icing.Slab, 1, 1)
	c, _ := icing.Amplitude(icing.Slab, 1, 1)
	fmt.Printf("%.4f %.4f %.4f; first root %.4f, amplitude %.4f\n", centre, surface, mean, root, c)
	// Output: 0.7725 0.5045 0.6811; first root 0.8603, amplitude 1.1191
}

func ExampleFiniteCylinder() {
	tail := icing.FiniteCylinder{Radius: 30 * units.Millimetre, Length: 200 * units.Millimetre, Film: icing.FilmStirredBath}
	theta, _ := tail.Theta(30*time.Minute, 0, 0)
	mean, _ := tail.MeanTheta(30 * time.Minute)
	t, _ := tail.CoreTime(units.Celsius(25), units.Celsius(0), units.Celsius(4))
	fmt.Printf("%.4f %.4f %.0f min\n", theta, mean, t.Minutes())
	// Output: 0.4128 0.1669 51 min
}

func ExampleBrick() {
	fillet := icing.Brick{Sides: [3]units.Length{40 * units.Millimetre, 100 * units.Millimetre, 240 * units.Millimetre}, Film: 200 * units.WattPerSquareMetreKelvin}
	theta, _ := fillet.Theta(time.Hour)
	t, _ := fillet.CoreTime(units.Celsius(21), units.Celsius(0), units.Celsius(4))
	fmt.Printf("%.4f %.0f min\n", theta, t.Minutes())
	// Output: 0.1055 47 min
}

func ExampleChillRatio() {
	r, _ := icing.ChillRatio(icing.FAOLeanSpecificHeat, units.Celsius(29), units.Celsius(0), icing.OldLatentHeat)
	fmt.Printf("%.2f kg of ice per kg of fish\n", r)
	// Output: 0.29 kg of ice per kg of fish
}

func ExampleIce() {
	q, _ := icing.Ice{Temperature: units.Celsius(-3)}.Cooling(units.Celsius(0), 0)
	fmt.Println(q.Text(units.KilojoulesPerKilogram))
	// Output: 339.9 kJ/kg
}

func ExampleIceMeltingHeat() {
	t := units.Celsius(-5)
	q, _ := icing.IceMeltingHeat(t)
	c, _ := icing.IceSpecificHeat(t)
	rho, _ := icing.IceDensity(t)
	fmt.Printf("%.1f kJ/kg, %.1f J/(kg K), %.1f kg/m3\n", q.In(units.KilojoulesPerKilogram), c.JoulesPerKilogramKelvin(), rho.KilogramsPerCubicMetre())
	// Output: 343.8 kJ/kg, 2059.9 J/(kg K), 917.4 kg/m3
}

// A fifth of ice in 28 °C water does not make it cold.
func ExampleMeltIntoSeawater() {
	s, _ := icing.MeltIntoSeawater(15*units.PracticalSalinityUnit, units.Celsius(28), 0.20, units.Celsius(-2))
	fmt.Printf("%.1f, ice left %.2f\n", s.Temperature, s.IceFraction)
	// Output: 5.9 °C, ice left 0.00
}

func ExampleFreezingPoint() {
	sea := 35 * units.PracticalSalinityUnit
	t, _ := icing.FreezingPoint(sea, true)
	old, _ := icing.FreezingPointUNESCO1983(sea, 0)
	l, _ := icing.MeltingHeat(sea)
	fmt.Printf("%.3f, by the older fit %.3f; melting takes %.1f kJ/kg\n", t, old, l.In(units.KilojoulesPerKilogram))

	w, _ := icing.SlurryIceFraction(sea, units.Celsius(-2.5))
	s, _ := icing.BrineSalinity(units.Celsius(-2.5))
	fmt.Printf("at -2.5 °C: %.3f ice in brine of %.1f g/kg\n", w, s.GramsPerKilogram())
	// Output:
	// -1.921 °C, by the older fit -1.922 °C; melting takes 329.9 kJ/kg
	// at -2.5 °C: 0.222 ice in brine of 45.2 g/kg
}

func ExampleBath() {
	bath := icing.Bath{IceMass: 300 * units.Kilogram, Water: 500 * units.Kilogram, WaterTemperature: units.Celsius(0)}
	batch := icing.Batch{Product: 200 * units.Kilogram, Temperature: units.Celsius(28)}
	most, _ := bath.Capacity(batch, units.Celsius(2))
	run, _ := bath.Batches(batch, units.Celsius(2), 0)
	fmt.Printf("%.0f kg in one go, or %d batches\n", most.Kilograms(), run.Batches)
	// Output: 1141 kg in one go, or 5 batches
}

func ExampleWall() {
	tote := icing.Wall{Layers: []icing.Layer{{3 * units.Millimetre, 0.5}, {50 * units.Millimetre, icing.PolyurethaneFoam}, {3 * units.Millimetre, 0.5}}}
	u, _ := tote.U()
	ua := u.Times(4.2 * units.SquareMetre)
	rate, _ := icing.MeltRate(ua, units.Celsius(35), 0, 0)
	left, _ := icing.ReserveTime(20*units.Kilogram, ua, units.Celsius(35), 0, 0)
	fmt.Printf("U %.3f W/(m2 K), %.2f kg/h, 20 kg last %.0f h\n", u.WattsPerSquareMetreKelvin(), rate.In(units.KilogramsPerHour), left.Hours())
	// Output: U 0.468 W/(m2 K), 0.74 kg/h, 20 kg last 27 h
}

func ExampleMeltOver() {
	trip := []icing.Weather{{After: 0, Ambient: units.Celsius(24)}, {After: 3 * time.Hour, Ambient: units.Celsius(33), Sun: 10}, {After: 5 * time.Hour, Ambient: units.Celsius(30)}}
	m, _ := icing.MeltOver(4.5*units.WattPerKelvin, trip, 0)
	fmt.Printf("%.1f kg\n", m.Kilograms())
	// Output: 8.4 kg
}

func ExampleComposition() {
	p, _ := icing.Shrimp.Properties(units.Celsius(25))
	fmt.Printf("%.0f J/(kg K), %.0f kg/m3\n", p.SpecificHeat.JoulesPerKilogramKelvin(), p.Density.KilogramsPerCubicMetre())
	siebel, _ := icing.SiebelSpecificHeat(0.7586, false)
	chen, _ := icing.ChenSpecificHeat(0.2414)
	fao, _ := icing.FAOSpecificHeat(0.0173, 0.2241, 0.7586)
	fmt.Printf("Siebel %.0f, Chen %.0f, FAO %.0f\n", siebel.JoulesPerKilogramKelvin(), chen.JoulesPerKilogramKelvin(), fao.JoulesPerKilogramKelvin())
	// Output:
	// 3645 J/(kg K), 1057 kg/m3
	// Siebel 3378, Chen 3626, FAO 3494
}

func ExampleComponent() {
	c, _ := icing.Protein.SpecificHeat(units.Celsius(20))
	k, _ := icing.Protein.Conductivity(units.Celsius(20))
	rho, _ := icing.Protein.Density(units.Celsius(20))
	fmt.Printf("%.2f J/(kg K), %.4f W/(m K), %.1f kg/m3\n", c.JoulesPerKilogramKelvin(), k.WattsPerMetreKelvin(), rho.KilogramsPerCubicMetre())
	// Output: 2031.85 J/(kg K), 0.2016 W/(m K), 1319.5 kg/m3
}

func ExampleFrozenFraction() {
	x, _ := icing.FrozenFraction(0.8122, 0.1781, units.Celsius(-2.2), units.Celsius(-5))
	l, _ := icing.FishLatentHeat(0.8122)
	c, _ := icing.ChenFrozenSpecificHeat(0.1878, 0.8122, 0.0712, units.Celsius(-2.2), units.Celsius(-40))
	fmt.Printf("%.3f frozen; %.0f kJ/kg; %.2f kJ/(kg K) at -40 °C\n", x, l.In(units.KilojoulesPerKilogram), c.In(units.KilojoulesPerKilogramKelvin))
	// Output: 0.415 frozen; 271 kJ/kg; 2.13 kJ/(kg K) at -40 °C
}

func ExampleSpoilage() {
	r, _ := icing.TemperateHuss1995.Rate(units.Celsius(5))
	life, _ := icing.TemperateHuss1995.Life(12*24*time.Hour, units.Celsius(5))
	seen, _ := icing.RelativeRate(15*24*time.Hour, 6*24*time.Hour)
	fmt.Printf("%.2f times as fast: %.1f days; a published pair shows %.1f\n", r, life.Hours()/24, seen)
	// Output: 2.25 times as fast: 5.3 days; a published pair shows 2.5
}

func ExampleExposure() {
	e, _ := icing.NewExposure(icing.FDARawReadyToEat(), icing.ExposureOptions{MaxGap: time.Hour})
	at := time.Date(2026, 6, 3, 2, 0, 0, 0, time.UTC)
	for _, r := range []struct {
		min int
		c   float64
	}{{0, 28}, {10, 12}, {20, 3}, {60, 1}, {180, 1}} {
		if err := e.Add(icing.Reading{At: at.Add(time.Duration(r.min) * time.Minute), Temperature: units.Celsius(r.c)}); err != nil {
			fmt.Println(err)
		}
	}
	rep := e.Report()
	fmt.Printf("%.0f min above 10 °C of %v; %.2f h on ice\n", rep.Limits[0].Spent.Minutes(), rep.Limits[0].Limit.Allowed, rep.Equivalent.Hours())
	for _, n := range rep.Notices {
		fmt.Println(n.Code)
	}
	// Output:
	// 20 min above 10 °C of 2h0m0s; 6.76 h on ice
	// ICE_EXPOSURE_GAP
	// ICE_EXPOSURE_RANGE
}

func ExampleInventory() {
	v := icing.Inventory{
		OnHand: 900 * units.Kilogram, Rate: 1500 * units.KilogramPerHour, Lead: 90 * time.Minute,
		Remaining: icing.Load{Product: 2600 * units.Kilogram, ProductTemperature: units.Celsius(28), FinalTemperature: units.Celsius(0), CarriedWater: 0.08, Waste: 0.15},
	}
	s, _ := v.Check()
	fmt.Printf("short %.0f kg, runs out in %.0f min\n", s.Shortfall.Kilograms(), s.RunsOut.Minutes())
	for _, n := range s.Notices {
		fmt.Println(n.Severity, n.Code)
	}
	// Output:
	// short 110 kg, runs out in 93 min
	// warning ICE_SHORT
}

func ExampleStore() {
	s := icing.Store{Start: 1000 * units.Kilogram, Capacity: 15 * units.Tonne, Production: 417 * units.KilogramPerHour}
	demand := []units.MassFlow{0, 0, 1500 * units.KilogramPerHour, 1500 * units.KilogramPerHour}
	run, _ := s.Run(demand)
	need, _ := s.LeastStart(demand)
	q, _ := icing.MakingHeat(units.Celsius(25), units.Celsius(-5), 0)
	fmt.Printf("short %.0f kg; start with %.0f kg; %.0f kJ/kg to make\n", run.Shortfall.Kilograms(), need.Kilograms(), q.In(units.KilojoulesPerKilogram))
	// Output: short 332 kg; start with 1332 kg; 449 kJ/kg to make
}

func ExampleTote() {
	f, _ := icing.Tote{Volume: 660 * units.Litre, Fill: 0.9, Voids: 0.4, IceBulk: icing.FlakeIce.BulkLow, Ratio: 0.5}.Fillings()
	n, _ := icing.Layers(450*units.Millimetre, 50*units.Millimetre, 60*units.Millimetre, 40*units.Millimetre)
	fmt.Printf("%.0f kg of fish, %.0f kg of ice; %d layers\n", f.Product.Kilograms(), f.Ice.Kilograms(), n)
	// Output: 217 kg of fish, 109 kg of ice; 4 layers
}

// A mass aid only: time, residue, label, ventilation and discharge are matters
// of the label and local law.
func ExampleSulphiteSalt() {
	m, _ := icing.SulphiteSalt(400*units.Kilogram, 0.0125)
	so2, _ := icing.SodiumMetabisulphite.SulphurDioxide()
	o2, _ := icing.SodiumMetabisulphite.OxygenDemand()
	fmt.Printf("%.2f kg of salt; up to %.2f kg SO2; takes %.2f kg of oxygen\n", m.Kilograms(), so2*m.Kilograms(), o2*m.Kilograms())
	// Output: 5.06 kg of salt; up to 3.41 kg SO2; takes 0.85 kg of oxygen
}

func ExampleGlaze() {
	g, _ := icing.Glaze(1*units.Kilogram, 0.92*units.Kilogram)
	d, _ := icing.Drip(100*units.Kilogram, 97*units.Kilogram)
	pack, _ := icing.Gross(95*units.Kilogram, 0.05)
	fmt.Printf("%.2f %.2f %.0f kg\n", g, d, pack.Kilograms())
	// Output: 0.08 0.03 100 kg
}

// Salt for a slurry at -2 °C, what a kilogram of it weighs and can do.
func ExampleBrineStrength() {
	w, _ := icing.BrineStrength(units.Celsius(-2))
	back, _ := icing.BrineFreezing(w)
	rho, _ := icing.SlurryDensity(0.3, 1030*units.KilogramPerCubicMetre, units.Celsius(-2))
	q, _ := icing.SlurryCooling(20, units.Celsius(-2.5), units.Celsius(2))
	fmt.Printf("%.1f %% salt (%.1f); %.0f kg/m3; %.0f kJ/kg\n", 100*w.KilogramsPerKilogram(), back, rho.KilogramsPerCubicMetre(), q.In(units.KilojoulesPerKilogram))
	// Output:
	// 3.3 % salt (-2.0 °C); 993 kg/m3; 201 kJ/kg
}

func ExampleChilledSeawater() {
	c, _ := icing.ChilledSeawater(icing.Batch{Product: 1000 * units.Kilogram, Temperature: units.Celsius(25)}, 300*units.Kilogram, 35, units.Celsius(25), units.Celsius(-2), 0)
	fmt.Printf("%.0f kg of ice, standing at %.1f in %.1f g/kg\n", c.Ice.Kilograms(), c.Temperature, c.Diluted.GramsPerKilogram())
	// Output:
	// 371 kg of ice, standing at -0.8 °C in 15.7 g/kg
}

func ExampleTrip() {
	dt, _ := icing.SunExcess(0.3, 900*units.WattPerSquareMetre, 25*units.WattPerSquareMetreKelvin)
	a, _ := icing.MidWallArea(3.6*units.SquareMetre, 4.9*units.SquareMetre)
	p, _ := icing.Trip{Free: 20 * units.Kilogram, Conductance: (0.45 * units.WattPerSquareMetreKelvin).Times(a), Ambient: units.Celsius(35), Sun: dt, Duration: 48 * time.Hour}.Plan()
	for _, s := range p.Stops {
		fmt.Printf("after %.1f h add %.1f kg\n", s.After.Hours(), s.Add.Kilograms())
	}
	fmt.Printf("%.1f kg left\n", p.Left.Kilograms())
	// Output:
	// after 17.1 h add 16.0 kg
	// after 34.3 h add 12.8 kg
	// 4.0 kg left
}

func ExampleBody_HalfDimensionFor() {
	layer := icing.Body{Shape: icing.Slab, Film: icing.FilmIceContact}
	half, _ := layer.HalfDimensionFor(units.Celsius(28), units.Celsius(0), units.Celsius(4), 2*time.Hour)
	fmt.Printf("%.0f mm between two layers of ice\n", 2*half.In(units.Millimetres))
	// Output:
	// 56 mm between two layers of ice
}

func ExampleWaterActivity() {
	a, _ := icing.WaterActivity(units.Celsius(-1))
	fmt.Printf("%.3f; whole fish start at %.1f\n", a, icing.WholeFishFreezing())
	// Output:
	// 0.990; whole fish start at -2.2 °C
}
