package drawdown

import (
	"fmt"
	"time"

	"pondwright.example/units"
)

// Codes of the notices a drawdown may carry.
const (
	CodeTideLock       = "DRAW_TIDE_LOCK"             // gates open but shut by the tide
	CodeNotReady       = "DRAW_NOT_READY"             // the target was not reached
	CodeBelowTarget    = "DRAW_BELOW_TARGET"          // the pond stands below the target from the start
	CodeTideEnds       = "DRAW_TIDE_DATA_ENDED"       // the tide table ended before the pond was ready
	CodeClockHour      = "DRAW_CLOCK_OFFSET_ONE_HOUR" // plan and tide table clocks differ by an hour
	CodeOvertopped     = "DRAW_OVERTOPPED"            // above the top of the stage table
	CodeFallRate       = "DRAW_FALL_RATE"             // the stage fell faster than the limit
	CodeFlowStopped    = "DRAW_FLOW_STOPPED"          // the current stopped after the opening
	CodePlainOutlet    = "DRAW_PLAIN_OUTLET"          // an outlet does not tell its kinks
	CodeStartUnderTail = "DRAW_TAIL_ABOVE_POND"       // the tailwater stood above the pond at the opening
)

// stillLimit is how long the current may stop in all before a notice is due
// (common practice, no source).
const stillLimit = 5 * time.Minute

// Result is one run with everything recorded. As JSON it is written and read
// without its Hydrograph.
type Result struct {
	Outcome
	Events     []Event        `json:"events"`
	Stalls     []Window       `json:"stalls"` // gates open and shut by the tide
	Gaps       []Window       `json:"gaps"`   // after the opening, no gate open to the way out: the current stands still
	Hydrograph Hydrograph     `json:"-"`
	Notices    []units.Notice `json:"notices"`
}

func (s *Solver) result(o Outcome) Result {
	return Result{Outcome: o, Events: append([]Event(nil), s.events...), Stalls: s.Stalls(), Gaps: s.Gaps(), Hydrograph: s.Hydrograph(), Notices: s.Notices()}
}

// Stalls returns the windows of the last run in which gates were open and shut
// by the tide. Each begins with the stage meeting the tailwater or with an
// opening against it, and ends with the tide freeing the gate or the run ending.
// The slice is fresh.
func (s *Solver) Stalls() []Window {
	var out []Window
	open := false
	for _, e := range s.events {
		switch e.Kind {
		case TideShut:
			out, open = append(out, Window{From: e.At}), true
		case TideFreed:
			if open {
				out[len(out)-1].To, open = e.At, false
			}
		}
	}
	if open {
		out[len(out)-1].To = clockAt(s.plan.Start, s.t)
	}
	return out
}

// Gaps returns the windows of the last run after the opening in which no gate
// was open to the way out, by the tide, a pause, a float or a move: the current
// stands still and animals that were moving with it scatter. The slice is fresh.
func (s *Solver) Gaps() []Window {
	var out []Window
	for _, g := range s.gaps {
		out = append(out, Window{From: clockAt(s.plan.Start, g.from), To: clockAt(s.plan.Start, g.to)})
	}
	return out
}

// Notices returns what a reader of the last run must know. The slice is fresh.
func (s *Solver) Notices() []units.Notice {
	var out []units.Notice
	add := func(code string, sev units.Severity, field string, value, limit float64, unit, format string, args ...any) {
		out = append(out, units.Notice{Code: code, Severity: sev, Field: field, Value: value, Limit: limit, Unit: unit, Message: fmt.Sprintf(format, args...)})
	}
	if !s.reached {
		add(CodeNotReady, units.Warning, "target", s.levelOf(s.main.Y()[0]), float64(s.plan.Target), "m",
			"the pond did not reach the target stage: %s", s.reason)
	}
	out = s.plan.belowTarget(out)
	if s.reason == TailwaterDataEnded {
		add(CodeTideEnds, units.Warning, "tailwater", s.tail.end/3600, 0, "h", "the tailwater's data end %.2f h after the start and the run with them; extend the table", s.tail.end/3600)
	}
	if t, ok := s.plan.Tailwater.(*TideTable); ok && t.hourOff(s.plan.Start) {
		_, plan := s.plan.Start.Zone()
		_, table := s.plan.Start.In(t.Zone).Zone()
		add(CodeClockHour, units.Caution, "tailwater.zone", float64(plan)/3600, float64(table)/3600, "h",
			"the plan's clock is %+g h from UTC and the tide table's %+g h: one hour apart, as when a table keeps standard time in summer; check which clock the table was printed in", float64(plan)/3600, float64(table)/3600)
	}
	if s.locked > 0 {
		add(CodeTideLock, units.Warning, "tailwater", s.locked/3600, 0, "h", "the tide holds open gates shut for %.2f h; water and animals stand still meanwhile and the ready time can jump by hours with the opening", s.locked/3600)
		if st := s.Stalls(); len(st) > 0 && st[0].From.Equal(clockAt(s.plan.Start, s.opening)) {
			add(CodeStartUnderTail, units.Caution, "tailwater", 0, 0, "m", "the tailwater stands at or above the pond when the gates open: nothing flows until %s", st[0].To.Format("2006-01-02 15:04 MST"))
		}
	}
	total := 0.0
	for _, g := range s.gaps {
		total += g.to - g.from
	}
	if total > stillLimit.Seconds() {
		add(CodeFlowStopped, units.Caution, "gates", total/60, stillLimit.Minutes(), "min", "the current stops for %.0f min in %d stretches after the opening; animals running with it scatter and strand", total/60, len(s.gaps))
	}
	if s.top {
		add(CodeOvertopped, units.Danger, "stage", s.highest, float64(s.pond.Top()), "m", "the water rose above the top of the stage table; the run went on with vertical walls, a real pond overflows")
	}
	if l := s.plan.FallLimit; l > 0 && s.peak > l {
		add(CodeFallRate, units.Warning, "fallLimit", float64(s.peak)*3600, float64(l)*3600, "m/h", "the stage fell at up to %.4g m/h, at %s; banks can slip, liners lift and animals strand", float64(s.peak)*3600, clockAt(s.plan.Start, s.peakAt).Format("2006-01-02 15:04 MST"))
	}
	if s.plain {
		add(CodePlainOutlet, units.Info, "gates", 0, 0, "", "an outlet or the tailwater does not tell where its law has corners; steps were held to %s", PlainOutletStep)
	}
	return out
}

// belowTarget warns of a target that is met before anything is drained.
func (p *Plan) belowTarget(out []units.Notice) []units.Notice {
	if !(p.Stage < p.Target) {
		return out
	}
	return append(out, units.Notice{Code: CodeBelowTarget, Severity: units.Caution, Field: "target", Value: float64(p.Target), Limit: float64(p.Stage), Unit: "m",
		Message: fmt.Sprintf("the pond already stands below the target, %.4g m against %.4g m: nothing is drained for it", float64(p.Stage), float64(p.Target))})
}
