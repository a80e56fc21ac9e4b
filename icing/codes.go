package icing

// Codes of the notices this package raises. They do not change between
// releases.
const (
	CodeRatioUnusual      = "ICE_RATIO_UNUSUAL"         // ice per product outside the usual band
	CodeRatioRule         = "ICE_BELOW_RULE_OF_THUMB"   // the balance asks much less than the trade's rule
	CodeOrderAtMedian     = "ICE_SPREAD_OF_CROP"        // P90 order differs from the P50 order
	CodeMakeUpShare       = "ICE_MAKE_UP_SHARE"         // make-up water takes a large share of the ice
	CodeLeakShare         = "ICE_LEAK_SHARE"            // the containers' leak takes a large share
	CodeSpecificHeat      = "ICE_SPECIFIC_HEAT_ASSUMED" // specific heat of the product is the default
	CodeFreezing          = "ICE_PRODUCT_FREEZING"      // medium or target cold enough to freeze flesh
	CodeNotChilled        = "ICE_NOT_CHILLED"           // the bath or plan ends warmer than asked
	CodeHoldLong          = "ICE_HOLD_LONG"             // hold or haul beyond 72 h
	CodeShort             = "ICE_SHORT"                 // ice on hand does not cover the need
	CodeReorder           = "ICE_REORDER_TOO_LATE"      // it runs out before a new delivery can arrive
	CodeTankCrowded       = "ICE_TANK_CROWDED"          // product fills more than half of the bath
	CodeExposureLimit     = "ICE_EXPOSURE_LIMIT"        // measured exposure passes the user's limit
	CodeExposureGap       = "ICE_EXPOSURE_GAP"          // readings are further apart than allowed
	CodeExposureRange     = "ICE_EXPOSURE_RANGE"        // reading outside the spoilage model's range
	CodeStoreOverflow     = "ICE_STORE_OVERFLOW"        // machine idles because the store is full
	CodeCompositionScaled = "ICE_COMPOSITION_SCALED"    // mass fractions did not sum to one
	CodeBoxHeight         = "ICE_STACK_HEIGHT"          // depth of product crushes the bottom layer
)
