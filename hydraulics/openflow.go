package hydraulics

import "math"

// openFlow is the largest flow that open flow of one depth y can carry through
// a pipe against all its losses, for each level e of the supply above the
// invert of the free brink:
//
//	Q(e) = max over y of A(y) √(2g(e - y)/k(y)),   k = ΣK + f L/(4R(y))
//
// Without losses (k = 1) its depth is the critical depth. The depth that makes
// the most of e satisfies e - y = 1/(2T/A - k'/k), which gives e and Q for each
// y outright, and dQ/de = Q/(2(e - y)), since Q does not change with y there. The
// curve is kept as cubics between such points up to a depth at which the full
// pipe carries more.
//
// f is that of the full pipe under a head of half its bore.
type openFlow struct{ node [openNodes]openNode }

const openNodes = 25 // the cubics are within 1e-5 of the curve

type openNode struct{ e, q, slope float64 }

// newOpenFlow is the curve of a pipe, up to the depth whose surface spans twice
// the angle top at the centre.
func newOpenFlow(w pipeWall, top float64) (o openFlow) {
	d := w.bore
	f := w.friction(d / 2)
	for i := 1; i < openNodes; i++ {
		α := top * float64(i) / (openNodes - 1)
		s, c := math.Sincos(α)
		area, width, wet := d*d/4*(α-s*c), d*s, d*α
		r := area / wet
		dr := (width*wet - area*2/s) / (wet * wet) // dR/dy
		friction := f * w.slender * d / (4 * r)
		o.node[i] = newOpenNode(d/2*(1-c), area, width, w.loss+friction, -friction*dr/r)
	}
	return o
}

// newOpenNode is the point of the curve at depth y, with k and its derivative.
func newOpenNode(y, area, width, k, dk float64) openNode {
	above := 1 / (2*width/area - dk/k) // e - y
	q := area * math.Sqrt(2*gravity*above/k)
	return openNode{e: y + above, q: q, slope: q / (2 * above)}
}

// friction returns the Darcy factor of the full pipe under head h.
func (w *pipeWall) friction(h float64) float64 {
	v := w.velocity(h)
	return (2*gravity*h/(v*v) - w.loss) / w.slender
}

// top is the highest level the curve knows.
func (o *openFlow) top() float64 { return o.node[openNodes-1].e }

// flow returns Q for 0 < e <= top.
func (o *openFlow) flow(e float64) float64 {
	return alongCurve(o.node[:], int(float64(openNodes-1)*math.Sqrt(e/o.top())), e)
}

// alongCurve returns the cubic of a curve at e, its search started at node i.
func alongCurve(node []openNode, i int, e float64) float64 {
	last := len(node) - 2
	i = min(max(i, 0), last)
	for i > 0 && e < node[i].e {
		i--
	}
	for i < last && e > node[i+1].e {
		i++
	}
	a, b := &node[i], &node[i+1]
	w := b.e - a.e
	t := (e - a.e) / w
	u := 1 - t
	// Cubic Hermite form.
	return u*u*((1+2*t)*a.q+t*w*a.slope) + t*t*((3-2*t)*b.q-u*w*b.slope)
}
