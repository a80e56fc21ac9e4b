package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// CarrySpec asks what speed carries animals through a hose.
type CarrySpec struct {
	Bore     units.Length   `json:"bore"`
	Rise     units.Angle    `json:"rise"`     // of the hose above the horizontal, 0 to 90 degrees
	Terminal units.Velocity `json:"terminal"` // of the animals, as from TerminalSpeed; swimming added
	Animal   units.Density  `json:"animal"`
	Water    units.Density  `json:"water"`
	Margin   float64        `json:"margin,omitzero"` // speed over terminal speed in a vertical hose; zero takes 4
}

// CarryingSpeed is the least mean speed that carries animals, and where it comes
// from.
type CarryingSpeed struct {
	Speed      units.Velocity `json:"speed"`      // the greater of the two
	Horizontal units.Velocity `json:"horizontal"` // against settling on the bottom of the hose
	Vertical   units.Velocity `json:"vertical"`   // against falling back
	Notices    []units.Notice `json:"notices,omitempty"`
}

// Carrying speed: common practice of hoses, and the limit speed of coarse solids
// by Durand.
const (
	durandLimit  = 1.34
	carryMargin  = 4.0
	practiceLow  = 1.2 // m/s, in hose
	practiceHigh = 3.0 // m/s
)

// inclination is what Wilson & Tse 1984 add to Durand's limit in a hose that
// rises, against its angle in degrees; from memory, and falling off to the
// vertical where settling on the bottom ends.
var inclination = [...][2]float64{{0, 0}, {30, 0.33}, {45, 0.33}, {90, -durandLimit}}

// DurandLimit returns the mean speed below which coarse solids settle on the
// bottom of a horizontal pipe.
//
// Equation: V = 1.34 √(2 g D (s - 1)), s the density over that of water.
//
// Validity: made from sand and gravel in pipe of 40 to 700 mm; for animals an
// analogy. ErrDomain where the animal is lighter than water.
//
// Source: Durand & Condolios 1952; limit of coarse solids from memory.
func DurandLimit(bore units.Length, animal, water units.Density) (units.Velocity, error) {
	const fn = "hydraulics.DurandLimit"
	err := errors.Join(boreError(fn, "bore", bore), units.Positive(fn, "water", water.KilogramsPerCubicMetre(), "kg/m3"),
		units.Within(fn, "animal", animal.KilogramsPerCubicMetre(), water.KilogramsPerCubicMetre(), 4000, "kg/m3"))
	if err != nil {
		return units.Velocity(math.NaN()), err
	}
	return units.Velocity(durandLimit * submergedSpeed(bore, animal, water)), nil
}

func submergedSpeed(bore units.Length, animal, water units.Density) float64 {
	return math.Sqrt(2 * gravity * bore.Metres() * max(0, float64(animal/water)-1))
}

// MinimumSpeed returns the least mean speed that carries the animals in a hose
// at its slope. Notices tell when it lies below the 1.2 m/s that hoses are run
// at in practice, so that practice governs, or above the 3 m/s at which it beats
// animals.
//
// Equation: the greater of (1.34 + Δ) √(2 g D (s - 1)), Δ by the slope, and
// Margin · v_t sin(slope).
//
// Source: Durand & Condolios 1952; Wilson & Tse 1984 for Δ, from memory; a
// margin of 3 to 4 over the terminal speed and the range 1.2 to 3 m/s are common
// practice, no source.
func MinimumSpeed(s CarrySpec) (CarryingSpeed, error) {
	const fn = "hydraulics.MinimumSpeed"
	deg, margin := s.Rise.In(units.Degrees), s.Margin
	if margin == 0 {
		margin = carryMargin
	}
	err := errors.Join(boreError(fn, "bore", s.Bore), units.Within(fn, "rise", deg, 0, 90*(1+1e-12), "degrees"),
		units.NonNegative(fn, "terminal", s.Terminal.MetresPerSecond(), "m/s"), units.Within(fn, "margin", margin, 1, 20, ""),
		units.Within(fn, "animal", s.Animal.KilogramsPerCubicMetre(), 800, 1500, "kg/m3"),
		units.Within(fn, "water", s.Water.KilogramsPerCubicMetre(), 950, 1100, "kg/m3"))
	if err != nil {
		return CarryingSpeed{}, err
	}
	c := CarryingSpeed{
		Horizontal: units.Velocity((durandLimit + tableAt(inclination[:], deg)) * submergedSpeed(s.Bore, s.Animal, s.Water)),
		Vertical:   units.Velocity(margin * s.Terminal.MetresPerSecond() * math.Sin(s.Rise.Radians())),
	}
	c.Speed = max(c.Horizontal, c.Vertical)
	n := units.Notice{Code: CodeBelowCarrying, Field: "speed", Value: c.Speed.MetresPerSecond(), Unit: "m/s",
		Source: "common practice, no source"}
	switch {
	case c.Speed < practiceLow:
		n.Severity, n.Limit = units.Info, practiceLow
		n.Message = "below what hoses are run at: keep 1.2 m/s or more, since animals turn and cling"
		c.Notices = append(c.Notices, n)
	case c.Speed > practiceHigh:
		n.Severity, n.Limit = units.Caution, practiceHigh
		n.Message = "so fast that animals are beaten: take a smaller bore or a gentler rise"
		c.Notices = append(c.Notices, n)
	}
	return c, nil
}

// ExtraFriction returns the friction of the mixture over that of water at the
// same speed in a horizontal pipe.
//
// Equation: 1 + 82 Cv ψ^-1.5, ψ = V² √Cd/(g D (s - 1)); never below the density
// of the mixture over that of water.
//
// Validity: volume fraction 0 to 0.3, speed above [DurandLimit]; ErrRange with
// the value outside. For animals an analogy from sand and gravel.
//
// Source: Durand & Condolios 1952, from memory.
func ExtraFriction(cv float64, v units.Velocity, bore units.Length, animal, water units.Density, cd float64) (float64, error) {
	const fn = "hydraulics.ExtraFriction"
	limit, err := DurandLimit(bore, animal, water)
	err = errors.Join(err, units.Within(fn, "cv", cv, 0, packedFraction, ""), units.Positive(fn, "v", v.MetresPerSecond(), "m/s"),
		units.Within(fn, "cd", cd, 0.01, 1e3, ""))
	if err != nil {
		return math.NaN(), err
	}
	s := float64(animal / water)
	ratio := 1 + cv*(s-1)
	if s > 1 {
		psi := float64(v*v) * math.Sqrt(cd) / (gravity * bore.Metres() * (s - 1))
		ratio = max(ratio, 1+82*cv*math.Pow(psi, -1.5))
	}
	var errs []error
	if cv > cautionFraction {
		errs = append(errs, &units.InputError{Func: fn, Field: "cv", Value: cv, Min: 0, Max: cautionFraction, Kind: units.ErrRange})
	}
	if v < limit {
		errs = append(errs, &units.InputError{Func: fn, Field: "v", Value: v.MetresPerSecond(),
			Unit: "m/s", Min: limit.MetresPerSecond(), Max: math.Inf(1),
			Reason: "animals settle", Kind: units.ErrRange})
	}
	return ratio, errors.Join(errs...)
}
