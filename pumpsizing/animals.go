package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Cited is a limit with where it comes from. Limits are the user's data: what
// this package offers as defaults is a start for people who have none.
type Cited struct {
	Value      float64 `json:"value"`
	Source     string  `json:"source"`
	FromMemory bool    `json:"fromMemory,omitzero"` // the source was not at hand when this was written
}

// AnimalLimits are the limits for animals in a pump and its hose, for one kind
// of animal. A limit with a Value of zero is not checked.
type AnimalLimits struct {
	Kind         string `json:"kind"`         // of animal, in the user's words
	LowVelocity  Cited  `json:"lowVelocity"`  // m/s in the hose: slower, animals settle or swim
	HighVelocity Cited  `json:"highVelocity"` // m/s in the hose
	TipSpeed     Cited  `json:"tipSpeed"`     // m/s at the impeller's outer edge
	Solids       Cited  `json:"solids"`       // animals as a fraction of the mass pumped
	Passage      Cited  `json:"passage"`      // free passage over body height
}

// DefaultAnimalLimits returns limits for animals of unknown kind: the hose at
// 0.8 to 3 m/s, 12.2 m/s at the impeller's edge, 12 % animals by mass, and a
// free passage of 1.3 body heights. They are not safe limits for any species.
func DefaultAnimalLimits() AnimalLimits {
	return AnimalLimits{
		Kind:         "not stated",
		LowVelocity:  Cited{Value: 0.8, Source: commonPractice},
		HighVelocity: Cited{Value: 3, Source: commonPractice},
		TipSpeed:     Cited{Value: 12.192, Source: "Cook et al. (1997), design criterion for fish in turbines, 40 ft/s (20 ft/s preferred)", FromMemory: true},
		Solids:       Cited{Value: 0.12, Source: commonPractice},
		Passage:      Cited{Value: 1.3, Source: commonPractice},
	}
}

// AnimalDuty is what the animals meet.
type AnimalDuty struct {
	Flow        units.Flow            `json:"flow"`
	Hose        units.Length          `json:"hose"`                 // bore
	Speed       units.RotationalSpeed `json:"speed"`                // of the impeller
	Impeller    units.Length          `json:"impeller,omitzero"`    // diameter; zero: tip speed not checked
	FreePassage units.Length          `json:"freePassage,omitzero"` // largest ball through the pump; zero: not checked
	BodyHeight  units.Length          `json:"bodyHeight,omitzero"`  // of the animals; zero: not checked
	Solids      float64               `json:"solids,omitzero"`      // mass fraction of animals; zero: not checked
}

// Verdict is the outcome of one screening, never a forecast of survival:
// [NoData], [VerdictOK], [VerdictClose] or [VerdictBeyond].
type Verdict uint8

// Verdicts. NoData says that nothing is known, which is not the same as OK.
const (
	NoData        Verdict = iota
	VerdictOK             // inside the limit
	VerdictClose          // within 10 % of the limit
	VerdictBeyond         // past the limit
)

var verdictNames = []string{"no data", "ok", "close", "beyond"}

// String returns the verdict in words.
func (v Verdict) String() string { return wordOf("Verdict", verdictNames, uint8(v)) }

// MarshalText writes the word of String.
func (v Verdict) MarshalText() ([]byte, error) { return marshalWord("Verdict", verdictNames, uint8(v)) }

// UnmarshalText reads a word of String.
func (v *Verdict) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Verdict", verdictNames, text)
	if err == nil {
		*v = Verdict(i)
	}
	return err
}

// AnimalFlag is one screening with its margin.
type AnimalFlag struct {
	What    string  `json:"what"`
	Value   float64 `json:"value"`
	Limit   float64 `json:"limit"`
	Unit    string  `json:"unit,omitzero"`
	Margin  float64 `json:"margin"` // share of the limit left; negative beyond it
	Verdict Verdict `json:"verdict"`
	Source  string  `json:"source"`
}

// AnimalScreen is the outcome of all screenings.
type AnimalScreen struct {
	HoseVelocity units.Velocity `json:"hoseVelocity"`
	TipSpeed     units.Velocity `json:"tipSpeed"` // zero when the impeller is not known
	Flags        []AnimalFlag   `json:"flags"`
	Notices      []units.Notice `json:"notices,omitempty"`
}

