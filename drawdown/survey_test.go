package drawdown

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

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
	require.ErrorContains(t, err, "waterLevel")
	s.Sense, s.Datum = ElevationUp, "national"
	_, err = s.Bed()
	require.ErrorIs(t, err, ErrDatumMissing)
	s.PondDatum = ""
	_, err = s.Bed()
	require.ErrorContains(t, err, "pondDatum")
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
		{"level error", Survey{Points: ok, Sense: ElevationUp, Datum: "p", PondDatum: "p", LevelError: -1}, []string{"levelError"}},
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
	require.Contains(t, string(text), `"sense":"depth down"`)
	require.Contains(t, string(text), `"offset":"-0.25 m"`)
	var back Survey
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, s, back)
	_, err = json.Marshal(Survey{Sense: 3})
	require.ErrorContains(t, err, "elevation up, depth down")
	text, err = json.Marshal(Survey{})
	require.NoError(t, err)
	require.Contains(t, string(text), `"sense":"unstated"`)
	s.Sense = 0
	_, err = s.Bed()
	require.ErrorContains(t, err, "sense") // a survey without a sense is no survey
}
