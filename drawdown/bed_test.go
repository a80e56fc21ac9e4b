package drawdown

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// bedSurvey samples a surface over a square or disc at random.
func bedSurvey(pts []SurveyPoint) Survey {
	return Survey{Points: pts, Sense: ElevationUp, Datum: "pond", PondDatum: "pond"}
}

func bedPoint(x, y, z float64) SurveyPoint {
	return SurveyPoint{units.Length(x), units.Length(y), units.Length(z)}
}

func bedCloud(rng *rand.Rand, n int, side float64, z func(x, y float64) float64) []SurveyPoint {
	pts := make([]SurveyPoint, n)
	for i := range pts {
		x, y := side*rng.Float64(), side*rng.Float64()
		pts[i] = bedPoint(x, y, z(x, y))
	}
	return pts
}

// bedSum is the storage of a bed summed triangle by triangle.
func bedSum(b Bed, h float64) (area, volume float64) {
	z := b.vertices.z
	for _, t := range b.triangles {
		a, v := triangleStorage(t.plan, z[t.corner[0]], z[t.corner[1]], z[t.corner[2]], h)
		area += a
		volume += v
	}
	return area, volume
}

// An inverted square pyramid, 20 m square and 2 m deep: A = 100 h^2, V = 100 h^3/3.
func TestBedOfAPyramid(t *testing.T) {
	b, err := bedSurvey([]SurveyPoint{bedPoint(0, 0, 2), bedPoint(20, 0, 2), bedPoint(20, 20, 2), bedPoint(0, 20, 2), bedPoint(10, 10, 0)}).Bed()
	require.NoError(t, err)
	for _, h := range []float64{0, 0.3, 1, 1.7, 2} {
		require.InDelta(t, 100*h*h, float64(b.Area(units.Length(h))), 1e-10)
		require.InDelta(t, 100*h*h*h/3, float64(b.Volume(units.Length(h))), 1e-10)
	}
	require.InDelta(t, 400*2.0/3+400, float64(b.Volume(3)), 1e-9)
	require.Equal(t, units.Length(0), b.Bottom())
	require.Equal(t, units.Length(2), b.Top())
	require.Equal(t, units.Length(2), b.Rim())
	require.Zero(t, b.Area(-1))
	require.Zero(t, b.Volume(-1))
	require.InDelta(t, 1.0, float64(b.Stage(100.0/3)), 1e-12)
	require.Equal(t, []units.Length{0, 2}, b.Corners())
	require.Equal(t, 4, b.Triangles())
	require.Equal(t, CodeSurveyNoShore, b.Notices[0].Code)
}

// The sums over sorted levels against the sum over single triangles, on beds
// with level patches, steps of a hundredth of a micrometre, and large offsets.
func TestBedAgainstSumOverTriangles(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	for round := range 12 {
		offset := 0.0
		if round%3 == 1 {
			offset = 1234.5
		}
		b, err := bedSurvey(bedCloud(rng, 400, 100, func(x, y float64) float64 {
			z := math.Hypot(x-50, y-50)/40 + 0.05*rng.Float64()
			switch rng.IntN(4) {
			case 0:
				z = math.Round(z*10) / 10 // level patches
			case 1:
				z = math.Round(z*10)/10 + 1e-8*rng.Float64() // almost level
			}
			return z + offset
		})).Bed()
		require.NoError(t, err)
		for range 200 {
			h := offset - 0.1 + 2.2*rng.Float64()
			if rng.IntN(3) == 0 {
				h = float64(b.Corners()[rng.IntN(len(b.Corners()))])
			}
			area, volume := bedSum(b, h)
			// Levels within a nanometre count as one: 1e-9 m over the 10,000 m2 of the survey at most,
			// and at a corner the area may lead or lag by that much.
			require.InDelta(t, volume, float64(b.Volume(units.Length(h))), levelJoin*100*100, "stage %v", h)
			lo, _ := bedSum(b, h-3e-9)
			hi, _ := bedSum(b, h+3e-9)
			got := float64(b.Area(units.Length(h)))
			require.True(t, got >= lo-1e-6 && got <= hi+1e-6, "stage %v: area %v, summed %v to %v around %v", h, got, lo, hi, area)
			if area > 1 {
				require.InDelta(t, h, float64(b.Stage(b.Volume(units.Length(h)))), 1e-10)
			}
		}
	}
}

