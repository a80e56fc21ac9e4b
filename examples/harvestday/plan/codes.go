package plan

// Codes of the notices that only the composed plan can give.
const (
	// CodePlatformOutOfReach: the pump does not carry the flow to a platform that
	// much higher.
	CodePlatformOutOfReach = "PLAN_PLATFORM_OUT_OF_REACH"
	// CodeDaylight: the last bin closes after it should, in the sun.
	CodeDaylight = "PLAN_DAYLIGHT"
	// CodeNotReadyBy: the planned opening does not make the asked hour.
	CodeNotReadyBy = "PLAN_NOT_READY_BY"
)
