package units

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pondwright.example/internal/check"
)

// TestTemperatureScales holds conversions to two units in the last place of the
// exact kelvin value: T = t + 273.15 and T = (t + 459.67) / 1.8, NIST SP 811
// (2008), appendix B.8.
func TestTemperatureScales(t *testing.T) {
	exact := func(v float64, add string, num, den int64) *big.Float {
		x := new(big.Rat).SetFloat64(v)
		a, _ := new(big.Rat).SetString(add)
		x.Mul(x.Add(x, a), big.NewRat(num, den))
		return new(big.Float).SetPrec(200).SetRat(x)
	}
	for i := -5000; i <= 15000; i++ {
		v := float64(i) / 100
		if e := ulps(Celsius(v).Kelvins(), exact(v, "273.15", 1, 1)); e > 2 {
			t.Errorf("%v °C is %v K: %.2f ulp off", v, Celsius(v).Kelvins(), e)
		}
		if e := ulps(Fahrenheit(v).Kelvins(), exact(v, "459.67", 5, 9)); e > 2 {
			t.Errorf("%v °F is %v K: %.2f ulp off", v, Fahrenheit(v).Kelvins(), e)
		}
		// Reading back what was given.
		if got := Celsius(v).Celsius(); got != v {
			t.Errorf("%v °C reads back as %v", v, got)
		}
		if got := Fahrenheit(v).Fahrenheit(); got != v {
			t.Errorf("%v °F reads back as %v", v, got)
		}
	}
}

// TestReadings holds readings on the other scale to two units in the last place
// of the kelvin value.
func TestReadings(t *testing.T) {
	for i := range 20000 {
		k := 200 + float64(i)/77
		temp := KelvinScale(k)
		limit := 2 * (math.Nextafter(k, 1e3) - k)
		c := new(big.Float).SetPrec(200).Sub(big.NewFloat(k), exact27315)
		if d, _ := new(big.Float).Sub(c, big.NewFloat(temp.Celsius())).Float64(); math.Abs(d) > limit {
			t.Errorf("%v K reads %v °C, %g K off", k, temp.Celsius(), d)
		}
		f := new(big.Float).SetPrec(200).Mul(big.NewFloat(k), big.NewFloat(9))
		f.Quo(f, big.NewFloat(5)).Sub(f, exact45967)
		if d, _ := new(big.Float).Sub(f, big.NewFloat(temp.Fahrenheit())).Float64(); math.Abs(d)/1.8 > limit {
			t.Errorf("%v K reads %v °F, %g K off", k, temp.Fahrenheit(), d/1.8)
		}
		if next := KelvinScale(math.Nextafter(k, 1e3)); next.Celsius() < temp.Celsius() || next.Fahrenheit() < temp.Fahrenheit() {
			t.Errorf("the reading falls above %v K", k)
		}
	}
}

var (
	exact27315, _, _ = big.ParseFloat("273.15", 10, 200, big.ToNearestEven)
	exact45967, _, _ = big.ParseFloat("459.67", 10, 200, big.ToNearestEven)
)

// TestWholeCelsius wants whole degrees Celsius to print as their exact degrees
// Fahrenheit and back.
func TestWholeCelsius(t *testing.T) {
	for c := -50; c <= 150; c++ {
		tenths := 18*c + 320 // exact, in whole tenths of a degree
		sign, a := "", tenths
		if a < 0 {
			sign, a = "-", -a
		}
		want := fmt.Sprintf("%s%d", sign, a/10)
		if a%10 != 0 {
			want += fmt.Sprintf(".%d", a%10)
		}
		f := Celsius(float64(c)).Fahrenheit()
		if got := fmt.Sprint(f); got != want {
			t.Errorf("%d °C is %s °F, want %s", c, got, want)
		}
		if got := Fahrenheit(f).Celsius(); got != float64(c) {
			t.Errorf("%v °F is %v °C, want %d", f, got, c)
		}
	}
}

// TestTemperatureRows reads temperatures given on one scale on another.
func TestTemperatureRows(t *testing.T) {
	given := func(r check.Row) (Temperature, error) {
		return ParseTemperature(r.Text("v") + " " + r.Text("from"))
	}
	check.Run(t, "testdata/temperature.csv", map[string]func(check.Row) (float64, error){
		"Temperature.Celsius":    func(r check.Row) (float64, error) { x, err := given(r); return x.Celsius(), err },
		"Temperature.Fahrenheit": func(r check.Row) (float64, error) { x, err := given(r); return x.Fahrenheit(), err },
		"Temperature.Kelvins":    func(r check.Row) (float64, error) { x, err := given(r); return x.Kelvins(), err },
		"Temperature.Sub":        func(r check.Row) (float64, error) { x, err := given(r); return x.Sub(Celsius(0)).Kelvins(), err },
	})
}

