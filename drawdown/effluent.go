package drawdown

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// EffluentSample is the concentration of one substance in the water leaving
// when the share Drained (0 to 1) of the drained volume has left.
type EffluentSample struct {
	Drained       float64             `json:"drained"`
	Concentration units.Concentration `json:"concentration"`
}

// Effluent is a drained volume with one substance in it, such as suspended
// solids. Concentrations are linear between samples and constant before the
// first and after the last; two samples at one share are a step.
//
// What is known of the course: internal drains release the first minutes at
// up to hundreds of times the pond's solids and are near the pond's own within
// about half an hour; the last 20 to 25 % of the volume carries the mud, and is
// the part that settling can treat (Hargreaves & Tucker, catfish drainage
// ditches; Alabama aquaculture best management practice 6; Boyd).
type Effluent struct {
	Volume  units.Volume     `json:"volume"` // drained
	Samples []EffluentSample `json:"samples"`
}

// Validate reports every problem of the effluent at once.
func (e Effluent) Validate() error {
	const fn = "drawdown.Effluent"
	all := []error{units.Positive(fn, "volume", float64(e.Volume), "m3")}
	if len(e.Samples) == 0 {
		all = append(all, &units.InputError{Func: fn, Field: "samples", Value: 0, Unit: "samples", Reason: "at least one is needed"})
	}
	for i, s := range e.Samples {
		at := fmt.Sprintf("samples[%d]", i)
		all = append(all, units.Within(fn, at+".drained", s.Drained, 0, 1, ""),
			units.NonNegative(fn, at+".concentration", float64(s.Concentration), "kg/m3"))
		if i > 0 && s.Drained < e.Samples[i-1].Drained {
			all = append(all, &units.InputError{Func: fn, Field: at + ".drained", Value: s.Drained,
				Reason: fmt.Sprintf("sample %d comes before sample %d; samples must follow the draining", i+1, i)})
		}
		if i > 1 && s.Drained == e.Samples[i-2].Drained {
			all = append(all, &units.InputError{Func: fn, Field: at + ".drained", Value: s.Drained, Reason: "at most two samples can stand at one share, as a step"})
		}
	}
	return errors.Join(all...)
}

// integral returns the mean concentration times the share drained up to f.
func (e Effluent) integral(f float64) float64 {
	s := e.Samples
	total := 0.0
	from, c := 0.0, float64(s[0].Concentration)
	for i := range s {
		to, next := s[i].Drained, float64(s[i].Concentration)
		if f <= to {
			if to > from {
				x := (f - from) / (to - from)
				total += (f - from) * (c + 0.5*x*(next-c))
			}
			return total
		}
		total += (to - from) * 0.5 * (c + next)
		from, c = to, next
	}
	return total + (f-from)*c
}

// Load returns the mass of the substance that leaves between two shares of the
// drained volume; 0 and 1 are the whole.
//
// Equation: M = V times the integral of C over the share drained (trapezoids).
//
// Source: by definition. Errors: as Validate, shares outside 0 to 1 or falling.
func (e Effluent) Load(from, to float64) (units.Mass, error) {
	const fn = "drawdown.Effluent.Load"
	err := errors.Join(e.Validate(), units.Within(fn, "from", from, 0, 1, ""), units.Within(fn, "to", to, from, 1, ""))
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	return units.Mass(float64(e.Volume) * (e.integral(to) - e.integral(from))), nil
}

// Mean returns the volume-weighted mean concentration between two shares of
// the drained volume.
//
// Source: by definition, load over volume. Errors: as Load, or equal shares.
func (e Effluent) Mean(from, to float64) (units.Concentration, error) {
	m, err := e.Load(from, to)
	if err == nil && !(to > from) {
		err = &units.InputError{Func: "drawdown.Effluent.Mean", Field: "to", Value: to, Min: from, Max: 1, Reason: "there is no water between equal shares"}
	}
	if err != nil {
		return units.Concentration(math.NaN()), err
	}
	return units.Concentration(float64(m) / (float64(e.Volume) * (to - from))), nil
}

// PermitLimit is one number of the user's permit. The package knows no permit
// and calls nothing safe or legal.
type PermitLimit struct {
	Name   string              `json:"name"`             // as the permit calls it
	Mean   units.Concentration `json:"mean,omitempty"`   // of the discharge; zero: none
	Peak   units.Concentration `json:"peak,omitempty"`   // at any time; zero: none
	Load   units.Mass          `json:"load,omitempty"`   // of the whole discharge; zero: none
	Source string              `json:"source,omitempty"` // permit number and clause
}

// CodeEffluentLimit tells that a number of the permit is passed.
const CodeEffluentLimit = "DRAW_EFFLUENT_LIMIT"

