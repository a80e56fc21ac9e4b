package biomass

import (
	"errors"
	"math"
	"slices"

	"pondwright.example/units"
)

// SampleShare is the part of a weighed sample in one count class.
type SampleShare struct {
	Class string `json:"class"`
	Count int    `json:"count"` // animals of the sample
	// Number is the fraction of the animals, with a Wilson interval.
	Number     float64 `json:"number"`
	NumberLow  float64 `json:"numberLow"`
	NumberHigh float64 `json:"numberHigh"`
	// Mass is the fraction of the mass, MassSE its standard error.
	Mass   float64 `json:"mass"`
	MassSE float64 `json:"massSE"`
}

// SampleGrade is a weighed sample by count class.
type SampleGrade struct {
	N       int           `json:"n"`
	Classes []SampleShare `json:"classes"`
	// Beyond counts the animals past a last class that has an end.
	Beyond int `json:"beyond"`
	// Uniformity is the mean weight of the heaviest tenth of the animals over that
	// of the lightest tenth; zero for fewer than ten animals.
	Uniformity float64        `json:"uniformity"`
	Notices    []units.Notice `json:"notices,omitempty"`
}

// gradeSample is the number of animals below which class shares are not worth
// quoting.
const gradeSample = 100

// GradeSample sorts individually weighed whole animals into the classes of the
// table, each by its own count, and returns the share of each class with its
// uncertainty at the given confidence (zero means 0.95).
//
//	mass share Gₖ = Σ wᵢ[i in k] / Σ wᵢ,  var = Σ (wᵢ([i in k] − Gₖ))² / (n(n−1) w̄²)
//
// Errors: ErrDomain for no weights, a weight not above zero, a table, yield or
// level that cannot be.
//
// Source: number share: Wilson (1927), J. Am. Stat. Assoc. 22:209-212; mass
// share: ratio estimator, Cochran (1977) eq. 6.13 (both from memory). The ratio of
// heaviest to lightest tenth is common practice for uniformity of size; buyers
// set its limit.
func GradeSample(weights []units.Mass, t CountTable, yield, level float64) (SampleGrade, error) {
	const fn = "biomass.GradeSample"
	level, err := confidence(fn, level)
	all := []error{err, units.AtField("table", t.Validate())}
	if t.Form == Headless {
		all = append(all, fraction(fn, "yield", yield))
	} else {
		yield = 1
	}
	if len(weights) == 0 {
		all = append(all, &units.InputError{Func: fn, Field: "weights", Value: 0, Reason: "at least one is needed"})
	}
	total := 0.0
	for i, w := range weights {
		if !(w > 0) || math.IsInf(float64(w), 0) {
			all = append(all, units.Positive(fn, indexed("weights", i), w.Kilograms(), "kg"))
		}
		total += w.Kilograms()
	}
	if err := errors.Join(all...); err != nil {
		return SampleGrade{}, err
	}
	n := len(weights)
	g := SampleGrade{N: n, Classes: make([]SampleShare, len(t.Classes)), Uniformity: uniformity(weights)}
	class := make([]int, n)
	for i, w := range weights {
		class[i] = t.ClassOf(units.CountsPerKilogram.Of(1 / (w.Kilograms() * yield)))
		if class[i] < 0 {
			g.Beyond++
		} else {
			g.Classes[class[i]].Count++
		}
	}
	for k := range g.Classes {
		s := &g.Classes[k]
		s.Class = t.Classes[k].Name
		s.Number = float64(s.Count) / float64(n)
		s.NumberLow, s.NumberHigh = wilson(s.Count, n, level)
		s.Mass, s.MassSE = massShare(weights, class, k, total)
	}
	if n < gradeSample {
		g.Notices = append(g.Notices, units.Notice{Code: CodeSmallSample, Severity: units.Caution, Field: "weights",
			Value: float64(n), Limit: gradeSample, Message: "fewer than 100 animals: class shares are uncertain by ten points or more"})
	}
	return g, nil
}

// massShare is the fraction of the mass in class k and its standard error.
func massShare(weights []units.Mass, class []int, k int, total float64) (share, se float64) {
	for i, w := range weights {
		if class[i] == k {
			share += w.Kilograms()
		}
	}
	share /= total
	n := float64(len(weights))
	if n < 2 {
		return share, 0
	}
	ss := 0.0
	for i, w := range weights {
		in := 0.0
		if class[i] == k {
			in = 1
		}
		d := w.Kilograms() * (in - share)
		ss += d * d
	}
	mean := total / n
	return share, math.Sqrt(ss/(n*(n-1))) / mean
}

// uniformity is the mean of the heaviest tenth over that of the lightest tenth,
// rounded down to whole animals.
func uniformity(weights []units.Mass) float64 {
	k := len(weights) / 10
	if k == 0 {
		return 0
	}
	w := slices.Sorted(slices.Values(weights))
	light, heavy := 0.0, 0.0
	for i := range k {
		light += w[i].Kilograms()
		heavy += w[len(w)-1-i].Kilograms()
	}
	return heavy / light
}
