package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// nan is not a number in the type of a quantity, the value beside ErrDomain.
func nan[T ~float64]() T { return T(math.NaN()) }

// fraction checks an efficiency or share: above zero, one at most.
func fraction(fn, field string, v float64) error {
	if v > 0 && v <= 1 {
		return nil
	}
	e := &units.InputError{Func: fn, Field: field, Value: v, Min: 0, Max: 1, Reason: "must be a fraction above 0 and not above 1"}
	if v > 1 && v <= 100 {
		e.Reason = "must be a fraction: write " + num(v/100) + " for " + num(v) + " %"
	}
	return e
}

// sound passes a finite value and refuses one that overflowed, so that no
// answer is infinite without an error beside it.
func sound[T ~float64](fn string, v T) (T, error) {
	if f := float64(v); !math.IsNaN(f) && !math.IsInf(f, 0) {
		return v, nil
	}
	return nan[T](), overflow(fn)
}

// soundAll is sound for the numbers of a result.
func soundAll(fn string, values ...float64) error {
	for _, f := range values {
		if math.IsNaN(f) || math.IsInf(f, 0) {
			return overflow(fn)
		}
	}
	return nil
}

// unsolved names the function and the argument behind an error of the root
// finder, which knows neither: a system or speed far outside all pumps.
func unsolved(fn string, err error) error {
	kind := units.ErrDomain
	if errors.Is(err, units.ErrNoConvergence) {
		kind = units.ErrNoConvergence
	}
	return &units.InputError{Func: fn, Field: "sys", Value: math.NaN(), Kind: kind,
		Reason: "no duty can be found against this system at this speed, it is too large or not a number somewhere (" + err.Error() + ")"}
}

func overflow(fn string) error {
	return &units.InputError{Func: fn, Field: "arguments", Value: math.Inf(1), Reason: "so large or so small that the answer overflows"}
}