// Check holds the discharge of the first share of the drained volume (the rest
// held back) against a permit and returns a notice for every limit it passes.
//
// Source: by definition; the limits are the user's.
func (e Effluent) Check(discharged float64, limit PermitLimit) ([]units.Notice, error) {
	const fn = "drawdown.Effluent.Check"
	if !(discharged > 0) {
		return nil, errors.Join(e.Validate(), units.Positive(fn, "discharged", discharged, ""))
	}
	mass, err := e.Load(0, discharged)
	if err = errors.Join(err, units.NonNegative(fn, "limit.mean", float64(limit.Mean), "kg/m3"),
		units.NonNegative(fn, "limit.peak", float64(limit.Peak), "kg/m3"), units.NonNegative(fn, "limit.load", float64(limit.Load), "kg")); err != nil {
		return nil, err
	}
	var out []units.Notice
	over := func(field string, v, max float64, unit string) {
		if max > 0 && v > max*(1+1e-12) {
			out = append(out, units.Notice{Code: CodeEffluentLimit, Severity: units.Warning, Field: field, Value: v, Limit: max, Unit: unit,
				Message: fmt.Sprintf("%s: %s %.4g %s is above the limit of %.4g %s", limit.Name, field, v, unit, max, unit), Source: limit.Source})
		}
	}
	over("mean", 1000*float64(mass)/(float64(e.Volume)*discharged), 1000*float64(limit.Mean), "mg/L")
	over("peak", 1000*e.peak(discharged), 1000*float64(limit.Peak), "mg/L")
	over("load", float64(mass), float64(limit.Load), "kg")
	return out, nil
}

// peak returns the highest concentration up to share f.
func (e Effluent) peak(f float64) float64 {
	high := float64(e.Samples[0].Concentration)
	for i, s := range e.Samples {
		if s.Drained < f || i > 0 && e.Samples[i-1].Drained < f {
			c := float64(s.Concentration)
			if s.Drained > f { // part of the way
				p := e.Samples[i-1]
				c = float64(p.Concentration) + (f-p.Drained)/(s.Drained-p.Drained)*(c-float64(p.Concentration))
			}
			high = math.Max(high, c)
		}
	}
	return high
}

// HoldBack is the last share of a pond's water, kept for settling.
type HoldBack struct {
	Stage         units.Length `json:"stage"`         // at which draining must stop
	Volume        units.Volume `json:"volume"`        // held
	DepthFraction float64      `json:"depthFraction"` // of the depth from bottom to start: the last fifth of the volume is not the last fifth of the depth
}

// HoldBackStage returns the stage below which the last share (0 to 1) of the
// water lies that the pond holds at start.
//
// Source: by definition, V(stage) = last V(start).
func HoldBackStage(pond Storage, start units.Length, last float64) (HoldBack, error) {
	const fn = "drawdown.HoldBackStage"
	if pond == nil {
		return HoldBack{}, &units.InputError{Func: fn, Field: "pond", Value: math.NaN(), Reason: "no pond was given"}
	}
	full := pond.Volume(start)
	if err := errors.Join(units.Within(fn, "last", last, 0, 1, ""), units.Positive(fn, "volume at start", float64(full), "m3")); err != nil {
		return HoldBack{}, err
	}
	h := HoldBack{Volume: units.Volume(last) * full}
	h.Stage = pond.Stage(h.Volume)
	h.DepthFraction = float64((h.Stage - pond.Bottom()) / (start - pond.Bottom()))
	return h, nil
}

// HoldBackFor returns the smallest last share of the water that must be held
// back for the rest to meet the mean and peak of a permit, 0 when all may go,
// and units.ErrNoSolution when even the first water passes a limit.
//
// Source: bisection on the share discharged; for the mean the largest share
// whose mean meets the limit.
func (e Effluent) HoldBackFor(limit PermitLimit) (float64, error) {
	const fn = "drawdown.Effluent.HoldBackFor"
	if err := e.Validate(); err != nil {
		return math.NaN(), err
	}
	meets := func(f float64) bool {
		n, err := e.Check(f, limit)
		return err == nil && len(n) == 0
	}
	if _, err := e.Check(1, limit); err != nil {
		return math.NaN(), err
	}
	// A later clean stretch can bring a mean back under its limit, so the share
	// is looked for from the end.
	const steps = 2000
	for i := steps; i >= 1; i-- {
		if !meets(float64(i) / steps) {
			continue
		}
		if i == steps {
			return 0, nil
		}
		lo, hi := float64(i)/steps, float64(i+1)/steps
		for range 50 {
			if mid := 0.5 * (lo + hi); meets(mid) {
				lo = mid
			} else {
				hi = mid
			}
		}
		return math.Min(1, 1-lo+1e-10), nil // to the safe side of rounding
	}
	return math.NaN(), &units.InputError{Func: fn, Field: "limit", Value: 1000 * float64(e.Samples[0].Concentration), Unit: "mg/L",
		Kind: units.ErrNoSolution, Reason: "even the first water passes a limit of " + limit.Name}
}
