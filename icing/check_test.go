package icing

import (
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestCheckTables(t *testing.T) {
	paths, err := filepath.Glob("testdata/*.csv")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no tables: %v", err)
	}
	for _, p := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(p), ".csv"), func(t *testing.T) { check.Run(t, p, rows) })
	}
}

func TestCoverage(t *testing.T) { check.Coverage(t, ".") }
func TestSources(t *testing.T)  { check.Sources(t, ".") }
func TestDocs(t *testing.T)     { check.Docs(t, ".") }

// optional reads a column that may be blank.
func optional(r check.Row, column string, otherwise float64) float64 {
	if r.Has(column) {
		return r.Float(column)
	}
	return otherwise
}

func celsius(r check.Row, column string) units.Temperature {
	if r.Has(column) {
		return units.Celsius(r.Float(column))
	}
	return units.Temperature{}
}

func secondsOf(s float64) time.Duration { return time.Duration(math.Round(s * 1e9)) }

func component(r check.Row) Component {
	name := r.Text("component")
	for i, n := range componentNames {
		if n == name {
			return Component(i)
		}
	}
	if name == "fiber" {
		return Fibre
	}
	if name == "carb" {
		return Carbohydrate
	}
	return Component(200)
}

func shapeOf(r check.Row) (s Shape) {
	if err := s.UnmarshalText([]byte(r.Text("shape"))); err != nil {
		return Shape(9)
	}
	return s
}

func iceOf(r check.Row) Ice {
	return Ice{Temperature: celsius(r, "ice_c"), LatentHeat: units.SpecificEnergy(optional(r, "latent_j_per_kg", 0)),
		SpecificHeat: units.SpecificHeat(optional(r, "ice_cp_j_per_kgk", 0))}
}

func composition(r check.Row) Composition {
	return Composition{Water: r.Float("water_1"), Protein: r.Float("protein_1"), Fat: r.Float("fat_1"),
		Carbohydrate: r.Float("carbohydrate_1"), Ash: r.Float("ash_1")}
}

func bodyOf(r check.Row) Body {
	return Body{Shape: shapeOf(r), HalfDimension: units.Length(r.Float("half_m")), Conductivity: units.ThermalConductivity(r.Float("k_w_per_mk")),
		Diffusivity: units.Diffusivity(r.Float("a_m2_per_s")), Film: units.HeatTransferCoefficient(r.Float("film_w_per_m2k"))}
}

func finiteCylinder(r check.Row) FiniteCylinder {
	return FiniteCylinder{Radius: units.Length(r.Float("radius_m")), Length: units.Length(r.Float("height_m")),
		Conductivity: units.ThermalConductivity(r.Float("k_w_per_mk")), Diffusivity: units.Diffusivity(r.Float("a_m2_per_s")),
		Film: units.HeatTransferCoefficient(r.Float("film_w_per_m2k"))}
}

func brickOf(r check.Row) Brick {
	b := Brick{Conductivity: units.ThermalConductivity(r.Float("k_w_per_mk")), Diffusivity: units.Diffusivity(r.Float("a_m2_per_s")),
		Film: units.HeatTransferCoefficient(r.Float("film_w_per_m2k"))}
	for i := range b.Sides {
		b.Sides[i] = 2 * units.Length(r.Float(fmt.Sprintf("half%d_m", i+1)))
	}
	return b
}

func loadOf(r check.Row) Load {
	l := Load{
		Product:             units.Mass(r.Float("product_kg")),
		ProductSpecificHeat: units.SpecificHeat(r.Float("product_cp_j_per_kgk")),
		ProductTemperature:  celsius(r, "product_c"),
		FinalTemperature:    celsius(r, "final_c"),
		CarriedWater:        optional(r, "carried_1", 0),
		MakeUpWater:         units.Mass(optional(r, "makeup_kg", 0)),
		WaterTemperature:    celsius(r, "water_c"),
		WaterSpecificHeat:   units.SpecificHeat(optional(r, "water_cp_j_per_kgk", 0)),
		Containers:          int(optional(r, "containers_1", 0)),
		Conductance:         units.ThermalConductance(optional(r, "ua_w_per_k", 0)),
		Ambient:             celsius(r, "ambient_c"),
		Sun:                 units.TempDelta(optional(r, "sun_k", 0)),
		Hold:                secondsOf(optional(r, "hold_s", 0)),
		OtherHeat:           units.Energy(optional(r, "other_j", 0)),
		Ice:                 iceOf(r),
		MeltStays:           r.Text("stays") == "yes",
		Waste:               optional(r, "waste_1", 0),
	}
	return l
}

