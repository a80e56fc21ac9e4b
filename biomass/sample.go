package biomass

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
	"pondwright.example/units"
)

// MeanWeight is the mean body weight that a sample shows.
type MeanWeight struct {
	Evidence Evidence   `json:"evidence"`
	N        int        `json:"n"` // animals, or batches for a batch sample
	Mean     units.Mass `json:"mean"`
	// SD is the standard deviation between animals; zero for one animal and for a
	// batch sample, which does not show it.
	SD units.Mass `json:"sd"`
	// SE is the standard error of Mean, CV the same as a fraction of it. Zero
	// unless Evidence is Replicated.
	SE units.Mass `json:"se"`
	CV float64    `json:"cv"`
	// Low and High bound the mean with confidence Level; both equal Mean when the
	// interval is undefined, which a notice says.
	Low     units.Mass     `json:"low"`
	High    units.Mass     `json:"high"`
	Level   float64        `json:"level"`
	Notices []units.Notice `json:"notices,omitempty"`
}

// SampleOptions are the choices of a weight sample.
type SampleOptions struct {
	// Level is the confidence of the interval, above 0 and below 1; zero means 0.95.
	Level float64 `json:"level"`
	// Population is the number of animals in the pond, for the finite-population
	// correction; zero means many more than sampled.
	Population int `json:"population"`
	// Range checks each weight; nil means unchecked.
	Range *WeightRange `json:"range,omitempty"`
}

// SampleMean returns the mean weight of individually weighed animals with its
// t interval.
//
//	w̄ ± t(n−1) · s/√n · √(1 − n/N)
//
// A single animal gives a mean without an interval. Weights outside the species
// range raise one notice, for the first of them; none is dropped or rescaled.
//
// Errors: ErrDomain for no weights, a weight not above zero, a level outside 0
// to 1 or a population smaller than the sample.
//
// Source: Cochran (1977), Sampling Techniques, 3rd ed., sec. 2.6 to 2.8 (from
// memory).
func SampleMean(weights []units.Mass, opt SampleOptions) (MeanWeight, error) {
	const fn = "biomass.SampleMean"
	level, err := opt.validate(fn, len(weights))
	if err != nil {
		return MeanWeight{}, err
	}
	var all []error
	sum := 0.0
	for i, w := range weights {
		if !(w > 0) || math.IsInf(float64(w), 0) {
			all = append(all, units.Positive(fn, indexed("weights", i), w.Kilograms(), "kg"))
		}
		sum += w.Kilograms()
	}
	if err := errors.Join(all...); err != nil {
		return MeanWeight{}, err
	}
	n := float64(len(weights))
	mean := sum / n
	ss := 0.0
	for _, w := range weights {
		d := w.Kilograms() - mean
		ss += d * d
	}
	m := MeanWeight{N: len(weights), Mean: units.Kilograms.Of(mean), Level: level}
	m.checkRange(opt.Range, weights)
	if len(weights) == 1 {
		m.single("one animal has no spread: the interval of the mean weight is undefined")
		return m.sound(fn)
	}
	sd := math.Sqrt(ss / (n - 1))
	se := sd / math.Sqrt(n)
	if opt.Population > 0 {
		se *= math.Sqrt(1 - n/float64(opt.Population))
	}
	m.SD = units.Kilograms.Of(sd)
	m.interval(se, n-1)
	return m.sound(fn)
}

func (opt SampleOptions) validate(fn string, n int) (level float64, err error) {
	var all []error
	if n == 0 {
		all = append(all, &units.InputError{Func: fn, Field: "weights", Value: 0, Reason: "at least one is needed"})
	}
	level, err = confidence(fn, opt.Level)
	all = append(all, err)
	if opt.Population != 0 && opt.Population < n {
		all = append(all, &units.InputError{Func: fn, Field: "population", Value: float64(opt.Population),
			Reason: "cannot be smaller than the sample"})
	}
	if opt.Range != nil {
		all = append(all, units.AtField("range", opt.Range.Validate()))
	}
	return level, errors.Join(all...)
}

// interval sets SE, CV and the t interval from a standard error in kilograms.
func (m *MeanWeight) interval(se, dof float64) {
	mean := m.Mean.Kilograms()
	half := studentQuantile((1+m.Level)/2, dof) * se
	m.SE = units.Kilograms.Of(se)
	m.CV = se / mean
	m.Low, m.High = units.Kilograms.Of(mean-half), units.Kilograms.Of(mean+half)
}

// sound refuses a mean whose numbers overflowed.
func (m MeanWeight) sound(fn string) (MeanWeight, error) {
	if err := soundAll(fn, m.Mean.Kilograms(), m.SD.Kilograms(), m.SE.Kilograms(), m.CV, m.Low.Kilograms(), m.High.Kilograms()); err != nil {
		return MeanWeight{}, err
	}
	return m, nil
}

// single marks a mean without an interval.
func (m *MeanWeight) single(message string) {
	m.Evidence = Single
	m.Low, m.High = m.Mean, m.Mean
	m.Notices = append(m.Notices, units.Notice{Code: CodeSingleObservation, Severity: units.Warning, Field: "weights",
		Value: float64(m.N), Limit: 2, Message: message})
}

func (m *MeanWeight) checkRange(r *WeightRange, weights []units.Mass) {
	if r == nil {
		return
	}
	for i, w := range weights {
		if n, out := r.Check(indexed("weights", i), w); out {
			m.Notices = append(m.Notices, n)
			return
		}
	}
}

// confidence returns the level, 0.95 for zero.
func confidence(fn string, level float64) (float64, error) {
	if level == 0 {
		return 0.95, nil
	}
	if !(level > 0 && level < 1) {
		return math.NaN(), &units.InputError{Func: fn, Field: "level", Value: level, Reason: "a confidence above 0 and below 1; 0.95 is usual"}
	}
	return level, nil
}

// studentQuantile is the quantile of Student's t with dof degrees of freedom;
// an infinite dof gives the normal quantile.
func studentQuantile(p, dof float64) float64 {
	if dof > 1e7 {
		return normalQuantile(p)
	}
	return distuv.StudentsT{Sigma: 1, Nu: dof}.Quantile(p)
}

// studentCDF is the distribution function of Student's t.
func studentCDF(t, dof float64) float64 {
	if dof > 1e7 {
		return normalCDF(t)
	}
	tail := 0.5 * mathext.RegIncBeta(dof/2, 0.5, dof/(dof+t*t))
	if t < 0 {
		return tail
	}
	return 1 - tail
}
