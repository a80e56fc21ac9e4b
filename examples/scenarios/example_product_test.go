package scenarios_test

import (
	"fmt"
	"time"

	"pondwright.example/biomass"
	"pondwright.example/hydraulics"
	"pondwright.example/icing"
	"pondwright.example/pumpsizing"
	"pondwright.example/transport"
	"pondwright.example/units"
)

// Will the tractor drive it up here? The standard atmosphere of hydraulics thins
// the engine's air in pumpsizing.
func Example_tractorAtHeight() {
	for _, height := range []units.Length{0, mesaHeight} {
		p, err := pumpsizing.Tractor{Power: 22 * units.Kilowatt, Basis: pumpsizing.EnginePower, EngineSpeed: units.RevolutionsPerMinute.Of(2000),
			AirPressure: must(hydraulics.AirPressure(height)), AirTemp: units.Celsius(24)}.PTO()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f m: %.2f kW at the PTO, %.2f kW for hours\n", height.Metres(), p.Available.In(units.Kilowatts), p.Steady.In(units.Kilowatts))
	}
	// Output:
	// 0 m: 18.92 kW at the PTO, 15.14 kW for hours
	// 1950 m: 14.51 kW at the PTO, 11.61 kW for hours
}

// How much ice for a crop known to 10 %? The quantiles of biomass are the crop of
// icing; ice is ordered for the large one.
func Example_iceForAnUncertainCrop() {
	crop := mesaCrop()
	ice := mesaIce()
	fmt.Printf("crop %.0f to %.0f kg: ice %.0f to %.0f kg, order %.0f kg (%.0f lb)\n", crop.P10.Kilograms(), crop.P90.Kilograms(),
		ice.Low.Order.Kilograms(), ice.High.Order.Kilograms(), ice.Order.Kilograms(), ice.Order.In(units.Pounds))
	// Output:
	// crop 8360 to 10795 kg: ice 3427 to 4224 kg, order 4224 kg (9311 lb)
}

// Half way through the night: what is still to come by the tickets, and is the
// ice enough for it?
func Example_iceLeftForTheNight() {
	var tickets []biomass.CatchTicket
	for i, kg := range []float64{900, 700, 640, 430, 380} {
		tickets = append(tickets, biomass.CatchTicket{Elapsed: []time.Duration{20, 40, 65, 90, 120}[i] * time.Minute, Net: units.Kilograms.Of(kg)})
	}
	catch, err := biomass.FitCatchCurve(biomass.CatchCurveInput{Belief: biomass.Lognormal{Median: 4615, LogSD: 0.102}, Tickets: tickets, TicketLogSD: 0.10})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range []float64{0.5, 0.9} {
		left, _ := catch.Remaining(p)
		s, err := icing.Inventory{OnHand: 450 * units.Kilogram, Remaining: icing.Load{Product: left, ProductTemperature: units.Celsius(29), FinalTemperature: units.Celsius(0),
			CarriedWater: 0.08, Ice: icing.Ice{Temperature: units.Celsius(-3)}, Waste: 0.2}}.Check()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("P%.0f: %.0f kg to come need %.0f kg of 450, short by %.0f\n", 100*p, left.Kilograms(), s.Need.Kilograms(), s.Shortfall.Kilograms())
	}
	// Output:
	// P50: 914 kg to come need 383 kg of 450, short by 0
	// P90: 1181 kg to come need 496 kg of 450, short by 46
}

// How many bins and trucks? The ice of icing rides in the bins of transport.
func Example_binsAndTrucks() {
	crop, ice := mesaCrop(), mesaIce().High
	p, err := transport.Cargo{Product: crop.P90,
		Container: transport.Container{Volume: 1200 * units.Litre, Tare: 70 * units.Kilogram},
		Filling: transport.Filling{Product: mesaBin, Ice: float64(ice.Order / crop.P90), Water: 0.05,
			ProductBulk: 1050 * units.KilogramPerCubicMetre, IceBulk: 917 * units.KilogramPerCubicMetre, Fill: 0.95},
		Trucks: []transport.Truck{{Name: "first", Payload: 9 * units.Tonne, Slots: 12}, {Name: "second", Payload: 9 * units.Tonne, Slots: 8}},
	}.Pack()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d bins of %.0f kg\n", p.Containers, p.Each.Gross.Kilograms())
	for _, l := range p.Loads {
		fmt.Printf("%s: %d bins, %.2f t of %.2f t, limited by %s\n", l.Truck, l.Containers, l.Cargo.In(units.Tonnes), l.Payload.In(units.Tonnes), l.Binds)
	}
	fmt.Printf("%d left\n", p.Left)
	// Output:
	// 18 bins of 935 kg
	// first: 9 bins, 8.41 t of 9.00 t, limited by mass
	// second: 8 bins, 7.48 t of 9.00 t, limited by count
	// 1 left
}

// How many kilograms a tank and how much oxygen over the pass? The air of
// hydraulics sets what the water of transport can hold.
func Example_liveHaulAtHeight() {
	p, err := ledgeHaul(300 * units.MilligramPerKilogramHour).Plan()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f kg/L of tank, %.2f kg/L of water\n", p.Loaded.PerTank.In(units.KilogramsPerLitreTank), p.Loaded.PerWater.In(units.KilogramsPerLitreWater))
	fmt.Printf("%.2f kg of oxygen breathed, %.1f kg to carry; %.0f kg of ice or %.2f K\n", p.OxygenUsed.Kilograms(), p.Carry.Kilograms(), p.Ice.Kilograms(), p.Warming.Kelvins())
	fmt.Printf("vents shut, %s is too much after %.0f min\n", p.Binds, p.Hours.Minutes())
	// Output:
	// 0.29 kg/L of tank, 0.41 kg/L of water
	// 7.02 kg of oxygen breathed, 46.8 kg to carry; 310 kg of ice or 3.19 K
	// vents shut, carbon dioxide is too much after 15 min
}

// Why do bank and plant weights differ? A weigh-and-drain test at the table is
// the water on the bank's tickets.
func Example_weightsReconciled() {
	test := hydraulics.DrainTest{Wet: 21.6 * units.Kilogram, Drained: 20 * units.Kilogram}
	water := test.CarryOver() / (1 + test.CarryOver()) // of what the bank weighs
	bank := biomass.Scale{Name: "bank", WaterInCommon: true}
	for range 2 {
		bank.Tickets = append(bank.Tickets, biomass.Ticket{Gross: 2600 * units.Kilogram, Tare: 105 * units.Kilogram,
			WaterFraction: water, WaterSD: water / 5, Division: 1 * units.Kilogram})
	}
	plant := biomass.Scale{Name: "plant", CalibrationCV: 0.002, Tickets: []biomass.Ticket{{Gross: 4560 * units.Kilogram, Division: 5 * units.Kilogram}}}
	r, err := biomass.Reconcile(bank, plant, nil, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("water on the bank's scale %.2f %%\n%s (z = %.2f)\n", 100*water, r.Text, r.Z)
	// Output:
	// water on the bank's scale 7.41 %
	// -1.3 % ± 3.2 %: explained by water (z = -0.81)
}
