package units

import "strings"

// ParseError says why a text is not a quantity of the wanted type and what
// would be. errors.Is reports ErrDomain.
type ParseError struct {
	Type    string   // wanted type, such as "Length"
	Text    string   // what was given
	Reason  string   // what is wrong with it
	Choices []string // what may have been meant, ready to show; empty when nothing is close
}

// Error says type, text, reason and choices on one line.
func (e *ParseError) Error() string {
	var b strings.Builder
	b.WriteString("units.")
	b.WriteString(e.Type)
	b.WriteString(": ")
	b.WriteString(quoteShort(e.Text))
	b.WriteByte(' ')
	b.WriteString(e.Reason)
	for i, c := range e.Choices {
		switch {
		case len(e.Choices) == 1:
			b.WriteString("; did you mean ")
			c += "?"
		case i == 0:
			b.WriteString("; write ")
		case i == len(e.Choices)-1:
			b.WriteString(" or ")
		default:
			b.WriteString(", ")
		}
		b.WriteString(c)
	}
	return b.String()
}

// Unwrap returns ErrDomain.
func (e *ParseError) Unwrap() error { return ErrDomain }

// quoteShort quotes a text for an error message, its tail cut off when long.
func quoteShort(s string) string {
	const limit = 60
	if len(s) > limit {
		s = strings.ToValidUTF8(s[:limit], "") + "…"
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		if r < ' ' || r == 0x7f {
			r = ' '
		}
		b.WriteRune(r)
	}
	b.WriteByte('"')
	return b.String()
}
