package hydraulics

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

var strWeirMethods = map[string]WeirMethod{"usbr": KindsvaterCarterUSBR, "iso": KindsvaterCarterISO, "rehbock": Rehbock1929, "francis": Francis1883}
var strNotchMethods = map[string]VNotchMethod{"shen": KindsvaterShen, "shen90": KindsvaterShen90, "white": White2011}

// strInRange passes a value through whose error says only that it lies outside
// the published range.
func strInRange[T ~float64](v T, err error) (float64, error) {
	if errors.Is(err, units.ErrRange) && !errors.Is(err, units.ErrDomain) {
		err = nil
	}
	return float64(v), err
}

func strMetres(r check.Row, column string) units.Length { return units.Length(r.Float(column)) }

func TestWeirTable(t *testing.T) {
	check.Run(t, "testdata/structures_weirs.csv", map[string]func(check.Row) (float64, error){
		"RectangularWeirSpec.Flow": func(r check.Row) (float64, error) {
			m, ok := strWeirMethods[r.Text("method")]
			require.True(t, ok)
			return strInRange(RectangularWeirSpec{Width: strMetres(r, "width_m"), ChannelWidth: strMetres(r, "channel_width_m"),
				CrestHeight: strMetres(r, "crest_height_m"), Method: m, Backflow: BackflowFlap}.Flow(strMetres(r, "head_m")))
		},
		"VNotchWeirSpec.Flow": func(r check.Row) (float64, error) {
			m, ok := strNotchMethods[r.Text("method")]
			require.True(t, ok)
			return strInRange(VNotchWeirSpec{Angle: units.Degrees.Of(r.Float("angle_deg")), ChannelWidth: 3, VertexHeight: 1,
				Method: m, Backflow: BackflowFlap}.Flow(strMetres(r, "head_m")))
		},
		"BroadCrestSpec.Flow": func(r check.Row) (float64, error) {
			q, err := BroadCrestSpec{Width: strMetres(r, "width_m"), Length: strMetres(r, "crest_length_m"),
				CrestHeight: strMetres(r, "crest_height_m"), Coefficient: r.Float("coefficient"), Backflow: BackflowFlap}.Flow(strMetres(r, "head_m"))
			return strInRange(q, err)
		},
		"VillemonteRatio": func(r check.Row) (float64, error) {
			return VillemonteRatio(1, units.Length(r.Float("tail_ratio")), r.Float("n"))
		},
		"KindsvaterCarterCoefficients": func(r check.Row) (float64, error) {
			c, err := KindsvaterCarterCoefficients(r.Float("width_ratio"), KindsvaterCarterUSBR)
			if r.Text("coefficient") == "alpha1" {
				return c.Alpha1, err
			}
			return c.Alpha, err
		},
	})
}

// The two sets of Kindsvater-Carter constants give the same flow within 0.6 %
// over the published range.
func TestWeirCoefficientSetsAgree(t *testing.T) {
	for _, b := range []units.Length{0.2, 0.35, 0.5, 0.65, 0.8, 1} {
		for _, h := range []units.Length{0.05, 0.1, 0.2, 0.4} {
			s := RectangularWeirSpec{Width: b, ChannelWidth: 1, CrestHeight: 0.5, Backflow: BackflowFlap}
			usbr, err := s.Flow(h)
			require.NoError(t, err)
			s.Method = KindsvaterCarterISO
			iso, err := s.Flow(h)
			require.NoError(t, err)
			assert.InEpsilon(t, float64(usbr), float64(iso), 0.006, "b %v h %v", b, h)
		}
	}
}

