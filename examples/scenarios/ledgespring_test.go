package scenarios_test

import (
	"testing"
	"time"

	"pondwright.example/hydraulics"
	"pondwright.example/pumpsizing"
	"pondwright.example/transport"
	"pondwright.example/units"
)

// Ledge Spring, an invented farm: 2.6 t of trout lifted from a raceway at 610 m
// and hauled live for nine hours. Every check is of kind 'derived by hand': the
// expected figures were worked out apart from this library by the method stated
// beside them, with bands that a competent engineer using other coefficients
// would stay inside.

var (
	ledgeWater = must(hydraulics.FreshWater(units.Celsius(10)))
	ledgeAir   = must(hydraulics.AirPressure(610 * units.Metre))
)

const ledgeFish = 2600 * units.Kilogram

// By definition: number times mean weight, over the raceway's volume.
func TestLedgeSpringStock(t *testing.T) {
	fish := 7647 * 340 * units.Gram
	near(t, "fish, kg", fish.Kilograms(), ledgeFish.Kilograms(), 0.001)
	near(t, "fish, lb", fish.In(units.Pounds), 5732, 0.001)
	raceway := (30 * units.Metre).Times(3 * units.Metre).Times(0.9 * units.Metre)
	density := fish.PerWaterVolume(raceway)
	about(t, "density, kg/m3", density.In(units.KilogramsPerCubicMetreWater), 32)
	about(t, "density, lb/ft3", density.In(units.PoundsPerCubicFootWater), 2.0)
}

func ledgeHose() hydraulics.Pipeline {
	return must(hydraulics.NewPipeline(hydraulics.PipelineSpec{Fluid: ledgeWater, Lift: 3.1 * units.Metre, Runs: []hydraulics.PipeRun{{
		Name: "hose", Bore: 152 * units.Millimetre, Length: 12 * units.Metre, Roughness: 0.2 * units.Millimetre,
		Fittings: []hydraulics.Loss{hydraulics.CustomLoss("foot, bends and mouth", 1.9)},
	}}}))
}

// Hose by Darcy-Weisbach and Colebrook, pump by a least-squares parabola and the
// affinity laws, efficiency a parabola read at the flow scaled to rated speed;
// oil line by laminar and turbulent friction at 32 mm2/s, oil pump 0.82.
func TestLedgeSpringLift(t *testing.T) {
	drive := must(pumpsizing.NewHydraulicDrive(pumpsizing.HydraulicDriveData{
		Pump: pumpsizing.PumpData{Name: "invented 152 mm fish pump",
			Curve:      curve(750, 0, 8, 40, 7.3, 80, 6, 120, 4.1, 150, 2.3),
			Efficiency: pumpsizing.EfficiencyData{Best: 0.52, BestFlow: units.CubicMetresPerHour.Of(95)}},
		WaterDensity: ledgeWater.Density,
		Motor:        pumpsizing.HydraulicMotor{Displacement: 32 * units.CubicCentimetrePerRevolution, Volumetric: 0.92, Hydromechanical: 0.88},
		Oil:          oil32,
		Line:         pumpsizing.OilLine{Bore: 12.7 * units.Millimetre, Length: 20 * units.Metre},
		Valves:       4 * units.Bar, Return: 3 * units.Bar,
		OilPump: pumpsizing.OilPump{Overall: 0.82},
		Relief:  pumpsizing.Relief{Set: 175 * units.BarGauge},
	}))
	d := must(drive.ForFlow(ledgeHose(), units.CubicMetresPerHour.Of(90)))
	about(t, "total head, m", d.Pump.Head.Metres(), 3.45)
	about(t, "speed, r/min", d.Pump.Speed.In(units.RevolutionsPerMinute), 635)
	within(t, "shaft, kW", d.Pump.ShaftPower.In(units.Kilowatts), 1.5, 1.9)
	about(t, "shaft, hp", d.Pump.ShaftPower.In(units.MechanicalHorsepowers), 2.2)
	about(t, "oil pump, bar", d.PumpPressure.In(units.Bars), 66)
	about(t, "oil pump, psi", d.PumpPressure.In(units.PoundsPerSquareInch), 951)
	about(t, "oil, L/min", d.OilFlow.In(units.LitresPerMinute), 22)
	about(t, "drive, kW", d.PTOPower.In(units.Kilowatts), 2.9)
}

