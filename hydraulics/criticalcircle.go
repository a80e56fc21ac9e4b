package hydraulics

import (
	"math"

	"pondwright.example/units"
)

// CriticalFlowCircular returns the flow that passes at critical depth through a
// circular section of the given diameter with the given specific energy, the
// depth plus velocity head above the invert.
//
//	E = y + A/(2T)        Q = A √(g A/T)
//
// with A and T the area and surface width at the critical depth y. The depth
// nears the crown as the energy grows, so that the answer exists for every
// energy.
//
// Errors: ErrDomain (value NaN) for a diameter that is not above zero or an
// energy that is negative or not finite.
//
// Source: Henderson, F.M. (1966), Open Channel Flow, section 2.5, the condition
// Q²T = gA³ put into E = y + Q²/(2gA²).
func CriticalFlowCircular(diameter, energy units.Length) (units.Flow, error) {
	const fn = "hydraulics.CriticalFlowCircular"
	if err := units.Positive(fn, "diameter", float64(diameter), "m"); err != nil {
		return units.Flow(math.NaN()), err
	}
	if err := units.NonNegative(fn, "energy", float64(energy), "m"); err != nil {
		return units.Flow(math.NaN()), err
	}
	d := float64(diameter)
	return units.Flow(math.Sqrt(gravity*d) * d * d * criticalCircle(float64(energy)/d)), nil
}

// criticalCircle returns Q/√(gD⁵) at critical depth for eta = E/D.
//
// With α half the angle that the water surface spans at the centre,
//
//	y/D = (1 - cos α)/2,  A/D² = (α - sin α cos α)/4,  T/D = sin α
//	eta = (1 - cos α)/2 + (α/sin α - cos α)/8
//
// eta rises steadily with α, from 0 to infinity as α goes from 0 to π.
func criticalCircle(eta float64) float64 {
	if eta <= 0 {
		return 0
	}
	if eta < 1e-5 {
		// Two terms of the series, where the closed form would cancel:
		// eta = α²/3 - 17α⁴/720, Q/√(gD⁵) = α⁴(1 - 13α²/60)/(6√6).
		return eta * eta * (1 - 0.225*eta) * (9 / (6 * 2.449489742783178))
	}
	if eta > 1e8 {
		// Full section: y = D, E - y = A/(2T).
		return math.Pi / 4 * math.Sqrt(2*(eta-1))
	}
	alpha, steps := criticalAngleSeed(eta)
	for range steps { // Halley: the error is cubed each time
		s, c := math.Sincos(alpha)
		q := 1 / s
		hyd := alpha*q - c // 4 A/(T D)
		f := 0.5*(1-c) + 0.125*hyd - eta
		w := q * (1 - alpha*c*q) // (sin α - α cos α)/sin² α
		d1 := 0.625*s + 0.125*w
		d2 := 0.625*c + 0.125*q*(alpha-2*c*w)
		alpha -= f * d1 / (d1*d1 - 0.5*f*d2)
	}
	s, c := math.Sincos(alpha)
	hyd := alpha/s - c
	return 0.125 * s * hyd * math.Sqrt(hyd)
}

// criticalAngleSeed starts criticalCircle and says how many steps reach full
// precision: α/√eta as a polynomial in eta below 1.2, and (π - α) eta as one in
// 1/eta above, both fitted by least squares to the exact inverse; they are
// within 2.6e-5 and 3e-3.
func criticalAngleSeed(eta float64) (alpha float64, steps int) {
	if eta <= 1.2 {
		p := 1.7320755487 + eta*(0.1825389738+eta*(0.0565257956+eta*(-0.0410303420+eta*(0.0717192332-0.0442171114*eta))))
		return p * math.Sqrt(eta), 1
	}
	u := 1 / eta
	return math.Pi - u*(0.39022422+u*(0.54180644+u*(-1.01051140+u*(4.64999002-3.50722689*u)))), 2
}
