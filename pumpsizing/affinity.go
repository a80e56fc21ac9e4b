package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Duty is a point of a pump's operation: flow, head and shaft power at a speed.
type Duty struct {
	Flow  units.Flow            `json:"flow"`
	Head  units.Length          `json:"head"`
	Power units.Power           `json:"power"` // zero when not known
	Speed units.RotationalSpeed `json:"speed"`
}

// Affinity carries a duty to another speed of the same pump:
//
//	Q2/Q1 = n2/n1,  H2/H1 = (n2/n1)^2,  P2/P1 = (n2/n1)^3
//
// The point moves along H = const Q^2, not along the system curve: with a
// static lift the flow falls faster than the speed and the power saving is much
// smaller than the cube.
//
// Validity: equal efficiency, 0.5 <= n2/n1 <= 2; outside it the duty is still
// returned, with ErrRange.
// Errors: ErrDomain for speeds that are not positive or a negative flow, head
// or power.
// Source: similarity of turbomachines, any fluid mechanics text.
func Affinity(d Duty, to units.RotationalSpeed) (Duty, error) {
	return SimilarDuty(d, to, 1)
}

// SimilarDuty carries a duty to another speed and to a geometrically similar
// pump whose diameters are larger by the factor size:
//
//	Q ~ n D^3,  H ~ n^2 D^2,  P ~ n^3 D^5
//
// A trimmed impeller is not similar: see TrimmedDuty.
//
// Validity and errors as Affinity; ErrDomain for a size that is not positive.
// Source: similarity of turbomachines, any fluid mechanics text.
func SimilarDuty(d Duty, to units.RotationalSpeed, size float64) (Duty, error) {
	const fn = "pumpsizing.SimilarDuty"
	err := errors.Join(d.check(fn),
		units.Positive(fn, "to", to.In(units.RevolutionsPerMinute), "r/min"),
		units.Positive(fn, "size", size, ""))
	if err != nil {
		return Duty{}, err
	}
	r := to.RadiansPerSecond() / d.Speed.RadiansPerSecond()
	r2, s2 := r*r, size*size
	out := Duty{
		Flow:  d.Flow * units.Flow(r*s2*size),
		Head:  d.Head * units.Length(r2*s2),
		Power: d.Power * units.Power(r2*r*s2*s2*size),
		Speed: to,
	}
	if err := soundAll(fn, out.Flow.CubicMetresPerSecond(), out.Head.Metres(), out.Power.Watts()); err != nil {
		return Duty{}, err
	}
	return out, speedRatioRange(fn, r)
}

func (d Duty) check(fn string) error {
	return errors.Join(
		units.Positive(fn, "speed", d.Speed.In(units.RevolutionsPerMinute), "r/min"),
		units.NonNegative(fn, "flow", d.Flow.In(units.CubicMetresPerHour), "m3/h"),
		units.NonNegative(fn, "head", d.Head.Metres(), "m"),
		units.NonNegative(fn, "power", d.Power.Watts(), "W"))
}

// Half to double speed: below, bearing and seal losses no longer scale.
const lowSpeedRatio, highSpeedRatio = 0.5, 2

func speedRatioRange(fn string, r float64) error {
	if r >= lowSpeedRatio && r <= highSpeedRatio {
		return nil
	}
	return &units.InputError{Func: fn, Field: "speed ratio", Value: r, Min: lowSpeedRatio, Max: highSpeedRatio,
		Reason: "the affinity laws are trusted from half to double speed", Kind: units.ErrRange}
}

// StepUp names a rule by which a pump's efficiency changes with size and speed.
// None of them is a standard for pumps; the Hydraulic Institute publishes
// charts instead. It is [Moody1942], [MoodyHead], [Ackeret1948] or
// [SarbuBorza1998].
type StepUp uint8

const (
	// Moody1942: (1-e2)/(1-e1) = (D1/D2)^0.2, from turbines (from memory).
	Moody1942 StepUp = iota
	// MoodyHead: losses ~ D^-0.25 H^-0.1, the form discussed in Proc. IMechE
	// 157 (1947), which calls it a rule for turbines.
	MoodyHead
	// Ackeret1948: (1-e2)/(1-e1) = 0.5 (1 + (Re1/Re2)^0.2), Re ~ n D^2 (from
	// memory, as given by Muehlemann).
	Ackeret1948
	// SarbuBorza1998: e2 = 1 - (1-e1)(n1/n2)^0.1, speed only (from memory).
	SarbuBorza1998
)

// SteppedEfficiency returns the efficiency of a similar pump whose diameter is
// larger by the factor size and whose speed by the factor speed, from the
// efficiency of the model, by the given rule.
//
// Validity: half to double speed (ErrRange outside); animal pumps with wide
// clearances start at 0.35 to 0.65 and the rules were made for better pumps.
// Errors: ErrDomain for an efficiency outside (0,1], factors that are not
// positive, an unknown rule.
// Source: see the constants of StepUp.
func SteppedEfficiency(efficiency, size, speed float64, rule StepUp) (float64, error) {
	const fn = "pumpsizing.SteppedEfficiency"
	err := errors.Join(fraction(fn, "efficiency", efficiency), units.Positive(fn, "size", size, ""), units.Positive(fn, "speed", speed, ""))
	if rule > SarbuBorza1998 {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "rule", Value: float64(rule), Reason: "not a rule of this package"})
	}
	if err != nil {
		return math.NaN(), err
	}
	var loss float64 // share of the model's loss that remains
	switch rule {
	case Moody1942:
		loss = math.Pow(size, -0.2)
	case MoodyHead:
		loss = math.Pow(size, -0.25) * math.Pow(speed*size, -0.2) // H ~ (nD)^2, to the power -0.1
	case Ackeret1948:
		loss = 0.5 * (1 + math.Pow(speed*size*size, -0.2))
	case SarbuBorza1998:
		loss = math.Pow(speed, -0.1)
	}
	out, err := sound(fn, 1-(1-efficiency)*loss)
	return out, errors.Join(err, speedRatioRange(fn, speed))
}

// EfficiencyAnderson1980 estimates the best efficiency a pump of good ordinary
// design reaches at its flow q, speed n and US specific speed ns:
//
//	e = 0.94 - 0.08955 (Q/N)^-0.21333 - 0.29 (log10(2286/Ns))^2
//
// with Q in US gal/min, N in r/min and Ns in r/min, US gal/min, ft. It is a
// yardstick for what clearances for animals cost, not a forecast.
//
// Validity: 500 <= Ns <= 10000 (ErrRange outside).
// Errors: ErrDomain for inputs that are not positive.
// Source: Anderson (1980), in Pump Handbook (formula from memory).
func EfficiencyAnderson1980(q units.Flow, n units.RotationalSpeed, ns float64) (float64, error) {
	const fn = "pumpsizing.EfficiencyAnderson1980"
	gpm, rpm := q.In(units.USGallonsPerMinute), n.In(units.RevolutionsPerMinute)
	err := errors.Join(units.Positive(fn, "q", gpm, "US gal/min"), units.Positive(fn, "n", rpm, "r/min"), units.Positive(fn, "ns", ns, ""))
	if err != nil {
		return math.NaN(), err
	}
	l := math.Log10(2286 / ns)
	e, err := sound(fn, 0.94-0.08955*math.Pow(gpm/rpm, -0.21333)-0.29*l*l)
	if err != nil {
		return e, err
	}
	if !(ns >= 500 && ns <= 10000) {
		return e, &units.InputError{Func: fn, Field: "ns", Value: ns, Min: 500, Max: 10000, Kind: units.ErrRange}
	}
	return e, nil
}
