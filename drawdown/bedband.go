package drawdown

import (
	"cmp"
	"math"
	"slices"

	"pondwright.example/internal/delaunay"
	"pondwright.example/units"
)

// VolumeBand is a volume with what the survey cannot see: Hidden is the volume
// that flat triangles likely leave out of a bowl (negative over a mound),
// StandardError the uncertainty beside it, and Low to High the interval Volume
// + Hidden plus or minus two standard errors (about 95 %), cut off at zero.
type VolumeBand struct {
	Volume        units.Volume `json:"volume"`
	Hidden        units.Volume `json:"hidden"`
	StandardError units.Volume `json:"standardError"`
	Low           units.Volume `json:"low"`
	High          units.Volume `json:"high"`
}

func newVolumeBand(v, hidden, se float64) VolumeBand {
	mid := v + hidden
	return VolumeBand{units.Volume(v), units.Volume(hidden), units.Volume(se),
		units.Volume(math.Max(0, mid-2*se)), units.Volume(math.Max(0, mid+2*se))}
}

// bandTable holds, for rising point levels, running sums over the points up to
// each level, from which the band at any stage follows.
type bandTable struct {
	rows       []bandRow
	levelError float64
	typical    float64 // median |r|, what one point missing would do
}

type bandRow struct {
	level    float64
	variance float64 // sum (a r)^2
	rl, ll   float64 // sums of r l and l^2: the slope of the miss on the lift
	sag      float64 // sum over triangles of plan area times mean lift
}

// Band returns the volume below stage with an error band from the density of
// the points, which a surveyor would otherwise guess.
//
// Every point inside the shore is left out in turn and predicted from its
// neighbours; it misses by r. Two things make it miss. Roughness and rod
// errors are random from point to point: weighted with the third of the
// surrounding triangles that the point stands for (a), they add as the root of
// the sum of (a r)^2. Curvature is common to all: on the paraboloid
// z = k (x^2+y^2) a point misses by -k l, where l is its lift, the height of
// the prediction over the paraboloid with k = 1, and a triangle with sides
// s1, s2, s3 hides on average k (s1^2+s2^2+s3^2)/12. So a fit of r on l over
// all points under water tells how much volume the flat triangles hide.
//
// Equation: k = -sum(r l)/sum(l^2), Hidden = k sum(P (s1^2+s2^2+s3^2)/12),
// SE^2 = sum (a r)^2 + (Hidden/2)^2 + (LevelError A)^2.
//
// Source: leave-one-out cross-validation, common practice in terrain
// modelling; the curvature terms are derived by hand. Accuracy: in random
// surveys of smooth and rough bowls the interval held the true volume in 19
// cases of 20 or better; it is too narrow for soundings in widely spaced
// lines, of which a notice warns.
func (b Bed) Band(stage units.Length) VolumeBand {
	h := float64(stage)
	v := b.storage.volumeAt(h)
	lo, hi := -1, len(b.band.rows)
	for hi-lo > 1 {
		mid := int(uint(lo+hi) >> 1)
		if h < b.band.rows[mid].level {
			hi = mid
		} else {
			lo = mid
		}
	}
	if lo < 0 {
		return newVolumeBand(v, 0, 0)
	}
	r := b.band.rows[lo]
	hidden := 0.0
	if r.ll > 0 {
		hidden = -r.rl / r.ll * r.sag
	}
	hidden = math.Max(hidden, -v)
	common := b.band.levelError * b.storage.areaAt(h)
	return newVolumeBand(v, hidden, math.Sqrt(r.variance+hidden*hidden/4+common*common))
}

