package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Aspiration says how an engine takes its air: [NaturallyAspirated] or
// [Turbocharged].
type Aspiration uint8

// Aspirations of diesel engines.
const (
	NaturallyAspirated Aspiration = iota
	Turbocharged                  // without charge cooling
)

var aspirationNames = []string{"naturally aspirated", "turbocharged"}

// String returns the aspiration in words.
func (a Aspiration) String() string { return wordOf("Aspiration", aspirationNames, uint8(a)) }

// MarshalText writes the word of String.
func (a Aspiration) MarshalText() ([]byte, error) {
	return marshalWord("Aspiration", aspirationNames, uint8(a))
}

// UnmarshalText reads a word of String.
func (a *Aspiration) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Aspiration", aspirationNames, text)
	if err == nil {
		*a = Aspiration(i)
	}
	return err
}

// EngineDerate is the share of rated power an engine keeps in thin or hot air.
type EngineDerate struct {
	Indicated float64 `json:"indicated"` // k: ratio of indicated power; above one in dense, cold air
	Brake     float64 `json:"brake"`     // alpha: ratio of brake power, what the crankshaft keeps
}

// mechanicalEfficiency of the engine assumed by the standard's adjustment.
const mechanicalEfficiency = 0.8

// DerateISO3046 returns the power adjustment of a diesel engine for air pressure
// p and air temperature t:
//
//	k = (p/100 kPa)^m (298 K/T)^n,   alpha = k - 0.7 (1 - k)(1/0.8 - 1)
//
// with m = 1, n = 0.75 naturally aspirated and m = 0.7, n = 2 turbocharged;
// humidity and charge coolers are left out. The turbocharged form is harsher in
// heat than practice, where turbo engines lose nothing to about 1500 m and 1 %
// per 100 m above: the maker's table comes first. Do not use a ratio above one.
//
// Validity: 50 to 110 kPa and -20 to 55 C (ErrRange outside).
// Errors: ErrDomain for a pressure or temperature that is not positive.
// Source: ISO 3046-1 (form and exponents from memory).
func DerateISO3046(p units.AbsolutePressure, t units.Temperature, a Aspiration) (EngineDerate, error) {
	const fn = "pumpsizing.DerateISO3046"
	if err := errors.Join(units.Positive(fn, "p", p.PascalsAbsolute(), "Pa"), units.Positive(fn, "t", t.Kelvins(), "K")); err != nil {
		return EngineDerate{}, err
	}
	m, n := 1.0, 0.75
	if a == Turbocharged {
		m, n = 0.7, 2
	}
	k := math.Pow(p.PascalsAbsolute()/100e3, m) * math.Pow(298/t.Kelvins(), n)
	d := EngineDerate{Indicated: k, Brake: k - 0.7*(1-k)*(1/mechanicalEfficiency-1)}
	if err := soundAll(fn, d.Indicated, d.Brake); err != nil {
		return EngineDerate{}, err
	}
	return d, errors.Join(inRange(fn, "p", p.PascalsAbsolute()/1e3, 50, 110, "kPa"), inRange(fn, "t", t.Celsius(), -20, 55, "°C"))
}

// DerateBySteps returns the share of power kept by the practice rule of losing
// perStep of rated power for every step of altitude above a threshold, in
// proportion: 1 - perStep (altitude - above)/step, not below zero. Naturally
// aspirated diesel engines lose 0.03 to 0.035 per 300 m from sea level; one
// generator maker prints 0.03 per 500 m above 1000 m; motors 0.01 per 100 m
// above 1000 m.
//
// Errors: ErrDomain for a step that is not positive, or a negative share.
// Source: common practice; the generator figure was read in one manual.
func DerateBySteps(altitude, above, step units.Length, perStep float64) (float64, error) {
	const fn = "pumpsizing.DerateBySteps"
	err := errors.Join(units.Within(fn, "altitude", altitude.Metres(), -500, 6000, "m"), units.Finite(fn, "above", above.Metres(), "m"),
		units.Positive(fn, "step", step.Metres(), "m"), units.Within(fn, "perStep", perStep, 0, 1, ""))
	if err != nil {
		return math.NaN(), err
	}
	over := math.Max(0, (altitude - above).Metres())
	return math.Max(0, 1-perStep*over/step.Metres()), nil
}

// DerateByHeat is DerateBySteps for temperature: 1 - perStep (t - above)/step.
// One generator maker prints 0.03 per 5 K above 40 C; electric motors keep about
// 0.95 at 45 C and 0.90 at 50 C, 0.05 per 5 K above 40 C (a trade summary of IEC
// 60034-1 at mechanixcalc.com: 1 % per kelvin above 40 C, 1 % per 100 m above 1000 m).
//
// Errors: ErrDomain as DerateBySteps.
// Source: common practice; the generator figure was read in one manual.
func DerateByHeat(t, above units.Temperature, step units.TempDelta, perStep float64) (float64, error) {
	const fn = "pumpsizing.DerateByHeat"
	err := errors.Join(units.Within(fn, "t", t.Celsius(), -50, 80, "°C"), units.Within(fn, "above", above.Celsius(), -50, 80, "°C"),
		units.Positive(fn, "step", step.Kelvins(), "K"), units.Within(fn, "perStep", perStep, 0, 1, ""))
	if err != nil {
		return math.NaN(), err
	}
	over := math.Max(0, t.Sub(above).Kelvins())
	return math.Max(0, 1-perStep*over/step.Kelvins()), nil
}

func inRange(fn, field string, v, lo, hi float64, unit string) error {
	if v >= lo && v <= hi {
		return nil
	}
	return &units.InputError{Func: fn, Field: field, Value: v, Unit: unit, Min: lo, Max: hi, Kind: units.ErrRange}
}
