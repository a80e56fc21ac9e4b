package hydraulics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func strSection(r check.Row) Section {
	switch r.Text("shape") {
	case "circle":
		return CircularSection{strMetres(r, "diameter_m")}
	case "rectangle":
		return RectangularSection{strMetres(r, "width_m")}
	}
	return TrapezoidalSection{strMetres(r, "width_m"), r.Float("side_slope")}
}

// strScaled is the flow that does under standard gravity what the row's flow
// does under its own: critical depths, jumps and energies depend on Q²/g.
func strScaled(r check.Row, q float64) units.Flow {
	return units.Flow(q * math.Sqrt(gravity/r.Float("g_m_s2")))
}

func TestChannelTable(t *testing.T) {
	check.Run(t, "testdata/channel.csv", map[string]func(check.Row) (float64, error){
		"NormalDepth": func(r check.Row) (float64, error) {
			y, err := NormalDepth(strSection(r), units.Flow(r.Float("flow_m3_s")), r.Float("manning_n"), units.Slope(r.Float("slope")))
			return strInRange(y, err)
		},
		"CriticalDepth": func(r check.Row) (float64, error) {
			y, err := CriticalDepth(strSection(r), strScaled(r, r.Float("flow_m3_s")))
			return float64(y), err
		},
		"ManningFlow": func(r check.Row) (float64, error) {
			u, err := ManningFlow(strSection(r), strMetres(r, "depth_m"), r.Float("manning_n"), units.Slope(r.Float("slope")))
			return map[string]float64{"flow": float64(u.Flow), "area": float64(u.Area),
				"perimeter": float64(u.WettedPerimeter), "velocity": float64(u.Velocity)}[r.Text("quantity")], err
		},
		"FroudeNumber": func(r check.Row) (float64, error) {
			return FroudeNumber(strSection(r), units.Flow(r.Float("flow_m3_s")), strMetres(r, "depth_m"))
		},
		"SpecificEnergy": func(r check.Row) (float64, error) {
			e, err := SpecificEnergy(strSection(r), strScaled(r, r.Float("flow_m3_s")), strMetres(r, "depth_m"))
			return float64(e), err
		},
		"BackwaterLength": func(r check.Row) (float64, error) {
			x, err := BackwaterLength(ChannelReach{Section: strSection(r), Slope: units.Slope(r.Float("slope")), ManningN: r.Float("manning_n"),
				Flow: units.Flow(r.Float("flow_m3_s")), Coriolis: r.Float("alpha") * gravity / r.Float("g_m_s2")}, strMetres(r, "depth_m"), strMetres(r, "depth_to_m"))
			return float64(x), err
		},
		"Jump": func(r check.Row) (float64, error) {
			j, err := Jump(strSection(r), strScaled(r, r.Float("unit_flow_m2_s")), strMetres(r, "depth_m"))
			return map[string]float64{"Fr1": j.Froude, "y2_m": float64(j.Downstream), "dE_m": float64(j.EnergyLoss)}[r.Text("quantity")], err
		},
		"JumpPower": func(r check.Row) (float64, error) {
			q := r.Float("unit_flow_m2_s")
			j, err := Jump(strSection(r), strScaled(r, q), strMetres(r, "depth_m"))
			if err != nil {
				return 0, err
			}
			assert.Equal(t, "power_W_per_m_rho998", r.Text("quantity"))
			p, err := JumpPower(units.Density(r.Float("density_kg_m3")), units.Flow(q), j.EnergyLoss)
			return float64(p) * r.Float("g_m_s2") / gravity, err
		},
		"AlternateDepth": func(r check.Row) (float64, error) {
			assert.Equal(t, "alternate_depth_m", r.Text("quantity"))
			y, err := AlternateDepth(strSection(r), strScaled(r, r.Float("unit_flow_m2_s")), strMetres(r, "depth_m"))
			return float64(y), err
		},
		"CircularPartFull": func(r check.Row) (float64, error) {
			if !r.Has("depth_ratio") {
				return strMost(r.Text("quantity"))
			}
			p, err := CircularPartFull(r.Float("depth_ratio"))
			if r.Text("quantity") == "A_over_D2" {
				return p.Area * math.Pi / 4, err
			}
			return p.Flow, err
		},
	})
}

// strMost finds the largest flow or velocity of a part-full circle by golden
// sections of the exported function.
func strMost(quantity string) (float64, error) {
	value := func(x float64) float64 {
		p, _ := CircularPartFull(x)
		if quantity == "y_over_D_at_Qmax" {
			return p.Flow
		}
		return p.Velocity
	}
	a, b := 0.5, 1.0
	for b-a > 1e-9 {
		x, y := b-(b-a)*0.618033988749895, a+(b-a)*0.618033988749895
		if value(x) > value(y) {
			b = y
		} else {
			a = x
		}
	}
	if quantity == "Vmax_over_Vfull" {
		return value((a + b) / 2), nil
	}
	return (a + b) / 2, nil
}