func TestBedInvariance(t *testing.T) {
	rng := rand.New(rand.NewPCG(23, 24))
	pts := bedCloud(rng, 500, 80, func(x, y float64) float64 { return math.Sin(x/9) + math.Cos(y/7) })
	b, err := bedSurvey(pts).Bed()
	require.NoError(t, err)
	mixed, shifted, wide := slices.Clone(pts), slices.Clone(pts), slices.Clone(pts)
	rng.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
	for i := range pts {
		shifted[i].X += 4096
		shifted[i].Y -= 512
		wide[i].X *= 2
		wide[i].Y *= 2
	}
	bm, err := bedSurvey(mixed).Bed()
	require.NoError(t, err)
	bs, err := bedSurvey(shifted).Bed()
	require.NoError(t, err)
	bw, err := bedSurvey(wide).Bed()
	require.NoError(t, err)
	for h := units.Length(-2); h <= 2.5; h += 0.1 {
		v := float64(b.Volume(h))
		require.InDelta(t, v, float64(bm.Volume(h)), 1e-8)
		require.InDelta(t, v, float64(bs.Volume(h)), 1e-6)
		require.InDelta(t, 4*v, float64(bw.Volume(h)), 1e-7)
	}
}

func TestBedDerivativeIsArea(t *testing.T) {
	rng := rand.New(rand.NewPCG(25, 26))
	b, err := bedSurvey(bedCloud(rng, 300, 60, func(x, y float64) float64 { return 0.02*x + 0.3*rng.Float64() })).Bed()
	require.NoError(t, err)
	const d = 1e-5
	for range 300 {
		h := units.Length(1.5 * rng.Float64())
		slope := float64(b.Volume(h+d)-b.Volume(h-d)) / (2 * d)
		require.InDelta(t, float64(b.Area(h)), slope, 0.02)
	}
}

// A pond 40 x 30 m with banks 2:1 drawn by its shore and the toe of its banks
// as a breakline is exact although no point lies on the floor: floor 32 x 22.
func TestBedWithShoreAndBreaklines(t *testing.T) {
	shore := []SurveyPoint{bedPoint(0, 0, 2), bedPoint(40, 0, 2), bedPoint(40, 30, 2), bedPoint(0, 30, 2)}
	toe := []SurveyPoint{bedPoint(4, 4, 0), bedPoint(36, 4, 0), bedPoint(36, 26, 0), bedPoint(4, 26, 0), bedPoint(4, 4, 0)}
	land := []SurveyPoint{bedPoint(-10, -5, 9), bedPoint(50, 40, 9), bedPoint(45, -7, 9)}
	s := Survey{Points: land, Shore: shore, Breaklines: [][]SurveyPoint{toe, {bedPoint(0, 0, 2), bedPoint(4, 4, 0)}, {bedPoint(40, 0, 2), bedPoint(36, 4, 0)},
		{bedPoint(40, 30, 2), bedPoint(36, 26, 0)}, {bedPoint(0, 30, 2), bedPoint(4, 26, 0)}}, Sense: ElevationUp, Datum: "pond", PondDatum: "pond"}
	b, err := s.Bed()
	require.NoError(t, err)
	for _, h := range []float64{0.4, 1, 2} {
		l, w := 32+4*h, 22+4*h
		require.InDelta(t, l*w, float64(b.Area(units.Length(h))), 1e-9)
		mid := (32 + 2*h) * (22 + 2*h)
		require.InDelta(t, h/6*(32*22+4*mid+l*w), float64(b.Volume(units.Length(h))), 1e-9)
	}
	require.Equal(t, CodeSurveyOutside, b.Notices[0].Code)
	require.Equal(t, 3.0, b.Notices[0].Value)
	// An island in the middle takes its own column out.
	s.Islands = [][]SurveyPoint{{bedPoint(18, 13, 0), bedPoint(22, 13, 0), bedPoint(22, 17, 0), bedPoint(18, 17, 0)}}
	isle, err := s.Bed()
	require.NoError(t, err)
	require.InDelta(t, float64(b.Area(1))-16, float64(isle.Area(1)), 1e-9)
	require.InDelta(t, float64(b.Volume(1))-16, float64(isle.Volume(1)), 1e-9)
}

