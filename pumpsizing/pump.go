package pumpsizing

import (
	"errors"

	"pondwright.example/units"
)

// PumpData describes a centrifugal pump as its data sheet does.
type PumpData struct {
	Name       string         `json:"name,omitzero"`
	Curve      CurveData      `json:"curve"`
	Efficiency EfficiencyData `json:"efficiency"`
	Impeller   units.Length   `json:"impeller,omitzero"` // diameter; zero when not known: no tip speed
	Series     int            `json:"series,omitzero"`   // identical pumps one behind the other; zero: one
	Parallel   int            `json:"parallel,omitzero"` // identical pumps side by side; zero: one
}

// Pump is a head curve with its efficiency, built by NewPump; an immutable
// value.
type Pump struct {
	name       string
	curve      Curve
	efficiency Efficiency
	impeller   units.Length
}

// Validate reports every problem of the data with the path of its field.
func (d PumpData) Validate() error {
	_, err := NewPump(d)
	return err
}

// NewPump builds a pump from its data.
//
// Errors: every *units.InputError of the curve, the efficiency and the impeller
// diameter, joined, with the path of its field.
func NewPump(d PumpData) (Pump, error) {
	const fn = "pumpsizing.NewPump"
	c, cerr := FitCurve(d.Curve)
	e, eerr := NewEfficiency(d.Efficiency)
	if err := errors.Join(units.AtField("curve", cerr), units.AtField("efficiency", eerr),
		units.NonNegative(fn, "impeller", d.Impeller.Metres(), "m"), units.Within(fn, "series", float64(d.Series), 0, 100, "pumps"),
		units.Within(fn, "parallel", float64(d.Parallel), 0, 100, "pumps")); err != nil {
		return Pump{}, err
	}
	c = c.InSeries(d.Series).InParallel(d.Parallel)
	return Pump{name: d.Name, curve: c, efficiency: e, impeller: d.Impeller}, nil
}

// Name returns the name given in the data.
func (p Pump) Name() string { return p.name }

// Curve returns the head curve.
func (p Pump) Curve() Curve { return p.curve }

// Efficiency returns the efficiency curve at rated speed.
func (p Pump) Efficiency() Efficiency { return p.efficiency }

// RatedSpeed returns the speed of the data sheet, as [Curve.RatedSpeed].
func (p Pump) RatedSpeed() units.RotationalSpeed { return p.curve.RatedSpeed() }

// PumpDuty is an operating point with the power it takes.
type PumpDuty struct {
	OperatingPoint
	Efficiency   float64        `json:"efficiency"`
	WaterPower   units.Power    `json:"waterPower"`
	ShaftPower   units.Power    `json:"shaftPower"`  // of all pumps together
	Torque       units.Torque   `json:"torque"`      // of each pump
	ShareOfBest  float64        `json:"shareOfBest"` // flow as a share of the best-efficiency flow at this speed
	TipSpeed     units.Velocity `json:"tipSpeed"`    // zero when the impeller is not known
	WaterDensity units.Density  `json:"waterDensity"`
}

// Preferred flow of a centrifugal pump as a share of the best-efficiency flow:
// 70 to 120 % for most, ANSI/HI 9.6.3-2012 as quoted in Pumps & Systems, "Pump
// selection: understanding manufacturer family performance charts, part 1". Above a
// specific speed of 4500 (US) the lower end is 80 %.
const (
	preferredLow, preferredHigh = 0.7, 1.2
	preferredSource             = "preferred operating region, ANSI/HI 9.6.3-2012"
)

// Operate finds where the pump at speed n meets the system, and the power it
// takes there, for a liquid of density rho. See Curve.Meet for what is an error
// and what a notice; in addition a duty far from best efficiency is told.
//
// Errors: those of Curve.Meet; ErrDomain for a density that is not positive;
// ErrRange when the duty lies beyond the end of the efficiency curve.
// Source: affinity laws; the power is rho g Q H over the efficiency.
func (p Pump) Operate(sys System, n units.RotationalSpeed, rho units.Density) (PumpDuty, error) {
	op, err := p.curve.Meet(sys, n)
	return p.power(op, rho, err)
}

