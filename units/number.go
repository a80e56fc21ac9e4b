package units

import (
	"math"
	"strconv"
	"strings"
)

// The numbers people write: 4.5, -4.5e3, 1 250, 1,250,000.5, 1/2, 12 1/2,
// 12-1/2, 12½. The decimal mark is a point.

// digitsEnd returns the index after the digits of s from i on.
func digitsEnd(s string, i int) int {
	for i < len(s) && s[i]-'0' <= 9 {
		i++
	}
	return i
}

// decimalEnd returns the index after a sign, digits with at most one point, and
// an exponent at the start of s; 0 when there is no digit.
func decimalEnd(s string) int {
	i := 0
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		i++
	}
	end := digitsEnd(s, i)
	digits := end - i
	if end < len(s) && s[end] == '.' {
		frac := digitsEnd(s, end+1)
		digits += frac - end - 1
		end = frac
	}
	if digits == 0 {
		return 0
	}
	if end < len(s) && (s[end] == 'e' || s[end] == 'E') {
		at := end + 1
		if at < len(s) && (s[at] == '-' || s[at] == '+') {
			at++
		}
		if x := digitsEnd(s, at); x > at {
			end = x
		}
	}
	return end
}

// number reads a number at the start of s and returns it with the rest of s, or
// a reason that completes "<text> ...".
func number(s string) (v float64, rest, reason string) {
	end := decimalEnd(s)
	if end == 0 {
		if v, rest, ok := vulgar(s); ok {
			return v, rest, ""
		}
		return 0, s, "does not start with a number"
	}
	if end < len(s) && s[end] == ',' && digitsEnd(s, end+1) > end+1 || groupSpace(s, end) {
		return grouped(s, end)
	}
	plain := s[:end]
	rest = s[end:]
	v, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		return 0, s, "does not fit a float64"
	}
	if !whole(plain) {
		return v, rest, ""
	}
	// A whole number may be the numerator of a fraction or stand before one.
	if f, after, ok := fraction(s); ok {
		return f, after, ""
	}
	tail := rest
	switch {
	case strings.HasPrefix(tail, " "):
		tail = strings.TrimLeft(tail, " ")
	case strings.HasPrefix(tail, "-"):
		tail = tail[1:]
	}
	f, after, ok := 0., "", false
	if tail != rest {
		f, after, ok = fraction(tail)
	}
	if !ok {
		f, after, ok = vulgar(tail)
	}
	if !ok || math.Signbit(f) {
		return v, rest, ""
	}
	if f >= 1 {
		return 0, s, "has a fraction of one or more beside a whole number"
	}
	return v + math.Copysign(f, v), after, ""
}

// whole tells whether a number is written without point and exponent.
func whole(s string) bool { return !strings.ContainsAny(s, ".eE") }

// fraction reads "1/2" at the start of s.
func fraction(s string) (float64, string, bool) {
	i := decimalEnd(s)
	if i == 0 || i >= len(s) || s[i] != '/' || !whole(s[:i]) {
		return 0, s, false
	}
	j := digitsEnd(s, i+1)
	if j == i+1 {
		return 0, s, false
	}
	a, err1 := strconv.ParseFloat(s[:i], 64)
	b, err2 := strconv.ParseFloat(s[i+1:j], 64)
	if err1 != nil || err2 != nil || b == 0 {
		return 0, s, false
	}
	return a / b, s[j:], true
}

// vulgar reads a Unicode fraction such as ½ at the start of s.
func vulgar(s string) (float64, string, bool) {
	for _, f := range [...]struct {
		sign string
		v    float64
	}{{"½", 1. / 2}, {"¼", 1. / 4}, {"¾", 3. / 4}, {"⅛", 1. / 8}, {"⅜", 3. / 8}, {"⅝", 5. / 8}, {"⅞", 7. / 8}, {"⅓", 1. / 3}, {"⅔", 2. / 3}} {
		if rest, ok := strings.CutPrefix(s, f.sign); ok {
			return f.v, rest, true
		}
	}
	return 0, s, false
}

// groupSpace tells whether a space and exactly three digits follow s[:end], the
// SI's way of grouping thousands.
func groupSpace(s string, end int) bool {
	return end < len(s) && s[end] == ' ' && digitsEnd(s, end+1) == end+4 && !(end+4 < len(s) && s[end+4] == '/')
}

// grouped reads a number with grouped thousands. Spaces may group; commas only
// where two groups or a decimal point show that they do, since 1,250 is 1.25 to
// half the world.
func grouped(s string, end int) (v float64, rest, reason string) {
	sep := s[end]
	var b strings.Builder
	first := strings.TrimLeft(s[:end], "+-")
	if !whole(first) || len(first) > 3 {
		return 0, s, "mixes a decimal point with a group of thousands"
	}
	b.WriteString(s[:end])
	groups := 0
	i := end
	for i < len(s) && s[i] == sep && digitsEnd(s, i+1) > i+1 {
		if digitsEnd(s, i+1) != i+4 {
			if sep == ' ' {
				break
			}
			return 0, s, "has a comma where the decimal point or a group of three digits is expected"
		}
		b.WriteString(s[i+1 : i+4])
		groups++
		i += 4
	}
	point := i < len(s) && s[i] == '.'
	if point {
		j := digitsEnd(s, i+1)
		b.WriteString(s[i:j])
		i = j
	}
	if sep == ',' && groups == 1 && !point {
		one := s[:end] + s[end+1:i]
		return 0, s, "has a comma that may group thousands or mark decimals: is it " + one + " or " + s[:end] + "." + s[end+1:i] + "?"
	}
	if v, err := strconv.ParseFloat(b.String(), 64); err == nil {
		return v, s[i:], ""
	}
	return 0, s, "does not fit a float64"
}
