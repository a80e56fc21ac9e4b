package drawdown

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestNeighboursAndChannels(t *testing.T) {
	check.Run(t, "testdata/neighbours.csv", map[string]func(check.Row) (float64, error){
		"Exchange.Until": func(r check.Row) (float64, error) {
			e := Exchange{From: basin{r.Float("area_1_m2"), 1, 0, 5}, To: basin{r.Float("area_2_m2"), 1, 0, 5}, FromStage: units.Length(1 + r.Float("head_start_m")), ToStage: 1,
				Through: orifice{0.6, r.Float("orifice_m2"), 0, true}}
			x, err := e.Until(units.Length(r.Float("head_end_m")))
			if d := float64(x.FromStage - x.ToStage); math.Abs(d-r.Float("head_end_m")) > 1e-9 {
				t.Errorf("ends with a head of %v", d)
			}
			return x.Elapsed.Seconds(), err
		},
		"Neighbour": func(r check.Row) (float64, error) { // the same by the integrator, and the neighbour's stage
			a1, a2 := r.Float("area_1_m2"), r.Float("area_2_m2")
			h1, h2 := r.Float("head_start_m"), r.Float("head_end_m")
			stop := units.Length(1 + h1 - (h1-h2)*a2/(a1+a2))
			p := Plan{Pond: basin{a1, 1, 0, 5}, Start: midnight, Stage: units.Length(1 + h1), Target: stop, Tolerance: 1e-12,
				Neighbour: &Neighbour{Pond: basin{a2, 1, 0, 5}, Stage: 1, Through: orifice{0.6, r.Float("orifice_m2"), 0, true}}}
			s, err := NewSolver(p)
			if err != nil {
				return math.NaN(), err
			}
			o, err := s.Run(time.Time{})
			if stage, over := s.NeighbourStage(); math.Abs(float64(stop-stage)-h2) > 1e-8 || over != o.Balance.Neighbour || math.Abs(float64(o.Balance.Closure)) > 1e-9 {
				t.Errorf("ends at %v and %v, %+v", stop, stage, o.Balance)
			}
			return o.Elapsed.Seconds(), err
		},
		"ChannelOutlet.Discharge": func(r check.Row) (float64, error) {
			c, err := channelRow(r)
			return float64(c.Discharge(units.Length(r.Float("level_m")), units.Length(r.Float("tail_m")))), err
		},
		"ChannelOutlet.Level": func(r check.Row) (float64, error) {
			c, err := channelRow(r)
			return float64(c.Level(units.Length(r.Float("level_m")), units.Length(r.Float("tail_m")))), err
		},
	})
}

// channelRow is an orifice into a channel with a straight rating.
func channelRow(r check.Row) (ChannelOutlet, error) {
	rise := r.Float("rise_s_m2")
	return NewChannelOutlet([]RatingPoint{{0, 0}, {10, units.Length(10 * rise)}}, units.Flow(r.Float("base_m3_s")), orifice{0.6, r.Float("orifice_m2"), 0, true})
}

// A channel that backs up makes the drain slower, and one that does not changes
// nothing.
func TestChannelInAPlan(t *testing.T) {
	p := Plan{Pond: linedPond, Start: midnight, Stage: 1.2, Target: 0.3, Gates: []Gate{{Outlet: orifice{0.6, 0.2, 0, false}, Backflow: FlapGate}}, Tailwater: ConstantTailwater(-1)}
	open, err := p.Run()
	if err != nil {
		t.Fatal(err)
	}
	ready := func(slope float64) time.Duration {
		c, err := NewChannelOutlet([]RatingPoint{{0, -1}, {2, units.Length(-1 + 2*slope)}}, 0, orifice{0.6, 0.1, 0, false}, orifice{0.6, 0.1, 0, false})
		if err != nil {
			t.Fatal(err)
		}
		q := p
		q.Gates = []Gate{{Outlet: c, Backflow: FlapGate}}
		r, err := q.Run()
		if err != nil || !r.Reached {
			t.Fatal(err)
		}
		return r.Elapsed
	}
	if d := (ready(0) - open.Elapsed).Abs(); d > time.Millisecond {
		t.Errorf("a channel that does not rise changes the time by %v", d)
	}
	a, b := ready(2), ready(4)
	if !(a > open.Elapsed && b > a) {
		t.Errorf("%v, %v, %v", open.Elapsed, a, b)
	}
}

// Two table ponds: what leaves one arrives in the other, and half the head takes
// less than all of it.
func TestExchangeOfTables(t *testing.T) {
	e := Exchange{From: linedPond, To: basin{40, 20, 2, 3}, FromStage: 1.3, ToStage: 0.2, Through: orifice{0.6, 0.05, 0.1, false}}
	all, err := e.Until(0)
	if err != nil {
		t.Fatal(err)
	}
	lost := linedPond.Volume(1.3) - linedPond.Volume(all.FromStage)
	got := e.To.Volume(all.ToStage) - e.To.Volume(0.2)
	if math.Abs(float64(lost-got)) > 1e-9*float64(lost) || math.Abs(float64(lost-all.Moved)) > 1e-9*float64(lost) || math.Abs(float64(all.FromStage-all.ToStage)) > 1e-9 {
		t.Errorf("%+v: lost %v, got %v", all, lost, got)
	}
	half, err := e.Until(0.5)
	if err != nil || half.Elapsed >= all.Elapsed || half.Moved >= all.Moved {
		t.Errorf("%+v, %v", half, err)
	}
	e.Through = weir{1.7, 1, 1.28, 1.5}
	if _, err = e.Until(0); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("a sill in the way: %v", err)
	}
	for _, head := range []units.Length{-0.1, 2, units.Length(math.NaN())} {
		if _, err = e.Until(head); !errors.Is(err, units.ErrDomain) {
			t.Errorf("head %v: %v", head, err)
		}
	}
	if _, err = (Exchange{}).Until(0); !errors.Is(err, units.ErrDomain) {
		t.Errorf("nothing: %v", err)
	}
}

func TestChannelRefusals(t *testing.T) {
	o := orifice{0.6, 0.1, 0, false}
	good := []RatingPoint{{0, 0}, {1, 0.5}}
	for _, c := range []struct {
		rating  []RatingPoint
		base    units.Flow
		outlets []Outlet
	}{
		{good, 0, nil}, {good, -1, []Outlet{o}}, {good, 0, []Outlet{nil}}, {good[:1], 0, []Outlet{o}},
		{[]RatingPoint{{0.1, 0}, {1, 1}}, 0, []Outlet{o}}, {[]RatingPoint{{0, 1}, {1, 0.5}}, 0, []Outlet{o}}, {[]RatingPoint{{0, 0}, {0, 0.5}}, 0, []Outlet{o}},
	} {
		if _, err := NewChannelOutlet(c.rating, c.base, c.outlets...); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}
