package drawdown

import (
	"math"
	"slices"
	"time"

	"pondwright.example/units"
)

// Exchange is a pond that runs into a neighbouring one through an outlet until
// their levels meet: water borrowed to flush a basin, or a pond saved next door.
// Nothing else flows.
type Exchange struct {
	From      Storage      `json:"-"`
	To        Storage      `json:"-"`
	FromStage units.Length `json:"fromStage"`
	ToStage   units.Length `json:"toStage"` // above the same datum
	Through   Outlet       `json:"-"`
}

// Exchanged is the answer of an Exchange.
type Exchanged struct {
	Elapsed   time.Duration `json:"elapsed"`
	Moved     units.Volume  `json:"moved"`
	FromStage units.Length  `json:"fromStage"`
	ToStage   units.Length  `json:"toStage"`
}

// Until returns the time for the difference of the levels to fall to head, and
// what has moved by then. With the moved volume W as the variable, the time is
//
//	t = integral dW / Q(h1(V1 - W), h2(V2 + W)),
//
// taken with W = Wend (1 - s^2) so that a discharge that vanishes like the root
// of the head leaves the integrand smooth, by Gauss and Legendre's rule on pieces
// between the corners of both ponds.
//
// Errors: stages outside their ponds, a head above the present one or below
// zero, an outlet that passes nothing before the levels meet (ErrNoSolution).
//
// Source: water balance of the two ponds; for prismatic ponds and an orifice it
// is t = 2 A1 A2 (sqrt H1 - sqrt H2)/((A1 + A2) Cd a sqrt(2g)).
func (e Exchange) Until(head units.Length) (Exchanged, error) {
	const fn = "drawdown.Exchange.Until"
	if e.From == nil || e.To == nil || e.Through == nil {
		return Exchanged{}, &units.InputError{Func: fn, Field: "from", Value: math.NaN(), Reason: "two ponds and an outlet between them are needed"}
	}
	now := float64(e.FromStage - e.ToStage)
	if err := joinErrors([]error{
		units.Within(fn, "fromStage", float64(e.FromStage), float64(e.From.Bottom()), float64(e.From.Top()), "m"),
		units.Within(fn, "toStage", float64(e.ToStage), float64(e.To.Bottom()), float64(e.To.Top()), "m"),
		units.Within(fn, "head", float64(head), 0, math.Max(0, now), "m")}); err != nil {
		return Exchanged{}, err
	}
	v1, v2 := float64(e.From.Volume(e.FromStage)), float64(e.To.Volume(e.ToStage))
	levels := func(w float64) (h1, h2 float64) {
		return float64(e.From.Stage(units.Volume(v1 - w))), float64(e.To.Stage(units.Volume(v2 + w)))
	}
	// The volume moved when the difference is down to head.
	lo, hi := 0.0, v1
	for range 200 {
		w := (lo + hi) / 2
		if h1, h2 := levels(w); h1-h2 > float64(head) {
			lo = w
		} else {
			hi = w
		}
	}
	end := (lo + hi) / 2
	cuts := []float64{0, 1}
	for _, c := range e.From.Corners() {
		cuts = appendCut(cuts, v1-float64(e.From.Volume(c)), end)
	}
	for _, c := range e.To.Corners() {
		cuts = appendCut(cuts, float64(e.To.Volume(c))-v2, end)
	}
	pieces := sortedPieces(cuts)
	sum := 0.0
	for i := 0; i+1 < len(pieces); i++ {
		const sub = 8 // pieces of each smooth stretch
		a, b := pieces[i], pieces[i+1]
		for k := range sub {
			x0, x1 := a+(b-a)*float64(k)/sub, a+(b-a)*float64(k+1)/sub
			for n, x := range gaussX {
				s := (x0+x1)/2 + (x1-x0)/2*x
				h1, h2 := levels(end * (1 - s*s))
				q := float64(e.Through.Discharge(units.Length(h1), units.Length(h2)))
				if !(q > 0) {
					return Exchanged{}, &units.InputError{Func: fn, Field: "head", Value: float64(head), Unit: "m", Kind: units.ErrNoSolution,
						Reason: "the outlet passes nothing before the levels are that near: its sill lies above"}
				}
				sum += gaussW[n] * (x1 - x0) / 2 * 2 * end * s / q
			}
		}
	}
	h1, h2 := levels(end)
	return Exchanged{Elapsed: secondsOf(sum), Moved: units.Volume(end), FromStage: units.Length(h1), ToStage: units.Length(h2)}, nil
}

// appendCut adds the root variable s of a moved volume that lies on the way.
func appendCut(cuts []float64, w, end float64) []float64 {
	if w > 0 && w < end {
		cuts = append(cuts, math.Sqrt(1-w/end))
	}
	return cuts
}

// Nodes and weights of the eight-point rule on -1 to 1. Source: Abramowitz and
// Stegun (1964), table 25.4.
var (
	gaussX = [...]float64{-0.9602898564975362, -0.7966664774136267, -0.525532409916329, -0.18343464249564978, 0.18343464249564978, 0.525532409916329, 0.7966664774136267, 0.9602898564975362}
	gaussW = [...]float64{0.10122853629037669, 0.22238103445337434, 0.31370664587788705, 0.36268378337836177, 0.36268378337836177, 0.31370664587788705, 0.22238103445337434, 0.10122853629037669}
)

// sortedPieces sorts cuts and drops those that coincide.
func sortedPieces(cuts []float64) []float64 {
	slices.Sort(cuts)
	return slices.Compact(cuts)
}
