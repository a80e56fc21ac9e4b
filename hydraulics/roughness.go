package hydraulics

import (
	"errors"
	"math"
	"slices"
	"strings"

	"pondwright.example/units"
)

// WallRoughness is the equivalent sand roughness of one kind of wall in one
// condition. Low and High enclose what sources and ageing give; sizing takes
// High.
type WallRoughness struct {
	Material  string       `json:"material"`
	Condition string       `json:"condition,omitzero"`
	Low       units.Length `json:"low"`
	Typical   units.Length `json:"typical"`
	High      units.Length `json:"high"`
	Source    string       `json:"source,omitzero"`
}

const whiteTable = "White, Fluid Mechanics, table 6.1; Moody 1944"

// wallRoughness is in millimetres: low, typical, high.
var wallRoughness = [...]struct {
	material, condition string
	low, typical, high  float64
	source              string
}{
	{"plastic", "new", 0.0015, 0.0015, 0.015, whiteTable},
	{"plastic", "with joints and slime", 0.015, 0.05, 0.3, tradeSource},
	{"corrugated plastic", "double wall, smooth bore", 0.015, 0.1, 0.3, tradeSource},
	{"steel", "new", 0.03, 0.046, 0.09, whiteTable},
	{"steel", "light rust", 0.15, 0.3, 1, tradeSource},
	{"steel", "heavy rust", 1, 2, 3, whiteTable},
	{"stainless steel", "new", 0.0015, 0.002, 0.045, whiteTable},
	{"galvanised steel", "new", 0.10, 0.15, 0.2, whiteTable},
	{"cast iron", "new", 0.2, 0.26, 0.5, whiteTable},
	{"cast iron", "asphalted", 0.10, 0.12, 0.2, whiteTable},
	{"cast iron", "old", 1, 2, 3, tradeSource},
	{"drawn tubing", "new", 0.0010, 0.0015, 0.003, whiteTable},
	{"aluminium", "new", 0.0015, 0.05, 0.1, tradeSource},
	{"aluminium", "irrigation pipe with couplers", 0.1, 0.15, 0.3, tradeSource},
	{"concrete", "smoothed", 0.04, 0.1, 0.3, whiteTable},
	{"concrete", "rough", 0.3, 1, 2, whiteTable},
	{"wood", "stave", 0.2, 0.5, 0.9, whiteTable},
	{"rubber", "smooth", 0.01, 0.01, 0.05, whiteTable},
	{"hose", "smooth bore", 0.01, 0.03, 0.05, tradeSource},
	{"hose", "lay-flat, lined", 0.01, 0.05, 0.1, tradeSource},
	{"hose", "lay-flat, unlined fabric", 0.2, 0.4, 0.8, tradeSource},
	{"hose", "spiral visible in the bore", 0.5, 0.7, 1, tradeSource},
	{"hose", "corrugated bore", 1, 2, 3, tradeSource},
}

// WallRoughnesses lists the catalogue of wall roughness by material and
// condition. The values are replaceable: a measured drop and
// [Pipe.RoughnessFor] beat them.
//
// Source: typical values of pipe from White, Fluid Mechanics, table 6.1, after
// Moody 1944; bands, hose and aged pipe are common practice.
func WallRoughnesses() []WallRoughness {
	out := make([]WallRoughness, 0, len(wallRoughness))
	for _, w := range wallRoughness {
		out = append(out, WallRoughness{w.material, w.condition, units.Millimetres.Of(w.low), units.Millimetres.Of(w.typical),
			units.Millimetres.Of(w.high), w.source})
	}
	return out
}

// LookupRoughness returns the catalogue's entry for a material and condition;
// an empty condition takes the first of the material, which is new. The error
// is ErrDomain and lists what is known.
func LookupRoughness(material, condition string) (WallRoughness, error) {
	m, c := key(material), key(condition)
	var materials, conditions []string
	for _, w := range WallRoughnesses() {
		if key(w.Material) == m {
			if c == "" || key(w.Condition) == c {
				return w, nil
			}
			conditions = append(conditions, w.Condition)
		}
		if !slices.Contains(materials, w.Material) {
			materials = append(materials, w.Material)
		}
	}
	e := &units.InputError{Func: "hydraulics.LookupRoughness", Field: "material", Value: math.NaN(),
		Reason: "\"" + material + "\" is not in the catalogue: want one of " + strings.Join(materials, ", ")}
	if len(conditions) > 0 {
		e.Field = "condition"
		e.Reason = "\"" + condition + "\" of " + material + " is not in the catalogue: want one of " + strings.Join(conditions, "; ")
	}
	return WallRoughness{}, e
}

// HazenWilliamsFor returns the coefficient C with which the Hazen-Williams
// formula loses as much as the pipe at flow q: C has meaning only beside the
// bore, the flow and the water it was found with.
//
// Source: Hazen-Williams set equal to Darcy-Weisbach with the factor of
// Colebrook 1939.
func HazenWilliamsFor(q units.Flow, p Pipe, f Fluid) (float64, error) {
	const fn = "hydraulics.HazenWilliamsFor"
	p.LossSum = 0
	h, err := p.HeadLoss(q, f)
	err = errors.Join(err, units.Within(fn, "q", q.CubicMetresPerSecond(), 1e-9, 1e3, "m3/s"),
		units.Within(fn, "length", p.Length.Metres(), 1e-6, 1e7, "m"))
	if err != nil {
		return math.NaN(), err
	}
	one := hazenWilliams(q.CubicMetresPerSecond(), p.Bore.Metres(), p.Length.Metres(), 1)
	return math.Pow(one/h.Metres(), 1/hazenExponent), nil
}
