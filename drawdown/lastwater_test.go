package drawdown

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

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
