package drawdown

import (
	"fmt"
	"math"

	"pondwright.example/internal/interp"
	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// RatingPoint is a level of a channel at a flow, above the pond's datum.
type RatingPoint struct {
	Flow  units.Flow   `json:"flow"`
	Level units.Length `json:"level"`
}

// ChannelOutlet is one or more outlets into a receiving channel that their own
// discharge backs up. At a pond level h the discharge q solves
//
//	q = sum outlets(h, z),  z = max(tailwater, rating(base + q)),
//
// so that the channel's level rises with what it receives, down to the sea's if
// that stands higher. Build it with NewChannelOutlet; it is an Outlet for a Gate
// and safe for concurrent use. It has no JSON form: write its rating.
type ChannelOutlet struct {
	outlets []Outlet
	rating  interp.Linear
	base    float64
	most    float64 // flow at the rating's last point
	bottom  float64 // level at its first
}

// NewChannelOutlet joins outlets into a channel whose rating gives rising levels
// for rising flows, from a flow of zero on, and that carries base besides.
// Levels are linear between the rating's points and, beyond the last, rise with
// the slope of the last two; a rating should reach the pond's greatest
// discharge.
//
// Source: by definition of a rating; the joint solution by bracketing.
func NewChannelOutlet(rating []RatingPoint, base units.Flow, outlets ...Outlet) (ChannelOutlet, error) {
	const fn = "drawdown.NewChannelOutlet"
	all := []error{units.NonNegative(fn, "base", float64(base), "m3/s")}
	bad := func(field string, v float64, unit, reason string) {
		all = append(all, &units.InputError{Func: fn, Field: field, Value: v, Unit: unit, Reason: reason})
	}
	if len(outlets) == 0 {
		bad("outlets", 0, "outlets", "a channel needs an outlet that feeds it")
	}
	for i, o := range outlets {
		if o == nil {
			bad(fmt.Sprintf("outlets[%d]", i), 0, "", "an outlet is missing")
		}
	}
	if len(rating) < 2 {
		bad("rating", float64(len(rating)), "rows", "a rating needs at least two points")
	} else if rating[0].Flow != 0 {
		bad("rating[0].flow", float64(rating[0].Flow), "m3/s", "a rating starts at no flow, with the level of the empty channel")
	}
	q, z := make([]float64, len(rating)), make([]float64, len(rating))
	for i, r := range rating {
		q[i], z[i] = float64(r.Flow), float64(r.Level)
		if i > 0 && !(z[i] >= z[i-1]) {
			bad(fmt.Sprintf("rating[%d].level", i), z[i], "m", "levels must not fall as the flow rises")
		}
	}
	if err := joinErrors(all); err != nil {
		return ChannelOutlet{}, err
	}
	table, err := interp.NewLinear(q, z)
	if err != nil {
		return ChannelOutlet{}, units.AtField("rating", err)
	}
	return ChannelOutlet{outlets: append([]Outlet(nil), outlets...), rating: table, base: float64(base), most: q[len(q)-1], bottom: z[0]}, nil
}

// level is the channel's level at a flow.
func (c ChannelOutlet) level(q float64) float64 {
	if q <= c.most {
		return c.rating.Value(q)
	}
	n := c.rating.Len()
	q0, z0 := c.rating.Point(n - 2)
	q1, z1 := c.rating.Point(n - 1)
	return z1 + (q-q1)*(z1-z0)/(q1-q0)
}

// free is what the outlets pass at a channel level.
func (c ChannelOutlet) free(h, z float64) float64 {
	if h <= z {
		return 0
	}
	sum := 0.0
	for _, o := range c.outlets {
		sum += float64(o.Discharge(units.Length(h), units.Length(z)))
	}
	return sum
}

// Discharge returns what passes into the channel at a pond level when the water
// at the channel's end stands at tailwater.
//
// Source: see [ChannelOutlet].
func (c ChannelOutlet) Discharge(level, tailwater units.Length) units.Flow {
	if len(c.outlets) == 0 {
		return 0 // the zero ChannelOutlet
	}
	h, sea := float64(level), float64(tailwater)
	backed := func(q float64) float64 { return math.Max(sea, c.level(c.base+q)) }
	most := c.free(h, backed(0))
	if most == 0 || backed(most) == backed(0) {
		return units.Flow(most) // the channel does not rise to where it matters
	}
	f := func(q float64) float64 { return c.free(h, backed(q)) - q }
	q, err := root.FindBetween(f, 0, most, most, f(most), 0)
	if err != nil {
		return 0 // f falls from most above zero to zero or below: cannot happen for finite outlets
	}
	return units.Flow(q)
}

// Level returns the channel's level beside the outlets at a pond level.
//
// Source: see [ChannelOutlet].
func (c ChannelOutlet) Level(level, tailwater units.Length) units.Length {
	if len(c.outlets) == 0 {
		return tailwater
	}
	return max(tailwater, units.Length(c.level(c.base+float64(c.Discharge(level, tailwater)))))
}
