package transport

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Window is a time at which the plant takes deliveries, opening included.
type Window struct {
	Opens  time.Time `json:"opens"`
	Closes time.Time `json:"closes"`
}

// Hauler is a truck that is at the pond, ready, from a time on.
type Hauler struct {
	Name    string     `json:"name"`
	Ready   time.Time  `json:"ready"`   // at the pond
	Product units.Mass `json:"product"` // it takes per trip
}

// Schedule is one harvest to be hauled. Times carry their zone; nothing here
// reads a clock.
type Schedule struct {
	Product    units.Mass     `json:"product"`
	Start      time.Time      `json:"start"` // first product over the table
	Rate       units.MassFlow `json:"rate"`  // over the table; zero means all is ready at Start
	Haulers    []Hauler       `json:"haulers"`
	Turn       Turn           `json:"turn"`       // Load is the time at the dock; product may still be coming
	PondDocks  int            `json:"pondDocks"`  // trucks loaded at once, to 1000; zero means one
	PlantDocks int            `json:"plantDocks"` // trucks unloaded at once, to 1000; zero means one
	Windows    []Window       `json:"windows"`    // in order; none means always open
	MaxAge     time.Duration  `json:"maxAge"`     // user's limit from table to unloading; zero means none
	MaxWait    time.Duration  `json:"maxWait"`    // of a truck at the plant before a notice; zero means 30 minutes
}

// Trip is one load on its way.
type Trip struct {
	Truck     string        `json:"truck"`
	Product   units.Mass    `json:"product"`
	First     time.Time     `json:"first"`   // first animal of the load over the table
	Loading   time.Time     `json:"loading"` // dock taken
	Departs   time.Time     `json:"departs"`
	Arrives   time.Time     `json:"arrives"`
	Unloading time.Time     `json:"unloading"` // zero when no window is left
	Done      time.Time     `json:"done"`
	WaitPond  time.Duration `json:"waitPond"`  // ready, but no dock or no product
	WaitPlant time.Duration `json:"waitPlant"` // at the gate before the dock
	Age       time.Duration `json:"age"`       // of the oldest animals when unloading starts, or at the gate when refused
	Refused   bool          `json:"refused"`   // arrived after the last window
	Slack     time.Duration `json:"slack"`     // from start of unloading to the window's closing; zero without windows
}

// TripPlan is the schedule worked out.
type TripPlan struct {
	Trips    []Trip         `json:"trips"`
	LastDone time.Time      `json:"lastDone"`
	Oldest   time.Duration  `json:"oldest"`
	Longest  time.Duration  `json:"longest"` // wait at the plant
	Notices  []units.Notice `json:"notices"`
}

