package delaunay

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// det returns the sign of the determinant in rational arithmetic.
func orientRat(a, b, c Point) int {
	r := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	sub := func(x, y float64) *big.Rat { return new(big.Rat).Sub(r(x), r(y)) }
	l := new(big.Rat).Mul(sub(a.X, c.X), sub(b.Y, c.Y))
	q := new(big.Rat).Mul(sub(a.Y, c.Y), sub(b.X, c.X))
	return l.Cmp(q)
}

func inCircleRat(a, b, c, d Point) int {
	r := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	sub := func(x, y float64) *big.Rat { return new(big.Rat).Sub(r(x), r(y)) }
	mul := func(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }
	row := func(p Point) (x, y, l *big.Rat) {
		x, y = sub(p.X, d.X), sub(p.Y, d.Y)
		return x, y, new(big.Rat).Add(mul(x, x), mul(y, y))
	}
	ax, ay, al := row(a)
	bx, by, bl := row(b)
	cx, cy, cl := row(c)
	cross := func(px, py, qx, qy *big.Rat) *big.Rat { return new(big.Rat).Sub(mul(px, qy), mul(qx, py)) }
	s := mul(al, cross(bx, by, cx, cy))
	s.Add(s, mul(bl, cross(cx, cy, ax, ay)))
	s.Add(s, mul(cl, cross(ax, ay, bx, by)))
	return s.Sign()
}

// Points a few units in the last place off a line or a circle: the plain
// determinant gets many of these wrong.
func TestPredicatesAgainstRationalArithmetic(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	plainWrong := 0
	nudge := func(v float64) float64 {
		for range rng.IntN(3) {
			v = math.Nextafter(v, math.Inf(1-2*rng.IntN(2)))
		}
		return v
	}
	for i := range 6000 {
		scale := math.Ldexp(1, rng.IntN(60)-30)
		var a, b, c, d Point
		switch i % 3 {
		case 0: // near a line, away from the origin
			// (Kettner et al. 2008, Classroom examples of robustness problems)
			a = Point{0.5 + 0x1p-53*float64(rng.IntN(64)), 0.5 + 0x1p-53*float64(rng.IntN(64))}
			s, k := 1+20*rng.Float64(), 1+3*rng.Float64()
			b = Point{nudge(s), nudge(s)}
			c = Point{nudge(k * s), nudge(k * s)}
			d = Point{nudge(-k * s), nudge(k * s)}
		case 1: // on a circle through integer points
			q := [][2]float64{{3, 4}, {4, 3}, {-3, 4}, {0, 5}, {5, 0}, {-4, -3}}
			rng.Shuffle(len(q), func(i, j int) { q[i], q[j] = q[j], q[i] })
			ox, oy := float64(rng.IntN(1000)), float64(rng.IntN(4e6))
			p := func(j int) Point { return Point{nudge(ox + q[j][0]), nudge(oy + q[j][1])} }
			a, b, c, d = p(0), p(1), p(2), p(3)
		default:
			p := func() Point { return Point{scale * rng.Float64(), scale * rng.NormFloat64()} }
			a, b, c, d = p(), p(), p(), p()
		}
		require.Equal(t, orientRat(a, b, c), Orient(a, b, c), "orient %v %v %v", a, b, c)
		require.Equal(t, inCircleRat(a, b, c, d), InCircle(a, b, c, d), "incircle %v %v %v %v", a, b, c, d)
		require.Equal(t, orientRat(a, b, c), orientExact(a, b, c))
		require.Equal(t, inCircleRat(a, b, c, d), inCircleExact(a, b, c, d))
		plain := (a.X-c.X)*(b.Y-c.Y) - (a.Y-c.Y)*(b.X-c.X)
		if s := orientRat(a, b, c); (s > 0) != (plain > 0) || (s < 0) != (plain < 0) {
			plainWrong++
		}
	}
	require.Greater(t, plainWrong, 100, "the cases must be hard enough for plain arithmetic to fail")
}

