package hydraulics

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"pondwright.example/units"
)

// Lines of every kind, with lifts, coils and laminar oil, joined at random with
// check valves: every network must settle, balance and close.
func TestNetworkSettlesWhateverItIsMadeOf(t *testing.T) {
	rnd := rand.New(rand.NewPCG(77, 1))
	for k := range 400 {
		n := 1 + rnd.IntN(25)
		pond, canal := units.Length(40*rnd.Float64()-20), units.Length(40*rnd.Float64()-20)
		spec := NetworkSpec{Nodes: []NetworkNode{{Name: "pond", Level: &pond}, {Name: "canal", Level: &canal}}}
		join := func(a, b string) {
			spec.Links = append(spec.Links, NetworkLink{Name: strconv.Itoa(len(spec.Links)), From: a, To: b, Line: pipeRandomLine(t, rnd),
				OneWay: rnd.IntN(6) == 0 && len(spec.Links) > n})
		}
		for i := range n {
			demand := units.Flow(0)
			if rnd.IntN(2) == 0 {
				demand = units.Flow(2e-3 * (rnd.Float64() - 0.3))
			}
			spec.Nodes = append(spec.Nodes, NetworkNode{Name: "j" + strconv.Itoa(i), Demand: demand})
			join(spec.Nodes[rnd.IntN(i+2)].Name, "j"+strconv.Itoa(i))
		}
		for range rnd.IntN(15) {
			if i, j := rnd.IntN(n+2), rnd.IntN(n+2); i != j {
				join(spec.Nodes[i].Name, spec.Nodes[j].Name)
			}
		}
		w, err := NewNetwork(spec)
		if err != nil {
			t.Fatal(err)
		}
		s, err := w.Solve()
		if err != nil {
			t.Fatalf("network %d of %d links: %v", k, len(spec.Links), err)
		}
		if mass, energy := pipeNetworkFaults(spec, s); mass > 1e-14 || energy > 1e-8 {
			t.Errorf("network %d: mass off by %g m3/s, energy by %g m, in %d steps", k, mass, energy, s.Iterations)
		}
	}
}
