package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// CurvedFactor returns the ratio of the friction factor in a hose laid in a
// curve or coil of the given diameter to that of the straight hose, at Reynolds
// number re and bore over coil diameter d/D; [PipeRun] takes it by its Coil.
//
// Equation: laminar (White 1929) 1/[1 - (1 - (11.6/De)^0.45)^2.22], De = re √(d/D)
// from 11.6 on; turbulent (Ito 1959) 1 + 0.029 √(d/D)/f with f of a smooth pipe,
// let in between re 2000 and 4000. The curve keeps the flow laminar longer: of
// the two laws the greater loss is taken.
//
// Validity: 0 < d/D <= 0.2, re to 1e6; ErrRange with the value outside.
//
// Source: White 1929, Proc. R. Soc. A 123:645; Ito 1959, J. Basic Eng. 81:123,
// its curvature term.
func CurvedFactor(re, boreOverCoil float64) (float64, error) {
	const fn = "hydraulics.CurvedFactor"
	if err := errors.Join(units.Within(fn, "re", re, leastRe, greatestRe, ""),
		units.Within(fn, "boreOverCoil", boreOverCoil, 0, 1, "")); err != nil {
		return math.NaN(), err
	}
	w := newWall(0)
	straight, _ := w.square(re)
	curved, _ := w.curved(re, math.Sqrt(boreOverCoil))
	var errs []error
	if boreOverCoil > maxBoreOverCoil {
		errs = append(errs, &units.InputError{Func: fn, Field: "boreOverCoil", Value: boreOverCoil, Min: 0, Max: maxBoreOverCoil, Kind: units.ErrRange})
	}
	if re > maxCoilRe {
		errs = append(errs, &units.InputError{Func: fn, Field: "re", Value: re, Min: 0, Max: maxCoilRe, Kind: units.ErrRange})
	}
	return curved / straight, errors.Join(errs...)
}

const (
	maxBoreOverCoil = 0.2
	maxCoilRe       = 1e6
	whiteDean       = 11.6 // below this Dean number a curve costs nothing
	whiteExponent   = 0.45
	itoCurvature    = 0.029
)

// curved is [wall.square] in a curve, root being the square root of bore over
// coil diameter. It is continuous and rises with re.
func (w *wall) curved(re, root float64) (g, slope float64) {
	g, slope = w.square(re)
	if re > laminarBelow {
		// The turbulent addition, let in over the transition.
		in, rise := 1.0, 0.0
		if re < turbulentAbove {
			x := (re - laminarBelow) / (turbulentAbove - laminarBelow)
			in, rise = x*x*(3-2*x), 6*x*(1-x)/(turbulentAbove-laminarBelow)
		}
		g += itoCurvature * root * re * re * in
		slope += itoCurvature * root * re * (2*in + re*rise)
	}
	if de := re * root; de > whiteDean {
		u := math.Pow(whiteDean/de, whiteExponent)
		r := math.Pow(1-u, 1/whiteExponent)
		ratio := 1 / (1 - r)
		if laminar := 64 * re * ratio; laminar > g && u < 1 {
			return laminar, 64 * ratio * (1 + ratio*r/(1-u)*u)
		}
	}
	return g, slope
}
