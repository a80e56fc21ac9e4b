package transport

import (
	"errors"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Way is one way of carrying a crop to the door.
type Way struct {
	Payload units.Mass `json:"payload"` // of the truck
	Extra   float64    `json:"extra"`   // kg of water, ice and tare carried per kg of product
	Lost    float64    `json:"lost"`    // share of the product that does not arrive saleable
}

// Carriage is what a [Way] comes to.
type Carriage struct {
	Product     units.Mass `json:"product"`     // loaded per trip
	Arrives     units.Mass `json:"arrives"`     // saleable per trip
	Trips       int        `json:"trips"`       // for the crop
	PerKilogram float64    `json:"perKilogram"` // kg carried per kg that arrives saleable
}

// Carry returns what it takes to bring a crop to the door in one way, so that
// live and iced can be laid side by side: live haul carries 1 to 4 kg of water
// for each kilogram, iced product 0.3 to 0.8 kg of ice, water and boxes.
//
//	product per trip = payload/(1 + extra) ;  carried per kg sold = (1 + extra)/(1 - lost)
//
// Validity: crop not negative, payload above zero, extra 0 to 50, lost 0 to 0.9;
// ErrDomain. Source: mass balance.
func (w Way) Carry(crop units.Mass) (Carriage, error) {
	const fn = "transport.Way"
	err := errors.Join(bounds.Amount(fn, "crop", float64(crop), "kg"), bounds.Positive(fn, "payload", float64(w.Payload), "kg"),
		units.Within(fn, "extra", w.Extra, 0, 50, "kg/kg"), units.Within(fn, "lost", w.Lost, 0, 0.9, ""))
	if err != nil {
		return Carriage{}, err
	}
	c := Carriage{Product: w.Payload / units.Mass(1+w.Extra), PerKilogram: (1 + w.Extra) / (1 - w.Lost)}
	c.Arrives = c.Product * units.Mass(1-w.Lost)
	if c.Trips, err = Trips(crop, c.Product); err != nil {
		return Carriage{}, err
	}
	return c, nil
}

// LoadForDelivered returns the mass to load so that delivered arrives when the
// share lost on the way: delivered/(1 - lost).
//
// Validity: delivered not negative, lost 0 to 0.9; ErrDomain with NaN. Source:
// by definition.
func LoadForDelivered(delivered units.Mass, lost float64) (units.Mass, error) {
	const fn = "transport.LoadForDelivered"
	if err := errors.Join(bounds.Amount(fn, "delivered", float64(delivered), "kg"), units.Within(fn, "lost", lost, 0, 0.9, "")); err != nil {
		return units.Mass(math.NaN()), err
	}
	return delivered / units.Mass(1-lost), nil
}