func TestTemperatureArithmetic(t *testing.T) {
	cold, warm := Celsius(4), Fahrenheit(82.4)
	if d := warm.Sub(cold); math.Abs(float64(d)-24) > 1e-12 {
		t.Errorf("28 °C less 4 °C is %v", d)
	}
	if got := cold.Add(24 * Kelvin); math.Abs(got.Sub(warm).In(Kelvins)) > 1e-12 {
		t.Errorf("4 °C warmed by 24 K is %v", got)
	}
	if !cold.Less(warm) || warm.Less(cold) || cold.Compare(warm) != -1 || warm.Compare(cold) != 1 || cold.Compare(cold) != 0 {
		t.Error("4 °C is colder than 28 °C")
	}
	if got := cold.Toward(warm, 0.5).Celsius(); math.Abs(got-16) > 1e-9 {
		t.Errorf("half way from 4 to 28 °C is %v", got)
	}
	if got := cold.Toward(warm, 1); got != warm {
		t.Errorf("all the way is %v", got)
	}
	if zero := (Temperature{}); zero.Celsius() != -273.15 || zero.Kelvins() != 0 {
		t.Errorf("an unset temperature is %v", zero)
	}
}

func TestTemperatureText(t *testing.T) {
	for _, c := range []struct {
		t    Temperature
		want string
	}{
		{Celsius(28.5), "28.5 °C"},
		{Celsius(-0.1), "-0.1 °C"},
		{Celsius(0), "0 °C"},
		{KelvinScale(300), "26.85 °C"},
		{KelvinScale(1e-7), "1e-07 K"},
		{KelvinScale(math.Copysign(0, -1)), "-0 K"},
		{Temperature{}, "-273.15 °C"},
	} {
		b, err := c.t.MarshalText()
		if err != nil || string(b) != c.want {
			t.Errorf("%v K: %q, %v, want %q", c.t.kelvins, b, err, c.want)
		}
	}
	for text, want := range map[string]Temperature{
		"28.5 °C": Celsius(28.5), "28.5°C": Celsius(28.5), "28.5 Cel": Celsius(28.5), "28.5 degC": Celsius(28.5), "28.5 C": Celsius(28.5), "28.5 ℃": Celsius(28.5),
		"83.3 °F": Fahrenheit(83.3), "83.3 [degF]": Fahrenheit(83.3), "83.3F": Fahrenheit(83.3), "300 K": KelvinScale(300), "-4 °C": Celsius(-4), "−4 °C": Celsius(-4),
		"28 1/2 °C": Celsius(28.5),
	} {
		if got, err := ParseTemperature(text); err != nil || got != want {
			t.Errorf("%q = %v, %v, want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "28", "0", "°C", "28 kg", "28 Δ°C", "28 mK", "28 degrees", "NaN °C", "1e999 K", "28,5 °C"} {
		if got, err := ParseTemperature(text); err == nil || !math.IsNaN(got.kelvins) {
			t.Errorf("%q = %v, %v", text, got, err)
		}
	}
}

func TestTemperatureUnit(t *testing.T) {
	for _, u := range All[TemperatureUnit]() {
		if got := u.Of(28.5).In(u); got != 28.5 {
			t.Errorf("28.5 %s reads back as %v", u.Symbol(), got)
		}
		if got, want := u.Of(28.5).Text(u), "28.5 "+u.Symbol(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
		b, err := u.MarshalText()
		var back TemperatureUnit
		if err := errors.Join(err, back.UnmarshalText(b)); err != nil || back != u || !u.Exact() {
			t.Errorf("%v reads back as %v, %v", u, back, err)
		}
	}
	if got := Digits(Celsius(28.5), DegreesFahrenheit, 2); got != "83 °F" {
		t.Errorf("%q", got)
	}
	if DegreesFahrenheit.Factor() != 5./9 || DegreesCelsius.Factor() != 1 || KelvinsAbsolute.String() != "kelvins" {
		t.Error("size or name of a degree")
	}
	u := DegreesFahrenheit
	if err := u.UnmarshalText([]byte("R")); err == nil || u != DegreesFahrenheit {
		t.Errorf("R reads %v, %v", u, err)
	}
	if got := TemperatureUnit(9).String(); got != "TemperatureUnit(9)" {
		t.Errorf("%q", got)
	}
}

// A comparison of structs that hold temperatures must not panic on the
// unexported field.
func TestTemperatureEqual(t *testing.T) {
	type water struct{ T Temperature }
	if d := cmp.Diff(water{Celsius(4)}, water{Celsius(4)}); d != "" {
		t.Error(d)
	}
	if cmp.Equal(water{Celsius(4)}, water{Celsius(5)}) || KelvinScale(277).Equal(KelvinScale(math.Nextafter(277, 300))) {
		t.Error("different temperatures are equal")
	}
	if nan := Celsius(math.NaN()); nan.Equal(nan) {
		t.Error("NaN equals itself")
	}
}
