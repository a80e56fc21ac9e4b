package units

import (
	"database/sql/driver"
	"encoding/json"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// FuzzRoundTrip writes every finite value of every type as text, JSON and a
// database value and wants the same bits back.
func FuzzRoundTrip(f *testing.F) {
	for _, v := range []float64{0, math.Copysign(0, -1), 1, -1, 4.5, 0.1, 230. / 3600, 1e-5, 1e15, 1e-300, 5e-324,
		math.MaxFloat64, -math.MaxFloat64, 273.15, 301.65, 1 << 53, math.Pi} {
		f.Add(math.Float64bits(v))
	}
	f.Fuzz(func(t *testing.T, bits uint64) {
		v := math.Float64frombits(bits)
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return
		}
		same := func(name, how string, got float64, err error) {
			if err != nil || math.Float64bits(got) != bits {
				t.Errorf("%s as %s: %g came back as %g, %v", name, how, v, got, err)
			}
		}
		for _, c := range everyQuantity {
			text, err := c.text(v)
			if err != nil {
				t.Fatal(err)
			}
			got, err := c.parse(string(text))
			same(c.name, "text", got, err)
			data, err := c.json(v)
			if err != nil {
				t.Fatal(err)
			}
			got, err = c.unjson(data)
			same(c.name, "JSON", got, err)
			column, err := c.value(v)
			if err != nil {
				t.Fatal(err)
			}
			got, err = c.scan(column)
			same(c.name, "database value", got, err)
			got, err = c.parse(c.print("%+v", v))
			same(c.name, "%+v", got, err)
		}
		temp := KelvinScale(v)
		text, err := temp.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		back, err := ParseTemperature(string(text))
		same("Temperature", string(text), back.kelvins, err)
		data, err := json.Marshal(temp)
		if err != nil {
			t.Fatal(err)
		}
		var fromJSON Temperature
		err = json.Unmarshal(data, &fromJSON)
		same("Temperature", string(data), fromJSON.kelvins, err)
	})
}

// FuzzParse feeds any text to every parser: none may panic, take a bare
// number, or return a value that is not finite beside a nil error.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"", "4.5", "0", "-0", "1e3", "4.5 m", "4 ft 6 in", "4' 6 1/2\"", "12 1/2 in", "1,250 m3/h", "1,250,000 m3/h",
		"230 m³/h", "100 [gal_us]/min", "5 W/(m2·K)", "20/lb", "1/2", "12 1/2", "½", "40 kg/m3{tank}", "29 psig", "2 bar(g)", "1 250",
		"NaN m", "Inf", "0x1p-2", "1_000", "1e400 m", "5 ((((((m", "5 m^9", "5 {", "5 [", "30 ppt", "5 lb 3 oz", "5 US gal", "1 /1", "3 1", "1 per 1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		_, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		bare := err == nil || errors.Is(err, strconv.ErrRange)
		for _, c := range everyQuantity {
			v, err := c.parse(s)
			switch {
			case err != nil:
				var p *ParseError
				if !errors.As(err, &p) || !errors.Is(err, ErrDomain) || !math.IsNaN(v) {
					t.Errorf("%s: %q gave %v beside %v", c.name, s, v, err)
				}
			case bare:
				t.Errorf("%s took the bare number %q", c.name, s)
			case math.IsNaN(v) || math.IsInf(v, 0):
				t.Errorf("%s: %q is %v without an error", c.name, s, v)
			}
		}
		temp, err := ParseTemperature(s)
		if err == nil && (bare || math.IsNaN(temp.kelvins) || math.IsInf(temp.kelvins, 0)) {
			t.Errorf("Temperature: %q is %v without an error", s, temp.kelvins)
		}
		var x Flow
		if err := json.Unmarshal([]byte(s), &x); err == nil && bare {
			t.Errorf("JSON took the bare number %q", s)
		}
	})
}

