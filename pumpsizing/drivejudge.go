package pumpsizing

import (
	"pondwright.example/units"
)

// plausiblePTO bounds the PTO speed of real work as a ratio to standard.
const slowPTO, fastPTO = 0.5, 1.1

// judge completes a duty with what the tractor, the relief valve and the
// reservoir say of it.
func (h *HydraulicDrive) judge(out *DriveDuty) {
	d := &h.d
	out.Feasible = out.PumpPressure.Pascals() < d.Relief.Set.PascalsGauge()
	out.Notices = d.Relief.notices(out.Notices, out.PumpPressure.Pascals())
	if d.Tractor != nil {
		h.load(out)
	}
	if d.Reservoir == nil {
		return
	}
	// The data were checked by NewHydraulicDrive; heats are not negative.
	out.OilHeating, _ = d.Reservoir.Under(out.HeatToOil)
	out.Stall, _ = d.Reservoir.Under(units.Power(d.Relief.Set.PascalsGauge() * out.OilFlow.CubicMetresPerSecond()))
	for _, n := range out.OilHeating.Notices {
		n.Field = "oilHeating"
		out.Notices = append(out.Notices, n)
	}
	if out.Stall.ReachesLimit {
		out.Notices = note(out.Notices, CodeOilTemperature, units.Danger, "stall", out.Stall.TimeToLimit.Minutes(), 0, "min",
			"with the impeller jammed the oil reaches its limit in "+num(out.Stall.TimeToLimit.Minutes())+" min: stop the power take-off, do not wait", "energy balance")
	}
	out.OilHeating.Notices, out.Stall.Notices = nil, nil
	litres := d.Reservoir.Oil.Kilograms() / d.Oil.Density.KilogramsPerCubicMetre() * 1000
	if perMinute := out.OilFlow.In(units.LitresPerMinute); litres < perMinute {
		out.Notices = note(out.Notices, CodeReservoirSmall, units.Caution, "reservoir.oil", litres, perMinute, "L",
			"less oil than the pump moves in a minute: it foams and heats; three times is the usual guidance", "NFPA T3.16.2 guidance as quoted in trade texts; mobile sets go down to one times")
	}
}

// load says how hard the duty works the tractor.
func (h *HydraulicDrive) load(out *DriveDuty) {
	t, l := &h.tractor, &out.Tractor
	shaft := h.d.Tractor.shaft()
	l.LoadRatio = out.PTOPower.Watts() / t.Rated.Watts()
	l.SpeedRatio = 1
	if out.PTOSpeed > 0 {
		l.SpeedRatio = out.PTOSpeed.RadiansPerSecond() / shaft.Speed.RadiansPerSecond()
		l.TorqueShare = out.PTOTorque.NewtonMetres() / t.TorqueLimit.NewtonMetres()
		l.EngineSpeed = out.PTOSpeed * units.RotationalSpeed(t.EngineRatio)
	}
	l.AvailableAt = t.Available * units.Power(min(1, l.SpeedRatio))
	l.LoadAtSpeed = out.PTOPower.Watts() / l.AvailableAt.Watts()
	out.Feasible = out.Feasible && l.LoadAtSpeed <= 1

	var slow, full error
	l.Fuel, slow = TractorFuel(l.LoadRatio, l.SpeedRatio, t.Rated)
	l.FuelFullThrottle, full = TractorFuel(l.LoadRatio, 1, t.Rated)
	if eff, err := FuelEfficiency(out.Pump.WaterPower, l.Fuel, DieselHeatPerLitre); err == nil {
		l.FuelToWater = eff
	}
	kw, rpm := out.PTOPower.In(units.Kilowatts), out.PTOSpeed.In(units.RevolutionsPerMinute)
	if slow != nil || full != nil {
		out.Notices = note(out.Notices, CodeFuelRange, units.Info, "tractor.fuel", l.LoadRatio, 0.2, "",
			"load or engine speed outside the range of the fuel equation, 0.2 to 1 of rated power and 0.6 to 1 of rated speed", "ASABE D497.7 (from memory)")
	}
	if l.LoadAtSpeed > 1 {
		out.Notices = note(out.Notices, CodePTOOverload, units.Danger, "ptoPower", kw, l.AvailableAt.In(units.Kilowatts), "kW",
			"more than the tractor has at this speed in this air: the engine stalls", isoDerate)
	} else if steady := t.Steady.Watts() / t.Available.Watts(); l.LoadAtSpeed > steady {
		out.Notices = note(out.Notices, CodePTOOverload, units.Warning, "ptoPower", kw, steady*l.AvailableAt.In(units.Kilowatts), "kW",
			"more than "+percent(steady)+" of what the tractor has at this speed, too much for hours of work", steadySource)
	}
	if l.TorqueShare > 1 {
		out.Notices = note(out.Notices, CodePTOTorque, units.Danger, "ptoTorque", out.PTOTorque.NewtonMetres(), t.TorqueLimit.NewtonMetres(), "N m",
			"more torque than the shaft of "+shaft.Name+" carries", "ISO 500-1:2014 (limits from memory)")
	}
	if out.PTOSpeed > 0 && !(l.SpeedRatio >= slowPTO && l.SpeedRatio <= fastPTO) {
		out.Notices = note(out.Notices, CodePTOSpeed, units.Warning, "ptoSpeed", rpm, shaft.Speed.In(units.RevolutionsPerMinute), "r/min",
			"power take-off speed outside half to 1.1 times standard: check displacements, gear and units", commonPractice)
	}
}

// gather moves the notices of the parts into one list.
func (h *HydraulicDrive) gather(out *DriveDuty) {
	all := append([]units.Notice(nil), out.Pump.Notices...)
	all = append(all, out.Line.Notices...)
	all = append(all, out.Notices...)
	out.Notices = append(all, h.notices...)
	out.Pump.Notices, out.Line.Notices = nil, nil
}
