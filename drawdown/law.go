package drawdown

import (
	"math"

	"pondwright.example/units"
)

// Derivatives is the water balance, dV/dt with what passed each gate, the area
// and the leakage as quadratures. In the rooted clock the independent variable
// is the root of the time since the flap opened, t = root0 + x^2, so that
// dV/dx = 2x dV/dt is smooth where the flow starts as a square root.
func (s *Solver) Derivatives(x float64, y, d []float64) {
	t := x
	if s.rooted {
		t = s.root0 + x*x
	}
	z := s.free
	if s.piece != nil {
		z = s.piece.at(t)
	}
	s.rates(s.levelOf(y[0]), z, d)
	if s.rooted {
		for i := range d {
			d[i] *= 2 * x
		}
	}
}

// rates writes dV/dt and the flows at a level and a tailwater.
func (s *Solver) rates(h, z float64, d []float64) {
	net := s.steady
	for i := range s.gates {
		g := &s.gates[i]
		q := 0.0
		if g.way != 0 {
			q = g.flow(h, z)
			net -= q
		}
		d[1+i] = q
	}
	if s.areal > 0 || s.leaky > 0 {
		area := s.areaOf(h)
		if s.areal > 0 {
			d[s.areal] = area
			net -= s.loss * area
		}
		if s.leaky > 0 {
			q := s.leak * area * (h - z)
			d[s.leaky] = q
			net -= q
		}
	}
	d[0] = net
}

// flow is what passes the gate, negative when it comes in.
func (g *gateState) flow(h, z float64) float64 {
	if g.way < 0 {
		if z <= h {
			return 0
		}
		return -g.passing(z, h)
	}
	if h <= z && g.gate.Backflow != Pumped {
		return 0 // a trial stage of a step beyond the flap's closing
	}
	return g.passing(h, z)
}

func (g *gateState) passing(h, z float64) float64 {
	q := g.fraction * float64(g.outlet.Discharge(units.Length(h), units.Length(z)))
	if len(g.gate.Clogging) > 0 {
		q *= clogAt(g.gate.Clogging, h)
	}
	return q
}

func (s *Solver) levelOf(v float64) float64 {
	if s.table != nil {
		return float64(s.segment.Stage(units.Volume(v)))
	}
	return float64(s.pond.Stage(units.Volume(v)))
}

func (s *Solver) areaOf(h float64) float64 {
	if s.table != nil {
		return float64(s.segment.Area(units.Length(h)))
	}
	return float64(s.pond.Area(units.Length(h)))
}

// closingLaw follows pond and time while a flap closes, against the root of the
// head, u, that is left: h = z(t) + u^2 (or z - u^2 where the pond fills), so
//
//	dt/du = +-2u / (V'/A - z'),   dV/du = V' dt/du,
//
// which stays smooth down to u = 0 where V' has the infinite slope of a square
// root.
type closingLaw struct {
	s     *Solver
	sense float64 // +1 pond above, -1 below
}

// Derivatives takes y as volume and time.
func (c *closingLaw) Derivatives(u float64, y, d []float64) {
	s := c.s
	t := y[1]
	z := s.piece.at(t)
	h := z + c.sense*u*u
	s.rates(h, z, s.scratch[1:])
	net := s.scratch[1]
	gap := c.sense * (net/s.areaOf(h) - s.piece.slope(t)) // d(u^2)/dt
	if !(gap < 0) {
		gap = math.NaN() // it does not close: the step fails and is given up
	}
	dt := 2 * u / gap
	d[0], d[1] = net*dt, dt
	for i, q := range s.scratch[2:] {
		d[2+i] = q * dt
	}
}
