// Package picture draws small charts as SVG text: a frame with axes, lines,
// bands, marks and bars. Colours and type come from the page's style sheet by
// class name, so that a chart prints well and follows a dark screen.
package picture

import (
	"fmt"
	"html"
	"math"
	"strings"
)

// Axis is one direction of a chart.
type Axis struct {
	Min, Max float64
	Title    string
	Ticks    []Tick
}

// Tick is a labelled place on an axis.
type Tick struct {
	At    float64
	Label string
}

// Round returns an axis that holds lo to hi, with about n ticks at round
// numbers.
func Round(lo, hi float64, n int, title string) Axis {
	if !(hi > lo) {
		hi = lo + 1
	}
	step := math.Pow(10, math.Floor(math.Log10((hi-lo)/float64(n))))
	for _, m := range []float64{1, 2, 5, 10} {
		if (hi-lo)/(step*m) <= float64(n) {
			step *= m
			break
		}
	}
	a := Axis{Min: math.Floor(lo/step+1e-9) * step, Max: math.Ceil(hi/step-1e-9) * step, Title: title}
	decimals := max(0, int(-math.Floor(math.Log10(step)+1e-9)))
	for i := 0; ; i++ {
		v := a.Min + float64(i)*step
		if v > a.Max+step/2 {
			return a
		}
		a.Ticks = append(a.Ticks, Tick{v, fmt.Sprintf("%.*f", decimals, v)})
	}
}

// Second returns the same axis read in another unit: its ticks are round in
// that unit, factor of the second unit per first.
func (a Axis) Second(factor float64, n int, title string) Axis {
	s := Round(a.Min*factor, a.Max*factor, n, title)
	out := Axis{Min: a.Min, Max: a.Max, Title: title}
	for _, t := range s.Ticks {
		if at := t.At / factor; at >= a.Min-1e-9*(a.Max-a.Min) && at <= a.Max+1e-9*(a.Max-a.Min) {
			out.Ticks = append(out.Ticks, Tick{at, t.Label})
		}
	}
	return out
}

// Chart is a frame of a given size in which things are drawn in order.
type Chart struct {
	w, h                     float64
	left, right, top, bottom float64
	x, y                     Axis
	body                     strings.Builder
	title                    string
}

// New returns a chart with axes below and at the left. The title is what a
// screen reader says of it.
func New(w, h float64, x, y Axis, title string) *Chart {
	c := &Chart{w: w, h: h, left: 62, right: 16, top: 14, bottom: 46, x: x, y: y, title: title}
	return c
}

// X and Y turn values into places of the picture.
func (c *Chart) X(v float64) float64 {
	return c.left + (v-c.x.Min)/(c.x.Max-c.x.Min)*(c.w-c.left-c.right)
}

// Y is the vertical counterpart of X.
func (c *Chart) Y(v float64) float64 {
	return c.h - c.bottom - (v-c.y.Min)/(c.y.Max-c.y.Min)*(c.h-c.top-c.bottom)
}

// Axes draws the grid, the labels and the frame; call it before the lines.
func (c *Chart) Axes() *Chart {
	for _, t := range c.x.Ticks {
		x := c.X(t.At)
		c.add(`<line class="grid" x1="%.1f" x2="%.1f" y1="%.1f" y2="%.1f"/>`, x, x, c.top, c.h-c.bottom)
		c.text(x, c.h-c.bottom+16, "middle", "tick", t.Label)
	}
	for _, t := range c.y.Ticks {
		y := c.Y(t.At)
		c.add(`<line class="grid" x1="%.1f" x2="%.1f" y1="%.1f" y2="%.1f"/>`, c.left, c.w-c.right, y, y)
		c.text(c.left-7, y+4, "end", "tick", t.Label)
	}
	c.text((c.left+c.w-c.right)/2, c.h-8, "middle", "axis", c.x.Title)
	c.turned(16, (c.top+c.h-c.bottom)/2, -90, "axis", c.y.Title)
	return c
}

