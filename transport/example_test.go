package transport_test

import (
	"fmt"
	"time"

	"pondwright.example/transport"
	"pondwright.example/units"
)

const mgPerKgH = units.MilligramPerKilogramHour

// Thirteen bins on two trucks, the melt on the road and the plant's window.
func Example() {
	cargo := transport.Cargo{
		Product:   5198 * units.Kilogram,
		Container: transport.Container{Volume: 1000 * units.Litre, Tare: 60 * units.Kilogram, Conductance: 4.5 * units.WattPerKelvin},
		Filling:   transport.Filling{Product: 400 * units.Kilogram, Ice: 0.4, Water: 0.25, ProductBulk: 1050, IceBulk: 917, Fill: 0.95}, // a bin of slurry: no gaps
		Trucks:    []transport.Truck{{Name: "first", Payload: 7500 * units.Kilogram, Slots: 12}, {Name: "second", Gross: 16 * units.Tonne, Tare: 8.5 * units.Tonne, Slots: 12}},
	}
	p, err := cargo.Pack()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d bins of %.0f kg gross, %.1f t in all\n", p.Containers, p.Each.Gross.Kilograms(), p.Gross.In(units.Tonnes))
	for _, l := range p.Loads {
		fmt.Printf("%s: %d bins, %.0f kg, at most %d by %s\n", l.Truck, l.Containers, l.Cargo.Kilograms(), l.Most, l.Binds)
	}
	melt, _ := transport.Road{Containers: 13, Conductance: 4.5 * units.WattPerKelvin, Ambient: units.Celsius(33), Haul: 3 * time.Hour}.Melt(p.Each.Ice * 13)
	fmt.Printf("%.0f kg of ice melt, the rest lasts %.0f h\n", melt.Melted.Kilograms(), melt.Lasts.Hours())
	// Output:
	// 13 bins of 720 kg gross, 9.4 t in all
	// first: 10 bins, 7200 kg, at most 10 by mass
	// second: 3 bins, 2157 kg, at most 10 by mass
	// 62 kg of ice melt, the rest lasts 100 h
}

// Two trucks, one dock at the plant, and a window that shuts at nine.
func ExampleSchedule() {
	day := time.Date(2026, 6, 3, 0, 0, 0, 0, time.UTC)
	at := func(h, m int) time.Time { return day.Add(time.Duration(60*h+m) * time.Minute) }
	plan, err := transport.Schedule{
		Product: 9000 * units.Kilogram, Start: at(2, 0), Rate: 2000 * units.KilogramPerHour,
		Haulers: []transport.Hauler{{Name: "first", Ready: at(2, 0), Product: 4500 * units.Kilogram}, {Name: "second", Ready: at(2, 0), Product: 4500 * units.Kilogram}},
		Turn:    transport.Turn{Load: 30 * time.Minute, Haul: 75 * time.Minute, Unload: 45 * time.Minute, Return: 75 * time.Minute},
		Windows: []transport.Window{{Opens: at(6, 0), Closes: at(9, 0)}},
		MaxAge:  4 * time.Hour,
	}.Plan()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range plan.Trips {
		fmt.Printf("%s leaves %s, unloads %s, oldest %.1f h, slack %v\n", t.Truck, t.Departs.Format("15:04"), t.Unloading.Format("15:04"), t.Age.Hours(), t.Slack)
	}
	for _, n := range plan.Notices {
		fmt.Println(n.Severity, n.Code)
	}
	last, _ := transport.Window{Opens: at(6, 0), Closes: at(9, 0)}.LatestDeparture(75 * time.Minute)
	fmt.Println("latest departure", last.Format("15:04"))
	// Output:
	// first leaves 04:15, unloads 06:00, oldest 4.0 h, slack 3h0m0s
	// second leaves 06:30, unloads 07:45, oldest 3.5 h, slack 1h15m0s
	// latest departure 07:45
}

