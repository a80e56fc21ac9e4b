package hydraulics

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func strTableSpec(r check.Row) TableSpec {
	return TableSpec{
		Grate: GrateSpec{Width: strMetres(r, "width_m"), Length: strMetres(r, "length_m"), Gap: strMetres(r, "gap_m"), Bar: strMetres(r, "bar_m"),
			Coefficient: r.Float("coef")},
		EntryBore: strMetres(r, "bore_m"), EntryKept: r.Float("kept"), SlideSpeed: units.Velocity(r.Float("slide_m_s")),
		Footprint: units.Area(r.Float("footprint_m2")), Adhering: r.Float("adhering"), WaterDensity: 1018,
	}
}

func strSetting(r check.Row) TableSetting {
	return TableSetting{Flow: units.Flow(strFloat(r, "flow_m3_s")), Product: units.MassFlow(r.Float("product_kg_s")),
		Slope: units.Degrees.Of(strFloat(r, "slope_deg")), Tilt: units.Degrees.Of(strFloat(r, "tilt_deg")), Blocked: strFloat(r, "blocked")}
}

func TestTableTable(t *testing.T) {
	table := func(r check.Row) (DewateringTable, error) { return NewDewateringTable(strTableSpec(r)) }
	chute := func(r check.Row) (Chute, error) {
		return NewChute(ChuteSpec{Width: strMetres(r, "width_m"), WallHeight: strMetres(r, "wall_m"), Freeboard: strMetres(r, "freeboard_m"),
			Slope: units.Degrees.Of(r.Float("slope_deg")), ManningN: r.Float("manning_n")})
	}
	hose := func(r check.Row) (ReturnHose, error) {
		return NewReturnHose(ReturnHoseSpec{Bore: strMetres(r, "bore_m"), Length: strMetres(r, "length_m"), Roughness: strMetres(r, "roughness_m"),
			LossSum: r.Float("loss_sum"), Viscosity: units.KinematicViscosity(r.Float("viscosity_m2_s")), AirShare: r.Float("air")})
	}
	check.Run(t, "testdata/table.csv", map[string]func(check.Row) (float64, error){
		"Grate.Dewater": func(r check.Row) (float64, error) {
			s := GrateSpec{Width: strMetres(r, "width_m"), Length: strMetres(r, "length_m"), Gap: strMetres(r, "gap_m"), Bar: strMetres(r, "bar_m"),
				Coefficient: r.Float("coef"), Effectiveness: r.Float("effectiveness")}
			if r.Text("energy") == "specific" {
				s.Energy = ConstantSpecificEnergy
			}
			g, err := NewGrate(s)
			if err != nil {
				return 0, err
			}
			out, err := g.Dewater(GrateInflow{Flow: units.Flow(r.Float("flow_m3_s")), Velocity: units.Velocity(r.Float("velocity_m_s")),
				Slope: units.Degrees.Of(r.Float("slope_deg")), Tilt: units.Degrees.Of(r.Float("tilt_deg")), Blocked: r.Float("blocked"), Cover: r.Float("cover")})
			if r.Text("quantity") == "wetted_length_m" {
				return float64(out.WettedLength), err
			}
			return out.RunOffShare, err
		},
		"DewateringTable.At": func(r check.Row) (float64, error) {
			d, err := table(r)
			if err != nil {
				return 0, err
			}
			out, err := d.At(strSetting(r))
			assert.Equal(t, "carry_over", r.Text("quantity"))
			return out.CarryOver, err
		},
		"DewateringTable.DryFlow": func(r check.Row) (float64, error) {
			d, err := table(r)
			if err != nil {
				return 0, err
			}
			q, err := d.DryFlow(strSetting(r), r.Float("share"))
			return float64(q), err
		},
		"DewateringTable.DrySlope": func(r check.Row) (float64, error) {
			d, err := table(r)
			if err != nil {
				return 0, err
			}
			a, err := d.DrySlope(strSetting(r), r.Float("share"), 14*units.Degree)
			return a.In(units.Degrees), err
		},
		"DewateringTable.DryTilt": func(r check.Row) (float64, error) {
			d, err := table(r)
			if err != nil {
				return 0, err
			}
			a, err := d.DryTilt(strSetting(r), r.Float("share"), 14*units.Degree)
			return a.In(units.Degrees), err
		},
		"DewateringTable.DryHeight": func(r check.Row) (float64, error) {
			d, err := table(r)
			if err != nil {
				return 0, err
			}
			z, q, err := d.DryHeight(strSetting(r), r.Float("share"), strLift, 1, 9)
			assert.InDelta(t, float64(strLift(z)), float64(q), 1e-12)
			return float64(z), err
		},
		"CalibrateTable": func(r check.Row) (float64, error) {
			d, c, err := CalibrateTable(strTableSpec(r), DrainTest{Setting: strSetting(r), Wet: units.Mass(r.Float("wet_kg")), Drained: units.Mass(r.Float("drained_kg"))})
			assert.Equal(t, c.Effectiveness, d.Spec().Grate.Effectiveness)
			return c.Effectiveness, err
		},
		"DrainTest.CarryOver": func(r check.Row) (float64, error) {
			return DrainTest{Wet: units.Mass(r.Float("wet_kg")), Drained: units.Mass(r.Float("drained_kg"))}.CarryOver(), nil
		},
		"AeratedChuteAir": func(r check.Row) (float64, error) { return AeratedChuteAir(units.Degrees.Of(r.Float("slope_deg"))) },
		"Chute.Capacity": func(r check.Row) (float64, error) {
			c, err := chute(r)
			return float64(c.Capacity()), err
		},
		"Chute.Carry": func(r check.Row) (float64, error) {
			c, err := chute(r)
			if err != nil {
				return 0, err
			}
			out, err := c.Carry(units.Flow(r.Float("flow_m3_s")))
			assert.Equal(t, "bulked_depth_m", r.Text("quantity"))
			return float64(out.BulkedDepth), err
		},
		"StackFlow": func(r check.Row) (float64, error) {
			q, err := StackFlow(strMetres(r, "bore_m"), r.Float("filled"))
			return float64(q), err
		},
		"IntakeSubmergence": func(r check.Row) (float64, error) {
			s, err := IntakeSubmergence(strMetres(r, "bore_m"), units.Velocity(r.Float("velocity_m_s")))
			return float64(s), err
		},
		"ReturnHose.Capacity": func(r check.Row) (float64, error) {
			h, err := hose(r)
			return float64(h.Capacity(strMetres(r, "drop_m"))), err
		},
		"ReturnHose.DropFor": func(r check.Row) (float64, error) {
			h, err := hose(r)
			if err != nil {
				return 0, err
			}
			z, err := h.DropFor(units.Flow(r.Float("flow_m3_s")))
			return float64(z), err
		},
	})
}

