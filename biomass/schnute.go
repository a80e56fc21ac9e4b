package biomass

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"pondwright.example/units"
)

// SchnuteResult is a removal estimate whose first pass catches another fraction
// than the later ones.
type SchnuteResult struct {
	N  float64 `json:"n"`
	P1 float64 `json:"p1"` // fraction caught by the first pass
	P  float64 `json:"p"`  // fraction caught by each later pass
	// LikelihoodRatio is twice the gain in log likelihood over one constant
	// probability, PValue its chi-square tail on one degree of freedom: a small one
	// says that the first pass was different. Both are zero when the constant model
	// has no estimate.
	LikelihoodRatio float64 `json:"likelihoodRatio"`
	PValue          float64 `json:"pValue"`
}

// Schnute returns the removal estimate with a capture probability of its own for
// the first pass, which fits a first flush that takes the willing animals. N is
// the root of
//
//	ψ(N+1) − ψ(N−T+1) + ln(1 − p₁) + (k−1) ln(1 − p) = 0
//	p₁ = c₁/N,  p = T'/((k−1)N' − X')
//
// where N' = N − c₁ and T', X' are the sums of the later passes.
//
// Errors: ErrDomain for fewer than three passes or a negative catch;
// ErrNoSolution when nothing was caught or the later passes do not decline.
//
// Source: Schnute (1983), "A new approach to estimating populations by the
// removal method", Can. J. Fish. Aquat. Sci. 40:2153-2169, eq. 3.7 and 3.8, read in
// the R package FSA.
func Schnute(catches []int) (SchnuteResult, error) {
	const fn = "biomass.Schnute"
	if len(catches) < 3 {
		return SchnuteResult{}, &units.InputError{Func: fn, Field: "catches", Value: float64(len(catches)), Reason: "at least three passes are needed"}
	}
	s, err := sumPasses(fn, catches)
	if err != nil {
		return SchnuteResult{}, err
	}
	first := float64(catches[0])
	later, err := sumPasses(fn, catches[1:])
	if err != nil {
		return SchnuteResult{}, &units.InputError{Func: fn, Field: "catches", Value: first, Unit: "animals", Kind: units.ErrNoSolution,
			Reason: "nothing was caught after the first pass, so the later passes have no probability to find; CarleStrub answers"}
	}
	// The coefficient of 1/N in the log likelihood at large N; it passes a maximum
	// only when it comes down to its limit (compare passes.finite).
	if !(2*later.x*later.total > later.k*(later.total*later.total-s.total)-later.total*later.total) {
		return SchnuteResult{}, noDecline(fn, s.total)
	}
	slope := func(n float64) float64 {
		left := n - first
		if !(later.k*left-later.x > later.total) {
			return -1
		}
		return mathext.Digamma(n+1) - mathext.Digamma(n-s.total+1) + math.Log1p(-first/n) + later.k*math.Log1p(-later.p(left))
	}
	n, err := likeliest(fn, s.total, slope)
	if err != nil {
		return SchnuteResult{}, err
	}
	r := SchnuteResult{N: n, P1: first / n, P: later.p(n - first)}
	if constant, err := RemovalML(catches); err == nil {
		gain := passLogLikelihood(n, s.total, passTerm(n, first, 1, 0)+passTerm(n-first, later.total, later.k, later.x)) -
			passLogLikelihood(constant.N, s.total, passTerm(constant.N, s.total, s.k, s.x))
		r.LikelihoodRatio = 2 * math.Max(0, gain)
		r.PValue = mathext.GammaIncRegComp(0.5, r.LikelihoodRatio/2)
	}
	return r, nil
}

// passLogLikelihood is ln[N!/(N−T)!] plus the terms of the capture probabilities.
func passLogLikelihood(n, total, terms float64) float64 {
	a, _ := math.Lgamma(n + 1)
	b, _ := math.Lgamma(n - total + 1)
	return a - b + terms
}

// passTerm is T ln p + (kN − X − T) ln(1 − p) at its greatest.
func passTerm(n, total, k, x float64) float64 {
	p := total / (k*n - x)
	term := 0.0
	if total > 0 {
		term += total * math.Log(p)
	}
	if left := k*n - x - total; left > 0 {
		term += left * math.Log1p(-p)
	}
	return term
}
