package biomass

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mathext"
	"pondwright.example/units"
)

// Lognormal is a positive quantity whose natural logarithm is normal, the
// customary shape of a product of several uncertain factors. Median carries the
// unit of the quantity; LogSD is the standard deviation of the logarithm.
//
// Its methods are finite for every finite Median > 0 and LogSD from 0 to 18 and
// allocate nothing.
//
// Source: Johnson, Kotz and Balakrishnan (1994), Continuous Univariate
// Distributions vol. 1, ch. 14 (from memory).
type Lognormal struct {
	Median float64 `json:"median"`
	LogSD  float64 `json:"logSD"`
}

// LognormalFromMean returns the Lognormal with the given mean (any unit, above
// zero) and coefficient of variation cv (a fraction, not negative).
//
//	s² = ln(1 + cv²),  median = mean / √(1 + cv²)
//
// Errors: ErrDomain for a mean that is not above zero or a negative cv.
//
// Source: see [Lognormal].
func LognormalFromMean(mean, cv float64) (Lognormal, error) {
	const fn = "biomass.LognormalFromMean"
	if err := units.Positive(fn, "mean", mean, ""); err != nil {
		return Lognormal{}, err
	}
	if err := units.NonNegative(fn, "cv", cv, ""); err != nil {
		return Lognormal{}, err
	}
	l := Lognormal{Median: mean / math.Hypot(1, cv), LogSD: logSD(cv)}
	if err := soundAll(fn, l.LogSD); err != nil || l.Median == 0 {
		return Lognormal{}, errors.Join(err, units.Positive(fn, "median", l.Median, ""))
	}
	return l, nil
}

// Mean returns the arithmetic mean, Median · exp(LogSD²/2).
func (l Lognormal) Mean() float64 { return held(l.Median * math.Exp(l.LogSD*l.LogSD/2)) }

// CV returns the coefficient of variation, √(exp(LogSD²) − 1).
func (l Lognormal) CV() float64 { return held(math.Sqrt(math.Expm1(l.LogSD * l.LogSD))) }

// SD returns the standard deviation, in the unit of Median.
func (l Lognormal) SD() float64 { return held(l.Mean() * l.CV()) }

// Quantile returns the value below which a fraction p lies, 0 < p < 1; a p
// outside is taken as the nearest probability inside, so that the result stays
// finite.
func (l Lognormal) Quantile(p float64) float64 {
	return held(l.Median * math.Exp(l.LogSD*normalQuantile(p)))
}

// CDF returns the probability of a value of at most x, in the unit of Median.
func (l Lognormal) CDF(x float64) float64 {
	if !(x > 0) {
		return 0
	}
	d := math.Log(x / l.Median)
	if l.LogSD == 0 {
		if d < 0 {
			return 0
		}
		return 1
	}
	return normalCDF(d / l.LogSD)
}

// ProductCV returns the coefficient of variation of a product of independent
// factors from theirs (fractions, not negative), exactly:
//
//	1 + CV² = Π (1 + cᵢ²)
//
// Errors: ErrDomain for a cv that is negative or not finite.
//
// Source: Goodman (1960), "On the exact variance of products", J. Am. Stat.
// Assoc. 55:708-713 (from memory).
func ProductCV(cvs ...float64) (float64, error) {
	const fn = "biomass.ProductCV"
	sum, err := sumLog1p(fn, cvs)
	if err != nil {
		return math.NaN(), err
	}
	return sound(fn, math.Sqrt(math.Expm1(sum)))
}

// DeltaCV returns the first-order (delta method) coefficient of variation of a
// product or quotient of independent factors, √Σcᵢ². It is below [ProductCV] by
// about a fraction CV²/4 of itself or less.
//
// Errors: ErrDomain for a cv that is negative or not finite.
//
// Source: JCGM 100:2008, Guide to the expression of uncertainty in measurement,
// eq. 12 (from memory).
func DeltaCV(cvs ...float64) (float64, error) {
	const fn = "biomass.DeltaCV"
	sum := 0.0
	for _, c := range cvs {
		if err := units.NonNegative(fn, "cv", c, ""); err != nil {
			return math.NaN(), err
		}
		sum += c * c
	}
	return sound(fn, math.Sqrt(sum))
}

