package seawater

import "math"

// EOS80 returns the density in kg/m³ by the international equation of state of
// sea water 1980 at temperature t in °C on IPTS-68 (not ITS-90), practical
// salinity s and gauge pressure p in Pa: -2 to 40 °C, 0 to 42, up to 100 MPa,
// standard error 0.009 kg/m³.
//
// Source: Millero & Poisson 1981, Deep-Sea Res. 28A:625; UNESCO Tech. Pap. Mar.
// Sci. 44 (1983), eq. 7 to 19. Coefficients from memory, proved by the
// published check values.
func EOS80(t, s, p float64) float64 {
	rho := eos80Surface(t, s)
	if p == 0 {
		return rho
	}
	bar := p / 1e5
	return rho / (1 - bar/secantModulus(t, s, bar)) // eq. 7
}

// Density returns the density in kg/m³ at one atmosphere by [EOS80].
func Density(t, s float64) float64 { return eos80Surface(t68(t), s) }

// eos80Surface is the one-atmosphere equation, eq. 13 and 14.
func eos80Surface(t, s float64) float64 {
	water := 999.842594 + t*(6.793952e-2+t*(-9.095290e-3+t*(1.001685e-4+t*(-1.120083e-6+t*6.536332e-9))))
	a := 0.824493 + t*(-4.0899e-3+t*(7.6438e-5+t*(-8.2467e-7+t*5.3875e-9)))
	b := -5.72466e-3 + t*(1.0227e-4+t*-1.6546e-6)
	return water + s*(a+b*math.Sqrt(s)+4.8314e-4*s)
}

// secantModulus returns K(s, t, p) in bar for p in bar, eq. 15 to 19.
func secantModulus(t, s, p float64) float64 {
	root := math.Sqrt(s)
	k := 19652.21 + t*(148.4206+t*(-2.327105+t*(1.360477e-2+t*-5.155288e-5))) +
		s*(54.6746+t*(-0.603459+t*(1.09987e-2+t*-6.1670e-5))+root*(7.944e-2+t*(1.6483e-2+t*-5.3009e-4)))
	a := 3.239908 + t*(1.43713e-3+t*(1.16092e-4+t*-5.77905e-7)) +
		s*(2.2838e-3+t*(-1.0981e-5+t*-1.6078e-6)+root*1.91075e-4)
	b := 8.50935e-5 + t*(-6.12293e-6+t*5.2787e-8) + s*(-9.9348e-7+t*(2.0816e-8+t*9.1697e-10))
	return k + p*(a+p*b)
}

// BulkModulus returns the bulk modulus in Pa at one atmosphere, the limit of
// the secant modulus of [EOS80]; it governs the speed of a pressure wave.
func BulkModulus(t, s float64) float64 { return 1e5 * secantModulus(t68(t), s, 0) }
