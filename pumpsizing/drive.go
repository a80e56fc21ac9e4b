package pumpsizing

import (
	"errors"

	"pondwright.example/units"
)

// HydraulicDriveData describes a fish pump driven by oil: power take-off, oil
// pump, hoses, oil motor, impeller.
type HydraulicDriveData struct {
	Pump         PumpData       `json:"pump"`
	WaterDensity units.Density  `json:"waterDensity"`
	Motor        HydraulicMotor `json:"motor"`
	Oil          OilState       `json:"oil"`                    // at running temperature
	Line         OilLine        `json:"line"`                   // pressure and return hose together
	Valves       units.Pressure `json:"valves,omitzero"`        // valves and couplers at this flow
	Return       units.Pressure `json:"return,omitzero"`        // filter, cooler and tank
	OilPump      OilPump        `json:"oilPump"`                // driven by the PTO
	StepUp       float64        `json:"stepUp,omitzero"`        // oil pump speed over PTO speed; zero when not known
	Relief       Relief         `json:"relief"`                 //
	MotorModel   *Wilson        `json:"motorModel,omitempty"`   // efficiencies that follow the duty; nil: those of Motor
	OilPumpModel *Wilson        `json:"oilPumpModel,omitempty"` // likewise; needs the displacement
	Tractor      *Tractor       `json:"tractor,omitempty"`      // nil: no load ratio, fuel or torque follow
	Reservoir    *Reservoir     `json:"reservoir,omitempty"`
}

// HydraulicDrive is a checked drive, built by NewHydraulicDrive; an immutable
// value.
type HydraulicDrive struct {
	d       HydraulicDriveData
	pump    Pump
	tractor TractorPTO
	notices []units.Notice // known before any duty
}

// Validate reports every problem of the data with the path of its field.
func (d HydraulicDriveData) Validate() error {
	_, err := NewHydraulicDrive(d)
	return err
}

// NewHydraulicDrive checks the data of a drive and builds it.
//
// Errors: every *units.InputError of the parts, joined, with the path of its
// field.
func NewHydraulicDrive(d HydraulicDriveData) (HydraulicDrive, error) {
	const fn = "pumpsizing.NewHydraulicDrive"
	p, perr := NewPump(d.Pump)
	faults := []error{
		units.AtField("pump", perr),
		units.Positive(fn, "waterDensity", d.WaterDensity.KilogramsPerCubicMetre(), "kg/m3"),
		units.AtField("motor", d.Motor.Validate()),
		units.AtField("oil", d.Oil.check(fn)),
		units.AtField("line", d.Line.Validate()),
		units.NonNegative(fn, "valves", d.Valves.In(units.Bars), "bar"),
		units.NonNegative(fn, "return", d.Return.In(units.Bars), "bar"),
		units.AtField("oilPump", d.OilPump.Validate()),
		units.NonNegative(fn, "stepUp", d.StepUp, ""),
		units.AtField("relief", d.Relief.Validate()),
	}
	faults = append(faults, d.models(fn)...)
	out := HydraulicDrive{d: d, pump: p}
	if d.Tractor != nil {
		var err error
		out.tractor, err = d.Tractor.PTO()
		if isRefused(err) {
			faults = append(faults, units.AtField("tractor", err))
		} else if err != nil {
			out.notices = note(out.notices, CodeFuelRange, units.Caution, "tractor.airPressure", d.Tractor.AirPressure.In(units.KilopascalsAbsolute), 0, "kPa",
				"air outside the range of the derating formula", isoDerate)
		}
		t := *d.Tractor // the caller's may change
		out.d.Tractor = &t
	}
	if d.Reservoir != nil {
		faults = append(faults, units.AtField("reservoir", d.Reservoir.Validate()))
		r := *d.Reservoir
		out.d.Reservoir = &r
	}
	if err := errors.Join(faults...); err != nil {
		return HydraulicDrive{}, err
	}
	for _, x := range []struct {
		field string
		d     units.Displacement
	}{{"motor.displacement", d.Motor.Displacement}, {"oilPump.displacement", d.OilPump.Displacement}} {
		if n, odd := PlausibleDisplacement(x.field, x.d); odd && x.d != 0 {
			out.notices = append(out.notices, n)
		}
	}
	if r := d.Reservoir; r != nil && r.SpecificHeat == 0 {
		out.notices = assumed(out.notices, "reservoir.specificHeat", usualOilHeat, "J/(kg K)", "specific heat of the oil not stated: that of mineral oil at 40 C was assumed", "from memory")
	}
	if d.Relief.Margin == 0 {
		out.notices = assumed(out.notices, "relief.margin", reliefMargin, "", "relief margin not stated: 15 % of the setting is kept free", commonPractice)
	}
	out.notices = append(out.notices, p.curve.notices...)
	out.notices = append(out.notices, out.tractor.Notices...)
	out.notices = append(out.notices, PTOCautions(), OilCautions(), ScopeNotice())
	return out, nil
}

