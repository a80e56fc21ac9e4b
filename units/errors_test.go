package units

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestInputError(t *testing.T) {
	for _, c := range []struct {
		err  *InputError
		want string
	}{
		{&InputError{Func: "hydraulics.Weir", Field: "head", Value: -1, Unit: "m", Min: 0, Max: math.Inf(1)},
			"hydraulics.Weir: head = -1 m: impossible input (valid: at least 0 m)"},
		{&InputError{Field: "tilt", Value: 95, Unit: "°", Min: 0, Max: 90, Kind: ErrRange},
			"tilt = 95 °: outside the published range (valid: 0 to 90 °)"},
		{&InputError{Field: "n", Value: 3, Min: math.Inf(-1), Max: 2, Reason: "too many"},
			"n = 3: impossible input: too many (valid: at most 2)"},
		{&InputError{Field: "x", Value: math.NaN(), Min: math.Inf(-1), Max: math.Inf(1)}, "x = NaN: impossible input"},
		{&InputError{Field: "x", Value: 1}, "x = 1: impossible input"},
		{&InputError{Value: 1, Kind: ErrNoSolution}, "= 1: no solution"},
	} {
		if got := c.err.Error(); got != c.want {
			t.Errorf("%q\nwant %q", got, c.want)
		}
	}
	if !errors.Is(&InputError{}, ErrDomain) || errors.Is(&InputError{Kind: ErrRange}, ErrDomain) || !errors.Is(&InputError{Kind: ErrRange}, ErrRange) {
		t.Error("errors.Is must report the kind, ErrDomain when there is none")
	}
}

func TestChecks(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name string
		f    func(v float64) error
		good []float64
		bad  []float64
	}{
		{"Positive", func(v float64) error { return Positive("f", "v", v, "m") }, []float64{1e-300, 1, 1e300}, []float64{0, -1, nan, inf, -inf}},
		{"NonNegative", func(v float64) error { return NonNegative("f", "v", v, "m") }, []float64{0, 1, 1e300}, []float64{-1e-300, nan, inf, -inf}},
		{"Finite", func(v float64) error { return Finite("f", "v", v, "m") }, []float64{-1, 0, 1e300}, []float64{nan, inf, -inf}},
		{"Within", func(v float64) error { return Within("f", "v", v, 1, 2, "m") }, []float64{1, 1.5, 2}, []float64{0.999, 2.001, nan, inf, -inf}},
		{"Within, open above", func(v float64) error { return Within("f", "v", v, 1, inf, "m") }, []float64{1, 1e300}, []float64{0, nan, inf}},
	} {
		for _, v := range c.good {
			if err := c.f(v); err != nil {
				t.Errorf("%s refuses %v: %v", c.name, v, err)
			}
		}
		for _, v := range c.bad {
			err := c.f(v)
			var in *InputError
			if !errors.As(err, &in) || !errors.Is(err, ErrDomain) || in.Func != "f" || in.Field != "v" || in.Unit != "m" {
				t.Errorf("%s takes %v: %v", c.name, v, err)
			}
		}
	}
}

func TestAtField(t *testing.T) {
	if AtField("pond", nil) != nil {
		t.Error("no error must stay none")
	}
	err := AtField("plan", errors.Join(
		AtField("pond", Positive("", "depth", -1, "m")),
		AtField("pond.stages", Positive("", "[3].area", 0, "m2")),
		AtField("pump", &InputError{Value: 1}),
		AtField("note", errors.New("is empty")),
	))
	for _, want := range []string{"plan.pond.depth = -1 m", "plan.pond.stages[3].area = 0 m2", "plan.pump = 1", "plan: note: is empty"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%v does not say %q", err, want)
		}
	}
	if !errors.Is(err, ErrDomain) {
		t.Error("the kind is lost")
	}
	inner := Positive("", "depth", -1, "m")
	AtField("pond", inner)
	var in *InputError
	if errors.As(inner, &in); in.Field != "depth" {
		t.Error("AtField changed the error it was given")
	}
}

func TestParseErrorText(t *testing.T) {
	long := &ParseError{Type: "Length", Text: strings.Repeat("x", 100) + "\n", Reason: "is long"}
	if s := long.Error(); len(s) > 100 || strings.Contains(s, "\n") {
		t.Errorf("%q", s)
	}
	control := &ParseError{Type: "Length", Text: "4\n5", Reason: "is odd", Choices: []string{"m", "ft", "in"}}
	if got, want := control.Error(), `units.Length: "4 5" is odd; write m, ft or in`; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestSeverity(t *testing.T) {
	for s, word := range map[Severity]string{Info: "info", Caution: "caution", Warning: "warning", Danger: "danger"} {
		b, err := s.MarshalText()
		if err != nil || string(b) != word || s.String() != word {
			t.Errorf("%v writes %q, %v", s, b, err)
		}
		var back Severity
		if err := back.UnmarshalText(b); err != nil || back != s {
			t.Errorf("%q reads %v, %v", b, back, err)
		}
	}
	if !(Info < Caution && Caution < Warning && Warning < Danger) {
		t.Error("severities must rank")
	}
	if got := Severity(9).String(); got != "Severity(9)" {
		t.Errorf("%q", got)
	}
	if b, err := Severity(9).MarshalText(); err == nil {
		t.Errorf("an unknown severity writes %q", b)
	}
	s := Warning
	if err := s.UnmarshalText([]byte("bad")); err == nil || s != Warning {
		t.Errorf("%v, %v", s, err)
	}
}

func TestOutside(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		v, lo, hi    float64
		out          bool
		value, limit float64
		message      string
	}{
		{1, 0, 2, false, 0, 0, ""},
		{0, 0, 2, false, 0, 0, ""},
		{2, 0, 2, false, 0, 0, ""},
		{5, 0, inf, false, 0, 0, ""},
		{-1, 0, 2, true, -1, 0, "below the published range"},
		{3, 0, 2, true, 3, 2, "above the published range"},
		{inf, 0, 2, true, math.MaxFloat64, 2, "above"},
		{-inf, 0, 2, true, -math.MaxFloat64, 0, "below"},
		{math.NaN(), 0, 2, true, 0, 0, "not a number"},
	} {
		n, out := Outside("X_RANGE", "head", c.v, c.lo, c.hi, "m", "a source")
		if out != c.out {
			t.Errorf("%v in %v to %v: outside is %v", c.v, c.lo, c.hi, out)
			continue
		}
		if !out {
			if n != (Notice{}) {
				t.Errorf("inside gives %+v", n)
			}
			continue
		}
		if n.Code != "X_RANGE" || n.Severity != Caution || n.Field != "head" || n.Value != c.value || n.Limit != c.limit ||
			n.Unit != "m" || n.Source != "a source" || !strings.Contains(n.Message, c.message) {
			t.Errorf("%v: %+v", c.v, n)
		}
	}
}

func ExampleNotice() {
	n, _ := Outside("HYD_WEIR_HEAD", "head", 0.02, 0.03, 1.07, "m", "ISO 1438")
	fmt.Println(n)
	// Output: caution HYD_WEIR_HEAD: head 0.02 m is below the published range, which starts at 0.03 m [ISO 1438]
}

func ExampleInputError() {
	err := AtField("pond", Positive("drawdown.Plan", "depth", -1.2, "m"))
	fmt.Println(err)
	fmt.Println(errors.Is(err, ErrDomain))
	// Output:
	// drawdown.Plan: pond.depth = -1.2 m: impossible input: must be finite and above zero
	// true
}
