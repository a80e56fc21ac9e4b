package hydraulics

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

func TestCalibration(t *testing.T) {
	truth := strTable(t).Spec()
	truth.Grate.Effectiveness = 0.7
	d, err := NewDewateringTable(truth)
	require.NoError(t, err)
	var tests []DrainTest
	for _, q := range []units.Flow{0.08, 0.1, 0.12} {
		s := strUsual
		s.Flow = q
		out, err := d.At(s)
		require.NoError(t, err)
		require.Positive(t, float64(out.RunOff))
		tests = append(tests, DrainTest{s, units.Mass(20 * (1 + out.CarryOver)), 20})
	}
	back, c, err := CalibrateTable(truth, tests...)
	require.NoError(t, err)
	assert.InDelta(t, 0.7, c.Effectiveness, 1e-9)
	assert.InDelta(t, 0.7, c.Low, 1e-9)
	assert.Empty(t, c.Notices)
	assert.InDelta(t, 0.7, back.Spec().Grate.Effectiveness, 1e-9)

	// Dry tests alone bound it from below.
	dry := DrainTest{strUsual, 20.5, 20}
	dry.Setting.Flow = 0.05
	_, c, err = CalibrateTable(truth, dry)
	require.NoError(t, err)
	assert.Zero(t, c.Tests[0])
	assert.InDelta(t, c.Bounds[0], c.Effectiveness, 1e-12)
	just, err := strDryFlowAt(truth, c.Effectiveness, dry.Setting)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.05, float64(just), 1e-6)

	// Tests that contradict each other say so.
	wild := tests[0]
	wild.Wet *= 3
	_, c, err = CalibrateTable(truth, tests[0], wild)
	require.NoError(t, err)
	require.Len(t, c.Notices, 1)
	assert.Equal(t, CodeRackLaws, c.Notices[0].Code)

	wild.Wet = 1e5
	_, _, err = CalibrateTable(truth, wild)
	assert.ErrorIs(t, err, units.ErrNoSolution)
	_, _, err = CalibrateTable(truth)
	assert.ErrorContains(t, err, "at least one test")
	_, _, err = CalibrateTable(truth, DrainTest{strUsual, 19, 20})
	assert.ErrorContains(t, err, "tests[0].wet")
}

// strDryFlowAt is the flow that just dries at an effectiveness.
func strDryFlowAt(s TableSpec, k float64, at TableSetting) (units.Flow, error) {
	s.Grate.Effectiveness = k
	d, err := NewDewateringTable(s)
	return strJoined(d.DryFlow(at, 0))(err)
}

// strJoined joins the error of a construction to that of its use.
func strJoined(q units.Flow, err error) func(error) (units.Flow, error) {
	return func(first error) (units.Flow, error) { return q, errors.Join(first, err) }
}
