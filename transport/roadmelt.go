package transport

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// LatentHeat is the latent heat of ice used when none is given. Source: ASHRAE
// Handbook Refrigeration (2006), ch. 9; IAPWS R10-06 has 333.43 kJ/kg.
const LatentHeat units.SpecificEnergy = 333.6e3

// Road is the heat that a load of iced containers meets on the way.
type Road struct {
	Containers  int                      `json:"containers"`
	Conductance units.ThermalConductance `json:"conductance"` // U·A of one container
	Ambient     units.Temperature        `json:"ambient"`
	Sun         units.TempDelta          `json:"sun"`    // excess of sunlit walls, 0 to 40 K
	Haul        time.Duration            `json:"haul"`   // closing of the last container to the plant's gate
	Wait        time.Duration            `json:"wait"`   // queue, or any delay
	Latent      units.SpecificEnergy     `json:"latent"` // zero means LatentHeat
}

// RoadMelt is the answer, for all containers together.
type RoadMelt struct {
	Melted  units.Mass     `json:"melted"`
	Rate    units.MassFlow `json:"rate"`
	Left    units.Mass     `json:"left"`  // of the ice at departure; zero when it ran out
	Bare    time.Duration  `json:"bare"`  // time without ice at the end; zero when some is left
	Lasts   time.Duration  `json:"lasts"` // until the ice is gone; zero when it never melts
	Notices []units.Notice `json:"notices"`
}

// longHaul is where a single charge of ice, or a tank, is no longer the model.
const longHaul = 72 * time.Hour

// Melt returns the ice that melts in the containers between closing and the
// plant, out of ice at departure:
//
//	m = n·UA·(T_a + ΔT_sun)·t/L
//
// and nothing in frost. A haul of zero is answered; beyond 72 h a notice says
// that the model has left its ground.
//
// Validity: as the fields say, ambient -40 to 60 °C, latent 250 to 340 kJ/kg;
// errors are ErrDomain.
//
// Source: FAO Fisheries Technical Paper 436 (2003), ch. 7, eq. 1.
func (r Road) Melt(ice units.Mass) (RoadMelt, error) {
	const fn = "transport.Road"
	latent := r.Latent
	if latent == 0 {
		latent = LatentHeat
	}
	amb := r.Ambient.Celsius()
	err := errors.Join(
		bounds.Amount(fn, "containers", float64(r.Containers), ""),
		bounds.Amount(fn, "conductance", float64(r.Conductance), "W/K"),
		units.Within(fn, "ambient", amb, -40, 60, "°C"),
		units.Within(fn, "sun", float64(r.Sun), 0, 40, "K"),
		bounds.Amount(fn, "haul", r.Haul.Hours(), "h"),
		bounds.Amount(fn, "wait", r.Wait.Hours(), "h"),
		units.Within(fn, "latent", float64(latent)/1e3, 250, 340, "kJ/kg"),
		bounds.Amount(fn, "ice", float64(ice), "kg"))
	if err != nil {
		return RoadMelt{}, err
	}
	t := (r.Haul + r.Wait).Seconds()
	rate := float64(r.Containers) * float64(r.Conductance) * max(0, amb+float64(r.Sun)) / float64(latent)
	m := RoadMelt{Rate: units.MassFlow(rate), Melted: units.Mass(min(rate*t, float64(ice)))}
	m.Left = ice - m.Melted
	if rate > 0 {
		if last := float64(ice) / rate; last < 100*365*86400 {
			m.Lasts = seconds(last)
			m.Bare = max(0, r.Haul+r.Wait-m.Lasts)
		}
	}
	if m.Bare > 0 {
		m.Notices = append(m.Notices, units.Notice{Code: CodeIceGone, Severity: units.Warning, Field: "ice",
			Value: float64(ice), Limit: rate * t, Unit: "kg",
			Message: fmt.Sprintf("the ice is gone %.1f h before the door: re-ice, insulate or leave earlier", m.Bare.Hours())})
	}
	if r.Haul+r.Wait > longHaul {
		m.Notices = append(m.Notices, hoursNotice("Haul", r.Haul+r.Wait))
	}
	return m, nil
}

func hoursNotice(field string, d time.Duration) units.Notice {
	return units.Notice{Code: CodeHoursLong, Severity: units.Warning, Field: field, Value: d.Hours(), Limit: longHaul.Hours(), Unit: "h",
		Message: "longer than three days: stops, re-icing or water changes decide, and this model does not hold them",
		Source:  "common practice, no source"}
}

// ReeferLoad returns the heat in W that comes through the walls of a cooled
// body, K·S·ΔT, with K the body's overall coefficient and S the mean of its
// inside and outside area. A cold outside gives a negative load. ATP classes
// bodies at K <= 0.40 (heavily insulated) and 0.70 W/(m2 K) (normally
// insulated); K ages by 2 to 5 % a year (from memory).
//
// Validity: K 0.05 to 15 W/(m2 K), S above zero to 500 m2, temperatures -60 to
// 60 °C; errors are ErrDomain with NaN.
//
// Source: ATP agreement, annex 1, para. 1, on the K coefficient, as printed in the
// Gazzetta Ufficiale no. 160 of 11 July 1995.
func ReeferLoad(k units.HeatTransferCoefficient, s units.Area, outside, inside units.Temperature) (units.Power, error) {
	const fn = "transport.ReeferLoad"
	o, i := outside.Celsius(), inside.Celsius()
	err := errors.Join(
		units.Within(fn, "k", float64(k), 0.05, 15, "W/(m2 K)"),
		units.Within(fn, "s", float64(s), bounds.Least, 500, "m2"),
		units.Within(fn, "outside", o, -60, 60, "°C"),
		units.Within(fn, "inside", i, -60, 60, "°C"))
	if err != nil {
		return units.Power(math.NaN()), err
	}
	return units.Power(float64(k) * float64(s) * (o - i)), nil
}

// ReeferUnit returns the refrigeration that a body of the given wall load is to
// carry: 1.75 times the load. It holds a temperature; product must be chilled
// before it is loaded, since a reefer takes days to pull heat out of a stack.
//
// Validity: load not negative; ErrDomain with NaN. Source: ATP agreement, annex
// 1, appendix 2 (from memory).
func ReeferUnit(load units.Power) (units.Power, error) {
	if err := bounds.Amount("transport.ReeferUnit", "load", float64(load), "W"); err != nil {
		return units.Power(math.NaN()), err
	}
	return 1.75 * load, nil
}

// seconds turns seconds, known to fit, into a Duration.
func seconds(s float64) time.Duration { return time.Duration(math.Round(s * float64(time.Second))) }
