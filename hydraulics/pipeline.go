package hydraulics

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"pondwright.example/units"
)

// PipeRun is a length of pipe or hose of one bore with the fittings whose losses
// are stated on the velocity in that bore.
type PipeRun struct {
	Name      string       `json:"name,omitzero"`
	Bore      units.Length `json:"bore"`               // inside diameter, 0.1 mm to 5 m
	Length    units.Length `json:"length"`             // zero for fittings alone
	Roughness units.Length `json:"roughness"`          // absolute; zero is smooth; at most 0.05 of the bore
	Fittings  []Loss       `json:"fittings,omitempty"` // entrance, exit, bends, valves ...
	Coil      units.Length `json:"coil,omitzero"`      // diameter of the circle that hose lies in; zero is straight, else at least 5 bores

	// HazenWilliams, when not zero, replaces roughness by the coefficient C of
	// that formula, 60 to 160. Only for water.
	HazenWilliams float64 `json:"hazenWilliams,omitzero"`
}

// PipelineSpec describes runs in series.
type PipelineSpec struct {
	Fluid   Fluid              `json:"fluid"`
	Runs    []PipeRun          `json:"runs"`
	Lift    units.Length       `json:"lift"`             // rise from the level at the inlet to that at the outlet; negative falls
	Losses  LossEnd            `json:"losses"`           // which end of the fittings' bands; zero is typical
	Gravity units.Acceleration `json:"gravity,omitzero"` // zero is 9.80665 m/s2
}

// notWater is a kinematic viscosity that no water has.
const notWater = 3e-6 // m2/s

// MaxBore is the largest bore of a pipe or hose of this package.
const MaxBore = 5 * units.Metre

const minBore = 1e-4 // m, a tenth of a millimetre

// Validate reports every field that cannot be used, joined.
func (s PipelineSpec) Validate() error {
	const fn = "hydraulics.PipelineSpec"
	errs := []error{units.AtField("fluid", s.Fluid.Validate()), units.Finite(fn, "lift", s.Lift.Metres(), "m"),
		units.Within(fn, "gravity", s.Gravity.MetresPerSecondSquared(), 0, 20, "m/s2")}
	if len(s.Runs) == 0 {
		errs = append(errs, &units.InputError{Func: fn, Field: "runs", Value: 0, Min: 1, Max: math.Inf(1), Reason: "number of runs"})
	}
	if s.Losses > HighLoss {
		errs = append(errs, units.Within(fn, "losses", float64(s.Losses), 0, float64(HighLoss), ""))
	}
	for i, r := range s.Runs {
		errs = append(errs, units.AtField(fmt.Sprintf("runs[%d]", i), r.validate(fn)))
		if nu := s.Fluid.KinematicViscosity().SquareMetresPerSecond(); r.HazenWilliams != 0 && nu > notWater {
			errs = append(errs, &units.InputError{Func: fn, Field: fmt.Sprintf("runs[%d].hazenWilliams", i), Value: nu,
				Unit: "m2/s", Min: 0, Max: notWater,
				Reason: "the formula is for water only: give a roughness"})
		}
	}
	return errors.Join(errs...)
}

