package hydraulics

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

var strRatedRows = []RatingPoint{{Level: 0, Flow: 0}, {Level: 0.2, Flow: 0.02}, {Level: 0.5, Flow: 0.09}, {Level: 1, Flow: 0.15}}

func TestDischargeTable(t *testing.T) {
	between := func(r check.Row, s Structure, err error) (float64, error) {
		if err != nil {
			return 0, err
		}
		return float64(s.Discharge(strMetres(r, "level_m"), strMetres(r, "tail_m"))), nil
	}
	bay := func(r check.Row) (StoplogBay, error) {
		s := StoplogBaySpec{Width: strMetres(r, "width_m"), ChannelWidth: strMetres(r, "channel_m"), Thickness: strMetres(r, "thickness_m"),
			Leakage: units.Flow(r.Float("leak_m3_s")), Backflow: BackflowFlap}
		for _, b := range r.Floats("boards") {
			s.Boards = append(s.Boards, units.Length(b))
		}
		return NewStoplogBay(s)
	}
	siphon := func(r check.Row) (Siphon, error) {
		return NewSiphon(SiphonSpec{Bore: 0.15, Length: 20, Roughness: 1e-4, LossSum: 2.5, UpLength: 8, UpLossSum: 1, Intake: 0.3,
			Crest: strMetres(r, "height_m"), OutletCentre: -1, Atmosphere: 101325, VapourPressure: 4247, Density: 995.65, Viscosity: 0.8e-6})
	}
	section := func(get func(s Section, y units.Length) float64, make func(r check.Row) Section) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) { return get(make(r), strMetres(r, "depth_m")), nil }
	}
	circle := func(r check.Row) Section { return CircularSection{strMetres(r, "diameter_m")} }
	trapezoid := func(r check.Row) Section { return TrapezoidalSection{strMetres(r, "width_m"), r.Float("side_slope")} }
	rectangle := func(r check.Row) Section { return RectangularSection{strMetres(r, "width_m")} }
	area := func(s Section, y units.Length) float64 { return float64(s.Area(y)) }
	wet := func(s Section, y units.Length) float64 { return float64(s.WettedPerimeter(y)) }
	top := func(s Section, y units.Length) float64 { return float64(s.TopWidth(y)) }

	hole := strMust[Orifice](t)(NewOrifice(OrificeSpec{Invert: -2, Width: 0.2, Height: 0.1, Coefficient: 0.6, Backflow: BackflowFlap}))

	check.Run(t, "testdata/structures_discharge.csv", map[string]func(check.Row) (float64, error){
		"RectangularWeir.Discharge": func(r check.Row) (float64, error) {
			s, err := NewRectangularWeir(RectangularWeirSpec{Width: strMetres(r, "width_m"), ChannelWidth: strMetres(r, "channel_m"),
				CrestHeight: strMetres(r, "height_m"), Backflow: BackflowFlap})
			return between(r, s, err)
		},
		"VNotchWeir.Discharge": func(r check.Row) (float64, error) {
			s, err := NewVNotchWeir(VNotchWeirSpec{Angle: 90 * units.Degree, ChannelWidth: 2, VertexHeight: 1,
				Method: strNotchMethods[r.Text("kind_of")], Backflow: BackflowFlap})
			return between(r, s, err)
		},
		"BroadCrest.Discharge": func(r check.Row) (float64, error) {
			s, err := NewBroadCrest(BroadCrestSpec{Width: strMetres(r, "width_m"), Length: strMetres(r, "crest_length_m"),
				CrestHeight: strMetres(r, "height_m"), ModularLimit: r.Float("modular"), Backflow: BackflowFlap})
			return between(r, s, err)
		},
		"StoplogBay.Discharge": func(r check.Row) (float64, error) {
			s, err := bay(r)
			return between(r, s, err)
		},
		"StoplogBay.Leakage": func(r check.Row) (float64, error) {
			s, err := bay(r)
			return float64(s.Leakage(strMetres(r, "level_m"), strMetres(r, "tail_m"))), err
		},
		"StoplogBay.Crest": func(r check.Row) (float64, error) {
			s, err := bay(r)
			return float64(s.Crest()) + r.Float("level_m") + r.Float("tail_m"), err
		},
		"Culvert.Discharge": func(r check.Row) (float64, error) {
			s, err := NewCulvert(CulvertSpec{Diameter: strMetres(r, "diameter_m"), Length: strMetres(r, "length_m"), ManningN: r.Float("manning_n"),
				Fall: strMetres(r, "fall_m"), Inlet: ConcreteSquareHeadwall, Backflow: BackflowFlap})
			return between(r, s, err)
		},
		"Siphon.Discharge": func(r check.Row) (float64, error) {
			s, err := siphon(r)
			return between(r, s, err)
		},
		"Siphon.BreaksAt": func(r check.Row) (float64, error) {
			s, err := siphon(r)
			_, _ = r.Float("level_m"), r.Float("tail_m")
			return float64(s.BreaksAt()), err
		},
		"StructuresInSeries.Discharge": func(r check.Row) (float64, error) {
			s, err := NewStructuresInSeries(hole, hole)
			return between(r, s, err)
		},
		"StructuresInSeries.Between": func(r check.Row) (float64, error) {
			s, err := NewStructuresInSeries(hole, hole)
			return float64(s.Between(strMetres(r, "level_m"), strMetres(r, "tail_m"))), err
		},
		"StructuresInParallel.Discharge": func(r check.Row) (float64, error) {
			s, err := NewStructuresInParallel(hole, hole)
			return between(r, s, err)
		},
		"RatedOutlet.Discharge": func(r check.Row) (float64, error) {
			s, err := NewRatedOutlet(strRatedRows)
			return between(r, s, err)
		},
		"Rating.LevelAt": func(r check.Row) (float64, error) {
			z, err := Rating{Points: strRatedRows}.LevelAt(units.Flow(r.Float("flow_m3_s")))
			return float64(z), err
		},
		"CircularSection.Area":               section(area, circle),
		"CircularSection.WettedPerimeter":    section(wet, circle),
		"CircularSection.TopWidth":           section(top, circle),
		"CircularSection.MaxDepth":           section(func(s Section, _ units.Length) float64 { return float64(s.MaxDepth()) }, circle),
		"TrapezoidalSection.Area":            section(area, trapezoid),
		"TrapezoidalSection.WettedPerimeter": section(wet, trapezoid),
		"TrapezoidalSection.TopWidth":        section(top, trapezoid),
		"RectangularSection.Area":            section(area, rectangle),
		"RectangularSection.WettedPerimeter": section(wet, rectangle),
		"RectangularSection.TopWidth":        section(top, rectangle),
		"FroudeNumber": func(r check.Row) (float64, error) {
			return FroudeNumber(rectangle(r), units.Flow(r.Float("flow_m3_s")), strMetres(r, "depth_m"))
		},
		"GrateSpec.VoidRatio": func(check.Row) (float64, error) {
			return GrateSpec{Gap: 8 * units.Millimetre, Bar: 10 * units.Millimetre}.VoidRatio(), nil
		},
	})
}

