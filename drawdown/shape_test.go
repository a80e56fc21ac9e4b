package drawdown

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestPondTable(t *testing.T) {
	m := func(r check.Row, c string) units.Length { return units.Length(r.Float(c)) }
	pond := func(r check.Row) (Shape, error) {
		return RectangularPond{Length: m(r, "length_m"), Width: m(r, "width_m"), Fall: m(r, "fall_m"), SideSlope: r.Float("side_slope"),
			DeepEndSlope: r.Float("deep_end_slope"), ShallowEndSlope: r.Float("shallow_end_slope"), Crest: 10}.Shape()
	}
	area := func(r check.Row, c string) units.Area { return units.Area(r.Float(c)) }
	table := stTable(t)
	segment := func(r check.Row) Segment { return table.Segment(table.Find(m(r, "stage_m"))) }
	check.Run(t, "testdata/ponds.csv", map[string]func(check.Row) (float64, error){
		"Shape.Volume": func(r check.Row) (float64, error) {
			s, err := pond(r)
			return float64(s.Volume(m(r, "stage_m"))), err
		},
		"Shape.Area": func(r check.Row) (float64, error) {
			s, err := pond(r)
			return float64(s.Area(m(r, "stage_m"))), err
		},
		"AverageEndVolume": func(r check.Row) (float64, error) {
			v, err := AverageEndVolume(area(r, "lower_m2"), area(r, "upper_m2"), m(r, "interval_m"))
			return float64(v), err
		},
		"ConicVolume": func(r check.Row) (float64, error) {
			v, err := ConicVolume(area(r, "lower_m2"), area(r, "upper_m2"), m(r, "interval_m"))
			return float64(v), err
		},
		"PrismoidalVolume": func(r check.Row) (float64, error) {
			v, err := PrismoidalVolume(area(r, "lower_m2"), area(r, "middle_m2"), area(r, "upper_m2"), m(r, "interval_m"))
			return float64(v), err
		},
		"TriangleStorage": func(r check.Row) (float64, error) {
			s, err := TriangleStorage(area(r, "plan_m2"), [3]units.Length{m(r, "z3_m"), m(r, "z1_m"), m(r, "z2_m")}, m(r, "stage_m"))
			if r.Text("quantity") == "area" {
				return float64(s.Area), err
			}
			return float64(s.Volume), err
		},
		"StageTable.Volume": func(r check.Row) (float64, error) { return float64(table.Volume(m(r, "stage_m"))), nil },
		"StageTable.Stage": func(r check.Row) (float64, error) {
			return float64(table.Stage(units.Volume(r.Float("volume_m3")))), nil
		},
		"Segment.Area":   func(r check.Row) (float64, error) { return float64(segment(r).Area(m(r, "stage_m"))), nil },
		"Segment.Volume": func(r check.Row) (float64, error) { return float64(segment(r).Volume(m(r, "stage_m"))), nil },
		"Segment.Stage": func(r check.Row) (float64, error) {
			return float64(segment(r).Stage(units.Volume(r.Float("volume_m3")))), nil
		},
		"Shape.Stage": func(r check.Row) (float64, error) {
			s, err := pond(r)
			return float64(s.Stage(units.Volume(r.Float("volume_m3")))), err
		},
		"PolygonArea": func(r check.Row) (float64, error) {
			require.Equal(t, "square of 10 m with a triangular notch", r.Text("quantity"))
			a, err := PolygonArea([]Corner{{0, 0}, {10, 0}, {10, 10}, {5, 4}, {0, 10}})
			return float64(a), err
		},
		"CircleArea": func(r check.Row) (float64, error) {
			a, err := CircleArea(m(r, "length_m"))
			return float64(a), err
		},
		"Level.On": func(r check.Row) (float64, error) {
			off := m(r, "z2_m")
			h, err := Level{m(r, "z1_m"), "tide"}.On("invert", DatumTie{From: "invert", To: "tide", Offset: &off})
			return float64(h), err
		},
		"Liner.LowestStage": func(r check.Row) (float64, error) {
			h, err := Liner{Groundwater: m(r, "z1_m"), Floor: m(r, "z2_m"), Ballast: units.ArealDensity(r.Float("plan_m2"))}.LowestStage()
			return float64(h), err
		},
		"Bank.SuddenDrawdownFactor": func(r check.Row) (float64, error) {
			return Bank{Slope: r.Float("side_slope"), Friction: units.Degrees.Of(30), SlipDepth: m(r, "z1_m"), Saturated: 2000}.SuddenDrawdownFactor()
		},
		"StageTable.Area": func(r check.Row) (float64, error) { return float64(table.Area(m(r, "stage_m"))), nil },
		"StageTable.FractionStage": func(r check.Row) (float64, error) {
			require.Equal(t, table.Top(), m(r, "stage_m"))
			h, err := table.FractionStage(0.2)
			return float64(h), err
		},
	})
}