func (r PipeRun) validate(fn string) error {
	errs := []error{
		boreError(fn, "bore", r.Bore),
		units.NonNegative(fn, "length", r.Length.Metres(), "m"),
		roughnessError(fn, "roughness", r.Roughness, r.Bore),
	}
	if r.Coil != 0 && !(r.Coil >= r.Bore/maxBoreOverCoil && !math.IsInf(float64(r.Coil), 0)) {
		errs = append(errs, &units.InputError{Func: fn, Field: "coil", Value: r.Coil.Metres(), Unit: "m", Min: r.Bore.Metres() / maxBoreOverCoil, Max: math.Inf(1),
			Reason: "diameter of the circle the hose lies in; a tighter one kinks it"})
	}
	if r.Coil != 0 && r.HazenWilliams != 0 {
		errs = append(errs, &units.InputError{Func: fn, Field: "coil", Value: r.Coil.Metres(), Unit: "m", Reason: "give a roughness: Hazen-Williams knows no curves"})
	}
	if c := r.HazenWilliams; c != 0 {
		errs = append(errs, hazenWilliamsC(fn, "hazenWilliams", c))
		if r.Roughness != 0 {
			errs = append(errs, &units.InputError{Func: fn, Field: "roughness", Value: r.Roughness.Metres(), Unit: "m",
				Reason: "give a roughness or a Hazen-Williams coefficient, not both"})
		}
	}
	sum := 0.0
	for i, l := range r.Fittings {
		errs = append(errs, units.AtField(fmt.Sprintf("fittings[%d]", i), l.Validate()))
		sum += l.Coefficient
	}
	if sum < 0 {
		errs = append(errs, &units.InputError{Func: fn, Field: "fittings", Value: sum,
			Reason: "the sum of the coefficients is negative: list the run or branch of a tee with the pipe that pays for it"})
	}
	return errors.Join(errs...)
}

func boreError(fn, field string, bore units.Length) error {
	if d := bore.Metres(); !(d >= minBore && d <= MaxBore.Metres()) {
		return &units.InputError{Func: fn, Field: field, Value: d, Unit: "m", Min: minBore, Max: MaxBore.Metres(),
			Reason: "inside diameter; inches or millimetres taken for metres?"}
	}
	return nil
}

func roughnessError(fn, field string, e, bore units.Length) error {
	if !(e >= 0) || math.IsInf(float64(e), 1) {
		return units.NonNegative(fn, field, e.Metres(), "m")
	}
	if bore > 0 && !(e.Metres() <= maxRelativeRoughness*bore.Metres()) {
		return &units.InputError{Func: fn, Field: field, Value: e.Metres(), Unit: "m", Min: 0, Max: maxRelativeRoughness * bore.Metres(),
			Reason: "above 0.05 of the bore; millimetres taken for metres?"}
	}
	return nil
}

// Pipeline is a validated line of pipe and hose, safe to copy and to use from
// many goroutines. Its methods return plain values, allocate nothing, and are
// finite for every finite argument. The zero Pipeline is a line without
// friction or lift.
type Pipeline struct{ p *pipeline }

type pipeline struct {
	spec    PipelineSpec
	lift    float64
	runs    []runLaw
	notices []units.Notice
}

// NewPipeline validates spec and builds the line. The error joins one
// *units.InputError per field.
func NewPipeline(spec PipelineSpec) (Pipeline, error) {
	if err := spec.Validate(); err != nil {
		return Pipeline{}, err
	}
	spec.Runs = cloneRuns(spec.Runs)
	p := &pipeline{spec: spec, lift: spec.Lift.Metres()}
	for i, r := range spec.Runs {
		p.runs = append(p.runs, newRunLaw(r, spec))
		for j, l := range r.Fittings {
			if l.Unspecific && spec.Losses == TypicalLoss {
				p.notices = append(p.notices, l.notice(fmt.Sprintf("runs[%d].fittings[%d]", i, j)))
			}
		}
	}
	return Pipeline{p}, nil
}

func cloneRuns(in []PipeRun) []PipeRun {
	out := slices.Clone(in)
	for i := range out {
		out[i].Fittings = slices.Clone(out[i].Fittings)
	}
	return out
}

// Spec returns a copy of what the line was built from.
func (p Pipeline) Spec() PipelineSpec {
	if p.p == nil {
		return PipelineSpec{}
	}
	s := p.p.spec
	s.Runs = cloneRuns(s.Runs)
	return s
}

// With returns the same line with its fittings at another end of their bands:
// the head that the line needs lies between those of LowLoss and HighLoss.
func (p Pipeline) With(end LossEnd) (Pipeline, error) {
	if p.p == nil {
		return p, nil
	}
	spec := p.Spec()
	spec.Losses = end
	return NewPipeline(spec)
}

