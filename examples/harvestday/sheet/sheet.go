// Package sheet writes a plan as the run sheet of the night: plain text that can
// be read by lamplight, sent by telephone or pinned to the pump.
package sheet

import (
	"fmt"
	"strings"
	"time"

	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/examples/internal/dual"
	"pondwright.example/units"
)

const width = 100

type writer struct {
	strings.Builder
	zone *time.Location
}

// Text returns the run sheet.
func Text(p plan.Plan) string {
	w := &writer{zone: p.Zone()}
	w.heading(p)
	w.answers(p)
	w.orders(p)
	w.numbers(p)
	w.notices(p)
	w.list("TAKEN FOR GRANTED", p.Assumed)
	w.list("FOR EVERYBODY'S SAFETY", p.Cautions)
	return w.String()
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

func (w *writer) title(s string) {
	w.line("")
	w.line("%s", s)
	w.line("%s", strings.Repeat("-", len([]rune(s))))
}

func (w *writer) clock(t time.Time) string { return dual.Clock(t, w.zone) }

// wrap writes text with a first lead and later lines indented to it.
func (w *writer) wrap(lead, text string) {
	indent := strings.Repeat(" ", len([]rune(lead)))
	line := lead
	used := len([]rune(lead))
	fresh := true
	for _, word := range strings.Fields(text) {
		n := len([]rune(word))
		if !fresh && used+1+n > width {
			w.line("%s", line)
			line, used, fresh = indent, len([]rune(indent)), true
		}
		if !fresh {
			line, used = line+" ", used+1
		}
		line, used, fresh = line+word, used+n, false
	}
	w.line("%s", strings.TrimRight(line, " "))
}

// fact writes one number with its name.
func (w *writer) fact(name, format string, args ...any) {
	w.wrap(fmt.Sprintf("  %-30s ", name), fmt.Sprintf(format, args...))
}

func (w *writer) heading(p plan.Plan) {
	open, end := p.Night.Opening.In(w.zone), p.Night.Ready.Add(p.Basin.Work()).In(w.zone)
	w.line("RUN SHEET  %s", p.Input.Farm)
	w.line("Night of %s to %s, clock UTC%s", open.Format("Monday 2 January"), end.Format("Monday 2 January 2006"), p.Input.Place.Zone)
}

// Answer is one of the few things the manager has to know.
type Answer struct{ Name, Text string }

// Answers returns the plan in short.
func Answers(p plan.Plan) []Answer {
	zone := p.Zone()
	clock := func(t time.Time) string { return dual.Clock(t, zone) }
	e, o, d := p.Crop.Estimate, p.Openings, p.Lift.Duty
	opening := fmt.Sprintf("Open at %s: basin ready %s.", clock(p.Night.Opening), clock(p.Night.Ready))
	if o.Latest.IsZero() {
		opening += fmt.Sprintf(" No opening makes it by %s.", clock(o.ReadyBy))
	} else {
		opening += fmt.Sprintf(" Latest opening to be ready by %s: %s, ready %s; one minute later it is ready %s.", clock(o.ReadyBy),
			o.Latest.In(zone).Format("Mon 15:04:05"), clock(o.Ready), clock(o.MinuteLater))
	}
	if s := earliest(o.Shifts); s.Moves < 0 {
		opening += fmt.Sprintf(" That hour is a cliff, not a target: if %s, it is %s earlier.", s.If, dual.Span(-s.Moves))
	}
	opening += fmt.Sprintf(" As things may turn out, opening at %s is late in %.0f nights of 100.", clock(p.Night.Opening), 100*p.Odds.Miss)
	switch {
	case o.DarkBy.IsZero():
	case o.DarkLatest.IsZero():
		opening += fmt.Sprintf(" No opening closes the last bin before %s.", clock(o.LastBin))
	default:
		opening += fmt.Sprintf(" To close the last bin by %s the basin must be ready by %s: open by %s.", clock(o.LastBin), clock(o.DarkBy), clock(o.DarkLatest))
	}
	return []Answer{
		{"Crop", fmt.Sprintf("%s; one time in ten below %s, one in ten above %s.", dual.Mass(e.P50), dual.Mass(e.P10), dual.Mass(e.P90))},
		{"Outlet", opening},
		{"Pump", fmt.Sprintf("%s for %s over the table; expect %s at the oil pump and %s at the power take-off. Never below %s: the water would stop in the hose.",
			dual.RPM(d.Pump.Speed), dual.Flow(d.Pump.Flow), dual.Pressure(d.PumpPressure), dual.Power(d.PTOPower), dual.RPM(p.Lift.Minimum.Start))},
		{"Ice", fmt.Sprintf("Order %s, and have %s more on call for a large crop: %s in all. Ice that runs out loses the catch, ice left over costs only ice.",
			dual.Mass(p.Ice.Expected), dual.Mass(p.Ice.Reserve), dual.Mass(p.Ice.Order))},
		{"Haul", fmt.Sprintf("%d bins (%d for a large crop) on %d trucks; %d people at their posts from %s.", p.Haul.Median.Containers, p.Haul.High.Containers,
			len(p.Haul.Trips.Trips), p.Crew(), clock(p.Night.Ready.Add(-time.Hour)))},
	}
}

// earliest is the shift that moves the latest opening forward most.
func earliest(shifts []plan.Shift) plan.Shift {
	var out plan.Shift
	for _, s := range shifts {
		if s.Moves < out.Moves {
			out = s
		}
	}
	return out
}

func (w *writer) answers(p plan.Plan) {
	w.title("IN SHORT")
	for _, a := range Answers(p) {
		w.wrap(fmt.Sprintf("  %-8s ", a.Name), a.Text)
	}
}

// Numbers returns every number of the plan, one a line.
func Numbers(p plan.Plan) string {
	w := &writer{zone: p.Zone()}
	w.every(p)
	return w.String()
}

func (w *writer) orders(p plan.Plan) {
	w.title("ORDERS OF THE NIGHT")
	for _, t := range p.Tasks {
		when := w.clock(t.From)
		if t.To.After(t.From) {
			when += " - " + t.To.In(w.zone).Format("15:04")
		}
		text := t.Work
		if t.HowMuch != "" {
			text += ": " + t.HowMuch
		}
		w.wrap(fmt.Sprintf("  %-18s %-15s ", when, t.Who), text)
		if t.Watch != "" {
			w.wrap(strings.Repeat(" ", 36)+"watch: ", t.Watch)
		}
	}
	w.line("")
	for _, c := range p.Input.Crew {
		w.line("  %d at %s", c.People, c.Work)
	}
}

func (w *writer) numbers(p plan.Plan) {
	w.title("THE NUMBERS BEHIND IT")
	w.every(p)
}

func (w *writer) every(p plan.Plan) {
	w.crop(p)
	w.pond(p)
	w.lift(p)
	w.basin(p)
	w.ice(p)
	w.haul(p)
}

func (w *writer) crop(p plan.Plan) {
	c := p.Crop
	w.line("Crop")
	for i, e := range c.Parts {
		w.fact("  from "+e.Name, "%s, CV %.0f %%, weight in the blend %.0f %%", dual.Mass(e.P50), 100*e.CV, 100*c.Weights[i])
	}
	w.fact("blended", "%s, CV %.0f %%; largest doubt: %s", dual.Mass(c.Estimate.P50), 100*c.Estimate.CV, c.Estimate.Dominant)
	w.fact("mean weight", "%s, %d weighed, 95 %% interval %s to %s", dual.Weight(c.Weight.Mean), c.Weight.N, dual.Weight(c.Weight.Low), dual.Weight(c.Weight.High))
	w.fact("head-on count", "%.1f per kg (%.1f per lb), class %s per kg", c.HeadOn.HeadOn.In(units.CountsPerKilogram), c.HeadOn.HeadOn.In(units.CountsPerPound), c.HeadOn.Class)
	w.fact("headless count", "%.1f per lb at a yield of %.2f (%.1f at %.2f, %.1f at %.2f)", c.Headless.Count.In(units.CountsPerPound), p.Input.Stock.TailYield,
		c.AtLowYield.In(units.CountsPerPound), p.Input.Stock.TailYieldLow, c.AtHighYield.In(units.CountsPerPound), p.Input.Stock.TailYieldHigh)
	var odds []string
	for _, k := range c.Headless.Probabilities {
		if k.Probability >= 0.01 {
			odds = append(odds, fmt.Sprintf("%s %.0f %%", k.Class, 100*k.Probability))
		}
	}
	w.fact("headless class, odds", "%s; class edge %s", strings.Join(odds, ", "), p.Input.Stock.Edge)
}

func (w *writer) pond(p plan.Plan) {
	in := p.Input
	w.line("Pond and outlet")
	w.fact("full", "%s at %s, surface %s", dual.Pond(p.Water.Full), dual.Level(in.Pond.Full), dual.Area(p.Water.Area))
	w.fact("night starts with", "%s at %s", dual.Pond(p.Water.Start), dual.Level(in.Pond.Start))
	w.fact("left for the pump", "%s at %s", dual.Volume(p.Water.Ready), dual.Level(in.Pond.BasinReady))
	w.fact("last fifth begins at", "%s; check what the permit says of it", dual.Level(p.Water.LastFifth))
	w.fact("day-before drawdown", "%s to %s, outlet shut by the tide for %s", w.clock(p.PreDrain.Opening), w.clock(p.PreDrain.Ready), dual.Span(p.PreDrain.Locked))
	w.fact("night drawdown", "%s to %s, shut by the tide for %s, fastest fall %s", w.clock(p.Night.Opening), w.clock(p.Night.Ready), dual.Span(p.Night.Locked), dual.Fall(p.Night.Steepest))
	w.fact("balance of the water", "closes to %.0e of the pond", p.Night.Closure)
	for _, c := range p.Openings.Cliffs {
		w.fact("cliff", "opened %s ready %s; a second later ready %s, %s lost", c.Before.In(w.zone).Format("Mon 15:04:05"), w.clock(c.ReadyBefore),
			w.clock(c.ReadyAfter), dual.Span(c.ReadyAfter.Sub(c.ReadyBefore)))
	}
	if s := p.Openings.Shut; !s.At.IsZero() {
		w.fact("should the tide shut it", "about %s at %s: %s to pump over the dike, %s at the pump's duty", w.clock(s.At), dual.Level(s.Level), dual.Volume(s.Volume), dual.Span(s.Pumping))
	}
	od := p.Odds
	w.fact("odds of the planned opening", "one in ten ready before %s, one in two before %s, one in ten after %s", w.clock(od.P10), w.clock(od.P50), w.clock(od.P90))
	w.fact("late for "+w.clock(od.ReadyBy), "%.0f %% of nights (%.0f to %.0f after %d draws of losses, surge, tide and area)", 100*od.Miss, 100*od.MissLow, 100*od.MissHigh, od.Draws)
	for _, h := range od.Humps {
		w.fact("  ready between", "%s and %s in %.0f %% of nights", w.clock(h.From), w.clock(h.To), 100*h.Share)
	}
	for _, s := range p.Openings.Shifts {
		if s.Latest.IsZero() {
			w.fact("latest opening if", "%s: none makes it", s.If)
			continue
		}
		w.fact("latest opening if", "%s: %s, %s", s.If, s.Latest.In(w.zone).Format("Mon 15:04"), moved(s.Moves))
	}
}

func moved(d time.Duration) string {
	switch d = d.Round(time.Minute); {
	case d > 0:
		return dual.Span(d) + " later"
	case d < 0:
		return dual.Span(-d) + " earlier"
	}
	return "unmoved"
}

func (w *writer) lift(p plan.Plan) {
	l, d := p.Lift, p.Lift.Duty
	w.line("Pump and drive")
	w.fact("total head", "%s: lift %s, hose %s at %s", dual.Length(d.Pump.Head), dual.Length(p.Input.Pump.Lift), dual.Length(l.HoseLoss), dual.Speed(l.HoseVelocity))
	w.fact("impeller", "%s, %s at the shaft, efficiency %.2f", dual.RPM(d.Pump.Speed), dual.Power(d.Pump.ShaftPower), d.Pump.Efficiency)
	w.fact("least speed for the lift", "%s", dual.RPM(l.Minimum.Start))
	w.fact("oil motor", "%s across it, %s", dual.Pressure(d.MotorPressure), dual.Oil(d.OilFlow))
	w.fact("oil line", "%s, %s", dual.Pressure(d.Line.Loss), d.Line.Regime)
	w.fact("oil pump", "%s of a relief setting of %s; %.0f %% free", dual.Pressure(d.PumpPressure), dual.Gauge(p.Input.Drive.Relief), 100*d.ReliefFree)
	w.fact("power take-off", "%s of %s there for hours of work", dual.Power(d.PTOPower), dual.Power(l.Tractor.Steady))
	w.fact("heat into the oil", "%s", dual.Power(d.HeatToOil))
	w.fact("oil at its limit", "%s", heating(d.OilHeating.ReachesLimit, d.OilHeating.TimeToLimit, p.Input.Drive.OilLimit))
	w.fact("jammed impeller", "%s, %s over the relief", heating(d.Stall.ReachesLimit, d.Stall.TimeToLimit, p.Input.Drive.OilLimit), dual.Power(d.Stall.Heat))
	r := l.Raised
	if r.PTOPower > 0 {
		w.fact(fmt.Sprintf("platform %.1f m higher", l.RaisedBy.Metres()), "%s, %s, %s for the same flow", dual.RPM(r.Pump.Speed), dual.Pressure(r.PumpPressure), dual.Power(r.PTOPower))
	}
	for _, h := range l.Heights {
		lift := p.Input.Pump.Lift + h.Raise
		if h.Err != nil {
			w.fact("lift at this speed", "%s: no flow", dual.Length(lift))
			continue
		}
		w.fact("lift at this speed", "%s: %s", dual.Length(lift), dual.Flow(h.Duty.Flow))
	}
}

func heating(reaches bool, after time.Duration, limit units.Temperature) string {
	if !reaches {
		return "stays below " + dual.Temperature(limit)
	}
	return dual.Temperature(limit) + " after " + dual.Span(after)
}

func (w *writer) basin(p plan.Plan) {
	b, in := p.Basin, p.Input.Basin
	w.line("Catch basin")
	w.fact("oxygen saturation", "%s at %s and %.0f PSU", dual.Oxygen(b.Quiet.Saturation), dual.Temperature(p.Input.Water.Temperature), p.Input.Water.Salinity.PSU())
	w.fact("if the inflow stops", "%s to %s with %s crowded; %s when they are excited", dual.Span(b.Quiet.Unsupplied), dual.Oxygen(in.Floor), dual.Mass(in.Crowded), dual.Span(b.Excited.Unsupplied))
	w.fact("inflow to hold "+dual.Oxygen(in.Hold), "%s; %s when they are excited", dual.Flow(b.QuietHold), dual.Flow(b.ExcitedHold))
	w.fact("pumping the last water", "%s, about %s, %.1f %% animals by mass", dual.Span(b.Pumping), dual.MassRate(b.Rate), 100*b.Solids)
	w.fact("flushes", "%d of %s to fill and %s to pump, %s in all", in.Flushes, dual.Span(b.Refill), dual.Span(b.PumpOut), dual.Span(b.Flushing))
}

func (w *writer) ice(p plan.Plan) {
	m := p.Ice.Median
	w.line("Ice")
	w.fact("middle crop", "%s", dual.Mass(m.Order))
	w.fact("  chills the animals", "%s", dual.Mass(m.Chill))
	w.fact("  chills carried water", "%s", dual.Mass(m.Carried))
	w.fact("  chills the slurry's water", "%s", dual.Mass(m.MakeUp))
	w.fact("  heat through the bins' walls", "%s", dual.Mass(m.Leak))
	w.fact("  cools nothing", "%s", dual.Mass(m.Waste))
	w.fact("large crop, order and reserve", "%s, %.2f kg per kg", dual.Mass(p.Ice.Order), p.Ice.High.Ratio)
	w.fact("reserved", "%s; enough for %s of animals", dual.Mass(p.Ice.OnHand), dual.Mass(p.Ice.Inventory.Covers))
	w.fact("cold in the middle", "%s after %s stirred, %s still (thickness %s)", dual.Temperature(p.Ice.Core.Target), dual.Span(p.Ice.Core.Stirred), dual.Span(p.Ice.Core.Still), dual.Bore(p.Ice.Core.Diameter))
}

func (w *writer) haul(p plan.Plan) {
	h := p.Haul
	w.line("Bins and trucks")
	w.fact("a full bin", "%s gross: product %s, the rest ice, water and bin", dual.Mass(h.Median.Each.Gross), dual.Mass(h.Median.Each.Product))
	w.fact("all bins", "%d, %s gross", h.Median.Containers, dual.Mass(h.Median.Gross))
	for _, l := range h.High.Loads {
		w.fact(l.Truck+", large crop", "%d bins, %s of %s; could take %d, limited by %s", l.Containers, dual.Mass(l.Cargo), dual.Mass(l.Payload), l.Most, l.Binds)
	}
	for i, t := range h.Trips.Trips {
		state := fmt.Sprintf("leaves %s, arrives %s, waits %s", w.clock(t.Departs), w.clock(t.Arrives), dual.Span(t.WaitPlant))
		if t.Refused {
			state = fmt.Sprintf("leaves %s, arrives %s, after the window", w.clock(t.Departs), w.clock(t.Arrives))
		}
		if i < len(h.Melt) {
			state += "; ice left " + dual.Mass(h.Melt[i].Left)
		}
		w.fact(t.Truck, "%s", state)
	}
}

func (w *writer) notices(p plan.Plan) {
	w.title("NOTICES, THE GRAVEST FIRST")
	for _, n := range p.Notices {
		text := n.Message
		if n.Source != "" {
			text += " [" + n.Source + "]"
		}
		w.wrap(fmt.Sprintf("  %-8s ", n.Severity), text+" ("+n.Code+")")
	}
}

func (w *writer) list(title string, items []string) {
	w.title(title)
	for _, s := range items {
		w.wrap("  - ", s)
	}
}
