package drawdown

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

func TestRoughPondBand(t *testing.T) {
	r := RoughPond{Area: 5 * units.Acre, Depth: 4 * units.Foot}
	e, err := r.Estimate()
	require.NoError(t, err)
	// By hand: 20 acre-feet times the middle shape 0.632 = 12.6 acre-feet.
	require.InDelta(t, 12.64, e.P50.In(units.AcreFeet), 0.01)
	// ln P90/P10 = 2 * 1.28155 * sqrt(0.15^2 + 0.15^2 + 0.279^2) = 0.8991.
	require.InDelta(t, math.Exp(2*1.28155*math.Sqrt(0.15*0.15*2+0.279*0.279)), float64(e.P90/e.P10), 1e-4)
	require.InDelta(t, 1, e.FromArea+e.FromDepth+e.FromShape, 1e-12)
	require.Greater(t, e.FromShape, 0.5)
	require.Equal(t, CodeRoughPond, e.Notices[0].Code)
	for _, c := range []struct {
		v units.Volume
		t StageTable
	}{{e.P10, e.Low}, {e.P50, e.Middle}, {e.P90, e.High}} {
		require.InDelta(t, float64(c.v), float64(c.t.Capacity()), 1e-6*float64(c.v))
		require.InDelta(t, float64(r.Depth), float64(c.t.Top()-c.t.Bottom()), 1e-9)
	}
	// The middle pond keeps the described area within a few hundredths.
	require.InDelta(t, 1, float64(e.Middle.Area(e.Middle.Top())/r.Area), 0.03)
	r.DepthIs = DepthAverage
	avg, err := r.Estimate()
	require.NoError(t, err)
	require.InDelta(t, 20, avg.P50.In(units.AcreFeet), 0.001)
	require.Less(t, float64(avg.P90/avg.P10), float64(e.P90/e.P10))
	r.AreaError, r.DepthError = 0.03, 0.05
	sure, err := r.Estimate()
	require.NoError(t, err)
	require.Less(t, float64(sure.P90/sure.P10), 1.2)
	_, err = json.Marshal(sure)
	require.NoError(t, err)
	text, err := json.Marshal(r)
	require.NoError(t, err)
	require.Contains(t, string(text), `"depthIs":"average"`)
	var back RoughPond
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, r, back)
	for _, bad := range []RoughPond{{}, {Area: -1, Depth: 1}, {Area: 1, Depth: units.Length(math.NaN())}, {Area: 1, Depth: 1, AreaError: 2}, {Area: 1, Depth: 1, DepthIs: 9}} {
		_, err := bad.Estimate()
		require.ErrorIs(t, err, units.ErrDomain)
	}
}

// Random real ponds described by area and deepest depth: eight of ten fall
// between P10 and P90 or nearly so when shapes run from bowls to boxes.
func TestRoughPondBandIsHonest(t *testing.T) {
	rng := rand.New(rand.NewPCG(91, 92))
	inside := 0
	const n = 2000
	for range n {
		area, depth := 2e4*math.Exp(0.5*rng.NormFloat64()), 1.2*math.Exp(0.2*rng.NormFloat64())
		shape := 0.4 * math.Pow(0.95/0.4, rng.Float64())
		truth := area * depth * shape
		e, err := RoughPond{Area: units.Area(area * math.Exp(0.15*rng.NormFloat64())), Depth: units.Length(depth * math.Exp(0.15*rng.NormFloat64())), DepthIs: DepthDeepest}.Estimate()
		require.NoError(t, err)
		if float64(e.P10) <= truth && truth <= float64(e.P90) {
			inside++
		}
	}
	require.InDelta(t, 0.8, float64(inside)/n, 0.05)
}

func TestCircleArea(t *testing.T) {
	a, err := CircleArea(units.Length(2 * math.Pi * 30))
	require.NoError(t, err)
	require.InDelta(t, math.Pi*900, float64(a), 1e-9)
	_, err = CircleArea(-1)
	require.ErrorIs(t, err, units.ErrDomain)
}

func TestSilting(t *testing.T) {
	pond := stTable(t)
	even, err := SiltedEvenly(pond, 0.15)
	require.NoError(t, err)
	require.Equal(t, pond.Top(), even.Top())
	for _, h := range []units.Length{0.2, 0.5, 0.9, 1.3, 1.4} {
		require.InDelta(t, float64(pond.Volume(h-0.15)), float64(even.Volume(h)), 1e-9)
	}
	level, err := SiltedLevel(pond, 300)
	require.NoError(t, err)
	for _, h := range []units.Length{0.25, 0.5, 1.4} {
		require.InDelta(t, float64(pond.Volume(h))-300, float64(level.Volume(h)), 1e-9)
	}
	same, err := SiltedEvenly(pond, 0)
	require.NoError(t, err)
	require.Equal(t, pond, same)
	same, err = SiltedLevel(pond, 0)
	require.NoError(t, err)
	require.Equal(t, pond, same)
	for _, err := range []error{second(SiltedEvenly(pond, -0.1)), second(SiltedEvenly(pond, 1.4)), second(SiltedLevel(pond, 6000)),
		second(SiltedLevel(pond, units.Volume(math.NaN())))} {
		require.ErrorIs(t, err, units.ErrDomain)
	}
}

