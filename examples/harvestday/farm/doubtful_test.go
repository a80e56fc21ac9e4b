package farm_test

import (
	"errors"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"pondwright.example/examples/harvestday/farm"
	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/units"
)

// Some slips are possible values: the plan is made and says what looks odd.
func TestDoubtfulValuesAreTold(t *testing.T) {
	if testing.Short() {
		t.Skip("ten whole nights")
	}
	zero := regexp.MustCompile(`(?m)^(\d+);\d+;`)
	for _, e := range []struct {
		name  string
		spoil func(fstest.MapFS)
		code  string
		says  string
	}{
		{"power without its basis", func(f fstest.MapFS) { swap(t, f, "harvest.json", `"PTO power"`, `"not stated"`) }, "PUMP_ENGINE_POWER", "engine"},
		{"PTO speed given for the engine's", func(f fstest.MapFS) { swap(t, f, "harvest.json", `"2000 rpm"`, `"540 rpm"`) }, "PUMP_PTO_SPEED", "540"},
		{"motor in cubic inches", func(f fstest.MapFS) { swap(t, f, "harvest.json", `"80 cm3/rev"`, `"4.9 cm3/rev"`) }, "PUMP_DISPLACEMENT_UNIT", "in"},
		{"survival of a percentage", func(f fstest.MapFS) { swap(t, f, "harvest.json", `"survival": 0.80`, `"survival": 0.04`) }, "BIO_SURVIVAL_UNUSUAL", ""},
		{"every cast empty", func(f fstest.MapFS) {
			f["casts.csv"] = &fstest.MapFile{Data: zero.ReplaceAll(f["casts.csv"].Data, []byte("$1;0;"))}
		}, "BIO_NOTHING_CAUGHT", ""},
		{"one cast", func(f fstest.MapFS) {
			f["casts.csv"] = &fstest.MapFile{Data: []byte("station,count,net area (m2)\n1,97,3.1\n")}
		}, "BIO_SINGLE_OBSERVATION", ""},
		{"shrimp of kilograms", func(f fstest.MapFS) { swap(t, f, "weights.csv", "weight (g)", "weight (kg)") }, "BIO_WEIGHT_OUTSIDE_SPECIES_RANGE", ""},
		{"a rising pump curve", func(f fstest.MapFS) { swap(t, f, "pump.csv", "0,9.0,600\n100,8.2,600\n", "0,6.5,600\n100,7.4,600\n") }, "PUMP_CURVE_RISING", ""},
		{"clocks an hour apart", func(f fstest.MapFS) {
			swap(t, f, "harvest.json", `"invert": "0.60 m",
    "zone": "+07:00"`, `"invert": "0.60 m",
    "zone": "+06:00"`)
		}, "DRAW_CLOCK_OFFSET_ONE_HOUR", "hour"},
		{"a haul of days", func(f fstest.MapFS) { swap(t, f, "harvest.json", `"6 h"`, `"100 h"`) }, "ICE_HOLD_LONG", "three days"},
	} {
		f := heron(t)
		e.spoil(f)
		in, _, err := farm.Read(f)
		if err != nil {
			t.Errorf("%s: refused: %v", e.name, err)
			continue
		}
		p, err := plan.Make(in)
		if err != nil {
			t.Errorf("%s: no plan: %v", e.name, err)
			continue
		}
		found := false
		for _, n := range p.Notices {
			found = found || n.Code == e.code && strings.Contains(n.Message, e.says)
		}
		if !found {
			t.Errorf("%s: no notice %s with %q among %v", e.name, e.code, e.says, p.Notices)
		}
	}
}

// A lift above what the pump can do is refused with the speed that would do.
func TestLiftOutOfReach(t *testing.T) {
	f := heron(t)
	swap(t, f, "harvest.json", `"lift": "3.6 m"`, `"lift": "36 m"`)
	in, _, err := farm.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(in)
	if err != nil {
		var bad *units.InputError
		if !errors.As(err, &bad) {
			t.Errorf("%v does not name its input", err)
		}
		return
	}
	if n := p.Lift.Minimum.Start.In(units.RevolutionsPerMinute); !(n > 600) {
		t.Errorf("least speed for 36 m: %g r/min", n)
	}
	if len(p.Lift.Duty.Notices) == 0 {
		t.Error("a lift of four times the pump's head passes without a word")
	}
}

func TestMixedSigns(t *testing.T) {
	f := heron(t)
	// Two of the five lines along the pond were written as depths.
	line := regexp.MustCompile(`(?m)^(\d+,[\d.]+,(?:12\.5|37\.5),)([01]\.)`)
	f["survey.csv"] = &fstest.MapFile{Data: line.ReplaceAll(f["survey.csv"].Data, []byte("$1-$2"))}
	one(t, "depths among elevations", f, []string{"pond.survey", "down", "up"})
}
