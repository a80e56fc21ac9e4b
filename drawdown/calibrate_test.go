package drawdown

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// One reading of a vertical tank emptying by Torricelli's law fixes the
// coefficient in closed form, and its deviation by the slope there.
func TestCalibrationAgainstTorricelli(t *testing.T) {
	run := func(r check.Row) (Calibration, error) {
		p := Plan{Pond: basin{10000, 1, 0, 2}, Start: midnight, Stage: units.Length(r.Float("start_m")), Target: 0.2, Tolerance: 1e-11,
			Gates: []Gate{{Outlet: orifice{0.6, 0.07068583470577035, 0, false}}}}
		return p.Calibrate([]StageReading{{midnight.Add(secondsOf(r.Float("time_s"))), units.Length(r.Float("stage_m")), units.Length(r.Float("sd_m"))}},
			Priors{Outlet: r.Float("prior"), Clogging: -1, Area: -1})
	}
	check.Run(t, "testdata/calibration.csv", map[string]func(check.Row) (float64, error){
		"Plan.Calibrate": func(r check.Row) (float64, error) {
			c, err := run(r)
			if r.Text("result") == "sd" {
				return c.Outlet.SD, err
			}
			return c.Outlet.Value, err
		},
	})
}

// Readings made from a known truth give it back within their own deviation, and
// the forecast moves with it.
func TestCalibrationFindsTheTruth(t *testing.T) {
	p := evening(clock(1, 17, 0), 0)
	p.Opening = clock(1, 15, 0)
	truth := &fit{plan: p, free: []int{0, 1, 2}}
	x := []float64{math.Log(0.80), math.Log(0.85), math.Log(1.03)}
	real := clearClogging(truth.corrected(x))
	run, err := real.Run()
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(3, 4))
	outside := 0
	const sets = 8
	for set := range sets {
		var readings []StageReading
		for k := range 6 {
			at := p.Opening.Add(time.Duration(k+1) * time.Hour)
			readings = append(readings, StageReading{at, run.Hydrograph.Stage(at) + units.Length(0.01*rng.NormFloat64()), 0.01})
		}
		c, err := p.Calibrate(readings, Priors{})
		if err != nil {
			t.Fatal(err)
		}
		if set == 0 {
			t.Log(c.Statement)
			if c.Fit > 2.5 || len(c.Residuals) != 6 || !c.Ready.After(c.Planned) || !strings.Contains(c.Statement, "later than planned") {
				t.Errorf("%+v", c)
			}
		}
		// Outlet and area pull the same way; their ratio is what the stages know.
		ratio := c.Outlet.Value / c.Area.Value
		if math.Abs(ratio/(0.80/1.03)-1) > 2*math.Hypot(c.Outlet.SD/c.Outlet.Value, c.Area.SD/c.Area.Value) {
			outside++
		}
		if d := c.Ready.Sub(run.Ready).Abs(); d > 90*time.Minute && c.Late.Sub(c.Early) < d {
			t.Errorf("forecast %v (%v to %v), truth %v", c.Ready, c.Early, c.Late, run.Ready)
		}
	}
	if outside > 2 {
		t.Errorf("%d of %d fits miss the truth by more than two deviations", outside, sets)
	}
}

// Readings on the plan's own course change nothing.
func TestCalibrationOnCourse(t *testing.T) {
	p := evening(clock(1, 17, 0), 0)
	p.Opening = clock(1, 15, 0)
	run, _ := p.Run()
	var readings []StageReading
	for k := range 5 {
		at := p.Opening.Add(time.Duration(k+1) * time.Hour)
		readings = append(readings, StageReading{At: at, Stage: run.Hydrograph.Stage(at)})
	}
	c, err := p.Calibrate(readings, Priors{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []Factor{c.Outlet, c.Clogging, c.Area} {
		if math.Abs(f.Value-1) > 1e-3 || !(f.SD > 0) {
			t.Errorf("%+v", c)
		}
	}
	if c.Ready.Sub(c.Planned).Abs() > time.Minute || len(c.Notices) != 0 || c.Fit > 0.01 {
		t.Errorf("%v, planned %v, %v", c.Ready, c.Planned, c.Notices)
	}
	if again, _ := p.Calibrate(readings, Priors{}); again.Late != c.Late || again.Statement != c.Statement {
		t.Error("the same readings give another answer")
	}
	// A screen half shut is called by its name.
	for i := range readings {
		slow := p
		slow.Gates = []Gate{p.Gates[0]}
		by := 0.5
		slow.Gates[0].Outlet = sized(p.Gates[0].Outlet, &by)
		r, _ := slow.Run()
		readings[i].Stage = r.Hydrograph.Stage(readings[i].At)
	}
	if c, err = p.Calibrate(readings, Priors{Clogging: -1}); err != nil || len(c.Notices) == 0 || c.Notices[0].Code != CodeCalibrationFar {
		t.Errorf("%+v, %v", c.Notices, err)
	}
	t.Log(c.Statement)
}

func TestCalibrationRefusals(t *testing.T) {
	p := evening(clock(1, 17, 0), 0)
	p.Opening = clock(1, 15, 0)
	at := clock(1, 17, 0)
	for _, c := range []struct {
		name string
		r    []StageReading
	}{
		{"none", nil},
		{"out of order", []StageReading{{At: at, Stage: 0.8}, {At: at.Add(-time.Hour), Stage: 0.7}}},
		{"before the opening", []StageReading{{At: clock(1, 14, 0), Stage: 0.8}}},
		{"above the pond", []StageReading{{At: at, Stage: 9}}},
		{"NaN", []StageReading{{At: at, Stage: units.Length(math.NaN())}}},
		{"negative deviation", []StageReading{{At: at, Stage: 0.8, SD: -1}}},
		{"after the horizon", []StageReading{{At: clock(30, 0, 0), Stage: 0.8}}},
	} {
		if _, err := p.Calibrate(c.r, Priors{}); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}
