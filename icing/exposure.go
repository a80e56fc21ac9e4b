package icing

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Limit is one rule on time at temperature. The rules are the user's data:
// those of the buyer, the hazard plan and the law that apply to the product.
type Limit struct {
	Name           string            `json:"name"`
	Above          units.Temperature `json:"above"`                   // time counts strictly above it
	Allowed        time.Duration     `json:"allowed"`                 // in total
	WhenEverAbove  units.Temperature `json:"whenEverAbove,omitzero"`  // rule holds only if a reading passed it; unset means always
	WhenNeverAbove units.Temperature `json:"whenNeverAbove,omitzero"` // rule holds only if no reading passed it; unset means always
	Source         string            `json:"source"`                  // where the rule is written
}

// Reading is one temperature of the product.
type Reading struct {
	At          time.Time         `json:"at"`
	Temperature units.Temperature `json:"temperature"`
	Probe       string            `json:"probe,omitempty"` // which thermometer, and where it was
	By          string            `json:"by,omitempty"`    // who read it
}

// Between says what the temperature is taken to be between two readings.
type Between uint8

// The warmer reading is the default: an upper bound for any course that stays
// between the two readings. The straight line is for close readings.
const (
	WarmerReading Between = iota
	StraightLine
)

// ExposureOptions says how an [Exposure] counts.
type ExposureOptions struct {
	Between Between       `json:"between"`
	Law     Spoilage      `json:"law"`
	MaxGap  time.Duration `json:"maxGap"` // longest gap between readings before a notice; zero means 30 minutes
}

// Exposure adds up what a product has been through, reading by reading. It is
// made by [NewExposure]; one goroutine at a time may use it.
type Exposure struct {
	limits     []Limit
	above      []float64 // s above each limit
	option     ExposureOptions
	n          int
	last       Reading
	first      time.Time
	warmest    float64 // °C
	coldest    float64
	equivalent float64 // s at 0 °C
	warmestAt  Reading
	longestGap time.Duration
}

// LimitState is how one rule stands.
type LimitState struct {
	Limit   Limit         `json:"limit"`
	Spent   time.Duration `json:"spent"`   // above the limit so far
	Left    time.Duration `json:"left"`    // Allowed less Spent; negative when passed
	Applies bool          `json:"applies"` // by its two conditions
	Passed  bool          `json:"passed"`  // applies, and Spent exceeds Allowed
}

// ExposureReport is the state of an [Exposure]. It says what was measured
// against which limit, not whether the product is safe.
type ExposureReport struct {
	Readings   int               `json:"readings"`
	Elapsed    time.Duration     `json:"elapsed"`
	Warmest    units.Temperature `json:"warmest"`
	WarmestAt  Reading           `json:"warmestAt"` // the reading, with probe and reader
	Coldest    units.Temperature `json:"coldest"`
	Equivalent time.Duration     `json:"equivalent"` // time on ice at 0 °C that spoils as much
	Limits     []LimitState      `json:"limits"`
	Notices    []units.Notice    `json:"notices"`
}

// NewExposure returns an empty account against the limits, which may be none.
//
// Errors: ErrDomain, named by limit and field, for a temperature outside -60 to
// 100 °C, a negative time or an unknown option.
func NewExposure(limits []Limit, option ExposureOptions) (*Exposure, error) {
	const fn = "icing.NewExposure"
	var errs []error
	for i, l := range limits {
		at := fmt.Sprintf("limits[%d]", i)
		errs = append(errs,
			units.Within(fn, at+".Above", l.Above.Celsius(), -60, 100, "°C"),
			bounds.Amount(fn, at+".Allowed", l.Allowed.Hours(), "h"))
		// A condition that is not a temperature would never hold, and the rule
		// would fall silent.
		if !unset(l.WhenEverAbove) {
			errs = append(errs, units.Within(fn, at+".WhenEverAbove", l.WhenEverAbove.Celsius(), -60, 100, "°C"))
		}
		if !unset(l.WhenNeverAbove) {
			errs = append(errs, units.Within(fn, at+".WhenNeverAbove", l.WhenNeverAbove.Celsius(), -60, 100, "°C"))
		}
	}
	if option.Between > StraightLine {
		errs = append(errs, &units.InputError{Func: fn, Field: "option.Between", Value: float64(option.Between), Reason: "must be WarmerReading or StraightLine"})
	}
	if option.Law > TropicalDalgaardHuss1995 {
		errs = append(errs, &units.InputError{Func: fn, Field: "option.Law", Value: float64(option.Law), Reason: "must be TemperateHuss1995 or TropicalDalgaardHuss1995"})
	}
	errs = append(errs, bounds.Amount(fn, "option.MaxGap", option.MaxGap.Hours(), "h"))
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	if option.MaxGap == 0 {
		option.MaxGap = 30 * time.Minute
	}
	e := &Exposure{limits: append([]Limit(nil), limits...), above: make([]float64, len(limits)), option: option,
		warmest: math.Inf(-1), coldest: math.Inf(1)}
	return e, nil
}

