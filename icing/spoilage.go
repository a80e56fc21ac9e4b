package icing

import (
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Spoilage is a law for how much faster iced fish spoils when warm.
type Spoilage uint8

// The two laws. TemperateHuss1995 is the default for cold-water and pond fish of
// temperate regions, TropicalDalgaardHuss1995 for tropical species.
const (
	TemperateHuss1995        Spoilage = iota // √r = 1 + 0.1 T, 0 to 20 °C
	TropicalDalgaardHuss1995                 // ln r = 0.12 T, 0 to 30 °C
)

const (
	squareRootSlope  = 0.1  // per °C; the rate is zero at -10 °C
	exponentialSlope = 0.12 // per °C
	noGrowth         = -1 / squareRootSlope
)

// String names the law.
func (s Spoilage) String() string {
	switch s {
	case TemperateHuss1995:
		return "temperate (Huss 1995)"
	case TropicalDalgaardHuss1995:
		return "tropical (Dalgaard & Huss 1995)"
	}
	return fmt.Sprintf("Spoilage(%d)", uint8(s))
}

func (s Spoilage) upper() float64 {
	if s == TropicalDalgaardHuss1995 {
		return 30
	}
	return 20
}

// Rate returns the relative rate of spoilage, life at 0 °C over life at t,
// dimensionless:
//
//	temperate  r = (1 + 0.1 T)²   (zero below -10 °C)
//	tropical   r = exp(0.12 T)
//
// with T in °C. Validity: 0 to 20 °C temperate, 0 to 30 °C tropical; outside,
// the extrapolated value comes with ErrRange. Not a temperature: ErrDomain and
// NaN.
//
// Accuracy: 25 % of published storage lives.
//
// Source: Huss (1995), FAO Fisheries Technical Paper 348, ch. 6 (definition
// after Nixon 1971; both formulas from memory of that chapter).
func (s Spoilage) Rate(t units.Temperature) (float64, error) {
	const fn = "icing.Spoilage.Rate"
	c := t.Celsius()
	if s > TropicalDalgaardHuss1995 {
		return math.NaN(), &units.InputError{Func: fn, Field: "law", Value: float64(s), Reason: "must be TemperateHuss1995 or TropicalDalgaardHuss1995"}
	}
	if err := units.Within(fn, "t", c, -80, 60, "°C"); err != nil {
		return math.NaN(), err
	}
	r := s.rate(c)
	if !(c >= 0 && c <= s.upper()) {
		return r, &units.InputError{Func: fn, Field: "t", Value: c, Unit: "°C", Min: 0, Max: s.upper(),
			Reason: "extrapolated", Kind: units.ErrRange}
	}
	return r, nil
}

func (s Spoilage) rate(c float64) float64 {
	if s == TropicalDalgaardHuss1995 {
		return math.Exp(exponentialSlope * c)
	}
	g := max(0, 1+squareRootSlope*c)
	return g * g
}

// integral is ∫ r dt over dt while the temperature runs straight from a to b.
func (s Spoilage) integral(a, b, dt float64) float64 {
	if s == TropicalDalgaardHuss1995 {
		ra, d := s.rate(a), exponentialSlope*(b-a)
		if math.Abs(d) < 1e-5 {
			return ra * dt * (1 + d/2*(1+d/3))
		}
		return ra * dt * math.Expm1(d) / d
	}
	if a < noGrowth && b < noGrowth {
		return 0
	}
	if a < noGrowth || b < noGrowth { // only the part above -10 °C counts
		top := max(a, b)
		return s.integral(noGrowth, top, dt*(top-noGrowth)/math.Abs(b-a))
	}
	// Mean of a square over a straight line: (ga² + ga·gb + gb²)/3.
	ga, gb := 1+squareRootSlope*a, 1+squareRootSlope*b
	return dt * (ga*ga + ga*gb + gb*gb) / 3
}

// Life returns the storage life at t of a product that keeps lifeOnIce at 0 °C.
// It is lifeOnIce over [Spoilage.Rate], with the errors of that method; a
// temperature at which nothing spoils is ErrNoSolution.
func (s Spoilage) Life(lifeOnIce time.Duration, t units.Temperature) (time.Duration, error) {
	const fn = "icing.Spoilage.Life"
	if err := bounds.Positive(fn, "lifeOnIce", lifeOnIce.Hours(), "h"); err != nil {
		return 0, err
	}
	r, err := s.Rate(t)
	if math.IsNaN(r) {
		return 0, err
	}
	if r == 0 {
		return 0, &units.InputError{Func: fn, Field: "t", Value: t.Celsius(), Unit: "°C", Min: -10, Max: 20,
			Reason: "the law has no spoilage at or below -10 °C", Kind: units.ErrNoSolution}
	}
	life, e := durationOf(fn, lifeOnIce.Seconds()/r)
	if e != nil {
		return 0, e
	}
	return life, err
}

// RelativeRate returns the relative rate of spoilage that two observed storage
// lives show, the life at 0 °C over the life at the other temperature.
//
// Validity: both above zero; errors are ErrDomain with NaN.
//
// Source: Nixon (1971), as FAO Fisheries Technical Paper 348 (Huss 1995), eq.
// 6.a.
func RelativeRate(lifeOnIce, life time.Duration) (float64, error) {
	const fn = "icing.RelativeRate"
	if err := bounds.Positive(fn, "lifeOnIce", lifeOnIce.Hours(), "h"); err != nil {
		return math.NaN(), err
	}
	if err := bounds.Positive(fn, "life", life.Hours(), "h"); err != nil {
		return math.NaN(), err
	}
	return lifeOnIce.Seconds() / life.Seconds(), nil // eq. 6.a
}

// IcedLife is how long a group of fish keeps in ice, in days.
type IcedLife struct {
	Group  string  `json:"group"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Source string  `json:"source"`
}

// IcedLives returns published ranges of storage life in melting ice from Huss
// (1995), FAO Fisheries Technical Paper 348, and some of single species from
// memory. The ranges are wide: season, feed and handling decide within them.
func IcedLives() []IcedLife {
	const huss, memory = "Huss (1995), FAO Fisheries Technical Paper 348", "from memory"
	return []IcedLife{
		{"marine, temperate", 2, 21, huss},
		{"marine, tropical", 12, 35, huss},
		{"freshwater, temperate", 9, 20, huss},
		{"freshwater, tropical", 6, 40, huss},
		{"penaeid shrimp", 8, 14, memory},
		{"tilapia", 10, 27, memory},
		{"catfish", 12, 16, memory},
		{"trout", 9, 11, memory},
		{"carp", 16, 21, memory},
	}
}

// MarshalText writes the law's words.
func (s Spoilage) MarshalText() ([]byte, error) {
	if s > TropicalDalgaardHuss1995 {
		return nil, fmt.Errorf("icing.Spoilage: %d is not a known law", uint8(s))
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads the law's words.
func (s *Spoilage) UnmarshalText(text []byte) error {
	for k := TemperateHuss1995; k <= TropicalDalgaardHuss1995; k++ {
		if k.String() == string(text) {
			*s = k
			return nil
		}
	}
	return fmt.Errorf("icing.Spoilage: %q is not one of %q, %q", text, TemperateHuss1995, TropicalDalgaardHuss1995)
}
