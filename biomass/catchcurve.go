package biomass

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// CatchTicket is one weigh ticket of a running harvest.
type CatchTicket struct {
	// Elapsed is the pumping time since the first animal, at the end of the
	// ticket. Stops are left out: it is time in which animals were taken.
	Elapsed time.Duration `json:"elapsed"`
	// Net is what came since the ticket before.
	Net units.Mass `json:"net"`
}

// CatchCurveInput is a harvest so far.
type CatchCurveInput struct {
	// Belief is the crop in kilograms as estimated before the harvest, such as
	// [Estimate.Lognormal]. It is needed: while the catch hardly falls, the tickets
	// alone do not bound the crop.
	Belief Lognormal `json:"belief"`
	// Tickets in order of time, at least two.
	Tickets []CatchTicket `json:"tickets"`
	// TicketLogSD is how far a ticket strays from the curve, as the standard
	// deviation of a logarithm (0.1 is about 10 %). Zero means: estimated from the
	// residuals, which needs at least four tickets.
	TicketLogSD float64 `json:"ticketLogSD"`
}

// CatchCurve is a harvest that falls off as what is left: a constant fraction of
// the remaining animals per time, k, with the crop B.
//
//	net of ticket j = B (exp(−k tⱼ₋₁) − exp(−k tⱼ)) · e,  ln e normal
//
// Given k the logarithm of B is normal; k is integrated over a grid, flat on its
// logarithm. The distribution of B is cut off below what has been delivered.
// Build one with [FitCatchCurve]; its methods allocate nothing and may be called
// from several goroutines. It has no JSON: store the [CatchCurveInput].
//
// Source: the depletion law in continuous effort of DeLury (1947), "On the
// estimation of biological populations", Biometrics 3:145-167; conjugate normal
// update and grid integration: Gelman et al. (2013), Bayesian Data Analysis, ch. 3
// (from memory).
type CatchCurve struct {
	delivered float64 // kg
	logSD     float64 // of a ticket
	spread    float64 // posterior SD of ln B, the same for every k
	nodes     []curveNode
	norm      float64 // Σ weight · P(B > delivered | k)
}

// curveNode is one value of k with its posterior weight and the mean of ln B.
type curveNode struct {
	k, mean, weight float64 // 1/s, ln kg, unnormalised
	below           float64 // P(B ≤ delivered | k)
}

// FitCatchCurve returns the curve of a running harvest.
//
// Errors: ErrDomain, all of them at once, for a belief without a median or
// spread, fewer than two tickets (four when TicketLogSD is zero), times that do
// not rise, a net weight not above zero; ErrNoSolution when no decline fits, such
// as tickets that rise without end.
//
// Source: see [CatchCurve].
func FitCatchCurve(in CatchCurveInput) (CatchCurve, error) {
	if err := in.Validate(); err != nil {
		return CatchCurve{}, err
	}
	f := newCurveFit(in)
	c := CatchCurve{delivered: f.delivered, logSD: f.logSD}
	lo, hi := f.lo, f.hi
	for range 3 { // coarse grids close in on where the probability is
		lo, hi = f.window(lo, hi)
	}
	c.nodes, c.spread = f.nodes(lo, hi)
	gone := math.Log(c.delivered)
	for i := range c.nodes {
		p := &c.nodes[i]
		p.below = normalCDF((gone - p.mean) / c.spread)
		c.norm += p.weight * (1 - p.below)
	}
	if !(c.norm > 0) {
		return CatchCurve{}, &units.InputError{Func: "biomass.FitCatchCurve", Field: "tickets", Value: c.delivered, Unit: "kg", Kind: units.ErrNoSolution,
			Reason: "more has been delivered than the belief and the curve allow: widen the belief"}
	}
	return c, nil
}

// Validate reports every field that cannot be.
func (in CatchCurveInput) Validate() error {
	const fn = "biomass.CatchCurveInput"
	all := []error{
		units.Positive(fn, "belief.median", in.Belief.Median, "kg"),
		units.Positive(fn, "belief.logSD", in.Belief.LogSD, ""),
		units.NonNegative(fn, "ticketLogSD", in.TicketLogSD, ""),
	}
	need := 2
	if in.TicketLogSD == 0 {
		need = 4
	}
	if len(in.Tickets) < need {
		all = append(all, &units.InputError{Func: fn, Field: "tickets", Value: float64(len(in.Tickets)), Min: float64(need), Max: math.Inf(1),
			Reason: "two tickets are needed, four when ticketLogSD is to be found from them"})
	}
	before := time.Duration(0)
	for i, t := range in.Tickets {
		at := indexed("tickets", i)
		if t.Elapsed <= before {
			all = append(all, &units.InputError{Func: fn, Field: at + ".elapsed", Value: t.Elapsed.Minutes(), Unit: "min", Min: before.Minutes(), Max: math.Inf(1),
				Reason: "must be later than the ticket before; it is pumping time since the first animal"})
		}
		before = t.Elapsed
		all = append(all, units.Positive(fn, at+".net", t.Net.Kilograms(), "kg"))
	}
	return errors.Join(all...)
}

