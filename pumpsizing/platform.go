package pumpsizing

import (
	"pondwright.example/units"
)

// PlatformStep is one height of a platform sweep.
type PlatformStep struct {
	Raise units.Length `json:"raise"`          // above the platform height of the system
	Duty  PumpDuty     `json:"duty"`           // as far as it exists
	Fault string       `json:"fault,omitzero"` // why there is no duty, empty when there is one
	Err   error        `json:"-"`
}

// PlatformSweep answers what moving the dewatering platform up or down costs in
// flow at a fixed speed: one operating point per raise, in the order given. A
// height the pump cannot reach has its error and its minimum speed in the step,
// and does not end the sweep.
func (p Pump) PlatformSweep(sys System, raises []units.Length, n units.RotationalSpeed, rho units.Density) []PlatformStep {
	out := make([]PlatformStep, len(raises))
	for i, up := range raises {
		d, err := p.Operate(Raised{sys, up}, n, rho)
		out[i] = newStep(up, d, err)
	}
	return out
}

// PlatformSweepForFlow answers what the same flow costs in speed and power as
// the platform moves.
func (p Pump) PlatformSweepForFlow(sys System, raises []units.Length, q units.Flow, rho units.Density) []PlatformStep {
	out := make([]PlatformStep, len(raises))
	for i, up := range raises {
		d, err := p.ForFlow(Raised{sys, up}, q, rho)
		out[i] = newStep(up, d, err)
	}
	return out
}

func newStep(up units.Length, d PumpDuty, err error) PlatformStep {
	s := PlatformStep{Raise: units.Length(finite(up.Metres())), Duty: d, Err: err}
	if err != nil {
		s.Fault = err.Error()
	}
	return s
}