// Trout for nine hours: what to carry, and which limit comes first.
func ExampleHaul() {
	plan, err := transport.Haul{
		Tank: transport.Tank{Volume: 9 * units.CubicMetre}, Product: 2600 * units.Kilogram, Duration: 9 * time.Hour,
		Temperature: units.Celsius(10), Oxygen: 11 * units.MilligramPerLitre, PH: 7.6, Alkalinity: 2,
		Demand:      transport.DemandLaw{At: 300 * mgPerKgH, Base: units.Celsius(10)},
		Conductance: 21 * units.WattPerKelvin, Ambient: units.Celsius(24), Agitators: 360 * units.Watt,
		OxygenFlow: 3.2 * units.KilogramPerHour, OxygenEfficiency: 0.3, CarbonKLa: 5 * units.PerHour,
		Limits: transport.TroutHaulLimits(),
	}.Plan()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f kg/L of tank, %.2f kg/L of water; water %.1f m3\n", plan.Loaded.PerTank.In(units.KilogramsPerLitreTank), plan.Loaded.PerWater.In(units.KilogramsPerLitreWater), plan.Loaded.Water.CubicMetres())
	fmt.Printf("heat %.2f + %.2f + %.2f kW: %+.1f K, or %.0f kg of ice\n", plan.Wall.In(units.Kilowatts), plan.Metabolic.In(units.Kilowatts), plan.Stirring.In(units.Kilowatts), plan.Warming.Kelvins(), plan.Ice.Kilograms())
	fmt.Printf("oxygen used %.1f kg, carry %.0f kg; alarm %.0f min\n", plan.OxygenUsed.Kilograms(), plan.Carry.Kilograms(), plan.Alarm.Minutes())
	fmt.Printf("end: pH %.1f, CO2 %.0f, TAN %.0f, NH3 %.2f mg/L; first limit: %s\n", plan.End.PH, plan.End.CO2.In(units.MilligramsPerLitre), plan.End.Ammonia.In(units.MilligramsPerLitre), plan.End.Unionised.In(units.MilligramsPerLitre), plan.Binds)
	// Output:
	// 0.29 kg/L of tank, 0.41 kg/L of water; water 6.4 m3
	// heat 0.29 + 2.94 + 0.36 kW: +3.5 K, or 310 kg of ice
	// oxygen used 7.9 kg, carry 53 kg; alarm 2 min
	// end: pH 7.3, CO2 35, TAN 54, NH3 0.26 mg/L; first limit: ammonia
}

func ExampleTank() {
	tank := transport.Tank{Volume: 2650 * units.Litre}
	l, _ := tank.Load(908*units.Kilogram, 0)
	fmt.Printf("%.3f kg/L of tank, %.3f kg/L of water\n", l.PerTank.In(units.KilogramsPerLitreTank), l.PerWater.In(units.KilogramsPerLitreWater))
	m, _ := tank.Product(transport.LoadDensity{PerWater: 521 * units.KilogramPerCubicMetreWater}, 0)
	gross, _ := l.GrossMass(400*units.Kilogram, 998)
	fmt.Printf("%.0f kg; gross %.0f kg\n", m.Kilograms(), gross.Kilograms())
	_, err := tank.Load(3000*units.Kilogram, 0)
	fmt.Println(err)
	// Output:
	// 0.343 kg/L of tank, 0.521 kg/L of water
	// 908 kg; gross 3047 kg
	// transport.Tank.Load: product = 3000 kg: no solution: the animals alone fill the tank; only less than 2650 kg leaves any water (valid: 0 to 2650 kg)
}

func ExampleTruck() {
	limit, _ := transport.Truck{Gross: 16 * units.Tonne, Tare: 8.5 * units.Tonne}.PayloadLimit()
	fmt.Println(limit)
	_, err := transport.Truck{Gross: 16 * units.Tonne, Tare: 8.5 * units.Tonne, Payload: 16 * units.Tonne}.PayloadLimit()
	fmt.Println(err)
	// Output:
	// 7500 kg
	// transport.Truck: payload = 16000 kg: impossible input: does not agree with gross less tare; it equals the gross mass: does it include the tare? (valid: 7340 to 7660 kg)
}

func ExampleAxleLoads() {
	front, rear, _ := transport.AxleLoads(5*units.Metre, []transport.PlacedMass{{7000 * units.Kilogram, 1.8 * units.Metre}, {6000 * units.Kilogram, 4.2 * units.Metre}})
	w, _ := transport.BridgeFormula(51*units.Foot, 5)
	fmt.Println(front, rear, w.Text(units.Pounds))
	// Output:
	// 5440 kg 7560 kg 80000 lb
}

