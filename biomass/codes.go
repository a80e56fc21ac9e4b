package biomass

// Codes of the notices of this package. A code keeps its meaning across
// releases.
const (
	// CodeNothingCaught: every cast came up empty; only an upper bound is known.
	CodeNothingCaught = "BIO_NOTHING_CAUGHT"
	// CodeSingleObservation: one cast or one animal has no spread; its interval is undefined.
	CodeSingleObservation = "BIO_SINGLE_OBSERVATION"
	// CodePriorOnly: the estimate rests on the stocking record alone.
	CodePriorOnly = "BIO_PRIOR_ONLY"
	// CodeExactEfficiency: the catch efficiency was given without uncertainty.
	CodeExactEfficiency = "BIO_EFFICIENCY_TAKEN_AS_EXACT"
	// CodeFewCasts: too few casts for the spread to be known.
	CodeFewCasts = "BIO_FEW_CASTS"
	// CodeLowSurvival: the survival is so low that a percentage may have been meant.
	CodeLowSurvival = "BIO_SURVIVAL_UNUSUAL"
	// CodeMoreThanStocked: the estimate reaches above the number stocked.
	CodeMoreThanStocked = "BIO_MORE_THAN_STOCKED"
	// CodeDisagreement: two estimates differ by more than their errors explain.
	CodeDisagreement = "BIO_ESTIMATES_DISAGREE"
	// CodeNegativeWeight: an estimate enters a blend with a negative weight.
	CodeNegativeWeight = "BIO_BLEND_NEGATIVE_WEIGHT"
	// CodeWeightRange: a body weight is outside the range of the species.
	CodeWeightRange = "BIO_WEIGHT_OUTSIDE_SPECIES_RANGE"
	// CodeFewBatches: fewer than three batches cannot show their own spread.
	CodeFewBatches = "BIO_FEW_BATCHES"
	// CodeStraddle: the band of the count crosses an edge between two classes.
	CodeStraddle = "BIO_COUNT_STRADDLES_EDGE"
	// CodeNegativeTail: a normal weight distribution gives weight to animals below zero.
	CodeNegativeTail = "BIO_NORMAL_BELOW_ZERO"
	// CodeUnusualYield: a tail yield outside what the trade meets.
	CodeUnusualYield = "BIO_TAIL_YIELD_UNUSUAL"
	// CodeSmallSample: the sample is too small for the question asked of it.
	CodeSmallSample = "BIO_SAMPLE_TOO_SMALL"
	// CodeAboveStocked: more animals came out than were stocked.
	CodeAboveStocked = "BIO_SURVIVAL_ABOVE_ONE"
	// CodeLengthRange: a length outside those of the fit.
	CodeLengthRange = "BIO_LENGTH_OUTSIDE_FIT"
	// CodePriorBinds: the answer depends on the largest population allowed.
	CodePriorBinds = "BIO_PRIOR_BINDS"
	// CodeUnexplained: two weights differ by more than their uncertainties explain.
	CodeUnexplained = "BIO_WEIGHTS_NOT_RECONCILED"
)
