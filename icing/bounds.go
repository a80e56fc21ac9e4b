package icing

import (
	"math"

	"pondwright.example/units"
)

// least and largest bound every amount in SI units, far outside anything a farm
// has, so that no product or quotient of amounts overflows.
const (
	least   = 1e-15
	largest = 1e15
)

// amount returns nil when v is not negative and not beyond all measure, and an
// *units.InputError of kind ErrDomain otherwise.
func amount(fn, field string, v float64, unit string) error {
	if v >= 0 && v <= largest {
		return nil
	}
	return refuse(fn, field, v, unit, units.NonNegative(fn, field, v, unit))
}

// positive is amount for what must be above zero.
func positive(fn, field string, v float64, unit string) error {
	if v >= least && v <= largest {
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
