package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// HydraulicMotor turns oil flow and pressure into speed and torque.
//
//	n = Q ev/D,   T = D dp em/(2 pi),   P = Q dp ev em
//
// with D the volume per revolution. Gear motors reach about 0.90 and 0.88,
// piston motors 0.95 and 0.93, orbit motors 0.88 and 0.85 (common practice).
// When starting a loaded shaft the torque efficiency is only 0.70 to 0.90.
//
// Source: by definition of the two efficiencies; ISO 4391 (from memory).
type HydraulicMotor struct {
	Displacement    units.Displacement `json:"displacement"`
	Volumetric      float64            `json:"volumetric"`      // efficiency: leakage
	Hydromechanical float64            `json:"hydromechanical"` // efficiency: friction and pressure loss inside, not leakage
}

// Validate reports every problem of the data.
func (m HydraulicMotor) Validate() error { return m.check("pumpsizing.HydraulicMotor") }

func (m HydraulicMotor) check(fn string) error {
	return errors.Join(checkDisplacement(fn, "displacement", m.Displacement),
		fraction(fn, "volumetric", m.Volumetric), fraction(fn, "hydromechanical", m.Hydromechanical))
}

// Speed returns the speed the motor turns at on oil flow q.
//
// Errors: ErrDomain for motor data that cannot be, or a negative flow.
// Source: see HydraulicMotor.
func (m HydraulicMotor) Speed(q units.Flow) (units.RotationalSpeed, error) {
	const fn = "pumpsizing.HydraulicMotor.Speed"
	if err := errors.Join(m.check(fn), units.NonNegative(fn, "q", q.In(units.LitresPerMinute), "L/min")); err != nil {
		return nan[units.RotationalSpeed](), err
	}
	return sound(fn, units.RotationalSpeed(2*math.Pi*q.CubicMetresPerSecond()*m.Volumetric/m.Displacement.CubicMetresPerRevolution()))
}

// Flow returns the oil flow that turns the motor at speed n.
//
// Errors: ErrDomain for motor data that cannot be, or a negative speed.
// Source: see HydraulicMotor.
func (m HydraulicMotor) Flow(n units.RotationalSpeed) (units.Flow, error) {
	const fn = "pumpsizing.HydraulicMotor.Flow"
	if err := errors.Join(m.check(fn), units.NonNegative(fn, "n", n.In(units.RevolutionsPerMinute), "r/min")); err != nil {
		return nan[units.Flow](), err
	}
	return sound(fn, units.Flow(m.Displacement.CubicMetresPerRevolution()*n.RadiansPerSecond()/(2*math.Pi)/m.Volumetric))
}

// Pressure returns the pressure drop across the motor that gives torque t.
// Back pressure in the return line adds to the pressure at the inlet.
//
// Errors: ErrDomain for motor data that cannot be, or a negative torque.
// Source: see HydraulicMotor.
func (m HydraulicMotor) Pressure(t units.Torque) (units.Pressure, error) {
	const fn = "pumpsizing.HydraulicMotor.Pressure"
	if err := errors.Join(m.check(fn), units.NonNegative(fn, "t", t.NewtonMetres(), "N m")); err != nil {
		return nan[units.Pressure](), err
	}
	return sound(fn, units.Pressure(2*math.Pi*t.NewtonMetres()/(m.Displacement.CubicMetresPerRevolution()*m.Hydromechanical)))
}

// Torque returns the torque the motor gives at pressure drop dp.
//
// Errors: ErrDomain for motor data that cannot be, or a negative pressure.
// Source: see HydraulicMotor.
func (m HydraulicMotor) Torque(dp units.Pressure) (units.Torque, error) {
	const fn = "pumpsizing.HydraulicMotor.Torque"
	if err := errors.Join(m.check(fn), units.NonNegative(fn, "dp", dp.In(units.Bars), "bar")); err != nil {
		return nan[units.Torque](), err
	}
	return sound(fn, units.Torque(m.Displacement.CubicMetresPerRevolution()*dp.Pascals()*m.Hydromechanical/(2*math.Pi)))
}

