package hydraulics

import (
	"math"
	"slices"

	"pondwright.example/units"
)

// Points of the search for changes of control in a barrel: shares of the range
// of states, which is π in a circle, and of the root of it in a box, where it is
// barrelReach heights of critical depth.
var barrelSearch = [...]float64{1e-3, 0.01, 0.03, 0.06, 0.1, 0.14, 0.18, 0.23, 0.28, 0.33, 0.355, 0.38, 0.405, 0.43, 0.455, 0.48, 0.505, 0.53, 0.555, 0.58, 0.61, 0.64, 0.7, 0.77, 0.84, 0.9, 0.95, 0.985}

// barrelReach is how many heights of critical depth of a box are looked at.
const barrelReach = 6.0

// Kinks appends to dst the pond levels above the tailwater at which the slope of
// [Culvert.Discharge] jumps while the tailwater stays where it is, always
// sixteen: the invert, where flow begins, the corners of the inlet curve (three),
// the end of the part-full curve, where the critical depth in the outfall passes
// the tailwater and, in a box, the crown, where the full barrel takes over from
// the part-full one and yields to it, and up to six changes between inlet and
// length, the highest last. One that does not exist under this tailwater is given
// as where flow begins, and a pair that has met and vanished as where the two
// come closest, so that the list moves steadily with the tailwater. With room in
// dst nothing is allocated.
func (c Culvert) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	if c.p == nil {
		return dst
	}
	k := c.p.forward.kinks(float64(tailwater))
	for _, z := range k {
		dst = append(dst, units.Length(z))
	}
	return dst
}

// kinks finds the corners of flow and the changes of what governs while lo stays.
func (p *barrel) kinks(lo float64) (k [16]float64) {
	start := math.Max(p.in, lo)
	for i := range k {
		k[i] = start
	}
	highest := start + 100*p.d
	put := func(i int, z float64) { k[i] = math.Max(start, math.Min(z, highest)) }
	k[0] = p.in
	k[2] = p.in + p.fade
	k[3], k[4] = p.in+p.x35, p.in+p.x40
	k[5] = p.out + p.open.top()
	put(6, p.in+p.outletHead(p.tailState(lo), lo))
	if p.b > 0 {
		put(7, p.in+p.outletHead(p.d, lo))
	}

	top := barrelReach * p.d
	if p.b == 0 {
		top = math.Pi
	}
	open := func(t, level float64) float64 { // what the open barrel carries at a level against the flow of a state
		q, _, _ := p.critical(t)
		if level <= lo {
			return -1
		}
		o := p.partFull(level, lo)
		if o+q == 0 {
			return 0
		}
		return (o - q) / (o + q)
	}
	length := func(t float64) float64 { // part-full over full, along the outlet curve
		return open(t, p.in+p.outletHead(t, lo))
	}
	inlet := func(t float64) float64 { // length over inlet, along the inlet curve
		h := p.inletHead(t)
		full := (h - p.outletHead(t, lo)) / (h + p.d)
		return math.Max(full, open(t, p.in+h))
	}
	// The states of the search, with the corners of the curves among them.
	var x, m [len(barrelSearch) + 4]float64
	n := copy(x[:], p.corners[:])
	x[n] = p.tailState(lo)
	n++
	for _, s := range barrelSearch {
		if p.b > 0 {
			s *= s
		}
		x[n] = s * top
		n++
	}
	slices.Sort(x[:])
	for i := range x {
		m[i] = length(x[i])
	}
	var found [8]float64
	n, nearest := changesOf(length, x[:], m[:], &found)
	switch {
	case n == 0 && nearest > 0:
		put(8, p.in+p.outletHead(nearest, lo))
		k[9] = k[8]
	case n > 0:
		put(9, p.in+p.outletHead(found[n-1], lo))
		if n > 1 {
			put(8, p.in+p.outletHead(found[n-2], lo))
		}
	}
	// Where the full barrel takes over the length has a corner on the inlet curve too.
	var x2, m2 [len(x) + 3]float64
	n = copy(x2[:], x[:])
	for i := range 3 {
		at := [...]float64{k[5], k[8], k[9]}[i] - p.in
		x2[n+i] = p.find(func(t float64) float64 { return p.inletHead(t) - at })
	}
	slices.Sort(x2[:])
	n = len(slices.Compact(x2[:])) // two alike would hide a valley
	for i := range n {
		m2[i] = inlet(x2[i])
	}
	n, nearest = changesOf(inlet, x2[:n], m2[:n], &found)
	for i := 0; i < min(n, 6); i++ { // the highest last
		put(len(k)-1-i, p.in+p.inletHead(found[n-1-i]))
	}
	if n == 0 && nearest > 0 {
		put(len(k)-2, p.in+p.inletHead(nearest))
		k[len(k)-1] = k[len(k)-2]
	}
	return k
}

// tailState is the state whose hydraulic grade at the outfall, half-way from
// critical depth to the crown, meets the tailwater.
func (p *barrel) tailState(lo float64) float64 {
	dc := math.Max(0, math.Min(2*(lo-p.out)-p.d, p.d*(1-1e-9)))
	if p.b > 0 {
		return dc
	}
	return math.Acos(1 - 2*dc/p.d)
}