// The inverses invert, in every kind of section.
func TestChannelInverses(t *testing.T) {
	for _, s := range []Section{CircularSection{0.6}, RectangularSection{0.8}, TrapezoidalSection{0.5, 1.5}, TrapezoidalSection{0, 1}} {
		for _, y := range []units.Length{0.003, 0.05, 0.2, 0.35, 0.45} {
			u, err := ManningFlow(s, y, 0.013, 0.002)
			require.NoError(t, err)
			back, err := NormalDepth(s, u.Flow, 0.013, 0.002)
			require.NoError(t, err)
			assert.InEpsilon(t, float64(y), float64(back), 1e-10)

			yc, err := CriticalDepth(s, u.Flow)
			require.NoError(t, err)
			f, err := FroudeNumber(s, u.Flow, yc)
			require.NoError(t, err)
			assert.InDelta(t, 1, f, 1e-9, "%T", s)

			shooting := yc * 0.7
			other, err := AlternateDepth(s, u.Flow, shooting)
			require.NoError(t, err, "%T %v", s, y)
			e1, _ := SpecificEnergy(s, u.Flow, shooting)
			e2, _ := SpecificEnergy(s, u.Flow, other)
			assert.InEpsilon(t, float64(e1), float64(e2), 1e-9)
			again, err := AlternateDepth(s, u.Flow, other)
			require.NoError(t, err)
			assert.InEpsilon(t, float64(shooting), float64(again), 1e-8)

			j, err := Jump(s, u.Flow, shooting)
			require.NoError(t, err)
			force := func(y units.Length) float64 {
				q := float64(u.Flow)
				return q*q/gravity/float64(s.Area(y)) + moment(s, float64(y))
			}
			assert.InEpsilon(t, force(shooting), force(j.Downstream), 1e-9, "%T momentum", s)
			assert.Positive(t, float64(j.EnergyLoss), "%T", s)
			assert.Less(t, j.FroudeAfter, 1.0)
			e2, _ = SpecificEnergy(s, u.Flow, j.Downstream)
			assert.InDelta(t, float64(e1-e2), float64(j.EnergyLoss), 1e-9)
		}
	}
}

// strOwn is a section of a caller's own: a rectangle that does not say so.
type strOwn struct{ RectangularSection }

func TestSectionMoments(t *testing.T) {
	for _, y := range []float64{0.1, 0.3, 0.55} {
		assert.InEpsilon(t, moment(RectangularSection{0.7}, y), moment(strOwn{RectangularSection{0.7}}, y), 1e-12)
		// ∫ A dy by the rectangle rule.
		var sum float64
		c := CircularSection{0.6}
		for i := range 20000 {
			sum += float64(c.Area(units.Length(y*(float64(i)+0.5)/20000))) * y / 20000
		}
		assert.InEpsilon(t, sum, moment(c, y), 1e-8)
	}
}

// The profile's points lie where the whole integral puts them, and it rises or
// falls with the depth all along.
func TestBackwaterProfile(t *testing.T) {
	r := ChannelReach{Section: TrapezoidalSection{2, 2}, Slope: 0.0005, ManningN: 0.03, Flow: 1.2}
	p, err := BackwaterProfile(r, 1, 1.5, 11)
	require.NoError(t, err)
	require.Len(t, p, 11)
	whole, err := BackwaterLength(r, 1, 1.5)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(whole), float64(p[10].Distance), 1e-10)
	for i := 1; i < len(p); i++ {
		assert.Greater(t, p[i].Distance, p[i-1].Distance)
	}
	// Normal depth 0.745 m and critical depth 0.299 m lie between these.
	_, err = BackwaterLength(r, 1, 0.6)
	assert.ErrorIs(t, err, units.ErrNoSolution)
	assert.ErrorContains(t, err, "normal depth")
	_, err = BackwaterLength(r, 0.5, 0.2)
	assert.ErrorContains(t, err, "critical depth")
	_, err = BackwaterProfile(r, 1, 1.5, 1)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = BackwaterLength(ChannelReach{Section: CircularSection{0.6}, Slope: 0.001, ManningN: 0.013, Flow: 0.05}, 0.4, 0.59)
	assert.ErrorContains(t, err, "crown")
	_, err = BackwaterLength(ChannelReach{}, 1, 2)
	assert.ErrorIs(t, err, units.ErrDomain)
}

func TestChannelRefuses(t *testing.T) {
	_, err := NormalDepth(CircularSection{0.3}, 1, 0.013, 0.001)
	assert.ErrorIs(t, err, units.ErrNoSolution)
	_, err = ManningFlow(CircularSection{0.3}, 0.4, 0.013, 0.001)
	assert.ErrorContains(t, err, "crown")
	_, err = ManningFlow(RectangularSection{1}, 0.4, 0.5, 0.001)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = ManningFlow(RectangularSection{1}, units.Length(math.NaN()), 0.013, 0.001)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = ManningFlow(nil, 1, 0.013, 0.001)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = CriticalDepth(TrapezoidalSection{}, 1)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = Jump(RectangularSection{1}, 1, 2)
	assert.ErrorIs(t, err, units.ErrNoSolution)
	_, err = CircularPartFull(1.1)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = SpecificEnergy(RectangularSection{1}, -1, 2)
	assert.ErrorIs(t, err, units.ErrDomain)

	limit := PermissibleVelocities()[0]
	n, out := ScourNotice(RectangularSection{1}, 0.5, 0.5, limit)
	require.True(t, out)
	assert.Equal(t, CodeScour, n.Code)
	_, out = ScourNotice(RectangularSection{1}, 0.1, 0.5, limit)
	assert.False(t, out)
	assert.NotEmpty(t, ManningRoughnesses())
}