func bathOf(r check.Row) (Bath, Batch) {
	return Bath{IceMass: units.Mass(optional(r, "ice_kg", 0)), Ice: iceOf(r), Water: units.Mass(optional(r, "water_kg", 0)),
			WaterTemperature: celsius(r, "water_c"), WaterSpecificHeat: units.SpecificHeat(optional(r, "water_cp_j_per_kgk", 0))},
		Batch{Product: units.Mass(optional(r, "product_kg", 0)), SpecificHeat: units.SpecificHeat(optional(r, "product_cp_j_per_kgk", 0)),
			Temperature: celsius(r, "product_c")}
}

func law(r check.Row) Spoilage {
	if r.Text("law") == "tropical" {
		return TropicalDalgaardHuss1995
	}
	return TemperateHuss1995
}

var rows = map[string]func(check.Row) (float64, error){
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
	"Root": func(r check.Row) (float64, error) {
		return Root(shapeOf(r), r.Float("biot_1"), int(r.Float("index_1")))
	},
	"Amplitude": func(r check.Row) (float64, error) {
		return Amplitude(shapeOf(r), r.Float("biot_1"), int(r.Float("index_1")))
	},
	"Theta": func(r check.Row) (float64, error) {
		return Theta(shapeOf(r), r.Float("biot_1"), r.Float("fourier_1"), r.Float("position_1"))
	},
	"MeanTheta": func(r check.Row) (float64, error) {
		return MeanTheta(shapeOf(r), r.Float("biot_1"), r.Float("fourier_1"))
	},
	"FiniteCylinder.Theta": func(r check.Row) (float64, error) {
		return finiteCylinder(r).Theta(secondsOf(r.Float("time_s")), r.Float("radial_1"), r.Float("axial_1"))
	},
	"FiniteCylinder.MeanTheta": func(r check.Row) (float64, error) {
		return finiteCylinder(r).MeanTheta(secondsOf(r.Float("time_s")))
	},
	"Brick.Theta": func(r check.Row) (float64, error) {
		return brickOf(r).Theta(secondsOf(r.Float("time_s")))
	},
	"Body.CoreTime": func(r check.Row) (float64, error) {
		d, err := bodyOf(r).CoreTime(celsius(r, "start_c"), celsius(r, "medium_c"), celsius(r, "target_c"))
		return d.Seconds(), err
	},
	"Body.Biot":    func(r check.Row) (float64, error) { return bodyOf(r).Biot() },
	"Body.Fourier": func(r check.Row) (float64, error) { return bodyOf(r).Fourier(secondsOf(r.Float("time_s"))) },
	"Body.Core": func(r check.Row) (float64, error) {
		v, err := bodyOf(r).Core(celsius(r, "start_c"), celsius(r, "medium_c"), secondsOf(r.Float("time_s")))
		return v.Celsius(), err
	},
	"Body.Mean": func(r check.Row) (float64, error) {
		v, err := bodyOf(r).Mean(celsius(r, "start_c"), celsius(r, "medium_c"), secondsOf(r.Float("time_s")))
		return v.Celsius(), err
	},
	"Body.MeanTime": func(r check.Row) (float64, error) {
		d, err := bodyOf(r).MeanTime(celsius(r, "start_c"), celsius(r, "medium_c"), celsius(r, "target_c"))
		return d.Seconds(), err
	},
	"FiniteCylinder.CoreTime": func(r check.Row) (float64, error) {
		d, err := finiteCylinder(r).CoreTime(celsius(r, "start_c"), celsius(r, "medium_c"), celsius(r, "target_c"))
		return d.Seconds(), err
	},
	"Brick.CoreTime": func(r check.Row) (float64, error) {
		d, err := brickOf(r).CoreTime(celsius(r, "start_c"), celsius(r, "medium_c"), celsius(r, "target_c"))
		return d.Seconds(), err
	},
	"ThicknessForMass": func(r check.Row) (float64, error) {
		d, err := ThicknessForMass(units.Length(r.Float("half_m")), units.Mass(r.Float("mass1_kg")), units.Mass(r.Float("mass2_kg")))
		return float64(d), err
	},
	"Ice.Cooling": func(r check.Row) (float64, error) {
		q, err := iceOf(r).Cooling(celsius(r, "final_c"), units.SpecificHeat(optional(r, "water_cp_j_per_kgk", 0)))
		return float64(q), err
	},
	"Load.Balance": func(r check.Row) (float64, error) {
		b, err := loadOf(r).Balance()
		v, ok := map[string]float64{"heat_j": float64(b.Heat), "melt_kg": float64(b.Melt), "order_kg": float64(b.Order),
			"chill_kg": float64(b.Chill), "carried_kg": float64(b.Carried), "makeup_kg": float64(b.MakeUp), "leak_kg": float64(b.Leak),
			"leak_j": float64(b.Leak) * float64(b.Cooling), "ratio_1": b.Ratio}[r.Text("quantity")]
		return v, orUnknown(ok, r, err)
	},
	"ChillRatio": func(r check.Row) (float64, error) {
		v, err := ChillRatio(units.SpecificHeat(r.Float("cp_j_per_kgk")), celsius(r, "start_c"), celsius(r, "end_c"), units.SpecificEnergy(r.Float("latent_j_per_kg")))
		if r.Has("inverse") && r.Text("inverse") == "yes" {
			v = 1 / v
		}
		return v * optional(r, "times_1", 1), err
	},
	"Equilibrium": func(r check.Row) (float64, error) {
		e, err := Equilibrium(bathOf(r))
		v, ok := map[string]float64{"final_c": e.Temperature.Kelvins() - zeroCelsius, "melted_kg": float64(e.Melted), "left_kg": float64(e.IceLeft)}[r.Text("quantity")]
		return v, orUnknown(ok, r, err)
	},
	"Bath.Capacity": func(r check.Row) (float64, error) {
		b, p := bathOf(r)
		v, err := b.Capacity(p, celsius(r, "final_c"))
		return float64(v), err
	},
	"TwoLumps": func(r check.Row) (float64, error) {
		c1 := units.HeatCapacity(r.Float("product_kg") * r.Float("product_cp_j_per_kgk"))
		c2 := units.HeatCapacity(r.Float("water_kg") * r.Float("water_cp_j_per_kgk"))
		v, _, err := TwoLumps(c1, c2, units.ThermalConductance(r.Float("ua_w_per_k")), celsius(r, "product_c"), celsius(r, "water_c"), secondsOf(r.Float("time_s")))
		return v.Celsius(), err
	},
	"Spoilage.Rate": func(r check.Row) (float64, error) { return law(r).Rate(celsius(r, "temp_c")) },
	"Spoilage.Life": func(r check.Row) (float64, error) {
		d, err := law(r).Life(secondsOf(r.Float("life_d")*86400), celsius(r, "temp_c"))
		return d.Hours() / 24, err
	},
	"RelativeRate": func(r check.Row) (float64, error) {
		return RelativeRate(secondsOf(r.Float("life_d")*86400), secondsOf(r.Float("life_t_d")*86400))
	},
	"Exposure.Report": exposureRow,
	"Wall.U": func(r check.Row) (float64, error) {
		w := Wall{OutsideFilm: units.HeatTransferCoefficient(r.Float("outside_w_per_m2k")), InsideFilm: units.HeatTransferCoefficient(r.Float("inside_w_per_m2k"))}
		for s := range strings.SplitSeq(r.Text("layers_m_per_w_per_mk"), ";") {
			d, k, _ := strings.Cut(s, "/")
			x, err1 := strconv.ParseFloat(d, 64)
			y, err2 := strconv.ParseFloat(k, 64)
			if err1 != nil || err2 != nil {
				return math.NaN(), fmt.Errorf("layer %q", s)
			}
			w.Layers = append(w.Layers, Layer{units.Length(x), units.ThermalConductivity(y)})
		}
		u, err := w.U()
		return float64(u), err
	},
	"MeltRate": func(r check.Row) (float64, error) {
		v, err := MeltRate(units.ThermalConductance(r.Float("ua_w_per_k")), celsius(r, "ambient_c"), 0, units.SpecificEnergy(r.Float("latent_j_per_kg")))
		switch r.Text("quantity") {
		case "kg_per_h_k":
			return float64(v) * 3600, err
		case "melt_kg":
			return float64(v) * r.Float("time_s"), err
		}
		return math.NaN(), fmt.Errorf("quantity %q", r.Text("quantity"))
	},
	"ReserveTime": func(r check.Row) (float64, error) {
		d, err := ReserveTime(units.Mass(r.Float("mass_kg")), units.ThermalConductance(r.Float("ua_w_per_k")), celsius(r, "ambient_c"), 0, units.SpecificEnergy(r.Float("latent_j_per_kg")))
		return d.Seconds(), err
	},
	"MeltOver": func(r check.Row) (float64, error) {
		h, a := r.Floats("hours"), r.Floats("ambients_c")
		var w []Weather
		for i := range h {
			w = append(w, Weather{After: secondsOf(3600 * h[i]), Ambient: units.Celsius(a[i])})
		}
		m, err := MeltOver(units.ThermalConductance(r.Float("ua_w_per_k")), w, units.SpecificEnergy(r.Float("latent_j_per_kg")))
		return float64(m), err
	},
	"FitMeltTest": func(r check.Row) (float64, error) {
		h, m := r.Floats("hours"), r.Floats("masses_kg")
		var w []MeltTest
		for i := range h {
			w = append(w, MeltTest{After: secondsOf(3600 * h[i]), Ice: units.Mass(m[i])})
		}
		f, err := FitMeltTest(w, celsius(r, "ambient_c"), units.SpecificEnergy(r.Float("latent_j_per_kg")))
		return float64(f.Conductance), err
	},
	"IceKind": func(r check.Row) (float64, error) {
		for _, k := range []IceKind{FlakeIce, PlateIce, TubeIce, CrushedBlockIce} {
			if k.Name == r.Text("kind_of_ice") {
				if r.Text("quantity") == "stowage_min_m3_per_t" {
					return 1000 / float64(k.BulkHigh), nil
				}
				return 1000 / float64(k.BulkLow), nil
			}
		}
		return math.NaN(), fmt.Errorf("no ice %q", r.Text("kind_of_ice"))
	},
	"Tote.Fillings": func(r check.Row) (float64, error) {
		f, err := Tote{Volume: units.Volume(r.Float("volume_m3")), Fill: r.Float("fill_1"), ProductDensity: units.Density(r.Float("density_kg_per_m3")),
			Voids: r.Float("voids_1"), IceBulk: units.Density(r.Float("bulk_kg_per_m3")), Ratio: r.Float("ratio_1")}.Fillings()
		return float64(f.Product), err
	},
	"Layers": func(r check.Row) (float64, error) {
		n, err := Layers(units.Length(r.Float("depth_m")), units.Length(r.Float("bed_m")), units.Length(r.Float("product_m")), units.Length(r.Float("ice_m")))
		return float64(n), err
	},
	"Sulphite.SulphurDioxide": func(r check.Row) (float64, error) { return saltOf(r).SulphurDioxide() },
	"Sulphite.OxygenDemand":   func(r check.Row) (float64, error) { return saltOf(r).OxygenDemand() },
	"SulphiteSalt": func(r check.Row) (float64, error) {
		m, err := SulphiteSalt(units.Mass(r.Float("water_kg")), units.MassFraction(r.Float("strength_1")))
		return float64(m), err
	},
	"ResidueLimit": func(r check.Row) (float64, error) {
		for _, l := range SulphiteLimits() {
			if strings.HasPrefix(l.Where, r.Text("where")) {
				return float64(l.Limit) * 1e6, nil
			}
		}
		return math.NaN(), fmt.Errorf("no limit for %q", r.Text("where"))
	},
	"Glaze": func(r check.Row) (float64, error) {
		return Glaze(units.Mass(r.Float("gross_kg")), units.Mass(r.Float("net_kg")))
	},
	"Drip": func(r check.Row) (float64, error) {
		return Drip(units.Mass(r.Float("gross_kg")), units.Mass(r.Float("net_kg")))
	},
	"Gross": func(r check.Row) (float64, error) {
		m, err := Gross(units.Mass(r.Float("net_kg")), r.Float("share_1"))
		return float64(m), err
	},
	"MakingHeat": func(r check.Row) (float64, error) {
		q, err := MakingHeat(celsius(r, "water_c"), celsius(r, "ice_c"), units.SpecificEnergy(r.Float("latent_j_per_kg")))
		return float64(q), err
	},
	"Store.Run": func(r check.Row) (float64, error) {
		run, err := storeOf(r).Run(demand())
		v, ok := map[string]float64{"min_store_kg": float64(run.Least), "shortfall_kg": float64(run.Shortfall), "end_store_kg": float64(run.End)}[r.Text("quantity")]
		return v, orUnknown(ok, r, err)
	},
	"Store.LeastStart": func(r check.Row) (float64, error) {
		m, err := storeOf(r).LeastStart(demand())
		return float64(m), err
	},
}

