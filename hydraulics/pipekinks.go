package hydraulics

import (
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// pipeKinks are the levels that OutletPipe.Kinks gives, in its order.
type pipeKinks [7]units.Length

// searchBores is how far above the first level that gives flow a change of
// control is looked for.
const searchBores = 20.0

// Points of the search for changes between mouth and length, in bores above the
// first level that gives flow. The mouth governs between two levels or not at
// all, as a rule, so that a few points find them; between the points nearest to
// a change towardsZero looks further.
var (
	quickSearch    = [...]float64{1e-4, 0.01, 0.05, 0.15, 0.35, 0.8, 2.5, searchBores}
	thoroughSearch = [...]float64{1e-4, 1e-3, 0.01, 0.03, 0.06, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.65, 0.8, 1, 1.3, 1.7, 2.5, 5, searchBores}
)

// kinks finds the changes of the governing limb while lo stays.
func (p *pipeLimbs) kinks(lo float64, search []float64) (k pipeKinks) {
	start := math.Max(p.mouth, lo)
	for i := range k {
		k[i] = units.Length(start)
	}
	centre := p.brink + 0.5*p.wall.bore
	k[1] = units.Length(centre)
	var turns [2]float64 // above start; zero: none
	if z, below, ok := p.fills(lo, start, centre); ok {
		turns[0] = z - start
		k[2], k[3] = units.Length(z), units.Length(below)
	}
	if z, ok := p.drowns(lo); ok {
		turns[1] = z - start
		k[1] = units.Length(z)
	}
	if p.admitted == 0 {
		return k
	}
	l := limbLine{p, start, lo}
	if turns[0] > 0 && l.mouth(turns[0]) < 0 {
		k[2] = units.Length(start) // the mouth governs there
	}
	if p.free != nil {
		search = thoroughSearch[:] // its corners make narrow windows
	}
	if turns[0] > turns[1] {
		turns[0], turns[1] = turns[1], turns[0]
	}
	var found [8]float64
	n, nearest := l.changes(search, turns, &found)
	for i := 0; i < min(n, 3); i++ { // the highest last
		k[len(k)-1-i] = units.Length(start + found[n-1-i])
	}
	if n == 0 {
		// Two changes meet and vanish here as the tailwater rises.
		k[5], k[6] = units.Length(start+nearest), units.Length(start+nearest)
	}
	return k
}

// fills returns the level at which the full pipe takes over from the part-full
// one: between the outfall's centreline and the top of the part-full curve, or
// two bores up where the end of that curve is held. Under a tailwater the
// part-full limb may govern in a window only, which then begins at below; else
// below is start.
func (p *pipeLimbs) fills(lo, start, centre float64) (z, below float64, ok bool) {
	below = start
	a, b := math.Max(start, centre), p.brink+p.open.top()*(1-1e-12)
	diff := func(z float64) float64 { return p.full(z, lo) - p.partFull(z, lo) }
	if p.free != nil {
		b = math.Max(a, p.brink+p.wall.bore) + 2*p.wall.bore
		for _, x := range [...]float64{0.5, 0.3, 0.2, 0.1, 0.06, 0.03, 0.01, 0.003, 0.001, 3e-4} {
			z := a + x*p.wall.bore
			if dz := diff(z); dz < 0 {
				for c := a + 1e-6*p.wall.bore; c < z; c += 0.1 * (z - a) {
					if dc := diff(c); dc > 0 {
						if r, err := root.FindBetween(diff, c, z, dc, dz, 1e-8); err == nil {
							below = r
						}
						break
					}
				}
				a = z
				break
			}
		}
	} else if lo >= centre || a >= b {
		return 0, below, false
	}
	fa, fb := diff(a), diff(b)
	if !(fa < 0 && fb > 0) {
		return 0, below, false
	}
	z, err := root.FindBetween(diff, a, b, fa, fb, 1e-8)
	return z, below, err == nil
}

// drowns returns the level at which a tailwater over the outfall's centreline
// meets the end of the pressure line: below it holds the full pipe back.
func (p *pipeLimbs) drowns(lo float64) (float64, bool) {
	if p.free == nil || lo <= p.brink+0.5*p.wall.bore || lo >= p.brink+p.free.grad {
		return 0, false
	}
	diff := func(z float64) float64 {
		return p.free.flow(&p.wall, z-p.brink) - p.wall.area*p.wall.velocity(z-lo)
	}
	a, b := lo+1e-6*p.wall.bore, p.brink+p.free.node[brinkNodes-1].e
	if a >= b {
		return 0, false
	}
	fa, fb := diff(a), diff(b)
	if fa*fb >= 0 {
		return 0, false
	}
	z, err := root.FindBetween(diff, a, b, fa, fb, 1e-8)
	return z, err == nil
}

// limbLine is a pipe at levels x above base under the tailwater lo.
type limbLine struct {
	p        *pipeLimbs
	base, lo float64
}

// mouth compares what the mouth admits with what the length carries at x, scaled
// to between -1 and 1.
func (l *limbLine) mouth(x float64) float64 {
	hi := l.base + x
	carried, m := math.Max(l.p.full(hi, l.lo), l.p.partFull(hi, l.lo)), l.p.admits(hi, l.lo)
	if sum := m + carried; sum > 0 {
		return (m - carried) / sum
	}
	return 0
}

// changes collects every x > 0 at which the governing one of mouth and length
// changes, rising. The comparison is smooth but for the corners at turns, which
// rise and are made points of the search. Without a change, nearest is where the
// two come closest.
func (l *limbLine) changes(search []float64, turns [2]float64, found *[8]float64) (n int, nearest float64) {
	var x, m [24]float64
	k := 0
	for _, s := range search {
		b := s * l.p.wall.bore
		for _, turn := range turns {
			if k > 0 && turn > x[k-1] && turn < b {
				x[k], m[k] = turn, l.mouth(turn)
				k++
			}
		}
		x[k], m[k] = b, l.mouth(b)
		k++
	}
	return changesOf(l.mouth, x[:k], m[:k], found)
}

// changesOf collects the points, rising, at which f changes its sign, from its
// values m at the points x. Without a change, nearest is where f comes closest
// to zero.
func changesOf(f func(float64) float64, x, m []float64, found *[8]float64) (n int, nearest float64) {
	add := func(a, b, ma, mb float64) {
		if n < len(found) {
			if z, err := root.FindBetween(f, a, b, ma, mb, 1e-8); err == nil {
				found[n] = z
				n++
			}
		}
	}
	closest := math.Inf(1)
	for i := 1; i < len(x); i++ {
		switch {
		case m[i-1]*m[i] < 0:
			add(x[i-1], x[i], m[i-1], m[i])
		case i+1 < len(x) && m[i]*m[i+1] > 0 && math.Abs(m[i]) < math.Abs(m[i-1]) && math.Abs(m[i]) < math.Abs(m[i+1]):
			// Closest to zero in between: look for a narrow window.
			z, mz := towardsZero(f, x[i-1], x[i], x[i+1], m[i])
			if mz*m[i] < 0 {
				add(x[i-1], z, m[i-1], mz)
				add(z, x[i+1], mz, m[i+1])
			} else if math.Abs(mz) < closest {
				closest, nearest = math.Abs(mz), z
			}
		}
	}
	return n, nearest
}

// towardsZero walks by golden sections from b, where f is nearest to zero, to
// the extreme of f between a and c and stops as soon as the sign changes.
func towardsZero(f func(float64) float64, a, b, c, fb float64) (x, fx float64) {
	const golden = 0.381966
	for range 12 {
		t := b + golden*(c-b)
		if b-a > c-b {
			t = b - golden*(b-a)
		}
		ft := f(t)
		if ft*fb < 0 {
			return t, ft
		}
		if math.Abs(ft) < math.Abs(fb) {
			if t > b {
				a = b
			} else {
				c = b
			}
			b, fb = t, ft
		} else if t > b {
			c = t
		} else {
			a = t
		}
	}
	return b, fb
}
