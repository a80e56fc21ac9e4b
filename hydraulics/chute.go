package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// AeratedChuteAir returns the mean share of air in the uniform flow of a steep
// chute that is long enough to draw in all it can.
//
//	C = 0.75 (sin α)^0.75
//
// The depth with its air is the depth of the water alone over 1 - C.
//
// Validity: slopes from 7.5 to 75 degrees, wide chutes of concrete or wood. The
// short chute of a dewatering table takes in less: the value is an upper bound
// for its walls.
//
// Errors: ErrDomain (value NaN) outside 0 to 90 degrees; ErrRange, beside the
// value, outside 7.5 to 75 degrees.
//
// Source: Hager, W.H. (1991), "Uniform aerated chute flow", J. Hydraul. Eng.
// 117(4):528-533, fitted to the tests of Straub & Anderson (1958) (equation from
// memory; its abstract confirms that C rises almost linearly with the slope).
func AeratedChuteAir(slope units.Angle) (float64, error) {
	const fn = "hydraulics.AeratedChuteAir"
	deg := slope.In(units.Degrees)
	if err := units.Within(fn, "slope", deg, 0, 90, "°"); err != nil {
		return math.NaN(), err
	}
	c := chuteAir(slope)
	if !(deg >= 7.5 && deg <= 75) {
		return c, &units.InputError{Func: fn, Field: "slope", Value: deg, Unit: "°", Min: 7.5, Max: 75, Kind: units.ErrRange}
	}
	return c, nil
}

func chuteAir(slope units.Angle) float64 {
	return 0.75 * math.Pow(math.Sin(slope.Radians()), 0.75)
}

// ChuteSpec describes a straight chute of rectangular section.
type ChuteSpec struct {
	Width      units.Length `json:"width"`
	WallHeight units.Length `json:"wallHeight"` // normal to the floor
	Freeboard  units.Length `json:"freeboard"`  // of the wall above the water with its air
	Slope      units.Angle  `json:"slope"`      // of the floor, above 0 to 75 degrees
	ManningN   float64      `json:"manningN"`   // s/m^(1/3)
}

// Validate reports every field that cannot be used, joined.
func (s ChuteSpec) Validate() error {
	const fn = "hydraulics.ChuteSpec"
	return errors.Join(
		bounded(fn, "width", float64(s.Width), 0, 20, "m", "a width above zero"),
		bounded(fn, "wallHeight", float64(s.WallHeight), 0, 10, "m", "a wall above zero"),
		units.Within(fn, "freeboard", float64(s.Freeboard), 0, 0.95*math.Max(0, float64(s.WallHeight)), "m"),
		bounded(fn, "slope", s.Slope.In(units.Degrees), 0, 75, "°", "a slope above zero"),
		units.Within(fn, "manningN", s.ManningN, 0.005, 0.1, "s/m^(1/3)"))
}

// Chute is a chute ready for use.
//
// Method: uniform flow by Manning's equation with the sine of the slope and the
// depth normal to the floor, bulked by the air of [AeratedChuteAir]. Water and
// animals count together as one flow.
//
// Source: Manning (1891); Chow (1959) section 2-5 for the steep slope; Hager
// (1991). Accuracy: 10 % of the depth of the water, the air an upper bound.
type Chute struct {
	spec ChuteSpec
	air  float64
}

// NewChute validates the description and prepares the chute.
func NewChute(s ChuteSpec) (Chute, error) {
	if err := s.Validate(); err != nil {
		return Chute{}, err
	}
	return Chute{s, chuteAir(s.Slope)}, nil
}

// Spec returns the description the chute was built from.
func (c Chute) Spec() ChuteSpec { return c.spec }

// Capacity returns the flow whose depth, with its air and the freeboard, just
// fills the walls.
func (c Chute) Capacity() units.Flow {
	if c.spec.Width == 0 {
		return 0
	}
	y := (c.spec.WallHeight - c.spec.Freeboard) * units.Length(1-c.air)
	return uniform(RectangularSection{c.spec.Width}, y, c.spec.ManningN, math.Sin(c.spec.Slope.Radians())).Flow
}

// ChuteFlow is a flow in a chute.
type ChuteFlow struct {
	Depth       units.Length   `json:"depth"`       // of the water alone, normal to the floor
	BulkedDepth units.Length   `json:"bulkedDepth"` // with its air
	Velocity    units.Velocity `json:"velocity"`
	Froude      float64        `json:"froude"` // with the depth normal to a steep floor
	Notices     []units.Notice `json:"notices,omitempty"`
}

// Carry returns the depth and velocity of a flow of water and animals.
//
// Notices: the bulked depth and freeboard above the walls; a slope outside the
// tests behind the air.
//
// Errors: ErrDomain for a chute that was not built or a flow that is not above
// zero. Source: as [Chute].
func (c Chute) Carry(flow units.Flow) (ChuteFlow, error) {
	const fn = "hydraulics.Chute.Carry"
	if c.spec.Width == 0 {
		return ChuteFlow{}, &units.InputError{Func: fn, Field: "c", Value: 0, Reason: "build the chute with NewChute"}
	}
	s := RectangularSection{c.spec.Width}
	sin, cos := math.Sincos(c.spec.Slope.Radians())
	y, err := NormalDepth(s, flow, c.spec.ManningN, units.Slope(sin))
	if err != nil && !errors.Is(err, units.ErrRange) {
		return ChuteFlow{}, err
	}
	v := flow.Through(s.Area(y))
	out := ChuteFlow{Depth: y, BulkedDepth: y / units.Length(1-c.air), Velocity: v,
		Froude: float64(v) / math.Sqrt(gravity*float64(y)*cos)}
	if n, outside := units.Outside(CodeChuteRange, "slope of the chute", c.spec.Slope.In(units.Degrees), 7.5, 75, "°", "Hager 1991, J. Hydraul. Eng. 117(4):528"); outside {
		out.Notices = append(out.Notices, n)
	}
	if need := out.BulkedDepth + c.spec.Freeboard; need > c.spec.WallHeight {
		out.Notices = append(out.Notices, units.Notice{Code: CodeChuteFull, Severity: units.Warning, Field: "wallHeight", Value: float64(c.spec.WallHeight),
			Limit: float64(need), Unit: "m", Message: "the water with its air stands above the walls", Source: "Hager 1991, J. Hydraul. Eng. 117(4):528"})
	}
	return out, nil
}
