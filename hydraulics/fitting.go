package hydraulics

import (
	"errors"
	"math"
	"slices"
	"strings"

	"pondwright.example/units"
)

// Handbook coefficients spread: the same words cover cast, forged, threaded and
// flanged parts. Where a source gives one number the band is this far either way.
const handbookSpread = 0.25 // common practice, no source

const (
	craneSource = "Crane TP-410, A-26 to A-29"
	idelchik    = "Idelchik, Handbook of Hydraulic Resistance (from memory)"
	tradeSource = "common practice, no source"
)

// handbookLoss returns a loss with the usual band around k.
func handbookLoss(name string, k float64, source string) Loss {
	return Loss{Name: name, Coefficient: k, Low: k * (1 - handbookSpread), High: k * (1 + handbookSpread), Source: source}
}

// bandLoss returns a loss with a band of its own.
func bandLoss(name string, low, k, high float64, source string) Loss {
	return Loss{Name: name, Coefficient: k, Low: low, High: high, Source: source}
}

// namedFittings are the fittings that trade words name without a size. The
// coefficients stand on the velocity in the pipe.
var namedFittings = []struct {
	loss  Loss
	words []string // other words for it
}{
	{unspecific(bandLoss("elbow", 0.2, 0.6, 1.5, "smooth long-radius to threaded and mitred: Crane TP-410, Idelchik")),
		[]string{"bend", "ell", "90", "elbow 90", "90 elbow", "90 degree elbow"}},
	{unspecific(bandLoss("45 elbow", 0.1, 0.25, 0.45, craneSource)), []string{"elbow 45", "45", "45 bend", "45 degree elbow"}},
	{unspecific(bandLoss("tee", 0.2, 0.8, 1.8, "run to branch: Crane TP-410")), []string{"t piece", "t"}},
	{unspecific(bandLoss("valve", 0.05, 0.3, 10, "open gate to open globe: Crane TP-410")), []string{"shut off", "shutoff"}},
	{unspecific(bandLoss("check valve", 0.5, 2, 10, "swing to lift: Crane TP-410, Hooper 1981")), []string{"non return valve", "nrv"}},
	{unspecific(bandLoss("foot valve", 0.8, 2, 15, "hinged to small poppet, strainer clean: Crane TP-410; public tables")),
		[]string{"foot valve with strainer"}},
	{unspecific(bandLoss("entrance", 0.04, 0.5, 1, "bellmouth to projecting thin wall: Crane TP-410, Idelchik")), []string{"inlet", "entry"}},
	{unspecific(bandLoss("reducer", 0.05, 0.2, 0.5, "conical to sudden, on the small bore: Crane TP-410")), []string{"contraction"}},
	{unspecific(bandLoss("enlarger", 0.1, 0.5, 1, "conical to sudden, on the small bore: Borda-Carnot")), []string{"expansion", "expander"}},
	{unspecific(bandLoss("strainer", 0.5, 2, 10, tradeSource)), []string{"screen", "basket"}},
	{unspecific(bandLoss("flap valve", 0.2, 0.35, 2, "floating open to hanging heavy: common practice, no source")),
		[]string{"flap", "flap gate"}},
	{bandLoss("exit", 1, 1, 1, "the jet's whole velocity head, by definition"), []string{"outlet", "discharge"}},
	{bandLoss("hose coupling", 0.1, 0.2, 0.3, tradeSource), []string{"coupling", "quick coupling", "hose joint"}},
	{bandLoss("gate valve", 0.1, 0.15, 0.25, craneSource), []string{"sluice valve", "knife gate"}},
	{bandLoss("ball valve", 0.04, 0.06, 0.1, craneSource), nil},
	{bandLoss("butterfly valve", 0.4, 0.7, 1.2, craneSource), nil},
	{bandLoss("globe valve", 4, 6, 10, craneSource), nil},
}

func unspecific(l Loss) Loss {
	l.Unspecific = true
	return l
}

// NamedFitting returns the loss of a fitting known by a trade word alone, such
// as "elbow", with the band of everything those words may mean. A line built
// with it uses the high end, as sizing should, and carries a notice. Give the
// geometry to [Bend], [Entrance], [GateValve] and the others for a closer value.
//
// The error is ErrDomain for a word that is not known, and lists those that are.
func NamedFitting(name string) (Loss, error) {
	k := key(name)
	for _, f := range namedFittings {
		if k == f.loss.Name || slices.Contains(f.words, k) {
			return f.loss, nil
		}
	}
	return Loss{}, &units.InputError{Func: "hydraulics.NamedFitting", Field: "name", Value: math.NaN(),
		Reason: "fitting \"" + name + "\" is not known: want one of " + strings.Join(FittingNames(), ", ")}
}

