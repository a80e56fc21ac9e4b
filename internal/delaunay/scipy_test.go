package delaunay

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// Point sets in general position have one Delaunay triangulation; SciPy's is
// the judge. testdata/make_scipy_delaunay.py wrote the table.
func TestTrianglesAgainstSciPy(t *testing.T) {
	f, err := os.Open("testdata/scipy_delaunay.csv")
	require.NoError(t, err)
	defer f.Close()
	rd := csv.NewReader(f)
	rd.Comment = '#'
	rows, err := rd.ReadAll()
	require.NoError(t, err)
	num := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	points := map[string][]Point{}
	want := map[string][][3]int32{}
	for _, r := range rows[1:] {
		if r[1] == "point" {
			points[r[0]] = append(points[r[0]], Point{num(r[2]), num(r[3])})
			continue
		}
		want[r[0]] = append(want[r[0]], [3]int32{int32(num(r[2])), int32(num(r[3])), int32(num(r[4]))})
	}
	require.Len(t, points, 3)
	for name, pts := range points {
		tr, err := New(pts)
		require.NoError(t, err)
		got := tr.Triangles()
		for i := range got {
			slices.Sort(got[i][:])
		}
		slices.SortFunc(got, func(a, b [3]int32) int { return slices.Compare(a[:], b[:]) })
		require.Equal(t, want[name], got, name)
	}
}
