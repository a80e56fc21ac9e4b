package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/seawater"
	"pondwright.example/units"
)

// Fluid is what pipe formulas need to know of the liquid. Its zero value is not
// usable: take [FreshWater], [SeaWater] or [Oil.Fluid], or fill in measured
// values.
type Fluid struct {
	Density     units.Density          `json:"density"`
	Viscosity   units.DynamicViscosity `json:"viscosity"`
	BulkModulus units.Pressure         `json:"bulkModulus,omitzero"` // for pressure waves; zero means not known
}

// KinematicViscosity returns the dynamic viscosity over the density, by
// definition; zero when the density is not above zero.
func (f Fluid) KinematicViscosity() units.KinematicViscosity {
	if !(f.Density > 0) {
		return 0
	}
	return units.KinematicViscosity(f.Viscosity.PascalSeconds() / f.Density.KilogramsPerCubicMetre())
}

// The values a liquid in a farm's pipes can have; outside them a unit slipped.
const (
	maxDensity   = 2000.0 // kg/m3
	minKinematic = 1e-7   // m2/s, water near boiling
	maxKinematic = 2e-2   // m2/s, cold gear oil; above it cSt were taken for m2/s
	minDensity   = 500.0  // kg/m3
)

// Validate reports every property that no liquid of this trade has: density
// outside 500 to 2000 kg/m3, kinematic viscosity outside 1e-7 to 2e-2 m2/s, a
// negative bulk modulus.
func (f Fluid) Validate() error {
	const fn = "hydraulics.Fluid"
	err := errors.Join(units.Within(fn, "density", f.Density.KilogramsPerCubicMetre(), minDensity, maxDensity, "kg/m3"),
		units.Positive(fn, "viscosity", f.Viscosity.PascalSeconds(), "Pa·s"),
		units.NonNegative(fn, "bulkModulus", f.BulkModulus.Pascals(), "Pa"))
	if err != nil {
		return err
	}
	if nu := f.KinematicViscosity().SquareMetresPerSecond(); !(nu >= minKinematic && nu <= maxKinematic) {
		return &units.InputError{Func: fn, Field: "viscosity", Value: nu, Unit: "m2/s", Min: minKinematic, Max: maxKinematic,
			Reason: "kinematic viscosity; 1 cSt = 1e-6 m2/s, 1 cP = 1e-3 Pa·s", Kind: units.ErrDomain}
	}
	return nil
}

// FreshWater returns the properties of fresh water at one atmosphere; see
// [SeaWater].
func FreshWater(t units.Temperature) (Fluid, error) { return SeaWater(t, 0) }

// SeaWater returns density, viscosity and bulk modulus of water of practical
// salinity s at temperature t and one atmosphere, as [WaterDensity],
// [WaterViscosity] and [WaterBulkModulus] do, with their ranges and errors.
func SeaWater(t units.Temperature, s units.PracticalSalinity) (Fluid, error) {
	err := waterRange("hydraulics.SeaWater", t, s, seawater.TMax)
	if errors.Is(err, units.ErrDomain) {
		return Fluid{}, err
	}
	c, p := t.Celsius(), s.PSU()
	return Fluid{
		Density:     units.Density(seawater.Density(c, p)),
		Viscosity:   units.DynamicViscosity(seawater.Viscosity(c, p)),
		BulkModulus: units.Pressure(seawater.BulkModulus(c, p)),
	}, err
}

// Water is extrapolated this far past the published ranges, and refused beyond.
const (
	waterMinC, waterMaxC = -5.0, 60.0 // °C
	waterMaxPSU          = 60.0
)

// waterRange returns an ErrDomain outside the limits of water and an ErrRange
// outside -2 °C to maxC or above salinity 42.
func waterRange(fn string, t units.Temperature, s units.PracticalSalinity, maxC float64) error {
	c, p := t.Celsius(), s.PSU()
	if !(c >= waterMinC && c <= waterMaxC) {
		return &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: waterMinC, Max: waterMaxC,
			Reason: "not the temperature of pond water; degrees Fahrenheit?", Kind: units.ErrDomain}
	}
	if !(p >= 0 && p <= waterMaxPSU) {
		return &units.InputError{Func: fn, Field: "s", Value: p, Min: 0, Max: waterMaxPSU,
			Reason: "practical salinity, about grams of salt per kilogram", Kind: units.ErrDomain}
	}
	var errs []error
	if !(c >= seawater.TMin && c <= maxC) {
		errs = append(errs, &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: seawater.TMin, Max: maxC, Kind: units.ErrRange})
	}
	if p > seawater.SMax {
		errs = append(errs, &units.InputError{Func: fn, Field: "s", Value: p, Min: 0, Max: seawater.SMax, Kind: units.ErrRange})
	}
	return errors.Join(errs...)
}

