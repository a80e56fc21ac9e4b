package drawdown

import (
	"fmt"
	"math"

	"pondwright.example/units"
)

// CrowdProfile is the crowd at falling stages, with the two moments that size
// the basin and the pump.
type CrowdProfile struct {
	States       []CrowdState `json:"states"`       // from Start down
	PeakDensity  CrowdState   `json:"peakDensity"`  // where animals stand closest
	PeakDelivery CrowdState   `json:"peakDelivery"` // where most arrive per time
}

// Profile follows the crowd from its start to the lowest stage in steps of
// equal volume. outflow says what leaves at a stage: the rating of the outlet
// beside the tailwater of the hour, or a pump; nil is none.
//
// Source: [Crowd.At] at each stage. Errors: as Crowd.At, fewer than 2 or more
// than 100,000 steps, a lowest stage not below the start.
func (c Crowd) Profile(lowest units.Length, steps int, outflow func(stage units.Length) units.Flow) (CrowdProfile, error) {
	const fn = "drawdown.Crowd.Profile"
	if err := units.Within(fn, "steps", float64(steps), 2, 1e5, ""); err != nil {
		return CrowdProfile{}, err
	}
	if !(lowest < c.Start) {
		return CrowdProfile{}, &units.InputError{Func: fn, Field: "lowest", Value: float64(lowest), Unit: "m", Min: math.Inf(-1), Max: float64(c.Start),
			Reason: "the lowest stage must lie below the start"}
	}
	if _, err := c.At(lowest, 0); err != nil {
		return CrowdProfile{}, err
	}
	from, to := c.Pond.Volume(c.Start), c.Pond.Volume(lowest)
	p := CrowdProfile{States: make([]CrowdState, 0, steps+1)}
	for i := 0; i <= steps; i++ {
		h := lowest
		if i < steps {
			h = c.Pond.Stage(from + (to-from)*units.Volume(float64(i)/float64(steps)))
		}
		var q units.Flow
		if outflow != nil {
			q = outflow(h)
		}
		s, err := c.At(h, q)
		if err != nil {
			return CrowdProfile{}, fmt.Errorf("at stage %v: %w", h, err)
		}
		if i == 0 || s.Density > p.PeakDensity.Density {
			p.PeakDensity = s
		}
		if i == 0 || s.Delivery > p.PeakDelivery.Delivery {
			p.PeakDelivery = s
		}
		p.States = append(p.States, s)
	}
	return p, nil
}
