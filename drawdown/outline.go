package drawdown

import "pondwright.example/internal/delaunay"

// selfCrossing returns the first pair of sides, each by its first corner, that
// cross or touch although they are not neighbours. Every pair is tried, which
// is quick for outlines of some thousands of corners.
func selfCrossing(corners []Corner) (i, j int, crosses bool) {
	n := len(corners)
	p := make([]delaunay.Point, n)
	for k, c := range corners {
		p[k] = delaunay.Point{X: float64(c.X), Y: float64(c.Y)}
	}
	for i := range n {
		a, b := p[i], p[(i+1)%n]
		lo, hi := min(a.X, b.X), max(a.X, b.X)
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue // neighbours round the end
			}
			c, d := p[j], p[(j+1)%n]
			if max(c.X, d.X) < lo || min(c.X, d.X) > hi {
				continue
			}
			if segmentsMeet(a, b, c, d) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// segmentsMeet tells exactly whether two segments have a point in common.
func segmentsMeet(a, b, c, d delaunay.Point) bool {
	o1, o2 := delaunay.Orient(a, b, c), delaunay.Orient(a, b, d)
	o3, o4 := delaunay.Orient(c, d, a), delaunay.Orient(c, d, b)
	if o1 != o2 && o3 != o4 {
		return true
	}
	return o1 == 0 && within(a, b, c) || o2 == 0 && within(a, b, d) || o3 == 0 && within(c, d, a) || o4 == 0 && within(c, d, b)
}

// within tells whether q, on the line through a and b, lies between them.
func within(a, b, q delaunay.Point) bool {
	return min(a.X, b.X) <= q.X && q.X <= max(a.X, b.X) && min(a.Y, b.Y) <= q.Y && q.Y <= max(a.Y, b.Y)
}
