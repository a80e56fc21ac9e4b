package pumpsizing

import (
	"errors"

	"pondwright.example/units"
)

// Tractor is what drives the oil pump.
type Tractor struct {
	Power       units.Power            `json:"power"` // as found; Basis says of what
	Basis       PowerBasis             `json:"basis"`
	PTOShare    float64                `json:"ptoShare,omitzero"` // of engine power; zero: 0.86
	Shaft       PTOShaft               `json:"shaft,omitzero"`    // zero: type 1, 540 r/min
	EngineSpeed units.RotationalSpeed  `json:"engineSpeed"`       // at which the PTO turns at its standard speed
	Aspiration  Aspiration             `json:"aspiration"`
	AirPressure units.AbsolutePressure `json:"airPressure,omitzero"` // zero: standard at sea level; see AtmosphericPressure
	AirTemp     units.Temperature      `json:"airTemp"`
	SteadyShare float64                `json:"steadyShare,omitzero"` // of maximum power for work of hours; zero: 0.80
}

// steadyShare is the share of maximum power for continuous stationary work of
// a water-cooled engine.
const (
	steadyShare  = 0.80
	steadySource = "Purdue University AE-111: 80 % of maximum for continuous work of water-cooled engines"
	ptoSource    = "86 % rule, common practice; tests show 80 to 92 %"
	isoDerate    = "ISO 3046-1 (from memory)"
)

// TractorPTO is what a tractor has at its power take-off.
type TractorPTO struct {
	Rated       units.Power    `json:"rated"`       // at standard speed, before derating
	IfPTO       units.Power    `json:"ifPTO"`       // Rated if the figure is PTO power
	IfEngine    units.Power    `json:"ifEngine"`    // Rated if the figure is engine power
	Derate      EngineDerate   `json:"derate"`      // for air pressure and temperature
	Available   units.Power    `json:"available"`   // derated, at standard speed
	Steady      units.Power    `json:"steady"`      // for hours
	EngineRatio float64        `json:"engineRatio"` // engine over PTO speed
	TorqueLimit units.Torque   `json:"torqueLimit"` // of the shaft type
	Notices     []units.Notice `json:"notices,omitempty"`
}

// Validate reports every problem of the data.
func (t Tractor) Validate() error {
	_, err := t.PTO()
	return err
}

func (t Tractor) shaft() PTOShaft {
	if t.Shaft.Speed == 0 && t.Shaft.Limit == 0 {
		return PTOShafts()[0]
	}
	return t.Shaft
}

func (t Tractor) check(fn string) error {
	var faults []error
	faults = append(faults, units.Positive(fn, "power", t.Power.In(units.Kilowatts), "kW"),
		units.Positive(fn, "engineSpeed", t.EngineSpeed.In(units.RevolutionsPerMinute), "r/min"),
		units.Within(fn, "airTemp", t.AirTemp.Celsius(), -40, 60, "°C"))
	if t.AirPressure != 0 { // to some 7000 m
		faults = append(faults, units.Within(fn, "airPressure", t.AirPressure.In(units.KilopascalsAbsolute), 40, 115, "kPa"))
	}
	if t.PTOShare != 0 {
		faults = append(faults, fraction(fn, "ptoShare", t.PTOShare))
	}
	if t.SteadyShare != 0 {
		faults = append(faults, fraction(fn, "steadyShare", t.SteadyShare))
	}
	if t.Basis > PTOPower {
		faults = append(faults, &units.InputError{Func: fn, Field: "basis", Value: float64(t.Basis), Reason: "not stated, engine power or PTO power"})
	}
	if t.Shaft != (PTOShaft{}) {
		_, err := t.Shaft.TorqueLimit()
		faults = append(faults, units.AtField("shaft", err))
	}
	return errors.Join(faults...)
}

