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
// xs rising. It errs with ErrDomain when x or the table is not usable, and with
// ErrRange, beside the nearest end's value, when x lies outside the table. It
// checks the whole table at every call.
func Interp[X, Y Quantity](x X, xs []X, ys []Y) (Y, error) {
	const fn = "units.Interp"
	if err := Finite(fn, "x", float64(x), baseSymbol[X]()); err != nil {
		return Y(math.NaN()), err
	}
	if err := checkTable(fn, xs, ys); err != nil {
		return Y(math.NaN()), err
	}
	last := len(xs) - 1
	if !(x >= xs[0] && x <= xs[last]) {
		y := ys[0]
		if x > xs[0] {
			y = ys[last]
		}
		return y, &InputError{Func: fn, Field: "x", Value: float64(x), Unit: baseSymbol[X](),
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

// checkTable returns an error unless xs and ys are as many, finite, and xs
// rises.
func checkTable[X, Y Quantity](fn string, xs []X, ys []Y) error {
	if len(xs) == 0 || len(xs) != len(ys) {
		return &InputError{Func: fn, Field: "ys", Value: float64(len(ys)), Min: math.Inf(-1), Max: math.Inf(1),
			Reason: "number of values; " + strconv.Itoa(len(xs)) + " points were given"}
	}
	for i := range xs {
		x, y := float64(xs[i]), float64(ys[i])
		switch {
		case math.IsNaN(x) || math.IsInf(x, 0):
			return Finite(fn, "xs["+strconv.Itoa(i)+"]", x, baseSymbol[X]())
		case math.IsNaN(y) || math.IsInf(y, 0):
			return Finite(fn, "ys["+strconv.Itoa(i)+"]", y, baseSymbol[Y]())
		case i > 0 && !(xs[i] > xs[i-1]):
			return &InputError{Func: fn, Field: "xs[" + strconv.Itoa(i) + "]", Value: x, Unit: baseSymbol[X](),
				Min: math.Inf(-1), Max: math.Inf(1), Reason: "must be above the point before it"}
		}
	}
	return nil
}

func baseSymbol[Q Quantity]() string { return Q(0).record().units[0].symbol }
