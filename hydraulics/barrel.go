package hydraulics

import (
	"math"

	"pondwright.example/internal/root"
)

// barrel is one barrel of a culvert seen in one direction. Its flows are
// numbered by a state t in which flow, critical depth and critical energy are
// all explicit: half the angle of the critical surface in a circle, the critical
// depth in a box.
type barrel struct {
	in, out float64 // inverts
	d, b    float64 // height and, for a box, width (zero: a circle)
	area    float64
	slope   float64
	coef    InletCoefficients
	loss    float64 // of the full barrel on V²/2g
	open    openFlow

	drownedX float64    // x at which the drowned curve begins, 4 but for steep barrels
	x35, x40 float64    // inlet headwater at x = 3.5 and there
	fade     float64    // inlet headwater up to which the slope term fades in
	corners  [3]float64 // states at the corners of the inlet curve, rising
}

// The inlet equations' unit factor in SI, and the ends of the straight line.
const (
	hdsKu                = 1.811
	unsubmergedTo        = 3.5
	submergedFrom        = 4.0
	slopeFadesIn         = 0.5
	hdsFriction, hdsPowR = 19.63, 4.0 / 3 // HDS-5 prints the power rounded to 1.33
)

func newBarrel(s CulvertSpec, c InletCoefficients, in, out float64) barrel {
	p := barrel{in: in, out: out, d: float64(s.Rise), b: float64(s.Span), slope: (in - out) / float64(s.Length), coef: c}
	r := 0.0
	if s.Diameter > 0 {
		p.d, p.b = float64(s.Diameter), 0
		p.area, r = math.Pi/4*p.d*p.d, p.d/4
	} else {
		p.area, r = p.b*p.d, p.b*p.d/(2*(p.b+p.d))
	}
	friction := hdsFriction * s.ManningN * s.ManningN * float64(s.Length)
	p.loss = 1 + c.Ke + friction/math.Pow(r, hdsPowR)
	p.open = p.openCurve(1+c.Ke, friction)
	p.x35 = p.unsubmerged(p.stateOf(unsubmergedTo / hdsKu * p.area * math.Sqrt(p.d)))
	// On a steep barrel the drowned curve starts below the other: the straight line
	// then runs on to where it is higher, so that the headwater rises throughout.
	p.drownedX = math.Max(submergedFrom, math.Sqrt(math.Max(0, (p.x35/p.d+0.05-c.Y-c.Slope*p.slope)/c.C)))
	p.x40 = p.submerged(p.drownedX)
	for i, x := range [...]float64{slopeFadesIn, unsubmergedTo, p.drownedX} {
		p.corners[i] = p.stateOf(x / hdsKu * p.area * math.Sqrt(p.d))
	}
	p.fade = p.unsubmerged(p.corners[0])
	return p
}

// openCurve is the largest part-full flow against the losses, up to a depth of
// two thirds; above it the full barrel carries more.
func (p *barrel) openCurve(loss, friction float64) (o openFlow) {
	section := func(y float64) (a, t, k float64) {
		wet := p.b + 2*y
		a, t = p.b*y, p.b
		if p.b == 0 {
			a = circleSegment(y, p.d)
			t = 2 * math.Sqrt(y*(p.d-y))
			wet = 2 * p.d * math.Asin(math.Sqrt(y/p.d))
		}
		return a, t, loss + friction/math.Pow(a/wet, hdsPowR)
	}
	for i := 1; i < openNodes; i++ {
		u := float64(i) / (openNodes - 1)
		y := 2.0 / 3 * p.d * u * u
		a, t, k := section(y)
		const h = 1e-5
		_, _, above := section(y * (1 + h))
		_, _, below := section(y * (1 - h))
		o.node[i] = newOpenNode(y, a, t, k, math.Min(0, (above-below)/(2*h*y)))
	}
	return o
}

// critical returns flow, critical depth (at most D) and critical energy of a
// state.
func (p *barrel) critical(t float64) (q, dc, hc float64) {
	if p.b > 0 {
		return p.b * t * math.Sqrt(gravity*t), math.Min(t, p.d), 1.5 * t
	}
	if t < 1e-6 {
		return 0, 0, 0
	}
	s, c := math.Sincos(t)
	hyd := t/s - c // 4A/(T D)
	a := p.d * p.d / 4 * s * hyd
	dc = p.d / 2 * (1 - c)
	return a * math.Sqrt(gravity*p.d*hyd/4), dc, dc + p.d*hyd/8
}

// most is the largest state that is looked at.
func (p *barrel) most() float64 {
	if p.b > 0 {
		return 1e4 * p.d
	}
	return math.Pi - 1e-9
}

