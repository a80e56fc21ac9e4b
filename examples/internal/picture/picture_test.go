package picture

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
)

func wellFormed(t *testing.T, svg string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%v in %s", err, svg)
		}
	}
	if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
		t.Errorf("a place that is no number in %s", svg)
	}
}

func TestRoundAxis(t *testing.T) {
	for _, c := range []struct {
		lo, hi   float64
		n        int
		min, max float64
		first    string
	}{{0, 9.3, 5, 0, 10, "0"}, {-0.4, 1.4, 7, -0.5, 1.5, "-0.5"}, {0, 0.03, 4, 0, 0.03, "0.00"}, {5, 5, 4, 5, 6, "5.0"}} {
		a := Round(c.lo, c.hi, c.n, "")
		if math.Abs(a.Min-c.min) > 1e-9 || math.Abs(a.Max-c.max) > 1e-9 || a.Ticks[0].Label != c.first || len(a.Ticks) > c.n+3 {
			t.Errorf("%g to %g: %+v", c.lo, c.hi, a)
		}
	}
	feet := Round(0, 1.5, 5, "m").Second(1/0.3048, 5, "ft")
	for _, k := range feet.Ticks {
		if k.At < 0 || k.At > 1.5 {
			t.Errorf("tick %+v outside the axis", k)
		}
	}
}

func TestPicturesAreWellFormed(t *testing.T) {
	x, y := Round(0, 10, 5, "x & y"), Round(0, 1, 5, "<y>")
	c := New(400, 300, x, y, `"quoted"`).WithRight(y.Second(3.28, 5, "ft")).Band("b", 2, 4, "band").Band("b", 20, 30, "outside").Axes()
	c.Line("a", []float64{0, 10}, []float64{0, 1}).Upright("", 5, 0, "here").Upright("", 50, 0, "outside").Level("", 0.5, "level", true)
	c.Mark("", 3, 0.3, "mark").Bar("pa", 1, 2, 0.5, "bar").Label("", 1, 0.1, "start", "label")
	wellFormed(t, c.SVG())
	if strings.Contains(c.SVG(), "outside") {
		t.Error("drawn outside the frame")
	}
	wellFormed(t, Shares(400, []Share{{"pa", "one & two", "3 kg", 3}, {"pb", "three", "0 kg", 0}}, "shares"))
	wellFormed(t, Timetable(400, x, []Task{{"pa", "long", "1–2", 1, 9.8}, {"pb", "moment", "3", 3, 3}}, []Tick{{5, "rule"}, {50, "outside"}}, "table"))
}
