package icing

import (
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// seriesFloor is the Fourier number below which the series would need thousands
// of terms; a body younger than that has cooled only in a skin of 0.1 % of its
// half-dimension, and the skin is flat.
const seriesFloor = 1e-7

// negligible is the exponent beyond which a term cannot change the sum.
const negligible = 44 // e^-44 = 8e-20

// cachedTerms is enough terms for a Fourier number of 4.5e-4 and above.
const cachedTerms = 100

// modes holds the roots and amplitudes of one body, found as they are needed.
type modes struct {
	shape Shape
	bi    float64
	n     int
	zeta  [cachedTerms]float64
	c     [cachedTerms]float64
}

// term returns root and amplitude of the n-th term.
func (m *modes) term(n int) (zeta, c float64) {
	if n < m.n {
		return m.zeta[n], m.c[n]
	}
	zeta = eigen(m.shape, m.bi, n)
	c = amplitude(m.shape, zeta)
	if n == m.n && n < cachedTerms {
		m.zeta[n], m.c[n] = zeta, c
		m.n++
	}
	return zeta, c
}

// theta sums the series at Fourier number fo and the fraction x of the
// half-dimension; x < 0 asks for the mean over the body.
func (m *modes) theta(fo, x float64) float64 {
	if fo == 0 {
		return 1
	}
	if fo < seriesFloor {
		return flatSkin(m.shape, m.bi, fo, x)
	}
	sum, first := 0.0, 0.0
	for n := 0; ; n++ {
		z, c := m.term(n)
		exponent := z * z * fo
		if n == 0 {
			first = exponent
		}
		if !(exponent-first <= negligible) { // of two infinite ones too
			break
		}
		f := 0.0
		if x < 0 {
			f = average(m.shape, z)
		} else {
			f = profile(m.shape, z, x)
		}
		sum += c * math.Exp(-exponent) * f
	}
	return min(sum, 1)
}

// flatSkin is the solution for a half-space with surface resistance, for times
// so short that the body looks flat and endless. Source: Carslaw & Jaeger
// (1959), 2.7.
func flatSkin(shape Shape, bi, fo, x float64) float64 {
	g := bi * math.Sqrt(fo)
	if x < 0 {
		// heat lost per area, integrated over time, over the volume per area
		lost := 2*math.Sqrt(fo/math.Pi) - (1-scaledErfc(g))/bi
		return 1 - float64(shape+1)*lost
	}
	u := (1 - x) / (2 * math.Sqrt(fo))
	return math.Erf(u) + math.Exp(-u*u)*scaledErfc(u+g)
}

// scaledErfc is exp(x²) erfc(x) for x >= 0.
func scaledErfc(x float64) float64 {
	if x < 20 {
		return math.Exp(x*x) * math.Erfc(x)
	}
	y := 1 / (2 * x * x)
	return (1 - y*(1-3*y*(1-5*y))) / (x * math.SqrtPi)
}

// checkSeries refuses what has no series.
func checkSeries(fn string, shape Shape, bi, fo float64) error {
	if shape <= Sphere && bi >= bounds.Least && bi <= bounds.Largest && fo >= 0 && fo <= bounds.Largest {
		return nil
	}
	if shape > Sphere {
		return &units.InputError{Func: fn, Field: "shape", Value: float64(shape), Reason: "must be Slab, Cylinder or Sphere"}
	}
	if err := bounds.Positive(fn, "biot", bi, ""); err != nil {
		return err
	}
	return bounds.Amount(fn, "fourier", fo, "")
}

// Theta returns the unaccomplished temperature change
// (T - T_medium)/(T_start - T_medium) in a body put at once into a medium of
// constant temperature:
//
//	θ = Σ C_n exp(-ζ_n² Fo) S(ζ_n x)
//
// biot is h·R/k, fourier is a·t/R², with R the half-dimension of the [Shape];
// position runs from 0 at the centre to 1 at the surface. All are
// dimensionless. Conduction is along R only: a slab's faces, a long cylinder, a
// sphere.
//
// Validity: biot 1e-15 to 1e15, fourier 0 to 1e15, 0 <= position <= 1; otherwise
// ErrDomain and NaN. Accuracy: 1e-12 for fourier above 1e-7; below, the skin is taken flat.
//
// Source: Carslaw & Jaeger (1959), Conduction of Heat in Solids, ch. 3, 7, 9;
// Incropera & DeWitt, ch. 5.
func Theta(shape Shape, biot, fourier, position float64) (float64, error) {
	if err := checkSeries("icing.Theta", shape, biot, fourier); err != nil {
		return math.NaN(), err
	}
	if err := units.Within("icing.Theta", "position", position, 0, 1, ""); err != nil {
		return math.NaN(), err
	}
	m := modes{shape: shape, bi: biot}
	return m.theta(fourier, position), nil
}

// MeanTheta returns the mean over the body of the unaccomplished change of
// [Theta]. The heat given off is m·c_p·(T_start - T_medium)·(1 - MeanTheta).
//
// Validity, errors and source as [Theta].
func MeanTheta(shape Shape, biot, fourier float64) (float64, error) {
	if err := checkSeries("icing.MeanTheta", shape, biot, fourier); err != nil {
		return math.NaN(), err
	}
	m := modes{shape: shape, bi: biot}
	return m.theta(fourier, -1), nil
}

// Root returns the index-th root ζ (from 1) of the surface condition of the
// shape at biot = h·R/k, the number that sets how fast the term dies away.
//
// Validity: biot 1e-15 to 1e15, 1 <= index <= 10000; otherwise ErrDomain and NaN.
//
// Source: Carslaw & Jaeger (1959), ch. 3, 7, 9; Incropera & DeWitt, table 5.1,
// prints the first root to four digits.
func Root(shape Shape, biot float64, index int) (float64, error) {
	if err := checkSeries("icing.Root", shape, biot, 0); err != nil {
		return math.NaN(), err
	}
	if err := units.Within("icing.Root", "index", float64(index), 1, 10000, ""); err != nil {
		return math.NaN(), err
	}
	return eigen(shape, biot, index-1), nil
}

// Amplitude returns the coefficient C of the index-th term (from 1) of the
// series of [Theta]. Validity, errors and source as [Root].
func Amplitude(shape Shape, biot float64, index int) (float64, error) {
	z, err := Root(shape, biot, index)
	if err != nil {
		return math.NaN(), err
	}
	return amplitude(shape, z), nil
}