func TestWeirRefusesAndFlags(t *testing.T) {
	good := RectangularWeirSpec{Width: 0.5, ChannelWidth: 1, CrestHeight: 0.5, Backflow: BackflowFlap}
	q, err := good.Flow(0.01)
	assert.ErrorIs(t, err, units.ErrRange, "head below the 3 cm of ISO 1438")
	assert.Positive(t, float64(q), "the extrapolated value stands beside ErrRange")
	q, err = good.Flow(units.Length(math.NaN()))
	assert.ErrorIs(t, err, units.ErrDomain)
	assert.True(t, math.IsNaN(float64(q)))
	for field, spoil := range map[string]func(*RectangularWeirSpec){
		"width":        func(s *RectangularWeirSpec) { s.Width = 0 },
		"channelWidth": func(s *RectangularWeirSpec) { s.ChannelWidth = 0.4 },
		"crestHeight":  func(s *RectangularWeirSpec) { s.CrestHeight = -1 },
		"backflow":     func(s *RectangularWeirSpec) { s.Backflow = BackflowUnset },
		"crest":        func(s *RectangularWeirSpec) { s.Crest = units.Length(math.Inf(1)) },
		"method":       func(s *RectangularWeirSpec) { s.Method = 99 },
	} {
		s := good
		spoil(&s)
		var in *units.InputError
		require.ErrorAs(t, s.Validate(), &in, field)
		assert.Equal(t, field, in.Field)
	}
	w, err := NewRectangularWeir(good)
	require.NoError(t, err)
	notices := w.AppendNotices(nil, 2, 0)
	require.NotEmpty(t, notices)
	assert.Equal(t, CodeWeirHead, notices[0].Code)
	assert.Empty(t, w.AppendNotices(nil, 0.2, 0))
	assert.NotEmpty(t, w.Ranges())

	_, err = VNotchWeirSpec{Angle: 150 * units.Degree, ChannelWidth: 1, VertexHeight: 1, Backflow: BackflowFlap}.Flow(0.1)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = VNotchWeirSpec{Angle: 90 * units.Degree, ChannelWidth: 3, VertexHeight: 1, Backflow: BackflowFlap}.Flow(0.02)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = VillemonteRatio(0, 0, 1.5)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = KindsvaterCarterCoefficients(1.2, KindsvaterCarterISO)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = KindsvaterCarterCoefficients(0.1, KindsvaterCarterUSBR)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = BroadCrestSpec{Width: 1, Length: 1, CrestHeight: 2, Backflow: BackflowFlap}.Flow(0.7)
	assert.ErrorIs(t, err, units.ErrRange, "head above 0.4 of the crest length")
}

func TestStoplogBay(t *testing.T) {
	spec := StoplogBaySpec{Boards: []units.Length{0.2, 0.2, 0.15}, Width: 0.8, Thickness: 0.05, ChannelWidth: 0.8,
		Leakage: 0.1 * units.LitrePerSecond, Backflow: BackflowFlap}
	bay, err := NewStoplogBay(spec)
	require.NoError(t, err)
	assert.InDelta(t, 0.55, float64(bay.Crest()), 1e-12)

	// Over 1.6 thicknesses the bay is the thin-plate weir of the same height.
	thin, err := RectangularWeirSpec{Width: 0.8, ChannelWidth: 0.8, CrestHeight: 0.55, Backflow: BackflowFlap}.Flow(0.1)
	require.NoError(t, err)
	over := bay.Discharge(0.65, 0) - bay.Leakage(0.65, 0)
	assert.InDelta(t, float64(thin), float64(over), 1e-12)
	// Below 0.4 it is a broad crest.
	over = bay.Discharge(0.565, 0) - bay.Leakage(0.565, 0)
	assert.InDelta(t, 0.864*1.7049*0.8*math.Pow(0.015, 1.5), float64(over), 1e-6)
	// The leak: 0.1 L/s per metre and root metre, three joints.
	want := 1e-4 * 0.8 * (math.Sqrt(0.5) + math.Sqrt(0.3) + math.Sqrt(0.1))
	assert.InDelta(t, want, float64(bay.Leakage(0.5, 0)), 1e-12)
	assert.Equal(t, ControlOrifice, bay.Control(0.5, 0))
	assert.Equal(t, ControlWeir, bay.Control(0.6, 0))

	down, err := bay.WithBoards(1)
	require.NoError(t, err)
	assert.InDelta(t, 0.2, float64(down.Crest()), 1e-12)
	assert.Greater(t, float64(down.Discharge(0.6, 0)), float64(bay.Discharge(0.6, 0)))
	open, err := bay.WithBoards(0)
	require.NoError(t, err)
	assert.Zero(t, open.Leakage(0.6, 0))
	_, err = bay.WithBoards(4)
	assert.ErrorIs(t, err, units.ErrDomain)

	spec.Boards[0] = 9 // the bay has its own copy
	assert.InDelta(t, 0.2, float64(bay.Spec().Boards[0]), 0)
	_, err = NewStoplogBay(spec)
	var in *units.InputError
	require.ErrorAs(t, err, &in)
	assert.Equal(t, "boards[0]", in.Field)
}