func ExampleTurn() {
	t := transport.Turn{Load: time.Hour, Haul: 90 * time.Minute, Unload: 45 * time.Minute, Return: 90 * time.Minute, Wash: 15 * time.Minute}
	rate := 4000 * units.KilogramPerHour
	cycle, _ := t.Cycle()
	trips, _ := transport.Trips(24*units.Tonne, 6*units.Tonne)
	trucks, _ := t.Trucks(rate, 6*units.Tonne)
	age, _ := t.OldestAge(rate, 6*units.Tonne)
	most, _ := t.PayloadForAge(rate, 2*time.Hour)
	fmt.Println(cycle, trips, trucks, age, most)
	// Output:
	// 5h0m0s 4 4 3h0m0s 2000 kg
}

func ExampleReeferLoad() {
	q, _ := transport.ReeferLoad(0.4, 130, units.Celsius(35), units.Celsius(0))
	u, _ := transport.ReeferUnit(q)
	fmt.Println(q, u)
	// Output:
	// 1820 W 3185 W
}

func ExampleCatfishLoad() {
	d, _ := transport.CatfishLoad(1*units.Pound, 8, units.Fahrenheit(65))
	c, _ := transport.CatfishLoadFactor(units.Fahrenheit(65), units.Fahrenheit(55))
	t, _ := transport.TroutLoadFactor(units.Fahrenheit(52), units.Fahrenheit(57))
	fmt.Printf("%s, times %.3f; trout times %.3f\n", d.Text(units.PoundsPerUSGallonWater), c, t)
	// Output:
	// 6.3 lb/US gal{water}, times 1.250; trout times 0.722
}

func ExampleQ10() {
	q, _ := transport.Q10(24.3*mgPerKgH, 89.4*mgPerKgH, units.Celsius(9), units.Celsius(21))
	trout, _ := transport.LiaoDemand(transport.Trout, 340*units.Gram, units.Celsius(10))
	catfish, _ := transport.CatfishDemand(500*units.Gram, units.Celsius(22))
	warm, _ := transport.DemandAt(trout, 2, units.Celsius(10), units.Celsius(13))
	heat, _ := transport.HeatOf(2600*units.Kilogram, trout)
	fmt.Printf("Q10 %.2f; trout %.0f, at 13 °C %.0f, catfish %.0f mg/(kg h); %.1f kW\n", q, trout.In(units.MilligramsPerKilogramHour),
		warm.In(units.MilligramsPerKilogramHour), catfish.In(units.MilligramsPerKilogramHour), heat.In(units.Kilowatts))
	n, _ := transport.AmmoniaExcretion(300*mgPerKgH, 0.1)
	c, _ := transport.CO2Production(300*mgPerKgH, 0.9)
	rise, _ := transport.AmmoniaRise(2600*units.Kilogram, n, 9, 6.4*units.CubicMetre)
	fmt.Printf("%.1f mg N and %.0f mg CO2 per kg and hour; ammonia rises by %.0f mg/L\n", n.In(units.MilligramsPerKilogramHour), c.In(units.MilligramsPerKilogramHour), rise.In(units.MilligramsPerLitre))
	// Output:
	// Q10 2.96; trout 171, at 13 °C 211, catfish 246 mg/(kg h); 1.7 kW
	// 13.1 mg N and 371 mg CO2 per kg and hour; ammonia rises by 48 mg/L
}

func ExampleOxygenSaturation() {
	c, _ := transport.OxygenSaturation(units.Celsius(10), 0, 94.2*units.KilopascalAbsolute)
	w, _ := transport.Weiss1970.Saturation(units.Celsius(10), 0, 94.2*units.KilopascalAbsolute)
	pure, _ := transport.OxygenUnderGas(1, units.Celsius(15), 0, 0)
	mol, _ := transport.OxygenPerKilogram(units.Celsius(10), 35)
	fmt.Printf("%.1f (%.1f by Weiss), under pure oxygen %.1f mg/L; %.1f µmol/kg at sea\n", c.In(units.MilligramsPerLitre), w.In(units.MilligramsPerLitre), pure.In(units.MilligramsPerLitre), mol)
	// Output:
	// 10.5 (10.5 by Weiss), under pure oxygen 48.1 mg/L; 274.6 µmol/kg at sea
}

