package biomass

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/mathext"
	"pondwright.example/units"
)

// InverseVariance returns the minimum-variance mean of independent unbiased
// values and its standard error, each value weighted by 1/sd². Values and
// standard errors share one unit.
//
//	m = Σ xᵢ/sᵢ² / Σ 1/sᵢ²,  s = 1/√(Σ 1/sᵢ²)
//
// With errors that grow with the value it leans to the low values; [Blend]
// weighs on the logarithmic scale instead.
//
// Errors: ErrDomain for lists of different length, no values, a value that is
// not finite or a standard error that is not above zero.
//
// Source: Cochran (1954), "The combination of estimates from different
// experiments", Biometrics 10:101-129 (from memory).
func InverseVariance(values, sds []float64) (mean, sd float64, err error) {
	const fn = "biomass.InverseVariance"
	nan := math.NaN()
	if len(values) != len(sds) || len(values) == 0 {
		return nan, nan, &units.InputError{Func: fn, Field: "sds", Value: float64(len(sds)),
			Reason: "one standard error is needed for each value, and at least one value"}
	}
	sum, weight := 0.0, 0.0
	for i, x := range values {
		if err := units.Finite(fn, indexed("values", i), x, ""); err != nil {
			return nan, nan, err
		}
		if err := units.Positive(fn, indexed("sds", i), sds[i], ""); err != nil {
			return nan, nan, err
		}
		w := 1 / (sds[i] * sds[i])
		sum += w * x
		weight += w
	}
	mean, sd = sum/weight, 1/math.Sqrt(weight)
	if err := soundAll(fn, mean, sd); err != nil {
		return nan, nan, err
	}
	return mean, sd, nil
}

// BlendResult is a blend with what it says about its parts.
type BlendResult struct {
	Estimate Estimate `json:"estimate"`
	// Weights of the parts on the logarithmic scale, in their order; they sum to
	// one.
	Weights []float64 `json:"weights"`
	// Agreement is the probability of parts as far apart as these, or farther,
	// if all of them measure one mass; 1 for a single part.
	Agreement float64        `json:"agreement"`
	Notices   []units.Notice `json:"notices,omitempty"`
}

// disagreement is the Agreement below which a notice is raised.
const disagreement = 0.05

// Blend combines estimates of one mass into the one of least variance.
//
// On the logarithmic scale the parts have the covariance V, with their own
// errors on the diagonal and the product of the errors they have in common
// (equal Name, Common set) everywhere:
//
//	w = V⁻¹1 / (1ᵀV⁻¹1),  ln B = Σ wᵢ ln Bᵢ,  var = 1/(1ᵀV⁻¹1)
//
// Without common errors it is the inverse-variance mean of the logarithms. A
// common error, such as the mean weight behind two counts, stays in full.
//
// A Caution is raised when the parts differ by more than their errors explain
// (chi-square, below 5 %) and when a part gets a negative weight.
//
// Errors: ErrDomain for no parts, a part without a positive median, or a part
// whose every error is common.
//
// Source: generalised least squares for one mean: Rao (1973), Linear Statistical
// Inference, sec. 4a (from memory). The logarithmic scale is this package's
// choice: crop errors are relative.
func Blend(name string, parts ...Estimate) (BlendResult, error) {
	const fn = "biomass.Blend"
	if err := checkParts(fn, parts); err != nil {
		return BlendResult{}, err
	}
	if len(parts) == 1 {
		e := parts[0].clone()
		e.Name = name
		if err := e.sound(fn); err != nil {
			return BlendResult{}, err
		}
		return BlendResult{Estimate: e, Weights: []float64{1}, Agreement: 1}, nil
	}
	n := len(parts)
	v := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			v.SetSym(i, j, covariance(parts[i], parts[j], i == j))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(v) {
		return BlendResult{}, &units.InputError{Func: fn, Field: "parts", Value: float64(n), Kind: units.ErrNoSolution,
			Reason: "their common errors leave no weights of least variance"}
	}
	ones := mat.NewVecDense(n, nil)
	logs := mat.NewVecDense(n, nil)
	for i, p := range parts {
		ones.SetVec(i, 1)
		logs.SetVec(i, math.Log(p.P50.Kilograms()))
	}
	var w mat.VecDense
	if err := chol.SolveVecTo(&w, ones); err != nil {
		return BlendResult{}, &units.InputError{Func: fn, Field: "parts", Value: float64(n), Kind: units.ErrNoSolution, Reason: err.Error()}
	}
	precision := mat.Dot(ones, &w)
	w.ScaleVec(1/precision, &w)
	logMean := mat.Dot(&w, logs)

	r := BlendResult{Estimate: Estimate{Name: name}, Weights: make([]float64, n)}
	for i := range n {
		r.Weights[i] = w.AtVec(i)
	}
	r.Estimate.spread(math.Exp(logMean), 1/precision)
	r.Estimate.Budget = blendBudget(parts, r.Weights)
	r.Estimate.share(func(c Component) float64 { return math.Log1p(c.CV * c.CV) })
	r.Agreement = agreement(&chol, logs, logMean)
	if err := errors.Join(r.Estimate.sound(fn), soundAll(fn, r.Weights...), soundAll(fn, r.Agreement)); err != nil {
		return BlendResult{}, err
	}
	r.notice(parts)
	return r, nil
}

