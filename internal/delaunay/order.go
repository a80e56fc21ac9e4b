package delaunay

import (
	"math/bits"
	"slices"
)

// insertionOrder returns the indices of pts in rounds of about doubling size,
// chosen by a fixed hash of the index, each round along a Hilbert curve: the
// random rounds keep the expected work at n log n for any input, the curve
// keeps the next point near the last.
//
// Source: Amenta, Choi & Rote (2003), Incremental constructions con BRIO,
// Symposium on Computational Geometry, pp. 211-219.
func insertionOrder(pts []Point) []int32 {
	if len(pts) == 0 {
		return nil
	}
	lo, hi := pts[0], pts[0]
	for _, p := range pts[1:] {
		lo.X, lo.Y = min(lo.X, p.X), min(lo.Y, p.Y)
		hi.X, hi.Y = max(hi.X, p.X), max(hi.Y, p.Y)
	}
	span := max(hi.X-lo.X, hi.Y-lo.Y)
	scale := 0.0
	if span > 0 {
		scale = (1<<hilbertBits - 1) / span
	}
	rounds := bits.Len(uint(len(pts)))
	type keyed struct {
		key   uint64
		index int32
	}
	keys := make([]keyed, len(pts))
	for i, p := range pts {
		round := rounds - min(rounds, bits.TrailingZeros64(mix(uint64(i))))
		h := hilbert(uint32((p.X-lo.X)*scale), uint32((p.Y-lo.Y)*scale))
		keys[i] = keyed{uint64(round)<<(2*hilbertBits) | h, int32(i)}
	}
	slices.SortFunc(keys, func(a, b keyed) int {
		switch {
		case a.key < b.key:
			return -1
		case a.key > b.key:
			return 1
		}
		return int(a.index) - int(b.index)
	})
	order := make([]int32, len(keys))
	for i, k := range keys {
		order[i] = k.index
	}
	return order
}

const hilbertBits = 26 // per axis; 52 in all leave 12 for the round

// hilbert returns the position of a cell along the Hilbert curve.
func hilbert(x, y uint32) uint64 {
	var d uint64
	for s := uint32(1) << (hilbertBits - 1); s > 0; s >>= 1 {
		var rx, ry uint32
		if x&s != 0 {
			rx = 1
		}
		if y&s != 0 {
			ry = 1
		}
		d = d<<2 | uint64(3*rx^ry)
		if ry == 0 { // rotate the quadrant
			if rx == 1 {
				x, y = ^x, ^y
			}
			x, y = y, x
		}
	}
	return d
}

// mix scatters an index over 64 bits (the finisher of splitmix64).
func mix(z uint64) uint64 {
	z += 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}