// All fish over 90 m3/h of water and fish at 1 kg a litre, by share of mass.
func TestLedgeSpringPumpTime(t *testing.T) {
	mix := units.CubicMetresPerHour.Of(90).Mass(1000 * units.KilogramPerCubicMetre)
	for share, minutes := range map[float64]float64{0.03: 58, 0.06: 29, 0.10: 17} {
		rate := mix / units.MassFlow(1+must(pumpsizing.WaterPerAnimals(share)))
		about(t, "pumping, min", must(ledgeFish.At(rate)).Minutes(), minutes)
	}
}

// ledgeHaul is the haul with the vents shut, at a demand at 10 °C.
func ledgeHaul(demand units.MassSpecificRate) transport.Haul {
	return transport.Haul{
		Tank: transport.Tank{Volume: 4 * 2.25 * units.CubicMetre}, Product: ledgeFish, Duration: 9 * time.Hour,
		Temperature: units.Celsius(10), Oxygen: 10 * units.MilligramPerLitre, PH: 7.6, Alkalinity: 1.5 * units.MilliequivalentPerLitre,
		Pressure: ledgeAir,
		// The demand is taken as constant over the haul, as the figures were.
		Demand:         transport.DemandLaw{At: demand, Base: units.Celsius(10), Q10: 1},
		CarbonQuotient: 0.9, AmmoniaQuotient: nitrogenPerOxygen(9*units.MilligramPerKilogramHour, demand),
		Conductance: 21 * units.WattPerKelvin, Ambient: units.Celsius(24), Agitators: 4 * 90 * units.Watt,
		OxygenFlow: must(transport.OxygenNeed(ledgeFish, demand, 0.3)), OxygenEfficiency: 0.3,
		Limits: transport.TroutHaulLimits(),
	}
}

// nitrogenPerOxygen turns an excretion of ammonia nitrogen into mol N per mol O2.
func nitrogenPerOxygen(excretion, demand units.MassSpecificRate) float64 {
	const nitrogen, oxygen = 14.007, 31.998 // g/mol
	return float64(excretion/demand) * oxygen / nitrogen
}

// Load by displacement at 1 kg/L; oxygen, CO2 and ammonia by rate times mass
// times time; heat as walls, 13.6 kJ a gram of oxygen, and agitators, over the
// heat capacity of fish and water or the melting of ice.
func TestLedgeSpringHaul(t *testing.T) {
	p := must(ledgeHaul(300 * units.MilligramPerKilogramHour).Plan())
	about(t, "load, kg/L of tank", p.Loaded.PerTank.In(units.KilogramsPerLitreTank), 0.289)
	about(t, "load, lb/gal of tank", p.Loaded.PerTank.In(units.PoundsPerUSGallonTank), 2.41)
	about(t, "load, kg/L of water", p.Loaded.PerWater.In(units.KilogramsPerLitreWater), 0.406)
	within(t, "load, lb/gal of water", p.Loaded.PerWater.In(units.PoundsPerUSGallonWater), 2.5, 3.5)
	within(t, "pre-fill, m3", p.Loaded.Water.CubicMetres(), 6.3, 6.5)
	about(t, "pre-fill, gal", p.Loaded.Water.In(units.USGallons), 1690)

	about(t, "oxygen used, kg", p.OxygenUsed.Kilograms(), 7.0)
	about(t, "oxygen used at 200, kg", must(ledgeHaul(200*units.MilligramPerKilogramHour).Plan()).OxygenUsed.Kilograms(), 4.7)
	about(t, "oxygen used at 400, kg", must(ledgeHaul(400*units.MilligramPerKilogramHour).Plan()).OxygenUsed.Kilograms(), 9.4)
	within(t, "oxygen let out, kg", p.OxygenOut.Kilograms(), 12, 37)
	about(t, "oxygen let out, kg", p.OxygenOut.Kilograms(), 23)
	gas := p.OxygenOut.Volume(must(transport.OxygenGasDensity(units.Celsius(21.1), 0)))
	about(t, "oxygen let out, m3 of gas", gas.CubicMetres(), 17.6)
	about(t, "oxygen let out, ft3 of gas", gas.In(units.CubicFeet), 620)
	bottle := must(transport.Cylinder{Gas: 6.9 * units.CubicMetre}.Oxygen())
	about(t, "large cylinders", float64(p.OxygenOut/bottle), 2.6)
	within(t, "large cylinders to carry", float64(p.Carry/bottle), 5, 6)

	about(t, "CO2 made, kg", p.CO2Made.Kilograms(), 8.7)
	about(t, "CO2 if none is vented, mg/L", p.CO2Made.Concentration(p.Loaded.Water).In(units.MilligramsPerLitre), 1360)
	vent := must(transport.VentFlow(p.CO2Made.Per(9*time.Hour), 30*units.MilligramPerLitre, 0.5, units.Celsius(10), 0))
	within(t, "air to hold 30 mg/L, m3/h", vent.In(units.CubicMetresPerHour), 50, 150)
	about(t, "air to hold 30 mg/L, ft3/min", vent.In(units.CubicFeetPerMinute), 47)
	if p.Binds != "carbon dioxide" || p.Hours > 9*time.Hour {
		t.Errorf("with the vents shut %q binds, after %v", p.Binds, p.Hours)
	}
	noticed(t, p.Notices, transport.CodeCarbonDioxide)

	about(t, "wall, kW", p.Wall.In(units.Kilowatts), 0.29)
	about(t, "metabolic, kW", p.Metabolic.In(units.Kilowatts), 2.95)
	about(t, "agitators, kW", p.Stirring.In(units.Kilowatts), 0.36)
	heat := p.Wall + p.Metabolic + p.Stirring
	about(t, "heat, kW", heat.In(units.Kilowatts), 3.6)
	within(t, "warming, K", p.Warming.Kelvins(), 2, 4.5)
	about(t, "warming, K", p.Warming.Kelvins(), 3.2)
	about(t, "ice to hold 10 °C, kg", p.Ice.Kilograms(), 310)
	about(t, "ice to hold 10 °C, lb", must(transport.IceToHold(heat, 9*time.Hour, units.Celsius(10), 0)).In(units.Pounds), 683)
	about(t, "load factor 3.2 K warmer", must(transport.TroutLoadFactor(units.Celsius(10), units.Celsius(13.2))), 0.68)
}

