package pumpsizing

import (
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// models checks the loss models of a drive.
func (d *HydraulicDriveData) models(fn string) []error {
	var faults []error
	if d.MotorModel != nil {
		m := *d.MotorModel // the caller's may change
		d.MotorModel = &m
		faults = append(faults, units.AtField("motorModel", m.check(fn)), units.AtField("motorModel", units.Within(fn, "dry", m.Dry, 0, 0.9, "")))
	}
	if d.OilPumpModel != nil {
		m := *d.OilPumpModel
		d.OilPumpModel = &m
		faults = append(faults, units.AtField("oilPumpModel", m.check(fn)), units.AtField("oilPump", d.OilPump.check(fn, true)))
	}
	return faults
}

// motorAt is the oil motor with the efficiencies it has at torque t and speed
// n: those of the data, or those of its loss model, for which the pressure has
// a closed form.
func (h *HydraulicDrive) motorAt(t units.Torque, n units.RotationalSpeed) (HydraulicMotor, error) {
	m := h.d.Motor
	w := h.d.MotorModel
	if w == nil || !(t > 0) {
		return m, nil
	}
	v := m.Displacement.CubicMetresPerRevolution() / (2 * math.Pi)
	duty := MachineDuty{Speed: n, Viscosity: h.d.Oil.Viscosity, Density: h.d.Oil.Density}
	duty.Pressure = units.Pressure(w.motorPressure(t.NewtonMetres(), v, duty.muOmega()))
	var err error
	m.Volumetric, m.Hydromechanical, err = w.Motor(duty)
	return m, err
}

// oilPumpAt is the oil pump with the efficiencies it has at delivery q and
// pressure dp.
func (h *HydraulicDrive) oilPumpAt(q units.Flow, dp units.Pressure) (OilPump, error) {
	p := h.d.OilPump
	w := h.d.OilPumpModel
	if w == nil || !(q > 0) {
		return p, nil
	}
	v := p.Displacement.CubicMetresPerRevolution() / (2 * math.Pi)
	mu := h.d.Oil.Viscosity.SquareMetresPerSecond() * h.d.Oil.Density.KilogramsPerCubicMetre()
	duty := MachineDuty{Pressure: dp, Viscosity: h.d.Oil.Viscosity, Density: h.d.Oil.Density,
		Speed: units.RotationalSpeed(w.pumpSpeed(q.CubicMetresPerSecond(), v, dp.Pascals(), mu))}
	var err error
	p.Volumetric, p.Hydromechanical, err = w.Pump(duty)
	return p, err
}

// coupled finds the impeller speed at which the PTO turns at the given speed,
// when leakage follows the pressure and the pressure follows the speed; start
// is the speed with the efficiencies of the data.
func (h *HydraulicDrive) coupled(sys System, pto, start units.RotationalSpeed) (units.RotationalSpeed, error) {
	gap := func(n float64) float64 {
		p, err := h.pump.Operate(sys, units.RotationalSpeed(n), h.d.WaterDensity)
		x := DriveDuty{Pump: p}
		if isRefused(err) || h.chain(&x) != nil {
			return math.NaN()
		}
		return (x.PTOSpeed - pto).RadiansPerSecond()
	}
	s := start.RadiansPerSecond()
	lo, hi := s, s
	for range 40 { // the impeller never turns faster than without leakage
		lo *= 0.95
		if g := gap(lo); g < 0 || math.IsNaN(g) {
			break
		}
	}
	for range 40 {
		if gap(hi) > 0 {
			break
		}
		hi *= 1.05
	}
	if math.IsNaN(gap(lo)) { // below the minimum speed for the lift
		var op OperatingPoint
		if err := h.pump.curve.lift("pumpsizing.HydraulicDrive.FromPTO", sys, &op); err != nil {
			return 0, err
		}
		lo = op.MinimumSpeed.RadiansPerSecond() * (1 + 1e-9)
		if g := gap(lo); !(g < 0) {
			return 0, &units.InputError{Func: "pumpsizing.HydraulicDrive.FromPTO", Field: "pto", Value: pto.In(units.RevolutionsPerMinute), Unit: "r/min",
				Reason: "with the leakage of the machines the impeller does not reach the minimum speed for the lift", Kind: units.ErrNoSolution}
		}
	}
	n, err := root.Find(gap, lo, hi, 1e-12*hi)
	return units.RotationalSpeed(n), err
}
