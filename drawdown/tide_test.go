package drawdown

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// level is a pointer to a length, for offsets that may be missing.
func level(h units.Length) *units.Length { return &h }

func hoursAfter(t time.Time, h float64) time.Time { return t.Add(secondsOf(h * 3600)) }

// harmonic is the tide of a row.
func harmonic(r check.Row) *HarmonicTide {
	r.Text("case")
	r.Text("names")
	tide := &HarmonicTide{Mean: units.Length(r.Float("z0_m")), Reference: midnight, Datum: "chart", ZeroAbovePond: level(0)}
	a, g, v, f, u := r.Floats("amplitudes_m"), r.Floats("phase_lags_deg"), r.Floats("v0_deg"), r.Floats("nodal_f"), r.Floats("nodal_u_deg")
	for i, speed := range r.Floats("speeds_deg_h") {
		tide.Constituents = append(tide.Constituents, Constituent{Amplitude: units.Length(a[i]), DegreesPerHour: speed, NodalFactor: f[i],
			PhaseLag: units.Angle(g[i]) * units.Degree, Equilibrium: units.Angle(v[i]) * units.Degree, NodalCorrection: units.Angle(u[i]) * units.Degree})
	}
	return tide
}

func TestTidesAgainstIndependentCode(t *testing.T) {
	turnings := func(r check.Row) (ts []Turning, at time.Time) {
		z := r.Floats("levels_m")
		for i, h := range r.Floats("times_h") {
			ts = append(ts, Turning{hoursAfter(midnight, h), units.Length(z[i])})
		}
		return ts, hoursAfter(midnight, r.Float("time_h"))
	}
	check.Run(t, "testdata/tide.csv", map[string]func(check.Row) (float64, error){
		"HarmonicTide.Level": func(r check.Row) (float64, error) {
			tide := harmonic(r)
			if err := tide.Validate(); err != nil {
				return math.NaN(), err
			}
			at := hoursAfter(midnight, r.Float("time_h"))
			// The solver's own curve, tabulated, is the same tide.
			for _, epoch := range []time.Time{midnight, at.Add(-7 * time.Hour)} {
				c := tide.curve(epoch)
				c.pieces[0].table = newTailTable(&c.pieces[0])
				s := at.Sub(epoch).Seconds()
				for back := 6 * 3600.0; back >= 0; back -= 60 { // the table grows as it is walked
					c.at(s - back)
				}
				if d := c.at(s) - float64(tide.Level(at)); math.Abs(d) > 1e-9 {
					t.Errorf("curve off by %g m", d)
				}
			}
			return float64(tide.Level(at)), nil
		},
		"NextTurning": func(r check.Row) (float64, error) {
			turn, high, err := NextTurning(harmonic(r), hoursAfter(midnight, r.Float("time_h")))
			if !high {
				return 0, err
			}
			return turn.At.Sub(midnight).Hours(), err
		},
		"NextPassing": func(r check.Row) (float64, error) {
			tide, z := harmonic(r), units.Length(r.Float("levels_m"))
			want := strings.Contains(r.Text("locator"), "rise")
			at, rising, err := NextPassing(tide, z, hoursAfter(midnight, r.Float("time_h")))
			for err == nil && rising != want {
				at, rising, err = NextPassing(tide, z, at.Add(time.Second))
			}
			if below := tide.Level(at.Add(-time.Minute)) < z; rising != below {
				t.Errorf("rising %v, a minute before below %v", rising, below)
			}
			return at.Sub(midnight).Hours(), err
		},
		"TideTable.Level": func(r check.Row) (float64, error) {
			ts, at := turnings(r)
			table := &TideTable{Turnings: ts, Zone: time.UTC, Datum: "chart", ZeroAbovePond: level(-0.25), Surge: 0.25}
			return float64(table.Level(at)), table.Validate()
		},
		"TailwaterSeries.Level": func(r check.Row) (float64, error) {
			ts, at := turnings(r)
			s := &TailwaterSeries{Datum: "chart", ZeroAbovePond: level(0.25), Surge: -0.25}
			for _, p := range ts {
				s.Points = append(s.Points, TailwaterPoint(p))
			}
			return float64(s.Level(at)), s.Validate()
		},
	})
}

// A table of a pure cosine's turnings is the cosine.
func TestTableOfACosineIsTheCosine(t *testing.T) {
	const period = 44714.0
	table := &TideTable{Zone: time.UTC, Datum: "chart", ZeroAbovePond: level(0)}
	for k := range 6 {
		table.Turnings = append(table.Turnings, Turning{midnight.Add(secondsOf(period / 2 * float64(k))), units.Length(0.15 + 0.55*math.Cos(math.Pi*float64(k)))})
	}
	for s := 0.0; s < 2.5*period; s += 977 {
		want := 0.15 + 0.55*math.Cos(2*math.Pi*s/period)
		if got := float64(table.Level(midnight.Add(secondsOf(s)))); math.Abs(got-want) > 1e-12 {
			t.Fatalf("at %v: %v, want %v", s, got, want)
		}
	}
}

