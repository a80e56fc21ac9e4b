package pumpsizing

import (
	"errors"
	"fmt"

	"pondwright.example/units"
)

// CurvePoint is one point read off a pump's data sheet: a flow and either the
// head in metres of liquid or the pressure rise, not both.
type CurvePoint struct {
	Flow     units.Flow            `json:"flow"`
	Head     units.Length          `json:"head,omitzero"`
	Pressure units.Pressure        `json:"pressure,omitzero"` // needs CurveData.Density
	Speed    units.RotationalSpeed `json:"speed,omitzero"`    // zero: the speed of the curve
}

// CurveData is a head curve as a data sheet gives it: points at one stated
// speed.
type CurveData struct {
	Speed   units.RotationalSpeed `json:"speed"`            // required
	Points  []CurvePoint          `json:"points"`           // flow rising; two at least
	Density units.Density         `json:"density,omitzero"` // of the test liquid; only for points given as pressure
	Fit     Fit                   `json:"fit,omitzero"`     // zero: Quadratic
}

// point is a checked CurvePoint in m3/s and m.
type point struct{ q, h float64 }

// Validate reports every problem of the data at once: no speed, fewer than two
// points, flows that do not rise, a point at another speed, a pressure without
// a density.
func (d CurveData) Validate() error {
	_, err := d.points("pumpsizing.CurveData")
	return err
}

// points checks the data and returns the points as flow and head.
func (d CurveData) points(fn string) ([]point, error) {
	faults := []error{units.Positive(fn, "speed", d.Speed.In(units.RevolutionsPerMinute), "r/min")}
	if n := len(d.Points); n < 2 {
		faults = append(faults, &units.InputError{Func: fn, Field: "points", Value: float64(n), Unit: "points",
			Reason: "one point does not make a curve; give two points at least, the first at zero flow"})
	}
	if d.Density != 0 {
		faults = append(faults, units.Positive(fn, "density", d.Density.KilogramsPerCubicMetre(), "kg/m3"))
	}
	if d.Fit > lastFit {
		faults = append(faults, &units.InputError{Func: fn, Field: "fit", Value: float64(d.Fit), Min: 0, Max: float64(lastFit),
			Reason: "not a fit of this package"})
	}
	pts := make([]point, len(d.Points))
	for i, p := range d.Points {
		at := fmt.Sprintf("points[%d]", i)
		var err error
		if pts[i], err = d.point(fn, at, p); err != nil {
			faults = append(faults, err)
		}
		if i > 0 && !(p.Flow > d.Points[i-1].Flow) {
			faults = append(faults, &units.InputError{Func: fn, Field: at + ".flow", Value: p.Flow.In(units.CubicMetresPerHour), Unit: "m3/h",
				Reason: fmt.Sprintf("does not rise above points[%d]: sort the points and give each flow once", i-1)})
		}
	}
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	return pts, nil
}

// point checks one point and turns a pressure into a head.
func (d CurveData) point(fn, at string, p CurvePoint) (point, error) {
	h := p.Head.Metres()
	err := units.NonNegative(fn, at+".flow", p.Flow.In(units.CubicMetresPerHour), "m3/h")
	switch {
	case p.Head != 0 && p.Pressure != 0:
		err = errors.Join(err, &units.InputError{Func: fn, Field: at, Value: h, Unit: "m", Reason: "gives both a head and a pressure: keep one"})
	case p.Pressure != 0 && !(d.Density > 0):
		err = errors.Join(err, &units.InputError{Func: fn, Field: at + ".pressure", Value: p.Pressure.Pascals(), Unit: "Pa",
			Reason: "a pressure becomes a head only with the density of the liquid: set density"})
	case p.Pressure != 0:
		h = p.Pressure.Pascals() / (d.Density.KilogramsPerCubicMetre() * gravity)
	}
	err = errors.Join(err, units.NonNegative(fn, at+".head", h, "m"))
	if p.Speed != 0 && p.Speed != d.Speed {
		err = errors.Join(err, &units.InputError{Func: fn, Field: at + ".speed", Value: p.Speed.In(units.RevolutionsPerMinute), Unit: "r/min",
			Reason: "the curve is for " + num(d.Speed.In(units.RevolutionsPerMinute)) + " r/min: bring the point to that speed with Affinity first, or make it another curve"})
	}
	return point{p.Flow.CubicMetresPerSecond(), h}, err
}
