package drawdown_test

import (
	"fmt"
	"math"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/units"
)

// pipe is a short drain pipe: an orifice with its invert at the pond's datum,
// drowned by a tail above it. Package hydraulics rates real ones.
type pipe struct{ diameter units.Length }

func (p pipe) Discharge(level, tailwater units.Length) units.Flow {
	head := float64(level - max(tailwater, 0))
	d := float64(p.diameter)
	return units.Flow(0.6 * math.Pi / 4 * d * d * math.Sqrt(2*9.80665*math.Max(0, head)))
}

// Kinks tells the solver where the law has corners: at the invert.
func (p pipe) Kinks(_ units.Length, dst []units.Length) []units.Length { return append(dst, 0) }

// smallPond is half a hectare with a sump (invented).
func smallPond() drawdown.StageTable {
	t, err := drawdown.NewStageTable([]drawdown.StageArea{
		{Stage: 0, Area: 120}, {Stage: 0.1, Area: 1500}, {Stage: 0.2, Area: 3600}, {Stage: 0.4, Area: 4150},
		{Stage: 0.8, Area: 4500}, {Stage: 1.2, Area: 4800}, {Stage: 1.4, Area: 5000}})
	if err != nil {
		panic(err)
	}
	return t
}

// spring tide at a station whose datum lies 0.6 m below the outlet's invert.
func springTide() *drawdown.HarmonicTide {
	below := -0.6 * units.Metre
	return &drawdown.HarmonicTide{Mean: 0.75 * units.Metre, Reference: time.Date(2026, 3, 1, 17, 0, 0, 0, time.UTC), Datum: "chart datum", ZeroAbovePond: &below,
		Constituents: []drawdown.Constituent{{Name: "M2", Amplitude: 0.55 * units.Metre, DegreesPerHour: 28.984, NodalFactor: 1}}}
}

func harvestNight() drawdown.Plan {
	return drawdown.Plan{Pond: smallPond(), Start: time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC), Stage: 0.90 * units.Metre, Target: 0.25 * units.Metre,
		Gates: []drawdown.Gate{{Name: "pipe", Outlet: pipe{0.30 * units.Metre}, Backflow: drawdown.FlapGate}}, Tailwater: springTide()}
}

// A night's draining past a flap gate and a tide.
func ExamplePlan_Run() {
	plan := harvestNight()
	plan.Opening = time.Date(2026, 3, 1, 21, 0, 0, 0, time.UTC)
	r, err := plan.Run()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("ready", r.Ready.Format("02 Jan 15:04"))
	for _, w := range r.Stalls {
		fmt.Printf("tide-locked %s to %s\n", w.From.Format("15:04"), w.To.Format("15:04"))
	}
	fmt.Printf("out %.0f m3, closure below a microlitre: %t\n", float64(r.Balance.GatesOut), math.Abs(float64(r.Balance.Closure)) < 1e-9)
	fmt.Printf("stage at midnight %.2f\n", r.Hydrograph.Stage(time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)))
	// Output:
	// ready 02 Mar 08:31
	// tide-locked 02:44 to 08:06
	// out 2775 m3, closure below a microlitre: true
	// stage at midnight 0.52 m
}