// Head returns the head that drives flow q through the line: the lift plus the
// friction and fitting losses. A negative q runs backwards, with the same
// coefficients, and its losses count negative. Head rises with q.
//
// Equation: h = lift + Σ (f L/D + K + K1/Re) V²/2g, f by [FrictionFactor].
//
// Source: Darcy-Weisbach with the factor of Colebrook 1939; Hazen-Williams where
// the run asks for it.
func (p Pipeline) Head(q units.Flow) units.Length {
	if p.p == nil {
		return 0
	}
	h, _ := p.p.loss(math.Abs(float64(q)))
	return units.Length(finite(p.p.lift + math.Copysign(h, float64(q))))
}

// Flow returns the flow that head h drives through the line, the inverse of
// [Pipeline.Head]; negative when h is below the lift.
func (p Pipeline) Flow(h units.Length) units.Flow {
	if p.p == nil {
		return 0
	}
	net := float64(h) - p.p.lift
	return units.Flow(math.Copysign(p.p.flow(math.Abs(net)), net))
}

// lineLoss and lineFlow make a Pipeline a [Line].
func (p Pipeline) lineLoss(q float64) (h, slope float64) {
	if p.p == nil {
		return 0, 0
	}
	h, slope = p.p.loss(math.Abs(q))
	return finite(p.p.lift + math.Copysign(h, q)), slope
}

// finite keeps a sum that ran over the largest float64 at that value.
func finite(h float64) float64 { return max(-math.MaxFloat64, min(h, math.MaxFloat64)) }

// loss returns the loss at q >= 0 without the lift, and its slope.
func (p *pipeline) loss(q float64) (h, slope float64) {
	for i := range p.runs {
		dh, ds := p.runs[i].loss(q)
		h += dh
		slope += ds
	}
	return min(h, math.MaxFloat64), min(slope, math.MaxFloat64)
}

// flow returns the q >= 0 whose loss is h.
func (p *pipeline) flow(h float64) float64 {
	if !(h > 0) {
		return h // zero, or NaN
	}
	// Start from fully rough flow, where the loss is a q².
	a := 0.0
	for i := range p.runs {
		a += p.runs[i].roughSquare()
	}
	if a == 0 {
		return math.MaxFloat64
	}
	return invert(p.loss, h, min(math.Sqrt(h/a), maxSolverFlow))
}

// maxSolverFlow bounds the flow of an inverse: no head that fits a float64 and
// a farm comes near it.
const maxSolverFlow = 1e100

// slowAfter is the number of steps after which invert halves its bracket: a
// smooth line takes five.
const slowAfter = 40

// invert returns q > 0 with loss(q) = h by Newton's method inside a bracket that
// every evaluation narrows. Loss rises and is nearly a power of q, which one
// step in the logarithms follows closely.
func invert(loss func(q float64) (h, slope float64), h, start float64) float64 {
	lo, hi, q := 0.0, math.Inf(1), start
	for step := range 300 {
		got, slope := loss(q)
		if got == h {
			return q
		}
		if got > h {
			hi = q
		} else {
			lo = q
		}
		// d ln h/d ln q = slope q/got; a step in the logarithms to second order.
		next := q - (got-h)/slope
		if e := (h - got) / got; math.Abs(e) < 0.5 {
			n := slope * q / got
			x := e / n
			next = q * (1 + x*(1+0.5*(1-n)*x)) // (1+e)^(1/n) in powers of e
		}
		if math.Abs(next-q) <= 1e-15*q {
			return next
		}
		if !(next > lo && next < hi) || step > slowAfter {
			switch {
			case math.IsInf(hi, 1):
				next = 2 * q
			case lo > 0 && hi > 4*lo:
				next = math.Sqrt(lo) * math.Sqrt(hi)
			default:
				next = lo + (hi-lo)/2
			}
		}
		q = next
	}
	return q
}
