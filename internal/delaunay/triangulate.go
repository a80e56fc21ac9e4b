package delaunay

// none is the vertex at infinity that closes the hull: every hull edge borders
// a ghost triangle with none as a corner.
const none int32 = -1

// Triangulation is a set of triangles that cover the convex hull of the
// points. Triangle t has the half-edges 3t, 3t+1, 3t+2 in counter-clockwise
// order; origin holds the vertex where a half-edge starts and twin the same
// edge seen from the neighbouring triangle. It is not safe for concurrent
// changes.
type Triangulation struct {
	pts        []Point
	origin     []int32
	twin       []int32
	last       int32             // a half-edge near the last insertion
	duplicates []Duplicate       // points left out because they repeat another
	same       map[int32]int32   // repeated point to the one that stands for it
	vertexEdge []int32           // a half-edge starting at each vertex; built for constraints
	forced     map[[2]int32]edge // constrained edges by their ends, lower index first
	stack      []int32
}

// edge says what a forced edge is for.
type edge struct{ ring bool }

// Duplicate is a point with the very coordinates of an earlier-inserted one.
type Duplicate struct{ Index, Of int }

// New triangulates pts. It needs three points that are not on one line. Points
// that repeat others are left out and listed by Duplicates.
func New(pts []Point) (*Triangulation, error) {
	for i, p := range pts {
		if !p.Valid() {
			return nil, &PointError{i, "coordinates must be finite and of a magnitude a survey can have"}
		}
	}
	order := insertionOrder(pts)
	t := &Triangulation{pts: pts, same: map[int32]int32{}, forced: map[[2]int32]edge{}}
	t.origin = make([]int32, 0, 6*len(pts)+12)
	t.twin = make([]int32, 0, 6*len(pts)+12)
	first, ok := t.firstTriangle(order)
	if !ok {
		return nil, &PointError{-1, "the points lie on one line, or there are fewer than three of them"}
	}
	for i, v := range order {
		if i == first[0] || i == first[1] || i == first[2] {
			continue
		}
		t.insert(v)
	}
	return t, nil
}

// firstTriangle starts from the first three points in order that span a
// triangle and returns their places in order.
func (t *Triangulation) firstTriangle(order []int32) (at [3]int, ok bool) {
	n := len(order)
	if n < 3 {
		return at, false
	}
	p := func(i int) Point { return t.pts[order[i]] }
	j := 1
	for j < n && p(j) == p(0) {
		j++
	}
	k := j + 1
	for k < n && Orient(p(0), p(j), p(k)) == 0 {
		k++
	}
	if k >= n {
		return at, false
	}
	a, b, c := order[0], order[j], order[k]
	if Orient(t.pts[a], t.pts[b], t.pts[c]) < 0 {
		b, c = c, b
	}
	t.add(a, b, c)
	t.add(b, a, none)
	t.add(c, b, none)
	t.add(a, c, none)
	t.link(0, 3)
	t.link(1, 6)
	t.link(2, 9)
	t.link(4, 11) // a-infinity
	t.link(5, 7)  // infinity-b
	t.link(8, 10) // infinity-c
	return [3]int{0, j, k}, true
}

func (t *Triangulation) add(a, b, c int32) int32 {
	e := int32(len(t.origin))
	t.origin = append(t.origin, a, b, c)
	t.twin = append(t.twin, 0, 0, 0)
	return e
}

func (t *Triangulation) set(e, a, b, c int32) {
	t.origin[e], t.origin[e+1], t.origin[e+2] = a, b, c
}

func (t *Triangulation) link(e, f int32) { t.twin[e], t.twin[f] = f, e }

func next(e int32) int32 {
	if e%3 == 2 {
		return e - 2
	}
	return e + 1
}

func prev(e int32) int32 {
	if e%3 == 0 {
		return e + 2
	}
	return e - 1
}

// ghost returns the half-edge of the triangle of e that starts at infinity, or
// -1 when all corners are points.
func (t *Triangulation) ghost(e int32) int32 {
	b := e - e%3
	for i := b; i < b+3; i++ {
		if t.origin[i] == none {
			return i
		}
	}
	return -1
}

// insert adds point v and restores the Delaunay property.
func (t *Triangulation) insert(v int32) {
	p := t.pts[v]
	e, on := t.locate(p)
	switch on {
	case onVertex:
		t.duplicates = append(t.duplicates, Duplicate{int(v), int(t.origin[e])})
		t.same[v] = t.origin[e]
		return
	case onEdge:
		t.splitEdge(e, v)
	default:
		t.splitTriangle(e-e%3, v)
	}
	for len(t.stack) > 0 {
		e := t.stack[len(t.stack)-1]
		t.stack = t.stack[:len(t.stack)-1]
		f := t.twin[e]
		if !t.conflict(f, p) {
			continue
		}
		a, b := t.flip(e)
		t.stack = append(t.stack, a, b)
	}
}

type place uint8

const (
	inTriangle place = iota
	onEdge
	onVertex
)

