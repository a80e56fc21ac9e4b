package units

import "encoding/json"

// described is a type that JSONSchema can describe: every Quantity and
// Temperature.
type described interface {
	record() *quantityRecord
}

// textPattern is what the text of every quantity matches: a digit, and after it
// something that is no part of a number. What it lets through the parser still
// checks.
const textPattern = `[0-9½¼¾⅛⅜⅝⅞⅓⅔].*[^-+0-9.,eE/\s]`

// JSONSchema returns a JSON Schema (draft 2020-12) fragment for the type: a text
// with a unit or an object of value and unit, for those who build forms. The
// units listed are the type's own; the parser reads more.
func JSONSchema[T described]() json.RawMessage {
	var zero T
	q := zero.record()
	examples := []string{"4.5 " + q.units[q.metric].symbol}
	if q.other != q.metric {
		examples = append(examples, "4.5 "+q.units[q.other].symbol)
	}
	fragment := schema{
		Title:       q.name,
		Description: article(q.words) + " with its unit, one of the listed or any of the same dimension",
		OneOf: []schema{
			{Type: "string", Pattern: textPattern, Examples: examples},
			{
				Type: "object",
				Properties: map[string]schema{
					"value": {Type: "number"},
					"unit":  {Type: "string", Examples: q.symbols()},
				},
				Required: []string{"value", "unit"},
				Closed:   new(bool),
			},
		},
	}
	b, err := json.Marshal(fragment)
	if err != nil {
		panic("units: " + err.Error()) // strings and one false cannot fail
	}
	return b
}

type schema struct {
	Title       string            `json:"title,omitempty"`
	Description string            `json:"description,omitempty"`
	Type        string            `json:"type,omitempty"`
	Pattern     string            `json:"pattern,omitempty"`
	Examples    []string          `json:"examples,omitempty"`
	OneOf       []schema          `json:"oneOf,omitempty"`
	Properties  map[string]schema `json:"properties,omitempty"`
	Required    []string          `json:"required,omitempty"`
	Closed      *bool             `json:"additionalProperties,omitempty"` // false
}