func ExampleCylinder() {
	bottle := transport.Cylinder{Gas: 244 * units.CubicFoot, Full: 150 * units.BarGauge, Least: 10 * units.BarGauge}
	m, _ := bottle.Oxygen()
	need, _ := transport.OxygenNeed(2600*units.Kilogram, 300*mgPerKgH, 0.3)
	t, _ := transport.Endurance(m, need)
	rho, _ := transport.OxygenGasDensity(units.Celsius(21.1), 0)
	n, _ := bottle.Count(need.Times(9 * time.Hour))
	fmt.Printf("%d bottles for nine hours; ", n)
	fmt.Printf("%.2f kg a bottle at %.2f kg/h: %.1f h; %.1f L/min\n", m.Kilograms(), need.In(units.KilogramsPerHour), t.Hours(), need.Volume(rho).In(units.LitresPerMinute))
	alarm, _ := transport.AlarmTime(6.4*units.CubicMetre, 2600*units.Kilogram, 300*mgPerKgH, 10*units.MilligramPerLitre, 5*units.MilligramPerLitre)
	bag, _ := transport.BagTime(26*units.Gram, 0.5, 2*units.Kilogram, 300*mgPerKgH)
	fmt.Printf("alarm %.1f min; bag %.0f h\n", alarm.Minutes(), bag.Hours())
	// Output:
	// 3 bottles for nine hours; 8.55 kg a bottle at 2.60 kg/h: 3.3 h; 32.7 L/min
	// alarm 2.5 min; bag 22 h
}

func ExampleCarbonate() {
	c, _ := transport.FreshCarbonate(units.Celsius(20))
	w, _ := c.FromPH(2*units.MilliequivalentPerLitre, 7.8)
	w, _ = c.AddCO2(w, 20*units.MilligramPerLitre)
	fmt.Printf("after 20 mg/L: pH %.2f, free CO2 %.1f mg/L\n", w.PH, w.CO2.In(units.MilligramsPerLitre))
	w, _ = c.FromCO2(2*units.MilliequivalentPerLitre, 1*units.MilligramPerLitre)
	fmt.Printf("blown down to 1 mg/L: pH %.2f\n", w.PH)
	a, b, _ := transport.PlummerBusenberg1982(units.Celsius(20))
	fmt.Printf("%.3f %.3f by another fit: %.3f %.3f\n", c.PK1, c.PK2, a, b)
	// Output:
	// after 20 mg/L: pH 6.96, free CO2 23.1 mg/L
	// blown down to 1 mg/L: pH 8.32
	// 6.382 10.377 by another fit: 6.382 10.376
}

func ExampleVentFlow() {
	k0, _ := transport.CO2Solubility(units.Celsius(10), 0)
	made := 0.9655 * units.KilogramPerHour
	q, _ := transport.VentFlow(made, 30*units.MilligramPerLitre, 0.5, units.Celsius(10), 0)
	m, _ := transport.StripLimit(20*units.MilligramPerLitre, 10*units.LitrePerMinute, units.Celsius(25), 0, 0)
	s, _ := transport.SteadyCO2(made, 6.4*units.CubicMetre, 5*units.PerHour, 1*units.MilligramPerLitre)
	after, _ := transport.CO2After(made, 6.4*units.CubicMetre, 5*units.PerHour, 1*units.MilligramPerLitre, 5*units.MilligramPerLitre, time.Hour)
	fmt.Printf("K0 %.4f; vent %.0f m3/h; 10 L/min strip %.1f g/h; steady %.0f, after an hour %.0f mg/L\n", k0, q.In(units.CubicMetresPerHour), m.In(units.GramsPerHour), s.In(units.MilligramsPerLitre), after.In(units.MilligramsPerLitre))
	// Output:
	// K0 0.0537; vent 83 m3/h; 10 L/min strip 13.9 g/h; steady 31, after an hour 31 mg/L
}

func ExampleAmmoniaModel() {
	pka, _ := transport.Emerson1975.PKa(units.Celsius(12), 0)
	low, _ := transport.Emerson1975.Fraction(units.Celsius(12), 6.8, 0)
	high, _ := transport.Emerson1975.Fraction(units.Celsius(12), 7.6, 0)
	c, _ := transport.Emerson1975.Unionised(44*units.MilligramPerLitre, units.Celsius(12), 7.6, 0)
	nh3, _ := transport.AsNH3(c)
	fmt.Printf("pKa %.2f: %.2f %% at pH 6.8, %.2f %% at 7.6; %.2f mg/L as N, %.2f as NH3\n", pka, 100*low, 100*high, c.In(units.MilligramsPerLitre), nh3.In(units.MilligramsPerLitre))
	// Output:
	// pKa 9.66: 0.14 % at pH 6.8, 0.86 % at 7.6; 0.38 mg/L as N, 0.46 as NH3
}

