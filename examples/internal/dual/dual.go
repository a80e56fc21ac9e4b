// Package dual writes quantities for people: SI first, US customary beside it,
// to the digits that matter in the field.
package dual

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"pondwright.example/units"
)

// Number writes x to n significant digits without an exponent, thousands apart
// by a comma: 12,300.
func Number(x float64, n int) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return strconv.FormatFloat(x, 'f', 0, 64)
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	if places < 0 {
		scale := math.Pow(10, float64(-places))
		x, places = math.Round(x/scale)*scale, 0
	}
	s := strconv.FormatFloat(math.Abs(x), 'f', places, 64)
	whole, rest, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if rest != "" {
		whole += "." + rest
	}
	if x < 0 {
		whole = "-" + whole
	}
	return whole
}

func pair(si float64, siUnit string, us float64, usUnit string, digits int) string {
	return Number(si, digits) + " " + siUnit + " (" + Number(us, digits) + " " + usUnit + ")"
}

// Level writes a water level to the centimetre.
func Level(l units.Length) string {
	return fmt.Sprintf("%.2f m (%.2f ft)", l.Metres(), l.In(units.Feet))
}

// Length writes a length in metres and feet.
func Length(l units.Length) string { return pair(l.Metres(), "m", l.In(units.Feet), "ft", 3) }

// Bore writes a diameter in millimetres and inches.
func Bore(l units.Length) string {
	return pair(l.In(units.Millimetres), "mm", l.In(units.Inches), "in", 3)
}

// Area writes an area in hectares and acres.
func Area(a units.Area) string {
	return pair(a.In(units.Hectares), "ha", a.In(units.Acres), "acres", 3)
}

// Volume writes a volume in cubic metres and US gallons.
func Volume(v units.Volume) string {
	return pair(v.CubicMetres(), "m³", v.In(units.USGallons), "US gal", 3)
}

// Pond writes a pond's volume in cubic metres and acre-feet.
func Pond(v units.Volume) string {
	return pair(v.CubicMetres(), "m³", v.In(units.AcreFeet), "acre-ft", 4)
}

// Mass writes a mass in kilograms and pounds.
func Mass(m units.Mass) string { return pair(m.Kilograms(), "kg", m.In(units.Pounds), "lb", 3) }

// Flow writes a flow in cubic metres per hour and US gallons per minute.
func Flow(q units.Flow) string {
	return pair(q.In(units.CubicMetresPerHour), "m³/h", q.In(units.USGallonsPerMinute), "US gpm", 3)
}

// Oil writes an oil flow in litres per minute and US gallons per minute.
func Oil(q units.Flow) string {
	return pair(q.In(units.LitresPerMinute), "L/min", q.In(units.USGallonsPerMinute), "US gpm", 3)
}

// MassRate writes a rate in kilograms and pounds per minute.
func MassRate(q units.MassFlow) string {
	return pair(q.In(units.KilogramsPerMinute), "kg/min", q.In(units.PoundsPerMinute), "lb/min", 2)
}

// Speed writes a velocity in metres and feet per second.
func Speed(v units.Velocity) string {
	return pair(v.MetresPerSecond(), "m/s", v.In(units.FeetPerSecond), "ft/s", 3)
}

// Fall writes a rate of fall in centimetres and inches per hour.
func Fall(v units.Velocity) string {
	return pair(v.In(units.CentimetresPerHour), "cm/h", v.In(units.InchesPerHour), "in/h", 2)
}

// Pressure writes a pressure in bar and pounds per square inch.
func Pressure(p units.Pressure) string {
	return pair(p.In(units.Bars), "bar", p.In(units.PoundsPerSquareInch), "psi", 3)
}

// Gauge writes a gauge reading in bar and pounds per square inch.
func Gauge(p units.GaugePressure) string { return Pressure(units.Pressure(p.PascalsGauge())) }

// Power writes a power in kilowatts and mechanical horsepower.
func Power(p units.Power) string {
	return pair(p.In(units.Kilowatts), "kW", p.In(units.MechanicalHorsepowers), "hp", 2)
}

// RPM writes a rotational speed.
func RPM(n units.RotationalSpeed) string {
	return fmt.Sprintf("%.0f r/min", n.In(units.RevolutionsPerMinute))
}

// Temperature writes degrees Celsius and Fahrenheit.
func Temperature(t units.Temperature) string {
	return fmt.Sprintf("%.0f °C (%.0f °F)", t.Celsius(), t.Fahrenheit())
}

// Oxygen writes a concentration in milligrams per litre, which is also parts
// per million in fresh water.
func Oxygen(c units.Concentration) string {
	return fmt.Sprintf("%.1f mg/L", c.In(units.MilligramsPerLitre))
}

// Weight writes a body weight in grams and ounces.
func Weight(m units.Mass) string { return pair(m.In(units.Grams), "g", m.In(units.Ounces), "oz", 3) }

// Clock writes day and time of the farm's clock.
func Clock(t time.Time, zone *time.Location) string { return t.In(zone).Format("Mon 15:04") }

// Span writes a duration to the minute.
func Span(d time.Duration) string {
	sign := ""
	if d < 0 {
		sign, d = "-", -d
	}
	d = d.Round(time.Minute)
	h, m := int(d/time.Hour), int(d%time.Hour/time.Minute)
	if h == 0 {
		return fmt.Sprintf("%s%d min", sign, m)
	}
	return fmt.Sprintf("%s%d h %02d min", sign, h, m)
}
