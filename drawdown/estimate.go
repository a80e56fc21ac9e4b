package drawdown

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// DepthKind says what the depth of a rough description is: [DepthUnsaid] (the
// zero value), [DepthAverage] or [DepthDeepest].
type DepthKind uint8

const (
	DepthUnsaid  DepthKind = iota // "four feet", nobody knows where
	DepthAverage                  // over the whole pond
	DepthDeepest                  // at the drain or the deepest place
)

var depthKinds = [...]string{"unsaid", "average", "deepest"}

// String returns "unsaid", "average" or "deepest".
func (d DepthKind) String() string {
	if int(d) < len(depthKinds) {
		return depthKinds[d]
	}
	return fmt.Sprintf("DepthKind(%d)", uint8(d))
}

// MarshalText writes the kind's word.
func (d DepthKind) MarshalText() ([]byte, error) {
	if int(d) >= len(depthKinds) {
		return nil, fmt.Errorf("drawdown.DepthKind: %d is not one of unsaid, average, deepest", uint8(d))
	}
	return []byte(depthKinds[d]), nil
}

// UnmarshalText reads the kind's word.
func (d *DepthKind) UnmarshalText(text []byte) error {
	for i, n := range depthKinds {
		if string(text) == n {
			*d = DepthKind(i)
			return nil
		}
	}
	return fmt.Errorf("drawdown.DepthKind: %q is not one of unsaid, average, deepest", text)
}

// RoughPond is a pond known by hearsay: "about five acres and four feet".
// [RoughPond.Estimate] answers with a volume band that is as wide as such a
// description deserves.
type RoughPond struct {
	Area    units.Area   `json:"area"`              // of the water when full
	Depth   units.Length `json:"depth"`             // when full
	DepthIs DepthKind    `json:"depthIs,omitempty"` // where the depth was taken

	AreaError  float64 `json:"areaError,omitempty"`  // relative standard error of Area; zero means 0.15 for "about", say 0.03 for a map
	DepthError float64 `json:"depthError,omitempty"` // of Depth; zero means 0.15

	Bottom units.Length `json:"bottom,omitempty"` // level of the deepest place on the pond's datum
}

// RoughEstimate is what a [RoughPond] may hold.
type RoughEstimate struct {
	P10 units.Volume `json:"p10"`
	P50 units.Volume `json:"p50"`
	P90 units.Volume `json:"p90"`

	// Low, Middle and High are ponds of these volumes to run a drawdown on.
	Low    StageTable `json:"low"`
	Middle StageTable `json:"middle"`
	High   StageTable `json:"high"`

	// Shares of the variance: which doubt to remove first.
	FromArea  float64 `json:"fromArea"`
	FromDepth float64 `json:"fromDepth"`
	FromShape float64 `json:"fromShape"`

	Notices []units.Notice `json:"notices,omitempty"`
}

// CodeRoughPond tells that a pond is a guess and what would narrow it most.
const CodeRoughPond = "DRAW_ROUGH_POND"

// The shape factor V/(A d): a dug bowl holds about 0.4 of area times deepest
// depth, a levee pond with a flat floor about 0.95, any pond 1 by its average
// depth. Medians and logarithmic standard errors put the ends at P5 and P95.
var shapeFactor = map[DepthKind]struct{ median, spread float64 }{
	DepthUnsaid:  {0.632, 0.279}, // 0.40 to 1.00
	DepthAverage: {1, 0},
	DepthDeepest: {0.616, 0.263}, // 0.40 to 0.95
}

