package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// WeightShape is the shape of a distribution of body weights:
// [LognormalWeights] or [NormalWeights].
type WeightShape uint8

// The zero WeightShape is lognormal, which gives no animal a weight below zero.
const (
	LognormalWeights WeightShape = iota
	NormalWeights
)

var shapeNames = [...]string{"lognormal", "normal"}

// String returns the word for s.
func (s WeightShape) String() string { return word("WeightShape", shapeNames[:], int(s)) }

// MarshalText writes the word for s.
func (s WeightShape) MarshalText() ([]byte, error) {
	return marshalWord("WeightShape", shapeNames[:], int(s))
}

// UnmarshalText reads the word for a WeightShape.
func (s *WeightShape) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("WeightShape", shapeNames[:], text)
	if err == nil {
		*s = WeightShape(i)
	}
	return err
}

// Cohort is one group of animals of a pond: a sex, a stocking, a size mode.
type Cohort struct {
	// Fraction of the animals, by number; the fractions of a pond sum to one.
	Fraction float64 `json:"fraction"`
	// MeanWeight is the mean weight of whole animals.
	MeanWeight units.Mass `json:"meanWeight"`
	// CV is the coefficient of variation between animals, above zero.
	CV float64 `json:"cv"`
}

// WeightDistribution is the distribution of whole body weights in a pond, a
// mixture of cohorts of one shape.
type WeightDistribution struct {
	Shape   WeightShape `json:"shape"`
	Cohorts []Cohort    `json:"cohorts"`
}

// Validate reports every field that cannot be.
func (d WeightDistribution) Validate() error {
	const fn = "biomass.WeightDistribution"
	var all []error
	if int(d.Shape) >= len(shapeNames) {
		all = append(all, &units.InputError{Func: fn, Field: "shape", Value: float64(d.Shape), Reason: "lognormal or normal"})
	}
	if len(d.Cohorts) == 0 {
		all = append(all, &units.InputError{Func: fn, Field: "cohorts", Value: 0, Reason: "at least one cohort is needed"})
	}
	sum := 0.0
	for i, c := range d.Cohorts {
		at := indexed("cohorts", i)
		all = append(all, units.Within(fn, at+".fraction", c.Fraction, 0, 1, ""),
			units.Positive(fn, at+".meanWeight", c.MeanWeight.Kilograms(), "kg"),
			units.Positive(fn, at+".cv", c.CV, ""))
		sum += c.Fraction
	}
	if len(d.Cohorts) > 0 && !(math.Abs(sum-1) < 1e-6) {
		all = append(all, &units.InputError{Func: fn, Field: "cohorts", Value: sum, Reason: "the fractions must sum to one"})
	}
	return errors.Join(all...)
}

// MeanWeight returns the mean weight of the mixture, Σ fᵢ w̄ᵢ.
//
// Source: by definition.
func (d WeightDistribution) MeanWeight() units.Mass {
	mean := 0.0
	for _, c := range d.Cohorts {
		mean += c.Fraction * c.MeanWeight.Kilograms()
	}
	return units.Kilograms.Of(mean)
}

// Below returns the fraction of the animals, and of their mass, that are in
// animals of at most weight w. It allocates nothing and does not validate.
//
//	normal:     F = Φ(z),           G = F − (s²/w̄) φ(z)/s,  z = (w − w̄)/s
//	lognormal:  F = Φ(z),           G = Φ(z − σ),            z = (ln w − μ)/σ
//
// with σ² = ln(1 + cv²) and μ = ln w̄ − σ²/2; a mixture is the sum over cohorts,
// weighted by number for F and by mass for G.
//
// Source: partial expectations in closed form: Aitchison and Brown (1957), The
// Lognormal Distribution, sec. 2.4 (from memory); normal: integration by parts.
func (d WeightDistribution) Below(w units.Mass) (number, mass float64) {
	total := 0.0
	for _, c := range d.Cohorts {
		f, g := below(d.Shape, c.MeanWeight.Kilograms(), c.CV, w.Kilograms())
		m := c.Fraction * c.MeanWeight.Kilograms()
		number += c.Fraction * f
		mass += m * g
		total += m
	}
	if !(total > 0) {
		return 0, 0
	}
	return number, mass / total
}

