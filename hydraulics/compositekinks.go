package hydraulics

import (
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// kinked is a structure that tells where its discharge is not smooth; every one
// of the package does.
type kinked interface {
	Kinks(tailwater units.Length, dst []units.Length) []units.Length
}

// Kinks appends the kinks of every part, as many under every tailwater. A part
// of the caller's own that tells none is taken to be smooth.
func (s StructuresInParallel) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	for _, p := range s.parts {
		if k, ok := p.(kinked); ok {
			dst = k.Kinks(tailwater, dst)
		}
	}
	return dst
}

// Kinks appends the pond levels at which the slope of the discharge jumps while
// the tailwater stays, as many under every tailwater: those that bring the water
// between to a kink of the second structure or to one of the first, and those at
// which the first has a kink under the water between. They are found by root
// finding up to 15 m above the lowest; nothing is allocated with room in dst for
// them and for the kinks of the first once more. A structure of the caller's own that tells none is taken
// to be smooth.
func (s StructuresInSeries) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	if s.first == nil {
		return dst
	}
	begin := len(dst)
	if k, ok := s.second.(kinked); ok {
		dst = k.Kinks(tailwater, dst)
	}
	low := math.Inf(1) // no water is between below it
	for _, z := range dst[begin:] {
		low = math.Min(low, float64(z))
	}
	if low > 1e9 {
		low = float64(tailwater)
	}
	low = math.Max(low, float64(tailwater))
	first, ok := s.first.(kinked)
	if ok {
		dst = first.Kinks(tailwater, dst)
	}
	for i := begin; i < len(dst); i++ {
		dst[i] = s.bringing(dst[i], tailwater)
	}
	if !ok {
		return dst
	}
	// The kinks of the first twice more: each moves with the water between, and
	// the pond may pass it upwards and downwards.
	end := len(dst)
	dst = first.Kinks(tailwater, dst)
	n := len(dst) - end
	dst = first.Kinks(tailwater, dst)
	for i := range n {
		at := func(z float64) units.Length { return first.Kinks(units.Length(z), dst)[len(dst)+i] }
		dst[end+i], dst[end+n+i] = s.meeting(at, tailwater, low)
	}
	return dst
}

// bringing returns the pond level that brings the water between to z, and z
// itself where nothing flows on from there.
func (s StructuresInSeries) bringing(z, tailwater units.Length) units.Length {
	q := float64(s.second.Discharge(z, tailwater))
	if z <= tailwater || q <= 0 {
		return z
	}
	lack := func(over float64) float64 { return float64(s.first.Discharge(z+units.Length(over), z)) - q }
	over, ok := above(lack, -q)
	if !ok {
		return z
	}
	return z + units.Length(over)
}

// meeting returns the pond levels that are a kink of the first structure, at(z),
// with the water between where those levels bring it: the highest at which the
// pond passes the kink upwards, and downwards.
func (s StructuresInSeries) meeting(at func(z float64) units.Length, tailwater units.Length, low float64) (up, down units.Length) {
	spare := func(z float64) float64 { // what the second passes more than the first
		y := units.Length(z)
		return float64(s.second.Discharge(y, tailwater) - s.first.Discharge(max(y, at(z)), y))
	}
	var found [2]float64
	found[0], found[1] = low, low
	a, fa := low, spare(low)
	for _, x := range meetingSearch {
		b := low + x
		fb := spare(b)
		if fa*fb < 0 {
			if z, err := root.FindBetween(spare, a, b, fa, fb, 1e-9); err == nil {
				if fa < 0 {
					found[0] = z
				} else {
					found[1] = z
				}
			}
		}
		a, fa = b, fb
	}
	return at(found[0]), at(found[1])
}

// meetingSearch are the heights above the lowest water between at which a meeting
// is looked for, m.
var meetingSearch = [...]float64{0.001, 0.003, 0.01, 0.02, 0.04, 0.07, 0.1, 0.14, 0.18, 0.22, 0.27, 0.33, 0.4, 0.5, 0.6, 0.75, 0.9, 1.1, 1.4, 1.8, 2.4, 3.2, 5, 8, 15}

// above returns where f, which is f0 < 0 at zero, first turns positive, looked
// for up to some 50 m.
func above(f func(x float64) float64, f0 float64) (float64, bool) {
	a, fa := 0.0, f0
	for b := 0.1; b < 60; b *= 2 {
		fb := f(b)
		if fb >= 0 {
			x, err := root.FindBetween(f, a, b, fa, fb, 1e-9)
			return x, err == nil && !math.IsNaN(x)
		}
		a, fa = b, fb
	}
	return 0, false
}
