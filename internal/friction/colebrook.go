package friction

import "math"

// Constants of the Colebrook-White equation as Colebrook (1939) printed them:
//
//	1/√f = -2 log10( rel/3.7 + 2.51/(re √f) )
//
// With F = (ln 10 / 2)/√f it reads F = -ln(b + a F), where b = rel/3.7 and
// a = (2.51 · 2/ln 10)/re.
const (
	rough  = 3.7
	smooth = 2.51 * 2 / math.Ln10

	halfLn10Squared = math.Ln10 * math.Ln10 / 4 // f = (ln 10 / 2)²/F²
)

// The fast path of Colebrook covers every pipe; outside it the argument of the
// logarithm may come near one, where the table logarithm loses digits.
const (
	fastReMin, fastReMax = 2e3, 1e18
	fastRelMax           = 0.1
)

// Colebrook returns the Darcy friction factor that solves the equation of
// Colebrook (1939) for the given doubles to within 4 units in the last place
// for rel up to 0.1. It is defined for every re > 0 and 0 <= rel < 3.7, with
// fewer digits as rel nears 3.7, and NaN elsewhere; as a statement about pipes
// it holds for re above about 4000 and rel up to 0.05.
//
// The equation is solved by two corrections of rising exactness. Only the
// second needs an exact logarithm, since an error of its start of 2e-3 comes out
// as less than 1e-16.
func Colebrook(re, rel float64) float64 {
	if !(re >= fastReMin && re <= fastReMax && rel >= 0 && rel <= fastRelMax) {
		return colebrookAnywhere(re, rel)
	}
	a, b := smooth/re, rel*(1/rough)

	// The exponent of re gives the F of a smooth pipe to about 0.15. A rough
	// pipe is further off and cares less, since b + aF hardly moves.
	const perLn, start = 0.912, -1.70
	F := crudeLog2(re)*(perLn*math.Ln2) + start

	// A Newton step for F + ln(b + aF) = 0 with a cheap logarithm, cut to 26
	// bits so that F² below is exact: F to 2e-3.
	v := b + a*F
	e, r, c := logCell(v)
	F -= (F + (e*math.Ln2 + c.hi) + (r - 0.5*r*r)) * v / (a + v)
	F = math.Float64frombits(math.Float64bits(F) &^ (1<<27 - 1))

	// What is left of the equation is G; F - u solves it, with u a series in
	// G that ends here at G³. F cancels the high part of the logarithm without
	// rounding, and u is subtracted from F² for the same reason.
	v = b + a*F
	e, r, c = logCell(v)
	r2 := r * r
	lo := r2 * ((-0.5 + r*(1.0/3)) + r2*((-0.25+r*0.2)+r2*(-1.0/6)))
	G := (F + (e*ln2Hi + c.hi)) + (r + (lo + (e*ln2Lo + c.lo)))
	d := 1 / (a + v)
	q := a * d
	w := G * q
	u := G * v * d * (1 - q*w*(0.5+w*(1.0/3-0.5*q)))
	return halfLn10Squared / (F*F - u*(2*F-u))
}

// colebrookAnywhere is Colebrook without limits on its arguments.
func colebrookAnywhere(re, rel float64) float64 {
	a, b := smooth/re, rel/rough
	if !(re > 0 && b >= 0 && b < 1) || math.IsInf(re, 1) && b == 0 {
		return math.NaN()
	}
	// The residual rises and is concave, so Newton's method comes up to the
	// root from the left after at most one step.
	F := -math.Log(b + a)
	if !(F > 0) {
		F = (1 - b) / a / 2
	}
	for range 100 {
		v := b + a*F
		step := (F + math.Log(v)) * v / (a + v)
		next := F - step
		if next <= 0 {
			next = F / 2
		}
		if math.Abs(next-F) <= 1e-16*F {
			break
		}
		F = next
	}
	f := halfLn10Squared / (F * F)
	if math.IsInf(f, 0) {
		return math.NaN()
	}
	return f
}
