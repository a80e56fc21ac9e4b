package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Casts summarises the catches of repeated casts of one net, in animals per
// cast. [SummariseCasts] makes it from a log; it can also be filled from a
// summary that the farm already has.
type Casts struct {
	N    int     `json:"n"`    // number of casts, empty ones included
	Mean float64 `json:"mean"` // animals per cast
	SD   float64 `json:"sd"`   // standard deviation between casts, divisor n-1; zero when N is 1
}

// SummariseCasts returns number, mean and standard deviation of the counts. An
// empty cast is a count of zero and belongs in the list.
//
// Errors: ErrDomain for no casts or a negative count.
func SummariseCasts(counts []int) (Casts, error) {
	const fn = "biomass.SummariseCasts"
	if len(counts) == 0 {
		return Casts{}, &units.InputError{Func: fn, Field: "counts", Value: 0, Reason: "at least one cast is needed"}
	}
	var all []error
	sum := 0.0
	for i, c := range counts {
		if c < 0 {
			all = append(all, units.NonNegative(fn, indexed("counts", i), float64(c), "animals"))
		}
		sum += float64(c)
	}
	if err := errors.Join(all...); err != nil {
		return Casts{}, err
	}
	k := Casts{N: len(counts), Mean: sum / float64(len(counts))}
	if k.N > 1 {
		ss := 0.0
		for _, c := range counts {
			d := float64(c) - k.Mean
			ss += d * d
		}
		k.SD = math.Sqrt(ss / float64(k.N-1))
	}
	return k, nil
}

// CV returns the relative standard error of the mean count, SD/(Mean·√N), or
// zero when the casts cannot show it (one cast, or all empty).
//
// Source: Cochran (1977), Sampling Techniques, 3rd ed., sec. 2.5 (from memory).
func (k Casts) CV() float64 {
	if k.N < 2 || !(k.Mean > 0) {
		return 0
	}
	return held(k.SD / k.Mean / math.Sqrt(float64(k.N)))
}

// Evidence tells what the casts can show.
func (k Casts) Evidence() Evidence {
	switch {
	case k.Mean == 0:
		return NothingCaught
	case k.N == 1:
		return Single
	}
	return Replicated
}

// Validate reports every field that cannot be.
func (k Casts) Validate() error {
	const fn = "biomass.Casts"
	var all []error
	if k.N < 1 {
		all = append(all, &units.InputError{Func: fn, Field: "n", Value: float64(k.N), Reason: "at least one cast is needed"})
	}
	all = append(all, units.NonNegative(fn, "mean", k.Mean, "animals"), units.NonNegative(fn, "sd", k.SD, "animals"))
	if k.N > 1 && k.Mean == 0 && k.SD > 0 {
		all = append(all, &units.InputError{Func: fn, Field: "sd", Value: k.SD, Unit: "animals", Reason: "cannot be above zero when every cast is empty"})
	}
	return errors.Join(all...)
}

// NetArea returns the bottom area that one cast covers: a circle of the net's
// radius times opening, the fraction of the full circle that it opens to in the
// thrower's hands (above 0, at most 1).
//
//	a = π r² f
//
// Errors: ErrDomain for a radius not above zero or an opening outside 0 to 1.
//
// Source: area of a circle; the opening factor is common practice, no source.
func NetArea(radius units.Length, opening float64) (units.Area, error) {
	const fn = "biomass.NetArea"
	if err := units.Positive(fn, "radius", radius.Metres(), "m"); err != nil {
		return units.Area(math.NaN()), err
	}
	if err := fraction(fn, "opening", opening); err != nil {
		return units.Area(math.NaN()), err
	}
	r := radius.Metres()
	return sound(fn, units.SquareMetres.Of(math.Pi*r*r*opening))
}

