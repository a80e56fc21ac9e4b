package drawdown

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// CrowdingCurve says what share of the stock is still in the pond when a share
// of its starting water is. No published curve with numbers was found: what is
// published is that most shrimp stay until the pond is almost empty, that
// Penaeus vannamei and P. merguiensis run with the water while P. monodon, P.
// japonicus and P. indicus may burrow and strand, and that a stopped current
// disperses them (FAO AC006E, ch. 13; Fast 1992). So this is a model with the
// user's parameters, to be fitted to weigh tickets with [FitCrowding], or the
// user's own points.
//
// Equation: R(v) = 1 for v >= RunStarts, else (v/RunStarts)^Exponent, never
// below Stranded.
//
// Source: common practice, no source.
type CrowdingCurve struct {
	RunStarts float64 `json:"runStarts,omitempty"` // share of the water left at which animals start to leave; zero means 0.2
	Exponent  float64 `json:"exponent,omitempty"`  // 1 leaves with the water, less hangs back; zero means 1
	Stranded  float64 `json:"stranded,omitempty"`  // share that never leaves with the water

	// Points, when given, replace the formula: shares measured at this farm,
	// linear between, from the most water to the least or the other way.
	Points []StockPoint `json:"points,omitempty"`
}

// StockPoint is one measured pair of shares, both of the start: Water left in
// the pond and Stock still in it.
type StockPoint struct {
	Water float64 `json:"water"`
	Stock float64 `json:"stock"`
}

func (c CrowdingCurve) withDefaults() CrowdingCurve {
	if c.RunStarts == 0 {
		c.RunStarts = 0.2
	}
	if c.Exponent == 0 {
		c.Exponent = 1
	}
	return c
}

// Validate reports every problem of the curve at once.
func (c CrowdingCurve) Validate() error {
	const fn = "drawdown.CrowdingCurve"
	all := []error{
		units.Within(fn, "runStarts", c.RunStarts, 0, 1, ""),
		units.Within(fn, "exponent", c.Exponent, 0, 20, ""),
		units.Within(fn, "stranded", c.Stranded, 0, 1, ""),
	}
	if len(c.Points) == 1 {
		all = append(all, &units.InputError{Func: fn, Field: "points", Value: 1, Unit: "points", Reason: "a measured curve needs two points or more"})
	}
	for i, p := range c.Points {
		at := fmt.Sprintf("points[%d]", i)
		all = append(all, units.Within(fn, at+".water", p.Water, 0, 1, ""), units.Within(fn, at+".stock", p.Stock, 0, 1, ""))
		if i == 0 {
			continue
		}
		q := c.Points[i-1]
		rising := c.Points[len(c.Points)-1].Water > c.Points[0].Water
		if p.Water == q.Water || p.Water > q.Water != rising {
			all = append(all, &units.InputError{Func: fn, Field: at + ".water", Value: p.Water, Reason: fmt.Sprintf("points %d and %d are out of order", i, i+1)})
		} else if (p.Stock-q.Stock)*(p.Water-q.Water) < 0 {
			all = append(all, &units.InputError{Func: fn, Field: at + ".stock", Value: p.Stock, Reason: "the stock left cannot rise as the water falls"})
		}
	}
	return errors.Join(all...)
}

// Remaining returns the share of the stock still in the pond when the share
// water (0 to 1) of the starting water is. A share outside is taken for the
// nearer end.
func (c CrowdingCurve) Remaining(water float64) float64 {
	r, _ := c.withDefaults().eval(water)
	return r
}

// MovedOut returns the share of the stock that has left with the water: one
// less [CrowdingCurve.Remaining].
func (c CrowdingCurve) MovedOut(water float64) float64 { return 1 - c.Remaining(water) }

// eval returns R and dR/dv.
func (c CrowdingCurve) eval(v float64) (r, slope float64) {
	v = math.Max(0, math.Min(1, v))
	if n := len(c.Points); n > 1 {
		at := func(i int) StockPoint { // from the least water up
			if c.Points[n-1].Water > c.Points[0].Water {
				return c.Points[i]
			}
			return c.Points[n-1-i]
		}
		if v <= at(0).Water {
			return at(0).Stock, 0
		}
		for i := 1; i < n; i++ {
			if p, q := at(i-1), at(i); v <= q.Water {
				slope = (q.Stock - p.Stock) / (q.Water - p.Water)
				return p.Stock + slope*(v-p.Water), slope
			}
		}
		return at(n - 1).Stock, 0
	}
	if v >= c.RunStarts {
		return 1, 0
	}
	r = math.Pow(v/c.RunStarts, c.Exponent)
	if r <= c.Stranded {
		return c.Stranded, 0
	}
	return r, c.Exponent * r / v
}

// Crowd is a stock in a falling pond.
type Crowd struct {
	Pond  Storage       `json:"-"`
	Start units.Length  `json:"start"` // stage at which the stock was whole
	Stock units.Mass    `json:"stock"` // at Start
	Curve CrowdingCurve `json:"curve"`

	WaterDensity  units.Density `json:"waterDensity,omitempty"`  // zero means 1000 kg/m3
	AnimalDensity units.Density `json:"animalDensity,omitempty"` // zero means 1050 kg/m3

	DensityLimit units.LoadPerWaterVolume `json:"densityLimit,omitempty"` // the user's; zero: none
}

