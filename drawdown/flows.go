package drawdown

import (
	"fmt"
	"math"
	"slices"
	"time"

	"pondwright.example/units"
)

// Inflow is water that comes in by the clock: a well, a stream, runoff, or a
// pump from elsewhere. With Steps the rate is that of the last step begun (zero
// before the first); without, it is Rate all the time or, with Runs, within
// those windows. A negative rate takes water out by the clock.
type Inflow struct {
	Name  string       `json:"name"`
	Rate  units.Flow   `json:"rate"`
	Runs  []Window     `json:"runs,omitempty"`
	Steps []InflowStep `json:"steps,omitempty"`
}

// InflowStep is a rate that holds from a time on.
type InflowStep struct {
	From time.Time  `json:"from"`
	Rate units.Flow `json:"rate"`
}

// Rain is a hyetograph over the area that drains to the pond: the pond from
// crest to crest, wet slopes included, and what runs in from outside times its
// runoff coefficient. Each intensity holds until the next step.
type Rain struct {
	Catchment units.Area `json:"catchment"`
	Steps     []RainStep `json:"steps"`
}

// RainStep is a rain intensity (depth per time) from a time on.
type RainStep struct {
	From      time.Time      `json:"from"`
	Intensity units.Velocity `json:"intensity"`
}

// Leakage is seepage through the bed driven by the level beyond the dike,
//
//	q = Conductance A(h) (h - z),
//
// out when the pond stands higher and in when the tailwater does. Conductance is
// the bed's hydraulic conductivity over its thickness, per second.
//
// Source: Darcy's law for a liner of constant thickness.
type Leakage struct {
	Conductance units.Rate `json:"conductance"`
}

// rateStep is a rate in m3/s that holds from t seconds after the plan's start.
type rateStep struct{ t, rate float64 }

// steps turns an inflow into its steps since epoch.
func (in *Inflow) steps(epoch time.Time) []rateStep {
	if len(in.Steps) > 0 {
		var out []rateStep
		for _, s := range in.Steps {
			out = append(out, rateStep{s.From.Sub(epoch).Seconds(), float64(s.Rate)})
		}
		return out
	}
	if len(in.Runs) == 0 {
		return []rateStep{{math.Inf(-1), float64(in.Rate)}}
	}
	var out []rateStep
	spans := spansOf(in.Runs, epoch)
	for _, t := range edges(nil, spans) {
		r := rateStep{t: t}
		if inside(spans, t) {
			r.rate = float64(in.Rate)
		}
		out = append(out, r)
	}
	return out
}

func (r *Rain) steps(epoch time.Time) []rateStep {
	var out []rateStep
	for _, s := range r.Steps {
		out = append(out, rateStep{s.From.Sub(epoch).Seconds(), float64(s.Intensity) * float64(r.Catchment)})
	}
	return out
}

// rateAt is the rate of the last step begun.
func rateAt(steps []rateStep, t float64) float64 {
	r := 0.0
	for _, s := range steps {
		if s.t > t {
			break
		}
		r = s.rate
	}
	return r
}

// span is a window in seconds since the plan's start.
type span struct{ from, to float64 }

func spansOf(ws []Window, epoch time.Time) []span {
	var out []span
	for _, w := range ws {
		out = append(out, span{w.From.Sub(epoch).Seconds(), w.To.Sub(epoch).Seconds()})
	}
	return out
}

func inside(spans []span, t float64) bool {
	for _, s := range spans {
		if t >= s.from && t < s.to {
			return true
		}
	}
	return false
}

// edges appends the ends of the spans in rising order.
func edges(dst []float64, spans []span) []float64 {
	for _, s := range spans {
		dst = append(dst, s.from, s.to)
	}
	slices.Sort(dst)
	return dst
}

func (in *Inflow) validate(path string) []error {
	const fn = "drawdown.Plan"
	var all []error
	if err := units.Finite(fn, path+".rate", float64(in.Rate), "m3/s"); err != nil {
		all = append(all, err)
	}
	if len(in.Steps) > 0 && (in.Rate != 0 || len(in.Runs) > 0) {
		all = append(all, &units.InputError{Func: fn, Field: path + ".steps", Value: float64(len(in.Steps)), Unit: "steps", Reason: "give steps, or a rate with windows, not both"})
	}
	for i, s := range in.Steps {
		if err := units.Finite(fn, fmt.Sprintf("%s.steps[%d].rate", path, i), float64(s.Rate), "m3/s"); err != nil {
			all = append(all, err)
		}
		if i > 0 && !s.From.After(in.Steps[i-1].From) {
			all = append(all, &units.InputError{Func: fn, Field: fmt.Sprintf("%s.steps[%d].from", path, i), Value: s.From.Sub(in.Steps[i-1].From).Seconds(), Unit: "s", Reason: "steps must follow each other in time"})
		}
	}
	for i, w := range in.Runs {
		if !w.To.After(w.From) {
			all = append(all, &units.InputError{Func: fn, Field: fmt.Sprintf("%s.runs[%d]", path, i), Value: w.Duration().Seconds(), Unit: "s", Reason: "a window ends after it begins"})
		}
	}
	return all
}

func (r *Rain) validate(path string) []error {
	const fn = "drawdown.Plan"
	var all []error
	if err := units.NonNegative(fn, path+".catchment", float64(r.Catchment), "m2"); err != nil {
		all = append(all, err)
	}
	for i, s := range r.Steps {
		if err := units.NonNegative(fn, fmt.Sprintf("%s.steps[%d].intensity", path, i), float64(s.Intensity), "m/s"); err != nil {
			all = append(all, err)
		}
		if i > 0 && !s.From.After(r.Steps[i-1].From) {
			all = append(all, &units.InputError{Func: fn, Field: fmt.Sprintf("%s.steps[%d].from", path, i), Value: s.From.Sub(r.Steps[i-1].From).Seconds(), Unit: "s", Reason: "steps must follow each other in time"})
		}
	}
	return all
}
