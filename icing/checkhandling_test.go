package icing

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// handlingRows run the tables of exposure, containers, stores and weights.
var handlingRows = map[string]func(check.Row) (float64, error){
	"Limit.Allowed": func(r check.Row) (float64, error) {
		set := map[string]func() []Limit{"raw": FDARawReadyToEat, "alternative": FDARawReadyToEatAlternative, "first": FDAScombroidFirstChill,
			"fresh": FDAScombroidFresh, "frozen": FDAScombroidFrozen}[r.Text("set")]
		return set()[int(r.Float("line_1"))].Allowed.Hours(), nil
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
	"FarmDip": func(check.Row) (float64, error) { return float64(FarmDip().ResidueLow) * 1e6, nil },
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
	"SunExcess": func(r check.Row) (float64, error) {
		d, err := SunExcess(r.Float("absorptance_1"), units.HeatFlux(r.Float("irradiance_w_per_m2")), units.HeatTransferCoefficient(r.Float("film_w_per_m2k")))
		return float64(d), err
	},
	"MidWallArea": func(r check.Row) (float64, error) {
		a, err := MidWallArea(units.Area(r.Float("inside_m2")), units.Area(r.Float("outside_m2")))
		return float64(a), err
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
	case "shrimp":
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
