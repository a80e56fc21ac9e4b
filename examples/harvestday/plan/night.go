package plan

import (
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

// Drain is one drawdown of the pond, from the opening of the outlet to the
// asked level.
type Drain struct {
	Opening  time.Time         `json:"opening"`
	From     units.Length      `json:"from"`
	To       units.Length      `json:"to"`
	Ready    time.Time         `json:"ready"`
	Reached  bool              `json:"reached"` // false when the tide table ends before the pond is down
	Drained  units.Volume      `json:"drained"`
	Locked   time.Duration     `json:"locked"` // outlet open and shut by the tide
	Stalls   []drawdown.Window `json:"stalls"`
	Steepest units.Velocity    `json:"steepestFall"` // between two moments of the course
	Closure  float64           `json:"waterBalance"` // what the water balance misses, relative to the pond's volume
	Course   []Course          `json:"course"`
	Events   []drawdown.Event  `json:"events"`
	Notices  []units.Notice    `json:"notices,omitempty"`
}

// Course is one moment of a drawdown. Levels are above the outlet's invert.
type Course struct {
	At    time.Time    `json:"at"`
	Level units.Length `json:"level"`
	Tide  units.Length `json:"tide"`
	Out   units.Flow   `json:"out"`
}

// doubt is one way the farm's data may be off: the outlet's losses by a factor,
// the tide by a surge, the pressure line at the outfall by its method.
type doubt struct {
	losses float64
	surge  units.Length
	low    bool // the lower pressure line, whatever the farm's choice
}

var asGiven = doubt{losses: 1}

// drawdownPlan is the drawdown from a level to another past the outlet and the
// tide. The clock starts at start; the outlet opens at opening.
func (m *model) drawdownPlan(d doubt, start, opening time.Time, from, to units.Length) (drawdown.Plan, error) {
	outlet := m.outlet
	if d.losses != 1 || d.low {
		spec := m.outletSpec(d.losses)
		if d.low {
			spec.Outfall = hydraulics.OutfallBrink
		}
		var err error
		if outlet, err = hydraulics.NewOutletPipe(spec); err != nil {
			return drawdown.Plan{}, err
		}
	}
	backflow := drawdown.BothWays
	if m.in.Outlet.Flap {
		backflow = drawdown.FlapGate
	}
	return drawdown.Plan{
		Pond: m.pond, Start: start, Stage: from, Opening: opening, Target: to,
		Gates:     []drawdown.Gate{{Name: "outlet", Outlet: outlet, Backflow: backflow}},
		Tailwater: m.tideTable(m.tide.Zone, d.surge),
		FallLimit: m.in.Pond.RateLimit.Per(time.Hour),
		Horizon:   5 * 24 * time.Hour,
	}, nil
}

// Drawdown returns the drawdown of the night alone, opened at the planned hour,
// with the outlet's losses multiplied by losses (1 as given), and what the pond's
// reader should know. The error joins every problem of the input.
func Drawdown(in Input, losses float64) (drawdown.Plan, []units.Notice, error) {
	m, err := build(in)
	if err != nil {
		return drawdown.Plan{}, nil, err
	}
	opening := in.Night.Opening.In(m.zone)
	p, err := m.drawdownPlan(doubt{losses: losses}, opening, opening, in.Pond.Start, in.Pond.BasinReady)
	return p, m.notices, err
}

// drain runs one drawdown and records its course.
func (m *model) drain(d doubt, opening time.Time, from, to units.Length) (Drain, error) {
	p, err := m.drawdownPlan(d, opening, opening, from, to)
	if err != nil {
		return Drain{}, err
	}
	r, err := p.Run()
	if err != nil {
		return Drain{}, err
	}
	out := Drain{Opening: opening, From: from, To: to, Ready: r.Ready, Reached: r.Reached,
		Drained: m.pond.Volume(from) - m.pond.Volume(r.Stage), Locked: r.Locked, Stalls: r.Stalls,
		Closure: float64(r.Balance.Closure / r.Balance.Start), Events: r.Events, Notices: r.Notices}
	end := r.Ready
	if !r.Reached {
		end = r.Hydrograph.End()
	}
	for _, h := range r.Hydrograph.Sample(max(time.Minute, end.Sub(opening)/240)) {
		tide := p.Tailwater.Level(h.At)
		out.Course = append(out.Course, Course{At: h.At, Level: h.Stage, Tide: tide, Out: m.outlet.Discharge(h.Stage, tide)})
	}
	out.Notices = m.outlet.AppendNotices(out.Notices, r.Stage, p.Tailwater.Level(end))
	for i, c := range out.Course[1:] {
		out.Steepest = max(out.Steepest, (out.Course[i].Level - c.Level).Per(c.At.Sub(out.Course[i].At)))
	}
	return out, nil
}
