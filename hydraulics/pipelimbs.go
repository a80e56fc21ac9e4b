package hydraulics

import "math"

// pipeWall is a full pipe with its losses: it turns a head into a velocity.
type pipeWall struct {
	bore, area float64
	slender    float64 // length over bore
	loss       float64 // ΣK, exit included
	rough      float64 // (e/D)/3.7
	scale      float64 // 2gD²/ν²: a head times this is G
	perRe      float64 // ν/D: a Reynolds number times this is a velocity
	seed0      float64 // start of F: seed0 + seed1 × (binary logarithm of G)
	seed1      float64
}

func newPipeWall(bore, length, roughness, loss, nu float64) pipeWall {
	w := pipeWall{bore: bore, area: math.Pi / 4 * bore * bore, slender: length / bore, loss: loss,
		rough: roughness / bore / 3.7, scale: 2 * gravity * bore * bore / (nu * nu), perRe: nu / bore}
	// F is close to linear in log G: take it exactly at 2 cm and at 2 m of head.
	w.seed0 = 7
	g1, g2 := 0.02*w.scale, 2*w.scale
	f1, _ := w.turbulent(g1, 40)
	f2, _ := w.turbulent(g2, 40)
	b1, b2 := crudeLog2(g1), crudeLog2(g2)
	w.seed1 = (f2 - f1) / (b2 - b1)
	w.seed0 = f1 - w.seed1*b1
	return w
}

// velocity returns V under head h: h = (ΣK + f L/D) V²/2g with f by Colebrook,
// but never below 64/Re, so that nothing jumps at the end of laminar flow.
//
// With x = Re√f and F = 1/√f the Colebrook equation is explicit,
// F = -2 log10(rough + 2.51/x), and the head gives x²(L/D + ΣK F²) = G with
// G = 2ghD²/ν². What is left is one equation for F whose Newton step needs one
// logarithm.
func (w *pipeWall) velocity(h float64) float64 {
	if h <= 0 {
		return 0
	}
	G := math.Min(h, 1e7) * w.scale // keeps every finite head finite
	const xl = 300.0                // above it 64/Re is the smaller for any wall
	if G < xl*xl*(w.slender+w.loss*(xl/64)*(xl/64)) {
		return w.slow(G) * w.perRe
	}
	F, x := w.turbulent(G, 2)
	return x * F * w.perRe
}

// turbulent returns F = 1/√f and x = Re√f by n Newton steps.
func (w *pipeWall) turbulent(G float64, n int) (F, x float64) {
	F = w.seed0 + w.seed1*crudeLog2(G)
	for range n {
		kf := w.loss * F
		c := w.slender + kf*F
		t := 2.51 * math.Sqrt(c/G) // 2.51/x
		v := w.rough + t
		r := F + 2/math.Ln10*math.Log(v)
		F -= r / (1 + 2/math.Ln10*(t/v)*(kf/c))
	}
	return F, math.Sqrt(G / (w.slender + w.loss*F*F))
}

// slow returns the Reynolds number near and below the end of laminar flow,
// where 64/Re may be the larger friction factor: the lesser of the two flows.
func (w *pipeWall) slow(G float64) float64 {
	// Laminar: F = x/64, so x²L/D + (ΣK/4096) x⁴ = G.
	x2 := 2 * G / (w.slender + math.Sqrt(w.slender*w.slender+w.loss*G/1024))
	laminar := x2 / 64
	if x2 < 192*192 { // 64/Re is the larger for any wall
		return laminar
	}
	F, x := w.turbulent(G, 6)
	return math.Min(laminar, x*F)
}

// crudeLog2 is the binary logarithm of a positive normal number with the
// mantissa taken as linear: 0.09 low at worst.
func crudeLog2(v float64) float64 {
	b := math.Float64bits(v)
	return float64(int(b>>52)-1023) + float64(b&(1<<52-1))*0x1p-52
}

// pipeLimbs is a pipe seen in one direction: what its mouth admits and what its
// length carries.
type pipeLimbs struct {
	wall     pipeWall
	mouth    float64 // level of the invert where water enters
	brink    float64 // level of the invert where it leaves
	admitted float64 // share of the head left behind the mouth; 0: no mouth control
	scale    float64 // √(gD⁵)
	open     *openFlow
	free     *brinkFlow // nil: the pressure line ends at the centreline

	// Between these levels the length governs whatever the tailwater below the
	// mouth, so that flow need not ask what the mouth admits.
	lengthFrom, lengthTo float64
}