// CastNet is a cast-net sample of a pond.
type CastNet struct {
	Casts Casts `json:"casts"`
	// SweptArea is the bottom area of one cast as thrown, see [NetArea].
	SweptArea units.Area `json:"sweptArea"`
	// SweptAreaCV is its relative standard uncertainty; zero takes it as exact.
	SweptAreaCV float64 `json:"sweptAreaCV"`
	// Efficiency is the fraction of the animals under the net that are landed,
	// above 0 and at most 1, from the farm's own calibration. There is no default.
	Efficiency float64 `json:"efficiency"`
	// EfficiencySD is its standard uncertainty, in the same fraction; zero takes
	// it as exact, which raises a notice.
	EfficiencySD float64 `json:"efficiencySD"`
}

// Density is the density that a cast-net sample shows.
type Density struct {
	Evidence Evidence `json:"evidence"`
	// Density is zero when nothing was caught.
	Density units.CountPerArea `json:"density"`
	// SE is its standard error by the delta method, CV the same as a fraction.
	// Both are zero unless Evidence is Replicated.
	SE units.CountPerArea `json:"se"`
	CV float64            `json:"cv"`
	// UpperBound is the one-sided 95 % bound when nothing was caught, else zero.
	UpperBound units.CountPerArea `json:"upperBound"`
	// Errors are the named parts of CV, in the order sampling, efficiency, area.
	Errors  []Component    `json:"errors,omitempty"`
	Notices []units.Notice `json:"notices,omitempty"`
}

// Names of the errors of a crop estimate.
const (
	ErrorSampling   = "catch sampling"
	ErrorEfficiency = "catch efficiency"
	ErrorSweptArea  = "swept area"
	ErrorPondArea   = "pond area"
	ErrorWeight     = "mean weight"
	ErrorSurvival   = "survival"
	ErrorStocking   = "stocking count"
)

// fewCasts is the number of casts below which the spread itself is uncertain by
// more than about a quarter (1/√(2(n−1))).
const fewCasts = 9

// Density returns animals per area of bottom with its standard error.
//
//	D = m / (a e)
//	CV² = (s/m)²/n + (σₑ/e)² + cₐ²     (delta method, independent errors)
//
// with m and s the mean and standard deviation of the n counts, a the swept area
// and e the catch efficiency. One cast gives a density without an interval. When
// every cast is empty, the mean count per cast is below 3.00/n with 95 %
// confidence (−ln 0.05 = 2.996, "rule of three"), which gives UpperBound; the
// efficiency enters it at its point value.
//
// Errors: ErrDomain, all of them at once, with the field's path.
//
// Source: delta method: JCGM 100:2008 eq. 12 (from memory); zero counts: Hanley and
// Lippman-Hand (1983), "If nothing goes wrong, is everything all right?", JAMA
// 249:1743-1745, rule as told in JAMA 274:1013 (1995). The swept-area estimate is
// common practice, no source.
func (c CastNet) Density() (Density, error) {
	if err := c.Validate(); err != nil {
		return Density{}, err
	}
	reach := c.SweptArea.SquareMetres() * c.Efficiency // m² of bottom fully caught by one cast
	d := Density{Evidence: c.Casts.Evidence()}
	d.Errors = []Component{
		{Name: ErrorSampling, CV: c.Casts.CV()},
		{Name: ErrorEfficiency, CV: c.EfficiencySD / c.Efficiency},
		{Name: ErrorSweptArea, CV: c.SweptAreaCV},
	}
	if c.EfficiencySD == 0 {
		d.Notices = append(d.Notices, units.Notice{Code: CodeExactEfficiency, Severity: units.Caution, Field: "efficiencySD",
			Message: "the catch efficiency is taken as exact; its error is usually larger than the sampling error and does not fall with more casts"})
	}
	switch d.Evidence {
	case NothingCaught:
		d.UpperBound = units.CountsPerSquareMetre.Of(ZeroCountBound(c.Casts.N) / reach)
		d.Notices = append(d.Notices, units.Notice{Code: CodeNothingCaught, Severity: units.Warning, Field: "casts",
			Value: d.UpperBound.CountsPerSquareMetre(), Unit: "1/m2",
			Message: "every cast came up empty: only an upper bound is known (95 % confidence, Poisson rule of three)",
			Source:  "Hanley and Lippman-Hand 1983"})
		return d.sound()
	case Single:
		d.Notices = append(d.Notices, units.Notice{Code: CodeSingleObservation, Severity: units.Warning, Field: "casts.n",
			Value: 1, Limit: 2, Message: "one cast has no spread: the interval is undefined"})
	case Replicated:
		if c.Casts.N < fewCasts {
			d.Notices = append(d.Notices, units.Notice{Code: CodeFewCasts, Severity: units.Caution, Field: "casts.n",
				Value: float64(c.Casts.N), Limit: fewCasts,
				Message: "so few casts do not show their own spread well: the sampling error may be off by a quarter or more"})
		}
		sum := 0.0
		for _, e := range d.Errors {
			sum += e.CV * e.CV
		}
		d.CV = math.Sqrt(sum)
	}
	d.Density = units.CountsPerSquareMetre.Of(c.Casts.Mean / reach)
	d.SE = units.CountsPerSquareMetre.Of(d.CV * c.Casts.Mean / reach)
	return d.sound()
}