// Validate reports every field that cannot be scheduled.
func (s Schedule) Validate() error {
	const fn = "transport.Schedule"
	errs := []error{
		bounds.Amount(fn, "product", float64(s.Product), "kg"),
		bounds.Amount(fn, "rate", float64(s.Rate), "kg/s"),
		units.AtField("turn", s.Turn.Validate()),
		units.Within(fn, "pondDocks", float64(s.PondDocks), 0, maxDocks, ""),
		units.Within(fn, "plantDocks", float64(s.PlantDocks), 0, maxDocks, ""),
		bounds.Amount(fn, "maxAge", s.MaxAge.Hours(), "h"),
		bounds.Amount(fn, "maxWait", s.MaxWait.Hours(), "h"),
	}
	if s.Start.IsZero() {
		errs = append(errs, &units.InputError{Func: fn, Field: "start", Value: 0, Reason: "the harvest's start is not set"})
	}
	if len(s.Haulers) == 0 && s.Product > 0 {
		errs = append(errs, &units.InputError{Func: fn, Field: "haulers", Value: 0, Min: 1, Max: math.Inf(1), Reason: "no truck to carry the product"})
	}
	for i, h := range s.Haulers {
		errs = append(errs, bounds.Positive(fn, fmt.Sprintf("haulers[%d].product", i), float64(h.Product), "kg"))
	}
	for i, w := range s.Windows {
		if !w.Opens.Before(w.Closes) || i > 0 && w.Opens.Before(s.Windows[i-1].Closes) {
			errs = append(errs, &units.InputError{Func: fn, Field: fmt.Sprintf("windows[%d]", i), Value: w.Closes.Sub(w.Opens).Hours(), Unit: "h",
				Reason: "must close after it opens, and open after the one before has closed"})
		}
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	if s.Rate > 0 {
		return units.Within(fn, "rate", float64(s.Product)/float64(s.Rate)/3600, 0, 24*365, "h of harvest")
	}
	return nil
}

// maxTrips stops a harvest of thimbles, maxDocks a slip of the keyboard.
const maxTrips, maxDocks = 10000, 1000

// Plan sends the product off load by load: the next load goes to the truck that
// is at the pond first, begins when a pond dock is free, is complete when the
// dock time is over and the last of its product has come over the table, and is
// unloaded in order of arrival when a plant dock and a window are open. The last
// load may be smaller. Unloading must start within a window; it may end after
// closing.
//
// A load that finds no window any more is kept in the plan as refused, with a
// notice: the plan answers although it misses its hour. Errors are ErrDomain,
// named by field.
func (s Schedule) Plan() (TripPlan, error) {
	const fn = "transport.Schedule"
	if err := s.Validate(); err != nil {
		return TripPlan{}, err
	}
	var p TripPlan
	ready := make([]time.Time, len(s.Haulers))
	for i, h := range s.Haulers {
		ready[i] = h.Ready
	}
	pond := make([]time.Time, max(1, s.PondDocks))
	plant := make([]time.Time, max(1, s.PlantDocks))
	hauled := 0.0
	total := float64(s.Product)
	for hauled < total*(1-1e-12) {
		if len(p.Trips) == maxTrips {
			return TripPlan{}, &units.InputError{Func: fn, Field: "haulers", Value: maxTrips, Min: 0, Max: maxTrips, Reason: "more trips than a harvest can have: are the loads right?"}
		}
		truck := earliest(ready)
		h := s.Haulers[truck]
		mass := min(float64(h.Product), total-hauled)
		t := Trip{Truck: h.Name, Product: units.Mass(mass), First: s.at(hauled)}
		dock := earliest(pond)
		t.Loading = latest(ready[truck], pond[dock], s.Start)
		t.Departs = latest(t.Loading.Add(s.Turn.Load), s.at(hauled+mass))
		t.WaitPond = max(0, t.Departs.Sub(latest(ready[truck], s.Start))-s.Turn.Load)
		pond[dock] = t.Departs
		t.Arrives = t.Departs.Add(s.Turn.Haul)
		s.receive(&t, plant)
		back := t.Arrives
		if !t.Refused {
			back = t.Done
			p.LastDone = latest(p.LastDone, t.Done)
		}
		ready[truck] = back.Add(s.Turn.Return + s.Turn.Wash)
		p.Oldest = max(p.Oldest, t.Age)
		p.Longest = max(p.Longest, t.WaitPlant)
		p.Trips = append(p.Trips, t)
		hauled += mass
	}
	p.Notices = s.notices(p)
	return p, nil
}

// at is when the given amount of product has come over the table.
func (s Schedule) at(product float64) time.Time {
	if s.Rate == 0 {
		return s.Start
	}
	return s.Start.Add(seconds(product / float64(s.Rate)))
}

// receive gives the trip the first plant dock and window that it can have.
func (s Schedule) receive(t *Trip, plant []time.Time) {
	dock := earliest(plant)
	from := latest(t.Arrives, plant[dock])
	if len(s.Windows) == 0 {
		t.Unloading = from
	}
	for _, w := range s.Windows {
		if at := latest(from, w.Opens); at.Before(w.Closes) {
			t.Unloading = at
			t.Slack = w.Closes.Sub(at)
			break
		}
	}
	if t.Unloading.IsZero() {
		t.Refused = true
		t.Age = t.Arrives.Sub(t.First)
		return
	}
	t.Done = t.Unloading.Add(s.Turn.Unload)
	t.WaitPlant = t.Unloading.Sub(t.Arrives)
	t.Age = t.Unloading.Sub(t.First)
	plant[dock] = t.Done
}

func (s Schedule) notices(p TripPlan) []units.Notice {
	var out []units.Notice
	maxWait := s.MaxWait
	if maxWait == 0 {
		maxWait = 30 * time.Minute
	}
	for i, t := range p.Trips {
		field := fmt.Sprintf("trips[%d]", i)
		who := nameOf(t.Truck)
		if t.Refused {
			last := s.Windows[len(s.Windows)-1].Closes
			out = append(out, units.Notice{Code: CodeWindowMissed, Severity: units.Warning, Field: field,
				Value: t.Arrives.Sub(last).Hours(), Limit: 0, Unit: "h",
				Message: fmt.Sprintf("%s with %.0f kg cannot start unloading before the last window closes", who, float64(t.Product))})
		}
		if t.WaitPlant > maxWait {
			out = append(out, units.Notice{Code: CodeWait, Severity: units.Caution, Field: field,
				Value: t.WaitPlant.Minutes(), Limit: maxWait.Minutes(), Unit: "min",
				Message: fmt.Sprintf("%s stands %.0f min at the plant: count the wait in its ice", who, t.WaitPlant.Minutes())})
		}
		if s.MaxAge > 0 && t.Age > s.MaxAge {
			out = append(out, units.Notice{Code: CodeProductOld, Severity: units.Warning, Field: field,
				Value: t.Age.Hours(), Limit: s.MaxAge.Hours(), Unit: "h",
				Message: fmt.Sprintf("the oldest animals on %s are %.1f h off the table, beyond the limit given", who, t.Age.Hours())})
		}
	}
	return out
}

// LatestDeparture returns the latest time at which a truck may leave the pond to
// start unloading before the window closes, by its haul alone; one that leaves
// at this very time comes as the window closes. A negative haul is ErrDomain.
func (w Window) LatestDeparture(haul time.Duration) (time.Time, error) {
	if err := bounds.Amount("transport.Window.LatestDeparture", "haul", haul.Hours(), "h"); err != nil {
		return time.Time{}, err
	}
	return w.Closes.Add(-haul), nil
}

func earliest(times []time.Time) int {
	best := 0
	for i, t := range times {
		if t.Before(times[best]) {
			best = i
		}
	}
	return best
}

func latest(times ...time.Time) time.Time {
	best := times[0]
	for _, t := range times[1:] {
		if t.After(best) {
			best = t
		}
	}
	return best
}
