package units

import (
	"math"
	"strconv"
)

// Ways to show a quantity beside String and Text.

// readIn is what can be read in unit U: a Quantity or a Temperature.
type readIn[U Unit] interface {
	In(U) float64
}

// Digits returns x in unit u with n significant digits (1 to 17), such as
// Digits(x, CubicMetresPerHour, 3).
func Digits[Q readIn[U], U Unit](x Q, u U, n int) string {
	var buf [64]byte
	return string(AppendDigits(buf[:0], x, u, n))
}

// AppendDigits appends what Digits returns to dst.
func AppendDigits[Q readIn[U], U Unit](dst []byte, x Q, u U, n int) []byte {
	return appendSymbol(appendDigits(dst, x.In(u), n), u.Symbol())
}

// siSigns are the prefixes Prefixed chooses from, by power of a thousand.
var siSigns = [...]string{"p", "n", "µ", "m", "", "k", "M", "G", "T"}

// Prefixed returns x with n significant digits (1 to 17) in its SI unit with the
// decimal prefix that leaves one to three digits before the point: 350 µm,
// 2.5 kW. Quantities whose unit takes no such prefix, like m2 and m3, are
// returned in that unit.
func Prefixed[Q Quantity](x Q, n int) string {
	var buf [64]byte
	q := x.record()
	v := float64(x)
	symbol := q.prefix
	switch symbol {
	case "":
		return string(appendSymbol(appendDigits(buf[:0], v, n), q.units[0].symbol))
	case "g":
		v *= 1e3
	}
	at := len(siSigns) / 2
	for at+1 < len(siSigns) && math.Abs(round(v, n)) >= 1e3 {
		at++
		v /= 1e3
	}
	for at > 0 && v != 0 && math.Abs(round(v, n)) < 1 {
		at--
		v *= 1e3
	}
	out := append(appendDigits(buf[:0], v, n), ' ')
	return string(append(append(out, siSigns[at]...), symbol...))
}

// round returns v rounded to n significant digits.
func round(v float64, n int) float64 {
	var buf [32]byte
	r, err := strconv.ParseFloat(string(strconv.AppendFloat(buf[:0], v, 'e', min(max(n, 1), 17)-1, 64)), 64)
	if err != nil {
		return v
	}
	return r
}

// FeetInches returns x in feet and inches to the nearest 1/denominator of an
// inch (1 to 64), such as "4 ft 6 1/2 in". ParseLength reads it.
func (x Length) FeetInches(denominator int) string {
	den := int64(min(max(denominator, 1), 64))
	parts := math.Round(math.Abs(float64(x)) / inch * float64(den))
	if !(parts < 1<<53) {
		return x.Text(Feet)
	}
	n := int64(parts)
	var buf [64]byte
	out := buf[:0]
	if x < 0 && n > 0 {
		out = append(out, '-')
	}
	feet, rest := n/(12*den), n%(12*den)
	if feet > 0 {
		out = append(strconv.AppendInt(out, feet, 10), " ft "...)
	}
	inches, frac := rest/den, rest%den
	if inches > 0 || frac == 0 {
		out = append(strconv.AppendInt(out, inches, 10), ' ')
	}
	if frac > 0 {
		g := gcd(frac, den)
		out = append(strconv.AppendInt(out, frac/g, 10), '/')
		out = append(strconv.AppendInt(out, den/g, 10), ' ')
	}
	return string(append(out, "in"...))
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
