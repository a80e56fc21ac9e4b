package biomass

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mathext"
	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// Removal is the estimate of a closed population from the catches of repeated
// passes of equal effort, such as flushes of a catch basin.
type Removal struct {
	N  float64 `json:"n"`  // animals before the first pass
	P  float64 `json:"p"`  // fraction caught by one pass
	SE float64 `json:"se"` // large-sample standard error of N; zero when nothing is left to estimate
	// Total is the number caught in all Passes; N − Total are left.
	Total  int `json:"total"`
	Passes int `json:"passes"`
	// ChiSquare compares catches with expectation on DOF degrees of freedom; both
	// are zero for two passes.
	ChiSquare float64 `json:"chiSquare"`
	DOF       int     `json:"dof"`
	// ScaledSE is SE · √(χ²/dof) when that is larger: animals that come in schools
	// vary more than the binomial law says.
	ScaledSE float64        `json:"scaledSE"`
	Notices  []units.Notice `json:"notices,omitempty"`
}

// Left returns the number of animals estimated to be left after the passes made.
//
// Source: by definition.
func (r Removal) Left() float64 { return math.Max(0, r.N-float64(r.Total)) }

// NextPass returns the number of animals that one more pass of the same effort is
// expected to catch, Left · P.
//
// Source: by definition of the capture probability.
func (r Removal) NextPass() float64 { return r.Left() * r.P }

// PassesToRecover returns the number of further passes after which the given
// fraction of all animals, above 0 and below 1, is expected to be caught; zero
// when it has been.
//
//	m = ln((1 − f) N/left)/ln(1 − p), rounded up
//
// Errors: ErrDomain for a fraction outside 0 to 1; ErrNoSolution when a pass
// catches nothing.
//
// Source: by definition of the capture probability.
func (r Removal) PassesToRecover(fraction float64) (int, error) {
	const fn = "biomass.Removal.PassesToRecover"
	if !(fraction > 0 && fraction < 1) {
		return 0, &units.InputError{Func: fn, Field: "fraction", Value: fraction, Reason: "a fraction above 0 and below 1"}
	}
	left, may := r.Left(), (1-fraction)*r.N
	if left <= may {
		return 0, nil
	}
	if !(r.P > 0) {
		return 0, &units.InputError{Func: fn, Field: "p", Value: r.P, Kind: units.ErrNoSolution, Reason: "a pass catches nothing"}
	}
	if r.P >= 1 {
		return 1, nil
	}
	m := math.Log(may/left) / math.Log1p(-r.P)
	if m > maxPasses {
		return 0, &units.InputError{Func: fn, Field: "p", Value: r.P, Kind: units.ErrNoSolution, Reason: "would need more than a million passes"}
	}
	return int(math.Ceil(m - 1e-12*m)), nil // an exact integer must not be pushed up by rounding
}

// maxPasses bounds a plan of further passes.
const maxPasses = 1e6

// passes are the sums of a removal experiment.
type passes struct {
	k     float64 // passes
	total float64 // T = Σ cᵢ
	x     float64 // X = Σ (k − i) cᵢ
}

func sumPasses(fn string, catches []int) (passes, error) {
	var all []error
	if len(catches) < 2 {
		all = append(all, &units.InputError{Func: fn, Field: "catches", Value: float64(len(catches)), Reason: "at least two passes are needed"})
	}
	s := passes{k: float64(len(catches))}
	for i, c := range catches {
		if c < 0 {
			all = append(all, units.NonNegative(fn, indexed("catches", i), float64(c), "animals"))
		}
		s.total += float64(c)
		s.x += (s.k - float64(i+1)) * float64(c)
	}
	if s.total > math.MaxInt32 {
		all = append(all, &units.InputError{Func: fn, Field: "catches", Value: s.total, Unit: "animals in all", Max: math.MaxInt32, Reason: "more than can be counted here"})
	}
	if len(all) == 0 && s.total == 0 {
		all = append(all, &units.InputError{Func: fn, Field: "catches", Value: 0, Kind: units.ErrNoSolution, Reason: "nothing was caught in any pass"})
	}
	return s, errors.Join(all...)
}

