package drawdown

import (
	"time"

	"pondwright.example/units"
)

// Night is the dark between two days at a place, with the moon in it: what a
// harvest that must be over by first light has to work with. Zero times mean
// that the event does not happen.
type Night struct {
	Sunset     time.Time `json:"sunset,omitzero"`
	LastLight  time.Time `json:"lastLight,omitzero"`
	FirstLight time.Time `json:"firstLight,omitzero"` // on the following day
	Sunrise    time.Time `json:"sunrise,omitzero"`

	Dark     time.Duration `json:"dark"`     // from last light to first light
	Moonlit  time.Duration `json:"moonlit"`  // of which the moon is up
	Midnight Moon          `json:"midnight"` // the moon in the middle of the dark

	Notices []units.Notice `json:"notices,omitempty"`
}

// NightAfter returns the night that follows the calendar day that evening falls
// on in its own zone. Validity, errors and notices are those of [SkyAt].
//
// Source: as for [SkyAt].
func NightAfter(place Place, evening time.Time) (Night, error) {
	first, err := SkyAt(place, evening)
	if err != nil {
		return Night{}, err
	}
	y, mo, d := evening.Date()
	second, err := SkyAt(place, time.Date(y, mo, d+1, 12, 0, 0, 0, evening.Location()))
	if err != nil {
		return Night{}, err
	}
	n := Night{Sunset: first.Sunset, LastLight: first.LastLight, FirstLight: second.FirstLight, Sunrise: second.Sunrise, Notices: first.Notices}
	if n.LastLight.IsZero() || n.FirstLight.IsZero() {
		n.Midnight = MoonAt(time.Date(y, mo, d+1, 0, 0, 0, 0, evening.Location()))
		return n, nil
	}
	n.Dark = n.FirstLight.Sub(n.LastLight)
	n.Midnight = MoonAt(n.LastLight.Add(n.Dark / 2))
	n.Moonlit = moonlit(place, n.LastLight, n.FirstLight)
	return n, nil
}

// moonlit returns how long the moon is up between two moments less than two
// days apart.
func moonlit(place Place, from, to time.Time) time.Duration {
	w := watch{lat: place.Latitude.In(units.Degrees), lon: place.Longitude.In(units.Degrees),
		from: julianDay(from), to: julianDay(to), zone: from.Location()}
	k := w.moonTrack()
	rise, set := w.crossings(&k, 0, 20)
	up := k.altitude(w.from, w.lat, w.lon) >= 0
	switch {
	case rise.IsZero() && set.IsZero():
		if up {
			return to.Sub(from)
		}
		return 0
	case rise.IsZero():
		return set.Sub(from)
	case set.IsZero():
		return to.Sub(rise)
	case rise.Before(set):
		return set.Sub(rise)
	default: // up at both ends
		return set.Sub(from) + to.Sub(rise)
	}
}
