package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// sqrt3 relates phase and line quantities of three-phase supplies.
const sqrt3 = 1.7320508075688772

// ElectricLoad is an electric motor at work on a three-phase supply.
type ElectricLoad struct {
	Shaft       units.Power             `json:"shaft"`       // at the motor's shaft
	Voltage     units.ElectricPotential `json:"voltage"`     // line to line
	Efficiency  float64                 `json:"efficiency"`  // of the motor at this load
	PowerFactor float64                 `json:"powerFactor"` // 0.80 to 0.88 at full load, 0.5 to 0.6 at a quarter (common practice)
}

func (l ElectricLoad) check(fn string) error {
	return errors.Join(units.NonNegative(fn, "shaft", l.Shaft.Watts(), "W"), units.Within(fn, "voltage", l.Voltage.Volts(), 50, 1000, "V"),
		fraction(fn, "efficiency", l.Efficiency), fraction(fn, "powerFactor", l.PowerFactor))
}

// Input returns the electric power taken, P/efficiency.
//
// Errors: ErrDomain for data that cannot be.
// Source: by definition of efficiency.
func (l ElectricLoad) Input() (units.Power, error) {
	if err := l.check("pumpsizing.ElectricLoad.Input"); err != nil {
		return nan[units.Power](), err
	}
	return sound("pumpsizing.ElectricLoad.Input", l.Shaft/units.Power(l.Efficiency))
}

// Current returns the line current: I = P/(sqrt3 U efficiency pf).
//
// Errors: ErrDomain for data that cannot be.
// Source: by definition of three-phase power.
func (l ElectricLoad) Current() (units.Current, error) {
	if err := l.check("pumpsizing.ElectricLoad.Current"); err != nil {
		return nan[units.Current](), err
	}
	return sound("pumpsizing.ElectricLoad.Current", units.Current(l.Shaft.Watts()/(sqrt3*l.Voltage.Volts()*l.Efficiency*l.PowerFactor)))
}

// Apparent returns the apparent power taken, P/(efficiency pf).
//
// Errors: ErrDomain for data that cannot be.
// Source: by definition of the power factor.
func (l ElectricLoad) Apparent() (units.ApparentPower, error) {
	if err := l.check("pumpsizing.ElectricLoad.Apparent"); err != nil {
		return nan[units.ApparentPower](), err
	}
	return sound("pumpsizing.ElectricLoad.Apparent", units.ApparentPower(l.Shaft.Watts()/(l.Efficiency*l.PowerFactor)))
}

// Starting names how a motor is started: [DirectOnLine], [StarDelta],
// [SoftStart] or [VariableSpeed].
type Starting uint8

// Ways of starting, with the current as a multiple of full-load current (common
// practice): 7 (6 to 8, IE3 and IE4 to 9), a third of that in star, 3.5, 1.25.
const (
	DirectOnLine Starting = iota
	StarDelta
	SoftStart
	VariableSpeed
)

var startingNames = []string{"direct on line", "star-delta", "soft start", "variable speed"}

// String returns the way of starting in words.
func (s Starting) String() string { return wordOf("Starting", startingNames, uint8(s)) }

// MarshalText writes the word of String.
func (s Starting) MarshalText() ([]byte, error) {
	return marshalWord("Starting", startingNames, uint8(s))
}

// UnmarshalText reads a word of String.
func (s *Starting) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Starting", startingNames, text)
	if err == nil {
		*s = Starting(i)
	}
	return err
}

// Factor returns the starting current as a multiple of full-load current: 7 on
// line, 7/3 in star, 3.5 by soft starter, 1.25 by frequency converter.
//
// Source: common practice; the maker's figure comes first.
func (s Starting) Factor() float64 {
	return [...]float64{7, 7.0 / 3, 3.5, 1.25, 7}[min(s, VariableSpeed+1)]
}

// StartApparent returns the apparent power drawn while starting, a multiple of
// that of running; a factor of zero takes that of the way of starting.
//
// Errors: ErrDomain for data that cannot be or a factor below one or above 15.
// Source: common practice.
func (l ElectricLoad) StartApparent(s Starting, factor float64) (units.ApparentPower, error) {
	const fn = "pumpsizing.ElectricLoad.StartApparent"
	if factor == 0 {
		factor = s.Factor()
	}
	run, err := l.Apparent()
	if err = errors.Join(err, units.Within(fn, "factor", factor, 1, 15, "")); err != nil {
		return nan[units.ApparentPower](), err
	}
	return sound(fn, run*units.ApparentPower(factor))
}

// StartCurrent returns the line current while starting.
//
// Errors and source as [ElectricLoad.StartApparent].
func (l ElectricLoad) StartCurrent(s Starting, factor float64) (units.Current, error) {
	va, err := l.StartApparent(s, factor)
	if err != nil {
		return nan[units.Current](), err
	}
	return sound("pumpsizing.ElectricLoad.StartCurrent", units.Current(va.VoltAmperes()/(sqrt3*l.Voltage.Volts())))
}

// altitudeBands is the share of rating an electric motor keeps above 1000 m.
var altitudeBands = []struct{ top, keeps float64 }{{1005.84, 1}, {1524, 0.97}, {2011.68, 0.94}, {2529.84, 0.90}, {3017.52, 0.86}, {3505.2, 0.82}}

// MotorAltitudeShare returns the share of its rating that an electric motor
// keeps at an altitude, by the steps of a published table: 1 to 1000 m, 0.97 to
// 5000 ft, 0.94 to 6600 ft, 0.90 to 8300 ft, 0.86 to 9900 ft, 0.82 to 11500 ft.
// DerateBySteps with 1 % per 100 m above 1000 m is the other rule in use.
//
// Errors: ErrDomain outside -500 to 3505 m.
// Source: altitude table of a drives maker's published notes, vsdrive.com,
// "Derating motor capacity base on altitude".
func MotorAltitudeShare(altitude units.Length) (float64, error) {
	z := altitude.Metres()
	if err := units.Within("pumpsizing.MotorAltitudeShare", "altitude", z, -500, 3505.2, "m"); err != nil {
		return math.NaN(), err
	}
	for _, b := range altitudeBands {
		if z <= b.top {
			return b.keeps, nil
		}
	}
	return altitudeBands[len(altitudeBands)-1].keeps, nil
}
