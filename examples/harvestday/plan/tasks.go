package plan

import (
	"fmt"
	"time"

	"pondwright.example/examples/internal/dual"
	"pondwright.example/units"
)

// Task is one order of the night: who does what, from when to when, how much,
// and what to watch. A moment has To equal to From.
type Task struct {
	From    time.Time `json:"from"`
	To      time.Time `json:"to"`
	Work    string    `json:"work"`
	Who     string    `json:"who"`
	HowMuch string    `json:"howMuch,omitempty"`
	Watch   string    `json:"watch,omitempty"`
}

// workEnds is when the last flush is through and the last bin can be closed.
func (p *Plan) workEnds() time.Time { return p.Night.Ready.Add(p.Basin.Work()) }

// Crew is everybody who has to be there at once.
func (p Plan) Crew() int {
	n := 0
	for _, c := range p.Input.Crew {
		n += c.People
	}
	return n
}

// tasks writes the orders in the sequence of the night.
func (p *Plan) tasks() []Task {
	in := p.Input
	ready, end := p.Night.Ready, p.workEnds()
	pumped := ready.Add(p.Basin.Pumping)
	people := fmt.Sprintf("%d people", p.Crew())
	fall := "the level is not to fall faster than " + dual.Fall(in.Pond.RateLimit.Per(time.Hour))
	out := []Task{{From: p.PreDrain.Opening, To: p.PreDrain.Ready, Who: "outlet",
		Work:    "open the outlet for the day-before drawdown and shut it at " + dual.Level(in.Pond.Start),
		HowMuch: dual.Volume(p.Water.Full - p.Water.Start), Watch: fall}}
	if e := p.Sky.Evening; !e.Sunset.IsZero() {
		out = append(out, Task{From: e.Sunset, To: e.Sunset, Who: "all", Work: "sunset",
			HowMuch: fmt.Sprintf("moon %.0f %% lit, %s", 100*e.Moon.Illuminated, e.Moon.Phase)})
	}
	out = append(out, Task{From: p.Night.Opening, To: ready, Who: "outlet",
		Work:    "open the outlet and keep the current going to " + dual.Level(in.Pond.BasinReady),
		HowMuch: dual.Volume(p.Water.Start - p.Water.Ready), Watch: "read the staff every 30 min against the table; a screen that clogs shows here first"})
	if t := p.Openings.Latest; !t.IsZero() {
		out = append(out, Task{From: t, To: t, Who: "outlet", Work: "last moment to open and still be ready by " + dual.Clock(in.Night.ReadyBy, p.Zone()),
			Watch: "after this the plan is another one"})
	}
	out = append(out,
		Task{From: ready.Add(-time.Hour), To: ready, Who: people, Work: "everybody at their posts; oil warm, ice in the slurry tank",
			HowMuch: dual.Mass(p.Ice.Median.MakeUp) + " of ice chills the tank's own water"},
		Task{From: ready, To: pumped, Who: people, Work: "pump the last water with the animals over the table",
			HowMuch: fmt.Sprintf("%s at %s, %s, about %s of animals", dual.Volume(p.Basin.LastWater), dual.Flow(in.Pump.Flow), dual.RPM(p.Lift.Duty.Pump.Speed), dual.MassRate(p.Basin.Rate)),
			Watch:   fmt.Sprintf("oil %s at the pump; basin oxygen: %s to %s if the inflow stops", dual.Pressure(p.Lift.Duty.PumpPressure), dual.Span(p.Basin.Excited.Unsupplied), dual.Oxygen(in.Basin.Floor))})
	if in.Basin.Flushes > 0 {
		out = append(out, Task{From: pumped, To: end, Who: people, Work: fmt.Sprintf("fill and pump the basin %d times", in.Basin.Flushes),
			HowMuch: fmt.Sprintf("each %s to fill and %s to pump", dual.Span(p.Basin.Refill), dual.Span(p.Basin.PumpOut)), Watch: "stop when a flush brings less than it costs"})
	}
	for i, t := range p.Haul.Trips.Trips {
		out = append(out, Task{From: t.Loading, To: t.Departs, Who: t.Truck, Work: "load and leave", HowMuch: dual.Mass(t.Product),
			Watch: "weigh, count and log temperature with time, name and probe"})
		work := "at the plant, unload"
		if t.Refused {
			work = "at the plant after its window closes"
		}
		melt := ""
		if i < len(p.Haul.Melt) {
			melt = dual.Mass(p.Haul.Melt[i].Left) + " of ice left"
		}
		at := t.Unloading
		if t.Refused {
			at = t.Arrives
		}
		out = append(out, Task{From: at, To: max2(at, t.Done), Who: t.Truck, Work: work, HowMuch: melt})
	}
	if m := p.Sky.Morning; !m.Sunrise.IsZero() {
		out = append(out, Task{From: m.FirstLight, To: m.FirstLight, Who: "all", Work: "first light"},
			Task{From: m.Sunrise, To: m.Sunrise, Who: "all", Work: "sunrise: the last bin is to be closed"})
	}
	sortTasks(out)
	return out
}

func max2(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// late is a notice when the night ends after the sun is up.
func (p *Plan) late() (units.Notice, bool) {
	limit := p.Openings.LastBin
	if limit.IsZero() || !p.workEnds().After(limit) {
		return units.Notice{}, false
	}
	return units.Notice{Code: CodeDaylight, Severity: units.Warning, Field: "night.opening",
		Value: p.workEnds().Sub(limit).Minutes(), Limit: 0, Unit: "min",
		Message: fmt.Sprintf("opened at %s the last bin closes at %s, %s after it should", dual.Clock(p.Night.Opening, p.Zone()), dual.Clock(p.workEnds(), p.Zone()), dual.Span(p.workEnds().Sub(limit)))}, true
}
