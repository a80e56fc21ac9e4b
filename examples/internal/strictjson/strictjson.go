// Package strictjson decodes a JSON document the way a person who typed it
// would want: every bad value, unknown key, duplicate key, missing key and
// piece of trailing text is reported in one go, each with its path and line.
//
// A struct field with a plain json tag is required; one with ",omitempty" may
// be left out. A time.Duration is text with its unit ("6 h", "45 min"). Types
// with UnmarshalText or UnmarshalJSON read themselves.
package strictjson

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"
	"time"
)

// Fault is one thing wrong with the document.
type Fault struct {
	Path string // such as "pond.stages[3].area"; empty for the whole document
	Line int    // 1-based line in the document
	Text string // what is wrong and what would be valid
}

// Error returns line, path and text.
func (f *Fault) Error() string {
	if f.Path == "" {
		return fmt.Sprintf("line %d: %s", f.Line, f.Text)
	}
	return fmt.Sprintf("line %d: %s: %s", f.Line, f.Path, f.Text)
}

// Decode reads the one JSON value in data into dst, a pointer. The error joins
// every *Fault found; what could be read is in dst beside it.
func Decode(data []byte, dst any) error {
	d := decoder{data: data}
	root, ok := d.parse()
	if ok {
		d.bind(root, reflect.ValueOf(dst).Elem(), "")
	}
	return errors.Join(d.faults...)
}

type node struct {
	start, end int
	delim      byte // '{', '[' or 0 for a scalar
	members    []member
	items      []*node
}

type member struct {
	key   string
	start int
	value *node
}

type decoder struct {
	data   []byte
	faults []error
}

func (d *decoder) fault(at int, path, format string, args ...any) {
	at = min(at, len(d.data))
	line := 1 + bytes.Count(d.data[:at], []byte("\n"))
	d.faults = append(d.faults, &Fault{Path: path, Line: line, Text: fmt.Sprintf(format, args...)})
}

// parse builds the tree; the standard decoder keeps the last of two equal keys,
// so they are gathered here before anything is bound.
func (d *decoder) parse() (*node, bool) {
	if len(bytes.TrimSpace(d.data)) == 0 {
		d.fault(0, "", "the file is empty; a JSON object was expected")
		return nil, false
	}
	dec := json.NewDecoder(bytes.NewReader(d.data))
	dec.UseNumber()
	root, err := d.value(dec)
	if err != nil {
		at := int(dec.InputOffset())
		var syn *json.SyntaxError
		if errors.As(err, &syn) {
			at = int(syn.Offset)
		}
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			d.fault(len(d.data), "", "the document ends too early: a bracket or quote is not closed")
		} else {
			d.fault(at, "", "not valid JSON: %v", err)
		}
		return nil, false
	}
	if rest := bytes.TrimSpace(d.data[root.end:]); len(rest) > 0 {
		d.fault(d.skip(root.end), "", "text after the end of the document: %q", clip(string(rest)))
	}
	return root, true
}

// skip returns the offset of the next byte that is not space or separator.
func (d *decoder) skip(at int) int {
	for at < len(d.data) && strings.IndexByte(" \t\r\n,:", d.data[at]) >= 0 {
		at++
	}
	return at
}

func (d *decoder) value(dec *json.Decoder) (*node, error) {
	n := &node{start: d.skip(int(dec.InputOffset()))}
	tok, err := dec.Token()
	if err != nil {
		return nil, err
	}
	switch tok {
	case json.Delim('{'):
		n.delim = '{'
		for dec.More() {
			start := d.skip(int(dec.InputOffset()))
			key, err := dec.Token()
			if err != nil {
				return nil, err
			}
			v, err := d.value(dec)
			if err != nil {
				return nil, err
			}
			n.members = append(n.members, member{key.(string), start, v})
		}
	case json.Delim('['):
		n.delim = '['
		for dec.More() {
			v, err := d.value(dec)
			if err != nil {
				return nil, err
			}
			n.items = append(n.items, v)
		}
	}
	if n.delim != 0 {
		if _, err := dec.Token(); err != nil {
			return nil, err
		}
	}
	n.end = int(dec.InputOffset())
	return n, nil
}

var (
	durationType = reflect.TypeFor[time.Duration]()
	jsonType     = reflect.TypeFor[json.Unmarshaler]()
	textType     = reflect.TypeFor[encoding.TextUnmarshaler]()
)