// WithRight makes room at the right for a second reading of the vertical axis
// and draws it; call it before Axes.
func (c *Chart) WithRight(a Axis) *Chart {
	c.right = 62
	for _, t := range a.Ticks {
		c.text(c.w-c.right+7, c.Y(t.At)+4, "start", "tick", t.Label)
	}
	c.turned(c.w-14, (c.top+c.h-c.bottom)/2, 90, "axis", a.Title)
	return c
}

// Line draws a line through the points.
func (c *Chart) Line(class string, xs, ys []float64) *Chart {
	var d strings.Builder
	for i := range xs {
		op := 'L'
		if i == 0 {
			op = 'M'
		}
		fmt.Fprintf(&d, "%c%.1f %.1f", op, c.X(xs[i]), c.Y(ys[i]))
	}
	c.add(`<path class="line %s" d="%s"/>`, class, d.String())
	return c
}

// Band shades a stretch of the horizontal axis over the whole height.
func (c *Chart) Band(class string, from, to float64, label string) *Chart {
	from, to = max(from, c.x.Min), min(to, c.x.Max)
	if to <= from {
		return c
	}
	c.add(`<rect class="band %s" x="%.1f" y="%.1f" width="%.1f" height="%.1f"/>`, class, c.X(from), c.top, c.X(to)-c.X(from), c.h-c.top-c.bottom)
	if label != "" {
		c.text((c.X(from)+c.X(to))/2, c.top+14, "middle", "note", label)
	}
	return c
}

// Upright draws a vertical rule with a label beside it, down to the given row
// of labels (0 is the top one).
func (c *Chart) Upright(class string, at float64, row int, label string) *Chart {
	if at < c.x.Min || at > c.x.Max {
		return c
	}
	x, y := c.X(at), c.top+14+15*float64(row)
	c.add(`<line class="rule %s" x1="%.1f" x2="%.1f" y1="%.1f" y2="%.1f"/>`, class, x, x, c.top, c.h-c.bottom)
	if x > c.left+0.72*(c.w-c.left-c.right) {
		c.text(x-4, y, "end", "note", label)
	} else {
		c.text(x+4, y, "start", "note", label)
	}
	return c
}

// Level draws a horizontal rule with its label at the left or right end.
func (c *Chart) Level(class string, at float64, label string, atRight bool) *Chart {
	y := c.Y(at)
	c.add(`<line class="rule %s" x1="%.1f" x2="%.1f" y1="%.1f" y2="%.1f"/>`, class, c.left, c.w-c.right, y, y)
	if atRight {
		c.text(c.w-c.right-4, y-4, "end", "note", label)
	} else {
		c.text(c.left+4, y-4, "start", "note", label)
	}
	return c
}

// Mark draws a dot with a label above it and to the right.
func (c *Chart) Mark(class string, x, y float64, label string) *Chart {
	c.add(`<circle class="mark %s" cx="%.1f" cy="%.1f" r="4.5"/>`, class, c.X(x), c.Y(y))
	if label != "" {
		c.text(c.X(x)+9, c.Y(y)-12, "start", "note", label)
	}
	return c
}

// Label writes a text at a place of the axes.
func (c *Chart) Label(class string, x, y float64, anchor, label string) *Chart {
	c.text(c.X(x), c.Y(y), anchor, "note "+class, label)
	return c
}

// Bar draws a bar from the foot of the chart up to y, with a label on top.
func (c *Chart) Bar(class string, from, to, y float64, label string) *Chart {
	c.add(`<rect class="part %s" x="%.1f" y="%.1f" width="%.1f" height="%.1f"/>`, class, c.X(from), c.Y(y), c.X(to)-c.X(from), c.Y(c.y.Min)-c.Y(y))
	if label != "" {
		c.text(c.X((from+to)/2), c.Y(y)-5, "middle", "note", label)
	}
	return c
}

// SVG returns the picture.
func (c *Chart) SVG() string {
	return fmt.Sprintf(`<svg viewBox="0 0 %.0f %.0f" role="img" aria-label="%s" xmlns="http://www.w3.org/2000/svg">%s</svg>`,
		c.w, c.h, html.EscapeString(c.title), c.body.String())
}

func (c *Chart) add(format string, args ...any) { fmt.Fprintf(&c.body, format, args...) }

