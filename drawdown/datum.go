package drawdown

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// Datum names what levels are measured from, such as "outlet invert", "chart
// datum" or a national height system. Two datums are the same when their names
// are.
type Datum string

// Level is a height above a named datum.
type Level struct {
	Height units.Length `json:"height"`
	Datum  Datum        `json:"datum"`
}

// DatumTie says how two datums lie to each other. Offset is the height of the
// zero of From above the zero of To, so that a level h on From reads h + Offset
// on To. A nil Offset is unknown, which is never taken for zero.
type DatumTie struct {
	From   Datum         `json:"from"`
	To     Datum         `json:"to"`
	Offset *units.Length `json:"offset"`
}

// ErrDatumMissing marks levels on different datums without a known offset
// between them. It is a units.ErrDomain.
var ErrDatumMissing = fmt.Errorf("DATUM_MISSING: %w", units.ErrDomain)

// datumClosure is how far two chains of ties between the same datums may
// disagree: a levelling closes to a few millimetres.
const datumClosure = 0.005

// On returns the height of l above another datum, through as many ties as it
// takes, in either direction. Levels already on datum need no tie. It fails
// with [ErrDatumMissing] when a name is empty, when no chain of ties joins the
// two datums, or when the tie has no offset; and with a units.ErrDomain when
// two chains disagree by more than 5 mm or a number is not finite.
//
// Source: by definition, z(to) = z(from) + offset.
func (l Level) On(datum Datum, ties ...DatumTie) (units.Length, error) {
	const fn = "drawdown.Level.On"
	nan := units.Length(math.NaN())
	if err := units.Finite(fn, "height", float64(l.Height), "m"); err != nil {
		return nan, err
	}
	for _, d := range []struct {
		field string
		name  Datum
	}{{"level.datum", l.Datum}, {"datum", datum}} {
		if d.name == "" {
			return nan, &units.InputError{Func: fn, Field: d.field, Value: float64(l.Height), Unit: "m", Kind: ErrDatumMissing,
				Reason: "the datum has no name: say what the level is measured from"}
		}
	}
	if l.Datum == datum {
		return l.Height, nil
	}
	shift, err := datumShift(fn, l.Datum, datum, ties)
	if err != nil {
		return nan, err
	}
	return l.Height + units.Length(shift), nil
}

// datumShift walks the ties from one datum to the other. Every datum reached
// gets one offset; a second chain that reaches it must agree.
func datumShift(fn string, from, to Datum, ties []DatumTie) (float64, error) {
	var faults []error
	unknown := ""
	for i, t := range ties {
		if t.Offset == nil {
			unknown = fmt.Sprintf("; the tie of %q to %q has no offset (an unknown offset is not zero)", t.From, t.To)
			continue
		}
		if err := units.Finite(fn, fmt.Sprintf("ties[%d].offset", i), float64(*t.Offset), "m"); err != nil {
			faults = append(faults, err)
		}
	}
	if len(faults) > 0 {
		return 0, errors.Join(faults...)
	}
	at := map[Datum]float64{from: 0} // what to add to a height on from
	for again := true; again; {
		again = false
		for i, t := range ties {
			if t.Offset == nil {
				continue
			}
			off := float64(*t.Offset)
			a, okA := at[t.From]
			b, okB := at[t.To]
			switch {
			case okA && !okB:
				at[t.To], again = a+off, true
			case okB && !okA:
				at[t.From], again = b-off, true
			case okA && okB && !(math.Abs(a+off-b) <= datumClosure):
				return 0, &units.InputError{Func: fn, Field: fmt.Sprintf("ties[%d].offset", i), Value: off, Unit: "m",
					Reason: fmt.Sprintf("the ties contradict each other: %q lies %.4g m above %q by one chain and %.4g m by another", t.From, b-a, t.To, off)}
			}
		}
	}
	shift, ok := at[to]
	if !ok {
		return 0, &units.InputError{Func: fn, Field: "ties", Value: float64(len(ties)), Unit: "ties", Kind: ErrDatumMissing,
			Reason: fmt.Sprintf("levels on %q cannot be read on %q without the offset between the two datums%s", from, to, unknown)}
	}
	return shift, nil
}