func (d *decoder) bind(n *node, v reflect.Value, path string) {
	raw := d.data[n.start:n.end]
	if v.Kind() == reflect.Pointer {
		if string(raw) == "null" {
			return
		}
		v.Set(reflect.New(v.Type().Elem()))
		d.bind(n, v.Elem(), path)
		return
	}
	if string(raw) == "null" {
		d.fault(n.start, path, "null is not a value; leave the key out or give it one")
		return
	}
	switch {
	case v.Type() == durationType:
		d.duration(n, raw, v, path)
	case v.Addr().Type().Implements(jsonType) || v.Addr().Type().Implements(textType):
		if err := json.Unmarshal(raw, v.Addr().Interface()); err != nil {
			d.fault(n.start, path, "%s", readerText(err, raw, v.Type()))
		}
	case v.Kind() == reflect.Struct:
		d.object(n, raw, v, path)
	case v.Kind() == reflect.Slice:
		if n.delim != '[' {
			d.fault(n.start, path, "a list [...] was expected, not %s", clip(string(raw)))
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
		for i, item := range n.items {
			d.bind(item, v.Index(i), fmt.Sprintf("%s[%d]", path, i))
		}
	default:
		if err := json.Unmarshal(raw, v.Addr().Interface()); err != nil {
			d.fault(n.start, path, "%s was expected, not %s", kindName(v.Kind()), clip(string(raw)))
		}
	}
}

func (d *decoder) object(n *node, raw []byte, v reflect.Value, path string) {
	if n.delim != '{' {
		d.fault(n.start, path, "an object {...} was expected, not %s", clip(string(raw)))
		return
	}
	fields := map[string]int{}
	var names []string
	for i := range v.NumField() {
		name, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
		if name != "" && name != "-" {
			fields[name] = i
			names = append(names, name)
		}
	}
	seen := map[string]bool{}
	for _, m := range n.members {
		p := join(path, m.key)
		i, known := fields[m.key]
		switch {
		case !known:
			if j := slices.IndexFunc(names, func(n string) bool { return strings.EqualFold(n, m.key) }); j >= 0 {
				d.fault(m.start, p, "unknown key; write it %q", names[j])
				seen[names[j]] = true
				break
			}
			d.fault(m.start, p, "unknown key; known here: %s", strings.Join(names, ", "))
		case seen[m.key]:
			d.fault(m.start, p, "the key is given twice")
		default:
			d.bind(m.value, v.Field(i), p)
		}
		seen[m.key] = true
	}
	for _, name := range names {
		optional := strings.Contains(v.Type().Field(fields[name]).Tag.Get("json"), ",omitempty")
		if !seen[name] && !optional {
			d.fault(n.start, join(path, name), "missing")
		}
	}
}

func (d *decoder) duration(n *node, raw []byte, v reflect.Value, path string) {
	var s string
	if err := json.Unmarshal(raw, &s); err != nil {
		d.fault(n.start, path, "a time with its unit in quotes was expected, such as \"6 h\" or \"45 min\", not %s", clip(string(raw)))
		return
	}
	t, err := ParseDuration(s)
	if err != nil {
		d.fault(n.start, path, "%v", err)
		return
	}
	v.SetInt(int64(t))
}

// ParseDuration reads "6 h", "45 min", "90 s", "2 d" or Go's "1h30m". A bare
// number is an error.
func ParseDuration(s string) (time.Duration, error) {
	t := strings.TrimSpace(s)
	if fields := strings.Fields(t); len(fields) == 2 {
		unit := map[string]time.Duration{"s": time.Second, "min": time.Minute, "h": time.Hour, "d": 24 * time.Hour}[fields[1]]
		var x float64
		if err := json.Unmarshal([]byte(fields[0]), &x); err == nil && unit != 0 {
			ns := x * float64(unit)
			if !(ns >= -float64(1<<62) && ns <= float64(1<<62)) {
				return 0, fmt.Errorf("%q is longer than 146 years", s)
			}
			return time.Duration(ns), nil
		}
	}
	if x, err := time.ParseDuration(strings.ReplaceAll(strings.ReplaceAll(t, "min", "m"), " ", "")); err == nil && t != "0" {
		return x, nil
	}
	return 0, fmt.Errorf("%q is not a time with its unit; write such as \"6 h\", \"45 min\", \"90 s\" or \"2 d\"", s)
}

func readerText(err error, raw []byte, t reflect.Type) string {
	if t == reflect.TypeFor[time.Time]() {
		return fmt.Sprintf("%s is not a date and time with its zone, such as \"2027-03-14T18:00:00+07:00\"", clip(string(raw)))
	}
	var typ *json.UnmarshalTypeError
	if errors.As(err, &typ) && strings.Contains(typ.Value, " ") {
		return typ.Value // a type that words its own refusal
	}
	if typ != nil {
		return fmt.Sprintf("%s is a %s; text with its unit was expected, such as \"1.5 m\"", clip(string(raw)), typ.Value)
	}
	return err.Error()
}

func kindName(k reflect.Kind) string {
	switch k {
	case reflect.String:
		return "text in quotes"
	case reflect.Bool:
		return "true or false"
	case reflect.Float64:
		return "a plain number"
	}
	return "a whole number"
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

func clip(s string) string {
	if len(s) > 40 {
		return strings.ToValidUTF8(s[:40], "") + "..."
	}
	return s
}