// locate walks towards p and returns a half-edge of the triangle that holds
// it, the half-edge it lies on, or one that starts at the vertex it equals.
// Outside the hull the triangle is a ghost whose hull edge sees p.
func (t *Triangulation) locate(p Point) (int32, place) {
	e := t.last
	if g := t.ghost(e); g >= 0 {
		e = t.twin[next(g)]
	}
	entered := int32(-1)
walk:
	for {
		b := e - e%3
		zeros, zero := 0, int32(0)
		for i := b; i < b+3; i++ {
			if i == entered {
				continue
			}
			switch Orient(t.pts[t.origin[i]], t.pts[t.origin[next(i)]], p) {
			case -1:
				e = t.twin[i]
				entered = e
				if t.ghost(e) >= 0 {
					return e, inTriangle
				}
				continue walk
			case 0:
				zeros++
				zero = i
			}
		}
		switch zeros {
		case 0:
			return e, inTriangle
		case 1:
			// On an end of that edge when the edge we came through is the other zero.
			if t.pts[t.origin[zero]] == p {
				return zero, onVertex
			}
			if t.pts[t.origin[next(zero)]] == p {
				return next(zero), onVertex
			}
			return zero, onEdge
		default:
			for i := b; i < b+3; i++ {
				if t.pts[t.origin[i]] == p {
					return i, onVertex
				}
			}
			return zero, onEdge // not reached with exact tests
		}
	}
}

// conflict tells whether p lies in the circle through the corners of the
// triangle of f; for a ghost, on the outer side of its hull edge or inside the
// edge itself.
func (t *Triangulation) conflict(f int32, p Point) bool {
	g := t.ghost(f)
	if g < 0 {
		b := f - f%3
		return inside(t.pts[t.origin[b]], t.pts[t.origin[b+1]], t.pts[t.origin[b+2]], p)
	}
	u, v := t.pts[t.origin[next(g)]], t.pts[t.origin[prev(g)]]
	switch Orient(u, v, p) {
	case 1:
		return true
	case 0:
		return less(u, p) == less(p, v) && p != u && p != v
	}
	return false
}

// splitTriangle puts v inside the triangle that starts at half-edge e. In
// every new triangle v is the last corner; the edges opposite go on the stack.
func (t *Triangulation) splitTriangle(e, v int32) {
	a, b, c := t.origin[e], t.origin[e+1], t.origin[e+2]
	tb, tc := t.twin[e+1], t.twin[e+2]
	t.set(e, a, b, v)
	f := t.add(b, c, v)
	g := t.add(c, a, v)
	t.link(f, tb)
	t.link(g, tc)
	t.link(e+1, f+2)
	t.link(f+1, g+2)
	t.link(g+1, e+2)
	t.stack = append(t.stack, e, f, g)
	t.last = e
}

// splitEdge puts v on the half-edge e, splitting the triangles on both sides.
func (t *Triangulation) splitEdge(e, v int32) {
	h := t.twin[e]
	a, b := t.origin[e], t.origin[h]
	c, d := t.origin[prev(e)], t.origin[prev(h)]
	bc, ca := t.twin[next(e)], t.twin[prev(e)]
	ad, db := t.twin[next(h)], t.twin[prev(h)]
	t0, t2 := e-e%3, h-h%3
	t.set(t0, b, c, v)
	t.set(t2, a, d, v)
	t1 := t.add(c, a, v)
	t3 := t.add(d, b, v)
	t.link(t0, bc)
	t.link(t1, ca)
	t.link(t2, ad)
	t.link(t3, db)
	t.link(t0+1, t1+2)
	t.link(t1+1, t2+2)
	t.link(t2+1, t3+2)
	t.link(t3+1, t0+2)
	t.stack = append(t.stack, t0, t1, t2, t3)
	t.last = t0
}

// flip turns the edge e of two triangles x y p and y x q into the edge p q and
// returns the half-edges x-q and q-y, whose triangles have p as last corner.
func (t *Triangulation) flip(e int32) (xq, qy int32) {
	f := t.twin[e]
	x, y, p, q := t.origin[e], t.origin[f], t.origin[prev(e)], t.origin[prev(f)]
	yp, px := t.twin[next(e)], t.twin[prev(e)]
	txq, tqy := t.twin[next(f)], t.twin[prev(f)]
	a, b := e-e%3, f-f%3
	t.set(a, x, q, p)
	t.set(b, q, y, p)
	t.link(a, txq)
	t.link(a+2, px)
	t.link(b, tqy)
	t.link(b+1, yp)
	t.link(a+1, b+2)
	t.last = a
	return a, b
}

// Triangles returns the corners of every triangle of points, turning left, in
// a fixed order.
func (t *Triangulation) Triangles() [][3]int32 {
	out := make([][3]int32, 0, len(t.origin)/3)
	for e := 0; e < len(t.origin); e += 3 {
		if t.origin[e] != none && t.origin[e+1] != none && t.origin[e+2] != none {
			out = append(out, [3]int32{t.origin[e], t.origin[e+1], t.origin[e+2]})
		}
	}
	return out
}

// Duplicates lists the points left out, each with the point it repeats.
func (t *Triangulation) Duplicates() []Duplicate { return t.duplicates }

// Hull returns the points on the edge of the triangulation in counter-clockwise
// order.
func (t *Triangulation) Hull() []int32 {
	start := int32(-1)
	for e := int32(0); e < int32(len(t.origin)); e++ {
		if t.origin[e] == none {
			start = next(e)
			break
		}
	}
	var hull []int32
	for e := start; ; {
		// e runs along the hull clockwise, seen from outside.
		hull = append(hull, t.origin[e])
		e = next(t.twin[next(e)])
		if e == start {
			break
		}
	}
	for i, j := 0, len(hull)-1; i < j; i, j = i+1, j-1 {
		hull[i], hull[j] = hull[j], hull[i]
	}
	return hull
}
