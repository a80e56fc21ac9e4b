package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// DriveLimit is the most a drive can do on a system, and what binds it.
type DriveLimit struct {
	Duty    DriveDuty `json:"duty"`
	Binding string    `json:"binding"` // "relief margin", "PTO power", "PTO torque", "oil temperature", "curve end" or "double speed"
}

// Greatest finds the highest impeller speed at which every limit is kept: the
// relief margin, the tractor's steady power at that speed, the torque of its
// shaft, the oil's temperature limit on its plateau (when a reservoir is given
// and holdOil is true), the last data-sheet point, and double the rated speed;
// and names the limit that binds.
//
// Errors: ErrNoSolution when a limit is already passed as the flow begins, with
// the duty there.
// Source: bisection on the chain; every limit rises with speed.
func (h HydraulicDrive) Greatest(sys System, holdOil bool) (DriveLimit, error) {
	const fn = "pumpsizing.HydraulicDrive.Greatest"
	var op OperatingPoint
	if err := h.pump.curve.lift(fn, sys, &op); err != nil {
		return DriveLimit{}, err
	}
	lo := max(op.MinimumSpeed.RadiansPerSecond()*1.0001, 0.05*h.pump.curve.speed)
	hi := highSpeedRatio * h.pump.curve.speed
	binding := "double speed"
	for _, l := range h.limits(holdOil) {
		over := func(n float64) float64 { return h.excess(sys, n, l.excess) }
		if !(over(hi) > 0) {
			continue
		}
		if over(lo) > 0 {
			d, err := h.AtSpeed(sys, units.RotationalSpeed(lo))
			return DriveLimit{Duty: d, Binding: l.name}, errors.Join(err, &units.InputError{Func: fn, Field: l.name, Value: d.Pump.Flow.In(units.CubicMetresPerHour), Unit: "m3/h",
				Reason: "passed as soon as water flows: the drive is too small for this lift", Kind: units.ErrNoSolution})
		}
		n, err := root.Find(over, lo, hi, 1e-9*hi)
		if err != nil {
			return DriveLimit{Binding: l.name}, err
		}
		hi, binding = n, l.name
	}
	d, err := h.AtSpeed(sys, units.RotationalSpeed(hi))
	return DriveLimit{Duty: d, Binding: binding}, err
}

type limit struct {
	name   string
	excess func(*DriveDuty) float64 // above zero when passed
}

func (h *HydraulicDrive) limits(holdOil bool) []limit {
	d := &h.d
	keep := d.Relief.Margin
	if keep == 0 {
		keep = reliefMargin
	}
	list := []limit{
		{"relief margin", func(x *DriveDuty) float64 { return keep - x.ReliefFree }},
		{"curve end", func(x *DriveDuty) float64 {
			_, last := h.pump.curve.Range(x.Pump.Speed)
			return (x.Pump.Flow - last).CubicMetresPerSecond()
		}},
	}
	if d.Tractor != nil {
		steady := h.tractor.Steady.Watts() / h.tractor.Available.Watts()
		list = append(list,
			limit{"PTO power", func(x *DriveDuty) float64 { h.load(x); return x.Tractor.LoadAtSpeed - steady }},
			limit{"PTO torque", func(x *DriveDuty) float64 { h.load(x); return x.Tractor.TorqueShare - 1 }})
	}
	if d.Reservoir != nil && holdOil {
		list = append(list, limit{"oil temperature", func(x *DriveDuty) float64 {
			r := d.Reservoir
			return x.HeatToOil.Watts() - r.Loss.WattsPerKelvin()*(r.Limit.Kelvins()-r.Ambient.Kelvins())
		}})
	}
	return list
}

// excess evaluates a limit at impeller speed n. A speed at which the pump runs
// out of its curve counts as past every limit.
func (h *HydraulicDrive) excess(sys System, n float64, f func(*DriveDuty) float64) float64 {
	p, err := h.pump.Operate(sys, units.RotationalSpeed(n), h.d.WaterDensity)
	x := DriveDuty{Pump: p}
	if isRefused(err) || h.chain(&x) != nil {
		return math.MaxFloat64
	}
	return f(&x)
}
