package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// SquareLine is a line known by its curve alone: head = Lift + Coefficient q|q|.
// A measured system, an orifice under water, or a pump in a network, whose Lift
// is minus the shut-off head. It is a plain value; [NewSquareLine] checks it.
type SquareLine struct {
	lift, a float64
}

var _ Line = SquareLine{}

// NewSquareLine returns the line with head lift + a q|q|, a above zero in s²/m⁵
// (metres of head per (m3/s)²).
func NewSquareLine(lift units.Length, a float64) (SquareLine, error) {
	const fn = "hydraulics.NewSquareLine"
	if err := errors.Join(units.Finite(fn, "lift", lift.Metres(), "m"), units.Positive(fn, "a", a, "s2/m5")); err != nil {
		return SquareLine{}, err
	}
	return SquareLine{lift.Metres(), a}, nil
}

// Head returns lift + a q|q|, by definition.
func (s SquareLine) Head(q units.Flow) units.Length {
	h, _ := s.lineLoss(float64(q))
	return units.Length(h)
}

// Flow returns the flow at head h, the inverse of [SquareLine.Head].
func (s SquareLine) Flow(h units.Length) units.Flow {
	net := float64(h) - s.lift
	if s.a == 0 {
		return 0
	}
	return units.Flow(math.Copysign(math.Sqrt(math.Abs(net)/s.a), net))
}

func (s SquareLine) lineLoss(q float64) (h, slope float64) {
	return finite(s.lift + s.a*q*math.Abs(q)), min(2*s.a*math.Abs(q), math.MaxFloat64)
}