func newPipeLimbs(w pipeWall, open *openFlow, free *brinkFlow, mouth, brink, admitted float64) pipeLimbs {
	d := w.bore
	return pipeLimbs{wall: w, mouth: mouth, brink: brink, admitted: admitted,
		scale: math.Sqrt(gravity*d) * d * d, open: open, free: free, lengthFrom: math.Inf(1)}
}

// learn finds the kinks under a tailwater below the pipe and from where up the
// length governs.
func (p *pipeLimbs) learn() pipeKinks {
	lo := math.Min(p.mouth, p.brink)
	k := p.kinks(lo, thoroughSearch[:])
	p.lengthTo = p.mouth + searchBores*p.wall.bore
	if c, _ := p.control(p.lengthTo, lo); c == ControlFullPipe {
		p.lengthFrom = math.Max(float64(k[2]), float64(k[len(k)-1]))
	}
	return k
}

// flow returns the discharge of one barrel from level hi to level lo < hi.
func (p *pipeLimbs) flow(hi, lo float64) float64 {
	if hi <= p.mouth {
		return 0
	}
	carried := math.Max(p.full(hi, lo), p.partFull(hi, lo))
	if p.admitted == 0 || hi >= p.lengthFrom && hi <= p.lengthTo && lo <= p.mouth {
		return carried
	}
	return math.Min(carried, p.admits(hi, lo))
}

// control names the governing limb, with the flow.
func (p *pipeLimbs) control(hi, lo float64) (Control, float64) {
	if hi <= p.mouth {
		return ControlNone, 0
	}
	full, part := p.full(hi, lo), p.partFull(hi, lo)
	c, q := ControlFullPipe, full
	if part > full {
		c, q = ControlPartFullPipe, part
	}
	if p.admitted > 0 {
		if m := p.admits(hi, lo); m < q {
			c, q = ControlInlet, m
			if lo > p.mouth {
				c = ControlDrownedInlet
			}
		}
	}
	if q == 0 {
		c = ControlNone
	}
	return c, q
}

// full is the pressure limb, part 1 of the method.
//
// Where the pressure line ends above the tailwater by itself, the tailwater does
// not matter; the lesser of the two flows is the one for the higher end.
func (p *pipeLimbs) full(hi, lo float64) float64 {
	if p.free == nil {
		return p.wall.area * p.wall.velocity(hi-math.Max(p.brink+0.5*p.wall.bore, lo))
	}
	q := p.free.flow(&p.wall, math.Min(hi-p.brink, largestHead))
	if lo > p.brink+0.5*p.wall.bore {
		q = math.Min(q, p.wall.area*p.wall.velocity(hi-lo))
	}
	return q
}

// partFull is the open limb, part 2 of the method. Under a pressure line that
// ends at the centreline the full limb is the larger from the end of the curve
// on, and with the tailwater at the centreline; else the end of the curve is
// held until the full limb passes it.
//
// A tailwater above the brink scales it by (1 - r^1.5)^½, the root of a head
// difference, since losses govern it and not a crest.
func (p *pipeLimbs) partFull(hi, lo float64) float64 {
	e := hi - p.brink
	if e <= 0 || p.free == nil && (e >= p.open.top() || lo >= p.brink+0.5*p.wall.bore) {
		return 0
	}
	q := p.open.flow(math.Min(e, p.open.top()))
	if r := (lo - p.brink) / e; r > 0 {
		q *= math.Sqrt(math.Max(0, 1-r*math.Sqrt(r)))
	}
	return q
}

// admits is the mouth, part 3 of the method.
func (p *pipeLimbs) admits(hi, lo float64) float64 {
	head := hi - p.mouth
	q := p.scale * criticalCircle(p.admitted*math.Min(head, 1e7)/p.wall.bore)
	if lo > p.mouth {
		q *= villemonte((lo-p.mouth)/head, RectangularExponent)
	}
	return q
}
