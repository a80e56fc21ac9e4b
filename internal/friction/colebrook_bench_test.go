package friction

import (
	"math"
	"testing"
)

// arguments are 4096 pairs spread evenly in log re over 4e3 to 1e8 and in log
// rel over 1e-6 to 3e-2, so that no branch or table entry can be learned.
func arguments() (re, rel []float64) {
	var x uint64 = 88172645463325252
	next := func() float64 { x ^= x << 13; x ^= x >> 7; x ^= x << 17; return float64(x>>11) * 0x1p-53 }
	re, rel = make([]float64, 4096), make([]float64, 4096)
	for i := range re {
		re[i] = math.Pow(10, 3.6+4.4*next())
		rel[i] = math.Pow(10, -6+4.5*next())
	}
	return re, rel
}

var sink float64

// clamond is the published two-iteration algorithm, for comparison: D. Clamond, 2009, Efficient resolution of the
// Colebrook equation, Ind. Eng. Chem. Res. 48:3665-3671.
func clamond(re, k float64) float64 {
	const c1, c2 = 0.12396818633541755, -0.7793974884556820
	x1, x2 := k*re*c1, math.Log(re)+c2
	f := x2 - 0.2
	s := 1 + x1 + f
	g := (math.Log(x1+f) - 0.2) / s
	f -= (s + 0.5*g) * g * (x1 + f) / (s + g*(1+g/3))
	s = 1 + x1 + f
	g = (math.Log(x1+f) + f - x2) / s
	f -= (s + 0.5*g) * g * (x1 + f) / (s + g*(1+g/3))
	f = math.Ln10 / 2 / f
	return f * f
}

// BenchmarkColebrook compares with the published algorithm on one argument
// table. "latency" makes each argument depend on the result before.
func BenchmarkColebrook(b *testing.B) {
	re, rel := arguments()
	for _, form := range []struct {
		name string
		f    func(re, rel float64) float64
	}{{"table", Colebrook}, {"clamond", clamond}} {
		b.Run(form.name+"/throughput", func(b *testing.B) {
			s := 0.0
			for i := range b.N {
				s += form.f(re[i&4095], rel[i&4095])
			}
			sink = s
		})
		b.Run(form.name+"/latency", func(b *testing.B) {
			s := 0.0
			for i := range b.N {
				s = form.f(re[i&4095]+s, rel[i&4095])
			}
			sink = s
		})
	}
}
