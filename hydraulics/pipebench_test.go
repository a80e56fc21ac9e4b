package hydraulics

import (
	"testing"

	"pondwright.example/units"
)

func BenchmarkParallelHead(b *testing.B) {
	line := pipeHarvestLine(b)
	side, err := Parallel(line, line, line)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for i := range b.N {
		pipeSink += float64(side.Head(units.Flow(0.1 + float64(i&1023)*1e-4)))
	}
}

func BenchmarkTerminalSpeed(b *testing.B) {
	water, err := FreshWater(units.Celsius(20))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for i := range b.N {
		v, err := TerminalSpeed(Body{units.Length(0.01 + float64(i&1023)*2e-5), 1070, 0.7}, water, HaiderLevenspiel)
		if err != nil {
			b.Fatal(err)
		}
		pipeSink += float64(v)
	}
}

func BenchmarkSeaWater(b *testing.B) {
	b.ReportAllocs()
	for i := range b.N {
		w, err := SeaWater(units.Celsius(float64(i&31)), 20)
		if err != nil {
			b.Fatal(err)
		}
		pipeSink += float64(w.Density)
	}
}
