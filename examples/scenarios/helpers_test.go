package scenarios_test

import (
	"math"
	"testing"
	"time"

	"pondwright.example/units"
)

// must ends the test on an error that a sound input cannot have.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// within checks that a figure lies in its band.
func within(t *testing.T, what string, got, lo, hi float64) {
	t.Helper()
	if !(got >= lo && got <= hi) {
		t.Errorf("%s: %.6g, outside %g to %g", what, got, lo, hi)
	}
}

// near checks a figure to a share of it.
func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	within(t, what, got, want-share*math.Abs(want), want+share*math.Abs(want))
}

// about checks a figure to 10 %, for those that came without a band.
func about(t *testing.T, what string, got, want float64) {
	t.Helper()
	near(t, what, got, want, 0.1)
}

// noticed checks that somebody is told.
func noticed(t *testing.T, list []units.Notice, code string) {
	t.Helper()
	for _, n := range list {
		if n.Code == code {
			return
		}
	}
	t.Errorf("no notice %s among %v", code, list)
}

// morning is when the water of every scenario here starts to run.
var morning = time.Date(2027, 9, 7, 6, 0, 0, 0, time.UTC)