// Pump returns the fish pump of the drive.
func (h HydraulicDrive) Pump() Pump { return h.pump }

// TractorPTO returns what the tractor has, zero when none was given.
func (h HydraulicDrive) TractorPTO() TractorPTO { return h.tractor }

// DriveLosses is where the power of the PTO goes that does not reach the water.
type DriveLosses struct {
	Impeller units.Power `json:"impeller"` // in the fish pump, to the water
	Motor    units.Power `json:"motor"`
	Line     units.Power `json:"line"`
	Valves   units.Power `json:"valves"` // valves, couplers, return
	OilPump  units.Power `json:"oilPump"`
}

// DriveDuty is a drive at work, with every intermediate of the chain. Tractor is
// zero where the data hold no tractor, OilHeating and Stall where they hold no
// reservoir: a zero Plateau there is no temperature and a zero time no warning.
type DriveDuty struct {
	Pump              PumpDuty              `json:"pump"`
	MotorPressure     units.Pressure        `json:"motorPressure"`   // across the oil motor
	MotorEfficiency   float64               `json:"motorEfficiency"` // overall, at this duty
	OilFlow           units.Flow            `json:"oilFlow"`
	Line              OilLineLoss           `json:"line"`
	PumpPressure      units.Pressure        `json:"pumpPressure"`           // across the oil pump
	OilPumpEfficiency float64               `json:"oilPumpEfficiency"`      // overall, at this duty
	OilPumpSpeed      units.RotationalSpeed `json:"oilPumpSpeed,omitzero"`  // zero when the displacement is not known
	OilPumpTorque     units.Torque          `json:"oilPumpTorque,omitzero"` // likewise
	PTOPower          units.Power           `json:"ptoPower"`
	PTOSpeed          units.RotationalSpeed `json:"ptoSpeed,omitzero"`  // zero when the step-up is not known
	PTOTorque         units.Torque          `json:"ptoTorque,omitzero"` // likewise
	Losses            DriveLosses           `json:"losses"`
	HeatToOil         units.Power           `json:"heatToOil"`  // motor, line, valves and oil pump
	ReliefFree        float64               `json:"reliefFree"` // share of the relief setting left
	Tractor           TractorLoad           `json:"tractor,omitzero"`
	OilHeating        OilHeating            `json:"oilHeating,omitzero"` // running, from the reservoir's start
	Stall             OilHeating            `json:"stall,omitzero"`      // impeller jammed, all oil over the relief
	Feasible          bool                  `json:"feasible"`            // relief closed and PTO not overloaded
	Notices           []units.Notice        `json:"notices,omitempty"`   // of the whole chain
}

// TractorLoad is how hard a duty works the tractor.
type TractorLoad struct {
	LoadRatio        float64               `json:"loadRatio"`        // PTO power over rated PTO power
	SpeedRatio       float64               `json:"speedRatio"`       // PTO speed over standard; 1 when not known
	AvailableAt      units.Power           `json:"availableAt"`      // derated power at this speed, at constant torque
	LoadAtSpeed      float64               `json:"loadAtSpeed"`      // PTO power over AvailableAt: the one that stalls engines
	TorqueShare      float64               `json:"torqueShare"`      // of the shaft type's limit; zero when not known
	EngineSpeed      units.RotationalSpeed `json:"engineSpeed"`      // zero when not known
	Fuel             units.Flow            `json:"fuel"`             // at this engine speed
	FuelFullThrottle units.Flow            `json:"fuelFullThrottle"` // same load at rated engine speed
	FuelToWater      float64               `json:"fuelToWater"`      // water power over the heat of Fuel
}

// ForFlow works the chain backward from the duty: the speed for flow q on the
// system, the shaft power, the oil pressure and flow, and the power, speed and
// fuel at the tractor.
//
// Errors: those of Pump.ForFlow.
// Source: definitions of the efficiencies; the parts name theirs.
func (h HydraulicDrive) ForFlow(sys System, q units.Flow) (DriveDuty, error) {
	p, err := h.pump.ForFlow(sys, q, h.d.WaterDensity)
	return h.complete(p, err)
}

