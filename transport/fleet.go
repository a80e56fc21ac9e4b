package transport

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Turn is the time of one truck's round.
type Turn struct {
	Load   time.Duration `json:"load"`
	Haul   time.Duration `json:"haul"`
	Unload time.Duration `json:"unload"`
	Return time.Duration `json:"return"`
	Wash   time.Duration `json:"wash"`
}

// Validate reports every leg that is negative.
func (t Turn) Validate() error {
	const fn = "transport.Turn"
	return errors.Join(
		bounds.Amount(fn, "load", t.Load.Hours(), "h"), bounds.Amount(fn, "haul", t.Haul.Hours(), "h"),
		bounds.Amount(fn, "unload", t.Unload.Hours(), "h"), bounds.Amount(fn, "return", t.Return.Hours(), "h"),
		bounds.Amount(fn, "wash", t.Wash.Hours(), "h"))
}

// Cycle returns the length of the round, the sum of its legs; a negative leg is
// ErrDomain. Source: by definition.
func (t Turn) Cycle() (time.Duration, error) {
	if err := t.Validate(); err != nil {
		return 0, err
	}
	return t.Load + t.Haul + t.Unload + t.Return + t.Wash, nil
}

// Trips returns the loads that a crop makes: the whole number at or above
// crop/payload.
//
// Validity: crop not negative, payload above zero; ErrDomain beside -1. Source:
// by definition.
func Trips(crop, payload units.Mass) (int, error) {
	const fn = "transport.Trips"
	if err := errors.Join(bounds.Amount(fn, "crop", float64(crop), "kg"), bounds.Positive(fn, "payload", float64(payload), "kg")); err != nil {
		return -1, err
	}
	n := math.Ceil(float64(crop)/float64(payload) - 1e-12)
	if err := units.Within(fn, "payload", n, 0, 1e9, "trips"); err != nil {
		return -1, err
	}
	return int(n), nil
}

// Trucks returns how many trucks keep up with a harvest that does not stop:
// the whole number at or above rate·cycle/payload. No more trucks than [Trips]
// are ever needed.
//
// Validity: rate and payload above zero; ErrDomain beside -1. Source: by
// definition.
func (t Turn) Trucks(rate units.MassFlow, payload units.Mass) (int, error) {
	const fn = "transport.Turn.Trucks"
	cycle, err := t.Cycle()
	err = errors.Join(err, bounds.Positive(fn, "rate", float64(rate), "kg/s"), bounds.Positive(fn, "payload", float64(payload), "kg"))
	if err != nil {
		return -1, err
	}
	n := math.Ceil(float64(rate)*cycle.Seconds()/float64(payload) - 1e-9)
	if err := units.Within(fn, "payload", n, 0, 1e9, "trucks"); err != nil {
		return -1, err
	}
	return int(n), nil
}

// OldestAge returns the age of the first animals of a load when the truck is at
// the plant's gate: the time to fill the truck at the harvest's rate, and the
// haul.
//
//	age = payload/rate + haul
//
// Validity: rate and payload above zero; ErrDomain. Source: by definition.
func (t Turn) OldestAge(rate units.MassFlow, payload units.Mass) (time.Duration, error) {
	const fn = "transport.Turn.OldestAge"
	err := errors.Join(t.Validate(), bounds.Positive(fn, "rate", float64(rate), "kg/s"), bounds.Positive(fn, "payload", float64(payload), "kg"))
	if err != nil {
		return 0, err
	}
	s := float64(payload)/float64(rate) + t.Haul.Seconds()
	if err := units.Within(fn, "rate", s/3600, 0, 24*365, "h to fill and haul"); err != nil {
		return 0, err
	}
	return seconds(s), nil
}

// PayloadForAge returns the largest load whose oldest animals are at the gate
// within limit, the inverse of [Turn.OldestAge]: rate·(limit - haul). A haul
// longer than the limit is ErrNoSolution with NaN.
//
// Source: by definition.
func (t Turn) PayloadForAge(rate units.MassFlow, limit time.Duration) (units.Mass, error) {
	const fn = "transport.Turn.PayloadForAge"
	nan := units.Mass(math.NaN())
	err := errors.Join(t.Validate(), bounds.Positive(fn, "rate", float64(rate), "kg/s"), bounds.Amount(fn, "limit", limit.Hours(), "h"))
	if err != nil {
		return nan, err
	}
	if limit <= t.Haul {
		return nan, &units.InputError{Func: fn, Field: "limit", Value: limit.Hours(), Unit: "h", Min: t.Haul.Hours(), Max: math.Inf(1),
			Reason: "the haul alone takes as long", Kind: units.ErrNoSolution}
	}
	return rate.Times(limit - t.Haul), nil
}
