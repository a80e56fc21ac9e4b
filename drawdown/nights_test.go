package drawdown

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/units"
)

// twoDates are two evenings a week apart under one tide.
func twoDates() NightQuestion {
	q := NightQuestion{Plan: evening(clock(1, 17, 0), 0), Place: Place{Latitude: 10 * units.Degree, Longitude: -0.1 * units.Degree},
		Evenings: []time.Time{clock(8, 12, 0), clock(1, 12, 0)}, Opening: 5 * time.Hour, Work: 3 * time.Hour, SurgeSD: 0.1, OutletSD: 0.1, Draws: 300, Seed: 1}
	return q
}

// With the first evening's tide the share of draws that miss 03:00 is about what
// a hand-made sampling of the same formulas gave (1500 draws of a minute's
// steps: 0.28 opened at 17:00, 0.46 at 18:00, 0.79 at 19:00), and it grows with
// the opening.
func TestNightMissesByDraws(t *testing.T) {
	q := twoDates()
	q.Evenings = []time.Time{clock(1, 12, 0)}
	n, err := NightAfter(q.Place, q.Evenings[0])
	if err != nil {
		t.Fatal(err)
	}
	q.Work = n.FirstLight.Sub(clock(2, 3, 0))
	last := 0.0
	for _, c := range []struct {
		opening time.Duration
		lo, hi  float64
	}{{5 * time.Hour, 0.18, 0.38}, {6 * time.Hour, 0.37, 0.55}, {7 * time.Hour, 0.68, 0.90}} {
		q.Opening = c.opening
		r, err := RankNights(q)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("opened %v: misses %.3f +- %.3f; %v %v %v; latest %v, locked %v", r[0].Opening.Format("15:04"), r[0].Miss, r[0].MissSE, r[0].P10.Format("15:04"), r[0].P50.Format("15:04"), r[0].P90.Format("15:04"), r[0].Latest.Format("15:04:05"), r[0].Locked)
		if !(r[0].Miss >= c.lo && r[0].Miss <= c.hi && r[0].Miss >= last) {
			t.Errorf("opened after %v: misses %v, want %v to %v", c.opening, r[0].Miss, c.lo, c.hi)
		}
		if len(r[0].Cliffs) == 0 || r[0].ReadyBy.Sub(clock(2, 3, 0)).Abs() > time.Second {
			t.Errorf("%+v", r[0])
		}
		last = r[0].Miss
	}
}

func TestNightsAreRanked(t *testing.T) {
	q := twoDates()
	r, err := RankNights(q)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range r {
		t.Logf("%s: misses %.2f, ready %s by %s, latest %s, moon %.2f", n.Evening.Format("01-02"), n.Miss, n.Ready.Format("15:04"), n.ReadyBy.Format("15:04"), n.Latest.Format("15:04"), n.Night.Midnight.Illuminated)
	}
	if len(r) != 2 || r[0].Miss > r[1].Miss {
		t.Errorf("%v", r)
	}
	again, _ := RankNights(q)
	if again[0].Miss != r[0].Miss || again[1].P50 != r[1].P50 {
		t.Error("the same question has two answers")
	}
	// Without chance there is one draw and no band.
	q.SurgeSD, q.OutletSD = 0, 0
	r, err = RankNights(q)
	if err != nil || !r[0].P10.Equal(r[0].Ready) || !r[0].P90.Equal(r[0].Ready) {
		t.Errorf("%+v, %v", r[0], err)
	}
	for _, spoil := range []func(*NightQuestion){
		func(q *NightQuestion) { q.Evenings = nil },
		func(q *NightQuestion) { q.SurgeSD = units.Length(math.NaN()) },
		func(q *NightQuestion) { q.OutletSD = -1 },
		func(q *NightQuestion) { q.Draws = -1 },
		func(q *NightQuestion) { q.Place.Latitude = 100 * units.Degree },
		func(q *NightQuestion) { q.Plan.Gates[0].Outlet = nil },
	} {
		bad := twoDates()
		bad.Plan.Gates = append([]Gate(nil), bad.Plan.Gates...)
		spoil(&bad)
		if _, err := RankNights(bad); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%v", err)
		}
	}
}

// A surge raises the tide and nothing else.
func TestSurged(t *testing.T) {
	tide := evening(clock(1, 17, 0), 0).Tailwater
	s := Surged{tide, 0.2}
	for h := range 30 {
		at := clock(1, 0, 0).Add(time.Duration(h) * time.Hour)
		if d := s.Level(at) - tide.Level(at); math.Abs(float64(d-0.2)) > 1e-12 {
			t.Errorf("%v", d)
		}
		if c := s.curve(clock(1, 0, 0)); math.Abs(c.at(float64(h)*3600)-float64(s.Level(at))) > 1e-9 {
			t.Errorf("curve %v, level %v", c.at(float64(h)*3600), s.Level(at))
		}
	}
	a, _ := NewSolver(evening(clock(1, 17, 0), 0.2))
	p := evening(clock(1, 17, 0), 0)
	p.Tailwater = s
	b, err := NewSolver(p)
	if err != nil {
		t.Fatal(err)
	}
	x, _ := a.Run(clock(1, 18, 0))
	y, _ := b.Run(clock(1, 18, 0))
	if x.Ready.Sub(y.Ready).Abs() > time.Millisecond {
		t.Errorf("%v, %v", x.Ready, y.Ready)
	}
	if err := (Surged{}).Validate(); !errors.Is(err, units.ErrDomain) {
		t.Errorf("no tailwater: %v", err)
	}
}
