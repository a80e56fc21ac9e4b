package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// SeberTwoPass returns the population from two passes of equal effort.
//
//	N = c₁²/(c₁ − c₂),  p = 1 − c₂/c₁,  SE = c₁ c₂ √(c₁+c₂)/(c₁−c₂)²
//
// Errors: ErrDomain for a negative catch; ErrNoSolution when the second catch is
// not below the first.
//
// Source: Seber and Le Cren (1967), "Estimating population parameters from
// catches large relative to the population", J. Anim. Ecol. 36:631-643 (from memory);
// Seber (1982), The Estimation of Animal Abundance, 2nd ed., p. 312 and eq. 7.30,
// read in the R package FSA.
func SeberTwoPass(c1, c2 int) (Removal, error) {
	a, b, err := twoCatches("biomass.SeberTwoPass", c1, c2)
	if err != nil {
		return Removal{}, err
	}
	d := a - b
	se := a * b * math.Sqrt(a+b) / (d * d)
	return Removal{N: a * a / d, P: d / a, SE: se, ScaledSE: se, Total: c1 + c2, Passes: 2}, nil
}

// RobsonRegier returns the two-pass population with a correction for small
// samples, often rounded up to a whole animal.
//
//	N = (c₁² − c₂)/(c₁ − c₂)
//
// P and SE are those of [SeberTwoPass].
//
// Errors: as [SeberTwoPass].
//
// Source: Robson and Regier (1968), in Ricker (ed.), Methods for Assessment of
// Fish Production in Fresh Waters, IBP Handbook 3, pp. 124-158, read in the R
// package FSA.
func RobsonRegier(c1, c2 int) (Removal, error) {
	a, b, err := twoCatches("biomass.RobsonRegier", c1, c2)
	if err != nil {
		return Removal{}, err
	}
	r, err := SeberTwoPass(c1, c2)
	r.N = (a*a - b) / (a - b)
	return r, err
}

func twoCatches(fn string, c1, c2 int) (a, b float64, err error) {
	a, b = float64(c1), float64(c2)
	err = errors.Join(units.NonNegative(fn, "c1", a, "animals"), units.NonNegative(fn, "c2", b, "animals"))
	if err == nil && !(b < a) {
		err = &units.InputError{Func: fn, Field: "c2", Value: b, Unit: "animals", Kind: units.ErrNoSolution,
			Reason: "must be below the first catch: without decline no population follows"}
	}
	return a, b, err
}

// SeberThreePass returns the population from three passes of equal effort in
// closed form.
//
//	N = (6X² − 3XT − T² + T√(T² + 6XT − 3X²)) / (18 (X − T)),  X = 2c₁ + c₂
//
// It maximises the likelihood with factorials replaced by powers, so that it
// differs from [RemovalML] by a few animals in a small population. P and SE
// follow from N as in [Zippin].
//
// Errors: ErrDomain for a negative catch; ErrNoSolution when the third catch is
// not below the first.
//
// Source: Seber (1982), The Estimation of Animal Abundance, 2nd ed., eq. 7.24, read
// in the R package FSA; after Junge and Libosvarsky (1965) (from memory).
func SeberThreePass(c1, c2, c3 int) (Removal, error) {
	const fn = "biomass.SeberThreePass"
	catches := [...]int{c1, c2, c3}
	s, err := sumPasses(fn, catches[:])
	if err != nil {
		return Removal{}, err
	}
	x, t := s.x, s.total
	if !(x > t) { // X − T = c₁ − c₃
		return Removal{}, &units.InputError{Func: fn, Field: "c3", Value: float64(c3), Unit: "animals", Kind: units.ErrNoSolution,
			Reason: "must be below the first catch: without decline no population follows"}
	}
	n := (6*x*x - 3*x*t - t*t + t*math.Sqrt(t*t+6*x*t-3*x*x)) / (18 * (x - t))
	return s.result(n, catches[:]), nil
}
