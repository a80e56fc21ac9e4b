package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// RackLaw says what head drives the water through the gaps of a bottom rack. It
// is [StaticHead], [Noseda1956] or [EnergyHead].
type RackLaw uint8

// The laws of [RackSpec], q the flow along the rack per unit width, h its depth
// normal to the bars, θ their slope, E the specific energy, m the void ratio.
const (
	// StaticHead: dq/dx = -C m √(2g h cos θ). For sheets that arrive fast, and for
	// holes. The default, on the side of long racks.
	StaticHead RackLaw = iota
	// Noseda1956: StaticHead with C = 0.66 m^-0.16 (h/l)^-0.13 of [NosedaCoefficient].
	Noseda1956
	// EnergyHead: dq/dx = -C m √(2g E), after Mostkow (1957). For bars along the
	// flow and water that arrives slowly; with a fast sheet it is far too short.
	EnergyHead
)

// RackEnergy says what stays constant along a rack that slopes. It is
// [ConstantTotalHead] or [ConstantSpecificEnergy].
type RackEnergy uint8

// The energies of [RackSpec]. Real racks lie between them.
const (
	// ConstantTotalHead: E grows with the fall of the bars (Frank 1956). Longer.
	ConstantTotalHead RackEnergy = iota
	// ConstantSpecificEnergy: the fall is lost as fast as it comes (De Marchi 1947).
	ConstantSpecificEnergy
)

// RackSpec describes a bottom rack: bars along the flow, or a perforated plate,
// over which a sheet of water runs and through which it falls.
type RackSpec struct {
	Law         RackLaw      `json:"law"`
	Energy      RackEnergy   `json:"energy"`
	VoidRatio   float64      `json:"voidRatio"`            // open area over total, what is blocked taken off; gap over pitch, not over bar
	Coefficient float64      `json:"coefficient,omitzero"` // C of the law, 0.2 to 1.1; unused by Noseda1956
	BarPitch    units.Length `json:"barPitch,omitzero"`    // centre to centre, for Noseda1956 only
	Slope       units.Angle  `json:"slope"`                // of the bars down the flow, 0 to 45 degrees
}

// Usual coefficients of the laws, from memory after Chow (1959) section 12-4,
// who quotes Mostkow's tests: replace them by a measurement of your own.
const (
	ParallelBarsEnergyHead    = 0.497 // bars along the flow, level; 0.435 at a slope of 1 in 5
	PerforatedPlateStaticHead = 0.800 // holes, level; 0.750 at a slope of 1 in 5
)

// Validate reports every field that cannot be used, joined.
func (s RackSpec) Validate() error {
	const fn = "hydraulics.RackSpec"
	errs := []error{
		units.Within(fn, "voidRatio", s.VoidRatio, 1e-6, 0.999, ""),
		units.Within(fn, "slope", s.Slope.In(units.Degrees), 0, 45, "°"),
	}
	if s.Law == Noseda1956 {
		errs = append(errs, bounded(fn, "barPitch", float64(s.BarPitch), 0, 1, "m", "the pitch of the bars; is it in millimetres?"))
	} else {
		errs = append(errs, units.Within(fn, "coefficient", s.Coefficient, 0.2, 1.1, ""))
	}
	if s.Law > EnergyHead {
		errs = append(errs, &units.InputError{Func: fn, Field: "law", Value: float64(s.Law), Reason: "is not one of the laws"})
	}
	if s.Energy > ConstantSpecificEnergy {
		errs = append(errs, &units.InputError{Func: fn, Field: "energy", Value: float64(s.Energy), Reason: "is not one of the energies"})
	}
	return errors.Join(errs...)
}

// Sheet is the water that arrives at the first bar.
type Sheet struct {
	Flow     units.Flow     `json:"flow"`     // zero is a dry rack
	Width    units.Length   `json:"width"`    // over which it is spread
	Velocity units.Velocity `json:"velocity"` // along the bars; zero, or slower than critical, is water from a pool at critical depth
}

func (s Sheet) validate(fn string) error {
	return errors.Join(units.Within(fn, "flow", float64(s.Flow), 0, 100, "m3/s"),
		bounded(fn, "width", float64(s.Width), 0, 100, "m", "a width above zero"),
		units.Within(fn, "velocity", float64(s.Velocity), 0, 20, "m/s"))
}

