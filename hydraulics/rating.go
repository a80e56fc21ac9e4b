package hydraulics

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"pondwright.example/internal/interp"
	"pondwright.example/units"
)

// Structure is anything of this package that passes water from a pond level to
// a tailwater: a pipe, a weir, a gate, a riser.
type Structure interface {
	Discharge(level, tailwater units.Length) units.Flow
	Control(level, tailwater units.Length) Control
}

// noticer is the part of a structure that knows its published ranges.
type noticer interface {
	AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice
}

// RatingPoint is one row of a rating.
type RatingPoint struct {
	Level   units.Length `json:"level"`
	Flow    units.Flow   `json:"flow"`
	Control Control      `json:"control"`
}

// ControlChange is a level at which another control takes over.
type ControlChange struct {
	Level units.Length `json:"level"`
	Below Control      `json:"below"`
	Above Control      `json:"above"`
	Jump  units.Flow   `json:"jump,omitzero"` // of the flow at the change; zero when it is continuous
}

// Rating is the discharge of a structure against the pond level at one
// tailwater, with the governing control named.
type Rating struct {
	Tailwater units.Length    `json:"tailwater"`
	Points    []RatingPoint   `json:"points"`
	Changes   []ControlChange `json:"changes"`
	Notices   []units.Notice  `json:"notices,omitempty"` // one per code and field, with the most extreme value met
}

// NewRating rates a structure at n levels, equally spaced from one to another,
// and finds each change of control between them. A jump of the flow there is
// reported beside the change and as a notice.
//
// Errors: ErrDomain for a nil structure, levels that are not finite or do not
// rise, or n outside 2 to 100000.
//
// Source: the rating is by definition; each flow has the source of its
// structure.
func NewRating(s Structure, tailwater, from, to units.Length, n int) (Rating, error) {
	const fn = "hydraulics.NewRating"
	if s == nil {
		return Rating{}, &units.InputError{Func: fn, Field: "s", Value: math.NaN(), Reason: "a structure is needed"}
	}
	err := errors.Join(units.Finite(fn, "tailwater", float64(tailwater), "m"), units.Finite(fn, "from", float64(from), "m"),
		bounded(fn, "to", float64(to), float64(from), math.MaxFloat64, "m", "above the first level"),
		units.Within(fn, "n", float64(n), 2, 1e5, ""))
	if err != nil {
		return Rating{}, err
	}
	r := Rating{Tailwater: tailwater, Points: make([]RatingPoint, n)}
	for i := range r.Points {
		z := from + (to-from)*units.Length(i)/units.Length(n-1)
		r.Points[i] = RatingPoint{z, s.Discharge(z, tailwater), s.Control(z, tailwater)}
		if i > 0 {
			r.between(s, r.Points[i-1], r.Points[i])
		}
		if w, ok := s.(noticer); ok {
			r.Notices = mergeNotices(r.Notices, w.AppendNotices(nil, z, tailwater))
		}
	}
	// Next to each other as doubles, the flows of a continuous rating differ by
	// rounding, or by the steep start of a flow that begins from rest.
	var largest float64
	for _, p := range r.Points {
		largest = math.Max(largest, math.Abs(float64(p.Flow)))
	}
	for i := range r.Changes {
		c := &r.Changes[i]
		if math.Abs(float64(c.Jump)) <= 1e-5*largest {
			c.Jump = 0
		} else {
			r.Notices = append(r.Notices, units.Notice{Code: CodeDischargeJump, Severity: units.Caution, Field: "level",
				Value: float64(c.Jump), Unit: "m3/s", Source: "found by bisection of the rating",
				Message: fmt.Sprintf("the flow jumps at %v, from %v to %v", c.Level, c.Below, c.Above)})
		}
	}
	return r, nil
}

// between appends the changes of control from point a to point b, splitting
// where a third control lies between.
func (r *Rating) between(s Structure, a, b RatingPoint) {
	if a.Control == b.Control {
		return
	}
	lo, hi := a, b
	for range 80 {
		z := lo.Level + (hi.Level-lo.Level)/2
		if z <= lo.Level || z >= hi.Level {
			break
		}
		m := RatingPoint{z, s.Discharge(z, r.Tailwater), s.Control(z, r.Tailwater)}
		switch m.Control {
		case lo.Control:
			lo = m
		case hi.Control:
			hi = m
		default:
			r.between(s, lo, m)
			r.between(s, m, hi)
			return
		}
	}
	r.Changes = append(r.Changes, ControlChange{hi.Level, lo.Control, hi.Control, hi.Flow - lo.Flow})
}

// mergeNotices keeps one notice per code and field: the one furthest outside.
func mergeNotices(all, add []units.Notice) []units.Notice {
next:
	for _, n := range add {
		for i, old := range all {
			if old.Code == n.Code && old.Field == n.Field && (n.Value < n.Limit) == (old.Value < old.Limit) {
				if math.Abs(n.Value-n.Limit) > math.Abs(old.Value-old.Limit) {
					all[i] = n
				}
				continue next
			}
		}
		all = append(all, n)
	}
	return all
}

