package transport

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

// boxes is a container whose fish and ice are set, on a truck of payload and slots.
func boxes(r check.Row) (Cargo, units.Mass) {
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

var rows = map[string]func(check.Row) (float64, error){
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
	"OxygenGasDensity": func(r check.Row) (float64, error) {
		d, err := OxygenGasDensity(celsius(r, "temp_c"), 0)
		return float64(d), err
	},
	"LiquidOxygenDensity": func(check.Row) (float64, error) {
		d, err := OxygenGasDensity(units.Celsius(21.1), 0)
		return float64(LiquidOxygenDensity / d), err
	},
	"LiquidBoilOff": func(check.Row) (float64, error) { return LiquidBoilOff, nil },
	"Cylinder.Oxygen": func(r check.Row) (float64, error) {
		m, err := bottle(r).Oxygen()
		return float64(m), err
	},
	"OxygenNeed": func(r check.Row) (float64, error) {
		f, err := supplyFlow(r)
		if err != nil {
			return math.NaN(), err
		}
		d, err := OxygenGasDensity(units.Celsius(21.1), 0)
		return pick(r, err, map[string]float64{"l_per_min": f.Volume(d).In(units.LitresPerMinute)})
	},
	"Endurance": func(r check.Row) (float64, error) {
		f, err := supplyFlow(r)
		if err != nil {
			return math.NaN(), err
		}
		m, err := bottle(r).Oxygen()
		if err != nil {
			return math.NaN(), err
		}
		d, err := Endurance(m, f)
		return d.Hours(), err
	},
	"AlarmTime": func(r check.Row) (float64, error) {
		d, err := AlarmTime(water(r), mass(r, "product_kg"), rate(r, "rate_mg_per_kg_h"), units.Concentration(r.Float("start_mg_per_l")/1000), units.Concentration(r.Float("limit_mg_per_l")/1000))
		return d.Hours(), err
	},
	"BagTime": func(r check.Row) (float64, error) {
		ideal := 101325 * molarOxygen / 1000 / (gasConstant * 298.15)
		d, err := BagTime(units.Mass(r.Float("head_l")/1000*ideal), r.Float("usable_1"), mass(r, "product_kg"), rate(r, "rate_mg_per_kg_h"))
		return d.Hours(), err
	},
	"IceToCool": func(r check.Row) (float64, error) {
		m, err := IceToCool(WaterSpecificHeat.Times(mass(r, "water_kg")), units.TempDelta(r.Float("drop_k")), celsius(r, "final_c"), units.SpecificEnergy(r.Float("latent_j_per_kg")))
		if r.Has("quantity") && r.Text("quantity") == "lb" {
			return m.In(units.Pounds), err
		}
		return float64(m), err
	},
	"IceToHold": func(r check.Row) (float64, error) {
		m, err := IceToHold(units.Power(r.Float("power_w")), hours(r), celsius(r, "final_c"), 0)
		return float64(m), err
	},
	"ChillerPower": func(r check.Row) (float64, error) {
		p, err := ChillerPower(WaterSpecificHeat.Times(mass(r, "water_kg")), units.TempDelta(r.Float("drop_k")), hours(r))
		return float64(p), err
	},
	"Temper": func(r check.Row) (float64, error) {
		v, err := Temper(celsius(r, "start_c"), celsius(r, "inflow_c"), r.Float("turnovers_1"))
		return v.Celsius(), err
	},
	"TemperTime": func(r check.Row) (float64, error) {
		d, _, err := TemperTime(units.Volume(r.Float("water_kg")/1000), celsius(r, "start_c"), celsius(r, "inflow_c"), units.TempRate(r.Float("rate_k_per_min")/60), units.TempDelta(r.Float("near_k")))
		return d.Minutes(), err
	},
	"SaltByVolume": func(r check.Row) (float64, error) {
		m, err := SaltByVolume(units.Volume(r.Float("water_kg")/1000), units.Concentration(r.Float("strength_g_per_l")))
		return float64(m), err
	},
	"SaltFor": func(r check.Row) (float64, error) {
		m, err := SaltFor(mass(r, "water_kg"), units.MassFraction(r.Float("now_1")), units.MassFraction(r.Float("target_1")))
		return float64(m), err
	},
	"TroutLoadFactor": func(r check.Row) (float64, error) {
		v, err := TroutLoadFactor(units.Fahrenheit(r.Float("temp1_f")), units.Fahrenheit(r.Float("temp2_f")))
		return v * r.Float("times_1"), err
	},
	"CatfishLoadFactor": func(r check.Row) (float64, error) {
		return CatfishLoadFactor(units.Fahrenheit(r.Float("temp1_f")), units.Fahrenheit(r.Float("temp2_f")))
	},
	"CatfishLoad": func(r check.Row) (float64, error) {
		v, err := CatfishLoad(units.Grams.Of(r.Float("mean_g")), r.Float("hours"), units.Fahrenheit(r.Float("temp1_f")))
		return float64(v) / 1000, err
	},
	"Practices": func(r check.Row) (float64, error) {
		for _, p := range Practices() {
			if p.Animal == r.Text("animal") {
				return pick(r, nil, map[string]float64{"low": p.Low, "high": p.High, "mean": (p.Low + p.High) / 2})
			}
		}
		return math.NaN(), fmt.Errorf("no practice for %q", r.Text("animal"))
	},
	"CrawfishCooler": func(r check.Row) (float64, error) {
		for _, s := range CrawfishCooler() {
			if s.Hours == r.Float("hours") {
				return s.Died, nil
			}
		}
		return math.NaN(), fmt.Errorf("no trial of %v h", r.Float("hours"))
	},
	"Tank.Load": func(r check.Row) (float64, error) {
		l, err := tankOf(r).Load(mass(r, "product_kg"), units.Density(r.Float("density_kg_per_m3")))
		return pick(r, err, map[string]float64{"per_water_kg_per_l": float64(l.PerWater) / 1000, "water_l": float64(l.Water) * 1000,
			// mass of animals that displaces the mass of water in the source
			"product_for_displaced": float64(l.Product) * 203.20938176 / (float64(l.Displaced) * 1000)})
	},
	"Tank.Product": func(r check.Row) (float64, error) {
		d := r.Float("load_kg_per_l") * 1000
		var b LoadDensity
		switch r.Text("basis") {
		case "tank":
			b.PerTank = units.LoadPerTankVolume(d)
		case "water":
			b.PerWater = units.LoadPerWaterVolume(d)
		case "before":
			b.PerWaterBefore = units.LoadPerWaterVolume(d)
		}
		m, err := tankOf(r).Product(b, units.Density(r.Float("density_kg_per_m3")))
		return float64(m), err
	},
	"Loaded.GrossMass": func(r check.Row) (float64, error) {
		l, err := tankOf(r).Load(mass(r, "product_kg"), units.Density(r.Float("density_kg_per_m3")))
		if err != nil {
			return math.NaN(), err
		}
		m, err := l.GrossMass(mass(r, "tare_kg"), units.Density(r.Float("water_kg_per_m3")))
		return float64(m), err
	},
	"Mixed.After": func(r check.Row) (float64, error) {
		if r.Has("water_m3") {
			return linearTank(r)
		}
		m := Mixed{Water: water(r), Product: mass(r, "product_kg"), Demand: DemandLaw{At: rate(r, "rate_mg_per_kg_h"), Base: units.Celsius(21.5), Q10: 1},
			Ammonia: 0.1 * molarNitrogen / molarOxygen, Carbon: molarCO2 / molarOxygen}
		m.Capacity = units.HeatCapacity(float64(m.Water)*1000*4186 + float64(m.Product)*3600)
		s, err := m.After(MixedState{Temperature: units.Celsius(21.5), Oxygen: 0.02}, hours(r))
		return pick(r, err, map[string]float64{"warming_k": s.Temperature.Celsius() - 21.5, "ammonia_mg_per_l": float64(s.Ammonia) * 1000, "carbon_mg_per_l": float64(s.Carbon) * 1000})
	},
	"Truck.Capacity": func(r check.Row) (float64, error) {
		c, gross := boxes(r)
		n, _, err := c.Trucks[0].Capacity(gross)
		return float64(n), err
	},
	"Cargo.Pack": func(r check.Row) (float64, error) {
		c, _ := boxes(r)
		p, err := c.Pack()
		if err != nil {
			return math.NaN(), err
		}
		return float64(p.Loads[0].Product), nil
	},
	"Truck.PayloadLimit": func(r check.Row) (float64, error) {
		m, err := Truck{Gross: mass(r, "gross_kg"), Tare: mass(r, "tare_kg")}.PayloadLimit()
		return float64(m), err
	},
	"AxleLoads": func(r check.Row) (float64, error) {
		var list []PlacedMass
		for s := range strings.SplitSeq(r.Text("loads"), ";") {
			m, x, _ := strings.Cut(s, "@")
			a, err1 := strconv.ParseFloat(m, 64)
			b, err2 := strconv.ParseFloat(x, 64)
			if err1 != nil || err2 != nil {
				return math.NaN(), fmt.Errorf("load %q", s)
			}
			list = append(list, PlacedMass{units.Mass(a), units.Length(b)})
		}
		f, b, err := AxleLoads(units.Length(r.Float("wheelbase_m")), list)
		return pick(r, err, map[string]float64{"front": float64(f), "rear": float64(b)})
	},
	"BridgeFormula": func(r check.Row) (float64, error) {
		m, err := BridgeFormula(units.Feet.Of(r.Float("length_ft")), int(r.Float("axles_1")))
		return m.In(units.Pounds), err
	},
	"Road.Melt": func(r check.Row) (float64, error) {
		m, err := Road{Containers: int(r.Float("containers_1")), Conductance: units.ThermalConductance(r.Float("ua_w_per_k")), Ambient: celsius(r, "ambient_c"),
			Sun: units.TempDelta(r.Float("sun_k")), Haul: hours(r), Latent: units.SpecificEnergy(r.Float("latent_j_per_kg"))}.Melt(10000)
		return float64(m.Melted), err
	},
	"ReeferLoad": reefer,
	"ReeferUnit": func(r check.Row) (float64, error) {
		q, err := reefer(r)
		if err != nil {
			return math.NaN(), err
		}
		p, err := ReeferUnit(units.Power(q))
		return float64(p), err
	},
	"Turn.Cycle": func(r check.Row) (float64, error) {
		d, err := turnOf(r).Cycle()
		return d.Hours(), err
	},
	"Trips": func(r check.Row) (float64, error) {
		n, err := Trips(mass(r, "crop_kg"), mass(r, "payload_kg"))
		return float64(n), err
	},
	"Turn.Trucks": func(r check.Row) (float64, error) {
		n, err := turnOf(r).Trucks(units.KilogramsPerHour.Of(r.Float("rate_kg_per_h")), mass(r, "payload_kg"))
		return float64(n), err
	},
	"Turn.OldestAge": func(r check.Row) (float64, error) {
		d, err := turnOf(r).OldestAge(units.KilogramsPerHour.Of(r.Float("rate_kg_per_h")), mass(r, "payload_kg"))
		return d.Hours(), err
	},
	"Turn.PayloadForAge": func(r check.Row) (float64, error) {
		m, err := turnOf(r).PayloadForAge(units.KilogramsPerHour.Of(r.Float("rate_kg_per_h")), hours(r))
		return float64(m), err
	},
}

func reefer(r check.Row) (float64, error) {
	q, err := ReeferLoad(units.HeatTransferCoefficient(r.Float("k_w_per_m2k")), units.Area(r.Float("area_m2")), celsius(r, "outside_c"), celsius(r, "inside_c"))
	return float64(q), err
}

// linearTank is a row of the tank with a demand linear in temperature, whose
// closed form is known.
func linearTank(r check.Row) (float64, error) {
	f := r.Float
	g := func(column string) units.Concentration { return units.Concentration(f(column) / 1000) } // g/m3
	v := f("water_m3")
	m := Mixed{
		Water: units.Volume(v), Capacity: units.HeatCapacity(v * 1000 * float64(WaterSpecificHeat)), Product: units.Mass(f("biomass_kg")),
		Demand:      DemandLaw{At: units.MassSpecificRate(f("resp_ref_g_kg_s") / 1000), Base: celsius(r, "temp_ref_C"), Slope: f("resp_beta_1_K")},
		Heat:        units.SpecificEnergy(f("heat_J_g") * 1000),
		Ammonia:     f("tan_per_oxygen"),
		Conductance: units.ThermalConductance(f("ua_W_K")), Ambient: celsius(r, "air_C"),
		Exchange: units.Flow(f("exchange_m3_s")), InflowAt: celsius(r, "inflow_C"), InflowOxygen: g("inflow_oxygen_g_m3"), InflowAmmonia: g("inflow_tan_g_m3"),
		OxygenKLa: units.Rate(f("kla_1_s")), Saturation: g("oxygen_sat_g_m3"), Oxygen: units.MassFlow(f("oxygen_supply_g_s") / 1000),
	}
	s, err := m.After(MixedState{Temperature: celsius(r, "start_C"), Oxygen: g("start_oxygen_g_m3"), Ammonia: g("start_tan_g_m3")}, seconds(f("time_s")))
	return pick(r, err, map[string]float64{"temperature_C": s.Temperature.Kelvins() - 273.15, "oxygen_g_m3": float64(s.Oxygen) * 1000, "tan_g_m3": float64(s.Ammonia) * 1000})
}
