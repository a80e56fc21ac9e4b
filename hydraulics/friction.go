package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/friction"
	"pondwright.example/units"
)

// Regime is the kind of flow in a pipe. It is [RegimeStill], [RegimeLaminar],
// [RegimeTransition] or [RegimeTurbulent].
type Regime uint8

// The regimes, by Reynolds number.
const (
	RegimeStill      Regime = iota // no flow
	RegimeLaminar                  // below 2000
	RegimeTransition               // 2000 to 4000: the factor is uncertain by 30 %
	RegimeTurbulent                // above 4000
)

const (
	laminarBelow   = 2000.0
	turbulentAbove = 4000.0
	maxColebrookRe = 1e8 // Moody's diagram ends here

	// No flow in a pipe of this package is slower or faster.
	leastRe, greatestRe = 1e-6, 1e15
)

// regimeOf returns the regime at Reynolds number re.
func regimeOf(re float64) Regime {
	switch {
	case re > turbulentAbove:
		return RegimeTurbulent
	case re > laminarBelow:
		return RegimeTransition
	case re > 0:
		return RegimeLaminar
	}
	return RegimeStill
}

// frictionArgs returns an ErrDomain for a Reynolds number or relative roughness
// that no factor exists for, and an ErrRange outside the given limits.
func frictionArgs(fn string, re, rel, reMin, reMax, relMin, relMax float64) error {
	if err := errors.Join(units.Within(fn, "re", re, leastRe, greatestRe, ""), relativeRoughness(fn, rel)); err != nil {
		return err
	}
	var errs []error
	if !(re >= reMin && re <= reMax) {
		errs = append(errs, &units.InputError{Func: fn, Field: "re", Value: re, Min: reMin, Max: reMax, Kind: units.ErrRange})
	}
	if !(rel >= relMin && rel <= relMax) {
		errs = append(errs, &units.InputError{Func: fn, Field: "rel", Value: rel, Min: relMin, Max: relMax, Kind: units.ErrRange})
	}
	return errors.Join(errs...)
}

// relativeRoughness refuses a roughness that is negative or above 0.05 of the
// bore, where a wall is no longer a pipe wall.
func relativeRoughness(fn string, rel float64) error {
	if rel >= 0 && rel <= maxRelativeRoughness {
		return nil
	}
	return &units.InputError{Func: fn, Field: "rel", Value: rel, Min: 0, Max: maxRelativeRoughness,
		Reason: "roughness over bore, both in one unit; millimetres taken for metres?", Kind: units.ErrDomain}
}

// factor evaluates f under the rules of frictionArgs.
func factor(f func(re, rel float64) float64, re, rel float64, err error) (float64, error) {
	if errors.Is(err, units.ErrDomain) {
		return math.NaN(), err
	}
	return f(re, rel), err
}

// Colebrook returns the Darcy friction factor of turbulent flow at Reynolds
// number re = V D/nu in a pipe of relative roughness rel = e/D, both
// dimensionless.
//
// Equation: 1/√f = -2 log10( rel/3.7 + 2.51/(re √f) ), solved to within four
// units in the last place.
//
// Validity: 4000 <= re <= 1e8 and rel <= 0.05. ErrRange with the value outside
// that re; ErrDomain for re <= 0 and rel outside 0 to 0.05.
//
// Source: Colebrook 1939, J. Inst. Civ. Eng. 11:133.
//
// Accuracy: the equation is good to 10 to 15 % for new commercial pipe (Moody
// 1944); the roughness is usually the greater doubt.
func Colebrook(re, rel float64) (float64, error) {
	if re >= turbulentAbove && re <= maxColebrookRe && rel >= 0 && rel <= maxRelativeRoughness {
		return friction.Colebrook(re, rel), nil
	}
	err := frictionArgs("hydraulics.Colebrook", re, rel, turbulentAbove, maxColebrookRe, 0, maxRelativeRoughness)
	return factor(friction.Colebrook, re, rel, err)
}

// SwameeJain returns the Darcy friction factor by an explicit formula within
// 2.9 % of [Colebrook].
//
// Validity: 5000 <= re <= 1e8, 1e-6 <= rel <= 1e-2; errors as for Colebrook.
//
// Source: Swamee & Jain 1976, J. Hydraul. Div. ASCE 102:657.
func SwameeJain(re, rel float64) (float64, error) {
	return factor(friction.SwameeJain, re, rel, frictionArgs("hydraulics.SwameeJain", re, rel, 5e3, 1e8, 1e-6, 1e-2))
}

// Haaland returns the Darcy friction factor by an explicit formula within 1.5 %
// of [Colebrook].
//
// Validity: 4000 <= re <= 1e8, 1e-6 <= rel <= 0.05; errors as for Colebrook.
//
// Source: Haaland 1983, J. Fluids Eng. 105:89.
func Haaland(re, rel float64) (float64, error) {
	return factor(friction.Haaland, re, rel, frictionArgs("hydraulics.Haaland", re, rel, 4e3, 1e8, 1e-6, 5e-2))
}

