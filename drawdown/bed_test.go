package drawdown

import (
	"encoding/csv"
	"encoding/json"
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

func TestBedFromDepths(t *testing.T) {
	off := units.Length(-0.25)
	s := Survey{
		Points:     []SurveyPoint{bedPoint(0, 0, 0), bedPoint(20, 0, 0), bedPoint(20, 20, 0), bedPoint(0, 20, 0), bedPoint(10, 10, 2)},
		Sense:      DepthDown,
		WaterLevel: Level{2.5 * units.Metre, "staff gauge"},
		PondDatum:  "outlet invert",
		Ties:       []DatumTie{{From: "staff gauge", To: "outlet invert", Offset: &off}},
	}
	b, err := s.Bed()
	require.NoError(t, err)
	require.InDelta(t, 0.25, float64(b.Bottom()), 1e-12)
	require.InDelta(t, 2.25, float64(b.Rim()), 1e-12)
	s.Ties[0].Offset = nil
	_, err = s.Bed()
	require.ErrorIs(t, err, ErrDatumMissing)
	require.ErrorContains(t, err, "water_level")
	s.Sense, s.Datum = ElevationUp, "national"
	_, err = s.Bed()
	require.ErrorIs(t, err, ErrDatumMissing)
	s.PondDatum = ""
	_, err = s.Bed()
	require.ErrorContains(t, err, "pond_datum")
	s.Sense = 0
	s.PondDatum = "outlet invert"
	_, err = s.Bed()
	require.ErrorContains(t, err, "positive up (ElevationUp), or a depth below the water, positive down (DepthDown)")
}

func TestBedRefusesMixedConventions(t *testing.T) {
	rng := rand.New(rand.NewPCG(27, 28))
	bowl := func(x, y float64) float64 { return -1.3 + 0.2*math.Hypot(x-50, y-50)/50 + 0.02*rng.NormFloat64() }
	for _, share := range []float64{0.01, 0.1, 0.5, 0.9} {
		pts := bedCloud(rng, 500, 100, bowl)
		n := 0
		for i := range pts {
			if rng.Float64() < share {
				pts[i].Z = -pts[i].Z
				n++
			}
		}
		require.Positive(t, n)
		for _, sense := range []VerticalSense{ElevationUp, DepthDown} {
			s := bedSurvey(pts)
			s.Sense, s.WaterLevel = sense, Level{0, "pond"}
			_, err := s.Bed()
			require.ErrorIs(t, err, units.ErrDomain)
			require.ErrorContains(t, err, "depths are positive down from the water surface, elevations positive up")
			require.ErrorContains(t, err, fmt.Sprintf("%d values are positive and %d negative", n, 500-n))
		}
		s := bedSurvey(pts)
		s.MirrorSafe = true
		_, err := s.Bed()
		require.NoError(t, err)
	}
	// One half of the pond surveyed the other way.
	pts := bedCloud(rng, 500, 100, bowl)
	for i := range pts {
		if pts[i].X > 50 {
			pts[i].Z = -pts[i].Z
		}
	}
	_, err := bedSurvey(pts).Bed()
	require.ErrorContains(t, err, "mixed")
	// A bed that really crosses zero is left alone.
	_, err = bedSurvey(bedCloud(rng, 500, 100, func(x, y float64) float64 { return -1 + 0.02*x + 0.05*rng.NormFloat64() })).Bed()
	require.NoError(t, err)
	// So is a dike at +0.8 round a bed at -1.2.
	_, err = bedSurvey(bedCloud(rng, 500, 100, func(x, y float64) float64 {
		if math.Min(math.Min(x, y), math.Min(100-x, 100-y)) < 8 {
			return 0.8 + 0.02*rng.NormFloat64()
		}
		return -1.2 + 0.02*rng.NormFloat64()
	})).Bed()
	require.NoError(t, err)
}

func TestBedRefusesTheWrongSense(t *testing.T) {
	rng := rand.New(rand.NewPCG(29, 30))
	shore := []SurveyPoint{bedPoint(0, 0, 0), bedPoint(100, 0, 0), bedPoint(100, 100, 0), bedPoint(0, 100, 0)}
	depths := bedCloud(rng, 200, 100, func(x, y float64) float64 { return 1 + 0.2*rng.Float64() })
	s := Survey{Points: depths, Shore: shore, Sense: ElevationUp, Datum: "pond", PondDatum: "pond"}
	_, err := s.Bed()
	require.ErrorContains(t, err, "above its shore")
	for i := range s.Points {
		s.Points[i].Z = -s.Points[i].Z
	}
	_, err = s.Bed()
	require.NoError(t, err)
	s.Sense, s.WaterLevel = DepthDown, Level{0, "pond"}
	_, err = s.Bed()
	require.ErrorContains(t, err, "no depth is positive")
}

func TestBedRefusesBadPoints(t *testing.T) {
	ok := []SurveyPoint{bedPoint(0, 0, 1), bedPoint(9, 0, 1), bedPoint(9, 9, 1), bedPoint(0, 9, 1), bedPoint(4, 4, 0)}
	with := func(p ...SurveyPoint) Survey { return bedSurvey(append(slices.Clone(ok), p...)) }
	for _, c := range []struct {
		name string
		s    Survey
		want []string
	}{
		{"none", bedSurvey(nil), []string{"span no area"}},
		{"on one line", bedSurvey([]SurveyPoint{bedPoint(0, 0, 1), bedPoint(1, 1, 1), bedPoint(2, 2, 1)}), []string{"span no area"}},
		{"not a number", with(bedPoint(1, 2, math.NaN()), bedPoint(math.Inf(1), 2, 1)), []string{"points[5].z", "points[6].x"}},
		{"two levels at one place", with(bedPoint(4, 4, 0.2)), []string{"points[5].z", "points[4] and points[5] stand at one place (4, 4) with two levels, 0 and 0.2 m"}},
		{"shore too short", Survey{Points: ok, Shore: ok[:2], Sense: ElevationUp, Datum: "p", PondDatum: "p"}, []string{"shore", "three points"}},
		{"shore crosses itself", Survey{Points: ok, Shore: []SurveyPoint{bedPoint(0, 0, 1), bedPoint(9, 9, 1), bedPoint(9, 0, 1), bedPoint(0, 9, 1)}, Sense: ElevationUp, Datum: "p", PondDatum: "p"}, []string{"shore", "crosses"}},
		{"level error", Survey{Points: ok, Sense: ElevationUp, Datum: "p", PondDatum: "p", LevelError: -1}, []string{"level_error"}},
		{"breakline of one", Survey{Points: ok, Breaklines: [][]SurveyPoint{ok[:1]}, Sense: ElevationUp, Datum: "p", PondDatum: "p"}, []string{"breaklines[0]", "two points"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := c.s.Bed()
			require.ErrorIs(t, err, units.ErrDomain)
			for _, w := range c.want {
				require.ErrorContains(t, err, w)
			}
		})
	}
	b, err := with(bedPoint(4, 4, 0)).Bed()
	require.NoError(t, err)
	require.Equal(t, CodeSurveyDuplicate, b.Notices[0].Code)
}

// bandPond is a pond of known volume for the band test: a disc of radius 50
// with bed z(r) or z(x, y), water at 1.5.
type bandPond struct {
	z      func(x, y float64) float64
	volume float64
}

func bandPonds() map[string]bandPond {
	// Volumes by fine polar quadrature of 1.5 - z.
	volume := func(z func(x, y float64) float64) float64 {
		v := 0.0
		const nr, na = 400, 400
		for i := range nr {
			r := 50 * (float64(i) + 0.5) / nr
			for j := range na {
				a := 2 * math.Pi * (float64(j) + 0.5) / na
				v += (1.5 - z(r*math.Cos(a), r*math.Sin(a))) * r * 50 / nr * 2 * math.Pi / na
			}
		}
		return v
	}
	ponds := map[string]bandPond{}
	for name, z := range map[string]func(x, y float64) float64{
		"bowl": func(x, y float64) float64 { return 1.5 * (x*x + y*y) / 2500 },
		"levee": func(x, y float64) float64 { // flat floor, banks of 10 m
			return 1.5 * math.Max(0, (math.Hypot(x, y)-40)/10)
		},
		"valley": func(x, y float64) float64 { // a ditch along x in a bowl
			return 1.5*(x*x+y*y)/2500 - 0.5*math.Exp(-y*y/50)*(1-(x*x+y*y)/2500)
		},
	} {
		ponds[name] = bandPond{z, volume(z)}
	}
	return ponds
}

// Random surveys of ponds with a known volume: the interval must hold the truth
// 95 times of 100 or better, and still say something.
func TestBedBandHoldsTheTruth(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	ponds := bandPonds()
	for _, name := range []string{"bowl", "levee", "valley"} {
		pond := ponds[name]
		for _, c := range []struct {
			rough  float64
			points int
		}{{0, 200}, {0.05, 200}, {0.02, 60}, {0.05, 1500}} {
			const rounds = 100
			held, off, width := 0, 0.0, 0.0
			for range rounds {
				var shore []SurveyPoint
				for i := range 200 {
					a := 2 * math.Pi * float64(i) / 200
					shore = append(shore, bedPoint(50*math.Cos(a), 50*math.Sin(a), 1.5))
				}
				pts := make([]SurveyPoint, 0, c.points)
				for len(pts) < c.points {
					x, y := 100*rng.Float64()-50, 100*rng.Float64()-50
					if math.Hypot(x, y) < 49.5 {
						pts = append(pts, bedPoint(x, y, pond.z(x, y)+c.rough*rng.NormFloat64()))
					}
				}
				s := bedSurvey(pts)
				s.Shore = shore
				b, err := s.Bed()
				require.NoError(t, err)
				band := b.Band(1.5)
				width += float64(band.StandardError) / rounds
				z := (pond.volume - float64(band.Volume+band.Hidden)) / float64(band.StandardError)
				off += z * z / rounds
				if float64(band.Low) <= pond.volume && pond.volume <= float64(band.High) {
					held++
				}
			}
			t.Logf("%s, %d points, roughness %g: held %d of %d, standard error %.2g %% of the volume, root mean square of error over it %.2g",
				name, c.points, c.rough, held, rounds, 100*width/pond.volume, math.Sqrt(off))
			require.GreaterOrEqual(t, held, 95, name)
			require.Less(t, width, 0.1*pond.volume, "the band must not be so wide as to say nothing")
		}
	}
}

func TestBedNotices(t *testing.T) {
	rng := rand.New(rand.NewPCG(33, 34))
	codes := func(b Bed) []string {
		var c []string
		for _, n := range b.Notices {
			c = append(c, n.Code)
		}
		return c
	}
	pts := bedCloud(rng, 400, 100, func(x, y float64) float64 { return 0.01*x + 0.01*rng.NormFloat64() })
	b, err := bedSurvey(pts).Bed()
	require.NoError(t, err)
	require.NotContains(t, codes(b), CodeSurveySpike)
	require.NotContains(t, codes(b), CodeSurveyLines)
	pts[77] = bedPoint(51, 47, 10)
	b, err = bedSurvey(pts).Bed()
	require.NoError(t, err)
	require.Contains(t, codes(b), CodeSurveySpike)
	for _, n := range b.Notices {
		if n.Code == CodeSurveySpike {
			require.Equal(t, "points[77].z", n.Field)
		}
	}
	var lines []SurveyPoint
	for i := range 10 {
		for j := range 100 {
			lines = append(lines, bedPoint(10*float64(i)+0.1*rng.Float64(), float64(j)+0.1*rng.Float64(), 0.02*rng.NormFloat64()))
		}
	}
	b, err = bedSurvey(lines).Bed()
	require.NoError(t, err)
	require.Contains(t, codes(b), CodeSurveyLines)
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

// Any bytes as a survey: a bed or an error, never a panic or a NaN.
func FuzzSurveyBed(f *testing.F) {
	f.Add([]byte{0, 0, 1, 9, 0, 1, 9, 9, 1, 0, 9, 1, 4, 4, 0}, uint8(4), uint8(2))
	f.Add([]byte{0, 0, 1, 1, 1, 1, 2, 2, 1, 3, 3, 2, 3, 0, 0, 0, 3, 5}, uint8(0), uint8(6))
	f.Fuzz(func(t *testing.T, data []byte, shore, lines uint8) {
		var pts []SurveyPoint
		for i := 0; i+2 < len(data) && i < 600; i += 3 {
			pts = append(pts, bedPoint(float64(data[i]%16), float64(data[i+1]%16), float64(int8(data[i+2]))/16))
		}
		s := bedSurvey(pts)
		if n := int(shore) % 16; n > 0 && n <= len(pts) {
			s.Shore, s.Points = pts[:n], pts[n:]
		}
		if n := int(lines) % 8; n > 1 && n <= len(s.Points) {
			s.Breaklines = [][]SurveyPoint{s.Points[:n]}
		}
		s.MirrorSafe = shore&1 == 1
		b, err := s.Bed()
		if err != nil {
			return
		}
		last := 0.0
		for h := units.Length(-9); h < 9; h += 0.37 {
			v, a := float64(b.Volume(h)), float64(b.Area(h))
			if !(v >= last-1e-9 && a >= 0) || math.IsInf(v, 0) {
				t.Fatalf("stage %v: area %v, volume %v after %v", h, a, v, last)
			}
			last = v
			if w := b.Band(h); !(w.Low <= w.High) {
				t.Fatalf("band %v", w)
			}
		}
		if _, err := b.Stranded(3, 3, 0); err != nil {
			t.Fatal(err)
		}
	})
}

func TestSurveyJSON(t *testing.T) {
	off := units.Length(-0.25)
	s := Survey{Points: []SurveyPoint{bedPoint(0, 0, 0.5), bedPoint(20, 0, 0.5), bedPoint(20, 20, 0.5), bedPoint(10, 10, 2)}, Shore: nil,
		Sense: DepthDown, WaterLevel: Level{2.5, "gauge"}, PondDatum: "invert", Ties: []DatumTie{{From: "gauge", To: "invert", Offset: &off}}, LevelError: 0.01}
	text, err := json.Marshal(s)
	require.NoError(t, err)
	require.Contains(t, string(text), `"sense":"depth_down"`)
	require.Contains(t, string(text), `"offset":"-0.25 m"`)
	var back Survey
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, s, back)
	_, err = json.Marshal(Survey{})
	require.ErrorContains(t, err, "elevation_up, depth_down") // a survey without a sense is no survey
}
