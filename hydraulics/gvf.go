package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// ChannelReach is a straight channel of one section, slope and roughness.
type ChannelReach struct {
	Section  Section     `json:"-"`        // in JSON under "section", with its shape beside its sizes
	Slope    units.Slope `json:"slope"`    // of the bed, falling downstream; zero is level, negative rises
	ManningN float64     `json:"manningN"` // s/m^(1/3)
	Flow     units.Flow  `json:"flow"`
	Coriolis float64     `json:"coriolis,omitzero"` // α of the velocity head; zero means 1
}

// Validate reports every field that cannot be used, joined.
func (r ChannelReach) Validate() error {
	const fn = "hydraulics.ChannelReach"
	if r.Section == nil {
		return &units.InputError{Func: fn, Field: "section", Value: math.NaN(), Reason: "a section is needed"}
	}
	errs := []error{
		units.AtField("section", r.Section.Validate()),
		units.Within(fn, "slope", float64(r.Slope), -1, 1, ""),
		units.Within(fn, "manningN", r.ManningN, 0.001, 1, "s/m^(1/3)"),
		units.Positive(fn, "flow", float64(r.Flow), "m3/s"),
	}
	if r.Coriolis != 0 {
		errs = append(errs, units.Within(fn, "coriolis", r.Coriolis, 1, 2, ""))
	}
	return errors.Join(errs...)
}

// ProfilePoint is one point of a water surface.
type ProfilePoint struct {
	Distance units.Length `json:"distance"` // along the channel from the start, positive downstream
	Depth    units.Length `json:"depth"`
}

// depthStep returns dx/dy of gradually varied flow, and whether the friction
// slope and the Froude number are on the sides of the bed slope and of one that
// they are on at the start.
//
//	dx/dy = (1 - α F²)/(S0 - Sf)     Chow (1959) eq. 9-13
func (r ChannelReach) depthStep(y float64) (dxdy, crit, norm float64) {
	a, t := float64(r.Section.Area(units.Length(y))), float64(r.Section.TopWidth(units.Length(y)))
	p := float64(r.Section.WettedPerimeter(units.Length(y)))
	q := float64(r.Flow)
	alpha := r.Coriolis
	if alpha == 0 {
		alpha = 1
	}
	crit = 1 - alpha*q*q*t/(gravity*a*a*a)
	k := a * math.Cbrt(a*a/(p*p)) / r.ManningN // conveyance
	norm = float64(r.Slope) - q*q/(k*k)
	return crit / norm, crit, norm
}

// BackwaterLength returns the distance over which gradually varied flow changes
// from one depth to another, positive downstream: a negative distance means
// that the second depth lies upstream of the first.
//
// Errors: ErrDomain (value NaN) for a reach or depth that cannot be;
// ErrNoSolution when the normal or the critical depth lies between the two
// depths or at one of them: the water surface never crosses the first and jumps
// or plunges at the second.
//
// Source: Chow, V.T. (1959), Open-Channel Hydraulics, eq. 9-13, integrated over
// the depth by Gauss-Legendre quadrature instead of steps. Accuracy: that of n,
// about 10 to 20 % of the distance.
func BackwaterLength(r ChannelReach, from, to units.Length) (units.Length, error) {
	if err := r.between("hydraulics.BackwaterLength", from, to); err != nil {
		return units.Length(math.NaN()), err
	}
	return units.Length(r.length(float64(from), float64(to))), nil
}

// between checks a reach and that both depths lie on one branch of the surface.
func (r ChannelReach) between(fn string, from, to units.Length) error {
	err := errors.Join(r.Validate(), units.Positive(fn, "from", float64(from), "m"), units.Positive(fn, "to", float64(to), "m"))
	if err != nil {
		return err
	}
	if top := r.Section.MaxDepth(); !math.IsInf(float64(top), 1) {
		// Above the depth of the largest flow there is a second normal depth.
		if most := mostCarried(r.Section); float64(max(from, to)) > most {
			return &units.InputError{Func: fn, Field: "to", Value: float64(max(from, to)), Unit: "m", Min: 0, Max: most,
				Reason: "so near the crown a closed section fills in waves"}
		}
	}
	_, c0, n0 := r.depthStep(float64(from))
	_, c1, n1 := r.depthStep(float64(to))
	name := "critical"
	if c0*c1 > 0 {
		name = "normal"
	}
	if c0*c1 > 0 && n0*n1 > 0 {
		return nil
	}
	return &units.InputError{Func: fn, Field: "to", Value: float64(to), Unit: "m",
		Reason: "the " + name + " depth lies between the two depths, and the surface does not pass it", Kind: units.ErrNoSolution}
}

// length integrates dx/dy, halving intervals until two orders of quadrature
// agree.
func (r ChannelReach) length(from, to float64) float64 {
	var quad func(a, b float64, depth int) float64
	rule := func(a, b float64) float64 {
		var sum float64
		for i := range gaussSin2 {
			dx, _, _ := r.depthStep(a + (b-a)*gaussSin2[i])
			sum += gaussWeight[i] * dx
		}
		return sum * (b - a)
	}
	quad = func(a, b float64, depth int) float64 {
		m := (a + b) / 2
		whole, left, right := rule(a, b), rule(a, m), rule(m, b)
		if depth == 0 || math.Abs(left+right-whole) <= 1e-11*math.Abs(left+right) {
			return left + right
		}
		return quad(a, m, depth-1) + quad(m, b, depth-1)
	}
	return quad(from, to, 40)
}

// BackwaterProfile returns the water surface between two depths as n points,
// from the first depth on, equal steps of depth apart.
//
// Errors: as [BackwaterLength], and ErrDomain for n below 2.
func BackwaterProfile(r ChannelReach, from, to units.Length, n int) ([]ProfilePoint, error) {
	const fn = "hydraulics.BackwaterProfile"
	if err := r.between(fn, from, to); err != nil {
		return nil, err
	}
	if n < 2 {
		return nil, &units.InputError{Func: fn, Field: "n", Value: float64(n), Min: 2, Max: unbounded, Reason: "points of the profile"}
	}
	out := make([]ProfilePoint, n)
	out[0] = ProfilePoint{0, from}
	for i := 1; i < n; i++ {
		y := from + (to-from)*units.Length(i)/units.Length(n-1)
		prev := out[i-1]
		out[i] = ProfilePoint{prev.Distance + units.Length(r.length(float64(prev.Depth), float64(y))), y}
	}
	return out, nil
}
