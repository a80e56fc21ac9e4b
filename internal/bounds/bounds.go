// Package bounds refuses amounts that no farm has, so that no product or
// quotient of amounts overflows and every refusal names its input.
package bounds

import (
	"math"

	"pondwright.example/units"
)

// Least and Largest bound every amount in SI units, far outside anything a farm
// has.
const (
	Least   = 1e-15
	Largest = 1e15
)

// Amount returns nil when v is not negative and not beyond all measure, and an
// *units.InputError of kind ErrDomain otherwise.
func Amount(fn, field string, v float64, unit string) error {
	if v >= 0 && v <= Largest {
		return nil
	}
	return refuse(fn, field, v, unit, units.NonNegative(fn, field, v, unit))
}

// Positive is Amount for what must be above zero.
func Positive(fn, field string, v float64, unit string) error {
	if v >= Least && v <= Largest {
		return nil
	}
	return refuse(fn, field, v, unit, units.Positive(fn, field, v, unit))
}

func refuse(fn, field string, v float64, unit string, err error) error {
	if err != nil {
		return err
	}
	return &units.InputError{Func: fn, Field: field, Value: v, Unit: unit, Min: math.Inf(-1), Max: math.Inf(1),
		Reason: "outside anything that can be measured"}
}
