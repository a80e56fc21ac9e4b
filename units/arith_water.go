package units

import (
	"math"
	"time"
)

// Products and quotients of sizes, flows and masses. They are plain float64
// arithmetic: nothing is allocated or checked, and a division by zero gives Inf
// or NaN as it does for a float64. Validate inputs first with Positive and its
// kin.

// Times returns the area of a rectangle with sides x and y.
func (x Length) Times(y Length) Area { return Area(x * y) }

// Times returns the volume of a prism with base x and height y.
func (x Area) Times(y Length) Volume { return Volume(x) * Volume(y) }

// Over returns the length that with y makes the area x.
func (x Area) Over(y Length) Length { return Length(x) / y }

// Sqrt returns the side of the square with area x.
func (x Area) Sqrt() Length { return Length(math.Sqrt(float64(x))) }

// Over returns the depth of volume x spread over area y.
func (x Volume) Over(y Area) Length { return Length(x) / Length(y) }

// OverLength returns the area that volume x has over height y.
func (x Volume) OverLength(y Length) Area { return Area(x) / Area(y) }

// Over returns the rise for a run of y divided by the run, the slope.
func (x Length) Over(run Length) Slope { return Slope(x / run) }

// Times returns the rise over the run y.
func (x Slope) Times(run Length) Length { return Length(x) * run }

// Angle returns the angle of the slope to the horizontal.
func (x Slope) Angle() Angle { return Angle(math.Atan(float64(x))) }

// Slope returns the rise over run of a line at angle x to the horizontal.
func (x Angle) Slope() Slope { return Slope(math.Tan(float64(x))) }

// Per returns the mean flow that moves volume x in d.
func (x Volume) Per(d time.Duration) Flow { return Flow(float64(x) / d.Seconds()) }

// Times returns the volume that flow x moves in d.
func (x Flow) Times(d time.Duration) Volume { return Volume(float64(x) * d.Seconds()) }

// At returns the time flow y takes for volume x. It errs with ErrDomain when
// either is not finite, when y is zero or the signs differ, and when the time
// does not fit a time.Duration (292 years).
func (x Volume) At(y Flow) (time.Duration, error) {
	return elapsed("units.Volume.At", float64(x), "m3", float64(y), "m3/s")
}

// Through returns the mean velocity of flow x through the cross-section y.
func (x Flow) Through(y Area) Velocity { return Velocity(x) / Velocity(y) }

// Over returns the cross-section that carries flow x at velocity y.
func (x Flow) Over(y Velocity) Area { return Area(x) / Area(y) }

// PerArea returns the depth per time of flow x over area y, such as a pond's
// fall or a settling basin's overflow rate.
func (x Flow) PerArea(y Area) Velocity { return Velocity(x) / Velocity(y) }

// Through returns the flow at mean velocity x through the cross-section y; rain
// or seepage x over area y alike.
func (x Velocity) Through(y Area) Flow { return Flow(x) * Flow(y) }

// Times returns the distance covered at velocity x in d.
func (x Velocity) Times(d time.Duration) Length { return Length(float64(x) * d.Seconds()) }

// Per returns the mean velocity over distance x in d.
func (x Length) Per(d time.Duration) Velocity { return Velocity(float64(x) / d.Seconds()) }

// At returns the time a move at velocity y takes for distance x, with the
// errors of Volume.At.
func (x Length) At(y Velocity) (time.Duration, error) {
	return elapsed("units.Length.At", float64(x), "m", float64(y), "m/s")
}

// Per returns the mean acceleration for a change of velocity x in d.
func (x Velocity) Per(d time.Duration) Acceleration {
	return Acceleration(float64(x) / d.Seconds())
}

// Times returns the change of velocity at acceleration x in d.
func (x Acceleration) Times(d time.Duration) Velocity { return Velocity(float64(x) * d.Seconds()) }

// Mass returns the mass of volume x at density y.
func (x Volume) Mass(y Density) Mass { return Mass(x) * Mass(y) }

// Volume returns the volume of mass x at density y.
func (x Mass) Volume(y Density) Volume { return Volume(x) / Volume(y) }

// Over returns the density of mass x in volume y.
func (x Mass) Over(y Volume) Density { return Density(x) / Density(y) }

// Mass returns the mass flow of flow x at density y.
func (x Flow) Mass(y Density) MassFlow { return MassFlow(x) * MassFlow(y) }

// Volume returns the flow of mass flow x at density y.
func (x MassFlow) Volume(y Density) Flow { return Flow(x) / Flow(y) }

// Per returns the mean mass flow that moves mass x in d.
func (x Mass) Per(d time.Duration) MassFlow { return MassFlow(float64(x) / d.Seconds()) }

// Times returns the mass that mass flow x moves in d.
func (x MassFlow) Times(d time.Duration) Mass { return Mass(float64(x) * d.Seconds()) }

// At returns the time mass flow y takes for mass x, with the errors of
// Volume.At.
func (x Mass) At(y MassFlow) (time.Duration, error) {
	return elapsed("units.Mass.At", float64(x), "kg", float64(y), "kg/s")
}

// Weight returns the force of standard gravity on mass x.
func (x Mass) Weight() Force { return Force(float64(x) * gravity) }

// Times returns the force that gives mass x the acceleration y.
func (x Mass) Times(y Acceleration) Force { return Force(x) * Force(y) }

// elapsed returns amount / rate as a Duration.
func elapsed(fn string, amount float64, amountUnit string, rate float64, rateUnit string) (time.Duration, error) {
	if err := Finite(fn, "amount", amount, amountUnit); err != nil {
		return 0, err
	}
	if err := Finite(fn, "rate", rate, rateUnit); err != nil {
		return 0, err
	}
	if amount == 0 && rate != 0 {
		return 0, nil
	}
	if rate == 0 || (amount < 0) != (rate < 0) {
		return 0, &InputError{Func: fn, Field: "rate", Value: rate, Unit: rateUnit, Min: math.Inf(-1), Max: math.Inf(1),
			Reason: "must not be zero and must have the sign of the amount, " + quantityText(amount, amountUnit)}
	}
	ns := amount / rate * float64(time.Second)
	// 1<<63 itself does not fit.
	if !(ns < 1<<63) {
		return 0, &InputError{Func: fn, Field: "rate", Value: rate, Unit: rateUnit, Min: math.Inf(-1), Max: math.Inf(1),
			Reason: "too slow: " + quantityText(amount, amountUnit) + " would take more than 292 years"}
	}
	return time.Duration(math.Round(ns)), nil
}
