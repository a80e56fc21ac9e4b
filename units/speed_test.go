package units

import (
	"strconv"
	"testing"
	"time"
)

var (
	sinkFloat float64
	sinkFlow  Flow
	sinkArea  Area
	sinkTemp  Temperature
)

// TestNoAllocation holds construction, conversion, arithmetic, writing and
// plain reading to no allocation.
func TestNoAllocation(t *testing.T) {
	if raceEnabled {
		t.Skip("the race detector allocates")
	}
	n := 230.
	buf := make([]byte, 0, 64)
	flow, bore := 230*CubicMetrePerHour, 8*Inch
	lengths := []Length{1, 2, 3}
	areas := []Area{1, 2, 4}
	for name, f := range map[string]func(){
		"construct":        func() { sinkFlow = CubicMetresPerHour.Of(n) },
		"convert":          func() { sinkFloat = flow.In(USGallonsPerMinute) },
		"arithmetic":       func() { sinkFloat = flow.Through(bore.Times(bore)).MetresPerSecond() },
		"duration":         func() { sinkFlow = (9600 * CubicMetre).Per(24 * time.Hour) },
		"temperature":      func() { sinkTemp = Celsius(n); sinkFloat = sinkTemp.Fahrenheit() },
		"AppendText":       func() { buf, _ = flow.AppendText(buf[:0]) },
		"AppendText of °C": func() { buf, _ = Celsius(28.5).AppendText(buf[:0]) },
		"AppendDigits":     func() { buf = AppendDigits(buf[:0], flow, USGallonsPerMinute, 3) },
		"Sum":              func() { sinkFloat = float64(Sum(lengths...)) },
		"Interp":           func() { sinkArea, _ = Interp(1.5, lengths, areas) },
		"Parse":            func() { sinkFlow, _ = ParseFlow("230 m3/h") },
		"Positive":         func() { _ = Positive("f", "v", n, "m") },
	} {
		if got := testing.AllocsPerRun(100, f); got != 0 {
			t.Errorf("%s allocates %v times", name, got)
		}
	}
}

// velocity and plainVelocity are one formula in types and in plain numbers, not
// inlined, so that the pair of benchmarks compares calls.
//
//go:noinline
func velocity(q Flow, d Length) Velocity { return q.Through(d.Times(d) * (pi / 4)) }

//go:noinline
func plainVelocity(q, d float64) float64 { return q / (d * d * (pi / 4)) }

// BenchmarkCall compares a typed call with the same on plain float64.
func BenchmarkCall(b *testing.B) {
	b.Run("typed", func(b *testing.B) {
		var sum Velocity
		q, d := 230*CubicMetrePerHour, 8*Inch
		for b.Loop() {
			sum += velocity(q, d)
		}
		sinkFloat = float64(sum)
	})
	b.Run("plain", func(b *testing.B) {
		var sum float64
		q, d := 230./3600, 8*0.0254
		for b.Loop() {
			sum += plainVelocity(q, d)
		}
		sinkFloat = sum
	})
}

// BenchmarkRead compares the parser with strconv and a map look-up.
func BenchmarkRead(b *testing.B) {
	b.Run("parse", func(b *testing.B) {
		for b.Loop() {
			sinkFlow, _ = ParseFlow("230 m3/h")
		}
	})
	b.Run("plain", func(b *testing.B) {
		factors := map[string]float64{}
		for _, u := range flowUnits {
			factors[u.symbol] = u.factor
		}
		text := "230 m3/h"
		for b.Loop() {
			v, _ := strconv.ParseFloat(text[:3], 64)
			sinkFloat = v * factors[text[4:]]
		}
	})
	b.Run("expression", func(b *testing.B) {
		for b.Loop() {
			sinkFlow, _ = ParseFlow("230 [gal_us]/min")
		}
	})
	b.Run("refusal", func(b *testing.B) {
		for b.Loop() {
			sinkFlow, _ = ParseFlow("230 galons/min")
		}
	})
}

func BenchmarkWrite(b *testing.B) {
	buf := make([]byte, 0, 64)
	x := 230 * CubicMetrePerHour
	b.Run("AppendText", func(b *testing.B) {
		for b.Loop() {
			buf, _ = x.AppendText(buf[:0])
		}
	})
	b.Run("AppendDigits", func(b *testing.B) {
		for b.Loop() {
			buf = AppendDigits(buf[:0], x, USGallonsPerMinute, 3)
		}
	})
}

func BenchmarkConvert(b *testing.B) {
	x := 230 * CubicMetrePerHour
	b.Run("In", func(b *testing.B) {
		for b.Loop() {
			sinkFloat = x.In(USGallonsPerMinute)
		}
	})
	b.Run("Fahrenheit", func(b *testing.B) {
		t := Celsius(28.5)
		for b.Loop() {
			sinkFloat = t.Fahrenheit()
		}
	})
}
