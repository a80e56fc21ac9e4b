package pumpsizing

import (
	"math"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// driveRow builds the drive and the system of a row of chain.csv.
func driveRow(r check.Row) (HydraulicDrive, System, units.Flow, error) {
	m3h := units.CubicMetresPerHour.Of
	var pts []CurvePoint
	hs := r.Floats("heads_m")
	for i, q := range r.Floats("flows_m3_h") {
		pts = append(pts, CurvePoint{Flow: m3h(q), Head: units.Metres.Of(hs[i])})
	}
	d := HydraulicDriveData{
		Pump: PumpData{
			Curve:      CurveData{Speed: units.RevolutionsPerMinute.Of(r.Float("n0_rpm")), Points: pts},
			Efficiency: EfficiencyData{Best: r.Float("best"), BestFlow: m3h(r.Float("best_m3_h"))},
		},
		WaterDensity: units.Density(r.Float("rho_kg_m3")),
		Motor:        HydraulicMotor{units.CubicCentimetresPerRevolution.Of(r.Float("motor_cm3")), r.Float("motor_ev"), r.Float("motor_em")},
		Oil:          OilState{units.Centistokes.Of(r.Float("oil_cst")), units.Density(r.Float("oil_kg_m3"))},
		Line:         OilLine{Bore: units.Metres.Of(r.Float("line_m")), Length: units.Metres.Of(r.Float("line_length_m"))},
		Valves:       units.Bars.Of(r.Float("valves_bar")),
		Return:       units.Bars.Of(r.Float("return_bar")),
		OilPump:      OilPump{Overall: r.Float("pump_eta")},
		Relief:       Relief{Set: units.BarsGauge.Of(175)},
	}
	h, err := NewHydraulicDrive(d)
	return h, hoseFrom(r), m3h(r.Float("flow_m3_h")), err
}

func TestChainTable(t *testing.T) {
	check.Run(t, "testdata/chain.csv", checks{
		"HydraulicDrive.ForFlow": func(r check.Row) (float64, error) {
			h, sys, q, err := driveRow(r)
			if err != nil {
				return 0, err
			}
			x, err := h.ForFlow(sys, q)
			s := sys.(hose)
			switch r.Text("quantity") {
			case "hose velocity m/s":
				return q.CubicMetresPerSecond() / (math.Pi / 4 * s.bore * s.bore), err
			case "hose loss m":
				return (x.Pump.Head - x.Pump.Lift).Metres(), err
			case "head m":
				return x.Pump.Head.Metres(), err
			case "speed r/min":
				return x.Pump.Speed.In(units.RevolutionsPerMinute), err
			case "efficiency":
				return x.Pump.Efficiency, err
			case "shaft W":
				return x.Pump.ShaftPower.Watts(), err
			case "torque N m":
				return x.Pump.Torque.NewtonMetres(), err
			case "motor bar":
				return x.MotorPressure.In(units.Bars), err
			case "oil L/min":
				return x.OilFlow.In(units.LitresPerMinute), err
			case "oil Re":
				return x.Line.Reynolds, err
			case "line bar":
				return x.Line.Loss.In(units.Bars), err
			case "pump bar":
				return x.PumpPressure.In(units.Bars), err
			case "PTO W":
				return x.PTOPower.Watts(), err
			}
			return x.HeatToOil.Watts(), err
		},
	})
}

// tractorRow builds the drive of a row of chain_tractor.csv, whose impeller has
// the same efficiency everywhere: best efficiency is put at the duty.
func tractorRow(r check.Row) (DriveDuty, error) {
	rated := units.RevolutionsPerMinute.Of(r.Float("n0_rpm"))
	h0, b, a := r.Float("h0_m"), r.Float("b_s_m2"), r.Float("a_s2_m5")
	last := (-b + math.Sqrt(b*b+4*a*h0)) / (2 * a)
	at := func(q float64) CurvePoint {
		return CurvePoint{Flow: units.Flow(q), Head: units.Length(h0 - q*(b+a*q))}
	}
	c := CurveData{Speed: rated, Points: []CurvePoint{at(0), at(last / 3), at(2 * last / 3), at(0.9 * last)}}
	ratio := r.Float("ratio")
	sys := QuadraticSystem{Static: units.Metres.Of(r.Float("static_m")), Resistance: r.Float("k_s2_m5")}
	curve, err := FitCurve(c)
	if err != nil {
		return DriveDuty{}, err
	}
	op, err := curve.Meet(sys, rated*units.RotationalSpeed(ratio))
	if err != nil {
		return DriveDuty{}, err
	}
	h, err := NewHydraulicDrive(HydraulicDriveData{
		Pump:         PumpData{Curve: c, Efficiency: EfficiencyData{Best: r.Float("efficiency"), BestFlow: op.Flow / units.Flow(ratio)}},
		WaterDensity: units.Density(r.Float("rho_kg_m3")),
		Motor:        HydraulicMotor{units.CubicCentimetresPerRevolution.Of(r.Float("motor_cm3")), r.Float("motor_ev"), r.Float("motor_em")},
		Oil:          OilState{units.KinematicViscosity(r.Float("oil_m2_s")), units.Density(r.Float("oil_kg_m3"))},
		Line:         OilLine{Bore: units.Metres.Of(r.Float("line_m")), Length: units.Metres.Of(r.Float("line_length_m"))},
		Valves:       units.Pressure(r.Float("other_pa")),
		OilPump: OilPump{Displacement: units.CubicCentimetresPerRevolution.Of(r.Float("pump_cm3")),
			Volumetric: r.Float("pump_ev"), Hydromechanical: r.Float("pump_em")},
		StepUp:  r.Float("step_up"),
		Relief:  Relief{Set: units.BarsGauge.Of(250)},
		Tractor: &Tractor{Power: units.Kilowatts.Of(r.Float("pto_kw")), Basis: PTOPower, EngineSpeed: units.RevolutionsPerMinute.Of(2000), AirTemp: units.Celsius(20)},
	})
	if err != nil {
		return DriveDuty{}, err
	}
	return h.AtSpeed(sys, rated*units.RotationalSpeed(ratio))
}

func TestChainTractorTable(t *testing.T) {
	check.Run(t, "testdata/chain_tractor.csv", checks{
		"HydraulicDrive.AtSpeed": func(r check.Row) (float64, error) {
			x, err := tractorRow(r)
			heat := units.Megajoules.Of(r.Float("heat_mj_l"))
			switch r.Text("quantity") {
			case "flow m3/s":
				return x.Pump.Flow.CubicMetresPerSecond(), err
			case "head m":
				return x.Pump.Head.Metres(), err
			case "speed r/min":
				return x.Pump.Speed.In(units.RevolutionsPerMinute), err
			case "shaft W":
				return x.Pump.ShaftPower.Watts(), err
			case "torque N m":
				return x.Pump.Torque.NewtonMetres(), err
			case "motor Pa":
				return x.MotorPressure.Pascals(), err
			case "oil m3/s":
				return x.OilFlow.CubicMetresPerSecond(), err
			case "oil Re":
				return x.Line.Reynolds, err
			case "line Pa":
				return x.Line.Loss.Pascals(), err
			case "pump Pa":
				return x.PumpPressure.Pascals(), err
			case "pump r/min":
				return x.OilPumpSpeed.In(units.RevolutionsPerMinute), err
			case "PTO r/min":
				return x.PTOSpeed.In(units.RevolutionsPerMinute), err
			case "PTO W":
				return x.PTOPower.Watts(), err
			case "heat W":
				return x.HeatToOil.Watts(), err
			case "PTO N m":
				return x.PTOTorque.NewtonMetres(), err
			case "load ratio":
				return x.Tractor.LoadRatio, err
			case "fuel full L/h":
				return x.Tractor.FuelFullThrottle.In(units.LitresPerHour), err
			case "fuel L/h":
				return x.Tractor.Fuel.In(units.LitresPerHour), err
			case "speed ratio":
				return x.Tractor.SpeedRatio, err
			case "torque share":
				return x.Tractor.TorqueShare, err
			case "available kW": // cool air at sea level: no derating
				return x.Tractor.AvailableAt.In(units.Kilowatts), err
			}
			eff, ferr := FuelEfficiency(x.Pump.WaterPower, x.Tractor.FuelFullThrottle, heat)
			if err == nil {
				err = ferr
			}
			return eff, err
		},
	})
}
