package drawdown

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestCrowdingCurveShape(t *testing.T) {
	for _, c := range []CrowdingCurve{{}, {RunStarts: 0.3, Exponent: 0.6}, {RunStarts: 0.15, Exponent: 2, Stranded: 0.05},
		{Points: []StockPoint{{1, 1}, {0.3, 0.95}, {0.1, 0.4}, {0, 0.02}}}, {Points: []StockPoint{{0, 0.02}, {0.1, 0.4}, {1, 1}}}} {
		require.NoError(t, c.Validate())
		last := -1.0
		for i := range 1001 {
			v := float64(i) / 1000
			r, slope := c.withDefaults().eval(v)
			require.True(t, r >= last && r >= 0 && r <= 1)
			last = r
			if lo, hi := c.Remaining(v-1e-7), c.Remaining(v+1e-7); math.Abs((hi-lo)/2e-7-slope) > 1e-3 {
				// only at a corner may the slope be one-sided
				require.True(t, math.Abs((hi-r)/1e-7-slope) < 1e-2 || math.Abs((r-lo)/1e-7-slope) < 1e-2, "%v at %v", c, v)
			}
			require.InDelta(t, 1, r+c.MovedOut(v), 1e-15)
		}
		require.Equal(t, 1.0, c.Remaining(1))
	}
	require.Zero(t, CrowdingCurve{}.Remaining(0))
	for _, c := range []CrowdingCurve{{RunStarts: 2}, {Exponent: -1}, {Stranded: math.NaN()}, {Points: []StockPoint{{1, 1}}},
		{Points: []StockPoint{{1, 1}, {1, 0.5}}}, {Points: []StockPoint{{1, 0.5}, {0.5, 0.9}}}, {Points: []StockPoint{{1, 1}, {0.2, 0.5}, {0.4, 0.3}}}} {
		require.ErrorIs(t, c.Validate(), units.ErrDomain, "%v", c)
	}
}

// By hand: 5000 kg in 15,790.5 m3; below a fifth of the water animals leave in
// proportion, so they stand at 5000/(0.2*15790.5) = 1.5832 kg/m3 throughout
// and 0.25 m3/s brings 0.3958 kg/s, 631.6 kg of water per kg.
func TestCrowdDensityAndDelivery(t *testing.T) {
	pond, err := RectangularPond{Length: 120, Width: 80, SideSlope: 3, DeepEndSlope: 3, ShallowEndSlope: 3, Crest: 1.5}.Shape()
	require.NoError(t, err)
	c := Crowd{Pond: pond, Start: 1.5, Stock: 5000, Curve: CrowdingCurve{RunStarts: 0.2, Exponent: 1}}
	for _, h := range []units.Length{0.05, 0.15, 0.3} {
		s, err := c.At(h, 0.25)
		require.NoError(t, err)
		require.InDelta(t, 1.5832, float64(s.Density), 5e-5)
		require.InDelta(t, 0.395808, float64(s.Delivery), 5e-7)
		require.InDelta(t, 631.6, s.WaterPerAnimal, 0.05)
		require.InDelta(t, 1/(631.6*1.05), s.SolidsFraction, 1e-6)
		require.Equal(t, CodeCrowdingAssumed, s.Notices[0].Code)
	}
	s, err := c.At(1.2, 0.25)
	require.NoError(t, err)
	require.Zero(t, s.Delivery)
	require.Equal(t, units.Mass(5000), s.Left)
	s, err = c.At(0, 0.25)
	require.NoError(t, err)
	require.Zero(t, s.Density)
	require.Equal(t, CodeCrowdingDry, s.Notices[0].Code)
	_, err = json.Marshal(s)
	require.NoError(t, err)
	c.DensityLimit = 1
	s, err = c.At(0.1, 0.25)
	require.NoError(t, err)
	require.Equal(t, CodeCrowdingDensity, s.Notices[1].Code)
	_, err = Crowd{Start: 1, Stock: -1}.At(0, 0)
	require.ErrorContains(t, err, "pond")
	require.ErrorContains(t, err, "stock")
}

// The animals that arrive over a run are the stock that left.
func TestCrowdDeliveryAddsUp(t *testing.T) {
	c := Crowd{Pond: stTable(t), Start: 1.4, Stock: 1000, Curve: CrowdingCurve{RunStarts: 0.3, Exponent: 0.7, Stranded: 0.04}}
	delivered := 0.0
	const n, q = 40000, 0.1
	for i := range n { // by equal parts of volume
		v := 5681 * (1 - (float64(i)+0.5)/n)
		s, err := c.At(c.Pond.Stage(units.Volume(v)), q)
		require.NoError(t, err)
		delivered += float64(s.Delivery) * 5681 / n / q
	}
	require.InDelta(t, 960, delivered, 0.5)
}

