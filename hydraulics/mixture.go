package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// Mixture is animals carried in water, by the ratio that a weigh-and-drain test
// gives.
type Mixture struct {
	WaterPerAnimal float64       `json:"waterPerAnimal"` // kilograms of water pumped per kilogram of animals
	Animal         units.Density `json:"animal"`         // of the animals
	Water          units.Density `json:"water"`
}

// Fractions above which a mixture is beyond what its formulas were made from and
// what hoses pass.
const (
	cautionFraction = 0.30 // friction by the water's viscosity no longer holds
	packedFraction  = 0.60 // animals touch: a plug
)

// Validate reports every field that cannot be used, joined.
func (m Mixture) Validate() error {
	const fn = "hydraulics.Mixture"
	return errors.Join(
		units.Within(fn, "waterPerAnimal", m.WaterPerAnimal, 0, 1e6, "kg/kg"),
		units.Within(fn, "animal", m.Animal.KilogramsPerCubicMetre(), 800, 1500, "kg/m3"),
		units.Within(fn, "water", m.Water.KilogramsPerCubicMetre(), 950, 1100, "kg/m3"))
}

// VolumeFraction returns the share of the delivered volume that is animals.
//
// Equation: Cv = 1/(1 + R ρs/ρw), R the kilograms of water per kilogram of
// animals.
//
// Source: volumes added, by definition.
func (m Mixture) VolumeFraction() (float64, error) {
	if err := m.Validate(); err != nil {
		return math.NaN(), err
	}
	return 1 / (1 + m.WaterPerAnimal*float64(m.Animal)/float64(m.Water)), nil
}

// Density returns the density of the delivered mixture.
//
// Equation: ρm = Cv ρs + (1 - Cv) ρw.
//
// Source: masses added, by definition.
func (m Mixture) Density() (units.Density, error) {
	cv, err := m.VolumeFraction()
	if err != nil {
		return units.Density(math.NaN()), err
	}
	return mixtureDensity(cv, m), nil
}

func mixtureDensity(cv float64, m Mixture) units.Density {
	return units.Density(cv*float64(m.Animal) + (1-cv)*float64(m.Water))
}

// MixtureOfFraction returns the mixture with a volume fraction of animals above
// 0 and at most 1.
//
// Source: inverse of [Mixture.VolumeFraction].
func MixtureOfFraction(cv float64, animal, water units.Density) (Mixture, error) {
	m := Mixture{Animal: animal, Water: water}
	err := m.Validate()
	if !(cv > 0 && cv <= 1) {
		err = errors.Join(err,
			&units.InputError{Func: "hydraulics.MixtureOfFraction", Field: "cv", Value: cv, Min: 0, Max: 1, Reason: "fraction of the volume, not percent"})
	}
	if err != nil {
		return Mixture{}, err
	}
	m.WaterPerAnimal = (1/cv - 1) * float64(water) / float64(animal)
	return m, nil
}

// MixtureState is a mixture in a hose that rises.
type MixtureState struct {
	Delivered  float64        `json:"delivered"` // volume fraction that arrives
	HoldUp     float64        `json:"holdUp"`    // volume fraction in the hose, higher as animals lag
	Density    units.Density  `json:"density"`   // of what stands in the hose: for the static lift
	Slip       units.Velocity `json:"slip"`
	StaticGain float64        `json:"staticGain"` // static head over that of water alone
	Notices    []units.Notice `json:"notices,omitempty"`
}

// Rising returns the state of the mixture in a vertical hose at mean speed v
// with animals whose terminal speed is slip: animals lag, so that more of them
// stand in the hose than arrive.
//
// Equation: φ (u - vt (1-φ)^2.39) = Cv u.
//
// Validity: particle Reynolds number above 500. ErrNoSolution when the hold-up
// would pass 0.6: the hose chokes.
//
// Source: Richardson & Zaki 1954, Trans. Inst. Chem. Eng. 32:35, exponent 2.39.
// Use the density for the lift and the delivered density for friction, with the
// water's viscosity (common practice below a fraction of 0.3).
func (m Mixture) Rising(v, slip units.Velocity) (MixtureState, error) {
	cv, err := m.VolumeFraction()
	if err != nil {
		return MixtureState{}, err
	}
	phi, err := HoldUp(v, slip, cv)
	if err != nil {
		return MixtureState{}, err
	}
	s := MixtureState{Delivered: cv, HoldUp: phi, Density: mixtureDensity(phi, m),
		Slip: units.Velocity(slip.MetresPerSecond() * math.Pow(1-phi, zakiExponent))}
	s.StaticGain = float64(s.Density / m.Water)
	s.Notices = FractionNotices(phi)
	return s, nil
}

const zakiExponent = 2.39

// HoldUp returns the volume fraction of animals that stands in a rising hose at
// mean speed v, when a fraction delivered of the arriving volume is animals with
// terminal speed slip; for [Mixture.Rising], which has equation and source.
func HoldUp(v, slip units.Velocity, delivered float64) (float64, error) {
	const fn = "hydraulics.HoldUp"
	u, vt := v.MetresPerSecond(), slip.MetresPerSecond()
	err := errors.Join(units.Within(fn, "v", u, 1e-3, 100, "m/s"), units.Within(fn, "slip", vt, 0, 100, "m/s"),
		units.Within(fn, "delivered", delivered, 0, 1, ""))
	if err != nil || delivered == 0 {
		if err != nil {
			return math.NaN(), err
		}
		return 0, nil
	}
	excess := func(phi float64) float64 { return phi*(u-vt*math.Pow(1-phi, zakiExponent)) - delivered*u }
	if !(excess(packedFraction) > 0) {
		return math.NaN(), &units.InputError{Func: fn, Field: "v", Value: u, Unit: "m/s",
			Reason: "the hose chokes: animals would fill more than 0.6 of it; pump faster or send fewer", Kind: units.ErrNoSolution}
	}
	return root.Find(excess, 0, packedFraction, 1e-16)
}

// FractionNotices returns what a volume fraction of animals in a hose means: a
// Caution above 0.3, a Warning above 0.6. The limits are common practice.
func FractionNotices(fraction float64) []units.Notice {
	n := units.Notice{Code: CodeSolidsFraction, Field: "holdUp", Value: fraction, Source: "common practice, no source"}
	switch {
	case fraction > packedFraction:
		n.Severity, n.Limit, n.Message = units.Warning, packedFraction, "animals touch and plug the hose"
	case fraction > cautionFraction:
		n.Severity, n.Limit, n.Message = units.Caution, cautionFraction, "so many animals that friction by the water's viscosity is too low"
	default:
		return nil
	}
	return []units.Notice{n}
}
