package transport

import (
	"errors"

	"pondwright.example/units"
)

// MostLoad is the answer of [Haul.MostProduct].
type MostLoad struct {
	Product units.Mass `json:"product"`
	Binds   string     `json:"binds"` // the limit that a little more would pass within the haul; "tank" when the tank is full first
	Loaded  Loaded     `json:"loaded"`
}

// mostPrecision is the share of the tank to which the load is found.
const mostPrecision = 1e-4

// MostProduct returns the largest mass of animals that stays within every limit
// set for the whole haul, all else as given: the oxygen flow, the stripping and
// the starting water are not changed with the load. The haul's own Product is
// ignored. More animals pass every limit sooner, so the load is found by halving
// the interval, to 0.01 % of the tank.
//
// Errors are those of [Haul.Plan]; no limit set is ErrDomain, and a limit that is
// passed at loading, or by the water alone, ErrNoSolution.
//
// Source: as [Haul.Plan], inverted.
func (h Haul) MostProduct() (MostLoad, error) {
	const fn = "transport.Haul.MostProduct"
	if h.Limits == (HaulLimits{Source: h.Limits.Source}) {
		return MostLoad{}, &units.InputError{Func: fn, Field: "limits", Value: 0, Reason: "set at least one limit to load by"}
	}
	rho, err := fishDensity(fn, h.FishDensity)
	if err != nil {
		return MostLoad{}, err
	}
	if err := h.Tank.Validate(); err != nil {
		return MostLoad{}, units.AtField("tank", err)
	}
	full := h.Tank.room() * rho
	step := mostPrecision * full
	binds, err := h.passes(step)
	if err != nil {
		return MostLoad{}, err
	}
	if binds != "" {
		return MostLoad{}, &units.InputError{Func: fn, Field: "limits", Value: step, Unit: "kg", Reason: "the limit on " + binds + " is passed by hardly any animals at all: look at the water and the air",
			Kind: units.ErrNoSolution}
	}
	low, high, last := step, full-step, "tank"
	if binds, err = h.passes(high); err != nil {
		return MostLoad{}, err
	}
	if binds != "" {
		last = binds
		for high-low > step {
			mid := (low + high) / 2
			if binds, err = h.passes(mid); err != nil {
				return MostLoad{}, err
			}
			if binds == "" {
				low = mid
			} else {
				high, last = mid, binds
			}
		}
	} else {
		low = high
	}
	loaded, err := h.Tank.Load(units.Mass(low), h.FishDensity)
	return MostLoad{Product: units.Mass(low), Binds: last, Loaded: loaded}, err
}

// passes returns the limit that a load passes first within the haul, or "".
func (h Haul) passes(product float64) (string, error) {
	h.Product = units.Mass(product)
	m, err := h.model()
	if err != nil {
		return "", err
	}
	var p HaulPlan
	err = m.limits(&p, h.Duration)
	if errors.Is(err, units.ErrNoConvergence) {
		return "oxygen", nil // so crowded that the water changes faster than the integrator steps
	}
	return p.Binds, err
}
