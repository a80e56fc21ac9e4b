package drawdown

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"pondwright.example/units"
)

// Pool is a hollow of the bed that keeps water, and the animals in it, when the
// pond has run out.
type Pool struct {
	X       units.Length `json:"x"` // of its deepest point
	Y       units.Length `json:"y"`
	Bottom  units.Length `json:"bottom"` // level there
	Spill   units.Length `json:"spill"`  // level to which it stays full
	Volume  units.Volume `json:"volume"`
	Area    units.Area   `json:"area"`              // when full
	AtDrain bool         `json:"atDrain,omitempty"` // the water below the outlet's own sill
}

// Stranding is the water that cannot run out of a bed by gravity.
type Stranding struct {
	Volume units.Volume `json:"volume"` // of all pools
	Pools  []Pool       `json:"pools"`  // largest first
}

// Stranded returns the water that stays in the bed when it runs out over sill
// through an outlet at the surveyed point nearest to x, y: the dead storage,
// hollow by hollow. Each must be ditched to the drain, pumped or fished.
//
// The answer is exact for the surface of triangles: every point drains over the
// lowest pass on its way to the outlet. Errors: a place or sill that is not
// finite.
//
// Source: minimax path from the outlet (priority flood; Barnes, Lehman & Mulla
// 2014, Computers & Geosciences 62, 117-127), on the edges of the triangles.
func (b Bed) Stranded(x, y, sill units.Length) (Stranding, error) {
	const fn = "drawdown.Bed.Stranded"
	if err := errors.Join(units.Finite(fn, "x", float64(x), "m"), units.Finite(fn, "y", float64(y), "m"),
		units.Finite(fn, "sill", float64(sill), "m")); err != nil {
		return Stranding{}, err
	}
	if len(b.triangles) == 0 {
		return Stranding{}, &units.InputError{Func: fn, Field: "bed", Value: 0, Unit: "triangles", Reason: "the bed is empty: build it with Survey.Bed"}
	}
	first, next := b.edges()
	drain := b.nearest(float64(x), float64(y), first)
	pass := b.passes(drain, float64(sill), first, next)
	return b.pools(drain, pass), nil
}

// edges returns the neighbours of every vertex in one list: those of vertex i
// stand at next[first[i]:first[i+1]], each once per triangle.
func (b Bed) edges() (first, next []int32) {
	n := len(b.vertices.z)
	first = make([]int32, n+1)
	for _, t := range b.triangles {
		for _, c := range t.corner {
			first[c+1] += 2
		}
	}
	for i := range n {
		first[i+1] += first[i]
	}
	next = make([]int32, first[n])
	at := slices.Clone(first[:n])
	for _, t := range b.triangles {
		for k, c := range t.corner {
			next[at[c]], next[at[c]+1] = t.corner[(k+1)%3], t.corner[(k+2)%3]
			at[c] += 2
		}
	}
	return first, next
}

func (b Bed) nearest(x, y float64, first []int32) int32 {
	best, low := int32(-1), math.Inf(1)
	for i, p := range b.vertices.xy {
		if first[i+1] == first[i] {
			continue
		}
		if d := math.Hypot(p.X-x, p.Y-y); d < low {
			best, low = int32(i), d
		}
	}
	return best
}

// passes returns for every vertex the level that the water over it falls to.
func (b Bed) passes(drain int32, sill float64, first, next []int32) []float64 {
	z := b.vertices.z
	pass := make([]float64, len(z))
	for i := range pass {
		pass[i] = math.Inf(1)
	}
	q := levelQueue{}
	pass[drain] = math.Max(z[drain], sill)
	q.push(drain, pass[drain])
	for len(q) > 0 {
		i, level := q.pop()
		if level > pass[i] {
			continue
		}
		for _, j := range next[first[i]:first[i+1]] {
			if over := math.Max(level, z[j]); over < pass[j] {
				pass[j] = over
				q.push(j, over)
			}
		}
	}
	return pass
}

// pools gathers the hollows: two corners of one triangle that both keep water
// keep the same.
func (b Bed) pools(drain int32, pass []float64) Stranding {
	z := b.vertices.z
	wet := func(i int32) bool { return !math.IsInf(pass[i], 1) && pass[i] > z[i] }
	root := make([]int32, len(z))
	for i := range root {
		root[i] = int32(i)
	}
	find := func(i int32) int32 {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for _, t := range b.triangles {
		for k := range 3 {
			if p, q := t.corner[k], t.corner[(k+1)%3]; wet(p) && wet(q) {
				root[find(p)] = find(q)
			}
		}
	}
	pools := map[int32]*Pool{}
	for _, t := range b.triangles {
		for _, c := range t.corner {
			if !wet(c) {
				continue
			}
			r := find(c)
			p := pools[r]
			if p == nil {
				p = &Pool{Bottom: units.Length(math.Inf(1)), Spill: units.Length(pass[c])}
				pools[r] = p
			}
			for _, k := range t.corner {
				if wet(k) && units.Length(z[k]) < p.Bottom {
					p.X, p.Y, p.Bottom = units.Length(b.vertices.xy[k].X), units.Length(b.vertices.xy[k].Y), units.Length(z[k])
				}
			}
			a, v := triangleStorage(t.plan, z[t.corner[0]], z[t.corner[1]], z[t.corner[2]], pass[c])
			p.Area += units.Area(a)
			p.Volume += units.Volume(v)
			break // one pool per triangle
		}
	}
	var s Stranding
	for r, p := range pools {
		p.AtDrain = wet(drain) && find(drain) == r
		s.Pools = append(s.Pools, *p)
	}
	slices.SortFunc(s.Pools, func(a, b Pool) int {
		return cmp.Or(-cmp.Compare(a.Volume, b.Volume), cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	for _, p := range s.Pools {
		s.Volume += p.Volume
	}
	return s
}

// levelQueue is a binary heap of vertices, lowest level first.
type levelQueue []levelItem

type levelItem struct {
	level  float64
	vertex int32
}

func (q *levelQueue) push(v int32, level float64) {
	*q = append(*q, levelItem{level, v})
	h := *q
	for i := len(h) - 1; i > 0; {
		up := (i - 1) / 2
		if h[up].level <= h[i].level {
			break
		}
		h[up], h[i] = h[i], h[up]
		i = up
	}
}

func (q *levelQueue) pop() (int32, float64) {
	h := *q
	top := h[0]
	last := len(h) - 1
	h[0] = h[last]
	h = h[:last]
	for i := 0; ; {
		c := 2*i + 1
		if c >= last {
			break
		}
		if c+1 < last && h[c+1].level < h[c].level {
			c++
		}
		if h[i].level <= h[c].level {
			break
		}
		h[i], h[c] = h[c], h[i]
		i = c
	}
	*q = h
	return top.vertex, top.level
}
