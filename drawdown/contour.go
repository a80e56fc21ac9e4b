package drawdown

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// AverageEndVolume returns the volume between two contours by the average of
// their areas. It is what a stage table with linear area holds and overstates
// a cone, by half when it runs to a point.
//
// Equation: V = d (A1 + A2)/2. Errors: a negative or non-finite input.
//
// Source: average-end-area rule, common practice in earthwork.
func AverageEndVolume(lower, upper units.Area, interval units.Length) (units.Volume, error) {
	if err := checkContours("drawdown.AverageEndVolume", lower, upper, interval); err != nil {
		return units.Volume(math.NaN()), err
	}
	return units.Volume(float64(interval) * 0.5 * float64(lower+upper)), nil
}

// ConicVolume returns the volume between two contours as the frustum of a cone
// or pyramid, for which it is exact.
//
// Equation: V = d/3 (A1 + A2 + sqrt(A1 A2)). Errors: a negative or non-finite
// input.
//
// Source: volume of a frustum, Euclid, Elements XII; common practice in
// reservoir surveys.
func ConicVolume(lower, upper units.Area, interval units.Length) (units.Volume, error) {
	if err := checkContours("drawdown.ConicVolume", lower, upper, interval); err != nil {
		return units.Volume(math.NaN()), err
	}
	a, b := float64(lower), float64(upper)
	return units.Volume(float64(interval) / 3 * (a + b + math.Sqrt(a)*math.Sqrt(b))), nil
}

// PrismoidalVolume returns the volume of an excavation from the areas at its
// bottom, at half its depth and at its top; exact whenever the area is a cubic
// in stage or less.
//
// Equation: V = d (A + 4 M + C)/6. Errors: a negative or non-finite input.
//
// Source: USDA-NRCS (1997), Agriculture Handbook 590, Ponds - planning, design,
// construction, excavated ponds, in consistent units; Simpson's rule.
func PrismoidalVolume(bottom, middle, top units.Area, depth units.Length) (units.Volume, error) {
	const fn = "drawdown.PrismoidalVolume"
	if err := errors.Join(checkContours(fn, bottom, top, depth), units.NonNegative(fn, "middle", float64(middle), "m2")); err != nil {
		return units.Volume(math.NaN()), err
	}
	return units.Volume(float64(depth) / 6 * float64(bottom+4*middle+top)), nil
}

func checkContours(fn string, lower, upper units.Area, interval units.Length) error {
	return errors.Join(
		units.NonNegative(fn, "lower", float64(lower), "m2"),
		units.NonNegative(fn, "upper", float64(upper), "m2"),
		units.NonNegative(fn, "interval", float64(interval), "m"))
}

// ContourShape returns a pond from the areas within its contours, conic between
// them: the root of the area is linear in stage, so that the volume between two
// contours is [ConicVolume] and dV/dh is the area throughout. Rows must rise in
// stage and not fall in area, as for [NewStageTable].
//
// Source: frustum rule applied slab by slab; derived.
func ContourShape(rows []StageArea) (Shape, error) {
	if err := checkStageRows(rows, false); err != nil {
		return Shape{}, err
	}
	var b shapeBuilder
	for i := range rows[:len(rows)-1] {
		d := float64(rows[i+1].Stage - rows[i].Stage)
		r1, r2 := math.Sqrt(float64(rows[i].Area)), math.Sqrt(float64(rows[i+1].Area))
		k := (r2 - r1) / d
		b.piece(float64(rows[i].Stage), r1*r1, 2*r1*k, 2*k*k)
	}
	last := rows[len(rows)-1]
	b.piece(float64(last.Stage), float64(last.Area), 0, 0)
	return Shape{storage: b.rows}, nil
}

// Corner is a point of an outline on any plane grid.
type Corner struct {
	X units.Length `json:"x"`
	Y units.Length `json:"y"`
}

// PolygonArea returns the area inside a closed outline, given in order in
// either direction with the last corner joined to the first.
//
// Equation: A = |sum (x_i y_i+1 - x_i+1 y_i)|/2.
//
// Validity: an outline that does not cross itself; one that does is an error,
// because its parts would cancel. Errors: fewer than three corners, values
// that are not finite.
//
// Source: shoelace formula (Meister 1769; Gauss), taken about the first corner
// so that large grid coordinates do not cancel.
func PolygonArea(corners []Corner) (units.Area, error) {
	const fn = "drawdown.PolygonArea"
	nan := units.Area(math.NaN())
	var all []error
	if len(corners) < 3 {
		all = append(all, &units.InputError{Func: fn, Field: "corners", Value: float64(len(corners)), Unit: "corners", Reason: "an outline needs at least three"})
	}
	for i, c := range corners {
		all = append(all, units.Finite(fn, fmt.Sprintf("corners[%d].x", i), float64(c.X), "m"), units.Finite(fn, fmt.Sprintf("corners[%d].y", i), float64(c.Y), "m"))
	}
	if err := errors.Join(all...); err != nil {
		return nan, err
	}
	if i, j, crosses := selfCrossing(corners); crosses {
		return nan, &units.InputError{Func: fn, Field: fmt.Sprintf("corners[%d]", j), Value: float64(j), Unit: "corner number",
			Reason: fmt.Sprintf("the side from corner %d crosses the side from corner %d", i, j)}
	}
	sum := 0.0
	o := corners[0]
	for i, c := range corners {
		n := corners[(i+1)%len(corners)]
		sum += float64(c.X-o.X)*float64(n.Y-o.Y) - float64(n.X-o.X)*float64(c.Y-o.Y)
	}
	return units.Area(math.Abs(sum) / 2), nil
}
