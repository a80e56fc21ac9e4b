package pumpsizing

import (
	"errors"
	"math"
	"slices"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// Reading is what the operator sees while pumping.
type Reading struct {
	Speed        units.RotationalSpeed `json:"speed"`        // of the impeller
	Flow         units.Flow            `json:"flow"`         // at the table
	PumpPressure units.GaugePressure   `json:"pumpPressure"` // of the oil, at the pump
}

// Explanation is one cause that would give the reading, with how much of it
// there must be and how well the oil pressure then agrees.
type Explanation struct {
	Cause     string         `json:"cause"`
	Amount    float64        `json:"amount"` // of the cause, in Unit
	Unit      string         `json:"unit,omitzero"`
	Pressure  units.Pressure `json:"pressure"` // the oil pressure this cause would show
	Misfit    float64        `json:"misfit"`   // measured less that pressure, as a share of it
	LookFirst string         `json:"lookFirst"`
}

// Findings is a reading against the plan.
type Findings struct {
	Expected     DriveDuty     `json:"expected"`     // at the speed read
	FlowRatio    float64       `json:"flowRatio"`    // measured over expected
	PressureGap  float64       `json:"pressureGap"`  // measured less expected, as a share of expected
	Agrees       bool          `json:"agrees"`       // both within 5 %
	Explanations []Explanation `json:"explanations"` // best fit first
}

// agreement is the share within which a reading agrees with the plan: gauges
// and flow estimates are not better (common practice).
const agreement = 0.05

// Explain holds a reading against the plan and ranks what would explain it.
// Each cause is given the amount that brings the model to the flow that was
// measured, and is judged by the oil pressure it then predicts:
//
//   - more resistance: a blocked screen, a kinked hose, a valve;
//   - a higher lift: the basin is lower or the platform higher than planned;
//   - a worn impeller: less head for the same power;
//   - air in the pump, or a choked eye: less head and less power alike;
//   - a braked impeller: the planned flow and more torque, by debris or a
//     bearing;
//   - a loss in the oil: the planned flow and more pressure, by cold oil, a
//     coupler half open or a full filter.
//
// The first three show the same oil pressure, since the pump takes the same
// power at the same flow: a gauge cannot tell them apart, looking can. A cause
// that cannot give the reading is left out. It is a ranking of what to look at,
// not a finding.
//
// Errors: ErrDomain for a reading that is not positive; those of AtSpeed.
// Source: the drive's own model; the list of causes is common practice.
func (h HydraulicDrive) Explain(sys System, r Reading) (Findings, error) {
	const fn = "pumpsizing.HydraulicDrive.Explain"
	err := errors.Join(units.Positive(fn, "speed", r.Speed.In(units.RevolutionsPerMinute), "r/min"),
		units.Positive(fn, "flow", r.Flow.In(units.CubicMetresPerHour), "m3/h"),
		units.Positive(fn, "pumpPressure", r.PumpPressure.PascalsGauge()/1e5, "bar"))
	if err != nil {
		return Findings{}, err
	}
	plan, err := h.AtSpeed(sys, r.Speed)
	if isRefused(err) {
		return Findings{Expected: plan}, err
	}
	p := r.PumpPressure.PascalsGauge()
	out := Findings{Expected: plan, FlowRatio: float64(r.Flow / plan.Pump.Flow), PressureGap: p/plan.PumpPressure.Pascals() - 1}
	out.Agrees = math.Abs(out.FlowRatio-1) <= agreement && math.Abs(out.PressureGap) <= agreement
	for _, try := range []func(System, Reading, *DriveDuty) (Explanation, bool){h.moreResistance, h.higherLift, h.wornImpeller, h.airInPump, h.brakedImpeller, h.oilLoss} {
		if e, ok := try(sys, r, &plan); ok {
			e.Misfit = p/e.Pressure.Pascals() - 1
			out.Explanations = append(out.Explanations, e)
		}
	}
	slices.SortStableFunc(out.Explanations, func(a, b Explanation) int {
		switch x, y := math.Abs(a.Misfit), math.Abs(b.Misfit); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return out, nil
}

// spare is the head the pump has over the system at the measured flow.
func (h *HydraulicDrive) spare(sys System, r Reading) units.Length {
	return h.pump.curve.Head(r.Flow, r.Speed) - sys.Head(r.Flow)
}

func (h *HydraulicDrive) moreResistance(sys System, r Reading, _ *DriveDuty) (Explanation, bool) {
	head := h.spare(sys, r)
	q := r.Flow.CubicMetresPerSecond()
	if !(head > 0) {
		return Explanation{}, false
	}
	k := head.Metres() / (q * q)
	d, err := h.AtSpeed(SystemFunc(func(f units.Flow) units.Length {
		v := f.CubicMetresPerSecond()
		return sys.Head(f) + units.Length(k*v*v)
	}), r.Speed)
	return Explanation{Cause: "more resistance in screen, hose or valves", Amount: head.Metres(), Unit: "m", Pressure: d.PumpPressure,
		LookFirst: "the screen in front of the suction, then kinks in the hose"}, !isRefused(err)
}

func (h *HydraulicDrive) higherLift(sys System, r Reading, _ *DriveDuty) (Explanation, bool) {
	up := h.spare(sys, r)
	d, err := h.AtSpeed(Raised{sys, up}, r.Speed)
	return Explanation{Cause: "another lift than planned", Amount: up.Metres(), Unit: "m", Pressure: d.PumpPressure,
		LookFirst: "the water level in the basin and the height of the table"}, !isRefused(err)
}

// atFullHead is the drive with the pump on its own curve at the measured flow,
// and the share of that head the system leaves to it.
func (h *HydraulicDrive) atFullHead(sys System, r Reading) (d DriveDuty, share float64, ok bool) {
	full := h.pump.curve.Head(r.Flow, r.Speed)
	share = float64(sys.Head(r.Flow) / full)
	if !(share > 0.3 && share < 1) {
		return d, share, false
	}
	d, err := h.AtSpeed(SystemFunc(func(units.Flow) units.Length { return full }), r.Speed)
	return d, share, !isRefused(err)
}

func (h *HydraulicDrive) wornImpeller(sys System, r Reading, _ *DriveDuty) (Explanation, bool) {
	d, share, ok := h.atFullHead(sys, r)
	return Explanation{Cause: "a worn impeller that gives less head", Amount: 1 - share, Unit: "of its head", Pressure: d.PumpPressure,
		LookFirst: "the gap between impeller and casing, engine off and shaft locked"}, ok
}

func (h *HydraulicDrive) airInPump(sys System, r Reading, _ *DriveDuty) (Explanation, bool) {
	d, share, ok := h.atFullHead(sys, r)
	d.Pump.Torque *= units.Torque(share)
	d.Pump.ShaftPower *= units.Power(share)
	ok = ok && h.chain(&d) == nil
	return Explanation{Cause: "air in the pump or a choked eye", Amount: 1 - share, Unit: "of its head", Pressure: d.PumpPressure,
		LookFirst: "air drawn at the suction (a whirl in the basin, a loose clamp), then the eye of the impeller"}, ok
}

// brakedImpeller adds torque to the shaft; it explains only a flow that agrees.
func (h *HydraulicDrive) brakedImpeller(_ System, r Reading, plan *DriveDuty) (Explanation, bool) {
	extra := r.PumpPressure.PascalsGauge() - plan.PumpPressure.Pascals()
	if !(extra > 0) || math.Abs(float64(r.Flow/plan.Pump.Flow)-1) > agreement {
		return Explanation{}, false
	}
	m := h.d.Motor
	want := plan.Pump.Torque
	t, err := root.Find(func(x float64) float64 {
		motor, err := h.motorAt(units.Torque(x), plan.Pump.Speed)
		p, perr := motor.Pressure(units.Torque(x))
		if err != nil || perr != nil {
			return math.NaN()
		}
		return (p - plan.MotorPressure).Pascals() - extra
	}, want.NewtonMetres(), want.NewtonMetres()+extra*m.Displacement.CubicMetresPerRevolution(), 1e-9)
	return Explanation{Cause: "a braked impeller: debris or a bearing", Amount: t - want.NewtonMetres(), Unit: "N m", Pressure: units.Pressure(r.PumpPressure.PascalsGauge()),
		LookFirst: "noise and heat at the pump; engine off and shaft locked before opening it"}, err == nil
}

// oilLoss adds pressure loss to the oil; it explains only a flow that agrees.
func (h *HydraulicDrive) oilLoss(_ System, r Reading, plan *DriveDuty) (Explanation, bool) {
	extra := units.Pressure(r.PumpPressure.PascalsGauge() - plan.PumpPressure.Pascals())
	if !(extra > 0) || math.Abs(float64(r.Flow/plan.Pump.Flow)-1) > agreement {
		return Explanation{}, false
	}
	return Explanation{Cause: "a loss in the oil: cold oil, a coupler or a filter", Amount: extra.In(units.Bars), Unit: "bar", Pressure: plan.PumpPressure + extra,
		LookFirst: "oil temperature, then couplers pushed home; never feel for leaks by hand"}, true
}
