package hydraulics

import "fmt"

// gravity is the standard acceleration of free fall, m/s2 (exact; CGPM 1901).
const gravity = 9.80665

// Control names what limits the flow through a structure at one pair of levels.
// Rating tables carry it beside each flow. It is [ControlNone], [ControlShut],
// [ControlWeir], [ControlDrownedWeir], [ControlOrifice],
// [ControlDrownedOrifice], [ControlGate], [ControlDrownedGate], [ControlInlet],
// [ControlDrownedInlet], [ControlPartFullPipe], [ControlFullPipe],
// [ControlCrest] or [ControlReversed].
type Control uint8

// The controls a structure can be under.
const (
	ControlNone           Control = iota // no water reaches it, or no head across it
	ControlShut                          // a flap or board holds the tailwater back
	ControlWeir                          // free overfall over a crest
	ControlDrownedWeir                   // overfall slowed by the tailwater
	ControlOrifice                       // opening with free outflow
	ControlDrownedOrifice                // opening under the tailwater
	ControlGate                          // free jet under a gate
	ControlDrownedGate                   // jet under a gate, covered by the tailwater
	ControlInlet                         // critical depth at the mouth of a pipe
	ControlDrownedInlet                  // the same, slowed by the tailwater
	ControlPartFullPipe                  // the length of a pipe that is not full: open flow, or the pond below its crown
	ControlFullPipe                      // pressure flow the length of a pipe, the pond above its crown
	ControlCrest                         // water boiling in the crest of a siphon
	ControlReversed                      // flow from the tailwater into the pond
)

var controlNames = [...]string{"no flow", "shut", "weir", "drowned weir", "orifice", "drowned orifice",
	"gate", "drowned gate", "inlet", "drowned inlet", "part-full pipe", "full pipe", "crest", "reversed"}

// String returns the control in words, such as "full pipe".
func (c Control) String() string {
	if int(c) < len(controlNames) {
		return controlNames[c]
	}
	return fmt.Sprintf("Control(%d)", uint8(c))
}

// MarshalText writes the control's words.
func (c Control) MarshalText() ([]byte, error) {
	if int(c) >= len(controlNames) {
		return nil, fmt.Errorf("hydraulics.Control: %d is not a control", uint8(c))
	}
	return []byte(controlNames[c]), nil
}

// UnmarshalText reads the control's words.
func (c *Control) UnmarshalText(text []byte) error {
	for i, n := range controlNames {
		if string(text) == n {
			*c = Control(i)
			return nil
		}
	}
	return fmt.Errorf("hydraulics.Control: %q is not a control", text)
}
