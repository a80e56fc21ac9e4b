package pumpsizing

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// MotorClass is an efficiency class of IEC 60034-30-1 for 50 Hz motors: [IE2],
// [IE3] or [IE4].
type MotorClass uint8

// Efficiency classes.
const (
	IE2 MotorClass = 2
	IE3 MotorClass = 3
	IE4 MotorClass = 4
)

// String returns "IE2", "IE3" or "IE4".
func (c MotorClass) String() string { return fmt.Sprintf("IE%d", uint8(c)) }

// MarshalText writes "IE2", "IE3" or "IE4".
func (c MotorClass) MarshalText() ([]byte, error) {
	if c < IE2 || c > IE4 {
		return nil, fmt.Errorf("pumpsizing.MotorClass: %d is not IE2, IE3 or IE4", uint8(c))
	}
	return []byte(c.String()), nil
}

// UnmarshalText reads "IE2", "IE3" or "IE4".
func (c *MotorClass) UnmarshalText(text []byte) error {
	for k := IE2; k <= IE4; k++ {
		if k.String() == string(text) {
			*c = k
			return nil
		}
	}
	return fmt.Errorf("pumpsizing.MotorClass: %q is not IE2, IE3 or IE4", text)
}

// motorClassCoefficients holds A, B, C, D for 2, 4, 6 and 8 poles.
var motorClassCoefficients = map[MotorClass][4][4]float64{
	IE2: {{0.2972, -3.3454, 13.0651, 79.077}, {0.0278, -1.9247, 10.4395, 80.9761}, {0.0148, -2.4978, 13.247, 77.5603}, {2.1311, -12.029, 26.719, 69.735}},
	IE3: {{0.3569, -3.3076, 11.6108, 82.2503}, {0.0773, -1.8951, 9.2984, 83.7025}, {0.1252, -2.613, 11.9963, 80.4769}, {0.7189, -5.1678, 15.705, 77.074}},
	IE4: {{0.34, -3.0479, 10.293, 84.8208}, {0.2412, -2.3608, 8.446, 86.8321}, {0.3598, -3.2107, 10.7933, 84.107}, {0.6556, -4.7229, 13.977, 80.247}},
}

// MotorEfficiency returns the full-load efficiency a 50 Hz motor of the class
// must reach, as a fraction:
//
//	e/% = A x^3 + B x^2 + C x + D,   x = log10(P/kW)
//
// The standard's table is this value rounded to 0.1 %.
//
// Validity: 0.75 to 200 kW (ErrRange outside, to 0.1 and 400 kW).
// Errors: ErrDomain for a class or number of poles not in the table, or a power
// outside 0.1 to 400 kW. 60 Hz classes differ: see NEMAPremiumEfficiency.
// Source: IEC 60034-30-1; coefficients of IE2 to IE4 as in Regulation (EU)
// 2019/1781 and UK SI 2021/745 schedule 16.
func MotorEfficiency(class MotorClass, poles int, power units.Power) (float64, error) {
	const fn = "pumpsizing.MotorEfficiency"
	kw := power.In(units.Kilowatts)
	err := units.Within(fn, "power", kw, 0.1, 400, "kW")
	table, ok := motorClassCoefficients[class]
	if !ok {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "class", Value: float64(class), Min: 2, Max: 4, Reason: "IE2, IE3 or IE4"})
	}
	if poles != 2 && poles != 4 && poles != 6 && poles != 8 {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "poles", Value: float64(poles), Min: 2, Max: 8, Reason: "2, 4, 6 or 8"})
	}
	if err != nil {
		return math.NaN(), err
	}
	c, x := table[poles/2-1], math.Log10(kw)
	return (((c[0]*x+c[1])*x+c[2])*x + c[3]) / 100, inRange(fn, "power", kw, 0.75, 200, "kW")
}

// nemaPremium4 are the nominal full-load efficiencies of four-pole 60 Hz NEMA
// premium motors, in percent.
var nemaPremium4 = []struct{ hp, enclosed, open float64 }{
	{1, 85.5, 85.5}, {1.5, 86.5, 86.5}, {2, 86.5, 86.5}, {3, 89.5, 89.5}, {5, 89.5, 89.5}, {7.5, 91.7, 91.0},
	{10, 91.7, 91.7}, {15, 92.4, 93.0}, {20, 93.0, 93.0}, {25, 93.6, 93.6}, {30, 93.6, 94.1},
}