// "Ready by three": when must the gate be open, and what does being late cost?
func ExamplePlan_LatestOpening() {
	a, err := harvestNight().LatestOpening(time.Date(2026, 3, 2, 3, 0, 0, 0, time.UTC), drawdown.OpeningSearch{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("open by", a.Opening.Format("15:04:05"), "ready", a.Ready.Format("15:04"))
	c := a.Cliffs[0]
	fmt.Printf("between %s and %s the ready time jumps from %s to %s\n", c.Before.Format("15:04:05"), c.After.Format("15:04:05"), c.ReadyBefore.Format("15:04"), c.ReadyAfter.Format("15:04"))
	// Output:
	// open by 20:46:38 ready 02:40
	// between 20:46:38 and 20:46:39 the ready time jumps from 02:40 to 08:10
}

// Three readings of the stick tell that the screen is fouling.
func ExamplePlan_Calibrate() {
	plan := harvestNight()
	plan.Opening = time.Date(2026, 3, 1, 15, 0, 0, 0, time.UTC)
	at := func(h, m int) time.Time { return time.Date(2026, 3, 1, h, m, 0, 0, time.UTC) }
	c, err := plan.Calibrate([]drawdown.StageReading{
		{At: at(19, 0), Stage: 0.73 * units.Metre}, {At: at(21, 0), Stage: 0.58 * units.Metre}, {At: at(22, 0), Stage: 0.51 * units.Metre}},
		drawdown.Priors{Clogging: -1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Statement)
	// Output:
	// The outlet passes 69 % (+-5) of what was planned; the pond's area is 102 % (+-5) of the plan's. Ready at 2026-03-02 01:46 UTC, 154 min later than planned; between 2026-03-02 01:33 UTC and 2026-03-02 02:01 UTC eight times in ten.
}

// A tide stands above a sill for some hours of every cycle.
func ExampleTimesAbove() {
	day := time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)
	ws, err := drawdown.TimesAbove(springTide(), 0.25*units.Metre, day, day.Add(24*time.Hour))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range ws {
		fmt.Println(w.From.Format("15:04"), "to", w.To.Format("15:04"), w.Duration().Round(time.Minute))
	}
	// Output:
	// 01:50 to 07:19 5h29m0s
	// 14:15 to 19:44 5h29m0s
}

// A pump or a bigger pipe for an hour the pipe alone cannot meet.
func ExamplePlan_RequiredPump() {
	plan := harvestNight()
	plan.Opening = time.Date(2026, 3, 1, 21, 0, 0, 0, time.UTC)
	by := time.Date(2026, 3, 2, 3, 0, 0, 0, time.UTC)
	pump, err := plan.RequiredPump(by)
	if err != nil {
		fmt.Println(err)
		return
	}
	larger, err := plan.RequiredOutlet(0, by)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("without: %s; pump %.0f m3/h, or %.2f of the pipe's area\n", pump.Without.Format("15:04"), pump.Pump.In(units.CubicMetresPerHour), larger.Factor)
	// Output:
	// without: 08:31; pump 17 m3/h, or 1.04 of the pipe's area
}

// Two pipes into one ditch that backs up.
func ExampleNewChannelOutlet() {
	ditch, err := drawdown.NewChannelOutlet([]drawdown.RatingPoint{{Flow: 0, Level: 0}, {Flow: 0.1, Level: 0.25}, {Flow: 0.3, Level: 0.45}}, 0, pipe{0.3 * units.Metre}, pipe{0.3 * units.Metre})
	if err != nil {
		fmt.Println(err)
		return
	}
	level, sea := 1.0*units.Metre, -1*units.Metre
	fmt.Printf("%.0f m3/h, ditch at %.3f\n", ditch.Discharge(level, sea).In(units.CubicMetresPerHour), ditch.Level(level, sea))
	// Output:
	// 1018 m3/h, ditch at 0.433 m
}

// How long does it take, without a tide?
func ExampleSteadyDrain_Time() {
	d := drawdown.SteadyDrain{Pond: smallPond(), From: 1.4 * units.Metre, To: 0.25 * units.Metre, Outlets: []drawdown.Outlet{pipe{0.30 * units.Metre}}, Inflow: 5 * units.LitrePerSecond}
	t, err := d.Time()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.Round(time.Second))
	d.Inflow = 120 * units.LitrePerSecond
	_, err = d.Time()
	fmt.Println(err)
	// Output:
	// 9h13m25s
	// drawdown.SteadyDrain.Time: to = 0.25 m: no solution: the water does not fall to it: what comes in balances what goes out at a stage of 0.408173 m (valid: 0.408173 to 1.4 m)
}