func checkParts(fn string, parts []Estimate) error {
	if len(parts) == 0 {
		return &units.InputError{Func: fn, Field: "parts", Value: 0, Reason: "at least one estimate is needed"}
	}
	var all []error
	for i, p := range parts {
		at := indexed("parts", i)
		all = append(all, units.Positive(fn, at+".p50", p.P50.Kilograms(), "kg"), units.NonNegative(fn, at+".logSD", p.LogSD, ""),
			units.NonNegative(fn, at+".p10", p.P10.Kilograms(), "kg"), units.NonNegative(fn, at+".p90", p.P90.Kilograms(), "kg"), units.NonNegative(fn, at+".cv", p.CV, ""))
		own := 0.0
		for k, c := range p.Budget {
			all = append(all, units.NonNegative(fn, at+"."+indexed("budget", k)+".cv", c.CV, ""),
				units.Finite(fn, at+"."+indexed("budget", k)+".share", c.Share, ""))
			if !c.Common {
				own += c.CV
			}
		}
		if len(parts) > 1 && !(own > 0) {
			all = append(all, &units.InputError{Func: fn, Field: at + ".budget", Value: own,
				Reason: "each estimate needs an error of its own; one that is exact needs no blend"})
		}
	}
	return errors.Join(all...)
}

// covariance of the logarithms of a and b; same tells that they are one part.
func covariance(a, b Estimate, same bool) float64 {
	sum := 0.0
	for _, x := range a.Budget {
		if same {
			sum += math.Log1p(x.CV * x.CV)
			continue
		}
		for _, y := range b.Budget {
			if x.Common && y.Common && x.Name == y.Name {
				sum += math.Log1p(x.CV * y.CV)
			}
		}
	}
	return sum
}

// blendBudget lists the errors of a blend: an error of one part times the part's
// weight, a common error once with the sum of its weighted values.
func blendBudget(parts []Estimate, weights []float64) []Component {
	var out []Component
	for i, p := range parts {
		for _, c := range p.Budget {
			s := weights[i] * logSD(c.CV)
			k := -1
			for j := range out {
				if out[j].Name == c.Name && out[j].Common && c.Common {
					k = j
				}
			}
			if k < 0 {
				out = append(out, Component{Name: c.Name, Common: c.Common, CV: s})
			} else {
				out[k].CV += s
			}
		}
	}
	for j := range out { // from a standard deviation of the logarithm back to a cv
		out[j].CV = math.Sqrt(math.Expm1(out[j].CV * out[j].CV))
	}
	return out
}

// agreement is the upper tail of chi-square with n-1 degrees of freedom at the
// weighted sum of squared differences from the blend.
func agreement(chol *mat.Cholesky, logs *mat.VecDense, logMean float64) float64 {
	n := logs.Len()
	d := mat.NewVecDense(n, nil)
	for i := range n {
		d.SetVec(i, logs.AtVec(i)-logMean)
	}
	var s mat.VecDense
	if err := chol.SolveVecTo(&s, d); err != nil {
		return 0
	}
	return mathext.GammaIncRegComp(float64(n-1)/2, mat.Dot(d, &s)/2)
}

func (r *BlendResult) notice(parts []Estimate) {
	if r.Agreement < disagreement {
		r.Notices = append(r.Notices, units.Notice{Code: CodeDisagreement, Severity: units.Caution,
			Field: "parts", Value: r.Agreement, Limit: disagreement,
			Message: "the estimates differ by more than their stated errors explain: look for a bias before using the blend"})
	}
	for i, w := range r.Weights {
		if w < 0 {
			r.Notices = append(r.Notices, units.Notice{Code: CodeNegativeWeight, Severity: units.Caution,
				Field: indexed("parts", i), Value: w,
				Message: parts[i].Name + " enters with a negative weight, because it shares a larger error than its own"})
		}
	}
}
