package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// TableSpec describes a dewatering table: a grate on a platform onto which a
// pump lifts water and animals through a hose.
type TableSpec struct {
	Grate GrateSpec `json:"grate"`

	EntryBore units.Length `json:"entryBore"` // inside diameter of the hose where it meets the table

	// EntryKept is the share of the hose's velocity that the sheet keeps behind
	// the spreader: 0 is a stilling box, 1 a hose laid along the bars. There is no
	// published value: measure the sheet's speed, or calibrate.
	EntryKept float64 `json:"entryKept"`

	SlideSpeed units.Velocity `json:"slideSpeed"` // of animals down the bars
	Footprint  units.Area     `json:"footprint"`  // of grate that one kilogram of animals shades

	// Adhering is the water that leaves with the animals however dry the table,
	// in kilograms per kilogram drained; 0.02 to 0.05 is common practice.
	Adhering float64 `json:"adhering"`

	WaterDensity units.Density `json:"waterDensity"`
}

// Validate reports every field that cannot be used, joined.
func (s TableSpec) Validate() error {
	const fn = "hydraulics.TableSpec"
	return errors.Join(units.AtField("grate", s.Grate.Validate()),
		bounded(fn, "entryBore", float64(s.EntryBore), 0, 2, "m", "a bore; is it in millimetres?"),
		units.Within(fn, "entryKept", s.EntryKept, 0, 1, ""),
		bounded(fn, "slideSpeed", float64(s.SlideSpeed), 0, 10, "m/s", "a speed above zero"),
		units.Within(fn, "footprint", float64(s.Footprint), 0, 1, "m2"),
		units.Within(fn, "adhering", s.Adhering, 0, 0.5, ""),
		units.Within(fn, "waterDensity", float64(s.WaterDensity), 900, 1200, "kg/m3"))
}

// TableSetting is how a table is worked: what the hands can change, and what
// comes.
type TableSetting struct {
	Flow    units.Flow     `json:"flow"`    // of water and animals from the hose
	Product units.MassFlow `json:"product"` // of drained animals in it
	Slope   units.Angle    `json:"slope"`   // of the bars
	Tilt    units.Angle    `json:"tilt"`    // to one side
	Blocked float64        `json:"blocked"` // share of the gaps choked
}

// TableState is what leaves a table at one setting.
type TableState struct {
	Grate     GrateFlow      `json:"grate"`
	Velocity  units.Velocity `json:"velocity"`  // of the sheet at the first bar
	Cover     float64        `json:"cover"`     // share of the grate under animals
	RunOff    units.MassFlow `json:"runOff"`    // water down the chute past the grate
	CarryOver float64        `json:"carryOver"` // kg of water per kg of drained product, Adhering included; 0 without product
	Notices   []units.Notice `json:"notices,omitempty"`
}

// DewateringTable is a table ready for use.
//
// Method. The sheet arrives at EntryKept times the hose's velocity Q/A, or at
// critical depth when that is faster. Animals that slide at speed u shade
// Footprint × Product/u of each metre of length. The [Grate] says how much water
// runs off; that and the adhering water are the carry-over.
//
// Source: as [Grate]; the entry, the cover and the adhering water are common
// practice, no source. No measurement at table flows with animals was found in
// print: use the table to compare settings, and calibrate it with a
// weigh-and-drain test ([CalibrateTable]) before believing its numbers.
//
// Caution: the table stands on a platform with a full hose on it; keep to its
// rated load, keep off wet bars, and stop the pump before hands go near it.
type DewateringTable struct {
	spec  TableSpec
	grate Grate
}

// NewDewateringTable validates the description and prepares the table.
func NewDewateringTable(s TableSpec) (DewateringTable, error) {
	if err := s.Validate(); err != nil {
		return DewateringTable{}, err
	}
	g, err := NewGrate(s.Grate)
	if err != nil {
		return DewateringTable{}, units.AtField("grate", err)
	}
	s.Grate = g.Spec()
	return DewateringTable{s, g}, nil
}

// Spec returns the description the table was built from.
func (t DewateringTable) Spec() TableSpec { return t.spec }

// mostCover is the share of the grate under animals at which they pile up.
const mostCover = 0.8

// inflow turns a setting into what runs onto the grate.
func (t *DewateringTable) inflow(s TableSetting) GrateInflow {
	d := float64(t.spec.EntryBore)
	cover := float64(s.Product) / float64(t.spec.SlideSpeed) * float64(t.spec.Footprint) / float64(t.spec.Grate.Width)
	return GrateInflow{Flow: s.Flow, Velocity: units.Velocity(t.spec.EntryKept * float64(s.Flow) / (math.Pi / 4 * d * d)),
		Slope: s.Slope, Tilt: s.Tilt, Blocked: s.Blocked, Cover: math.Min(cover, 0.95)}
}

