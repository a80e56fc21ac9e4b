package drawdown

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

// stTable is the half-hectare lined pond of the check tables.
func stTable(t testing.TB) StageTable {
	t.Helper()
	tab, err := NewStageTable([]StageArea{
		{0 * units.Metre, 120 * units.SquareMetre},
		{0.1 * units.Metre, 1500 * units.SquareMetre},
		{0.2 * units.Metre, 3600 * units.SquareMetre},
		{0.4 * units.Metre, 4150 * units.SquareMetre},
		{0.8 * units.Metre, 4500 * units.SquareMetre},
		{1.2 * units.Metre, 4800 * units.SquareMetre},
		{1.4 * units.Metre, 5000 * units.SquareMetre},
	})
	require.NoError(t, err)
	return tab
}

// Trapezoids by hand: 81 + 255 + 775 + 1730 + 1860 + 980 = 5681 m3.
func TestStageTableVolumeByTrapezoids(t *testing.T) {
	tab := stTable(t)
	for _, c := range []struct{ stage, volume float64 }{
		{0, 0}, {0.1, 81}, {0.2, 336}, {0.4, 1111}, {0.8, 2841}, {1.2, 4701}, {1.4, 5681},
		{0.25, 336 + 0.05*(3600+0.5*137.5)}, // area at 0.25 m is 3737.5 m2
	} {
		require.InDelta(t, c.volume, tab.Volume(units.Length(c.stage)).CubicMetres(), 1e-9, "stage %g", c.stage)
	}
	require.InDelta(t, 3737.5, tab.Area(0.25*units.Metre).SquareMetres(), 1e-9)
	require.InDelta(t, 5681, tab.Capacity().CubicMetres(), 1e-9)
}

func TestStageTableOutsideItsRows(t *testing.T) {
	tab := stTable(t)
	require.Equal(t, units.Area(120), tab.Area(-1))
	require.Equal(t, units.Volume(0), tab.Volume(-1))
	require.InDelta(t, 5000, float64(tab.Area(3)), 1e-9)
	require.InDelta(t, 5681+5000*0.6, float64(tab.Volume(2)), 1e-9)
	require.InDelta(t, 2.0, float64(tab.Stage(5681+3000)), 1e-12)
	require.Equal(t, units.Length(0), tab.Stage(-5))
	var none StageTable
	require.Zero(t, none.Area(1))
	require.Zero(t, none.Volume(1))
	require.Zero(t, none.Stage(1))
	require.Zero(t, none.Segments())
	require.Zero(t, none.Segment(3))
	require.Zero(t, none.Find(3))
}

func TestStageTableInverseInverts(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		rows := []StageArea{{Stage: units.Length(rng.Float64() - 0.5), Area: units.Area(100 * rng.Float64())}}
		if rng.IntN(3) == 0 {
			rows[0].Area = 0 // a pond that runs to a point
		}
		for range 1 + rng.IntN(12) {
			last := rows[len(rows)-1]
			rows = append(rows, StageArea{last.Stage + units.Length(0.01+rng.Float64()), last.Area + units.Area(0.01+1000*rng.Float64()*float64(rng.IntN(2)))})
		}
		tab, err := NewStageTable(rows)
		require.NoError(t, err)
		lo, hi := tab.Bottom(), tab.Top()
		last := units.Volume(0)
		for i := range 101 {
			h := lo + (hi-lo)*units.Length(float64(i)/80) // past the top too
			v := tab.Volume(h)
			require.GreaterOrEqual(t, float64(v), float64(last))
			last = v
			require.InDelta(t, float64(h), float64(tab.Stage(v)), 1e-9, "rows %v", rows)
			// dV/dh = A away from corners, exact for a quadratic.
			if d := units.Length(1e-6); tab.Find(h-d) == tab.Find(h+d) && h-d > lo && math.Abs(float64(h-hi)) > 2e-6 {
				slope := float64(tab.Volume(h+d)-tab.Volume(h-d)) / float64(2*d)
				require.InDelta(t, float64(tab.Area(h)), slope, 1e-6*math.Max(1, float64(tab.Capacity())))
			}
		}
	}
}

func TestStageTableSegmentsAnswerAsTheTable(t *testing.T) {
	tab := stTable(t)
	require.Equal(t, 6, tab.Segments())
	for i := range tab.Segments() {
		s := tab.Segment(i)
		mid := (s.Lower() + s.Upper()) / 2
		require.Equal(t, i, tab.Find(s.Lower()))
		require.Equal(t, i, tab.Find(mid))
		require.Equal(t, tab.Area(mid), s.Area(mid))
		require.Equal(t, tab.Volume(mid), s.Volume(mid))
		require.Equal(t, tab.Stage(tab.Volume(mid)), s.Stage(tab.Volume(mid)))
	}
	require.Equal(t, tab.Segment(0), tab.Segment(-1))
	require.Equal(t, tab.Segment(5), tab.Segment(99))
}

