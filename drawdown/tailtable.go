package drawdown

import "math"

// quintic is one cell of a table of a smooth curve: the polynomial in the
// fraction of the cell that has the curve's value, slope and curvature at both
// ends.
type quintic [6]float64

// tailTable holds a smooth piece of tailwater as quintics on an even grid, made
// as far as it is asked for. A sum of forty waves costs forty cosines at every
// look; a cell costs them once and a look a few multiplications.
type tailTable struct {
	perCell, cell float64 // cells per second and seconds per cell
	cells         []quintic
	v, d, s       float64 // value, slope and curvature at the end of the last cell
}

// tableError is the largest error of a cell, in metres: far below the solver's
// tolerance.
const tableError = 1e-12

// mostCells bounds how far beyond its end a table grows at one look; a look
// further out is computed directly.
const mostCells = 64

// at returns the piece at t seconds after its beginning; false when the table
// does not reach there.
func (b *tailTable) at(p *tailPiece, t float64) (float64, bool) {
	x := t * b.perCell
	i := int(x)
	if i >= len(b.cells) || !(x >= 0) {
		if !(x >= 0) || !b.grow(p, i) {
			return 0, false
		}
	}
	c := &b.cells[i]
	x -= float64(i)
	return c[0] + x*(c[1]+x*(c[2]+x*(c[3]+x*(c[4]+x*c[5])))), true
}

// slope is the derivative of at, per second.
func (b *tailTable) slope(p *tailPiece, t float64) (float64, bool) {
	x := t * b.perCell
	i := int(x)
	if i >= len(b.cells) || !(x >= 0) {
		if !(x >= 0) || !b.grow(p, i) {
			return 0, false
		}
	}
	c := &b.cells[i]
	x -= float64(i)
	return b.perCell * (c[1] + x*(2*c[2]+x*(3*c[3]+x*(4*c[4]+x*5*c[5])))), true
}

// grow makes the cells up to i.
func (b *tailTable) grow(p *tailPiece, i int) bool {
	if i >= len(b.cells)+mostCells {
		return false
	}
	for len(b.cells) <= i {
		v0, d0, s0 := b.v, b.d*b.cell, b.s*b.cell*b.cell
		b.v, b.d, b.s = p.exact(p.from + float64(len(b.cells)+1)*b.cell)
		v1, d1, s1 := b.v, b.d*b.cell, b.s*b.cell*b.cell
		dv := v1 - v0
		// Hermite's interpolation with two derivatives at both ends.
		b.cells = append(b.cells, quintic{v0, d0, s0 / 2,
			10*dv - 6*d0 - 4*d1 - 1.5*s0 + 0.5*s1,
			-15*dv + 8*d0 + 7*d1 + 1.5*s0 - s1,
			6*dv - 3*d0 - 3*d1 - 0.5*s0 + 0.5*s1})
	}
	return true
}

// newTailTable sets the cell so that the remainder of the interpolation,
// (cell/2)^6 max|z^(6)| / 6!, stays below tableError. It is nil for a piece that
// needs no table.
func newTailTable(p *tailPiece) *tailTable {
	sixth := math.Abs(p.amplitude) * math.Pow(p.omega, 6)
	for _, w := range p.waves {
		sixth += math.Abs(w.amplitude) * math.Pow(w.omega, 6)
	}
	cell := 2 * math.Pow(720*tableError/sixth, 1./6)
	if !(cell > 0) || math.IsInf(cell, 0) {
		return nil
	}
	b := &tailTable{cell: cell, perCell: 1 / cell}
	b.v, b.d, b.s = p.exact(p.from)
	return b
}

// exact returns value, slope and curvature of a cosine or a sum of waves.
func (p *tailPiece) exact(t float64) (v, d, s float64) {
	if p.kind == cosinePiece {
		sin, cos := math.Sincos(p.omega*(t-p.from) + p.wave)
		return p.mean + p.amplitude*cos, -p.amplitude * p.omega * sin, -p.amplitude * p.omega * p.omega * cos
	}
	v = p.mean
	for i := range p.waves {
		w := &p.waves[i]
		sin, cos := math.Sincos(w.omega*t + w.phase)
		v += w.amplitude * cos
		d -= w.amplitude * w.omega * sin
		s -= w.amplitude * w.omega * w.omega * cos
	}
	return v, d, s
}
