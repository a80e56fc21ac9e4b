// Package delaunay triangulates scattered points in the plane: Delaunay, with
// exact orientation and in-circle tests, optional edges that must appear
// (constraints) and rings that bound a region.
//
//   - expansion.go: exact sums and products of float64
//   - predicates.go: orientation and in-circle, filtered and exact
//   - order.go: insertion order along a Hilbert curve in random rounds
//   - triangulate.go: incremental insertion with edge flips
//   - constrain.go: forcing an edge into the triangulation
//   - region.go: the triangles inside rings
//
// The triangulation of a point set is unique whatever the order of the points:
// ties between points on one circle are broken by their coordinates. Expected
// time grows as n log n, memory as n.
package delaunay

import (
	"fmt"
	"math"
)

// Point is a place in the plane. Its unit is the caller's.
type Point struct{ X, Y float64 }

// Coordinates beyond these magnitudes could overflow or underflow in the exact
// tests. Survey coordinates in metres lie far inside.
const (
	smallestCoordinate = 1e-50
	largestCoordinate  = 1e50
)

// Valid tells whether both coordinates are finite and either zero or of a
// magnitude from 1e-50 to 1e50, so that the tests are exact.
func (p Point) Valid() bool { return validCoordinate(p.X) && validCoordinate(p.Y) }

func validCoordinate(v float64) bool {
	a := math.Abs(v)
	return a == 0 || a >= smallestCoordinate && a <= largestCoordinate
}

// PointError reports a point that cannot be triangulated.
type PointError struct {
	Index  int // of the point; -1 when it is the whole set
	Reason string
}

func (e *PointError) Error() string {
	if e.Index < 0 {
		return "delaunay: " + e.Reason
	}
	return fmt.Sprintf("delaunay: point %d: %s", e.Index, e.Reason)
}

// CrossingError reports a forced edge U-V that meets a forced edge A-B between
// their ends.
type CrossingError struct{ U, V, A, B int }

func (e *CrossingError) Error() string {
	return fmt.Sprintf("delaunay: the edge from point %d to %d crosses the edge from point %d to %d", e.U, e.V, e.A, e.B)
}
