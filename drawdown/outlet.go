package drawdown

import (
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// Outlet is anything that lets water out of a pond: for the pond's level and
// the level beyond it, both above the pond's datum, it says how much passes. A
// weir, an orifice, a culvert or a pump satisfies it with one method.
//
// Discharge must be finite for every pair of finite levels, never negative, and
// must treat a tailwater below its own sill as no tailwater. It is asked only
// with level above tailwater, unless the gate it stands in is Pumped; reverse
// flow through an open pipe asks it with the two exchanged.
type Outlet interface {
	Discharge(level, tailwater units.Length) units.Flow
}

// KinkedOutlet is an Outlet that also says where its law is not smooth. Kinks
// appends to dst the levels at which, for this tailwater, the control changes, a
// board is overtopped or a rating table has a corner, and returns the longer
// slice; the count must not depend on the tailwater. Levels that stay when the
// tailwater is far below (sills, inverts, crowns) are taken to matter for the
// tailwater too. An outlet that is smooth everywhere appends nothing, which is
// worth saying: it lets the solver take long steps, while an Outlet without
// Kinks is walked in steps of at most [PlainOutletStep].
type KinkedOutlet interface {
	Outlet
	Kinks(tailwater units.Length, dst []units.Length) []units.Length
}

// PlainOutletStep is the longest step taken past an outlet, or beside a
// tailwater, that does not tell its corners.
const PlainOutletStep = 10 * time.Minute

// OutletFunc makes a function an Outlet without known kinks.
type OutletFunc func(level, tailwater units.Length) units.Flow

// Discharge calls f.
func (f OutletFunc) Discharge(level, tailwater units.Length) units.Flow { return f(level, tailwater) }

// SmoothOutlet is a function that is smooth wherever level is above tailwater
// and above the fixed Sills, and whose control changes nowhere else.
type SmoothOutlet struct {
	Law   OutletFunc     `json:"-"`
	Sills []units.Length `json:"sills"`
}

// Discharge calls the law.
func (o SmoothOutlet) Discharge(level, tailwater units.Length) units.Flow {
	return o.Law(level, tailwater)
}

// Kinks appends the sills.
func (o SmoothOutlet) Kinks(_ units.Length, dst []units.Length) []units.Length {
	return append(dst, o.Sills...)
}

// Backflow says what a gate does when the water beyond it stands higher than
// the pond: [FlapGate], [BothWays] or [Pumped]. The zero value, BackflowUnstated,
// is an error beside a tailwater: neither answer is safe to assume.
type Backflow uint8

const (
	BackflowUnstated Backflow = iota
	FlapGate                  // shut while the tailwater is at or above the pond
	BothWays                  // open: the pond fills
	Pumped                    // a pump: runs against any tailwater and never flows back
)

var backflowNames = [...]string{"unstated", "flap gate", "both ways", "pumped"}

// String returns the words "unstated", "flap gate", "both ways" or "pumped".
func (b Backflow) String() string {
	if int(b) < len(backflowNames) {
		return backflowNames[b]
	}
	return fmt.Sprintf("Backflow(%d)", uint8(b))
}

// MarshalText writes the words of String.
func (b Backflow) MarshalText() ([]byte, error) {
	if int(b) >= len(backflowNames) {
		return nil, fmt.Errorf("drawdown.Backflow: %d is not a known way", uint8(b))
	}
	return []byte(backflowNames[b]), nil
}

// UnmarshalText reads the words of String.
func (b *Backflow) UnmarshalText(text []byte) error {
	for i, n := range backflowNames {
		if string(text) == n {
			*b = Backflow(i)
			return nil
		}
	}
	return fmt.Errorf("drawdown.Backflow: %q is none of %q", text, backflowNames)
}

// Window is a stretch of time, its first moment included and its last not.
type Window struct {
	From time.Time `json:"from"`
	To   time.Time `json:"to"`
}

// Duration returns the length of the window.
func (w Window) Duration() time.Duration { return w.To.Sub(w.From) }

// Move is a change at a gate, counted from the plan's opening so that a later
// opening carries the whole sequence with it: another outlet (the crest after a
// board is pulled; nil keeps the one before) and the fraction of the outlet's
// discharge that passes (0 shut, 1 fully open).
type Move struct {
	After    time.Duration `json:"after"`
	Outlet   Outlet        `json:"-"`
	Fraction float64       `json:"fraction"`
}

// FloatSwitch runs a gate (a pump as a rule) from the moment the stage rises to
// Start until it falls to Stop, or the other way round for a pump that fills:
// Start below Stop. The two must lie a millimetre apart at least, or the pump
// would chatter. Running tells the state at the start of the plan when the stage
// lies between the two.
type FloatSwitch struct {
	Start   units.Length `json:"start"`
	Stop    units.Length `json:"stop"`
	Running bool         `json:"running"`
}

// StageFactor is one corner of a multiplier that changes with stage.
type StageFactor struct {
	Stage  units.Length `json:"stage"`
	Factor float64      `json:"factor"`
}

// Gate is one way out of the pond: an outlet, what stands in it, and when.
type Gate struct {
	Name     string        `json:"name"`
	Outlet   Outlet        `json:"-"`
	Backflow Backflow      `json:"backflow"`
	Moves    []Move        `json:"moves,omitempty"`    // from the opening on; none: fully open
	Runs     []Window      `json:"runs,omitempty"`     // run by the clock in these windows, whatever the opening
	Pauses   []Window      `json:"pauses,omitempty"`   // shut in these windows, whatever else holds
	Float    *FloatSwitch  `json:"float,omitempty"`    // run by the level
	Clogging []StageFactor `json:"clogging,omitempty"` // share of the discharge a fouled screen lets through, linear between stages and held beyond; none: clean
}

// clogAt is the clogging factor at a stage.
func clogAt(c []StageFactor, h float64) float64 {
	if h <= float64(c[0].Stage) {
		return c[0].Factor
	}
	for i := 1; i < len(c); i++ {
		if hi := float64(c[i].Stage); h < hi {
			lo := float64(c[i-1].Stage)
			return c[i-1].Factor + (h-lo)/(hi-lo)*(c[i].Factor-c[i-1].Factor)
		}
	}
	return c[len(c)-1].Factor
}

func (g Gate) validate(path string, tailed bool) []error {
	const fn = "drawdown.Plan"
	var all []error
	bad := func(field string, v float64, unit, reason string) {
		all = append(all, &units.InputError{Func: fn, Field: path + "." + field, Value: v, Unit: unit, Reason: reason})
	}
	check := func(err error) {
		if err != nil {
			all = append(all, err)
		}
	}
	if g.Outlet == nil {
		bad("outlet", 0, "", "a gate needs an outlet")
	}
	if g.Backflow > Pumped {
		bad("backflow", float64(g.Backflow), "", "not a known way")
	} else if tailed && g.Backflow == BackflowUnstated {
		bad("backflow", 0, "", "say FlapGate, BothWays or Pumped: the tailwater may stand above the pond and neither answer is safe to assume")
	}
	for i, m := range g.Moves {
		p := fmt.Sprintf("%s.moves[%d]", path, i)
		check(units.Within(fn, p+".fraction", m.Fraction, 0, 1, ""))
		if m.After < 0 || (i > 0 && m.After <= g.Moves[i-1].After) {
			bad(fmt.Sprintf("moves[%d].after", i), m.After.Seconds(), "s", "moves follow the opening, each later than the one before")
		}
	}
	for k, ws := range [][]Window{g.Runs, g.Pauses} {
		for i, w := range ws {
			if !w.To.After(w.From) {
				bad(fmt.Sprintf("%s[%d]", [2]string{"runs", "pauses"}[k], i), w.Duration().Seconds(), "s", "a window ends after it begins")
			}
		}
	}
	if f := g.Float; f != nil {
		check(units.Finite(fn, path+".float.start", float64(f.Start), "m"))
		check(units.Finite(fn, path+".float.stop", float64(f.Stop), "m"))
		if math.Abs(float64(f.Start-f.Stop)) < 1e-3 {
			bad("float.stop", float64(f.Stop), "m", "start and stop levels must lie a millimetre apart at least, or the pump chatters")
		}
	}
	for i, c := range g.Clogging {
		p := fmt.Sprintf("%s.clogging[%d]", path, i)
		check(units.Finite(fn, p+".stage", float64(c.Stage), "m"))
		check(units.Within(fn, p+".factor", c.Factor, 0, 1, ""))
		if i > 0 && !(c.Stage > g.Clogging[i-1].Stage) {
			bad(fmt.Sprintf("clogging[%d].stage", i), float64(c.Stage), "m", "stages must rise")
		}
	}
	return all
}