func TestLinerLowestStage(t *testing.T) {
	// By hand: 1.1 * 1000 * 0.8 - 100 = 780 kg/m2 of water, 0.78 m above the floor.
	h, err := Liner{Groundwater: 1.0, Floor: 0.2, Ballast: 100}.LowestStage()
	require.NoError(t, err)
	require.InDelta(t, 0.98, float64(h), 1e-12)
	h, err = Liner{Groundwater: 0.1, Floor: 0.2}.LowestStage()
	require.NoError(t, err)
	require.Equal(t, units.Length(0.2), h)
	_, err = Liner{Safety: 0.5}.LowestStage()
	require.ErrorIs(t, err, units.ErrDomain)
}

func TestSuddenDrawdownFactor(t *testing.T) {
	b := Bank{Slope: 3, Friction: units.Degrees.Of(30), SlipDepth: 1, Saturated: 2000}
	f, err := b.SuddenDrawdownFactor()
	require.NoError(t, err)
	require.InDelta(t, 0.5*math.Tan(math.Pi/6)*3, f, 1e-12) // half of dry, by hand
	b.Cohesion = 5000
	g, err := b.SuddenDrawdownFactor()
	require.NoError(t, err)
	// sin b cos b = tan b/(1 + tan^2 b) = (1/3)/(10/9) = 0.3
	require.InDelta(t, f+5000/(2000*9.80665*0.3), g, 1e-12)
	b.Slope = 0
	_, err = b.SuddenDrawdownFactor()
	require.ErrorIs(t, err, units.ErrDomain)
}

// A plane falling 1 % to the drain with a pyramid pit and a dike across it.
func TestStrandedWater(t *testing.T) {
	var pts []SurveyPoint
	for i := range 41 {
		for j := range 21 {
			x, y := float64(i)*5, float64(j)*5
			z := 0.01 * x
			if i == 20 && j == 10 {
				z -= 0.5 // a pit
			}
			if i == 30 {
				z += 0.3 // a dike right across, 200 m wide pond
			}
			pts = append(pts, bedPoint(x, y, z))
		}
	}
	b, err := bedSurvey(pts).Bed()
	require.NoError(t, err)
	s, err := b.Stranded(0, 50, 0)
	require.NoError(t, err)
	require.Len(t, s.Pools, 2)
	// Behind the dike, crest 1.8 m at x = 150: by slices, water 1.8 - 0.01 x from 155 to 180
	// and the dike's own back from 150 (1.8) to 155 (1.55), times 100 m.
	behind := 100 * ((0+0.25)/2*5 + (1.8-1.55)/2*25)
	require.InDelta(t, behind, float64(s.Pools[0].Volume), 1e-6)
	require.InDelta(t, 1.8, float64(s.Pools[0].Spill), 1e-9)
	pit := s.Pools[1]
	require.InDelta(t, 0.5, float64(pit.Bottom), 1e-9)
	require.InDelta(t, 100, float64(pit.X), 1e-9)
	require.InDelta(t, 50, float64(pit.Y), 1e-9)
	require.InDelta(t, 0.95, float64(pit.Spill), 1e-9) // over its lower neighbours at x = 95
	require.InDelta(t, float64(s.Volume), float64(s.Pools[0].Volume+pit.Volume), 1e-9)
	// A sill at the drain keeps a wedge: 0.2 m over 20 m, 100 m wide.
	sill, err := b.Stranded(0, 50, 0.2)
	require.NoError(t, err)
	found := false
	for _, p := range sill.Pools {
		if p.AtDrain {
			found = true
			require.InDelta(t, 0.5*0.2*20*100, float64(p.Volume), 1e-6)
		}
	}
	require.True(t, found)
	// With the sill over everything the dead storage is the whole pond.
	all, err := b.Stranded(0, 50, 3)
	require.NoError(t, err)
	require.InDelta(t, float64(b.Volume(3)), float64(all.Volume), 1e-6)
	_, err = b.Stranded(units.Length(math.NaN()), 0, 0)
	require.ErrorIs(t, err, units.ErrDomain)
	_, err = Bed{}.Stranded(0, 0, 0)
	require.ErrorIs(t, err, units.ErrDomain)
}

// No surface keeps water above the pass it must cross, whatever the terrain:
// the volume is that of the bed filled to each vertex's pass.
func TestStrandedIsSmallOnASlope(t *testing.T) {
	rng := rand.New(rand.NewPCG(93, 94))
	b, err := bedSurvey(bedCloud(rng, 800, 100, func(x, y float64) float64 { return 0.02*x + 0.01*y })).Bed()
	require.NoError(t, err)
	s, err := b.Stranded(0, 0, -1)
	require.NoError(t, err)
	// The drain is the surveyed point nearest the corner; only bits of the hull lie below it.
	require.Less(t, float64(s.Volume), 1.0)
	bumpy, err := bedSurvey(bedCloud(rng, 800, 100, func(x, y float64) float64 { return 0.02*x + 0.1*rng.NormFloat64() })).Bed()
	require.NoError(t, err)
	s, err = bumpy.Stranded(0, 50, -1)
	require.NoError(t, err)
	require.Greater(t, len(s.Pools), 10)
	require.Greater(t, float64(s.Volume), 10.0)
	for i := 1; i < len(s.Pools); i++ {
		require.GreaterOrEqual(t, float64(s.Pools[i-1].Volume), float64(s.Pools[i].Volume))
	}
}
