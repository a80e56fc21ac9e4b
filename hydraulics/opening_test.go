package hydraulics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/internal/seawater"
	"pondwright.example/units"
)

// strFloat reads an input that the row may leave blank.
func strFloat(r check.Row, column string) float64 {
	if !r.Has(column) {
		return 0
	}
	return r.Float(column)
}

func TestOpeningTable(t *testing.T) {
	check.Run(t, "testdata/structures_openings.csv", map[string]func(check.Row) (float64, error){
		"OrificeFlow": func(r check.Row) (float64, error) {
			q, err := OrificeFlow(r.Float("cd"), units.Area(r.Float("area_m2")), strMetres(r, "head_m"))
			return float64(q), err
		},
		"Orifice.Discharge": func(r check.Row) (float64, error) {
			o, err := NewOrifice(OrificeSpec{Diameter: units.Length(strFloat(r, "diameter_m")), Width: units.Length(strFloat(r, "width_m")),
				Height: units.Length(strFloat(r, "height_m")), Coefficient: r.Float("cd"), Backflow: BackflowFlap})
			return float64(o.Discharge(strMetres(r, "head_m"), -1)), err
		},
		"SluiceGate.Discharge": func(r check.Row) (float64, error) {
			s := SluiceGateSpec{Width: strMetres(r, "width_m"), Opening: strMetres(r, "opening_m"), Contraction: strFloat(r, "coef"), Backflow: BackflowFlap}
			if r.Text("method") == "swamee" {
				s.Method = Swamee1992
			}
			g, err := NewSluiceGate(s)
			return float64(g.Discharge(strMetres(r, "head_m"), units.Length(strFloat(r, "tail_m")))), err
		},
		"Riser.Discharge": func(r check.Row) (float64, error) {
			x, err := NewRiser(RiserSpec{Diameter: strMetres(r, "riser_diameter_m"), WeirCoefficient: r.Float("coef"), OrificeCoefficient: r.Float("cd"),
				PipeDiameter: strMetres(r, "pipe_diameter_m"), PipeLength: strMetres(r, "pipe_length_m"), ManningN: r.Float("manning_n"),
				LossSum: 1 + r.Float("ke") + r.Float("kb"), OutletCentre: -strMetres(r, "drop_m"), Backflow: BackflowFlap})
			return float64(x.Discharge(strMetres(r, "head_m"), -10)), err
		},
		"RiserTransition": func(r check.Row) (float64, error) {
			// A pipe so wide that it never governs: what is left is weir and orifice.
			x, err := NewRiser(RiserSpec{Diameter: strMetres(r, "riser_diameter_m"), WeirCoefficient: r.Float("coef"), OrificeCoefficient: r.Float("cd"),
				PipeDiameter: 3, PipeLength: 1, ManningN: 0.01, LossSum: 1, OutletCentre: -5, Backflow: BackflowFlap})
			if err != nil {
				return 0, err
			}
			rating, err := NewRating(x, -10, 0.01, 0.5, 20)
			require.Len(t, rating.Changes, 1)
			assert.Zero(t, rating.Changes[0].Jump)
			return float64(rating.Changes[0].Level), err
		},
		"SiphonCrest.MaxRise": func(r check.Row) (float64, error) {
			p, err := AirPressure(strMetres(r, "altitude_m"))
			if err != nil {
				return 0, err
			}
			c := r.Float("temperature_c")
			z, err := SiphonCrest{Atmosphere: p, VapourPressure: units.AbsolutePressure(seawater.VapourPressure(c, 0)),
				Density: units.Density(r.Float("density_kg_m3")), Velocity: units.Velocity(r.Float("velocity_m_s")), Loss: strMetres(r, "loss_m")}.MaxRise()
			return float64(z), err
		},
		"FlapHeadLoss": func(r check.Row) (float64, error) {
			h, err := FlapHeadLoss(units.Velocity(r.Float("velocity_m_s")), strMetres(r, "diameter_m"))
			return float64(h), err
		},
		"FlapVelocity": func(r check.Row) (float64, error) {
			v, err := FlapVelocity(strMetres(r, "head_m"), strMetres(r, "diameter_m"))
			return float64(v), err
		},
	})
}

var strInlets = map[string]InletType{"conc_square_headwall": ConcreteSquareHeadwall, "conc_groove_headwall": ConcreteGrooveHeadwall,
	"cmp_headwall": MetalHeadwall, "cmp_projecting": MetalProjecting, "bevel_ring_A": BevelledRing45, "box90": BoxWings90Or15}

