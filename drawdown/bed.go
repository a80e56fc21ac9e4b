package drawdown

import (
	"fmt"
	"math"

	"pondwright.example/units"
)

// Bed is a pond bed as a surface of triangles between surveyed points, with
// its exact storage: the area is piecewise quadratic and the volume piecewise
// cubic in stage, with no interpolation between levels. Build one with
// [Survey.Bed]; it is immutable and safe for concurrent use, and Area, Volume
// and Stage allocate nothing. It has no JSON form: write its Survey.
//
// The shore stands as a vertical wall: above [Bed.Rim] the lowest point of the
// shore is under water and a real pond would spread or spill there.
type Bed struct {
	Notices []units.Notice `json:"notices"` // what the survey's reader should know

	storage   hypsography
	triangles []bedTriangle
	vertices  *surveyVertices
	band      bandTable
	rim       float64
}

// Bed triangulates the survey and sums its storage exactly. It takes three to
// five microseconds per point (see BenchmarkSurveyBed); time grows as n log n.
// A drawdown runs faster on the bed as a table, which [Tabulate] makes.
//
// It fails, with every fault of the input at once where that is possible, on
// values that are not finite, on two levels at one place, on lines that cross,
// on a datum without a known offset ([ErrDatumMissing]), and on depths mixed
// with elevations, which it recognises by neighbours of opposite sign and like
// size. Notices tell of points outside the shore, a missing shore, spikes, and
// soundings in lines too far apart for their spacing along the line.
//
// Source: Delaunay triangulation of the points with shore, islands and
// breaklines as forced edges; storage derived in [TriangleStorage].
func (s Survey) Bed() (Bed, error) {
	v, err := s.vertices()
	if err != nil {
		return Bed{}, err
	}
	tr, corners, notices, err := s.mesh(v)
	if err != nil {
		return Bed{}, err
	}
	if err := s.checkSense(v, corners); err != nil {
		return Bed{}, err
	}
	b := Bed{Notices: notices, vertices: v, triangles: make([]bedTriangle, len(corners))}
	for i, c := range corners {
		p, q, r := v.xy[c[0]], v.xy[c[1]], v.xy[c[2]]
		b.triangles[i] = bedTriangle{c, 0.5 * ((q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X))}
	}
	order := byLevel(v.z, b.triangles)
	b.storage = newHypsography(v.z, b.triangles, order)
	b.rim = s.rim(v, tr.Hull())
	b.outside()
	b.newBand(float64(s.LevelError), order)
	return b, nil
}

// rim returns the lowest level of the shore, or of the hull without one.
func (s Survey) rim(v *surveyVertices, hull []int32) float64 {
	low := math.Inf(1)
	if len(s.Shore) > 0 {
		first, n := v.group(1)
		for _, z := range v.z[first : first+n] {
			low = math.Min(low, z)
		}
		return low
	}
	for _, i := range hull {
		low = math.Min(low, v.z[i])
	}
	return low
}

// outside tells how many surveyed points the shore leaves out.
func (b *Bed) outside() {
	used := make([]bool, len(b.vertices.z))
	for _, t := range b.triangles {
		for _, c := range t.corner {
			used[c] = true
		}
	}
	_, n := b.vertices.group(0)
	out := 0
	for _, u := range used[:n] {
		if !u {
			out++
		}
	}
	if out > 0 && len(b.vertices.start) > 1 {
		b.Notices = append(b.Notices, units.Notice{Code: CodeSurveyOutside, Severity: units.Info, Field: "points",
			Value: float64(out), Unit: "points",
			Message: fmt.Sprintf("points outside the shore, on an island or repeating a corner were left out: %d", out)})
	}
}

// Bottom returns the lowest level of the bed, where the pond is empty.
func (b Bed) Bottom() units.Length {
	if len(b.storage) == 0 {
		return 0
	}
	return units.Length(b.storage[0].stage)
}

// Top returns the highest level of the surveyed surface.
func (b Bed) Top() units.Length {
	if len(b.storage) == 0 {
		return 0
	}
	return units.Length(b.storage[len(b.storage)-1].stage)
}

// Rim returns the lowest level along the shore (along the hull when no shore
// was given): the highest stage at which the pond holds water by its own bed.
func (b Bed) Rim() units.Length { return units.Length(b.rim) }

// Area returns the water surface at stage, zero below the bottom and that of
// the whole pond above the top.
func (b Bed) Area(stage units.Length) units.Area {
	return units.Area(b.storage.areaAt(float64(stage)))
}

// Volume returns the water below stage, zero below the bottom; above the top
// the shore stands as a wall. Hollows count as full to stage; [Bed.Stranded]
// tells what cannot run out of them.
func (b Bed) Volume(stage units.Length) units.Volume {
	return units.Volume(b.storage.volumeAt(float64(stage)))
}

// Stage returns the stage at which the pond holds volume: the inverse of
// Volume, the bottom for a volume of zero or less.
func (b Bed) Stage(volume units.Volume) units.Length {
	return units.Length(b.storage.stageOf(float64(volume)))
}

// Corners returns the distinct levels of the surveyed points, rising: between
// two of them the area is one quadratic. The slice is fresh.
func (b Bed) Corners() []units.Length {
	c := make([]units.Length, len(b.storage))
	for i, r := range b.storage {
		c[i] = units.Length(r.stage)
	}
	return c
}

// Triangles returns how many triangles make up the bed.
func (b Bed) Triangles() int { return len(b.triangles) }
