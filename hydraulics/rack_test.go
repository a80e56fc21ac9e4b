package hydraulics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func strRack(r check.Row) (Rack, Sheet, error) {
	s := RackSpec{VoidRatio: r.Float("void_ratio"), Coefficient: r.Float("coef"), Slope: units.Angle(r.Float("slope_rad"))}
	if r.Text("law") == "energy" {
		s.Law = EnergyHead
	}
	if r.Text("energy") == "specific" {
		s.Energy = ConstantSpecificEnergy
	}
	rack, err := NewRack(s)
	return rack, Sheet{Flow: units.Flow(r.Float("unit_flow_m2_s")), Width: 1, Velocity: units.Velocity(r.Float("velocity_m_s"))}, err
}

func TestRackTable(t *testing.T) {
	sheet := func(r check.Row) Sheet { return Sheet{Flow: units.Flow(r.Float("unit_flow_m2_s")), Width: 1} }
	check.Run(t, "testdata/rack.csv", map[string]func(check.Row) (float64, error){
		"Rack.WettedLength": func(r check.Row) (float64, error) {
			rack, s, err := strRack(r)
			if err != nil {
				return 0, err
			}
			l, err := rack.WettedLength(s)
			return float64(l), err
		},
		"Rack.At": func(r check.Row) (float64, error) {
			rack, s, err := strRack(r)
			if err != nil {
				return 0, err
			}
			st, err := rack.At(s, strMetres(r, "distance_m"))
			return map[string]float64{"intercepted": st.Intercepted, "depth": float64(st.Depth), "flow": float64(st.Flow)}[r.Text("quantity")], err
		},
		"FrankKappa": func(r check.Row) (float64, error) { return FrankKappa(units.Angle(r.Float("slope_rad"))) },
		"FrankWettedLength": func(r check.Row) (float64, error) {
			s, m, mu := sheet(r), r.Float("void_ratio"), r.Float("mu")
			l, err := FrankWettedLength(s, m, mu, units.Angle(r.Float("slope_rad")))
			return float64(l), err
		},
		"FrankIntercepted": func(r check.Row) (float64, error) {
			if r.Text("quantity") == "slope at the first bar" {
				// Richardson's extrapolation of one-sided differences.
				var d [8]float64
				for i := range d {
					h := math.Ldexp(0.02, -i)
					v, _ := FrankIntercepted(h)
					d[i] = v / h
				}
				// The share goes with x, x^1.5, x^2 ...: the differences with x^0.5 ...
				for k := 1; k < len(d); k++ {
					f := math.Pow(2, float64(k)/2)
					for i := 0; i+k < len(d); i++ {
						d[i] = (f*d[i+1] - d[i]) / (f - 1)
					}
				}
				return d[0], nil
			}
			return FrankIntercepted(r.Float("distance_m"))
		},
		"NosedaCoefficient": func(r check.Row) (float64, error) {
			return NosedaCoefficient(r.Float("depth_over_pitch"), r.Float("void_ratio"))
		},
		"KrochinWettedLength": func(r check.Row) (float64, error) {
			l, err := KrochinWettedLength(sheet(r), r.Float("void_ratio"), r.Float("blocked_fraction"), r.Float("c0"), units.Angle(r.Float("slope_rad")))
			return float64(l), err
		},
		"BrunellaWettedLength": func(r check.Row) (float64, error) {
			l, err := BrunellaWettedLength(sheet(r), r.Float("void_ratio"))
			return float64(l), err
		},
	})
}

// Along the bars the flow falls to nothing at the wetted length, for every law
// and energy; At and WettedLength agree.
func TestRackProfileEndsAtItsLength(t *testing.T) {
	for _, law := range []RackLaw{StaticHead, Noseda1956, EnergyHead} {
		for _, e := range []RackEnergy{ConstantTotalHead, ConstantSpecificEnergy} {
			for _, slope := range []units.Angle{0, 0.05, 0.3} {
				for _, v := range []units.Velocity{0, 1.5, 3} {
					r, err := NewRack(RackSpec{Law: law, Energy: e, VoidRatio: 0.35, Coefficient: 0.6, BarPitch: 0.02, Slope: slope})
					require.NoError(t, err)
					s := Sheet{Flow: 0.06, Width: 1.2, Velocity: v}
					l, err := r.WettedLength(s)
					require.NoError(t, err)
					before := s.Flow
					for i := 1; i <= 20; i++ {
						st, err := r.At(s, l*units.Length(i)/20)
						require.NoError(t, err)
						assert.Less(t, float64(st.Flow), float64(before))
						assert.InDelta(t, 1-float64(st.Flow/s.Flow), st.Intercepted, 1e-12)
						before = st.Flow
					}
					assert.InDelta(t, 0, float64(before), 1e-9)
					st, err := r.At(s, 1.01*l)
					require.NoError(t, err)
					assert.Equal(t, RackState{Intercepted: 1}, st)
					// The band holds both energies.
					band, err := r.Band(s)
					require.NoError(t, err)
					assert.LessOrEqual(t, float64(band.Shortest), float64(l))
					assert.GreaterOrEqual(t, float64(band.Longest), float64(l))
				}
			}
		}
	}
}