func below(shape WeightShape, mean, cv, w float64) (number, mass float64) {
	if shape == NormalWeights {
		z := (w - mean) / (cv * mean)
		number = normalCDF(z)
		return number, number - cv*normalPDF(z)
	}
	if !(w > 0) {
		return 0, 0
	}
	s := logSD(cv)
	z := math.Log(w/mean)/s + s/2
	return normalCDF(z), normalCDF(z - s)
}

// ClassShare is the part of a crop in one count class when every animal is
// graded on its own.
type ClassShare struct {
	Class  string  `json:"class"`
	Number float64 `json:"number"` // fraction of the animals
	Mass   float64 `json:"mass"`   // fraction of the mass
	// MeanWeight is the mean weight of the whole animals in the class; zero for a
	// class without animals.
	MeanWeight units.Mass `json:"meanWeight"`
}

// Shares is a crop by count class, in the order of the table.
type Shares struct {
	Classes []ClassShare `json:"classes"`
	// Beyond are the parts past a last class that has an end.
	BeyondNumber float64 `json:"beyondNumber"`
	BeyondMass   float64 `json:"beyondMass"`
	// BelowZero is the part that a normal distribution puts at weights below zero,
	// a flaw of that shape; its mass is negative.
	BelowZeroNumber float64        `json:"belowZeroNumber"`
	BelowZeroMass   float64        `json:"belowZeroMass"`
	Notices         []units.Notice `json:"notices,omitempty"`
}

// negativeTail is the fraction of animals of weight below zero above which a
// normal distribution is no longer taken without a word.
const negativeTail = 1e-4

// Shares returns the fractions of the animals and of their mass in each class of
// the table when animals are graded one by one. An animal of whole weight w and
// tail yield y counts as 1/(w y) per mass in a headless table. The yield is
// unused for a head-on table.
//
// Number and mass fractions, with those beyond an ended table and below zero
// weight, each sum to one.
//
// Errors: ErrDomain for a distribution, table or yield that cannot be.
//
// Source: see [WeightDistribution.Below]; classes by [CountTable.EdgeOf].
func (d WeightDistribution) Shares(t CountTable, yield float64) (Shares, error) {
	const fn = "biomass.WeightDistribution.Shares"
	err := errors.Join(d.Validate(), units.AtField("table", t.Validate()))
	if t.Form == Headless {
		err = errors.Join(err, fraction(fn, "yield", yield))
	} else {
		yield = 1
	}
	if err != nil {
		return Shares{}, err
	}
	s := Shares{Classes: make([]ClassShare, len(t.Classes))}
	mean := d.MeanWeight().Kilograms()
	number, mass := 1.0, 1.0 // in animals no heavier than the class's upper weight
	for i, c := range t.Classes {
		n, m := d.belowEdge(t, i, yield)
		s.Classes[i] = ClassShare{Class: c.Name, Number: number - n, Mass: mass - m}
		if number-n > 0 {
			s.Classes[i].MeanWeight = units.Kilograms.Of(mean * (mass - m) / (number - n))
		}
		number, mass = n, m
	}
	s.BelowZeroNumber, s.BelowZeroMass = d.Below(0)
	s.BeyondNumber, s.BeyondMass = number-s.BelowZeroNumber, mass-s.BelowZeroMass
	s.checkTail(d)
	return s, nil
}

// belowEdge returns the fractions in animals lighter than those at the upper
// count of class i; the class without an end reaches down to zero weight.
func (d WeightDistribution) belowEdge(t CountTable, i int, yield float64) (number, mass float64) {
	if i == len(t.Classes)-1 && t.Classes[i].High == 0 {
		return d.Below(0)
	}
	return d.Below(units.Kilograms.Of(1 / (t.EdgeOf(i).CountsPerKilogram() * yield)))
}

func (s *Shares) checkTail(d WeightDistribution) {
	if d.Shape != NormalWeights {
		return
	}
	if n := s.BelowZeroNumber; n > negativeTail {
		s.Notices = append(s.Notices, units.Notice{Code: CodeNegativeTail, Severity: units.Caution, Field: "cohorts",
			Value: n, Limit: negativeTail,
			Message: "the normal distribution puts animals below zero weight: use the lognormal"})
	}
}