// TestEveryUnitReads parses each unit's own symbol and name, prints it and
// reads the print.
func TestEveryUnitReads(t *testing.T) {
	for _, c := range everyQuantity {
		seen := map[string]bool{}
		for i, u := range c.q.units {
			if seen[u.symbol] {
				t.Errorf("%s has two units %q", c.name, u.symbol)
			}
			seen[u.symbol] = true
			got, err := c.parse("3.5 " + u.symbol)
			if want := c.of(i, 3.5); err != nil || got != want {
				t.Errorf("%s: 3.5 %s = %v, %v, want %v", c.name, u.symbol, got, err, want)
			}
			// The slow way of the parser reads the symbol as well.
			got, err = c.parse(" 3.5  " + u.symbol + " ")
			if want := c.of(i, 3.5); err != nil || got != want {
				t.Errorf("%s: spaced 3.5 %s = %v, %v, want %v", c.name, u.symbol, got, err, want)
			}
			if s := c.inUnit(i, c.of(i, 3.5)); !strings.HasSuffix(s, u.symbol) || !strings.HasPrefix(s, "3.5") {
				t.Errorf("%s: 3.5 %s prints as %q", c.name, u.symbol, s)
			}
			if symbol, err := c.unit(u.symbol); err != nil || symbol != u.symbol {
				t.Errorf("%s: descriptor %q read as %q, %v", c.name, u.symbol, symbol, err)
			}
			if u.name == "" || u.name != strings.TrimSpace(u.name) {
				t.Errorf("%s: %q has the name %q", c.name, u.symbol, u.name)
			}
		}
		if symbol, err := c.unit("furlong"); err == nil {
			t.Errorf("%s: a furlong read as %q", c.name, symbol)
		}
	}
}

// TestUnitExpression reads each symbol of the tables as an expression too, so
// that what the table says of a size and a dimension is what its text says.
func TestUnitExpression(t *testing.T) {
	for _, c := range everyQuantity {
		for _, u := range c.q.units {
			f, p := parseUnit(annotate(u.symbol))
			if p.why != "" {
				t.Errorf("%s: %q %s", c.name, u.symbol, p.why)
				continue
			}
			f, basis := c.q.convention(f, p.basis)
			if f.dim != c.q.dim || basis != c.q.basis {
				t.Errorf("%s: %q has dimension %v {%s}, want %v {%s}", c.name, u.symbol, f.dim, basis, c.q.dim, c.q.basis)
			}
			if got := f.of(1); math.Abs(got-u.factor) > 1e-14*u.factor {
				t.Errorf("%s: %q is %v, the table says %v", c.name, u.symbol, got, u.factor)
			}
		}
	}
}

func TestNoTextForNonFinite(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, c := range everyQuantity {
			if b, err := c.text(v); !errors.Is(err, ErrDomain) {
				t.Errorf("%s: %v has the text %q, %v", c.name, v, b, err)
			}
			if b, err := c.json(v); !errors.Is(err, ErrDomain) {
				t.Errorf("%s: %v has the JSON %q, %v", c.name, v, b, err)
			}
			if b, err := c.value(v); !errors.Is(err, ErrDomain) {
				t.Errorf("%s: %v has the database value %q, %v", c.name, v, b, err)
			}
		}
		if b, err := KelvinScale(v).MarshalText(); !errors.Is(err, ErrDomain) {
			t.Errorf("Temperature: %v has the text %q, %v", v, b, err)
		}
	}
}

// plan is what a program would store.
type plan struct {
	Pump struct {
		Flow Flow    `json:"flow"`
		Head *Length `json:"head,omitempty"`
	} `json:"pump"`
	Water Temperature       `json:"water"`
	Load  LoadPerTankVolume `json:"load"`
}

