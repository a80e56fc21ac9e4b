package hydraulics

import (
	"fmt"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// StructuresInParallel are structures that pass water from the same pond to the
// same tailwater side by side: two pipes, a pipe and a spillway.
type StructuresInParallel struct{ parts []Structure }

// NewStructuresInParallel puts structures side by side; nil ones are refused.
func NewStructuresInParallel(parts ...Structure) (StructuresInParallel, error) {
	for i, p := range parts {
		if p == nil {
			return StructuresInParallel{}, &units.InputError{Func: "hydraulics.NewStructuresInParallel", Field: fmt.Sprintf("parts[%d]", i),
				Value: math.NaN(), Reason: "a structure is needed"}
		}
	}
	return StructuresInParallel{append([]Structure(nil), parts...)}, nil
}

// Discharge returns the sum of the flows, by definition.
func (s StructuresInParallel) Discharge(level, tailwater units.Length) units.Flow {
	var sum units.Flow
	for _, p := range s.parts {
		sum += p.Discharge(level, tailwater)
	}
	return sum
}

// Control names what governs the part that passes the most.
func (s StructuresInParallel) Control(level, tailwater units.Length) Control {
	var most units.Flow
	c := ControlNone
	for _, p := range s.parts {
		q := p.Discharge(level, tailwater)
		if k := p.Control(level, tailwater); c == ControlNone || max(q, -q) > most {
			c, most = k, max(q, -q)
		}
	}
	return c
}

// AppendNotices appends the notices of every part.
func (s StructuresInParallel) AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice {
	for _, p := range s.parts {
		if n, ok := p.(noticer); ok {
			dst = n.AppendNotices(dst, level, tailwater)
		}
	}
	return dst
}

// StructuresInSeries are two structures one behind the other, with still water
// between them: the boards of a monk and the pipe behind them, a screen and a
// gate. The velocity of the water in between is lost.
//
// Method: the level between them is the one at which both pass the same flow;
// the first passes less and the second more the higher it stands, so that there
// is one. It is found to full precision.
//
// Source: continuity, by definition; each flow has the source of its structure.
type StructuresInSeries struct{ first, second Structure }

// NewStructuresInSeries puts the second structure behind the first.
func NewStructuresInSeries(first, second Structure) (StructuresInSeries, error) {
	const fn = "hydraulics.NewStructuresInSeries"
	for i, p := range [...]Structure{first, second} {
		if p == nil {
			return StructuresInSeries{}, &units.InputError{Func: fn, Field: [...]string{"first", "second"}[i], Value: math.NaN(), Reason: "a structure is needed"}
		}
	}
	return StructuresInSeries{first, second}, nil
}

// Between returns the level of the water between the structures: that at which
// both pass the same flow, and the lowest such level where none flows.
func (s StructuresInSeries) Between(level, tailwater units.Length) units.Length {
	if s.first == nil || level == tailwater {
		return tailwater
	}
	diff := func(z float64) float64 {
		return float64(s.first.Discharge(level, units.Length(z)) - s.second.Discharge(units.Length(z), tailwater))
	}
	lo, hi := float64(min(level, tailwater)), float64(max(level, tailwater))
	flo, fhi := diff(lo), diff(hi)
	if flo <= 0 || fhi >= 0 {
		// Nothing flows through one of them, or all of the head is one's own.
		if flo <= 0 {
			return units.Length(lo)
		}
		return units.Length(hi)
	}
	z, err := root.FindBetween(diff, lo, hi, flo, fhi, 0)
	if err != nil {
		return tailwater
	}
	return units.Length(z)
}

// Discharge returns the flow through both.
func (s StructuresInSeries) Discharge(level, tailwater units.Length) units.Flow {
	if s.first == nil {
		return 0
	}
	z := s.Between(level, tailwater)
	a, b := s.first.Discharge(level, z), s.second.Discharge(z, tailwater)
	// They agree but for the last bit of z; where one of them is shut, none flows.
	if level >= tailwater {
		return min(a, b)
	}
	return max(a, b)
}

// Control names what governs: the first structure's control as long as the
// water between takes less than a hundredth of its flow, else the second's.
func (s StructuresInSeries) Control(level, tailwater units.Length) Control {
	if s.first == nil {
		return ControlNone
	}
	z := s.Between(level, tailwater)
	if s.Discharge(level, tailwater) == 0 {
		for _, c := range [...]Control{s.first.Control(level, tailwater), s.second.Control(level, tailwater)} {
			if c == ControlNone || c == ControlShut {
				return c
			}
		}
		return ControlNone
	}
	if level < tailwater {
		return ControlReversed
	}
	// The first governs as long as the water between takes less than a hundredth.
	if free, q := s.first.Discharge(level, tailwater), s.first.Discharge(level, z); q >= 0.99*free {
		return s.first.Control(level, z)
	}
	return s.second.Control(z, tailwater)
}

// AppendNotices appends the notices of both, each at its own levels.
func (s StructuresInSeries) AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice {
	if s.first == nil {
		return dst
	}
	z := s.Between(level, tailwater)
	if n, ok := s.first.(noticer); ok {
		dst = n.AppendNotices(dst, level, z)
	}
	if n, ok := s.second.(noticer); ok {
		dst = n.AppendNotices(dst, z, tailwater)
	}
	return dst
}
