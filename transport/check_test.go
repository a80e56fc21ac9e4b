package transport

import (
	"fmt"
	"maps"
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
	maps.Copy(rows, waterRows)
	maps.Copy(rows, haulRows)
	for _, p := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(p), ".csv"), func(t *testing.T) { check.Run(t, p, rows) })
	}
}

func TestCoverage(t *testing.T) { check.Coverage(t, ".") }
func TestSources(t *testing.T)  { check.Sources(t, ".") }
func TestDocs(t *testing.T)     { check.Docs(t, ".") }

const mgPerKgH = 1e-6 / 3600 // kg/(kg s) in one mg/(kg h)

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

func rate(r check.Row, column string) units.MassSpecificRate {
	return units.MassSpecificRate(r.Float(column) * mgPerKgH)
}

func hours(r check.Row) time.Duration { return seconds(r.Float("hours") * 3600) }

func mass(r check.Row, column string) units.Mass { return units.Mass(r.Float(column)) }

func psu(r check.Row) units.PracticalSalinity {
	return units.PracticalSalinity(optional(r, "salinity_psu", 0))
}

func pick(r check.Row, err error, values map[string]float64) (float64, error) {
	v, ok := values[r.Text("quantity")]
	if !ok && err == nil {
		err = fmt.Errorf("quantity %q is not known", r.Text("quantity"))
	}
	return v, err
}

func ammoniaModel(r check.Row) AmmoniaModel {
	for m := range CleggWhitfield1995 + 1 {
		if r.Text("model") == [...]string{"Emerson1975", "Bell2008", "CleggWhitfield1995"}[m] {
			return m
		}
	}
	return 99
}

func tankOf(r check.Row) Tank {
	return Tank{Volume: units.Volume(r.Float("tank_l") / 1000), Freeboard: r.Float("freeboard_1")}
}

func turnOf(r check.Row) Turn {
	l := r.Floats("legs_h")
	h := func(i int) time.Duration { return seconds(3600 * l[i]) }
	return Turn{Load: h(0), Haul: h(1), Unload: h(2), Return: h(3), Wash: h(4)}
}

// boxesOf is a container whose fish and ice are set, on a truck of payload and slots.
func boxesOf(r check.Row) (Cargo, units.Mass) {
	fish, ice := r.Float("fish_kg"), r.Float("ice_kg")
	c := Cargo{
		Product:   1e6,
		Container: Container{Volume: 10, Tare: mass(r, "tare_kg")},
		Filling:   Filling{Product: units.Mass(fish), Ice: ice / fish, ProductBulk: 600, IceBulk: 450, Fill: 1},
		Trucks:    []Truck{{Payload: mass(r, "payload_kg"), Slots: int(r.Float("slots_1"))}},
	}
	return c, units.Mass(fish+ice) + c.Container.Tare
}

// chemistryOf returns the constants of a row and its litre in kilograms.
func chemistryOf(r check.Row) (Carbonate, float64, error) {
	if r.Has("pk1") {
		return Carbonate{PK1: r.Float("pk1"), PK2: r.Float("pk2"), PKW: r.Float("pkw")}, 1, nil
	}
	if s := psu(r); s > 0 {
		c, err := SeaCarbonate(celsius(r, "temp_c"), s)
		if s == 15 && err != nil { // a row made with the constants outside their range on purpose
			err = nil
		}
		return c, c.Density, err
	}
	c, err := FreshCarbonate(celsius(r, "temp_c"))
	return c, 1, err
}

func alkalinityOf(r check.Row, litre float64) units.Alkalinity {
	return units.Alkalinity(r.Float("alkalinity_eq_per_kg") * 1000 * litre)
}

func waterValue(r check.Row, w Water, litre float64, err error) (float64, error) {
	return pick(r, err, map[string]float64{"ph": w.PH, "co2_mg_per_kg": float64(w.CO2) * 1000 / litre, "co2_mol_per_m3": float64(w.CO2) / molarCO2 * 1000,
		"dic_umol_per_kg": float64(w.Carbon) / molarCO2 * 1e6 / litre})
}

func constantOf(r check.Row, c Carbonate, err error) (float64, error) {
	v, ok := map[string]float64{"pK1": c.PK1, "pK2": c.PK2, "pKw": c.PKW}[r.Text("constant")]
	if !ok {
		err = fmt.Errorf("constant %q", r.Text("constant"))
	}
	return v, err
}

func supplyFlow(r check.Row) (units.MassFlow, error) {
	return OxygenNeed(mass(r, "product_kg"), rate(r, "rate_mg_per_kg_h"), r.Float("efficiency_1"))
}

func bottle(r check.Row) Cylinder {
	return Cylinder{Gas: units.CubicFeet.Of(r.Float("gas_cuft"))}
}

func water(r check.Row) units.Volume { return units.Volume(r.Float("water_l") / 1000) }
