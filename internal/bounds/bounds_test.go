package bounds

import (
	"errors"
	"math"
	"testing"

	"pondwright.example/units"
)

func TestBounds(t *testing.T) {
	for _, c := range []struct {
		v                float64
		amount, positive bool
	}{{0, true, false}, {1, true, true}, {1e15, true, true}, {1.1e15, false, false}, {1e-16, true, false}, {-1, false, false},
		{math.NaN(), false, false}, {math.Inf(1), false, false}, {math.Inf(-1), false, false}} {
		for name, f := range map[string]func(string, string, float64, string) error{"Amount": Amount, "Positive": Positive} {
			ok := c.amount
			if name == "Positive" {
				ok = c.positive
			}
			err := f("p.F", "x", c.v, "kg")
			if (err == nil) != ok {
				t.Errorf("%s(%g): %v", name, c.v, err)
			}
			if err != nil && !errors.Is(err, units.ErrDomain) {
				t.Errorf("%s(%g): %v is not ErrDomain", name, c.v, err)
			}
		}
	}
}
