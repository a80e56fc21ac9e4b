package icing

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Trip is a container, or many alike, to be kept in ice over a time.
type Trip struct {
	Free        units.Mass               `json:"free"` // ice beyond the share that chills, at the start
	Conductance units.ThermalConductance `json:"conductance"`
	Ambient     units.Temperature        `json:"ambient"`
	Sun         units.TempDelta          `json:"sun"`
	Latent      units.SpecificEnergy     `json:"latent"`   // zero means DefaultLatentHeat
	Duration    time.Duration            `json:"duration"` // to the door
	Reserve     float64                  `json:"reserve"`  // share of Free at which to re-ice; zero means 0.2 (common practice)
	Room        units.Mass               `json:"room"`     // most free ice the container takes; zero means Free
}

// ReIce is one stop for ice.
type ReIce struct {
	After time.Duration `json:"after"`
	Add   units.Mass    `json:"add"`
}

// ReIcePlan is when and how much.
type ReIcePlan struct {
	Stops []ReIce    `json:"stops"`
	Left  units.Mass `json:"left"`  // free ice at the door
	Added units.Mass `json:"added"` // in all stops
}

// Plan returns the stops at which to fill the container up again: whenever the
// free ice is down to the reserve, until what is in it lasts to the door above
// the reserve. The last stop takes no more than that needs.
//
// Validity: as [MeltRate]; free ice above zero, reserve 0 to 0.9; at most 1000
// stops; errors are ErrDomain.
//
// Source: FAO Fisheries Technical Paper 436 (2003), ch. 7, eq. 1.
func (t Trip) Plan() (ReIcePlan, error) {
	const fn = "icing.Trip"
	drive, latent, err := meltInput(fn, t.Conductance, t.Ambient, t.Sun, t.Latent)
	reserve := t.Reserve
	if reserve == 0 {
		reserve = 0.2
	}
	room := t.Room
	if room == 0 {
		room = t.Free
	}
	err = errors.Join(err, bounds.Positive(fn, "free", float64(t.Free), "kg"), bounds.Amount(fn, "duration", t.Duration.Hours(), "h"),
		units.Within(fn, "reserve", reserve, 0, 0.9, ""), units.Within(fn, "room", float64(room), float64(t.Free), bounds.Largest, "kg"))
	if err != nil {
		return ReIcePlan{}, err
	}
	rate := float64(t.Conductance) * drive / latent
	low := reserve * float64(t.Free)
	total := t.Duration.Seconds()
	if n := rate * total / (float64(room) - low); n > 1000 {
		return ReIcePlan{}, units.Within(fn, "duration", n, 0, 1000, "stops for ice")
	}
	var p ReIcePlan
	now, ice := 0.0, float64(t.Free)
	for ice-rate*(total-now) < low {
		now += (ice - low) / rate
		ice = low
		add := min(float64(room)-low, rate*(total-now))
		if add <= 0 {
			break // the reserve is reached at the door itself
		}
		p.Stops = append(p.Stops, ReIce{After: seconds(now), Add: units.Mass(add)})
		p.Added += units.Mass(add)
		ice += add
	}
	p.Left = units.Mass(ice - rate*(total-now))
	return p, nil
}

// SunExcess returns the temperature difference to add to the air for a wall in
// the sun:
//
//	ΔT = α·I/h_o
//
// with the absorptance α of the surface (white 0.2 to 0.3, dark 0.9; from
// memory), the irradiance I on it (to 1000 W/m2) and the outside film.
//
// Validity: α 0 to 1, I 0 to 1400 W/m2, film 2 to 100 W/(m2 K); ErrDomain with
// NaN. Source: sol-air temperature, ASHRAE Handbook Fundamentals, without its
// long-wave term.
func SunExcess(absorptance float64, irradiance units.HeatFlux, film units.HeatTransferCoefficient) (units.TempDelta, error) {
	const fn = "icing.SunExcess"
	err := errors.Join(units.Within(fn, "absorptance", absorptance, 0, 1, ""), units.Within(fn, "irradiance", float64(irradiance), 0, 1400, "W/m2"),
		units.Within(fn, "film", float64(film), 2, 100, "W/(m2 K)"))
	if err != nil {
		return units.TempDelta(math.NaN()), err
	}
	return units.TempDelta(absorptance * float64(irradiance) / float64(film)), nil
}

// MidWallArea returns the area to use with the U of a thick wall: the geometric
// mean of its inside and outside area.
//
// Validity: both above zero, inside not above outside; ErrDomain with NaN.
// Source: common practice; exact for a spherical shell.
func MidWallArea(inside, outside units.Area) (units.Area, error) {
	const fn = "icing.MidWallArea"
	if err := errors.Join(bounds.Positive(fn, "inside", float64(inside), "m2"), units.Within(fn, "outside", float64(outside), float64(inside), bounds.Largest, "m2")); err != nil {
		return units.Area(math.NaN()), err
	}
	return units.Area(math.Sqrt(float64(inside) * float64(outside))), nil
}
