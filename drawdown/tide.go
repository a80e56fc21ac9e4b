package drawdown

import (
	"fmt"
	"math"
	"sort"
	"time"

	"pondwright.example/units"
)

// Turning is one line of a tide table: a high or a low water.
type Turning struct {
	At    time.Time    `json:"at"`
	Level units.Length `json:"level"`
}

// TideTable is a tide from its high and low waters, on the datum the table was
// printed for. Between two turnings the level is half a cosine wave,
//
//	z(t) = (z1+z2)/2 + (z1-z2)/2 cos(pi (t-t1)/(t2-t1)),
//
// which turns exactly at the printed times and heights.
//
// Zone is the zone the table's clock was printed in, and it is asked for even
// though every time.Time carries one: a table in standard time read as daylight
// time is an hour wrong and looks right. Every row must agree with it. Datum
// names what the heights are measured from and ZeroAbovePond is the height of
// that datum's zero above the pond's; a missing offset is an error, never zero.
// Surge is added to the whole tide. JSON does not carry Zone: set it after
// reading.
//
// Validity: real tides depart from the half cosine by a few per cent of the
// range, more in shallow estuaries; rivers, bars and weather change them.
//
// Source: cosine interpolation between turning points, common practice of tide
// tables (the curve of the harmonic method for one constituent).
type TideTable struct {
	Turnings      []Turning      `json:"turnings"`
	Zone          *time.Location `json:"-"`
	Datum         Datum          `json:"datum"`
	ZeroAbovePond *units.Length  `json:"zeroAbovePond"`
	Surge         units.Length   `json:"surge,omitempty"`
}

// Validate reports every problem of the table: no zone, a row in another zone,
// no datum or offset, rows out of order, levels that are no turnings.
func (t *TideTable) Validate() error {
	const fn = "drawdown.TideTable"
	if t == nil {
		return noTide(fn)
	}
	all := checkOffset(fn, t.Datum, t.ZeroAbovePond, t.Surge)
	bad := func(field string, v float64, unit, format string, args ...any) {
		all = append(all, &units.InputError{Func: fn, Field: field, Value: v, Unit: unit, Reason: fmt.Sprintf(format, args...)})
	}
	if t.Zone == nil {
		bad("zone", math.NaN(), "", "state the zone of the table's clock (time.UTC if it is printed so); many tables keep standard time all year")
	}
	if len(t.Turnings) < 2 {
		bad("turnings", float64(len(t.Turnings)), "rows", "at least two turnings are needed")
	}
	for i, r := range t.Turnings {
		if err := units.Finite(fn, fmt.Sprintf("turnings[%d].level", i), float64(r.Level), "m"); err != nil {
			all = append(all, err)
		}
		if t.Zone != nil {
			_, row := r.At.Zone()
			_, table := r.At.In(t.Zone).Zone()
			if row != table {
				bad(fmt.Sprintf("turnings[%d].at", i), float64(row)/3600, "h", "row %d is written %g h from UTC, the table's zone is %g h: read its clock in the table's zone", i+1, float64(row)/3600, float64(table)/3600)
			}
		}
		if i == 0 {
			continue
		}
		p := t.Turnings[i-1]
		if !r.At.After(p.At) {
			bad(fmt.Sprintf("turnings[%d].at", i), r.At.Sub(p.At).Seconds(), "s", "row %d is not later than row %d; rows are not sorted for you", i+1, i)
		}
		if i > 1 {
			q := t.Turnings[i-2]
			if (p.Level-q.Level)*(r.Level-p.Level) > 0 {
				bad(fmt.Sprintf("turnings[%d].level", i-1), float64(p.Level), "m", "row %d is neither a high nor a low water beside its neighbours: a turning is missing", i)
			}
		}
	}
	return joinErrors(all)
}

// Level returns the tide above the pond's datum at a time inside the table; the
// first and last heights are held beyond it, where a plan stops.
//
// Source: see [TideTable].
func (t *TideTable) Level(at time.Time) units.Length {
	if t == nil {
		return 0
	}
	n := len(t.Turnings)
	if n == 0 || t.ZeroAbovePond == nil {
		return 0
	}
	i := sort.Search(n, func(i int) bool { return t.Turnings[i].At.After(at) })
	z := t.Turnings[max(0, min(i, n-1))].Level
	if i > 0 && i < n {
		a, b := t.Turnings[i-1], t.Turnings[i]
		f := at.Sub(a.At).Seconds() / b.At.Sub(a.At).Seconds()
		z = (a.Level+b.Level)/2 + (a.Level-b.Level)/2*units.Length(math.Cos(math.Pi*f))
	}
	return z + *t.ZeroAbovePond + t.Surge
}

func (t *TideTable) curve(epoch time.Time) *tailCurve {
	zero := float64(*t.ZeroAbovePond + t.Surge)
	n := len(t.Turnings)
	c := &tailCurve{begin: t.Turnings[0].At.Sub(epoch).Seconds(), end: t.Turnings[n-1].At.Sub(epoch).Seconds()}
	for i := 0; i+1 < n; i++ {
		a, b := t.Turnings[i], t.Turnings[i+1]
		c.pieces = append(c.pieces, tailPiece{kind: cosinePiece, from: a.At.Sub(epoch).Seconds(),
			mean: float64(a.Level+b.Level)/2 + zero, amplitude: float64(a.Level-b.Level) / 2,
			omega: math.Pi / b.At.Sub(a.At).Seconds()})
	}
	return c
}

// hourOff reports whether the plan's clock and the table's differ by one hour
// at that moment, the mark of a summer-time slip.
func (t *TideTable) hourOff(plan time.Time) bool {
	if t.Zone == nil {
		return false
	}
	_, a := plan.Zone()
	_, b := plan.In(t.Zone).Zone()
	return a-b == 3600 || b-a == 3600
}