func TestFitCrowdingFindsTheCurve(t *testing.T) {
	rng := rand.New(rand.NewPCG(71, 72))
	for range 6 {
		truth := CrowdingCurve{RunStarts: 0.1 + 0.4*rng.Float64(), Exponent: 0.5 + 1.5*rng.Float64(), Stranded: 0.1 * rng.Float64()}
		var pairs []StockPoint
		for i := range 14 {
			v := 0.9 * math.Pow(float64(13-i)/13, 2)
			pairs = append(pairs, StockPoint{v, truth.Remaining(v)})
		}
		fit, err := FitCrowding(pairs)
		require.NoError(t, err)
		require.Less(t, fit.Residual, 1e-4)
		require.InDelta(t, truth.RunStarts, fit.Curve.RunStarts, 2e-3)
		require.InDelta(t, truth.Exponent, fit.Curve.Exponent, 1e-2)
	}
	_, err := FitCrowding([]StockPoint{{1, 1}, {0.5, 1}, {0.3, 0.99}, {0.2, 0.95}})
	require.ErrorIs(t, err, units.ErrNoSolution)
	_, err = FitCrowding([]StockPoint{{1, 1}})
	require.ErrorIs(t, err, units.ErrDomain)
	_, err = FitCrowding([]StockPoint{{1, 1}, {0.5, 1}, {0.3, math.NaN()}, {0.2, 0.5}})
	require.ErrorContains(t, err, "pairs[2].stock")
}

func lwFlush() FlushCycles {
	return FlushCycles{Basin: 28.8, Refill: units.CubicMetresPerHour.Of(60), PumpOut: units.CubicMetresPerHour.Of(230), Removal: 0.7}
}

// By hand: 28.8/60 h = 28.8 min of refill and 28.8/230 h = 7.51 min of pumping.
func TestFlushPlan(t *testing.T) {
	p, err := lwFlush().Plan(100, 3)
	require.NoError(t, err)
	require.InDelta(t, 36.313, p.Cycle.Minutes(), 1e-3)
	require.InDelta(t, 1.8157, p.Time.Hours(), 1e-4)
	require.InDelta(t, 2.7, float64(p.Left), 1e-12)
	require.InDelta(t, 97.3, float64(p.Recovered), 1e-12)
	require.InDelta(t, 86.4, float64(p.Water), 1e-12)
	require.Equal(t, CodeFlushRefill, p.Notices[0].Code)
	f := lwFlush()
	f.RefillRuns = true
	q, err := f.Plan(100, 3)
	require.NoError(t, err)
	require.InDelta(t, 28.8+28.8/170*60, q.Cycle.Minutes(), 1e-9)
	require.InDelta(t, 86.4+3*60*28.8/170, float64(q.Water), 1e-9)
	f.Refill = f.PumpOut
	_, err = f.Plan(100, 3)
	require.ErrorIs(t, err, units.ErrNoSolution)
	p, err = lwFlush().Plan(100, 0)
	require.NoError(t, err)
	require.Zero(t, p.Time)
}

func TestFlushNeededIsTheFewest(t *testing.T) {
	rng := rand.New(rand.NewPCG(73, 74))
	for range 2000 {
		f := lwFlush()
		f.Removal = 0.05 + 0.94*rng.Float64()
		if rng.IntN(2) == 0 {
			f.Removals = []float64{0.1 + 0.8*rng.Float64(), 0.1 + 0.8*rng.Float64(), f.Removal}
		}
		want := math.Pow(10, -4*rng.Float64())
		n, err := f.Needed(want)
		require.NoError(t, err)
		r, err := f.Residual(n)
		require.NoError(t, err)
		require.LessOrEqual(t, r, want*(1+1e-9))
		if n > 0 {
			before, err := f.Residual(n - 1)
			require.NoError(t, err)
			require.Greater(t, before, want)
		}
	}
	// Exact powers must not ask for one cycle too many.
	for n := 1; n <= 20; n++ {
		f := lwFlush()
		f.Removal = 0.9
		got, err := f.Needed(math.Pow(0.1, float64(n)))
		require.NoError(t, err)
		require.Equal(t, n, got)
	}
	f := lwFlush()
	for _, r := range []float64{0, -1, 2, math.NaN()} {
		_, err := f.Needed(r)
		require.ErrorIs(t, err, units.ErrDomain)
	}
	f.Removal = 1e-6
	_, err := f.Needed(0.01)
	require.ErrorIs(t, err, units.ErrNoSolution)
	f.Removal = 1.2
	_, err = f.Needed(0.01)
	require.ErrorContains(t, err, "removal")
	_, err = f.Residual(-1)
	require.ErrorIs(t, err, units.ErrDomain)
}

