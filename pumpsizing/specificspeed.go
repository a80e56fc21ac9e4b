package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// SpecificSpeed returns the specific speed nq = n sqrt(Q)/H^0.75 in r/min, m3/s
// and m, at best efficiency and per stage. Radial pumps lie at 10 to 30, mixed
// radial 30 to 60, mixed flow 60 to 150, axial above (from memory). Use the
// full flow of a double-suction impeller.
//
// Errors: ErrDomain for inputs that are not positive.
// Source: by definition; the European form.
func SpecificSpeed(n units.RotationalSpeed, q units.Flow, h units.Length) (float64, error) {
	const fn = "pumpsizing.SpecificSpeed"
	if err := positiveDuty(fn, n, q, h); err != nil {
		return math.NaN(), err
	}
	return sound(fn, n.In(units.RevolutionsPerMinute)*math.Sqrt(q.CubicMetresPerSecond())/math.Pow(h.Metres(), 0.75))
}

// SpecificSpeedUS is SpecificSpeed in r/min, US gal/min and ft, 51.645 times
// larger.
//
// Errors: as SpecificSpeed.
// Source: by definition; the form used in the United States.
func SpecificSpeedUS(n units.RotationalSpeed, q units.Flow, h units.Length) (float64, error) {
	const fn = "pumpsizing.SpecificSpeedUS"
	if err := positiveDuty(fn, n, q, h); err != nil {
		return math.NaN(), err
	}
	return sound(fn, n.In(units.RevolutionsPerMinute)*math.Sqrt(q.In(units.USGallonsPerMinute))/math.Pow(h.In(units.Feet), 0.75))
}

// TypeNumber returns the dimensionless K = omega sqrt(Q)/(g H)^0.75, omega in
// rad/s: nq/52.919.
//
// Errors: as SpecificSpeed.
// Source: by definition; ISO 17769-1 calls it type number (from memory).
func TypeNumber(n units.RotationalSpeed, q units.Flow, h units.Length) (float64, error) {
	const fn = "pumpsizing.TypeNumber"
	if err := positiveDuty(fn, n, q, h); err != nil {
		return math.NaN(), err
	}
	return sound(fn, n.RadiansPerSecond()*math.Sqrt(q.CubicMetresPerSecond())/math.Pow(gravity*h.Metres(), 0.75))
}

// SuctionSpecificSpeedUS returns S = n sqrt(Q)/NPSHR^0.75 in r/min, US gal/min
// and ft, with the flow per eye (half of a double-suction pump's). Reliability
// falls above about 11000 (Hallam 1982, from memory).
//
// Errors: as SpecificSpeed.
// Source: by definition.
func SuctionSpecificSpeedUS(n units.RotationalSpeed, perEye units.Flow, npshr units.Length) (float64, error) {
	const fn = "pumpsizing.SuctionSpecificSpeedUS"
	rpm, gpm, ft := n.In(units.RevolutionsPerMinute), perEye.In(units.USGallonsPerMinute), npshr.In(units.Feet)
	err := errors.Join(units.Positive(fn, "n", rpm, "r/min"), units.Positive(fn, "perEye", gpm, "US gal/min"), units.Positive(fn, "npshr", ft, "ft"))
	if err != nil {
		return math.NaN(), err
	}
	return sound(fn, rpm*math.Sqrt(gpm)/math.Pow(ft, 0.75))
}

// NPSHRFromSuctionSpeed estimates the suction head a pump needs from a suction
// specific speed s in US units: NPSHR = (n sqrt(Q)/S)^(4/3). Values of 8000 to
// 9000 are usual for pumps of ordinary design (common practice); prefer the
// maker's curve.
//
// Errors: ErrDomain for inputs that are not positive.
// Source: definition of suction specific speed, solved for NPSHR.
func NPSHRFromSuctionSpeed(n units.RotationalSpeed, perEye units.Flow, s float64) (units.Length, error) {
	const fn = "pumpsizing.NPSHRFromSuctionSpeed"
	err := errors.Join(positiveDuty(fn, n, perEye, 1*units.Metre), units.Positive(fn, "s", s, ""))
	if err != nil {
		return nan[units.Length](), err
	}
	ft := math.Pow(n.In(units.RevolutionsPerMinute)*math.Sqrt(perEye.In(units.USGallonsPerMinute))/s, 4.0/3)
	return sound(fn, units.Feet.Of(ft))
}

func positiveDuty(fn string, n units.RotationalSpeed, q units.Flow, h units.Length) error {
	return errors.Join(
		units.Positive(fn, "n", n.In(units.RevolutionsPerMinute), "r/min"),
		units.Positive(fn, "q", q.In(units.CubicMetresPerHour), "m3/h"),
		units.Positive(fn, "h", h.Metres(), "m"))
}
