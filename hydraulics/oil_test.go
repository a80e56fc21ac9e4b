package hydraulics

import (
	"errors"
	"math"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestPipeOilTable(t *testing.T) {
	fit := func(r check.Row) (Oil, error) {
		return NewOil(OilSpec{T1: units.KelvinScale(r.Float("t1_k")), Viscosity1: units.Centistokes.Of(r.Float("v1_mm2_s")),
			T2: units.KelvinScale(r.Float("t2_k")), Viscosity2: units.Centistokes.Of(r.Float("v2_mm2_s"))})
	}
	check.Run(t, "testdata/pipe_oil.csv", map[string]pipeRow{
		"Oil.Viscosity": func(r check.Row) (float64, error) {
			o, err := fit(r)
			if err != nil {
				return math.NaN(), err
			}
			v, err := o.Viscosity(units.KelvinScale(r.Float("t_k")))
			return v.In(units.Centistokes), err
		},
		"Oil.TemperatureFor": func(r check.Row) (float64, error) {
			o, err := fit(r)
			if err != nil {
				return math.NaN(), err
			}
			temp, err := o.TemperatureFor(units.Centistokes.Of(r.Float("t_k")))
			return temp.Kelvins(), err
		},
		"Oil.Density": func(r check.Row) (float64, error) {
			o, err := OilGrade(46, 100)
			if err != nil || r.Float("rho15_kg_m3") != 870 {
				return math.NaN(), errors.Join(err, errors.New("the usual oil weighs 870 kg/m3"))
			}
			v, err := o.Density(units.KelvinScale(r.Float("t_k")))
			return v.KilogramsPerCubicMetre(), err
		},
		"ViscosityIndex": func(r check.Row) (float64, error) {
			return ViscosityIndex(units.Centistokes.Of(r.Float("v1_mm2_s")), units.Centistokes.Of(r.Float("v2_mm2_s")))
		},
		"OilGradeLimits": func(r check.Row) (float64, error) {
			least, greatest, err := OilGradeLimits(int(r.Float("grade")))
			if r.Text("quantity") == "min" {
				return least.In(units.Centistokes), err
			}
			return greatest.In(units.Centistokes), err
		},
		"OilPressureFactor": func(r check.Row) (float64, error) {
			return OilPressureFactor(units.GaugePressure(r.Float("pressure_pa")))
		},
	})
}

func TestOilGradeHasItsIndex(t *testing.T) {
	for _, vg := range []int{15, 22, 32, 46, 68, 100, 150, 220} {
		for _, index := range []float64{0, 60, 95, 140, 200} {
			o, err := OilGrade(vg, index)
			if err != nil {
				t.Fatalf("VG %d, index %g: %v", vg, index, err)
			}
			at40, err40 := o.Viscosity(units.Celsius(40))
			at100, err100 := o.Viscosity(units.Celsius(100))
			got, err := ViscosityIndex(at40, at100)
			if err != nil || err40 != nil || err100 != nil {
				t.Fatal(err, err40, err100)
			}
			want := index
			if index == 0 {
				want = 100
			}
			if math.Abs(got-want) > 1e-6 || math.Abs(at40.In(units.Centistokes)-float64(vg)) > 1e-9*float64(vg) {
				t.Errorf("VG %d, index %g: index %g at %v", vg, index, got, at40)
			}
		}
	}
}

func TestOilFluidRefusesAndThickens(t *testing.T) {
	o, err := OilGrade(46, 0)
	if err != nil {
		t.Fatal(err)
	}
	free, err1 := o.Fluid(units.Celsius(50), 0)
	loaded, err2 := o.Fluid(units.Celsius(50), units.BarsGauge.Of(200))
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	if r := float64(loaded.Viscosity / free.Viscosity); math.Abs(r-1.4918) > 1e-3 {
		t.Errorf("200 bar thickens the oil %g times", r)
	}
	if err := loaded.Validate(); err != nil {
		t.Error(err)
	}
	if _, err := o.Fluid(units.Celsius(500), 0); !errors.Is(err, units.ErrDomain) {
		t.Errorf("500 °C: %v", err)
	}
	var none Oil
	if _, err := none.Viscosity(units.Celsius(40)); !errors.Is(err, units.ErrDomain) {
		t.Errorf("the zero oil: %v", err)
	}
	if _, err := o.Viscosity(units.Celsius(190)); !errors.Is(err, units.ErrRange) {
		t.Errorf("thinner than the standard's form: %v", err)
	}
}
