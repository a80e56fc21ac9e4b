package hydraulics

import (
	"errors"
	"math"
	"slices"

	"pondwright.example/units"
)

// Line is something that water is driven through: a [Pipeline], or lines in
// series or in parallel. Head rises with flow, so that each answers for the
// other. Only this package implements it.
type Line interface {
	Head(q units.Flow) units.Length // head that drives q
	Flow(h units.Length) units.Flow // flow that h drives

	lineLoss(q float64) (h, slope float64)
}

var (
	_ Line = Pipeline{}
	_ Line = SeriesLine{}
	_ Line = ParallelLine{}
)

// SeriesLine is lines one behind the other: one flow, heads added.
type SeriesLine struct{ parts []Line }

// Series puts lines one behind the other. ErrDomain without any line or with a
// nil one.
func Series(lines ...Line) (SeriesLine, error) {
	if err := lineErrors("hydraulics.Series", lines); err != nil {
		return SeriesLine{}, err
	}
	return SeriesLine{slices.Clone(lines)}, nil
}

func lineErrors(fn string, lines []Line) error {
	if len(lines) == 0 {
		return &units.InputError{Func: fn, Field: "lines", Value: 0, Min: 1, Max: math.Inf(1), Reason: "number of lines"}
	}
	var errs []error
	for i, l := range lines {
		if l == nil {
			errs = append(errs, &units.InputError{Func: fn, Field: "lines", Value: float64(i), Reason: "the line with this index is nil"})
		}
	}
	return errors.Join(errs...)
}

// Head returns the sum of the heads of the parts at flow q.
//
// Source: energy equation; losses as in [Pipeline.Head].
func (s SeriesLine) Head(q units.Flow) units.Length {
	h, _ := s.lineLoss(float64(q))
	return units.Length(h)
}

// Flow returns the flow that head h drives through the parts, the inverse of
// [SeriesLine.Head].
func (s SeriesLine) Flow(h units.Length) units.Flow { return units.Flow(flowOfLine(s, float64(h))) }

func (s SeriesLine) lineLoss(q float64) (h, slope float64) {
	for _, l := range s.parts {
		dh, ds := l.lineLoss(q)
		h += dh
		slope += ds
	}
	return finite(h), min(slope, math.MaxFloat64)
}

// ParallelLine is lines side by side between the same two places: one head,
// flows added.
type ParallelLine struct{ parts []Line }

// Parallel puts lines side by side. ErrDomain without any line or with a nil
// one.
func Parallel(lines ...Line) (ParallelLine, error) {
	if err := lineErrors("hydraulics.Parallel", lines); err != nil {
		return ParallelLine{}, err
	}
	return ParallelLine{slices.Clone(lines)}, nil
}

// Flow returns the sum of the flows that head h drives through the parts.
//
// Source: continuity; losses as in [Pipeline.Head].
func (p ParallelLine) Flow(h units.Length) units.Flow {
	sum := 0.0
	for _, l := range p.parts {
		sum += float64(l.Flow(h))
	}
	return units.Flow(finite(sum))
}

// Split appends to dst the flow of each part at head h, in the order given to
// [Parallel], and returns it.
func (p ParallelLine) Split(h units.Length, dst []units.Flow) []units.Flow {
	for _, l := range p.parts {
		dst = append(dst, l.Flow(h))
	}
	return dst
}

// Head returns the head at which the parts together pass flow q, the inverse of
// [ParallelLine.Flow].
func (p ParallelLine) Head(q units.Flow) units.Length {
	h, _ := p.lineLoss(float64(q))
	return units.Length(h)
}

// lineLoss looks for the head between the least and the greatest that one part
// alone would need for q.
func (p ParallelLine) lineLoss(q float64) (h, slope float64) {
	if len(p.parts) == 0 {
		return 0, 0
	}
	if math.IsNaN(q) {
		return q, q
	}
	// With the whole q any part needs at least the common head if q > 0; with
	// its own share it needs exactly that. Heads at zero flow bound the other side.
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, l := range p.parts {
		a, _ := l.lineLoss(0)
		b, _ := l.lineLoss(q)
		lo, hi = min(lo, a, b), max(hi, a, b)
	}
	h = lo + (hi-lo)/2
	if q != 0 { // equal parts share q: a good start
		h, _ = p.parts[0].lineLoss(q / float64(len(p.parts)))
		h = max(lo, min(hi, h))
	}
	miss := math.Inf(1) // of the flow a step ago
	for range 200 {
		sum, conductance := 0.0, 0.0
		for _, l := range p.parts {
			x := float64(l.Flow(units.Length(h)))
			_, s := l.lineLoss(x)
			sum += x
			conductance += 1 / max(s, math.SmallestNonzeroFloat64)
		}
		slope = 1 / conductance
		if sum == q {
			break
		}
		if sum > q {
			hi = h
		} else {
			lo = h
		}
		next := h + (q-sum)*slope
		if math.Abs(next-h) <= 4e-15*max(math.Abs(h), math.Abs(next)) { // the noise of the flows
			h = next
			break
		}
		// Where the flow of a part turns round, Newton's steps swing from side to
		// side: halve the bracket whenever a step has not halved the miss.
		if !(next > lo && next < hi) || math.Abs(sum-q) > miss/2 {
			next = lo + (hi-lo)/2
		}
		miss = math.Abs(sum - q)
		h = next
	}
	return finite(h), min(slope, math.MaxFloat64)
}

// flowOfLine returns the flow at which the line needs head h.
func flowOfLine[L Line](l L, h float64) float64 {
	still, _ := l.lineLoss(0)
	net := h - still
	if net == 0 || math.IsNaN(net) {
		return net
	}
	sign := math.Copysign(1, net)
	loss := func(q float64) (float64, float64) {
		v, s := l.lineLoss(sign * q)
		return math.Abs(v - still), s
	}
	// h ≈ a q² around one litre a second finds the decade.
	one, _ := loss(1e-3)
	if one == 0 {
		return sign * math.MaxFloat64
	}
	return sign * invert(loss, math.Abs(net), min(1e-3*math.Sqrt(math.Abs(net)/one), maxSolverFlow))
}
