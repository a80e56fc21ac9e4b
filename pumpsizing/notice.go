package pumpsizing

import (
	"math"
	"strconv"

	"pondwright.example/units"
)

// Notice codes of this package. They are stable across releases.
const (
	CodeCurveTwoPoints   = "PUMP_CURVE_TWO_POINTS"  // parabola through two points only
	CodeCurveStraight    = "PUMP_CURVE_STRAIGHT"    // points on one line: no curvature fitted
	CodeCurveRising      = "PUMP_CURVE_RISING"      // head rises with flow somewhere: unstable
	CodeCurveNoShutOff   = "PUMP_CURVE_NO_SHUT_OFF" // no point at zero flow: shut-off head extrapolated
	CodeCurveConvex      = "PUMP_CURVE_CONVEX"      // curve bends upward: do not extrapolate
	CodeCurvePoorFit     = "PUMP_CURVE_POOR_FIT"    // a point lies far off the fitted curve
	CodeCurveHeld        = "PUMP_CURVE_HELD"        // a coefficient was held at zero
	CodeExtrapolated     = "PUMP_EXTRAPOLATED"      // duty beyond the last data-sheet point
	CodeRunOut           = "PUMP_RUN_OUT"           // far right of best efficiency
	CodePartLoad         = "PUMP_PART_LOAD"         // far left of best efficiency
	CodeBelowMinSpeed    = "PUMP_BELOW_MIN_SPEED"   // lift above shut-off head: no flow
	CodeNearMinSpeed     = "PUMP_NEAR_MIN_SPEED"    // a small loss of speed stops the flow
	CodeCannotStart      = "PUMP_CANNOT_START"      // runs if started, will not start from rest
	CodeTwoCrossings     = "PUMP_TWO_CROSSINGS"     // unstable lower crossing exists
	CodeSpeedRatio       = "PUMP_SPEED_RATIO"       // affinity outside half to double speed
	CodeEfficiencyHigh   = "PUMP_EFFICIENCY_HIGH"   // too good for an animal pump
	CodeReversedHead     = "PUMP_REVERSED_HEAD"     // a pump of a bank is driven backward or as a brake
	CodeNPSH             = "PUMP_NPSH_MARGIN"       // too little suction head
	CodeSuctionPressure  = "PUMP_SUCTION_PRESSURE"  // low pressure at the inlet, dissolved gas comes out
	CodeAnimalLimit      = "PUMP_ANIMAL_LIMIT"      // velocity, tip speed or solids over the user's limit
	CodeAnimalDefault    = "PUMP_ANIMAL_DEFAULT"    // limit taken from the default data set
	CodeAnimalNoData     = "PUMP_ANIMAL_NO_DATA"    // nothing published for this kind of animal
	CodeOilTransition    = "PUMP_OIL_TRANSITION"    // oil line between laminar and turbulent
	CodeOilVelocity      = "PUMP_OIL_VELOCITY"      // oil faster than the usual limit
	CodeOilCold          = "PUMP_OIL_COLD"          // viscosity above the usual starting limit
	CodeOilThin          = "PUMP_OIL_THIN"          // viscosity below the usual running limit
	CodeReliefMargin     = "PUMP_RELIEF_MARGIN"     // working pressure close to relief setting
	CodeReliefExceeded   = "PUMP_RELIEF_EXCEEDED"   // relief opens before the duty is reached
	CodeDisplacementUnit = "PUMP_DISPLACEMENT_UNIT" // a displacement looks like the wrong unit
	CodeOilTemperature   = "PUMP_OIL_TEMPERATURE"   // oil reaches its limit
	CodeReservoirSmall   = "PUMP_RESERVOIR_SMALL"   // less oil than a minute of flow
	CodePTOOverload      = "PUMP_PTO_OVERLOAD"      // more power than the PTO has
	CodePTOTorque        = "PUMP_PTO_TORQUE"        // more torque than the shaft type carries
	CodePTOSpeed         = "PUMP_PTO_SPEED"         // PTO speed implausible or off standard
	CodePTOFromEngine    = "PUMP_PTO_FROM_ENGINE"   // PTO power estimated from engine power
	CodeEnginePower      = "PUMP_ENGINE_POWER"      // engine and PTO power look swapped
	CodeFuelRange        = "PUMP_FUEL_RANGE"        // fuel equation outside its range
	CodeMotorOverload    = "PUMP_MOTOR_OVERLOAD"    // electric motor overloaded
	CodeOverspeed        = "PUMP_OVERSPEED"         // above supply frequency power rises with the cube
	CodeVoltageDrop      = "PUMP_VOLTAGE_DROP"      // cable drop over the limit
	CodeGeneratorLoad    = "PUMP_GENERATOR_LOAD"    // generator over- or underloaded
	CodeStartDip         = "PUMP_START_DIP"         // starting dips the voltage too far
	CodeAssumed          = "PUMP_ASSUMED"           // a default was used
	CodeSafetyPTO        = "PUMP_SAFETY_PTO"
	CodeSafetyOil        = "PUMP_SAFETY_OIL"
	CodeSafetyElectric   = "PUMP_SAFETY_ELECTRIC"
	CodeScope            = "PUMP_SCOPE"
)