func (t *DewateringTable) check(fn string, s TableSetting) error {
	if !(t.grate.spec.Effectiveness > 0) {
		return &units.InputError{Func: fn, Field: "t", Value: 0, Reason: "build the table with NewDewateringTable"}
	}
	return errors.Join(units.Within(fn, "product", float64(s.Product), 0, 1000, "kg/s"), t.inflow(s).validate(fn))
}

// At returns what leaves the table at a setting.
//
// Notices: those of the grate, and animals that cover more than 0.8 of it and
// pile up.
//
// Errors: ErrDomain (zero result) for a table that was not built or a setting
// that cannot be. Source: as [DewateringTable].
func (t DewateringTable) At(s TableSetting) (TableState, error) {
	const fn = "hydraulics.DewateringTable.At"
	if err := t.check(fn, s); err != nil {
		return TableState{}, err
	}
	in := t.inflow(s)
	g, err := t.grate.Dewater(in)
	if err != nil {
		return TableState{}, err
	}
	out := TableState{Grate: g, Velocity: in.Velocity, Cover: in.Cover, Notices: g.Notices,
		RunOff: units.MassFlow(float64(g.RunOff) * float64(t.spec.WaterDensity))}
	out.Grate.Notices = nil
	if s.Product > 0 {
		out.CarryOver = float64(out.RunOff/s.Product) + t.spec.Adhering
	}
	if in.Cover > mostCover {
		out.Notices = append(out.Notices, units.Notice{Code: CodeRackRange, Severity: units.Warning, Field: "product", Value: in.Cover, Limit: mostCover,
			Message: "animals cover the grate faster than they slide off: they pile up and the water runs over them", Source: "common practice"})
	}
	return out, nil
}

// excess is above zero when more than the wanted share of the flow runs off; for
// none at all it compares the wetted with the whole length.
func (t *DewateringTable) excess(s TableSetting, share float64) float64 {
	g := t.grate.dewater(t.inflow(s))
	if share == 0 {
		return float64(g.WettedLength - t.spec.Grate.Length)
	}
	return g.RunOffShare - share
}

func shareError(fn string, share float64) error {
	return units.Within(fn, "share", share, 0, 0.99, "")
}

// DryFlow returns the largest flow of which no more than the given share runs
// off the end of the grate at a setting whose own flow is ignored; share 0 is
// the flow that just dries the product.
//
// Errors: ErrDomain (value NaN) as [DewateringTable.At] and for a share outside
// 0 to 0.99; ErrNoSolution when not even a litre per minute is dried, or when
// 10 m3/s still is.
//
// Source: the inverse of [DewateringTable.At].
func (t DewateringTable) DryFlow(s TableSetting, share float64) (units.Flow, error) {
	const fn = "hydraulics.DewateringTable.DryFlow"
	s.Flow = 0
	if err := errors.Join(t.check(fn, s), shareError(fn, share)); err != nil {
		return units.Flow(math.NaN()), err
	}
	at := func(q float64) float64 {
		s.Flow = units.Flow(q)
		return t.excess(s, share)
	}
	const least, most = 1.0 / 60000, 10.0
	lo, hi := at(least), at(most)
	if lo > 0 || hi < 0 {
		q, reason := least, "not even one litre per minute runs dry: the grate is choked"
		if hi < 0 {
			q, reason = most, "more than 10 m3/s still runs dry: look at the size of the grate"
		}
		return units.Flow(math.NaN()), &units.InputError{Func: fn, Field: "flow", Value: q, Unit: "m3/s", Reason: reason, Kind: units.ErrNoSolution}
	}
	q, err := root.FindBetween(at, least, most, lo, hi, 1e-9)
	return units.Flow(q), err
}

// LiftCurve is the flow that a pump with its hose delivers against a lift, such
// as an operating point solved for each platform height. It must not rise with
// the lift.
type LiftCurve func(lift units.Length) units.Flow

