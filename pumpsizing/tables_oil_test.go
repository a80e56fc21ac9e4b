package pumpsizing

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/internal/friction"
	"pondwright.example/units"
)

// either returns the column in the first of two units that the row has.
func either[T ~float64](r check.Row, a string, ua func(float64) T, b string, ub func(float64) T) T {
	if r.Has(a) {
		return ua(r.Float(a))
	}
	return ub(r.Float(b))
}

// hose is a system for the tests: lift, Darcy-Weisbach with Colebrook friction,
// fittings, standard gravity.
type hose struct{ lift, bore, length, rough, k, nu float64 }

func (s hose) loss(q float64) float64 {
	if q == 0 {
		return 0
	}
	v := q / (math.Pi / 4 * s.bore * s.bore)
	return (friction.Colebrook(v*s.bore/s.nu, s.rough/s.bore)*s.length/s.bore + s.k) * v * v / (2 * gravity)
}

func (s hose) Head(q units.Flow) units.Length {
	return units.Length(s.lift + s.loss(q.CubicMetresPerSecond()))
}

func hoseFrom(r check.Row) hose {
	return hose{r.Float("lift_m"), r.Float("bore_m"), r.Float("length_m"), r.Float("rough_m"), r.Float("k_sum"), r.Float("nu_m2_s")}
}

func TestHoseSystems(t *testing.T) {
	check.Run(t, "testdata/operating_hose.csv", checks{
		"TotalHead": func(r check.Row) (float64, error) {
			s := hoseFrom(r)
			h, err := TotalHead(HeadBalance{Rise: units.Length(s.lift), Losses: units.Length(s.loss(r.Float("flow_m3_s")))}, 1000*units.KilogramPerCubicMetre)
			return h.Metres(), err
		},
		"Curve.Meet": func(r check.Row) (float64, error) {
			s := hoseFrom(r)
			c, err := ParabolaCurve(ParabolaData{Speed: rpm600, ShutOff: units.Metres.Of(r.Float("h0_m")), Linear: r.Float("b_s_m2"), Square: r.Float("a_s2_m5"), Last: 0.15})
			if err != nil {
				return 0, err
			}
			op, err := c.Meet(s, rpm600*units.RotationalSpeed(r.Float("ratio")))
			switch r.Text("quantity") {
			case "head":
				return op.Head.Metres(), err
			case "velocity":
				return op.Flow.CubicMetresPerSecond() / (math.Pi / 4 * s.bore * s.bore), err
			}
			return op.Flow.CubicMetresPerSecond(), err
		},
	})
}

func machineFlow(r check.Row) units.Flow {
	return either(r, "flow_m3_s", units.CubicMetresPerSecond.Of, "flow_gpm", units.USGallonsPerMinute.Of)
}

func machinePressure(r check.Row) units.Pressure {
	return either(r, "pressure_pa", units.Pascals.Of, "pressure_psi", units.PoundsPerSquareInch.Of)
}

func machineDisplacement(r check.Row) units.Displacement {
	return either(r, "displacement_m3", units.CubicMetresPerRevolution.Of, "displacement_in3", units.CubicInchesPerRevolution.Of)
}

