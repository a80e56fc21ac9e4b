package drawdown

import (
	"math"
	"slices"

	"pondwright.example/internal/root"
)

// tailBreak is a time at which a step past the tailwater must end: a corner of
// the curve, or its passing of a sill where an outlet's law changes. A turn of
// a smooth curve is soft: it matters only while a flap is shut, when steps are
// long and the tide must be seen to turn.
type tailBreak struct {
	t    float64
	soft bool
	next int // piece that holds from here on
}

// tailBreaks finds the breaks of a tailwater as far as they are asked for and
// keeps them, since they do not depend on the pond.
type tailBreaks struct {
	curve *tailCurve
	sills []float64
	list  []tailBreak
	known float64 // everything up to here is in list
	piece int
	begun bool
}

// after returns the index of the first break later than t, growing the list.
// There is none when the index equals the length.
func (b *tailBreaks) after(from int, t float64) int {
	for {
		for ; from < len(b.list); from++ {
			if b.list[from].t > t {
				return from
			}
		}
		if !b.grow() {
			return len(b.list)
		}
	}
}

// grow adds the breaks up to the next corner or turn; it reports whether there
// was one.
func (b *tailBreaks) grow() bool {
	c := b.curve
	if c == nil || c.plain || math.IsInf(b.known, 1) {
		return false
	}
	if !b.begun {
		b.begun, b.known = true, 0
		b.piece = c.find(0)
	}
	p := &c.pieces[b.piece]
	edge, soft, next := p.nextTurn(b.known), true, b.piece
	if b.piece+1 < len(c.pieces) && c.pieces[b.piece+1].from <= edge {
		edge, soft, next = c.pieces[b.piece+1].from, false, b.piece+1
	}
	if math.IsInf(edge, 1) {
		if math.IsInf(c.end, 1) { // constant for ever
			b.known = edge
			return false
		}
		edge = c.end
	}
	if !(edge > b.known) {
		b.known = math.Inf(1)
		return false
	}
	first := len(b.list)
	za, zb := p.at(b.known), p.at(edge)
	for _, sill := range b.sills {
		if (za-sill)*(zb-sill) < 0 {
			f := func(t float64) float64 { return p.at(t) - sill }
			if t, err := root.FindBetween(f, b.known, edge, za-sill, zb-sill, 0); err == nil {
				b.list = append(b.list, tailBreak{t: t, next: b.piece})
			}
		}
	}
	slices.SortFunc(b.list[first:], func(x, y tailBreak) int {
		if x.t < y.t {
			return -1
		}
		return 1
	})
	b.list = append(b.list, tailBreak{t: edge, soft: soft, next: next})
	b.known, b.piece = edge, next
	if edge == c.end {
		b.known = math.Inf(1)
	}
	return true
}
