package transport

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
	haul, err := goodHaul().Plan()
	if err != nil {
		t.Fatal(err)
	}
	start := time.Date(2026, 6, 3, 1, 0, 0, 0, time.UTC)
	day := Schedule{Product: 9000, Start: start, Rate: 0.5, Haulers: []Hauler{{Name: "first", Ready: start, Product: 4500}}, Turn: Turn{Haul: time.Hour},
		Windows: []Window{{start, start.Add(4 * time.Hour)}}}
	trips, err := day.Plan()
	if err != nil {
		t.Fatal(err)
	}
	cargo := Cargo{Product: 5000, Container: Container{Volume: 1, Tare: 60}, Filling: Filling{Ice: 0.5, ProductBulk: 600, IceBulk: 450, Fill: 1}, Trucks: []Truck{{Payload: 3000}}}
	packing, err := cargo.Pack()
	if err != nil {
		t.Fatal(err)
	}
	roundTrip(t, goodHaul(), "kg/(kg·s)")
	roundTrip(t, haul, "g/L")
	roundTrip(t, day, "kg/s")
	roundTrip(t, trips, "first")
	roundTrip(t, cargo, "5000 kg")
	roundTrip(t, packing, "TRANS_LEFT_BEHIND")
}

func roundTrip[T any](t *testing.T, v T, want string) {
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
	if !strings.Contains(string(b), want) {
		t.Errorf("%T: no %q in %s", v, want, b)
	}
}

func TestPartFilledTankSurges(t *testing.T) {
	l, err := Tank{Volume: 2, Freeboard: 0.4}.Load(100, 0)
	if err != nil || !hasCode(l.Notices, CodeSurge) {
		t.Errorf("%v, %v", l.Notices, err)
	}
}

func TestAmmoniaModelInWords(t *testing.T) {
	for m := Emerson1975; m <= CleggWhitfield1995; m++ {
		var back AmmoniaModel
		if text, err := m.MarshalText(); err != nil || back.UnmarshalText(text) != nil || back != m {
			t.Errorf("%v reads back as %v", m, back)
		}
	}
	if _, err := AmmoniaModel(9).MarshalText(); err == nil || new(AmmoniaModel).UnmarshalText([]byte("none")) == nil {
		t.Error("an unknown model passes")
	}
}
