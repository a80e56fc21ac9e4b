package units

import (
	"fmt"
	"math"
)

// Temperature is a point on the temperature scale. It cannot be added to
// another or multiplied; the difference of two is a TempDelta. The zero value
// is 0 K, which is impossible for water, ice or fish and therefore caught,
// where 0 °C would pass unseen.
//
// Kelvins are held inside. Celsius and Fahrenheit give the reading of at most
// ten decimals that lies within two units in the last place of the kelvins
// (1e-13 K for water), else the unrounded one: Celsius(28.5).Celsius() is 28.5
// and Celsius(28.5).Fahrenheit() is 83.3.
type Temperature struct{ kelvins float64 }

const (
	zeroCelsius    = 273.15 // K at 0 °C, exact
	zeroFahrenheit = 459.67 // °F below 0 °F to absolute zero, exact
)

// Celsius returns the temperature of v °C.
func Celsius(v float64) Temperature { return Temperature{v + zeroCelsius} }

// Fahrenheit returns the temperature of v °F.
func Fahrenheit(v float64) Temperature { return Temperature{(v + zeroFahrenheit) * 5 / 9} }

// KelvinScale returns the temperature of v kelvins above absolute zero.
func KelvinScale(v float64) Temperature { return Temperature{v} }

// Kelvins returns t in kelvins.
func (t Temperature) Kelvins() float64 { return t.kelvins }

// Celsius returns t in °C.
func (t Temperature) Celsius() float64 {
	c := t.kelvins - zeroCelsius
	if r := tidy(c); t.names(r + zeroCelsius) {
		return r
	}
	return c
}

// Fahrenheit returns t in °F.
func (t Temperature) Fahrenheit() float64 {
	f := t.kelvins*9/5 - zeroFahrenheit
	if r := tidy(f); t.names((r + zeroFahrenheit) * 5 / 9) {
		return r
	}
	return f
}

// names tells whether k is t but for the rounding of a change of scale, two
// units in the last place.
func (t Temperature) names(k float64) bool {
	ulp := math.Nextafter(t.kelvins, math.Inf(1)) - t.kelvins
	return math.Abs(k-t.kelvins) <= 2*ulp
}

// tidy rounds to ten decimals.
func tidy(v float64) float64 { return math.Round(v*1e10) / 1e10 }

// TemperatureUnit names a temperature scale, for reading, printing and
// variables.
type TemperatureUnit uint8

// Descriptors of the temperature scales.
const (
	DegreesCelsius    TemperatureUnit = iota // °C
	DegreesFahrenheit                        // °F
	KelvinsAbsolute                          // K
)

// Of returns the temperature of v on the scale.
func (u TemperatureUnit) Of(v float64) Temperature {
	switch u {
	case DegreesCelsius:
		return Celsius(v)
	case DegreesFahrenheit:
		return Fahrenheit(v)
	}
	return KelvinScale(v)
}

// In returns t on scale u.
func (t Temperature) In(u TemperatureUnit) float64 {
	switch u {
	case DegreesCelsius:
		return t.Celsius()
	case DegreesFahrenheit:
		return t.Fahrenheit()
	}
	return t.kelvins
}

// Sub returns the difference t - u.
func (t Temperature) Sub(u Temperature) TempDelta { return TempDelta(t.kelvins - u.kelvins) }

// Add returns t warmed by d.
func (t Temperature) Add(d TempDelta) Temperature { return Temperature{t.kelvins + float64(d)} }

// Less tells whether t is colder than u.
func (t Temperature) Less(u Temperature) bool { return t.kelvins < u.kelvins }

// Compare returns -1, 0 or 1 as t is colder than, as warm as or warmer than u.
func (t Temperature) Compare(u Temperature) int {
	switch {
	case t.kelvins < u.kelvins:
		return -1
	case t.kelvins > u.kelvins:
		return 1
	}
	return 0
}

// Equal tells whether t and u are the same temperature to the bit; a NaN equals
// nothing. Comparing packages such as go-cmp look for it.
func (t Temperature) Equal(u Temperature) bool { return t == u }

// Toward returns the temperature a fraction of the way from t to u.
func (t Temperature) Toward(u Temperature, fraction float64) Temperature {
	return Temperature{t.kelvins*(1-fraction) + u.kelvins*fraction}
}

// String returns t in °C with six significant digits.
func (t Temperature) String() string { return t.Text(DegreesCelsius) }

// Text returns t on scale u with six significant digits.
func (t Temperature) Text(u TemperatureUnit) string {
	return temperatureRecord.text(t.In(u), uint8(u))
}

// Format implements fmt.Formatter in °C; see the package's section on printing.
func (t Temperature) Format(f fmt.State, verb rune) {
	if verb == 'v' && f.Flag('#') {
		formatNumber(f, verb, t.kelvins, "K", "units.KelvinScale")
		return
	}
	formatNumber(f, verb, t.Celsius(), "°C", "units.Temperature")
}
