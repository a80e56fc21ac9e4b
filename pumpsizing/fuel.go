package pumpsizing

import (
	"errors"
	"math"
	"time"

	"pondwright.example/units"
)

// Fuels by volume, all from memory as typical values; lower heating values.
const (
	DieselHeatPerLitre = 35.95 * units.Megajoule // 42.8 MJ/kg at 0.84 kg/L
	PetrolHeatPerLitre = 32.0 * units.Megajoule
)

// TractorFuel returns the diesel a tractor burns at PTO load ratio x, the PTO
// power drawn over the rated PTO power, and engine speed ratio n, the engine
// speed over full-throttle speed:
//
//	q = (0.22 x + 0.096)(1 - (n - 1)(0.45 x - 0.877)) Prated   L/h, kW
//
// Validity: 0.2 <= x <= 1 and 0.6 <= n <= 1 (ErrRange outside, with the value:
// at x = 0 the idle burn is an extrapolation). The load must be within what the
// engine gives at the lower speed. With a fixed PTO ratio a lower n also slows
// the oil pump: never lower it for the fuel alone.
// Errors: ErrDomain for a negative load, a speed ratio that is not positive, or
// a rated power that is not positive.
// Source: ASABE D497.7; Grisso, Kocher and Vaughan (2004), Applied Engineering
// in Agriculture 20(5):553-561; the form (a x + b) P was read in Grisso,
// "Predicting diesel fuel consumption", the coefficients are from memory (of the
// paper of 2004 the abstract was read, which does not print them).
// Accuracy: some 10 % between tractors.
func TractorFuel(x, n float64, rated units.Power) (units.Flow, error) {
	const fn = "pumpsizing.TractorFuel"
	err := errors.Join(units.NonNegative(fn, "x", x, ""), units.Positive(fn, "n", n, ""), units.Positive(fn, "rated", rated.Watts(), "W"))
	if err != nil {
		return nan[units.Flow](), err
	}
	q := (0.22*x + 0.096) * (1 - (n-1)*(0.45*x-0.877)) * rated.In(units.Kilowatts)
	out, err := sound(fn, units.LitresPerHour.Of(q))
	return out, errors.Join(err, inRange(fn, "x", x, 0.2, 1, ""), inRange(fn, "n", n, 0.6, 1, ""))
}

// SpecificTractorFuel returns the diesel per energy at the PTO, in L/kWh, of the
// older, more cautious form at full throttle:
//
//	2.64 x + 3.91 - 0.203 sqrt(738 x + 173)
//
// Validity: 0.2 <= x <= 1 (ErrRange outside).
// Errors: ErrDomain for a load ratio that is not positive.
// Source: ASAE D497, long-standing form (from memory).
func SpecificTractorFuel(x float64) (float64, error) {
	const fn = "pumpsizing.SpecificTractorFuel"
	if err := units.Positive(fn, "x", x, ""); err != nil {
		return math.NaN(), err
	}
	out, err := sound(fn, 2.64*x+3.91-0.203*math.Sqrt(738*x+173))
	return out, errors.Join(err, inRange(fn, "x", x, 0.2, 1, ""))
}

// AverageTractorFuel returns the diesel of a year's mix of work, 0.223 L/h per
// kW of rated PTO power. It is wrong for one steady load.
//
// Errors: ErrDomain for a power that is not positive.
// Source: ASAE EP496, 6.3.2.1, as quoted by Grisso, "Predicting diesel fuel
// consumption".
func AverageTractorFuel(rated units.Power) (units.Flow, error) {
	if err := units.Positive("pumpsizing.AverageTractorFuel", "rated", rated.Watts(), "W"); err != nil {
		return nan[units.Flow](), err
	}
	return sound("pumpsizing.AverageTractorFuel", units.LitresPerHour.Of(0.223*rated.In(units.Kilowatts)))
}