func TestCulvertTable(t *testing.T) {
	check.Run(t, "testdata/structures_culvert.csv", map[string]func(check.Row) (float64, error){
		"Culvert.Headwater": func(r check.Row) (float64, error) {
			in, ok := strInlets[r.Text("inlet")]
			require.True(t, ok)
			s := CulvertSpec{Diameter: units.Length(strFloat(r, "diameter_m")), Span: units.Length(strFloat(r, "span_m")), Rise: units.Length(strFloat(r, "rise_m")),
				Length: strMetres(r, "length_m"), ManningN: r.Float("manning_n"), Fall: strMetres(r, "fall_m"), Inlet: in,
				EntranceLoss: strFloat(r, "ke"), Backflow: BackflowFlap}
			c, err := NewCulvert(s)
			if err != nil {
				return 0, err
			}
			tail := -1.0
			if r.Has("tail_m") {
				tail = r.Float("tail_m") - float64(s.Fall) // given above the invert of the outfall
			}
			h, err := c.Headwater(units.Flow(r.Float("flow_m3_s")), units.Length(tail))
			switch r.Text("quantity") {
			case "inlet_HW_over_D":
				return strInRange(float64(h.Inlet/s.Diameter), err)
			case "outlet_HW_m":
				return strInRange(h.Outlet, err)
			}
			return strInRange(h.Inlet, err)
		},
		"OvertoppingFlow": func(r check.Row) (float64, error) {
			q, err := OvertoppingFlow(r.Float("cd"), 1, strMetres(r, "length2_m"), strMetres(r, "head_m"))
			return float64(q), err
		},
		"EntranceHeadwater": func(r check.Row) (float64, error) {
			h, err := EntranceHeadwater(strMetres(r, "head_m"), strMetres(r, "velocity_head_m"), r.Float("ke"))
			return float64(h), err
		},
	})
}

// The discharge of a culvert is the inverse of its headwater: wherever the
// equations of HDS-5 govern as they stand.
func TestCulvertDischargeInvertsHeadwater(t *testing.T) {
	for _, s := range []CulvertSpec{
		{Diameter: 0.45, Fall: 0.06, Inlet: ConcreteSquareHeadwall},
		{Diameter: 0.6, Fall: 0.3, Inlet: MetalMitred, Barrels: 2},
		{Diameter: 0.45, Inlet: MetalProjecting},
		{Span: 0.6, Rise: 0.4, Fall: 0.1, Inlet: BoxWings30To75},
		{Span: 0.6, Rise: 0.4, Inlet: BoxHeadwallChamfered},
	} {
		s.Length, s.ManningN, s.Backflow, s.Invert = 12, 0.013, BackflowFlap, 3
		c, err := NewCulvert(s)
		require.NoError(t, err)
		for _, q := range []units.Flow{0.02, 0.1, 0.2, 0.25, 0.35, 0.6} {
			for _, tail := range []units.Length{0, 3.2, 3.7} {
				h, err := c.Headwater(q, tail)
				if err != nil || h.Control != ControlInlet && h.Headwater < 0.8*max(s.Diameter, s.Rise) {
					continue // a part-full barrel
				}
				assert.InEpsilon(t, float64(q), float64(c.Discharge(s.Invert+h.Headwater, tail)), 1e-9, "%+v q %v tail %v: %+v", s, q, tail, h)
			}
		}
	}
}

func TestOpeningsRefuse(t *testing.T) {
	_, err := NewOrifice(OrificeSpec{Diameter: 300, Coefficient: 0.6, Backflow: BackflowFlap})
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = NewOrifice(OrificeSpec{Diameter: 0.3, Width: 1, Coefficient: 0.6, Backflow: BackflowFlap})
	assert.ErrorContains(t, err, "not both")
	_, err = NewOrifice(OrificeSpec{Width: 1, Height: 0.2, Coefficient: 1.6, Backflow: BackflowFlap})
	assert.ErrorContains(t, err, "coefficient")
	_, err = NewSluiceGate(SluiceGateSpec{Width: 1, Opening: 0.1, Contraction: 0.2, Backflow: BackflowFlap})
	assert.ErrorContains(t, err, "contraction")
	_, err = NewRiser(RiserSpec{})
	assert.ErrorContains(t, err, "weirCoefficient")
	_, err = NewCulvert(CulvertSpec{Diameter: 0.4, Length: 10, ManningN: 0.013, Backflow: BackflowFlap})
	assert.ErrorContains(t, err, "mouth")
	_, err = NewCulvert(CulvertSpec{Diameter: 0.4, Length: 10, ManningN: 0.013, Inlet: BoxWings0, Backflow: BackflowFlap})
	assert.ErrorContains(t, err, "other shape")
	_, err = FlapVelocity(1, 0.3)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = FlapHeadLoss(-1, 0.3)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = OrificeFlow(0.6, 0, 1)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = SiphonCrest{}.MaxRise()
	assert.ErrorIs(t, err, units.ErrDomain)
}

