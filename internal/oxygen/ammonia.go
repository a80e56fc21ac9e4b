package oxygen

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// UnionizedAmmonia returns the fraction of total ammonia nitrogen that is NH3,
// the toxic form, in fresh water at temperature t and the given pH. fn is the
// calling function, named in errors.
//
// Equation: pKa = 0.09018 + 2729.92/T, f = 1/(1 + 10^(pKa - pH)), T in K.
//
// Validity: 0 to 50 C, fresh water, any pH. In sea water the fraction is about
// a sixth lower, so this errs to the safe side there. Outside the range the
// value comes with units.ErrRange. Errors: NaN, temperature outside -5 to
// 100 C, pH outside 0 to 14.
//
// Source: Emerson, Russo, Lund & Thurston (1975), Journal of the Fisheries
// Research Board of Canada 32, 2379-2383.
func UnionizedAmmonia(fn string, t units.Temperature, pH float64) (float64, error) {
	tc := t.Celsius()
	if err := errors.Join(units.Within(fn, "temperature", tc, -5, 100, "C"), units.Within(fn, "pH", pH, 0, 14, "")); err != nil {
		return math.NaN(), err
	}
	pKa := 0.09018 + 2729.92/(tc+zeroCelsius)
	f := 1 / (1 + math.Pow(10, pKa-pH))
	if !(tc >= 0 && tc <= 50) {
		return f, &units.InputError{Func: fn, Field: "temperature", Value: tc, Unit: "C", Min: 0, Max: 50, Kind: units.ErrRange, Reason: "Emerson et al. 1975"}
	}
	return f, nil
}
