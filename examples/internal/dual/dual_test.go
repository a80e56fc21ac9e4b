package dual

import (
	"testing"
	"time"

	"pondwright.example/units"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		x    float64
		n    int
		want string
	}{
		{0, 3, "0"}, {5681.2, 3, "5,680"}, {1234567, 7, "1,234,567"}, {0.04567, 2, "0.046"},
		{-1500, 2, "-1,500"}, {999.6, 3, "1,000"}, {12, 3, "12.0"}, {3.6, 3, "3.60"},
	} {
		if got := Number(c.x, c.n); got != c.want {
			t.Errorf("Number(%v, %d) = %q, want %q", c.x, c.n, got, c.want)
		}
	}
}

func TestPairs(t *testing.T) {
	for got, want := range map[string]string{
		Flow(230 * units.CubicMetrePerHour): "230 m³/h (1,010 US gpm)",
		Level(0.25 * units.Metre):           "0.25 m (0.82 ft)",
		Mass(2722 * units.Kilogram):         "2,720 kg (6,000 lb)",
		Temperature(units.Celsius(29)):      "29 °C (84 °F)",
		Pressure(175 * units.Bar):           "175 bar (2,540 psi)",
		Span(95 * time.Minute):              "1 h 35 min",
		Span(-20 * time.Minute):             "-20 min",
		Pond(5681 * units.CubicMetre):       "5,681 m³ (4.606 acre-ft)",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
