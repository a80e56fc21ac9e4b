package drawdown

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// SiltedEvenly returns the pond with mud of one thickness over the whole bed,
// banks included: every level of the bed is raised by it.
//
// Equation: A'(h) = A(h - s), V'(h) = V(h - s) up to the top.
//
// Source: by definition. Errors: a thickness that is negative or reaches the
// top.
func SiltedEvenly(pond StageTable, thickness units.Length) (StageTable, error) {
	const fn = "drawdown.SiltedEvenly"
	depth := pond.Top() - pond.Bottom()
	if err := errors.Join(units.NonNegative(fn, "thickness", float64(thickness), "m"),
		units.Positive(fn, "depth left", float64(depth-thickness), "m")); err != nil {
		return StageTable{}, err
	}
	var rows []StageArea
	for _, r := range pond.Rows() {
		if h := r.Stage + thickness; h < pond.Top()-jumpWidth {
			rows = append(rows, StageArea{h, r.Area})
		}
	}
	rows = append(rows, StageArea{pond.Top(), pond.Area(pond.Top() - thickness)})
	return pond.rebuilt(rows)
}

// SiltedLevel returns the pond with a volume of soft mud settled level in its
// deepest part, as it lies after a drain.
//
// Equation: V'(h) = V(h) - mud above the mud's own level V(hm) = mud.
//
// Source: by definition. Errors: a mud volume that is negative or fills the
// pond.
func SiltedLevel(pond StageTable, mud units.Volume) (StageTable, error) {
	const fn = "drawdown.SiltedLevel"
	if err := errors.Join(units.NonNegative(fn, "mud", float64(mud), "m3"),
		units.Positive(fn, "volume left", float64(pond.Capacity()-mud), "m3")); err != nil {
		return StageTable{}, err
	}
	level := pond.Stage(mud)
	rows := []StageArea{{level, pond.Area(level)}}
	for _, r := range pond.Rows() {
		if r.Stage > level+jumpWidth {
			rows = append(rows, r)
		}
	}
	return pond.rebuilt(rows)
}

func (t StageTable) rebuilt(rows []StageArea) (StageTable, error) {
	if t.overhang {
		return NewStageTable(rows, AllowOverhang)
	}
	return NewStageTable(rows)
}

// Liner is a membrane under a pond with groundwater below it.
type Liner struct {
	Groundwater units.Length       `json:"groundwater"`       // level of the water table beside the pond
	Floor       units.Length       `json:"floor"`             // level of the liner
	Ballast     units.ArealDensity `json:"ballast,omitempty"` // mass on the liner under water, less the water it displaces
	Water       units.Density      `json:"water,omitempty"`   // in the pond; zero means 1000 kg/m3
	Safety      float64            `json:"safety,omitempty"`  // on the uplift; zero means 1.1
}

// LowestStage returns the stage below which groundwater lifts the liner; the
// floor itself when the pond may be emptied. It is a hydrostatic balance only:
// gas under a liner, tide in the ground and the engineer's judgement come on
// top.
//
// Equation: rho (h - floor) + ballast = safety 1000 (groundwater - floor).
//
// Source: hydrostatics, derived. Errors: values that cannot be.
func (l Liner) LowestStage() (units.Length, error) {
	const fn = "drawdown.Liner"
	rho, safety := float64(l.Water), l.Safety
	if rho == 0 {
		rho = 1000
	}
	if safety == 0 {
		safety = 1.1
	}
	if err := errors.Join(units.Finite(fn, "groundwater", float64(l.Groundwater), "m"), units.Finite(fn, "floor", float64(l.Floor), "m"),
		units.NonNegative(fn, "ballast", float64(l.Ballast), "kg/m2"), units.Within(fn, "water", rho, 900, 1300, "kg/m3"),
		units.Within(fn, "safety", safety, 1, 5, "")); err != nil {
		return units.Length(math.NaN()), err
	}
	need := safety*1000*math.Max(0, float64(l.Groundwater-l.Floor)) - float64(l.Ballast)
	return l.Floor + units.Length(math.Max(0, need/rho)), nil
}

// Bank is an earth bank that the pond falls away from.
type Bank struct {
	Slope     float64        `json:"slope"`              // run per rise, 3 for 3:1
	Friction  units.Angle    `json:"friction"`           // drained angle of friction
	Cohesion  units.Pressure `json:"cohesion,omitempty"` // drained
	SlipDepth units.Length   `json:"slipDepth"`          // thickness of the layer that might slip, measured vertically
	Saturated units.Density  `json:"saturated"`          // density of the saturated soil, near 2000 kg/m3
}

// SuddenDrawdownFactor returns the factor of safety against a shallow slip
// along the bank when the pond falls faster than the bank drains: below 1 it
// slips, and engineers ask for 1.2 to 1.3. It screens; it designs nothing, and
// says nothing of deep slips. A licensed engineer judges a dike.
//
// Equation: F = c/(rho g z sin b cos b) + (rho - rho_w)/rho tan phi/tan b.
//
// Validity: long uniform slope, water table at its face, seepage along it.
// Errors: values that cannot be.
//
// Source: infinite slope with seepage parallel to it, Skempton & DeLory (1957),
// Proceedings of the 4th International Conference on Soil Mechanics 2, 378-381.
func (b Bank) SuddenDrawdownFactor() (float64, error) {
	const fn = "drawdown.Bank"
	if err := errors.Join(units.Within(fn, "slope", b.Slope, 0.1, 50, ""), units.Within(fn, "friction", b.Friction.In(units.Degrees), 0, 50, "deg"),
		units.NonNegative(fn, "cohesion", float64(b.Cohesion), "Pa"), units.Within(fn, "slipDepth", float64(b.SlipDepth), 0.05, 20, "m"),
		units.Within(fn, "saturated", float64(b.Saturated), 1200, 2600, "kg/m3")); err != nil {
		return math.NaN(), err
	}
	beta := math.Atan(1 / b.Slope)
	rho := float64(b.Saturated)
	c := float64(b.Cohesion) / (rho * standardGravity * float64(b.SlipDepth) * math.Sin(beta) * math.Cos(beta))
	return c + (rho-1000)/rho*math.Tan(float64(b.Friction))*b.Slope, nil
}
