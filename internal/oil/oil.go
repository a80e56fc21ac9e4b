// Package oil holds the properties of mineral hydraulic oil: viscosity against
// temperature, viscosity index, ISO viscosity grades, density and the effect of
// pressure.
//
// All functions take plain float64: temperatures in kelvin, viscosities v in
// mm²/s (cSt). They check nothing and return NaN where the logarithm has no
// value.
package oil

import "math"

// Line is the viscosity of one oil against temperature by ASTM D341:
//
//	log10 log10(v + 0.7) = A - B log10 T
//
// The 0.7 alone stands for the full standard from 2 mm²/s up.
//
// Source: Walther 1931; ASTM D341, eq. X1.4.
type Line struct{ A, B float64 }

// MinViscosity is where the simple form of ASTM D341 ends, in mm²/s.
const MinViscosity = 2.0

// Fit returns the line through viscosity v1 at t1 and v2 at t2.
func Fit(t1, v1, t2, v2 float64) Line {
	w1, w2 := walther(v1), walther(v2)
	b := (w1 - w2) / math.Log10(t2/t1)
	return Line{w1 + b*math.Log10(t1), b}
}

func walther(v float64) float64 { return math.Log10(math.Log10(v + 0.7)) }

// Viscosity returns the viscosity at temperature t.
func (l Line) Viscosity(t float64) float64 {
	return math.Pow(10, math.Pow(10, l.A-l.B*math.Log10(t))) - 0.7
}

// Temperature returns the temperature at which the oil has viscosity v.
func (l Line) Temperature(v float64) float64 { return math.Pow(10, (l.A-walther(v))/l.B) }

// referenceOils are the quadratics that stand for the table of ASTM D2270: L
// and H of the reference oils of index 0 and 100 against the viscosity at
// 100 °C, up to the next from.
var referenceOils = [...]struct{ from, a, b, c, d, e, f float64 }{
	{2.0, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077},
	{3.8, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183},
	{4.4, 2.5000, -7.2143, 13.812, 0.82143, 1.5679, 0.119},
	{5.0, 0.10100, 16.6350, -45.469, 0.04985, 9.1613, -18.557},
	{6.4, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656},
	{7.0, 0.01191, 21.4750, -72.870, 0.79762, -0.7321, 14.610},
	{7.7, 0.41858, 16.1558, -56.040, 0.05794, 10.5156, -28.240},
	{9.0, 0.88779, 7.5527, -16.600, 0.26665, 6.7015, -10.810},
	{12, 0.76720, 10.7972, -38.180, 0.20073, 8.4658, -22.490},
	{15, 0.97305, 5.3135, -2.200, 0.28889, 5.9741, -4.930},
	{18, 0.97256, 5.2500, -0.980, 0.24504, 7.4160, -16.730},
	{22, 0.91413, 7.4759, -21.820, 0.20323, 9.1267, -34.230},
	{28, 0.87031, 9.7157, -50.770, 0.18411, 10.1015, -46.750},
	{40, 0.84703, 12.6752, -133.310, 0.17029, 11.4866, -80.620},
	{55, 0.85921, 11.1009, -83.19, 0.17130, 11.3680, -76.940},
	{70, 0.83531, 14.6731, -216.246, 0.16841, 11.8493, -96.947},
}

// Index returns the viscosity index of an oil of viscosity v40 at 40 °C and v100
// at 100 °C, not rounded to the whole number that the standard reports: v100
// from 2 mm²/s.
//
// Source: ASTM D2270 (ISO 2909), procedures A and B; the quadratics that stand
// for its table.
func Index(v40, v100 float64) float64 {
	r := referenceOils[0]
	for _, s := range referenceOils[1:] {
		if v100 >= s.from {
			r = s
		}
	}
	L := r.c + v100*(r.b+v100*r.a)
	H := r.f + v100*(r.e+v100*r.d)
	if v40 >= H {
		return (L - v40) / (L - H) * 100 // procedure A
	}
	n := math.Log10(H/v40) / math.Log10(v100)
	return (math.Pow(10, n)-1)/0.00715 + 100 // procedure B
}

// grades are the ISO viscosity grades, named by their number, with the midpoint
// in mm²/s at 40 °C. An oil of the grade is within 10 % of it.
//
// Source: ISO 3448:1992, table 1.
var grades = [...]struct {
	name int
	mid  float64
}{{2, 2.2}, {3, 3.2}, {5, 4.6}, {7, 6.8}, {10, 10}, {15, 15}, {22, 22}, {32, 32}, {46, 46}, {68, 68}, {100, 100}, {150, 150}, {220, 220},
	{320, 320}, {460, 460}, {680, 680}, {1000, 1000}, {1500, 1500}, {2200, 2200}, {3200, 3200}}

// GradeTolerance is the width of an ISO viscosity grade either side.
const GradeTolerance = 0.10

// Grade returns the midpoint of an ISO viscosity grade in mm²/s at 40 °C, and
// whether the grade exists.
//
// Source: ISO 3448:1992, table 1.
func Grade(vg int) (mid float64, ok bool) {
	for _, g := range grades {
		if g.name == vg {
			return g.mid, true
		}
	}
	return math.NaN(), false
}

// UsualDensity15 is that of mineral hydraulic oil at 15 °C in kg/m³, and
// DensityFall its loss per kelvin: common practice.
const (
	UsualDensity15 = 870.0
	DensityFall    = 0.65
)

// Density returns the density in kg/m³ at temperature t of an oil of density
// rho15 at 15 °C. Common practice for mineral oil.
func Density(rho15, t float64) float64 { return rho15 - DensityFall*(t-288.15) }

// BarusCoefficient is that of mineral oil near 40 °C in 1/Pa: 1.8e-8 to 2.4e-8,
// common practice.
const BarusCoefficient = 2.0e-8

// Barus returns the ratio of the dynamic viscosity at gauge pressure p in Pa to
// that at one atmosphere.
//
// Source: Barus 1893.
func Barus(p float64) float64 { return math.Exp(BarusCoefficient * p) }