// stateOf returns the state of a flow.
func (p *barrel) stateOf(q float64) float64 {
	if p.b > 0 {
		u := q / p.b
		return math.Min(math.Cbrt(u*u/gravity), p.most())
	}
	return p.find(func(t float64) float64 { f, _, _ := p.critical(t); return f - q })
}

// find returns the state at which the rising f is zero, and the largest state
// when it never is.
func (p *barrel) find(f func(t float64) float64) float64 {
	top := p.most()
	f0, f1 := f(0), f(top)
	if f0 >= 0 {
		return 0
	}
	if f1 <= 0 {
		return top
	}
	t, err := root.FindBetween(f, 0, top, f0, f1, 1e-13)
	if err != nil {
		return 0
	}
	return t
}

// slopeTerm is ks S D, faded in from no flow.
func (p *barrel) slopeTerm(x float64) float64 {
	return p.coef.Slope * p.slope * p.d * math.Min(1, x/slopeFadesIn)
}

// unsubmerged is the inlet headwater by form 1 or 2.
func (p *barrel) unsubmerged(t float64) float64 {
	q, _, hc := p.critical(t)
	x := hdsKu * q / (p.area * math.Sqrt(p.d))
	k := p.coef.K * math.Pow(x, p.coef.M) * p.d
	if p.coef.Form == 2 {
		return k
	}
	return hc + k + p.slopeTerm(x)
}

// submerged is the inlet headwater of a drowned mouth at x.
func (p *barrel) submerged(x float64) float64 {
	return p.d * (p.coef.C*x*x + p.coef.Y + p.coef.Slope*p.slope)
}

// inletHead is the headwater under inlet control.
func (p *barrel) inletHead(t float64) float64 {
	q, _, _ := p.critical(t)
	x := hdsKu * q / (p.area * math.Sqrt(p.d))
	switch {
	case x <= unsubmergedTo:
		return p.unsubmerged(t)
	case x < p.drownedX:
		return p.x35 + (p.x40-p.x35)*(x-unsubmergedTo)/(p.drownedX-unsubmergedTo)
	}
	return p.submerged(x)
}

// outletHead is the headwater above the inlet's invert under outlet control.
func (p *barrel) outletHead(t, tail float64) float64 {
	q, dc, _ := p.critical(t)
	v := q / p.area
	return p.loss*v*v/(2*gravity) + math.Max(tail-p.out, (dc+p.d)/2) - (p.in - p.out)
}

// inletFlow is the inverse of inletHead.
func (p *barrel) inletFlow(h float64) float64 {
	perX := p.area * math.Sqrt(p.d) / hdsKu
	switch {
	case h <= 0:
		return 0
	case h >= p.x40:
		return perX * math.Sqrt((h/p.d-p.coef.Y-p.coef.Slope*p.slope)/p.coef.C)
	case h > p.x35:
		return perX * (unsubmergedTo + (p.drownedX-unsubmergedTo)*(h-p.x35)/(p.x40-p.x35))
	}
	q, _, _ := p.critical(p.find(func(t float64) float64 { return p.unsubmerged(t) - h }))
	return q
}

// outletFlow is the inverse of outletHead.
func (p *barrel) outletFlow(h, tail float64) float64 {
	if tail-p.out >= p.d {
		head := h + p.in - tail
		if head <= 0 {
			return 0
		}
		return p.area * math.Sqrt(2*gravity*head/p.loss)
	}
	q, _, _ := p.critical(p.find(func(t float64) float64 { return p.outletHead(t, tail) - h }))
	return q
}

// partFull is the part-full flow; above the curve its last value is held.
func (p *barrel) partFull(hi, lo float64) float64 {
	e := hi - p.out
	if e <= 0 {
		return 0
	}
	q := p.open.flow(math.Min(e, p.open.top()))
	if r := (lo - p.out) / e; r > 0 {
		q *= math.Sqrt(math.Max(0, 1-r*math.Sqrt(r)))
	}
	return q
}

// flow returns the flow from level hi to level lo < hi and what governs it.
func (p *barrel) flow(hi, lo float64) (float64, Control) {
	h := math.Min(hi-p.in, largestHead)
	if h <= 0 {
		return 0, ControlNone
	}
	q, c := p.outletFlow(h, lo), ControlFullPipe
	if open := p.partFull(hi, lo); open > q {
		q, c = open, ControlPartFullPipe
	}
	if in := p.inletFlow(h); in < q {
		q, c = in, ControlInlet
	}
	if q == 0 {
		c = ControlNone
	}
	return q, c
}
