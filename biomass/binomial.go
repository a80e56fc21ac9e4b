package biomass

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mathext"
	"pondwright.example/units"
)

// BinomialMethod is a way to bound a fraction from k of n, by author and year:
// [ClopperPearson1934], [Wilson1927] or [Jeffreys].
type BinomialMethod uint8

// The zero BinomialMethod is the exact interval of Clopper and Pearson, which
// never promises more than its confidence; the other two are shorter and right
// on average.
const (
	ClopperPearson1934 BinomialMethod = iota
	Wilson1927
	Jeffreys // equal-tailed, with the ends of Brown, Cai and DasGupta (2001)
)

var binomialNames = [...]string{"Clopper-Pearson 1934", "Wilson 1927", "Jeffreys"}

// String returns the name of m.
func (m BinomialMethod) String() string { return word("BinomialMethod", binomialNames[:], int(m)) }

// MarshalText writes the name of m.
func (m BinomialMethod) MarshalText() ([]byte, error) {
	return marshalWord("BinomialMethod", binomialNames[:], int(m))
}

// UnmarshalText reads the name of a BinomialMethod.
func (m *BinomialMethod) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("BinomialMethod", binomialNames[:], text)
	if err == nil {
		*m = BinomialMethod(i)
	}
	return err
}

// BinomialInterval returns the two-sided interval for a fraction of which k of n
// were seen, at the given confidence (zero means 0.95).
//
//	Clopper-Pearson: quantiles α/2 of Beta(k, n−k+1) and 1−α/2 of Beta(k+1, n−k)
//	Wilson:          (p + z²/2n ± z √(p(1−p)/n + z²/4n²)) / (1 + z²/n)
//	Jeffreys:        quantiles of Beta(k+½, n−k+½); 0 at k = 0, 1 at k = n
//
// Errors: ErrDomain for n below one, k outside 0 to n, a level outside 0 to 1 or
// an unknown method.
//
// Source: Clopper and Pearson (1934), Biometrika 26:404-413; Wilson (1927), J.
// Am. Stat. Assoc. 22:209-212; Brown, Cai and DasGupta (2001), "Interval
// estimation for a binomial proportion", Stat. Sci. 16:101-133 (from memory).
func BinomialInterval(k, n int, level float64, method BinomialMethod) (low, high float64, err error) {
	const fn = "biomass.BinomialInterval"
	level, err = confidence(fn, level)
	if n < 1 {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "n", Value: float64(n), Reason: "at least one animal"})
	}
	if k < 0 || k > n {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "k", Value: float64(k), Min: 0, Max: float64(n),
			Reason: "cannot be negative or more than n"})
	}
	if int(method) >= len(binomialNames) {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "method", Value: float64(method), Reason: "unknown method"})
	}
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	a := (1 - level) / 2
	x, m := float64(k), float64(n-k)
	switch method {
	case Wilson1927:
		low, high = wilson(k, n, level)
	case Jeffreys:
		low, high = 0, 1
		if k > 0 {
			low = betaQuantile(a, x+0.5, m+0.5)
		}
		if k < n {
			high = betaQuantile(1-a, x+0.5, m+0.5)
		}
	default:
		low, high = 0, 1
		if k > 0 {
			low = betaQuantile(a, x, m+1)
		}
		if k < n {
			high = betaQuantile(1-a, x+1, m)
		}
	}
	if err := soundAll(fn, low, high); err != nil {
		return math.NaN(), math.NaN(), err
	}
	return low, high, nil
}

func wilson(k, n int, level float64) (low, high float64) {
	z := normalQuantile((1 + level) / 2)
	f := float64(n)
	p := float64(k) / f
	centre := p + z*z/(2*f)
	half := z * math.Sqrt(p*(1-p)/f+z*z/(4*f*f))
	scale := 1 + z*z/f
	// At the ends the exact limit is 0 or 1; rounding must not leave it short.
	low, high = (centre-half)/scale, (centre+half)/scale
	if k == 0 {
		low = 0
	}
	if k == n {
		high = 1
	}
	return low, high
}

// betaQuantile is the quantile of the Beta(a, b) distribution.
func betaQuantile(p, a, b float64) float64 { return mathext.InvRegIncBeta(a, b, p) }

// gammaQuantile is the quantile of the Gamma distribution of shape a and scale 1.
func gammaQuantile(p, a float64) float64 { return mathext.GammaIncRegInv(a, p) }
