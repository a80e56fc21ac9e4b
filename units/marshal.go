package units

import (
	"bytes"
	"database/sql/driver"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"strings"
)

// appendText writes v in the SI unit with every digit needed to read back the
// same bits.
func (q *quantityRecord) appendText(dst []byte, v float64) ([]byte, error) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return dst, &InputError{Func: "units." + q.name, Field: "value", Value: v, Unit: q.units[0].symbol,
			Min: math.Inf(-1), Max: math.Inf(1), Reason: "only a finite value has a text"}
	}
	return appendSymbol(appendShortest(dst, v), q.units[0].symbol), nil
}

// value serves database/sql: the text, since a bare number would lose its unit.
func value(text []byte, err error) (driver.Value, error) {
	if err != nil {
		return nil, err
	}
	return string(text), nil
}

// scanText returns the text a database column holds.
func (q *quantityRecord) scanText(src any) (string, error) {
	switch src := src.(type) {
	case string:
		return src, nil
	case []byte:
		return string(src), nil
	case nil:
		return "", q.fail("NULL", "is not "+article(q.words)+": scan into a pointer or sql.Null where it may be absent")
	}
	return "", q.fail(fmt.Sprint(src), "has no unit: store "+article(q.words)+" as text", q.symbols()...)
}

// jsonQuantity is the object form of a quantity.
type jsonQuantity struct {
	Value *float64 `json:"value"`
	Unit  *string  `json:"unit"`
}

// readJSON returns the text of a JSON string, or the value and unit of an
// object, in which case text is the unit.
func (q *quantityRecord) readJSON(data []byte) (text string, v *float64, err error) {
	data = bytes.TrimSpace(data)
	raw := string(data)
	switch {
	case len(data) == 0:
		return "", nil, q.fail(raw, "is empty")
	case data[0] == '"':
		if json.Unmarshal(data, &text) != nil {
			return "", nil, q.fail(raw, "is not a JSON string")
		}
		return text, nil, nil
	case data[0] == '{':
		var o jsonQuantity
		d := json.NewDecoder(bytes.NewReader(data))
		d.DisallowUnknownFields()
		if d.Decode(&o) != nil || o.Value == nil || o.Unit == nil {
			return "", nil, q.fail(raw, `is not an object of a number "value" and a text "unit" and no more`)
		}
		if _, err := d.Token(); !errors.Is(err, io.EOF) {
			return "", nil, q.fail(raw, "goes on after the object")
		}
		return *o.Unit, o.Value, nil
	case raw == "null":
		return "", nil, q.fail(raw, "is not "+article(q.words)+": leave the field out, or make it a pointer where it may be absent")
	case decimalEnd(raw) == len(raw):
		if v, _, reason := number(raw); reason == "" {
			return "", nil, q.bare(raw, v)
		}
	}
	return "", nil, q.fail(raw, "is not a text with a unit", q.symbols()...)
}

// parseJSON reads a quantity from JSON in the SI unit of the type.
func (q *quantityRecord) parseJSON(data []byte) (float64, error) {
	text, v, err := q.readJSON(data)
	if err != nil {
		return math.NaN(), err
	}
	if v == nil {
		return q.parse(text)
	}
	f, err := q.unitFactor(string(data), tidyText(text))
	if err != nil {
		return math.NaN(), err
	}
	if x := f.of(*v); !math.IsInf(x, 0) {
		return x, nil
	}
	return math.NaN(), q.fail(string(data), "does not fit a float64")
}

// jsonError makes a parse error the one encoding/json adds the field's path to.
func jsonError[T any](err error) error {
	var p *ParseError
	if !errors.As(err, &p) {
		return err
	}
	what := strings.TrimPrefix(p.Error(), "units."+p.Type+": ")
	if head := quoteShort(p.Text); strings.HasPrefix(what, head) {
		what = head + " (it " + strings.TrimPrefix(what, head+" ") + ")"
	}
	return &json.UnmarshalTypeError{Value: what, Type: reflect.TypeFor[T]()}
}

// marshalUnit returns the symbol of a descriptor.
func (q *quantityRecord) marshalUnit(u uint8) ([]byte, error) {
	if int(u) < len(q.units) {
		return []byte(q.units[u].symbol), nil
	}
	return nil, q.fail(q.unitName(u), "is not a unit of "+q.words)
}

// unmarshalUnit reads a unit of the table, by its symbol or another spelling.
func (q *quantityRecord) unmarshalUnit(text []byte) (uint8, error) {
	s := tidyText(string(text))
	f, err := q.unitFactor(string(text), s)
	if err != nil {
		return 0, err
	}
	for i, u := range q.units {
		if u.symbol == s {
			return uint8(i), nil
		}
	}
	for i, u := range q.units {
		if u.factor == f.num && f.den == 1 && f.exp10 == 0 {
			return uint8(i), nil
		}
	}
	return 0, q.fail(string(text), "is not one of the listed units of "+q.words, q.symbols()...)
}
