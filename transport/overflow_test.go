package transport

import (
	"math"
	"testing"
	"time"

	"pondwright.example/units"
)

// Amounts beyond all measure give an error or a finite answer, never an infinity
// without an error.
func TestNothingOverflows(t *testing.T) {
	const huge = 1e308
	c := units.Celsius
	for name, call := range map[string]func() (float64, error){
		"AxleLoads": func() (float64, error) {
			f, _, err := AxleLoads(2, []PlacedMass{{huge, 1}, {huge, 2}})
			return float64(f), err
		},
		"OxygenNeed":    func() (float64, error) { v, err := OxygenNeed(huge, 1e-3, 0.01); return float64(v), err },
		"AmmoniaRise":   func() (float64, error) { v, err := AmmoniaRise(huge, 1, 1e300, 1e-300); return float64(v), err },
		"CO2Production": func() (float64, error) { v, err := CO2Production(huge, 2); return float64(v), err },
		"SteadyCO2":     func() (float64, error) { v, err := SteadyCO2(huge, 1e-10, 1e-10, 0); return float64(v), err },
		"CO2After": func() (float64, error) {
			v, err := CO2After(huge, 1e-10, 1e-10, 0, 0, time.Hour)
			return float64(v), err
		},
		"StripLimit":    func() (float64, error) { v, err := StripLimit(huge, 1e10, c(20), 0, 0); return float64(v), err },
		"VentFlow":      func() (float64, error) { v, err := VentFlow(huge, 1e-3, 0.01, c(20), 0); return float64(v), err },
		"Q10":           func() (float64, error) { return Q10(1e-300, huge, c(10), c(10.2)) },
		"DemandAt":      func() (float64, error) { v, err := DemandAt(huge, 10, c(1), c(25)); return float64(v), err },
		"HeatOf":        func() (float64, error) { v, err := HeatOf(huge, 1); return float64(v), err },
		"IceToCool":     func() (float64, error) { v, err := IceToCool(huge, 40, c(1), 0); return float64(v), err },
		"ChillerPower":  func() (float64, error) { v, err := ChillerPower(huge, 40, 1); return float64(v), err },
		"SaltByVolume":  func() (float64, error) { v, err := SaltByVolume(huge, 300); return float64(v), err },
		"LossAllowance": func() (float64, error) { v, err := LossAllowance(huge, 0.9, 0.9); return v.Load, err },
		"Road": func() (float64, error) {
			v, err := Road{Containers: 1000, Conductance: huge, Ambient: c(40), Haul: time.Hour}.Melt(huge)
			return float64(v.Rate), err
		},
		"Tank.Load": func() (float64, error) {
			v, err := Tank{Volume: huge}.Load(huge/2, 1000)
			return float64(v.Displaced), err
		},
		"Tank.Product": func() (float64, error) {
			v, err := Tank{Volume: huge}.Product(LoadDensity{PerTank: 500}, 1000)
			return float64(v), err
		},
		"Cylinder": func() (float64, error) { v, err := Cylinder{Gas: huge}.Oxygen(); return float64(v), err },
		"PayloadForAge": func() (float64, error) {
			v, err := Turn{Haul: 1}.PayloadForAge(huge, time.Hour)
			return float64(v), err
		},
		"GrossMass": func() (float64, error) {
			v, err := Loaded{Water: huge, Product: huge}.GrossMass(huge, 1000)
			return float64(v), err
		},
		"TemperTime flow": func() (float64, error) { _, q, err := TemperTime(huge, c(20), c(10), huge, 1); return float64(q), err },
		"Way":             func() (float64, error) { v, err := Way{Payload: huge}.Carry(huge); return float64(v.Product), err },
	} {
		if v, err := call(); err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("%s: %v without an error", name, v)
		}
	}
}
