package hydraulics

import (
	"math"

	"pondwright.example/units"
)

// gateSearch are the points of the search for changes between lip and sill, as
// shares of its reach.
var gateSearch = [...]float64{1e-6, 1e-4, 1e-3, 0.005, 0.02, 0.05, 0.1, 0.15, 0.2, 0.27, 0.35, 0.43, 0.52, 0.62, 0.73, 0.86, 1}

// Kinks appends to dst the pond levels above the tailwater at which the slope of
// [SluiceGate.Discharge] jumps while the tailwater stays where it is, always
// six: the sill, where flow begins, where the jet comes free of the tailwater,
// where the coefficient of [Swamee1992] begins to be held, and where the bare
// sill takes over from the lip and yields to it. One that does not exist under
// this tailwater is given as its neighbour, so that the list moves steadily with
// the tailwater. With room in dst nothing is allocated. A gate that is shut has
// none.
func (g SluiceGate) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	if g.a == 0 {
		return dst
	}
	y3 := float64(tailwater) - g.sill
	start := math.Max(0, y3)
	free := g.freeFrom(y3)
	from, to := g.bareSill(start, y3, free)
	at := [...]float64{0, start, free, 1.5 * g.a, from, to}
	for _, y := range at {
		dst = append(dst, units.Length(g.sill+y))
	}
	return dst
}

// freeFrom returns the depth above which the jet is free of the tailwater: with
// the conjugate depth at y3 the free flow of energy makes it a quadratic.
func (g *SluiceGate) freeFrom(y3 float64) float64 {
	y2 := g.cc * g.a
	y3 = math.Min(math.Max(y3, y2), largestHead)
	m := y3 * (y2 + y3) / (4 * y2) // y1²/(y1 + y2)
	return (m + math.Sqrt(m*m+4*m*y2)) / 2
}

// bareSill returns the depths between which the bare sill governs. Under a
// tailwater above the jet the lip does again just above the tailwater, or all
// the way: then both are where the two come closest.
// The comparison has a corner at free.
func (g *SluiceGate) bareSill(start, y3, free float64) (from, to float64) {
	reach := 6*g.a - start // above, the lip governs
	if reach <= 0 {
		return start, start
	}
	diff := func(x float64) float64 {
		y1 := start + x
		sill := idealWeir * y1 * math.Sqrt(gravity*y1)
		if y3 > 0 {
			sill *= villemonte(y3/y1, RectangularExponent)
		}
		lip, _ := g.jet(y1, y3)
		if math.IsInf(lip, 1) {
			return 1
		}
		return (lip - sill) / (lip + sill)
	}
	var x, m [len(gateSearch) + 1]float64
	k := 0
	for _, s := range gateSearch {
		b, corner := s*reach, free-start
		if k > 0 && corner > x[k-1] && corner < b {
			x[k], m[k] = corner, diff(corner)
			k++
		}
		x[k], m[k] = b, diff(b)
		k++
	}
	var found [8]float64
	n, nearest := changesOf(diff, x[:k], m[:k], &found)
	switch {
	case n == 0 && m[0] < 0:
		return start + nearest, start + nearest
	case n == 0:
		return start, start
	case n == 1:
		return start, start + found[0]
	}
	return start + found[0], start + found[n-1]
}