// RackState is the flow over a rack at one distance from its first bar.
type RackState struct {
	Flow        units.Flow     `json:"flow"`        // still on the bars
	Depth       units.Length   `json:"depth"`       // normal to the bars
	Velocity    units.Velocity `json:"velocity"`    // along the bars
	Intercepted float64        `json:"intercepted"` // share of the flow that has fallen through
}

// Rack is a bottom rack ready for use.
//
// Equations: the laws of [RackLaw] with E = h cos θ + q²/2gh², which is constant
// or grows by x sin θ, on the shooting branch of the energy curve. In closed
// form, with η = h cos θ/E and F(η) = 1.5 √(η(1-η)) - 0.5 acos √η,
//
//	static head, E constant   x = E/(C m cos θ) (F(η0) - F(η))
//	energy head, E constant   q = q0 - C m √(2gE) x
//	energy head, E growing    q = q0 - C m √(2g) (2/(3 sin θ)) ((E0 + x sin θ)^1.5 - E0^1.5)
//
// A level rack under static head with a critical start takes L = 1.18477 E/(C m)
// for all the water, under energy head 0.38490 E/(C m). The other cases are
// integrated over √(√q0 - √q), in which they are smooth from a critical start to
// the end, to 1e-7 of the length.
//
// Validity: the tests behind the laws had q from 0.05 to 0.20 m2/s and void
// ratios from 0.095 to 0.66 (Garcia et al. 2018, Water 10(8):1035). A dewatering
// table works at or below their lower end, where surface tension and animals
// count: take the laws as a band, [RackBand], and calibrate them.
//
// Source: De Marchi (1947), L'Energia Elettrica 24; Noseda (1956), L'Energia
// Elettrica 33; Mostkow (1957), La Houille Blanche 12; Frank (1956), Der
// Bauingenieur 31; as presented in Chow (1959), section 12-4. The coefficients
// are from memory.
type Rack struct {
	spec     RackSpec
	cos, sin float64
	cm       float64 // C m; for Noseda1956 its part that does not depend on h
}

// NewRack validates the description and prepares the rack.
func NewRack(s RackSpec) (Rack, error) {
	if err := s.Validate(); err != nil {
		return Rack{}, err
	}
	r := Rack{spec: s, cm: s.Coefficient * s.VoidRatio}
	r.sin, r.cos = math.Sincos(s.Slope.Radians())
	if s.Law == Noseda1956 {
		r.cm = nosedaC(1, s.VoidRatio) * s.VoidRatio
	}
	return r, nil
}

// Spec returns the description the rack was built from.
func (r Rack) Spec() RackSpec { return r.spec }

// WettedLength returns the length of rack that lets all the water of a sheet
// through.
//
// Errors: ErrDomain (value NaN) for a rack that was not built or a sheet that
// cannot be. Source: as [Rack].
func (r Rack) WettedLength(s Sheet) (units.Length, error) {
	const fn = "hydraulics.Rack.WettedLength"
	if err := errors.Join(r.built(fn), s.validate(fn)); err != nil {
		return units.Length(math.NaN()), err
	}
	return units.Length(r.length(r.start(float64(s.Flow/units.Flow(s.Width)), float64(s.Velocity)))), nil
}

// At returns the flow on the bars at a distance from the first one.
//
// Errors: ErrDomain (values NaN) for a rack that was not built, a sheet that
// cannot be, or a negative distance. Source: as [Rack].
func (r Rack) At(s Sheet, distance units.Length) (RackState, error) {
	const fn = "hydraulics.Rack.At"
	if err := errors.Join(r.built(fn), s.validate(fn), units.NonNegative(fn, "distance", float64(distance), "m")); err != nil {
		nan := math.NaN()
		return RackState{units.Flow(nan), units.Length(nan), units.Velocity(nan), nan}, err
	}
	w := float64(s.Width)
	st := r.start(float64(s.Flow)/w, float64(s.Velocity))
	q := r.remaining(st, float64(distance))
	out := RackState{Flow: units.Flow(q * w), Intercepted: 1}
	if q > 0 {
		v := r.velocity(q, r.energyAt(st, float64(distance)))
		out.Velocity, out.Depth = units.Velocity(v), units.Length(q/v)
		out.Intercepted = 1 - q/st.q
	}
	return out, nil
}

