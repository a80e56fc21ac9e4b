package drainplan

import (
	"strings"

	"pondwright.example/units"
)

// columns is the width of a page of print.
const columns = 96

// Notes writes notices one by one, folded to the width of a page.
func Notes(notices []units.Notice) string {
	var b strings.Builder
	for _, n := range notices {
		b.WriteString(Fold("note: "+n.String(), "  "))
	}
	return b.String()
}

// Fold breaks a text between words into lines of a page, never before a per
// cent sign; lines after the first start with indent. It ends with a line feed.
func Fold(text, indent string) string {
	const held = "\u00a0%"
	var b strings.Builder
	width := 0
	for i, word := range strings.Split(strings.ReplaceAll(text, " %", held), " ") {
		n := len([]rune(word))
		switch {
		case i == 0:
		case width+1+n > columns:
			b.WriteString("\n" + indent)
			width = len([]rune(indent))
		default:
			b.WriteByte(' ')
			width++
		}
		b.WriteString(strings.ReplaceAll(word, held, " %"))
		width += n
	}
	b.WriteByte('\n')
	return b.String()
}
