package hydraulics

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// PipeRestraint is how a pipe is held along its length. It is
// [ExpansionJoints], [AnchoredOneEnd] or [AnchoredAllAlong].
type PipeRestraint uint8

// The cases of [RestraintFactor].
const (
	ExpansionJoints  PipeRestraint = iota // free to lengthen everywhere; also hose
	AnchoredOneEnd                        // at its upstream end only
	AnchoredAllAlong                      // against any lengthening, as when buried
)

// RestraintFactor returns c1, how much the wall's hold changes its hoop stretch
// under pressure, for [WaveSpeed].
//
// Equation: 1; 1 - μ/2; 1 - μ²; for walls thicker than bore/25, 2 e/D (1 + μ) +
// D/(D + e) times that.
//
// Validity: Poisson ratio μ 0 to 0.5.
//
// Source: Wylie & Streeter 1993, Fluid Transients in Systems, chapter 1.
// Older books print 1.25 - μ for one end; that is not used.
func RestraintFactor(how PipeRestraint, poisson float64, bore, wall units.Length) (float64, error) {
	const fn = "hydraulics.RestraintFactor"
	err := errors.Join(units.Within(fn, "how", float64(how), 0, float64(AnchoredAllAlong), ""),
		units.Within(fn, "poisson", poisson, 0, 0.5, ""), boreError(fn, "bore", bore), wallError(fn, wall, bore))
	if err != nil {
		return math.NaN(), err
	}
	c := [...]float64{1, 1 - poisson/2, 1 - poisson*poisson}[how]
	d, e := bore.Metres(), wall.Metres()
	if d/e < 25 {
		c = 2*e/d*(1+poisson) + d/(d+e)*c
	}
	return c, nil
}

func wallError(fn string, wall, bore units.Length) error {
	if w := wall.Metres(); w > 0 && w <= bore.Metres() {
		return nil
	}
	return &units.InputError{Func: fn, Field: "wall", Value: wall.Metres(), Unit: "m", Min: 0, Max: bore.Metres(),
		Reason: "wall thickness, above zero"}
}

// WaveSpeed returns the speed of a pressure wave in liquid in a pipe of given
// bore, wall thickness and modulus of elasticity; restraint is from
// [RestraintFactor], 1 for hose.
//
// Equation: a² = (K/ρ)/(1 + K D c1/(E e)).
//
// Validity: a liquid without free gas; the bulk modulus of f must be known. By
// the modulus of its rubber alone a hose comes out at 20 to 40 m/s; reinforcement
// makes 100 to 300 (common practice): measure its stretch and take
// [WaveSpeedOfHose].
//
// Source: Korteweg 1878; Wylie & Streeter 1993.
func WaveSpeed(f Fluid, bore, wall units.Length, modulus units.Pressure, restraint float64) (units.Velocity, error) {
	const fn = "hydraulics.WaveSpeed"
	err := errors.Join(units.AtField("f", f.Validate()), bulkKnown(fn, f), boreError(fn, "bore", bore), wallError(fn, wall, bore),
		units.Positive(fn, "modulus", modulus.Pascals(), "Pa"), units.Within(fn, "restraint", restraint, 0.5, 5, ""))
	if err != nil {
		return units.Velocity(math.NaN()), err
	}
	k := f.BulkModulus.Pascals()
	return units.Velocity(math.Sqrt(k / f.Density.KilogramsPerCubicMetre() / (1 + k*bore.Metres()*restraint/(modulus.Pascals()*wall.Metres())))), nil
}

func bulkKnown(fn string, f Fluid) error {
	return units.Positive(fn, "f.bulkModulus", f.BulkModulus.Pascals(), "Pa")
}

