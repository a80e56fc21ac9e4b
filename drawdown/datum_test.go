package drawdown

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

func TestLevelOnAnotherDatum(t *testing.T) {
	invert := units.Length(0.6)
	bench := units.Length(2.0)
	ties := []DatumTie{
		{From: "outlet invert", To: "tide datum", Offset: &invert},
		{From: "bench mark", To: "tide datum", Offset: &bench},
	}
	h, err := Level{1.1 * units.Metre, "tide datum"}.On("outlet invert", ties...)
	require.NoError(t, err)
	require.InDelta(t, 0.5, h.Metres(), 1e-12)
	h, err = Level{-0.4 * units.Metre, "bench mark"}.On("outlet invert", ties...) // two ties in a chain
	require.NoError(t, err)
	require.InDelta(t, 1.0, h.Metres(), 1e-12)
	h, err = Level{0.7 * units.Metre, "outlet invert"}.On("outlet invert")
	require.NoError(t, err)
	require.Equal(t, 0.7*units.Metre, h)
}

func TestLevelRefusesAMixUp(t *testing.T) {
	off, other, nan := units.Length(0.6), units.Length(0.7), units.Length(math.NaN())
	for _, c := range []struct {
		name  string
		level Level
		to    Datum
		ties  []DatumTie
		kind  error
		want  string
	}{
		{"no tie", Level{1, "tide datum"}, "pond", nil, ErrDatumMissing, "DATUM_MISSING"},
		{"tie elsewhere", Level{1, "tide datum"}, "pond", []DatumTie{{"pond", "bench", &off}}, ErrDatumMissing, "cannot be read"},
		{"offset unknown", Level{1, "tide datum"}, "pond", []DatumTie{{"pond", "tide datum", nil}}, ErrDatumMissing, "an unknown offset is not zero"},
		{"no name", Level{1, ""}, "pond", nil, ErrDatumMissing, "no name"},
		{"no target", Level{1, "pond"}, "", nil, ErrDatumMissing, "no name"},
		{"contradiction", Level{1, "tide datum"}, "pond", []DatumTie{{"pond", "tide datum", &off}, {"pond", "tide datum", &other}}, units.ErrDomain, "contradict"},
		{"not a number", Level{1, "tide datum"}, "pond", []DatumTie{{"pond", "tide datum", &nan}}, units.ErrDomain, "ties[0].offset"},
		{"height not a number", Level{nan, "pond"}, "pond", nil, units.ErrDomain, "height"},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, err := c.level.On(c.to, c.ties...)
			require.ErrorIs(t, err, c.kind)
			require.ErrorIs(t, err, units.ErrDomain)
			require.ErrorContains(t, err, c.want)
			require.True(t, math.IsNaN(float64(h)))
		})
	}
}
