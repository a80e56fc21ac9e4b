package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// PipeVelocity returns the mean speed of flow q in a round bore running full; the
// sign follows the flow.
//
// Equation: V = 4 Q/(pi D²). Source: continuity, by definition.
func PipeVelocity(q units.Flow, bore units.Length) (units.Velocity, error) {
	const fn = "hydraulics.PipeVelocity"
	if err := errors.Join(units.Finite(fn, "q", q.CubicMetresPerSecond(), "m3/s"), boreError(fn, "bore", bore)); err != nil {
		return units.Velocity(math.NaN()), err
	}
	return units.Velocity(finite(q.CubicMetresPerSecond() / (math.Pi / 4 * bore.Metres() * bore.Metres()))), nil
}

// Reynolds returns V D/nu for flow q in a round bore running full.
//
// Source: by definition; Reynolds 1883.
func Reynolds(q units.Flow, bore units.Length, nu units.KinematicViscosity) (float64, error) {
	const fn = "hydraulics.Reynolds"
	err := errors.Join(units.Finite(fn, "q", q.CubicMetresPerSecond(), "m3/s"), boreError(fn, "bore", bore),
		units.Within(fn, "nu", nu.SquareMetresPerSecond(), minKinematic, maxKinematic, "m2/s"))
	if err != nil {
		return math.NaN(), err
	}
	return finite(4 * math.Abs(q.CubicMetresPerSecond()) / (math.Pi * bore.Metres() * nu.SquareMetresPerSecond())), nil
}

// Pipe is one length of pipe for the questions asked before a line is built:
// what bore, what length, what roughness.
type Pipe struct {
	Bore      units.Length `json:"bore"`
	Length    units.Length `json:"length"`
	Roughness units.Length `json:"roughness"` // absolute; zero is smooth
	LossSum   float64      `json:"lossSum"`   // Σ K of the fittings on V²/2g in the bore
}

// Line builds the pipe as a [Pipeline] of one run.
func (p Pipe) Line(f Fluid) (Pipeline, error) {
	r := PipeRun{Bore: p.Bore, Length: p.Length, Roughness: p.Roughness}
	if p.LossSum != 0 {
		r.Fittings = []Loss{CustomLoss("fittings", p.LossSum)}
	}
	return NewPipeline(PipelineSpec{Fluid: f, Runs: []PipeRun{r}})
}

// HeadLoss returns the head that flow q loses in the pipe, as [Pipeline.Head]
// does.
//
// Source: Darcy-Weisbach with the factor of Colebrook 1939.
func (p Pipe) HeadLoss(q units.Flow, f Fluid) (units.Length, error) {
	line, err := p.Line(f)
	if err == nil {
		err = units.Finite("hydraulics.Pipe.HeadLoss", "q", q.CubicMetresPerSecond(), "m3/s")
	}
	if err != nil {
		return units.Length(math.NaN()), err
	}
	return line.Head(q), nil
}

// FlowFor returns the flow that loses head h in the pipe, the inverse of
// [Pipe.HeadLoss].
//
// Source: Darcy-Weisbach with the factor of Colebrook 1939.
func (p Pipe) FlowFor(h units.Length, f Fluid) (units.Flow, error) {
	const fn = "hydraulics.Pipe.FlowFor"
	line, err := p.Line(f)
	if err == nil {
		err = units.Finite(fn, "h", h.Metres(), "m")
	}
	if err == nil && p.Length == 0 && p.LossSum == 0 {
		err = &units.InputError{Func: fn, Field: "length", Value: 0, Unit: "m",
			Reason: "a pipe without length or fittings resists no flow", Kind: units.ErrNoSolution}
	}
	if err != nil {
		return units.Flow(math.NaN()), err
	}
	return line.Flow(h), nil
}

// LengthFor returns the length of pipe in which flow q loses head h, fittings
// included; the Length of p is not used. ErrNoSolution when the fittings alone
// lose more.
//
// Source: Darcy-Weisbach, solved for L.
func (p Pipe) LengthFor(q units.Flow, h units.Length, f Fluid) (units.Length, error) {
	const fn = "hydraulics.Pipe.LengthFor"
	p.Length = 1
	line, err := p.Line(f)
	err = errors.Join(err, units.Positive(fn, "q", q.CubicMetresPerSecond(), "m3/s"), units.Positive(fn, "h", h.Metres(), "m"))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	s, err := line.At(q)
	if err != nil {
		return units.Length(math.NaN()), err
	}
	if h < s.FittingLoss {
		return units.Length(math.NaN()), &units.InputError{Func: fn, Field: "h", Value: h.Metres(),
			Unit: "m", Min: s.FittingLoss.Metres(), Max: math.Inf(1),
			Reason: "the fittings alone lose more", Kind: units.ErrNoSolution}
	}
	return units.Length((h - s.FittingLoss).Metres() / s.FrictionLoss.Metres()), nil
}

