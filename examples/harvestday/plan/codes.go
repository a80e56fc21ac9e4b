package plan

// Codes of the notices that only the composed plan can give.
const (
	// CodePlatformOutOfReach: the pump does not carry the flow to a platform that
	// much higher.
	CodePlatformOutOfReach = "PLAN_PLATFORM_OUT_OF_REACH"
)
