package units

import "time"

// Products and quotients of heat, solutes and animals.

// Times returns the heat capacity of mass y.
func (x SpecificHeat) Times(y Mass) HeatCapacity { return HeatCapacity(x) * HeatCapacity(y) }

// TimesDelta returns the heat per mass for a temperature change y.
func (x SpecificHeat) TimesDelta(y TempDelta) SpecificEnergy {
	return SpecificEnergy(x) * SpecificEnergy(y)
}

// Times returns the heat for a temperature change y.
func (x HeatCapacity) Times(y TempDelta) Energy { return Energy(x) * Energy(y) }

// Rate returns the power for a temperature change at rate y.
func (x HeatCapacity) Rate(y TempRate) Power { return Power(x) * Power(y) }

// OverCapacity returns the temperature change heat x makes in heat capacity y.
func (x Energy) OverCapacity(y HeatCapacity) TempDelta { return TempDelta(x) / TempDelta(y) }

// Times returns the heat to melt, freeze or otherwise change mass y.
func (x SpecificEnergy) Times(y Mass) Energy { return Energy(x) * Energy(y) }

// Rate returns the power that changes mass flow y, such as an ice machine's.
func (x SpecificEnergy) Rate(y MassFlow) Power { return Power(x) * Power(y) }

// Over returns the mass that heat x melts, freezes or otherwise changes at y
// per mass.
func (x Energy) Over(y SpecificEnergy) Mass { return Mass(x) / Mass(y) }

// PerMass returns energy x per mass y.
func (x Energy) PerMass(y Mass) SpecificEnergy { return SpecificEnergy(x) / SpecificEnergy(y) }

// Times returns the heat flow at temperature difference y.
func (x ThermalConductance) Times(y TempDelta) Power { return Power(x) * Power(y) }

// Times returns the conductance of area y.
func (x HeatTransferCoefficient) Times(y Area) ThermalConductance {
	return ThermalConductance(x) * ThermalConductance(y)
}

// Flux returns the heat flux at temperature difference y.
func (x HeatTransferCoefficient) Flux(y TempDelta) HeatFlux { return HeatFlux(x) * HeatFlux(y) }

// Over returns the heat transfer coefficient of a layer of thickness y.
func (x ThermalConductivity) Over(y Length) HeatTransferCoefficient {
	return HeatTransferCoefficient(x) / HeatTransferCoefficient(y)
}

// Diffusivity returns the thermal diffusivity at density y and specific heat z.
func (x ThermalConductivity) Diffusivity(y Density, z SpecificHeat) Diffusivity {
	return Diffusivity(float64(x) / (float64(y) * float64(z)))
}

// Times returns the heat flow through area y.
func (x HeatFlux) Times(y Area) Power { return Power(x) * Power(y) }

// PerArea returns power x spread over area y.
func (x Power) PerArea(y Area) HeatFlux { return HeatFlux(x) / HeatFlux(y) }

// Per returns the mean rate of temperature change x over d.
func (x TempDelta) Per(d time.Duration) TempRate { return TempRate(float64(x) / d.Seconds()) }

// Times returns the temperature change at rate x over d.
func (x TempRate) Times(d time.Duration) TempDelta { return TempDelta(float64(x) * d.Seconds()) }

// Times returns the mass dissolved or suspended in volume y.
func (x Concentration) Times(y Volume) Mass { return Mass(x) * Mass(y) }

// Flow returns the mass flow carried by flow y.
func (x Concentration) Flow(y Flow) MassFlow { return MassFlow(x) * MassFlow(y) }

// Concentration returns mass x dissolved or suspended in volume y.
func (x Mass) Concentration(y Volume) Concentration { return Concentration(x) / Concentration(y) }

// Fraction returns the mass fraction of concentration x in a solution of
// density y.
func (x Concentration) Fraction(y Density) MassFraction { return MassFraction(x) / MassFraction(y) }

// Concentration returns the concentration of mass fraction x in a solution of
// density y.
func (x MassFraction) Concentration(y Density) Concentration {
	return Concentration(x) * Concentration(y)
}

// Times returns the part's mass in mass y of the whole.
func (x MassFraction) Times(y Mass) Mass { return Mass(x) * y }

// Fraction returns mass x as a part of the whole y.
func (x Mass) Fraction(whole Mass) MassFraction { return MassFraction(x / whole) }

// Times returns the mass flow of mass y of animals.
func (x MassSpecificRate) Times(y Mass) MassFlow { return MassFlow(x) * MassFlow(y) }

// Times returns the mass flow over area y.
func (x ArealRate) Times(y Area) MassFlow { return MassFlow(x) * MassFlow(y) }

// Times returns the mass on area y.
func (x ArealDensity) Times(y Area) Mass { return Mass(x) * Mass(y) }

// PerArea returns mass x per area y.
func (x Mass) PerArea(y Area) ArealDensity { return ArealDensity(x) / ArealDensity(y) }

// Times returns the mass of animals in a tank of volume y.
func (x LoadPerTankVolume) Times(y Volume) Mass { return Mass(x) * Mass(y) }

// PerTankVolume returns mass x of animals per volume y of the tank, water and
// animals together.
func (x Mass) PerTankVolume(y Volume) LoadPerTankVolume {
	return LoadPerTankVolume(x) / LoadPerTankVolume(y)
}

// Times returns the mass of animals carried in volume y of water.
func (x LoadPerWaterVolume) Times(y Volume) Mass { return Mass(x) * Mass(y) }

// PerWaterVolume returns mass x of animals per volume y of the water alone.
func (x Mass) PerWaterVolume(y Volume) LoadPerWaterVolume {
	return LoadPerWaterVolume(x) / LoadPerWaterVolume(y)
}

// Times returns the number of animals in mass y.
func (x CountPerMass) Times(y Mass) float64 { return float64(x) * float64(y) }

// MeanMass returns the mean mass of one animal.
func (x CountPerMass) MeanMass() Mass { return Mass(1 / float64(x)) }

// CountPerMass returns the number per mass of animals of mean mass x.
func (x Mass) CountPerMass() CountPerMass { return CountPerMass(1 / float64(x)) }

// Times returns the number of animals on area y.
func (x CountPerArea) Times(y Area) float64 { return float64(x) * float64(y) }

// Density returns the mass per area of animals of mean mass y.
func (x CountPerArea) Density(mean Mass) ArealDensity { return ArealDensity(x) * ArealDensity(mean) }

// Times returns the expected fraction at rate x over d, without compounding.
func (x Rate) Times(d time.Duration) float64 { return float64(x) * d.Seconds() }

// Period returns the time of one cycle.
func (x Frequency) Period() (time.Duration, error) {
	return elapsed("units.Frequency.Period", 1, "cycle", float64(x), "Hz")
}
