package icing

import "math"

// Gibbs energy of seawater at atmospheric pressure (sea pressure zero), in J/kg,
// as a polynomial in y = t/40 °C and x = √(S/S_u), S the absolute salinity in
// g/kg and S_u = 40·35.16504/35 g/kg:
//
//	g = Σ fresh_j y^j + x²·(Σ saline_ij x^i y^j + (a + b·y)·ln x)
//
// Source: IAPWS R13-08 (saline part) and IAPWS SR7-09 (fresh part), rows of zero
// pressure; IOC, SCOR & IAPSO (2010), TEOS-10 manual, appendices G and H.
// Validity at this pressure: S 0 to 120 g/kg, freezing to 80 °C fresh, -6 to
// 40 °C at sea salinities.
var (
	gibbsFresh = [...]float64{101.342743139674, 5.90578347909402, -12357.785933039, 736.741204151612,
		-148.185936433658, 58.0259125842571, -18.9843846514172, 3.05081646487967}
	gibbsSaline = [...][7]float64{
		{1416.27648484197, 168.072408311545, 880.031352997204, -225.267649263401, 91.4260447751259, -21.6603240875311, 2.13016970847183},
		{-2432.14662381794, -493.407510141682, -43.0664675978042, -10.0227370861875, 0.875600661808945},
		{2025.80115603697, 543.835333000098, -68.5572509204491, 49.3667694856254, -17.1397577419788, 2.49697009569508},
		{-1091.66841042967, -196.028306689776},
		{374.60123787784, 36.7571622995805},
		{-48.5891069025409},
	}
)

const (
	gibbsLogA = 5812.81456626732
	gibbsLogB = 851.226734946706

	salinityRatio = 35.16504 / 35      // absolute over practical salinity, g/kg
	salinityScale = 40 * salinityRatio // S_u
	gibbsTempStep = 40.0               // °C per unit of y
)

// gibbsState is the Gibbs energy of seawater and the derivatives that enthalpy
// and chemical potential need.
type gibbsState struct{ g, gT, gS, gST float64 }

// seawaterGibbs evaluates the polynomial at absolute salinity s (g/kg, >= 0) and
// t in °C. Salinity derivatives are per g/kg; at s = 0 the products s·gS and
// s·gST are zero and the derivatives are returned as zero.
func seawaterGibbs(s, t float64) gibbsState {
	y := t / gibbsTempStep
	var o gibbsState
	for j := len(gibbsFresh) - 1; j >= 0; j-- { // value and slope by Horner
		o.gT = o.gT*y + o.g
		o.g = o.g*y + gibbsFresh[j]
	}
	if x2 := s / salinityScale; x2 > 0 {
		x := math.Sqrt(x2)
		ln := math.Log(x)
		a, aY := gibbsLogA+gibbsLogB*y, gibbsLogB
		sum, sumY, slope, slopeY := a*ln, aY*ln, a, aY // slope is x·∂/∂x of the bracket
		xi := 1.0
		for i := range gibbsSaline {
			p, pY := 0.0, 0.0
			for j := len(gibbsSaline[i]) - 1; j >= 0; j-- {
				pY = pY*y + p
				p = p*y + gibbsSaline[i][j]
			}
			sum += p * xi
			sumY += pY * xi
			slope += float64(i) * p * xi
			slopeY += float64(i) * pY * xi
			xi *= x
		}
		o.g += x2 * sum
		o.gT += x2 * sumY
		// ∂/∂S of x²·sum = (1/S_u)·(sum + slope/2), since x² = S/S_u.
		o.gS = (sum + slope/2) / salinityScale
		o.gST = (sumY + slopeY/2) / salinityScale / gibbsTempStep
	}
	o.gT /= gibbsTempStep
	return o
}

// seawaterEnthalpy is g - T·g_T in J/kg.
func seawaterEnthalpy(s, t float64) float64 {
	o := seawaterGibbs(s, t)
	return o.g - (t+zeroCelsius)*o.gT
}

// waterPotential is the chemical potential of water in seawater, g - S·g_S.
func waterPotential(s, t float64) float64 {
	o := seawaterGibbs(s, t)
	return o.g - s*o.gS
}
