package hydraulics

import (
	"fmt"
	"math"

	"pondwright.example/units"
)

// RunState is one run at one flow.
type RunState struct {
	Name           string         `json:"name,omitzero"`
	Velocity       units.Velocity `json:"velocity"` // negative when the flow runs backwards
	Reynolds       float64        `json:"reynolds"`
	Regime         Regime         `json:"regime"`
	FrictionFactor float64        `json:"frictionFactor"` // Darcy, of a curve if it lies in one; zero when still, or by Hazen-Williams
	LossSum        float64        `json:"lossSum"`        // Σ K of the fittings at this flow
	FrictionLoss   units.Length   `json:"frictionLoss"`   // of the wall, signed as the flow
	FittingLoss    units.Length   `json:"fittingLoss"`    // of the fittings, signed as the flow
}

// PipelineState is a line at one flow, with what a reviewer asks for.
type PipelineState struct {
	Flow         units.Flow     `json:"flow"`
	Head         units.Length   `json:"head"` // Lift + FrictionLoss + FittingLoss
	Lift         units.Length   `json:"lift"`
	FrictionLoss units.Length   `json:"frictionLoss"`
	FittingLoss  units.Length   `json:"fittingLoss"`
	PressureDrop units.Pressure `json:"pressureDrop"` // of the losses alone, in the fluid of the line
	Runs         []RunState     `json:"runs"`
	Notices      []units.Notice `json:"notices,omitempty"`
}

// suspectVelocity is above what water runs at in any pipe of a farm.
const suspectVelocity = 15.0 // m/s

// At returns the state of the line at flow q, with notices: transition between
// laminar and turbulent, constant fitting coefficients in laminar flow,
// Hazen-Williams outside its range, a speed above 15 m/s, and fittings whose
// names leave their geometry open. The error is ErrDomain for a flow that is
// not finite or too large for the losses to be.
func (p Pipeline) At(q units.Flow) (PipelineState, error) {
	const fn = "hydraulics.Pipeline.At"
	if err := units.Within(fn, "q", q.CubicMetresPerSecond(), -1e6, 1e6, "m3/s"); err != nil {
		return PipelineState{}, err
	}
	if p.p == nil {
		return PipelineState{Flow: q}, nil
	}
	s := PipelineState{Flow: q, Lift: p.p.spec.Lift, Notices: p.noticesAt(q, "")}
	for i := range p.p.runs {
		r := p.p.runs[i].state(q, p.p.spec.Runs[i].Name)
		s.FrictionLoss += r.FrictionLoss
		s.FittingLoss += r.FittingLoss
		s.Runs = append(s.Runs, r)
	}
	s.Head = s.Lift + s.FrictionLoss + s.FittingLoss
	g := p.p.runs[0].twoG / 2
	s.PressureDrop = units.Pressure(p.p.spec.Fluid.Density.KilogramsPerCubicMetre() * g * (s.FrictionLoss + s.FittingLoss).Metres())
	return s, nil
}

// Ranges lists the flows between which the sources of the line vouch for it, one
// row a run: Reynolds number 4000 to 1e8 by Colebrook and constant fitting
// coefficients, or 0.3 to 3 m/s by Hazen-Williams. Slower flow is laminar or in
// the gap, where [Pipeline.At] says more.
func (p Pipeline) Ranges() []PublishedRange {
	if p.p == nil {
		return nil
	}
	var out []PublishedRange
	for i := range p.p.runs {
		w := &p.p.runs[i]
		r := PublishedRange{Code: CodeReynoldsTransition, Quantity: fmt.Sprintf("flow in Runs[%d]", i), Low: turbulentAbove / w.perFlow, High: maxColebrookRe / w.perFlow,
			Unit: "m3/s", Source: "Colebrook 1939; Moody 1944"}
		if w.hazen != 0 {
			r.Code, r.Low, r.High, r.Source = CodeHazenWilliams, minHazenVelocity*w.area, maxHazenVelocity*w.area, "Williams & Hazen 1905"
		}
		out = append(out, r)
	}
	return out
}

// noticesAt returns the notices of At with prefix before their fields, without
// building the state of a line that has none.
func (p Pipeline) noticesAt(q units.Flow, prefix string) []units.Notice {
	if p.p == nil {
		return nil
	}
	out := append([]units.Notice(nil), p.p.notices...)
	for i := range p.p.runs {
		out = append(out, p.p.runs[i].notices(p.p.runs[i].state(q, ""), fmt.Sprintf("runs[%d]", i))...)
	}
	for i := range out {
		out[i].Field = prefix + out[i].Field
	}
	return out
}

func (w *runLaw) state(q units.Flow, name string) RunState {
	a := math.Abs(q.CubicMetresPerSecond())
	re := a * w.perFlow
	r := RunState{Name: name, Velocity: units.Velocity(q.CubicMetresPerSecond() / w.area), Reynolds: re, Regime: regimeOf(re)}
	if re == 0 {
		return r
	}
	sign := func(h float64) units.Length { return units.Length(math.Copysign(h, float64(q))) }
	head := w.nu * w.nu / (w.twoG * w.bore * w.bore) * re * re // V²/2g
	r.FittingLoss = sign(re * (w.local*re + w.laminar))
	r.LossSum = math.Abs(r.FittingLoss.Metres()) / head
	if w.hazen != 0 {
		r.FrictionLoss = sign(w.hazen * math.Pow(a, hazenExponent))
		return r
	}
	g, _ := w.square(re)
	r.FrictionFactor = g / (re * re)
	r.FrictionLoss = sign(w.friction * g)
	return r
}

// notices returns what the reader of the state must know.
func (w *runLaw) notices(r RunState, field string) []units.Notice {
	var out []units.Notice
	v := math.Abs(r.Velocity.MetresPerSecond())
	switch {
	case w.hazen != 0:
		out = appendHazen(out, field+".velocity", v, minHazenVelocity, maxHazenVelocity, "m/s")
		out = appendHazen(out, field+".bore", w.bore, minHazenBore, MaxBore.Metres(), "m")
		out = appendHazen(out, "fluid.viscosity", w.nu, minHazenNu, maxHazenNu, "m2/s")
	case r.Regime == RegimeTransition:
		out = append(out, units.Notice{Code: CodeReynoldsTransition, Severity: units.Caution, Field: field + ".reynolds",
			Value: r.Reynolds, Limit: turbulentAbove,
			Message: "between laminar and turbulent flow: the friction factor is uncertain by 30 % and may jump", Source: "Moody 1944"})
	case r.Regime == RegimeLaminar && r.LossSum > 0 && w.laminar == 0:
		out = append(out, units.Notice{Code: CodeReynoldsLaminar, Severity: units.Caution, Field: field + ".reynolds",
			Value: r.Reynolds, Limit: laminarBelow,
			Message: "laminar flow: constant fitting coefficients are too low; use two-K fittings", Source: "Hooper 1981, Chem. Eng. 88(17):96"})
	}
	if v > suspectVelocity {
		out = append(out, units.Notice{Code: CodeFlowSuspect, Severity: units.Warning, Field: field + ".velocity", Value: v,
			Limit: suspectVelocity, Unit: "m/s",
			Message: "faster than any water in a farm's pipes: is the flow in the unit it was typed in, the bore in metres?",
			Source:  "common practice, no source"})
	}
	return out
}

func appendHazen(out []units.Notice, field string, v, lo, hi float64, unit string) []units.Notice {
	if n, is := units.Outside(CodeHazenWilliams, field, v, lo, hi, unit, "Williams & Hazen 1905"); is && v != 0 {
		out = append(out, n)
	}
	return out
}
