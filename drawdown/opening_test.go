package drawdown

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// plasticPipe is a drain pipe whose control is the lesser of two: the full pipe
// by Darcy's law with the head above its centre line or the tailwater, and the
// critical depth at its inlet with a twentieth of the head lost, drowned by
// Villemonte's rule.
type plasticPipe struct{ diameter, length, losses, friction float64 }

func (p plasticPipe) Discharge(level, tailwater units.Length) units.Flow {
	h, z := float64(level), math.Max(float64(tailwater), 0)
	if h <= z {
		return 0
	}
	inlet := p.critical(0.95 * h)
	if z > 0 {
		inlet *= math.Pow(1-math.Pow(z/h, 1.5), 0.385)
	}
	head := h - math.Max(z, p.diameter/2)
	if head <= 0 {
		return units.Flow(inlet)
	}
	area := math.Pi / 4 * p.diameter * p.diameter
	full := area * math.Sqrt(2*gravity*head/(p.losses+p.friction*p.length/p.diameter))
	return units.Flow(math.Min(full, inlet))
}

// critical is the discharge whose critical depth has the specific energy e.
func (p plasticPipe) critical(e float64) float64 {
	d := p.diameter
	section := func(half float64) (depth, area, width float64) { // half the angle wetted
		return d / 2 * (1 - math.Cos(half)), d * d / 4 * (half - math.Sin(half)*math.Cos(half)), d * math.Sin(half)
	}
	f := func(half float64) float64 {
		y, a, w := section(half)
		return y + a/w/2 - e // E = y + v^2/2g with v^2 = g a/w
	}
	half := math.Pi - 1e-6
	if f(half) > 0 {
		half, _ = root.Find(f, 1e-6, half, 1e-12)
	}
	_, a, w := section(half)
	return a * math.Sqrt(gravity*a/w)
}

func (p plasticPipe) Kinks(_ units.Length, dst []units.Length) []units.Length {
	return append(dst, 0, units.Length(p.diameter/2))
}

// evening is a second night of draining: from 0.90 m to the basin at 0.25 m, the
// outlet's invert 0.60 m above tide datum, mean tide 0.75 m and amplitude 0.55 m
// with high water at the given hour.
func evening(high time.Time, surge units.Length) Plan {
	below := -0.60 * units.Metre
	return Plan{Pond: linedPond, Start: time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC), Stage: 0.90, Target: 0.25, Horizon: 96 * time.Hour,
		Gates: []Gate{{Name: "pipe", Outlet: plasticPipe{0.30, 18, 2.7, 0.0147}, Backflow: FlapGate}},
		Tailwater: &HarmonicTide{Mean: 0.75, Reference: high, Datum: "chart datum", ZeroAbovePond: &below, Surge: surge,
			Constituents: []Constituent{{Name: "M2", Amplitude: 0.55, DegreesPerHour: 360 / 12.42, NodalFactor: 1}}}}
}

func clock(day, hour, minute int) time.Time {
	return time.Date(2026, 3, day, hour, minute, 0, 0, time.UTC)
}

// Two evenings derived by hand: explicit steps of one minute through the same
// formulas. Before the cliff the ready times are smooth, after it they are
// hours later.
func TestEveningsAndTheirCliffs(t *testing.T) {
	first, second := clock(1, 17, 0), clock(1, 22, 40)
	for _, c := range []struct {
		high          time.Time
		surge         units.Length
		opening, want time.Time
		within        time.Duration
	}{
		{first, 0, clock(1, 17, 0), clock(2, 1, 47), 6 * time.Minute},
		{first, 0, clock(1, 18, 0), clock(2, 2, 17), 6 * time.Minute},
		{first, 0, clock(1, 18, 40), clock(2, 8, 26), 15 * time.Minute},
		{first, 0, clock(1, 19, 0), clock(2, 8, 39), 6 * time.Minute},
		{first, 0.1, clock(1, 18, 0), clock(2, 9, 5), 15 * time.Minute},
		{first, 0.2, clock(1, 18, 0), clock(2, 9, 56), 15 * time.Minute},
		{second, 0, clock(1, 15, 0), clock(2, 3, 43), 6 * time.Minute},
		{second, 0, clock(1, 18, 0), clock(2, 5, 34), 6 * time.Minute},
		{second, 0, clock(1, 19, 0), clock(2, 6, 2), 6 * time.Minute},
		{second, 0, clock(1, 20, 0), clock(2, 6, 21), 6 * time.Minute},
	} {
		s, err := NewSolver(evening(c.high, c.surge))
		if err != nil {
			t.Fatal(err)
		}
		o, err := s.Run(c.opening)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s surge %v: opened %s ready %s", c.high.Format("15:04"), c.surge, c.opening.Format("15:04"), o.Ready.Format("02 15:04:05"))
		if d := o.Ready.Sub(c.want); d < -c.within || d > c.within {
			t.Errorf("opened %s: ready %s, want %s", c.opening, o.Ready, c.want)
		}
	}
	s, _ := NewSolver(evening(first, 0))
	cliffs, err := s.Cliffs(clock(1, 13, 0), clock(2, 0, 0), 0)
	if err != nil || len(cliffs) != 1 {
		t.Fatalf("%v, %v", cliffs, err)
	}
	c := cliffs[0]
	t.Logf("cliff %s: %s to %s", c.Before.Format("15:04:05"), c.ReadyBefore.Format("02 15:04:05"), c.ReadyAfter.Format("02 15:04:05"))
	if c.After.Sub(c.Before) != time.Second || c.Jump < 5*time.Hour || c.Before.Before(clock(1, 18, 0)) || c.After.After(clock(1, 18, 45)) {
		t.Errorf("%+v", c)
	}
	for _, side := range []struct{ open, ready time.Time }{{c.Before, c.ReadyBefore}, {c.After, c.ReadyAfter}} {
		if o, _ := s.Run(side.open); o.Ready.Sub(side.ready).Abs() > time.Millisecond {
			t.Errorf("opened %s: ready %s, the cliff says %s", side.open, o.Ready, side.ready)
		}
	}
}

