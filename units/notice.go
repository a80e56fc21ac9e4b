package units

import (
	"fmt"
	"math"
)

// Severity ranks a Notice.
type Severity uint8

// From a remark to something that must stop the plan.
const (
	Info    Severity = iota // an assumption or default worth knowing
	Caution                 // outside a published range, or close to a limit
	Warning                 // a limit is passed or the plan misses its hour
	Danger                  // people, stock or machine at risk as planned
)

var severityNames = [...]string{"info", "caution", "warning", "danger"}

// String returns "info", "caution", "warning" or "danger".
func (s Severity) String() string {
	if int(s) < len(severityNames) {
		return severityNames[s]
	}
	return fmt.Sprintf("Severity(%d)", uint8(s))
}

// MarshalText writes the severity's word.
func (s Severity) MarshalText() ([]byte, error) {
	if int(s) >= len(severityNames) {
		return nil, fmt.Errorf("units.Severity: %d is not one of info, caution, warning, danger", uint8(s))
	}
	return []byte(severityNames[s]), nil
}

// UnmarshalText reads the severity's word.
func (s *Severity) UnmarshalText(text []byte) error {
	for i, n := range severityNames {
		if string(text) == n {
			*s = Severity(i)
			return nil
		}
	}
	return fmt.Errorf("units.Severity: %q is not one of info, caution, warning, danger", text)
}

// Notice is something the reader of a result must know although an answer
// exists: extrapolation past a published range, a change of regime, an assumed
// default, a limit passed. Code is stable across releases; Value and Limit are
// in Unit and always finite.
type Notice struct {
	Code     string   `json:"code"`            // stable, such as "HYD_REYNOLDS_TRANSITION"
	Severity Severity `json:"severity"`        // how much it matters
	Field    string   `json:"field,omitempty"` // input or result it speaks of
	Value    float64  `json:"value"`           // what was found, in Unit
	Limit    float64  `json:"limit"`           // what it was held against, in Unit
	Unit     string   `json:"unit,omitempty"`  // empty when dimensionless
	Message  string   `json:"message"`         // one plain sentence
	Source   string   `json:"source,omitempty"`
}

// String returns severity, code and message on one line.
func (n Notice) String() string {
	s := n.Severity.String() + " " + n.Code + ": " + n.Message
	if n.Source != "" {
		s += " [" + n.Source + "]"
	}
	return s
}

// Outside returns a Caution with the given code when v leaves lo to hi, and
// whether it does. All three are in unit; an infinite bound is open. A NaN is
// outside and reported as value zero with a message that says so.
func Outside(code, field string, v, lo, hi float64, unit, source string) (Notice, bool) {
	if v >= lo && v <= hi {
		return Notice{}, false
	}
	n := Notice{Code: code, Severity: Caution, Field: field, Value: v, Unit: unit, Source: source}
	switch {
	case math.IsNaN(v):
		n.Value = 0
		n.Message = field + " is not a number"
		return n, true
	case v < lo:
		n.Limit = lo
		n.Message = field + " " + quantityText(v, unit) + " is below the published range, which starts at " + quantityText(lo, unit)
	default:
		n.Limit = hi
		n.Message = field + " " + quantityText(v, unit) + " is above the published range, which ends at " + quantityText(hi, unit)
	}
	if math.IsInf(v, 0) {
		n.Value = math.Copysign(math.MaxFloat64, v)
	}
	return n, true
}
