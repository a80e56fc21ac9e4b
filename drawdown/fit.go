package drawdown

import (
	"fmt"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/mat"

	"pondwright.example/units"
)

// fit is one calibration in progress: x holds the logarithms of the free
// factors, in the order outlet, clogging, area.
type fit struct {
	plan     Plan
	readings []StageReading
	sd       []float64
	free     []int     // which of the three factors are free
	prior    []float64 // standard deviation of each free one
	x        []float64
	cov      *mat.SymDense
	residual []float64
}

func newFit(fn string, p Plan, readings []StageReading, priors Priors) (*fit, error) {
	var all []error
	bad := func(field string, v float64, unit, format string, args ...any) {
		all = append(all, &units.InputError{Func: fn, Field: field, Value: v, Unit: unit, Reason: fmt.Sprintf(format, args...)})
	}
	if len(readings) == 0 {
		bad("readings", 0, "readings", "at least one stage must have been read")
	}
	opening := p.Opening
	if opening.IsZero() {
		opening = p.Start
	}
	horizon := p.Horizon
	if horizon == 0 {
		horizon = defaultHorizon
	}
	f := &fit{plan: p, readings: readings}
	for i, r := range readings {
		if err := units.Within(fn, fmt.Sprintf("readings[%d].stage", i), float64(r.Stage), float64(p.Pond.Bottom()), float64(p.Pond.Top()), "m"); err != nil {
			all = append(all, err)
		}
		if err := units.NonNegative(fn, fmt.Sprintf("readings[%d].sd", i), float64(r.SD), "m"); err != nil {
			all = append(all, err)
		}
		switch {
		case i > 0 && !r.At.After(readings[i-1].At):
			bad(fmt.Sprintf("readings[%d].at", i), r.At.Sub(readings[i-1].At).Minutes(), "min", "reading %d is not later than reading %d", i+1, i)
		case r.At.Before(opening):
			bad(fmt.Sprintf("readings[%d].at", i), r.At.Sub(opening).Minutes(), "min", "reading %d was made before the gates opened", i+1)
		case r.At.After(p.Start.Add(horizon)):
			bad(fmt.Sprintf("readings[%d].at", i), r.At.Sub(p.Start).Hours(), "h", "reading %d was made after the plan's horizon", i+1)
		}
		sd := float64(r.SD)
		if sd == 0 {
			sd = defaultReadingSD
		}
		f.sd = append(f.sd, sd)
	}
	for i, s := range []float64{priors.Outlet, priors.Clogging, priors.Area} {
		if s == 0 {
			s = [3]float64{0.25, 0.25, 0.05}[i]
		}
		if !(s <= 3) {
			bad([3]string{"priors.outlet", "priors.clogging", "priors.area"}[i], s, "", "a standard deviation of a logarithm above 3 means nothing is known")
		}
		if s > 0 {
			f.free, f.prior, f.x = append(f.free, i), append(f.prior, s), append(f.x, 0)
		}
	}
	return f, joinErrors(all)
}

// factors are the three factors for logarithms x.
func (f *fit) factors(x []float64) (outlet, clogging, area float64) {
	out := [3]float64{1, 1, 1}
	for k, i := range f.free {
		out[i] = math.Exp(x[k])
	}
	return out[0], out[1], out[2]
}

// corrected is the plan with factors applied.
func (f *fit) corrected(x []float64) Plan {
	outlet, clogging, area := f.factors(x)
	p := f.plan
	p.Pond = stretched{p.Pond, area}
	p.Gates = slices.Clone(p.Gates)
	for i := range p.Gates {
		g := &p.Gates[i]
		by := new(float64)
		*by = outlet
		g.Outlet = sized(g.Outlet, by)
		g.Moves = slices.Clone(g.Moves)
		for k := range g.Moves {
			g.Moves[k].Outlet = sized(g.Moves[k].Outlet, by)
		}
		g.Clogging = foul(g.Clogging, p.Target, p.Stage, clogging)
	}
	return p
}

// foul multiplies a clogging by a line from factor at low to one at high.
func foul(c []StageFactor, low, high units.Length, factor float64) []StageFactor {
	if factor == 1 || !(high > low) {
		return c
	}
	line := []StageFactor{{low, factor}, {high, 1}}
	var at []units.Length
	for _, k := range append(slices.Clone(c), line...) {
		at = append(at, k.Stage)
	}
	slices.Sort(at)
	var out []StageFactor
	for _, h := range slices.Compact(at) {
		v := clogAt(line, float64(h))
		if len(c) > 0 {
			v *= clogAt(c, float64(h))
		}
		out = append(out, StageFactor{h, v})
	}
	return out
}

// model is the stages at the readings for logarithms x.
func (f *fit) model(x []float64) ([]float64, error) {
	p := f.corrected(x)
	p.RunOn, p.Watch = true, nil
	p.Horizon = f.readings[len(f.readings)-1].At.Sub(p.Start) + time.Second
	s, err := NewSolver(clearClogging(p))
	if err != nil {
		return nil, err
	}
	s.Record(true)
	if _, err = s.Run(time.Time{}); err != nil {
		return nil, err
	}
	h := s.Hydrograph()
	out := make([]float64, len(f.readings))
	for i, r := range f.readings {
		out[i] = float64(h.Stage(r.At))
	}
	return out, nil
}

