package drawdown

import (
	"math"

	"pondwright.example/units"
)

// Derivatives is the water balance, dV/dt with what passed each gate, the area
// and the leakage as quadratures. In the rooted clock the independent variable
// is the root of the time since the flap opened, t = rootedAt + x^2, so that
// dV/dx = 2x dV/dt is smooth where the flow starts as a square root.
func (s *Solver) Derivatives(x float64, y, d []float64) {
	t := x
	if s.rooted {
		t = s.rootedAt + x*x
	}
	z := s.free
	if s.piece != nil {
		z = s.piece.at(t)
	}
	if s.next != nil {
		s.see(y[1])
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
		d[s.first+i] = q
	}
	if s.next != nil {
		q := s.settled(h)
		d[1] = q
		net -= q
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

// slice is the piece of a stage table between two marks as the solver uses it:
// level and area without a search.
type slice struct {
	lower, volume float64 // of its lower end
	area, slope   float64 // dA/dh
	square, twice float64 // area squared, and twice the slope
}

// level inverts V = volume + area x + slope x^2/2 in the form that does not
// cancel.
func (p *slice) level(v float64) float64 {
	dv := v - p.volume
	d := p.square + p.twice*dv
	if !(d > 0) {
		d = 0
	}
	d = p.area + math.Sqrt(d)
	if d == 0 {
		return p.lower
	}
	return p.lower + 2*dv/d
}

// cut sets the slice for the marks the pond lies between.
func (s *Solver) cut() {
	if s.table == nil {
		return
	}
	rows := s.table.rows
	last := len(rows) - 1
	i := 0
	if s.low >= 0 {
		i = s.table.find(s.marks[s.low].stage)
		if s.marks[s.low].stage >= rows[last].stage {
			i = last // above the table: vertical walls
		}
	}
	r := rows[i]
	if i == last {
		r.slope = 0
	}
	s.slice = slice{lower: r.stage, volume: r.volume, area: r.area, slope: r.slope, square: r.area * r.area, twice: 2 * r.slope}
}

func (s *Solver) levelOf(v float64) float64 {
	if s.table != nil {
		return s.slice.level(v)
	}
	return float64(s.pond.Stage(units.Volume(v)))
}

func (s *Solver) areaOf(h float64) float64 {
	if s.table != nil {
		return s.slice.area + s.slice.slope*(h-s.slice.lower)
	}
	return float64(s.pond.Area(units.Length(h)))
}

// volumeOf is a pond's volume at a level.
func volumeOf(p Storage, h float64) float64 { return float64(p.Volume(units.Length(h))) }

// closingLaw follows pond and time while a head vanishes, against the root u of
// what is left of it. With a closing flap h = z(t) + u^2 (z - u^2 where the pond
// fills), with a sill running dry h = sill + u^2, so
//
//	dt/du = 2u / (d(u^2)/dt),   dV/du = V' dt/du,
//
// which stays smooth down to u = 0 where V' has the infinite slope of a square
// root.
type closingLaw struct {
	s     *Solver
	sense float64 // +1 pond above, -1 below
	dry   bool    // down to a sill instead of the tailwater
	sill  float64
	from  float64 // real time at which it began
	net   float64 // dV/dt at the last call
}

// Derivatives takes y as volume and time since the beginning.
func (c *closingLaw) Derivatives(u float64, y, d []float64) {
	s := c.s
	t := c.from + y[1]
	z := s.tailAt(t)
	base, rise := z, 0.0
	if c.dry {
		base = c.sill
		u = math.Max(u, 1e-6) // at the sill itself rate and u vanish together
	} else {
		rise = s.piece.slope(t)
	}
	h := base + c.sense*u*u
	s.rates(h, z, s.scratch[1:])
	net := s.scratch[1]
	c.net = net
	rate := c.sense * (net/s.areaOf(h) - rise) // d(u^2)/dt
	dt := 2 * u / rate
	if !(rate < 0) {
		dt = math.NaN() // it does not close: the step fails and is given up
	}
	d[0], d[1] = net*dt, dt
	for i, q := range s.scratch[2:] {
		d[2+i] = q * dt
	}
}
