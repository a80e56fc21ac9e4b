package drawdown

import "math"

// twofold is an unevaluated sum of two float64, about 32 digits, for sums in
// which large terms cancel. The explicit conversions keep a compiler from
// fusing a product into a sum.
//
// Source: Dekker (1971), A floating-point technique for extending the
// available precision, Numerische Mathematik 18, 224-242.
type twofold struct{ hi, lo float64 }

func twofoldSum(a, b float64) twofold {
	s := a + b
	bv := s - a
	return twofold{s, (a - (s - bv)) + (b - bv)}
}

func (a twofold) value() float64 { return a.hi + a.lo }

func (a twofold) plus(b twofold) twofold {
	s := twofoldSum(a.hi, b.hi)
	s.lo += a.lo + b.lo
	return twofoldSum(s.hi, s.lo)
}

func (a twofold) minus(b twofold) twofold { return a.plus(twofold{-b.hi, -b.lo}) }

func (a twofold) times(b twofold) twofold {
	p := float64(a.hi * b.hi)
	e := math.FMA(a.hi, b.hi, -p)
	e += float64(a.hi*b.lo) + float64(a.lo*b.hi)
	return twofoldSum(p, e)
}

func (a twofold) over(b twofold) twofold {
	q := a.hi / b.hi
	r := a.minus(b.times(twofold{q, 0}))
	q2 := r.hi / b.hi
	r = r.minus(b.times(twofold{q2, 0}))
	s := twofoldSum(q, q2)
	return s.plus(twofold{r.hi / b.hi, 0})
}
