package icing

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
	l := good()
	allocates(t, "Load.Balance", func() { _, _ = l.Balance() })
	allocates(t, "Theta", func() { _, _ = Theta(Cylinder, 2, 0.3, 0) })
	b := Body{Shape: Cylinder, HalfDimension: 0.0075, Film: 300}
	allocates(t, "Body.CoreTime", func() { _, _ = b.CoreTime(units.Celsius(28), units.Celsius(0), units.Celsius(4)) })
	allocates(t, "MeltRate", func() { _, _ = MeltRate(4.5, units.Celsius(33), 0, 0) })
	allocates(t, "Equilibrium", func() {
		_, _ = Equilibrium(Bath{IceMass: 300, Water: 500, WaterTemperature: units.Celsius(20)}, Batch{Product: 200, Temperature: units.Celsius(28)})
	})
	e, _ := NewExposure(FDARawReadyToEat(), ExposureOptions{})
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	allocates(t, "Exposure.Add", func() {
		at = at.Add(time.Minute)
		_ = e.Add(Reading{At: at, Temperature: units.Celsius(12)})
	})
}

func BenchmarkBalance(b *testing.B) {
	l := good()
	for b.Loop() {
		_, _ = l.Balance()
	}
}

func BenchmarkCoreTime(b *testing.B) {
	body := Body{Shape: Cylinder, HalfDimension: 0.0075, Film: 300}
	for b.Loop() {
		_, _ = body.CoreTime(units.Celsius(28), units.Celsius(0), units.Celsius(4))
	}
}

// The two bodies below are a yardstick of other implementations: 15 mm slab after
// 900 s, 12 mm sphere after 300 s, roots found on every call.
func BenchmarkCoreSlab(b *testing.B) {
	body := Body{Shape: Slab, HalfDimension: 0.015, Diffusivity: 1.35e-7, Film: 250}
	for b.Loop() {
		_, _ = body.Core(units.Celsius(25), units.Celsius(0), 900*time.Second)
	}
}

func BenchmarkCoreSphere(b *testing.B) {
	body := Body{Shape: Sphere, HalfDimension: 0.012, Diffusivity: 1.35e-7, Film: 250}
	for b.Loop() {
		_, _ = body.Core(units.Celsius(25), units.Celsius(0), 300*time.Second)
	}
}

func BenchmarkTheta(b *testing.B) {
	for b.Loop() {
		_, _ = Theta(Sphere, 2, 0.3, 0)
	}
}

func BenchmarkExposureAdd(b *testing.B) {
	e, _ := NewExposure(FDARawReadyToEat(), ExposureOptions{})
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for b.Loop() {
		at = at.Add(time.Minute)
		_ = e.Add(Reading{At: at, Temperature: units.Celsius(12)})
	}
}

func BenchmarkMeltIntoSeawater(b *testing.B) {
	for b.Loop() {
		_, _ = MeltIntoSeawater(30, units.Celsius(28), 0.3, units.Celsius(-3))
	}
}
