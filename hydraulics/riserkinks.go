package hydraulics

import (
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// Kinks appends to dst the pond levels above the tailwater at which the slope of
// [Riser.Discharge] jumps while the tailwater stays where it is, always five:
// where flow begins, the outfall's centre (a corner in the tailwater), where the
// weir takes over, where it yields, and where the orifice yields to the pipe.
// One that does not exist under this tailwater is given as its neighbour below,
// and a pair that has met and vanished as where the two limbs come closest, so
// that the list moves steadily with the tailwater. With room in dst nothing is
// allocated.
func (r Riser) Kinks(tailwater units.Length, dst []units.Length) []units.Length {
	if r.weir == 0 {
		return dst
	}
	t := float64(tailwater)
	start := math.Max(r.crest, t)
	var from, to, full float64 // above start
	if t <= r.crest {
		to, full = r.free(r.crest - math.Max(float64(r.spec.OutletCentre), t))
	} else {
		from, to = r.window(math.Min(t-r.crest, largestHead))
		full = to
	}
	return append(dst, units.Length(start), r.spec.OutletCentre, units.Length(start+from), units.Length(start+to), units.Length(start+full))
}

// free returns the heads over the rim at which the weir yields, and at which the
// pipe governs, with the end of the pipe's head drop below the rim.
func (r *Riser) free(drop float64) (weirTo, pipeFrom float64) {
	x := r.mouth / r.weir // weir and orifice meet
	// Weir and pipe: Cw² x³ = B² (x + drop). From above Newton's steps do not pass
	// the root, since the left side less the right is convex there.
	w2, b2 := r.weir*r.weir, r.barrel*r.barrel
	z := r.barrel/r.weir + math.Cbrt(b2*drop/w2)
	for range 60 {
		step := (w2*z*z*z - b2*(z+drop)) / (3*w2*z*z - b2)
		if !(step > 1e-15*z) {
			break
		}
		z -= step
	}
	if z <= x {
		return z, z
	}
	// Orifice and pipe: M² x = B² (x + drop).
	if m2 := r.mouth * r.mouth; m2 > b2 {
		if y := b2 * drop / (m2 - b2); y > x && y < largestHead {
			return x, y
		}
	}
	return x, x
}

// The ratio of a drowned weir to an orifice under the same drop x, for a
// tailwater s above the rim, is Cw s/M times
//
//	φ(r) = (1 - r^1.5)^0.385/(r √(1 - r)),   r = s/(x + s)
//
// which is least, 1.6745, at leastRatioAt.
const leastRatioAt = 0.8876433

// window returns the drops between which the weir governs under a tailwater s
// above the rim: at a smaller drop orifice or pipe does, since the weir then goes
// with the power 0.385 of the drop and they with its root.
func (r *Riser) window(s float64) (from, to float64) {
	want := math.Log(math.Min(r.mouth, r.barrel) / (r.weir * s))
	// u is ln(1 - r), which stays apart from zero where r does not from 1.
	ratio := func(u float64) float64 {
		ln := math.Log(-math.Expm1(u)) // ln r
		return 0.385*math.Log(-math.Expm1(1.5*ln)) - ln - 0.5*u - want
	}
	drop := func(u float64) float64 { return -s * math.Exp(u) / math.Expm1(u) }
	mid := math.Log1p(-leastRatioAt)
	least := ratio(mid)
	if least >= 0 {
		return drop(mid), drop(mid)
	}
	// φ > 1/(2r) over the whole range, and φ > (1 - r)^-0.115.
	lo, hi := -(want+1)/0.115, math.Log1p(-0.5*math.Exp(-want))
	if u, err := root.FindBetween(ratio, lo, mid, ratio(lo), least, 1e-9); err == nil {
		from = drop(u)
	}
	if u, err := root.FindBetween(ratio, mid, hi, least, ratio(hi), 0); err == nil {
		to = drop(u)
	}
	return from, to
}
