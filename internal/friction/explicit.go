package friction

import "math"

// Largest deviations from Colebrook stated below were measured by
// TestExplicitDeviation over each form's published range.

// SwameeJain returns the explicit form of Swamee & Jain (1976), published for
// 5e3 <= re <= 1e8 and 1e-6 <= rel <= 1e-2: within 2.9 % of Colebrook there.
func SwameeJain(re, rel float64) float64 {
	l := math.Log10(rel/3.7 + 5.74/math.Pow(re, 0.9))
	return 0.25 / (l * l)
}

// Haaland returns the explicit form of Haaland (1983), published for
// 4e3 <= re <= 1e8 and 1e-6 <= rel <= 5e-2: within 1.5 % of Colebrook there.
func Haaland(re, rel float64) float64 {
	y := -1.8 * math.Log10(math.Pow(rel/3.7, 1.11)+6.9/re)
	return 1 / (y * y)
}

// ZigrangSylvester returns the explicit form of Zigrang & Sylvester (1982),
// the later of their two, published for 4e3 <= re <= 1e8 and 4e-5 <= rel <= 5e-2: within 0.11 % of
// Colebrook there.
func ZigrangSylvester(re, rel float64) float64 {
	b := rel / 3.7
	l := math.Log10(b - 5.02/re*math.Log10(b+13/re))
	y := -2 * math.Log10(b-5.02/re*l)
	return 1 / (y * y)
}

// Serghides returns the explicit form of Serghides (1984), three
// iterates and Aitken's extrapolation: within 0.0032 % of Colebrook for
// 4e3 <= re <= 1e8 and rel <= 5e-2.
func Serghides(re, rel float64) float64 {
	b := rel / 3.7
	A := -2 * math.Log10(b+12/re)
	B := -2 * math.Log10(b+2.51*A/re)
	C := -2 * math.Log10(b+2.51*B/re)
	if bend := C - 2*B + A; bend != 0 { // zero once the iterates agree
		C = A - (B-A)*(B-A)/bend
	}
	return 1 / (C * C)
}

// Laminar returns 64/re, the exact factor of Poiseuille flow in a round pipe.
func Laminar(re float64) float64 { return 64 / re }

// Churchill returns the curve of Churchill (1977) through laminar, transition
// and turbulent flow, for every re > 0. It lies up to 3.2 % from Colebrook
// above re = 4000 and is an interpolation, not a prediction, between 2000 and
// 4000.
func Churchill(re, rel float64) float64 {
	if !(re > 0) {
		return math.NaN()
	}
	A := pow16(2.457 * math.Log(1/(math.Pow(7/re, 0.9)+0.27*rel)))
	B := pow16(37530 / re)
	s := A + B
	if math.IsInf(s, 1) { // re below 1e-14: the laminar term alone is left
		return Laminar(re)
	}
	l := 8 / re
	l2 := l * l
	l4 := l2 * l2
	// The twelfth root as a square root of a square root of a cube root.
	return 8 * math.Cbrt(math.Sqrt(math.Sqrt(l4*l4*l4+1/(s*math.Sqrt(s)))))
}

func pow16(x float64) float64 {
	x *= x
	x *= x
	x *= x
	return x * x
}