// Validate reports every field that cannot be.
func (c CastNet) Validate() error {
	const fn = "biomass.CastNet"
	return errors.Join(
		units.AtField("casts", c.Casts.Validate()),
		units.Positive(fn, "sweptArea", c.SweptArea.SquareMetres(), "m2"),
		units.NonNegative(fn, "sweptAreaCV", c.SweptAreaCV, ""),
		fraction(fn, "efficiency", c.Efficiency),
		units.NonNegative(fn, "efficiencySD", c.EfficiencySD, ""),
	)
}

// sound refuses a density whose numbers overflowed.
func (d Density) sound() (Density, error) {
	err := soundAll("biomass.CastNet.Density", d.Density.CountsPerSquareMetre(), d.SE.CountsPerSquareMetre(), d.CV, d.UpperBound.CountsPerSquareMetre())
	for _, e := range d.Errors {
		err = errors.Join(err, soundAll("biomass.CastNet.Density", e.CV))
	}
	if err != nil {
		return Density{}, err
	}
	return d, nil
}

// ZeroCountBound returns the one-sided 95 % upper bound on the mean count per
// observation when n observations are all zero, −ln 0.05 / n, close to 3/n. An n
// below one is taken as one.
//
// Source: Hanley and Lippman-Hand (1983), JAMA 249:1743-1745, rule as told in JAMA
// 274:1013 (1995).
func ZeroCountBound(n int) float64 { return -math.Log(0.05) / float64(max(n, 1)) }

// NegativeBinomialK returns the moment estimate of the negative binomial
// exponent of counts with the given mean and standard deviation, a measure of
// how patchily the animals stand: small k is patchy, large k is random.
//
//	k = m²/(s² − m)
//
// Errors: ErrDomain for a mean not above zero or a negative sd; ErrNoSolution
// when s² is not above m, for counts no more variable than random ones.
//
// Source: Anscombe (1949), "The statistical analysis of insect counts based on
// the negative binomial distribution", Biometrics 5:165-173 (from memory).
func NegativeBinomialK(mean, sd float64) (float64, error) {
	const fn = "biomass.NegativeBinomialK"
	if err := errors.Join(units.Positive(fn, "mean", mean, "animals"), units.NonNegative(fn, "sd", sd, "animals")); err != nil {
		return math.NaN(), err
	}
	excess := sd*sd - mean
	if !(excess > 0) {
		return math.NaN(), &units.InputError{Func: fn, Field: "sd", Value: sd, Unit: "animals", Kind: units.ErrNoSolution,
			Reason: "the counts vary no more than random ones (variance not above the mean); k is infinite"}
	}
	return mean * mean / excess, nil
}

// fraction returns an error unless v is above 0 and at most 1.
func fraction(fn, field string, v float64) error {
	if v > 0 && v <= 1 {
		return nil
	}
	return &units.InputError{Func: fn, Field: field, Value: v, Min: 0, Max: 1, Reason: "a fraction above 0 and at most 1"}
}
