package drawdown

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

func lwEffluent(volume float64) Effluent {
	mg := units.MilligramsPerLitre.Of
	return Effluent{Volume: units.Volume(volume), Samples: []EffluentSample{{0, mg(100)}, {0.8, mg(100)}, {0.8, mg(1000)}, {1, mg(1000)}}}
}

func TestEffluentAgainstSums(t *testing.T) {
	rng := rand.New(rand.NewPCG(75, 76))
	for range 200 {
		e := Effluent{Volume: units.Volume(100 + 1e4*rng.Float64())}
		at := 0.0
		for range 1 + rng.IntN(6) {
			e.Samples = append(e.Samples, EffluentSample{at, units.Concentration(rng.Float64())})
			if rng.IntN(3) == 0 && at > 0 {
				e.Samples = append(e.Samples, EffluentSample{at, units.Concentration(rng.Float64())})
			}
			at += 0.01 + (1-at)*0.5*rng.Float64()
			if at > 1 {
				break
			}
		}
		require.NoError(t, e.Validate())
		a, c := rng.Float64(), rng.Float64()
		if a > c {
			a, c = c, a
		}
		whole, err := e.Load(0, 1)
		require.NoError(t, err)
		parts := 0.0
		for _, p := range [][2]float64{{0, a}, {a, c}, {c, 1}} {
			m, err := e.Load(p[0], p[1])
			require.NoError(t, err)
			parts += float64(m)
		}
		require.InDelta(t, float64(whole), parts, 1e-9*float64(whole))
		sum := 0.0 // midpoints of fine slices by the definition of linear samples
		const n = 20000
		for i := range n {
			f := a + (c-a)*(float64(i)+0.5)/n
			sum += float64(e.Volume) * (c - a) / n * lwConcentration(e, f)
		}
		got, err := e.Load(a, c)
		require.NoError(t, err)
		require.InDelta(t, sum, float64(got), 1e-3*float64(whole)+1e-9)
		limit := PermitLimit{Mean: units.Concentration(0.2 + 0.6*rng.Float64()), Peak: units.Concentration(0.3 + 0.7*rng.Float64())}
		hold, err := e.HoldBackFor(limit)
		if err != nil {
			require.ErrorIs(t, err, units.ErrNoSolution)
			continue
		}
		notices, err := e.Check(1-hold, limit)
		require.NoError(t, err)
		require.Empty(t, notices)
		if hold > 0 {
			notices, err = e.Check(math.Min(1, 1-hold+1e-6), limit)
			require.NoError(t, err)
			require.NotEmpty(t, notices)
		}
	}
}

func lwConcentration(e Effluent, f float64) float64 {
	s := e.Samples
	if f <= s[0].Drained {
		return float64(s[0].Concentration)
	}
	for i := 1; i < len(s); i++ {
		if f < s[i].Drained {
			return float64(s[i-1].Concentration) + (f-s[i-1].Drained)/(s[i].Drained-s[i-1].Drained)*float64(s[i].Concentration-s[i-1].Concentration)
		}
	}
	return float64(s[len(s)-1].Concentration)
}

func TestEffluentLimitsAndErrors(t *testing.T) {
	e := lwEffluent(10000)
	n, err := e.Check(1, PermitLimit{Name: "suspended solids", Mean: units.MilligramsPerLitre.Of(50), Peak: units.MilligramsPerLitre.Of(500), Load: 1000, Source: "permit 7, clause 2"})
	require.NoError(t, err)
	require.Len(t, n, 3)
	require.Equal(t, "permit 7, clause 2", n[0].Source)
	n, err = e.Check(0.5, PermitLimit{Name: "suspended solids", Mean: units.MilligramsPerLitre.Of(150)})
	require.NoError(t, err)
	require.Empty(t, n)
	_, err = e.HoldBackFor(PermitLimit{Name: "solids", Peak: units.MilligramsPerLitre.Of(50)})
	require.ErrorIs(t, err, units.ErrNoSolution)
	_, err = e.Check(0, PermitLimit{})
	require.ErrorIs(t, err, units.ErrDomain)
	_, err = e.Load(0.5, 0.2)
	require.ErrorIs(t, err, units.ErrDomain)
	_, err = e.Mean(0.5, 0.5)
	require.ErrorIs(t, err, units.ErrDomain)
	_, err = Effluent{Volume: 1, Samples: []EffluentSample{{0.5, 1}, {0.2, 1}}}.Load(0, 1)
	require.ErrorContains(t, err, "samples[1].drained")
	_, err = Effluent{}.Load(0, 1)
	require.ErrorContains(t, err, "volume")
	h, err := HoldBackStage(stTable(t), 1.4, 0.2)
	require.NoError(t, err)
	require.InDelta(t, 1136.2, float64(h.Volume), 1e-9)
	require.InDelta(t, 0.4060684/1.4, h.DepthFraction, 1e-6) // the last fifth of the volume begins at 29 % of the depth
	_, err = HoldBackStage(nil, 1, 0.2)
	require.ErrorIs(t, err, units.ErrDomain)
	_, err = HoldBackStage(stTable(t), 1.4, 1.2)
	require.ErrorIs(t, err, units.ErrDomain)
}

func TestSettlingRangesAndErrors(t *testing.T) {
	_, err := StokesVelocity(1e-3, 2650, 1000, 1e-3)
	require.ErrorIs(t, err, units.ErrRange)
	v, err := StokesVelocity(1e-4, 900, 1000, 1e-3)
	require.NoError(t, err)
	require.Negative(t, float64(v)) // oil rises
	_, err = FergusonChurchVelocity(0.5, 1.65, 1e-6, NaturalGrain)
	require.ErrorIs(t, err, units.ErrRange)
	_, err = FergusonChurchVelocity(1e-4, 1.65, 1e-6, 7)
	require.ErrorIs(t, err, units.ErrDomain)
	// Small grains settle by Stokes' law, and spheres no slower than natural grains.
	for _, d := range []units.Length{2e-6, 1e-5} {
		stokes, err := StokesVelocity(d, 2650, 1000, 1e-3)
		require.NoError(t, err)
		fc, err := FergusonChurchVelocity(d, 1.65, 1e-6, NaturalGrain)
		require.NoError(t, err)
		require.InDelta(t, 1, float64(fc/stokes), 0.01)
		sphere, err := FergusonChurchVelocity(d, 1.65, 1e-6, SmoothSphere)
		require.NoError(t, err)
		require.Greater(t, sphere, fc)
	}
	last := 0.0
	for n := 1; n < 200; n++ { // more tanks come nearer the ideal basin
		y, err := SettledFraction(1e-4, 2000, 0.2, n)
		require.NoError(t, err)
		require.True(t, y > last && y < 1)
		last = y
	}
	for _, err := range []error{second(OverflowRate(0, 1)), second(SettlingArea(1, 0)), second(SettlingVolume(1, -1)), second(Detention(1, 0)),
		second(SettledFraction(1, 1, 1, -1)), second(StokesVelocity(0, 1, 1, 1)), second(IsbashStone(1, 1, HighTurbulence)), second(IsbashStone(1, 2.65, 9)),
		second(Outfall{Flow: 1}.Velocity())} {
		require.ErrorIs(t, err, units.ErrDomain)
	}
	r, err := Outfall{Flow: 0.3, Area: 0.2, Limit: 0.6}.Velocity()
	require.NoError(t, err)
	require.InDelta(t, 1.5, float64(r.Velocity), 1e-12)
	require.Equal(t, CodeOutfallVelocity, r.Notices[0].Code)
}
