package units

import (
	"database/sql/driver"
	"math"
	"strings"
)

// The text of a Temperature. It is in °C where that reads back to the same
// bits, which every temperature given in °C does, else in K.

// temperatureRecord names a Temperature in errors and its units.
var temperatureRecord = quantityRecord{
	name: "Temperature", words: "temperature", dim: temperatureDim, metric: 0, other: 1,
	units: []unitRecord{
		{"°C", "degrees Celsius", 1, true},
		{"°F", "degrees Fahrenheit", fahrenheit, true},
		{"K", "kelvins", 1, true},
	},
}

func (t Temperature) record() *quantityRecord { return &temperatureRecord }

// temperatureScale returns the scale that a unit's name stands for.
func temperatureScale(unit string) (TemperatureUnit, bool) {
	switch unit {
	case "°C", "Cel", "degC", "C", "deg C", "degrees C", "degrees Celsius", "celsius", "Celsius", "° C":
		return DegreesCelsius, true
	case "°F", "[degF]", "degF", "F", "deg F", "degrees F", "degrees Fahrenheit", "fahrenheit", "Fahrenheit", "° F":
		return DegreesFahrenheit, true
	case "K", "kelvin", "kelvins", "Kelvin":
		return KelvinsAbsolute, true
	}
	return 0, false
}

// ParseTemperature reads a text such as "28.5 °C", "83.3 degF", "28.5 Cel" or
// "301.65 K". It never takes a number without a unit.
func ParseTemperature(s string) (Temperature, error) {
	nan := Temperature{math.NaN()}
	q := &temperatureRecord
	if len(s) > maxText {
		return nan, q.fail(s, "is too long for a quantity")
	}
	tidied := tidyText(s)
	if tidied == "" {
		return nan, q.fail(s, "is empty")
	}
	v, rest, reason := number(tidied)
	if reason != "" {
		return nan, q.fail(s, reason)
	}
	return temperatureOf(s, v, strings.TrimSpace(rest))
}

func temperatureOf(text string, v float64, unit string) (Temperature, error) {
	nan := Temperature{math.NaN()}
	q := &temperatureRecord
	if unit == "" {
		return nan, q.bare(text, v)
	}
	scale, ok := temperatureScale(unit)
	if !ok {
		f, p := parseUnit(annotate(unit))
		switch {
		case p.why != "":
			return nan, q.explain(text, unit, p)
		case f.dim == temperatureDim:
			return nan, q.fail(text, "is a temperature difference, not a temperature", q.symbols()...)
		}
		return nan, q.mismatch(text, unit, f.dim, p.basis)
	}
	t := scale.Of(v)
	if math.IsInf(t.kelvins, 0) || math.IsNaN(t.kelvins) {
		return nan, q.fail(text, "does not fit a float64")
	}
	return t, nil
}

// AppendText appends the lossless text to dst.
func (t Temperature) AppendText(dst []byte) ([]byte, error) {
	c := t.Celsius()
	if math.Float64bits(Celsius(c).kelvins) != math.Float64bits(t.kelvins) {
		c = t.kelvins - zeroCelsius
	}
	switch {
	case math.IsInf(t.kelvins, 0) || math.IsNaN(t.kelvins):
		return temperatureRecord.appendText(dst, t.kelvins) // the error
	case math.Float64bits(Celsius(c).kelvins) != math.Float64bits(t.kelvins):
		return appendSymbol(appendShortest(dst, t.kelvins), "K"), nil
	}
	return appendSymbol(appendShortest(dst, c), "°C"), nil
}

// MarshalText returns the lossless text.
func (t Temperature) MarshalText() ([]byte, error) { return t.AppendText(nil) }

// UnmarshalText reads what ParseTemperature reads.
func (t *Temperature) UnmarshalText(text []byte) error {
	v, err := ParseTemperature(string(text))
	if err != nil {
		return err
	}
	*t = v
	return nil
}

// UnmarshalJSON reads "28.5 °C" and {"value": 28.5, "unit": "°C"}.
func (t *Temperature) UnmarshalJSON(data []byte) error {
	text, v, err := temperatureRecord.readJSON(data)
	var u Temperature
	switch {
	case err != nil:
	case v == nil:
		u, err = ParseTemperature(text)
	default:
		u, err = temperatureOf(string(data), *v, tidyText(text))
	}
	if err != nil {
		return jsonError[Temperature](err)
	}
	*t = u
	return nil
}

// Scan implements sql.Scanner for a text column.
func (t *Temperature) Scan(src any) error {
	text, err := temperatureRecord.scanText(src)
	if err != nil {
		return err
	}
	return t.UnmarshalText([]byte(text))
}

// Value implements driver.Valuer with the lossless text.
func (t Temperature) Value() (driver.Value, error) { return value(t.AppendText(nil)) }

// Symbol returns "°C", "°F" or "K".
func (u TemperatureUnit) Symbol() string { return temperatureRecord.symbol(uint8(u)) }

// String returns the scale's name.
func (u TemperatureUnit) String() string { return temperatureRecord.unitName(uint8(u)) }

// Factor returns the size of a degree in kelvins.
func (u TemperatureUnit) Factor() float64 { return temperatureRecord.units[u].factor }

// Exact tells that the scales are defined by ratios of whole numbers.
func (u TemperatureUnit) Exact() bool { return temperatureRecord.units[u].exact }

// MarshalText returns the symbol.
func (u TemperatureUnit) MarshalText() ([]byte, error) {
	return temperatureRecord.marshalUnit(uint8(u))
}

// UnmarshalText reads a symbol, or another name ParseTemperature takes.
func (u *TemperatureUnit) UnmarshalText(text []byte) error {
	v, ok := temperatureScale(tidyText(string(text)))
	if !ok {
		return temperatureRecord.fail(string(text), "is not a temperature scale", temperatureRecord.symbols()...)
	}
	*u = v
	return nil
}

func (u TemperatureUnit) record() *quantityRecord { return &temperatureRecord }