// PTO returns what the tractor has at its power take-off in the air it stands
// in. A power figure without a basis is read both ways, and the lower one is
// used. An engine speed that looks like a PTO speed is told, not changed.
//
// Errors: ErrDomain for data that cannot be; ErrRange for air outside the
// derating formula, with the result.
// Source: 86 % rule; ISO 3046-1 (from memory); see DerateISO3046.
func (t Tractor) PTO() (TractorPTO, error) {
	const fn = "pumpsizing.Tractor"
	if err := t.check(fn); err != nil {
		return TractorPTO{}, err
	}
	share, steady, shaft := t.PTOShare, t.SteadyShare, t.shaft()
	if share == 0 {
		share = usualPTOShare
	}
	if steady == 0 {
		steady = steadyShare
	}
	out := TractorPTO{IfPTO: t.Power, IfEngine: t.Power * units.Power(share)}
	kw := t.Power.In(units.Kilowatts)
	switch t.Basis {
	case PTOPower:
		out.Rated = out.IfPTO
	case EnginePower:
		out.Rated = out.IfEngine
		out.Notices = note(out.Notices, CodePTOFromEngine, units.Info, "tractor.power", kw, out.Rated.In(units.Kilowatts), "kW",
			"power at the PTO taken as "+percent(share)+" of engine power; a test report is better", ptoSource)
	default:
		out.Rated = out.IfEngine
		out.Notices = note(out.Notices, CodeEnginePower, units.Warning, "tractor.power", kw, out.IfEngine.In(units.Kilowatts), "kW",
			"is this engine power or PTO power? "+num(kw)+" kW at the PTO if it was measured there, "+num(out.IfEngine.In(units.Kilowatts))+
				" kW if it is on the plate; the lower one is used until the basis is stated", ptoSource)
	}
	var err error
	p := t.AirPressure
	if p == 0 {
		p = units.AbsolutePressure(standardPressure)
		out.Notices = assumed(out.Notices, "tractor.airPressure", standardPressure/1e3, "kPa", "air pressure not stated: sea level was assumed", "standard atmosphere")
	}
	if t.Shaft == (PTOShaft{}) {
		out.Notices = assumed(out.Notices, "tractor.shaft", shaft.Speed.In(units.RevolutionsPerMinute), "r/min", "power take-off not stated: "+shaft.Name+" at 540 r/min was assumed", "ISO 500-1:2014")
	}
	out.Derate, err = DerateISO3046(p, t.AirTemp, t.Aspiration)
	keep := min(1, out.Derate.Brake)
	out.Available = out.Rated * units.Power(keep)
	out.Steady = out.Available * units.Power(steady)
	out.EngineRatio = t.EngineSpeed.RadiansPerSecond() / shaft.Speed.RadiansPerSecond()
	out.TorqueLimit = units.Torque(shaft.Limit.Watts() / shaft.Speed.RadiansPerSecond())
	out.judge(t, shaft)
	return out, err
}

func (o *TractorPTO) judge(t Tractor, shaft PTOShaft) {
	rpm := t.EngineSpeed.In(units.RevolutionsPerMinute)
	if rpm <= 1300 {
		o.Notices = note(o.Notices, CodePTOSpeed, units.Warning, "tractor.engineSpeed", rpm, 1300, "r/min",
			num(rpm)+" r/min is a PTO speed, not an engine's: which was meant? An engine turns about 1600 to 2300 r/min at rated PTO speed, so at "+
				num(rpm)+" r/min of the engine the PTO would turn only "+num(rpm*shaft.Speed.In(units.RevolutionsPerMinute)/2000)+" r/min", commonPractice)
	}
	if o.Rated > shaft.Limit {
		o.Notices = note(o.Notices, CodePTOTorque, units.Caution, "tractor.shaft", o.Rated.In(units.Kilowatts), shaft.Limit.In(units.Kilowatts), "kW",
			"the tractor has more power than a shaft of "+shaft.Name+" carries", "ISO 500-1:2014 (limits from memory)")
	}
}