// strLift is a pump that gives 0.12 m3/s at no lift and 0.012 less a metre.
func strLift(z units.Length) units.Flow { return units.Flow(0.12 - 0.012*float64(z)) }

func strTable(t testing.TB) DewateringTable {
	t.Helper()
	d, err := NewDewateringTable(TableSpec{
		Grate:     GrateSpec{Width: 0.8 * units.Metre, Length: 0.6 * units.Metre, Gap: 8 * units.Millimetre, Bar: 10 * units.Millimetre, Coefficient: 0.6},
		EntryBore: 254 * units.Millimetre, EntryKept: 0.8, SlideSpeed: 0.4, Footprint: 0.02, Adhering: 0.03, WaterDensity: 1018,
	})
	require.NoError(t, err)
	return d
}

var strUsual = TableSetting{Flow: 230 * units.CubicMetrePerHour, Product: 0.5, Slope: 8 * units.Degree, Blocked: 0.1}

// More flow, more blockage, more animals, more slope and more tilt never dry the
// product better; a longer grate always does.
func TestTableMonotone(t *testing.T) {
	base := strTable(t)
	for name, set := range map[string]func(s *TableSetting, x float64){
		"flow":    func(s *TableSetting, x float64) { s.Flow = units.Flow(0.02 + 0.1*x) },
		"blocked": func(s *TableSetting, x float64) { s.Blocked = 0.9 * x },
		"product": func(s *TableSetting, x float64) { s.Product = units.MassFlow(1 + 10*x) },
		"slope":   func(s *TableSetting, x float64) { s.Slope = units.Angle(0.7 * x) },
		"tilt":    func(s *TableSetting, x float64) { s.Tilt = units.Angle(0.25 * x) },
	} {
		s := strUsual
		s.Flow = 0.065
		before, grew := -1.0, 0
		for i := range 41 {
			set(&s, float64(i)/40)
			out, err := base.At(s)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, out.Grate.RunOffShare, before-1e-9, "%s at %d", name, i)
			if out.Grate.RunOffShare > before {
				grew++
			}
			before = out.Grate.RunOffShare
			assert.InDelta(t, float64(s.Flow), float64(out.Grate.RunOff+out.Grate.Intercepted), 1e-12, "the water balance closes")
		}
		assert.Greater(t, grew, 5, "%s matters", name)
	}
}

