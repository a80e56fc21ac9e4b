package icing

import (
	"fmt"
	"math"

	"pondwright.example/units"
)

// Component is one constituent of food.
type Component uint8

// The constituents of Choi & Okos. UnfrozenWater is water above 0 °C and the
// unfrozen part below it; FrozenWater is ice.
const (
	Protein Component = iota
	Fat
	Carbohydrate
	Fibre
	Ash
	UnfrozenWater
	FrozenWater
)

var componentNames = [...]string{"protein", "fat", "carbohydrate", "fibre", "ash", "water", "ice"}

// String returns the constituent's word.
func (c Component) String() string {
	if int(c) < len(componentNames) {
		return componentNames[c]
	}
	return fmt.Sprintf("Component(%d)", uint8(c))
}

// quadratic holds a + b·T + c·T², T in °C.
type quadratic [3]float64

func (q quadratic) at(t float64) float64 { return q[0] + t*(q[1]+t*q[2]) }

// The polynomials of Choi & Okos (1986) as printed in ASHRAE Handbook
// Refrigeration (2006), ch. 9, tables 1 and 2, except two constants with known
// misprints: water above 0 °C is 4176.2 J/(kg K), not the 4128.9 of the ASHRAE
// printings (1.3 % below real water at 20 °C), and the slope of fat's
// conductivity is -2.7604e-4, not e-3 (which would bring it to 0.07 W/(m K) at
// 40 °C).
var (
	componentHeat = [...]quadratic{ // J/(kg K)
		Protein:       {2008.2, 1.2089, -1.3129e-3},
		Fat:           {1984.2, 1.4733, -4.8008e-3},
		Carbohydrate:  {1548.8, 1.9625, -5.9399e-3},
		Fibre:         {1845.9, 1.8306, -4.6509e-3},
		Ash:           {1092.6, 1.8896, -3.6817e-3},
		UnfrozenWater: {4176.2, -9.0864e-2, 5.4731e-3},
		FrozenWater:   {2062.3, 6.0769, 0},
	}
	supercooledHeat      = quadratic{4081.7, -5.3062, 0.99516} // water below 0 °C
	componentConductance = [...]quadratic{                     // W/(m K)
		Protein:       {0.17881, 1.1958e-3, -2.7178e-6},
		Fat:           {0.18071, -2.7604e-4, -1.7749e-7},
		Carbohydrate:  {0.20141, 1.3874e-3, -4.3312e-6},
		Fibre:         {0.18331, 1.2497e-3, -3.1683e-6},
		Ash:           {0.32962, 1.4011e-3, -2.9069e-6},
		UnfrozenWater: {0.57109, 1.7625e-3, -6.7036e-6},
		FrozenWater:   {2.2196, -6.2489e-3, 1.0154e-4},
	}
	componentDensity = [...]quadratic{ // kg/m3
		Protein:       {1329.9, -0.5184, 0},
		Fat:           {925.59, -0.41757, 0},
		Carbohydrate:  {1599.1, -0.31046, 0},
		Fibre:         {1311.5, -0.36589, 0},
		Ash:           {2423.8, -0.28063, 0},
		UnfrozenWater: {997.18, 3.1439e-3, -3.7574e-3},
		FrozenWater:   {916.89, -0.13071, 0},
	}
)

func (c Component) check(fn string, t units.Temperature) (float64, error) {
	x := t.Celsius()
	if c > FrozenWater {
		return math.NaN(), &units.InputError{Func: fn, Field: "component", Value: float64(c), Reason: "unknown constituent"}
	}
	hi := 150.0
	if c == FrozenWater {
		hi = 0
	}
	if x >= -40 && x <= hi {
		return x, nil
	}
	err := &units.InputError{Func: fn, Field: "t", Value: x, Unit: "°C", Min: -40, Max: hi, Kind: units.ErrRange}
	if !(x >= -120 && x <= hi+100) {
		err.Kind = units.ErrDomain
		return math.NaN(), err
	}
	return x, err
}

// SpecificHeat returns the specific heat of the constituent at t in J/(kg K), a
// quadratic in °C.
//
// Validity: -40 to 150 °C, ice to 0 °C; beyond it the extrapolated value comes
// with ErrRange, and NaN with ErrDomain more than 100 K outside.
//
// Source: Choi & Okos (1986), in ASHRAE Handbook Refrigeration (2006), ch. 9,
// tables 1 and 2.
func (c Component) SpecificHeat(t units.Temperature) (units.SpecificHeat, error) {
	x, err := c.check("icing.Component.SpecificHeat", t)
	if math.IsNaN(x) {
		return units.SpecificHeat(x), err
	}
	return units.SpecificHeat(c.heat(x)), err
}

func (c Component) heat(t float64) float64 {
	if c == UnfrozenWater && t < 0 {
		return supercooledHeat.at(t)
	}
	return componentHeat[c].at(t)
}

// Conductivity returns the thermal conductivity of the constituent in W/(m K).
// Validity, errors and source as [Component.SpecificHeat].
func (c Component) Conductivity(t units.Temperature) (units.ThermalConductivity, error) {
	x, err := c.check("icing.Component.Conductivity", t)
	if math.IsNaN(x) {
		return units.ThermalConductivity(x), err
	}
	return units.ThermalConductivity(componentConductance[c].at(x)), err
}

// Density returns the density of the constituent in kg/m3. Validity, errors and
// source as [Component.SpecificHeat].
func (c Component) Density(t units.Temperature) (units.Density, error) {
	x, err := c.check("icing.Component.Density", t)
	if math.IsNaN(x) {
		return units.Density(x), err
	}
	return units.Density(componentDensity[c].at(x)), err
}

// MarshalText writes the constituent's word.
func (c Component) MarshalText() ([]byte, error) {
	if int(c) >= len(componentNames) {
		return nil, fmt.Errorf("icing.Component: %d is not a known constituent", uint8(c))
	}
	return []byte(componentNames[c]), nil
}

// UnmarshalText reads the constituent's word.
func (c *Component) UnmarshalText(text []byte) error {
	for i, n := range componentNames {
		if n == string(text) {
			*c = Component(i)
			return nil
		}
	}
	return fmt.Errorf("icing.Component: %q is not one of %q", text, componentNames)
}
