package seawater

import (
	"math"
	"testing"

	"pondwright.example/internal/check"
)

// temperature reads t on ITS-90 from whichever scale the row gives.
func temperature(r check.Row) float64 {
	if r.Has("t68_c") {
		return r.Float("t68_c") / 1.00024
	}
	return r.Float("t_c")
}

// salinity reads practical salinity from whichever measure the row gives.
func salinity(r check.Row) float64 {
	if r.Has("salt_g_kg") {
		return r.Float("salt_g_kg") * 35 / 35.16504
	}
	return r.Float("salinity")
}

func TestTable(t *testing.T) {
	of := func(f func(t, s float64) float64) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) { return f(temperature(r), salinity(r)), nil }
	}
	check.Run(t, "testdata/water.csv", map[string]func(check.Row) (float64, error){
		"EOS80": func(r check.Row) (float64, error) {
			return EOS80(r.Float("t68_c"), salinity(r), r.Float("gauge_pa")), nil
		},
		"Density":                  of(Density),
		"BulkModulus":              of(BulkModulus),
		"Viscosity":                of(Viscosity),
		"SpecificHeat":             of(SpecificHeat),
		"VapourPressure":           of(VapourPressure),
		"VapourPressureWeissPrice": of(VapourPressureWeissPrice),
		"SurfaceTension":           of(SurfaceTension),
		"FreezingPoint":            func(r check.Row) (float64, error) { return FreezingPoint(r.Float("salinity")), nil },
		"AirPressure":              func(r check.Row) (float64, error) { return AirPressure(r.Float("altitude_m")), nil },
		"Geopotential":             func(r check.Row) (float64, error) { return Geopotential(r.Float("altitude_m")), nil },
		"Geometric":                func(r check.Row) (float64, error) { return Geometric(r.Float("altitude_m")), nil },
		"PressureAltitude":         func(r check.Row) (float64, error) { return PressureAltitude(r.Float("pressure_pa")), nil },
		"StationPressure": func(r check.Row) (float64, error) {
			return StationPressure(r.Float("pressure_pa"), r.Float("altitude_m")), nil
		},
	})
	check.Coverage(t, ".")
}

func TestDirections(t *testing.T) {
	for temp := TMin; temp < TMax; temp++ {
		for s := 0.0; s < SMax; s++ {
			if !(Density(temp, s+1) > Density(temp, s)) {
				t.Errorf("density does not rise with salt at %g °C, %g", temp, s)
			}
			if !(Viscosity(temp+1, s) < Viscosity(temp, s)) {
				t.Errorf("viscosity does not fall with temperature at %g °C, %g", temp, s)
			}
			if !(VapourPressure(temp+1, s) > VapourPressure(temp, s) && VapourPressure(temp, s+1) < VapourPressure(temp, s)) {
				t.Errorf("vapour pressure goes the wrong way at %g °C, %g", temp, s)
			}
		}
	}
	if d0, d4, d8 := Density(0, 0), Density(4, 0), Density(8, 0); !(d4 > d0 && d4 > d8) {
		t.Errorf("fresh water is not densest near 4 °C: %v %v %v", d0, d4, d8)
	}
}

func TestAirPressureInverts(t *testing.T) {
	for h := -400.0; h <= 6000; h += 100 {
		if got := PressureAltitude(AirPressure(h)); math.Abs(got-h) > 1e-8 {
			t.Errorf("altitude %g comes back as %g", h, got)
		}
		if got := StationPressure(onAtm, h); math.Abs(got/AirPressure(h)-1) > 1e-14 {
			t.Errorf("standard report at %g m gives %g", h, got)
		}
		if got := Geometric(Geopotential(h)); math.Abs(got-h) > 1e-8 {
			t.Errorf("height %g comes back as %g", h, got)
		}
	}
}

var sink float64

func BenchmarkDensity(b *testing.B) {
	for i := range b.N {
		sink += Density(float64(i&31), 20)
	}
}
