package delaunay

// Constrain forces the edge between points u and v into the triangulation,
// split at every point that lies on it, by flipping the edges it crosses and
// then flipping back to the Delaunay property wherever that edge allows it.
// It fails with a *CrossingError when the edge crosses one forced earlier; the
// triangulation stays valid but the edge may then be partly in.
//
// Source: Sloan (1993), A fast algorithm for generating constrained Delaunay
// triangulations, Computers & Structures 47, pp. 441-450.
func (t *Triangulation) Constrain(u, v int) error {
	return t.constrain(t.standIn(u), t.standIn(v), false)
}

// Ring forces the closed polygon through the points, in either direction, and
// marks it as a border between inside and outside.
func (t *Triangulation) Ring(points []int) error {
	for i, p := range points {
		if err := t.constrain(t.standIn(p), t.standIn(points[(i+1)%len(points)]), true); err != nil {
			return err
		}
	}
	return nil
}

// standIn returns the point that stands for i in the triangulation.
func (t *Triangulation) standIn(i int) int32 {
	if s, ok := t.same[int32(i)]; ok {
		return s
	}
	return int32(i)
}

func key(u, v int32) [2]int32 {
	if u > v {
		u, v = v, u
	}
	return [2]int32{u, v}
}

func (t *Triangulation) constrain(u, v int32, ring bool) error {
	t.indexVertices()
	for u != v {
		w, crossed, err := t.firstCrossing(u, v)
		if err != nil {
			return err
		}
		if crossed >= 0 {
			var path [][2]int32
			w, path, err = t.crossings(u, v, crossed)
			if err != nil {
				return err
			}
			t.clear(u, w, path)
		}
		k := key(u, w)
		f, had := t.forced[k]
		if ring {
			f.ring = !had || !f.ring // two rings along one edge cancel
		}
		t.forced[k] = f
		u = w
	}
	return nil
}

// indexVertices finds a half-edge out of every vertex.
func (t *Triangulation) indexVertices() {
	if t.vertexEdge != nil {
		return
	}
	t.vertexEdge = make([]int32, len(t.pts))
	for e, v := range t.origin {
		if v != none {
			t.vertexEdge[v] = int32(e)
		}
	}
}

// firstCrossing looks around u along the way to v. It returns the next point
// on the way when an edge leads there, else the half-edge of the first
// triangle's far side that the way crosses.
func (t *Triangulation) firstCrossing(u, v int32) (w, crossed int32, err error) {
	pu, pv := t.pts[u], t.pts[v]
	start := t.vertexEdge[u]
	for e := start; ; {
		x, y := t.origin[next(e)], t.origin[prev(e)]
		if x == v || y == v {
			return v, -1, nil
		}
		ox, oy := 1, -1
		if x != none {
			ox = Orient(pu, pv, t.pts[x])
			if ox == 0 && ahead(pu, pv, t.pts[x]) {
				return x, -1, nil
			}
		}
		if y != none {
			oy = Orient(pu, pv, t.pts[y])
		}
		if x != none && y != none && ox < 0 && oy > 0 {
			return v, next(e), nil
		}
		e = t.twin[prev(e)]
		if e == start {
			return 0, -1, &PointError{int(u), "no way from here to the end of a forced edge"}
		}
	}
}

// ahead tells whether x, on the line through u and v, lies on v's side of u.
func ahead(u, v, x Point) bool { return less(u, v) == less(u, x) }

// crossings lists the edges that the way from u to v crosses, starting with
// half-edge e, up to v or to a point on the way.
func (t *Triangulation) crossings(u, v, e int32) (w int32, path [][2]int32, err error) {
	pu, pv := t.pts[u], t.pts[v]
	for {
		x, y := t.origin[e], t.origin[next(e)] // x right of the way, y left
		if _, ok := t.forced[key(x, y)]; ok {
			return 0, nil, &CrossingError{int(u), int(v), int(x), int(y)}
		}
		path = append(path, [2]int32{x, y})
		f := t.twin[e]
		w = t.origin[prev(f)]
		if w == v {
			return w, path, nil
		}
		switch Orient(pu, pv, t.pts[w]) {
		case 0:
			return w, path, nil
		case 1: // w left: the way leaves between x and w
			e = next(f)
		default:
			e = prev(f)
		}
	}
}

// clear flips the crossed edges away until u-w is an edge, then restores the
// Delaunay property of the edges it made.
func (t *Triangulation) clear(u, w int32, path [][2]int32) {
	pu, pw := t.pts[u], t.pts[w]
	var made [][2]int32
	for len(path) > 0 {
		xy := path[0]
		path = path[1:]
		e := t.find(xy[0], xy[1])
		f := t.twin[e]
		x, y, p, q := t.origin[e], t.origin[f], t.origin[prev(e)], t.origin[prev(f)]
		// The edge can turn when the two triangles form a convex quadrilateral.
		if Orient(t.pts[p], t.pts[x], t.pts[q]) <= 0 || Orient(t.pts[q], t.pts[y], t.pts[p]) <= 0 {
			path = append(path, xy)
			continue
		}
		t.turn(e)
		if p != u && p != w && q != u && q != w && Orient(pu, pw, t.pts[p])*Orient(pu, pw, t.pts[q]) < 0 {
			path = append(path, [2]int32{p, q})
		} else {
			made = append(made, [2]int32{p, q})
		}
	}
	wall := key(u, w)
	for again := true; again; {
		again = false
		for i, xy := range made {
			if key(xy[0], xy[1]) == wall {
				continue
			}
			e := t.find(xy[0], xy[1])
			f := t.twin[e]
			p, q := t.origin[prev(e)], t.origin[prev(f)]
			if p == none || q == none || !t.conflict(f, t.pts[p]) {
				continue
			}
			t.turn(e)
			made[i] = [2]int32{p, q}
			again = true
		}
	}
}

// turn flips the edge e and keeps the vertex index right.
func (t *Triangulation) turn(e int32) {
	a, b := t.flip(e)
	for _, s := range [2]int32{a, b} {
		for i := s; i < s+3; i++ {
			if v := t.origin[i]; v != none {
				t.vertexEdge[v] = i
			}
		}
	}
}

// find returns the half-edge from u to v, which must be an edge.
func (t *Triangulation) find(u, v int32) int32 {
	for e := t.vertexEdge[u]; ; {
		if t.origin[next(e)] == v {
			return e
		}
		e = t.twin[prev(e)]
	}
}
