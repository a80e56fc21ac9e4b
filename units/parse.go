package units

import (
	"math"
	"strconv"
	"strings"
)

// parse reads a quantity in the SI unit of the type.
func (q *quantityRecord) parse(s string) (float64, error) {
	// Most texts are a plain decimal, one space and a symbol of the table.
	if end := decimalEnd(s); end > 0 && end+1 < len(s) && s[end] == ' ' {
		symbol := s[end+1:]
		for i := range q.units {
			if u := &q.units[i]; u.symbol == symbol {
				v, err := strconv.ParseFloat(s[:end], 64)
				if v *= u.factor; err == nil && !math.IsInf(v, 0) {
					return v, nil
				}
				break
			}
		}
	}
	v, err := q.parseSlow(s)
	if err == nil && (math.IsInf(v, 0) || math.IsNaN(v)) {
		err = q.fail(s, "does not fit a float64")
	}
	if err != nil {
		return math.NaN(), err
	}
	return v, nil
}

// maxText is the longest text the parser looks at.
const maxText = 200

func (q *quantityRecord) parseSlow(text string) (float64, error) {
	if len(text) > maxText {
		return 0, q.fail(text, "is too long for a quantity")
	}
	s := tidyText(text)
	if s == "" {
		return 0, q.fail(text, "is empty")
	}
	v, rest, reason := number(s)
	if reason != "" {
		return 0, q.fail(text, reason)
	}
	unit := strings.TrimLeft(rest, " ")
	if unit == "" {
		return 0, q.bare(text, v)
	}
	if v, ok, err := q.compound(text, v, unit); ok || err != nil {
		return v, err
	}
	f, err := q.unitFactor(text, unit)
	if err != nil {
		return 0, err
	}
	return f.of(v), nil
}

// tidyText trims s and brings spaces, minus signs, multiplication signs and
// superscripts of Unicode to their ASCII forms.
func tidyText(s string) string {
	ascii := true
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 {
			ascii = false
			break
		}
	}
	if !ascii {
		s = unicodeForms.Replace(s)
	}
	return strings.TrimSpace(s)
}

var unicodeForms = strings.NewReplacer(
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\u2007", " ",
	"\u2212", "-", "\u2010", "-", "\u2011", "-",
	"\u22c5", "·", "\u2219", "·", "\u2022", "·", "×", "·",
	"\u03bc", "µ", "\u2126", "Ω", "℃", "°C", "℉", "°F", "\u2206", "Δ",
	"⁻", "-", "⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9",
	"′", "'", "″", "\"", "’", "'", "”", "\"", "⁄", "/",
)

// compound reads feet and inches, 4 ft 6 in and 4' 6 1/2", and pounds and
// ounces; unit is what follows the first number. ok is false when the text has
// only one number.
func (q *quantityRecord) compound(text string, v float64, unit string) (total float64, ok bool, err error) {
	var bigNames, smallNames []string
	var big, small, ratio float64
	switch q {
	case &lengthRecord:
		bigNames, smallNames = []string{"feet", "foot", "ft", "'"}, []string{"inches", "inch", "in", "\"", "''"}
		big, small, ratio = float64(Foot), float64(Inch), 12
	case &massRecord:
		bigNames, smallNames = []string{"pounds", "pound", "lbs", "lb"}, []string{"ounces", "ounce", "oz avdp", "oz"}
		big, small, ratio = float64(Pound), float64(Ounce), 16
	default:
		return 0, false, nil
	}
	if q == &lengthRecord && (unit == "\"" || unit == "''") {
		return v * small, true, nil
	}
	for _, name := range bigNames {
		rest, found := strings.CutPrefix(unit, name)
		if !found {
			continue
		}
		rest = strings.TrimLeft(rest, " ,")
		if rest == "" && name == "'" {
			return v * big, true, nil
		}
		rest = strings.TrimPrefix(rest, "-")
		if rest == "" || rest[0]-'0' > 9 {
			continue
		}
		w, after, reason := number(rest)
		if reason != "" {
			return 0, false, q.fail(text, reason)
		}
		after = strings.TrimLeft(after, " ")
		for _, last := range smallNames {
			if after != last {
				continue
			}
			if v != math.Trunc(v) || !(w < ratio) {
				return 0, false, q.fail(text, "must have a whole number of "+bigNames[0]+" and fewer than "+
					strconv.Itoa(int(ratio))+" "+smallNames[0])
			}
			return math.Copysign(math.Abs(v)*ratio+w, v) * small, true, nil
		}
		return 0, false, q.fail(text, "has a second number whose unit is not "+smallNames[0])
	}
	return 0, false, nil
}

// fail returns a ParseError.
func (q *quantityRecord) fail(text, reason string, choices ...string) *ParseError {
	return &ParseError{Type: q.name, Text: text, Reason: reason, Choices: choices}
}

// bare refuses a number without a unit and says what it would be in two.
func (q *quantityRecord) bare(text string, v float64) error {
	if q == &temperatureRecord { // the scales differ by more than a factor
		c, f := sixDigits(Celsius(v).Fahrenheit()), sixDigits(Fahrenheit(v).Celsius())
		n := sixDigits(v)
		return q.fail(text, "has no unit: "+n+" °C is "+c+" °F, "+n+" °F is "+f+" °C", q.symbols()...)
	}
	m, o := &q.units[q.metric], &q.units[q.other]
	show := func(v float64, u *unitRecord) string {
		return string(appendSymbol(appendDigits(nil, v, stringDigits), u.symbol))
	}
	reason := "has no unit"
	if m != o {
		reason += ": " + show(v, m) + " is " + show(v*m.factor/o.factor, o) + ", " +
			show(v, o) + " is " + show(v*o.factor/m.factor, m)
	}
	if q.basis == "" {
		return q.fail(text, reason, q.symbols()...)
	}
	note := "{" + q.basis + "}"
	choices := q.withBasis(strings.TrimSuffix(m.symbol, note))
	if o != m {
		choices = append(choices, q.withBasis(strings.TrimSuffix(o.symbol, note))...)
	}
	return q.fail(text, reason, choices...)
}

// symbols lists the symbols of the type's own units.
func (q *quantityRecord) symbols() []string {
	all := make([]string, len(q.units))
	for i, u := range q.units {
		all[i] = u.symbol
	}
	return all
}
