package biomass

import (
	"errors"

	"pondwright.example/units"
)

// CropInput is what a farm knows of one pond before harvest. At least one of
// Casts, Stocking and Others is needed.
type CropInput struct {
	// Casts is the cast-net sample; nil when none was made.
	Casts *CastNet `json:"casts,omitempty"`
	// PondArea is the bottom area that the casts stand for; needed with Casts.
	PondArea units.Area `json:"pondArea"`
	// PondAreaCV is its relative standard uncertainty; zero takes it as exact.
	PondAreaCV float64 `json:"pondAreaCV"`
	// Stocking is the record behind the prior; nil when there is none.
	Stocking *Stocking `json:"stocking,omitempty"`
	// MeanWeight is the mean body weight; needed with Casts or Stocking.
	MeanWeight units.Mass `json:"meanWeight"`
	// MeanWeightCV is its relative standard uncertainty, sampling bias included.
	MeanWeightCV float64 `json:"meanWeightCV"`
	// Range checks MeanWeight against its species; nil means unchecked.
	Range *WeightRange `json:"range,omitempty"`
	// Others are further estimates of the same crop, such as one from feed. An
	// error they share with the ones made here must carry its name and Common.
	Others []Estimate `json:"others,omitempty"`
}

// Crop is the standing crop of a pond and where it comes from.
type Crop struct {
	// Estimate is the blend of all that could be used; read this one.
	Estimate Estimate `json:"estimate"`
	// Parts are the estimates that went into it, Weights their weights.
	Parts   []Estimate `json:"parts,omitempty"`
	Weights []float64  `json:"weights,omitempty"`
	// Agreement is the probability of parts this far apart, see [BlendResult].
	Agreement float64 `json:"agreement"`
	// Density is what the casts show; zero value without casts.
	Density Density `json:"density"`
	// UpperBound is the one-sided 95 % bound on the crop when every cast was
	// empty; zero otherwise.
	UpperBound units.Mass     `json:"upperBound"`
	Notices    []units.Notice `json:"notices,omitempty"`
}

// Names of the parts of a crop estimate.
const (
	PartCasts    = "cast net"
	PartStocking = "stocking and survival"
)

// EstimateCrop returns the standing crop of a pond from casts, stocking record
// and other estimates, blended on the logarithmic scale with the mean weight as
// an error in common (see [Blend]).
//
// Casts that cannot show their spread do not enter the blend: all empty gives an
// upper bound, one cast a density without an interval; the answer then rests on
// the other parts, which a notice says. Without other parts that is an error.
//
// Errors: ErrDomain for inputs that cannot be, all of them at once;
// ErrNoSolution when nothing is left to blend; the result then still holds the
// density, the upper bound and the notices.
//
// Source: composition of [CastNet.Density], [Stocking.Alive] and [Blend].
func EstimateCrop(in CropInput) (Crop, error) {
	const fn = "biomass.EstimateCrop"
	if err := in.Validate(); err != nil {
		return Crop{}, err
	}
	crop := Crop{Agreement: 1}
	if in.Range != nil && in.MeanWeight != 0 {
		if n, out := in.Range.Check("meanWeight", in.MeanWeight); out {
			crop.Notices = append(crop.Notices, n)
		}
	}
	if err := crop.addCasts(in); err != nil {
		return Crop{}, err
	}
	if err := crop.addStocking(in); err != nil {
		return Crop{}, err
	}
	for _, e := range in.Others {
		crop.Parts = append(crop.Parts, e.clone())
	}
	if len(crop.Parts) == 0 {
		return crop, &units.InputError{Func: fn, Field: "stocking", Value: 0, Kind: units.ErrNoSolution,
			Reason: "the casts show no interval and there is no stocking record or other estimate to fall back on"}
	}
	r, err := Blend("standing crop", crop.Parts...)
	if err != nil {
		return Crop{}, err
	}
	crop.Estimate, crop.Weights, crop.Agreement = r.Estimate, r.Weights, r.Agreement
	crop.Notices = append(crop.Notices, r.Notices...)
	crop.checkBounds(in)
	return crop, nil
}