// property evaluates f at t and s under the rules of waterRange.
func property(fn string, t units.Temperature, s units.PracticalSalinity, f func(t, s float64) float64) (float64, error) {
	err := waterRange(fn, t, s, seawater.TMax)
	if errors.Is(err, units.ErrDomain) {
		return math.NaN(), err
	}
	return f(t.Celsius(), s.PSU()), err
}

// WaterDensity returns the density of water of practical salinity s at
// temperature t and one atmosphere.
//
// Validity: -2 to 40 °C, salinity 0 to 42; ErrRange with the extrapolated value
// to -5 and 60 °C and 60, ErrDomain beyond.
//
// Source: EOS-80, Millero & Poisson 1981, Deep-Sea Res. 28A:625; within 0.005
// kg/m3 of TEOS-10.
func WaterDensity(t units.Temperature, s units.PracticalSalinity) (units.Density, error) {
	v, err := property("hydraulics.WaterDensity", t, s, seawater.Density)
	return units.Density(v), err
}

// WaterViscosity returns the dynamic viscosity of water of practical salinity s
// at temperature t and one atmosphere. Ranges and errors as for [WaterDensity].
//
// Source: Sharqawy, Lienhard & Zubair 2010, Desalin. Water Treat. 16:354, eq.
// 22 and 23; accuracy 1.5 %, fresh water within 0.05 % of IAPWS R12-08.
func WaterViscosity(t units.Temperature, s units.PracticalSalinity) (units.DynamicViscosity, error) {
	v, err := property("hydraulics.WaterViscosity", t, s, seawater.Viscosity)
	return units.DynamicViscosity(v), err
}

// WaterSpecificHeat returns the specific heat of water of practical salinity s
// at temperature t and one atmosphere. Ranges and errors as for [WaterDensity].
//
// Source: UNESCO Tech. Pap. Mar. Sci. 44 (1983); up to 0.09 % below TEOS-10.
func WaterSpecificHeat(t units.Temperature, s units.PracticalSalinity) (units.SpecificHeat, error) {
	v, err := property("hydraulics.WaterSpecificHeat", t, s, seawater.SpecificHeat)
	return units.SpecificHeat(v), err
}

// WaterVapourPressure returns the absolute pressure at which water of practical
// salinity s boils at temperature t. Ranges and errors as for [WaterDensity].
//
// Source: Wagner & Pruss 1993 (IAPWS SR1-86), accuracy 0.02 %; salt by Weiss &
// Price 1980.
func WaterVapourPressure(t units.Temperature, s units.PracticalSalinity) (units.AbsolutePressure, error) {
	v, err := property("hydraulics.WaterVapourPressure", t, s, seawater.VapourPressure)
	return units.AbsolutePressure(v), err
}

// WaterBulkModulus returns the bulk modulus of water of practical salinity s at
// temperature t and one atmosphere. Ranges and errors as for [WaterDensity].
//
// Source: EOS-80 secant bulk modulus, UNESCO Tech. Pap. Mar. Sci. 44 (1983).
func WaterBulkModulus(t units.Temperature, s units.PracticalSalinity) (units.Pressure, error) {
	v, err := property("hydraulics.WaterBulkModulus", t, s, seawater.BulkModulus)
	return units.Pressure(v), err
}

// WaterSurfaceTension returns the tension of the surface of water of practical
// salinity s against air as a force per length. Ranges and errors as for
// [WaterDensity].
//
// Source: IAPWS R1-76(2014) and G14-19; accuracy 0.5 %.
func WaterSurfaceTension(t units.Temperature, s units.PracticalSalinity) (units.ForcePerLength, error) {
	v, err := property("hydraulics.WaterSurfaceTension", t, s, seawater.SurfaceTension)
	return units.ForcePerLength(v), err
}