// Estimate returns the volume as P10, P50 and P90 and three stage tables to
// match, with the area following a power of the depth.
//
// Equation: ln V = ln A + ln d + ln f, normal, with the variances added; f is
// the shape factor.
//
// Source: 0.4 of surface times deepest depth is the rule of USDA-NRCS (1997),
// Agriculture Handbook 590, for embankment ponds (from memory); 0.95 and the
// spreads are common practice, no source. Errors: area or depth not positive,
// relative errors not within 0 to 1.
func (r RoughPond) Estimate() (RoughEstimate, error) {
	const fn = "drawdown.RoughPond"
	factor, known := shapeFactor[r.DepthIs]
	err := errors.Join(units.Positive(fn, "area", float64(r.Area), "m2"), units.Positive(fn, "depth", float64(r.Depth), "m"),
		units.Within(fn, "depth", float64(r.Depth), 0, 100, "m"),
		units.Within(fn, "areaError", r.AreaError, 0, 1, ""), units.Within(fn, "depthError", r.DepthError, 0, 1, ""),
		units.Finite(fn, "bottom", float64(r.Bottom), "m"))
	if !known {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "depthIs", Value: float64(r.DepthIs), Reason: "not a named kind of depth"})
	}
	if err != nil {
		return RoughEstimate{}, err
	}
	ea, ed := r.AreaError, r.DepthError
	if ea == 0 {
		ea = 0.15
	}
	if ed == 0 {
		ed = 0.15
	}
	variance := ea*ea + ed*ed + factor.spread*factor.spread
	median := float64(r.Area) * float64(r.Depth) * factor.median
	const p90 = 1.2815515655446004 // standard normal quantile
	at := func(z float64) units.Volume { return units.Volume(median * math.Exp(z*math.Sqrt(variance))) }
	e := RoughEstimate{P10: at(-p90), P50: at(0), P90: at(p90),
		FromArea: ea * ea / variance, FromDepth: ed * ed / variance, FromShape: factor.spread * factor.spread / variance}
	for _, t := range []struct {
		volume units.Volume
		table  *StageTable
	}{{e.P10, &e.Low}, {e.P50, &e.Middle}, {e.P90, &e.High}} {
		if *t.table, err = r.table(float64(t.volume)); err != nil {
			return RoughEstimate{}, err
		}
	}
	first := "a sounding of the depth in a dozen places"
	if e.FromArea > e.FromDepth+e.FromShape {
		first = "the area from a map or a walk round with a phone"
	}
	e.Notices = []units.Notice{{Code: CodeRoughPond, Severity: units.Caution, Field: "volume", Value: float64(e.P90 / e.P10), Limit: 1.2,
		Message: fmt.Sprintf("the pond is a guess: its volume is known to a factor of %.2g between P10 and P90; %s would narrow it most", float64(e.P90/e.P10), first)}}
	return e, nil
}

// table returns a pond of the given volume whose area grows as a power of the
// depth, as near to the described area and depth as the volume allows.
func (r RoughPond) table(volume float64) (StageTable, error) {
	depth := float64(r.Depth)
	power := float64(r.Area)*depth/volume - 1
	if r.DepthIs == DepthAverage {
		power = 0.15 // a levee pond; the deepest place is then 15 % below the average depth
		depth *= 1 + power
	}
	power = math.Max(0.05, math.Min(3, power))
	const n = 24
	rows := make([]StageArea, n+1)
	for i := range rows {
		x := math.Pow(float64(i)/n, 2) // closer together near the bottom, where the animals are
		rows[i] = StageArea{r.Bottom + units.Length(x*depth), units.Area(math.Pow(x, power))}
	}
	unit, err := NewStageTable(rows)
	if err != nil {
		return StageTable{}, err
	}
	scale := units.Area(volume / float64(unit.Capacity()))
	for i := range rows {
		rows[i].Area *= scale
	}
	return NewStageTable(rows)
}

// CircleArea returns the area of a round pond from the length of its shore.
//
// Equation: A = p^2/(4 pi). Validity: nearly round ponds; any other shape has
// less area for its shore. Errors: a length that is negative or not finite.
//
// Source: geometry, as in Ohio State University Extension fact sheet A-2,
// Pond measurements, which divides square feet by 547,390 to get acres.
func CircleArea(shoreline units.Length) (units.Area, error) {
	if err := units.NonNegative("drawdown.CircleArea", "shoreline", float64(shoreline), "m"); err != nil {
		return units.Area(math.NaN()), err
	}
	return units.Area(float64(shoreline) * float64(shoreline) / (4 * math.Pi)), nil
}
