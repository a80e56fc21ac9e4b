package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// PTOShaft is a type of rear power take-off shaft with its standard speed and
// the power recommended as its limit there. It is data: replace the limits by
// those of the tractor's manual.
type PTOShaft struct {
	Name     string                `json:"name"`
	Diameter units.Length          `json:"diameter"`
	Splines  int                   `json:"splines"`
	Involute bool                  `json:"involute"` // else straight-sided
	Speed    units.RotationalSpeed `json:"speed"`
	Limit    units.Power           `json:"limit"` // at Speed
}

// PTOShafts returns the rear shafts of ISO 500-1:2014 table 1: types 1 at 540
// and at 1000 r/min, 2, 3 and 4. Types, speeds, diameters and splines were read
// in a summary of the table; the power limits are from memory and could not be
// confirmed: hold them against the standard before relying on them.
func PTOShafts() []PTOShaft {
	rpm := units.RevolutionsPerMinute.Of
	return []PTOShaft{
		{"type 1", 35 * units.Millimetre, 6, false, rpm(540), 60 * units.Kilowatt},
		{"type 1 at 1000", 35 * units.Millimetre, 6, false, rpm(1000), 92 * units.Kilowatt},
		{"type 2", 35 * units.Millimetre, 21, true, rpm(1000), 115 * units.Kilowatt},
		{"type 3", 45 * units.Millimetre, 20, true, rpm(1000), 275 * units.Kilowatt},
		{"type 4", 57.5 * units.Millimetre, 22, true, rpm(1300), 450 * units.Kilowatt},
	}
}

// TorqueLimit returns the torque of the power limit at the standard speed. The
// limit is one of torque: at a lower speed less power is allowed.
//
// Errors: ErrDomain for a speed or limit that is not positive.
// Source: T = P/omega; ISO 500-1 gives the power.
func (s PTOShaft) TorqueLimit() (units.Torque, error) {
	const fn = "pumpsizing.PTOShaft.TorqueLimit"
	err := errors.Join(units.Positive(fn, "speed", s.Speed.In(units.RevolutionsPerMinute), "r/min"), units.Positive(fn, "limit", s.Limit.Watts(), "W"))
	if err != nil {
		return nan[units.Torque](), err
	}
	return sound(fn, units.Torque(s.Limit.Watts()/s.Speed.RadiansPerSecond()))
}

// PTORatio returns the gear ratio between engine and PTO, engine speed over PTO
// speed, from the engine speed at which the PTO turns at its standard speed. It
// belongs to the tractor (economy gears turn 540 at a slower engine), so it is
// asked for, never assumed.
//
// Errors: ErrDomain for speeds that are not positive, or an engine slower than
// its PTO.
// Source: by definition.
func PTORatio(engine, pto units.RotationalSpeed) (float64, error) {
	const fn = "pumpsizing.PTORatio"
	e, p := engine.In(units.RevolutionsPerMinute), pto.In(units.RevolutionsPerMinute)
	err := errors.Join(units.Positive(fn, "engine", e, "r/min"), units.Positive(fn, "pto", p, "r/min"))
	if err == nil && e < p {
		err = &units.InputError{Func: fn, Field: "engine", Value: e, Unit: "r/min", Min: p, Max: math.Inf(1),
			Reason: "slower than the PTO: was the PTO speed entered as engine speed? An engine turns about 1600 to 2300 r/min at rated PTO speed"}
	}
	if err != nil {
		return math.NaN(), err
	}
	return sound(fn, e/p)
}

// PowerBasis says what a tractor's power figure is: [BasisNotStated],
// [EnginePower] or [PTOPower].
type PowerBasis uint8

const (
	// BasisNotStated: the lower reading is used and both are returned.
	BasisNotStated PowerBasis = iota
	// EnginePower is on the tractor's plate; the PTO has 80 to 90 % of it.
	EnginePower
	// PTOPower is measured at the PTO, as in a test report.
	PTOPower
)

var basisNames = []string{"not stated", "engine power", "PTO power"}

// String returns the basis in words.
func (b PowerBasis) String() string { return wordOf("PowerBasis", basisNames, uint8(b)) }

// MarshalText writes the word of String.
func (b PowerBasis) MarshalText() ([]byte, error) {
	return marshalWord("PowerBasis", basisNames, uint8(b))
}

// UnmarshalText reads a word of String.
func (b *PowerBasis) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("PowerBasis", basisNames, text)
	if err == nil {
		*b = PowerBasis(i)
	}
	return err
}

// usualPTOShare is the share of engine power that reaches the PTO when no test
// report tells (rule of thumb, read in trade texts; tests show 0.80 to 0.92).
const usualPTOShare = 0.86

// PTOFromEngine estimates the power at the PTO from the rated engine power,
// with the share that reaches it; a share of zero is 0.86. A figure measured
// at the PTO is better.
//
// Errors: ErrDomain for a power that is not positive or a share outside [0,1].
// Source: the 86 % rule, common practice; ASABE D497 gives 0.83 of gross and
// 0.90 of net flywheel power (from memory).
func PTOFromEngine(engine units.Power, share float64) (units.Power, error) {
	const fn = "pumpsizing.PTOFromEngine"
	if share == 0 {
		share = usualPTOShare
	}
	if err := errors.Join(units.Positive(fn, "engine", engine.Watts(), "W"), fraction(fn, "share", share)); err != nil {
		return nan[units.Power](), err
	}
	return sound(fn, engine*units.Power(share))
}