func shLevee() RectangularPond {
	return RectangularPond{Length: 120, Width: 80, Fall: 0.36, SideSlope: 3, DeepEndSlope: 2, ShallowEndSlope: 4, Floor: 0.5, Crest: 2}
}

// Area and volume are one another's derivative and integral, and Stage inverts
// Volume, for every kind of shape.
func TestShapesAreConsistent(t *testing.T) {
	rng := rand.New(rand.NewPCG(61, 62))
	ditch, err := Ditch{Length: 110, BottomWidth: 1, SideSlope: 1.5, Lip: 0.5, NearDepth: 0.5, FarDepth: 0.2}.Shape()
	require.NoError(t, err)
	basin, err := CatchBasin{Length: 6, Width: 4, SideSlope: 0.5, Lip: 0.5, Depth: 1.2}.Shape()
	require.NoError(t, err)
	levee, err := shLevee().Shape()
	require.NoError(t, err)
	rounded := shLevee()
	rounded.RoundedCorners = true
	round, err := rounded.Shape()
	require.NoError(t, err)
	whole, err := Join(levee, ditch, basin)
	require.NoError(t, err)
	contour, err := ContourShape([]StageArea{{0, 0}, {1, 500}, {1.5, 900}, {3, 900}})
	require.NoError(t, err)
	for name, s := range map[string]Shape{"levee": levee, "rounded": round, "ditch": ditch, "basin": basin, "joined": whole, "contours": contour} {
		for range 300 {
			h := s.Bottom() + units.Length(rng.Float64())*(s.Top()-s.Bottom())
			const d = 1e-6
			slope := float64(s.Volume(h+d)-s.Volume(h-d)) / (2 * d)
			near := false
			for _, c := range s.Corners() {
				near = near || math.Abs(float64(h-c)) < 2*d
			}
			if !near {
				require.InDelta(t, float64(s.Area(h)), slope, 1e-4*float64(s.Area(s.Top()-0.01)+1), name)
			}
			require.InDelta(t, float64(h), float64(s.Stage(s.Volume(h))), 1e-7, name)
		}
		require.Zero(t, s.Volume(s.Bottom()))
		require.Zero(t, s.Area(s.Bottom()-1))
	}
	// The joined pond holds all three, and its area is the levee's from the floor up.
	require.InDelta(t, float64(levee.Volume(1.7)+ditch.Volume(9)+basin.Volume(9)), float64(whole.Volume(1.7)), 1e-9)
	require.InDelta(t, float64(levee.Area(1.2)), float64(whole.Area(1.2)), 1e-9)
	require.InDelta(t, float64(ditch.Area(0.3)+basin.Area(0.3)), float64(whole.Area(0.3)), 1e-9)
	require.InDelta(t, -0.7, float64(whole.Bottom()), 1e-12)
	require.Less(t, float64(round.Volume(2)), float64(levee.Volume(2)))
	tab, err := Tabulate(whole, 1e-5)
	require.NoError(t, err)
	require.InDelta(t, float64(whole.Volume(whole.Top())), float64(tab.Capacity()), 1.1e-5*float64(tab.Capacity()))
	require.InDelta(t, float64(whole.Volume(0.5)), float64(tab.Volume(0.5)), 0.5)
	require.Less(t, tab.Segments(), 300)
}

// Slices by numerical quadrature: the ditch and the sloping floor.
func TestShapesAgainstSlices(t *testing.T) {
	d := Ditch{Length: 50, BottomWidth: 0.8, SideSlope: 2, Lip: 0, NearDepth: 0.6, FarDepth: 0.1}
	s, err := d.Shape()
	require.NoError(t, err)
	for _, h := range []float64{-0.5, -0.3, -0.1, -0.02} {
		area, volume := 0.0, 0.0
		const n = 200000
		for i := range n {
			x := (float64(i) + 0.5) / n
			y := math.Max(0, h+0.6-0.5*x)
			if y > 0 {
				area += 50.0 / n * (0.8 + 4*y)
				volume += 50.0 / n * (0.8*y + 2*y*y)
			}
		}
		require.InDelta(t, area, float64(s.Area(units.Length(h))), 1e-3)
		require.InDelta(t, volume, float64(s.Volume(units.Length(h))), 1e-6)
	}
	// A quarter cone at each corner: a pond of four cones and walls. Floor shrinks to nothing.
	p := RectangularPond{Length: 1e-9, Width: 1e-9, SideSlope: 2, DeepEndSlope: 2, ShallowEndSlope: 2, Crest: 3, RoundedCorners: true}
	cone, err := p.Shape()
	require.NoError(t, err)
	require.InDelta(t, math.Pi*4*9, float64(cone.Area(3)), 1e-6)
	require.InDelta(t, math.Pi*4*9, float64(cone.Volume(3)), 1e-6) // pi r^2 h/3, r = 6, h = 3
}

