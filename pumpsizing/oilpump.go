package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// OilPump turns shaft power into oil flow and pressure.
//
//	Q = D n ev,   T = D dp/(2 pi em),   P = Q dp/(ev em)
//
// Source: by definition of the two efficiencies; ISO 4391 (from memory).
type OilPump struct {
	Displacement    units.Displacement `json:"displacement,omitzero"` // zero when not known: no speed or torque follows
	Volumetric      float64            `json:"volumetric,omitzero"`
	Hydromechanical float64            `json:"hydromechanical,omitzero"`
	Overall         float64            `json:"overall,omitzero"` // instead of the two when only their product is known
}

// Validate reports every problem of the data.
func (p OilPump) Validate() error { return p.check("pumpsizing.OilPump", false) }

// check demands a displacement and separate efficiencies when whole is true.
func (p OilPump) check(fn string, whole bool) error {
	var faults []error
	if p.Displacement != 0 || whole {
		faults = append(faults, checkDisplacement(fn, "displacement", p.Displacement))
	}
	both := p.Volumetric != 0 || p.Hydromechanical != 0
	switch {
	case both && p.Overall != 0:
		faults = append(faults, &units.InputError{Func: fn, Field: "overall", Value: p.Overall, Reason: "given beside volumetric and hydromechanical: keep one form"})
	case whole || both:
		faults = append(faults, fraction(fn, "volumetric", p.Volumetric), fraction(fn, "hydromechanical", p.Hydromechanical))
	default:
		faults = append(faults, fraction(fn, "overall", p.Overall))
	}
	return errors.Join(faults...)
}

// overall is the product of the efficiencies, however they were given.
func (p OilPump) overall() float64 {
	if p.Overall != 0 {
		return p.Overall
	}
	return p.Volumetric * p.Hydromechanical
}

// Flow returns the delivery at speed n.
//
// Errors: ErrDomain for pump data that cannot be or lack displacement or
// volumetric efficiency, or a negative speed.
// Source: see OilPump.
func (p OilPump) Flow(n units.RotationalSpeed) (units.Flow, error) {
	const fn = "pumpsizing.OilPump.Flow"
	if err := errors.Join(p.check(fn, true), units.NonNegative(fn, "n", n.In(units.RevolutionsPerMinute), "r/min")); err != nil {
		return nan[units.Flow](), err
	}
	return sound(fn, units.Flow(p.Displacement.CubicMetresPerRevolution()*n.RadiansPerSecond()/(2*math.Pi)*p.Volumetric))
}

// Speed returns the speed that delivers flow q.
//
// Errors: as Flow, for a negative flow.
// Source: see OilPump.
func (p OilPump) Speed(q units.Flow) (units.RotationalSpeed, error) {
	const fn = "pumpsizing.OilPump.Speed"
	if err := errors.Join(p.check(fn, true), units.NonNegative(fn, "q", q.In(units.LitresPerMinute), "L/min")); err != nil {
		return nan[units.RotationalSpeed](), err
	}
	return sound(fn, units.RotationalSpeed(2*math.Pi*q.CubicMetresPerSecond()/(p.Displacement.CubicMetresPerRevolution()*p.Volumetric)))
}

// Torque returns the shaft torque against pressure rise dp.
//
// Errors: as Flow, for a negative pressure.
// Source: see OilPump.
func (p OilPump) Torque(dp units.Pressure) (units.Torque, error) {
	const fn = "pumpsizing.OilPump.Torque"
	if err := errors.Join(p.check(fn, true), units.NonNegative(fn, "dp", dp.In(units.Bars), "bar")); err != nil {
		return nan[units.Torque](), err
	}
	return sound(fn, units.Torque(p.Displacement.CubicMetresPerRevolution()*dp.Pascals()/(2*math.Pi*p.Hydromechanical)))
}

