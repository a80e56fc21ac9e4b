package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// GrateSpec describes the grate of a dewatering table: bars along the flow, by
// gap and bar, or a perforated plate, by its open share.
type GrateSpec struct {
	Width  units.Length `json:"width"`  // across the flow
	Length units.Length `json:"length"` // of open grate along the flow

	Gap       units.Length `json:"gap,omitzero"`       // clear, between bars
	Bar       units.Length `json:"bar,omitzero"`       // width of a bar seen from above
	OpenShare float64      `json:"openShare,omitzero"` // of a plate or mesh, instead of Gap and Bar

	Law         RackLaw    `json:"law"`
	Energy      RackEnergy `json:"energy"`
	Coefficient float64    `json:"coefficient,omitzero"` // C of the law; unused by Noseda1956

	// Effectiveness multiplies the open area: what a field test finds the grate
	// to do over what the law says. Zero means 1, no test; see [CalibrateTable].
	Effectiveness float64 `json:"effectiveness,omitzero"`
}

// Validate reports every field that cannot be used, joined.
func (s GrateSpec) Validate() error {
	const fn = "hydraulics.GrateSpec"
	errs := []error{
		bounded(fn, "width", float64(s.Width), 0, 20, "m", "a width above zero"),
		bounded(fn, "length", float64(s.Length), 0, 50, "m", "a length above zero"),
		units.Within(fn, "effectiveness", s.Effectiveness, 0, 10, ""),
	}
	switch {
	case s.OpenShare != 0 && (s.Gap != 0 || s.Bar != 0):
		errs = append(errs, &units.InputError{Func: fn, Field: "openShare", Value: s.OpenShare, Reason: "a grate has bars or an open share, not both"})
	case s.OpenShare != 0 && s.Law == Noseda1956:
		errs = append(errs, &units.InputError{Func: fn, Field: "law", Value: float64(s.Law), Reason: "Noseda1956 needs the pitch of bars: give gap and bar"})
	case s.OpenShare != 0:
		errs = append(errs, units.Within(fn, "openShare", s.OpenShare, 0.01, 0.99, ""))
	default:
		errs = append(errs, bounded(fn, "gap", float64(s.Gap), 0, 0.5, "m", "a clear gap; is it in millimetres?"),
			bounded(fn, "bar", float64(s.Bar), 0, 0.5, "m", "a bar width; is it in millimetres?"))
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	return s.rack(0).Validate()
}

// VoidRatio returns the open area over the whole, by definition: gap over gap
// plus bar, or the open share.
func (s GrateSpec) VoidRatio() float64 {
	if s.OpenShare != 0 {
		return s.OpenShare
	}
	return float64(s.Gap / (s.Gap + s.Bar))
}

// rack is the grate as a bottom rack at a slope.
func (s GrateSpec) rack(slope units.Angle) RackSpec {
	return RackSpec{Law: s.Law, Energy: s.Energy, VoidRatio: s.VoidRatio(), Coefficient: s.Coefficient, BarPitch: s.Gap + s.Bar, Slope: slope}
}

// GrateInflow is what runs onto a grate and how it is set.
type GrateInflow struct {
	Flow     units.Flow     `json:"flow"`
	Velocity units.Velocity `json:"velocity"` // of the sheet along the bars; zero is water from a pool
	Slope    units.Angle    `json:"slope"`    // of the bars, down the flow, 0 to 45 degrees
	Tilt     units.Angle    `json:"tilt"`     // to one side, 0 to 15 degrees
	Blocked  float64        `json:"blocked"`  // share of the gaps choked with weed and debris
	Cover    float64        `json:"cover"`    // share of the gaps that animals lie on
}

func (in GrateInflow) validate(fn string) error {
	return errors.Join(
		units.Within(fn, "flow", float64(in.Flow), 0, 100, "m3/s"),
		units.Within(fn, "velocity", float64(in.Velocity), 0, 20, "m/s"),
		units.Within(fn, "slope", in.Slope.In(units.Degrees), 0, 45, "°"),
		units.Within(fn, "tilt", in.Tilt.In(units.Degrees), 0, 15, "°"),
		units.Within(fn, "blocked", in.Blocked, 0, 0.95, ""),
		units.Within(fn, "cover", in.Cover, 0, 0.95, ""))
}

// GrateFlow is what a grate does with an inflow.
type GrateFlow struct {
	OpenShare     float64      `json:"openShare"`    // of the grate, with blockage, cover and effectiveness
	LargestDepth  units.Length `json:"largestDepth"` // at the first bar, normal to the bars
	WettedLength  units.Length `json:"wettedLength"` // for all the water, where the sheet is deepest
	RunOff        units.Flow   `json:"runOff"`       // off the end of the grate
	RunOffShare   float64      `json:"runOffShare"`  // of the inflow
	Intercepted   units.Flow   `json:"intercepted"`
	LargestOnRack float64      `json:"largestOnRack"` // m2/s, flow per metre of width where the sheet is deepest

	// Band is the wetted length under both energies of the law, which hold what is
	// known of real racks between them; set by Dewater.
	Band    RackBand       `json:"band"`
	Notices []units.Notice `json:"notices,omitempty"`
}

// Grate is the grate of a dewatering table ready for use.
//
// Method. The grate is a [Rack]; blockage B, animal cover A and effectiveness k
// scale its open area to k m (1 - B)(1 - A), which is common practice and
// unproved. A side tilt φ moves the sheet to the low side: its surface stays
// level across while the depth changes by tan φ per unit width; when the high
// side falls dry the sheet is a wedge, never narrower than half the width. Each
// of 16 strips is a rack of its own with the velocity of the whole.
//
// Source: as [Rack]; the tilt is derived from a level surface across, no source.
//
// Accuracy: a factor of two before calibration; see [CalibrateTable].
type Grate struct{ spec GrateSpec }

// NewGrate validates the description and prepares the grate.
func NewGrate(s GrateSpec) (Grate, error) {
	if err := s.Validate(); err != nil {
		return Grate{}, err
	}
	if s.Effectiveness == 0 {
		s.Effectiveness = 1
	}
	return Grate{s}, nil
}

// Spec returns the description the grate was built from, with its
// effectiveness.
func (g Grate) Spec() GrateSpec { return g.spec }

// Dewater returns what the grate does with an inflow.
//
// Notices: a flow or open area outside the tests behind the laws, the energy-head
// law under a fast sheet, water that runs off the end.
//
// Errors: ErrDomain (zero result) for a grate that was not built or an inflow
// that cannot be. Source: as [Grate].
func (g Grate) Dewater(in GrateInflow) (GrateFlow, error) {
	const fn = "hydraulics.Grate.Dewater"
	if err := errors.Join(g.built(fn), in.validate(fn)); err != nil {
		return GrateFlow{}, err
	}
	out := g.dewater(in)
	r := g.rackOf(in)
	out.Band = r.band(out.LargestOnRack, float64(in.Velocity))
	out.Notices = appendOutside(nil, r.bounds(out.LargestOnRack))
	if r.spec.Law == EnergyHead && r.fast(out.LargestOnRack, float64(in.Velocity)) {
		out.Notices = append(out.Notices, units.Notice{Code: CodeRackLaws, Severity: units.Warning, Field: "law", Value: float64(in.Velocity),
			Unit: "m/s", Source: "derived: the law turns the head of the velocity into head over the gaps",
			Message: "the energy-head law with a sheet faster than critical gives racks several times too short: use the static head"})
	}
	if out.RunOff > 0 {
		out.Notices = append(out.Notices, units.Notice{Code: CodeRackShort, Severity: units.Caution, Field: "length",
			Value: float64(g.spec.Length), Limit: float64(out.WettedLength), Unit: "m",
			Message: "the grate is shorter than the water needs: some runs off with the product", Source: "bottom rack law"})
	}
	return out, nil
}

func (g Grate) built(fn string) error {
	if g.spec.Effectiveness > 0 {
		return nil
	}
	return &units.InputError{Func: fn, Field: "g", Value: 0, Reason: "build the grate with NewGrate"}
}

// rackOf is the grate as a rack with its open area scaled.
func (g *Grate) rackOf(in GrateInflow) Rack {
	r := Rack{spec: g.spec.rack(in.Slope)}
	r.sin, r.cos = math.Sincos(in.Slope.Radians())
	r.cm = r.spec.Coefficient * r.spec.VoidRatio
	if r.spec.Law == Noseda1956 {
		r.cm = nosedaC(1, r.spec.VoidRatio) * r.spec.VoidRatio
	}
	scale := g.spec.Effectiveness * (1 - in.Blocked) * (1 - in.Cover)
	r.cm *= scale
	r.spec.VoidRatio *= scale // only for notices and results from here on
	return r
}

const grateStrips = 16

// dewater is Dewater without checks and notices; it does not allocate.
func (g *Grate) dewater(in GrateInflow) GrateFlow {
	r := g.rackOf(in)
	w, l, v := float64(g.spec.Width), float64(g.spec.Length), float64(in.Velocity)
	mean := float64(in.Flow) / w
	out := GrateFlow{OpenShare: r.spec.VoidRatio, Intercepted: in.Flow}
	if mean == 0 {
		return out
	}
	st := r.start(mean, v)
	speed := r.velocity(mean, st.e)
	depth := mean / speed
	wedge := sheetSpreadOf(depth, w, math.Tan(in.Tilt.Radians()))
	strips := grateStrips
	if in.Tilt == 0 {
		strips = 1
	}
	var off, most float64
	for i := range strips {
		share := wedge.at((float64(i) + 0.5) / float64(strips))
		if share == 0 {
			continue
		}
		off += r.remaining(r.start(mean*share, v), l) * w / float64(strips)
		most = math.Max(most, mean*share)
	}
	top := r.start(most, v)
	out.LargestOnRack = most
	out.LargestDepth = units.Length(most / r.velocity(most, top.e))
	out.WettedLength = units.Length(r.length(top))
	out.RunOff = units.Flow(off)
	out.RunOffShare = off / float64(in.Flow)
	out.Intercepted = in.Flow - out.RunOff
	return out
}

// sheetSpread is how a side tilt shares a sheet over the width: the depth over the
// mean depth at u, 0 the high and 1 the low edge.
type sheetSpread struct{ from, slope, base float64 }

// sheetSpreadOf returns the spread of a sheet of mean depth h over width w under a
// level surface across a floor tilted by t = tan φ.
func sheetSpreadOf(h, w, t float64) sheetSpread {
	if half := w * t / (2 * h); half <= 1 {
		return sheetSpread{0, 2 * half, 1 - half} // a trapezoid
	}
	wet := math.Max(0.5, math.Sqrt(2*h/(w*t))) // share of the width under the wedge
	return sheetSpread{1 - wet, 2 / (wet * wet), 0}
}

func (s sheetSpread) at(u float64) float64 { return math.Max(0, s.base+s.slope*math.Max(0, u-s.from)) }