// DryHeight returns the lowest platform height, as lift above the basin, at
// which a pump's flow has fallen so far that no more than the given share runs
// off, and the flow there. At the first height already dry it is that height.
//
// Errors: ErrDomain (values NaN) as [DewateringTable.DryFlow], for a nil curve
// or heights that do not rise; ErrNoSolution when the flow at the highest lift
// is still too much; its Reason gives the flow to come down to.
//
// Source: the inverse of [DewateringTable.At] along the curve.
func (t DewateringTable) DryHeight(s TableSetting, share float64, curve LiftCurve, from, to units.Length) (height units.Length, flow units.Flow, err error) {
	const fn = "hydraulics.DewateringTable.DryHeight"
	nan, nanFlow := units.Length(math.NaN()), units.Flow(math.NaN())
	if curve == nil {
		return nan, nanFlow, &units.InputError{Func: fn, Field: "curve", Value: math.NaN(), Reason: "the flow of the pump against the lift is needed"}
	}
	err = errors.Join(units.Finite(fn, "from", float64(from), "m"), bounded(fn, "to", float64(to), float64(from), 100, "m", "above from"))
	if err != nil {
		return nan, nanFlow, err
	}
	want, err := t.DryFlow(s, share)
	if err != nil {
		return nan, nanFlow, err
	}
	over := func(z float64) float64 { return float64(curve(units.Length(z)) - want) }
	lo, hi := over(float64(from)), over(float64(to))
	switch {
	case lo <= 0:
		return from, curve(from), nil
	case hi > 0:
		return nan, nanFlow, &units.InputError{Func: fn, Field: "to", Value: float64(to), Unit: "m", Kind: units.ErrNoSolution,
			Reason: "even at this lift the pump gives more than " + want.Text(units.CubicMetresPerHour) + ", which is what the table dries: slow the pump"}
	}
	z, err := root.FindBetween(over, float64(from), float64(to), lo, hi, 1e-6)
	if err != nil {
		return nan, nanFlow, err
	}
	return units.Length(z), curve(units.Length(z)), nil
}

// DrySlope returns the steepest slope of the bars, up to the given one, at which
// no more than the given share of the setting's flow runs off. Animals slide
// better on steeper bars, the water passes faster.
//
// Errors: ErrDomain (value NaN) as [DewateringTable.DryFlow]; ErrNoSolution when
// even level bars let more run off.
//
// Source: the inverse of [DewateringTable.At].
func (t DewateringTable) DrySlope(s TableSetting, share float64, upTo units.Angle) (units.Angle, error) {
	set := func(a float64) TableSetting { s.Slope = units.Angle(a); return s }
	return t.dryAngle("hydraulics.DewateringTable.DrySlope", set, share, upTo)
}

// DryTilt returns the largest side tilt, up to the given one, at which no more
// than the given share of the setting's flow runs off.
//
// Errors and source: as [DewateringTable.DrySlope].
func (t DewateringTable) DryTilt(s TableSetting, share float64, upTo units.Angle) (units.Angle, error) {
	set := func(a float64) TableSetting { s.Tilt = units.Angle(a); return s }
	return t.dryAngle("hydraulics.DewateringTable.DryTilt", set, share, upTo)
}

// dryAngle searches from the largest angle down, since the run-off need not
// rise all the way with it.
func (t *DewateringTable) dryAngle(fn string, set func(a float64) TableSetting, share float64, upTo units.Angle) (units.Angle, error) {
	nan := units.Angle(math.NaN())
	if err := errors.Join(t.check(fn, set(float64(upTo))), shareError(fn, share)); err != nil {
		return nan, err
	}
	at := func(a float64) float64 { return t.excess(set(a), share) }
	const steps = 32
	b, fb := float64(upTo), at(float64(upTo))
	if fb <= 0 {
		return upTo, nil
	}
	for i := steps - 1; i >= 0; i-- {
		a := float64(upTo) * float64(i) / steps
		fa := at(a)
		if fa <= 0 {
			x, err := root.FindBetween(at, a, b, fa, fb, 1e-9)
			return units.Angle(x), err
		}
		b, fb = a, fa
	}
	return nan, &units.InputError{Func: fn, Field: "upTo", Value: upTo.In(units.Degrees), Unit: "°", Kind: units.ErrNoSolution,
		Reason: "more than the wanted share runs off at every angle: take less flow or a longer grate"}
}

// TradeRow is one platform height of a trade of lift, flow and carry-over.
type TradeRow struct {
	Lift  units.Length `json:"lift"`
	Flow  units.Flow   `json:"flow"`
	State TableState   `json:"state"`
}

// Trade returns what leaves the table at each platform height when the pump
// follows its curve: a higher platform costs flow and dries the product.
//
// Errors: ErrDomain for a nil curve, and as [DewateringTable.At].
//
// Source: as [DewateringTable].
func (t DewateringTable) Trade(s TableSetting, curve LiftCurve, lifts []units.Length) ([]TradeRow, error) {
	const fn = "hydraulics.DewateringTable.Trade"
	if curve == nil {
		return nil, &units.InputError{Func: fn, Field: "curve", Value: math.NaN(), Reason: "the flow of the pump against the lift is needed"}
	}
	out := make([]TradeRow, 0, len(lifts))
	for _, z := range lifts {
		s.Flow = curve(z)
		state, err := t.At(s)
		if err != nil {
			return nil, err
		}
		out = append(out, TradeRow{z, s.Flow, state})
	}
	return out, nil
}
