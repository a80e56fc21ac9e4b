package strictjson

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
)

type length float64

func (l *length) UnmarshalText(b []byte) error {
	var unit string
	if n, _ := fmt.Sscanf(string(b), "%g %s", (*float64)(l), &unit); n != 2 || unit != "m" {
		return fmt.Errorf("%q is not a length in m", b)
	}
	return nil
}

type stage struct {
	Stage length `json:"stage"`
	Area  length `json:"area"`
}

type doc struct {
	Name   string        `json:"name"`
	Count  int           `json:"count"`
	Share  float64       `json:"share"`
	Flap   bool          `json:"flap"`
	Hold   time.Duration `json:"hold"`
	At     time.Time     `json:"at"`
	Stages []stage       `json:"stages"`
	Note   *string       `json:"note,omitempty"`
	Hidden int           `json:"-"`
}

const good = `{"name":"a","count":3,"share":0.5,"flap":true,"hold":"6 h","at":"2027-03-14T18:00:00+07:00","stages":[{"stage":"1 m","area":"2 m"}]}`

func TestDecode(t *testing.T) {
	var d doc
	if err := Decode([]byte(good), &d); err != nil {
		t.Fatal(err)
	}
	if d.Name != "a" || d.Count != 3 || d.Share != 0.5 || !d.Flap || d.Hold != 6*time.Hour || d.At.UTC().Hour() != 11 || d.Stages[0].Area != 2 || d.Note != nil {
		t.Errorf("read %+v", d)
	}
}

func TestEveryFaultInOneRun(t *testing.T) {
	text := `{
 "name": 7,
 "count": "three",
 "count": 4,
 "share": 0.5,
 "flap": null,
 "hold": 6,
 "at": "2027-03-14 18:00",
 "colour": "red",
 "stages": [{"stage": "1 m", "area": "2 m"}, {"stage": 4.5, "area": "9 ft"}, {"stage": "1 m", "stage": "2 m"}, 5]
} trailing`
	var d doc
	err := Decode([]byte(text), &d)
	want := []string{
		`line 2: name: text in quotes was expected, not 7`,
		`line 3: count: a whole number was expected, not "three"`,
		`line 4: count: the key is given twice`,
		`line 6: flap: null is not a value`,
		`line 7: hold: a time with its unit`,
		`line 8: at: "2027-03-14 18:00" is not a date and time with its zone`,
		`line 9: colour: unknown key; known here: name, count`,
		`line 10: stages[1].stage: `,
		`line 10: stages[1].area: "9 ft" is not a length in m`,
		`line 10: stages[2].stage: the key is given twice`,
		`line 10: stages[2].area: missing`,
		`line 10: stages[3]: an object {...} was expected, not 5`,
		`line 11: text after the end of the document: "trailing"`,
	}
	got := err.Error()
	for _, w := range want {
		if !strings.Contains(got, w) {
			t.Errorf("not reported: %s", w)
		}
	}
	if n := len(err.(interface{ Unwrap() []error }).Unwrap()); n != len(want) {
		t.Errorf("%d faults, want %d:\n%v", n, len(want), err)
	}
	var f *Fault
	if !errors.As(err, &f) || f.Path != "name" && f.Path != "" {
		t.Errorf("first fault %+v", f)
	}
}

func TestBrokenDocuments(t *testing.T) {
	for text, want := range map[string]string{
		"":              "empty",
		"  \n":          "empty",
		`{"name": "a`:   "too early",
		`{"name": }`:    "not valid JSON",
		`[1, 2]`:        "an object {...} was expected",
		`{"share": NaN`: "not valid JSON",
		`{"share": 1e999, "name":"","count":1,"flap":true,"hold":"1 h","at":"2027-03-14T18:00:00Z","stages":[]}`: "share: a plain number was expected",
	} {
		var d doc
		if err := Decode([]byte(text), &d); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
}

func TestParseDuration(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"6 h": 6 * time.Hour, "45 min": 45 * time.Minute, "0.5 d": 12 * time.Hour, "90 s": 90 * time.Second,
		"1h30m": 90 * time.Minute, "1h 30min": 90 * time.Minute, "0 min": 0,
	} {
		if got, err := ParseDuration(text); err != nil || got != want {
			t.Errorf("%s: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "6", "0", "h", "6 hours", "1e300 h", "NaN h"} {
		if got, err := ParseDuration(text); err == nil {
			t.Errorf("%q read as %v", text, got)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(good))
	f.Add([]byte(`{"stages":[{"stage":"1 m"},[{}]]} x`))
	f.Fuzz(func(t *testing.T, data []byte) {
		var d doc
		err := Decode(data, &d)
		if err == nil && len(d.Stages) > 0 && d.At.IsZero() && !strings.Contains(string(data), "0001") {
			t.Errorf("a document without its time passed: %s", data)
		}
	})
}

func TestEncodeReadsBack(t *testing.T) {
	var d, back doc
	if err := Decode([]byte(good), &d); err != nil {
		t.Fatal(err)
	}
	data, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(string(data), `"stage": 1`, `"stage": "1 m"`) // length has no MarshalText
	text = strings.ReplaceAll(text, `"area": 2`, `"area": "2 m"`)
	if err := Decode([]byte(text), &back); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	if !strings.Contains(text, `"hold": "21600 s"`) || back.Hold != d.Hold || !back.At.Equal(d.At) || strings.Contains(text, "note") || strings.Contains(text, "Hidden") {
		t.Errorf("wrote %s", text)
	}
	type embedded struct{ Inner int }
	got, err := Encode(struct {
		embedded
		When  time.Time `json:"when"`
		Gone  time.Time `json:"gone,omitzero"`
		Some  any
		None  *int
		Pairs map[string]int
	}{embedded: embedded{3}, Some: 1.5, Pairs: map[string]int{"a": 1}})
	if err != nil {
		t.Fatal(err)
	}
	if s := strings.Join(strings.Fields(string(got)), ""); s != `{"Inner":3,"when":null,"Some":1.5,"None":null,"Pairs":{"a":1}}` {
		t.Errorf("wrote %s", s)
	}
	for _, bad := range []any{math.NaN(), []float64{math.Inf(1)}, func() {}} {
		if _, err := Encode(bad); err == nil {
			t.Errorf("%T written", bad)
		}
	}
}
