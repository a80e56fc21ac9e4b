package units

import (
	"fmt"
	"math"
	"strconv"
)

// Quantity is the constraint for code over any type of the package except
// Temperature. Only this package's types satisfy it.
type Quantity interface {
	~float64
	fmt.Stringer
	AppendText(dst []byte) ([]byte, error)
	record() *quantityRecord
}

// Unit is the constraint for code over any unit descriptor.
type Unit interface {
	~uint8
	fmt.Stringer
	Symbol() string
	Factor() float64
	Exact() bool
	record() *quantityRecord
}

// Parse reads a quantity of type Q; ParseLength and its kin do so by name.
func Parse[Q Quantity](s string) (Q, error) {
	v, err := Q(0).record().parse(s)
	return Q(v), err
}

// All lists the units of a descriptor type, such as All[FlowUnit]().
func All[U Unit]() []U {
	all := make([]U, len(U(0).record().units))
	for i := range all {
		all[i] = U(i)
	}
	return all
}

// Sum returns the sum of xs, zero of none, with the rounding errors of the
// additions compensated (Neumaier 1974).
func Sum[Q Quantity](xs ...Q) Q {
	var sum, lost float64
	for _, q := range xs {
		x := float64(q)
		t := sum + x
		if math.Abs(sum) >= math.Abs(x) {
			lost += (sum - t) + x
		} else {
			lost += (x - t) + sum
		}
		sum = t
	}
	if math.IsInf(sum, 0) || math.IsNaN(sum) {
		return Q(sum)
	}
	return Q(sum + lost)
}

// Mean returns the arithmetic mean of xs; ErrDomain and NaN of none.
func Mean[Q Quantity](xs ...Q) (Q, error) {
	if len(xs) == 0 {
		return Q(math.NaN()), &InputError{Func: "units.Mean", Field: "xs", Value: 0, Unit: "values",
			Min: 1, Max: math.Inf(1), Reason: "the mean of nothing"}
	}
	return Sum(xs...) / Q(len(xs)), nil
}

// Interp returns y at x on the straight lines between the points (xs, ys), with
// xs rising. It errs with ErrDomain when the table is not one, and with ErrRange,
// beside the nearest end's value, when x lies outside it.
func Interp[X, Y Quantity](x X, xs []X, ys []Y) (Y, error) {
	const fn = "units.Interp"
	nan := Y(math.NaN())
	unit := X(0).record().units[0].symbol
	if err := Finite(fn, "x", float64(x), unit); err != nil {
		return nan, err
	}
	if len(xs) == 0 || len(xs) != len(ys) {
		return nan, &InputError{Func: fn, Field: "ys", Value: float64(len(ys)), Min: math.Inf(-1), Max: math.Inf(1),
			Reason: "number of values; " + strconv.Itoa(len(xs)) + " points were given"}
	}
	for i := range xs {
		if err := Finite(fn, "xs["+strconv.Itoa(i)+"]", float64(xs[i]), unit); err != nil {
			return nan, err
		}
		if err := Finite(fn, "ys["+strconv.Itoa(i)+"]", float64(ys[i]), Y(0).record().units[0].symbol); err != nil {
			return nan, err
		}
		if i > 0 && !(xs[i] > xs[i-1]) {
			return nan, &InputError{Func: fn, Field: "xs[" + strconv.Itoa(i) + "]", Value: float64(xs[i]), Unit: unit,
				Min: math.Inf(-1), Max: math.Inf(1), Reason: "must be above the point before it"}
		}
	}
	last := len(xs) - 1
	if x < xs[0] || x > xs[last] {
		y := ys[0]
		if x > xs[0] {
			y = ys[last]
		}
		return y, &InputError{Func: fn, Field: "x", Value: float64(x), Unit: unit,
			Min: float64(xs[0]), Max: float64(xs[last]), Kind: ErrRange}
	}
	lo, hi := 0, last
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; x < xs[mid] {
			hi = mid
		} else {
			lo = mid
		}
	}
	if x == xs[hi] {
		return ys[hi], nil
	}
	t := float64(x-xs[lo]) / float64(xs[hi]-xs[lo])
	return Y(float64(ys[lo])*(1-t) + float64(ys[hi])*t), nil
}