func TestNextFlushPaysOrNot(t *testing.T) {
	n, err := lwFlush().Next(50, 2, 6, 120)
	require.NoError(t, err)
	require.InDelta(t, 35, float64(n.Catch), 1e-9)
	require.InDelta(t, 35*6-36.313/60*120, n.Net, 0.01)
	require.True(t, n.Worth)
	n, err = lwFlush().Next(5, 2, 6, 120)
	require.NoError(t, err)
	require.False(t, n.Worth)
	p, left, err := RemovalFromCatches(100, 30)
	require.NoError(t, err)
	require.InDelta(t, 0.7, p, 1e-12)
	require.InDelta(t, 100/0.7-130, float64(left), 1e-9)
	_, _, err = RemovalFromCatches(30, 30)
	require.ErrorIs(t, err, units.ErrNoSolution)
	_, _, err = RemovalFromCatches(0, 0)
	require.ErrorIs(t, err, units.ErrDomain)
	require.Equal(t, time.Duration(0), FlushPlan{}.Time)
}

func TestLastWaterTable(t *testing.T) {
	q := func(r check.Row, c string) float64 {
		if r.Has(c) {
			return r.Float(c)
		}
		return 0
	}
	flush := func(r check.Row) FlushCycles {
		f := lwFlush()
		f.Removal = r.Float("removal")
		return f
	}
	check.Run(t, "testdata/lastwater.csv", map[string]func(check.Row) (float64, error){
		"OxygenBudget.Outlook": func(r check.Row) (float64, error) {
			b := OxygenBudget{Volume: units.Volume(r.Float("volume_m3")), Stock: units.Mass(r.Float("mass_kg")),
				Respiration: units.GramsPerKilogramDay.Of(24 * r.Float("respiration_g_kg_h")),
				Start:       units.MilligramsPerLitre.Of(r.Float("start_g_m3")), Limit: units.MilligramsPerLitre.Of(r.Float("limit_g_m3")),
				Inflow: units.Flow(r.Float("inflow_m3_s")), InflowOxygen: units.MilligramsPerLitre.Of(r.Float("inflow_g_m3")),
				Temperature: units.Celsius(28), Salinity: 15}
			if r.Has("reaeration_1_s") {
				b.Reaeration = units.Rate(r.Float("reaeration_1_s"))
				b.Temperature, b.Salinity = oxTemperature(t, r.Float("saturation_g_m3")), 0
			}
			o, err := b.Outlook()
			switch r.Text("quantity") {
			case "time_s":
				require.True(t, o.Meets)
				return o.TimeToLimit.Seconds(), err
			case "never":
				if o.Meets {
					return 0, err
				}
				return 1, err
			}
			return float64(o.InflowToHold), err
		},
		"FlushCycles.Residual": func(r check.Row) (float64, error) { return flush(r).Residual(int(r.Float("cycles"))) },
		"FlushCycles.Needed": func(r check.Row) (float64, error) {
			n, err := flush(r).Needed(r.Float("residual"))
			return float64(n), err
		},
		"RemovalFromCatches": func(r check.Row) (float64, error) {
			p, _, err := RemovalFromCatches(units.Mass(r.Float("mass_kg")), units.Mass(r.Float("second_kg")))
			return p, err
		},
		"Effluent.Load": func(r check.Row) (float64, error) {
			e := lwEffluent(r.Float("volume_m3"))
			whole, err := e.Load(0, 1)
			if r.Text("quantity") == "0 to 1" {
				return float64(whole), err
			}
			last, err := e.Load(0.8, 1)
			return float64(last / whole), err
		},
		"Effluent.Mean": func(r check.Row) (float64, error) {
			require.Equal(t, "0 to 1", r.Text("quantity"))
			c, err := lwEffluent(r.Float("volume_m3")).Mean(0, 1)
			return float64(c), err
		},
		"Effluent.HoldBackFor": func(r check.Row) (float64, error) {
			return lwEffluent(r.Float("volume_m3")).HoldBackFor(PermitLimit{Mean: units.MilligramsPerLitre.Of(r.Float("limit_g_m3"))})
		},
		"CrowdingCurve.Remaining": func(r check.Row) (float64, error) { return CrowdingCurve{}.Remaining(r.Float("residual")), nil },
		"CrowdingCurve.MovedOut":  func(r check.Row) (float64, error) { return CrowdingCurve{}.MovedOut(r.Float("residual")), nil },
		"OxygenSaturation": func(r check.Row) (float64, error) {
			c, err := OxygenSaturation(units.Celsius(r.Float("quantity")), 0, 101325)
			return float64(c) * 1000, err
		},
		"UnionizedAmmonia": func(r check.Row) (float64, error) {
			return UnionizedAmmonia(units.Celsius(r.Float("quantity")), r.Float("residual"))
		},
		"SettlingArea": func(r check.Row) (float64, error) {
			a, err := SettlingArea(units.Flow(r.Float("flow_m3_s")), units.Velocity(r.Float("velocity_m_s")))
			return float64(a), err
		},
		"OverflowRate": func(r check.Row) (float64, error) {
			v, err := OverflowRate(units.Flow(r.Float("flow_m3_s")), units.Area(r.Float("area_m2")))
			return float64(v), err
		},
		"SettlingVolume": func(r check.Row) (float64, error) {
			v, err := SettlingVolume(units.Flow(r.Float("flow_m3_s")), time.Duration(r.Float("time_s")*1e9))
			return float64(v), err
		},
		"Detention": func(r check.Row) (float64, error) {
			d, err := Detention(units.Volume(r.Float("volume_m3")), units.Flow(r.Float("flow_m3_s")))
			return d.Seconds(), err
		},
		"SettledFraction": func(r check.Row) (float64, error) {
			return SettledFraction(units.Velocity(r.Float("velocity_m_s")), units.Area(r.Float("area_m2")), units.Flow(r.Float("flow_m3_s")), int(q(r, "cycles")))
		},
		"StokesVelocity": func(r check.Row) (float64, error) {
			v, err := StokesVelocity(units.Length(r.Float("diameter_m")), units.Density(r.Float("particle_kg_m3")), units.Density(r.Float("water_kg_m3")), units.DynamicViscosity(r.Float("viscosity")))
			return float64(v), err
		},
		"FergusonChurchVelocity": func(r check.Row) (float64, error) {
			v, err := FergusonChurchVelocity(units.Length(r.Float("diameter_m")), r.Float("submerged"), units.KinematicViscosity(r.Float("viscosity")), NaturalGrain)
			return float64(v), err
		},
		"IsbashStone": func(r check.Row) (float64, error) {
			turbulence := HighTurbulence
			if r.Float("isbash_c") == 1.2 {
				turbulence = LowTurbulence
			}
			d, err := IsbashStone(units.Velocity(r.Float("velocity_m_s")), r.Float("submerged"), turbulence)
			return float64(d), err
		},
	})
}

