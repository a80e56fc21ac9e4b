package units

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
)

func TestFormat(t *testing.T) {
	flow := 230 * CubicMetrePerHour
	for _, c := range []struct {
		format string
		x      any
		want   string
	}{
		{"%v", flow, "0.0638889 m3/s"},
		{"%s", flow, "0.0638889 m3/s"},
		{"%+v", flow, "0.06388888888888888 m3/s"},
		{"%#v", flow, "units.Flow(0.06388888888888888)"},
		{"%.3g", flow, "0.0639 m3/s"},
		{"%.3v", flow, "0.0639 m3/s"},
		{"%g", flow, "0.06388888888888888 m3/s"},
		{"%.2f", flow, "0.06 m3/s"},
		{"%f", flow, "0.063889 m3/s"},
		{"%F", flow, "0.063889 m3/s"},
		{"%.2e", flow, "6.39e-02 m3/s"},
		{"%.2E", flow, "6.39E-02 m3/s"},
		{"%q", flow, `"0.0638889 m3/s"`},
		{"%+.2f", 4 * Foot, "+1.22 m"},
		{"% .2f", 4 * Foot, " 1.22 m"},
		{"%+.2f", -4 * Foot, "-1.22 m"},
		{"%10.2f|", 4 * Foot, "    1.22 m|"},
		{"%-10.2f|", 4 * Foot, "1.22 m    |"},
		{"%10v|", 3 * Micrometre, "   3e-06 m|"},
		{"%d", 4 * Foot, "%!d(units.Length=1.2192 m)"},
		{"%x", 4 * Foot, "%!x(units.Length=1.2192 m)"},
		{"%v", 90 * Degree, "1.5708 rad"},
		{"%v", 1234567 * CubicMetre, "1234570 m3"},
		{"%v", 1.5e15 * CubicMetre, "1.5e+15 m3"},
		{"%v", 0 * CubicMetre, "0 m3"},
		{"%v", 29 * PoundPerSquareInchGauge, "199948 Pa{gauge}"},
		{"%v", 20 * PerPound, "44.0925 /kg"},
		{"%v", Length(math.NaN()), "NaN m"},
		{"%v", Length(math.Inf(-1)), "-Inf m"},
		{"%v", []Length{1, 2}, "[1 m 2 m]"},
		{"%v", struct{ Depth Length }{4 * Foot}, "{1.2192 m}"},
		{"%v", Celsius(28.5), "28.5 °C"},
		{"%v", Celsius(28.5).String(), "28.5 °C"},
		{"%.0f", Celsius(28.4), "28 °C"},
		{"%+v", Celsius(28.5), "28.5 °C"},
		{"%#v", Celsius(28.5), "units.KelvinScale(301.65)"},
		{"%d", Celsius(28.5), "%!d(units.Temperature=28.5 °C)"},
		{"%8.1f|", Celsius(28.5), " 28.5 °C|"},
		{"%v", Feet, "feet"},
		{"%v", USGallonsPerMinute, "US gallons per minute"},
		{"%v", LengthUnit(99), "LengthUnit(99)"},
		{"%v", LengthUnit(99).Symbol(), "LengthUnit(99)"},
	} {
		if got := fmt.Sprintf(c.format, c.x); got != c.want {
			t.Errorf("%s of %T = %q, want %q", c.format, c.x, got, c.want)
		}
	}
}

// TestGoSyntax wants %#v of every type to be Go that makes the value.
func TestGoSyntax(t *testing.T) {
	for _, c := range everyQuantity {
		if got, want := c.print("%#v", 0.25), "units."+c.name+"(0.25)"; got != want {
			t.Errorf("%q, want %q", got, want)
		}
		if got := c.print("%v", 0.25); got != "0.25 "+c.q.units[0].symbol {
			t.Errorf("%s prints %q", c.name, got)
		}
	}
}