// WaveSpeedOfHose returns the speed of a pressure wave in a hose whose bore was
// seen to grow by a fraction of its area per pressure.
//
// Equation: a² = 1/(ρ (1/K + dA/(A dp))).
//
// Source: Wylie & Streeter 1993.
func WaveSpeedOfHose(f Fluid, areaGrowth float64, per units.Pressure) (units.Velocity, error) {
	const fn = "hydraulics.WaveSpeedOfHose"
	err := errors.Join(units.AtField("f", f.Validate()), bulkKnown(fn, f), units.Within(fn, "areaGrowth", areaGrowth, 0, 0.5, ""),
		units.Positive(fn, "per", per.Pascals(), "Pa"))
	if err != nil {
		return units.Velocity(math.NaN()), err
	}
	return units.Velocity(1 / math.Sqrt(f.Density.KilogramsPerCubicMetre()*(1/f.BulkModulus.Pascals()+areaGrowth/per.Pascals()))), nil
}

// BulkModulusWithGas returns the bulk modulus of a liquid with a volume fraction
// of free gas, measured at the absolute pressure p: 0.1 % of air at one
// atmosphere makes a liquid fifteen times softer.
//
// Equation: 1/K' = 1/K + α/p, isothermal.
//
// Source: Wylie & Streeter 1993, simplified for small α.
func BulkModulusWithGas(k units.Pressure, gas float64, p units.AbsolutePressure) (units.Pressure, error) {
	const fn = "hydraulics.BulkModulusWithGas"
	err := errors.Join(units.Positive(fn, "k", k.Pascals(), "Pa"), units.Within(fn, "gas", gas, 0, 0.1, ""),
		units.Positive(fn, "p", p.PascalsAbsolute(), "Pa"))
	if err != nil {
		return units.Pressure(math.NaN()), err
	}
	return units.Pressure(1 / (1/k.Pascals() + gas/p.PascalsAbsolute())), nil
}

// Joukowsky returns the pressure rise when a flow in a pipe with wave speed a is
// slowed by dv at once.
//
// Equation: Δp = ρ a ΔV.
//
// Source: Joukowsky 1898.
func Joukowsky(f Fluid, a, dv units.Velocity) (units.Pressure, error) {
	const fn = "hydraulics.Joukowsky"
	err := errors.Join(units.AtField("f", f.Validate()), units.Within(fn, "a", a.MetresPerSecond(), 0, 5000, "m/s"),
		units.Within(fn, "dv", dv.MetresPerSecond(), 0, 100, "m/s"))
	if err != nil {
		return units.Pressure(math.NaN()), err
	}
	return units.Pressure(f.Density.KilogramsPerCubicMetre() * float64(a*dv)), nil
}

// SurgeSpec is a valve that shuts at the end of a line.
type SurgeSpec struct {
	Fluid   Fluid                  `json:"fluid"`
	Length  units.Length           `json:"length"` // from the valve to the open water that reflects the wave
	Wave    units.Velocity         `json:"wave"`
	Stopped units.Velocity         `json:"stopped"`         // speed of flow that the valve stops
	Closure time.Duration          `json:"closure"`         // zero is at once
	Static  units.GaugePressure    `json:"static"`          // at the valve before
	Rating  units.GaugePressure    `json:"rating,omitzero"` // of pipe or hose; zero is not known
	Air     units.AbsolutePressure `json:"air"`
	Boil    units.AbsolutePressure `json:"boil,omitzero"`    // vapour pressure; zero takes 2.3 kPa
	Gravity units.Acceleration     `json:"gravity,omitzero"` // zero is 9.80665 m/s2
}

// Surge is the pressure surge of a closing valve.
type Surge struct {
	Period   time.Duration       `json:"period"` // 2 L/a, within which a closure is as bad as at once
	Rapid    bool                `json:"rapid"`
	Head     units.Length        `json:"head"`     // rise above the head before
	Pressure units.Pressure      `json:"pressure"` // the same as a pressure
	Peak     units.GaugePressure `json:"peak"`     // static plus surge
	Trough   units.GaugePressure `json:"trough"`   // static less surge, as the wave comes back
	Notices  []units.Notice      `json:"notices,omitempty"`
}

