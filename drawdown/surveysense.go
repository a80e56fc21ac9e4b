package drawdown

import (
	"fmt"
	"math"
	"slices"

	"pondwright.example/units"
)

// checkSense looks for depths (positive down) and elevations (positive up) in
// one survey, and for a survey whose declared sense turns the pond upside down.
//
// A bed that truly crosses zero has small values on both sides of the crossing.
// A mix has neighbours of opposite sign and nearly the same size: their values
// jump, their magnitudes do not. Both are judged against the usual step between
// neighbours of one sign.
func (s Survey) checkSense(v *surveyVertices, triangles [][3]int32) error {
	down, up := 0, 0
	for _, r := range v.raw {
		if r > signFloor {
			down++
		} else if r < -signFloor {
			up++
		}
	}
	// What the signs look like under either convention.
	const both = "depths are positive down from the water surface, elevations positive up from a datum"
	if s.Sense == DepthDown && down == 0 && up > 0 {
		return &units.InputError{Func: surveyFunc, Field: "sense", Value: float64(up), Unit: "points",
			Reason: "no depth is positive, so these look like elevations read as depths: " + both}
	}
	if !s.MirrorSafe && down > 0 && up > 0 {
		if err := mixedSigns(v.raw, triangles, down, up, both); err != nil {
			return err
		}
	}
	return s.upsideDown(v, triangles, both)
}

// signFloor is the size below which a value has no telling sign.
const signFloor = 0.02

func mixedSigns(raw []float64, triangles [][3]int32, positive, negative int, both string) error {
	const most = 30000
	stride := max(1, len(triangles)/most)
	var usual []float64
	for i := 0; i < len(triangles); i += stride {
		t := triangles[i]
		for k := range 3 {
			a, b := raw[t[k]], raw[t[(k+1)%3]]
			if a > signFloor == (b > signFloor) && a < -signFloor == (b < -signFloor) {
				usual = append(usual, math.Abs(a-b))
			}
		}
	}
	var jump, mirror []float64
	for _, t := range triangles {
		for k := range 3 {
			a, b := raw[t[k]], raw[t[(k+1)%3]]
			if a > signFloor && b < -signFloor || a < -signFloor && b > signFloor {
				jump = append(jump, math.Abs(a-b))
				mirror = append(mirror, math.Abs(math.Abs(a)-math.Abs(b)))
			}
		}
	}
	if len(jump) < 3 {
		return nil
	}
	step := math.Max(0.01, median(usual))
	if !(median(jump) > 6*step && median(mirror) < 3*step) {
		return nil
	}
	return &units.InputError{Func: surveyFunc, Field: "points", Value: float64(min(positive, negative)), Unit: "points",
		Reason: fmt.Sprintf("two sign conventions seem mixed: %d values are positive and %d negative, and neighbours of opposite sign differ by %.3g m but by only %.3g m in size (usual step %.3g m); %s. Bring all to one, or set MirrorSafe if both are real",
			positive, negative, median(jump), median(mirror), step, both)}
}

// upsideDown refuses a bed that stands higher than its own shore.
func (s Survey) upsideDown(v *surveyVertices, triangles [][3]int32, both string) error {
	if len(s.Shore) < 3 {
		return nil
	}
	var inside []float64 // levels of surveyed points, once per triangle they belong to
	for _, t := range triangles {
		for _, c := range t {
			if int(c) < len(s.Points) {
				inside = append(inside, v.z[c])
			}
		}
	}
	if len(inside) == 0 {
		return nil
	}
	first, n := v.group(1)
	shore := median(slices.Clone(v.z[first : first+n]))
	bed, lowest := median(inside), slices.Min(inside)
	if bed > shore && lowest >= shore {
		return &units.InputError{Func: surveyFunc, Field: "sense", Value: bed - shore, Unit: "m",
			Reason: fmt.Sprintf("read as %s the whole bed lies above its shore (half of it by this much), so the other convention seems meant: %s", s.Sense, both)}
	}
	return nil
}

// median returns the median of x, which it reorders; 0 for an empty slice.
func median(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	slices.Sort(x)
	n := len(x)
	return 0.5 * (x[(n-1)/2] + x[n/2])
}
