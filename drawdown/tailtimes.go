package drawdown

import (
	"math"
	"time"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// tailSearch is how far ahead the next turning or passing is looked for.
const tailSearch = 60 * 24 * time.Hour

// NextTurning returns the first high or low water of a tailwater after a time,
// and whether it is a high. It fails with ErrNoSolution when there is none
// within sixty days or before the data end, and for a tailwater of another
// making than this package's, whose corners it cannot know.
//
// Source: zero of the tailwater's slope, bracketed.
func NextTurning(t Tailwater, after time.Time) (turning Turning, high bool, err error) {
	const fn = "drawdown.NextTurning"
	b, err := searchBreaks(fn, t, after, nil)
	if err != nil {
		return Turning{}, false, err
	}
	c := b.curve
	for i := 0; ; i++ {
		if i = b.after(i, 0); i >= len(b.list) || b.list[i].t > tailSearch.Seconds() {
			return Turning{}, false, noTail(fn, "no high or low water lies ahead within the data or sixty days")
		}
		at := b.list[i].t
		before, then := c.slopeAt(at-1), c.slopeAt(at+1)
		if at < c.end && before*then < 0 {
			return Turning{At: clockAt(after, at), Level: units.Length(c.at(at))}, before > 0, nil
		}
	}
}

// NextPassing returns the first time after another at which the tailwater passes
// a level above the pond's datum, and whether it rises through it. Errors are
// those of [NextTurning].
//
// Source: zero of level less tailwater, bracketed between turnings.
func NextPassing(t Tailwater, level units.Length, after time.Time) (at time.Time, rising bool, err error) {
	const fn = "drawdown.NextPassing"
	if err := units.Finite(fn, "level", float64(level), "m"); err != nil {
		return time.Time{}, false, err
	}
	b, err := searchBreaks(fn, t, after, nil)
	if err != nil {
		return time.Time{}, false, err
	}
	f := func(s float64) float64 { return b.curve.at(s) - float64(level) }
	from, a := 0.0, f(0)
	for i := 0; ; i++ {
		i = b.after(i, from)
		if i >= len(b.list) || from > tailSearch.Seconds() {
			return time.Time{}, false, noTail(fn, "the tailwater does not pass this level within the data or sixty days")
		}
		to := b.list[i].t
		z := f(to)
		if a != 0 && a*z <= 0 {
			s, err := root.FindBetween(f, from, to, a, z, 0)
			return clockAt(after, s), a < 0, err
		}
		from, a = to, z
	}
}

// TimesAbove returns the windows from one time to another in which the
// tailwater stands above a level: the hours a flap at that level is shut.
//
// Source: see [NextPassing].
func TimesAbove(t Tailwater, level units.Length, from, to time.Time) ([]Window, error) {
	var out []Window
	open := t != nil && t.Level(from) > level
	if open {
		out = append(out, Window{From: from})
	}
	for at := from; ; {
		next, rising, err := NextPassing(t, level, at)
		if err != nil && len(out) == 0 && !open {
			return nil, err
		}
		if err != nil || next.After(to) {
			break
		}
		if rising {
			out = append(out, Window{From: next})
		} else if len(out) > 0 {
			out[len(out)-1].To = next
		}
		open, at = rising, next.Add(time.Second) // past the rounding of this passing
	}
	if open && len(out) > 0 {
		out[len(out)-1].To = to
	}
	return out, nil
}

func noTail(fn, reason string) error {
	return &units.InputError{Func: fn, Field: "tailwater", Value: math.NaN(), Kind: units.ErrNoSolution, Reason: reason}
}

// searchBreaks prepares the corners of a tailwater from a time on.
func searchBreaks(fn string, t Tailwater, after time.Time, sills []float64) (*tailBreaks, error) {
	if v, ok := t.(interface{ Validate() error }); ok {
		if err := v.Validate(); err != nil {
			return nil, err
		}
	}
	c := curveOf(t, after)
	if c == nil || c.plain {
		return nil, noTail(fn, "the tailwater does not tell its corners: use a tide table, constituents or a series")
	}
	if c.begin > 0 || c.end <= 0 {
		return nil, noTail(fn, "the time lies outside the tailwater's data")
	}
	return &tailBreaks{curve: c, sills: sills}, nil
}

func (c *tailCurve) slopeAt(t float64) float64 { return c.pieces[c.find(t)].slope(t) }
