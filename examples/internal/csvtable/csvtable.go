// Package csvtable reads the tables a farm really keeps: saved by a
// spreadsheet with a byte order mark, semicolons and decimal commas, units in
// the header, blank and note lines, and now and then a cell that nobody can
// read. What can be read by a stated rule is read; everything else is reported
// with file, line and column, all of it in one run.
//
// Rules: the delimiter is the one of semicolon, tab and comma that the header
// holds most of. A line that starts with # is a note. A header such as
// "depth (m)" or "depth [m]" gives the unit of its column; a cell may carry its
// own ("4.5 ft"). A comma inside a number is a decimal comma when it is not
// followed by exactly three digits, or when another cell of the column settles
// it; "1,250" alone could mean two things and is refused.
package csvtable

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Fault is one thing wrong with a table.
type Fault struct {
	File   string
	Line   int    // 1-based; 0 for the whole file
	Column string // empty for the whole line
	Text   string
}

// Error returns file, line, column and text.
func (f *Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		fmt.Fprintf(&b, " line %d", f.Line)
	}
	if f.Column != "" {
		fmt.Fprintf(&b, ", column %q", f.Column)
	}
	b.WriteString(": ")
	b.WriteString(f.Text)
	return b.String()
}

// Table is a table as read, cells still text.
type Table struct {
	File    string
	Columns []Column
	Rows    []Row
	faults  []error
}

// Column is one heading with the unit it states, if any.
type Column struct {
	Name  string // lower case, without the unit
	Unit  string
	comma comma
	bare  bool // a missing unit has been told
}

// Row is one line of cells.
type Row struct {
	Line  int
	Cells []string
}

// comma is what the cells of a column say a comma inside a number means.
type comma uint8

const (
	commaUnknown comma = iota
	commaDecimal
	commaThousands
)

var (
	header    = regexp.MustCompile(`^(.*?)\s*[\(\[]([^\)\]]*)[\)\]]\s*$`)
	numeral   = regexp.MustCompile(`^[+-]?[0-9.,]+`)
	thousands = regexp.MustCompile(`^[+-]?[0-9]{1,3}(,[0-9]{3})+$`)
)

// Read parses data. The error joins every *Fault of form; a Table beside an
// error holds the lines that could be read.
func Read(file string, data []byte) (*Table, error) {
	t := &Table{File: file}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		t.fault(0, "", "not UTF-8 text; save the table as \"CSV UTF-8\"")
		return t, t.Err()
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma = delimiter(data)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	for {
		rec, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			var pe *csv.ParseError
			line := 0
			if errors.As(err, &pe) {
				line, err = pe.Line, pe.Err
			}
			t.fault(line, "", "%v", err)
			break
		}
		for i := range rec {
			rec[i] = strings.TrimSpace(strings.ReplaceAll(rec[i], "\u00a0", " "))
		}
		if blank(rec) {
			continue
		}
		line, _ := r.FieldPos(0)
		if t.Columns == nil {
			t.head(line, rec)
			continue
		}
		for len(rec) > len(t.Columns) && rec[len(rec)-1] == "" {
			rec = rec[:len(rec)-1]
		}
		if len(rec) > len(t.Columns) {
			t.fault(line, "", "%d cells under %d headings", len(rec), len(t.Columns))
			continue
		}
		for len(rec) < len(t.Columns) {
			rec = append(rec, "")
		}
		t.Rows = append(t.Rows, Row{line, rec})
	}
	if t.Columns == nil {
		t.fault(0, "", "no header line found")
	}
	t.settleCommas()
	return t, t.Err()
}

func delimiter(data []byte) rune {
	for line := range strings.Lines(string(data)) {
		if s := strings.TrimSpace(line); s == "" || s[0] == '#' {
			continue
		}
		best := ','
		for _, c := range []rune{';', '\t'} {
			if strings.Count(line, string(c)) > strings.Count(line, string(best)) {
				best = c
			}
		}
		return best
	}
	return ','
}

func blank(rec []string) bool {
	for _, c := range rec {
		if c != "" {
			return false
		}
	}
	return true
}

func (t *Table) head(line int, rec []string) {
	seen := map[string]bool{}
	t.Columns = []Column{}
	for _, h := range rec {
		c := Column{Name: strings.ToLower(h)}
		if m := header.FindStringSubmatch(h); m != nil {
			c.Name, c.Unit = strings.ToLower(m[1]), strings.TrimSpace(m[2])
		}
		c.Name = strings.Join(strings.Fields(strings.ReplaceAll(c.Name, "_", " ")), " ")
		if seen[c.Name] && c.Name != "" {
			t.fault(line, c.Name, "the heading stands twice")
		}
		seen[c.Name] = true
		t.Columns = append(t.Columns, c)
	}
}