func TestDigits(t *testing.T) {
	flow := 230 * CubicMetrePerHour
	for _, c := range []struct {
		got, want string
	}{
		{flow.Text(USGallonsPerMinute), "1012.66 US gal/min"},
		{Digits(flow, USGallonsPerMinute, 3), "1010 US gal/min"},
		{Digits(flow, USGallonsPerMinute, 1), "1000 US gal/min"},
		{Digits(flow, USGallonsPerMinute, 0), "1000 US gal/min"},
		{Digits(flow, CubicMetresPerHour, 15), "230 m3/h"},
		{Digits(1*Metre/3, Metres, 17), "0.3333333333333333 m"},
		{Digits(1*Metre/3, Metres, 99), "0.3333333333333333 m"},
		{Digits(90*Degree, Degrees, 3), "90°"},
		{(4 * Foot).Text(Feet), "4 ft"},
		{string(AppendDigits([]byte("Q = "), flow, LitresPerSecond, 3)), "Q = 63.9 L/s"},
		{Prefixed(0.00035*Metre, 3), "350 µm"},
		{Prefixed(1500*Metre, 3), "1.5 km"},
		{Prefixed(999.96*Metre, 4), "1 km"},
		{Prefixed(999.96*Metre, 5), "999.96 m"},
		{Prefixed(2500*Watt, 3), "2.5 kW"},
		{Prefixed(-2.5e6*Pascal, 3), "-2.5 MPa"},
		{Prefixed(20*Gram, 3), "20 g"},
		{Prefixed(1.5*Kilogram, 3), "1.5 kg"},
		{Prefixed(0*Metre, 3), "0 m"},
		{Prefixed(1e-20*Metre, 3), "1e-08 pm"},
		{Prefixed(1e20*Metre, 3), "100000000 Tm"},
		{Prefixed(0.012*SquareMetre, 3), "0.012 m2"},
		{Prefixed(1e-3*PascalSecond, 3), "1 mPa·s"},
		{Prefixed(Length(math.Inf(1)), 3), "+Inf Tm"},
		{Prefixed(Length(math.NaN()), 3), "NaN m"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// TestPrefixedReads wants the parser to read what Prefixed writes.
func TestPrefixedReads(t *testing.T) {
	for e := -15; e <= 15; e++ {
		x := Power(1.234 * math.Pow10(e))
		if got, err := ParsePower(Prefixed(x, 17)); err != nil || math.Abs(float64(got-x)) > 1e-15*float64(x) {
			t.Errorf("%v as %q reads %v, %v", x, Prefixed(x, 17), got, err)
		}
	}
}

func TestFeetInches(t *testing.T) {
	for _, c := range []struct {
		x           Length
		denominator int
		want        string
	}{
		{54 * Inch, 16, "4 ft 6 in"},
		{54.5 * Inch, 16, "4 ft 6 1/2 in"},
		{-54.5 * Inch, 16, "-4 ft 6 1/2 in"},
		{48 * Inch, 16, "4 ft 0 in"},
		{0.25 * Inch, 16, "1/4 in"},
		{6 * Inch, 16, "6 in"},
		{0, 16, "0 in"},
		{-0.001 * Inch, 16, "0 in"},
		{11.99 * Inch, 8, "1 ft 0 in"},
		{54.5 * Inch, 1, "4 ft 7 in"},
		{54.5 * Inch, 0, "4 ft 7 in"},
		{1 * Metre, 64, "3 ft 3 3/8 in"},
		{1 * Metre, 1000, "3 ft 3 3/8 in"},
		{Length(math.Inf(1)), 16, "+Inf ft"},
		{1e20 * Metre, 16, "3.28084e+20 ft"},
	} {
		got := c.x.FeetInches(c.denominator)
		if got != c.want {
			t.Errorf("%v by 1/%d = %q, want %q", c.x, c.denominator, got, c.want)
		}
		if strings.HasSuffix(got, "in") {
			back, err := ParseLength(got)
			if step := Inch / Length(min(max(c.denominator, 1), 64)); err != nil || math.Abs(float64(back-c.x)) > 0.5001*float64(step) {
				t.Errorf("%q reads %v, %v", got, back, err)
			}
		}
	}
}

func TestDescriptors(t *testing.T) {
	if got := len(All[LengthUnit]()); got != 9 {
		t.Errorf("%d units of length", got)
	}
	if u := Feet; u.Symbol() != "ft" || u.Factor() != 0.3048 || !u.Exact() {
		t.Errorf("feet: %s %v %v", u.Symbol(), u.Factor(), u.Exact())
	}
	if RevolutionsPerMinute.Exact() || Degrees.Exact() || !USGallons.Exact() {
		t.Error("only units that contain pi are rounded")
	}
	if Litres.Of(1) != CubicDecimetres.Of(1) || Litres.Symbol() == CubicDecimetres.Symbol() {
		t.Error("litre and cubic decimetre are two names of one size")
	}
	var u LengthUnit
	for text, want := range map[string]LengthUnit{"ft": Feet, "feet": Feet, "[in_i]": Inches, "km": Kilometres} {
		if err := u.UnmarshalText([]byte(text)); err != nil || u != want {
			t.Errorf("%q reads %v, %v", text, u, err)
		}
	}
	for _, text := range []string{"", "kg", "nm", "5 ft", "gal"} {
		if err := u.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q reads %v", text, u)
		}
	}
	if b, err := Feet.MarshalText(); err != nil || string(b) != "ft" {
		t.Errorf("%q, %v", b, err)
	}
	if b, err := LengthUnit(99).MarshalText(); err == nil {
		t.Errorf("no unit has the text %q", b)
	}
}

// TestConstructors wants a literal and a variable to make the same bits.
func TestConstructors(t *testing.T) {
	if 13*Foot != Feet.Of(13) || 2.5*PoundPerUSGallonTank != PoundsPerUSGallonTank.Of(2.5) || 540*RevolutionPerMinute != RevolutionsPerMinute.Of(540) {
		t.Error("a literal and a variable make different bits")
	}
	// The share the package documentation states.
	off := 0
	for n := 1; n <= 1000; n++ {
		if Feet.Of(float64(n)).In(Feet) != float64(n) {
			off++
		}
	}
	if off < 120 || off > 200 {
		t.Errorf("%d of 1000 ft do not read back", off)
	}
}

// TestAccessors wants the descriptors' methods to say what the table says, and
// the SI reader of each type to be the value itself.
func TestAccessors(t *testing.T) {
	for _, c := range everyQuantity {
		for i, u := range c.q.units {
			if got := c.record(i); got != u {
				t.Errorf("%s: %+v, want %+v", c.name, got, u)
			}
			if u.factor != c.of(i, 1) {
				t.Errorf("%s: %s is %v, one of it is %v", c.name, u.symbol, u.factor, c.of(i, 1))
			}
		}
		if got, want := c.string(2.5), "2.5 "+c.q.units[0].symbol; got != want {
			t.Errorf("%s: %q, want %q", c.name, got, want)
		}
		readers := 0
		x := reflect.ValueOf(2.5).Convert(c.typ)
		for i := range c.typ.NumMethod() {
			if m, ok := x.Method(i).Interface().(func() float64); ok {
				readers++
				if got := m(); got != 2.5 {
					t.Errorf("%s.%s of 2.5 is %v", c.name, c.typ.Method(i).Name, got)
				}
			}
		}
		if readers != 1 {
			t.Errorf("%s has %d SI readers, want one", c.name, readers)
		}
	}
}
