package plan

import (
	"errors"
	"fmt"

	"pondwright.example/hydraulics"
	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

// Lift is the pump at its duty with all that drives it.
type Lift struct {
	Duty         pumpsizing.DriveDuty      `json:"duty"`
	HoseVelocity units.Velocity            `json:"hoseVelocity"`
	HoseLoss     units.Length              `json:"hoseLoss"`
	Minimum      pumpsizing.MinimumSpeed   `json:"minimumSpeed"`
	Tractor      pumpsizing.TractorPTO     `json:"tractor"`
	Raised       pumpsizing.DriveDuty      `json:"raised"` // the same flow with the platform RaisedBy higher
	RaisedBy     units.Length              `json:"raisedBy"`
	Heights      []pumpsizing.PlatformStep `json:"heights"` // what other platform heights cost at the duty's speed
	// PumpCurve and SystemCurve are points of the two curves at the duty's speed.
	PumpCurve   []CurvePoint `json:"pumpCurve"`
	SystemCurve []CurvePoint `json:"systemCurve"`
}

// CurvePoint is a head at a flow.
type CurvePoint struct {
	Flow units.Flow   `json:"flow"`
	Head units.Length `json:"head"`
}

// pipelineSpec is the discharge hose as the table lists it.
func (in Input) pipelineSpec(water hydraulics.Fluid) hydraulics.PipelineSpec {
	spec := hydraulics.PipelineSpec{Fluid: water, Lift: in.Pump.Lift}
	for _, p := range in.Hose.Parts {
		r := hydraulics.PipeRun{Name: p.Name, Bore: p.Bore, Length: p.Length, Roughness: p.Roughness}
		if p.Loss != 0 {
			r.Fittings = []hydraulics.Loss{hydraulics.CustomLoss(p.Name, p.Loss)}
		}
		spec.Runs = append(spec.Runs, r)
	}
	return spec
}

// driveData is the whole drive as the farm describes it.
func (in Input) driveData(water hydraulics.Fluid, air units.AbsolutePressure) pumpsizing.HydraulicDriveData {
	d := in.Drive
	curve := pumpsizing.CurveData{}
	for i, p := range in.Pump.Points {
		if i == 0 {
			curve.Speed = p.Speed
		}
		curve.Points = append(curve.Points, pumpsizing.CurvePoint{Flow: p.Flow, Head: p.Head, Speed: p.Speed})
	}
	return pumpsizing.HydraulicDriveData{
		Pump: pumpsizing.PumpData{Curve: curve,
			Efficiency: pumpsizing.EfficiencyData{Best: in.Pump.Best, BestFlow: in.Pump.BestFlow}},
		WaterDensity: water.Density,
		Motor:        pumpsizing.HydraulicMotor{Displacement: d.Motor, Volumetric: d.MotorVolumetric, Hydromechanical: d.MotorMechanical},
		Oil:          pumpsizing.OilState{Viscosity: d.Viscosity, Density: d.OilDensity},
		Line:         pumpsizing.OilLine{Bore: d.HoseBore, Length: d.HoseLength},
		Valves:       d.Valves,
		Return:       d.Return,
		OilPump:      pumpsizing.OilPump{Overall: d.OilPump},
		Relief:       pumpsizing.Relief{Set: d.Relief},
		Tractor: &pumpsizing.Tractor{Power: d.Tractor, Basis: d.Basis, EngineSpeed: d.EngineSpeed,
			Aspiration: d.Aspiration, AirPressure: air, AirTemp: in.Place.Air},
		Reservoir: &pumpsizing.Reservoir{Oil: d.Oil.Mass(d.OilDensity), Loss: d.Cooling,
			Ambient: in.Place.Air, Start: d.OilStart, Limit: d.OilLimit},
	}
}

// raise is how much higher the platform is tried, for the run sheet's "what if".
const raise = 0.6 * units.Metre

// lift finds the speed for the wanted flow and follows the power back to the
// tractor.
func (m *model) lift() (Lift, error) {
	var l Lift
	q := m.in.Pump.Flow
	duty, err := m.drive.ForFlow(m.line, q)
	if err != nil && !errors.Is(err, units.ErrRange) {
		return l, units.AtField("pump", err)
	}
	l.Duty = duty
	l.Tractor = m.drive.TractorPTO()
	l.HoseLoss = duty.Pump.Head - m.in.Pump.Lift
	if l.HoseVelocity, err = hydraulics.PipeVelocity(q, m.narrowestHose()); err != nil {
		return l, units.AtField("hose", err)
	}
	curve := m.drive.Pump().Curve()
	if l.Minimum, err = curve.MinimumSpeed(m.in.Pump.Lift); err != nil {
		return l, units.AtField("pump", err)
	}
	l.RaisedBy = raise
	if l.Raised, err = m.drive.ForFlow(pumpsizing.Raised{System: m.line, By: raise}, q); err != nil && !errors.Is(err, units.ErrRange) {
		// A platform that high is out of the pump's reach: say so, keep the plan.
		l.Raised.Notices = append(l.Raised.Notices, units.Notice{Code: CodePlatformOutOfReach, Severity: units.Info,
			Field: "pump.lift", Value: (m.in.Pump.Lift + raise).Metres(), Limit: m.in.Pump.Lift.Metres(), Unit: "m",
			Message: fmt.Sprintf("the pump does not carry the flow to a platform %.1f m higher", raise.Metres())})
	}
	n := duty.Pump.Speed
	l.Heights = m.drive.Pump().PlatformSweep(m.line, []units.Length{-raise, 0, raise, 2 * raise}, n, m.water.Density)
	const points = 40
	_, last := curve.Range(n)
	for i := range points + 1 {
		f := last * units.Flow(i) / points
		l.PumpCurve = append(l.PumpCurve, CurvePoint{f, curve.Head(f, n)})
		l.SystemCurve = append(l.SystemCurve, CurvePoint{f, m.line.Head(f)})
	}
	return l, nil
}

func (m *model) narrowestHose() units.Length {
	bore := m.in.Hose.Parts[0].Bore
	for _, p := range m.in.Hose.Parts {
		bore = min(bore, p.Bore)
	}
	return bore
}