// The settings that just dry do so: a little more of anything and water runs.
func TestTableJustDries(t *testing.T) {
	d := strTable(t)
	q, err := d.DryFlow(strUsual, 0)
	require.NoError(t, err)
	s := strUsual
	s.Flow = q * 0.999
	out, err := d.At(s)
	require.NoError(t, err)
	assert.Zero(t, out.RunOff)
	assert.InDelta(t, 0.03, out.CarryOver, 1e-12, "what adheres is left")
	s.Flow = q * 1.05
	out, err = d.At(s)
	require.NoError(t, err)
	assert.Positive(t, float64(out.RunOff))

	z, flow, err := d.DryHeight(strUsual, 0, strLift, 1, 9)
	require.NoError(t, err)
	assert.InDelta(t, float64(q), float64(flow), 1e-7)
	assert.InDelta(t, (0.12-float64(q))/0.012, float64(z), 1e-5)
	z, _, err = d.DryHeight(strUsual, 0, strLift, 8, 9)
	require.NoError(t, err)
	assert.InDelta(t, 8, float64(z), 0, "already dry at the lowest height")
	_, _, err = d.DryHeight(strUsual, 0, strLift, 1, 2)
	assert.ErrorIs(t, err, units.ErrNoSolution)
	assert.ErrorContains(t, err, "slow the pump")

	a, err := d.DrySlope(TableSetting{Flow: q, Product: 0.5, Blocked: 0.1}, 0, 30*units.Degree)
	require.NoError(t, err)
	assert.InDelta(t, 8, a.In(units.Degrees), 1e-4)

	trade, err := d.Trade(strUsual, strLift, []units.Length{2, 4, 6, 8})
	require.NoError(t, err)
	for i := 1; i < len(trade); i++ {
		assert.Less(t, float64(trade[i].Flow), float64(trade[i-1].Flow))
		assert.LessOrEqual(t, trade[i].State.CarryOver, trade[i-1].State.CarryOver)
	}
}