// FuelEfficiency returns the share of the fuel's heat that becomes the given
// power: P/(q heat), with the lower heating value per litre.
//
// Errors: ErrDomain for a negative power, or a flow or heating value that is
// not positive.
// Source: energy balance.
func FuelEfficiency(p units.Power, fuel units.Flow, heatPerLitre units.Energy) (float64, error) {
	const fn = "pumpsizing.FuelEfficiency"
	err := errors.Join(units.NonNegative(fn, "p", p.Watts(), "W"), units.Positive(fn, "fuel", fuel.In(units.LitresPerHour), "L/h"),
		units.Positive(fn, "heatPerLitre", heatPerLitre.Joules(), "J"))
	if err != nil {
		return math.NaN(), err
	}
	return sound(fn, p.Watts()/(fuel.CubicMetresPerSecond()*1000*heatPerLitre.Joules()))
}

// FuelLine is the fuel use of a generator or engine as its manual prints it, at
// two loads; between and near them it is a straight line.
type FuelLine struct {
	Load1 units.Power `json:"load1"`
	Fuel1 units.Flow  `json:"fuel1"`
	Load2 units.Power `json:"load2"`
	Fuel2 units.Flow  `json:"fuel2"`
}

// At returns the fuel use at load p.
//
// Validity: from a quarter of the lower to the higher load (ErrRange outside).
// Do not run a diesel long below 30 % of its rating (common practice: unburnt
// fuel wets the exhaust).
// Errors: ErrDomain for loads that do not rise or fuel that falls, or a negative load.
// Source: straight line through the maker's two points.
func (l FuelLine) At(p units.Power) (units.Flow, error) {
	const fn = "pumpsizing.FuelLine.At"
	err := errors.Join(units.NonNegative(fn, "p", p.Watts(), "W"), units.Positive(fn, "load1", l.Load1.Watts(), "W"), units.Positive(fn, "fuel1", l.Fuel1.In(units.LitresPerHour), "L/h"))
	err = errors.Join(err, units.Finite(fn, "load2", l.Load2.Watts(), "W"), units.Finite(fn, "fuel2", l.Fuel2.In(units.LitresPerHour), "L/h"))
	if err == nil && !(l.Load2 > l.Load1 && l.Fuel2 >= l.Fuel1) {
		err = &units.InputError{Func: fn, Field: "load2", Value: l.Load2.Watts(), Unit: "W", Reason: "the second load must be larger and burn more"}
	}
	if err != nil {
		return nan[units.Flow](), err
	}
	s := (p - l.Load1).Watts() / (l.Load2 - l.Load1).Watts()
	q, err := sound(fn, l.Fuel1+units.Flow(s)*(l.Fuel2-l.Fuel1))
	return q, errors.Join(err, inRange(fn, "p", p.Watts(), l.Load1.Watts()/4, l.Load2.Watts(), "W"))
}

// Yardstick is what pumping plants of ordinary good order get out of a unit of
// fuel.
type Yardstick struct {
	Fuel    string       `json:"fuel"`
	PerUnit units.Energy `json:"perUnit"` // mechanical work from one unit
	Unit    string       `json:"unit"`
	Source  string       `json:"source"`
}

// Yardsticks returns published figures of the work at the pump's shaft that a
// unit of fuel gives. Field tests find three quarters of such figures.
//
// Source: Purdue University AE-111, table 1, in horsepower hours per US gallon
// or per kilowatt hour.
func Yardsticks() []Yardstick {
	const source = "Purdue University AE-111, table 1"
	hph := units.MechanicalHorsepower.Times(time.Hour)
	per := func(v float64) units.Energy { return units.Energy(v * hph.Joules()) }
	return []Yardstick{
		{"diesel", per(14.7), "US gal", source},
		{"petrol", per(11.3), "US gal", source},
		{"propane", per(8.92), "US gal", source},
		{"electricity", per(1.18), "kWh", source},
	}
}
