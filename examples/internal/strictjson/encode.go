package strictjson

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"time"
)

// Encode writes v as indented JSON in which a time.Duration is text with its
// unit ("8130 s"), as Decode reads it, and a moment that never comes is null.
// Everything else is as encoding/json has it, struct tags included.
func Encode(v any) ([]byte, error) {
	var b bytes.Buffer
	if err := encode(&b, reflect.ValueOf(v), ""); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, b.Bytes(), "", "  "); err != nil {
		return nil, err
	}
	out.WriteByte('\n')
	return out.Bytes(), nil
}

var (
	timeType   = reflect.TypeFor[time.Time]()
	writesJSON = reflect.TypeFor[json.Marshaler]()
	writesText = reflect.TypeFor[encoding.TextMarshaler]()
)

func encode(b *bytes.Buffer, v reflect.Value, path string) error {
	if !v.IsValid() || v.Type() == timeType && v.IsZero() {
		b.WriteString("null")
		return nil
	}
	switch {
	case v.Type() == durationType:
		fmt.Fprintf(b, "%q", strconv.FormatFloat(time.Duration(v.Int()).Seconds(), 'f', -1, 64)+" s")
		return nil
	case v.Kind() == reflect.Pointer || v.Kind() == reflect.Interface:
		return encode(b, v.Elem(), path)
	case v.Type().Implements(writesJSON) || v.Type().Implements(writesText):
		return leaf(b, v, path)
	}
	switch v.Kind() {
	case reflect.Struct:
		b.WriteByte('{')
		first := true
		if err := members(b, v, path, &first); err != nil {
			return err
		}
		b.WriteByte('}')
		return nil
	case reflect.Slice, reflect.Array:
		b.WriteByte('[')
		for i := range v.Len() {
			if i > 0 {
				b.WriteByte(',')
			}
			if err := encode(b, v.Index(i), fmt.Sprintf("%s[%d]", path, i)); err != nil {
				return err
			}
		}
		b.WriteByte(']')
		return nil
	}
	return leaf(b, v, path)
}

func leaf(b *bytes.Buffer, v reflect.Value, path string) error {
	if v.Kind() == reflect.Float64 && (math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0)) {
		return fmt.Errorf("%s: %g cannot be written", path, v.Float())
	}
	enc := json.NewEncoder(b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v.Interface()); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}

// members writes the fields of a struct, those of untagged embedded structs in
// their place.
func members(b *bytes.Buffer, v reflect.Value, path string, first *bool) error {
	for i := range v.NumField() {
		f := v.Type().Field(i)
		tag, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if f.Anonymous && tag == "" && v.Field(i).Kind() == reflect.Struct {
			if err := members(b, v.Field(i), path, first); err != nil {
				return err
			}
			continue
		}
		if !f.IsExported() || tag == "-" ||
			strings.Contains(options, "omitzero") && v.Field(i).IsZero() ||
			strings.Contains(options, "omitempty") && isEmpty(v.Field(i)) {
			continue
		}
		if tag == "" {
			tag = f.Name
		}
		if !*first {
			b.WriteByte(',')
		}
		*first = false
		fmt.Fprintf(b, "%q:", tag)
		if err := encode(b, v.Field(i), join(path, tag)); err != nil {
			return err
		}
	}
	return nil
}

// isEmpty is the meaning of omitempty in encoding/json.
func isEmpty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map, reflect.String, reflect.Array:
		return v.Len() == 0
	case reflect.Struct:
		return false
	}
	return v.IsZero()
}
