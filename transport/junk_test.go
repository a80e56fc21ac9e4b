package transport

import (
	"testing"
	"time"

	"pondwright.example/internal/junk"
	"pondwright.example/units"
)

// Every exported function, with arguments that it answers; the test spoils them.
func junkCalls() map[string]junk.Call {
	c, of, rate := units.Celsius, junk.Of, units.MassSpecificRate(300*mgPerKgH)
	now := time.Date(2026, 3, 4, 5, 0, 0, 0, time.UTC)
	haul := goodHaul()
	haul.FishDensity, haul.FishSpecificHeat, haul.Salinity, haul.Pressure = 1020, 3500, 0.2, 100e3
	haul.CarbonQuotient, haul.AmmoniaQuotient, haul.Agitators, haul.OxygenKLa, haul.CarbonKLa, haul.Ammonia = 0.9, 0.1, 300, 2e-4, 1e-3, 1e-4
	haul.OxygenStore, haul.Reserve, haul.Sun, haul.Duration = 20, 1, 5, 2*time.Hour
	haul.Demand.Stress, haul.Demand.Calm, haul.Demand.Q10 = 1.5, time.Hour, 2
	short := haul
	short.Duration, short.CarbonKLa, short.Limits = 10*time.Minute, 0, HaulLimits{Oxygen: 7e-3, Warmest: c(15)} // searching by halves: keep it cheap
	chem, _ := FreshCarbonate(c(20))
	sea, _ := SeaCarbonate(c(20), 30)
	water, _ := chem.FromPH(1.5, 7.5)
	mixed := Mixed{Water: 2, Capacity: 8e6, Product: 200, Demand: DemandLaw{At: rate, Base: c(20), Q10: 2}, Heat: 13.56e6, Ammonia: 0.04, Carbon: 1.2,
		Conductance: 20, Ambient: c(30), Power: 100, Exchange: 1e-4, InflowAt: c(18), InflowOxygen: 8e-3, InflowAmmonia: 1e-4, InflowCarbon: 0.05,
		OxygenKLa: 5e-4, Saturation: 9e-3, Oxygen: 1e-5, Ceiling: 43e-3, CarbonKLa: 5e-4, Chemistry: chem, AmmoniaK: 9.4, Basis: 1.5, AirCO2: 6e-4}
	state := MixedState{Temperature: c(20), Oxygen: 9e-3, Ammonia: 1e-4, Carbon: water.Carbon}
	tank := Tank{Volume: 8, Freeboard: 0.05}
	box := Container{Name: "tote", Volume: 0.66, Tare: 60, MaxGross: 600, Conductance: 4}
	filling := Filling{Product: 300, Ice: 0.5, Water: 0.1, ProductBulk: 600, IceBulk: 450, Fill: 0.9}
	truck := Truck{Name: "a", Gross: 18000, Tare: 8000, Payload: 10000, Slots: 10, Layers: 2,
		Axles: AxleLimits{Wheelbase: 5, LoadCentre: 3, FrontTare: 4000, RearTare: 4000, FrontLimit: 8000, RearLimit: 12000}}
	cargo := Cargo{Product: 5000, Container: box, Filling: filling, Available: 12, Others: []Boxes{{box, filling, 20}}, Trucks: []Truck{truck, truck}}
	turn := Turn{time.Hour, time.Hour, time.Hour, time.Hour, time.Hour}
	window := Window{now.Add(2 * time.Hour), now.Add(30 * time.Hour)}
	schedule := Schedule{Product: 20000, Start: now, Rate: 1.2, Haulers: []Hauler{{"a", now, 6000}, {"b", now, 8000}}, Turn: turn,
		PondDocks: 1, PlantDocks: 1, Windows: []Window{window}, MaxAge: 9 * time.Hour, MaxWait: time.Hour}
	cylinder := Cylinder{Gas: 6.9, At: c(21.1), Full: 150e5, Now: 120e5, Least: 10e5}
	loaded, _ := tank.Load(2000, 1000)
	return map[string]junk.Call{
		"AlarmTime": of(AlarmTime, 5, 2000, rate, 10e-3, 5e-3), "AmmoniaExcretion": of(AmmoniaExcretion, rate, 0.1), "AmmoniaRise": of(AmmoniaRise, 500, rate, 5, 2), "AsNH3": of(AsNH3, 1e-3),
		"AxleLoads": of(AxleLoads, 5, []PlacedMass{{7000, 1.8}, {6000, 4.2}}), "BagTime": of(BagTime, 0.026, 0.5, 2, rate), "BridgeFormula": of(BridgeFormula, 15, 5),
		"CO2After": of(CO2After, 1e-5, 5, 1e-3, 6e-4, 2e-3, time.Hour), "CO2Production": of(CO2Production, rate, 0.9), "CO2Solubility": of(CO2Solubility, c(20), 20),
		"CatfishDemand": of(CatfishDemand, 0.2, c(25)), "CatfishLoad": of(CatfishLoad, 0.2, 10, c(18)), "CatfishLoadFactor": of(CatfishLoadFactor, c(18), c(22)), "TroutLoadFactor": of(TroutLoadFactor, c(10), c(12)),
		"ChillerPower": of(ChillerPower, 2e7, 5, time.Hour), "DemandAt": of(DemandAt, rate, 2, c(20), c(25)), "Endurance": of(Endurance, 20, 1e-3), "HeatOf": of(HeatOf, 1000, rate),
		"IceToCool": of(IceToCool, 2e7, 5, c(18), 333e3), "IceToHold": of(IceToHold, 3000, time.Hour, c(10), 333e3), "LiaoDemand": of(LiaoDemand, Trout, 0.3, c(10)),
		"LoadForDelivered": of(LoadForDelivered, 95, 0.05), "OxygenGasDensity": of(OxygenGasDensity, c(20), 1e5), "OxygenNeed": of(OxygenNeed, 1000, rate, 0.2),
		"OxygenPerKilogram": of(OxygenPerKilogram, c(20), 30), "OxygenSaturation": of(OxygenSaturation, c(20), 20, 1e5), "OxygenUnderGas": of(OxygenUnderGas, 0.9, c(20), 20, 1e5),
		"PlummerBusenberg1982": of(PlummerBusenberg1982, c(20)), "PressureAt": of(PressureAt, 600), "Q10": of(Q10, rate, 2*rate, c(15), c(25)),
		"ReeferLoad": of(ReeferLoad, 0.4, 100, c(35), c(0)), "ReeferUnit": of(ReeferUnit, 1400), "SaltByVolume": of(SaltByVolume, 2, 5), "SaltFor": of(SaltFor, 2000, 0.001, 0.005),
		"SteadyCO2": of(SteadyCO2, 1e-5, 5, 1e-3, 6e-4), "StripLimit": of(StripLimit, 20e-3, 1e-3, c(20), 0.1, 420e-6), "VentFlow": of(VentFlow, 1e-5, 20e-3, 0.5, c(20), 0.1),
		"Temper": of(Temper, c(28), c(20), 2), "TemperTime": of(TemperTime, 2, c(28), c(20), 1e-3, 0.5), "Trips": of(Trips, 24000, 6000),
		"AmmoniaModel.Fraction": of(AmmoniaModel.Fraction, CleggWhitfield1995, c(20), 8, 30), "AmmoniaModel.PKa": of(AmmoniaModel.PKa, Bell2008, c(20), 30), "AmmoniaModel.Unionised": of(AmmoniaModel.Unionised, Emerson1975, 1e-3, c(20), 8, 0),
		"FreshCarbonate": of(FreshCarbonate, c(20)), "SeaCarbonate": of(SeaCarbonate, c(20), 30), "Carbonate.AddCO2": of(Carbonate.AddCO2, chem, water, 10e-3),
		"Carbonate.FromCO2": of(Carbonate.FromCO2, sea, 2, 2e-3), "Carbonate.FromCarbon": of(Carbonate.FromCarbon, chem, 1.5, 0.08), "Carbonate.FromPH": of(Carbonate.FromPH, sea, 2, 8),
		"Carbonate.FromPHCarbon": of(Carbonate.FromPHCarbon, chem, 7.5, 0.08), "Carbonate.Validate": of(Carbonate.Validate, sea),
		"Cargo.Pack": of(Cargo.Pack, cargo), "Container.Fill": of(Container.Fill, box, filling), "Cylinder.Count": of(Cylinder.Count, cylinder, 20), "Cylinder.Oxygen": of(Cylinder.Oxygen, cylinder),
		"Haul.MostProduct": of(Haul.MostProduct, short), "Haul.Plan": of(Haul.Plan, haul), "Haul.Validate": of(Haul.Validate, haul),
		"Loaded.GrossMass": of(Loaded.GrossMass, loaded, 1500, 998), "LossAllowance": of(LossAllowance, 1000, 0.02, 0.05), "Mixed.After": of(Mixed.After, mixed, state, time.Hour), "Mixed.Validate": of(Mixed.Validate, mixed),
		"Road.Melt":                  of(Road.Melt, Road{Containers: 20, Conductance: 4, Ambient: c(30), Sun: 5, Haul: time.Hour, Wait: time.Hour, Latent: 333e3}, 1000),
		"SaturationModel.Saturation": of(SaturationModel.Saturation, GarciaGordon1992, c(20), 20, 1e5), "Schedule.Plan": of(Schedule.Plan, schedule), "Schedule.Validate": of(Schedule.Validate, schedule),
		"Tank.Load": of(Tank.Load, tank, 2000, 1000), "Tank.Product": of(Tank.Product, tank, LoadDensity{PerTank: 300}, 1000), "Tank.Validate": of(Tank.Validate, tank),
		"Truck.Capacity": of(Truck.Capacity, truck, 500), "Truck.PayloadLimit": of(Truck.PayloadLimit, truck), "Truck.Validate": of(Truck.Validate, truck), "Truck.Weigh": of(Truck.Weigh, truck, 9000),
		"Turn.Cycle": of(Turn.Cycle, turn), "Turn.OldestAge": of(Turn.OldestAge, turn, 1.1, 6000), "Turn.PayloadForAge": of(Turn.PayloadForAge, turn, 1.1, 5*time.Hour), "Turn.Trucks": of(Turn.Trucks, turn, 1.1, 6000), "Turn.Validate": of(Turn.Validate, turn),
		"Way.Carry": of(Way.Carry, Way{6000, 1.5, 0.05}, 20000), "Window.LatestDeparture": of(Window.LatestDeparture, window, time.Hour),
	}
}

func TestJunk(t *testing.T) {
	if raceEnabled {
		t.Skip("one goroutine, and slow under the race detector")
	}
	junk.Run(t, junkCalls(), 25)
}

// Printing takes no numbers.
func TestJunkIsComplete(t *testing.T) {
	junk.Complete(t, ".", junkCalls(), "AmmoniaModel.MarshalText", "AmmoniaModel.String", "AmmoniaModel.UnmarshalText")
}
