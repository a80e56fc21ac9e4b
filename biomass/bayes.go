package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Update returns what is believed of a quantity after an independent
// measurement: the precisions of the logarithms add. The order of several
// updates does not matter; the same evidence must not be used twice.
//
//	1/s² = 1/s₀² + 1/s₁²,  ln m = s² (ln m₀/s₀² + ln m₁/s₁²)
//
// Both LogSD must be above zero; a LogSD of zero is certainty, and the exact one
// is returned unchanged (l when both are).
//
// Source: conjugate normal update: Gelman et al. (2013), Bayesian Data Analysis,
// sec. 2.5 (from memory), on the logarithm.
func (l Lognormal) Update(evidence Lognormal) Lognormal {
	if l.LogSD == 0 {
		return l
	}
	if evidence.LogSD == 0 {
		return evidence
	}
	w0, w1 := 1/(l.LogSD*l.LogSD), 1/(evidence.LogSD*evidence.LogSD)
	// Weighted difference, so that equal medians stay equal to the last bit.
	shift := w1 / (w0 + w1) * math.Log(evidence.Median/l.Median)
	return Lognormal{Median: held(l.Median * math.Exp(shift)), LogSD: 1 / math.Sqrt(w0+w1)}
}

// QuantileAbove returns the quantile p of the quantity given that it is at least
// floor, such as a crop given what has been delivered.
//
//	F⁻¹(F(floor) + p (1 − F(floor)))
//
// It is not below floor and finite for every finite input.
//
// Source: truncated distribution in closed form.
func (l Lognormal) QuantileAbove(floor, p float64) float64 {
	if !(floor > 0) {
		return l.Quantile(p)
	}
	if l.LogSD == 0 {
		return math.Max(floor, l.Median)
	}
	// Upper tails keep their relative accuracy where 1 − F would lose it.
	z := math.Log(floor/l.Median) / l.LogSD
	tail := normalCDF(-z) * (1 - p)
	if !(tail > 0) {
		return floor
	}
	return math.Max(floor, held(l.Median*math.Exp(-l.LogSD*normalQuantile(tail))))
}

// TicketShare is one weigh ticket with the part of the crop that was expected
// out since the ticket before.
type TicketShare struct {
	Net units.Mass `json:"net"`
	// Share is that part, above 0 and at most 1, from the planned run-out. The
	// shares of all tickets sum to at most one.
	Share float64 `json:"share"`
	// LogSD is how far a ticket strays from its share, as the standard deviation
	// of a logarithm; 0.1 is about 10 %.
	LogSD float64 `json:"logSD"`
}

// Progress is the crop as seen in the middle of a harvest.
type Progress struct {
	Delivered units.Mass `json:"delivered"`
	// TotalP10, P50 and P90 are of the whole crop, not below Delivered.
	TotalP10 units.Mass `json:"totalP10"`
	TotalP50 units.Mass `json:"totalP50"`
	TotalP90 units.Mass `json:"totalP90"`
	// Remaining = Total − Delivered, at the same percentiles.
	RemainingP10 units.Mass `json:"remainingP10"`
	RemainingP50 units.Mass `json:"remainingP50"`
	RemainingP90 units.Mass `json:"remainingP90"`
	// Belief is the distribution of the whole crop in kilograms before it is cut
	// off at Delivered.
	Belief Lognormal `json:"belief"`
	// Agreement is the probability of tickets as far from the belief before them
	// as these, or farther.
	Agreement float64        `json:"agreement"`
	Notices   []units.Notice `json:"notices,omitempty"`
}

// UpdateCrop returns the crop after weigh tickets, each of which shows the crop
// as Net/Share.
//
// Each ticket stands for what came since the one before: running totals are not
// independent of each other and must not be entered. commonLogSD is the error
// that all the shares have in common, such as a run-out planned too early; it
// does not average out over tickets and may be zero.
//
//	ln Bⱼ = ln(netⱼ/Fⱼ);  mean weighted by 1/sⱼ², variance 1/Σ(1/sⱼ²) + s_c²
//
// Errors: ErrDomain for a belief without a median or spread, no tickets, a net
// weight, share or spread not above zero, or shares that sum to more than one.
//
// Source: see [Lognormal.Update].
func UpdateCrop(belief Lognormal, tickets []TicketShare, commonLogSD float64) (Progress, error) {
	const fn = "biomass.UpdateCrop"
	all := []error{
		units.Positive(fn, "belief.median", belief.Median, "kg"),
		units.Positive(fn, "belief.logSD", belief.LogSD, ""),
		units.NonNegative(fn, "commonLogSD", commonLogSD, ""),
	}
	if len(tickets) == 0 {
		all = append(all, &units.InputError{Func: fn, Field: "tickets", Value: 0, Reason: "at least one is needed"})
	}
	out, delivered := 0.0, 0.0
	for i, t := range tickets {
		at := indexed("tickets", i)
		all = append(all, units.Positive(fn, at+".net", t.Net.Kilograms(), "kg"), fraction(fn, at+".share", t.Share),
			units.Positive(fn, at+".logSD", t.LogSD, ""))
		out += t.Share
		delivered += t.Net.Kilograms()
	}
	if !(out <= 1+1e-9) {
		all = append(all, &units.InputError{Func: fn, Field: "tickets", Value: out, Max: 1,
			Reason: "the shares sum to more than one: each is what came since the ticket before, not the running total"})
	}
	if err := errors.Join(all...); err != nil {
		return Progress{}, err
	}
	weight, sum := 0.0, 0.0
	for _, t := range tickets {
		w := 1 / (t.LogSD * t.LogSD)
		weight += w
		sum += w * math.Log(t.Net.Kilograms()/t.Share)
	}
	seen := Lognormal{Median: math.Exp(sum / weight), LogSD: math.Sqrt(1/weight + commonLogSD*commonLogSD)}
	p := Progress{Delivered: units.Kilograms.Of(delivered), Belief: belief.Update(seen)}
	gap := math.Log(seen.Median/belief.Median) / math.Hypot(seen.LogSD, belief.LogSD)
	p.Agreement = 2 * normalCDF(-math.Abs(gap))
	p.percentiles()
	if err := soundAll(fn, p.Delivered.Kilograms(), p.Belief.Median, p.Belief.LogSD, p.Agreement, p.TotalP90.Kilograms(), p.RemainingP90.Kilograms()); err != nil {
		return Progress{}, err
	}
	if p.Agreement < disagreement {
		p.Notices = append(p.Notices, units.Notice{Code: CodeDisagreement, Severity: units.Caution, Field: "tickets",
			Value: p.Agreement, Limit: disagreement,
			Message: "the tickets lie farther from the estimate before harvest than both errors explain: check tares, drain time and the planned run-out"})
	}
	return p, nil
}

// percentiles fills the totals and remainders from the belief.
func (p *Progress) percentiles() {
	d := p.Delivered.Kilograms()
	for _, q := range []struct {
		p           float64
		total, left *units.Mass
	}{{0.1, &p.TotalP10, &p.RemainingP10}, {0.5, &p.TotalP50, &p.RemainingP50}, {0.9, &p.TotalP90, &p.RemainingP90}} {
		t := p.Belief.QuantileAbove(d, q.p)
		*q.total, *q.left = units.Kilograms.Of(t), units.Kilograms.Of(t-d)
	}
}