func TestBedAllocatesNothing(t *testing.T) {
	b, err := bedSurvey(bedCloud(rand.New(rand.NewPCG(1, 1)), 500, 100, func(x, y float64) float64 { return 0.01 * x })).Bed()
	require.NoError(t, err)
	var sink float64
	require.Zero(t, testing.AllocsPerRun(100, func() {
		sink += float64(b.Area(0.5)) + float64(b.Volume(0.7)) + float64(b.Stage(900)) + float64(b.Band(0.6).High)
	}))
	_ = sink
}

// Whole surveys to storage and band, on two cores of a 2020s server, go 1.26:
//
//	points     time     per point   per point and log2 n
//	1,000      2.2 ms   2.2 us      226 ns
//	10,000     31 ms    3.1 us      230 ns
//	100,000    0.33 s   3.3 us      197 ns
//	1,000,000  4.5 s    4.5 us      228 ns
//
// The last column stays level: time grows as n log n.
func BenchmarkSurveyBed(b *testing.B) {
	for _, n := range []int{1e3, 1e4, 1e5, 1e6} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			rng := rand.New(rand.NewPCG(1, 1))
			s := bedSurvey(bedCloud(rng, n, 200, func(x, y float64) float64 {
				return math.Hypot(x-100, y-100)/100 + 0.02*rng.NormFloat64()
			}))
			b.ReportAllocs()
			b.ResetTimer()
			for range b.N {
				if _, err := s.Bed(); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/(float64(n)*math.Log2(float64(n))), "ns/(n·log2n)")
		})
	}
}

func BenchmarkBedVolume(b *testing.B) {
	bed, err := bedSurvey(bedCloud(rand.New(rand.NewPCG(1, 1)), 1e5, 200, func(x, y float64) float64 { return math.Hypot(x-100, y-100) / 100 })).Bed()
	if err != nil {
		b.Fatal(err)
	}
	var s units.Volume
	for i := range b.N {
		s += bed.Volume(units.Length(i&1023) * 0.0014)
	}
	_ = s
}

func TestBedTable(t *testing.T) {
	f, err := os.Open("testdata/bed_points.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var pts []SurveyPoint
	for _, r := range rows[1:] {
		var v [3]float64
		for i, c := range r {
			v[i], err = strconv.ParseFloat(c, 64)
			require.NoError(t, err)
		}
		pts = append(pts, bedPoint(v[0], v[1], v[2]))
	}
	b, err := bedSurvey(pts).Bed()
	require.NoError(t, err)
	check.Run(t, "testdata/bed.csv", map[string]func(check.Row) (float64, error){
		"Bed.Area":   func(r check.Row) (float64, error) { return float64(b.Area(units.Length(r.Float("stage_m")))), nil },
		"Bed.Volume": func(r check.Row) (float64, error) { return float64(b.Volume(units.Length(r.Float("stage_m")))), nil },
		"Bed.Stage":  func(r check.Row) (float64, error) { return float64(b.Stage(units.Volume(r.Float("volume_m3")))), nil },
	})
}
