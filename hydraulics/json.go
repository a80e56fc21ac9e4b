package hydraulics

import (
	"encoding/json"
	"fmt"
	"math"

	"pondwright.example/units"
)

// sectionJSON is one of the package's sections in JSON: its shape in a word and
// its sizes.
type sectionJSON struct {
	Shape       string       `json:"shape"` // circular, rectangular or trapezoidal
	Diameter    units.Length `json:"diameter,omitzero"`
	Width       units.Length `json:"width,omitzero"`
	BottomWidth units.Length `json:"bottomWidth,omitzero"`
	SideSlope   float64      `json:"sideSlope,omitzero"`
}

// plainReach is a ChannelReach without its methods and, in JSON, its section.
type plainReach ChannelReach

type reachJSON struct {
	Section *sectionJSON `json:"section"`
	plainReach
}

// MarshalJSON writes the reach with the shape of its section in a word; a
// section of the caller's own type is refused.
func (r ChannelReach) MarshalJSON() ([]byte, error) {
	out := reachJSON{plainReach: plainReach(r)}
	switch s := r.Section.(type) {
	case nil:
	case CircularSection:
		out.Section = &sectionJSON{Shape: "circular", Diameter: s.Diameter}
	case RectangularSection:
		out.Section = &sectionJSON{Shape: "rectangular", Width: s.Width}
	case TrapezoidalSection:
		out.Section = &sectionJSON{Shape: "trapezoidal", BottomWidth: s.BottomWidth, SideSlope: s.SideSlope}
	default:
		return nil, fmt.Errorf("hydraulics.ChannelReach: a section of type %T has no JSON", s)
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads what MarshalJSON writes.
func (r *ChannelReach) UnmarshalJSON(text []byte) error {
	in := reachJSON{plainReach: plainReach(*r)}
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	if s := in.Section; s != nil {
		switch s.Shape {
		case "circular":
			in.plainReach.Section = CircularSection{Diameter: s.Diameter}
		case "rectangular":
			in.plainReach.Section = RectangularSection{Width: s.Width}
		case "trapezoidal":
			in.plainReach.Section = TrapezoidalSection{BottomWidth: s.BottomWidth, SideSlope: s.SideSlope}
		default:
			return fmt.Errorf(`hydraulics.ChannelReach: section.shape is %q: want "circular", "rectangular" or "trapezoidal"`, s.Shape)
		}
	}
	*r = ChannelReach(in.plainReach)
	return nil
}

// rangeJSON is a PublishedRange in JSON, which knows no infinity: an open side
// is left out.
type rangeJSON struct {
	Code     string   `json:"code"`
	Quantity string   `json:"quantity"`
	Low      *float64 `json:"low,omitempty"`
	High     *float64 `json:"high,omitempty"`
	Unit     string   `json:"unit,omitzero"`
	Source   string   `json:"source"`
}

// MarshalJSON writes the range without its open sides.
func (r PublishedRange) MarshalJSON() ([]byte, error) {
	out := rangeJSON{Code: r.Code, Quantity: r.Quantity, Unit: r.Unit, Source: r.Source}
	if !math.IsInf(r.Low, -1) {
		out.Low = &r.Low
	}
	if !math.IsInf(r.High, 1) {
		out.High = &r.High
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads a range; a side that is not given is open.
func (r *PublishedRange) UnmarshalJSON(text []byte) error {
	var in rangeJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	*r = PublishedRange{Code: in.Code, Quantity: in.Quantity, Low: math.Inf(-1), High: math.Inf(1), Unit: in.Unit, Source: in.Source}
	if in.Low != nil {
		r.Low = *in.Low
	}
	if in.High != nil {
		r.High = *in.High
	}
	return nil
}