func ExampleIceToCool() {
	water := transport.WaterSpecificHeat.Times(2000 * units.Kilogram)
	m, _ := transport.IceToCool(water, 8*units.Kelvin, units.Celsius(20), 0)
	hold, _ := transport.IceToHold(3.6*units.Kilowatt, 9*time.Hour, units.Celsius(10), 0)
	p, _ := transport.ChillerPower(water, 8*units.Kelvin, 3*time.Hour)
	fmt.Printf("%.0f kg to cool, %.0f kg to hold, or %.1f kW\n", m.Kilograms(), hold.Kilograms(), p.In(units.Kilowatts))
	t, _ := transport.Temper(units.Celsius(28), units.Celsius(20), 2)
	d, q, _ := transport.TemperTime(2*units.CubicMetre, units.Celsius(28), units.Celsius(20), 1*units.KelvinPerMinute/12, 1*units.Kelvin)
	fmt.Printf("two turnovers bring %.1f; gently: %.0f min at %.0f L/min\n", t, d.Minutes(), q.In(units.LitresPerMinute))
	// Output:
	// 160 kg to cool, 311 kg to hold, or 6.2 kW
	// two turnovers bring 21.1 °C; gently: 200 min at 21 L/min
}

func ExampleSaltFor() {
	m, _ := transport.SaltFor(2000*units.Kilogram, 0, 0.005)
	v, _ := transport.SaltByVolume(2*units.CubicMetre, 5*units.GramPerLitre)
	l, _ := transport.LossAllowance(10000, 0.01, 0.02)
	fmt.Printf("%.2f or %.2f kg; load %.0f, lose %.0f ± %.0f\n", m.Kilograms(), v.Kilograms(), l.Load, l.Mean, l.StdDev)
	// Output:
	// 10.05 or 10.00 kg; load 10307, lose 307 ± 17
}

// Live against iced: what is carried for each kilogram sold.
func ExampleWay() {
	live, _ := transport.Way{Payload: 11 * units.Tonne, Extra: 1.5, Lost: 0.01}.Carry(22 * units.Tonne)
	iced, _ := transport.Way{Payload: 11 * units.Tonne, Extra: 0.7, Lost: 0.02}.Carry(22 * units.Tonne)
	need, _ := transport.LoadForDelivered(1000*units.Kilogram, 0.02)
	fmt.Printf("live %d trips, %.2f kg/kg; iced %d trips, %.2f kg/kg; load %.0f kg\n", live.Trips, live.PerKilogram, iced.Trips, iced.PerKilogram, need.Kilograms())
	// Output:
	// live 5 trips, 2.53 kg/kg; iced 4 trips, 1.73 kg/kg; load 1020 kg
}

func ExamplePressureAt() {
	p, _ := transport.PressureAt(610 * units.Metre)
	fmt.Printf("%.1f kPa\n", p.In(units.KilopascalsAbsolute))
	// Output:
	// 94.2 kPa
}

// The inverse: how many kilograms of trout the tanks take for nine hours.
func ExampleHaul_MostProduct() {
	most, err := transport.Haul{
		Tank: transport.Tank{Volume: 9 * units.CubicMetre}, Duration: 9 * time.Hour,
		Temperature: units.Celsius(10), Oxygen: 11 * units.MilligramPerLitre, PH: 7.2, Alkalinity: 1,
		Demand:      transport.DemandLaw{At: 250 * mgPerKgH, Base: units.Celsius(10)},
		Conductance: 21 * units.WattPerKelvin, Ambient: units.Celsius(24), Agitators: 360 * units.Watt,
		OxygenFlow: 4 * units.KilogramPerHour, OxygenEfficiency: 0.3, CarbonKLa: 5 * units.PerHour,
		Limits: transport.TroutHaulLimits(),
	}.MostProduct()
	fmt.Printf("%.0f kg, bound by %s %v\n", most.Product.Kilograms(), most.Binds, err)
	// Output:
	// 1469 kg, bound by ammonia <nil>
}
