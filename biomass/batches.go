package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Batch is a lot of animals weighed and counted together, such as the catch of
// one cast.
type Batch struct {
	Mass  units.Mass `json:"mass"`
	Count int        `json:"count"`
}

// fewBatches is the number of batches below which their spread means nothing.
const fewBatches = 3

// BatchMean returns the mean weight of animals that were weighed in batches, as
// the ratio of total mass to total count, with the standard error from the
// spread between batches: animals of one cast are alike, so the spread inside a
// batch would be too small.
//
//	w̄ = ΣWᵢ/Σnᵢ,  var = Σ(Wᵢ − w̄ nᵢ)² / ((m−1) m n̄²)
//
// N of the result is the number of batches m. One batch gives a mean without an
// interval; two raise a notice.
//
// Errors: ErrDomain for no batches, a mass not above zero or a count below one.
//
// Source: ratio estimator: Cochran (1977), Sampling Techniques, 3rd ed., eq. 6.13
// without the finite-population factor (from memory).
func BatchMean(batches []Batch, opt SampleOptions) (MeanWeight, error) {
	const fn = "biomass.BatchMean"
	mass, count := 0.0, 0
	var all []error
	for i, b := range batches {
		all = append(all, units.Positive(fn, indexed("batches", i)+".mass", b.Mass.Kilograms(), "kg"))
		if b.Count < 1 {
			all = append(all, &units.InputError{Func: fn, Field: indexed("batches", i) + ".count", Value: float64(b.Count), Reason: "at least one animal"})
		}
		mass += b.Mass.Kilograms()
		count += b.Count
	}
	level, err := opt.validate(fn, count)
	if err := errors.Join(append(all, err)...); err != nil {
		return MeanWeight{}, err
	}
	ratio := mass / float64(count)
	m := MeanWeight{N: len(batches), Mean: units.Kilograms.Of(ratio), Level: level}
	m.checkRange(opt.Range, []units.Mass{m.Mean})
	if len(batches) == 1 {
		m.single("one batch has no spread between batches: the interval of the mean weight is undefined")
		return m.sound(fn)
	}
	ss := 0.0
	for _, b := range batches {
		d := b.Mass.Kilograms() - ratio*float64(b.Count)
		ss += d * d
	}
	k := float64(len(batches))
	nbar := float64(count) / k
	m.interval(math.Sqrt(ss/((k-1)*k))/nbar, k-1)
	if len(batches) < fewBatches {
		m.Notices = append(m.Notices, units.Notice{Code: CodeFewBatches, Severity: units.Caution, Field: "batches",
			Value: k, Limit: fewBatches, Message: "fewer than three batches do not show the spread between batches"})
	}
	return m.sound(fn)
}
