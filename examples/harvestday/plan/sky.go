package plan

import (
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/units"
)

// Sky is the light of the night: of the evening it starts in and of the morning
// it ends in.
type Sky struct {
	Evening drawdown.Sky `json:"evening"`
	Morning drawdown.Sky `json:"morning"`
}

// sky computes the light on the days of the opening and of the asked hour.
func (m *model) sky() (Sky, error) {
	place := drawdown.Place{Latitude: m.in.Place.Latitude, Longitude: m.in.Place.Longitude}
	var s Sky
	for _, d := range []struct {
		day time.Time
		out *drawdown.Sky
	}{{m.in.Night.Opening, &s.Evening}, {m.in.Night.ReadyBy, &s.Morning}} {
		var err error
		if *d.out, err = drawdown.SkyAt(place, d.day.In(m.zone)); err != nil {
			return s, units.AtField("place", err)
		}
	}
	return s, nil
}
