package units

import (
	"fmt"
	"math"
	"strconv"
)

// stringDigits is the number of significant digits String and Text print.
const stringDigits = 6

// text returns v, already in unit u, with its symbol.
func (q *quantityRecord) text(v float64, u uint8) string {
	var buf [64]byte
	return string(appendSymbol(appendDigits(buf[:0], v, stringDigits), q.symbol(u)))
}

// appendSymbol writes the symbol after a number, with the space the SI asks
// for except in front of a stroke or the degree of an angle.
func appendSymbol(dst []byte, symbol string) []byte {
	if symbol != "°" {
		dst = append(dst, ' ')
	}
	return append(dst, symbol...)
}

// appendDigits writes v rounded to n significant digits, without an exponent
// from 1e-4 up to 1e15, so that a pond's 1 234 567 m3 reads as a number.
func appendDigits(dst []byte, v float64, n int) []byte {
	if n < 1 {
		n = 1
	}
	if n > 17 {
		n = 17
	}
	var buf [32]byte
	e := strconv.AppendFloat(buf[:0], v, 'e', n-1, 64)
	r, err := strconv.ParseFloat(string(e), 64)
	if err != nil || math.IsInf(r, 0) || math.IsNaN(r) {
		return append(dst, e...)
	}
	return appendShortest(dst, r)
}

// sixDigits returns v as String prints it, without a symbol.
func sixDigits(v float64) string { return string(appendDigits(nil, v, stringDigits)) }

// appendShortest writes the shortest decimal that reads back as v.
func appendShortest(dst []byte, v float64) []byte {
	if a := math.Abs(v); a != 0 && (a < 1e-4 || a >= 1e15) {
		return strconv.AppendFloat(dst, v, 'e', -1, 64)
	}
	return strconv.AppendFloat(dst, v, 'f', -1, 64)
}

// format serves fmt for a value in the SI unit.
func (q *quantityRecord) format(f fmt.State, verb rune, v float64) {
	formatNumber(f, verb, v, q.units[0].symbol, "units."+q.name)
}

// formatNumber writes v and symbol for one verb of fmt: v and s with six
// digits, +v with all that are needed, #v as Go, e f g as for a float64.
// Width pads the whole text.
func formatNumber(f fmt.State, verb rune, v float64, symbol, goType string) {
	var buf [96]byte
	out := buf[:0]
	prec, hasPrec := f.Precision()
	switch verb {
	case 'v', 's', 'q':
		switch {
		case verb == 'v' && f.Flag('#'):
			out = append(append(out, goType...), '(')
			out = strconv.AppendFloat(out, v, 'g', -1, 64)
			out = append(out, ')')
		case hasPrec:
			out = appendSymbol(strconv.AppendFloat(out, v, 'g', prec, 64), symbol)
		case verb == 'v' && f.Flag('+'):
			out = appendSymbol(appendShortest(out, v), symbol)
		default:
			out = appendSymbol(appendDigits(out, v, stringDigits), symbol)
		}
		if verb == 'q' {
			out = strconv.AppendQuote(nil, string(out))
		}
	case 'e', 'E', 'f', 'F', 'g', 'G':
		if !hasPrec {
			prec = 6
			if verb == 'g' || verb == 'G' {
				prec = -1
			}
		}
		if verb == 'F' {
			verb = 'f'
		}
		if !math.Signbit(v) && !math.IsInf(v, 1) {
			if f.Flag('+') {
				out = append(out, '+')
			} else if f.Flag(' ') {
				out = append(out, ' ')
			}
		}
		out = appendSymbol(strconv.AppendFloat(out, v, byte(verb), prec, 64), symbol)
	default:
		out = append(append(out, "%!"...), string(verb)...)
		out = append(append(append(out, '('), goType...), '=')
		out = append(appendSymbol(appendShortest(out, v), symbol), ')')
	}
	pad(f, out)
}

// pad writes out at the width fmt asks for.
func pad(f fmt.State, out []byte) {
	width, ok := f.Width()
	n := 0
	for range string(out) {
		n++
	}
	space := func() {
		for ; ok && n < width; n++ {
			f.Write([]byte{' '})
		}
	}
	if !f.Flag('-') {
		space()
	}
	f.Write(out)
	space()
}
