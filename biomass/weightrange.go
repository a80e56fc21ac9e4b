package biomass

import (
	"errors"

	"pondwright.example/units"
)

// WeightRange is the range of body weights a species can have, to catch a slip
// of unit. It is the caller's data; [WhitelegShrimp] is one for that species.
type WeightRange struct {
	Species string     `json:"species"`
	Low     units.Mass `json:"low"`
	High    units.Mass `json:"high"`
	Source  string     `json:"source"`
}

// WhitelegShrimp is the range for pond-grown Penaeus vannamei, 0.5 to 100 g. The
// upper end is the weight at the greatest recorded total length, 230 mm, for a
// condition factor of 0.8 (see [ConditionFactor]), 97 g, rounded up; the lower end
// is common practice for an animal that a cast net keeps.
func WhitelegShrimp() WeightRange {
	return WeightRange{Species: "Penaeus vannamei", Low: 0.5 * units.Gram, High: 100 * units.Gram,
		Source: "FAO (2009), Cultured aquatic species fact sheet: Penaeus vannamei, maximum length 23 cm; weight derived from it"}
}

// Validate reports every field that cannot be.
func (r WeightRange) Validate() error {
	const fn = "biomass.WeightRange"
	err := units.Positive(fn, "low", r.Low.Kilograms(), "kg")
	if !(r.High > r.Low) {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "high", Value: r.High.Kilograms(), Unit: "kg", Reason: "must be above low"})
	}
	return err
}

// Check returns a notice when w is outside the range, and whether it is. The
// weight is never changed; when it would be inside as grams written as
// kilograms, or the reverse, the message says so.
func (r WeightRange) Check(field string, w units.Mass) (units.Notice, bool) {
	if w >= r.Low && w <= r.High {
		return units.Notice{}, false
	}
	n, _ := units.Outside(CodeWeightRange, field, w.In(units.Grams), r.Low.In(units.Grams), r.High.In(units.Grams), "g", r.Source)
	n.Severity = units.Warning
	n.Message = field + " is outside what " + r.Species + " can weigh"
	for _, slip := range []struct {
		factor float64
		words  string
	}{{1000, "the value would fit if grams had been written as kilograms"}, {1e-3, "the value would fit if kilograms had been written as grams"}} {
		if v := w.Kilograms() / slip.factor; v >= r.Low.Kilograms() && v <= r.High.Kilograms() {
			n.Message += "; " + slip.words
		}
	}
	return n, true
}