func TestTableRefusesAndFlags(t *testing.T) {
	d := strTable(t)
	codes := func(s TableSetting) (out []string) {
		state, err := d.At(s)
		require.NoError(t, err)
		for _, n := range state.Notices {
			out = append(out, n.Code)
		}
		return out
	}
	s := strUsual
	s.Flow = 0.12
	assert.Equal(t, []string{CodeRackShort}, codes(s))
	s.Flow = 0.01
	assert.Equal(t, []string{CodeRackRange}, codes(s), "below the flows of the tests")
	s = strUsual
	s.Product = 14
	assert.Contains(t, codes(s), CodeRackRange, "animals pile up")

	s = strUsual
	s.Tilt = 20 * units.Degree
	_, err := d.At(s)
	assert.ErrorContains(t, err, "tilt")
	s = strUsual
	s.Flow = units.Flow(math.NaN())
	_, err = d.At(s)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = DewateringTable{}.At(strUsual)
	assert.ErrorContains(t, err, "NewDewateringTable")
	_, err = d.DryFlow(strUsual, 1)
	assert.ErrorContains(t, err, "share")
	_, err = d.Trade(strUsual, nil, nil)
	assert.ErrorContains(t, err, "curve")
	_, _, err = d.DryHeight(strUsual, 0, nil, 1, 2)
	assert.ErrorContains(t, err, "curve")
	s = strUsual
	s.Blocked = 0.95
	s.Flow = 0.2
	_, err = d.DrySlope(s, 0, 20*units.Degree)
	assert.ErrorIs(t, err, units.ErrNoSolution)

	_, err = NewDewateringTable(TableSpec{})
	assert.ErrorContains(t, err, "grate.width")
	_, err = NewGrate(GrateSpec{Width: 1, Length: 1, Gap: 8, Bar: 10, Coefficient: 0.6})
	assert.ErrorContains(t, err, "millimetres")
	_, err = NewGrate(GrateSpec{Width: 1, Length: 1, Gap: 0.008, Bar: 0.01, OpenShare: 0.4, Coefficient: 0.6})
	assert.ErrorContains(t, err, "not both")
	g, err := NewGrate(GrateSpec{Width: 1, Length: 1, OpenShare: 0.4, Coefficient: 0.8})
	require.NoError(t, err)
	assert.InDelta(t, 0.4, g.Spec().VoidRatio(), 0)

	dewatered, err := g.Dewater(GrateInflow{Flow: 0.06, Velocity: 1.5, Slope: 0.2})
	require.NoError(t, err)
	assert.LessOrEqual(t, float64(dewatered.Band.Shortest), float64(dewatered.WettedLength))
	assert.GreaterOrEqual(t, float64(dewatered.Band.Longest), float64(dewatered.WettedLength)*(1-1e-12))
	assert.Greater(t, float64(dewatered.Band.Longest), 1.01*float64(dewatered.Band.Shortest))

	e, err := NewGrate(GrateSpec{Width: 1, Length: 1, OpenShare: 0.4, Coefficient: 0.5, Law: EnergyHead})
	require.NoError(t, err)
	for v, want := range map[units.Velocity]int{0: 0, 2: 1} {
		out, err := e.Dewater(GrateInflow{Flow: 0.06, Velocity: v})
		require.NoError(t, err)
		assert.Len(t, out.Notices, want, "%v", v)
	}

	// Results hold no unexported state: they compare and marshal.
	a, err := d.At(strUsual)
	require.NoError(t, err)
	b, err := d.At(strUsual)
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(a, b))
}

func TestChuteAndHoseNotices(t *testing.T) {
	c, err := NewChute(ChuteSpec{Width: 0.5, WallHeight: 0.1, Freeboard: 0.03, Slope: 20 * units.Degree, ManningN: 0.012})
	require.NoError(t, err)
	out, err := c.Carry(0.02)
	require.NoError(t, err)
	assert.Empty(t, out.Notices)
	assert.Greater(t, out.Froude, 1.0)
	full, err := c.Carry(c.Capacity())
	require.NoError(t, err)
	assert.InDelta(t, 0.07, float64(full.BulkedDepth), 1e-9, "the capacity fills the walls to the freeboard")
	out, err = c.Carry(1.2 * c.Capacity())
	require.NoError(t, err)
	require.Len(t, out.Notices, 1)
	assert.Equal(t, CodeChuteFull, out.Notices[0].Code)
	_, err = c.Carry(-1)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = NewChute(ChuteSpec{})
	assert.ErrorContains(t, err, "slope")
	_, err = AeratedChuteAir(3 * units.Degree)
	assert.ErrorIs(t, err, units.ErrRange)

	h, err := NewReturnHose(ReturnHoseSpec{Bore: 0.2, Length: 12, Roughness: 3e-4, LossSum: 2.1, Viscosity: 0.85e-6})
	require.NoError(t, err)
	assert.Empty(t, h.AppendNotices(nil, 0.03, 2, 1))
	assert.Len(t, h.AppendNotices(nil, 0.3, 2, 0.1), 2)
	assert.Zero(t, h.Capacity(-1))
	for _, z := range []units.Length{1e-9, 1e-7, 1e-5, 1e-3, 1} { // laminar to turbulent
		back, err := h.DropFor(h.Capacity(z))
		require.NoError(t, err)
		assert.InEpsilon(t, float64(z), float64(back), 1e-9)
	}
	_, err = StackFlow(0.1, 0.5)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = NewReturnHose(ReturnHoseSpec{Bore: 200})
	assert.ErrorIs(t, err, units.ErrDomain)
}

func BenchmarkTableAt(b *testing.B) {
	d := strTable(b)
	b.ReportAllocs()
	for b.Loop() {
		_, _ = d.At(strUsual)
	}
}

func BenchmarkTableDryFlow(b *testing.B) {
	d := strTable(b)
	for b.Loop() {
		_, _ = d.DryFlow(strUsual, 0)
	}
}
