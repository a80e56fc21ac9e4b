package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// craneRoughness is the wall of clean commercial steel, 0.0018 in, to which the
// multipliers of Crane belong.
const craneRoughness = 0.0018 * 0.0254 // m

// FullyRoughFactor returns the Darcy friction factor of clean commercial steel
// pipe in full turbulence, the f_T to which equivalent lengths n f_T belong.
//
// Equation: f_T = 0.25/[log10(e/(3.7 D))]², e = 0.0457 mm.
//
// Source: von Karman 1930; Crane TP-410, A-26, whose printed table is within 5 %.
func FullyRoughFactor(bore units.Length) (float64, error) {
	if err := boreError("hydraulics.FullyRoughFactor", "bore", bore); err != nil {
		return math.NaN(), err
	}
	return fullyRough(bore.Metres()), nil
}

func fullyRough(d float64) float64 {
	l := math.Log10(min(craneRoughness/d, maxRelativeRoughness) / 3.7)
	return 0.25 / (l * l)
}

// bend90 is K/f_T of a 90 degree bend against bend radius over bore, Crane
// TP-410 A-29.
var bend90 = [...][2]float64{{1, 20}, {1.5, 14}, {2, 12}, {3, 12}, {4, 14}, {6, 17}, {8, 24}, {10, 30}, {12, 34}, {14, 38}, {16, 42}, {20, 50}}

// mitre is K/f_T of a single mitred joint against its angle in degrees, Crane
// TP-410 A-29.
var mitre = [...][2]float64{{0, 2}, {15, 4}, {30, 8}, {45, 15}, {60, 25}, {75, 40}, {90, 60}}

// Bend returns the loss of a smooth bend through an angle up to 180 degrees with
// radius of the centreline over bore rOverD, on the velocity in the bore.
//
// Equation: K90 = n(r/D) f_T; other angles are scaled by 0.9 sin θ to 70
// degrees, linear to 1 at 90, and 0.7 + 0.35 θ/90° from 100.
//
// Validity: rOverD 1 to 20; ErrDomain outside: below 1 take [Mitre], above 20
// count the hose as pipe with [CurvedFactor].
//
// Source: Crane TP-410, A-29; Idelchik diagram 6-1 for the angle, from memory.
// Band ± 25 %.
func Bend(angle units.Angle, rOverD float64, bore units.Length) (Loss, error) {
	const fn = "hydraulics.Bend"
	deg := angle.In(units.Degrees)
	if err := errors.Join(bendAngle(fn, deg, 180), units.Within(fn, "rOverD", rOverD, 1, 20, ""), boreError(fn, "bore", bore)); err != nil {
		return Loss{}, err
	}
	return handbookLoss("bend", tableAt(bend90[:], rOverD)*bendAngleFactor(deg)*fullyRough(bore.Metres()), craneSource), nil
}

func bendAngle(fn string, deg, most float64) error {
	if deg > 0 && deg <= most {
		return nil
	}
	return &units.InputError{Func: fn, Field: "angle", Value: deg, Unit: "degrees", Min: 0, Max: most,
		Reason: "the turn of the flow; degrees taken for radians?"}
}

func bendAngleFactor(deg float64) float64 {
	const at70, at100 = 0.8457233587073176, 0.7 + 0.35*100/90 // 0.9 sin 70°
	switch {
	case deg <= 70:
		return 0.9 * math.Sin(deg*math.Pi/180)
	case deg <= 90:
		return at70 + (1-at70)*(deg-70)/20
	case deg <= 100:
		return 1 + (at100-1)*(deg-90)/10
	}
	return 0.7 + 0.35*deg/90
}

// Mitre returns the loss of a single mitred joint through an angle up to 90
// degrees.
//
// Equation: K = 0.42 sin(θ/2) + 2.56 sin³(θ/2).
//
// The band runs from the multipliers of Crane TP-410 A-29 (60 f_T at 90
// degrees), which are low for large bores, to 1.25 times the equation. Miller's
// charts give 1.19 at 90 degrees.
//
// Source: Rennels & Hudson 2012, Pipe Flow; Crane TP-410, A-29.
func Mitre(angle units.Angle, bore units.Length) (Loss, error) {
	const fn = "hydraulics.Mitre"
	deg := angle.In(units.Degrees)
	if err := errors.Join(bendAngle(fn, deg, 90), boreError(fn, "bore", bore)); err != nil {
		return Loss{}, err
	}
	s := math.Sin(deg * math.Pi / 360)
	k := s * (0.42 + 2.56*s*s)
	crane := tableAt(mitre[:], deg) * fullyRough(bore.Metres())
	return bandLoss("mitred joint", min(crane, k), k, max(1.25*k, crane), "Rennels & Hudson 2012; Crane TP-410 A-29"), nil
}

// Elbow returns the loss of a standard threaded or flanged elbow of 45 or 90
// degrees.
//
// Equation: K = 30 f_T (90 degrees), 16 f_T (45).
//
// Source: Crane TP-410, A-29. Band ± 25 %.
func Elbow(angle units.Angle, bore units.Length) (Loss, error) {
	const fn = "hydraulics.Elbow"
	if err := boreError(fn, "bore", bore); err != nil {
		return Loss{}, err
	}
	switch deg := angle.In(units.Degrees); {
	case math.Abs(deg-90) < 0.5:
		return handbookLoss("standard elbow 90", 30*fullyRough(bore.Metres()), craneSource), nil
	case math.Abs(deg-45) < 0.5:
		return handbookLoss("standard elbow 45", 16*fullyRough(bore.Metres()), craneSource), nil
	default:
		return Loss{}, &units.InputError{Func: fn, Field: "angle", Value: deg, Unit: "degrees",
			Reason: "standard elbows turn 45 or 90 degrees; see Bend and Mitre"}
	}
}

// ReturnBend returns the loss of a close return bend, 50 f_T.
//
// Source: Crane TP-410, A-29. Band ± 25 %.
func ReturnBend(bore units.Length) (Loss, error) {
	if err := boreError("hydraulics.ReturnBend", "bore", bore); err != nil {
		return Loss{}, err
	}
	return handbookLoss("return bend", 50*fullyRough(bore.Metres()), craneSource), nil
}