func TestNoticesOfOpenings(t *testing.T) {
	r, err := NewRiser(strRiserSpec(BackflowFlap))
	require.NoError(t, err)
	codes := func(n []units.Notice) (out []string) {
		for _, x := range n {
			out = append(out, x.Code)
		}
		return out
	}
	assert.Empty(t, r.AppendNotices(nil, 0.02, -1))
	assert.Equal(t, []string{CodeRiserSurging}, codes(r.AppendNotices(nil, 0.165, -1)))
	g, err := NewSluiceGate(SluiceGateSpec{Width: 1, Opening: 0.3, Backflow: BackflowFlap})
	require.NoError(t, err)
	assert.Equal(t, []string{CodeGateRange}, codes(g.AppendNotices(nil, 0.35, 0)))
	assert.Empty(t, g.AppendNotices(nil, 1, 0))
	c, err := NewCulvert(CulvertSpec{Diameter: 0.4, Length: 10, ManningN: 0.013, Inlet: MetalHeadwall, Backflow: BackflowFlap})
	require.NoError(t, err)
	assert.Equal(t, []string{CodeCulvertRange}, codes(c.AppendNotices(nil, 3, 0)))
	assert.Equal(t, []string{CodePartFullPipe}, codes(c.AppendNotices(nil, 0.2, 0.1)))
	o := strOutlet(t, strPond())
	assert.Equal(t, []string{CodePartFullPipe}, codes(o.AppendNotices(nil, 0.1, -1)))
	assert.Empty(t, o.AppendNotices(nil, 1, -1))
	assert.Equal(t, []string{CodeOutfallLine}, codes(o.AppendNotices(nil, 0.25, -1)))
	assert.Empty(t, o.AppendNotices(nil, 0.45, 0.4), "drowned, the line ends at the tailwater")
	assert.Empty(t, strBrink(t, strPond()).AppendNotices(nil, 0.25, -1))
}

// A siphon at sea level: the full pipe governs until the crest boils, and the
// flow stops at once at the intake, which the rating reports.
func TestSiphon(t *testing.T) {
	spec := SiphonSpec{Bore: 0.15, Length: 20, Roughness: 1e-4, LossSum: 2.5, UpLength: 8, UpLossSum: 1,
		Intake: 0.3, Crest: 3, OutletCentre: -1, Atmosphere: 101325, VapourPressure: 4247, Density: 995.65, Viscosity: 0.8e-6}
	s, err := NewSiphon(spec)
	require.NoError(t, err)
	assert.Equal(t, ControlFullPipe, s.Control(1, -2))
	assert.Zero(t, s.Discharge(0.3, -2))
	rating, err := NewRating(s, -2, 0, 1.5, 40)
	require.NoError(t, err)
	require.Len(t, rating.Changes, 1)
	assert.InDelta(t, 0.3, float64(rating.Changes[0].Level), 1e-9)
	assert.InDelta(t, float64(s.Discharge(0.3000001, -2)), float64(rating.Changes[0].Jump), 1e-6)
	assert.Equal(t, CodeDischargeJump, rating.Notices[len(rating.Notices)-1].Code)

	// The crest just boils where the pressure head left is the velocity head.
	spec.Crest = 10
	high, err := NewSiphon(spec)
	require.NoError(t, err)
	assert.Equal(t, ControlCrest, high.Control(1, -2))
	q := float64(high.Discharge(1, -2))
	assert.Less(t, q, float64(s.Discharge(1, -2)))
	area := math.Pi / 4 * 0.15 * 0.15
	z, err := SiphonCrest{Atmosphere: spec.Atmosphere, VapourPressure: spec.VapourPressure, Density: spec.Density,
		Velocity: units.Velocity(q / area), Loss: units.Length(q / area * q / area / (2 * gravity) * (1 + 8/0.15*high.p.up.friction(0.94)))}.MaxRise()
	require.NoError(t, err)
	assert.InDelta(t, 9, float64(z), 0.01, "the crest is as high as it can be")
	n := high.AppendNotices(nil, 1, -2)
	require.Len(t, n, 2)
	assert.Equal(t, CodeSiphonRise, n[0].Code)
}