// CrowdState is the crowd at one stage.
type CrowdState struct {
	Stage         units.Length             `json:"stage"`
	Water         units.Volume             `json:"water"`
	WaterFraction float64                  `json:"waterFraction"`
	Left          units.Mass               `json:"left"` // of the stock, in the pond
	Density       units.LoadPerWaterVolume `json:"density"`
	PerArea       units.ArealDensity       `json:"perArea"`

	// Delivery is how fast animals leave with the outflow; zero above the start
	// of the run. WaterPerAnimal is the mass of water that comes with each unit
	// mass of animals and SolidsFraction their share of the volume; both are
	// zero while nothing is delivered.
	Delivery       units.MassFlow `json:"delivery"`
	WaterPerAnimal float64        `json:"waterPerAnimal"`
	SolidsFraction float64        `json:"solidsFraction"`

	Notices []units.Notice `json:"notices,omitempty"`
}

// Notice codes of crowding.
const (
	CodeCrowdingAssumed = "DRAW_CROWDING_ASSUMED"
	CodeCrowdingDensity = "DRAW_CROWDING_DENSITY"
	CodeCrowdingDry     = "DRAW_CROWDING_DRY"
)

// At returns the crowd when the water stands at stage and outflow leaves.
//
// Equation: density = B R(v)/(v V0), delivery = B R'(v) Q/V0, v = V(stage)/V0.
//
// Source: mass balance, by definition, on the curve of [CrowdingCurve].
func (c Crowd) At(stage units.Length, outflow units.Flow) (CrowdState, error) {
	const fn = "drawdown.Crowd"
	all := []error{
		units.Finite(fn, "start", float64(c.Start), "m"), units.Finite(fn, "stage", float64(stage), "m"),
		units.NonNegative(fn, "stock", float64(c.Stock), "kg"), units.NonNegative(fn, "outflow", float64(outflow), "m3/s"),
		units.NonNegative(fn, "waterDensity", float64(c.WaterDensity), "kg/m3"),
		units.NonNegative(fn, "animalDensity", float64(c.AnimalDensity), "kg/m3"),
		units.NonNegative(fn, "densityLimit", float64(c.DensityLimit), "kg/m3"),
		units.AtField("curve", c.Curve.Validate()),
	}
	if c.Pond == nil {
		all = append(all, &units.InputError{Func: fn, Field: "pond", Value: math.NaN(), Reason: "no pond was given"})
	} else {
		all = append(all, units.Positive(fn, "start volume", float64(c.Pond.Volume(c.Start)), "m3"))
	}
	if err := errors.Join(all...); err != nil {
		return CrowdState{}, err
	}
	full := float64(c.Pond.Volume(c.Start))
	v := float64(c.Pond.Volume(stage))
	r, slope := c.Curve.withDefaults().eval(v / full)
	s := CrowdState{Stage: stage, Water: units.Volume(v), WaterFraction: v / full, Left: units.Mass(r) * c.Stock,
		Delivery: units.MassFlow(float64(c.Stock) * slope * float64(outflow) / full)}
	if v > 0 {
		s.Density = units.LoadPerWaterVolume(float64(s.Left) / v)
	} else {
		s.Notices = append(s.Notices, units.Notice{Code: CodeCrowdingDry, Severity: units.Danger, Field: "stage", Value: float64(stage),
			Limit: float64(c.Pond.Bottom()), Unit: "m", Message: "there is no water left at this stage; animals still in lie dry"})
	}
	if a := float64(c.Pond.Area(stage)); a > 0 {
		s.PerArea = units.ArealDensity(float64(s.Left) / a)
	}
	water, animal := float64(c.WaterDensity), float64(c.AnimalDensity)
	if water == 0 {
		water = 1000
	}
	if animal == 0 {
		animal = 1050
	}
	if s.Delivery > 0 {
		s.WaterPerAnimal = float64(outflow) * water / float64(s.Delivery)
		s.SolidsFraction = float64(s.Delivery) / animal / float64(outflow)
	}
	if len(c.Curve.Points) == 0 {
		s.Notices = append(s.Notices, units.Notice{Code: CodeCrowdingAssumed, Severity: units.Info, Field: "curve",
			Value: c.Curve.withDefaults().RunStarts, Message: "the run of the animals follows an assumed curve; fit it to this farm's weigh tickets"})
	}
	if c.DensityLimit > 0 && s.Density > c.DensityLimit {
		s.Notices = append(s.Notices, units.Notice{Code: CodeCrowdingDensity, Severity: units.Warning, Field: "density", Value: float64(s.Density),
			Limit: float64(c.DensityLimit), Unit: "kg/m3", Message: fmt.Sprintf("animals stand at %.3g kg/m3, above the limit of %.3g kg/m3", float64(s.Density), float64(c.DensityLimit))})
	}
	return s, nil
}