// ClosureSurge returns the surge of a valve that shuts.
//
// Equation: a ΔV/g when it shuts within 2 L/a; 2 L ΔV/(g t) when slower, never
// more than the first. A line sees the same fall below its static pressure.
//
// Validity: a valve that stops the flow evenly. Most valves stop it in the last
// fifth of their travel: count that time as the closure. Attached pumps, high
// points and columns that part need a transient program.
//
// Source: Joukowsky 1898; Michaud 1878 for slow closure.
func ClosureSurge(s SurgeSpec) (Surge, error) {
	const fn = "hydraulics.ClosureSurge"
	g := s.Gravity.MetresPerSecondSquared()
	if g == 0 {
		g = gravity
	}
	err := errors.Join(units.AtField("fluid", s.Fluid.Validate()), units.Positive(fn, "length", s.Length.Metres(), "m"),
		units.Within(fn, "wave", s.Wave.MetresPerSecond(), 1, 5000, "m/s"),
		units.Within(fn, "stopped", s.Stopped.MetresPerSecond(), 0, 100, "m/s"),
		units.NonNegative(fn, "closure", s.Closure.Seconds(), "s"), units.Within(fn, "gravity", g, 1, 20, "m/s2"),
		units.Finite(fn, "static", s.Static.PascalsGauge(), "Pa"), units.NonNegative(fn, "rating", s.Rating.PascalsGauge(), "Pa"),
		units.NonNegative(fn, "air", s.Air.PascalsAbsolute(), "Pa"), units.NonNegative(fn, "boil", s.Boil.PascalsAbsolute(), "Pa"))
	if err != nil {
		return Surge{}, err
	}
	period := 2 * s.Length.Metres() / s.Wave.MetresPerSecond()
	if period > 1e6 {
		return Surge{}, units.Within(fn, "length", s.Length.Metres(), 0, 5e5*s.Wave.MetresPerSecond(), "m")
	}
	u := Surge{Period: time.Duration(period * float64(time.Second)), Rapid: s.Closure.Seconds() <= period}
	h := s.Wave.MetresPerSecond() * s.Stopped.MetresPerSecond() / g
	if !u.Rapid {
		h = min(h, 2*s.Length.Metres()*s.Stopped.MetresPerSecond()/(g*s.Closure.Seconds()))
	}
	u.Head = units.Length(h)
	u.Pressure = units.Pressure(s.Fluid.Density.KilogramsPerCubicMetre() * g * h)
	u.Peak, u.Trough = s.Static+units.GaugePressure(u.Pressure), s.Static-units.GaugePressure(u.Pressure)
	u.Notices = s.notices(u)
	return u, nil
}

const (
	standardAtmosphere = 101325.0
	usualBoil          = 2339.0 // Pa, water of 20 °C
)

func (s SurgeSpec) notices(u Surge) []units.Notice {
	var out []units.Notice
	if s.Rating > 0 && u.Peak > s.Rating {
		out = append(out, units.Notice{Code: CodeSurge, Severity: units.Danger, Field: "peak", Value: u.Peak.PascalsGauge(),
			Limit: s.Rating.PascalsGauge(), Unit: "Pa",
			Message: s.advice(), Source: "Joukowsky 1898; Michaud 1878"})
	}
	air, boil := s.Air.PascalsAbsolute(), s.Boil.PascalsAbsolute()
	if air == 0 {
		air = standardAtmosphere
	}
	if boil == 0 {
		boil = usualBoil
	}
	if trough := u.Trough.PascalsGauge() + air; trough < boil {
		out = append(out, units.Notice{Code: CodeVacuum, Severity: units.Warning, Field: "trough", Value: u.Trough.PascalsGauge(),
			Limit: boil - air, Unit: "Pa",
			Message: "the returning wave would pull the water apart: hose collapses, and the columns strike when they meet",
			Source:  "common practice, no source"})
	}
	return out
}

// advice says how slowly the valve must shut to meet the rating, by Michaud.
func (s SurgeSpec) advice() string {
	room := (s.Rating - s.Static).PascalsGauge()
	if !(room > 0) {
		return "the line stands above its rating before the valve moves"
	}
	t := 2 * s.Length.Metres() * s.Stopped.MetresPerSecond() * s.Fluid.Density.KilogramsPerCubicMetre() / room
	return fmt.Sprintf("the surge passes the rating: shut the valve evenly over more than %.2g s", t)
}