func orUnknown(ok bool, r check.Row, err error) error {
	if !ok && err == nil {
		return fmt.Errorf("quantity %q is not known", r.Text("quantity"))
	}
	return err
}

func saltOf(r check.Row) Sulphite {
	if r.Text("salt") == "NaHSO3" {
		return SodiumBisulphite
	}
	return SodiumMetabisulphite
}

func storeOf(r check.Row) Store {
	return Store{Start: units.Mass(r.Float("start_kg")), Capacity: units.Mass(r.Float("capacity_kg")), Production: units.MassFlow(r.Float("production_kg_per_h") / 3600)}
}

// demand is 6 h idle, 8 h at 1500 kg/h, 10 h idle.
func demand() []units.MassFlow {
	d := make([]units.MassFlow, 24)
	for i := 6; i < 14; i++ {
		d[i] = 1500.0 / 3600
	}
	return d
}

// exposureRow plays one of the named temperature histories into an Exposure.
func exposureRow(r check.Row) (float64, error) {
	e, err := NewExposure([]Limit{{Name: "a", Above: units.Celsius(4.4)}, {Name: "b", Above: units.Celsius(21.1)}}, ExposureOptions{Between: StraightLine})
	if err != nil {
		return math.NaN(), err
	}
	start := time.Date(2026, 3, 2, 2, 0, 0, 0, time.UTC)
	add := func(h, c float64) {
		if err == nil {
			err = e.Add(Reading{At: start.Add(secondsOf(h * 3600)), Temperature: units.Celsius(c)})
		}
	}
	const jump = 1e-9 / 3600 // one nanosecond
	switch p := r.Text("profile"); p {
	case "2h@25;3h@12;10h@4;24h@0":
		at := 0.0
		for _, s := range [][2]float64{{2, 25}, {3, 12}, {10, 4}, {24, 0}} {
			add(at+jump, s[1])
			at += s[0]
			add(at, s[1])
		}
	case "linear_28->0":
		add(0, 28)
		add(6, 0)
	case "exp_28*exp(-t/2h)":
		for i := 0; i <= 43200; i++ {
			h := float64(i) / 3600
			add(h, 28*math.Exp(-h/2))
		}
	case "scenario":
		add(0, 28)
		add(0.25, 28)
		add(0.35, 2)
		add(0.35+jump, 0.5)
		add(10.35, 0.5)
	default:
		return math.NaN(), fmt.Errorf("profile %q", p)
	}
	rep := e.Report()
	v, ok := map[string]float64{"ice_equivalent_h": rep.Equivalent.Hours(), "hours_above_4p4C": rep.Limits[0].Spent.Hours(),
		"hours_above_21p1C": rep.Limits[1].Spent.Hours()}[r.Text("quantity")]
	return v, orUnknown(ok, r, err)
}
