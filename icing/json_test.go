package icing

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"pondwright.example/units"
)

// Inputs and results go to JSON with their units and come back the same.
func TestJSONRoundTrip(t *testing.T) {
	plan, err := good().Plan(Crop{4030, 4614, 5198}, 400)
	if err != nil {
		t.Fatal(err)
	}
	e, _ := NewExposure(FDARawReadyToEat(), ExposureOptions{})
	at := time.Date(2026, 6, 3, 2, 0, 0, 0, time.UTC)
	for i, c := range []float64{28, 12, 3} {
		if err := e.Add(Reading{At: at.Add(time.Duration(i) * time.Minute), Temperature: units.Celsius(c)}); err != nil {
			t.Fatal(err)
		}
	}
	state, err := Inventory{OnHand: 900, Remaining: good(), Rate: 0.4}.Check()
	if err != nil {
		t.Fatal(err)
	}
	roundTrip(t, good(), `"33 °C"`, `"4614 kg"`)
	roundTrip(t, plan, `"kg"`)
	roundTrip(t, e.Report(), `"28 °C"`)
	roundTrip(t, state, `"kg"`)
	roundTrip(t, Body{Shape: Cylinder, HalfDimension: 0.0075, Film: 300}, `"cylinder"`)
}

func roundTrip[T any](t *testing.T, v T, want ...string) {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Errorf("%T: %v", v, err)
		return
	}
	var back T
	if err := json.Unmarshal(b, &back); err != nil {
		t.Errorf("%T: %v in %s", v, err, b)
		return
	}
	if d := cmp.Diff(v, back, cmpopts.EquateEmpty(), cmp.Comparer(func(a, b units.Temperature) bool { return a == b })); d != "" {
		t.Errorf("%T changed on the way: %s", v, d)
	}
	for _, w := range want {
		w = strings.Trim(w, `"`)
		if !strings.Contains(string(b), w) {
			t.Errorf("%T: no %q in %s", v, w, b)
		}
	}
}

// Every choice reads back the word it writes; a number that is no choice has
// none.
func TestChoicesInWords(t *testing.T) {
	for s := TemperateHuss1995; s <= TropicalDalgaardHuss1995; s++ {
		var back Spoilage
		if text, err := s.MarshalText(); err != nil || back.UnmarshalText(text) != nil || back != s {
			t.Errorf("%v reads back as %v", s, back)
		}
	}
	for c := Protein; int(c) < len(componentNames); c++ {
		var back Component
		if text, err := c.MarshalText(); err != nil || back.UnmarshalText(text) != nil || back != c {
			t.Errorf("%v reads back as %v", c, back)
		}
	}
	if _, err := Spoilage(9).MarshalText(); err == nil {
		t.Error("an unknown law has a word")
	}
	if _, err := Component(99).MarshalText(); err == nil {
		t.Error("an unknown constituent has a word")
	}
	if new(Spoilage).UnmarshalText([]byte("none")) == nil || new(Component).UnmarshalText([]byte("none")) == nil {
		t.Error("an unknown word is read")
	}
}