// ScreenAnimals holds a duty against limits. Nothing published tells what a
// pump does to penaeid shrimp; for finfish, strike at the blade's edge,
// pressure and crowding matter beside these numbers (see Strike,
// PressureRatio).
//
// Errors: ErrDomain for a flow, bore or speed that is not positive, negative
// sizes or limits, or a mass fraction outside 0 to 1. A limit of zero is not known.
func ScreenAnimals(d AnimalDuty, l AnimalLimits) (AnimalScreen, error) {
	const fn = "pumpsizing.ScreenAnimals"
	err := errors.Join(
		units.Positive(fn, "flow", d.Flow.In(units.CubicMetresPerHour), "m3/h"),
		units.Positive(fn, "hose", d.Hose.Metres(), "m"),
		units.Positive(fn, "speed", d.Speed.In(units.RevolutionsPerMinute), "r/min"),
		units.NonNegative(fn, "impeller", d.Impeller.Metres(), "m"),
		units.NonNegative(fn, "freePassage", d.FreePassage.Metres(), "m"),
		units.NonNegative(fn, "bodyHeight", d.BodyHeight.Metres(), "m"),
		units.Within(fn, "solids", d.Solids, 0, 1, ""),
		units.NonNegative(fn, "limits.lowVelocity", l.LowVelocity.Value, "m/s"),
		units.NonNegative(fn, "limits.highVelocity", l.HighVelocity.Value, "m/s"),
		units.NonNegative(fn, "limits.tipSpeed", l.TipSpeed.Value, "m/s"),
		units.NonNegative(fn, "limits.solids", l.Solids.Value, ""),
		units.NonNegative(fn, "limits.passage", l.Passage.Value, ""))
	if err != nil {
		return AnimalScreen{}, err
	}
	bore := d.Hose.Metres()
	out := AnimalScreen{
		HoseVelocity: units.Velocity(d.Flow.CubicMetresPerSecond() / (math.Pi / 4 * bore * bore)),
		TipSpeed:     units.Velocity(d.Impeller.Metres() / 2 * d.Speed.RadiansPerSecond()),
	}
	v := out.HoseVelocity.MetresPerSecond()
	if err := soundAll(fn, v, out.TipSpeed.MetresPerSecond()); err != nil {
		return AnimalScreen{}, err
	}
	out.hold("velocity in the hose, not too slow", v, l.LowVelocity, "m/s", true)
	out.hold("velocity in the hose", v, l.HighVelocity, "m/s", false)
	if d.Impeller > 0 {
		out.hold("tip speed of the impeller", out.TipSpeed.MetresPerSecond(), l.TipSpeed, "m/s", false)
	}
	if d.Solids > 0 {
		out.hold("animals by mass", d.Solids, l.Solids, "", false)
	}
	if d.FreePassage > 0 && d.BodyHeight > 0 {
		out.hold("free passage over body height", d.FreePassage.Metres()/d.BodyHeight.Metres(), l.Passage, "", true)
	}
	if l == DefaultAnimalLimits() {
		out.Notices = note(out.Notices, CodeAnimalDefault, units.Info, "limits", 0, 0, "",
			"default limits were used: replace them by those for your animals and rules", commonPractice)
	}
	return out, nil
}

// hold adds a screening; least says that the limit is a lower one.
func (s *AnimalScreen) hold(what string, v float64, limit Cited, unit string, least bool) {
	f := AnimalFlag{What: what, Value: v, Limit: limit.Value, Unit: unit, Source: limit.Source}
	if limit.FromMemory {
		f.Source += " (from memory)"
	}
	if !(limit.Value > 0) {
		s.Flags = append(s.Flags, f)
		s.Notices = note(s.Notices, CodeAnimalNoData, units.Info, what, v, 0, unit, "no limit is known for "+what+": not judged", "")
		return
	}
	f.Margin = finite(1 - v/limit.Value)
	if least {
		f.Margin = finite(v/limit.Value - 1)
	}
	switch {
	case f.Margin < 0:
		f.Verdict = VerdictBeyond
		s.Notices = note(s.Notices, CodeAnimalLimit, units.Warning, what, v, limit.Value, unit,
			what+" is "+num(v)+" "+unit+" against a limit of "+num(limit.Value)+" "+unit, f.Source)
	case f.Margin < 0.1:
		f.Verdict = VerdictClose
	default:
		f.Verdict = VerdictOK
	}
	s.Flags = append(s.Flags, f)
}

// TipSpeed returns the speed of the outer edge of an impeller, pi D n.
//
// Errors: ErrDomain for a diameter or speed that is not positive.
// Source: by definition.
func TipSpeed(diameter units.Length, n units.RotationalSpeed) (units.Velocity, error) {
	const fn = "pumpsizing.TipSpeed"
	err := errors.Join(units.Positive(fn, "diameter", diameter.Metres(), "m"), units.Positive(fn, "n", n.In(units.RevolutionsPerMinute), "r/min"))
	if err != nil {
		return nan[units.Velocity](), err
	}
	return sound(fn, units.Velocity(diameter.Metres()/2*n.RadiansPerSecond()))
}

// SpeedForTip returns the rotational speed at which an impeller's edge moves at
// v.
//
// Errors: ErrDomain for a diameter or velocity that is not positive.
// Source: by definition; TipSpeed solved for the speed.
func SpeedForTip(diameter units.Length, v units.Velocity) (units.RotationalSpeed, error) {
	const fn = "pumpsizing.SpeedForTip"
	err := errors.Join(units.Positive(fn, "diameter", diameter.Metres(), "m"), units.Positive(fn, "v", v.MetresPerSecond(), "m/s"))
	if err != nil {
		return nan[units.RotationalSpeed](), err
	}
	return sound(fn, units.RotationalSpeed(2*v.MetresPerSecond()/diameter.Metres()))
}
