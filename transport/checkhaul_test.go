package transport

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// haulRows run the tables of supply, heat, loads, tanks and trucks.
var haulRows = map[string]func(check.Row) (float64, error){
	"OxygenGasDensity": func(r check.Row) (float64, error) {
		d, err := OxygenGasDensity(celsius(r, "temp_c"), 0)
		return float64(d), err
	},
	"LiquidOxygenDensity": func(check.Row) (float64, error) {
		d, err := OxygenGasDensity(units.Celsius(21.1), 0)
		return float64(LiquidOxygenDensity / d), err
	},
	"LiquidBoilOff":      func(check.Row) (float64, error) { return LiquidBoilOff, nil },
	"InjectorEfficiency": func(check.Row) (float64, error) { return InjectorEfficiency, nil },
	"TroutDensity":       func(check.Row) (float64, error) { return float64(TroutDensity) / 1000, nil },
	"PressureAt": func(r check.Row) (float64, error) {
		p, err := PressureAt(units.Length(r.Float("height_m")))
		return float64(p) / 101325, err
	},
	"LoadForDelivered": func(r check.Row) (float64, error) {
		m, err := LoadForDelivered(mass(r, "payload_kg"), r.Float("lost_1"))
		return float64(m), err
	},
	"Cylinder.Oxygen": func(r check.Row) (float64, error) {
		m, err := bottle(r).Oxygen()
		return float64(m), err
	},
	"Cylinder.Count": func(r check.Row) (float64, error) {
		n, err := Cylinder{Gas: units.Volume(r.Float("gas_m3"))}.Count(mass(r, "need_kg"))
		return float64(n), err
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
		c, gross := boxesOf(r)
		n, _, err := c.Trucks[0].Capacity(gross)
		return float64(n), err
	},
	"Cargo.Pack": func(r check.Row) (float64, error) {
		c, _ := boxesOf(r)
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
