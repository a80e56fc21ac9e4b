package drawdown

import (
	"fmt"
	"math"
	"slices"
	"time"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// SteadyDrain is a pond in which nothing goes by the clock: outlets, a constant
// tailwater and a constant inflow. Its draining time is a plain integral, the
// short answer to "how long" and a check on a [Plan].
type SteadyDrain struct {
	Pond      Storage        `json:"-"`
	From      units.Length   `json:"from"`
	To        units.Length   `json:"to"`
	Outlets   []Outlet       `json:"-"`
	Tailwater *units.Length  `json:"tailwater,omitempty"` // nil: free outfall
	Inflow    units.Flow     `json:"inflow"`              // negative takes water out
	Losses    units.Velocity `json:"losses,omitempty"`    // evaporation and seepage, depth per time
}

// Time returns how long the stage takes to fall:
//
//	t = integral from To to From of A(h) dh / (Q(h) - inflow),
//
// by Gauss and Legendre's rule between the corners of the pond and the kinks of
// the outlets, in a variable that leaves a square root at the lower end of each
// piece smooth, halving the pieces until two results agree to 1e-12.
//
// Errors: stages outside the pond, To above From, no way out; ErrNoSolution, with
// the stage at which outflow and inflow balance, when the water never falls to
// To (over a weir, to its crest).
//
// Source: water balance; Torricelli's law and its like are special cases.
func (d SteadyDrain) Time() (time.Duration, error) {
	const fn = "drawdown.SteadyDrain.Time"
	if d.Pond == nil {
		return 0, &units.InputError{Func: fn, Field: "pond", Value: math.NaN(), Reason: "no pond was given"}
	}
	lo, hi := float64(d.Pond.Bottom()), float64(d.Pond.Top())
	all := []error{units.Within(fn, "from", float64(d.From), lo, hi, "m"), units.Within(fn, "to", float64(d.To), lo, float64(d.From), "m"),
		units.Finite(fn, "inflow", float64(d.Inflow), "m3/s"), units.Finite(fn, "losses", float64(d.Losses), "m/s")}
	if d.Tailwater != nil {
		all = append(all, units.Finite(fn, "tailwater", float64(*d.Tailwater), "m"))
	}
	for i, o := range d.Outlets {
		if o == nil {
			all = append(all, &units.InputError{Func: fn, Field: fmt.Sprintf("outlets[%d]", i), Value: math.NaN(), Reason: "an outlet is missing"})
		}
	}
	if err := joinErrors(all); err != nil {
		return 0, err
	}
	if d.From == d.To {
		return 0, nil
	}
	cuts := d.cuts()
	// A balance on the way is looked for before the time is.
	for i := 0; i+1 < len(cuts); i++ {
		const looks = 6
		for k := looks; k > 0; k-- {
			h := cuts[i] + (cuts[i+1]-cuts[i])*float64(k)/looks
			if !(d.fall(h) > 0) {
				return 0, d.stuck(fn, h)
			}
		}
	}
	last := math.Inf(1)
	for pieces := 1; pieces <= 1<<14; pieces *= 2 {
		sum := 0.0
		for i := 0; i+1 < len(cuts); i++ {
			sum += d.integral(cuts[i], cuts[i+1], pieces)
		}
		if math.Abs(sum-last) <= 1e-12*sum {
			return secondsOf(sum), nil
		}
		last = sum
	}
	return 0, d.stuck(fn, float64(d.To))
}

// cuts are the stages between which everything is smooth, rising.
func (d SteadyDrain) cuts() []float64 {
	cuts := []float64{float64(d.To), float64(d.From)}
	add := func(h float64) {
		if h > cuts[0] && h < cuts[1] {
			cuts = append(cuts, h)
		}
	}
	for _, c := range d.Pond.Corners() {
		add(float64(c))
	}
	var kinks []units.Length
	for _, o := range d.Outlets {
		if k, ok := o.(KinkedOutlet); ok {
			kinks = k.Kinks(units.Length(d.tail()), kinks)
		}
	}
	for _, k := range kinks {
		add(float64(k))
	}
	add(d.tail())
	slices.Sort(cuts)
	return slices.Compact(cuts)
}

func (d SteadyDrain) tail() float64 {
	if d.Tailwater != nil {
		return float64(*d.Tailwater)
	}
	return float64(d.Pond.Bottom()) - freeOutfallDepth
}

// fall is the net flow out at a stage.
func (d SteadyDrain) fall(h float64) float64 {
	z := d.tail()
	sum := float64(d.Losses)*float64(d.Pond.Area(units.Length(h))) - float64(d.Inflow)
	if h > z {
		for _, o := range d.Outlets {
			sum += float64(o.Discharge(units.Length(h), units.Length(z)))
		}
	}
	return sum
}

// integral is the time between two stages, h = a + (b-a) s^2, in even pieces of s.
func (d SteadyDrain) integral(a, b float64, pieces int) float64 {
	sum := 0.0
	for k := range pieces {
		s0, s1 := float64(k)/float64(pieces), float64(k+1)/float64(pieces)
		for n, x := range gaussX {
			s := (s0+s1)/2 + (s1-s0)/2*x
			h := a + (b-a)*s*s
			sum += gaussW[n] * (s1 - s0) / 2 * 2 * (b - a) * s * float64(d.Pond.Area(units.Length(h))) / d.fall(h)
		}
	}
	return sum
}

// stuck says at which stage the pond stays.
func (d SteadyDrain) stuck(fn string, at float64) error {
	h := at
	if d.fall(float64(d.From)) > 0 && at < float64(d.From) {
		if x, err := root.Find(d.fall, at, float64(d.From), 1e-9); err == nil {
			h = x
		}
	} else {
		h = float64(d.From)
	}
	return &units.InputError{Func: fn, Field: "to", Value: float64(d.To), Unit: "m", Min: h, Max: float64(d.From), Kind: units.ErrNoSolution,
		Reason: fmt.Sprintf("the water does not fall to it: what comes in balances what goes out at a stage of %.6g m", h)}
}