// oxTemperature returns the temperature at which fresh water holds so many
// mg/L, to put a rounded saturation of a worked case into a budget.
func oxTemperature(t *testing.T, mgl float64) units.Temperature {
	lo, hi := 0.0, 40.0
	for range 80 {
		mid := 0.5 * (lo + hi)
		c, err := OxygenSaturation(units.Celsius(mid), 0, 101325)
		require.NoError(t, err)
		if float64(c)*1000 > mgl {
			lo = mid
		} else {
			hi = mid
		}
	}
	return units.KelvinScale(0.5*(lo+hi) + 273.15)
}

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

func TestHotAnswersAllocateNothing(t *testing.T) {
	basin, heat, place := oxBasin(300), wxNoon(), skyPlace
	basin.Start = units.MilligramsPerLitre.Of(6) // long enough from the limit for no notice
	evening := time.Date(2026, 11, 1, 0, 0, 0, 0, time.FixedZone("CST", -6*3600))
	curve := CrowdingCurve{RunStarts: 0.3}
	for name, f := range map[string]func() error{
		"Outlook":          func() error { return second(basin.Outlook()) },
		"OxygenSaturation": func() error { return second(OxygenSaturation(units.Celsius(25), 10, 101325)) },
		"HeatBalance.Rate": func() error { return second(heat.Rate()) },
		"SkyAt":            func() error { return second(SkyAt(place, evening)) },
		"Remaining":        func() error { curve.Remaining(0.1); return nil },
		"Evaporation":      func() error { return second(OpenWater{Air: units.Celsius(25), Humidity: 0.5}.Evaporation()) },
		"TriangleStorage":  func() error { return second(TriangleStorage(50, [3]units.Length{0, 1, 2}, 0.5)) },
	} {
		var err error
		require.Zero(t, testing.AllocsPerRun(20, func() { err = f() }), name)
		require.NoError(t, err, name)
	}
}
