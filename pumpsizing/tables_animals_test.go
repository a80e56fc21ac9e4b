package pumpsizing

import (
	"fmt"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestAnimalTable(t *testing.T) {
	kpa := func(r check.Row, col string) units.AbsolutePressure { return units.PascalsAbsolute.Of(r.Float(col)) }
	check.Run(t, "testdata/animals.csv", checks{
		"TipSpeed": func(r check.Row) (float64, error) {
			v, err := TipSpeed(units.Metres.Of(r.Float("diameter_m")), rpm(r.Float("speed_rpm")))
			return v.MetresPerSecond(), err
		},
		"SpeedForTip": func(r check.Row) (float64, error) {
			n, err := SpeedForTip(units.Metres.Of(r.Float("diameter_m")), units.MetresPerSecond.Of(r.Float("velocity_m_s")))
			return n.In(units.RevolutionsPerMinute), err
		},
		"MutilationRatio": func(r check.Row) (float64, error) { return MutilationRatio(units.Metres.Of(r.Float("body_m"))) },
		"Strike.Ratio": func(r check.Row) (float64, error) {
			x, err := Strike{Flow: units.Flow(r.Float("flow_m3_s")), Speed: rpm(r.Float("speed_rpm")), Eye: units.Metres.Of(r.Float("eye_m")),
				Hub: units.Metres.Of(r.Float("hub_m")), Blades: int(r.Float("blades")), Body: units.Metres.Of(r.Float("body_m")), Swirl: units.Degrees.Of(r.Float("swirl_deg"))}.Ratio()
			switch r.Text("quantity") {
			case "water":
				return x.WaterLength.Metres(), err
			case "relative":
				return x.RelativeSpeed.MetresPerSecond(), err
			}
			return x.Uncapped, err
		},
		"PressureRatio": func(r check.Row) (float64, error) { return PressureRatio(kpa(r, "acclimated_pa"), kpa(r, "lowest_pa")) },
		"SuctionExposure.Pressures": func(r check.Row) (float64, error) {
			e := SuctionExposure{Atmosphere: 1 * units.AtmosphereAbsolute, Density: 998.2 * units.KilogramPerCubicMetre,
				Depth: units.Metres.Of(r.Float("depth_m")), Lift: units.Metres.Of(r.Float("lift_m")), Loss: units.Pascals.Of(r.Float("loss_pa"))}
			a, l, err := e.Pressures()
			if err != nil {
				return 0, err
			}
			within(t, "acclimation pressure", a.PascalsAbsolute(), r.Float("acclimated_pa")-1, r.Float("acclimated_pa")+1)
			within(t, "lowest pressure", l.PascalsAbsolute(), r.Float("lowest_pa")-1, r.Float("lowest_pa")+1)
			return PressureRatio(a, l)
		},
	})
	check.Run(t, "testdata/thresholds.csv", checks{
		"Thresholds": func(r check.Row) (float64, error) {
			x := Thresholds("")[int(r.Float("number"))-1]
			if x.Quantity != r.Text("quantity") {
				return 0, fmt.Errorf("quantity is %q", x.Quantity)
			}
			return x.Value, nil
		},
	})
}

func TestLossModelTable(t *testing.T) {
	full := MachineDuty{30 * units.Megapascal, rpm(3600), 32 * units.Centistoke, 860 * units.KilogramPerCubicMetre}
	w, err := FitWilsonMotor(WilsonTest{Full: full, Volumetric: 0.95, Hydromechanical: 0.95, LightPressure: 0.5 * units.Megapascal,
		LightHydromech: 0.76, BulkModulus: 1.8e9 * units.Pascal, DeadVolume: 1.103})
	if err != nil {
		t.Fatal(err)
	}
	duty := func(r check.Row) MachineDuty {
		d := full
		d.Pressure, d.Speed = units.Pascals.Of(r.Float("pressure_pa")), rpm(r.Float("speed_rpm"))
		return d
	}
	pick := func(r check.Row, v, m float64) float64 {
		if r.Text("quantity") == "v" {
			return v
		}
		return m
	}
	check.Run(t, "testdata/loss_models.csv", checks{
		"FitWilsonMotor": func(r check.Row) (float64, error) {
			return map[string]float64{"Cs": w.Leakage, "Cv": w.Viscous, "Cf": w.Dry}[r.Text("quantity")], nil
		},
		"Wilson.Pump": func(r check.Row) (float64, error) {
			v, m, err := w.Pump(duty(r))
			return pick(r, v, m), err
		},
		"Wilson.Motor": func(r check.Row) (float64, error) {
			v, m, err := w.Motor(duty(r))
			return pick(r, v, m), err
		},
		"Schloesser.Pump": func(r check.Row) (float64, error) {
			d := duty(r)
			d.Viscosity, d.Density = units.Centistokes.Of(r.Float("nu_cst")), 870
			v, m, err := Schloesser{Laminar: 8e-10, Turbulent: 2e-6, Viscous: 1.5e5, Dry: 0.03, Inertia: 100}.Pump(28*units.CubicCentimetrePerRevolution, d)
			return pick(r, v, m), err
		},
	})
}

func TestCostTable(t *testing.T) {
	check.Run(t, "testdata/cost.csv", checks{
		"LiftEnergy": func(r check.Row) (float64, error) {
			e, err := LiftEnergy(units.Tonnes.Of(r.Float("tonnes")), units.Metres.Of(r.Float("head_m")), r.Float("efficiency"))
			return e.In(units.KilowattHours), err
		},
		"WaterPerAnimals": func(r check.Row) (float64, error) { return WaterPerAnimals(r.Float("fraction")) },
		"HarvestCost.PerTonne": func(r check.Row) (float64, error) {
			c := HarvestCost{Duration: time.Duration(r.Float("hours") * float64(time.Hour)), Animals: units.Tonnes.Of(r.Float("tonnes"))}
			if r.Has("power_kw") {
				c.Power, c.PowerPrice = units.Kilowatts.Of(r.Float("power_kw")), r.Float("power_price")
			} else {
				c.Fuel, c.FuelPrice = units.LitresPerHour.Of(r.Float("fuel_l_h")), r.Float("fuel_price")
				c.Workers, c.Wage = r.Float("workers"), r.Float("wage")
			}
			return c.PerTonne()
		},
	})
}
