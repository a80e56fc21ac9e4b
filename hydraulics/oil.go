package hydraulics

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/internal/oil"
	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// OilSpec describes a hydraulic oil by its viscosity at two temperatures, as a
// data sheet gives it.
type OilSpec struct {
	T1         units.Temperature        `json:"t1"` // usually 40 °C
	Viscosity1 units.KinematicViscosity `json:"viscosity1"`
	T2         units.Temperature        `json:"t2"` // usually 100 °C, above T1
	Viscosity2 units.KinematicViscosity `json:"viscosity2"`
	Density15  units.Density            `json:"density15,omitzero"` // at 15 °C; zero is 870 kg/m3, usual for mineral oil
}

// Oil is the viscosity and density of one oil against temperature. It is a
// plain value; the zero Oil is not usable.
type Oil struct {
	line  oil.Line
	rho15 float64
}

const minOilC, maxOilC = -60.0, 200.0 // °C

// NewOil fits the line of ASTM D341 through the two viscosities.
//
// Equation: log10 log10(ν + 0.7) = A - B log10 T, ν in mm2/s, T in kelvin.
//
// Validity: ν 2 to 1e4 mm2/s, where the standard's further terms are nothing;
// ErrDomain outside, for temperatures that do not rise and for viscosities that
// do not fall. Below the pour point the line is fiction.
//
// Source: ASTM D341, Walther 1931.
func NewOil(s OilSpec) (Oil, error) {
	const fn = "hydraulics.NewOil"
	v1, v2 := s.Viscosity1.In(units.Centistokes), s.Viscosity2.In(units.Centistokes)
	rho := s.Density15.KilogramsPerCubicMetre()
	if rho == 0 {
		rho = oil.UsualDensity15
	}
	err := errors.Join(oilTemperature(fn, "t1", s.T1), oilTemperature(fn, "t2", s.T2),
		units.Within(fn, "viscosity1", v1, oil.MinViscosity, 1e4, "mm2/s"),
		units.Within(fn, "viscosity2", v2, oil.MinViscosity, 1e4, "mm2/s"), units.Within(fn, "density15", rho, 700, 1300, "kg/m3"))
	if err != nil {
		return Oil{}, err
	}
	if !s.T1.Less(s.T2) {
		return Oil{}, &units.InputError{Func: fn, Field: "t2", Value: s.T2.Celsius(), Unit: "°C", Reason: "must be above t1"}
	}
	if !(v2 < v1) {
		return Oil{}, &units.InputError{Func: fn, Field: "viscosity2", Value: v2, Unit: "mm2/s",
			Reason: "oil thins as it warms: must be below Viscosity1"}
	}
	return Oil{oil.Fit(s.T1.Kelvins(), v1, s.T2.Kelvins(), v2), rho}, nil
}

func oilTemperature(fn, field string, t units.Temperature) error {
	return units.Within(fn, field, t.Celsius(), minOilC, maxOilC, "°C")
}

// OilGrade returns an oil of an ISO viscosity grade, 15 to 220, with a viscosity
// index; zero takes 100, usual for mineral oil. Grade and index leave the oil
// uncertain by 10 % at 40 °C and more when cold: prefer the data sheet.
//
// Source: ISO 3448:1992 for the grade; ASTM D2270 solved for the viscosity at
// 100 °C; ASTM D341 between.
func OilGrade(vg int, index float64) (Oil, error) {
	const fn = "hydraulics.OilGrade"
	mid, ok := oil.Grade(vg)
	if !ok || vg < 15 || vg > 220 {
		return Oil{}, &units.InputError{Func: fn, Field: "vg", Value: float64(vg), Reason: "one of 15, 22, 32, 46, 68, 100, 150, 220"}
	}
	if index == 0 {
		index = 100
	}
	if err := units.Within(fn, "index", index, 50, 250, ""); err != nil {
		return Oil{}, err
	}
	v100, err := root.Find(func(v float64) float64 { return oil.Index(mid, v) - index }, 2, 0.9*mid, 1e-10)
	if err != nil {
		return Oil{}, fmt.Errorf("%s: no viscosity at 100 °C gives index %.4g: %w", fn, index, err)
	}
	return NewOil(OilSpec{T1: units.Celsius(40), Viscosity1: units.Centistokes.Of(mid), T2: units.Celsius(100), Viscosity2: units.Centistokes.Of(v100)})
}

// OilGradeLimits returns the least and the greatest viscosity at 40 °C of an oil
// of an ISO viscosity grade, 2 to 3200: the midpoint ± 10 %.
//
// Source: ISO 3448:1992, table 1.
func OilGradeLimits(vg int) (least, greatest units.KinematicViscosity, err error) {
	mid, ok := oil.Grade(vg)
	if !ok {
		nan := units.KinematicViscosity(math.NaN())
		return nan, nan, &units.InputError{Func: "hydraulics.OilGradeLimits", Field: "vg", Value: float64(vg),
			Reason: "a grade of ISO 3448: 2 3 5 7 10 15 22 32 46 68 100 150 220 320 460 680 1000 1500 2200 3200"}
	}
	return units.Centistokes.Of(mid * (1 - oil.GradeTolerance)), units.Centistokes.Of(mid * (1 + oil.GradeTolerance)), nil
}