// BoreFor returns the smallest bore in which flow q loses no more than head h;
// the Bore of p is not used. Take the next nominal size up. ErrNoSolution when
// even the largest bore, 5 m, loses more.
//
// Source: Darcy-Weisbach with the factor of Colebrook 1939, solved by bracketing.
func (p Pipe) BoreFor(q units.Flow, h units.Length, f Fluid) (units.Length, error) {
	const fn = "hydraulics.Pipe.BoreFor"
	p.Bore = MaxBore
	line, err := p.Line(f)
	err = errors.Join(err, units.Positive(fn, "q", q.CubicMetresPerSecond(), "m3/s"), units.Positive(fn, "h", h.Metres(), "m"))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	if least := line.Head(q); least > h {
		return units.Length(math.NaN()), &units.InputError{Func: fn, Field: "h", Value: h.Metres(),
			Unit: "m", Min: least.Metres(), Max: math.Inf(1),
			Reason: "even a bore of 5 m loses more", Kind: units.ErrNoSolution}
	}
	// Work in the logarithms: the loss falls with about the fifth power.
	excess := func(lnD float64) float64 {
		p.Bore = units.Length(math.Exp(lnD))
		line, err := p.Line(f)
		if err != nil {
			return math.NaN()
		}
		return math.Log(max(line.Head(q).Metres(), math.SmallestNonzeroFloat64) / h.Metres())
	}
	least := max(minBore, p.Roughness.Metres()/maxRelativeRoughness*(1+1e-12))
	lo, hi := math.Log(least), math.Log(MaxBore.Metres())
	if excess(lo) <= 0 {
		return units.Length(least), nil
	}
	x, err := root.Find(excess, lo, hi, 1e-13)
	if err != nil {
		return units.Length(math.NaN()), err
	}
	return units.Length(math.Exp(x)), nil
}

// RoughnessFor returns the absolute roughness with which flow q loses the
// measured head h in the pipe: the test of an old pipe or an unknown hose. The
// Roughness of p is not used. ErrNoSolution when even a smooth pipe loses more
// than measured, or the wall would be rougher than 0.05 of the bore, and
// ErrRange with the value in laminar or transitional flow, which says little
// about the wall.
//
// Equation: e/D = 3.7 (10^(-1/(2√f)) - 2.51/(Re √f)), f = (h 2g/V² - K) D/L.
//
// Source: Colebrook 1939, J. Inst. Civ. Eng. 11:133, solved for e.
//
// Accuracy: an error of 1 % in h moves e by 5 to 10 % in rough pipe and by far
// more in smooth.
func (p Pipe) RoughnessFor(q units.Flow, h units.Length, f Fluid) (units.Length, error) {
	const fn = "hydraulics.Pipe.RoughnessFor"
	p.Roughness = 0
	line, err := p.Line(f)
	err = errors.Join(err, units.Positive(fn, "q", q.CubicMetresPerSecond(), "m3/s"), units.Positive(fn, "h", h.Metres(), "m"),
		units.Positive(fn, "length", p.Length.Metres(), "m"))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	smooth, err := line.At(q)
	if err != nil {
		return units.Length(math.NaN()), err
	}
	nan := units.Length(math.NaN())
	if h < smooth.Head*(1-1e-9) {
		return nan, &units.InputError{Func: fn, Field: "h", Value: h.Metres(), Unit: "m", Min: smooth.Head.Metres(), Max: math.Inf(1),
			Reason: "a smooth pipe loses more: check flow, bore and gauges", Kind: units.ErrNoSolution}
	}
	r := smooth.Runs[0]
	ff := r.FrictionFactor * (h - smooth.FittingLoss).Metres() / smooth.FrictionLoss.Metres()
	y := 1 / math.Sqrt(ff)
	e := max(0, 3.7*(math.Pow(10, -y/2)-2.51*y/r.Reynolds)*p.Bore.Metres())
	if e > maxRelativeRoughness*p.Bore.Metres() {
		return nan, &units.InputError{Func: fn, Field: "h", Value: h.Metres(), Unit: "m",
			Reason: "the wall would be rougher than 0.05 of the bore: look for a blockage or an unlisted fitting", Kind: units.ErrNoSolution}
	}
	if r.Regime != RegimeTurbulent {
		return units.Length(e), &units.InputError{Func: fn, Field: "q", Value: r.Reynolds, Min: turbulentAbove, Max: maxColebrookRe,
			Reason: "Reynolds number", Kind: units.ErrRange}
	}
	return units.Length(e), nil
}
