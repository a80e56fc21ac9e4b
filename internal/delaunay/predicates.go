package delaunay

import "math"

// unitRoundoff is half the distance from 1 to the next float64.
const unitRoundoff = 0x1p-53

// Error bounds of the plain determinants relative to their permanents.
//
// Source: Shewchuk (1997), as in expansion.go, section 4.2, p. 339 (ccwerrboundA) and section 4.3
// (iccerrboundA).
const (
	orientBound   = (3 + 16*unitRoundoff) * unitRoundoff
	inCircleBound = (10 + 96*unitRoundoff) * unitRoundoff
)

// Orient returns +1 when a, b, c turn left (counter-clockwise), -1 when they
// turn right and 0 when they lie on one line, exactly, for coordinates that
// [Valid] accepts.
func Orient(a, b, c Point) int {
	left := float64((a.X - c.X) * (b.Y - c.Y))
	right := float64((a.Y - c.Y) * (b.X - c.X))
	det := left - right
	if bound := orientBound * (math.Abs(left) + math.Abs(right)); det > bound {
		return 1
	} else if det < -bound {
		return -1
	}
	return orientExact(a, b, c)
}

func orientExact(a, b, c Point) int {
	var m [6][32]float64
	acx := difference(m[0][:0], a.X, c.X)
	bcy := difference(m[1][:0], b.Y, c.Y)
	acy := difference(m[2][:0], a.Y, c.Y)
	bcx := difference(m[3][:0], b.X, c.X)
	det := times(m[4][:0], acx, bcy)
	right := times(m[5][:0], acy, bcx)
	for _, t := range right {
		det = det.grow(-t)
	}
	return det.sign()
}

// InCircle returns +1 when d lies inside the circle through a, b, c (which
// must turn left), -1 when it lies outside and 0 when the four are on one
// circle, exactly, for coordinates that [Valid] accepts.
func InCircle(a, b, c, d Point) int {
	adx, ady := a.X-d.X, a.Y-d.Y
	bdx, bdy := b.X-d.X, b.Y-d.Y
	cdx, cdy := c.X-d.X, c.Y-d.Y

	bcl, bcr := float64(bdx*cdy), float64(cdx*bdy)
	cal, car := float64(cdx*ady), float64(adx*cdy)
	abl, abr := float64(adx*bdy), float64(bdx*ady)
	alift := float64(adx*adx) + float64(ady*ady)
	blift := float64(bdx*bdx) + float64(bdy*bdy)
	clift := float64(cdx*cdx) + float64(cdy*cdy)

	det := float64(alift*(bcl-bcr)) + float64(blift*(cal-car)) + float64(clift*(abl-abr))
	permanent := float64((math.Abs(bcl)+math.Abs(bcr))*alift) +
		float64((math.Abs(cal)+math.Abs(car))*blift) +
		float64((math.Abs(abl)+math.Abs(abr))*clift)
	if bound := inCircleBound * permanent; det > bound {
		return 1
	} else if det < -bound {
		return -1
	}
	return inCircleExact(a, b, c, d)
}

func inCircleExact(a, b, c, d Point) int {
	var diff [6][2]float64
	adx, ady := difference(diff[0][:0], a.X, d.X), difference(diff[1][:0], a.Y, d.Y)
	bdx, bdy := difference(diff[2][:0], b.X, d.X), difference(diff[3][:0], b.Y, d.Y)
	cdx, cdy := difference(diff[4][:0], c.X, d.X), difference(diff[5][:0], c.Y, d.Y)
	// Up to 8 terms in a product of two differences, 16 in a sum of two of
	// those, 512 in the product of two such sums, 1536 in the determinant.
	// Survey coordinates on a grid stay at one term each.
	var small [3][32]float64
	var big [2][64]float64
	term := func(px, py, qx, qy, rx, ry expansion) expansion { // |p|^2 (q x r)
		s := plus(small[0][:0], times(small[1][:0], px, px), times(small[2][:0], py, py))
		cross := times(small[1][:0], qx, ry)
		for _, t := range times(small[2][:0], rx, qy) {
			cross = cross.grow(-t)
		}
		return times(big[0][:0], s, cross)
	}
	det := expansion(big[1][:0])
	for _, t := range term(adx, ady, bdx, bdy, cdx, cdy) {
		det = det.grow(t)
	}
	for _, t := range term(bdx, bdy, cdx, cdy, adx, ady) {
		det = det.grow(t)
	}
	for _, t := range term(cdx, cdy, adx, ady, bdx, bdy) {
		det = det.grow(t)
	}
	return det.sign()
}

// less orders points by x, then y.
func less(a, b Point) bool { return a.X < b.X || a.X == b.X && a.Y < b.Y }

// inside tells whether d lies inside the circle through a, b, c, with ties
// broken as if every point's height on the paraboloid x^2+y^2 were raised by
// an amount too small to see that is far larger for points later in the order
// of less. Points on one circle, as on every cell of a grid, so get one
// triangulation whatever order they come in.
//
// Source: Devillers & Teillaud (2011), Perturbations for Delaunay and weighted
// Delaunay 3D triangulations, Computational Geometry 44, section 3.
func inside(a, b, c, d Point) bool {
	if s := InCircle(a, b, c, d); s != 0 {
		return s > 0
	}
	p := [4]Point{a, b, c, d}
	order := [4]int{0, 1, 2, 3}
	for i := 1; i < 4; i++ { // largest first
		for j := i; j > 0 && less(p[order[j-1]], p[order[j]]); j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	for _, k := range order {
		s := 0 // sign of the cofactor of the raised height in the determinant
		switch k {
		case 0:
			s = Orient(b, c, d)
		case 1:
			s = -Orient(a, c, d)
		case 2:
			s = Orient(a, b, d)
		case 3:
			return false // raising d lifts it off the plane of a, b, c
		}
		if s != 0 {
			return s > 0
		}
	}
	return false
}
