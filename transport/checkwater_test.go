package transport

import (
	"fmt"
	"math"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// waterRows run the tables of gases, carbonate and ammonia.
var waterRows = map[string]func(check.Row) (float64, error){
	"OxygenSaturation": func(r check.Row) (float64, error) {
		c, err := OxygenSaturation(celsius(r, "temp_c"), psu(r), units.AbsolutePressure(r.Float("pressure_pa")))
		return float64(c) * 1000, err
	},
	"SaturationModel.Saturation": func(r check.Row) (float64, error) {
		m := map[string]SaturationModel{"BensonKrause1984": BensonKrause1984, "GarciaGordon1992": GarciaGordon1992, "Weiss1970": Weiss1970}[r.Text("model")]
		c, err := m.Saturation(celsius(r, "temp_c"), psu(r), units.AbsolutePressure(r.Float("pressure_pa")))
		v := float64(c) * 1000
		if r.Has("per_ml_g_per_l") && m == GarciaGordon1992 {
			// The row's source turns ml into mg with a rounded factor.
			v *= r.Float("per_ml_g_per_l") / (31.9988 / 22.3916)
		}
		return v, err
	},
	"OxygenPerKilogram": func(r check.Row) (float64, error) { return OxygenPerKilogram(celsius(r, "temp_c"), psu(r)) },
	"OxygenUnderGas": func(r check.Row) (float64, error) {
		c, err := OxygenUnderGas(r.Float("fraction_1"), celsius(r, "temp_c"), psu(r), 0)
		return float64(c) * 1000, err
	},
	"AmmoniaModel.PKa": func(r check.Row) (float64, error) { return ammoniaModel(r).PKa(celsius(r, "temp_c"), psu(r)) },
	"AmmoniaModel.Fraction": func(r check.Row) (float64, error) {
		v, err := ammoniaModel(r).Fraction(celsius(r, "temp_c"), r.Float("ph_1"), psu(r))
		return v * optional(r, "percent", 1), err
	},
	"AmmoniaModel.Unionised": func(r check.Row) (float64, error) {
		v, err := ammoniaModel(r).Unionised(units.Concentration(r.Float("tan_mg_per_l")/1000), celsius(r, "temp_c"), r.Float("ph_1"), psu(r))
		return float64(v) * 1000, err
	},
	"AsNH3": func(r check.Row) (float64, error) {
		v, err := AsNH3(units.Concentration(r.Float("tan_mg_per_l") / 1000))
		return float64(v) * 1000, err
	},
	"CO2Solubility": func(r check.Row) (float64, error) {
		v, err := CO2Solubility(celsius(r, "temp_c"), psu(r))
		if r.Has("log") && r.Text("log") == "ln" {
			v = math.Log(v)
		}
		return v, err
	},
	"PlummerBusenberg1982": func(r check.Row) (float64, error) {
		a, b, err := PlummerBusenberg1982(celsius(r, "temp_c"))
		return constantOf(r, Carbonate{PK1: a, PK2: b}, err)
	},
	"SeaCarbonate": func(r check.Row) (float64, error) {
		c, err := SeaCarbonate(celsius(r, "temp_c"), psu(r))
		return constantOf(r, c, err)
	},
	"FreshCarbonate": func(r check.Row) (float64, error) {
		c, err := FreshCarbonate(celsius(r, "temp_c"))
		return constantOf(r, c, err)
	},
	"Carbonate.FromPH": func(r check.Row) (float64, error) {
		c, litre, err := chemistryOf(r)
		if err != nil {
			return math.NaN(), err
		}
		w, err := c.FromPH(alkalinityOf(r, litre), r.Float("ph_1"))
		return waterValue(r, w, litre, err)
	},
	"Carbonate.FromCarbon": func(r check.Row) (float64, error) {
		c, litre, err := chemistryOf(r)
		if err != nil {
			return math.NaN(), err
		}
		w, err := c.FromCarbon(alkalinityOf(r, litre), units.Concentration(r.Float("carbon_mol_per_m3")*molarCO2/1000))
		return waterValue(r, w, litre, err)
	},
	"Carbonate.FromCO2": func(r check.Row) (float64, error) {
		c, litre, err := chemistryOf(r)
		if err != nil {
			return math.NaN(), err
		}
		w, err := c.FromCO2(alkalinityOf(r, litre), units.Concentration(r.Float("co2_mg_per_l")/1000))
		return waterValue(r, w, litre, err)
	},
	"Carbonate.AddCO2": func(r check.Row) (float64, error) {
		c, litre, err := chemistryOf(r)
		if err != nil {
			return math.NaN(), err
		}
		a := alkalinityOf(r, litre)
		var w Water
		if r.Has("carbon_mol_per_m3") {
			w, err = c.FromCarbon(a, units.Concentration(r.Float("carbon_mol_per_m3")*molarCO2/1000))
		} else {
			w, err = c.FromPH(a, r.Float("ph_1"))
		}
		if err != nil {
			return math.NaN(), err
		}
		w, err = c.AddCO2(w, units.Concentration(r.Float("added_mg_per_l")/1000))
		return waterValue(r, w, litre, err)
	},
	"Carbonate.FromPHCarbon": func(r check.Row) (float64, error) {
		c, _, err := chemistryOf(r)
		if err != nil {
			return math.NaN(), err
		}
		w, err := c.FromPHCarbon(r.Float("ph_1"), units.Concentration(r.Float("carbon_mol_per_m3")*molarCO2/1000))
		return pick(r, err, map[string]float64{"alkalinity_meq_per_l": float64(w.Alkalinity)})
	},
	"SteadyCO2": func(r check.Row) (float64, error) {
		c, err := SteadyCO2(units.MassFlow(r.Float("production_mg_per_l_h")/1000/3600), 1, units.Rate(r.Float("kla_per_h")/3600), units.Concentration(r.Float("equilibrium_mg_per_l")/1000))
		return float64(c) * 1000, err
	},
	"CO2After": func(r check.Row) (float64, error) {
		c, err := CO2After(units.MassFlow(r.Float("production_mg_per_l_h")/1000/3600), 1, units.Rate(r.Float("kla_per_h")/3600), units.Concentration(r.Float("equilibrium_mg_per_l")/1000),
			units.Concentration(r.Float("start_mg_per_l")/1000), hours(r))
		return float64(c) * 1000, err
	},
	"StripLimit": func(r check.Row) (float64, error) {
		m, err := StripLimit(units.Concentration(r.Float("co2_mg_per_l")/1000), units.LitresPerMinute.Of(r.Float("gas_l_per_min")), celsius(r, "temp_c"), 0, 0)
		return float64(m) * 1e6 * 3600, err
	},
	"VentFlow": func(r check.Row) (float64, error) {
		q, err := VentFlow(units.MassFlow(r.Float("production_kg_per_h")/3600), units.Concentration(r.Float("co2_mg_per_l")/1000), r.Float("approach_1"), celsius(r, "temp_c"), 0)
		return q.In(units.CubicMetresPerHour), err
	},
	"AmmoniaRise": func(r check.Row) (float64, error) {
		e := units.MassSpecificRate(mgPerKgH)
		if r.Has("rate_mg_per_kg_h") {
			e = rate(r, "rate_mg_per_kg_h")
		}
		c, err := AmmoniaRise(mass(r, "product_kg"), e, r.Float("hours"), water(r))
		if r.Has("rise_mg_per_l") { // which excretion gives this rise
			if r.Text("quantity") != "inverse" {
				err = fmt.Errorf("quantity %q", r.Text("quantity"))
			}
			return r.Float("rise_mg_per_l") / (float64(c) * 1000), err
		}
		return float64(c) * 1000, err
	},
	"AmmoniaExcretion": func(r check.Row) (float64, error) {
		v, err := AmmoniaExcretion(rate(r, "rate_mg_per_kg_h"), r.Float("quotient_1"))
		return float64(v) / mgPerKgH, err
	},
	"CO2Production": func(r check.Row) (float64, error) {
		v, err := CO2Production(rate(r, "rate_mg_per_kg_h"), r.Float("quotient_1"))
		return float64(v) / mgPerKgH, err
	},
	"Q10": func(r check.Row) (float64, error) {
		return Q10(rate(r, "rate1"), rate(r, "rate2"), celsius(r, "temp_c"), celsius(r, "temp2_c"))
	},
	"LiaoDemand": func(r check.Row) (float64, error) {
		g := Trout
		if r.Text("group") == "salmon" {
			g = Salmon
		}
		v, err := LiaoDemand(g, units.Grams.Of(r.Float("mean_g")), celsius(r, "temp_c"))
		return float64(v) / mgPerKgH, err
	},
	"CatfishDemand": func(r check.Row) (float64, error) {
		v, err := CatfishDemand(units.Grams.Of(r.Float("mean_g")), celsius(r, "temp_c"))
		return float64(v) / mgPerKgH, err
	},
	"DemandAt": func(r check.Row) (float64, error) {
		v, err := DemandAt(rate(r, "rate1"), r.Float("q10_1"), celsius(r, "temp_c"), celsius(r, "temp2_c"))
		return float64(v) / mgPerKgH, err
	},
	"HeatOf": func(r check.Row) (float64, error) {
		p, err := HeatOf(mass(r, "product_kg"), rate(r, "rate1"))
		return float64(p), err
	},
}