func TestMachineTable(t *testing.T) {
	motor := func(r check.Row) HydraulicMotor {
		return HydraulicMotor{machineDisplacement(r), r.Float("volumetric"), r.Float("hydromechanical")}
	}
	pump := func(r check.Row) OilPump {
		return OilPump{Displacement: machineDisplacement(r), Volumetric: r.Float("volumetric"), Hydromechanical: r.Float("hydromechanical")}
	}
	speed := func(r check.Row) units.RotationalSpeed { return units.RevolutionsPerMinute.Of(r.Float("speed_rpm")) }
	torqueIn := func(r check.Row, x units.Torque) float64 {
		if r.Has("torque_unit") && r.Text("torque_unit") == "lbf in" {
			return x.In(units.PoundForceInches)
		}
		return x.NewtonMetres()
	}
	powerIn := func(r check.Row, x units.Power) float64 {
		if r.Has("power_unit") && r.Text("power_unit") == "hp" {
			return x.In(units.MechanicalHorsepowers)
		}
		return x.Watts()
	}
	test := func(r check.Row) (MachineTest, string) {
		m := MachineTest{Displacement: machineDisplacement(r), Speed: speed(r), Flow: machineFlow(r), Pressure: machinePressure(r)}
		switch {
		case r.Has("torque_nm"):
			m.Torque = units.NewtonMetres.Of(r.Float("torque_nm"))
		case r.Has("torque_inlb"):
			m.Torque = units.PoundForceInches.Of(r.Float("torque_inlb"))
		default:
			m.Torque = units.PoundForceFeet.Of(r.Float("torque_lbft"))
		}
		return m, r.Text("quantity")
	}
	pick := func(e MachineEfficiency, q string) float64 {
		return map[string]float64{"ev": e.Volumetric, "em": e.Hydromechanical, "eo": e.Overall, "tt": e.TheoreticalTorque.NewtonMetres(), "pw": e.ShaftPower.Watts()}[q]
	}
	check.Run(t, "testdata/machines.csv", checks{
		"OilPump.Flow": func(r check.Row) (float64, error) {
			q, err := pump(r).Flow(speed(r))
			if r.Has("flow_unit") && r.Text("flow_unit") == "gpm" {
				return q.In(units.USGallonsPerMinute), err
			}
			return q.CubicMetresPerSecond(), err
		},
		"OilPump.Speed": func(r check.Row) (float64, error) {
			n, err := pump(r).Speed(machineFlow(r))
			return n.In(units.RevolutionsPerMinute), err
		},
		"OilPump.Torque": func(r check.Row) (float64, error) {
			x, err := pump(r).Torque(machinePressure(r))
			return x.NewtonMetres(), err
		},
		"OilPump.Power": func(r check.Row) (float64, error) {
			x, err := pump(r).Power(machineFlow(r), machinePressure(r))
			return powerIn(r, x), err
		},
		"HydraulicMotor.Speed": func(r check.Row) (float64, error) {
			n, err := motor(r).Speed(machineFlow(r))
			return n.In(units.RevolutionsPerMinute), err
		},
		"HydraulicMotor.Flow": func(r check.Row) (float64, error) {
			q, err := motor(r).Flow(speed(r))
			return q.CubicMetresPerSecond(), err
		},
		"HydraulicMotor.Pressure": func(r check.Row) (float64, error) {
			p, err := motor(r).Pressure(units.NewtonMetres.Of(r.Float("torque_nm")))
			return p.Pascals(), err
		},
		"HydraulicMotor.Torque": func(r check.Row) (float64, error) {
			x, err := motor(r).Torque(machinePressure(r))
			return torqueIn(r, x), err
		},
		"HydraulicMotor.Power": func(r check.Row) (float64, error) {
			x, err := motor(r).Power(machineFlow(r), machinePressure(r))
			return powerIn(r, x), err
		},
		"MachineTest.Pump": func(r check.Row) (float64, error) {
			m, q := test(r)
			e, err := m.Pump()
			return pick(e, q), err
		},
		"MachineTest.Motor": func(r check.Row) (float64, error) {
			m, q := test(r)
			e, err := m.Motor()
			return pick(e, q), err
		},
	})
}

func TestOilTable(t *testing.T) {
	oil := func(r check.Row) (Oil, error) {
		return NewOil(OilData{T1: units.Celsius(r.Float("t1_c")), Viscosity1: units.Centistokes.Of(r.Float("nu1_cst")),
			T2: units.Celsius(r.Float("t2_c")), Viscosity2: units.Centistokes.Of(r.Float("nu2_cst"))})
	}
	check.Run(t, "testdata/oil.csv", checks{
		"Oil.Viscosity": func(r check.Row) (float64, error) {
			o, err := oil(r)
			if err != nil {
				return 0, err
			}
			v, err := o.Viscosity(units.Celsius(r.Float("t_c")))
			return v.In(units.Centistokes), err
		},
		"Oil.TemperatureFor": func(r check.Row) (float64, error) {
			o, err := oil(r)
			if err != nil {
				return 0, err
			}
			x, err := o.TemperatureFor(units.Centistokes.Of(r.Float("nu_cst")))
			return x.Celsius(), err
		},
		"Oil.Walther": func(r check.Row) (float64, error) {
			o, err := oil(r)
			a, b := o.Walther()
			if r.Text("quantity") == "a" {
				return a, err
			}
			return b, err
		},
		"Oil.Density": func(r check.Row) (float64, error) {
			o, err := oil(r)
			if err != nil {
				return 0, err
			}
			d, err := o.Density(units.Celsius(r.Float("t_c")))
			return d.KilogramsPerCubicMetre(), err
		},
	})
}

