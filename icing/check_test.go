package icing

import (
	"fmt"
	"maps"
	"math"
	"path/filepath"
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
	rows := map[string]func(check.Row) (float64, error){}
	for _, group := range []map[string]func(check.Row) (float64, error){materialRows, coolingRows, handlingRows} {
		maps.Copy(rows, group)
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