func TestJSON(t *testing.T) {
	const good = `{"pump":{"flow":{"value":230,"unit":"m3/h"},"head":"12 ft"},"water":"28.5 \u00b0C","load":"2.5 lb/US gal{tank}"}`
	var p plan
	if err := json.Unmarshal([]byte(good), &p); err != nil {
		t.Fatal(err)
	}
	if p.Pump.Flow != 230*CubicMetrePerHour || *p.Pump.Head != 12*Foot || p.Water != Celsius(28.5) || p.Load != 2.5*PoundPerUSGallonTank {
		t.Errorf("read %+v", p)
	}
	b, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"pump":{"flow":"0.06388888888888888 m3/s","head":"3.6576000000000004 m"},"water":"28.5 °C","load":"299.56606829224154 kg/m3{tank}"}`
	if string(b) != want {
		t.Errorf("wrote %s\nwant  %s", b, want)
	}
	var again plan
	if err := json.Unmarshal(b, &again); err != nil || *again.Pump.Head != *p.Pump.Head {
		t.Errorf("read back %+v, %v", again, err)
	}
}

// TestJSONRefusals wants the field's path and the reason in each refusal: bare
// numbers with zero among them, null, nothing, infinities, ambiguous units.
func TestJSONRefusals(t *testing.T) {
	for _, c := range []struct{ in, path, reason string }{
		{`{"pump":{"flow":230}}`, "pump.flow", "230 m3/h is 1012.66 US gal/min"},
		{`{"pump":{"flow":0}}`, "pump.flow", "no unit"},
		{`{"pump":{"flow":"0"}}`, "pump.flow", "no unit"},
		{`{"pump":{"flow":null}}`, "pump.flow", "leave the field out"},
		{`{"pump":{"flow":""}}`, "pump.flow", "empty"},
		{`{"pump":{"flow":"NaN m3/h"}}`, "pump.flow", "does not start with a number"},
		{`{"pump":{"flow":"Inf m3/h"}}`, "pump.flow", "does not start with a number"},
		{`{"pump":{"flow":"1e999 m3/h"}}`, "pump.flow", "does not fit"},
		{`{"pump":{"flow":"1,250 m3/h"}}`, "pump.flow", "is it 1250 or 1.250?"},
		{`{"pump":{"flow":"100 gpm"}}`, "pump.flow", "US gal/min or imp gal/min"},
		{`{"pump":{"flow":true}}`, "pump.flow", "not a text with a unit"},
		{`{"pump":{"flow":["230 m3/h"]}}`, "pump.flow", "not a text with a unit"},
		{`{"pump":{"flow":{"value":230}}}`, "pump.flow", `"value" and a text "unit"`},
		{`{"pump":{"flow":{"value":230,"unit":""}}}`, "pump.flow", "unit"},
		{`{"pump":{"flow":{"value":"230","unit":"m3/h"}}}`, "pump.flow", "number"},
		{`{"pump":{"flow":{"value":230,"unit":"m3/h","basis":"wet"}}}`, "pump.flow", "no more"},
		{`{"pump":{"flow":{"value":1e300,"unit":"Tm3/s"}}}`, "pump.flow", "does not fit"},
		{`{"pump":{"flow":{"value":1,"unit":"kg"}}}`, "pump.flow", "is a mass (kg), not a flow (m3/s)"},
		{`{"water":{"value":28}}`, "plan.water", `"value" and a text "unit"`},
		{`{"water":{"value":28,"unit":"kg"}}`, "plan.water", "is a mass (kg), not a temperature"},
		{`{"pump":{"head":4.5}}`, "pump.head", "4.5 m is 14.7638 ft, 4.5 ft is 1.3716 m"},
		{`{"water":28}`, "plan.water", "28 °C is 82.4 °F, 28 °F is -2.22222 °C"},
		{`{"water":"28 kg"}`, "plan.water", "is a mass (kg), not a temperature"},
		{`{"load":"2.5 lb/gal"}`, "plan.load", "lb/US gal{water} for a load per water volume"},
		{`{"load":"2.5 lb/US gal"}`, "plan.load", "lb/US gal{tank} or lb/US gal{water}"},
	} {
		var p plan
		err := json.Unmarshal([]byte(c.in), &p)
		var typeError *json.UnmarshalTypeError
		switch {
		case err == nil:
			t.Errorf("%s: read as %+v", c.in, p)
		case !errors.As(err, &typeError):
			t.Errorf("%s: %v is not a *json.UnmarshalTypeError", c.in, err)
		case !strings.Contains(err.Error(), c.path):
			t.Errorf("%s: %v does not name %s", c.in, err, c.path)
		case !strings.Contains(err.Error(), c.reason):
			t.Errorf("%s: %v does not say %q", c.in, err, c.reason)
		}
	}
}

func TestXML(t *testing.T) {
	type hose struct {
		Length   Length `xml:"length"`
		Diameter Length `xml:"diameter,attr"`
	}
	var h hose
	if err := xml.Unmarshal([]byte(`<hose diameter="6 in"><length>30 m</length></hose>`), &h); err != nil {
		t.Fatal(err)
	}
	if h.Length != 30*Metre || h.Diameter != 6*Inch {
		t.Errorf("read %+v", h)
	}
	b, err := xml.Marshal(h)
	if want := `<hose diameter="0.15239999999999998 m"><length>30 m</length></hose>`; err != nil || string(b) != want {
		t.Errorf("wrote %s, %v, want %s", b, err, want)
	}
}

func TestMapKey(t *testing.T) {
	b, err := json.Marshal(map[Length]int{4 * Foot: 1})
	if err != nil || string(b) != `{"1.2192 m":1}` {
		t.Errorf("wrote %s, %v", b, err)
	}
	var m map[Length]int
	if err := json.Unmarshal([]byte(`{"4 ft":2}`), &m); err != nil || m[4*Foot] != 2 {
		t.Errorf("read %v, %v", m, err)
	}
	if err := json.Unmarshal([]byte(`{"4":2}`), &m); err == nil {
		t.Error("took a bare number as a key")
	}
}

func TestFlag(t *testing.T) {
	set := flag.NewFlagSet("plan", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	var depth Length
	var water Temperature
	set.TextVar(&depth, "depth", 4*Foot, "depth at the standpipe")
	set.TextVar(&water, "water", Celsius(28), "water temperature")
	if err := set.Parse([]string{"-depth", "5 ft 3 in"}); err != nil || depth != 63*Inch || water != Celsius(28) {
		t.Errorf("read %v and %v, %v", depth, water, err)
	}
	if err := set.Parse([]string{"-depth", "5"}); err == nil || !strings.Contains(err.Error(), "5 m is 16.4042 ft") {
		t.Errorf("a bare 5 gave %v", err)
	}
}

func TestScan(t *testing.T) {
	var x Flow
	for _, src := range []any{"230 m3/h", []byte("230 m3/h")} {
		if err := x.Scan(src); err != nil || x != 230*CubicMetrePerHour {
			t.Errorf("%T: %v, %v", src, x, err)
		}
	}
	for _, src := range []any{nil, 230., int64(230), "230", true} {
		var p *ParseError
		if err := x.Scan(src); !errors.As(err, &p) {
			t.Errorf("%T %v: %v", src, src, err)
		}
	}
	var temp Temperature
	if err := temp.Scan("28.5 °C"); err != nil || temp != Celsius(28.5) {
		t.Errorf("Temperature: %v, %v", temp, err)
	}
	if err := temp.Scan(28.5); err == nil {
		t.Error("Temperature took a bare number")
	}
	var v driver.Valuer = temp
	if s, err := v.Value(); err != nil || s != "28.5 °C" {
		t.Errorf("Temperature: %v, %v", s, err)
	}
}

// TestJSONSchema wants valid JSON whose pattern takes the texts the parser
// takes and refuses bare numbers.
func TestJSONSchema(t *testing.T) {
	check := func(name string, fragment json.RawMessage, good ...string) {
		var s struct {
			Title string
			OneOf []struct {
				Type, Pattern        string
				Required             []string
				AdditionalProperties *bool
			}
		}
		if err := json.Unmarshal(fragment, &s); err != nil {
			t.Errorf("%s: %v in %s", name, err, fragment)
			return
		}
		if s.Title != name || len(s.OneOf) != 2 || s.OneOf[1].AdditionalProperties == nil || *s.OneOf[1].AdditionalProperties {
			t.Errorf("%s: %s", name, fragment)
			return
		}
		re := regexp.MustCompile(s.OneOf[0].Pattern)
		for _, text := range good {
			if !re.MatchString(text) {
				t.Errorf("%s: the pattern refuses %q", name, text)
			}
		}
		for _, text := range []string{"", "4.5", "-1e5", "1 250", "1,250", "m", "12 1/2"} {
			if re.MatchString(text) {
				t.Errorf("%s: the pattern takes %q", name, text)
			}
		}
	}
	for _, c := range everyQuantity {
		var good []string
		for _, s := range c.q.symbols() {
			good = append(good, "4.5 "+s, "-1.5e-3 "+s)
		}
		check(c.name, c.schema(), good...)
	}
	check("Temperature", JSONSchema[Temperature](), "28.5 °C", "300 K", "83.3 degF")
	check("Length", JSONSchema[Length](), "4 ft 6 in", `4' 6"`, "12½ in", "1/2 in")
}
