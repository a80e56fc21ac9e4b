package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// SampleSizeInput asks how many animals to weigh, or casts to throw.
type SampleSizeInput struct {
	// CV is the coefficient of variation between single observations, a fraction.
	CV float64 `json:"cv"`
	// HalfWidth is the relative half width wanted of the interval, a fraction of
	// the mean.
	HalfWidth float64 `json:"halfWidth"`
	// Level is the confidence; zero means 0.95.
	Level float64 `json:"level"`
	// Population is the size of a finite population; zero means very large.
	Population int `json:"population"`
}

// maxSampleSize bounds the answers; beyond it the question is a slip.
const maxSampleSize = 1e9

// SampleSize returns the number of observations whose normal interval has the
// half width wanted.
//
//	n₀ = (z cv/e)²,  n = n₀/(1 + n₀/N), rounded up
//
// It is the planning formula of the handbooks and is one to three short for
// small samples; [SampleSizeT] is not.
//
// Errors: ErrDomain for a cv or half width not above zero, a level outside 0 to
// 1 or a negative population; ErrNoSolution when more than 10⁹ would be needed.
//
// Source: Cochran (1977), Sampling Techniques, 3rd ed., eq. 4.4 to 4.6 (from
// memory).
func SampleSize(in SampleSizeInput) (int, error) {
	const fn = "biomass.SampleSize"
	level, err := in.validate(fn)
	if err != nil {
		return 0, err
	}
	z := normalQuantile((1 + level) / 2)
	n := math.Pow(z*in.CV/in.HalfWidth, 2)
	if in.Population > 0 {
		n /= 1 + n/float64(in.Population)
	}
	if !(n <= maxSampleSize) {
		return 0, tooMany(fn, in)
	}
	return max(1, int(math.Ceil(n-1e-9*n))), nil // an exact integer must not be pushed up by rounding
}

// SampleSizeT returns the smallest number of observations, two or more, whose t
// interval has the half width wanted, with the finite-population correction when
// Population is given.
//
//	t(n−1) cv/√n · √(1 − n/N) ≤ e
//
// Errors: as [SampleSize].
//
// Source: Cochran (1977), Sampling Techniques, 3rd ed., sec. 4.6 (from memory).
func SampleSizeT(in SampleSizeInput) (int, error) {
	const fn = "biomass.SampleSizeT"
	level, err := in.validate(fn)
	if err != nil {
		return 0, err
	}
	p := (1 + level) / 2
	enough := func(n int) bool {
		half := studentQuantile(p, float64(n-1)) * in.CV / math.Sqrt(float64(n))
		if in.Population > 0 {
			half *= math.Sqrt(math.Max(0, 1-float64(n)/float64(in.Population)))
		}
		return half <= in.HalfWidth
	}
	// The half width falls with n: double until enough, then bisect.
	hi := 2
	for !enough(hi) {
		if hi > maxSampleSize {
			return 0, tooMany(fn, in)
		}
		hi *= 2
	}
	lo := hi / 2 // not enough, or 1
	for hi-lo > 1 {
		if mid := lo + (hi-lo)/2; enough(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, nil
}

func (in SampleSizeInput) validate(fn string) (float64, error) {
	level, err := confidence(fn, in.Level)
	all := []error{err, units.Positive(fn, "cv", in.CV, ""), units.Positive(fn, "halfWidth", in.HalfWidth, "")}
	if in.Population < 0 {
		all = append(all, units.NonNegative(fn, "population", float64(in.Population), "animals"))
	}
	return level, errors.Join(all...)
}

func tooMany(fn string, in SampleSizeInput) error {
	return &units.InputError{Func: fn, Field: "halfWidth", Value: in.HalfWidth, Kind: units.ErrNoSolution,
		Reason: "would need more than a thousand million observations"}
}

// ZeroAcceptanceSample returns the smallest number of animals to examine so that,
// if none is found faulty, the faulty fraction is below limit with the given
// confidence (zero means 0.95): 59 for 5 %.
//
//	n = ln(1 − level)/ln(1 − limit), rounded up
//
// Errors: ErrDomain for a limit or level outside 0 to 1; ErrNoSolution when more
// than 10⁹ would be needed.
//
// Source: binomial probability of no faults; the exact form of the rule of three,
// Hanley and Lippman-Hand (1983), JAMA 249:1743-1745, as told in JAMA 274:1013
// (1995).
func ZeroAcceptanceSample(limit, level float64) (int, error) {
	const fn = "biomass.ZeroAcceptanceSample"
	level, err := confidence(fn, level)
	if !(limit > 0 && limit < 1) {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "limit", Value: limit, Reason: "a fraction above 0 and below 1"})
	}
	if err != nil {
		return 0, err
	}
	n := math.Log1p(-level) / math.Log1p(-limit)
	if !(n <= maxSampleSize) {
		return 0, &units.InputError{Func: fn, Field: "limit", Value: limit, Kind: units.ErrNoSolution,
			Reason: "would need more than a thousand million observations"}
	}
	return max(1, int(math.Ceil(n-1e-12*n))), nil
}