func randomPoints(rng *rand.Rand, n, kind int) []Point {
	pts := make([]Point, n)
	side := int(math.Ceil(math.Sqrt(float64(n))))
	for i := range pts {
		switch kind {
		case 0: // scattered
			pts[i] = Point{rng.Float64(), rng.Float64()}
		case 1: // grid: four points on a circle everywhere
			pts[i] = Point{float64(i % side), float64(i / side)}
		case 2: // few places: duplicates and collinear runs
			pts[i] = Point{float64(rng.IntN(6)), float64(rng.IntN(6))}
		case 3: // on a circle
			a := 2 * math.Pi * rng.Float64()
			pts[i] = Point{math.Cos(a), math.Sin(a)}
		case 4: // survey lines, far from the origin
			pts[i] = Point{500000 + 10*float64(i%5), 4.2e6 + 0.3*float64(i/5) + 0.01*rng.Float64()}
		}
	}
	return pts
}

// checkTopology verifies twins, Euler's count, orientation, and the global
// Delaunay property edge by edge, which implies it everywhere.
func checkTopology(t *testing.T, tr *Triangulation, n int) {
	t.Helper()
	for e := range tr.origin {
		e := int32(e)
		f := tr.twin[e]
		require.Equal(t, e, tr.twin[f])
		require.Equal(t, tr.origin[e], tr.origin[next(f)])
	}
	tris := tr.Triangles()
	h := len(tr.Hull())
	require.Equal(t, 2*(n-len(tr.duplicates))-2-h, len(tris), "triangles by Euler's formula")
	require.Equal(t, len(tr.origin)/3, len(tris)+h)
	for _, c := range tris {
		require.Positive(t, Orient(tr.pts[c[0]], tr.pts[c[1]], tr.pts[c[2]]))
	}
}

func checkDelaunay(t *testing.T, tr *Triangulation) {
	t.Helper()
	for e := range tr.origin {
		e := int32(e)
		if _, ok := tr.forced[key(tr.origin[e], tr.origin[next(e)])]; ok {
			continue
		}
		p := tr.origin[prev(e)]
		if p == none || tr.ghost(tr.twin[e]) >= 0 {
			continue
		}
		b := tr.twin[e] - tr.twin[e]%3
		in := InCircle(tr.pts[tr.origin[b]], tr.pts[tr.origin[b+1]], tr.pts[tr.origin[b+2]], tr.pts[p])
		require.LessOrEqual(t, in, 0, "edge %d-%d is not Delaunay", tr.origin[e], tr.origin[next(e)])
	}
}

func TestTriangulationIsDelaunay(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for kind := range 5 {
		for _, n := range []int{3, 4, 5, 7, 10, 33, 100, 700} {
			pts := randomPoints(rng, n, kind)
			tr, err := New(pts)
			if err != nil {
				require.Less(t, n, 8, "kind %d", kind) // few points may be collinear
				continue
			}
			checkTopology(t, tr, n)
			checkDelaunay(t, tr)
		}
	}
}

// canon lists triangles by the coordinates of their corners, so that it does
// not depend on point numbers.
func canon(pts []Point, tris [][3]int32) []string {
	out := make([]string, len(tris))
	for i, c := range tris {
		p := []Point{pts[c[0]], pts[c[1]], pts[c[2]]}
		slices.SortFunc(p, func(a, b Point) int {
			if less(a, b) {
				return -1
			}
			return 1
		})
		out[i] = fmt.Sprint(p)
	}
	slices.Sort(out)
	return out
}

func TestTriangulationDoesNotDependOnPointOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for kind := range 5 {
		pts := randomPoints(rng, 300, kind)
		tr, err := New(pts)
		require.NoError(t, err)
		want := canon(pts, tr.Triangles())
		for range 5 {
			mixed := slices.Clone(pts)
			rng.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
			tr, err := New(mixed)
			require.NoError(t, err)
			require.Equal(t, want, canon(mixed, tr.Triangles()), "kind %d", kind)
		}
	}
}

