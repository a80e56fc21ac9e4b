package page

import (
	"fmt"
	"math"
	"time"

	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/examples/internal/dual"
	"pondwright.example/examples/internal/picture"
	"pondwright.example/units"
)

const wide, half = 960.0, 470.0

// clockAxis is an axis of hours after epoch, labelled with the farm's clock
// every step hours.
func clockAxis(epoch, from, to time.Time, step int, zone *time.Location, title string) picture.Axis {
	a := picture.Axis{Min: hours(from, epoch), Max: hours(to, epoch), Title: title}
	first := from.In(zone).Truncate(time.Hour)
	for t := first; !t.After(to); t = t.Add(time.Hour) {
		if t.Before(from) || t.In(zone).Hour()%step != 0 {
			continue
		}
		label := t.In(zone).Format("15:04")
		if t.In(zone).Hour() == 0 {
			label = t.In(zone).Format("Mon 2")
		}
		a.Ticks = append(a.Ticks, picture.Tick{At: hours(t, epoch), Label: label})
	}
	return a
}

// stepFor is how many hours apart the labels of a span stand.
func stepFor(span time.Duration) int {
	for _, s := range []int{1, 2, 3, 6} {
		if span.Hours()/float64(s) <= 14 {
			return s
		}
	}
	return 12
}

func hydrograph(p plan.Plan) string {
	n := p.Night
	if len(n.Course) == 0 {
		return ""
	}
	epoch, end := n.Opening, n.Course[len(n.Course)-1].At
	var xs, level, tide []float64
	lo, hi := 0.0, 0.0
	for _, c := range n.Course {
		xs = append(xs, hours(c.At, epoch))
		level = append(level, c.Level.Metres())
		tide = append(tide, c.Tide.Metres())
		lo, hi = math.Min(lo, c.Tide.Metres()), math.Max(hi, math.Max(c.Level.Metres(), c.Tide.Metres()))
	}
	y := picture.Round(lo, hi*1.12, 7, "level above the invert, m")
	if by := p.Openings.ReadyBy; by.After(end) {
		end = by
	}
	x := clockAxis(epoch, epoch, end.Add(end.Sub(epoch)/20), stepFor(end.Sub(epoch)), p.Zone(), "farm clock")
	c := picture.New(wide, 380, x, y, "pond level and tide through the night").WithRight(y.Second(1/units.Foot.Metres(), 8, "ft"))
	for _, s := range n.Stalls {
		c.Band("locked", hours(s.From, epoch), hours(s.To, epoch), "shut by the tide")
	}
	c.Axes()
	c.Line("tide", xs, tide).Line("level", xs, level)
	c.Level("", p.Input.Pond.BasinReady.Metres(), "basin ready "+dual.Level(p.Input.Pond.BasinReady), false)
	c.Mark("", xs[len(xs)-1], level[len(level)-1], "")
	c.Upright("", hours(n.Ready, epoch), 0, "ready "+dual.Clock(n.Ready, p.Zone()))
	c.Upright("limit", hours(p.Openings.ReadyBy, epoch), 1, "asked for "+dual.Clock(p.Openings.ReadyBy, p.Zone()))
	i := len(xs) / 4
	c.Label("", xs[i], level[i]+0.03*(y.Max-y.Min), "start", "pond")
	j := len(xs) * 11 / 20
	c.Label("", xs[j], tide[j]+0.03*(y.Max-y.Min), "start", "tide")
	return c.SVG()
}