func (r Rack) built(fn string) error {
	if r.cm > 0 {
		return nil
	}
	return &units.InputError{Func: fn, Field: "r", Value: 0, Reason: "build the rack with NewRack"}
}

// rackStart is the sheet at the first bar per unit width: flow and specific
// energy.
type rackStart struct{ q, e float64 }

// start returns the state of a sheet of unit flow q that arrives at velocity v,
// at critical depth when that is slower than critical.
func (r *Rack) start(q, v float64) rackStart {
	h := math.Cbrt(q * q / (gravity * r.cos)) // critical, normal to the bars
	if q <= 0 || v*h <= q {
		return rackStart{q, 1.5 * h * r.cos}
	}
	return rackStart{q, q/v*r.cos + v*v/(2*gravity)}
}

// fast tells whether a sheet of unit flow q arrives faster than critical.
func (r *Rack) fast(q, v float64) bool {
	return q > 0 && v*math.Cbrt(q*q/(gravity*r.cos)) > 1.01*q
}

// energyAt is the specific energy at x.
func (r *Rack) energyAt(s rackStart, x float64) float64 {
	if r.spec.Energy == ConstantTotalHead {
		return s.e + x*r.sin
	}
	return s.e
}

// velocity is q/h on the shooting branch of E = h cos θ + q²/2gh²: with
// H = h cos θ the smaller positive root of H³ - E H² + q² cos²θ/2g = 0, in the
// trigonometric form.
func (r *Rack) velocity(q, e float64) float64 {
	k := q * q * r.cos * r.cos / (2 * gravity)
	c := 1 - 13.5*k/(e*e*e)
	if c < -1 {
		c = -1 // rounding at a critical start
	}
	depth := e / 3 * (1 - 2*math.Cos((math.Pi+math.Acos(c))/3)) // 1 + 2 cos((φ + 4π)/3)
	return math.Sqrt(2 * gravity * math.Max(0, e-depth))
}

// coefficient is C m at depth h.
func (r *Rack) coefficient(h float64) float64 {
	if r.spec.Law != Noseda1956 {
		return r.cm
	}
	return r.cm * nosedaDepth(h/float64(r.spec.BarPitch))
}

// closed tells whether the static law has its closed form.
func (r *Rack) closed() bool {
	return r.spec.Law == StaticHead && (r.spec.Energy == ConstantSpecificEnergy || r.sin == 0)
}

// length is the wetted length for all of the flow.
func (r *Rack) length(s rackStart) float64 {
	if s.q <= 0 {
		return 0
	}
	switch {
	case r.spec.Law == EnergyHead && (r.spec.Energy == ConstantSpecificEnergy || r.sin == 0):
		return s.q / (r.cm * math.Sqrt(2*gravity*s.e))
	case r.spec.Law == EnergyHead:
		root3 := math.Cbrt(s.e*math.Sqrt(s.e) + s.q*1.5*r.sin/(r.cm*math.Sqrt(2*gravity)))
		return (root3*root3 - s.e) / r.sin
	case r.closed():
		return s.e / (r.cm * r.cos) * (rackF(r.eta(s)) + math.Pi/4)
	}
	x, _ := r.march(s, math.Inf(1))
	return x
}

// eta is h cos θ/E at the start.
func (r *Rack) eta(s rackStart) float64 {
	v := r.velocity(s.q, s.e)
	return math.Max(0, math.Min(2.0/3, 1-v*v/(2*gravity*s.e)))
}

// rackF is F(η) of the closed form.
func rackF(eta float64) float64 {
	return 1.5*math.Sqrt(eta*(1-eta)) - 0.5*math.Acos(math.Sqrt(eta))
}

