package pumpsizing

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// Conductor is the material and make of a cable's cores: [CopperSolid],
// [CopperFlexible] or [Aluminium].
type Conductor uint8

// Conductors of IEC 60228.
const (
	CopperSolid    Conductor = iota // classes 1 and 2, plain copper
	CopperFlexible                  // class 5
	Aluminium                       // classes 1 and 2
)

var conductorNames = []string{"copper", "flexible copper", "aluminium"}

// String returns the conductor in words.
func (c Conductor) String() string { return wordOf("Conductor", conductorNames, uint8(c)) }

// MarshalText writes the word of String.
func (c Conductor) MarshalText() ([]byte, error) {
	return marshalWord("Conductor", conductorNames, uint8(c))
}

// UnmarshalText reads a word of String.
func (c *Conductor) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Conductor", conductorNames, text)
	if err == nil {
		*c = Conductor(i)
	}
	return err
}

// conductorResistance is the highest resistance at 20 C in ohm/km by section in
// mm2.
var conductorResistance = map[Conductor]map[float64]float64{
	CopperSolid:    {1.5: 12.1, 2.5: 7.41, 4: 4.61, 6: 3.08, 10: 1.83, 16: 1.15, 25: 0.727, 35: 0.524, 50: 0.387},
	CopperFlexible: {2.5: 7.98, 4: 4.95, 6: 3.3, 10: 1.91, 16: 1.21, 25: 0.78},
	Aluminium:      {16: 1.91, 25: 1.2, 35: 0.868, 50: 0.641},
}

// Resistance of a metal rises by this share of its value at 20 C per kelvin.
const copperRise, aluminiumRise = 0.00393, 0.00403

// usualReactance of a low-voltage cable (common practice).
const usualReactance = 0.08e-3 // ohm/m

// ConductorResistance returns the highest resistance per length of a core of
// the given section at 20 C.
//
// Errors: ErrDomain for a section that is not in the table.
// Source: IEC 60228, tables of classes 1, 2 and 5.
func ConductorResistance(c Conductor, section units.Area) (units.ResistancePerLength, error) {
	mm2 := section.In(units.SquareMillimetres)
	for s, r := range conductorResistance[c] {
		if math.Abs(mm2-s) < 1e-6*s {
			return units.OhmsPerKilometre.Of(r), nil
		}
	}
	return nan[units.ResistancePerLength](), &units.InputError{Func: "pumpsizing.ConductorResistance", Field: "section", Value: mm2, Unit: "mm2", Min: 1.5, Max: 50,
		Reason: fmt.Sprintf("no standard section of %v in the table (1.5, 2.5, 4, 6, 10, 16, 25, 35, 50 mm2)", c)}
}

// WarmResistance returns the resistance per length at a conductor temperature
// from that at 20 C: R = R20 (1 + a (T - 20)), a = 0.00393 1/K for copper,
// 0.00403 for aluminium.
//
// Errors: ErrDomain for a resistance that is not positive or a temperature
// outside -40 to 250 C.
// Source: linear law of resistance; coefficients of IEC 60287-1-1 ed. 2.1 as
// quoted by cableizer.com, "Temperature coefficient of enclosure material".
func WarmResistance(r20 units.ResistancePerLength, c Conductor, t units.Temperature) (units.ResistancePerLength, error) {
	const fn = "pumpsizing.WarmResistance"
	err := errors.Join(units.Positive(fn, "r20", r20.OhmsPerMetre(), "ohm/m"), units.Within(fn, "t", t.Celsius(), -40, 250, "°C"))
	if err != nil {
		return nan[units.ResistancePerLength](), err
	}
	a := copperRise
	if c == Aluminium {
		a = aluminiumRise
	}
	return sound(fn, r20*units.ResistancePerLength(1+a*(t.Celsius()-20)))
}

// Cable is a run of cable from supply to motor.
type Cable struct {
	Conductor   Conductor                 `json:"conductor"`
	Section     units.Area                `json:"section"`
	Length      units.Length              `json:"length"`             // one way
	Temperature units.Temperature         `json:"temperature"`        // of the conductor; 70 C loaded
	Reactance   units.ResistancePerLength `json:"reactance,omitzero"` // zero: 0.08 ohm/km
}

// Validate reports every problem of the data.
func (c Cable) Validate() error {
	_, _, err := c.impedance("pumpsizing.Cable")
	return err
}

// impedance is resistance and reactance of the run in ohm.
func (c Cable) impedance(fn string) (r, x float64, err error) {
	r20, rerr := ConductorResistance(c.Conductor, c.Section)
	err = errors.Join(rerr, units.NonNegative(fn, "length", c.Length.Metres(), "m"),
		units.Within(fn, "temperature", c.Temperature.Celsius(), -40, 250, "°C"), units.NonNegative(fn, "reactance", c.Reactance.OhmsPerMetre(), "ohm/m"))
	if err != nil {
		return 0, 0, err
	}
	warm, err := WarmResistance(r20, c.Conductor, c.Temperature)
	per := c.Reactance.OhmsPerMetre()
	if per == 0 {
		per = usualReactance
	}
	return warm.OhmsPerMetre() * c.Length.Metres(), per * c.Length.Metres(), err
}

func (c Cable) drop(fn string, i units.Current, pf, factor float64) (units.ElectricPotential, error) {
	r, x, err := c.impedance(fn)
	err = errors.Join(err, units.NonNegative(fn, "i", i.Amperes(), "A"), fraction(fn, "pf", pf))
	if err != nil {
		return nan[units.ElectricPotential](), err
	}
	return sound(fn, units.ElectricPotential(factor*i.Amperes()*(r*pf+x*math.Sqrt(1-pf*pf))))
}

// ThreePhaseDrop returns the voltage lost between lines:
//
//	dU = sqrt3 I (R cos phi + X sin phi)
//
// with the length counted one way. The informative limits of the standard, lighting
// apart, are 5 % from a public supply and 8 % from a private one, more while a
// motor starts; 10 to 15 % starting is common practice.
//
// Errors: ErrDomain for cable data that cannot be, a negative current or a
// power factor outside (0,1].
// Source: IEC 60364-5-52:2009 annex G and table G.52.1.
func (c Cable) ThreePhaseDrop(i units.Current, pf float64) (units.ElectricPotential, error) {
	return c.drop("pumpsizing.Cable.ThreePhaseDrop", i, pf, sqrt3)
}

// SinglePhaseDrop returns the voltage lost there and back:
// dU = 2 I (R cos phi + X sin phi), with the length counted one way.
//
// Errors and source as [Cable.ThreePhaseDrop].
func (c Cable) SinglePhaseDrop(i units.Current, pf float64) (units.ElectricPotential, error) {
	return c.drop("pumpsizing.Cable.SinglePhaseDrop", i, pf, 2)
}

// Loss returns the heat made in a three-phase cable, 3 I^2 R.
//
// Errors: ErrDomain for cable data that cannot be or a negative current.
// Source: Joule's law.
func (c Cable) Loss(i units.Current) (units.Power, error) {
	const fn = "pumpsizing.Cable.Loss"
	r, _, err := c.impedance(fn)
	if err = errors.Join(err, units.NonNegative(fn, "i", i.Amperes(), "A")); err != nil {
		return nan[units.Power](), err
	}
	return sound(fn, units.Power(3*i.Amperes()*i.Amperes()*r))
}