// Power returns the shaft power for delivery q against pressure rise dp.
//
// Errors: ErrDomain for pump data that cannot be, or a negative flow or
// pressure.
// Source: see OilPump.
func (p OilPump) Power(q units.Flow, dp units.Pressure) (units.Power, error) {
	const fn = "pumpsizing.OilPump.Power"
	err := errors.Join(p.check(fn, false), units.NonNegative(fn, "q", q.In(units.LitresPerMinute), "L/min"), units.NonNegative(fn, "dp", dp.In(units.Bars), "bar"))
	if err != nil {
		return nan[units.Power](), err
	}
	return sound(fn, units.Power(q.CubicMetresPerSecond()*dp.Pascals()/p.overall()))
}

// MachineTest is a bench or field reading of a displacement machine, pump or
// motor.
type MachineTest struct {
	Displacement units.Displacement    `json:"displacement"`
	Speed        units.RotationalSpeed `json:"speed"`
	Flow         units.Flow            `json:"flow"`     // delivered by a pump, taken by a motor
	Pressure     units.Pressure        `json:"pressure"` // across the machine
	Torque       units.Torque          `json:"torque"`   // at the shaft
}

// MachineEfficiency is what a test shows.
type MachineEfficiency struct {
	Volumetric        float64      `json:"volumetric"`
	Hydromechanical   float64      `json:"hydromechanical"`
	Overall           float64      `json:"overall"`
	TheoreticalFlow   units.Flow   `json:"theoreticalFlow"`   // D n
	TheoreticalTorque units.Torque `json:"theoreticalTorque"` // D dp/(2 pi)
	ShaftPower        units.Power  `json:"shaftPower"`
}

// Pump returns the efficiencies of the tested machine as a pump:
//
//	ev = Q/(D n),   em = D dp/(2 pi T),   e = ev em
//
// Errors: ErrDomain for readings that are not positive, and for an efficiency
// above one, which says that a reading is wrong.
// Source: by definition; ISO 4391 (from memory).
func (t MachineTest) Pump() (MachineEfficiency, error) {
	return t.efficiency("pumpsizing.MachineTest.Pump", true)
}

// Motor returns the efficiencies of the tested machine as a motor, the
// reciprocals of those of a pump.
//
// Errors and source as Pump.
func (t MachineTest) Motor() (MachineEfficiency, error) {
	return t.efficiency("pumpsizing.MachineTest.Motor", false)
}

func (t MachineTest) efficiency(fn string, pump bool) (MachineEfficiency, error) {
	err := errors.Join(
		checkDisplacement(fn, "displacement", t.Displacement),
		units.Positive(fn, "speed", t.Speed.In(units.RevolutionsPerMinute), "r/min"),
		units.Positive(fn, "flow", t.Flow.In(units.LitresPerMinute), "L/min"),
		units.Positive(fn, "pressure", t.Pressure.In(units.Bars), "bar"),
		units.Positive(fn, "torque", t.Torque.NewtonMetres(), "N m"))
	if err != nil {
		return MachineEfficiency{}, err
	}
	flow := t.Displacement.CubicMetresPerRevolution() * t.Speed.RadiansPerSecond() / (2 * math.Pi)
	torque := t.Displacement.CubicMetresPerRevolution() * t.Pressure.Pascals() / (2 * math.Pi)
	ev, em := t.Flow.CubicMetresPerSecond()/flow, torque/t.Torque.NewtonMetres()
	if !pump {
		ev, em = 1/ev, 1/em
	}
	if ev > 1 || em > 1 {
		return MachineEfficiency{}, &units.InputError{Func: fn, Field: "flow or torque", Value: max(ev, em), Min: 0, Max: 1,
			Reason: "the readings give an efficiency above one: check flow, torque, displacement and their units"}
	}
	return MachineEfficiency{Volumetric: ev, Hydromechanical: em, Overall: ev * em, TheoreticalFlow: units.Flow(flow),
		TheoreticalTorque: units.Torque(torque), ShaftPower: units.Power(t.Torque.NewtonMetres() * t.Speed.RadiansPerSecond())}, nil
}
