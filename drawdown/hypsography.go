package drawdown

import (
	"cmp"
	"math"
	"slices"
)

// hypsography is the exact storage of a surface of triangles: between two
// neighbouring corner levels the wet area is quadratic in stage and the volume
// cubic, so one row per level holds it all. Between rows i and i+1, with
// x = h - stage[i],
//
//	A = area + slope x + curve x^2/2, V = volume + area x + slope x^2/2 + curve x^3/6
//
// Source: summed over the triangles, derived from the formulas of
// TriangleStorage.
type hypsography []hypsoRow

type hypsoRow struct{ stage, area, slope, curve, volume float64 }

// levelJoin is the distance within which corner levels count as one. Below it
// a triangle's slope would swamp the sum of all others.
const levelJoin = 1e-9

// bedTriangle is a triangle of the bed: its corners and its area in plan.
type bedTriangle struct {
	corner [3]int32
	plan   float64
}

// newHypsography sums triangles over vertex levels z; order holds the vertices
// in use by rising level. The sums run in double-double arithmetic because a
// nearly level triangle enters and leaves with terms many orders larger than
// what they leave behind.
func newHypsography(z []float64, triangles []bedTriangle, order []int32) hypsography {
	levels, rank := rankLevels(z, order)
	if len(levels) == 0 {
		return nil
	}
	type change struct{ area, slope, curve twofold }
	at := make([]change, len(levels))
	for _, t := range triangles {
		r1, r2, r3 := rank[t.corner[0]], rank[t.corner[1]], rank[t.corner[2]]
		if r1 > r2 {
			r1, r2 = r2, r1
		}
		if r2 > r3 {
			r2, r3 = r3, r2
		}
		if r1 > r2 {
			r1, r2 = r2, r1
		}
		plan := twofold{t.plan, 0}
		if r1 == r3 {
			at[r1].area = at[r1].area.plus(plan)
			continue
		}
		twice := twofold{2 * t.plan, 0}
		d13 := twofoldSum(levels[r3], -levels[r1])
		steep := twice.over(d13) // dA/dh at the middle corner
		if r1 == r2 {
			at[r1].slope = at[r1].slope.plus(steep)
		} else {
			c := steep.over(twofoldSum(levels[r2], -levels[r1]))
			at[r1].curve = at[r1].curve.plus(c)
			at[r2].curve = at[r2].curve.minus(c)
		}
		if r2 == r3 {
			at[r3].slope = at[r3].slope.minus(steep)
		} else {
			c := steep.over(twofoldSum(levels[r3], -levels[r2]))
			at[r2].curve = at[r2].curve.minus(c)
			at[r3].curve = at[r3].curve.plus(c)
		}
	}
	rows := make(hypsography, len(levels))
	var area, slope, curve, volume twofold
	for i, h := range levels {
		if i > 0 {
			x := twofoldSum(h, -levels[i-1])
			half := twofold{0.5, 0}
			third := twofold{1, 0}.over(twofold{3, 0})
			cx := curve.times(x)
			sx := slope.times(x)
			volume = volume.plus(x.times(area.plus(half.times(sx.plus(third.times(cx.times(x)))))))
			area = area.plus(sx).plus(half.times(cx.times(x)))
			slope = slope.plus(cx)
		}
		area = area.plus(at[i].area)
		slope = slope.plus(at[i].slope)
		curve = curve.plus(at[i].curve)
		rows[i] = hypsoRow{h, math.Max(0, area.value()), slope.value(), curve.value(), math.Max(0, volume.value())}
	}
	top := &rows[len(rows)-1]
	top.slope, top.curve = 0, 0
	return rows
}

// byLevel returns the vertices that the triangles use, by rising level.
func byLevel(z []float64, triangles []bedTriangle) []int32 {
	used := make([]bool, len(z))
	for _, t := range triangles {
		for _, c := range t.corner {
			used[c] = true
		}
	}
	order := make([]int32, 0, len(z))
	for i := range z {
		if used[i] {
			order = append(order, int32(i))
		}
	}
	slices.SortFunc(order, func(a, b int32) int { return cmp.Or(cmp.Compare(z[a], z[b]), cmp.Compare(a, b)) })
	return order
}

// rankLevels returns the distinct levels of the vertices in order, rising, and
// the place of every vertex in them.
func rankLevels(z []float64, order []int32) (levels []float64, rank []int32) {
	rank = make([]int32, len(z))
	for _, i := range order {
		if n := len(levels); n == 0 || z[i]-levels[n-1] > levelJoin {
			levels = append(levels, z[i])
		}
		rank[i] = int32(len(levels) - 1)
	}
	return levels, rank
}

// find returns the row that holds stage h: -1 below the first.
func (y hypsography) find(h float64) int {
	lo, hi := -1, len(y)
	for hi-lo > 1 {
		mid := int(uint(lo+hi) >> 1)
		if h < y[mid].stage {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

func (y hypsography) areaAt(h float64) float64 {
	i := y.find(h)
	if i < 0 {
		return 0
	}
	r := &y[i]
	x := h - r.stage
	return math.Max(0, r.area+x*(r.slope+0.5*r.curve*x))
}

func (y hypsography) volumeAt(h float64) float64 {
	i := y.find(h)
	if i < 0 {
		return 0
	}
	return y[i].volumeAt(h - y[i].stage)
}

func (r *hypsoRow) volumeAt(x float64) float64 {
	return r.volume + x*(r.area+x*(r.slope/2+r.curve*x/6))
}

// stageOf inverts volumeAt by Newton steps kept inside a shrinking bracket.
func (y hypsography) stageOf(v float64) float64 {
	if len(y) == 0 {
		return 0
	}
	lo, hi := 0, len(y)
	for hi-lo > 1 {
		mid := int(uint(lo+hi) >> 1)
		if v < y[mid].volume {
			hi = mid
		} else {
			lo = mid
		}
	}
	r := &y[lo]
	if !(v > r.volume) {
		return r.stage
	}
	if lo == len(y)-1 {
		if r.area <= 0 {
			return r.stage
		}
		return r.stage + (v-r.volume)/r.area
	}
	a, b := 0.0, y[lo+1].stage-r.stage
	x := b * (v - r.volume) / (y[lo+1].volume - r.volume)
	for range 100 {
		f := r.volumeAt(x) - v
		if f == 0 || b-a <= 1e-15*(1+math.Abs(r.stage)) {
			break
		}
		if f > 0 {
			b = x
		} else {
			a = x
		}
		step := f / (r.area + x*(r.slope+0.5*r.curve*x))
		next := x - step
		if !(next > a && next < b) {
			next = 0.5 * (a + b)
		}
		if next == x {
			break
		}
		x = next
	}
	return r.stage + x
}