// Power returns the power at the motor's shaft on flow q and pressure drop dp.
//
// Errors: ErrDomain for motor data that cannot be, or a negative flow or
// pressure.
// Source: see HydraulicMotor.
func (m HydraulicMotor) Power(q units.Flow, dp units.Pressure) (units.Power, error) {
	const fn = "pumpsizing.HydraulicMotor.Power"
	err := errors.Join(m.check(fn), units.NonNegative(fn, "q", q.In(units.LitresPerMinute), "L/min"), units.NonNegative(fn, "dp", dp.In(units.Bars), "bar"))
	if err != nil {
		return nan[units.Power](), err
	}
	return sound(fn, units.Power(q.CubicMetresPerSecond()*dp.Pascals()*m.Volumetric*m.Hydromechanical))
}

// largestDisplacement is above any mobile machine's; a larger value is cubic
// centimetres or cubic inches taken for cubic metres.
const largestDisplacement = 0.01 // m3 per revolution

func checkDisplacement(fn, field string, d units.Displacement) error {
	v := d.CubicMetresPerRevolution()
	if err := units.Positive(fn, field, v*1e6, "cm3/rev"); err != nil {
		return err
	}
	if v > largestDisplacement {
		return &units.InputError{Func: fn, Field: field, Value: v * 1e6, Unit: "cm3/rev", Min: 0, Max: largestDisplacement * 1e6,
			Reason: "larger than any mobile machine: were cubic centimetres or cubic inches read as cubic metres?"}
	}
	return nil
}

// Usual displacements of motors and pumps of fish-pump drives (common
// practice).
const smallestUsual, largestUsual = 8e-6, 1000e-6 // m3 per revolution

// PlausibleDisplacement doubts a displacement that looks like a wrong unit, and
// says what the number would be in the other one. The second result is true
// when there is something to say.
func PlausibleDisplacement(field string, d units.Displacement) (units.Notice, bool) {
	v := d.CubicMetresPerRevolution()
	if v >= smallestUsual && v <= largestUsual {
		return units.Notice{}, false
	}
	cc := d.In(units.CubicCentimetresPerRevolution)
	in3 := d.In(units.CubicInchesPerRevolution)
	n := units.Notice{Code: CodeDisplacementUnit, Severity: units.Warning, Field: field, Value: finite(cc), Limit: smallestUsual * 1e6, Unit: "cm3/rev",
		Message: num(cc) + " cm3/rev (" + num(in3) + " in3/rev) is unusual for this work; if cubic inches were meant it is " +
			num(units.CubicInchesPerRevolution.Of(cc).In(units.CubicCentimetresPerRevolution)) + " cm3/rev: state the unit", Source: commonPractice}
	if v > largestUsual {
		n.Limit = largestUsual * 1e6
		n.Message = num(cc) + " cm3/rev (" + num(in3) + " in3/rev) is unusual for this work; if cubic centimetres were read as cubic inches it is " +
			num(in3) + " cm3/rev: state the unit"
	}
	return n, true
}

// MotorSupply compares the oil flow a motor needs at speed n with what the
// pump delivers, the check that shows a displacement in the wrong unit. The
// second result is true when the supply is outside half to double the need.
//
// Errors: those of Flow; ErrDomain for a supply that is not positive.
func (m HydraulicMotor) MotorSupply(n units.RotationalSpeed, supply units.Flow) (units.Notice, bool, error) {
	const fn = "pumpsizing.HydraulicMotor.MotorSupply"
	need, err := m.Flow(n)
	err = errors.Join(err, units.Positive(fn, "supply", supply.In(units.LitresPerMinute), "L/min"))
	if err != nil {
		return units.Notice{}, false, err
	}
	ratio := supply.CubicMetresPerSecond() / need.CubicMetresPerSecond()
	if ratio >= 0.5 && ratio <= 2 {
		return units.Notice{}, false, nil
	}
	return units.Notice{Code: CodeDisplacementUnit, Severity: units.Warning, Field: "motor.displacement",
		Value: need.In(units.LitresPerMinute), Limit: supply.In(units.LitresPerMinute), Unit: "L/min",
		Message: "the motor takes " + num(need.In(units.LitresPerMinute)) + " L/min at this speed but the pump delivers " + num(supply.In(units.LitresPerMinute)) +
			" L/min: check the units of both displacements", Source: commonPractice}, true, nil
}
