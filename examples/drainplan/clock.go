package drainplan

import (
	"fmt"
	"time"
)

// ClockAfter is the first time after from at which the farm's clock reads hhmm,
// such as 03:00.
func ClockAfter(hhmm string, from time.Time) (time.Time, error) {
	c, err := time.Parse("15:04", hhmm)
	if err != nil {
		return time.Time{}, fmt.Errorf("%q is not a time of the 24-hour clock such as 03:00", hhmm)
	}
	y, m, d := from.Date()
	t := time.Date(y, m, d, c.Hour(), c.Minute(), 0, 0, from.Location())
	if t.Before(from) {
		t = time.Date(y, m, d+1, c.Hour(), c.Minute(), 0, 0, from.Location())
	}
	return t, nil
}

// At gives t to the minute on the clock of its zone, or a dash when there is no
// such time.
func At(t time.Time) string {
	if t.IsZero() {
		return "-"
	}
	return t.Round(time.Minute).Format("Mon 15:04")
}
