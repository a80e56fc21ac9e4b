package biomass

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// Form is the form in which animals are counted: [FormUnstated], [HeadOn] or
// [Headless].
type Form uint8

// The zero Form is no form: the caller must state one.
const (
	FormUnstated Form = iota
	HeadOn            // whole animals
	Headless          // tails, shell on
)

var formNames = [...]string{"unstated", "head-on", "headless"}

// String returns the word for f.
func (f Form) String() string { return word("Form", formNames[:], int(f)) }

// MarshalText writes the word for f.
func (f Form) MarshalText() ([]byte, error) { return marshalWord("Form", formNames[:], int(f)) }

// UnmarshalText reads the word for a Form.
func (f *Form) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Form", formNames[:], text)
	if err == nil {
		*f = Form(i)
	}
	return err
}

// Per is the mass by which animals are counted: [PerUnstated], [PerPound] or
// [PerKilogram].
type Per uint8

// The zero Per is no mass: the caller must state one.
const (
	PerUnstated Per = iota
	PerPound
	PerKilogram
)

var perNames = [...]string{"unstated", "per pound", "per kilogram"}

// String returns the words for p.
func (p Per) String() string { return word("Per", perNames[:], int(p)) }

// MarshalText writes the words for p.
func (p Per) MarshalText() ([]byte, error) { return marshalWord("Per", perNames[:], int(p)) }

// UnmarshalText reads the words for a Per.
func (p *Per) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Per", perNames[:], text)
	if err == nil {
		*p = Per(i)
	}
	return err
}

func (p Per) unit() units.CountPerMassUnit {
	if p == PerPound {
		return units.CountsPerPound
	}
	return units.CountsPerKilogram
}

// EdgeRule says into which class a lot falls whose count lies between the upper
// label of one class and the lower label of the next, such as 20.4 between
// 16/20 and 21/25. Buyers differ, and a lot at the edge changes price with the
// rule. It is [EdgeUnstated], [EdgeMidway], [EdgeUpperLabel] or
// [EdgeLowerLabel].
type EdgeRule uint8

// The zero EdgeRule is no rule: the caller must state one.
const (
	EdgeUnstated EdgeRule = iota
	// EdgeMidway puts the edge half way between the labels, at 20.5.
	EdgeMidway
	// EdgeUpperLabel ends a class at its upper label, included: 20.4 is 21/25.
	EdgeUpperLabel
	// EdgeLowerLabel begins a class at its lower label, included: 20.4 is 16/20.
	EdgeLowerLabel
)

var edgeNames = [...]string{"unstated", "midway between labels", "upper label inclusive", "lower label inclusive"}

// String returns the words for r.
func (r EdgeRule) String() string { return word("EdgeRule", edgeNames[:], int(r)) }

// MarshalText writes the words for r.
func (r EdgeRule) MarshalText() ([]byte, error) { return marshalWord("EdgeRule", edgeNames[:], int(r)) }

// UnmarshalText reads the words for an EdgeRule.
func (r *EdgeRule) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("EdgeRule", edgeNames[:], text)
	if err == nil {
		*r = EdgeRule(i)
	}
	return err
}

// CountClass is one class of a count table, by the numbers on its label.
type CountClass struct {
	Name string `json:"name"`
	// Low is the smaller number of the label; zero for the class of the largest
	// animals ("under 10").
	Low float64 `json:"low"`
	// High is the larger number of the label; zero for the class of the smallest
	// animals, which has no end. "Under 10" beside "10/15" is read as 9 or fewer;
	// a buyer who means 10 or fewer gives 10 here and 11 as the next Low.
	High float64 `json:"high"`
}

// CountTable is an ordered set of count classes, from the largest animals to the
// smallest, with all that a label leaves unsaid.
type CountTable struct {
	Form    Form         `json:"form"`
	Per     Per          `json:"per"` // mass of the labels
	Edge    EdgeRule     `json:"edge"`
	Classes []CountClass `json:"classes"`
}

// HeadlessPerPound returns the classes in which shell-on tails are usually
// traded, per pound: U/10, 10/15, 16/20, 21/25, 26/30, 31/35, 36/40, 41/50,
// 51/60, 61/70, 71/90, 91/110 and over 110.
//
// Source: common practice, no source; a buyer's own table comes first.
func HeadlessPerPound(edge EdgeRule) CountTable {
	return CountTable{Form: Headless, Per: PerPound, Edge: edge,
		Classes: labels(9, 10, 15, 16, 20, 21, 25, 26, 30, 31, 35, 36, 40, 41, 50, 51, 60, 61, 70, 71, 90, 91, 110)}
}

