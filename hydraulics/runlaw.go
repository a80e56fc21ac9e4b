package hydraulics

import "math"

// maxRe caps the Reynolds number inside the laws, so that its square is finite.
const maxRe = 1e150

// runLaw is the loss of one run, with everything that does not depend on
// the flow worked out.
type runLaw struct {
	wall     wall
	perFlow  float64 // Reynolds number per flow: 4/(pi D nu)
	friction float64 // head per f re²: L nu²/(2 g D³)
	local    float64 // head per re²: K nu²/(2 g D²)
	laminar  float64 // head per re: K1 nu²/(2 g D²)
	hazen    float64 // head per q^1.852, for Hazen-Williams; friction is zero then
	coil     float64 // square root of bore over coil diameter; zero is straight
	area     float64
	bore     float64
	nu       float64
	twoG     float64
}

func newRunLaw(r PipeRun, spec PipelineSpec) runLaw {
	g := spec.Gravity.MetresPerSecondSquared()
	if g == 0 {
		g = gravity
	}
	d, nu := r.Bore.Metres(), spec.Fluid.KinematicViscosity().SquareMetresPerSecond()
	k, k1 := 0.0, 0.0
	for _, l := range r.Fittings {
		k += l.K(spec.Losses)
		k1 += l.Laminar
	}
	perSquare := nu * nu / (2 * g * d * d)
	w := runLaw{
		wall:    newWall(r.Roughness.Metres() / d),
		perFlow: 4 / (math.Pi * d * nu),
		local:   k * perSquare,
		laminar: k1 * perSquare,
		area:    math.Pi / 4 * d * d,
		bore:    d, nu: nu, twoG: 2 * g,
	}
	if r.Coil > 0 {
		w.coil = math.Sqrt(d / r.Coil.Metres())
	}
	if r.HazenWilliams != 0 {
		w.hazen = hazenWilliams(1, d, r.Length.Metres(), r.HazenWilliams)
	} else {
		w.friction = perSquare * r.Length.Metres() / d
	}
	return w
}

// loss returns the head lost at q >= 0 and its slope in q.
func (w *runLaw) loss(q float64) (h, slope float64) {
	re := min(q*w.perFlow, maxRe)
	h = re * (w.local*re + w.laminar)
	slope = w.perFlow * (2*w.local*re + w.laminar)
	switch {
	case w.friction != 0:
		g, s := w.square(re)
		h += w.friction * g
		slope += w.friction * w.perFlow * s
	case w.hazen != 0:
		p := w.hazen * math.Pow(q, hazenExponent-1)
		h += p * q
		slope += hazenExponent * p
	}
	return h, slope
}

// square is f re² and its slope, in a curve where the run lies in one.
func (w *runLaw) square(re float64) (g, slope float64) {
	if w.coil != 0 {
		return w.wall.curved(re, w.coil)
	}
	return w.wall.square(re)
}

// roughSquare returns a in h ≈ a q² for a first guess of the flow.
func (w *runLaw) roughSquare() float64 {
	a := w.local * w.perFlow * w.perFlow
	if w.hazen != 0 {
		return a + w.hazen
	}
	l := math.Log10(w.wall.rel/3.7 + 1e-5) // rough, or smooth at re near 1e5
	return a + w.friction*w.perFlow*w.perFlow*0.25/(l*l)
}
