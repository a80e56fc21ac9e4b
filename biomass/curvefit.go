package biomass

import "math"

const (
	coarseNodes = 200
	fineNodes   = 400
	// The decline over the whole record lies between these factors of 1/elapsed: a
	// fall too slow to see and one that leaves nothing for the last ticket.
	slowest = 1e-4
	fastest = 200.0
	// Nodes less likely than exp(−cutLog) times the best are left out.
	cutLog = 25.0
	// leastLogSD is the least spread of tickets that is believed when it is found
	// from the tickets.
	leastLogSD = 1e-3
)

// curveFit finds the posterior of a [CatchCurve] over a grid of ln k.
type curveFit struct {
	begin, span, logNet []float64 // s, s and ln kg of each ticket
	delivered           float64   // kg
	lo, hi              float64   // ln k that is searched
	logSD               float64   // of a ticket
	prior, priorVar     float64   // mean and variance of ln B before the tickets
	seenVar             float64   // variance of what all tickets say of ln B, given k
	weight              [coarseNodes]float64
}

func newCurveFit(in CatchCurveInput) *curveFit {
	n := len(in.Tickets)
	all := make([]float64, 3*n)
	f := &curveFit{begin: all[:n], span: all[n : 2*n], logNet: all[2*n:], logSD: in.TicketLogSD,
		prior: math.Log(in.Belief.Median), priorVar: in.Belief.LogSD * in.Belief.LogSD}
	before := 0.0
	for i, t := range in.Tickets {
		now := t.Elapsed.Seconds()
		f.begin[i], f.span[i], f.logNet[i] = before, now-before, math.Log(t.Net.Kilograms())
		f.delivered += t.Net.Kilograms()
		before = now
	}
	f.lo, f.hi = math.Log(slowest/before), math.Log(fastest/before)
	if f.logSD == 0 {
		f.logSD = f.residualSD()
	}
	f.seenVar = f.logSD * f.logSD / float64(n)
	return f
}

// at returns, for one k, the mean over tickets of what each says of ln B and the
// sum of squares about it.
func (f *curveFit) at(k float64) (mean, ss float64) {
	for i, net := range f.logNet {
		// ln B = ln net − ln(exp(−k t₀) − exp(−k t₁)), without cancellation for small k.
		y := net + k*f.begin[i] - math.Log(-math.Expm1(-k*f.span[i]))
		d := y - mean // running mean and sum of squares (Welford)
		mean += d / float64(i+1)
		ss += d * (y - mean)
	}
	return mean, ss
}

// residualSD is the spread of the tickets about the best curve without a belief,
// on n − 2 degrees of freedom, not below leastLogSD.
func (f *curveFit) residualSD() float64 {
	least, at := math.Inf(1), f.lo
	lo, hi := f.lo, f.hi
	for range 6 { // each round narrows the search to two steps of the one before
		step := (hi - lo) / (coarseNodes - 1)
		for i := range coarseNodes {
			x := lo + step*float64(i)
			if _, ss := f.at(math.Exp(x)); ss < least {
				least, at = ss, x
			}
		}
		lo, hi = at-step, at+step
	}
	return math.Max(leastLogSD, math.Sqrt(least/float64(len(f.logNet)-2)))
}

// logWeight is the logarithm of the posterior density of ln k, with the mean that
// the tickets give ln B.
func (f *curveFit) logWeight(k float64) (weight, mean float64) {
	mean, ss := f.at(k)
	d := mean - f.prior
	return -ss/(2*f.logSD*f.logSD) - d*d/(2*(f.seenVar+f.priorVar)), mean
}

// window returns the part of lo to hi, in ln k, that holds the probability.
func (f *curveFit) window(lo, hi float64) (float64, float64) {
	step := (hi - lo) / (coarseNodes - 1)
	best := math.Inf(-1)
	for i := range f.weight {
		f.weight[i], _ = f.logWeight(math.Exp(lo + float64(i)*step))
		best = math.Max(best, f.weight[i])
	}
	first, last := coarseNodes, 0
	for i, w := range f.weight {
		if w > best-cutLog {
			first, last = min(first, i), i
		}
	}
	return lo + step*float64(max(0, first-1)), lo + step*float64(min(coarseNodes-1, last+1))
}

// nodes returns the posterior on an even grid of ln k, and the spread of ln B
// given k. The density is smooth and next to zero at both ends, so that even
// weights integrate it to high order.
func (f *curveFit) nodes(lo, hi float64) ([]curveNode, float64) {
	nodes := make([]curveNode, fineNodes)
	best := math.Inf(-1)
	total := f.seenVar + f.priorVar
	for i := range nodes {
		k := math.Exp(lo + (hi-lo)*float64(i)/(fineNodes-1))
		w, mean := f.logWeight(k)
		best = math.Max(best, w)
		nodes[i] = curveNode{k: k, weight: w, mean: (mean*f.priorVar + f.prior*f.seenVar) / total}
	}
	for i := range nodes {
		nodes[i].weight = math.Exp(nodes[i].weight - best)
	}
	return nodes, math.Sqrt(f.seenVar * f.priorVar / total)
}
