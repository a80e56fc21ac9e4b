package icing

import (
	"fmt"
	"math"
)

// Shape is the form of a body whose cooling has a closed series.
type Shape uint8

// Shapes. The half-dimension is half the thickness of a slab cooled on both
// faces, and the radius of a long cylinder or a sphere; never volume over area.
const (
	Slab Shape = iota
	Cylinder
	Sphere
)

var shapeNames = [...]string{"slab", "cylinder", "sphere"}

// String returns "slab", "cylinder" or "sphere".
func (s Shape) String() string {
	if int(s) < len(shapeNames) {
		return shapeNames[s]
	}
	return fmt.Sprintf("Shape(%d)", uint8(s))
}

// MarshalText writes the shape's word.
func (s Shape) MarshalText() ([]byte, error) {
	if int(s) >= len(shapeNames) {
		return nil, fmt.Errorf("icing.Shape: %d is not one of slab, cylinder, sphere", uint8(s))
	}
	return []byte(shapeNames[s]), nil
}

// UnmarshalText reads the shape's word.
func (s *Shape) UnmarshalText(text []byte) error {
	for i, n := range shapeNames {
		if string(text) == n {
			*s = Shape(i)
			return nil
		}
	}
	return fmt.Errorf("icing.Shape: %q is not one of slab, cylinder, sphere", text)
}

// eigen returns the n-th (from 0) positive root of the surface condition of the
// shape at Biot number bi:
//
//	slab      ζ tan ζ = Bi          ζ in (nπ, nπ+π/2)
//	cylinder  ζ J1(ζ) = Bi J0(ζ)    ζ in (j1,n  j0,n+1)
//	sphere    1 - ζ cot ζ = Bi      ζ in (nπ, (n+1)π)
//
// by Newton's method held inside its bracket. Source: Carslaw & Jaeger (1959),
// Conduction of Heat in Solids, ch. 3, 7 and 9.
func eigen(shape Shape, bi float64, n int) float64 {
	lo, hi := bracket(shape, n)
	sign := 1.0
	if n%2 == 1 {
		sign = -1
	}
	if shape == Sphere {
		sign = -sign
	}
	z := guess(shape, bi, n, lo, hi)
	for range 100 {
		f, slope := surfaceCondition(shape, bi, z)
		f, slope = sign*f, sign*slope
		if f < 0 {
			lo = z
		} else {
			hi = z
		}
		step := f / slope
		if math.Abs(step) <= 1e-10*z { // the next step would be below rounding
			return z - step
		}
		z -= step
		if !(z > lo && z < hi) {
			z = lo + (hi-lo)/2
		}
	}
	return z
}

// bracket holds the n-th root for every Biot number. Those of the cylinder lie
// at zeros of Bessel functions (McMahon's expansion, error below 0.001 for the
// first zero), widened so that a root at either end stays inside.
func bracket(shape Shape, n int) (lo, hi float64) {
	const slack = 0.02
	m := float64(n)
	switch shape {
	case Cylinder:
		if n > 0 {
			lo = besselZero(1, n) - slack
		}
		return lo, besselZero(0, n+1) + slack
	case Sphere:
		return m * math.Pi, (m + 1) * math.Pi
	}
	return m * math.Pi, (m + 0.5) * math.Pi
}

// besselZero is McMahon's expansion of the k-th positive zero of J0 or J1,
// Abramowitz & Stegun (1964), 9.5.12.
func besselZero(order, k int) float64 {
	mu := 4 * float64(order*order)
	b := (float64(k) + float64(order)/2 - 0.25) * math.Pi
	e := 8 * b
	return b - (mu-1)/e - 4*(mu-1)*(7*mu-31)/(3*e*e*e)
}

// guess starts Newton near the root: at small Bi the first root is the lumped
// body's, otherwise a fraction of the bracket that grows with Bi.
func guess(shape Shape, bi float64, n int, lo, hi float64) float64 {
	if n == 0 && bi < 0.2 {
		return min(math.Sqrt(float64(shape+1)*bi), 0.99*hi)
	}
	return lo + (hi-lo)*(0.02+0.96*bi/(1+bi+lo))
}

// surfaceCondition returns the entire function whose zeros are the roots, and
// its slope.
func surfaceCondition(shape Shape, bi, z float64) (f, slope float64) {
	switch shape {
	case Cylinder:
		j0, j1 := math.J0(z), math.J1(z)
		return z*j1 - bi*j0, z*j0 + bi*j1
	case Sphere:
		s, c := math.Sincos(z)
		return bi*s - sineLessZCos(z), bi*c - z*s
	}
	s, c := math.Sincos(z)
	return z*s - bi*c, (1+bi)*s + z*c
}

// amplitude is the coefficient C of the term with root z.
func amplitude(shape Shape, z float64) float64 {
	switch shape {
	case Cylinder:
		j0, j1 := math.J0(z), math.J1(z)
		return 2 * j1 / (z * (j0*j0 + j1*j1))
	case Sphere:
		return 4 * sineLessZCos(z) / lessSine(2*z)
	}
	return 4 * math.Sin(z) / (2*z + math.Sin(2*z))
}

// profile is the term's shape at the fraction x of the half-dimension.
func profile(shape Shape, z, x float64) float64 {
	zx := z * x
	switch shape {
	case Cylinder:
		return math.J0(zx)
	case Sphere:
		if zx < 1e-8 {
			return 1
		}
		return math.Sin(zx) / zx
	}
	return math.Cos(zx)
}

// average is the term's mean over the body.
func average(shape Shape, z float64) float64 {
	switch shape {
	case Cylinder:
		return 2 * math.J1(z) / z
	case Sphere:
		return 3 * sineLessZCos(z) / (z * z * z)
	}
	return math.Sin(z) / z
}

// sineLessZCos is sin z - z cos z without loss of digits at small z.
func sineLessZCos(z float64) float64 {
	if z > 0.5 {
		s, c := math.Sincos(z)
		return s - z*c
	}
	// sum over k >= 1 of (-1)^(k+1) 2k z^(2k+1)/(2k+1)!
	z2 := z * z
	return z * z2 / 3 * (1 - z2/10*(1-z2/28*(1-z2/54*(1-z2/88*(1-z2/130)))))
}

// lessSine is x - sin x without loss of digits at small x.
func lessSine(x float64) float64 {
	if x > 1 {
		return x - math.Sin(x)
	}
	x2 := x * x
	return x * x2 / 6 * (1 - x2/20*(1-x2/42*(1-x2/72*(1-x2/110*(1-x2/156*(1-x2/210))))))
}
