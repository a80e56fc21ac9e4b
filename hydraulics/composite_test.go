package hydraulics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

// strMonk is a stop-log bay with a pipe behind it.
func strMonk(t testing.TB, b Backflow) StructuresInSeries {
	bay := strMust[StoplogBay](t)(NewStoplogBay(StoplogBaySpec{Sill: -0.2, Boards: []units.Length{0.2, 0.2}, Width: 0.6, Thickness: 0.05,
		ChannelWidth: 0.6, Leakage: 1e-4, Backflow: b}))
	s := strPond()
	s.Invert, s.Backflow = -0.2, b
	return strMust[StructuresInSeries](t)(NewStructuresInSeries(bay, strOutlet(t, s)))
}

// Two equal deep orifices share the head; the flow of a series never passes that
// of its parts; the level between passes the same through both.
func TestStructuresInSeries(t *testing.T) {
	hole := strMust[Orifice](t)(NewOrifice(OrificeSpec{Invert: -2, Width: 0.2, Height: 0.1, Coefficient: 0.6, Backflow: BackflowReverse}))
	s := strMust[StructuresInSeries](t)(NewStructuresInSeries(hole, hole))
	assert.InDelta(t, 0.75, float64(s.Between(1, 0.5)), 1e-12)
	assert.InEpsilon(t, float64(hole.Discharge(1, 0.5))/math.Sqrt2, float64(s.Discharge(1, 0.5)), 1e-12)
	assert.InDelta(t, -float64(s.Discharge(1, 0.5)), float64(s.Discharge(0.5, 1)), 1e-15)
	assert.Equal(t, ControlReversed, s.Control(0.5, 1))

	monk := strMonk(t, BackflowFlap)
	for _, tail := range []units.Length{-1, 0, 0.3} {
		for z := units.Length(-0.3); z < 1.5; z += 0.05 {
			q, between := monk.Discharge(z, tail), monk.Between(z, tail)
			assert.LessOrEqual(t, float64(q), float64(monk.first.Discharge(z, tail))+1e-12)
			assert.LessOrEqual(t, float64(q), float64(monk.second.Discharge(z, tail))+1e-12)
			if q > 0 {
				assert.InDelta(t, float64(monk.first.Discharge(z, between)), float64(monk.second.Discharge(between, tail)), 1e-9)
			}
		}
	}
	assert.Equal(t, ControlWeir, monk.Control(0.25, -1), "a little over the boards")
	assert.Equal(t, ControlFullPipe, monk.Control(1.3, -1), "much over them the pipe governs")
	assert.Equal(t, ControlShut, monk.Control(0.5, 0.9))
	assert.Zero(t, monk.Discharge(0.5, 0.9))
	assert.Equal(t, ControlNone, monk.Control(-0.5, -1))
	assert.NotEmpty(t, monk.AppendNotices(nil, 0.21, -1), "a head below the thin plate's least")

	_, err := NewStructuresInSeries(nil, hole)
	assert.ErrorContains(t, err, "first")
	assert.Zero(t, StructuresInSeries{}.Discharge(1, 0))
	assert.Equal(t, ControlNone, StructuresInSeries{}.Control(1, 0))
}

func TestStructuresInParallel(t *testing.T) {
	pipe := strOutlet(t, strPond())
	weir := strMust[RectangularWeir](t)(NewRectangularWeir(RectangularWeirSpec{Crest: 1, Width: 2, ChannelWidth: 2, CrestHeight: 1, Backflow: BackflowFlap}))
	s, err := NewStructuresInParallel(pipe, weir, pipe)
	require.NoError(t, err)
	assert.InDelta(t, 2*float64(pipe.Discharge(0.8, 0)), float64(s.Discharge(0.8, 0)), 1e-15)
	assert.Equal(t, ControlFullPipe, s.Control(0.8, 0))
	assert.Equal(t, ControlWeir, s.Control(1.5, 0), "the spillway passes the most")
	assert.Equal(t, ControlShut, s.Control(0.5, 0.6))
	assert.NotEmpty(t, s.AppendNotices(nil, 1.01, 0))
	_, err = NewStructuresInParallel(pipe, nil)
	assert.ErrorContains(t, err, "parts[1]")
}
