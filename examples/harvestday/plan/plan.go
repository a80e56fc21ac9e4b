// Package plan composes one harvest night from the packages of the library:
// the crop, the drawdown past the tide, the lift, the basin, the ice and the
// trucks, with the run of the night that follows from them. It computes no
// formula of its own and draws nothing.
//
// The result plans; it controls no machine and is no life-safety, electrical,
// lifting or food-safety authority. Local codes, makers' manuals and licensed
// people come first.
package plan

import (
	"time"

	"pondwright.example/units"
)

// Plan is the night with every intermediate a reviewer would ask for.
type Plan struct {
	Input    Input          `json:"input"` // as it was read
	Crop     Crop           `json:"crop"`
	Water    PondWater      `json:"water"`
	PreDrain Drain          `json:"preDrain"`
	Night    Drain          `json:"night"`
	Openings Openings       `json:"openings"`
	Odds     Odds           `json:"odds"` // of the planned opening
	Sky      Sky            `json:"sky"`
	Lift     Lift           `json:"lift"`
	Basin    BasinWork      `json:"basin"`
	Ice      Ice            `json:"ice"`
	Haul     HaulPlan       `json:"haul"`
	Tasks    []Task         `json:"tasks"`
	Notices  []units.Notice `json:"notices"`
	Assumed  []string       `json:"assumed"`
	Cautions []string       `json:"cautions"`
}

// PondWater is how much water stands in the pond at the levels of the work.
type PondWater struct {
	Area      units.Area   `json:"area"` // surface when full
	Full      units.Volume `json:"full"`
	Start     units.Volume `json:"start"`
	Ready     units.Volume `json:"ready"`
	LastFifth units.Length `json:"lastFifth"` // level at which a fifth of the full volume is left
}

// Zone is the farm's clock.
func (p Plan) Zone() *time.Location {
	z, err := ParseZone(p.Input.Place.Zone)
	if err != nil {
		return time.UTC
	}
	return z
}

// planDraws keeps the sampling error of a probability near one half to 1.1
// points and the plan to a fraction of a second; Likelihood draws more.
const planDraws = 2000

// Make plans the night. The error joins every problem of the input; a night
// that cannot be kept is no error but a plan with notices that say so.
func Make(in Input) (Plan, error) {
	m, err := build(in)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Input: in, Notices: m.notices}
	full := m.pond.Volume(in.Pond.Full)
	p.Water = PondWater{Area: m.pond.Area(in.Pond.Full), Full: full, Start: m.pond.Volume(in.Pond.Start),
		Ready: m.pond.Volume(in.Pond.BasinReady), LastFifth: m.pond.Stage(full / 5)}
	if p.Crop, err = estimateCrop(in, p.Water.Area); err != nil {
		return Plan{}, err
	}
	if p.Sky, err = m.sky(); err != nil {
		return Plan{}, err
	}
	if p.Lift, err = m.lift(); err != nil {
		return Plan{}, err
	}
	if p.Basin, err = m.basin(p.Crop.Estimate.P50); err != nil {
		return Plan{}, err
	}
	if p.PreDrain, err = m.drain(asGiven, in.Night.PreDrain, in.Pond.Full, in.Pond.Start); err != nil {
		return Plan{}, err
	}
	if p.Night, err = m.drain(asGiven, in.Night.Opening, in.Pond.Start, in.Pond.BasinReady); err != nil {
		return Plan{}, err
	}
	if p.Openings, err = m.openings(p.Sky, p.Basin.Work()); err != nil {
		return Plan{}, err
	}
	odds, err := m.likelihood([]time.Time{in.Night.Opening}, OddsOptions{Draws: planDraws})
	if err != nil {
		return Plan{}, err
	}
	p.Odds = odds[0]
	if p.Ice, err = m.ice(p.Crop.Estimate); err != nil {
		return Plan{}, err
	}
	if p.Haul, err = m.haul(p.Crop, p.Ice, p.Night.Ready, p.Basin.Work()); err != nil {
		return Plan{}, err
	}
	p.Tasks = p.tasks()
	p.gather()
	return p, nil
}
