package drawdown

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/units"
)

// Boards are pulled as early as the limit allows: just after each pull the
// stage falls at the limit, by the weir formula, and never faster.
func TestBoardsForRate(t *testing.T) {
	p := Plan{Pond: basin{120, 80, 3, 1.6}, Start: midnight, Stage: 1.5, Target: 0.25, Horizon: 12 * 24 * time.Hour,
		Gates: []Gate{{Name: "monk", Outlet: weir{1.7, 1, 1.5, 1.5}}}}
	var crests []Outlet
	for k := range 11 {
		crests = append(crests, weir{1.7, 1, math.Max(0, 1.5-0.15*float64(k)), 1.5})
	}
	limit := units.Velocity(0.04 / 3600) // four centimetres an hour
	s, err := p.BoardsForRate(0, crests, limit, 0)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Pulls) < 7 || !s.Reached || float64(s.Peak) > 1.01*float64(limit) {
		t.Errorf("%+v", s)
	}
	for k, b := range s.Pulls {
		w := crests[k+1].(weir)
		q := float64(w.Discharge(b.Stage, 0))
		if fall := q / float64(p.Pond.Area(b.Stage)); math.Abs(fall/float64(limit)-1) > 0.01 && k > 0 {
			t.Errorf("board %d at %v: falls at %.4g of the limit by hand", b.Board, b.At, fall/float64(limit))
		}
	}
	// A gap longer than the limit asks for holds instead.
	slow, err := p.BoardsForRate(0, crests, limit, 20*time.Hour)
	if err != nil || slow.Reached && !slow.Ready.After(s.Ready) {
		t.Errorf("%v, %v", slow.Ready, err)
	}
	for k := 1; k < len(slow.Pulls); k++ {
		if slow.Pulls[k].At.Sub(slow.Pulls[k-1].At) < 20*time.Hour {
			t.Errorf("pulled %v after %v", slow.Pulls[k].At, slow.Pulls[k-1].At)
		}
	}
	// One huge board cannot keep any limit for long: the notice says when.
	big := []Outlet{weir{1.7, 1, 1.2, 1.5}, weir{1.7, 1, 1.19, 1.5}, orifice{0.6, 2, 0, false}}
	p.Stage = 1.2
	p.Tailwater = evening(clock(1, 6, 0), 0.6).Tailwater
	p.Gates[0].Backflow = FlapGate
	rushed, err := p.BoardsForRate(0, big, limit, 0)
	if err != nil || len(rushed.Notices) == 0 || rushed.Notices[0].Code != CodeBoardRate {
		t.Errorf("%+v, %v", rushed, err)
	}
	p.Tailwater = nil
	never, err := p.BoardsForRate(0, []Outlet{weir{1.7, 1, 1.2, 1.5}, weir{1.7, 1, 0.6, 1.5}}, limit, 0)
	if err != nil || len(never.Pulls) != 0 || len(never.Notices) != 1 {
		t.Errorf("a board too deep to pull: %+v, %v", never, err)
	}
	if _, err = p.BoardsForRate(0, crests[:1], limit, 0); !errors.Is(err, units.ErrDomain) {
		t.Errorf("one outlet: %v", err)
	}
	if _, err = p.BoardsForRate(0, crests, 0, 0); !errors.Is(err, units.ErrDomain) {
		t.Errorf("no limit: %v", err)
	}
	if _, err = p.BoardsForRate(1, crests, limit, 0); !errors.Is(err, units.ErrDomain) {
		t.Errorf("no gate: %v", err)
	}
}
