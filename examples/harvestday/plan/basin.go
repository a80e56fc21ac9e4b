package plan

import (
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/units"
)

// BasinWork is the catch basin while the animals crowd in it and while it is
// pumped and flushed.
type BasinWork struct {
	Quiet   drawdown.OxygenOutlook `json:"quiet"`   // at the quiet respiration, refill running
	Excited drawdown.OxygenOutlook `json:"excited"` // at the crowded one
	// QuietHold and ExcitedHold are the inflows that hold Input.Basin.Hold.
	QuietHold   units.Flow     `json:"quietHold"`
	ExcitedHold units.Flow     `json:"excitedHold"`
	LastWater   units.Volume   `json:"lastWater"` // below the basin-ready level, to be pumped
	Pumping     time.Duration  `json:"pumping"`   // of the last water at the duty
	Refill      time.Duration  `json:"refill"`    // one filling of the basin
	PumpOut     time.Duration  `json:"pumpOut"`   // one emptying
	Flushing    time.Duration  `json:"flushing"`  // all flushes
	Rate        units.MassFlow `json:"rate"`      // mean, product over the table while pumping the last water
	Solids      float64        `json:"solids"`    // product as a share of what is pumped, by mass
	Notices     []units.Notice `json:"notices,omitempty"`
}

// Work is the time from a ready basin to the last flush.
func (b BasinWork) Work() time.Duration { return b.Pumping + b.Flushing }

func (m *model) basin(crop units.Mass) (BasinWork, error) {
	in := m.in.Basin
	budget := drawdown.OxygenBudget{
		Volume: in.Volume, Stock: in.Crowded, Respiration: in.Respiration,
		Start: in.Oxygen, Limit: in.Floor, Inflow: in.Refill, InflowOxygen: in.Inflow,
		Temperature: m.in.Water.Temperature, Salinity: m.in.Water.Salinity, Pressure: m.air,
	}
	var b BasinWork
	for _, c := range []struct {
		rate units.MassSpecificRate
		out  *drawdown.OxygenOutlook
		hold *units.Flow
	}{{in.Respiration, &b.Quiet, &b.QuietHold}, {in.Excited, &b.Excited, &b.ExcitedHold}} {
		budget.Respiration, budget.Limit = c.rate, in.Floor
		var err error
		if *c.out, err = budget.Outlook(); err != nil {
			return b, units.AtField("basin", err)
		}
		budget.Limit = in.Hold
		h, err := budget.Outlook()
		if err != nil {
			return b, units.AtField("basin", err)
		}
		*c.hold = h.InflowToHold
	}
	b.LastWater = m.pond.Volume(m.in.Pond.BasinReady)
	q := m.in.Pump.Flow
	var err error
	if b.Pumping, err = b.LastWater.At(q); err != nil {
		return b, units.AtField("pump.flow", err)
	}
	if b.Refill, err = in.Volume.At(in.Refill); err != nil {
		return b, units.AtField("basin.refill", err)
	}
	if b.PumpOut, err = in.Volume.At(q); err != nil {
		return b, units.AtField("pump.flow", err)
	}
	b.Flushing = time.Duration(in.Flushes) * (b.Refill + b.PumpOut)
	b.Rate = crop.Per(b.Pumping)
	b.Solids = float64(crop) / float64(crop+b.LastWater.Mass(m.water.Density))
	b.Notices = append(append([]units.Notice(nil), b.Quiet.Notices...), b.Excited.Notices...)
	return b, nil
}
