package plan_test

import (
	"math"
	"os"
	"sync"
	"testing"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/examples/harvestday/farm"
	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

// Every check here is of kind 'derived by hand': the expected figures were
// worked out apart from this library, by the method stated beside them, with
// bands that a competent engineer using other coefficients would stay inside.

var heron = sync.OnceValues(func() (plan.Plan, error) {
	in, _, err := farm.Read(os.DirFS("../heronflat"))
	if err != nil {
		return plan.Plan{}, err
	}
	return plan.Make(in)
})

func night(t *testing.T) plan.Plan {
	t.Helper()
	p, err := heron()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// within checks that a figure lies in its band.
func within(t *testing.T, what string, got, lo, hi float64) {
	t.Helper()
	if !(got >= lo && got <= hi) {
		t.Errorf("%s: %.6g, outside %g to %g", what, got, lo, hi)
	}
}

// about checks a figure to 10 %, for those that came without a band.
func about(t *testing.T, what string, got, want float64) {
	t.Helper()
	within(t, what, got, want-0.1*math.Abs(want), want+0.1*math.Abs(want))
}

func at(t *testing.T, clock string) time.Time {
	t.Helper()
	x, err := time.Parse("2006-01-02 15:04 -07:00", clock+" +07:00")
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Volumes by the trapezoid rule on the stage-area table.
func TestWater(t *testing.T) {
	w := night(t).Water
	within(t, "full, m3", w.Full.CubicMetres(), 5500, 5800)
	within(t, "below 0.25 m, m3", w.Ready.CubicMetres(), 519*0.95, 519*1.05)
	within(t, "last fifth begins at, m", w.LastFifth.Metres(), 0.39, 0.42)
	about(t, "below 0.9 m, m3", w.Start.CubicMetres(), 3295) // 2,841 + 0.1 (4500 + 4575)/2
}

// Outlet: the less of full-pipe Darcy flow with the head above the outlet's
// centreline and critical depth in the mouth with 5 % loss, free outfall.
func TestOutlet(t *testing.T) {
	pipe := outlet(t, night(t).Input)
	for level, want := range map[units.Length]float64{1.4: 677, 0.8: 486, 0.4: 299, 0.25: 171} {
		q := pipe.Discharge(level, -10).In(units.CubicMetresPerHour)
		within(t, "outlet at "+level.String()+", m3/h", q, want*0.85, want*1.15)
	}
}

func outlet(t *testing.T, in plan.Input) hydraulics.OutletPipe {
	t.Helper()
	fluid, err := hydraulics.SeaWater(in.Water.Temperature, in.Water.Salinity)
	if err != nil {
		t.Fatal(err)
	}
	o := in.Outlet
	pipe, err := hydraulics.NewOutletPipe(hydraulics.OutletPipeSpec{Bore: o.Bore, Length: o.Length, Roughness: o.Roughness,
		LossSum: o.Entrance + o.Screen + o.Exit, EntryLoss: o.EntryLoss, Viscosity: fluid.KinematicViscosity(), Backflow: hydraulics.BackflowFlap})
	if err != nil {
		t.Fatal(err)
	}
	return pipe
}

// Cast net: mean count over swept area times efficiency, times area and mean
// weight; prior: stocked times survival times mean weight; inverse-variance
// blend with the mean weight common to both.
func TestCrop(t *testing.T) {
	c := night(t).Crop
	casts := c.Parts[0]
	about(t, "casts only, kg", casts.P50.Kilograms(), 4486)
	about(t, "casts only, CV %", 100*casts.CV, 17)
	about(t, "casts only, P10 kg", casts.P10.Kilograms(), 3590)
	about(t, "casts only, P90 kg", casts.P90.Kilograms(), 5600)
	e := c.Estimate
	within(t, "blended, kg", e.P50.Kilograms(), 4500, 4700)
	within(t, "blended, CV %", 100*e.CV, 9, 12)
	about(t, "blended, P10 kg", e.P10.Kilograms(), 4030)
	about(t, "blended, P90 kg", e.P90.Kilograms(), 5200)
	// By definition of the count: 453.59237/19.5, over the tail yield.
	within(t, "head-on per lb", c.HeadOn.HeadOn.In(units.CountsPerPound), 23.2, 23.4)
	within(t, "head-on per kg", c.HeadOn.HeadOn.In(units.CountsPerKilogram), 50.5, 51.5)
	within(t, "headless per lb at 0.63", c.AtLowYield.In(units.CountsPerPound), 36.85, 36.95)
	within(t, "headless per lb at 0.65", c.Headless.Count.In(units.CountsPerPound), 35.75, 35.85)
	within(t, "headless per lb at 0.67", c.AtHighYield.In(units.CountsPerPound), 34.65, 34.75)
	if !c.Headless.Straddles || !has(night(t), "BIO_COUNT_STRADDLES_EDGE") {
		t.Error("the count lies across the edge of 31/35 and 36/40, and nothing says so")
	}
}

func has(p plan.Plan, code string) bool {
	for _, n := range p.Notices {
		if n.Code == code {
			return true
		}
	}
	return false
}

// Hose by Darcy-Weisbach and Colebrook, pump by a least-squares parabola and the
// affinity laws, efficiency a parabola read at the flow scaled to rated speed;
// oil line by laminar and turbulent friction at 32 mm2/s.
func TestLift(t *testing.T) {
	l := night(t).Lift
	d := l.Duty
	about(t, "hose velocity, m/s", l.HoseVelocity.MetresPerSecond(), 1.26)
	about(t, "hose loss, m", l.HoseLoss.Metres(), 0.26)
	within(t, "total head, m", d.Pump.Head.Metres(), 3.8, 4.1)
	within(t, "speed, rpm", d.Pump.Speed.In(units.RevolutionsPerMinute), 505, 540)
	within(t, "shaft, kW", d.Pump.ShaftPower.In(units.Kilowatts), 4.2, 5.2)
	about(t, "efficiency", d.Pump.Efficiency, 0.54)
	about(t, "motor, bar", d.MotorPressure.In(units.Bars), 74)
	about(t, "oil, L/min", d.OilFlow.In(units.LitresPerMinute), 45)
	about(t, "oil line, bar", d.Line.Loss.In(units.Bars), 2)
	within(t, "oil pump, bar", d.PumpPressure.In(units.Bars), 78, 92)
	within(t, "PTO, kW", d.PTOPower.In(units.Kilowatts), 6.8, 8.5)
	about(t, "heat into the oil, kW", d.HeatToOil.In(units.Kilowatts), 2.8)
	within(t, "oil at 82 °C, min", d.OilHeating.TimeToLimit.Minutes(), 40, 90)
	about(t, "stalled, K/min", d.Stall.InitialRate.In(units.KelvinsPerMinute), 4.6)
	within(t, "platform 0.6 m higher, rpm", l.Raised.Pump.Speed.In(units.RevolutionsPerMinute), 544*0.97, 544*1.03)
	within(t, "platform 0.6 m higher, bar", l.Raised.PumpPressure.In(units.Bars), 90*0.97, 90*1.03)
	within(t, "platform 0.6 m higher, kW", l.Raised.PTOPower.In(units.Kilowatts), 8.4*0.97, 8.4*1.03)
}

// Mixed tank: demand over volume, from 4.5 down to 2 mg/L with no inflow; inflow
// that carries 5.5 and leaves at 3 mg/L; saturation at 30 PSU and 29 °C.
func TestBasin(t *testing.T) {
	b := night(t).Basin
	about(t, "quiet, min", b.Quiet.Unsupplied.Minutes(), 36)
	about(t, "excited, min", b.Excited.Unsupplied.Minutes(), 18)
	about(t, "inflow to hold, m3/h", b.QuietHold.In(units.CubicMetresPerHour), 48)
	about(t, "inflow to hold, excited, m3/h", b.ExcitedHold.In(units.CubicMetresPerHour), 96)
	within(t, "saturation, mg/L", b.Quiet.Saturation.In(units.MilligramsPerLitre), 6.4, 6.6)
	// 519 m3 at 230 m3/h, then three fillings at 60 m3/h and emptyings.
	within(t, "pump and flush, h", b.Work().Hours(), 3.5, 5)
	about(t, "rate, kg/min", b.Rate.In(units.KilogramsPerMinute), 31)
}

// Heat balance: product, carried water and slurry water from 29 to 0 °C, walls
// for six hours, over the heat one kilogram of ice at -3 °C takes up; waste 20 %.
func TestIce(t *testing.T) {
	i := night(t).Ice
	m := i.Median
	about(t, "chill, kg", m.Chill.Kilograms(), 1417)
	about(t, "carried, kg", m.Carried.Kilograms(), 126)
	about(t, "make-up, kg", m.MakeUp.Kilograms(), 512)
	about(t, "walls, kg", m.Leak.Kilograms(), 123)
	about(t, "melt, kg", m.Melt.Kilograms(), 2178)
	within(t, "order, t", i.Expected.In(units.Tonnes), 2.5, 3.0)
	about(t, "order and reserve, P90 crop, kg", i.Order.Kilograms(), 2966)
	about(t, "order plus reserve, kg", (i.Expected + i.Reserve).Kilograms(), i.High.Order.Kilograms())
	within(t, "chill only, kg/kg", m.ChillRatio, 0.29, 0.33)
}

// 400 kg a bin; gross is product, ice, water and bin; payload 7.5 t a truck.
func TestHaul(t *testing.T) {
	h := night(t).Haul
	within(t, "bins, middle crop", float64(h.Median.Containers), 12, 14)
	within(t, "bins, large crop", float64(h.High.Containers), 12, 14)
	within(t, "gross of a bin, t", h.Median.Each.Gross.In(units.Tonnes), 0.70*0.9, 0.86*1.1)
	within(t, "gross of all bins, t", h.Median.Gross.In(units.Tonnes), 9, 11)
	if h.High.Left != 0 || len(h.High.Loads) != 2 {
		t.Errorf("a large crop does not go on two trucks: %d bins left", h.High.Left)
	}
	for _, l := range h.High.Loads {
		if l.Binds != "mass" {
			t.Errorf("%s is limited by %s, not mass", l.Truck, l.Binds)
		}
	}
}

func (k kit) run(t *testing.T, opening string, from, to, surge units.Length, tail drawdown.Tailwater) time.Time {
	t.Helper()
	open := at(t, opening)
	if tail == nil {
		zero := -k.in.Tide.Invert
		tab := &drawdown.TideTable{Zone: time.FixedZone("", 7*3600), Datum: "port", ZeroAbovePond: &zero, Surge: surge}
		for _, w := range k.in.Tide.Waters {
			tab.Turnings = append(tab.Turnings, drawdown.Turning{At: w.Time, Level: w.Height})
		}
		tail = tab
	}
	r, err := drawdown.Plan{Pond: k.pond, Start: open, Stage: from, Target: to, Tailwater: tail,
		Gates: []drawdown.Gate{{Outlet: k.outlet, Backflow: drawdown.FlapGate}}}.Run()
	if err != nil {
		t.Fatal(err)
	}
	return r.Ready
}

// kit is the pond, given as its stage-area table, and the outlet.
type kit struct {
	in     plan.Input
	pond   drawdown.StageTable
	outlet hydraulics.OutletPipe
}

func newKit(t *testing.T) kit {
	t.Helper()
	k := kit{in: night(t).Input}
	var rows []drawdown.StageArea
	for _, r := range [][2]float64{{0, 120}, {0.1, 1500}, {0.2, 3600}, {0.4, 4150}, {0.8, 4500}, {1.2, 4800}, {1.4, 5000}} {
		rows = append(rows, drawdown.StageArea{Stage: units.Length(r[0]), Area: units.Area(r[1])})
	}
	var err error
	if k.pond, err = drawdown.NewStageTable(rows); err != nil {
		t.Fatal(err)
	}
	k.outlet = outlet(t, k.in)
	return k
}

// The survey holds the same water as the stage-area table it was laid out from.
func TestSurveyMatchesTable(t *testing.T) {
	k, w := newKit(t), night(t).Water
	for level, got := range map[units.Length]units.Volume{1.4: w.Full, 0.9: w.Start, 0.25: w.Ready} {
		if d := float64(got/k.pond.Volume(level)) - 1; math.Abs(d) > 1e-5 {
			t.Errorf("at %v the survey is %g off the table", level, d)
		}
	}
}

// Water balance with the outlet and a sinusoidal tide, by explicit 60 s steps.
func TestReadyTimes(t *testing.T) {
	k := newKit(t)
	free := drawdown.ConstantTailwater(-10)
	within(t, "1.4 to 0.25 m without a tide, h", k.run(t, "2027-03-14 12:00", 1.4, 0.25, 0, free).Sub(at(t, "2027-03-14 12:00")).Hours(), 10, 14)
	within(t, "0.9 to 0.25 m without a tide, h", k.run(t, "2027-03-14 12:00", 0.9, 0.25, 0, free).Sub(at(t, "2027-03-14 12:00")).Hours(), 6.5, 9.5)
	const slack = 12 * time.Minute // what a constant friction factor moves
	for _, c := range []struct {
		opening, ready string
		surge          units.Length
		slack          time.Duration
	}{
		{"2027-03-14 17:00", "2027-03-15 01:47", 0, slack},
		{"2027-03-14 18:00", "2027-03-15 02:17", 0, slack},
		{"2027-03-14 18:24", "2027-03-15 02:37", 0, slack},
		{"2027-03-14 18:30", "2027-03-15 08:16", 0, slack},
		{"2027-03-14 19:00", "2027-03-15 08:39", 0, slack},
		{"2027-03-14 18:00", "2027-03-15 09:05", 0.1, slack},
		{"2027-03-14 18:00", "2027-03-15 09:56", 0.2, slack},
		{"2027-03-21 15:00", "2027-03-22 03:43", 0, 30 * time.Minute},
		{"2027-03-21 18:00", "2027-03-22 05:34", 0, 30 * time.Minute},
		{"2027-03-21 19:00", "2027-03-22 06:02", 0, 30 * time.Minute},
		{"2027-03-21 20:00", "2027-03-22 06:21", 0, 30 * time.Minute},
	} {
		got := k.run(t, c.opening, 0.9, 0.25, c.surge, nil)
		if d := got.Sub(at(t, c.ready)); d.Abs() > c.slack {
			t.Errorf("opened %s with %v of surge: ready %s, %s off %s", c.opening, c.surge, got.Format("15:04"), d, c.ready)
		}
	}
}

// The tide stands above a level for 2 arccos((level - mean)/amplitude)/2 pi of
// its period.
func TestTideAboveTarget(t *testing.T) {
	in := night(t).Input
	mean, amplitude := 0.75, 0.55
	level := in.Tide.Invert.Metres() + in.Pond.BasinReady.Metres()
	within(t, "tide above the target, h a cycle", 12.42*math.Acos((level-mean)/amplitude)/math.Pi, 5.3, 5.7)
}

// The cliff of the night: found between the 18:00 and the 19:00 opening, and
// what a minute after the latest opening costs.
func TestCliff(t *testing.T) {
	p := night(t)
	o := p.Openings
	if o.Latest.Before(at(t, "2027-03-14 18:00")) || o.Latest.After(at(t, "2027-03-14 18:45")) {
		t.Errorf("latest opening %s", o.Latest)
	}
	if o.Ready.After(o.ReadyBy) {
		t.Errorf("opened at the latest it is ready %s, after %s", o.Ready, o.ReadyBy)
	}
	k := newKit(t)
	late := k.run(t, o.Latest.Add(time.Minute).In(o.ReadyBy.Location()).Format("2006-01-02 15:04"), 0.9, 0.25, 0, nil)
	if d := o.MinuteLater.Sub(o.Ready); d < 4*time.Hour {
		t.Errorf("a minute later costs %s only", d)
	}
	if d := late.Sub(o.MinuteLater); d.Abs() > 2*time.Minute {
		t.Errorf("run forward, a minute later is ready %s, not %s", late, o.MinuteLater)
	}
	if len(o.Cliffs) != 1 || o.Cliffs[0].After.Sub(o.Cliffs[0].Before) > time.Second+time.Millisecond {
		t.Errorf("cliffs: %+v", o.Cliffs)
	}
	if len(o.Shifts) != 5 {
		t.Fatalf("shifts: %+v", o.Shifts)
	}
	for i, later := range []bool{false, true, false, true, false} {
		if s := o.Shifts[i]; s.Moves == 0 || (s.Moves > 0) != later {
			t.Errorf("if %s the latest opening moves by %s", s.If, s.Moves)
		}
	}
}
