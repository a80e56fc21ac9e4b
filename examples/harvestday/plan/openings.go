package plan

import (
	"errors"
	"fmt"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/examples/internal/dual"
	"pondwright.example/units"
)

// Openings answers when the outlet has to be opened. Everything is reckoned
// backward from an hour that must be kept.
type Openings struct {
	ReadyBy time.Time `json:"readyBy"`
	// Latest is the latest opening after which the basin is ready by ReadyBy;
	// zero when none is. Ready is when it is ready then, MinuteLater when opened
	// one minute later.
	Latest      time.Time `json:"latest,omitzero"`
	Ready       time.Time `json:"ready,omitzero"`
	MinuteLater time.Time `json:"minuteLater,omitzero"`
	// Cliffs are openings at which the ready time jumps.
	Cliffs []drawdown.Cliff `json:"cliffs"`
	// LastBin is when the last bin has to be closed; DarkBy the hour by which the
	// basin must be ready for that, DarkLatest the latest opening for it.
	LastBin    time.Time `json:"lastBin,omitzero"`
	DarkBy     time.Time `json:"darkBy,omitzero"`
	DarkLatest time.Time `json:"darkLatest,omitzero"`
	// Shifts say how far Latest moves when the farm's data are off.
	Shifts []Shift `json:"shifts"`
	// Shut is the night should the outlet be opened a minute after Latest and the
	// tide shut it: at which level, and what pumping over the dike takes then.
	Shut ShutIn `json:"shut"`
	// Curve is the ready time against the opening.
	Curve []OpeningReady `json:"curve"`
}

// Shift is the latest opening were the outlet or the tide other than given.
type Shift struct {
	If     string        `json:"if"`
	Losses float64       `json:"losses"` // factor on the outlet's loss coefficients
	Surge  units.Length  `json:"surge"`  // on top of the forecast
	Latest time.Time     `json:"latest,omitzero"`
	Moves  time.Duration `json:"moves"` // later positive
}

// ShutIn is a pond that the tide has shut in before it is down.
type ShutIn struct {
	At      time.Time     `json:"at,omitzero"` // zero when the tide does not shut the outlet
	Level   units.Length  `json:"level"`
	Volume  units.Volume  `json:"volume"`  // down to the basin-ready level
	Pumping time.Duration `json:"pumping"` // of it over the dike with the fish pump at its duty
}

// OpeningReady is when the basin is ready after an opening.
type OpeningReady struct {
	Opening time.Time `json:"opening"`
	Ready   time.Time `json:"ready,omitzero"`
}

const (
	lookBack  = 6 * time.Hour     // how long before the planned opening an opening is looked for
	curveStep = 5 * time.Minute   // between the openings of the curve
	surgeStep = 0.1 * units.Metre // by which the tide is tried higher and lower
	coarse    = 20 * time.Minute  // between openings where only the latest is asked for, not every cliff
)

// openings reckons backward from the asked hour and from sunrise.
func (m *model) openings(sky Sky, work time.Duration) (Openings, error) {
	n := m.in.Night
	o := Openings{ReadyBy: n.ReadyBy}
	start := n.Opening.Add(-lookBack)
	solver, err := m.solver(asGiven, start)
	if err != nil {
		return o, err
	}
	latest, err := latestOpening(solver, n.ReadyBy, curveStep)
	if err != nil {
		return o, err
	}
	o.Latest, o.Ready, o.Cliffs = latest.Opening, latest.Ready, latest.Cliffs
	if !o.Latest.IsZero() {
		later, err := solver.Run(o.Latest.Add(time.Minute))
		if err != nil {
			return o, err
		}
		o.MinuteLater = later.Ready
		if o.Shut, err = m.shutIn(solver); err != nil {
			return o, err
		}
	}
	if sunrise := sky.Morning.Sunrise; !sunrise.IsZero() {
		o.LastBin = sunrise.Add(-n.Margin)
		o.DarkBy = o.LastBin.Add(-work)
		dark, err := latestOpening(solver, o.DarkBy, coarse)
		if err != nil {
			return o, err
		}
		o.DarkLatest = dark.Opening
	}
	for t := start; !t.After(n.ReadyBy); t = t.Add(curveStep) {
		r, err := solver.Run(t)
		if err != nil {
			return o, err
		}
		o.Curve = append(o.Curve, OpeningReady{Opening: t, Ready: r.Ready})
	}
	return o, m.shifts(&o, start)
}

// solver is the night's drawdown, ready to be run for any opening.
func (m *model) solver(d doubt, start time.Time) (*drawdown.Solver, error) {
	p, err := m.drawdownPlan(d, start, start, m.in.Pond.Start, m.in.Pond.BasinReady)
	if err != nil {
		return nil, err
	}
	return drawdown.NewSolver(p)
}

// latestOpening asks the backward question; that no opening is early enough is
// an answer here, with zero times.
func latestOpening(s *drawdown.Solver, by time.Time, every time.Duration) (drawdown.LatestOpening, error) {
	a, err := s.LatestOpening(by, drawdown.OpeningSearch{Every: every})
	if errors.Is(err, units.ErrNoSolution) {
		return drawdown.LatestOpening{ReadyBy: by}, nil
	}
	return a, err
}

// shutIn reads from the solver's last run where the tide shut the outlet.
func (m *model) shutIn(s *drawdown.Solver) (ShutIn, error) {
	for _, e := range s.Events() {
		if e.Kind != drawdown.TideShut {
			continue
		}
		v := m.pond.Volume(e.Stage) - m.pond.Volume(m.in.Pond.BasinReady)
		d, err := v.At(m.in.Pump.Flow)
		return ShutIn{At: e.At, Level: e.Stage, Volume: v, Pumping: d}, units.AtField("pump.flow", err)
	}
	return ShutIn{}, nil
}

// shifts asks the question again with the outlet's losses and the tide off by
// what they may be off.
func (m *model) shifts(o *Openings, start time.Time) error {
	k := m.in.Outlet.Doubt
	for _, c := range []struct {
		words string
		doubt
	}{
		{fmt.Sprintf("the outlet loses %.0f %% more", 100*k), doubt{losses: 1 + k}},
		{fmt.Sprintf("the outlet loses %.0f %% less", 100*k), doubt{losses: 1 - k}},
		{"the tide runs " + dual.Length(surgeStep) + " higher", doubt{losses: 1, surge: surgeStep}},
		{"the tide runs " + dual.Length(surgeStep) + " lower", doubt{losses: 1, surge: -surgeStep}},
		{"the outlet runs by the lower pressure line of FHWA HDS-5", doubt{losses: 1, low: true}},
	} {
		s, err := m.solver(c.doubt, start)
		if err != nil {
			return err
		}
		a, err := latestOpening(s, o.ReadyBy, coarse)
		if err != nil {
			return err
		}
		shift := Shift{If: c.words, Losses: c.losses, Surge: c.surge, Latest: a.Opening}
		if !a.Opening.IsZero() && !o.Latest.IsZero() {
			shift.Moves = a.Opening.Sub(o.Latest)
		}
		o.Shifts = append(o.Shifts, shift)
	}
	return nil
}