// p is the capture probability of greatest likelihood for a population n.
func (s passes) p(n float64) float64 { return s.total / (s.k*n - s.x) }

// finite tells whether the likelihood has a maximum at a finite population:
// without enough decline from pass to pass it only rises. In powers of 1/N the log
// likelihood is its limit plus T (2X − (T−1)(k−1) + 1)/2k · 1/N, and where that
// coefficient is zero, minus T (T²(1 − 1/k²) − 1)/24 · 1/N²: it comes down to its
// limit, and so has passed a maximum, only when the first is positive.
func (s passes) finite() bool { return s.x > ((s.total-1)*(s.k-1)-1)/2 }

func noDecline(fn string, caught float64) error {
	return &units.InputError{Func: fn, Field: "catches", Value: caught, Unit: "animals in all", Kind: units.ErrNoSolution,
		Reason: "they do not fall from pass to pass, so no finite population is the most likely; CarleStrub or RemovalPosterior still answer"}
}

// maxPopulation bounds the searches.
const maxPopulation = 1e15

// Zippin returns the integer population of greatest likelihood for equal passes,
// with its large-sample standard error.
//
//	L(N) ∝ N!/(N−T)! pᵀ qᵏᴺ⁻ˣ⁻ᵀ,  p = T/(kN − X),  X = Σ (k−i) cᵢ
//	var N = N (1−qᵏ) qᵏ / [(1−qᵏ)² − (pk)² qᵏ⁻¹]
//
// The tables and charts once used for it may differ by one.
//
// Errors: ErrDomain for fewer than two passes or a negative catch;
// ErrNoSolution when nothing was caught or the catches do not decline.
//
// Source: Moran (1951), Biometrika 38:307-311; Zippin (1956), "An evaluation of
// the removal method of estimating animal populations", Biometrics 12:163-189
// (from memory); variance: Seber (1982), The Estimation of Animal Abundance, 2nd
// ed., eq. 7.23, read in the R package FSA.
func Zippin(catches []int) (Removal, error) {
	const fn = "biomass.Zippin"
	s, err := sumPasses(fn, catches)
	if err != nil {
		return Removal{}, err
	}
	if !s.finite() {
		return Removal{}, noDecline(fn, s.total)
	}
	n, ok := firstFalse(s.total, func(n float64) bool { return s.step(n) > 0 })
	if !ok {
		return Removal{}, noDecline(fn, s.total)
	}
	return s.result(n, catches), nil
}

// step is ln L(n+1) − ln L(n) of the profile likelihood.
func (s passes) step(n float64) float64 {
	missed := func(n float64) float64 { // ln of qᵏᴺ⁻ˣ⁻ᵀ
		left := s.k*n - s.x - s.total
		if left == 0 {
			return 0
		}
		return left * math.Log1p(-s.p(n))
	}
	return -math.Log1p(-s.total/(n+1)) - s.total*math.Log1p(s.k/(s.k*n-s.x)) + missed(n+1) - missed(n)
}