// A rating names the control at each level, finds each change, and sees no jump
// in a structure that has none.
func TestRatingNamesControls(t *testing.T) {
	for name, s := range strStructures(t, BackflowFlap) {
		for _, tail := range []units.Length{-1, 0.1} {
			r, err := NewRating(s, tail, -0.05, 1.4, 60)
			require.NoError(t, err)
			require.Len(t, r.Points, 60)
			at := r.Points[0].Control
			for _, c := range r.Changes {
				assert.Equal(t, at, c.Below, "%s: the changes follow on each other", name)
				assert.Zero(t, c.Jump, "%s at %v", name, c)
				assert.Equal(t, c.Above, s.Control(c.Level, tail), name)
				at = c.Above
			}
			assert.Equal(t, r.Points[59].Control, at, name)
			for _, n := range r.Notices {
				assert.NotEqual(t, CodeDischargeJump, n.Code, name)
			}
		}
	}
	pipe := strOutlet(t, strPond())
	r, err := NewRating(pipe, -1, 0.01, 1.4, 8)
	require.NoError(t, err)
	var seen []Control
	for _, c := range r.Changes {
		seen = append(seen, c.Above)
	}
	assert.Equal(t, []Control{ControlInlet, ControlPartFullPipe, ControlFullPipe}, seen)
	assert.InDelta(t, 0.3, float64(r.Changes[2].Level), 1e-12, "a pond below the crown fills no pipe")
	z, err := r.LevelAt(pipe.Discharge(0.9, -1))
	require.NoError(t, err)
	assert.InDelta(t, 0.9, float64(z), 0.02)
	_, err = r.LevelAt(10)
	assert.ErrorIs(t, err, units.ErrNoSolution)

	text, err := json.Marshal(r)
	require.NoError(t, err)
	var back Rating
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, r, back)
}