// LevelAt returns the lowest level at which the rating reaches a flow, between
// its points in a straight line.
//
// Errors: ErrDomain (value NaN) for a rating without points or a flow that is
// not finite; ErrNoSolution for a flow outside the rating.
//
// Source: linear interpolation of the rating, by definition.
func (r Rating) LevelAt(flow units.Flow) (units.Length, error) {
	const fn = "hydraulics.Rating.LevelAt"
	nan := units.Length(math.NaN())
	if err := units.Finite(fn, "flow", float64(flow), "m3/s"); err != nil {
		return nan, err
	}
	if len(r.Points) == 0 {
		return nan, &units.InputError{Func: fn, Field: "r", Value: 0, Reason: "the rating has no points"}
	}
	i := sort.Search(len(r.Points), func(i int) bool { return r.Points[i].Flow >= flow })
	switch {
	case i < len(r.Points) && r.Points[i].Flow == flow:
		return r.Points[i].Level, nil
	case i == 0 || i == len(r.Points):
		return nan, &units.InputError{Func: fn, Field: "flow", Value: float64(flow), Unit: "m3/s",
			Min: float64(r.Points[0].Flow), Max: float64(r.Points[len(r.Points)-1].Flow), Reason: "outside the rating", Kind: units.ErrNoSolution}
	}
	a, b := r.Points[i-1], r.Points[i]
	return a.Level + (b.Level-a.Level)*units.Length((flow-a.Flow)/(b.Flow-a.Flow)), nil
}

// RatedOutlet is an outlet known only by a table of levels and flows, such as
// one gauged in the field. Between the rows it follows a monotone cubic; above
// the last row it grows with the root of the level above the first, below the
// first row it is zero.
//
// A tailwater above the level of the first row multiplies the flow by the
// [VillemonteRatio] with n = 1.5, a guess where nothing was measured, and one
// at or above the pond stops it.
//
// Source: the table's own; Fritsch & Carlson (1980) for the monotone cubic.
type RatedOutlet struct {
	table  interp.Monotone
	lo, hi float64
	last   float64
	rows   []float64
}

// NewRatedOutlet builds an outlet from at least two rows whose levels rise and
// whose flows do not fall; the first flow is usually zero.
func NewRatedOutlet(rows []RatingPoint) (RatedOutlet, error) {
	const fn = "hydraulics.NewRatedOutlet"
	x, y := make([]float64, len(rows)), make([]float64, len(rows))
	var errs []error
	for i, p := range rows {
		x[i], y[i] = float64(p.Level), float64(p.Flow)
		field := fmt.Sprintf("rows[%d]", i)
		errs = append(errs, units.NonNegative(fn, field+".flow", y[i], "m3/s"), units.Finite(fn, field+".level", x[i], "m"))
		if i > 0 && !(x[i] > x[i-1]) {
			errs = append(errs, &units.InputError{Func: fn, Field: field + ".level", Value: x[i], Unit: "m", Reason: "levels must rise from row to row"})
		}
		if i > 0 && !(y[i] >= y[i-1]) {
			errs = append(errs, &units.InputError{Func: fn, Field: field + ".flow", Value: y[i], Unit: "m3/s", Reason: "the flow of an outlet does not fall as the pond rises"})
		}
	}
	if len(rows) < 2 {
		errs = append(errs, &units.InputError{Func: fn, Field: "rows", Value: float64(len(rows)), Min: 2, Max: unbounded, Reason: "rows of the table"})
	}
	if err := errors.Join(errs...); err != nil {
		return RatedOutlet{}, err
	}
	m, err := interp.NewMonotone(x, y)
	if err != nil {
		return RatedOutlet{}, err
	}
	return RatedOutlet{table: m, lo: x[0], hi: x[len(x)-1], last: y[len(y)-1], rows: x}, nil
}

// Discharge returns the flow at a pond level and a tailwater.
func (o RatedOutlet) Discharge(level, tailwater units.Length) units.Flow {
	h, t := float64(level), float64(tailwater)
	if h <= o.lo || t >= h || o.hi == o.lo {
		return 0
	}
	var q float64
	if h <= o.hi {
		q = o.table.Value(h)
	} else {
		q = o.last * math.Sqrt(math.Min(h-o.lo, largestHead)/(o.hi-o.lo))
	}
	if t > o.lo {
		q *= villemonte((t-o.lo)/(h-o.lo), RectangularExponent)
	}
	return units.Flow(q)
}

// Control names the state of the outlet: that of a weir, for want of better
// knowledge.
func (o RatedOutlet) Control(level, tailwater units.Length) Control {
	switch {
	case tailwater > level && float64(tailwater) > o.lo:
		return ControlShut
	case o.Discharge(level, tailwater) == 0:
		return ControlNone
	case float64(tailwater) > o.lo:
		return ControlDrownedWeir
	}
	return ControlWeir
}

// Kinks appends where flow begins and the levels of the table.
func (o RatedOutlet) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	dst = append(dst, max(tailwater, units.Length(o.lo)))
	for _, z := range o.rows {
		dst = append(dst, units.Length(z))
	}
	return dst
}
