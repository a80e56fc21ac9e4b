package drawdown

import (
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// Constituent is one harmonic constituent of a tide with its corrections for
// the year: amplitude H, phase lag G, speed, and at the tide's reference time
// the equilibrium argument V with the nodal factor f and angle u.
type Constituent struct {
	Name            string       `json:"name"`
	Amplitude       units.Length `json:"amplitude"`       // H
	PhaseLag        units.Angle  `json:"phaseLag"`        // G, for the zone of the equilibrium argument (Greenwich as a rule)
	DegreesPerHour  float64      `json:"degreesPerHour"`  // speed
	Equilibrium     units.Angle  `json:"equilibrium"`     // V at the reference time
	NodalFactor     float64      `json:"nodalFactor"`     // f; not zero
	NodalCorrection units.Angle  `json:"nodalCorrection"` // u
}

// HarmonicTide is a tide as the sum of its constituents,
//
//	z(t) = Mean + Sum f H cos(speed (t - Reference) + V + u - G),
//
// on the station's datum, whose zero lies ZeroAbovePond above the pond's; a
// missing offset is an error, never zero. Surge is added throughout.
//
// Validity: the nodal factor and angle are held constant, which is good for
// some months about the time they were computed for; weather and river flow are
// not in it. A short list of constituents (M2 S2 N2 K1 O1 P1 K2) leaves 5 to 10
// per cent of the range out (common practice, no source).
//
// Source: Schureman (1958), Manual of Harmonic Analysis and Prediction of
// Tides, Special Publication 98, U.S. Coast and Geodetic Survey, the prediction
// formula (from memory).
type HarmonicTide struct {
	Constituents  []Constituent `json:"constituents"`
	Mean          units.Length  `json:"mean"` // mean level above the station's datum
	Reference     time.Time     `json:"reference"`
	Datum         Datum         `json:"datum"`
	ZeroAbovePond *units.Length `json:"zeroAbovePond"`
	Surge         units.Length  `json:"surge,omitempty"`
}

// Validate reports every problem of the tide.
func (t *HarmonicTide) Validate() error {
	const fn = "drawdown.HarmonicTide"
	if t == nil {
		return noTide(fn)
	}
	all := checkOffset(fn, t.Datum, t.ZeroAbovePond, t.Surge)
	check := func(err error) {
		if err != nil {
			all = append(all, err)
		}
	}
	check(units.Finite(fn, "mean", float64(t.Mean), "m"))
	if t.Reference.IsZero() {
		all = append(all, &units.InputError{Func: fn, Field: "reference", Value: math.NaN(), Reason: "state the time the equilibrium arguments hold for"})
	}
	for i, c := range t.Constituents {
		p := fmt.Sprintf("constituents[%d].", i)
		check(units.NonNegative(fn, p+"amplitude", float64(c.Amplitude), "m"))
		check(units.Finite(fn, p+"phaseLag", float64(c.PhaseLag), "rad"))
		check(units.Within(fn, p+"degreesPerHour", c.DegreesPerHour, 0.01, 200, "deg/h"))
		check(units.Finite(fn, p+"equilibrium", float64(c.Equilibrium), "rad"))
		check(units.Within(fn, p+"nodalFactor", c.NodalFactor, 0.1, 3, ""))
		check(units.Finite(fn, p+"nodalCorrection", float64(c.NodalCorrection), "rad"))
	}
	return joinErrors(all)
}

// Level returns the tide above the pond's datum.
//
// Source: see [HarmonicTide].
func (t *HarmonicTide) Level(at time.Time) units.Length {
	if t == nil || t.ZeroAbovePond == nil {
		return 0
	}
	sum := float64(t.Mean + *t.ZeroAbovePond + t.Surge)
	hours := at.Sub(t.Reference).Hours()
	for _, c := range t.Constituents {
		sum += c.NodalFactor * float64(c.Amplitude) * math.Cos(c.DegreesPerHour*hours*(math.Pi/180)+c.argument())
	}
	return units.Length(sum)
}

// argument is the phase at the reference time, V + u - G.
func (c Constituent) argument() float64 {
	return float64(c.Equilibrium) + float64(c.NodalCorrection) - float64(c.PhaseLag)
}

func (t *HarmonicTide) curve(epoch time.Time) *tailCurve {
	p := tailPiece{kind: wavesPiece, mean: float64(t.Mean + *t.ZeroAbovePond + t.Surge)}
	since := epoch.Sub(t.Reference).Seconds()
	for _, c := range t.Constituents {
		if c.Amplitude == 0 {
			continue
		}
		omega := c.DegreesPerHour * (math.Pi / 180) / 3600
		p.waves = append(p.waves, wave{amplitude: c.NodalFactor * float64(c.Amplitude), omega: omega,
			phase: math.Mod(omega*since+c.argument(), 2*math.Pi)})
	}
	switch len(p.waves) {
	case 0:
		p.kind = constantPiece
	case 1: // one wave has its turnings in closed form
		w := p.waves[0]
		p.kind, p.waves = cosinePiece, nil
		p.amplitude, p.omega, p.wave = w.amplitude, w.omega, w.phase
	}
	return &tailCurve{pieces: []tailPiece{p}, begin: math.Inf(-1), end: math.Inf(1)}
}