// firstFalse returns the smallest integer n, from first upwards, at which up is
// false, for an up that is true below some number and false above.
func firstFalse(first float64, up func(float64) bool) (float64, bool) {
	if !up(first) {
		return first, true
	}
	lo, width := first, 1.0
	for up(lo + width) {
		lo += width
		width *= 2
		if lo > maxPopulation {
			return 0, false
		}
	}
	hi := lo + width
	for hi-lo > 1 {
		if mid := math.Floor(lo + (hi-lo)/2); up(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi, true
}

// RemovalML returns the population of greatest likelihood when N may be any real
// number, the root of
//
//	ψ(N+1) − ψ(N−T+1) + k ln(1 − p) = 0
//
// with ψ the digamma function. It is the form in which the constant-probability
// model is usually published; [Zippin] is its integer form.
//
// Errors: as [Zippin].
//
// Source: Moran (1951); Schnute (1983), "A new approach to estimating
// populations by the removal method", Can. J. Fish. Aquat. Sci. 40:2153-2169, eq.
// 3.2, read in the R package FSA.
func RemovalML(catches []int) (Removal, error) {
	const fn = "biomass.RemovalML"
	s, err := sumPasses(fn, catches)
	if err != nil {
		return Removal{}, err
	}
	if !s.finite() {
		return Removal{}, noDecline(fn, s.total)
	}
	slope := func(n float64) float64 {
		if !(s.k*n-s.x > s.total) {
			return -1 // all were caught in the first pass
		}
		return mathext.Digamma(n+1) - mathext.Digamma(n-s.total+1) + s.k*math.Log1p(-s.p(n))
	}
	n, err := likeliest(fn, s.total, slope)
	if err != nil {
		return Removal{}, err
	}
	return s.result(n, catches), nil
}

// likeliest returns the root of a slope that falls through zero above least, or
// least when it is not positive there.
func likeliest(fn string, least float64, slope func(float64) float64) (float64, error) {
	if !(slope(least) > 0) {
		return least, nil
	}
	hi := least + 1
	for slope(hi) > 0 {
		hi = least + 2*(hi-least)
		if hi > 1e6*least { // beyond this the slope drowns in rounding
			return 0, noDecline(fn, least)
		}
	}
	return root.Find(slope, least, hi, 1e-9)
}

// CarleStrub returns the weighted likelihood estimate of the population, with a
// uniform prior on the capture probability: the smallest N ≥ T with
//
//	(N+1)/(N−T+1) · Π (kN−X−T+1+k−i)/(kN−X+2+k−i) ≤ 1
//
// It always exists, also when the catches do not decline, and has less bias than
// [Zippin] for small populations. SE is the large-sample one of [Zippin].
//
// Errors: ErrDomain for fewer than two passes or a negative catch;
// ErrNoSolution when nothing was caught.
//
// Source: Carle and Strub (1978), "A new method for estimating population size
// from removal data", Biometrics 34:621-630.
func CarleStrub(catches []int) (Removal, error) {
	const fn = "biomass.CarleStrub"
	s, err := sumPasses(fn, catches)
	if err != nil {
		return Removal{}, err
	}
	n, ok := firstFalse(s.total, func(n float64) bool {
		ratio := (n + 1) / (n - s.total + 1)
		m := s.k*n - s.x
		for i := 1.0; i <= s.k; i++ {
			ratio *= (m - s.total + 1 + s.k - i) / (m + 2 + s.k - i)
		}
		return ratio > 1
	})
	if !ok {
		return Removal{}, noDecline(fn, s.total)
	}
	return s.result(n, catches), nil
}

// result fills the estimate for a population n.
func (s passes) result(n float64, catches []int) Removal {
	r := Removal{N: n, P: s.p(n), Total: int(s.total), Passes: len(catches)}
	r.SE = removalSE(n, r.P, s.k)
	r.ScaledSE = r.SE
	if r.P < 1 {
		expected := n * r.P
		for _, c := range catches {
			d := float64(c) - expected
			r.ChiSquare += d * d / expected
			expected *= 1 - r.P
		}
	}
	r.DOF = len(catches) - 2
	if r.DOF < 1 {
		r.DOF, r.ChiSquare = 0, 0
		return r
	}
	r.ScaledSE *= math.Max(1, math.Sqrt(r.ChiSquare/float64(r.DOF)))
	return r
}

// removalSE is the large-sample standard error of a removal estimate.
func removalSE(n, p, k float64) float64 {
	if p >= 1 {
		return 0
	}
	q := 1 - p
	missed := math.Pow(q, k) // escaped every pass
	caught := 1 - missed
	d := caught*caught - p*k*p*k*math.Pow(q, k-1)
	if !(d > 0) {
		return 0
	}
	return math.Sqrt(n * caught * missed / d)
}
