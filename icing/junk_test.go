package icing

import (
	"testing"
	"time"

	"pondwright.example/internal/junk"
	"pondwright.example/units"
)

// Every exported function, with arguments that it answers; the test spoils them.
func junkCalls() map[string]junk.Call {
	c, of := units.Celsius, junk.Of
	now := time.Date(2026, 3, 4, 5, 0, 0, 0, time.UTC)
	body := Body{Shape: Cylinder, HalfDimension: 0.0075, Conductivity: 0.5, Diffusivity: 1.34e-7, Film: 300}
	short := FiniteCylinder{Radius: 0.05, Length: 0.1, Conductivity: 0.5, Diffusivity: 1.3e-7, Film: 100}
	brick := Brick{Sides: [3]units.Length{0.2, 0.3, 0.4}, Conductivity: 0.5, Diffusivity: 1.3e-7, Film: 100}
	ice := Ice{Temperature: c(-3), LatentHeat: 333e3, SpecificHeat: 2100, FreeWater: 0.1}
	bath := Bath{IceMass: 300, Ice: ice, Water: 500, WaterTemperature: c(2), WaterSpecificHeat: 4186}
	batch := Batch{Product: 100, SpecificHeat: 3600, Temperature: c(28)}
	load := good()
	load.OtherHeat, load.Sun, load.WaterTemperature, load.MeltStays = 1e6, 5, c(25), true
	store := Store{Start: 1000, Capacity: 5000, Production: 0.1, MeltRate: 1e-7, Step: time.Hour}
	demand := []units.MassFlow{0.1, 0.3, 0}
	weather := []Weather{{0, c(20), 2}, {time.Hour, c(30), 3}, {2 * time.Hour, c(-5), 0}}
	melts := []MeltTest{{0, 20}, {2 * time.Hour, 18.9}, {6 * time.Hour, 17}}
	limits := func(l Limit, o ExposureOptions, first, second Reading) (ExposureReport, error) {
		e, err := NewExposure([]Limit{l}, o)
		if err != nil {
			return ExposureReport{}, err
		}
		if err := e.Add(first); err != nil {
			return ExposureReport{}, err
		}
		if err := e.Add(second); err != nil {
			return ExposureReport{}, err
		}
		return e.Report(), nil
	}
	exposure := of(limits, FDARawReadyToEat()[0], ExposureOptions{MaxGap: time.Hour}, Reading{At: now, Temperature: c(25)}, Reading{At: now.Add(time.Hour), Temperature: c(2)})
	return map[string]junk.Call{
		"Theta": of(Theta, Slab, 1.0, 0.3, 0.5), "MeanTheta": of(MeanTheta, Sphere, 1.0, 0.3), "Root": of(Root, Cylinder, 2.0, 3), "Amplitude": of(Amplitude, Slab, 2.0, 3),
		"BrineFreezing": of(BrineFreezing, 0.1), "BrineStrength": of(BrineStrength, c(-5)), "BrineSalinity": of(BrineSalinity, c(-2)),
		"ChenFrozenSpecificHeat": of(ChenFrozenSpecificHeat, 0.2, 0.8, 0.08, c(-2), c(-10)), "ChenSpecificHeat": of(ChenSpecificHeat, 0.2),
		"ChillRatio": of(ChillRatio, 3600, c(25), c(2), 333e3), "Drip": of(Drip, 10, 9.7), "FAOSpecificHeat": of(FAOSpecificHeat, 0.05, 0.2, 0.75),
		"FishLatentHeat": of(FishLatentHeat, 0.8), "FreezingNotice": of(FreezingNotice, c(-2)), "FreezingPoint": of(FreezingPoint, 30, true),
		"FreezingPointUNESCO1983": of(FreezingPointUNESCO1983, 30, 1e5), "FrozenFraction": of(FrozenFraction, 0.8, 0.18, c(-2), c(-10)),
		"Glaze": of(Glaze, 10, 9), "Gross": of(Gross, 10, 0.1), "IceDensity": of(IceDensity, c(-5)), "IceMeltingHeat": of(IceMeltingHeat, c(-5)), "IceSpecificHeat": of(IceSpecificHeat, c(-5)),
		"Layers": of(Layers, 0.5, 0.05, 0.06, 0.04), "MakingHeat": of(MakingHeat, c(25), c(-5), 333e3), "MeltOver": of(MeltOver, 2, weather, 333e3), "MeltRate": of(MeltRate, 2, c(30), 5, 333e3),
		"MeltingHeat": of(MeltingHeat, 30), "MidWallArea": of(MidWallArea, 4, 5), "RelativeRate": of(RelativeRate, 10*time.Hour, 5*time.Hour),
		"ReserveTime": of(ReserveTime, 20, 2, c(30), 5, 333e3), "SiebelSpecificHeat": of(SiebelSpecificHeat, 0.8, false), "SlurryCooling": of(SlurryCooling, 20, c(-2), c(2)),
		"SlurryDensity": of(SlurryDensity, 0.3, 1030, c(-2)), "SlurryIceFraction": of(SlurryIceFraction, 20, c(-2)), "StackNotice": of(StackNotice, 0.7, 0.6),
		"SulphiteSalt": of(SulphiteSalt, 100, 0.05), "SunExcess": of(SunExcess, 0.5, 800, 20), "ThicknessForMass": of(ThicknessForMass, 0.02, 0.02, 0.03),
		"TwoLumps": of(TwoLumps, 1e5, 2e5, 100, c(20), c(0), time.Hour), "WaterActivity": of(WaterActivity, c(-2)),
		"Bath.Batches": of(Bath.Batches, bath, batch, c(4), 2), "Bath.Capacity": of(Bath.Capacity, bath, batch, c(3)), "Bath.Validate": of(Bath.Validate, bath), "Equilibrium": of(Equilibrium, bath, batch),
		"Body.Biot": of(Body.Biot, body), "Body.Core": of(Body.Core, body, c(28), c(0), time.Minute), "Body.CoreTime": of(Body.CoreTime, body, c(28), c(0), c(4)),
		"Body.Fourier": of(Body.Fourier, body, time.Minute), "Body.HalfDimensionFor": of(Body.HalfDimensionFor, body, c(28), c(0), c(4), time.Hour),
		"Body.Mean": of(Body.Mean, body, c(28), c(0), time.Minute), "Body.MeanTime": of(Body.MeanTime, body, c(28), c(0), c(4)), "Body.Validate": of(Body.Validate, body),
		"Brick.CoreTime": of(Brick.CoreTime, brick, c(28), c(0), c(4)), "Brick.Theta": of(Brick.Theta, brick, time.Hour),
		"FiniteCylinder.CoreTime": of(FiniteCylinder.CoreTime, short, c(28), c(0), c(4)), "FiniteCylinder.MeanTheta": of(FiniteCylinder.MeanTheta, short, time.Hour), "FiniteCylinder.Theta": of(FiniteCylinder.Theta, short, time.Hour, 0.5, 0.5),
		"ChilledSeawater":        of(ChilledSeawater, batch, 300, 35, c(25), c(-2), 1e6),
		"Component.Conductivity": of(Component.Conductivity, Protein, c(5)), "Component.Density": of(Component.Density, Fat, c(5)), "Component.SpecificHeat": of(Component.SpecificHeat, Ash, c(5)),
		"Composition.Properties": of(Composition.Properties, Shrimp, c(5)), "Composition.Validate": of(Composition.Validate, Shrimp), "Crop.Validate": of(Crop.Validate, Crop{4000, 4600, 5200}),
		"NewExposure": exposure, "Exposure.Add": exposure, "Exposure.Report": exposure,
		"Ice.Cooling": of(Ice.Cooling, ice, c(2), 4186), "Ice.Validate": of(Ice.Validate, ice),
		"Inventory.Check": of(Inventory.Check, Inventory{OnHand: 3000, StoreMelt: 0.001, Remaining: load, Rate: 1, Lead: time.Hour}),
		"Load.Balance":    of(Load.Balance, load), "Load.CrossCheck": of(Load.CrossCheck, load), "Load.Plan": of(Load.Plan, load, Crop{4000, 4614, 5200}, 400), "Load.Validate": of(Load.Validate, load),
		"FitMeltTest": of(FitMeltTest, melts, c(30), 333e3), "MeltIntoSeawater": of(MeltIntoSeawater, 30, c(25), 0.2, c(-2)),
		"Spoilage.Life": of(Spoilage.Life, TemperateHuss1995, 240*time.Hour, c(5)), "Spoilage.Rate": of(Spoilage.Rate, TropicalDalgaardHuss1995, c(5)),
		"Store.LeastStart": of(Store.LeastStart, store, demand), "Store.Run": of(Store.Run, store, demand),
		"Sulphite.OxygenDemand": of(Sulphite.OxygenDemand, SodiumBisulphite), "Sulphite.SulphurDioxide": of(Sulphite.SulphurDioxide, SodiumBisulphite),
		"Tote.Fillings": of(Tote.Fillings, Tote{Volume: 0.66, Fill: 0.9, ProductDensity: 1050, Voids: 0.4, IceBulk: 450, Ratio: 0.5}),
		"Trip.Plan":     of(Trip.Plan, Trip{Free: 50, Conductance: 5, Ambient: c(30), Sun: 5, Latent: 333e3, Duration: 48 * time.Hour, Reserve: 0.2, Room: 60}),
		"Wall.U":        of(Wall.U, Wall{OutsideFilm: 8, InsideFilm: 500, Layers: []Layer{{0.05, 0.025}, {0.003, 0.4}}}),
	}
}

func TestJunk(t *testing.T) { junk.Run(t, junkCalls(), 300) }

// Words and printing take no numbers.
func TestJunkIsComplete(t *testing.T) {
	junk.Complete(t, ".", junkCalls(), "Component.MarshalText", "Component.String", "Component.UnmarshalText",
		"Shape.MarshalText", "Shape.String", "Shape.UnmarshalText", "Spoilage.MarshalText", "Spoilage.String", "Spoilage.UnmarshalText")
}