func TestShapesRefuseBadInput(t *testing.T) {
	bad := shLevee()
	bad.Length, bad.SideSlope = -1, math.NaN()
	_, err := bad.Shape()
	require.ErrorIs(t, err, units.ErrDomain)
	require.ErrorContains(t, err, "length")
	require.ErrorContains(t, err, "sideSlope")
	bad = shLevee()
	bad.Crest = 0.6
	_, err = bad.Shape()
	require.ErrorContains(t, err, "above the whole floor")
	_, err = Ditch{Length: 10, NearDepth: 0.5, FarDepth: 0.6, BottomWidth: 1}.Shape()
	require.ErrorContains(t, err, "farDepth")
	_, err = Ditch{Length: 10, NearDepth: 0.5}.Shape()
	require.ErrorContains(t, err, "bottom width or side slopes")
	_, err = CatchBasin{Length: 1, Width: 1}.Shape()
	require.ErrorContains(t, err, "depth")
	levee, err := shLevee().Shape()
	require.NoError(t, err)
	_, err = Join(levee, levee)
	require.ErrorContains(t, err, "hollows[0]")
	high, err := CatchBasin{Length: 1, Width: 1, Depth: 1, Lip: 1}.Shape()
	require.NoError(t, err)
	_, err = Join(levee, high)
	require.ErrorContains(t, err, "above the pond's lowest floor")
	_, err = Join(high)
	require.ErrorContains(t, err, "pond")
	_, err = ContourShape([]StageArea{{1, 1}, {0, 2}})
	require.ErrorIs(t, err, units.ErrDomain)
	for _, f := range []func(units.Area, units.Area, units.Length) (units.Volume, error){AverageEndVolume, ConicVolume} {
		v, err := f(-1, 1, 1)
		require.ErrorIs(t, err, units.ErrDomain)
		require.True(t, math.IsNaN(float64(v)))
	}
	_, err = PrismoidalVolume(1, units.Area(math.NaN()), 1, 1)
	require.ErrorIs(t, err, units.ErrDomain)
}

func TestPolygonArea(t *testing.T) {
	at := func(x, y float64) Corner { return Corner{units.Length(x + 500000), units.Length(y + 4e6)} }
	a, err := PolygonArea([]Corner{at(0, 0), at(10, 0), at(10, 10), at(5, 4), at(0, 10)})
	require.NoError(t, err)
	require.InDelta(t, 100-30, float64(a), 1e-9) // the notch is a triangle of base 10 and height 6
	_, err = PolygonArea([]Corner{at(0, 0), at(10, 10), at(10, 0), at(0, 10)})
	require.ErrorContains(t, err, "crosses")
	_, err = PolygonArea([]Corner{at(0, 0), at(1, 1)})
	require.ErrorContains(t, err, "at least three")
	_, err = PolygonArea([]Corner{at(0, 0), at(math.NaN(), 1), at(1, 1)})
	require.ErrorContains(t, err, "corners[1].x")
	// A circle of 200 corners: n/2 r^2 sin(2 pi/n).
	var ring []Corner
	for i := range 200 {
		a := 2 * math.Pi * float64(i) / 200
		ring = append(ring, at(50*math.Cos(a), -50*math.Sin(a)))
	}
	a, err = PolygonArea(ring)
	require.NoError(t, err)
	require.InDelta(t, 100*2500*math.Sin(2*math.Pi/200), float64(a), 1e-6)
}

func TestShapeAllocatesNothing(t *testing.T) {
	s, err := shLevee().Shape()
	require.NoError(t, err)
	var sink float64
	require.Zero(t, testing.AllocsPerRun(100, func() { sink += float64(s.Area(1)) + float64(s.Volume(1.2)) + float64(s.Stage(4000)) }))
	_ = sink
}
