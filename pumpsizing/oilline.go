package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// OilLine is a run of hydraulic hose or tube. Count pressure and return line:
// both lose.
type OilLine struct {
	Bore     units.Length `json:"bore"`
	Length   units.Length `json:"length"`
	Fittings float64      `json:"fittings,omitzero"` // sum of loss coefficients K
	Rise     units.Length `json:"rise,omitzero"`     // end above start; zero for there and back
}

// Regime says how oil flows in a line: [Laminar], [Transitional] or
// [Turbulent].
type Regime uint8

// Regimes of pipe flow.
const (
	Laminar Regime = iota
	Transitional
	Turbulent
)

var regimeNames = []string{"laminar", "transitional", "turbulent"}

// String returns "laminar", "transitional" or "turbulent".
func (r Regime) String() string { return wordOf("Regime", regimeNames, uint8(r)) }

// MarshalText writes the word of String.
func (r Regime) MarshalText() ([]byte, error) { return marshalWord("Regime", regimeNames, uint8(r)) }

// UnmarshalText reads a word of String.
func (r *Regime) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Regime", regimeNames, text)
	if err == nil {
		*r = Regime(i)
	}
	return err
}

// OilLineLoss is the loss of a line with its intermediates.
type OilLineLoss struct {
	Velocity       units.Velocity `json:"velocity"`
	Reynolds       float64        `json:"reynolds"`
	FrictionFactor float64        `json:"frictionFactor"` // Darcy; zero without flow
	Regime         Regime         `json:"regime"`
	Loss           units.Pressure `json:"loss"` // friction, fittings and rise
	Notices        []units.Notice `json:"notices,omitempty"`
}

const (
	laminarLimit   = 2300.0
	turbulentStart = 4000.0
	blasiusEnd     = 1e5
	// fastOil is the usual ceiling for pressure lines (handbook value from
	// memory: 3 m/s at 50 bar to 6 m/s at 250 bar).
	fastOil = 6.0
	// coldOil and thinOil bound the viscosity of a running gear or orbit
	// machine (common practice).
	coldOil, thinOil = 800e-6, 8e-6 // m2/s
)

// Validate reports every problem of the data.
func (l OilLine) Validate() error { return l.check("pumpsizing.OilLine") }

func (l OilLine) check(fn string) error {
	err := errors.Join(units.Positive(fn, "bore", l.Bore.In(units.Millimetres), "mm"),
		units.NonNegative(fn, "length", l.Length.Metres(), "m"), units.NonNegative(fn, "fittings", l.Fittings, ""),
		units.Finite(fn, "rise", l.Rise.Metres(), "m"))
	if l.Bore > 0.2*units.Metre {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "bore", Value: l.Bore.In(units.Millimetres), Unit: "mm", Min: 0, Max: 200,
			Reason: "too wide for a hydraulic line: were millimetres or inches read as metres?"})
	}
	return err
}

// Loss returns the pressure the line takes at oil flow q:
//
//	dp = (f L/d + sum K) rho v^2/2 + rho g rise
//	f = 64/Re             Re < 2300 (128 mu L Q/(pi d^4))
//	f = 0.3164 Re^-0.25   Re > 4000 (Blasius)
//
// and the larger of the two between, with a notice, which is on the safe side.
//
// Validity: smooth bore, Re to 1e5 (notice above), Newtonian oil at one
// temperature.
// Errors: ErrDomain for line or oil data that cannot be or a negative flow.
// Source: Hagen and Poiseuille; Blasius (1913).
// Accuracy: 5 % laminar and turbulent; the transition is uncertain to a factor
// of two.
func (l OilLine) Loss(q units.Flow, oil OilState) (OilLineLoss, error) {
	const fn = "pumpsizing.OilLine.Loss"
	if err := errors.Join(l.check(fn), oil.check(fn), units.NonNegative(fn, "q", q.In(units.LitresPerMinute), "L/min")); err != nil {
		return OilLineLoss{}, err
	}
	d, rho := l.Bore.Metres(), oil.Density.KilogramsPerCubicMetre()
	v := q.CubicMetresPerSecond() / (math.Pi / 4 * d * d)
	out := OilLineLoss{Velocity: units.Velocity(v), Reynolds: v * d / oil.Viscosity.SquareMetresPerSecond()}
	friction := 0.0 // f L/d rho v^2/2
	if v > 0 {
		out.FrictionFactor, out.Regime = oilFriction(out.Reynolds)
		friction = out.FrictionFactor * l.Length.Metres() / d * rho * v * v / 2
	}
	out.Loss = units.Pressure(friction + l.Fittings*rho*v*v/2 + rho*gravity*l.Rise.Metres())
	if err := soundAll(fn, v, out.Reynolds, out.Loss.Pascals()); err != nil {
		return OilLineLoss{}, err
	}
	out.judge(oil)
	return out, nil
}