// The other evening is smooth until about midnight, where opening later misses
// the tide as well.
func TestSecondEveningHasItsCliffNearMidnight(t *testing.T) {
	s, _ := NewSolver(evening(clock(1, 22, 40), 0))
	cliffs, err := s.Cliffs(clock(1, 13, 0), clock(2, 3, 0), 0)
	if err != nil || len(cliffs) == 0 {
		t.Fatalf("%v, %v", cliffs, err)
	}
	for _, c := range cliffs {
		t.Logf("cliff %s: %s to %s", c.Before.Format("02 15:04:05"), c.ReadyBefore.Format("02 15:04:05"), c.ReadyAfter.Format("02 15:04:05"))
	}
	c := cliffs[0]
	if c.After.Sub(c.Before) != time.Second || c.Jump < 4*time.Hour || c.Before.Before(clock(1, 22, 30)) || c.After.After(clock(2, 1, 30)) {
		t.Errorf("%+v", c)
	}
}

// The backward answer run forward is not late, and a second later it is.
func TestLatestOpening(t *testing.T) {
	for _, c := range []struct{ high, by time.Time }{
		{clock(1, 17, 0), clock(2, 2, 20)}, // smooth
		{clock(1, 17, 0), clock(2, 6, 0)},  // the cliff binds
		{clock(1, 22, 40), clock(2, 6, 0)},
		{clock(1, 17, 0), clock(2, 9, 0)},
	} {
		s, err := NewSolver(evening(c.high, 0))
		if err != nil {
			t.Fatal(err)
		}
		a, err := s.LatestOpening(c.by, OpeningSearch{})
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("by %s: open %s, ready %s, a second later %s; %d cliffs, %d runs, %v", c.by.Format("15:04"), a.Opening.Format("15:04:05.000"), a.Ready.Format("02 15:04:05.000"), a.ReadyThen.Format("02 15:04:05"), len(a.Cliffs), a.Runs, a.Notices)
		o, _ := s.Run(a.Opening)
		if o.Ready.After(c.by) || !a.Unique {
			t.Errorf("ready %s, asked %s, unique %v", o.Ready, c.by, a.Unique)
		}
		if o, _ = s.Run(a.Opening.Add(time.Second)); !o.Ready.After(c.by) {
			t.Errorf("a second later ready %s, asked %s", o.Ready, c.by)
		}
		jump := o.Ready.Sub(a.Ready) > 10*time.Minute
		if !jump && c.by.Sub(a.Ready) > 10*time.Millisecond {
			t.Errorf("no cliff, yet ready %s before the asked hour", c.by.Sub(a.Ready))
		}
		if jump && len(a.Notices) == 0 {
			t.Error("a cliff without a notice")
		}
	}
	s, _ := NewSolver(evening(clock(1, 17, 0), 0))
	_, err := s.LatestOpening(clock(1, 15, 0), OpeningSearch{})
	if !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("too early an hour: %v", err)
	}
	if _, err = s.LatestOpening(clock(1, 11, 0), OpeningSearch{}); !errors.Is(err, units.ErrDomain) {
		t.Errorf("an hour before the start: %v", err)
	}
}