// NEMAPremiumEfficiency returns the nominal full-load efficiency of a four-pole
// 60 Hz premium motor of a listed size, as a fraction.
//
// Errors: ErrDomain for a rating that is not one of 1, 1.5, 2, 3, 5, 7.5, 10,
// 15, 20, 25 and 30 hp; see NextMotorSize.
// Source: US Federal Register, document C1-2013-28776, table I.5.
func NEMAPremiumEfficiency(rating units.Power, enclosed bool) (float64, error) {
	hp := rating.In(units.MechanicalHorsepowers)
	for _, r := range nemaPremium4 {
		if math.Abs(hp-r.hp) < 1e-6*r.hp {
			if enclosed {
				return r.enclosed / 100, nil
			}
			return r.open / 100, nil
		}
	}
	return math.NaN(), &units.InputError{Func: "pumpsizing.NEMAPremiumEfficiency", Field: "rating", Value: hp, Unit: "hp", Min: 1, Max: 30,
		Reason: "not a listed rating: 1, 1.5, 2, 3, 5, 7.5, 10, 15, 20, 25, 30 hp"}
}

// nemaSizes is the ladder of motor ratings in hp.
var nemaSizes = []float64{0.25, 1.0 / 3, 0.5, 0.75, 1, 1.5, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200, 250, 300, 350, 400, 450, 500}

// iecSizes is the ladder of motor ratings in kW.
var iecSizes = []float64{0.12, 0.18, 0.25, 0.37, 0.55, 0.75, 1.1, 1.5, 2.2, 3, 4, 5.5, 7.5, 11, 15, 18.5, 22, 30, 37, 45, 55, 75, 90, 110, 132, 160, 200, 250, 315}

// Ladder is a series of standard motor ratings: [LadderIEC] or [LadderNEMA].
type Ladder uint8

// Series of ratings.
const (
	LadderIEC  Ladder = iota // IEC 60072-1, kW
	LadderNEMA               // NEMA MG 1, hp
)

// NextMotorSize returns the smallest standard rating that carries the power,
// derating already counted.
//
// Errors: ErrDomain for a power that is not positive; ErrNoSolution above the
// ladder.
// Source: IEC 60072-1 and NEMA MG 1 preferred ratings (from memory).
func NextMotorSize(power units.Power, ladder Ladder) (units.Power, error) {
	const fn = "pumpsizing.NextMotorSize"
	if err := units.Positive(fn, "power", power.Watts(), "W"); err != nil {
		return nan[units.Power](), err
	}
	sizes, unit := iecSizes, units.Kilowatts
	if ladder == LadderNEMA {
		sizes, unit = nemaSizes, units.MechanicalHorsepowers
	}
	for _, s := range sizes {
		if p := unit.Of(s); p.Watts() >= power.Watts()*(1-1e-9) {
			return p, nil
		}
	}
	return nan[units.Power](), &units.InputError{Func: fn, Field: "power", Value: power.In(units.Kilowatts), Unit: "kW", Min: 0, Max: unit.Of(sizes[len(sizes)-1]).In(units.Kilowatts),
		Reason: "above the largest standard rating", Kind: units.ErrNoSolution}
}

// MotorSpeed returns the speed of an induction motor: 60 f/(pole pairs) r/min
// less the slip, a fraction of 0.02 to 0.04 at full load (common practice).
//
// Errors: ErrDomain for a frequency that is not positive, an odd or small
// number of poles, or a slip outside 0 to 0.2.
// Source: by definition of slip.
func MotorSpeed(f units.Frequency, poles int, slip float64) (units.RotationalSpeed, error) {
	const fn = "pumpsizing.MotorSpeed"
	err := errors.Join(units.Within(fn, "f", f.Hertzes(), 1e-9, 400, "Hz"), units.Within(fn, "slip", slip, 0, 0.2, ""))
	if poles < 2 || poles%2 != 0 || poles > 48 {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "poles", Value: float64(poles), Min: 2, Max: 48, Reason: "an even number"})
	}
	if err != nil {
		return nan[units.RotationalSpeed](), err
	}
	return sound(fn, units.RevolutionsPerMinute.Of(120*f.Hertzes()/float64(poles)*(1-slip)))
}