// remaining is the unit flow still on the bars at x.
func (r *Rack) remaining(s rackStart, x float64) float64 {
	if s.q <= 0 || x <= 0 {
		return math.Max(0, s.q)
	}
	switch {
	case r.spec.Law == EnergyHead && (r.spec.Energy == ConstantSpecificEnergy || r.sin == 0):
		return math.Max(0, s.q-r.cm*math.Sqrt(2*gravity*s.e)*x)
	case r.spec.Law == EnergyHead:
		e := s.e + x*r.sin
		return math.Max(0, s.q-r.cm*math.Sqrt(2*gravity)*(e*math.Sqrt(e)-s.e*math.Sqrt(s.e))/(1.5*r.sin))
	case r.closed():
		eta0 := r.eta(s)
		want := rackF(eta0) - x*r.cm*r.cos/s.e
		if want <= -math.Pi/4 {
			return 0
		}
		// F falls with η's square root from zero: solve in √η, where it is smooth.
		u, err := root.Find(func(u float64) float64 { return rackF(u*u) - want }, 0, math.Sqrt(eta0), 1e-14)
		if err != nil {
			return s.q // want = F(η0) up to rounding
		}
		eta := u * u
		return s.e / r.cos * eta * math.Sqrt(2*gravity*s.e*(1-eta))
	}
	_, q := r.march(s, x)
	return q
}

// march integrates dx/dw over w = √(√q0 - √q) from the start to the end of the
// water or the distance stop, by the classical Runge-Kutta method, and returns
// the distance and unit flow reached.
//
//	dx/d√q = -(2/(C m)) √(V/(2g cos θ)),  V = q/h
func (r *Rack) march(s rackStart, stop float64) (x, q float64) {
	const steps = 64
	s0 := math.Sqrt(s.q)
	end := math.Sqrt(s0)
	slope := func(w, x float64) float64 {
		root := math.Max(0, s0-w*w)
		q := root * root
		e := r.energyAt(s, x)
		v := r.velocity(q, e)
		h := 0.0
		if v > 0 {
			h = q / v
		}
		return 2 * w * 2 / r.coefficient(h) * math.Sqrt(v/(2*gravity*r.cos))
	}
	step := func(w, x, dw float64) float64 {
		k1 := slope(w, x)
		k2 := slope(w+dw/2, x+dw/2*k1)
		k3 := slope(w+dw/2, x+dw/2*k2)
		k4 := slope(w+dw, x+dw*k3)
		return x + dw/6*(k1+2*k2+2*k3+k4)
	}
	dw := end / steps
	w := 0.0
	for i := range steps {
		w = end * float64(i) / steps
		next := step(w, x, dw)
		if next >= stop {
			t, err := root.Find(func(t float64) float64 { return step(w, x, t*dw) - stop }, 0, 1, 1e-12)
			if err != nil {
				t = 1
			}
			root := math.Max(0, s0-(w+t*dw)*(w+t*dw))
			return stop, root * root
		}
		x = next
	}
	return x, 0
}

// RackBand is the wetted length by the law of a rack and by its alternatives,
// which bracket what is known.
type RackBand struct {
	Shortest units.Length `json:"shortest"`
	Longest  units.Length `json:"longest"`
}

// Band returns the wetted length of a sheet under both energies of the rack's
// law: constant specific energy and constant total head.
//
// Errors and source: as [Rack.WettedLength].
func (r Rack) Band(s Sheet) (RackBand, error) {
	const fn = "hydraulics.Rack.Band"
	if err := errors.Join(r.built(fn), s.validate(fn)); err != nil {
		nan := units.Length(math.NaN())
		return RackBand{nan, nan}, err
	}
	return r.band(float64(s.Flow/units.Flow(s.Width)), float64(s.Velocity)), nil
}

// band is Band for a unit flow q at velocity v.
func (r Rack) band(q, v float64) RackBand {
	a, b := r, r
	a.spec.Energy, b.spec.Energy = ConstantSpecificEnergy, ConstantTotalHead
	x, y := a.length(a.start(q, v)), b.length(b.start(q, v))
	return RackBand{units.Length(math.Min(x, y)), units.Length(math.Max(x, y))}
}

// bounds are the tests behind the laws.
func (r *Rack) bounds(q float64) []bounds {
	const src = "experiments listed by Garcia et al. 2018, Water 10(8):1035"
	return []bounds{
		bound(CodeRackRange, "flow per metre of rack width", q, 0.05, 0.20, "m2/s", src),
		bound(CodeRackRange, "void ratio", r.spec.VoidRatio, 0.095, 0.66, "", src),
	}
}
