package hydraulics

// Codes of the notices that the pipe side of the package gives. They are
// stable; messages are not.
const (
	CodeReynoldsTransition = "HYD_REYNOLDS_TRANSITION"  // 2000 < Re < 4000: f uncertain by 30 %
	CodeReynoldsLaminar    = "HYD_REYNOLDS_LAMINAR"     // constant K of fittings does not hold
	CodeHazenWilliams      = "HYD_HAZEN_WILLIAMS_RANGE" // outside the formula's water, bore or speed
	CodeNominalAssumed     = "HYD_NOMINAL_ASSUMED"      // nominal size taken as the bore
	CodeFittingUnspecified = "HYD_FITTING_UNSPECIFIED"  // high end of a wide band in use
	CodeFlowSuspect        = "HYD_FLOW_SUSPECT"         // speed no pipe of a farm sees: unit slip?
	CodeSolidsFraction     = "HYD_SOLIDS_FRACTION"      // animals per water beyond the method
	CodeBelowCarrying      = "HYD_BELOW_CARRYING_SPEED" // animals settle or stall in the hose
	CodeFromMemory         = "HYD_FROM_MEMORY"          // a catalogue value not confirmed in print
	CodeDragRange          = "HYD_DRAG_RANGE"           // drag law outside its Reynolds numbers
	CodeSurge              = "HYD_SURGE"                // pressure surge beside the rating
	CodeVacuum             = "HYD_SURGE_VACUUM"         // the down-surge reaches vapour pressure
)
