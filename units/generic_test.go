package units

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestSum(t *testing.T) {
	if got := Sum[Mass](); got != 0 {
		t.Errorf("the sum of nothing is %v", got)
	}
	if got := Sum(1*Kilogram, 2*Kilogram, -0.5*Kilogram); got != 2.5*Kilogram {
		t.Errorf("%v", got)
	}
	// A plain loop gives 0 and 0.9999999999999999.
	if got := Sum[Mass](1e100, 1, -1e100); got != 1 {
		t.Errorf("%v, want 1", got)
	}
	tenths := make([]Mass, 10)
	for i := range tenths {
		tenths[i] = 0.1
	}
	if got := Sum(tenths...); got != 1 {
		t.Errorf("%v, want 1", got)
	}
	if got := Sum(Mass(math.Inf(1)), 1); !math.IsInf(float64(got), 1) {
		t.Errorf("%v, want +Inf", got)
	}
}

func TestMean(t *testing.T) {
	if got, err := Mean(1*Foot, 2*Foot, 6*Foot); err != nil || math.Abs(float64(got-3*Foot)) > 1e-15 {
		t.Errorf("%v, %v", got, err)
	}
	if got, err := Mean[Length](); !errors.Is(err, ErrDomain) || !math.IsNaN(float64(got)) {
		t.Errorf("the mean of nothing is %v, %v", got, err)
	}
}

func TestInterp(t *testing.T) {
	stage := []Length{0, 1 * Metre, 2 * Metre}
	area := []Area{0, 1 * Hectare, 4 * Hectare}
	for _, c := range []struct {
		x    Length
		want Area
	}{
		{0, 0}, {0.5 * Metre, 0.5 * Hectare}, {1 * Metre, 1 * Hectare}, {1.5 * Metre, 2.5 * Hectare}, {2 * Metre, 4 * Hectare},
	} {
		if got, err := Interp(c.x, stage, area); err != nil || got != c.want {
			t.Errorf("area at %v is %v, %v, want %v", c.x, got, err, c.want)
		}
	}
	if got, err := Interp(3*Metre, stage, area); !errors.Is(err, ErrRange) || got != 4*Hectare {
		t.Errorf("above the table: %v, %v", got, err)
	}
	if got, err := Interp(-1*Metre, stage, area); !errors.Is(err, ErrRange) || got != 0 {
		t.Errorf("below the table: %v, %v", got, err)
	}
	if got, err := Interp(1*Metre, stage[1:2], area[1:2]); err != nil || got != 1*Hectare {
		t.Errorf("a table of one point: %v, %v", got, err)
	}
	nan := math.NaN()
	for _, c := range []struct {
		x      Length
		xs     []Length
		ys     []Area
		reason string
	}{
		{Length(nan), stage, area, "x = NaN m"},
		{1, nil, nil, "0 points"},
		{1, stage, area[:2], "3 points"},
		{1, []Length{0, 0, 1}, area, "xs[1]"},
		{1, []Length{0, 2, 1}, area, "xs[2]"},
		{1, []Length{0, Length(nan), 1}, area, "xs[1]"},
		{1, stage, []Area{0, Area(nan), 1}, "ys[1]"},
	} {
		got, err := Interp(c.x, c.xs, c.ys)
		if !errors.Is(err, ErrDomain) || !math.IsNaN(float64(got)) || !strings.Contains(err.Error(), c.reason) {
			t.Errorf("%v in %v, %v: %v, %v, want an error with %q", c.x, c.xs, c.ys, got, err, c.reason)
		}
	}
}

// largest is code over any type, as an importer would write it.
func largest[Q Quantity](xs []Q) Q {
	m := xs[0]
	for _, x := range xs[1:] {
		m = max(m, x)
	}
	return m
}

func TestQuantityConstraint(t *testing.T) {
	if got := largest([]Length{1, 3, 2}); got != 3 {
		t.Errorf("%v", got)
	}
}