func TestBadPoints(t *testing.T) {
	_, err := New(nil)
	require.ErrorContains(t, err, "fewer than three")
	_, err = New([]Point{{0, 0}, {1, 1}, {2, 2}, {3, 3}, {3, 3}})
	require.ErrorContains(t, err, "one line")
	for _, v := range []float64{math.NaN(), math.Inf(1), 1e60, 1e-60} {
		_, err = New([]Point{{0, 0}, {1, 1}, {2, v}})
		require.ErrorContains(t, err, "point 2")
	}
	tr, err := New([]Point{{0, 0}, {1, 0}, {0, 1}, {1, 0}, {1, 0}})
	require.NoError(t, err)
	require.Len(t, tr.Duplicates(), 2)
	require.Len(t, tr.Triangles(), 1)
}

func TestConstrainedEdges(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for kind := range 5 {
		for round := range 20 {
			pts := randomPoints(rng, 60+round, kind)
			tr, err := New(pts)
			require.NoError(t, err)
			n := len(pts)
			forced, refused := 0, 0
			for range 25 {
				u, v := rng.IntN(n), rng.IntN(n)
				if tr.standIn(u) == tr.standIn(v) {
					continue
				}
				if err := tr.Constrain(u, v); err != nil {
					var c *CrossingError
					require.ErrorAs(t, err, &c)
					refused++
					continue
				}
				forced++
				// Every piece of the way is an edge now.
				for a := tr.standIn(u); a != tr.standIn(v); {
					w, crossed, err := tr.firstCrossing(a, tr.standIn(v))
					require.NoError(t, err)
					require.Negative(t, crossed)
					require.Contains(t, tr.forced, key(a, w))
					a = w
				}
			}
			require.Positive(t, forced)
			require.Positive(t, refused)
			checkTopology(t, tr, n)
			checkDelaunay(t, tr)
		}
	}
}

func triangleArea(pts []Point, tris [][3]int32) float64 {
	s := 0.0
	for _, c := range tris {
		a, b, d := pts[c[0]], pts[c[1]], pts[c[2]]
		s += 0.5 * ((b.X-a.X)*(d.Y-a.Y) - (b.Y-a.Y)*(d.X-a.X))
	}
	return s
}

// A square of 20 with a square island of 4 and a notch cut from one side:
// 400 - 16 - 3*10 = 354.
func TestRegionInsideRings(t *testing.T) {
	pts := []Point{{0, 0}, {20, 0}, {20, 20}, {13, 20}, {13, 10}, {10, 10}, {10, 20}, {0, 20}, // shore with a notch
		{4, 4}, {8, 4}, {8, 8}, {4, 8}} // island
	rng := rand.New(rand.NewPCG(11, 12))
	for range 400 {
		pts = append(pts, Point{30*rng.Float64() - 5, 30*rng.Float64() - 5}) // some outside
	}
	tr, err := New(pts)
	require.NoError(t, err)
	require.NoError(t, tr.Ring([]int{0, 1, 2, 3, 4, 5, 6, 7}))
	require.NoError(t, tr.Ring([]int{11, 10, 9, 8}))
	require.InDelta(t, 354, triangleArea(pts, tr.Inside()), 1e-9)
	checkTopology(t, tr, len(pts))
	checkDelaunay(t, tr)
	err = tr.Constrain(0, 3)
	var c *CrossingError
	require.ErrorAs(t, err, &c)
}

func BenchmarkNew(b *testing.B) {
	for _, n := range []int{1e3, 1e4, 1e5, 1e6} {
		for kind, name := range []string{"scattered", "grid"} {
			b.Run(fmt.Sprintf("%s/%d", name, n), func(b *testing.B) {
				pts := randomPoints(rand.New(rand.NewPCG(1, 1)), n, kind)
				b.ReportAllocs()
				for range b.N {
					if _, err := New(pts); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/point")
			})
		}
	}
}