// settleCommas looks for a cell in each column whose comma can mean one thing
// only: "12,5" or "1.250,5" a decimal comma, "1,250.5" a thousands separator.
func (t *Table) settleCommas() {
	for i := range t.Columns {
		c := &t.Columns[i]
		for _, r := range t.Rows {
			n := numeral.FindString(r.Cells[i])
			switch {
			case !strings.Contains(n, ","):
			case strings.Contains(n, ".") && strings.LastIndex(n, ".") > strings.LastIndex(n, ","), strings.Count(n, ",") > 1:
				c.comma = commaThousands
			case !thousands.MatchString(n) || strings.HasPrefix(strings.TrimLeft(n, "+-"), "0,"):
				c.comma = commaDecimal
			}
		}
	}
}

func (t *Table) fault(line int, column, format string, args ...any) {
	t.faults = append(t.faults, &Fault{t.File, line, column, fmt.Sprintf(format, args...)})
}

// Fault records a fault found by the caller in the given row and column.
func (t *Table) Fault(row Row, column int, format string, args ...any) {
	name := ""
	if column >= 0 && column < len(t.Columns) {
		name = t.Columns[column].Name
	}
	t.fault(row.Line, name, format, args...)
}

// FaultAll records a fault of the table as a whole.
func (t *Table) FaultAll(format string, args ...any) { t.fault(0, "", format, args...) }

// Err joins every fault recorded so far, nil when there is none.
func (t *Table) Err() error { return errors.Join(t.faults...) }

// Column returns the index of the first column with one of the names, or -1.
func (t *Table) Column(names ...string) int {
	for _, n := range names {
		for i, c := range t.Columns {
			if c.Name == n {
				return i
			}
		}
	}
	return -1
}

// Require is Column with a fault recorded when there is none.
func (t *Table) Require(names ...string) int {
	i := t.Column(names...)
	if i < 0 && t.Columns != nil {
		var have []string
		for _, c := range t.Columns {
			have = append(have, strconv.Quote(c.Name))
		}
		t.FaultAll("no column %q; the headings are %s", names[0], strings.Join(have, ", "))
	}
	return i
}

// Number returns the cell as plain decimal text, its comma read by the rule of
// the package, without and with what follows the number.
func (t *Table) number(row Row, column int) (num, rest string, ok bool) {
	cell := row.Cells[column]
	num = numeral.FindString(cell)
	rest = strings.TrimSpace(cell[len(num):])
	if num == "" {
		t.Fault(row, column, "%q is not a number", cell)
		return "", "", false
	}
	if !strings.Contains(num, ",") {
		return num, rest, true
	}
	switch t.Columns[column].comma {
	case commaDecimal:
		return strings.Replace(strings.ReplaceAll(num, ".", ""), ",", ".", 1), rest, true
	case commaThousands:
		return strings.ReplaceAll(num, ",", ""), rest, true
	}
	t.Fault(row, column, "%q could be %s or %s; write it without a thousands separator, with a decimal point",
		cell, strings.ReplaceAll(num, ",", ""), strings.Replace(num, ",", ".", 1))
	return "", "", false
}

// Float returns the cell as a plain number.
func (t *Table) Float(row Row, column int) (float64, bool) {
	num, rest, ok := t.number(row, column)
	if !ok {
		return 0, false
	}
	x, err := strconv.ParseFloat(num+rest, 64)
	if err != nil {
		t.Fault(row, column, "%q is not a plain number", row.Cells[column])
		return 0, false
	}
	return x, true
}

// Quantity reads the cell with the parser of its type; the unit is the cell's
// own or the heading's. Where neither has one the column is refused, once.
func Quantity[T any](t *Table, row Row, column int, parse func(string) (T, error)) (T, bool) {
	var zero T
	num, rest, ok := t.number(row, column)
	if !ok {
		return zero, false
	}
	unit := rest
	c := &t.Columns[column]
	if unit == "" || !strings.ContainsFunc(unit, unicode.IsLetter) {
		unit += " " + c.Unit
	}
	if strings.TrimSpace(unit) == "" {
		if !c.bare { // once, not on every line
			_, err := parse(num)
			t.Fault(row, column, "no unit, neither in the heading nor in the cell: %v", err)
		}
		c.bare = true
		return zero, false
	}
	x, err := parse(strings.TrimSpace(num + " " + strings.TrimSpace(unit)))
	if err != nil {
		t.Fault(row, column, "%v", err)
		return zero, false
	}
	return x, true
}