func TestOilLineTable(t *testing.T) {
	check.Run(t, "testdata/oil_line.csv", checks{
		"OilLine.Loss": func(r check.Row) (float64, error) {
			l := OilLine{
				Bore:   either(r, "bore_m", units.Metres.Of, "bore_in", units.Inches.Of),
				Length: either(r, "length_m", units.Metres.Of, "length_ft", units.Feet.Of),
			}
			rho := r.Float("rho_kg_m3")
			if r.Has("fittings") {
				l.Fittings, l.Rise = r.Float("fittings"), units.Feet.Of(r.Float("rise_ft"))
			}
			x, err := l.Loss(machineFlow(r), OilState{units.KinematicViscosity(r.Float("nu_m2_s")), units.Density(rho)})
			switch r.Text("quantity") {
			case "velocity":
				return x.Velocity.MetresPerSecond(), err
			case "velocity_ft_s":
				return x.Velocity.In(units.FeetPerSecond), err
			case "reynolds":
				return x.Reynolds, err
			case "friction_ft":
				return units.Length(x.Loss.Pascals()/(rho*gravity)).In(units.Feet) - 20, err
			case "delivery_kpa":
				return 3.73/r.Float("flow_m3_s") - x.Loss.In(units.Kilopascals), err
			case "loss_psi_plus_500":
				return x.Loss.In(units.PoundsPerSquareInch) + 500, err
			}
			return x.Loss.Pascals(), err
		},
		"BoreForVelocity": func(r check.Row) (float64, error) {
			d, err := BoreForVelocity(units.CubicMetresPerSecond.Of(r.Float("flow_m3_s")), units.MetresPerSecond.Of(r.Float("velocity_m_s")))
			return d.Metres(), err
		},
		"ValveRating.DropAt": func(r check.Row) (float64, error) {
			p, err := ValveRating{units.Flow(r.Float("rated_flow_m3_s")), units.Pressure(r.Float("rated_drop_pa"))}.DropAt(units.Flow(r.Float("flow_m3_s")), r.Float("density_ratio"))
			return p.Pascals(), err
		},
	})
}

func TestOilHeatTable(t *testing.T) {
	tank := func(r check.Row) Reservoir {
		x := Reservoir{Oil: units.Kilograms.Of(r.Float("oil_kg")), Ambient: units.Celsius(r.Float("ambient_c")), Start: units.Celsius(r.Float("start_c"))}
		if r.Has("c_j_kgk") {
			x.SpecificHeat = units.SpecificHeat(r.Float("c_j_kgk"))
		}
		if r.Has("loss_w_k") {
			x.Loss = units.ThermalConductance(r.Float("loss_w_k"))
		}
		x.Limit = units.Celsius(r.Float("limit_c"))
		return x
	}
	relief := func(r check.Row) Relief { return Relief{Set: units.PascalsGauge.Of(r.Float("set_pa"))} }
	control := func(r check.Row) FlowControl {
		return FlowControl{units.Flow(r.Float("delivered_m3_s")), units.Flow(r.Float("taken_m3_s")), units.Pressure(r.Float("load_pa"))}
	}
	check.Run(t, "testdata/oil_heat.csv", checks{
		"Reservoir.Under": func(r check.Row) (float64, error) {
			h, err := tank(r).Under(units.Watts.Of(r.Float("heat_w")))
			switch r.Text("quantity") {
			case "plateau":
				return h.Plateau.Celsius(), err
			case "tau":
				return h.TimeConstant.Seconds(), err
			}
			if !h.ReachesLimit {
				err = errors.Join(err, errors.New("never"))
			}
			return h.TimeToLimit.Seconds(), err
		},
		"Reservoir.At": func(r check.Row) (float64, error) {
			x, err := tank(r).At(time.Duration(r.Float("after_s")*1e9), units.Watts.Of(r.Float("heat_w")))
			return x.Celsius(), err
		},
		"Reservoir.CoolerConductance": func(r check.Row) (float64, error) {
			x, err := tank(r).CoolerConductance(units.Watts.Of(r.Float("heat_w")))
			return x.WattsPerKelvin(), err
		},
		"Relief.SinglePassRise": func(r check.Row) (float64, error) {
			x, err := relief(r).SinglePassRise(units.Density(r.Float("rho_kg_m3")), units.SpecificHeat(r.Float("c_j_kgk")))
			return x.Kelvins(), err
		},
		"Relief.Heat": func(r check.Row) (float64, error) {
			x, err := relief(r).Heat(units.Flow(r.Float("flow_m3_s")))
			return x.Watts(), err
		},
		"Relief.FreeShare": func(r check.Row) (float64, error) {
			return relief(r).FreeShare(units.PascalsGauge.Of(r.Float("working_pa")))
		},
		"FlowControl.BypassHeat": func(r check.Row) (float64, error) {
			x, err := control(r).BypassHeat()
			return x.Watts(), err
		},
		"FlowControl.ThrottleHeat": func(r check.Row) (float64, error) {
			x, err := control(r).ThrottleHeat(relief(r))
			return x.Watts(), err
		},
	})
}