// CorrelatedCV returns the first-order coefficient of variation of a product of
// factors that depend on each other, with correlation[i][j] between factors i and
// j.
//
//	√(Σᵢ Σⱼ ρᵢⱼ cᵢ cⱼ)
//
// Errors: ErrDomain for a cv that is negative, a matrix that is not square,
// symmetric and one on its diagonal, or correlations that contradict each other.
//
// Source: JCGM 100:2008 eq. 16 (from memory).
func CorrelatedCV(cvs []float64, correlation [][]float64) (float64, error) {
	const fn = "biomass.CorrelatedCV"
	sum := 0.0
	for i, c := range cvs {
		if err := units.NonNegative(fn, "cv", c, ""); err != nil {
			return math.NaN(), err
		}
		if len(correlation) != len(cvs) || len(correlation[i]) != len(cvs) || correlation[i][i] != 1 {
			return math.NaN(), &units.InputError{Func: fn, Field: "correlation", Value: float64(len(correlation)),
				Reason: "one row and one column are needed for each factor, with 1 on the diagonal"}
		}
		for j := range cvs {
			r := correlation[i][j]
			if !(r >= -1 && r <= 1) || len(correlation[j]) != len(cvs) || correlation[j][i] != r {
				return math.NaN(), &units.InputError{Func: fn, Field: indexed("correlation", i) + indexed("", j), Value: r, Min: -1, Max: 1,
					Reason: "a correlation, the same both ways"}
			}
			sum += r * c * cvs[j]
		}
	}
	if sum < -1e-12 {
		return math.NaN(), &units.InputError{Func: fn, Field: "correlation", Value: sum, Reason: "the correlations contradict each other: the variance would be negative"}
	}
	return sound(fn, math.Sqrt(math.Max(0, sum)))
}

// ProductOfLognormals returns the distribution of a product of independent
// lognormal factors with the given means and coefficients of variation. It is
// exact, with no first-order approximation.
//
// Errors: ErrDomain for lists of different length, no factors, a mean not above
// zero or a negative cv.
//
// Source: closed form; see [Lognormal].
func ProductOfLognormals(means, cvs []float64) (Lognormal, error) {
	const fn = "biomass.ProductOfLognormals"
	if len(means) != len(cvs) || len(means) == 0 {
		return Lognormal{}, &units.InputError{Func: fn, Field: "cvs", Value: float64(len(cvs)),
			Reason: "one coefficient of variation is needed for each mean, and at least one factor"}
	}
	median, sum := 1.0, 0.0
	for i := range means {
		f, err := LognormalFromMean(means[i], cvs[i])
		if err != nil {
			return Lognormal{}, units.AtField(indexed("factors", i), err)
		}
		median *= f.Median
		sum += f.LogSD * f.LogSD
	}
	if err := errors.Join(soundAll(fn, sum), units.Positive(fn, "median", median, "")); err != nil {
		return Lognormal{}, err
	}
	return Lognormal{Median: median, LogSD: math.Sqrt(sum)}, nil
}

func sumLog1p(fn string, cvs []float64) (float64, error) {
	sum := 0.0
	for _, c := range cvs {
		if err := units.NonNegative(fn, "cv", c, ""); err != nil {
			return math.NaN(), err
		}
		sum += math.Log1p(c * c)
	}
	return sum, nil
}

// logSD is the standard deviation of the logarithm of a lognormal with
// coefficient of variation cv.
func logSD(cv float64) float64 { return math.Sqrt(math.Log1p(cv * cv)) }

// normalQuantile is the standard normal quantile, finite for every p.
func normalQuantile(p float64) float64 {
	if !(p > 1e-300) {
		p = 1e-300
	}
	if p > 1-1e-16 {
		p = 1 - 1e-16
	}
	return mathext.NormalQuantile(p)
}

// normalCDF is the standard normal distribution function; Erfc keeps the
// relative accuracy of the lower tail.
func normalCDF(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// normalPDF is the standard normal density.
func normalPDF(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