// Viscosity returns the kinematic viscosity at temperature t, -60 to 200 °C:
// ErrRange with the value where it leaves 2 to 1e5 mm2/s, ErrDomain for another
// temperature and where the oil is a solid.
//
// Source: ASTM D341 through the two points of [NewOil].
func (o Oil) Viscosity(t units.Temperature) (units.KinematicViscosity, error) {
	const fn = "hydraulics.Oil.Viscosity"
	nan := units.KinematicViscosity(math.NaN())
	if err := o.usable(fn, t); err != nil {
		return nan, err
	}
	v := o.line.Viscosity(t.Kelvins())
	if !(v > 0 && v < 1e9) {
		return nan, &units.InputError{Func: fn, Field: "t", Value: t.Celsius(), Unit: "°C", Reason: "the line gives a solid or a gas here"}
	}
	if !(v >= oil.MinViscosity && v <= 1e5) {
		return units.Centistokes.Of(v), &units.InputError{Func: fn, Field: "t", Value: v,
			Unit: "mm2/s", Min: oil.MinViscosity, Max: 1e5, Kind: units.ErrRange}
	}
	return units.Centistokes.Of(v), nil
}

func (o Oil) usable(fn string, t units.Temperature) error {
	if o.rho15 == 0 {
		return &units.InputError{Func: fn, Field: "oil", Reason: "build it with NewOil or OilGrade"}
	}
	return oilTemperature(fn, "t", t)
}

// Density returns the density at temperature t: that at 15 °C less 0.65 kg/m3
// per kelvin.
//
// Source: common practice for mineral oil.
func (o Oil) Density(t units.Temperature) (units.Density, error) {
	if err := o.usable("hydraulics.Oil.Density", t); err != nil {
		return units.Density(math.NaN()), err
	}
	return units.Density(oil.Density(o.rho15, t.Kelvins())), nil
}

// TemperatureFor returns the temperature at which the oil has a viscosity, such
// as the coldest start a pump's maker allows: the inverse of [Oil.Viscosity].
//
// Source: ASTM D341 through the two points of [NewOil].
func (o Oil) TemperatureFor(v units.KinematicViscosity) (units.Temperature, error) {
	const fn = "hydraulics.Oil.TemperatureFor"
	if err := errors.Join(o.usable(fn, units.Celsius(40)),
		units.Within(fn, "v", v.In(units.Centistokes), oil.MinViscosity, 1e5, "mm2/s")); err != nil {
		return units.Temperature{}, err
	}
	t := units.KelvinScale(o.line.Temperature(v.In(units.Centistokes)))
	if err := oilTemperature(fn, "t", t); err != nil {
		return units.Temperature{}, &units.InputError{Func: fn, Field: "v", Value: v.In(units.Centistokes), Unit: "mm2/s",
			Reason: "no temperature from -60 to 200 °C gives it", Kind: units.ErrNoSolution}
	}
	return t, nil
}

// Fluid returns the oil at temperature t and a mean gauge pressure as a
// [Fluid] for lines, with a bulk modulus of 1.5 GPa (common practice; less with
// air). Errors as for [Oil.Viscosity].
func (o Oil) Fluid(t units.Temperature, p units.GaugePressure) (Fluid, error) {
	nu, err := o.Viscosity(t)
	if errors.Is(err, units.ErrDomain) {
		return Fluid{}, err
	}
	rho, errD := o.Density(t)
	factor, errP := OilPressureFactor(p)
	if errD != nil || errP != nil {
		return Fluid{}, errors.Join(errD, errP)
	}
	return Fluid{Density: rho, Viscosity: units.DynamicViscosity(nu.SquareMetresPerSecond() * rho.KilogramsPerCubicMetre() * factor),
		BulkModulus: 1.5e9}, err
}

// OilPressureFactor returns how many times thicker mineral oil is at gauge
// pressure p than without, 0 to 500 bar; 1.49 at 200 bar.
//
// Equation: exp(α p), α = 2.0e-8 /Pa.
//
// Source: Barus 1893; α is common practice for mineral oil, 1.8e-8 to 2.4e-8.
func OilPressureFactor(p units.GaugePressure) (float64, error) {
	if err := units.Within("hydraulics.OilPressureFactor", "p", p.PascalsGauge(), 0, 500e5, "Pa"); err != nil {
		return math.NaN(), err
	}
	return oil.Barus(p.PascalsGauge()), nil
}

// ViscosityIndex returns the index of an oil from its viscosities at 40 and 100
// °C, not rounded to the whole number that the standard reports.
//
// Validity: 2 to 100 mm2/s at 100 °C, ErrRange with the value to 500; ErrDomain
// where the oil does not thin.
//
// Source: ASTM D2270 (ISO 2909), procedures A and B.
func ViscosityIndex(at40, at100 units.KinematicViscosity) (float64, error) {
	const fn = "hydraulics.ViscosityIndex"
	v40, v100 := at40.In(units.Centistokes), at100.In(units.Centistokes)
	if err := errors.Join(units.Positive(fn, "at40", v40, "mm2/s"), units.Within(fn, "at100", v100, 2, 500, "mm2/s")); err != nil {
		return math.NaN(), err
	}
	if !(v100 < v40) {
		return math.NaN(), &units.InputError{Func: fn, Field: "at100", Value: v100, Unit: "mm2/s",
			Reason: "oil thins as it warms: must be below at40"}
	}
	if v100 > 100 {
		return oil.Index(v40, v100), &units.InputError{Func: fn, Field: "at100", Value: v100, Unit: "mm2/s", Min: 2, Max: 100,
			Kind: units.ErrRange}
	}
	return oil.Index(v40, v100), nil
}