const commonPractice = "common practice, no source"

// num prints a number for a message with four significant digits.
func num(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

// percent prints a fraction for a message.
func percent(v float64) string { return strconv.FormatFloat(100*v, 'f', 0, 64) + " %" }

func note(list []units.Notice, code string, s units.Severity, field string, value, limit float64, unit, message, source string) []units.Notice {
	return append(list, units.Notice{Code: code, Severity: s, Field: field, Value: finite(value), Limit: finite(limit),
		Unit: unit, Message: message, Source: source})
}

// assumed adds the notice of a default that was taken for a blank field.
func assumed(list []units.Notice, field string, value float64, unit, message, source string) []units.Notice {
	return note(list, CodeAssumed, units.Info, field, value, 0, unit, message, source)
}

// finite keeps notices free of NaN and Inf.
func finite(v float64) float64 {
	switch {
	case math.IsNaN(v):
		return 0
	case math.IsInf(v, 0):
		return math.Copysign(math.MaxFloat64, v)
	}
	return v
}

// PTOCautions returns the safety notice that belongs to every plan with a
// power take-off shaft.
func PTOCautions() units.Notice {
	return units.Notice{Code: CodeSafetyPTO, Severity: units.Danger, Field: "pto",
		Message: "power take-off: shields on, no loose clothing, never step over a turning shaft, engine off and key out before clearing a jam",
		Source:  commonPractice}
}

// OilCautions returns the safety notice that belongs to every plan with oil
// under pressure.
func OilCautions() units.Notice {
	return units.Notice{Code: CodeSafetyOil, Severity: units.Danger, Field: "oil",
		Message: "oil under pressure: a jet through the skin is a surgical emergency; never feel for leaks by hand, bleed pressure before opening a line (a stopped motor can hold it), hot oil burns",
		Source:  commonPractice}
}

// ElectricCautions returns the safety notice that belongs to every plan with
// electricity beside water.
func ElectricCautions() units.Notice {
	return units.Notice{Code: CodeSafetyElectric, Severity: units.Danger, Field: "electric",
		Message: "electricity by water: ground-fault protection (30 mA), bonded generator, cables off the ground, qualified electrician, locked out before hands go in the pump or people in the water; protection is not sized here",
		Source:  commonPractice}
}

// ScopeNotice returns the notice that says what a result of this package is.
func ScopeNotice() units.Notice {
	return units.Notice{Code: CodeScope, Severity: units.Info,
		Message: "planning figures; the makers' manuals, local codes and licensed people come first", Source: commonPractice}
}
