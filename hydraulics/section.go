package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Section is the cross-section of an open channel or of a pipe that may flow
// part-full. Depths are vertical above the lowest point; a depth outside zero
// to MaxDepth is held at the nearer of the two.
type Section interface {
	Validate() error
	Area(depth units.Length) units.Area
	WettedPerimeter(depth units.Length) units.Length
	TopWidth(depth units.Length) units.Length
	// MaxDepth is the depth at which a closed section is full, and +Inf for an
	// open one.
	MaxDepth() units.Length
}

// CircularSection is a pipe.
type CircularSection struct {
	Diameter units.Length `json:"diameter"`
}

// RectangularSection is an open channel with upright sides.
type RectangularSection struct {
	Width units.Length `json:"width"`
}

// TrapezoidalSection is an open channel with sloping sides. A bottom width of
// zero is a triangle, a side slope of zero a rectangle.
type TrapezoidalSection struct {
	BottomWidth units.Length `json:"bottomWidth"`
	SideSlope   float64      `json:"sideSlope"` // horizontal over vertical, 0 to 20
}

// Validate reports a diameter that is not above zero and at most 20 m.
func (s CircularSection) Validate() error {
	return bounded("hydraulics.CircularSection", "diameter", float64(s.Diameter), 0, 20, "m", "a diameter above zero; is it in millimetres?")
}

// Validate reports a width that is not above zero.
func (s RectangularSection) Validate() error {
	return bounded("hydraulics.RectangularSection", "width", float64(s.Width), 0, 1e5, "m", "a width above zero")
}

// Validate reports a width or side slope that makes no channel, joined.
func (s TrapezoidalSection) Validate() error {
	const fn = "hydraulics.TrapezoidalSection"
	err := errors.Join(
		units.Within(fn, "bottomWidth", float64(s.BottomWidth), 0, 1e5, "m"),
		units.Within(fn, "sideSlope", s.SideSlope, 0, 20, ""))
	if err == nil && s.BottomWidth == 0 && s.SideSlope == 0 {
		err = &units.InputError{Func: fn, Field: "bottomWidth", Value: 0, Unit: "m", Reason: "a channel needs a bottom width or a side slope"}
	}
	return err
}

// halfAngle is half the angle that the water surface spans at the centre.
func (s CircularSection) halfAngle(depth units.Length) float64 {
	return 2 * math.Asin(math.Sqrt(math.Max(0, math.Min(1, float64(depth/s.Diameter)))))
}

// Area returns the wetted area, by definition: D²/4 (α - sin α cos α) with α
// half the angle at the centre.
func (s CircularSection) Area(depth units.Length) units.Area {
	d := float64(s.Diameter)
	return units.Area(circleSegment(float64(depth), d))
}

// WettedPerimeter returns the length of the wetted arc, by definition: D α.
func (s CircularSection) WettedPerimeter(depth units.Length) units.Length {
	return s.Diameter * units.Length(s.halfAngle(depth))
}

// TopWidth returns the width of the water surface, by definition: D sin α. It
// is zero when the pipe is full.
func (s CircularSection) TopWidth(depth units.Length) units.Length {
	y, d := math.Max(0, float64(depth)), float64(s.Diameter)
	return units.Length(2 * math.Sqrt(math.Max(0, y*(d-y))))
}

// MaxDepth returns the diameter, by definition.
func (s CircularSection) MaxDepth() units.Length { return s.Diameter }

// Area returns the wetted area, by definition: b y.
func (s RectangularSection) Area(depth units.Length) units.Area {
	return s.Width.Times(max(0, depth))
}

// WettedPerimeter returns the length of bed and wetted sides, by definition:
// b + 2y.
func (s RectangularSection) WettedPerimeter(depth units.Length) units.Length {
	return s.Width + 2*max(0, depth)
}

// TopWidth returns the width of the water surface, by definition: b.
func (s RectangularSection) TopWidth(units.Length) units.Length { return s.Width }

// MaxDepth returns +Inf, by definition: the channel is open.
func (s RectangularSection) MaxDepth() units.Length { return units.Length(math.Inf(1)) }

// Area returns the wetted area, by definition: y (b + z y).
func (s TrapezoidalSection) Area(depth units.Length) units.Area {
	y := max(0, depth)
	return y.Times(s.BottomWidth + units.Length(s.SideSlope)*y)
}

// WettedPerimeter returns the length of bed and wetted sides, by definition:
// b + 2y √(1 + z²).
func (s TrapezoidalSection) WettedPerimeter(depth units.Length) units.Length {
	return s.BottomWidth + 2*max(0, depth)*units.Length(math.Sqrt(1+s.SideSlope*s.SideSlope))
}

// TopWidth returns the width of the water surface, by definition: b + 2 z y.
func (s TrapezoidalSection) TopWidth(depth units.Length) units.Length {
	return s.BottomWidth + 2*units.Length(s.SideSlope)*max(0, depth)
}

// MaxDepth returns +Inf, by definition: the channel is open.
func (s TrapezoidalSection) MaxDepth() units.Length { return units.Length(math.Inf(1)) }

// moment is the first moment of the wetted area about the water surface, the
// A times the depth of its centroid that the momentum of a jump needs, m3.
func moment(s Section, y float64) float64 {
	switch s := s.(type) {
	case RectangularSection:
		return float64(s.Width) * y * y / 2
	case TrapezoidalSection:
		return y * y * (float64(s.BottomWidth)/2 + s.SideSlope*y/3)
	case CircularSection:
		d := float64(s.Diameter)
		half := y - d/2 // chord above the centre
		c := math.Max(0, y*(d-y))
		return c*math.Sqrt(c)*2/3 + half*circleSegment(y, d)
	}
	// ∫ A dy, which is the same, for a section of a caller's own.
	var sum float64
	for i := range gaussSin2 {
		sum += gaussWeight[i] * float64(s.Area(units.Length(y*gaussSin2[i])))
	}
	return sum * y
}
