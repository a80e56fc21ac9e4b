package transport

import (
	"errors"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Haul is one load of live animals on the road.
type Haul struct {
	Tank             Tank               `json:"tank"` // all tanks together, loaded alike
	Product          units.Mass         `json:"product"`
	FishDensity      units.Density      `json:"fishDensity"`      // zero means DefaultFishDensity
	FishSpecificHeat units.SpecificHeat `json:"fishSpecificHeat"` // zero means FishSpecificHeat
	Duration         time.Duration      `json:"duration"`         // first animal in to last animal out

	Temperature units.Temperature       `json:"temperature"` // of the water at loading
	Oxygen      units.Concentration     `json:"oxygen"`
	Ammonia     units.Concentration     `json:"ammonia"` // total ammonia nitrogen
	PH          float64                 `json:"ph"`      // on NBS buffers in fresh water, total scale in seawater
	Alkalinity  units.Alkalinity        `json:"alkalinity"`
	Salinity    units.PracticalSalinity `json:"salinity"`
	Pressure    units.AbsolutePressure  `json:"pressure"` // zero means StandardAtmosphere

	Demand          DemandLaw `json:"demand"`
	CarbonQuotient  float64   `json:"carbonQuotient"`  // mol CO2 per mol O2; zero means 0.9
	AmmoniaQuotient float64   `json:"ammoniaQuotient"` // mol N per mol O2; zero means 0.1

	Conductance units.ThermalConductance `json:"conductance"` // of all tanks
	Ambient     units.Temperature        `json:"ambient"`     // needed when Conductance is not zero
	Sun         units.TempDelta          `json:"sun"`
	Agitators   units.Power              `json:"agitators"` // all of it ends as heat

	OxygenFlow       units.MassFlow `json:"oxygenFlow"`       // let out of the store, to 10 kg/s
	OxygenEfficiency float64        `json:"oxygenEfficiency"` // share that dissolves; needed when OxygenFlow is not zero
	OxygenStore      units.Mass     `json:"oxygenStore"`      // on board; zero means not checked
	Reserve          float64        `json:"reserve"`          // share of the need carried on top; zero means 1, twice the need
	OxygenKLa        units.Rate     `json:"oxygenKLa"`        // transfer of oxygen with air by agitators, to 1/s
	CarbonKLa        units.Rate     `json:"carbonKLa"`        // stripping of CO2 by vents and agitators, to 1/s

	Limits HaulLimits `json:"limits"`
}

// HaulLimits are the user's limits; a zero field sets none. They differ by
// species, age and what the animals are used to, and local rules may set them.
type HaulLimits struct {
	Oxygen  units.Concentration `json:"oxygen"`  // least
	CO2     units.Concentration `json:"co2"`     // most, free
	Ammonia units.Concentration `json:"ammonia"` // most, un-ionised as N
	Warmest units.Temperature   `json:"warmest,omitzero"`
	Coldest units.Temperature   `json:"coldest,omitzero"`
	Source  string              `json:"source,omitempty"`
}

// CatfishHaulLimits is a starting point for channel catfish: oxygen above 5 mg/L
// (common practice), CO2 below 20 mg/L if possible (Wynne 2007), un-ionised
// ammonia below 0.5 mg/L on a short haul (from memory).
func CatfishHaulLimits() HaulLimits {
	return HaulLimits{Oxygen: 5e-3, CO2: 20e-3, Ammonia: 0.5e-3,
		Source: "Wynne (2007), World Aquaculture, March, pp. 41-43; oxygen common practice; ammonia from memory"}
}

// TroutHaulLimits is a starting point for trout: oxygen above 7 mg/L (Piper et
// al. 1982), CO2 below 40 mg/L (from memory) and un-ionised ammonia below 0.1
// mg/L, since 0.13 to 0.14 mg/L for six hours and longer harms trout (Piper et
// al. 1982, p. 357).
func TroutHaulLimits() HaulLimits {
	return HaulLimits{Oxygen: 7e-3, CO2: 40e-3, Ammonia: 0.1e-3,
		Source: "Piper et al. (1982), Fish Hatchery Management, for oxygen and, p. 357, ammonia; CO2 from memory"}
}

// HaulPoint is the water at one time of a haul.
type HaulPoint struct {
	After       time.Duration       `json:"after"`
	Temperature units.Temperature   `json:"temperature"`
	Oxygen      units.Concentration `json:"oxygen"`
	Ammonia     units.Concentration `json:"ammonia"`   // total ammonia nitrogen
	Unionised   units.Concentration `json:"unionised"` // NH3-N
	PH          float64             `json:"ph"`
	CO2         units.Concentration `json:"co2"`        // free
	Alkalinity  units.Alkalinity    `json:"alkalinity"` // raised by the ammonia
}

// LimitTime is when a limit is passed.
type LimitTime struct {
	Limit string        `json:"limit"` // oxygen, carbon dioxide, ammonia, warmth or cold
	After time.Duration `json:"after"`
	Found bool          `json:"found"` // false when it is not passed within three days
}

// HaulPlan is a haul worked out.
type HaulPlan struct {
	Loaded Loaded      `json:"loaded"`
	Course []HaulPoint `json:"course"` // at loading, at twelve even steps and so at the end
	End    HaulPoint   `json:"end"`

	Limits []LimitTime   `json:"limits"` // of those set
	Binds  string        `json:"binds"`  // the limit passed first; empty when none is within three days
	Hours  time.Duration `json:"hours"`  // until then

	OxygenUsed units.Mass     `json:"oxygenUsed"` // by the animals
	OxygenOut  units.Mass     `json:"oxygenOut"`  // let out of the store over the haul
	HoldFlow   units.MassFlow `json:"holdFlow"`   // to let out so that oxygen holds against the largest demand, air transfer left out
	Carry      units.Mass     `json:"carry"`      // store for the haul with its reserve
	Alarm      time.Duration  `json:"alarm"`      // from the starting oxygen to the limit if all supply stops
	CO2Made    units.Mass     `json:"co2Made"`
	Excreted   units.Mass     `json:"excreted"` // total ammonia nitrogen

	Wall      units.Power     `json:"wall"`      // heat through the walls at the start
	Metabolic units.Power     `json:"metabolic"` // by the animals at the start
	Stirring  units.Power     `json:"stirring"`
	Warming   units.TempDelta `json:"warming"` // over the haul
	Ice       units.Mass      `json:"ice"`     // to hold the starting temperature instead

	Notices []units.Notice `json:"notices"`
}

// Validate reports every field that cannot be a haul.
func (h Haul) Validate() error {
	const fn = "transport.Haul"
	errs := []error{
		units.AtField("tank", h.Tank.Validate()),
		bounds.Positive(fn, "product", float64(h.Product), "kg"),
		units.Within(fn, "fishSpecificHeat", float64(h.FishSpecificHeat)/1e3, 0, 4.2, "kJ/(kg K)"),
		units.Within(fn, "duration", h.Duration.Hours(), 0, 2400, "h"),
		units.Within(fn, "temperature", h.Temperature.Celsius(), 0, 40, "°C"),
		units.Within(fn, "oxygen", float64(h.Oxygen)*1e3, 0, 60, "mg/L"),
		units.Within(fn, "ammonia", float64(h.Ammonia)*1e3, 0, 500, "mg/L"),
		units.Within(fn, "ph", h.PH, 4, 10, ""),
		units.Within(fn, "alkalinity", float64(h.Alkalinity), 0.02, 20, "meq/L"),
		units.Within(fn, "salinity", float64(h.Salinity), 0, 42, "psu"),
		units.AtField("demand", h.Demand.validate()),
		bounds.Positive(fn, "demand.at", float64(h.Demand.At)*3.6e9, "mg/(kg h)"),
		units.Within(fn, "carbonQuotient", h.CarbonQuotient, 0, 2, "mol/mol"),
		units.Within(fn, "ammoniaQuotient", h.AmmoniaQuotient, 0, 0.5, "mol/mol"),
		bounds.Amount(fn, "conductance", float64(h.Conductance), "W/K"),
		units.Within(fn, "sun", float64(h.Sun), 0, 40, "K"),
		units.Within(fn, "agitators", float64(h.Agitators), -1e9, 1e9, "W"),
		units.Within(fn, "oxygenFlow", float64(h.OxygenFlow), 0, mostOxygen, "kg/s"),
		bounds.Amount(fn, "oxygenStore", float64(h.OxygenStore), "kg"),
		units.Within(fn, "reserve", h.Reserve, 0, 10, ""),
		units.Within(fn, "oxygenKLa", float64(h.OxygenKLa), 0, fastestKLa, "1/s"),
		units.Within(fn, "carbonKLa", float64(h.CarbonKLa), 0, fastestKLa, "1/s"),
		bounds.Amount(fn, "limits.oxygen", float64(h.Limits.Oxygen)*1e3, "mg/L"),
		bounds.Amount(fn, "limits.co2", float64(h.Limits.CO2)*1e3, "mg/L"),
		bounds.Amount(fn, "limits.ammonia", float64(h.Limits.Ammonia)*1e3, "mg/L"),
	}
	if h.Pressure != 0 {
		errs = append(errs, units.Within(fn, "pressure", float64(h.Pressure)/101325, 0.4, 1.2, "atm"))
	}
	if h.Conductance != 0 {
		errs = append(errs, units.Within(fn, "ambient", h.Ambient.Celsius(), -40, 60, "°C"))
	}
	if h.OxygenFlow != 0 {
		errs = append(errs, units.Within(fn, "oxygenEfficiency", h.OxygenEfficiency, 0.01, 1, ""))
	}
	return errors.Join(errs...)
}
