package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// ManningRoughness is a range of Manning's n for a kind of bed, s/m^(1/3).
type ManningRoughness struct {
	Surface string  `json:"surface"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
}

// ManningRoughnesses returns usual ranges of n. They are from memory, after
// Chow, V.T. (1959), Open-Channel Hydraulics, table 5-6: a measured drop of the
// channel itself is better.
func ManningRoughnesses() []ManningRoughness {
	return []ManningRoughness{
		{"smooth plastic pipe or liner", 0.009, 0.011},
		{"trowelled concrete", 0.011, 0.015},
		{"corrugated plastic or metal pipe", 0.020, 0.025},
		{"earth, straight and clean", 0.018, 0.025},
		{"earth, some weeds", 0.022, 0.033},
		{"earth, weedy or winding", 0.035, 0.050},
	}
}

// UniformFlow is what Manning's equation gives for one depth.
type UniformFlow struct {
	Area            units.Area     `json:"area"`
	WettedPerimeter units.Length   `json:"wettedPerimeter"`
	HydraulicRadius units.Length   `json:"hydraulicRadius"`
	TopWidth        units.Length   `json:"topWidth"` // zero in a full pipe
	Velocity        units.Velocity `json:"velocity"`
	Flow            units.Flow     `json:"flow"`
	Froude          float64        `json:"froude"` // V/√(g A/T); zero in a full pipe
}

// ManningFlow returns the uniform flow of a section at a depth, with n in
// s/m^(1/3) and the slope of the bed.
//
//	Q = (1/n) A R^(2/3) S^(1/2)
//
// Validity: fully rough turbulent flow, n from 0.008 to 0.2.
//
// Errors: ErrDomain (values NaN) for a section that does not validate, a depth
// that is not above zero or above a closed section, n outside 0.001 to 1, or a
// slope that is not above zero; ErrRange, beside the result, for n outside
// 0.008 to 0.2.
//
// Source: Manning, R. (1891), Trans. Inst. Civ. Eng. Ireland 20; Chow (1959)
// section 5-6.
func ManningFlow(s Section, depth units.Length, n float64, slope units.Slope) (UniformFlow, error) {
	const fn = "hydraulics.ManningFlow"
	err := errors.Join(manningInputs(fn, s, n, slope), depthWithin(fn, s, depth))
	if err != nil {
		nan := math.NaN()
		return UniformFlow{units.Area(nan), units.Length(nan), units.Length(nan), units.Length(nan),
			units.Velocity(nan), units.Flow(nan), nan}, err
	}
	u := uniform(s, depth, n, float64(slope))
	return u, roughnessRange(fn, n)
}

func uniform(s Section, depth units.Length, n, slope float64) UniformFlow {
	u := UniformFlow{Area: s.Area(depth), WettedPerimeter: s.WettedPerimeter(depth), TopWidth: s.TopWidth(depth)}
	u.HydraulicRadius = u.Area.Over(u.WettedPerimeter)
	u.Velocity = units.Velocity(math.Cbrt(float64(u.HydraulicRadius*u.HydraulicRadius)) * math.Sqrt(slope) / n)
	u.Flow = u.Velocity.Through(u.Area)
	u.Froude = froude(float64(u.Flow), float64(u.Area), float64(u.TopWidth))
	return u
}

// froude is V/√(g A/T), and zero without a free surface.
func froude(q, a, t float64) float64 {
	if t == 0 {
		return 0
	}
	return q / a / math.Sqrt(gravity*a/t)
}

func manningInputs(fn string, s Section, n float64, slope units.Slope) error {
	if s == nil {
		return &units.InputError{Func: fn, Field: "s", Value: math.NaN(), Reason: "a section is needed"}
	}
	return errors.Join(units.AtField("s", s.Validate()),
		units.Within(fn, "n", n, 0.001, 1, "s/m^(1/3)"),
		bounded(fn, "slope", float64(slope), 0, 1, "", "a slope above zero, rise over run"))
}

func roughnessRange(fn string, n float64) error {
	if n >= 0.008 && n <= 0.2 {
		return nil
	}
	return &units.InputError{Func: fn, Field: "n", Value: n, Unit: "s/m^(1/3)", Min: 0.008, Max: 0.2,
		Reason: "Manning's n of lined and earth channels", Kind: units.ErrRange}
}

func depthWithin(fn string, s Section, depth units.Length) error {
	if s == nil {
		return nil
	}
	y := float64(depth)
	if top := float64(s.MaxDepth()); y > top {
		return &units.InputError{Func: fn, Field: "depth", Value: y, Unit: "m", Min: 0, Max: top, Reason: "above the crown of the section"}
	}
	return units.Positive(fn, "depth", y, "m")
}

// NormalDepth returns the depth of uniform flow: the inverse of [ManningFlow].
// In a closed section that can carry the flow at two depths, above 0.82 of a
// circle's diameter, it is the lower one.
//
// Errors: ErrDomain (value NaN) as [ManningFlow] and for a flow that is not
// above zero; ErrNoSolution (value NaN) for a flow above what a closed section
// carries free, 1.0757 of the full flow in a circle; ErrRange, beside the
// depth, for n outside 0.008 to 0.2.
//
// Source: as [ManningFlow].
func NormalDepth(s Section, flow units.Flow, n float64, slope units.Slope) (units.Length, error) {
	const fn = "hydraulics.NormalDepth"
	err := errors.Join(manningInputs(fn, s, n, slope), units.Positive(fn, "flow", float64(flow), "m3/s"))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	q := float64(flow)
	carried := func(y float64) float64 { return float64(uniform(s, units.Length(y), n, float64(slope)).Flow) }
	hi := float64(s.MaxDepth())
	if math.IsInf(hi, 1) {
		hi = doubleUntil(carried, q)
	} else {
		hi = mostCarried(s)
		if most := carried(hi); q > most {
			return units.Length(math.NaN()), &units.InputError{Func: fn, Field: "flow", Value: q, Unit: "m3/s", Min: 0, Max: most,
				Reason: "more than the section carries with a free surface", Kind: units.ErrNoSolution}
		}
	}
	diff := func(y float64) float64 { return carried(y) - q }
	y, err := root.FindBetween(diff, 0, hi, -q, diff(hi), 0)
	if err != nil {
		return units.Length(math.NaN()), err
	}
	return units.Length(y), roughnessRange(fn, n)
}

// circleMostFlow is the depth over the diameter at which a circle carries the
// most by Manning's equation with a constant n.
const circleMostFlow = 0.9381812127246799

// mostCarried is the depth at which a closed section carries the most.
func mostCarried(s Section) float64 {
	top := float64(s.MaxDepth())
	if _, ok := s.(CircularSection); ok {
		return circleMostFlow * top
	}
	best, most := top, 0.0
	for i := 1; i <= 1000; i++ {
		y := top * float64(i) / 1000
		a, p := float64(s.Area(units.Length(y))), float64(s.WettedPerimeter(units.Length(y)))
		if k := a * math.Cbrt(a*a/(p*p)); k > most {
			best, most = y, k
		}
	}
	return best
}

// doubleUntil returns a depth at which the rising f reaches v.
func doubleUntil(f func(float64) float64, v float64) float64 {
	y := 1.0
	for range 200 {
		if f(y) >= v {
			return y
		}
		y *= 2
	}
	return y
}

// CircularProportions are the shares of the full pipe's values that a circle has
// at one depth, by Manning's equation with the same n.
type CircularProportions struct {
	Area     float64 `json:"area"`
	Velocity float64 `json:"velocity"`
	Flow     float64 `json:"flow"`
}

// CircularPartFull returns area, velocity and flow over those of the full pipe
// at a depth over diameter from 0 to 1. The flow is largest, 1.0757, at 0.938
// and the velocity, 1.140, at 0.813.
//
// Errors: ErrDomain (values NaN) outside 0 to 1.
//
// Source: Chow (1959) section 6-4 and appendix A; n is taken as constant, which
// overstates the part-full flow of some pipes by up to a quarter.
func CircularPartFull(depthRatio float64) (CircularProportions, error) {
	if err := units.Within("hydraulics.CircularPartFull", "depthRatio", depthRatio, 0, 1, ""); err != nil {
		nan := math.NaN()
		return CircularProportions{nan, nan, nan}, err
	}
	if depthRatio == 0 {
		return CircularProportions{}, nil
	}
	s := CircularSection{1}
	y := units.Length(depthRatio)
	a := float64(s.Area(y)) / (math.Pi / 4)
	r := a * math.Pi / float64(s.WettedPerimeter(y))
	v := math.Cbrt(r * r)
	return CircularProportions{a, v, a * v}, nil
}
