package biomass

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mathext"
	"pondwright.example/units"
)

// RemovalPriors are what is believed before the passes.
type RemovalPriors struct {
	// Max is the largest population held possible, all sizes from the number
	// caught up to it equally likely. It must be stated: where the passes decline
	// little, the answer depends on it.
	Max int `json:"max"`
	// A and B are the parameters of a Beta prior on the capture probability; both
	// zero means uniform, A = B = 1.
	A float64 `json:"a"`
	B float64 `json:"b"`
}

// RemovalBelief is the posterior distribution of the population.
type RemovalBelief struct {
	Mean   float64 `json:"mean"`
	Mode   int     `json:"mode"`
	Q025   int     `json:"q025"`
	P10    int     `json:"p10"`
	Median int     `json:"median"`
	P90    int     `json:"p90"`
	Q975   int     `json:"q975"`
	// AtMax is the probability of the largest tenth of the sizes allowed.
	AtMax   float64        `json:"atMax"`
	Notices []units.Notice `json:"notices,omitempty"`
}

// maxPosterior bounds the work of one posterior.
const maxPosterior = 2_000_000

// RemovalPosterior returns what equal passes tell of the population, with the
// capture probability integrated out.
//
//	P(N) ∝ N!/(N−T)! · B(T+a, kN−X−T+b),  T ≤ N ≤ Max
//
// with B the beta function. Its mode, for the uniform prior, is [CarleStrub]. A
// notice is raised when more than 1 % of the probability lies in the largest
// tenth of the sizes allowed: then Max, not the catches, makes the upper end.
//
// Errors: ErrDomain for fewer than two passes, a negative catch, a Max below the
// number caught or above 2 million, or a prior parameter not above zero;
// ErrNoSolution when nothing was caught.
//
// Source: closed-form integral of the likelihood of Moran (1951) over a Beta
// prior; Carle and Strub (1978), Biometrics 34:621-630.
func RemovalPosterior(catches []int, prior RemovalPriors) (RemovalBelief, error) {
	const fn = "biomass.RemovalPosterior"
	s, err := sumPasses(fn, catches)
	if prior.A == 0 && prior.B == 0 {
		prior.A, prior.B = 1, 1
	}
	err = errors.Join(err, units.Positive(fn, "prior.a", prior.A, ""), units.Positive(fn, "prior.b", prior.B, ""))
	if !(float64(prior.Max) >= s.total) || prior.Max > maxPosterior {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "prior.max", Value: float64(prior.Max), Unit: "animals", Min: s.total, Max: maxPosterior,
			Reason: "state the largest population held possible, not below the number caught"})
	}
	if err != nil {
		return RemovalBelief{}, err
	}
	least := int(s.total)
	weight := make([]float64, prior.Max-least+1)
	best := math.Inf(-1)
	for i := range weight {
		n := float64(least + i)
		weight[i] = passLogLikelihood(n, s.total, mathext.Lbeta(s.total+prior.A, s.k*n-s.x-s.total+prior.B))
		best = math.Max(best, weight[i])
	}
	var r RemovalBelief
	total := 0.0
	for i, w := range weight {
		if w == best && r.Mode == 0 {
			r.Mode = least + i
		}
		weight[i] = math.Exp(w - best)
		total += weight[i]
	}
	targets := [...]struct {
		p  float64
		to *int
	}{{0.025, &r.Q025}, {0.1, &r.P10}, {0.5, &r.Median}, {0.9, &r.P90}, {0.975, &r.Q975}}
	next, sum := 0, 0.0
	lastTenth := prior.Max - len(weight)/10
	for i, w := range weight {
		sum += w / total
		r.Mean += w / total * float64(i)
		for next < len(targets) && sum >= targets[next].p {
			*targets[next].to = least + i
			next++
		}
		if least+i > lastTenth {
			r.AtMax += w / total
		}
	}
	r.Mean += float64(least)
	if r.AtMax > 0.01 {
		r.Notices = append(r.Notices, units.Notice{Code: CodePriorBinds, Severity: units.Warning, Field: "prior.max",
			Value: r.AtMax, Limit: 0.01,
			Message: "the passes decline too little to bound the population: its upper end is the largest one allowed"})
	}
	return r, nil
}