// Validate reports every field that cannot be.
func (in CropInput) Validate() error {
	const fn = "biomass.CropInput"
	var all []error
	if in.Casts == nil && in.Stocking == nil && len(in.Others) == 0 {
		all = append(all, &units.InputError{Func: fn, Field: "casts", Value: 0,
			Reason: "give casts, a stocking record or another estimate"})
	}
	if in.Casts != nil {
		all = append(all, units.AtField("casts", in.Casts.Validate()),
			units.Positive(fn, "pondArea", in.PondArea.SquareMetres(), "m2"),
			units.NonNegative(fn, "pondAreaCV", in.PondAreaCV, ""))
	}
	if in.Stocking != nil {
		all = append(all, units.AtField("stocking", in.Stocking.Validate()))
		if s := in.Stocking; s.SurvivalCV == 0 && s.StockedCV == 0 && (in.Casts != nil || len(in.Others) > 0) {
			all = append(all, &units.InputError{Func: fn, Field: "stocking.survivalCV", Value: 0,
				Reason: "must be above zero: without an error of its own the record cannot be weighed against other estimates"})
		}
	}
	if in.Casts != nil || in.Stocking != nil {
		all = append(all, units.Positive(fn, "meanWeight", in.MeanWeight.Kilograms(), "kg"),
			units.NonNegative(fn, "meanWeightCV", in.MeanWeightCV, ""))
	}
	if in.Range != nil {
		all = append(all, units.AtField("range", in.Range.Validate()))
	}
	return errors.Join(all...)
}

func (c *Crop) addCasts(in CropInput) error {
	if in.Casts == nil {
		return nil
	}
	d, err := in.Casts.Density()
	if err != nil {
		return units.AtField("casts", err)
	}
	c.Density = d
	for _, n := range d.Notices {
		n.Field = "casts." + n.Field
		c.Notices = append(c.Notices, n)
	}
	if d.Evidence == NothingCaught {
		c.UpperBound = in.MeanWeight * units.Mass(d.UpperBound.Times(in.PondArea))
	}
	if d.Evidence != Replicated {
		c.Notices = append(c.Notices, units.Notice{Code: CodePriorOnly, Severity: units.Warning, Field: "casts",
			Message: "the casts show no interval and do not enter the estimate"})
		return nil
	}
	errs := append([]Component(nil), d.Errors...)
	errs = append(errs, Component{Name: ErrorPondArea, CV: in.PondAreaCV}, weightError(in))
	e, err := NewEstimate(PartCasts, in.MeanWeight*units.Mass(d.Density.Times(in.PondArea)), errs...)
	if err != nil {
		return err
	}
	c.Parts = append(c.Parts, e)
	return nil
}

func (c *Crop) addStocking(in CropInput) error {
	if in.Stocking == nil {
		return nil
	}
	for _, n := range in.Stocking.notices() {
		n.Field = "stocking." + n.Field
		c.Notices = append(c.Notices, n)
	}
	e, err := NewEstimate(PartStocking, in.MeanWeight*units.Mass(in.Stocking.Alive()), append(in.Stocking.errorsOf(), weightError(in))...)
	if err != nil {
		return err
	}
	c.Parts = append(c.Parts, e)
	return nil
}

func weightError(in CropInput) Component {
	return Component{Name: ErrorWeight, CV: in.MeanWeightCV, Common: true}
}

// checkBounds holds the blend against the number stocked and against the bound
// of empty casts.
func (c *Crop) checkBounds(in CropInput) {
	if s := in.Stocking; s != nil {
		if most := in.MeanWeight.Kilograms() * s.Stocked; c.Estimate.P90.Kilograms() > most {
			c.Notices = append(c.Notices, units.Notice{Code: CodeMoreThanStocked, Severity: units.Caution, Field: "estimate.p90",
				Value: c.Estimate.P90.Kilograms(), Limit: most, Unit: "kg",
				Message: "the ninetieth percentile is above the mass of all animals stocked"})
		}
	}
	if c.UpperBound > 0 && c.Estimate.P50 > c.UpperBound {
		c.Notices = append(c.Notices, units.Notice{Code: CodeDisagreement, Severity: units.Warning, Field: "estimate.p50",
			Value: c.Estimate.P50.Kilograms(), Limit: c.UpperBound.Kilograms(), Unit: "kg",
			Message: "the estimate is above the upper bound that the empty casts leave: cast again before anything is ordered"})
	}
}