// Delivered returns what has been delivered so far.
//
// Source: sum of the tickets, by definition.
func (c CatchCurve) Delivered() units.Mass { return units.Kilograms.Of(c.delivered) }

// TicketLogSD returns the spread of a ticket about the curve, as given or as
// found from the residuals.
//
// Source: see [CatchCurve].
func (c CatchCurve) TicketLogSD() float64 { return c.logSD }

// ProbabilityRemaining returns the probability that at most m is left.
//
// Source: see [CatchCurve].
func (c CatchCurve) ProbabilityRemaining(m units.Mass) float64 {
	return c.probability(m.Kilograms(), 0)
}

// probability that what is left now is at most m·exp(k·later), that is, that at
// most m is left after so many seconds more.
func (c CatchCurve) probability(m, later float64) float64 {
	if !(m > 0) || len(c.nodes) == 0 {
		return 0
	}
	sum := 0.0
	for i := range c.nodes {
		p := &c.nodes[i]
		most := c.delivered + m*math.Exp(math.Min(600, p.k*later))
		sum += p.weight * math.Max(0, normalCDF((math.Log(most)-p.mean)/c.spread)-p.below)
	}
	return math.Min(1, sum/c.norm)
}

// Remaining returns the mass left below which a fraction p of the distribution
// lies, 0 < p < 1.
//
// Errors: ErrDomain for a p outside.
//
// Source: see [CatchCurve].
func (c CatchCurve) Remaining(p float64) (units.Mass, error) {
	const fn = "biomass.CatchCurve.Remaining"
	if err := c.checkP(fn, p); err != nil {
		return units.Mass(math.NaN()), err
	}
	// Search the logarithm: what is left may be grams or tonnes.
	lo, hi := math.Log(c.delivered)-30, math.Log(c.delivered)+1
	for c.probability(math.Exp(hi), 0) < p && hi < 300 {
		hi += 2
	}
	if c.probability(math.Exp(lo), 0) >= p {
		return units.Kilograms.Of(math.Exp(lo)), nil // next to nothing
	}
	x, err := root.Find(func(x float64) float64 { return c.probability(math.Exp(x), 0) - p }, lo, hi, 1e-12)
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	return units.Kilograms.Of(math.Exp(x)), nil
}

// Total returns the whole crop below which a fraction p of the distribution lies,
// Delivered plus [CatchCurve.Remaining].
//
// Errors: ErrDomain for a p outside 0 to 1.
func (c CatchCurve) Total(p float64) (units.Mass, error) {
	m, err := c.Remaining(p)
	return m + c.Delivered(), err
}

// TimeTo returns the further pumping time after which, with probability p, at
// most m is left; zero when that holds already. Pumping goes on as before.
//
// Errors: ErrDomain for a p outside 0 to 1 or a mass not above zero; ErrRange,
// beside a time of 1000 h, when it takes longer than that.
//
// Source: see [CatchCurve].
func (c CatchCurve) TimeTo(m units.Mass, p float64) (time.Duration, error) {
	const fn = "biomass.CatchCurve.TimeTo"
	if err := errors.Join(c.checkP(fn, p), units.Positive(fn, "m", m.Kilograms(), "kg")); err != nil {
		return 0, err
	}
	const most = 1000 * time.Hour
	f := func(s float64) float64 { return c.probability(m.Kilograms(), s) - p }
	if f(0) >= 0 {
		return 0, nil
	}
	if f(most.Seconds()) < 0 {
		return most, &units.InputError{Func: fn, Field: "m", Value: m.Kilograms(), Unit: "kg", Kind: units.ErrRange,
			Reason: "the catch falls so little that this takes more than 1000 h of pumping"}
	}
	s, err := root.Find(f, 0, most.Seconds(), 1e-3)
	if err != nil {
		return 0, err
	}
	return time.Duration(s * float64(time.Second)), nil
}

func (c CatchCurve) checkP(fn string, p float64) error {
	if len(c.nodes) == 0 {
		return &units.InputError{Func: fn, Field: "curve", Value: 0, Reason: "was not built by FitCatchCurve"}
	}
	if !(p > 0 && p < 1) {
		return &units.InputError{Func: fn, Field: "p", Value: p, Reason: "a probability above 0 and below 1"}
	}
	return nil
}

// Decline returns the median of k, the fraction of the remaining animals taken
// per time.
//
// Source: see [CatchCurve].
func (c CatchCurve) Decline() units.Rate {
	sum := 0.0
	for i := range c.nodes {
		p := &c.nodes[i]
		w := p.weight * (1 - p.below) / c.norm
		if i > 0 && sum+w >= 0.5 { // linear in ln k between the centres of the cells
			f := (0.5 - sum) / w
			step := math.Log(p.k / c.nodes[i-1].k)
			return units.TimesPerSecond.Of(p.k * math.Exp((f-0.5)*step))
		}
		sum += w
	}
	return 0
}
