package pumpsizing

import (
	"errors"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestTractorTable(t *testing.T) {
	rpm := func(r check.Row, col string) units.RotationalSpeed {
		return units.RevolutionsPerMinute.Of(r.Float(col))
	}
	kw := func(r check.Row, col string) units.Power { return units.Kilowatts.Of(r.Float(col)) }
	lph := func(r check.Row, col string) units.Flow { return units.LitresPerHour.Of(r.Float(col)) }
	check.Run(t, "testdata/tractor.csv", checks{
		"PTOShafts": func(r check.Row) (float64, error) {
			for _, s := range PTOShafts() {
				if s.Name == r.Text("shaft") {
					return s.Limit.Watts(), nil
				}
			}
			return 0, errors.New("no such shaft")
		},
		"PTOShaft.TorqueLimit": func(r check.Row) (float64, error) {
			x, err := PTOShaft{Speed: rpm(r, "speed_rpm"), Limit: units.Watts.Of(r.Float("power_w"))}.TorqueLimit()
			return x.NewtonMetres(), err
		},
		"PTORatio": func(r check.Row) (float64, error) { return PTORatio(rpm(r, "engine_rpm"), rpm(r, "pto_rpm")) },
		"PTOFromEngine": func(r check.Row) (float64, error) {
			p, err := PTOFromEngine(units.MechanicalHorsepowers.Of(r.Float("power_hp")), r.Float("share"))
			return p.In(units.MechanicalHorsepowers), err
		},
		"TractorFuel": func(r check.Row) (float64, error) {
			x := r.Float("load")
			q, err := TractorFuel(x, r.Float("speed_ratio"), kw(r, "rated_kw"))
			if r.Has("quantity") && r.Text("quantity") == "per kWh" {
				return q.In(units.LitresPerHour) / (x * r.Float("rated_kw")), err
			}
			return q.In(units.LitresPerHour), err
		},
		"SpecificTractorFuel": func(r check.Row) (float64, error) { return SpecificTractorFuel(r.Float("load")) },
		"AverageTractorFuel": func(r check.Row) (float64, error) {
			q, err := AverageTractorFuel(kw(r, "rated_kw"))
			return q.In(units.LitresPerHour), err
		},
		"FuelEfficiency": func(r check.Row) (float64, error) {
			return FuelEfficiency(kw(r, "power_kw"), lph(r, "fuel_l_h"), units.Megajoules.Of(r.Float("heat_mj_l")))
		},
		"FuelLine.At": func(r check.Row) (float64, error) {
			q, err := FuelLine{kw(r, "load1_kw"), lph(r, "fuel1_l_h"), kw(r, "load2_kw"), lph(r, "fuel2_l_h")}.At(kw(r, "power_kw"))
			return q.In(units.LitresPerHour), err
		},
		"DerateISO3046": func(r check.Row) (float64, error) {
			p, err := AtmosphericPressure(units.Metres.Of(r.Float("altitude_m")), RoundedPowerLaw)
			if err != nil {
				return 0, err
			}
			d, err := DerateISO3046(p, units.Celsius(r.Float("air_c")), Aspiration(r.Float("aspiration")))
			if r.Text("quantity") == "brake" {
				return d.Brake, err
			}
			return d.Indicated, err
		},
		"DerateBySteps": func(r check.Row) (float64, error) {
			v, err := DerateBySteps(units.Metres.Of(r.Float("altitude_m")), units.Metres.Of(r.Float("above_m")), units.Metres.Of(r.Float("step_m")), r.Float("per_step"))
			if r.Has("air_c") && err == nil {
				var hot float64
				hot, err = DerateByHeat(units.Celsius(r.Float("air_c")), units.Celsius(r.Float("heat_above_c")), units.TempDelta(r.Float("heat_step_k")), r.Float("per_step"))
				v *= hot
			}
			return v, err
		},
		"DerateByHeat": func(r check.Row) (float64, error) {
			return DerateByHeat(units.Celsius(r.Float("air_c")), units.Celsius(r.Float("heat_above_c")), units.TempDelta(r.Float("heat_step_k")), r.Float("per_step"))
		},
	})
}
