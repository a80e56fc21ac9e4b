package drawdown

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// The size a deadline asks for, where closed forms know it: an orifice empties
// in a time inverse to its area, and a pump alone in volume over net flow.
func TestRequiredAgainstClosedForms(t *testing.T) {
	check.Run(t, "testdata/deadline.csv", map[string]func(check.Row) (float64, error){
		"Plan.RequiredOutlet": func(r check.Row) (float64, error) {
			d := r.Float("diameter_m")
			p := Plan{Pond: basin{120, 80, 3, 1.6}, Start: midnight, Stage: units.Length(r.Float("start_m")), Target: units.Length(r.Float("end_m")), Tolerance: 1e-12,
				Gates: []Gate{{Outlet: orifice{0.6, math.Pi / 4 * d * d, 0, false}}}}
			q, err := p.RequiredOutlet(0, midnight.Add(secondsOf(r.Float("time_s"))))
			return d * math.Sqrt(q.Factor), err
		},
		"Plan.RequiredPump": func(r check.Row) (float64, error) {
			p := Plan{Pond: basin{10000, 1, 0, 3}, Start: midnight, Stage: units.Length(r.Float("start_m")), Target: units.Length(r.Float("end_m")), Tolerance: 1e-12,
				Inflows: []Inflow{{Rate: units.Flow(r.Float("inflow_m3_s"))}}}
			if r.Has("evaporation_m_s") {
				p.Evaporation = units.Velocity(r.Float("evaporation_m_s"))
			}
			q, err := p.RequiredPump(midnight.Add(secondsOf(r.Float("time_s"))))
			return float64(q.Pump), err
		},
	})
}

func TestRequiredBesideTheTide(t *testing.T) {
	p := evening(clock(1, 17, 0), 0)
	p.Opening = clock(1, 19, 0) // too late for the tide: 08:40
	by := clock(2, 3, 0)
	r, err := p.RequiredPump(by)
	if err != nil || r.InTime || r.Pump <= 0 || r.Ready.After(by) || by.Sub(r.Ready) > time.Second || r.Left <= 0 {
		t.Errorf("%+v, %v", r, err)
	}
	o, err := p.RequiredOutlet(0, by)
	if err != nil || !(o.Factor > 1 && o.Factor < 2) || o.Ready.After(by) {
		t.Errorf("%+v, %v", o, err)
	}
	p.Opening = clock(1, 15, 0)
	if r, err = p.RequiredPump(by); err != nil || !r.InTime || r.Pump != 0 {
		t.Errorf("in time as it is: %+v, %v", r, err)
	}
	if o, err = p.RequiredOutlet(0, by); err != nil || !(o.Factor < 1) {
		t.Errorf("to spare: %+v, %v", o, err)
	}
	if _, err = p.RequiredPump(clock(1, 14, 0)); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("an hour before the opening: %v", err)
	}
	if _, err = p.RequiredOutlet(3, by); !errors.Is(err, units.ErrDomain) {
		t.Errorf("no such gate: %v", err)
	}
}
