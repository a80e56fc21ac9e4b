package hydraulics

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// HoseKind is how a hose is built, as far as its hydraulics care. It is
// [SmoothHose], [LayFlatHose], [SpiralHose] or [CorrugatedHose].
type HoseKind uint8

// The kinds of hose.
const (
	SmoothHose     HoseKind = iota // smooth lining, helix or braid inside the wall
	LayFlatHose                    // lined lay-flat, which swells under pressure
	SpiralHose                     // helix visible in the bore
	CorrugatedHose                 // corrugated bore
)

// HoseSpec describes a length of hose as it lies on the bank.
type HoseSpec struct {
	Kind      HoseKind     `json:"kind"`
	Bore      units.Length `json:"bore"` // inside diameter without pressure, 10 mm to 1 m
	Length    units.Length `json:"length"`
	Roughness units.Length `json:"roughness,omitzero"` // zero takes the typical value of the kind
	Couplings int          `json:"couplings"`          // joints of full bore
	Swell     float64      `json:"swell"`              // fraction by which the bore grows at working pressure, 0 to 0.1
	Turns     []HoseTurn   `json:"turns,omitempty"`
}

// HoseTurn is one curve the hose lies in.
type HoseTurn struct {
	Angle  units.Angle  `json:"angle"`  // turn of the flow, to 360 degrees
	Radius units.Length `json:"radius"` // of the centreline; at least one bore
}

// Validate reports every field that cannot be used, joined.
func (s HoseSpec) Validate() error {
	const fn = "hydraulics.HoseSpec"
	errs := []error{
		units.Within(fn, "kind", float64(s.Kind), 0, float64(CorrugatedHose), ""),
		units.Within(fn, "bore", s.Bore.Metres(), 0.01, 1, "m"),
		units.NonNegative(fn, "length", s.Length.Metres(), "m"),
		roughnessError(fn, "roughness", s.Roughness, s.Bore),
		units.Within(fn, "couplings", float64(s.Couplings), 0, 1000, ""),
		units.Within(fn, "swell", s.Swell, 0, 0.1, ""),
	}
	for i, turn := range s.Turns {
		at := fmt.Sprintf("turns[%d]", i)
		errs = append(errs, units.AtField(at, bendAngle(fn, turn.Angle.In(units.Degrees), 360)))
		if !(turn.Radius >= s.Bore) || math.IsInf(turn.Radius.Metres(), 0) {
			errs = append(errs, &units.InputError{Func: fn, Field: at + ".radius", Value: turn.Radius.Metres(),
				Unit: "m", Min: s.Bore.Metres(), Max: math.Inf(1),
				Reason: "a hose turned tighter than its bore kinks"})
		}
	}
	return errors.Join(errs...)
}

// Run returns the hose as one run of a [Pipeline]: swollen bore, roughness,
// couplings, and its turns as bends beyond the straight length.
//
// Source: [Bend] for the turns, to 20 bores of radius; [HoseCoupling]; roughness
// from [WallRoughnesses]. A swell of 2 to 5 % in lay-flat hose is common
// practice and takes 10 to 22 % off the loss.
func (s HoseSpec) Run() (PipeRun, error) {
	if err := s.Validate(); err != nil {
		return PipeRun{}, err
	}
	r := PipeRun{Name: "hose, " + s.Kind.String(), Bore: units.Length(s.Bore.Metres() * (1 + s.Swell)), Length: s.Length, Roughness: s.Roughness}
	if r.Roughness == 0 {
		w, err := LookupRoughness("hose", s.Kind.String())
		if err != nil {
			return PipeRun{}, err
		}
		r.Roughness = min(w.Typical, units.Length(maxRelativeRoughness*r.Bore.Metres()))
	}
	if s.Couplings > 0 {
		r.Fittings = append(r.Fittings, HoseCoupling().Times(s.Couplings))
	}
	for _, turn := range s.Turns {
		ratio := turn.Radius.Metres() / r.Bore.Metres()
		if ratio > 20 { // gentler than that is a straight hose
			continue
		}
		deg := turn.Angle.In(units.Degrees)
		full := math.Floor(deg / 180) // Bend knows half a turn at most
		for range int(full) {
			b, err := Bend(180*units.Degree, max(1, ratio), r.Bore)
			if err != nil {
				return PipeRun{}, err
			}
			r.Fittings = append(r.Fittings, b)
		}
		if rest := deg - 180*full; rest > 0 {
			b, err := Bend(units.Degrees.Of(rest), max(1, ratio), r.Bore)
			if err != nil {
				return PipeRun{}, err
			}
			r.Fittings = append(r.Fittings, b)
		}
	}
	return r, nil
}
