package units

import (
	"database/sql"
	"database/sql/driver"
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"testing"
)

// quantityCase is one type seen through functions of float64 and text, so that
// one test can hold every type to the same rules.
type quantityCase struct {
	name   string
	typ    reflect.Type
	q      *quantityRecord
	units  int
	of     func(u int, v float64) float64
	in     func(u int, x float64) float64
	parse  func(string) (float64, error)
	text   func(x float64) ([]byte, error)            // AppendText
	json   func(x float64) ([]byte, error)            // json.Marshal
	unjson func([]byte) (float64, error)              // json.Unmarshal
	scan   func(src any) (float64, error)             // sql.Scanner
	value  func(x float64) (driver.Value, error)      // driver.Valuer
	print  func(format string, x float64) string      // fmt
	inUnit func(u int, x float64) string              // Text
	unit   func(text string) (symbol string, _ error) // UnmarshalText of the descriptor
	schema func() json.RawMessage
	string func(x float64) string // String
	record func(u int) unitRecord // what the descriptor's methods say
}

// caseOf takes a parse function for Q and the descriptor of its base unit.
func caseOf[Q interface {
	Quantity
	In(U) float64
	Text(U) string
	driver.Valuer
	encoding.TextMarshaler
}, U interface {
	Unit
	Of(float64) Q
}, PQ interface {
	*Q
	sql.Scanner
	encoding.TextUnmarshaler
	json.Unmarshaler
}, PU interface {
	*U
	encoding.TextUnmarshaler
}](parse func(string) (Q, error), base U) quantityCase {
	return quantityCase{
		name:  Q(0).record().name,
		typ:   reflect.TypeFor[Q](),
		q:     Q(0).record(),
		units: len(All[U]()),
		of:    func(u int, v float64) float64 { return float64(U(u).Of(v)) },
		in:    func(u int, x float64) float64 { return Q(x).In(U(u)) },
		parse: func(s string) (float64, error) { x, err := parse(s); return float64(x), err },
		text:  func(x float64) ([]byte, error) { return Q(x).AppendText(nil) },
		json:  func(x float64) ([]byte, error) { return json.Marshal(Q(x)) },
		unjson: func(b []byte) (float64, error) {
			var x Q
			err := json.Unmarshal(b, PQ(&x))
			return float64(x), err
		},
		scan: func(src any) (float64, error) {
			var x Q
			err := PQ(&x).Scan(src)
			return float64(x), err
		},
		value:  func(x float64) (driver.Value, error) { return Q(x).Value() },
		print:  func(format string, x float64) string { return fmt.Sprintf(format, Q(x)) },
		inUnit: func(u int, x float64) string { return Q(x).Text(U(u)) },
		unit: func(text string) (string, error) {
			var u U
			err := PU(&u).UnmarshalText([]byte(text))
			return u.Symbol(), err
		},
		schema: JSONSchema[Q],
		string: func(x float64) string { return Q(x).String() },
		record: func(u int) unitRecord {
			return unitRecord{U(u).Symbol(), U(u).String(), U(u).Factor(), U(u).Exact()}
		},
	}
}

// caseNamed returns the case of one type.
func caseNamed(t testing.TB, name string) quantityCase {
	t.Helper()
	i := slices.IndexFunc(everyQuantity, func(c quantityCase) bool { return c.name == name })
	if i < 0 {
		t.Fatalf("no type %s", name)
	}
	return everyQuantity[i]
}

// unitNamed returns the descriptor of a symbol.
func (c quantityCase) unitNamed(t testing.TB, symbol string) int {
	t.Helper()
	i := slices.Index(c.q.symbols(), symbol)
	if i < 0 {
		t.Fatalf("%s has no unit %q", c.name, symbol)
	}
	return i
}
