package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// RiserSpec describes an upright pipe, open at the top, that drops pond water
// into an outlet pipe under the bank: a standpipe, a monk's overflow.
type RiserSpec struct {
	Crest    units.Length `json:"crest"`    // level of the rim
	Diameter units.Length `json:"diameter"` // inside, of the riser

	WeirCoefficient    float64 `json:"weirCoefficient"`    // on π D h^1.5, m^½/s: 1.70 to 1.84 (common practice)
	OrificeCoefficient float64 `json:"orificeCoefficient"` // on the riser's area: 0.6 (common practice)

	PipeDiameter units.Length `json:"pipeDiameter"` // inside, of the pipe under the bank
	PipeLength   units.Length `json:"pipeLength"`   // with the riser's own length where it runs full
	ManningN     float64      `json:"manningN"`     // of the pipe, s/m^(1/3)
	LossSum      float64      `json:"lossSum"`      // ΣK on the pipe's velocity head: entrance, bend, exit (1)
	OutletCentre units.Length `json:"outletCentre"` // level of the centreline of the outfall

	Backflow Backflow `json:"backflow"` // required
}

// Validate reports every field that cannot be used, joined.
func (s RiserSpec) Validate() error {
	const fn = "hydraulics.RiserSpec"
	return errors.Join(
		units.Finite(fn, "crest", float64(s.Crest), "m"),
		bounded(fn, "diameter", float64(s.Diameter), 0, 5, "m", "a diameter; is it in millimetres?"),
		units.Within(fn, "weirCoefficient", s.WeirCoefficient, 1, 2.2, "m^½/s"),
		units.Within(fn, "orificeCoefficient", s.OrificeCoefficient, 0.3, 1, ""),
		bounded(fn, "pipeDiameter", float64(s.PipeDiameter), 0, 5, "m", "a diameter; is it in millimetres?"),
		bounded(fn, "pipeLength", float64(s.PipeLength), 0, 1e4, "m", "a length above zero"),
		units.Within(fn, "manningN", s.ManningN, 0.005, 0.05, "s/m^(1/3)"),
		units.Within(fn, "lossSum", s.LossSum, 1, 1e4, ""),
		units.Within(fn, "outletCentre", float64(s.OutletCentre), math.Inf(-1), float64(s.Crest), "m"),
		backflowError(fn, s.Backflow))
}

// Riser is a riser with its pipe ready for use.
//
// Equations, h the pond above the rim; the least governs:
//
//	weir     Cw π D h^1.5, times the VillemonteRatio of a tailwater above the rim
//	orifice  Cd (π D²/4) √(2g h)
//	pipe     A √(2g H/(ΣK + 2g n² L/R^(4/3))), H from the pond to the outfall
//
// In the orifice and the pipe a tailwater above the rim or the outfall's centre
// takes their place. Weir and orifice meet at h = Cd D √(2g)/(4 Cw). The rule
// is continuous, but real risers gulp and surge where two limbs meet:
// [Riser.AppendNotices] says so within a tenth. A trash rack or an inlet to the
// pipe at the foot of the riser is a loss in ΣK.
//
// Source: the rule of the least is common practice in pond design; friction by
// Manning (1891).
//
// Accuracy: 10 to 15 %, worse where the riser surges.
type Riser struct {
	spec   RiserSpec
	crest  float64
	weir   float64 // Cw π D
	mouth  float64 // Cd A √(2g)
	barrel float64 // A √(2g/(ΣK + friction))
}

// NewRiser validates the description and prepares the riser.
func NewRiser(s RiserSpec) (Riser, error) {
	if err := s.Validate(); err != nil {
		return Riser{}, err
	}
	d, p := float64(s.Diameter), float64(s.PipeDiameter)
	friction := 2 * gravity * s.ManningN * s.ManningN * float64(s.PipeLength) / math.Pow(p/4, 4.0/3)
	return Riser{spec: s, crest: float64(s.Crest),
		weir:   s.WeirCoefficient * math.Pi * d,
		mouth:  s.OrificeCoefficient * math.Pi / 4 * d * d * math.Sqrt(2*gravity),
		barrel: math.Pi / 4 * p * p * math.Sqrt(2*gravity/(s.LossSum+friction)),
	}, nil
}

// Spec returns the description the riser was built from.
func (r Riser) Spec() RiserSpec { return r.spec }

// limbs returns the three flows from level hi to level lo < hi.
func (r *Riser) limbs(hi, lo float64) (weir, orifice, pipe float64) {
	h := math.Min(hi-r.crest, largestHead)
	if h <= 0 {
		return 0, 0, 0
	}
	weir = r.weir * h * math.Sqrt(h)
	if lo > r.crest {
		weir *= villemonte((lo-r.crest)/h, RectangularExponent)
	}
	orifice = r.mouth * math.Sqrt(math.Min(hi-math.Max(r.crest, lo), largestHead))
	pipe = r.barrel * math.Sqrt(math.Min(hi-math.Max(float64(r.spec.OutletCentre), lo), largestHead))
	return weir, orifice, pipe
}

// Discharge returns the flow at a pond level and a tailwater.
func (r Riser) Discharge(level, tailwater units.Length) units.Flow {
	h, t := float64(level), float64(tailwater)
	if t >= h {
		if r.spec.Backflow == BackflowFlap {
			return 0
		}
		return units.Flow(0 - r.flow(t, h)) // not -0
	}
	return units.Flow(r.flow(h, t))
}

// flow returns the flow from level hi to level lo < hi.
func (r *Riser) flow(hi, lo float64) float64 {
	w, o, p := r.limbs(hi, lo)
	return math.Min(w, math.Min(o, p))
}

// Control names the limb that governs at the two levels.
func (r Riser) Control(level, tailwater units.Length) Control {
	h, t := float64(level), float64(tailwater)
	switch {
	case math.Max(h, t) <= r.crest || h == t:
		return ControlNone
	case t > h && r.spec.Backflow == BackflowFlap:
		return ControlShut
	case t > h:
		return ControlReversed
	}
	w, o, p := r.limbs(h, t)
	drowned := t > r.crest
	switch {
	case w <= o && w <= p && drowned:
		return ControlDrownedWeir
	case w <= o && w <= p:
		return ControlWeir
	case p <= o:
		return ControlFullPipe
	case drowned:
		return ControlDrownedOrifice
	}
	return ControlOrifice
}

// AppendNotices appends a notice when two limbs are within a tenth of each
// other at the two levels.
func (r Riser) AppendNotices(dst []units.Notice, level, tailwater units.Length) []units.Notice {
	if tailwater >= level || float64(level) <= r.crest {
		return dst
	}
	w, o, p := r.limbs(float64(level), float64(tailwater))
	least, next := math.Min(w, o), math.Max(w, o)
	if p < least {
		least, next = p, least
	} else {
		next = math.Min(next, p)
	}
	if next <= 1.1*least {
		dst = append(dst, units.Notice{Code: CodeRiserSurging, Severity: units.Caution, Field: "level",
			Value: next / least, Limit: 1.1, Message: "two controls of the riser meet here: expect gulping and surging flow",
			Source: "common practice"})
	}
	return dst
}
