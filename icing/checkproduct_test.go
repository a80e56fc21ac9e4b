package icing

import (
	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// materialRows run the tables of food, ice and salt water.
var materialRows = map[string]func(check.Row) (float64, error){
	"Component.SpecificHeat": func(r check.Row) (float64, error) {
		v, err := component(r).SpecificHeat(celsius(r, "temp_c"))
		return float64(v), err
	},
	"Component.Conductivity": func(r check.Row) (float64, error) {
		v, err := component(r).Conductivity(celsius(r, "temp_c"))
		return float64(v), err
	},
	"Component.Density": func(r check.Row) (float64, error) {
		v, err := component(r).Density(celsius(r, "temp_c"))
		return float64(v), err
	},
	"Composition.Properties": func(r check.Row) (float64, error) {
		p, err := composition(r).Properties(celsius(r, "temp_c"))
		v, ok := map[string]float64{"cp_J_per_kgK": float64(p.SpecificHeat), "rho_kg_per_m3": float64(p.Density),
			"k_parallel_W_per_mK": float64(p.Parallel), "k_series_W_per_mK": float64(p.Series),
			"alpha_parallel_m2_per_s": float64(p.Diffusivity)}[r.Text("quantity")]
		return v, orUnknown(ok, r, err)
	},
	"SiebelSpecificHeat": func(r check.Row) (float64, error) {
		v, err := SiebelSpecificHeat(r.Float("water_1"), r.Text("frozen") == "yes")
		return float64(v), err
	},
	"FAOSpecificHeat": func(r check.Row) (float64, error) {
		v, err := FAOSpecificHeat(r.Float("lipid_1"), r.Float("solids_1"), r.Float("water_1"))
		return float64(v), err
	},
	"ChenSpecificHeat": func(r check.Row) (float64, error) {
		v, err := ChenSpecificHeat(r.Float("solids_1"))
		return float64(v), err
	},
	"ChenFrozenSpecificHeat": func(r check.Row) (float64, error) {
		v, err := ChenFrozenSpecificHeat(r.Float("solids_1"), r.Float("water_1"), r.Float("bound_1"), celsius(r, "freezing_c"), celsius(r, "temp_c"))
		return float64(v), err
	},
	"FrozenFraction": func(r check.Row) (float64, error) {
		return FrozenFraction(r.Float("water_1"), r.Float("protein_1"), celsius(r, "freezing_c"), celsius(r, "temp_c"))
	},
	"WholeFishFreezing": func(check.Row) (float64, error) { return WholeFishFreezing().Celsius(), nil },
	"FishLatentHeat": func(r check.Row) (float64, error) {
		v, err := FishLatentHeat(r.Float("water_1"))
		return float64(v), err
	},
	"IceSpecificHeat": func(r check.Row) (float64, error) {
		v, err := IceSpecificHeat(celsius(r, "temp_c"))
		return float64(v), err
	},
	"IceDensity": func(r check.Row) (float64, error) {
		v, err := IceDensity(celsius(r, "temp_c"))
		return float64(v), err
	},
	"IceMeltingHeat": func(r check.Row) (float64, error) {
		v, err := IceMeltingHeat(celsius(r, "temp_c"))
		return float64(v), err
	},
	"FreezingPoint": func(r check.Row) (float64, error) {
		v, err := FreezingPoint(units.PracticalSalinity(r.Float("salinity_psu")), r.Text("air") == "saturated")
		return v.Kelvins() - zeroCelsius, err
	},
	"FreezingPointUNESCO1983": func(r check.Row) (float64, error) {
		v, err := FreezingPointUNESCO1983(units.PracticalSalinity(r.Float("salinity_psu")), units.Pressure(r.Float("pressure_dbar")*1e4))
		return v.Kelvins() - zeroCelsius, err
	},
	"MeltingHeat": func(r check.Row) (float64, error) {
		v, err := MeltingHeat(units.PracticalSalinity(r.Float("salinity_psu")))
		return float64(v), err
	},
	"BrineSalinity": func(r check.Row) (float64, error) {
		v, err := BrineSalinity(celsius(r, "temp_c"))
		return float64(v), err
	},
	"SlurryIceFraction": func(r check.Row) (float64, error) {
		return SlurryIceFraction(units.PracticalSalinity(r.Float("salinity_psu")), celsius(r, "temp_c"))
	},
	"MeltIntoSeawater": func(r check.Row) (float64, error) {
		s, err := MeltIntoSeawater(units.PracticalSalinity(r.Float("salinity_psu")), celsius(r, "temp_c"), r.Float("share_1"), celsius(r, "ice_c"))
		v, ok := map[string]float64{"final_temp_C": s.Temperature.Kelvins() - zeroCelsius, "final_SA_g_per_kg": float64(s.Salinity),
			"final_ice_fraction": s.IceFraction}[r.Text("quantity")]
		return v, orUnknown(ok, r, err)
	},
	"BrineFreezing": func(r check.Row) (float64, error) {
		t, err := BrineFreezing(units.MassFraction(r.Float("salt_1")))
		return t.Celsius(), err
	},
	"BrineStrength": func(r check.Row) (float64, error) {
		w, err := BrineStrength(celsius(r, "temp_c"))
		return float64(w), err
	},
	"SlurryDensity": func(r check.Row) (float64, error) {
		d, err := SlurryDensity(r.Float("ice_1"), units.Density(r.Float("density_kg_per_m3")), celsius(r, "temp_c"))
		return float64(d), err
	},
	"SlurryCooling": func(r check.Row) (float64, error) {
		q, err := SlurryCooling(units.PracticalSalinity(r.Float("salinity_psu")), celsius(r, "temp_c"), celsius(r, "end_c"))
		return float64(q), err
	},
	"ChilledSeawater": func(r check.Row) (float64, error) {
		c, err := ChilledSeawater(Batch{Product: units.Mass(r.Float("product_kg")), SpecificHeat: units.SpecificHeat(r.Float("product_cp_j_per_kgk")), Temperature: celsius(r, "product_c")},
			units.Mass(r.Float("water_kg")), units.PracticalSalinity(r.Float("salinity_psu")), celsius(r, "temp_c"), celsius(r, "ice_c"), units.Energy(r.Float("leak_j")))
		v, ok := map[string]float64{"ice_kg": float64(c.Ice), "end_c": c.Temperature.Kelvins() - zeroCelsius, "salinity_g_per_kg": float64(c.Diluted)}[r.Text("quantity")]
		return v, orUnknown(ok, r, err)
	},
	"WaterActivity": func(r check.Row) (float64, error) { return WaterActivity(celsius(r, "freezing_c")) },
}