// The integrated law agrees with its own closed form where there is one.
func TestRackMarchAgreesWithClosedForm(t *testing.T) {
	for _, v := range []float64{0, 0.9, 2, 4} {
		r, err := NewRack(RackSpec{Energy: ConstantSpecificEnergy, VoidRatio: 0.3, Coefficient: 0.8, Slope: 0.2})
		require.NoError(t, err)
		st := r.start(0.05, v)
		x, q := r.march(st, math.Inf(1))
		assert.InEpsilon(t, r.length(st), x, 2e-7, "velocity %v", v)
		assert.Zero(t, q)
		_, q = r.march(st, 0.2)
		assert.InEpsilon(t, r.remaining(st, 0.2), q, 2e-7)
	}
}

// Frank's length lies between the two energies of the static law.
func TestFrankLiesBetweenTheEnergies(t *testing.T) {
	for _, slope := range []units.Angle{10 * units.Degree, 15 * units.Degree, 20 * units.Degree} {
		s := Sheet{Flow: 0.05, Width: 1}
		frank, err := FrankWettedLength(s, 0.3, 0.6, slope)
		require.NoError(t, err)
		r, err := NewRack(RackSpec{VoidRatio: 0.3, Coefficient: 0.6, Slope: slope})
		require.NoError(t, err)
		band, err := r.Band(s)
		require.NoError(t, err)
		assert.Greater(t, float64(frank), float64(band.Shortest))
		assert.Less(t, float64(frank), float64(band.Longest))
	}
}

func TestRackRefuses(t *testing.T) {
	good := RackSpec{VoidRatio: 0.3, Coefficient: 0.6}
	for field, spoil := range map[string]func(*RackSpec){
		"voidRatio":   func(s *RackSpec) { s.VoidRatio = 1.2 },
		"coefficient": func(s *RackSpec) { s.Coefficient = 0.1 },
		"slope":       func(s *RackSpec) { s.Slope = 50 * units.Degree },
		"barPitch":    func(s *RackSpec) { s.Law = Noseda1956 },
		"law":         func(s *RackSpec) { s.Law = 9 },
		"energy":      func(s *RackSpec) { s.Energy = 9 },
	} {
		s := good
		spoil(&s)
		_, err := NewRack(s)
		var in *units.InputError
		require.ErrorAs(t, err, &in, field)
		assert.Equal(t, field, in.Field)
	}
	r, err := NewRack(good)
	require.NoError(t, err)
	_, err = r.WettedLength(Sheet{Flow: 0.1})
	assert.ErrorContains(t, err, "width")
	_, err = Rack{}.WettedLength(Sheet{Flow: 0.1, Width: 1})
	assert.ErrorContains(t, err, "NewRack")
	_, err = r.At(Sheet{Flow: 0.1, Width: 1}, -1)
	assert.ErrorIs(t, err, units.ErrDomain)
	l, err := r.WettedLength(Sheet{Width: 1})
	require.NoError(t, err)
	assert.Zero(t, l)
	_, err = NosedaCoefficient(5, 0.3)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = BrunellaWettedLength(Sheet{Flow: 0.1, Width: 1}, 0.2)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = KrochinWettedLength(Sheet{Flow: 0.1, Width: 1}, 0.2, 1, 0.5, 0)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = FrankWettedLength(Sheet{Flow: 0.1, Width: 1}, 0.2, 0.6, 30*units.Degree)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = FrankKappa(-0.1)
	assert.ErrorIs(t, err, units.ErrDomain)
}

func BenchmarkRackWettedLength(b *testing.B) {
	for name, e := range map[string]RackEnergy{"closed form": ConstantSpecificEnergy, "integrated": ConstantTotalHead} {
		b.Run(name, func(b *testing.B) {
			r, _ := NewRack(RackSpec{Energy: e, VoidRatio: 0.3, Coefficient: 0.8, Slope: 0.2})
			s := Sheet{Flow: 0.05, Width: 1, Velocity: 2}
			b.ReportAllocs()
			for b.Loop() {
				_, _ = r.WettedLength(s)
			}
		})
	}
}
