package transport

// Codes of the notices this package raises. They do not change between
// releases.
const (
	CodeLoadBasis      = "TRANS_LOAD_BASIS"      // load per water far above load per tank: say which is meant
	CodeLoadHigh       = "TRANS_LOAD_HIGH"       // load beyond the practice it was held against
	CodeOverweight     = "TRANS_OVERWEIGHT"      // gross mass or an axle beyond its limit
	CodeSteeringLight  = "TRANS_STEERING_LIGHT"  // front axle unloaded by a load behind the rear axle
	CodeLeftBehind     = "TRANS_LEFT_BEHIND"     // containers for which no truck has room
	CodeIceGone        = "TRANS_ICE_GONE"        // ice melts out before the door
	CodeHoursLong      = "TRANS_HOURS_LONG"      // haul beyond what the model covers
	CodeWindowMissed   = "TRANS_WINDOW_MISSED"   // arrival when no window is open any more
	CodeWait           = "TRANS_WAIT"            // truck waits longer than allowed
	CodeProductOld     = "TRANS_PRODUCT_OLD"     // oldest product passes the user's age limit
	CodeOxygenLow      = "TRANS_OXYGEN_LOW"      // dissolved oxygen passes the user's limit
	CodeOxygenHigh     = "TRANS_OXYGEN_HIGH"     // far above saturation with air
	CodeCarbonDioxide  = "TRANS_CO2_HIGH"        // free CO2 passes the user's limit
	CodeAmmonia        = "TRANS_AMMONIA_HIGH"    // un-ionised ammonia passes the user's limit
	CodeTemperature    = "TRANS_TEMPERATURE"     // tank leaves the user's temperature limit
	CodeExtrapolated   = "TRANS_EXTRAPOLATED"    // outside the published range of a relation
	CodeSurge          = "TRANS_SURGE"           // part-filled tank: water surges
	CodeAlarmTime      = "TRANS_ALARM_TIME"      // minutes to the oxygen limit if the supply fails
	CodeStoreShort     = "TRANS_OXYGEN_STORE"    // oxygen on board does not cover the haul and its reserve
	CodeStrippingRaise = "TRANS_AERATION_RAISES" // driving off CO2 raises pH and with it NH3
	CodeAssumed        = "TRANS_ASSUMED"         // a default stands in for a value not given
)
