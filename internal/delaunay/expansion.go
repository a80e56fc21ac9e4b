package delaunay

import "math"

// An expansion is a sum of float64 terms that do not overlap, smallest first,
// without zeros: an exact number. The empty expansion is zero.
//
// Source: Shewchuk (1997), Adaptive precision floating-point arithmetic and
// fast robust geometric predicates, Discrete & Computational Geometry 18,
// sections 2.3 to 2.5. The explicit float64 conversions keep a compiler from
// fusing a product into a sum.
type expansion []float64

// twoSum returns a+b as a rounded sum and its exact rounding error (Knuth).
func twoSum(a, b float64) (sum, err float64) {
	sum = a + b
	bv := sum - a
	av := sum - bv
	return sum, (a - av) + (b - bv)
}

// twoProduct returns a*b as a rounded product and its exact rounding error.
func twoProduct(a, b float64) (prod, err float64) {
	prod = float64(a * b)
	return prod, math.FMA(a, b, -prod)
}

// difference returns a-b exactly, appended to dst.
func difference(dst expansion, a, b float64) expansion {
	hi, lo := twoSum(a, -b)
	if lo != 0 {
		dst = append(dst, lo)
	}
	if hi != 0 {
		dst = append(dst, hi)
	}
	return dst
}

// grow adds one term to e in place of itself.
func (e expansion) grow(b float64) expansion {
	q := b
	n := 0
	for _, t := range e {
		var lo float64
		q, lo = twoSum(q, t)
		if lo != 0 {
			e[n] = lo
			n++
		}
	}
	e = e[:n]
	if q != 0 {
		e = append(e, q)
	}
	return e
}

// plus returns e+f in dst, which must not share memory with either.
func plus(dst, e, f expansion) expansion {
	dst = append(dst[:0], e...)
	for _, t := range f {
		dst = dst.grow(t)
	}
	return dst
}

// times returns e*f in dst, which must not share memory with either.
func times(dst, e, f expansion) expansion {
	dst = dst[:0]
	for _, a := range e {
		for _, b := range f {
			hi, lo := twoProduct(a, b)
			if lo != 0 {
				dst = dst.grow(lo)
			}
			if hi != 0 {
				dst = dst.grow(hi)
			}
		}
	}
	return dst
}

// sign returns -1, 0 or +1. The last term outweighs all others.
func (e expansion) sign() int {
	switch n := len(e); {
	case n == 0:
		return 0
	case e[n-1] > 0:
		return 1
	default:
		return -1
	}
}