// oilFriction is the Darcy friction factor of a smooth bore.
func oilFriction(re float64) (float64, Regime) {
	laminar := 64 / re
	if re < laminarLimit {
		return laminar, Laminar
	}
	blasius := 0.3164 / math.Sqrt(math.Sqrt(re))
	if re <= turbulentStart {
		return math.Max(laminar, blasius), Transitional
	}
	return blasius, Turbulent
}

func (o *OilLineLoss) judge(oil OilState) {
	if o.Regime == Transitional {
		o.Notices = note(o.Notices, CodeOilTransition, units.Info, "reynolds", o.Reynolds, laminarLimit, "",
			"between laminar and turbulent: the larger friction was taken; the real loss may be half", "Blasius (1913)")
	}
	if o.Reynolds > blasiusEnd {
		o.Notices = note(o.Notices, CodeOilTransition, units.Caution, "reynolds", o.Reynolds, blasiusEnd, "",
			"above the range of the friction law for smooth bores", "Blasius (1913)")
	}
	if o.Velocity > fastOil {
		o.Notices = note(o.Notices, CodeOilVelocity, units.Caution, "velocity", o.Velocity.MetresPerSecond(), fastOil, "m/s",
			"faster than usual in a pressure line: heat and loss rise with the square; take a wider hose", commonPractice)
	}
	nu := oil.Viscosity.SquareMetresPerSecond()
	if nu > coldOil {
		o.Notices = note(o.Notices, CodeOilCold, units.Caution, "viscosity", nu*1e6, coldOil*1e6, "mm2/s",
			"oil too thick to start under load: warm it at idle first", commonPractice)
	}
	if nu < thinOil {
		o.Notices = note(o.Notices, CodeOilThin, units.Caution, "viscosity", nu*1e6, thinOil*1e6, "mm2/s",
			"oil too thin: leakage and wear rise", commonPractice)
	}
}

// BoreForVelocity returns the bore in which flow q runs at velocity v:
// d = sqrt(4 Q/(pi v)). Usual velocities are 0.5 to 1.5 m/s in suction, 1.5 to 4
// in return and 3 to 6, at most 10, m/s in pressure lines (common practice, as two
// makers of hoses and power packs print it: hytec-hydraulik.com, hydra-tech.com).
//
// Errors: ErrDomain for a flow or velocity that is not positive.
// Source: continuity.
func BoreForVelocity(q units.Flow, v units.Velocity) (units.Length, error) {
	const fn = "pumpsizing.BoreForVelocity"
	err := errors.Join(units.Positive(fn, "q", q.In(units.LitresPerMinute), "L/min"), units.Positive(fn, "v", v.MetresPerSecond(), "m/s"))
	if err != nil {
		return nan[units.Length](), err
	}
	return sound(fn, units.Length(math.Sqrt(4*q.CubicMetresPerSecond()/(math.Pi*v.MetresPerSecond()))))
}

// ValveRating is one point of a valve's or coupler's data sheet.
type ValveRating struct {
	Flow units.Flow     `json:"flow"`
	Drop units.Pressure `json:"drop"`
}

// DropAt returns the pressure the valve takes at flow q of an oil whose density
// is the factor densityRatio of the rated oil's:
//
//	dp2 = dp1 (Q2/Q1)^2 (rho2/rho1)
//
// A quick coupler takes 2 to 5 bar at its rated flow (common practice), and
// four of them are often the largest loss of the set.
//
// Errors: ErrDomain for a rating that is not positive, a negative flow, or a
// density ratio that is not positive.
// Source: turbulent orifice flow.
func (r ValveRating) DropAt(q units.Flow, densityRatio float64) (units.Pressure, error) {
	const fn = "pumpsizing.ValveRating.DropAt"
	err := errors.Join(units.Positive(fn, "flow", r.Flow.In(units.LitresPerMinute), "L/min"), units.Positive(fn, "drop", r.Drop.In(units.Bars), "bar"),
		units.NonNegative(fn, "q", q.In(units.LitresPerMinute), "L/min"), units.Positive(fn, "densityRatio", densityRatio, ""))
	if err != nil {
		return nan[units.Pressure](), err
	}
	x := q.CubicMetresPerSecond() / r.Flow.CubicMetresPerSecond()
	return sound(fn, r.Drop*units.Pressure(x*x*densityRatio))
}
