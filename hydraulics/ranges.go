package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Codes of the notices that openings, channels and the dewatering table give.
// They are stable; messages are not.
const (
	CodeWeirHead      = "HYD_WEIR_HEAD"      // head below or above what the weir's source covers
	CodeWeirGeometry  = "HYD_WEIR_GEOMETRY"  // crest, channel or notch outside it
	CodeGateRange     = "HYD_GATE_RANGE"     // gate opening against upstream depth
	CodeRiserSurging  = "HYD_RISER_SURGING"  // two controls of a riser within a tenth of each other
	CodePartFullPipe  = "HYD_PART_FULL_PIPE" // a drain below half full, where no source covers it
	CodeOutfallLine   = "HYD_OUTFALL_LINE"   // a drain's pressure line is optimistic with the pond low
	CodeCulvertRange  = "HYD_CULVERT_RANGE"  // headwater outside the design charts
	CodeSiphonRise    = "HYD_SIPHON_RISE"    // crest higher than the water can be drawn
	CodeSiphonPriming = "HYD_SIPHON_PRIMING" // too slow to carry air out
	CodeBreaksPrime   = "HYD_SIPHON_BREAKS"  // the flow stops at once below this level
	CodeDischargeJump = "HYD_DISCHARGE_JUMP" // a rating is not continuous
	CodeRackRange     = "HYD_RACK_RANGE"     // outside the tests behind a bottom rack law
	CodeRackShort     = "HYD_RACK_SHORT"     // water runs off the end of the rack
	CodeRackLaws      = "HYD_RACK_LAWS"      // the laws of outflow disagree
	CodeChuteRange    = "HYD_CHUTE_RANGE"    // slope or speed outside the aeration tests
	CodeChuteFull     = "HYD_CHUTE_FULL"     // bulked depth above the walls
	CodeHoseFull      = "HYD_HOSE_FULL"      // a gravity hose that cannot take the flow
	CodeTwoDepths     = "HYD_TWO_DEPTHS"     // a closed section carries the flow at two depths
	CodeScour         = "HYD_SCOUR"          // faster than the bed material stands
)

// PublishedRange is the span over which the source of a formula vouches for it,
// as data. An open side is an infinity.
type PublishedRange struct {
	Code     string  `json:"code"`          // of the notice outside it
	Quantity string  `json:"quantity"`      // what is bounded, such as "head over crest"
	Low      float64 `json:"low"`           // in Unit; an open side is left out of JSON
	High     float64 `json:"high"`          // in Unit
	Unit     string  `json:"unit,omitzero"` // empty when dimensionless
	Source   string  `json:"source"`
}

// Check returns a notice when v, in the range's unit, is outside, and whether
// it is.
func (r PublishedRange) Check(v float64) (units.Notice, bool) {
	return units.Outside(r.Code, r.Quantity, v, r.Low, r.High, r.Unit, r.Source)
}

// bounds pairs a range with the value it is asked about.
type bounds struct {
	PublishedRange
	value float64
}

// bound is shorthand for one row of a list of bounds.
func bound(code, quantity string, value, low, high float64, unit, source string) bounds {
	return bounds{PublishedRange{code, quantity, low, high, unit, source}, value}
}

// publishedRanges lists the ranges without the values.
func publishedRanges(list []bounds) []PublishedRange {
	out := make([]PublishedRange, len(list))
	for i, b := range list {
		out[i] = b.PublishedRange
	}
	return out
}

// appendOutside appends a notice for every value outside its range.
func appendOutside(dst []units.Notice, list []bounds) []units.Notice {
	for _, b := range list {
		if n, out := b.Check(b.value); out {
			dst = append(dst, n)
		}
	}
	return dst
}

// rangeError joins an ErrRange for every value outside its range.
func rangeError(fn string, list []bounds) error {
	var errs []error
	for _, b := range list {
		if b.value >= b.Low && b.value <= b.High {
			continue
		}
		errs = append(errs, &units.InputError{Func: fn, Field: b.Quantity, Value: b.value, Unit: b.Unit,
			Min: b.Low, Max: b.High, Reason: b.Source, Kind: units.ErrRange})
	}
	return errors.Join(errs...)
}

// unbounded is the open side of a range.
var unbounded = math.Inf(1)

// backflowError reports a Backflow that was not chosen.
func backflowError(fn string, b Backflow) error {
	if b == BackflowFlap || b == BackflowReverse {
		return nil
	}
	return &units.InputError{Func: fn, Field: "backflow", Value: float64(b),
		Reason: "say what a tailwater above the pond does: BackflowFlap (no flow) or BackflowReverse"}
}

// largestHead keeps heads where every formula stays finite, m.
const largestHead = 1e6