func goodTable() *TideTable {
	zone := time.FixedZone("standard", 8*3600)
	at := time.Date(2026, 7, 1, 3, 10, 0, 0, zone)
	table := &TideTable{Zone: zone, Datum: "chart datum", ZeroAbovePond: level(-0.6)}
	for i := range 12 {
		z := units.Length(0.2)
		if i%2 == 0 {
			z = 1.3
		}
		table.Turnings = append(table.Turnings, Turning{at.Add(time.Duration(i) * 373 * time.Minute), z})
	}
	return table
}

// A tide without a zone, a datum or an offset is refused, as are rows that a
// table cannot have.
func TestTideTableRefusals(t *testing.T) {
	if err := goodTable().Validate(); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		spoil func(*TideTable)
		want  string
		kind  error
	}{
		{"no zone", func(t *TideTable) { t.Zone = nil }, "zone", units.ErrDomain},
		{"a row in another zone", func(t *TideTable) { t.Turnings[3].At = t.Turnings[3].At.UTC() }, "turnings[3].at", units.ErrDomain},
		{"no datum", func(t *TideTable) { t.Datum = "" }, "datum", ErrDatumMissing},
		{"no offset", func(t *TideTable) { t.ZeroAbovePond = nil }, "zeroAbovePond", ErrDatumMissing},
		{"NaN", func(t *TideTable) { t.Turnings[2].Level = units.Length(math.NaN()) }, "turnings[2].level", units.ErrDomain},
		{"unsorted", func(t *TideTable) { t.Turnings[4], t.Turnings[5] = t.Turnings[5], t.Turnings[4] }, "turnings[5].at", units.ErrDomain},
		{"twice", func(t *TideTable) { t.Turnings[5].At = t.Turnings[4].At }, "turnings[5].at", units.ErrDomain},
		{"a turning left out", func(t *TideTable) { t.Turnings[4].Level = 0.9; t.Turnings[5].Level = 1.0; t.Turnings[6].Level = 1.2 }, "turning is missing", units.ErrDomain},
		{"one row", func(t *TideTable) { t.Turnings = t.Turnings[:1] }, "turnings", units.ErrDomain},
	} {
		table := goodTable()
		c.spoil(table)
		err := table.Validate()
		if !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// A plan in summer time beside a table in standard time is told so, and a table
// that ends before the pond is down ends the run with a notice.
func TestTideTableNotices(t *testing.T) {
	p := evening(clock(1, 17, 0), 0)
	table := goodTable()
	p.Tailwater = table
	p.Start = time.Date(2026, 7, 1, 6, 0, 0, 0, time.FixedZone("daylight", 9*3600))
	p.Stage, p.Target = 1.4, 0.1
	p.Gates[0].Outlet = orifice{0.6, 0.01, 0, false}
	r, err := p.Run()
	if err != nil {
		t.Fatal(err)
	}
	codes := map[string]bool{}
	for _, n := range r.Notices {
		codes[n.Code] = true
	}
	if !codes[CodeClockHour] || !codes[CodeTideEnds] || !codes[CodeNotReady] || r.Stopped != TailwaterDataEnded {
		t.Errorf("%v: %v", r.Stopped, r.Notices)
	}
	if end := table.Turnings[11].At; !r.Hydrograph.End().Equal(end) {
		t.Errorf("ran to %v, the table ends %v", r.Hydrograph.End(), end)
	}
	p.Start = time.Date(2026, 6, 30, 6, 0, 0, 0, time.UTC)
	if _, err = p.Run(); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("a table that begins after the plan: %v", err)
	}
}

// A tide stands above a sill for the hours an arc cosine says.
func TestTimesAboveASill(t *testing.T) {
	tide := evening(clock(1, 17, 0), 0).Tailwater
	ws, err := TimesAbove(tide, 0.25, clock(1, 0, 0), clock(3, 0, 0))
	if err != nil || len(ws) != 4 {
		t.Fatalf("%v, %v", ws, err)
	}
	// mean 0.15 m and amplitude 0.55 m above the sill's datum, 12.42 h
	want := 12.42 / math.Pi * math.Acos((0.25-0.15)/0.55)
	for _, w := range ws[1:3] {
		if got := w.Duration().Hours(); math.Abs(got-want) > 1e-9 {
			t.Errorf("%v h, want %v", got, want)
		}
	}
	if _, err = TimesAbove(tide, 5, clock(1, 0, 0), clock(3, 0, 0)); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("a level never met: %v", err)
	}
	if _, _, err = NextTurning(ConstantTailwater(1), clock(1, 0, 0)); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("a constant does not turn: %v", err)
	}
}