// ForFlow finds the speed at which the pump moves flow q through the system,
// and the power it takes. See Curve.SpeedForFlow.
//
// Errors: those of Curve.SpeedForFlow and Operate.
// Source: affinity laws, solved for the speed.
func (p Pump) ForFlow(sys System, q units.Flow, rho units.Density) (PumpDuty, error) {
	op, err := p.curve.SpeedForFlow(sys, q)
	return p.power(op, rho, err)
}

// power completes a duty whose flow, head and speed are known. An error of kind
// ErrRange leaves a duty to complete; another error does not.
func (p *Pump) power(op OperatingPoint, rho units.Density, err error) (PumpDuty, error) {
	const fn = "pumpsizing.Pump"
	d := PumpDuty{OperatingPoint: op, WaterDensity: rho}
	if bad := units.Positive(fn, "density", rho.KilogramsPerCubicMetre(), "kg/m3"); bad != nil {
		d.WaterDensity = 0
		return d, errors.Join(err, bad)
	}
	if err != nil && !errors.Is(err, units.ErrRange) {
		return d, err
	}
	r := op.SpeedRatio
	scale := r * p.curve.flowScale
	x := op.Flow.CubicMetresPerSecond() / scale
	k := p.curve.headScale * p.curve.flowScale // number of pumps
	d.Efficiency = p.efficiency.at(x)
	d.ShareOfBest = x / p.efficiency.bestFlow
	d.WaterPower = waterPower(op.Flow, op.Head, rho)
	d.TipSpeed = units.Velocity(op.Speed.RadiansPerSecond() * p.impeller.Metres() / 2)
	per := p.efficiency.perFlow(x)
	if !(per > 0) {
		return d, errors.Join(err, &units.InputError{Func: fn, Field: "flow", Value: op.Flow.In(units.CubicMetresPerHour), Unit: "m3/h",
			Min: 0, Max: p.efficiency.last * scale * 3600, Reason: "beyond the end of the efficiency curve, so no power follows", Kind: units.ErrRange})
	}
	// rho g Q H/e with Q/e kept as one number, finite at no flow.
	d.ShaftPower = units.Power(rho.KilogramsPerCubicMetre() * gravity * op.Head.Metres() * scale / per)
	d.Torque = units.Torque(d.ShaftPower.Watts() / op.Speed.RadiansPerSecond() / k)
	if bad := soundAll(fn, d.ShaftPower.Watts(), d.Torque.NewtonMetres(), d.WaterPower.Watts()); bad != nil {
		return PumpDuty{OperatingPoint: op}, bad
	}
	p.judge(&d)
	return d, err
}

// judge adds the notices that depend on the efficiency curve.
func (p *Pump) judge(d *PumpDuty) {
	best := p.efficiency.bestFlow * d.SpeedRatio * p.curve.flowScale * 3600
	switch {
	case d.ShareOfBest > preferredHigh:
		d.Notices = note(d.Notices, CodeRunOut, units.Caution, "flow", d.Flow.In(units.CubicMetresPerHour), preferredHigh*best, "m3/h",
			"flow is "+percent(d.ShareOfBest)+" of the best-efficiency flow: power and suction head needed rise; check the drive", preferredSource)
	case d.ShareOfBest < preferredLow:
		d.Notices = note(d.Notices, CodePartLoad, units.Info, "flow", d.Flow.In(units.CubicMetresPerHour), preferredLow*best, "m3/h",
			"flow is "+percent(d.ShareOfBest)+" of the best-efficiency flow: rougher on pump and animals", preferredSource)
	}
	if d.Efficiency > goodAnimalPump {
		d.Notices = note(d.Notices, CodeEfficiencyHigh, units.Caution, "efficiency", d.Efficiency, goodAnimalPump, "",
			"too good for a pump with clearances for animals, which reach 0.35 to 0.65: check the data sheet", commonPractice)
	}
}
