package pumpsizing

import (
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestElectricTable(t *testing.T) {
	load := func(r check.Row) ElectricLoad {
		return ElectricLoad{units.Watts.Of(r.Float("shaft_w")), units.Volts.Of(r.Float("volt")), r.Float("efficiency"), r.Float("pf")}
	}
	start := func(r check.Row) (units.ApparentPower, error) {
		return load(r).StartApparent(DirectOnLine, r.Float("start_factor"))
	}
	hp := func(r check.Row) units.Power { return units.MechanicalHorsepowers.Of(r.Float("power_hp")) }
	check.Run(t, "testdata/electric.csv", checks{
		"MotorEfficiency": func(r check.Row) (float64, error) {
			e, err := MotorEfficiency(MotorClass(r.Float("ie")), int(r.Float("poles")), units.Kilowatts.Of(r.Float("power_kw")))
			return 100 * e, err
		},
		"NEMAPremiumEfficiency": func(r check.Row) (float64, error) {
			e, err := NEMAPremiumEfficiency(hp(r), r.Text("enclosure") == "enclosed")
			return 100 * e, err
		},
		"NextMotorSize": func(r check.Row) (float64, error) {
			p, err := NextMotorSize(units.Watts.Of(r.Float("power_w")), Ladder(r.Float("ladder")))
			return p.Watts(), err
		},
		"ConverterEfficiency": func(r check.Row) (float64, error) { return ConverterEfficiency(hp(r), r.Float("load")) },
		"PartLoadShare":       func(r check.Row) (float64, error) { return PartLoadShare(hp(r), r.Float("load")) },
		"MotorSpeed": func(r check.Row) (float64, error) {
			n, err := MotorSpeed(units.Hertzes.Of(r.Float("hz")), int(r.Float("poles")), r.Float("slip"))
			return n.In(units.RevolutionsPerMinute), err
		},
		"ElectricLoad.Current": func(r check.Row) (float64, error) {
			i, err := load(r).Current()
			return i.Amperes(), err
		},
		"ElectricLoad.StartCurrent": func(r check.Row) (float64, error) {
			i, err := load(r).StartCurrent(DirectOnLine, 0)
			return i.Amperes(), err
		},
		"ElectricLoad.Apparent": func(r check.Row) (float64, error) {
			s, err := load(r).Apparent()
			return s.In(units.KilovoltAmperes), err
		},
		"ElectricLoad.StartApparent": func(r check.Row) (float64, error) {
			s, err := load(r).StartApparent(DirectOnLine, 0)
			return s.In(units.KilovoltAmperes), err
		},
		"ElectricLoad.Input": func(r check.Row) (float64, error) {
			p, err := load(r).Input()
			return p.Watts(), err
		},
		"MotorAltitudeShare": func(r check.Row) (float64, error) { return MotorAltitudeShare(units.Metres.Of(r.Float("altitude_m"))) },
		"Generator.Dip": func(r check.Row) (float64, error) {
			s, err := start(r)
			if err != nil {
				return 0, err
			}
			return Generator{Apparent: units.KilovoltAmperes.Of(r.Float("set_kva")), Active: 1 * units.Kilowatt}.Dip(s)
		},
		"GeneratorForDip": func(r check.Row) (float64, error) {
			s, err := start(r)
			if err != nil {
				return 0, err
			}
			g, err := GeneratorForDip(s, r.Float("dip"), 0)
			return g.In(units.KilovoltAmperes), err
		},
	})
}

func TestCableTable(t *testing.T) {
	cable := func(r check.Row) Cable {
		return Cable{Conductor: Conductor(r.Float("conductor")), Section: units.SquareMillimetres.Of(r.Float("mm2")),
			Length: units.Metres.Of(r.Float("length_m")), Temperature: units.Celsius(r.Float("warm_c"))}
	}
	amps := func(r check.Row) units.Current { return units.Amperes.Of(r.Float("current_a")) }
	check.Run(t, "testdata/cable.csv", checks{
		"ConductorResistance": func(r check.Row) (float64, error) {
			x, err := ConductorResistance(Conductor(r.Float("conductor")), units.SquareMillimetres.Of(r.Float("mm2")))
			return x.In(units.OhmsPerKilometre), err
		},
		"WarmResistance": func(r check.Row) (float64, error) {
			x, err := WarmResistance(1*units.OhmPerKilometre, Conductor(r.Float("conductor")), units.Celsius(r.Float("warm_c")))
			return 1 / x.In(units.OhmsPerKilometre), err
		},
		"Cable.ThreePhaseDrop": func(r check.Row) (float64, error) {
			v, err := cable(r).ThreePhaseDrop(amps(r), r.Float("pf"))
			if r.Has("quantity") && r.Text("quantity") == "percent of 400 V" {
				return v.Volts() / 4, err
			}
			return v.Volts(), err
		},
		"Cable.SinglePhaseDrop": func(r check.Row) (float64, error) {
			v, err := cable(r).SinglePhaseDrop(amps(r), r.Float("pf"))
			return v.Volts(), err
		},
		"Cable.Loss": func(r check.Row) (float64, error) {
			p, err := cable(r).Loss(amps(r))
			return p.Watts(), err
		},
	})
}