func openings(p plan.Plan) string {
	o := p.Openings
	if len(o.Curve) < 2 {
		return ""
	}
	epoch := o.Curve[0].Opening
	last := o.Curve[len(o.Curve)-1].Opening
	lo, hi := o.ReadyBy, o.ReadyBy
	for _, c := range o.Curve {
		if c.Ready.IsZero() {
			continue
		}
		if c.Ready.Before(lo) {
			lo = c.Ready
		}
		if c.Ready.After(hi) {
			hi = c.Ready
		}
	}
	lo, hi = lo.Add(-30*time.Minute), hi.Add(30*time.Minute)
	x := clockAxis(epoch, epoch, last, stepFor(last.Sub(epoch)), p.Zone(), "outlet opened")
	y := clockAxis(epoch, lo, hi, stepFor(hi.Sub(lo)), p.Zone(), "basin ready")
	c := picture.New(wide, 330, x, y, "ready time against opening time").Axes()
	var xs, ys []float64
	flush := func() {
		if len(xs) > 0 {
			c.Line("curve", xs, ys)
		}
		xs, ys = nil, nil
	}
	for i, r := range o.Curve {
		if r.Ready.IsZero() {
			flush()
			continue
		}
		if i > 0 && r.Ready.Sub(o.Curve[i-1].Ready) > time.Hour {
			flush() // a cliff is not a slope
		}
		xs, ys = append(xs, hours(r.Opening, epoch)), append(ys, hours(r.Ready, epoch))
	}
	flush()
	c.Level("limit", hours(o.ReadyBy, epoch), "asked for "+dual.Clock(o.ReadyBy, p.Zone()), false)
	if !o.DarkBy.IsZero() {
		dark := hours(o.DarkBy, epoch)
		c.Level("", dark, "", true)
		c.Label("", x.Max-0.01*(x.Max-x.Min), dark-0.055*(y.Max-y.Min), "end", "ready by "+dual.Clock(o.DarkBy, p.Zone())+", the last bin closes in the dark")
	}
	c.Upright("", hours(p.Night.Opening, epoch), 0, "planned "+dual.Clock(p.Night.Opening, p.Zone()))
	if !o.Latest.IsZero() {
		c.Upright("limit", hours(o.Latest, epoch), 2, "latest "+o.Latest.In(p.Zone()).Format("15:04"))
	}
	c.Mark("", hours(p.Night.Opening, epoch), hours(p.Night.Ready, epoch), "")
	return c.SVG()
}

func odds(p plan.Plan) string {
	r := p.Odds.Ready
	if len(r) == 0 {
		return ""
	}
	const width = 15 * time.Minute
	epoch := r[0].Truncate(time.Hour)
	end := r[len(r)-1].Truncate(time.Hour).Add(time.Hour)
	shares := make([]float64, int(end.Sub(epoch)/width))
	top := 0.0
	for _, t := range r {
		i := int(t.Sub(epoch) / width)
		shares[i] += 100 / float64(len(r))
		top = math.Max(top, shares[i])
	}
	x := clockAxis(epoch, epoch, end, stepFor(end.Sub(epoch)), p.Zone(), "basin ready")
	c := picture.New(wide, 240, x, picture.Round(0, top*1.1, 4, "nights of 100"), "odds of the ready time").Axes()
	for i, s := range shares {
		if s > 0 {
			from := (time.Duration(i) * width).Hours()
			c.Bar("pb", from+0.02, from+width.Hours()-0.02, s, "")
		}
	}
	c.Upright("limit", hours(p.Odds.ReadyBy, epoch), 0, "asked for "+dual.Clock(p.Odds.ReadyBy, p.Zone()))
	return c.SVG()
}

func pumpCurve(p plan.Plan) string {
	l := p.Lift
	var q, pump, system []float64
	top := 0.0
	for i := range l.PumpCurve {
		q = append(q, l.PumpCurve[i].Flow.In(units.CubicMetresPerHour))
		pump = append(pump, l.PumpCurve[i].Head.Metres())
		system = append(system, l.SystemCurve[i].Head.Metres())
		top = math.Max(top, math.Max(pump[i], system[i]))
	}
	x := picture.Round(0, q[len(q)-1], 6, "flow, m³/h (100 m³/h is 440 US gpm)")
	y := picture.Round(0, top*1.05, 7, "head, m")
	c := picture.New(half, 340, x, y, "pump and system curves").WithRight(y.Second(1/units.Foot.Metres(), 7, "ft")).Axes()
	c.Line("system", q, system).Line("pump", q, pump)
	d := l.Duty.Pump
	c.Mark("", d.Flow.In(units.CubicMetresPerHour), d.Head.Metres(), dual.Flow(d.Flow))
	c.Label("", q[3], pump[3]+0.035*(y.Max-y.Min), "start", "pump")
	c.Label("", q[3], system[3]-0.06*(y.Max-y.Min), "start", "lift and hose")
	return c.SVG()
}