// HeadOnPerKilogram returns classes in which whole animals are usually traded,
// per kilogram: U/20, 20/30, 30/40 … 100/120 and over 120. Neighbours share a
// label, so the edge is at the label whatever the rule.
//
// Source: common practice, no source; a buyer's own table comes first.
func HeadOnPerKilogram(edge EdgeRule) CountTable {
	t := CountTable{Form: HeadOn, Per: PerKilogram, Edge: edge,
		Classes: labels(20, 20, 30, 30, 40, 40, 50, 50, 60, 60, 70, 70, 80, 80, 100, 100, 120)}
	return t
}

// labels makes classes from the upper label of the first and pairs for the
// others, with an open class at the end.
func labels(first float64, pairs ...float64) []CountClass {
	under := first
	if len(pairs) > 0 {
		under = pairs[0] // "under" names the next label
	}
	out := []CountClass{{Name: fmt.Sprintf("U/%g", under), High: first}}
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, CountClass{Name: fmt.Sprintf("%g/%g", pairs[i], pairs[i+1]), Low: pairs[i], High: pairs[i+1]})
	}
	last := out[len(out)-1].High
	next := last
	if under > first { // labels of neighbours differ by one
		next++
	}
	return append(out, CountClass{Name: fmt.Sprintf("over %g", last), Low: next})
}

// Validate reports every field that cannot be.
func (t CountTable) Validate() error {
	const fn = "biomass.CountTable"
	var all []error
	if t.Form != HeadOn && t.Form != Headless {
		all = append(all, &units.InputError{Func: fn, Field: "form", Value: float64(t.Form),
			Reason: "state what is counted: head-on or headless"})
	}
	if t.Per != PerPound && t.Per != PerKilogram {
		all = append(all, &units.InputError{Func: fn, Field: "per", Value: float64(t.Per),
			Reason: "state the mass of the labels: per pound or per kilogram"})
	}
	if t.Edge != EdgeMidway && t.Edge != EdgeUpperLabel && t.Edge != EdgeLowerLabel {
		all = append(all, &units.InputError{Func: fn, Field: "edge", Value: float64(t.Edge),
			Reason: "state on which side of a class edge a count falls: midway between labels, upper label inclusive or lower label inclusive"})
	}
	if len(t.Classes) == 0 {
		all = append(all, &units.InputError{Func: fn, Field: "classes", Value: 0, Reason: "at least one class is needed"})
	}
	for i := range t.Classes {
		if field, reason := t.classFault(i); reason != "" {
			all = append(all, &units.InputError{Func: fn, Field: indexed("classes", i) + "." + field, Value: t.label(i, field),
				Unit: t.Per.unit().Symbol(), Reason: reason})
		}
	}
	return errors.Join(all...)
}

// classFault names the label of class i that cannot be, and why.
func (t CountTable) classFault(i int) (field, reason string) {
	c := t.Classes[i]
	switch {
	case !(c.Low >= 0) || math.IsInf(c.Low, 0):
		return "low", "must be finite and not negative"
	case !(c.High >= 0) || math.IsInf(c.High, 0):
		return "high", "must be finite and not negative"
	case c.High == 0 && i != len(t.Classes)-1:
		return "high", "only the last class may be open"
	case c.High != 0 && c.High < c.Low:
		return "high", "must not be below low"
	case i > 0 && c.Low < t.Classes[i-1].High:
		return "low", "classes run from few to many per mass and do not overlap"
	}
	return "", ""
}

func (t CountTable) label(i int, field string) float64 {
	if field == "low" {
		return t.Classes[i].Low
	}
	return t.Classes[i].High
}

// EdgeOf returns the count at the upper end of class i under the table's rule. The
// last class, and any index outside, ends at a count no animal reaches.
//
// Source: by definition of [EdgeRule].
func (t CountTable) EdgeOf(i int) units.CountPerMass {
	if i < 0 || i >= len(t.Classes)-1 {
		if i == len(t.Classes)-1 && i >= 0 && t.Classes[i].High > 0 {
			return t.Per.unit().Of(t.Classes[i].High)
		}
		return units.CountPerMass(math.MaxFloat64)
	}
	high, low := t.Classes[i].High, t.Classes[i+1].Low
	switch t.Edge {
	case EdgeUpperLabel:
		return t.Per.unit().Of(high)
	case EdgeLowerLabel:
		return t.Per.unit().Of(low)
	}
	return t.Per.unit().Of((high + low) / 2)
}

// ClassOf returns the index of the class of a lot with the given count, in the
// table's form, or −1 for a count beyond a last class that has an end. It
// allocates nothing.
//
// A count exactly at an edge belongs to the class of the larger animals, except
// under [EdgeLowerLabel], where the edge begins the next class.
//
// Source: by definition of [EdgeRule].
func (t CountTable) ClassOf(count units.CountPerMass) int {
	for i := range t.Classes {
		edge := t.EdgeOf(i)
		if count < edge || count == edge && t.Edge != EdgeLowerLabel {
			return i
		}
	}
	return -1
}
