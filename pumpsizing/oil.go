package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/internal/oil"
	"pondwright.example/units"
)

// OilData describes a hydraulic oil by its viscosity at two temperatures and
// its density at 15 C.
type OilData struct {
	Name       string                   `json:"name,omitzero"`
	T1         units.Temperature        `json:"t1"` // usually 40 C
	Viscosity1 units.KinematicViscosity `json:"viscosity1"`
	T2         units.Temperature        `json:"t2"` // usually 100 C
	Viscosity2 units.KinematicViscosity `json:"viscosity2"`
	Density15  units.Density            `json:"density15,omitzero"` // zero: 870 kg/m3, usual for mineral oil
}

// Oil is the viscosity-temperature line of a hydraulic oil, built by NewOil; an
// immutable value.
type Oil struct {
	name    string
	line    oil.Line
	density float64 // kg/m3 at 15 C
}

// OilState is the oil as it flows: what the line calculations take.
type OilState struct {
	Viscosity units.KinematicViscosity `json:"viscosity"`
	Density   units.Density            `json:"density"`
}

// NewOil fits the line of ASTM D341 (Walther) through two viscosities:
//
//	log10 log10(v + 0.7) = A - B log10 T
//
// with v in mm2/s and T in kelvin.
//
// Validity: v > 2 mm2/s, where the standard needs no further terms.
// Errors: ErrDomain for temperatures that do not rise, viscosities that do not
// fall or lie outside 2 to 10000 mm2/s, or a density outside 600 to 1300 kg/m3.
// Source: ASTM D341, two-point form.
func NewOil(d OilData) (Oil, error) {
	const fn = "pumpsizing.NewOil"
	v1, v2 := d.Viscosity1.In(units.Centistokes), d.Viscosity2.In(units.Centistokes)
	t1, t2 := d.T1.Kelvins(), d.T2.Kelvins()
	rho := d.Density15.KilogramsPerCubicMetre()
	if rho == 0 {
		rho = oil.UsualDensity15
	}
	err := errors.Join(
		units.Within(fn, "t1", d.T1.Celsius(), -60, 200, "°C"), units.Within(fn, "t2", d.T2.Celsius(), -60, 200, "°C"),
		units.Within(fn, "viscosity1", v1, 2, 10000, "mm2/s"), units.Within(fn, "viscosity2", v2, 2, 10000, "mm2/s"),
		units.Within(fn, "density15", rho, 600, 1300, "kg/m3"))
	if err == nil && !(t2 > t1) {
		err = &units.InputError{Func: fn, Field: "t2", Value: d.T2.Celsius(), Unit: "°C", Reason: "must be above t1"}
	}
	if err == nil && !(v2 < v1) {
		err = &units.InputError{Func: fn, Field: "viscosity2", Value: v2, Unit: "mm2/s", Reason: "oil thins as it warms: must be below viscosity1"}
	}
	if err != nil {
		return Oil{}, err
	}
	return Oil{name: d.Name, line: oil.Fit(t1, v1, t2, v2), density: rho}, nil
}

// ISOVG returns a typical mineral oil of an ISO 3448 viscosity grade: 22, 32,
// 46, 68 or 100 mm2/s at 40 C, with the viscosity at 100 C of an oil of
// viscosity index 100.
//
// Errors: ErrDomain for another grade.
// Source: ISO 3448 grades; the viscosities at 100 C are typical values from
// memory: replace them by the maker's.
func ISOVG(grade int) (OilData, error) {
	at100 := map[int]float64{22: 4.3, 32: 5.4, 46: 6.8, 68: 8.7, 100: 11.4}
	v, ok := at100[grade]
	if !ok {
		return OilData{}, &units.InputError{Func: "pumpsizing.ISOVG", Field: "grade", Value: float64(grade), Reason: "one of 22, 32, 46, 68, 100"}
	}
	return OilData{Name: "ISO VG " + num(float64(grade)), T1: units.Celsius(40), Viscosity1: units.Centistokes.Of(float64(grade)),
		T2: units.Celsius(100), Viscosity2: units.Centistokes.Of(v)}, nil
}

// Walther returns the coefficients A and B of the oil's line, for v in mm2/s
// and T in kelvin.
func (o Oil) Walther() (a, b float64) { return o.line.A, o.line.B }

// Viscosity returns the kinematic viscosity at temperature t.
//
// Validity: 2 mm2/s and thicker; outside the value is returned with ErrRange.
// Errors: ErrDomain for a temperature outside -60 to 200 C.
// Source: ASTM D341.
func (o Oil) Viscosity(t units.Temperature) (units.KinematicViscosity, error) {
	const fn = "pumpsizing.Oil.Viscosity"
	if err := units.Within(fn, "t", t.Celsius(), -60, 200, "°C"); err != nil {
		return nan[units.KinematicViscosity](), err
	}
	v := o.line.Viscosity(t.Kelvins())
	nu := units.Centistokes.Of(v)
	if !(v >= oil.MinViscosity && v <= 1e5) {
		if math.IsInf(v, 0) {
			return nan[units.KinematicViscosity](), &units.InputError{Func: fn, Field: "t", Value: t.Celsius(), Unit: "°C", Reason: "the oil is solid here"}
		}
		return nu, &units.InputError{Func: fn, Field: "viscosity", Value: v, Unit: "mm2/s", Min: 2, Max: 1e5, Kind: units.ErrRange}
	}
	return nu, nil
}

// TemperatureFor returns the temperature at which the oil has viscosity v, such
// as the 800 mm2/s above which a set should not be started under load.
//
// Errors: ErrDomain for a viscosity outside 2 to 100000 mm2/s.
// Source: ASTM D341, solved for the temperature.
func (o Oil) TemperatureFor(v units.KinematicViscosity) (units.Temperature, error) {
	if err := units.Within("pumpsizing.Oil.TemperatureFor", "v", v.In(units.Centistokes), oil.MinViscosity, 1e5, "mm2/s"); err != nil {
		return units.Temperature{}, err
	}
	return units.KelvinScale(o.line.Temperature(v.In(units.Centistokes))), nil
}

// Density returns the density at temperature t, 0.65 kg/m3 less per kelvin
// above 15 C.
//
// Errors: ErrDomain for a temperature outside -60 to 200 C.
// Source: from memory; common practice for mineral oil.
func (o Oil) Density(t units.Temperature) (units.Density, error) {
	if err := units.Within("pumpsizing.Oil.Density", "t", t.Celsius(), -60, 200, "°C"); err != nil {
		return nan[units.Density](), err
	}
	return sound("pumpsizing.Oil.Density", units.Density(oil.Density(o.density, t.Kelvins())))
}

// At returns viscosity and density at temperature t.
//
// Errors: those of Viscosity and Density.
func (o Oil) At(t units.Temperature) (OilState, error) {
	v, err := o.Viscosity(t)
	if err != nil && !errors.Is(err, units.ErrRange) {
		return OilState{}, err
	}
	rho, derr := o.Density(t)
	return OilState{v, rho}, errors.Join(err, derr)
}

// Name returns the name given in the data.
func (o Oil) Name() string { return o.name }

func (s OilState) check(fn string) error {
	return errors.Join(
		units.Within(fn, "viscosity", s.Viscosity.In(units.Centistokes), 0.5, 1e4, "mm2/s"),
		units.Within(fn, "density", s.Density.KilogramsPerCubicMetre(), 600, 1300, "kg/m3"))
}