// AtSpeed works the chain from a speed of the impeller.
//
// Errors: those of Pump.Operate.
func (h HydraulicDrive) AtSpeed(sys System, n units.RotationalSpeed) (DriveDuty, error) {
	p, err := h.pump.Operate(sys, n, h.d.WaterDensity)
	return h.complete(p, err)
}

// FromPTO works the chain forward from the speed of the power take-off: the oil
// it delivers turns the motor, the impeller meets the system, and the load
// comes back to the PTO.
//
// Errors: those of Pump.Operate; ErrDomain for a speed that is not positive, or
// a drive without the oil pump's displacement, efficiencies and step-up.
func (h HydraulicDrive) FromPTO(sys System, pto units.RotationalSpeed) (DriveDuty, error) {
	const fn = "pumpsizing.HydraulicDrive.FromPTO"
	err := errors.Join(units.Positive(fn, "pto", pto.In(units.RevolutionsPerMinute), "r/min"), units.Positive(fn, "stepUp", h.d.StepUp, ""))
	if err != nil {
		return DriveDuty{}, err
	}
	q, err := h.d.OilPump.Flow(pto * units.RotationalSpeed(h.d.StepUp))
	if err != nil {
		return DriveDuty{}, units.AtField("oilPump", err)
	}
	n, err := h.d.Motor.Speed(q)
	if err != nil {
		return DriveDuty{}, err
	}
	if h.d.MotorModel != nil || h.d.OilPumpModel != nil {
		n, err = h.coupled(sys, pto, n)
		if err != nil {
			return DriveDuty{}, err
		}
	}
	return h.AtSpeed(sys, n)
}

// complete follows a pump duty through the drive.
func (h *HydraulicDrive) complete(p PumpDuty, err error) (DriveDuty, error) {
	out := DriveDuty{Pump: p}
	if !isRefused(err) {
		cerr := h.chain(&out)
		err = errors.Join(err, cerr)
	}
	if !isRefused(err) {
		h.judge(&out)
	}
	h.gather(&out)
	return out, err
}

// chain computes oil and PTO from the pump duty.
func (h *HydraulicDrive) chain(out *DriveDuty) (err error) {
	d, p := &h.d, &out.Pump
	motor, err := h.motorAt(p.Torque, p.Speed)
	if err != nil {
		return err
	}
	out.MotorEfficiency = motor.Volumetric * motor.Hydromechanical
	if out.MotorPressure, err = motor.Pressure(p.Torque); err != nil {
		return err
	}
	if out.OilFlow, err = motor.Flow(p.Speed); err != nil {
		return err
	}
	if out.Line, err = d.Line.Loss(out.OilFlow, d.Oil); err != nil {
		return err
	}
	other := d.Valves + d.Return
	out.PumpPressure = out.MotorPressure + out.Line.Loss + other
	oil := out.OilFlow
	pump, err := h.oilPumpAt(oil, out.PumpPressure)
	if err != nil {
		return err
	}
	out.OilPumpEfficiency = pump.overall()
	if out.PTOPower, err = pump.Power(oil, out.PumpPressure); err != nil {
		return err
	}
	out.Losses = DriveLosses{
		Impeller: p.ShaftPower - p.WaterPower,
		Motor:    out.MotorPressure.Times(oil) - p.ShaftPower,
		Line:     out.Line.Loss.Times(oil),
		Valves:   other.Times(oil),
		OilPump:  out.PTOPower - out.PumpPressure.Times(oil),
	}
	out.HeatToOil = out.PTOPower - p.ShaftPower
	if err := soundAll("pumpsizing.HydraulicDrive", out.PTOPower.Watts(), out.Losses.Valves.Watts(), out.Losses.Line.Watts()); err != nil {
		return err
	}
	out.ReliefFree = 1 - out.PumpPressure.Pascals()/d.Relief.Set.PascalsGauge()
	if pump.Displacement > 0 && pump.Volumetric > 0 {
		if out.OilPumpSpeed, err = pump.Speed(oil); err != nil {
			return err
		}
		out.OilPumpTorque = out.PTOPower.Over(out.OilPumpSpeed)
		if d.StepUp > 0 {
			out.PTOSpeed = out.OilPumpSpeed / units.RotationalSpeed(d.StepUp)
			out.PTOTorque = out.PTOPower.Over(out.PTOSpeed)
		}
	}
	return nil
}