// Add counts the time since the last reading and keeps this one. Readings come
// in order of time; one that does not, or that is no temperature of food
// (outside -60 to 100 °C), is refused and changes nothing. It allocates nothing
// when there is no error.
func (e *Exposure) Add(r Reading) error {
	const fn = "icing.Exposure.Add"
	c := r.Temperature.Celsius()
	if err := units.Within(fn, "temperature", c, -60, 100, "°C"); err != nil {
		return err
	}
	if e.n > 0 {
		dt := r.At.Sub(e.last.At)
		if dt <= 0 {
			return &units.InputError{Func: fn, Field: "at", Value: dt.Seconds(), Unit: "s after the last reading", Min: 0, Max: math.Inf(1),
				Reason: "readings must be in order of time, each later than the one before"}
		}
		e.count(e.last.Temperature.Celsius(), c, dt.Seconds())
		e.longestGap = max(e.longestGap, dt)
	} else {
		e.first = r.At
	}
	e.n++
	e.last = r
	if c > e.warmest {
		e.warmest, e.warmestAt = c, r
	}
	e.coldest = min(e.coldest, c)
	return nil
}

func (e *Exposure) count(a, b, dt float64) {
	if e.option.Between == WarmerReading {
		a, b = max(a, b), max(a, b)
	}
	e.equivalent += e.option.Law.integral(a, b, dt)
	for i := range e.limits {
		e.above[i] += timeAbove(a, b, dt, e.limits[i].Above.Celsius())
	}
}

// timeAbove is the part of dt that a straight line from a to b spends strictly
// above limit.
func timeAbove(a, b, dt, limit float64) float64 {
	hi, lo := max(a, b), min(a, b)
	switch {
	case hi <= limit:
		return 0
	case lo > limit || hi == lo:
		return dt
	}
	return dt * (hi - limit) / (hi - lo)
}

// Report returns where the product stands now.
func (e *Exposure) Report() ExposureReport {
	r := ExposureReport{Readings: e.n, Equivalent: seconds(e.equivalent)}
	if e.n == 0 {
		return r
	}
	r.Elapsed = e.last.At.Sub(e.first)
	r.Warmest, r.Coldest, r.WarmestAt = units.Celsius(e.warmest), units.Celsius(e.coldest), e.warmestAt
	for i, l := range e.limits {
		s := LimitState{Limit: l, Spent: seconds(e.above[i])}
		s.Left = l.Allowed - s.Spent
		s.Applies = (unset(l.WhenEverAbove) || e.warmest > l.WhenEverAbove.Celsius()) &&
			(unset(l.WhenNeverAbove) || e.warmest <= l.WhenNeverAbove.Celsius())
		s.Passed = s.Applies && s.Left < 0
		r.Limits = append(r.Limits, s)
		if s.Passed {
			r.Notices = append(r.Notices, units.Notice{Code: CodeExposureLimit, Severity: units.Warning, Field: l.Name,
				Value: s.Spent.Hours(), Limit: l.Allowed.Hours(), Unit: "h",
				Message: fmt.Sprintf("%.2f h above %.1f °C passes the %.2f h of %q; hold the lot and ask the person responsible", s.Spent.Hours(), l.Above.Celsius(), l.Allowed.Hours(), l.Name),
				Source:  l.Source})
		}
	}
	if e.longestGap > e.option.MaxGap {
		r.Notices = append(r.Notices, units.Notice{Code: CodeExposureGap, Severity: units.Caution, Field: "at",
			Value: e.longestGap.Minutes(), Limit: e.option.MaxGap.Minutes(), Unit: "min",
			Message: "readings are further apart than allowed: what happened between them is not known"})
	}
	if n, out := units.Outside(CodeExposureRange, "temperature", e.warmest, math.Inf(-1), e.option.Law.upper(), "°C", e.option.Law.String()); out {
		r.Notices = append(r.Notices, n)
	}
	if n, out := units.Outside(CodeExposureRange, "temperature", e.coldest, 0, math.Inf(1), "°C", e.option.Law.String()); out {
		r.Notices = append(r.Notices, n)
	}
	return r
}

// seconds turns a sum of seconds into a Duration; sums of readings fit.
func seconds(s float64) time.Duration {
	return time.Duration(math.Round(min(s, 9e9) * float64(time.Second)))
}
