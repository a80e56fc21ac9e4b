package pumpsizing

import (
	"errors"

	"pondwright.example/units"
)

// ElectricMotor is a motor as its plate says.
type ElectricMotor struct {
	Rating      units.Power             `json:"rating"`
	Efficiency  float64                 `json:"efficiency"` // full load; see MotorEfficiency
	PowerFactor float64                 `json:"powerFactor"`
	Voltage     units.ElectricPotential `json:"voltage"`            // line to line
	Frequency   units.Frequency         `json:"frequency,omitzero"` // at which the pump turns at its rated speed; zero: 50 Hz
	Starting    Starting                `json:"starting,omitzero"`
}

// ElectricDriveData describes a fish pump on an electric motor, three-phase,
// with or without a frequency converter, on the mains or a generator.
type ElectricDriveData struct {
	Pump          PumpData        `json:"pump"`
	WaterDensity  units.Density   `json:"waterDensity"`
	Motor         ElectricMotor   `json:"motor"`
	Converter     float64         `json:"converter,omitzero"` // efficiency; zero: none, the pump turns at one speed
	Cable         *Cable          `json:"cable,omitempty"`
	CableToMotor  bool            `json:"cableToMotor,omitzero"` // the cable lies between converter and motor; else before the converter
	Generator     *Generator      `json:"generator,omitempty"`   // nil: mains
	MotorAltitude units.Length    `json:"motorAltitude,omitzero"`
	OtherLoads    []GeneratorLoad `json:"otherLoads,omitempty"` // on the same generator
}

// ElectricDrive is a checked drive, built by NewElectricDrive.
type ElectricDrive struct {
	d     ElectricDriveData
	pump  Pump
	share float64 // of the motor's rating kept at altitude

	notices []units.Notice // of defaults taken
}

// Limits of an electric drive (common practice).
const (
	voltageLimit   = 0.05 // of the supply voltage, running
	overspeedLimit = 1.1  // of rated frequency
	// converterMargin is the least rating of a set over the apparent power of a
	// converter on it.
	converterMargin = 1.3
)

// Validate reports every problem of the data with the path of its field.
func (d ElectricDriveData) Validate() error {
	_, err := NewElectricDrive(d)
	return err
}

// NewElectricDrive checks the data of a drive and builds it. Above 1000 m the
// motor is derated by 1 % per 100 m (common practice).
//
// Errors: every *units.InputError of the parts, joined, with the path of its
// field.
func NewElectricDrive(d ElectricDriveData) (ElectricDrive, error) {
	const fn = "pumpsizing.NewElectricDrive"
	p, perr := NewPump(d.Pump)
	m := &d.Motor
	var notices []units.Notice
	if m.Frequency == 0 {
		m.Frequency = 50 * units.Hertz
		notices = assumed(notices, "motor.frequency", 50, "Hz", "frequency of the pump's rated speed not stated: 50 Hz was assumed", commonPractice)
	}
	if d.Cable != nil && d.Cable.Reactance == 0 {
		notices = assumed(notices, "cable.reactance", usualReactance*1e6, "mohm/km", "reactance of the cable not stated: 0.08 ohm/km was assumed", commonPractice)
	}
	if d.Generator != nil && d.Generator.Transient == 0 {
		notices = assumed(notices, "generator.transient", usualTransient, "", "transient reactance of the set not stated: 0.12 was assumed", "from memory")
	}
	share, serr := DerateBySteps(d.MotorAltitude, 1000*units.Metre, 100*units.Metre, 0.01)
	faults := []error{
		units.AtField("pump", perr),
		units.Positive(fn, "waterDensity", d.WaterDensity.KilogramsPerCubicMetre(), "kg/m3"),
		units.AtField("motor", errors.Join(
			units.Positive(fn, "rating", m.Rating.In(units.Kilowatts), "kW"),
			units.Within(fn, "frequency", m.Frequency.Hertzes(), 10, 120, "Hz"),
			ElectricLoad{m.Rating, m.Voltage, m.Efficiency, m.PowerFactor}.check(fn))),
		units.AtField("motorAltitude", serr),
	}
	if d.Converter != 0 {
		faults = append(faults, fraction(fn, "converter", d.Converter))
	}
	if d.Cable != nil {
		faults = append(faults, units.AtField("cable", d.Cable.Validate()))
		c := *d.Cable
		d.Cable = &c
	}
	if d.Generator != nil {
		faults = append(faults, units.AtField("generator", d.Generator.Validate()))
		g := *d.Generator
		d.Generator = &g
	}
	d.OtherLoads = append([]GeneratorLoad(nil), d.OtherLoads...)
	if err := errors.Join(faults...); err != nil {
		return ElectricDrive{}, err
	}
	return ElectricDrive{d: d, pump: p, share: share, notices: notices}, nil
}