func grades(p plan.Plan) string {
	var names []string
	var odds []float64
	for _, k := range p.Crop.Headless.Probabilities {
		if k.Probability >= 0.002 {
			names, odds = append(names, k.Class), append(odds, 100*k.Probability)
		}
	}
	x := picture.Axis{Min: 0, Max: float64(max(1, len(names))), Title: "headless, per pound"}
	for i, n := range names {
		x.Ticks = append(x.Ticks, picture.Tick{At: float64(i) + 0.5, Label: n})
	}
	y := picture.Round(0, 100, 5, "odds, %")
	c := picture.New(half, 340, x, y, "odds of each count class").Axes()
	for i, o := range odds {
		c.Bar("pa", float64(i)+0.18, float64(i)+0.82, o, fmt.Sprintf("%.0f %%", o))
	}
	return c.SVG()
}

func ice(p plan.Plan) string {
	h := p.Ice.High
	part := func(class, label string, m units.Mass) picture.Share {
		return picture.Share{Class: class, Label: label, Value: dual.Mass(m), Size: m.Kilograms()}
	}
	return picture.Shares(wide, []picture.Share{
		part("pa", "chills the animals", h.Chill),
		part("pb", "chills the slurry's own water", h.MakeUp),
		part("pc", "chills carried water", h.Carried),
		part("pd", "heat through the bins' walls", h.Leak),
		part("pe", "cools nothing", h.Waste),
	}, "where the ice goes")
}

func timetable(p plan.Plan) string {
	zone := p.Zone()
	epoch := p.Night.Opening.Add(-time.Hour)
	last := epoch
	var tasks []picture.Task
	row := func(class, label string, from, to time.Time) {
		if to.After(last) {
			last = to
		}
		note := from.In(zone).Format("15:04")
		if to.After(from) {
			note += "–" + to.In(zone).Format("15:04")
		}
		tasks = append(tasks, picture.Task{Class: class, Label: label, Note: note, From: hours(from, epoch), To: hours(to, epoch)})
	}
	ready := p.Night.Ready
	pumped := ready.Add(p.Basin.Pumping)
	row("pa", "outlet open", p.Night.Opening, ready)
	row("pb", "pump the last water", ready, pumped)
	if p.Basin.Flushing > 0 {
		row("pb", "flush the basin", pumped, pumped.Add(p.Basin.Flushing))
	}
	for _, t := range p.Haul.Trips.Trips {
		row("pc", t.Truck+" loads", t.Loading, t.Departs)
		row("pd", t.Truck+" on the road", t.Departs, t.Arrives)
		if t.Done.After(t.Unloading) {
			row("pe", t.Truck+" unloads", t.Unloading, t.Done)
		}
	}
	var rules []picture.Tick
	for _, r := range []struct {
		at   time.Time
		name string
	}{{p.Sky.Evening.Sunset, "sunset"}, {p.Openings.ReadyBy, "asked ready"}, {p.Sky.Morning.Sunrise, "sunrise"}, {p.Input.Haul.Closes, "plant closes"}} {
		if !r.at.IsZero() {
			rules = append(rules, picture.Tick{At: hours(r.at, epoch), Label: r.name + " " + r.at.In(zone).Format("15:04")})
		}
	}
	end := last.Add(time.Hour)
	return picture.Timetable(wide, clockAxis(epoch, epoch, end, stepFor(end.Sub(epoch)), zone, ""), tasks, rules, "timetable of the night")
}
