package pumpsizing_test

import (
	"fmt"
	"time"

	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

// A fish pump on a generator in the mountains.
func ExampleElectricDrive_ForFlow() {
	m3h := units.CubicMetresPerHour.Of
	e, err := pumpsizing.NewElectricDrive(pumpsizing.ElectricDriveData{
		Pump: pumpsizing.PumpData{
			Curve: pumpsizing.CurveData{Speed: 725 * units.RevolutionPerMinute, Points: []pumpsizing.CurvePoint{
				{Flow: 0, Head: 10.5 * units.Metre}, {Flow: m3h(100), Head: 9.6 * units.Metre}, {Flow: m3h(200), Head: 8 * units.Metre},
				{Flow: m3h(300), Head: 5.6 * units.Metre}, {Flow: m3h(380), Head: 3.2 * units.Metre}}},
			Efficiency: pumpsizing.EfficiencyData{Best: 0.56, BestFlow: m3h(260)},
		},
		WaterDensity:  998 * units.KilogramPerCubicMetre,
		Motor:         pumpsizing.ElectricMotor{Rating: 11 * units.Kilowatt, Efficiency: 0.90, PowerFactor: 0.85, Voltage: 400 * units.Volt},
		Converter:     0.96,
		Cable:         &pumpsizing.Cable{Section: 6 * units.SquareMillimetre, Length: 70 * units.Metre, Temperature: units.Celsius(70)},
		MotorAltitude: 1950 * units.Metre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	sys := pumpsizing.QuadraticSystem{Static: 4.2 * units.Metre, Resistance: 76.8}
	d, err := e.ForFlow(sys, m3h(260))
	fmt.Printf("%.1f Hz, %.0f r/min, %.2f kW at the shaft, %.2f kW of electricity, %.1f A, %.1f V lost in the cable, motor at %.0f %%, %v\n",
		d.Frequency.Hertzes(), d.Pump.Speed.In(units.RevolutionsPerMinute), d.Pump.ShaftPower.In(units.Kilowatts), d.Input.In(units.Kilowatts),
		d.SupplyCurrent.Amperes(), d.CableDrop.Volts(), 100*d.MotorLoad, err)
	// Output: 44.5 Hz, 645 r/min, 5.90 kW at the shaft, 6.83 kW of electricity, 11.6 A, 4.5 V lost in the cable, motor at 59 %, <nil>
}

func ExampleMotorEfficiency() {
	ie3, err := pumpsizing.MotorEfficiency(pumpsizing.IE3, 4, 7.5*units.Kilowatt)
	premium, _ := pumpsizing.NEMAPremiumEfficiency(units.MechanicalHorsepowers.Of(10), true)
	size, _ := pumpsizing.NextMotorSize(8.9*units.Kilowatt, pumpsizing.LadderIEC)
	n, _ := pumpsizing.MotorSpeed(50*units.Hertz, 4, 0.03)
	part, _ := pumpsizing.PartLoadShare(7.5*units.Kilowatt, 0.25)
	conv, _ := pumpsizing.ConverterEfficiency(7.5*units.Kilowatt, 0.5)
	high, _ := pumpsizing.MotorAltitudeShare(1800 * units.Metre)
	fmt.Printf("IE3 %.4f, %v; premium %.3f; next size %.0f kW; %.0f r/min\n", ie3, err, premium, size.In(units.Kilowatts), n.In(units.RevolutionsPerMinute))
	fmt.Printf("quarter load keeps %.3f of it; converter at half load %.2f; at 1800 m the motor keeps %.2f\n", part, conv, high)
	// Output:
	// IE3 0.9044, <nil>; premium 0.917; next size 11 kW; 1455 r/min
	// quarter load keeps 0.916 of it; converter at half load 0.94; at 1800 m the motor keeps 0.94
}

func ExampleElectricLoad() {
	l := pumpsizing.ElectricLoad{Shaft: 7.5 * units.Kilowatt, Voltage: 400 * units.Volt, Efficiency: 0.904, PowerFactor: 0.85}
	in, _ := l.Input()
	i, _ := l.Current()
	va, _ := l.Apparent()
	start, _ := l.StartApparent(pumpsizing.DirectOnLine, 0)
	amps, err := l.StartCurrent(pumpsizing.SoftStart, 0)
	fmt.Printf("%.2f kW, %.1f A, %.2f kVA; on line %.1f kVA, by soft starter (%.1f times) %.0f A, %v\n", in.In(units.Kilowatts), i.Amperes(),
		va.In(units.KilovoltAmperes), start.In(units.KilovoltAmperes), pumpsizing.SoftStart.Factor(), amps.Amperes(), err)
	set := pumpsizing.Generator{Apparent: 50 * units.KilovoltAmpere, Active: 40 * units.Kilowatt}
	dip, _ := set.Dip(start)
	need, _ := pumpsizing.GeneratorForDip(start, 0.2, 0)
	fmt.Printf("a 50 kVA set dips %.0f %%; for 20 %% it takes %.0f kVA\n", 100*dip, need.In(units.KilovoltAmperes))
	// Output:
	// 8.30 kW, 14.1 A, 9.76 kVA; on line 68.3 kVA, by soft starter (3.5 times) 49 A, <nil>
	// a 50 kVA set dips 14 %; for 20 % it takes 33 kVA
}

func ExampleCable() {
	c := pumpsizing.Cable{Section: 6 * units.SquareMillimetre, Length: 80 * units.Metre, Temperature: units.Celsius(70)}
	three, err := c.ThreePhaseDrop(14.09*units.Ampere, 0.85)
	one, _ := c.SinglePhaseDrop(14.09*units.Ampere, 0.85)
	heat, _ := c.Loss(14.09 * units.Ampere)
	r20, _ := pumpsizing.ConductorResistance(pumpsizing.CopperSolid, c.Section)
	r70, _ := pumpsizing.WarmResistance(r20, pumpsizing.CopperSolid, c.Temperature)
	fmt.Printf("%.2f V in three phases, %.2f V in one, %.0f W, %v; %.2f ohm/km cold, %.2f warm\n", three.Volts(), one.Volts(), heat.Watts(), err,
		r20.In(units.OhmsPerKilometre), r70.In(units.OhmsPerKilometre))
	// Output: 6.20 V in three phases, 7.16 V in one, 176 W, <nil>; 3.08 ohm/km cold, 3.69 warm
}

// Screening for animals: flags with margins and sources, no forecast.
func ExampleScreenAnimals() {
	s, err := pumpsizing.ScreenAnimals(pumpsizing.AnimalDuty{Flow: 230 * units.CubicMetrePerHour, Hose: 254 * units.Millimetre,
		Speed: 520 * units.RevolutionPerMinute, Impeller: 0.35 * units.Metre, Solids: 0.008}, pumpsizing.DefaultAnimalLimits())
	for _, f := range s.Flags {
		fmt.Printf("%s: %.3g %s, %v\n", f.What, f.Value, f.Unit, f.Verdict)
	}
	fmt.Println(err)
	// Output:
	// velocity in the hose, not too slow: 1.26 m/s, ok
	// velocity in the hose: 1.26 m/s, ok
	// tip speed of the impeller: 9.53 m/s, ok
	// animals by mass: 0.008 , ok
	// <nil>
}

func ExampleStrike() {
	x, err := pumpsizing.Strike{Flow: 0.06 * units.CubicMetrePerSecond, Speed: 300 * units.RevolutionPerMinute, Eye: 0.25 * units.Metre,
		Blades: 1, Body: 0.12 * units.Metre}.Ratio()
	fmt.Printf("%.3f m of water between blades, chance of meeting the edge %.2f at %.1f m/s, %v\n", x.WaterLength.Metres(), x.Probability, x.RelativeSpeed.MetresPerSecond(), err)
	harm, _ := pumpsizing.MutilationRatio(0.12 * units.Metre)
	tip, _ := pumpsizing.TipSpeed(0.30*units.Metre, 600*units.RevolutionPerMinute)
	slow, _ := pumpsizing.SpeedForTip(0.30*units.Metre, 6.096*units.MetrePerSecond)
	fmt.Printf("turbine fish of this length: %.2f of those struck; tip speed %.1f m/s, 6.1 m/s at %.0f r/min\n", harm, tip.MetresPerSecond(), slow.In(units.RevolutionsPerMinute))
	// Output:
	// 0.244 m of water between blades, chance of meeting the edge 0.49 at 2.3 m/s, <nil>
	// turbine fish of this length: 0.40 of those struck; tip speed 9.4 m/s, 6.1 m/s at 388 r/min
}

func ExamplePressureRatio() {
	acclimated, lowest, err := pumpsizing.SuctionExposure{Atmosphere: 1 * units.AtmosphereAbsolute, Density: 998.2 * units.KilogramPerCubicMetre,
		Depth: 1 * units.Metre, Lift: 3 * units.Metre, Loss: 2 * units.Kilopascal}.Pressures()
	if err != nil {
		fmt.Println(err)
		return
	}
	r, _ := pumpsizing.PressureRatio(acclimated, lowest)
	fish, _ := pumpsizing.JudgePressure(r, pumpsizing.BladderPresent)
	shrimp, why := pumpsizing.JudgePressure(r, pumpsizing.BladderNone)
	fmt.Printf("%.2f: fish %v, shrimp %v (%s)\n", r, fish, shrimp, why)
	// Output: 1.59: fish beyond, shrimp no data (no swim bladder: the ratio says nothing)
}

func ExampleWilson() {
	full := pumpsizing.MachineDuty{Pressure: 300 * units.Bar, Speed: 3600 * units.RevolutionPerMinute, Viscosity: 32 * units.Centistoke, Density: 860 * units.KilogramPerCubicMetre}
	w, err := pumpsizing.FitWilsonMotor(pumpsizing.WilsonTest{Full: full, Volumetric: 0.95, Hydromechanical: 0.95,
		LightPressure: 5 * units.Bar, LightHydromech: 0.76, BulkModulus: 1800 * units.Megapascal, DeadVolume: 1.103})
	if err != nil {
		fmt.Println(err)
		return
	}
	slow := full
	slow.Speed, slow.Viscosity = 600*units.RevolutionPerMinute, 12*units.Centistoke
	v, m, err := w.Motor(slow)
	fmt.Printf("slow and hot: %.2f and %.2f, %v\n", v, m, err)
	// Output: slow and hot: 0.76 and 0.95, <nil>
}

func ExampleHarvestCost() {
	c := pumpsizing.HarvestCost{Fuel: 3.1 * units.LitrePerHour, FuelPrice: 1.30, Workers: 4, Wage: 12, Duration: 90 * time.Minute, Animals: 3.1 * units.Tonne}
	per, err := c.PerTonne()
	water, _ := pumpsizing.WaterPerAnimals(0.05)
	e, _ := pumpsizing.LiftEnergy(20*units.Tonne, 3.86*units.Metre, 0.28)
	fmt.Printf("%.2f per tonne, %v; %.0f t of water per tonne of animals; %.2f kWh lift 20 t\n", per, err, water, e.In(units.KilowattHours))
	// Output: 25.18 per tonne, <nil>; 19 t of water per tonne of animals; 0.75 kWh lift 20 t
}