// ElectricDuty is an electric drive at work.
type ElectricDuty struct {
	Pump            PumpDuty                `json:"pump"`
	Frequency       units.Frequency         `json:"frequency"`      // at the motor
	MotorAvailable  units.Power             `json:"motorAvailable"` // rating after derating
	MotorLoad       float64                 `json:"motorLoad"`      // shaft power over MotorAvailable
	Input           units.Power             `json:"input"`          // electric, converter included
	MotorCurrent    units.Current           `json:"motorCurrent"`
	SupplyCurrent   units.Current           `json:"supplyCurrent"` // into the converter
	CableDrop       units.ElectricPotential `json:"cableDrop,omitzero"`
	CableDropShare  float64                 `json:"cableDropShare,omitzero"`
	Generator       GeneratorDuty           `json:"generator,omitzero"`
	EnergyPerVolume float64                 `json:"energyPerVolume"` // kWh per m3 of water; zero without flow
	Notices         []units.Notice          `json:"notices,omitempty"`
}

// ForFlow works the chain backward from the flow: speed, frequency, shaft
// power, electric power, currents, voltage drop and the generator's load.
//
// Errors: those of Pump.ForFlow; ErrNoSolution when the drive has no converter
// and the flow asks for another speed than the motor's.
// Source: definitions of the efficiencies; the parts name theirs.
func (e ElectricDrive) ForFlow(sys System, q units.Flow) (ElectricDuty, error) {
	p, err := e.pump.ForFlow(sys, q, e.d.WaterDensity)
	if r := p.SpeedRatio; !isRefused(err) && e.d.Converter == 0 && !(r > 0.999 && r < 1.001) {
		return ElectricDuty{Pump: p, Notices: p.Notices}, &units.InputError{Func: "pumpsizing.ElectricDrive.ForFlow", Field: "q", Value: q.In(units.CubicMetresPerHour), Unit: "m3/h",
			Reason: "this flow needs " + num(p.Speed.In(units.RevolutionsPerMinute)) + " r/min, but without a converter the motor turns the pump at " +
				num(e.pump.RatedSpeed().In(units.RevolutionsPerMinute)) + " r/min", Kind: units.ErrNoSolution}
	}
	return e.complete(p, err)
}

// AtFrequency works the chain from a frequency of the converter, or of the
// supply when there is none.
//
// Errors: those of Pump.Operate; ErrDomain for a frequency outside 1 to 120 Hz.
func (e ElectricDrive) AtFrequency(sys System, f units.Frequency) (ElectricDuty, error) {
	if err := units.Within("pumpsizing.ElectricDrive.AtFrequency", "f", f.Hertzes(), 1, 120, "Hz"); err != nil {
		return ElectricDuty{}, err
	}
	n := e.pump.RatedSpeed() * units.RotationalSpeed(f.Hertzes()/e.d.Motor.Frequency.Hertzes())
	p, err := e.pump.Operate(sys, n, e.d.WaterDensity)
	return e.complete(p, err)
}

