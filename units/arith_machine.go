package units

import (
	"math"
	"time"
)

// Products and quotients of pressures, forces, shafts and electricity.

// Pressure returns the pressure under head x of a fluid of density y, at
// standard gravity.
func (x Length) Pressure(y Density) Pressure { return Pressure(float64(x) * float64(y) * gravity) }

// Head returns the head of a fluid of density y that makes the pressure x, at
// standard gravity.
func (x Pressure) Head(y Density) Length { return Length(float64(x) / (float64(y) * gravity)) }

// Times returns the fluid power of flow y across pressure x.
func (x Pressure) Times(y Flow) Power { return Power(x) * Power(y) }

// Force returns the force of pressure x on area y.
func (x Pressure) Force(y Area) Force { return Force(x) * Force(y) }

// Over returns the pressure of force x on area y.
func (x Force) Over(y Area) Pressure { return Pressure(x) / Pressure(y) }

// PerLength returns force x spread over length y.
func (x Force) PerLength(y Length) ForcePerLength { return ForcePerLength(x) / ForcePerLength(y) }

// Times returns the force of line load x along length y.
func (x ForcePerLength) Times(y Length) Force { return Force(x) * Force(y) }

// Torque returns the moment of force x at lever arm y.
func (x Force) Torque(y Length) Torque { return Torque(x) * Torque(y) }

// Times returns the work of force x along distance y.
func (x Force) Times(y Length) Energy { return Energy(x) * Energy(y) }

// Absolute returns the absolute pressure at gauge pressure x.
func (x GaugePressure) Absolute(atmosphere AbsolutePressure) AbsolutePressure {
	return AbsolutePressure(x) + atmosphere
}

// Gauge returns the gauge pressure at absolute pressure x.
func (x AbsolutePressure) Gauge(atmosphere AbsolutePressure) GaugePressure {
	return GaugePressure(x - atmosphere)
}

// Sub returns the pressure difference x - y.
func (x GaugePressure) Sub(y GaugePressure) Pressure { return Pressure(x - y) }

// Add returns x raised by y.
func (x GaugePressure) Add(y Pressure) GaugePressure { return x + GaugePressure(y) }

// Sub returns the pressure difference x - y.
func (x AbsolutePressure) Sub(y AbsolutePressure) Pressure { return Pressure(x - y) }

// Add returns x raised by y.
func (x AbsolutePressure) Add(y Pressure) AbsolutePressure { return x + AbsolutePressure(y) }

// Times returns the power of torque x at speed y.
func (x Torque) Times(y RotationalSpeed) Power { return Power(x) * Power(y) }

// Over returns the force of torque x at lever arm y.
func (x Torque) Over(y Length) Force { return Force(x) / Force(y) }

// Over returns the torque of power x at speed y.
func (x Power) Over(y RotationalSpeed) Torque { return Torque(x) / Torque(y) }

// OverTorque returns the speed at which torque y carries power x.
func (x Power) OverTorque(y Torque) RotationalSpeed { return RotationalSpeed(x) / RotationalSpeed(y) }

// OverPressure returns the flow that carries fluid power x at pressure y.
func (x Power) OverPressure(y Pressure) Flow { return Flow(x) / Flow(y) }

// Times returns the energy of power x over d.
func (x Power) Times(d time.Duration) Energy { return Energy(float64(x) * d.Seconds()) }

// Per returns the mean power of energy x over d.
func (x Energy) Per(d time.Duration) Power { return Power(float64(x) / d.Seconds()) }

// At returns the time power y takes for energy x, with the errors of Volume.At.
func (x Energy) At(y Power) (time.Duration, error) {
	return elapsed("units.Energy.At", float64(x), "J", float64(y), "W")
}

// Times returns the rim speed at radius y of a wheel turning at x.
func (x RotationalSpeed) Times(radius Length) Velocity { return Velocity(x) * Velocity(radius) }

// Turned returns the angle turned at speed x in d.
func (x RotationalSpeed) Turned(d time.Duration) Angle { return Angle(float64(x) * d.Seconds()) }

// Per returns the mean rotational speed for angle x turned in d.
func (x Angle) Per(d time.Duration) RotationalSpeed {
	return RotationalSpeed(float64(x) / d.Seconds())
}

// Times returns the ideal flow of displacement x at speed y.
func (x Displacement) Times(y RotationalSpeed) Flow {
	return Flow(float64(x) * (float64(y) / (2 * pi)))
}

// Torque returns the ideal torque of displacement x under pressure y.
func (x Displacement) Torque(y Pressure) Torque { return Torque(float64(x) * float64(y) / (2 * pi)) }

// PerTurn returns the displacement that makes flow x at speed y.
func (x Flow) PerTurn(y RotationalSpeed) Displacement {
	return Displacement(float64(x) / (float64(y) / (2 * pi)))
}

// OverDisplacement returns the speed at which displacement y makes flow x.
func (x Flow) OverDisplacement(y Displacement) RotationalSpeed {
	return RotationalSpeed(float64(x) / float64(y) * (2 * pi))
}

// Kinematic returns dynamic viscosity x over density y.
func (x DynamicViscosity) Kinematic(y Density) KinematicViscosity {
	return KinematicViscosity(x) / KinematicViscosity(y)
}

// Dynamic returns kinematic viscosity x times density y.
func (x KinematicViscosity) Dynamic(y Density) DynamicViscosity {
	return DynamicViscosity(x) * DynamicViscosity(y)
}

// Times returns the apparent power of voltage x at current y.
func (x ElectricPotential) Times(y Current) ApparentPower {
	return ApparentPower(x) * ApparentPower(y)
}

// Over returns the current voltage x drives through resistance y.
func (x ElectricPotential) Over(y Resistance) Current { return Current(x) / Current(y) }

// Times returns the voltage drop of current x in resistance y.
func (x Current) Times(y Resistance) ElectricPotential {
	return ElectricPotential(x) * ElectricPotential(y)
}

// Times returns the resistance of length y of a conductor.
func (x ResistancePerLength) Times(y Length) Resistance { return Resistance(x) * Resistance(y) }

// PerLength returns resistance x spread over length y.
func (x Resistance) PerLength(y Length) ResistancePerLength {
	return ResistancePerLength(x) / ResistancePerLength(y)
}

// Over returns the current of apparent power x at voltage y, single phase.
func (x ApparentPower) Over(y ElectricPotential) Current { return Current(x) / Current(y) }

// Active returns the active power of apparent power x at a power factor.
func (x ApparentPower) Active(powerFactor float64) Power { return Power(float64(x) * powerFactor) }

// Apparent returns the apparent power of active power x at a power factor.
func (x Power) Apparent(powerFactor float64) ApparentPower {
	return ApparentPower(float64(x) / powerFactor)
}

// Times returns the fuel used for shaft energy y.
func (x SpecificFuelConsumption) Times(y Energy) Mass { return Mass(x) * Mass(y) }

// Rate returns the fuel flow at shaft power y.
func (x SpecificFuelConsumption) Rate(y Power) MassFlow { return MassFlow(x) * MassFlow(y) }

// Synchronous returns the speed of a field with the given pole pairs at
// frequency x. It errs with ErrDomain when there are no pole pairs.
func (x Frequency) Synchronous(polePairs int) (RotationalSpeed, error) {
	if polePairs < 1 {
		return RotationalSpeed(math.NaN()), &InputError{Func: "units.Frequency.Synchronous", Field: "polePairs",
			Value: float64(polePairs), Min: 1, Max: math.Inf(1)}
	}
	return RotationalSpeed(2 * pi * float64(x) / float64(polePairs)), nil
}