// Six to twelve milligrams of ammonia nitrogen a kilogram and hour over the
// water; its toxic share by Emerson et al. (1975) at 12 °C.
func TestLedgeSpringAmmonia(t *testing.T) {
	for _, c := range []struct{ excretion, total, acid, basic float64 }{{6, 22, 0.03, 0.19}, {12, 44, 0.06, 0.38}} {
		h := ledgeHaul(300 * units.MilligramPerKilogramHour)
		h.AmmoniaQuotient = nitrogenPerOxygen(units.MilligramsPerKilogramHour.Of(c.excretion), h.Demand.At)
		total := must(h.Plan()).End.Ammonia
		about(t, "total ammonia nitrogen, mg/L", total.In(units.MilligramsPerLitre), c.total)
		acid := must(transport.Emerson1975.Unionised(total, units.Celsius(12), 6.8, 0))
		about(t, "NH3 nitrogen at pH 6.8, mg/L", acid.In(units.MilligramsPerLitre), c.acid)
		basic := must(transport.Emerson1975.Unionised(total, units.Celsius(12), 7.6, 0))
		about(t, "NH3 nitrogen at pH 7.6, mg/L", basic.In(units.MilligramsPerLitre), c.basic)
	}
	// Stripping the CO2 raises pH, and with it the toxic share.
	h := ledgeHaul(300 * units.MilligramPerKilogramHour)
	shut := must(h.Plan())
	h.CarbonKLa = 6 * units.PerHour
	open := must(h.Plan())
	if !(open.End.CO2 < shut.End.CO2 && open.End.PH > shut.End.PH && open.End.Unionised > shut.End.Unionised) {
		t.Errorf("vents open %+v, shut %+v", open.End, shut.End)
	}
	noticed(t, open.Notices, transport.CodeAmmonia)
}

// Oxygen saturation of fresh water at 10 °C, scaled by air pressure less vapour.
func TestLedgeSpringSaturation(t *testing.T) {
	within(t, "at 610 m, mg/L", must(transport.OxygenSaturation(units.Celsius(10), 0, ledgeAir)).In(units.MilligramsPerLitre), 10.4, 10.6)
	within(t, "at sea level, mg/L", must(transport.OxygenSaturation(units.Celsius(10), 0, 0)).In(units.MilligramsPerLitre), 11.2, 11.4)
}
