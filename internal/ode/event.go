package ode

// Event is a function of time and state whose change of sign ends a step.
type Event struct {
	G         func(t float64, y []float64) float64
	Direction int // +1 only rising through zero, -1 only falling, 0 both
}

// None is returned by Advance when the end was reached without an event.
const None = -1

// Advance integrates to end or to the first event, whichever comes first, and
// returns the index of the event or None. T and Y are then at the event, found
// on the dense output to full precision. The caller may change law or state,
// calls Restart if it did, and advances again; the event that fired is not
// reported a second time for the same crossing.
//
// Signs are compared at the ends of a step and at its thirds, so two crossings
// within a third of a step can pass unseen; MaxStep bounds that.
func (s *Solver) Advance(end float64, events []Event) (int, error) {
	for s.t != end {
		ta := s.t
		if err := s.Step(end); err != nil {
			return None, err
		}
		for third := 1; third <= 3; third++ {
			tb := s.told + float64(third)/3*(s.t-s.told)
			if third == 3 {
				tb = s.t
			}
			hit, at := None, tb
			for i, e := range events {
				from := ta
				if i == s.fired { // it is zero at ta, up to rounding: look just past it
					from += 1e-4 * (tb - ta)
				}
				ga, gb := s.value(e, from), s.value(e, tb)
				if ga == 0 || (gb != 0 && (ga > 0) == (gb > 0)) || !wanted(e.Direction, ga) {
					continue
				}
				t, err := s.Locate(e.G, from, tb, ga, gb, 0)
				if err != nil {
					return None, err
				}
				if hit == None || (t-at)*s.dir < 0 {
					hit, at = i, t
				}
			}
			if hit != None {
				s.fired = hit
				s.Truncate(at)
				return hit, nil
			}
			ta, s.fired = tb, None
		}
	}
	return None, nil
}

func (s *Solver) value(e Event, t float64) float64 {
	s.At(t, s.probe)
	return e.G(t, s.probe)
}

func wanted(direction int, before float64) bool {
	return direction == 0 || (direction > 0) == (before < 0)
}
