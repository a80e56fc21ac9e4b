package drawdown

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// station reads the published constants of testdata/station.csv (NOAA CO-OPS,
// station 1612340 Honolulu) as a tide about a moment.
func station(t *testing.T, about time.Time, z0 float64) *HarmonicTide {
	t.Helper()
	f, err := os.Open("testdata/station.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	tide := &HarmonicTide{Mean: units.Length(z0), Reference: about, Datum: "MLLW", ZeroAbovePond: level(0)}
	for _, r := range rows[1:] {
		a, err1 := strconv.ParseFloat(r[1], 64)
		g, err2 := strconv.ParseFloat(r[2], 64)
		c, err3 := NewConstituent(r[0], units.Length(a), units.Angle(g)*units.Degree, about)
		if err := errors.Join(err1, err2, err3); err != nil {
			t.Fatal(err)
		}
		tide.Constituents = append(tide.Constituents, c)
	}
	return tide
}

func TestEquilibriumAgainstPublishedPredictions(t *testing.T) {
	check.Run(t, "testdata/equilibrium.csv", map[string]func(check.Row) (float64, error){
		"HarmonicTide.Level": func(r check.Row) (float64, error) {
			r.Text("quantity")
			at, err := time.Parse("2006-01-02 15:04", r.Text("time_utc"))
			// The constants are worked out for the middle of the month before.
			tide := station(t, time.Date(2023, 8, 15, 0, 0, 0, 0, time.UTC), r.Float("z0_m"))
			if err := tide.Validate(); err != nil {
				return math.NaN(), err
			}
			return float64(tide.Level(at)), err
		},
		"NewConstituent": func(r check.Row) (float64, error) {
			at, err := time.Parse("2006-01-02 15:04", r.Text("time_utc"))
			if err != nil {
				return math.NaN(), err
			}
			c, err := NewConstituent(r.Text("constituent"), 1, 0, at)
			switch r.Text("quantity") {
			case "speed":
				return c.DegreesPerHour, err
			case "factor":
				return c.NodalFactor, err
			}
			return c.NodalCorrection.In(units.Degrees), err
		},
	})
}

// A reference moved by a year moves the node but hardly the tide.
func TestReferenceMayMove(t *testing.T) {
	at := time.Date(2023, 8, 30, 2, 0, 0, 0, time.UTC)
	a := station(t, at, 0.25)
	for _, months := range []int{-2, 2} {
		b := station(t, at.AddDate(0, months, 0), 0.25)
		if d := math.Abs(float64(a.Level(at) - b.Level(at))); d > 0.006 {
			t.Errorf("%d months: %v m", months, d)
		}
	}
	if _, err := NewConstituent("M99", 1, 0, at); !errors.Is(err, units.ErrDomain) {
		t.Errorf("%v", err)
	}
	if _, err := NewConstituent("M2", -1, 0, at); !errors.Is(err, units.ErrDomain) {
		t.Errorf("%v", err)
	}
	if _, err := NewConstituent("M2", 1, 0, time.Time{}); !errors.Is(err, units.ErrDomain) {
		t.Errorf("%v", err)
	}
}
