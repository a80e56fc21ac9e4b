package plan_test

import (
	"testing"
	"time"

	"pondwright.example/examples/harvestday/plan"
)

// BenchmarkMake plans the whole night.
func BenchmarkMake(b *testing.B) {
	p, err := heron()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := plan.Make(p.Input); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLikelihood draws a hundred nights for one opening.
func BenchmarkLikelihood(b *testing.B) {
	p, err := heron()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := plan.Likelihood(p.Input, []time.Time{p.Night.Opening}, plan.OddsOptions{Draws: 100, Workers: 1}); err != nil {
			b.Fatal(err)
		}
	}
}
