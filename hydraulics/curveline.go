package hydraulics

import (
	"math"

	"pondwright.example/units"
)

// CurveLine is a line known by a function: a measured system, or a pump's curve
// with its sign turned, from another package. Build it with [NewCurveLine].
type CurveLine struct {
	head func(q units.Flow) units.Length
}

var _ Line = CurveLine{}

// NewCurveLine returns the line whose head at flow q is head(q), for flows of
// either sign. Head must rise with flow, be finite for every finite flow and
// safe for use from many goroutines: a pump enters a network as the line whose
// head is minus the pump's. ErrDomain for a nil function and for one that is not
// finite at, or falls from, -1 to 0 to 1 L/s.
func NewCurveLine(head func(q units.Flow) units.Length) (CurveLine, error) {
	const fn = "hydraulics.NewCurveLine"
	if head == nil {
		return CurveLine{}, &units.InputError{Func: fn, Field: "head", Value: math.NaN(), Reason: "missing"}
	}
	back, still, on := head(-units.LitrePerSecond).Metres(), head(0).Metres(), head(units.LitrePerSecond).Metres()
	if err := units.Finite(fn, "head", back+still+on, "m"); err != nil {
		return CurveLine{}, err
	}
	if !(back <= still && still <= on) {
		return CurveLine{}, &units.InputError{Func: fn, Field: "head", Value: on - still, Unit: "m",
			Reason: "falls with flow near zero: turn the sign of a pump's head"}
	}
	return CurveLine{head}, nil
}

// Head returns the head of the curve at flow q, by definition.
func (c CurveLine) Head(q units.Flow) units.Length {
	h, _ := c.at(float64(q))
	return units.Length(h)
}

// Flow returns the flow at which the curve needs head h, the inverse of
// [CurveLine.Head].
func (c CurveLine) Flow(h units.Length) units.Flow { return units.Flow(flowOfLine(c, float64(h))) }

func (c CurveLine) at(q float64) (h float64, ok bool) {
	if c.head == nil {
		return 0, false
	}
	return finite(float64(c.head(units.Flow(q)))), true
}

// lineLoss takes the slope from a central difference over a thousandth of the
// flow, good to about 1e-6 of itself; Newton's method needs no more.
func (c CurveLine) lineLoss(q float64) (h, slope float64) {
	h, ok := c.at(q)
	if !ok {
		return 0, 0
	}
	d := 1e-3*math.Abs(q) + 1e-9
	up, _ := c.at(q + d)
	down, _ := c.at(q - d)
	return h, max(0, (up-down)/(2*d))
}
