package units

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// The kinds of failure every package of the module reports, to be tested with
// errors.Is. Beside ErrDomain a scalar function returns NaN, so that an ignored
// error cannot pass for an answer; beside ErrRange it returns the extrapolated
// value, as strconv.ParseFloat does.
var (
	// ErrDomain marks an input for which no answer exists: negative depth, NaN,
	// a survival above one.
	ErrDomain = errors.New("impossible input")
	// ErrRange marks an input outside the published validity of the method.
	ErrRange = errors.New("outside the published range")
	// ErrNoSolution marks a well-posed question without an answer, such as a
	// lift above the pump's shut-off head.
	ErrNoSolution = errors.New("no solution")
	// ErrNoConvergence marks an iteration that stopped before its tolerance.
	ErrNoConvergence = errors.New("no convergence")
)

// InputError names one input that cannot be used: which function, which
// argument or field path, its value and unit, and what would be valid.
// errors.Is reports its Kind (ErrDomain when Kind is nil).
type InputError struct {
	Func   string  // exported function or type, such as "hydraulics.Colebrook"
	Field  string  // argument or path of the field, such as "pond.stages[3].area"
	Value  float64 // the offending value in Unit; NaN when it is not a number
	Unit   string  // unit of Value, Min and Max; empty when dimensionless
	Min    float64 // lowest valid value; -Inf when there is none
	Max    float64 // highest valid value; +Inf when there is none
	Reason string  // what is wrong or what would be valid, in words
	Kind   error   // ErrDomain, ErrRange, ErrNoSolution or ErrNoConvergence
}

// Error says function, field, value with unit, and what would be valid.
func (e *InputError) Error() string {
	var b strings.Builder
	if e.Func != "" {
		b.WriteString(e.Func)
		b.WriteString(": ")
	}
	b.WriteString(e.Field)
	if e.Field != "" {
		b.WriteString(" ")
	}
	b.WriteString("= ")
	b.WriteString(quantityText(e.Value, e.Unit))
	b.WriteString(": ")
	b.WriteString(e.kind().Error())
	if e.Reason != "" {
		b.WriteString(": ")
		b.WriteString(e.Reason)
	}
	if s := e.bounds(); s != "" {
		b.WriteString(" (valid: ")
		b.WriteString(s)
		b.WriteString(")")
	}
	return b.String()
}

// Unwrap returns the kind, so that errors.Is(err, ErrDomain) works.
func (e *InputError) Unwrap() error { return e.kind() }

func (e *InputError) kind() error {
	if e.Kind == nil {
		return ErrDomain
	}
	return e.Kind
}

func (e *InputError) bounds() string {
	// Two zeros are an InputError built without bounds, not the range 0 to 0.
	if e.Min == 0 && e.Max == 0 {
		return ""
	}
	lo, hi := !math.IsInf(e.Min, 0) && !math.IsNaN(e.Min), !math.IsInf(e.Max, 0) && !math.IsNaN(e.Max)
	switch {
	case lo && hi:
		return quantityText(e.Min, "") + " to " + quantityText(e.Max, e.Unit)
	case lo:
		return "at least " + quantityText(e.Min, e.Unit)
	case hi:
		return "at most " + quantityText(e.Max, e.Unit)
	}
	return ""
}

func quantityText(v float64, unit string) string {
	s := strconv.FormatFloat(v, 'g', 6, 64)
	if unit == "" {
		return s
	}
	return s + " " + unit
}

// Within returns nil when lo <= v <= hi and an *InputError of kind ErrDomain
// otherwise, NaN and infinities included. Values are in unit.
func Within(fn, field string, v, lo, hi float64, unit string) error {
	if v >= lo && v <= hi && !math.IsInf(v, 0) {
		return nil
	}
	return &InputError{Func: fn, Field: field, Value: v, Unit: unit, Min: lo, Max: hi, Kind: ErrDomain}
}

// Positive returns nil when v is finite and above zero and an *InputError of
// kind ErrDomain otherwise. The value is in unit.
func Positive(fn, field string, v float64, unit string) error {
	if v > 0 && !math.IsInf(v, 0) {
		return nil
	}
	return &InputError{Func: fn, Field: field, Value: v, Unit: unit, Min: math.Inf(-1), Max: math.Inf(1),
		Reason: "must be finite and above zero", Kind: ErrDomain}
}

// NonNegative returns nil when v is finite and not below zero and an
// *InputError of kind ErrDomain otherwise. The value is in unit.
func NonNegative(fn, field string, v float64, unit string) error {
	if v >= 0 && !math.IsInf(v, 0) {
		return nil
	}
	return &InputError{Func: fn, Field: field, Value: v, Unit: unit, Min: math.Inf(-1), Max: math.Inf(1),
		Reason: "must be finite and not negative", Kind: ErrDomain}
}

// Finite returns nil when v is neither NaN nor infinite and an *InputError of
// kind ErrDomain otherwise. The value is in unit.
func Finite(fn, field string, v float64, unit string) error {
	if !math.IsNaN(v) && !math.IsInf(v, 0) {
		return nil
	}
	return &InputError{Func: fn, Field: field, Value: v, Unit: unit, Min: math.Inf(-1), Max: math.Inf(1),
		Reason: "must be finite", Kind: ErrDomain}
}

// AtField returns err with prefix and a dot put before the field path of every
// *InputError inside it, for a Validate that calls the Validate of its parts.
// A field path that is empty becomes the prefix itself.
func AtField(prefix string, err error) error {
	if err == nil {
		return nil
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, e := range joined.Unwrap() {
			all = append(all, AtField(prefix, e))
		}
		return errors.Join(all...)
	}
	if in, ok := err.(*InputError); ok {
		c := *in
		switch {
		case c.Field == "":
			c.Field = prefix
		case strings.HasPrefix(c.Field, "["):
			c.Field = prefix + c.Field
		default:
			c.Field = prefix + "." + c.Field
		}
		return &c
	}
	return fmt.Errorf("%s: %w", prefix, err)
}
