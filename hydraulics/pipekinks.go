package hydraulics

import (
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// searchBores is how far from the still level a change of control is looked
// for, and kinkPoints in how many steps, spaced geometrically from searchFirst.
const (
	searchBores = 20.0
	searchFirst = 1e-4
	kinkPoints  = 16
)

// kinks appends to dst the levels hi at which the governing limb changes while
// lo stays, up to searchBores above the first level that gives flow.
func (p *pipeLimbs) kinks(lo float64, dst []units.Length) []units.Length {
	base := math.Max(p.mouth, lo)
	return limbLine{p, base, lo, 1, 0}.changes(dst, base, 1)
}

// backKinks appends the levels lo of the receiving side, below the giving side
// at hi, at which the slope of flow(hi, lo) jumps.
func (p *pipeLimbs) backKinks(hi float64, dst []units.Length) []units.Length {
	if hi <= p.mouth {
		return dst
	}
	for _, z := range [...]float64{p.mouth, p.brink, p.brink + 0.5*p.wall.bore} {
		if z < hi {
			dst = append(dst, units.Length(z))
		}
	}
	return limbLine{p, hi, hi, 0, -1}.changes(dst, hi, -1)
}

// limbLine is a line of states of a pipe, hi + x up and lo + x down.
type limbLine struct {
	p        *pipeLimbs
	hi, lo   float64
	up, down float64
}

// at compares the limbs at x: the mouth with the length, scaled to between -1
// and 1, and the full pipe with the part-full one.
func (l limbLine) at(x float64) (mouth, length float64) {
	hi, lo := l.hi+l.up*x, l.lo+l.down*x
	full, part := l.p.full(hi, lo), l.p.partFull(hi, lo)
	length = full - part
	if l.p.admitted == 0 {
		return 1, length
	}
	carried, m := math.Max(full, part), l.p.admits(hi, lo)
	if sum := m + carried; sum > 0 {
		mouth = (m - carried) / sum
	}
	return mouth, length
}

// changes appends origin + sign·x for every x > 0 at which another limb takes
// over. The two differences are each smooth but for the corner that the change
// between full and part-full puts into the first, so that corner is found first
// and made a point of the search.
func (l limbLine) changes(dst []units.Length, origin, sign float64) []units.Length {
	mouth := func(x float64) float64 { m, _ := l.at(x); return m }
	length := func(x float64) float64 { _, d := l.at(x); return d }
	add := func(x float64) { dst = append(dst, units.Length(origin+sign*x)) }

	var x, m [kinkPoints + 1]float64
	n := 0
	ratio := math.Pow(searchBores/searchFirst, 1.0/(kinkPoints-1))
	b, before := searchFirst*l.p.wall.bore, 0.0
	for i := range kinkPoints {
		mi, d := l.at(b)
		if i > 0 && n == i && before*d < 0 {
			if z, err := root.FindBetween(length, x[n-1], b, before, d, 1e-9); err == nil {
				x[n], m[n] = z, mouth(z)
				if m[n] > 0 {
					add(z)
				}
				n++
			}
		}
		x[n], m[n], before = b, mi, d
		n++
		b *= ratio
	}
	for i := 1; i < n; i++ {
		switch {
		case m[i-1]*m[i] < 0:
			if z, err := root.FindBetween(mouth, x[i-1], x[i], m[i-1], m[i], 1e-9); err == nil {
				add(z)
			}
		case i+1 < n && m[i]*m[i+1] > 0 && math.Abs(m[i]) < math.Abs(m[i-1]) && math.Abs(m[i]) < math.Abs(m[i+1]):
			// Closest to zero in between: look for a narrow window.
			if z, mz := towardsZero(mouth, x[i-1], x[i], x[i+1], m[i]); mz*m[i] < 0 {
				lo, hi := x[i-1], x[i+1]
				z1, err1 := root.FindBetween(mouth, lo, z, m[i-1], mz, 1e-9)
				z2, err2 := root.FindBetween(mouth, z, hi, mz, m[i+1], 1e-9)
				if err1 == nil && err2 == nil {
					add(z1)
					add(z2)
				}
			}
		}
	}
	return dst
}

// towardsZero walks by golden sections from b, where f is nearest to zero, to
// the extreme of f between a and c and stops as soon as the sign changes.
func towardsZero(f func(float64) float64, a, b, c, fb float64) (x, fx float64) {
	const golden = 0.381966
	for range 24 {
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
