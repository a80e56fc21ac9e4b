package icing

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Store is an ice store fed by a machine.
type Store struct {
	Start      units.Mass     `json:"start"`
	Capacity   units.Mass     `json:"capacity"`
	Production units.MassFlow `json:"production"`
	MeltRate   units.Rate     `json:"meltRate"` // share of the ice in store that melts per time
	Step       time.Duration  `json:"step"`     // length of one entry of the demand; zero means 1 h
}

// StoreRun is how a store fares under a demand.
type StoreRun struct {
	Levels    []units.Mass   `json:"levels"`    // at the end of each step
	Least     units.Mass     `json:"least"`     // smallest of them and the start
	End       units.Mass     `json:"end"`       // last of them
	Shortfall units.Mass     `json:"shortfall"` // demand that was not met, in total
	Lost      units.Mass     `json:"lost"`      // production that found the store full
	Notices   []units.Notice `json:"notices"`
}

// Run returns the level of the store step by step under a demand per step:
//
//	S' = S·(1 - f) + P - D, held between 0 and the capacity
//
// Demand beyond the ice at hand is a shortfall and is not made up later.
//
// Validity: start within the capacity, demands not negative, at most 1e6 steps;
// errors are ErrDomain and name the step.
//
// Source: mass balance.
func (s Store) Run(demand []units.MassFlow) (StoreRun, error) {
	const fn = "icing.Store"
	step := s.Step
	if step == 0 {
		step = time.Hour
	}
	dt := step.Seconds()
	melt := -math.Expm1(-float64(s.MeltRate) * dt)
	err := errors.Join(
		bounds.Positive(fn, "capacity", float64(s.Capacity), "kg"),
		units.Within(fn, "start", float64(s.Start), 0, max(0, float64(s.Capacity)), "kg"),
		bounds.Amount(fn, "production", float64(s.Production), "kg/s"),
		bounds.Amount(fn, "meltRate", float64(s.MeltRate), "1/s"),
		bounds.Positive(fn, "step", dt, "s"),
		units.Within(fn, "len(demand)", float64(len(demand)), 1, 1e6, "steps"))
	if err != nil {
		return StoreRun{}, err
	}
	for i, d := range demand {
		if err := bounds.Amount(fn, fmt.Sprintf("demand[%d]", i), float64(d), "kg/s"); err != nil {
			return StoreRun{}, err
		}
	}
	run := StoreRun{Levels: make([]units.Mass, len(demand)), Least: s.Start}
	level := float64(s.Start)
	for i, d := range demand {
		level = level*(1-melt) + (float64(s.Production)-float64(d))*dt
		if level < 0 {
			run.Shortfall -= units.Mass(level)
			level = 0
		}
		if over := level - float64(s.Capacity); over > 0 {
			run.Lost += units.Mass(over)
			level = float64(s.Capacity)
		}
		run.Levels[i] = units.Mass(level)
		run.Least = min(run.Least, units.Mass(level))
	}
	run.End = units.Mass(level)
	if run.Shortfall > 0 {
		run.Notices = append(run.Notices, units.Notice{Code: CodeShort, Severity: units.Warning, Field: "start",
			Value: float64(run.Shortfall), Limit: 0, Unit: "kg",
			Message: fmt.Sprintf("the store runs dry: %.0f kg of demand are not met", float64(run.Shortfall))})
	}
	if run.Lost > 0 {
		run.Notices = append(run.Notices, units.Notice{Code: CodeStoreOverflow, Severity: units.Info, Field: "capacity",
			Value: float64(run.Lost), Limit: 0, Unit: "kg",
			Message: "the store is full at times and the machine stands idle"})
	}
	return run, nil
}

// LeastStart returns the smallest start that leaves no shortfall under the
// demand, found on the line of the balance; a demand that even a full store
// cannot meet is ErrNoSolution with NaN. Errors and source as [Store.Run].
func (s Store) LeastStart(demand []units.MassFlow) (units.Mass, error) {
	s.Start = max(0, s.Capacity)
	full, err := s.Run(demand)
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	if full.Shortfall > 0 {
		return units.Mass(math.NaN()), &units.InputError{Func: "icing.Store.LeastStart", Field: "capacity", Value: float64(s.Capacity), Unit: "kg",
			Min: 0, Max: math.Inf(1), Kind: units.ErrNoSolution,
			Reason: fmt.Sprintf("a full store still falls short by %.0f kg", float64(full.Shortfall))}
	}
	// Going backwards, the level needed before a step is what the step takes
	// more than it makes, on top of what is needed after it.
	step := s.Step
	if step == 0 {
		step = time.Hour
	}
	dt := step.Seconds()
	keep := math.Exp(-float64(s.MeltRate) * dt)
	need := 0.0
	for i := len(demand) - 1; i >= 0; i-- {
		need = max(0, (need+(float64(demand[i])-float64(s.Production))*dt)/keep)
	}
	return units.Mass(need), nil
}

// MakingHeat returns the heat in J to be taken from one kilogram of water at t
// to make ice at iceTemp: c_w·T + L + c_i·|T_i|, with this package's default
// properties; pass latent as zero for the default. A machine uses 40 to 85 kWh
// of electricity per tonne (from memory).
//
// Validity: water 0 to 40 °C, ice -60 to 0 °C, latent 250 to 340 kJ/kg; errors
// are ErrDomain with NaN.
//
// Source: by definition of the specific heats.
func MakingHeat(t, iceTemp units.Temperature, latent units.SpecificEnergy) (units.SpecificEnergy, error) {
	const fn = "icing.MakingHeat"
	ice := Ice{Temperature: iceTemp, LatentHeat: latent}
	if err := waterTemperature(fn, "t", t.Celsius()); err != nil {
		return units.SpecificEnergy(math.NaN()), err
	}
	if err := ice.Validate(); err != nil {
		return units.SpecificEnergy(math.NaN()), err
	}
	return units.SpecificEnergy(ice.cooling(t.Celsius(), float64(DefaultWaterSpecificHeat))), nil
}