// clearClogging lets a fitted factor above one pass validation: it goes into
// the outlet, the clogging being scaled to one at most.
func clearClogging(p Plan) Plan {
	for i := range p.Gates {
		g := &p.Gates[i]
		most := 1.0
		for _, c := range g.Clogging {
			most = math.Max(most, c.Factor)
		}
		if most == 1 {
			continue
		}
		by := new(float64)
		*by = most
		g.Outlet = sized(g.Outlet, by)
		for k := range g.Moves {
			g.Moves[k].Outlet = sized(g.Moves[k].Outlet, by)
		}
		g.Clogging = slices.Clone(g.Clogging)
		for k := range g.Clogging {
			g.Clogging[k].Factor /= most
		}
	}
	return p
}

// cost is half the sum to be minimised, with the residuals over their deviations.
func (f *fit) cost(x []float64) (float64, []float64, error) {
	h, err := f.model(x)
	if err != nil {
		return 0, nil, err
	}
	sum := 0.0
	for i := range h {
		h[i] = (float64(f.readings[i].Stage) - h[i]) / f.sd[i]
		sum += h[i] * h[i]
	}
	for k := range x {
		sum += (x[k] / f.prior[k]) * (x[k] / f.prior[k])
	}
	return sum / 2, h, nil
}

// solve finds the best factors and their covariance.
func (f *fit) solve() error {
	n := len(f.x)
	c, res, err := f.cost(f.x)
	if err != nil {
		return err
	}
	if n == 0 {
		f.residual, f.cov = res, nil
		return nil
	}
	damping := 1e-3
	for range 60 {
		jac, err := f.jacobian()
		if err != nil {
			return err
		}
		// The curvature J'J + P and the gradient J'r + P x.
		h, g := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
		for a := range n {
			ga := f.x[a] / (f.prior[a] * f.prior[a])
			for i := range res {
				ga += jac[a][i] * res[i]
			}
			g.SetVec(a, ga)
			for b := a; b < n; b++ {
				s := 0.0
				for i := range res {
					s += jac[a][i] * jac[b][i]
				}
				if a == b {
					s += 1 / (f.prior[a] * f.prior[a])
				}
				h.SetSym(a, b, s)
			}
		}
		f.cov = mat.NewSymDense(n, nil)
		var ch mat.Cholesky
		if !ch.Factorize(h) || ch.InverseTo(f.cov) != nil {
			return &units.InputError{Func: "drawdown.Plan.Calibrate", Field: "readings", Value: float64(len(res)), Kind: units.ErrNoConvergence, Reason: "the curvature of the fit is singular"}
		}
		better := false
		for range 12 {
			damped := mat.NewSymDense(n, nil)
			damped.CopySym(h)
			for a := range n {
				damped.SetSym(a, a, h.At(a, a)*(1+damping))
			}
			var step mat.VecDense
			if !ch.Factorize(damped) || ch.SolveVecTo(&step, g) != nil {
				damping *= 10
				continue
			}
			x := make([]float64, n)
			for a := range n {
				x[a] = f.x[a] - step.AtVec(a)
			}
			cx, rx, err := f.cost(x)
			if err != nil {
				return err
			}
			if cx <= c {
				done := mat.Norm(&step, 2) < 1e-7
				f.x, c, res, better = x, cx, rx, true
				damping = math.Max(1e-9, damping/10)
				if done {
					f.residual = res
					return nil
				}
				break
			}
			damping *= 10
		}
		if !better {
			break // at the bottom to rounding
		}
	}
	f.residual = res
	return nil
}

// jacobian is the derivative of the residuals by each free logarithm, by
// central differences.
func (f *fit) jacobian() ([][]float64, error) {
	const d = 1e-4
	jac := make([][]float64, len(f.x))
	for a := range f.x {
		x := slices.Clone(f.x)
		x[a] += d
		up, err := f.model(x)
		if err != nil {
			return nil, err
		}
		x[a] -= 2 * d
		down, err := f.model(x)
		if err != nil {
			return nil, err
		}
		jac[a] = make([]float64, len(up))
		for i := range up {
			jac[a][i] = -(up[i] - down[i]) / (2 * d) / f.sd[i]
		}
	}
	return jac, nil
}

// stretched is a pond with every area multiplied.
type stretched struct {
	Storage
	by float64
}

func (s stretched) Area(h units.Length) units.Area { return units.Area(s.by) * s.Storage.Area(h) }
func (s stretched) Volume(h units.Length) units.Volume {
	return units.Volume(s.by) * s.Storage.Volume(h)
}
func (s stretched) Stage(v units.Volume) units.Length {
	return s.Storage.Stage(v / units.Volume(s.by))
}