func TestStageTableRefusesBadRows(t *testing.T) {
	m, m2 := units.Length(units.Metre), units.Area(units.SquareMetre)
	for _, c := range []struct {
		name string
		rows []StageArea
		want []string
	}{
		{"empty", nil, []string{"stages", "at least two rows"}},
		{"one row", []StageArea{{1 * m, 5 * m2}}, []string{"at least two rows"}},
		{"unsorted", []StageArea{{0, 1}, {0.5, 2}, {0.4, 3}}, []string{"stages[2].stage", "row 3 lies below row 2", "not sorted for you"}},
		{"two areas at one stage", []StageArea{{0, 1}, {0.5, 2}, {0.5, 3}}, []string{"stages[2].stage", "rows 2 and 3 give one stage two areas, 2 m2 and 3 m2"}},
		{"row twice", []StageArea{{0, 1}, {0.5, 2}, {0.5, 2}}, []string{"rows 2 and 3 are the same"}},
		{"area falls", []StageArea{{0, 1}, {0.5, 4}, {0.8, 3}}, []string{"stages[2].area", "does not overhang", "AllowOverhang"}},
		{"no area", []StageArea{{0, 0}, {0.5, 0}, {0.8, 3}}, []string{"stages[1].area", "no water between"}},
		{"not numbers", []StageArea{{units.Length(math.NaN()), 1}, {1, units.Area(math.Inf(1))}}, []string{"stages[0].stage", "stages[1].area"}},
		{"negative", []StageArea{{0, -1}, {1, 1}}, []string{"stages[0].area", "not negative"}},
		{"overflow", []StageArea{{0, 1e308}, {1e300, 1.5e308}}, []string{"overflows"}},
		{"all at once", []StageArea{{0, -1}, {0.5, 3}, {0.4, 2}, {0.6, 1}}, []string{"stages[0].area", "stages[2].stage", "stages[3].area"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := NewStageTable(c.rows)
			require.ErrorIs(t, err, units.ErrDomain)
			for _, w := range c.want {
				require.ErrorContains(t, err, w)
			}
			var in *units.InputError
			require.True(t, errors.As(err, &in))
			require.Equal(t, "drawdown.NewStageTable", in.Func)
		})
	}
}

func TestStageTableOverhang(t *testing.T) {
	rows := []StageArea{{0, 4}, {1, 2}, {2, 0}}
	tab, err := NewStageTable(rows, AllowOverhang)
	require.NoError(t, err)
	require.InDelta(t, 4, float64(tab.Capacity()), 1e-12)
	for _, h := range []units.Length{0.2, 1.2, 1.9, 2} {
		require.InDelta(t, float64(h), float64(tab.Stage(tab.Volume(h))), 1e-7)
	}
	require.Equal(t, units.Length(2), tab.Stage(99)) // closed at the top: no more room
	require.Equal(t, units.Volume(4), tab.Volume(5))
}

func TestStageTableDoesNotKeepTheCallersRows(t *testing.T) {
	rows := []StageArea{{0, 1}, {1, 2}}
	tab, err := NewStageTable(rows)
	require.NoError(t, err)
	rows[1].Area = 99
	tab.Rows()[0].Area = 99
	tab.Corners()[1] = 99
	require.Equal(t, []StageArea{{0, 1}, {1, 2}}, tab.Rows())
	require.Equal(t, []units.Length{0, 1}, tab.Corners())
}

func TestStageTableJSON(t *testing.T) {
	tab := stTable(t)
	b, err := json.Marshal(tab)
	require.NoError(t, err)
	require.Contains(t, string(b), `"120 m2"`)
	var back StageTable
	require.NoError(t, json.Unmarshal(b, &back))
	require.Equal(t, tab, back)
	err = json.Unmarshal([]byte(strings.Replace(string(b), `"1500 m2"`, `"15000 m2"`, 1)), &back)
	require.ErrorContains(t, err, "stages[2].area")
	over, err := NewStageTable([]StageArea{{0, 4}, {1, 2}}, AllowOverhang)
	require.NoError(t, err)
	b, err = json.Marshal(over)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(b, &back))
	require.Equal(t, over, back)
}

func TestFractionStage(t *testing.T) {
	tab := stTable(t)
	h, err := tab.FractionStage(0.2)
	require.NoError(t, err)
	// 1136.2 m3 lie below: 25.2 m3 above the 0.4 m row with 4150 m2.
	require.InDelta(t, 0.4060684, h.Metres(), 1e-6)
	for _, f := range []float64{-0.1, 1.1, math.NaN()} {
		h, err := tab.FractionStage(f)
		require.ErrorIs(t, err, units.ErrDomain)
		require.True(t, math.IsNaN(float64(h)))
	}
}

func TestStageTableAllocatesNothing(t *testing.T) {
	tab := stTable(t)
	var sink float64
	n := testing.AllocsPerRun(100, func() {
		sink += float64(tab.Area(0.33)) + float64(tab.Volume(0.77)) + float64(tab.Stage(900)) + float64(tab.Segment(tab.Find(1.1)).Area(1.1))
	})
	require.Zero(t, n)
	_ = sink
}

func BenchmarkStageTable(b *testing.B) {
	tab := stTable(b)
	b.Run("Area", func(b *testing.B) {
		var s units.Area
		for i := range b.N {
			s += tab.Area(units.Length(i&1023) * 0.00136)
		}
		_ = s
	})
	b.Run("SegmentArea", func(b *testing.B) {
		var s units.Area
		seg := tab.Segment(3)
		for i := range b.N {
			s += seg.Area(units.Length(i&1023) * 0.00136)
		}
		_ = s
	})
	b.Run("Stage", func(b *testing.B) {
		var s units.Length
		for i := range b.N {
			s += tab.Stage(units.Volume(i&1023) * 5.5)
		}
		_ = s
	})
}