func (c *Chart) text(x, y float64, anchor, class, s string) {
	c.add(`<text class="%s" x="%.1f" y="%.1f" text-anchor="%s">%s</text>`, class, x, y, anchor, html.EscapeString(s))
}

func (c *Chart) turned(x, y, angle float64, class, s string) {
	c.add(`<text class="%s" transform="translate(%.1f %.1f) rotate(%.0f)" text-anchor="middle">%s</text>`, class, x, y, angle, html.EscapeString(s))
}

// Share is one part of a bar.
type Share struct {
	Class, Label, Value string
	Size                float64
}

// Shares draws one bar cut into parts, with a legend of name and value below it
// in columns.
func Shares(w float64, parts []Share, title string) string {
	total := 0.0
	for _, p := range parts {
		total += p.Size
	}
	const bar, top, row, columns = 40.0, 6.0, 22.0, 3
	rows := (len(parts) + columns - 1) / columns
	h := top + bar + 14 + row*float64(rows)
	var b strings.Builder
	x := 0.0
	for i, p := range parts {
		width := w * p.Size / total
		fmt.Fprintf(&b, `<rect class="part %s" x="%.1f" y="%.1f" width="%.1f" height="%.0f"/>`, p.Class, x, top, max(0, width-1.5), bar)
		x += width
		lx, ly := w/columns*float64(i%columns), top+bar+26+row*float64(i/columns)
		fmt.Fprintf(&b, `<rect class="part %s" x="%.1f" y="%.1f" width="12" height="12"/><text class="note" x="%.1f" y="%.1f">%s <tspan class="strong">%s</tspan></text>`,
			p.Class, lx, ly-11, lx+18, ly, html.EscapeString(p.Label), html.EscapeString(p.Value))
	}
	return fmt.Sprintf(`<svg viewBox="0 0 %.0f %.0f" role="img" aria-label="%s" xmlns="http://www.w3.org/2000/svg">%s</svg>`, w, h, html.EscapeString(title), b.String())
}

// Task is one row of a timetable.
type Task struct {
	Class, Label, Note string
	From, To           float64 // equal for a moment
}

// Timetable draws tasks one below the other against a horizontal axis. Rules
// are drawn over all rows.
func Timetable(w float64, x Axis, tasks []Task, rules []Tick, title string) string {
	const row, left = 27.0, 190.0
	h := 34 + row*float64(len(tasks)) + 34
	c := New(w, h, x, Axis{Min: 0, Max: 1}, title)
	c.left, c.right, c.top, c.bottom = left, 20, 34, 34
	for _, t := range x.Ticks {
		c.add(`<line class="grid" x1="%.1f" x2="%.1f" y1="%.1f" y2="%.1f"/>`, c.X(t.At), c.X(t.At), c.top, h-c.bottom)
		c.text(c.X(t.At), h-c.bottom+18, "middle", "tick", t.Label)
	}
	for i, r := range rules {
		if r.At < x.Min || r.At > x.Max {
			continue
		}
		c.add(`<line class="rule" x1="%.1f" x2="%.1f" y1="%.1f" y2="%.1f"/>`, c.X(r.At), c.X(r.At), c.top-6, h-c.bottom)
		c.text(c.X(r.At), 12+13*float64(i%2), "middle", "note", r.Label)
	}
	for i, t := range tasks {
		y := c.top + row*float64(i)
		c.text(left-10, y+18, "end", "note", t.Label)
		from, to := c.X(max(t.From, x.Min)), c.X(min(t.To, x.Max))
		if t.To <= t.From {
			c.add(`<path class="mark %s" d="M%.1f %.1fl6 6l-6 6l-6 -6z"/>`, t.Class, from, y+7)
			to = from + 6
		} else {
			c.add(`<rect class="part %s" x="%.1f" y="%.1f" width="%.1f" height="15" rx="3"/>`, t.Class, from, y+6, max(2, to-from))
		}
		if to > c.left+0.88*(w-c.left-c.right) {
			c.text(from-6, y+18, "end", "tick", t.Note)
		} else {
			c.text(to+6, y+18, "start", "tick", t.Note)
		}
	}
	return c.SVG()
}