func (e *ElectricDrive) complete(p PumpDuty, err error) (ElectricDuty, error) {
	m := &e.d.Motor
	out := ElectricDuty{Pump: p}
	if isRefused(err) {
		out.Notices, out.Pump.Notices = p.Notices, nil
		return out, err
	}
	converter := e.d.Converter
	if converter == 0 {
		converter = 1
	}
	out.Frequency = m.Frequency * units.Frequency(p.SpeedRatio)
	out.MotorAvailable = m.Rating * units.Power(e.share)
	out.MotorLoad = p.ShaftPower.Watts() / out.MotorAvailable.Watts()
	load := ElectricLoad{p.ShaftPower, m.Voltage, m.Efficiency, m.PowerFactor}
	// The data were checked by NewElectricDrive.
	in, _ := load.Input()
	out.MotorCurrent, _ = load.Current()
	out.Input = in / units.Power(converter)
	out.SupplyCurrent = out.MotorCurrent / units.Current(converter)
	if e.d.Cable != nil {
		i := out.SupplyCurrent
		if e.d.CableToMotor {
			i = out.MotorCurrent
		}
		out.CableDrop, _ = e.d.Cable.ThreePhaseDrop(i, m.PowerFactor)
		out.CableDropShare = out.CableDrop.Volts() / m.Voltage.Volts()
	}
	if e.d.Generator != nil {
		e.generator(&out, load, converter)
	}
	if q := p.Flow.CubicMetresPerSecond(); q > 0 {
		out.EnergyPerVolume = finite(out.Input.Watts() / q / 3.6e6)
	}
	e.judge(&out)
	return out, err
}

// generator puts the motor on the set beside its other loads.
func (e *ElectricDrive) generator(out *ElectricDuty, load ElectricLoad, converter float64) {
	how := e.d.Motor.Starting
	if e.d.Converter != 0 {
		how = VariableSpeed
	}
	va, _ := load.Apparent()
	va /= units.ApparentPower(converter)
	mine := GeneratorLoad{Name: "fish pump", Active: out.Input, Running: va, Start: va * units.ApparentPower(how.Factor())}
	duty, err := e.d.Generator.Carry(append([]GeneratorLoad{mine}, e.d.OtherLoads...)...)
	if err != nil {
		return
	}
	out.Generator = duty
	share := e.d.Generator.Share
	if share == 0 {
		share = 1
	}
	if set := e.d.Generator.Apparent.In(units.KilovoltAmperes) * share; e.d.Converter != 0 && set < converterMargin*va.In(units.KilovoltAmperes) {
		out.Generator.Notices = note(out.Generator.Notices, CodeGeneratorLoad, units.Caution, "generator", set, converterMargin*va.In(units.KilovoltAmperes), "kVA",
			"a frequency converter distorts the voltage of a small set: take 1.3 to 2 times its apparent power", commonPractice)
	}
}

func (e *ElectricDrive) judge(out *ElectricDuty) {
	m := &e.d.Motor
	list := append([]units.Notice(nil), out.Pump.Notices...)
	kw := out.Pump.ShaftPower.In(units.Kilowatts)
	if out.MotorLoad > 1 {
		list = note(list, CodeMotorOverload, units.Danger, "motor", kw, out.MotorAvailable.In(units.Kilowatts), "kW",
			"the motor is overloaded (rating after derating for altitude)", "IEC 60034-1: rated to 1000 m and 40 C; 1 % per 100 m above is common practice")
	}
	if out.Pump.SpeedRatio > overspeedLimit {
		list = note(list, CodeOverspeed, units.Warning, "frequency", out.Frequency.Hertzes(), overspeedLimit*m.Frequency.Hertzes(), "Hz",
			"above the rated frequency the pump's power rises with the cube of the speed while the motor's stays", commonPractice)
	}
	if out.CableDropShare > voltageLimit {
		list = note(list, CodeVoltageDrop, units.Warning, "cable", out.CableDrop.Volts(), voltageLimit*m.Voltage.Volts(), "V",
			"more than 5 % of the voltage is lost in the cable: thicker cores or a shorter run", "IEC 60364-5-52:2009 table G.52.1, public supply")
	}
	if v := m.Voltage.Volts(); v >= 220 && v <= 240 {
		list = note(list, CodeAssumed, units.Caution, "motor.voltage", v, 0, "V",
			num(v)+" V is read as the voltage between lines; if it is line to neutral of a 400 V supply, the current here is too high by the square root of three", commonPractice)
	}
	list = append(list, out.Generator.Notices...)
	list = append(list, e.pump.curve.notices...)
	list = append(list, e.notices...)
	out.Notices = append(list, ElectricCautions(), ScopeNotice())
	out.Pump.Notices, out.Generator.Notices = nil, nil
}
