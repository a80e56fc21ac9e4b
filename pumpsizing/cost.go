package pumpsizing

import (
	"errors"
	"math"
	"time"

	"pondwright.example/units"
)

// LiftEnergy returns the energy that lifting a mass of water by a head takes at
// an overall efficiency, wire or fuel to water: m g H/e. One tonne by one metre
// takes 2.724 Wh at efficiency one.
//
// Errors: ErrDomain for a mass that is not positive, a negative head or an
// efficiency outside (0,1].
// Source: by definition of work.
func LiftEnergy(m units.Mass, h units.Length, efficiency float64) (units.Energy, error) {
	const fn = "pumpsizing.LiftEnergy"
	err := errors.Join(units.Positive(fn, "m", m.Kilograms(), "kg"), units.NonNegative(fn, "h", h.Metres(), "m"), fraction(fn, "efficiency", efficiency))
	if err != nil {
		return nan[units.Energy](), err
	}
	return sound(fn, units.Energy(m.Kilograms()*gravity*h.Metres()/efficiency))
}

// WaterPerAnimals returns the mass of water moved with a mass of animals that
// make up the fraction c of what goes through the pump by mass: (1 - c)/c.
// Flushes and water pumped again come on top.
//
// Errors: ErrDomain for a fraction outside (0,1).
// Source: mass balance.
func WaterPerAnimals(c float64) (float64, error) {
	if err := fraction("pumpsizing.WaterPerAnimals", "c", c); err != nil {
		return math.NaN(), err
	}
	if c == 1 {
		return math.NaN(), &units.InputError{Func: "pumpsizing.WaterPerAnimals", Field: "c", Value: c, Min: 0, Max: 1, Reason: "a pump needs water with the animals"}
	}
	return sound("pumpsizing.WaterPerAnimals", (1-c)/c)
}

// HarvestCost is what running a pump costs.
type HarvestCost struct {
	Fuel        units.Flow    `json:"fuel"`        // zero for electricity
	FuelPrice   float64       `json:"fuelPrice"`   // per litre
	Power       units.Power   `json:"power"`       // electric; zero for fuel
	PowerPrice  float64       `json:"powerPrice"`  // per kWh
	Workers     float64       `json:"workers"`     //
	Wage        float64       `json:"wage"`        // per hour and worker
	MachineRate float64       `json:"machineRate"` // hire and wear, per hour
	Duration    time.Duration `json:"duration"`
	Animals     units.Mass    `json:"animals"`
}

// PerTonne returns the cost per tonne of animals, in the currency of the
// prices:
//
//	(fuel x price + power x price + workers x wage + machine) x hours / tonnes
//
// Energy is mostly the small part and labour the large one.
//
// Errors: ErrDomain for a mass or duration that is not positive, or negative
// prices, flows or numbers. A price of zero is allowed.
// Source: by definition.
func (c HarvestCost) PerTonne() (float64, error) {
	const fn = "pumpsizing.HarvestCost.PerTonne"
	err := errors.Join(
		units.NonNegative(fn, "fuel", c.Fuel.In(units.LitresPerHour), "L/h"), units.NonNegative(fn, "fuelPrice", c.FuelPrice, "per L"),
		units.NonNegative(fn, "power", c.Power.In(units.Kilowatts), "kW"), units.NonNegative(fn, "powerPrice", c.PowerPrice, "per kWh"),
		units.NonNegative(fn, "workers", c.Workers, ""), units.NonNegative(fn, "wage", c.Wage, "per h"), units.NonNegative(fn, "machineRate", c.MachineRate, "per h"),
		units.Positive(fn, "duration", c.Duration.Hours(), "h"), units.Positive(fn, "animals", c.Animals.In(units.Tonnes), "t"))
	if err != nil {
		return math.NaN(), err
	}
	rate := c.Fuel.In(units.LitresPerHour)*c.FuelPrice + c.Power.In(units.Kilowatts)*c.PowerPrice + c.Workers*c.Wage + c.MachineRate
	return sound(fn, rate*c.Duration.Hours()/c.Animals.In(units.Tonnes))
}
