package transport

import (
	"errors"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Truck is a vehicle for containers. Its limit comes as a gross mass with a
// tare, or as a payload; both may be given if they agree.
type Truck struct {
	Name    string     `json:"name"`
	Gross   units.Mass `json:"gross"`   // permitted gross mass; zero when Payload is given
	Tare    units.Mass `json:"tare"`    // empty with crew and fuel; goes with Gross
	Payload units.Mass `json:"payload"` // permitted load; zero when Gross and Tare are given
	Slots   int        `json:"slots"`   // floor positions for containers; zero means floor space does not limit
	Layers  int        `json:"layers"`  // containers stacked on a position; zero means one
	Axles   AxleLimits `json:"axles"`   // zero means axles are not checked
}

// AxleLimits holds a two-axle vehicle, or a trailer between kingpin and axle
// group, to its axle limits when the load's centre is at one place.
type AxleLimits struct {
	Wheelbase  units.Length `json:"wheelbase"`  // front axle (kingpin) to the middle of the rear group; zero means not checked
	LoadCentre units.Length `json:"loadCentre"` // of the load, behind the front axle
	FrontTare  units.Mass   `json:"frontTare"`
	RearTare   units.Mass   `json:"rearTare"`
	FrontLimit units.Mass   `json:"frontLimit"` // zero means none
	RearLimit  units.Mass   `json:"rearLimit"`  // zero means none
}

// Limit names what stops a load from being larger.
type Limit string

// The limits a load can meet.
const (
	ByNothing Limit = "nothing" // everything went in
	ByVolume  Limit = "volume"  // the container is full
	ByMass    Limit = "mass"    // gross mass or payload
	ByCount   Limit = "count"   // floor positions and layers
	ByAxle    Limit = "axle"    // an axle limit
	ByChoice  Limit = "choice"  // the caller's own cap
)

// agreement is how far a payload may lie from gross less tare, for rounding of
// the two figures on a plate.
const agreement = 0.01

// Validate reports every field that cannot be a truck, and a payload that does
// not agree with gross less tare.
func (t Truck) Validate() error {
	_, err := t.PayloadLimit()
	return err
}

// PayloadLimit returns the mass that may be loaded: the payload, or gross less
// tare. When all three are given they must agree within 1 % of the gross mass; a
// payload that includes the tare is refused, with both figures named.
//
// Errors are ErrDomain with NaN. Source: by definition of payload.
func (t Truck) PayloadLimit() (units.Mass, error) {
	const fn = "transport.Truck"
	nan := units.Mass(math.NaN())
	err := errors.Join(
		bounds.Amount(fn, "gross", float64(t.Gross), "kg"),
		bounds.Amount(fn, "tare", float64(t.Tare), "kg"),
		bounds.Amount(fn, "payload", float64(t.Payload), "kg"),
		bounds.Amount(fn, "slots", float64(t.Slots), ""),
		bounds.Amount(fn, "layers", float64(t.Layers), ""),
		units.AtField("axles", t.Axles.validate()))
	if err != nil {
		return nan, err
	}
	if t.Gross == 0 {
		if t.Payload == 0 {
			return nan, &units.InputError{Func: fn, Field: "payload", Value: 0, Unit: "kg",
				Reason: "give the payload, or the permitted gross mass and the tare"}
		}
		return t.Payload, nil
	}
	if t.Tare == 0 || t.Tare >= t.Gross {
		return nan, &units.InputError{Func: fn, Field: "tare", Value: float64(t.Tare), Unit: "kg", Min: 0, Max: float64(t.Gross),
			Reason: "a permitted gross mass needs a tare above zero and below it"}
	}
	room := t.Gross - t.Tare
	if t.Payload != 0 && math.Abs(float64(t.Payload-room)) > agreement*float64(t.Gross) {
		reason := "does not agree with gross less tare"
		if math.Abs(float64(t.Payload-t.Gross)) <= agreement*float64(t.Gross) {
			reason += "; it equals the gross mass: does it include the tare?"
		}
		return nan, &units.InputError{Func: fn, Field: "payload", Value: float64(t.Payload), Unit: "kg",
			Min: float64(room) - agreement*float64(t.Gross), Max: float64(room) + agreement*float64(t.Gross), Reason: reason}
	}
	if t.Payload != 0 {
		return min(t.Payload, room), nil
	}
	return room, nil
}

func (a AxleLimits) validate() error {
	if a == (AxleLimits{}) {
		return nil
	}
	const fn = "transport.AxleLimits"
	err := errors.Join(
		units.Within(fn, "wheelbase", float64(a.Wheelbase), 1, 20, "m"),
		units.Within(fn, "loadCentre", float64(a.LoadCentre), 0, 20, "m"),
		bounds.Amount(fn, "frontTare", float64(a.FrontTare), "kg"),
		bounds.Amount(fn, "rearTare", float64(a.RearTare), "kg"),
		bounds.Amount(fn, "frontLimit", float64(a.FrontLimit), "kg"),
		bounds.Amount(fn, "rearLimit", float64(a.RearLimit), "kg"))
	if err != nil {
		return err
	}
	if a.FrontLimit != 0 && a.FrontTare > a.FrontLimit || a.RearLimit != 0 && a.RearTare > a.RearLimit {
		return &units.InputError{Func: fn, Field: "rearTare", Value: float64(a.RearTare), Unit: "kg", Reason: "an empty truck is over its axle limit"}
	}
	return nil
}

// most is the cargo that the axles allow, +Inf when they do not limit.
func (a AxleLimits) most() float64 {
	if a.Wheelbase == 0 {
		return math.Inf(1)
	}
	rear := float64(a.LoadCentre / a.Wheelbase) // share of the cargo on the rear axle
	out := math.Inf(1)
	if a.RearLimit != 0 && rear > 0 {
		out = min(out, float64(a.RearLimit-a.RearTare)/rear)
	}
	if a.FrontLimit != 0 && rear < 1 {
		out = min(out, float64(a.FrontLimit-a.FrontTare)/(1-rear))
	}
	if rear > 1 { // a load behind the rear axle must not lift the front
		out = min(out, float64(a.FrontTare)/(rear-1))
	}
	return out
}
