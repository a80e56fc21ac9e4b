package pumpsizing

import (
	"errors"
	"time"

	"pondwright.example/internal/ode"
	"pondwright.example/units"
)

// OilStep is one moment of the oil's warming.
type OilStep struct {
	After        time.Duration            `json:"after"`
	Temperature  units.Temperature        `json:"temperature"`
	Viscosity    units.KinematicViscosity `json:"viscosity"`
	PumpPressure units.Pressure           `json:"pumpPressure"`
	Heat         units.Power              `json:"heat"`     // to the oil
	PTOPower     units.Power              `json:"ptoPower"` //
}

// OilCourse is the warming of the oil with the losses it has at each
// temperature.
type OilCourse struct {
	Steps        []OilStep      `json:"steps"`
	ReachesLimit bool           `json:"reachesLimit"` // within the time asked for
	TimeToLimit  time.Duration  `json:"timeToLimit"`  // zero when already there or not within that time
	Notices      []units.Notice `json:"notices,omitempty"`
}

// hottestOil ends a course: beyond it the oil's data mean nothing.
const hottestOil = 150.0 // C

// OilCourse follows the oil's temperature at a held flow q with the losses that
// its viscosity gives at each moment, from the reservoir's start for the time
// until, or to 150 C: cold oil loses in the lines, hot oil leaks (with loss
// models). Reservoir.Under is the closed form for constant losses.
//
// Validity: the oil is one lump; the pump's flow is held by the speed of the
// engine.
// Errors: those of Pump.ForFlow; ErrDomain for a drive without a reservoir, or
// times that are not positive or more than 10000 steps.
// Source: m c dT/dt = P(T) - UA (T - Ta), integrated by Dormand and Prince.
func (h HydraulicDrive) OilCourse(sys System, q units.Flow, of Oil, every, until time.Duration) (OilCourse, error) {
	const fn = "pumpsizing.HydraulicDrive.OilCourse"
	err := errors.Join(units.Positive(fn, "every", every.Seconds(), "s"), units.Positive(fn, "until", until.Seconds(), "s"))
	if err == nil && until/every > 10000 {
		err = &units.InputError{Func: fn, Field: "every", Value: every.Seconds(), Unit: "s", Min: until.Seconds() / 10000, Max: until.Seconds(), Reason: "more than 10000 steps"}
	}
	if h.d.Reservoir == nil {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "reservoir", Value: 0, Reason: "the drive has none"})
	}
	if err != nil {
		return OilCourse{}, err
	}
	p, err := h.pump.ForFlow(sys, q, h.d.WaterDensity)
	if isRefused(err) {
		return OilCourse{}, err
	}
	w := warming{h: h, pump: p, oil: of}
	out, werr := w.course(every.Seconds(), until.Seconds())
	out.Notices = append(append(out.Notices, p.Notices...), h.notices...)
	return out, errors.Join(err, werr)
}

// warming is the right-hand side of the oil's heat balance.
type warming struct {
	h    HydraulicDrive
	pump PumpDuty
	oil  Oil
	err  error
}

// at is the chain with the oil at temperature t, kelvin.
func (w *warming) at(t float64) DriveDuty {
	out := DriveDuty{Pump: w.pump}
	state, err := w.oil.At(units.KelvinScale(t))
	if !isRefused(err) {
		w.h.d.Oil = state
		err = w.h.chain(&out)
	}
	if isRefused(err) && w.err == nil {
		w.err = err
	}
	return out
}

// Derivatives writes the warming in K/s.
func (w *warming) Derivatives(_ float64, y, dydt []float64) {
	r := w.h.d.Reservoir
	dydt[0] = (w.at(y[0]).HeatToOil.Watts() - r.Loss.WattsPerKelvin()*(y[0]-r.Ambient.Kelvins())) / r.capacity()
}

func (w *warming) step(t, kelvin float64) OilStep {
	d := w.at(kelvin)
	return OilStep{After: seconds(t), Temperature: units.KelvinScale(kelvin), Viscosity: w.h.d.Oil.Viscosity,
		PumpPressure: d.PumpPressure, Heat: d.HeatToOil, PTOPower: d.PTOPower}
}

func (w *warming) course(every, until float64) (OilCourse, error) {
	var out OilCourse
	r := w.h.d.Reservoir
	limit := r.Limit.Kelvins()
	s, err := ode.New(1, 0, ode.Options{RelTol: 1e-8, AbsTol: []float64{1e-6}, MaxSteps: 100000})
	if err != nil {
		return out, err
	}
	t0 := r.Start.Kelvins()
	s.Start(w, 0, []float64{t0}, 0)
	out.Steps = append(out.Steps, w.step(0, t0))
	out.ReachesLimit = t0 >= limit
	events := []ode.Event{
		{G: func(_ float64, y []float64) float64 { return y[0] - limit }, Direction: 1},
		{G: func(_ float64, y []float64) float64 { return y[0] - (hottestOil + 273.15) }, Direction: 1},
	}
	for i := 1; s.T() < until && w.err == nil; {
		end := min(until, float64(i)*every)
		fired, err := s.Advance(end, events)
		if err != nil {
			return out, errors.Join(w.err, err)
		}
		if fired == 0 && !out.ReachesLimit {
			out.ReachesLimit, out.TimeToLimit = true, seconds(s.T())
		}
		if fired != 0 {
			out.Steps = append(out.Steps, w.step(s.T(), s.Y()[0]))
			i++
		}
		if fired == 1 {
			break
		}
	}
	w.judge(&out)
	return out, w.err
}

func (w *warming) judge(out *OilCourse) {
	first := out.Steps[0]
	out.Notices = w.h.d.Relief.notices(out.Notices, first.PumpPressure.Pascals())
	if nu := first.Viscosity.In(units.Centistokes); nu > coldOil*1e6 {
		out.Notices = note(out.Notices, CodeOilCold, units.Caution, "oil", nu, coldOil*1e6, "mm2/s",
			"oil too thick to start under load: warm it at idle first", commonPractice)
	}
	if out.ReachesLimit {
		lim := w.h.d.Reservoir.Limit.Celsius()
		out.Notices = note(out.Notices, CodeOilTemperature, units.Warning, "oil", lim, lim, "°C",
			"the oil reaches its limit of "+num(lim)+" °C after "+num(out.TimeToLimit.Minutes())+" min", "heat balance with the losses at each temperature")
	}
}
