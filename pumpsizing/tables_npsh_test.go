package pumpsizing

import (
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestNPSHTable(t *testing.T) {
	suction := func(r check.Row) Suction {
		s := Suction{Atmosphere: units.AbsolutePressure(r.Float("atmosphere_pa")), VapourPressure: units.AbsolutePressure(r.Float("vapour_pa")),
			Density: units.Density(r.Float("rho_kg_m3"))}
		if r.Has("loss_m") {
			s.Loss = units.Metres.Of(r.Float("loss_m"))
		}
		return s
	}
	check.Run(t, "testdata/npsh.csv", checks{
		"AtmosphericPressure": func(r check.Row) (float64, error) {
			p, err := AtmosphericPressure(units.Metres.Of(r.Float("altitude_m")), AtmosphereMethod(r.Float("method")))
			return p.PascalsAbsolute(), err
		},
		"Suction.Available": func(r check.Row) (float64, error) {
			s := suction(r)
			s.Height = units.Metres.Of(r.Float("height_m"))
			h, err := s.Available()
			return h.Metres(), err
		},
		"Suction.MaximumLift": func(r check.Row) (float64, error) {
			h, err := suction(r).MaximumLift(units.Metres.Of(r.Float("required_m")), r.Float("margin"))
			return h.Metres(), err
		},
		"NPSHFromGauge": func(r check.Row) (float64, error) {
			h, err := NPSHFromGauge(units.PascalsGauge.Of(r.Float("gauge_pa")), suction(r), units.MetresPerSecond.Of(r.Float("velocity_m_s")), units.Metres.Of(r.Float("height_m")))
			return h.Metres(), err
		},
	})
}
