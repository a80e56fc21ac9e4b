package icing

import (
	"math"
	"math/cmplx"

	"pondwright.example/units"
)

// Gibbs energy of ordinary ice at 101325 Pa. Source: IAPWS R10-06 (2009),
// equation 1 and table 2.
const (
	iceTriple    = 273.16
	icePressure  = 611.657 // Pa, triple point
	iceG00       = -0.632020233335886e6
	iceG01       = 0.655022213658955
	iceEntropy   = -0.332733756492168e4
	iceR1, iceI1 = 0.447050716285388e2, 0.656876847463481e2
	iceR2, iceI2 = -0.725974574329220e2, -0.781008427112870e2
	iceR3, iceI3 = -0.557107698030123e-4, 0.464578634580806e-4 // pressure derivative of the second
)

var (
	iceT1 = complex(0.368017112855051e-1, 0.510878114959572e-1)
	iceT2 = complex(0.337315741065416, 0.335449415919309)
)

// iceTerm is (t-τ)ln(t-τ) + (t+τ)ln(t+τ) - 2t ln t - τ²/t and its first two
// derivatives by τ.
func iceTerm(t complex128, tau float64) (f, f1, f2 complex128) {
	c := complex(tau, 0)
	m, p := cmplx.Log(t-c), cmplx.Log(t+c)
	f = (t-c)*m + (t+c)*p - 2*t*cmplx.Log(t) - c*c/t
	f1 = -m + p - 2*c/t
	f2 = 1/(t-c) + 1/(t+c) - 2/t
	return f, f1, f2
}

// iceState is the Gibbs energy of ice (J/kg) and its derivatives by temperature
// and pressure.
type iceState struct{ g, gT, gTT, gP float64 }

func iceGibbs(celsius float64) iceState {
	tau := (celsius + zeroCelsius) / iceTriple
	a, a1, a2 := iceTerm(iceT1, tau)
	b, b1, b2 := iceTerm(iceT2, tau)
	r1, r2, r3 := complex(iceR1, iceI1), complex(iceR2, iceI2), complex(iceR3, iceI3)
	return iceState{
		g:   iceG00 - iceEntropy*iceTriple*tau + iceTriple*real(r1*a+r2*b),
		gT:  -iceEntropy + real(r1*a1+r2*b1),
		gTT: real(r1*a2+r2*b2) / iceTriple,
		gP:  iceG01/icePressure + iceTriple*real(r3*b)/icePressure,
	}
}

func iceEnthalpy(celsius float64) float64 {
	s := iceGibbs(celsius)
	return s.g - (celsius+zeroCelsius)*s.gT
}

func checkIce(fn string, t units.Temperature) (float64, error) {
	c := t.Celsius()
	// The upper end leaves room for the melting point of air-free water, 0.0025 °C.
	if c >= -100 && c <= 0.01 {
		return c, nil
	}
	return math.NaN(), &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: -100, Max: 0.01, Reason: "ice at atmospheric pressure"}
}

// IceSpecificHeat returns the specific heat of pure ice at t and atmospheric
// pressure, in J/(kg K).
//
// Validity: -100 to 0.01 °C; otherwise ErrDomain with NaN. Accuracy: 2 % at the
// source's word, 0.1 % near melting.
//
// Source: IAPWS R10-06 (2009), Equation of State 2006 for H2O Ice Ih.
func IceSpecificHeat(t units.Temperature) (units.SpecificHeat, error) {
	c, err := checkIce("icing.IceSpecificHeat", t)
	if err != nil {
		return units.SpecificHeat(c), err
	}
	return units.SpecificHeat(-(c + zeroCelsius) * iceGibbs(c).gTT), nil
}

// IceDensity returns the density of pure, solid ice at t and atmospheric
// pressure, in kg/m3. Validity, errors and source as [IceSpecificHeat].
func IceDensity(t units.Temperature) (units.Density, error) {
	c, err := checkIce("icing.IceDensity", t)
	if err != nil {
		return units.Density(c), err
	}
	return units.Density(1 / iceGibbs(c).gP), nil
}

// IceMeltingHeat returns the heat in J/kg that turns pure ice at t into fresh
// water at 0 °C, latent and sensible together, exactly; [Ice.Cooling] is the
// plain form with constant properties. Validity, errors and source as
// [IceSpecificHeat], with IAPWS SR7-09 (2009) for the water.
func IceMeltingHeat(t units.Temperature) (units.SpecificEnergy, error) {
	c, err := checkIce("icing.IceMeltingHeat", t)
	if err != nil {
		return units.SpecificEnergy(c), err
	}
	return units.SpecificEnergy(seawaterEnthalpy(0, 0) - iceEnthalpy(c)), nil
}
