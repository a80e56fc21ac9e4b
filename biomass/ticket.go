package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Ticket is one weighing of a bin or truck.
type Ticket struct {
	Gross units.Mass `json:"gross"`
	Tare  units.Mass `json:"tare"`
	// Ice that lies in the bin at weighing, to be deducted; zero for none.
	Ice units.Mass `json:"ice"`
	// WaterFraction is the part of Gross − Tare − Ice that is water and not
	// product, from 0 up to but below 1, from a weigh-and-drain test. Zero when the
	// product was drained first: the water is deducted once.
	WaterFraction float64 `json:"waterFraction"`
	// WaterSD is its standard uncertainty, in the same fraction.
	WaterSD float64 `json:"waterSD"`
	// Division is the scale interval: each of the readings Gross, Tare and Ice may
	// be off by half of it.
	Division units.Mass `json:"division"`
}

// NetWeight is the product on a ticket with its standard uncertainty.
type NetWeight struct {
	Net   units.Mass `json:"net"`
	Water units.Mass `json:"water"` // deducted
	SE    units.Mass `json:"se"`
}

// Validate reports every field that cannot be.
func (t Ticket) Validate() error {
	const fn = "biomass.Ticket"
	var water, tare error
	if !(t.WaterFraction >= 0 && t.WaterFraction < 1) {
		water = &units.InputError{Func: fn, Field: "waterFraction", Value: t.WaterFraction, Min: 0, Max: 1,
			Reason: "a fraction from 0 up to but below 1; 8 % is 0.08"}
	}
	if t.Gross < t.Tare+t.Ice {
		tare = &units.InputError{Func: fn, Field: "tare", Value: (t.Tare + t.Ice).Kilograms(), Unit: "kg", Min: 0, Max: t.Gross.Kilograms(),
			Reason: "tare and ice together weigh more than gross: check whether they were exchanged"}
	}
	return errors.Join(
		units.Positive(fn, "gross", t.Gross.Kilograms(), "kg"),
		units.NonNegative(fn, "tare", t.Tare.Kilograms(), "kg"),
		units.NonNegative(fn, "ice", t.Ice.Kilograms(), "kg"),
		water,
		units.NonNegative(fn, "waterSD", t.WaterSD, ""),
		units.NonNegative(fn, "division", t.Division.Kilograms(), "kg"),
		tare,
	)
}

// Net returns the product weight.
//
//	net = (gross − tare − ice)(1 − w)
//	u² = r (1 − w)² d²/12 + (gross − tare − ice)² u_w²
//
// with r the number of readings that are not zero and d the scale interval, whose
// rounding error is uniform.
//
// Errors: ErrDomain for a ticket that cannot be.
//
// Source: by definition; uncertainty: JCGM 100:2008 eq. 10 and sec. 4.3.7 (from
// memory).
func (t Ticket) Net() (NetWeight, error) {
	if err := t.Validate(); err != nil {
		return NetWeight{}, err
	}
	load := (t.Gross - t.Tare - t.Ice).Kilograms()
	net := load * (1 - t.WaterFraction)
	reading := (1 - t.WaterFraction) * math.Sqrt(t.readings()/12) * t.Division.Kilograms()
	se := math.Hypot(reading, load*t.WaterSD)
	if err := soundAll("biomass.Ticket.Net", net, load-net, se); err != nil {
		return NetWeight{}, err
	}
	return NetWeight{Net: units.Kilograms.Of(net), Water: units.Kilograms.Of(load - net), SE: units.Kilograms.Of(se)}, nil
}

func (t Ticket) readings() float64 {
	n := 1.0
	if t.Tare > 0 {
		n++
	}
	if t.Ice > 0 {
		n++
	}
	return n
}

// Scale is the total of one side's tickets.
type Scale struct {
	Name    string   `json:"name"`
	Tickets []Ticket `json:"tickets"`
	// CalibrationCV is the relative standard uncertainty that all tickets of the
	// scale have in common.
	CalibrationCV float64 `json:"calibrationCV"`
	// WaterInCommon tells that one weigh-and-drain test stands behind the water
	// fraction of every ticket, so that its error does not average out.
	WaterInCommon bool `json:"waterInCommon"`
}

// Total returns the sum of the tickets. Rounding errors add in quadrature; the
// calibration, and the water when it is in common, add in full.
//
// Errors: ErrDomain for no tickets, a ticket that cannot be or a negative
// calibration error.
//
// Source: JCGM 100:2008 eq. 13 and 16 (from memory).
func (s Scale) Total() (NetWeight, error) {
	const fn = "biomass.Scale"
	all := []error{units.NonNegative(fn, "calibrationCV", s.CalibrationCV, "")}
	if len(s.Tickets) == 0 {
		all = append(all, &units.InputError{Func: fn, Field: "tickets", Value: 0, Reason: "at least one is needed"})
	}
	var net, water, reading, waterOne, waterAll float64
	for i, t := range s.Tickets {
		n, err := t.Net()
		if err != nil {
			all = append(all, units.AtField(indexed("tickets", i), err))
			continue
		}
		net += n.Net.Kilograms()
		water += n.Water.Kilograms()
		r := (1 - t.WaterFraction) * t.Division.Kilograms()
		reading += t.readings() / 12 * r * r
		w := (t.Gross - t.Tare - t.Ice).Kilograms() * t.WaterSD
		waterOne += w * w
		waterAll += w
	}
	if err := errors.Join(all...); err != nil {
		return NetWeight{}, err
	}
	if s.WaterInCommon {
		waterOne = waterAll * waterAll
	}
	calibration := net * s.CalibrationCV
	se := math.Sqrt(reading + waterOne + calibration*calibration)
	if err := soundAll(fn, net, water, se); err != nil {
		return NetWeight{}, err
	}
	return NetWeight{Net: units.Kilograms.Of(net), Water: units.Kilograms.Of(water), SE: units.Kilograms.Of(se)}, nil
}