// FittingNames lists the words that [NamedFitting] knows, without their synonyms.
func FittingNames() []string {
	var out []string
	for _, f := range namedFittings {
		out = append(out, f.loss.Name)
	}
	return out
}

// EntranceKind is the shape of a pipe's mouth. It is [FlushEntrance] or
// [ProjectingEntrance].
type EntranceKind uint8

// The kinds of [Entrance].
const (
	FlushEntrance      EntranceKind = iota // sharp-edged, flush with the wall
	ProjectingEntrance                     // pipe end standing out into the water
)

// Entrance returns the loss of a sharp mouth on the velocity in the pipe: 0.5
// flush with the wall, 0.78 (thick wall) to 1.0 (thin) projecting.
//
// Source: Crane TP-410, A-29; Idelchik diagram 3-1.
func Entrance(kind EntranceKind) (Loss, error) {
	switch kind {
	case FlushEntrance:
		return bandLoss("entrance, flush", 0.4, 0.5, 0.6, craneSource), nil
	case ProjectingEntrance:
		return bandLoss("entrance, projecting", 0.7, 0.78, 1, craneSource), nil
	}
	return Loss{}, units.Within("hydraulics.Entrance", "kind", float64(kind), 0, float64(ProjectingEntrance), "")
}

// roundEntrance is K against r/d of a rounded mouth, Crane TP-410 A-29.
var roundEntrance = [...][2]float64{{0, 0.5}, {0.02, 0.28}, {0.04, 0.24}, {0.06, 0.15}, {0.10, 0.09}, {0.15, 0.04}}

// RoundedEntrance returns the loss of a mouth rounded with radius over bore
// rOverD: typical by Crane's table, linear between its points and constant above
// 0.15; the band reaches to the formula of Rennels & Hudson, which is higher.
//
// Source: Crane TP-410, A-29; Rennels & Hudson 2012, Pipe Flow.
func RoundedEntrance(rOverD float64) (Loss, error) {
	if err := units.Within("hydraulics.RoundedEntrance", "rOverD", rOverD, 0, 10, ""); err != nil {
		return Loss{}, err
	}
	crane, rennels := tableAt(roundEntrance[:], rOverD), 0.03
	if rOverD <= 1 {
		jet := math.Pow(1-0.30*math.Sqrt(rOverD)-0.70*rOverD, 4)
		jet = 1 + 0.622*jet
		rennels = 0.0696*(1-0.569*rOverD)*jet*jet + (jet-1)*(jet-1)
	}
	return bandLoss("entrance, rounded", min(0.75*crane, rennels), crane, max(1.25*crane, rennels), craneSource), nil
}

// Exit returns the loss of a pipe that ends in open water or air: the whole
// velocity head, 1, for any shape of the end; 2 when the flow is laminar.
//
// Source: momentum; by definition of the velocity head.
func Exit() Loss { return bandLoss("exit", 1, 1, 1, "the jet's whole velocity head, by definition") }

// tableAt interpolates linearly in a table of (x, y) sorted by x and holds the
// end values outside.
func tableAt(tab [][2]float64, x float64) float64 {
	for i := 1; i < len(tab); i++ {
		if x <= tab[i][0] {
			a, b := tab[i-1], tab[i]
			return a[1] + (b[1]-a[1])*max(0, x-a[0])/(b[0]-a[0])
		}
	}
	return tab[len(tab)-1][1]
}

// HoseCoupling returns the loss of one hose joint of full bore.
//
// Source: common practice, no source.
func HoseCoupling() Loss { return bandLoss("hose coupling", 0.1, 0.2, 0.3, tradeSource) }

// ValveKv returns the loss of a valve with flow coefficient kv, the flow in m3/h
// of water at a drop of 1 bar, on the velocity in a pipe of the given bore. A
// coefficient Cv in US gal/min at 1 psi is 1.156 kv.
//
// Equation: K = 1.6e9 d^4/kv², d in metres; 2 · 10^5 Pa · 3600² (pi/4)²/1000 = 1.5989e9.
//
// Source: IEC 60534-2-1, definition of the flow coefficient.
func ValveKv(kv float64, bore units.Length) (Loss, error) {
	const fn = "hydraulics.ValveKv"
	if err := errors.Join(units.Positive(fn, "kv", kv, "m3/h"), boreError(fn, "bore", bore)); err != nil {
		return Loss{}, err
	}
	d := bore.Metres()
	k := 1.6e9 * d * d * d * d / (kv * kv)
	if k > 1e4 {
		return Loss{}, &units.InputError{Func: fn, Field: "kv", Value: kv, Unit: "m3/h",
			Reason: "K would be above 1e4 in this bore: litres per minute?"}
	}
	return Loss{Name: "valve by Kv", Coefficient: k, Source: "IEC 60534"}, nil
}
