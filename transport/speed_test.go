package transport

import (
	"testing"
	"time"

	"pondwright.example/units"
)

func allocates(t *testing.T, name string, f func()) {
	t.Helper()
	if raceEnabled {
		t.Skip("the race detector allocates")
	}
	if n := testing.AllocsPerRun(100, f); n != 0 {
		t.Errorf("%s allocates %v times", name, n)
	}
}

func TestHotPathsAllocateNothing(t *testing.T) {
	c := units.Celsius(20)
	truck := Truck{Payload: 7500, Slots: 12}
	allocates(t, "Truck.Capacity", func() { _, _, _ = truck.Capacity(700) })
	allocates(t, "Tank.Load", func() { _, _ = Tank{Volume: 9}.Load(2000, 0) })
	allocates(t, "Road.Melt", func() {
		_, _ = Road{Containers: 13, Conductance: 4.5, Ambient: c, Haul: time.Hour}.Melt(1000)
	})
	allocates(t, "OxygenSaturation", func() { _, _ = OxygenSaturation(c, 0, 0) })
	allocates(t, "AmmoniaModel.Fraction", func() { _, _ = CleggWhitfield1995.Fraction(c, 8, 30) })
	fresh := freshCarbonate(293.15)
	allocates(t, "Carbonate.FromCarbon", func() { _, _ = fresh.FromCarbon(2, 0.1) })
	allocates(t, "CatfishLoad", func() { _, _ = CatfishLoad(0.2, 10, units.Celsius(18)) })
	allocates(t, "VentFlow", func() { _, _ = VentFlow(1e-4, 30e-3, 0.5, c, 0) })
}

func BenchmarkCapacity(b *testing.B) {
	truck := Truck{Payload: 7500, Slots: 12}
	for b.Loop() {
		_, _, _ = truck.Capacity(700)
	}
}

func BenchmarkTankLoad(b *testing.B) {
	for b.Loop() {
		_, _ = Tank{Volume: 9}.Load(2000, 0)
	}
}

func BenchmarkFromCarbon(b *testing.B) {
	fresh := freshCarbonate(293.15)
	for b.Loop() {
		_, _ = fresh.FromCarbon(2, 0.1)
	}
}

func BenchmarkHaulPlan(b *testing.B) {
	h := goodHaul()
	for b.Loop() {
		_, _ = h.Plan()
	}
}

func BenchmarkSchedulePlan(b *testing.B) {
	start := time.Date(2026, 6, 3, 1, 0, 0, 0, time.UTC)
	s := Schedule{Product: 20000, Start: start, Rate: 0.6, Haulers: []Hauler{{Ready: start, Product: 4000}, {Ready: start, Product: 4000}}, Turn: Turn{Load: 1e12, Haul: 4e12, Unload: 2e12, Return: 4e12}}
	for b.Loop() {
		_, _ = s.Plan()
	}
}
