package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Effort is one interval of a depletion: what was caught with how much effort.
// Catches are numbers or kilograms, effort is net hauls, trap nights, pump hours
// or cubic metres; the result is in the same units.
type Effort struct {
	Catch  float64 `json:"catch"`
	Effort float64 `json:"effort"`
	// Other is removed in the same interval by other gear, which counts for the
	// depletion and not for the catch per effort.
	Other float64 `json:"other"`
}

// DepletionTiming says when in an interval its own catch is gone:
// [BeforeInterval] or [MidInterval].
type DepletionTiming uint8

// The zero DepletionTiming counts only what was caught before the interval.
const (
	// BeforeInterval: cumulative catch (or effort) up to the start of the interval.
	BeforeInterval DepletionTiming = iota
	// MidInterval adds half of the interval's own, after Ricker (1975).
	MidInterval
)

var timingNames = [...]string{"before interval", "mid interval"}

// String returns the words for t.
func (t DepletionTiming) String() string { return word("DepletionTiming", timingNames[:], int(t)) }

// MarshalText writes the words for t.
func (t DepletionTiming) MarshalText() ([]byte, error) {
	return marshalWord("DepletionTiming", timingNames[:], int(t))
}

// UnmarshalText reads the words for a DepletionTiming.
func (t *DepletionTiming) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("DepletionTiming", timingNames[:], text)
	if err == nil {
		*t = DepletionTiming(i)
	}
	return err
}

// Depletion is the estimate of a closed population from falling catch per
// effort.
type Depletion struct {
	N0  float64 `json:"n0"`  // at the start
	Q   float64 `json:"q"`   // fraction caught per unit of effort
	SEN float64 `json:"seN"` // standard error of N0 from the regression
	SEQ float64 `json:"seQ"` // standard error of Q
	R2  float64 `json:"r2"`  // fraction of the variance explained
	// Removed is everything taken; N0 − Removed is left.
	Removed float64 `json:"removed"`
}

// Leslie returns the population from the straight line of catch per effort
// against cumulative catch.
//
//	C/f = q N₀ − q K,  SE(N₀) = (s/q) √(1/n + (N₀ − K̄)²/Σ(K − K̄)²)
//
// Errors: ErrDomain for fewer than three intervals, a negative catch or an
// effort not above zero; ErrNoSolution when the catch per effort does not fall.
//
// Source: Leslie and Davis (1939), J. Anim. Ecol. 8:94-113 (from memory); method:
// Ricker (1975), Bull. Fish. Res. Board Can. 191, example 6.1; standard error: Seber
// (1982), The Estimation of Animal Abundance, 2nd ed., p. 298; both read in the R
// package FSA.
func Leslie(intervals []Effort, timing DepletionTiming) (Depletion, error) {
	const fn = "biomass.Leslie"
	if err := checkEffort(fn, intervals, timing); err != nil {
		return Depletion{}, err
	}
	x, y := make([]float64, len(intervals)), make([]float64, len(intervals))
	gone := 0.0
	for i, v := range intervals {
		x[i] = gone
		if timing == MidInterval {
			x[i] += (v.Catch + v.Other) / 2
		}
		gone += v.Catch + v.Other
		y[i] = v.Catch / v.Effort
	}
	l := fitLine(x, y)
	if !(l.slope < 0) {
		return Depletion{}, noFall(fn, l.slope)
	}
	d := Depletion{Q: -l.slope, N0: -l.intercept / l.slope, SEQ: l.slopeSE, R2: l.r2, Removed: gone}
	d.SEN = l.s / d.Q * math.Sqrt(1/l.n+(d.N0-l.xMean)*(d.N0-l.xMean)/l.sxx)
	return d, nil
}

// DeLury returns the population from the straight line of the logarithm of catch
// per effort against cumulative effort.
//
//	ln(C/f) = ln(q N₀) − q E
//
// SEN is first order, from the covariance of intercept and slope.
//
// Errors: as [Leslie], and ErrDomain for a catch of zero, which has no
// logarithm.
//
// Source: DeLury (1947), "On the estimation of biological populations",
// Biometrics 3:145-167 (from memory); method: Ricker (1975), example 6.2, read in the
// R package FSA.
func DeLury(intervals []Effort, timing DepletionTiming) (Depletion, error) {
	const fn = "biomass.DeLury"
	err := checkEffort(fn, intervals, timing)
	for i, v := range intervals {
		if v.Catch == 0 {
			err = errors.Join(err, &units.InputError{Func: fn, Field: indexed("intervals", i) + ".catch", Value: 0,
				Reason: "must be above zero, because its logarithm is used; Leslie takes zero catches"})
		}
	}
	if err != nil {
		return Depletion{}, err
	}
	x, y := make([]float64, len(intervals)), make([]float64, len(intervals))
	effort, gone := 0.0, 0.0
	for i, v := range intervals {
		x[i] = effort
		if timing == MidInterval {
			x[i] += v.Effort / 2
		}
		effort += v.Effort
		gone += v.Catch + v.Other
		y[i] = math.Log(v.Catch / v.Effort)
	}
	l := fitLine(x, y)
	if !(l.slope < 0) {
		return Depletion{}, noFall(fn, l.slope)
	}
	q := -l.slope
	d := Depletion{Q: q, N0: math.Exp(l.intercept) / q, SEQ: l.slopeSE, R2: l.r2, Removed: gone}
	// ln N0 = a − ln q: var = var a + var q/q² − 2 cov(a, q)/q, cov(a, q) = x̄ s²/Sxx.
	v := l.s * l.s * (1/l.n + l.xMean*l.xMean/l.sxx + 1/(l.sxx*q*q) - 2*l.xMean/(l.sxx*q))
	d.SEN = d.N0 * math.Sqrt(math.Max(0, v))
	return d, nil
}

func checkEffort(fn string, intervals []Effort, timing DepletionTiming) error {
	var all []error
	if int(timing) >= len(timingNames) {
		all = append(all, &units.InputError{Func: fn, Field: "timing", Value: float64(timing), Reason: "before interval or mid interval"})
	}
	if len(intervals) < 3 {
		all = append(all, &units.InputError{Func: fn, Field: "intervals", Value: float64(len(intervals)), Reason: "at least three are needed"})
	}
	for i, v := range intervals {
		at := indexed("intervals", i)
		all = append(all, units.NonNegative(fn, at+".catch", v.Catch, ""),
			units.Positive(fn, at+".effort", v.Effort, ""),
			units.NonNegative(fn, at+".other", v.Other, ""))
	}
	return errors.Join(all...)
}

func noFall(fn string, slope float64) error {
	return &units.InputError{Func: fn, Field: "slope of intervals", Value: slope, Kind: units.ErrNoSolution,
		Reason: "the catch per effort does not fall, so no population follows"}
}
