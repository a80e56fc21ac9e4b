package hydraulics

import (
	"math"

	"pondwright.example/internal/friction"
)

// brinkFlow is the flow of a pipe that runs full for most of its length and
// falls freely from its end, for each level e of the supply above the invert
// there. Its pressure line ends at (d_c + D)/2, with d_c the critical depth of
// the flow itself:
//
//	e = (ΣK + f L/D) V²/2g + (d_c + D)/2      FHWA HDS-5, chapter III
//
// Flow, critical depth and head are explicit in half the angle of the critical
// surface, so that the curve is a table of exact points with cubics between. At
// its end d_c is within 0.5 % of the crown, and the line is kept there.
type brinkFlow struct {
	node [brinkNodes]openNode
	grad float64 // level of the pressure line at the end of the table
}

const brinkNodes = 41 // the cubics are within 1e-5 of the curve

func newBrinkFlow(w *pipeWall) *brinkFlow {
	b := new(brinkFlow)
	d := w.bore
	at := func(α float64) (e, q, line float64) {
		if α == 0 {
			return d / 2, 0, d / 2
		}
		s, c := math.Sincos(α)
		hyd := α/s - c // 4A/(T D)
		q = d * d / 4 * s * hyd * math.Sqrt(gravity*d*hyd/4)
		line = (d/2*(1-c) + d) / 2
		return w.headFor(q/w.area) + line, q, line
	}
	const top = 3.0
	for i := range b.node {
		α := top * float64(i) / (brinkNodes - 1)
		e, q, line := at(α)
		b.node[i] = openNode{e: e, q: q}
		if i > 0 {
			const h = 1e-5
			e0, q0, _ := at(α - h)
			e1, q1, _ := at(α + h)
			b.node[i].slope = (q1 - q0) / (e1 - e0)
		}
		b.grad = line
	}
	return b
}

// headFor returns the head that a velocity takes, the inverse of velocity.
func (w *pipeWall) headFor(v float64) float64 {
	re := v / w.perRe
	f := 64 / re
	if re > 600 { // below, 64/Re is the larger for any wall
		f = math.Max(f, friction.Colebrook(re, 3.7*w.rough))
	}
	return (w.loss + f*w.slender) * v * v / (2 * gravity)
}

// flow returns the flow under a supply at e above the brink's invert.
func (b *brinkFlow) flow(w *pipeWall, e float64) float64 {
	first, last := b.node[0].e, b.node[brinkNodes-1].e
	switch {
	case e <= first:
		return 0
	case e >= last:
		return w.area * w.velocity(e-b.grad)
	}
	return alongCurve(b.node[:], int(float64(brinkNodes-1)*math.Sqrt((e-first)/(last-first))), e)
}