func TestRatingRefuses(t *testing.T) {
	pipe := strOutlet(t, strPond())
	_, err := NewRating(nil, 0, 0, 1, 5)
	assert.ErrorContains(t, err, "structure")
	_, err = NewRating(pipe, 0, 1, 0, 5)
	assert.ErrorContains(t, err, "to")
	_, err = NewRating(pipe, units.Length(math.NaN()), 0, 1, 1)
	assert.ErrorContains(t, err, "tailwater")
	_, err = Rating{}.LevelAt(1)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = NewRatedOutlet([]RatingPoint{{Level: 1}, {Level: 0}})
	assert.ErrorContains(t, err, "rows[1].level")
	_, err = NewRatedOutlet([]RatingPoint{{Level: 0, Flow: 1}, {Level: 1, Flow: 0}})
	assert.ErrorContains(t, err, "rows[1].flow")
	_, err = NewRatedOutlet(nil)
	assert.ErrorContains(t, err, "rows")
}

func TestControlText(t *testing.T) {
	for c := ControlNone; c <= ControlReversed; c++ {
		text, err := c.MarshalText()
		require.NoError(t, err)
		var back Control
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, c, back)
		assert.Equal(t, string(text), c.String())
	}
	_, err := Control(99).MarshalText()
	assert.Error(t, err)
	assert.Error(t, new(Control).UnmarshalText([]byte("magic")))
	assert.Equal(t, "Control(99)", Control(99).String())
}

// A description goes through JSON and back, its choices in words and its
// quantities with their units; words of no choice are refused.
func TestDescriptionsThroughJSON(t *testing.T) {
	pipe := strPond()
	weir := RectangularWeirSpec{Width: 0.5, ChannelWidth: 1, CrestHeight: 0.4, Method: Rehbock1929, Backflow: BackflowReverse}
	notch := VNotchWeirSpec{Angle: 1, Method: White2011}
	gate := SluiceGateSpec{Method: Swamee1992}
	culvert := CulvertSpec{Inlet: BoxWings0}
	rack := RackSpec{Law: EnergyHead, Energy: ConstantSpecificEnergy}
	for _, c := range []struct{ in, out any }{
		{&pipe, new(OutletPipeSpec)}, {&weir, new(RectangularWeirSpec)}, {&notch, new(VNotchWeirSpec)},
		{&gate, new(SluiceGateSpec)}, {&culvert, new(CulvertSpec)}, {&rack, new(RackSpec)},
	} {
		text, err := json.Marshal(c.in)
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(text, c.out), string(text))
		assert.Equal(t, c.in, c.out, string(text))
	}
	text, err := json.Marshal(pipe)
	require.NoError(t, err)
	assert.Contains(t, string(text), `"backflow":"flap"`)
	assert.Contains(t, string(text), `"bore":"0.3 m"`)
	assert.ErrorContains(t, json.Unmarshal([]byte(`{"backflow":"valve"}`), &pipe), "choices")
	assert.Equal(t, "static head", StaticHead.String())
	_, err = json.Marshal(RackSpec{Law: 9})
	assert.Error(t, err)
}

func TestRatedOutlet(t *testing.T) {
	o, err := NewRatedOutlet(strRatedRows)
	require.NoError(t, err)
	assert.Zero(t, o.Discharge(-1, -2))
	assert.Zero(t, o.Discharge(0.5, 0.6))
	assert.Equal(t, ControlShut, o.Control(0.5, 0.6))
	assert.Equal(t, ControlDrownedWeir, o.Control(0.5, 0.4))
	assert.Equal(t, []units.Length{0.3, 0, 0.2, 0.5, 1}, o.Kinks(0.3, nil))
	left := strJump(t, "rated", func(x float64) float64 { return float64(o.Discharge(units.Length(x), 0.1)) }, -0.5, 3, 3000)
	assert.Less(t, left, 1e-6)
}
