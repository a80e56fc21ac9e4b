package biomass

import (
	"math"

	"pondwright.example/units"
)

// sound passes a finite value and refuses one that overflowed, so that no
// answer is infinite without an error beside it.
func sound[T ~float64](fn string, v T) (T, error) {
	if err := soundAll(fn, float64(v)); err != nil {
		return T(math.NaN()), err
	}
	return v, nil
}

// soundAll is sound for the numbers of a result.
func soundAll(fn string, values ...float64) error {
	for _, v := range values {
		if !(math.Abs(v) < math.MaxFloat64) { // held has been at it, too
			return &units.InputError{Func: fn, Field: "arguments", Value: v, Reason: "so large or so small that the answer overflows"}
		}
	}
	return nil
}

// held keeps the answer of an evaluation method, which has no error, at the
// largest number instead of infinity.
func held(v float64) float64 {
	if math.IsInf(v, 0) {
		return math.Copysign(math.MaxFloat64, v)
	}
	return v
}