func (b *Bed) newBand(levelError float64, order []int32) {
	n := len(b.vertices.z)
	xy, z := b.vertices.xy, b.vertices.z
	share := make([]float64, n)
	sag := make([]float64, n)
	count := make([]int32, n+1)
	for _, t := range b.triangles {
		p, q, r := xy[t.corner[0]], xy[t.corner[1]], xy[t.corner[2]]
		sides := sq(p, q) + sq(q, r) + sq(r, p)
		for _, c := range t.corner {
			share[c] += t.plan / 3
			sag[c] += t.plan / 3 * sides / 12
			count[c+1]++
		}
	}
	for i := range n {
		count[i+1] += count[i]
	}
	around := make([]int32, count[n]) // triangles around each vertex
	at := slices.Clone(count[:n])
	for i, t := range b.triangles {
		for _, c := range t.corner {
			around[at[c]] = int32(i)
			at[c]++
		}
	}
	_, points := b.vertices.group(0)
	miss := make([]float64, n)
	lift := make([]float64, n)
	var sizes []float64
	var ring [maxRing]int32
	spike := newSpikes()
	for i := range points { // shore and breaklines are drawn, not sampled
		near := b.neighbours(int32(i), around[count[i]:count[i+1]], ring[:0])
		if r, l, ok := b.miss(int32(i), near); ok {
			miss[i], lift[i] = r, l
			sizes = append(sizes, math.Abs(r))
			spike.offer(i, r, z, near)
		}
	}
	b.band = bandTable{levelError: levelError, typical: median(sizes)}
	b.spikes(spike)
	b.lines()
	b.band.rows = make([]bandRow, len(order))
	var sum bandRow
	for k, i := range order {
		ar := share[i] * miss[i]
		sum.level = z[i]
		sum.variance += ar * ar
		sum.rl += miss[i] * lift[i]
		sum.ll += lift[i] * lift[i]
		sum.sag += sag[i]
		b.band.rows[k] = sum
	}
}

// maxRing is how many neighbours of a point predict it.
const maxRing = 12

// neighbours returns the other corners of the triangles around vertex i, the
// nearest twelve when there are more.
func (b *Bed) neighbours(i int32, around []int32, dst []int32) []int32 {
	all := dst
	for _, t := range around {
		for _, c := range b.triangles[t].corner {
			if c != i && !slices.Contains(all, c) {
				all = append(all, c)
			}
		}
	}
	if len(all) > maxRing {
		p := b.vertices.xy[i]
		far := func(j int32) float64 { q := b.vertices.xy[j]; return math.Hypot(q.X-p.X, q.Y-p.Y) }
		slices.SortFunc(all, func(j, k int32) int {
			return cmp.Or(cmp.Compare(far(j), far(k)), cmp.Compare(j, k))
		})
		all = all[:maxRing]
	}
	return all
}

// miss returns how far vertex i lies above the surface its neighbours would
// make without it, and its lift. Of the triangles of neighbours around the vertex, the
// Delaunay one is that whose plane through the points lifted onto the
// paraboloid x^2+y^2 is lowest at the vertex.
func (b *Bed) miss(i int32, near []int32) (r, lift float64, ok bool) {
	p := b.vertices.xy[i]
	z := b.vertices.z
	best, level := math.Inf(1), 0.0
	var o delaunay.Point
	var d [maxRing]delaunay.Point
	for k, j := range near {
		d[k] = delaunay.Point{X: b.vertices.xy[j].X - p.X, Y: b.vertices.xy[j].Y - p.Y}
	}
	cross := func(a, c delaunay.Point) float64 { return a.X*c.Y - a.Y*c.X }
	for a := range near {
		for c := a + 1; c < len(near); c++ {
			ac := cross(d[a], d[c])
			for e := c + 1; e < len(near); e++ {
				// Barycentric weights of the vertex, which is the origin.
				wa, wc, we := cross(d[c], d[e]), cross(d[e], d[a]), ac
				sum := wa + wc + we
				if sum < 0 {
					wa, wc, we, sum = -wa, -wc, -we, -sum
				}
				if !(wa >= 0 && wc >= 0 && we >= 0 && sum > 0) {
					continue
				}
				l := (wa*sq(d[a], o) + wc*sq(d[c], o) + we*sq(d[e], o)) / sum
				if l < best {
					best = l
					level = (wa*z[near[a]] + wc*z[near[c]] + we*z[near[e]]) / sum
				}
			}
		}
	}
	return z[i] - level, best, !math.IsInf(best, 1)
}

func sq(p, q delaunay.Point) float64 { return (p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y) }
