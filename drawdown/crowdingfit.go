package drawdown

import (
	"fmt"
	"math"

	"pondwright.example/units"
)

// CrowdingFit is a curve fitted to measured shares.
type CrowdingFit struct {
	Curve    CrowdingCurve `json:"curve"`
	Residual float64       `json:"residual"` // root mean square difference of the stock shares
}

// FitCrowding fits run start, exponent and stranded share to pairs of water
// left and stock left, as stages and cumulative weigh tickets of a past harvest
// give them. It needs four pairs or more that show the run: one with stock
// leaving and one with most of it gone.
//
// Source: least squares, by pattern search from a grid; standard numerical
// practice. Errors: fewer than four pairs, shares outside 0 to 1, or units
// .ErrNoSolution when no animals left in any pair.
func FitCrowding(pairs []StockPoint) (CrowdingFit, error) {
	const fn = "drawdown.FitCrowding"
	if len(pairs) < 4 {
		return CrowdingFit{}, &units.InputError{Func: fn, Field: "pairs", Value: float64(len(pairs)), Unit: "pairs", Min: 4, Max: math.Inf(1),
			Reason: "three parameters need at least four pairs"}
	}
	least := 1.0
	for i, p := range pairs {
		for _, c := range []struct {
			name string
			v    float64
		}{{"water", p.Water}, {"stock", p.Stock}} {
			if err := units.Within(fn, fmt.Sprintf("pairs[%d].%s", i, c.name), c.v, 0, 1, ""); err != nil {
				return CrowdingFit{}, err
			}
		}
		least = math.Min(least, p.Stock)
	}
	if least > 0.9 {
		return CrowdingFit{}, &units.InputError{Func: fn, Field: "pairs", Value: least, Min: 0, Max: 0.9, Kind: units.ErrNoSolution,
			Reason: "hardly any animals left in these pairs, so they do not show the run"}
	}
	miss := func(x [3]float64) float64 {
		c := CrowdingCurve{RunStarts: x[0], Exponent: x[1], Stranded: x[2]}
		s := 0.0
		for _, p := range pairs {
			r, _ := c.eval(p.Water)
			s += (r - p.Stock) * (r - p.Stock)
		}
		return s
	}
	lo, hi := [3]float64{0.005, 0.05, 0}, [3]float64{1, 6, 0.9}
	best, low := [3]float64{0.2, 1, 0}, math.Inf(1)
	for i := range 30 {
		for j := range 20 {
			for k := range 10 {
				x := [3]float64{lo[0] * math.Pow(hi[0]/lo[0], float64(i)/29), lo[1] * math.Pow(hi[1]/lo[1], float64(j)/19), 0.9 * float64(k) / 10}
				if m := miss(x); m < low {
					best, low = x, m
				}
			}
		}
	}
	step := [3]float64{0.1, 0.3, 0.05}
	for step[0] > 1e-9 {
		better := false
		for d := range 27 { // all neighbours, so that a slanted valley is followed
			x := best
			for i, k := range [3]int{d % 3, d / 3 % 3, d / 9} {
				x[i] = math.Max(lo[i], math.Min(hi[i], x[i]+float64(k-1)*step[i]))
			}
			if m := miss(x); m < low {
				best, low, better = x, m, true
			}
		}
		if !better {
			for i := range step {
				step[i] /= 2
			}
		}
	}
	return CrowdingFit{Curve: CrowdingCurve{RunStarts: best[0], Exponent: best[1], Stranded: best[2]},
		Residual: math.Sqrt(low / float64(len(pairs)))}, nil
}