// ZigrangSylvester returns the Darcy friction factor by an explicit formula
// within 0.11 % of [Colebrook].
//
// Validity: 4000 <= re <= 1e8, 4e-5 <= rel <= 0.05; errors as for Colebrook.
//
// Source: Zigrang & Sylvester 1982, AIChE J. 28:514, the later of its two forms.
func ZigrangSylvester(re, rel float64) (float64, error) {
	return factor(friction.ZigrangSylvester, re, rel, frictionArgs("hydraulics.ZigrangSylvester", re, rel, 4e3, 1e8, 4e-5, 5e-2))
}

// Serghides returns the Darcy friction factor by an explicit formula within
// 0.0032 % of [Colebrook].
//
// Validity: 4000 <= re <= 1e8, rel <= 0.05; errors as for Colebrook.
//
// Source: Serghides 1984, Chem. Eng. 91(5):63.
func Serghides(re, rel float64) (float64, error) {
	return factor(friction.Serghides, re, rel, frictionArgs("hydraulics.Serghides", re, rel, 4e3, 1e8, 0, 5e-2))
}

// Churchill returns the Darcy friction factor by one curve through laminar,
// transitional and turbulent flow. Between re 2000 and 4000 it is an
// interpolation, uncertain by 30 %; above, it lies within 3.2 % of [Colebrook].
//
// Validity: 0 < re <= 1e8, rel <= 0.05; errors as for Colebrook.
//
// Source: Churchill 1977, Chem. Eng. 84(24):91, times 4 to Darcy's factor.
func Churchill(re, rel float64) (float64, error) {
	return factor(friction.Churchill, re, rel, frictionArgs("hydraulics.Churchill", re, rel, 0, 1e8, 0, 5e-2))
}

// LaminarFactor returns 64/re, the Darcy factor of laminar flow in a round pipe;
// ErrRange above re 2000.
//
// Source: Hagen 1839, Poiseuille 1840; exact for developed flow.
func LaminarFactor(re float64) (float64, error) {
	err := frictionArgs("hydraulics.LaminarFactor", re, 0, 0, laminarBelow, 0, 0)
	return factor(func(re, _ float64) float64 { return friction.Laminar(re) }, re, 0, err)
}

// FrictionFactor returns the Darcy friction factor that pipelines and networks
// of this package use at any re: 64/re to 2000, [Colebrook] from 4000, and
// between them the cubic in re that continues f re² and its slope, so that head
// rises smoothly with flow. In the gap nature jumps, and the value is uncertain
// by 30 %.
//
// Validity: re > 0, rel 0 to 0.05; ErrDomain outside, ErrRange with the value
// between re 2000 and 4000 and above 1e8.
//
// Source: as for Colebrook and [LaminarFactor]; the bridge between them is this
// package's own.
func FrictionFactor(re, rel float64) (float64, error) {
	const fn = "hydraulics.FrictionFactor"
	err := frictionArgs(fn, re, rel, 0, maxColebrookRe, 0, maxRelativeRoughness)
	if err == nil && regimeOf(re) == RegimeTransition {
		err = &units.InputError{Func: fn, Field: "re", Value: re,
			Reason: "between laminar and turbulent flow, 2000 to 4000, where the factor is uncertain by 30 %", Kind: units.ErrRange}
	}
	return factor(func(re, rel float64) float64 {
		w := newWall(rel)
		g, _ := w.square(re)
		return g / (re * re)
	}, re, rel, err)
}

// wall is a pipe wall with what the bridge over the transition needs.
type wall struct {
	rel    float64
	c2, c3 float64 // of the cubic in x = (re-2000)/2000
}

func newWall(rel float64) wall {
	w := wall{rel: rel}
	const span = turbulentAbove - laminarBelow
	g0, m0 := 64*laminarBelow, 64*span
	g1, s1 := w.turbulent(turbulentAbove)
	m1 := s1 * span
	w.c2 = 3*(g1-g0) - 2*m0 - m1
	w.c3 = 2*(g0-g1) + m0 + m1
	return w
}

// square returns f re², which is what head is proportional to, and its slope
// in re; both are continuous and rise with re.
func (w *wall) square(re float64) (g, slope float64) {
	switch {
	case re > turbulentAbove:
		return w.turbulent(re)
	case re <= laminarBelow:
		return 64 * re, 64
	}
	const span = turbulentAbove - laminarBelow
	x := (re - laminarBelow) / span
	return 64*re + x*x*(w.c2+x*w.c3), 64 + x*(2*w.c2+3*w.c3*x)/span
}

// turbulent is square by Colebrook. With F = (ln 10/2)/√f the equation is
// F + ln(b + aF) = 0, so that re dF/dre = aF/(a + b + aF).
func (w *wall) turbulent(re float64) (g, slope float64) {
	f := friction.Colebrook(re, w.rel)
	g = f * re * re
	aF := 2.51 / (re * math.Sqrt(f))
	a := aF * math.Sqrt(f) * (2 / math.Ln10)
	return g, 2 * f * re * (1 - a/(a+w.rel/3.7+aF))
}
