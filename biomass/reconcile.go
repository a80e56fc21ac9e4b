package biomass

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// KnownLoss is a loss between two scales that is booked on its own line, such as
// animals taken out dead or the weight lost in purging.
type KnownLoss struct {
	Name string     `json:"name"`
	Mass units.Mass `json:"mass"`
	SE   units.Mass `json:"se"`
}

// Reconciliation says why two scales differ.
type Reconciliation struct {
	First  NetWeight `json:"first"`
	Second NetWeight `json:"second"`
	// Expected is First less the known losses.
	Expected units.Mass `json:"expected"`
	// Difference = Second − Expected with its combined standard uncertainty SE;
	// Relative and RelativeSE are fractions of Expected.
	Difference units.Mass `json:"difference"`
	SE         units.Mass `json:"se"`
	Relative   float64    `json:"relative"`
	RelativeSE float64    `json:"relativeSE"`
	// Z is Difference/SE; zero when both are zero.
	Z float64 `json:"z"`
	// Explained tells that Difference is within Coverage standard uncertainties.
	Explained bool    `json:"explained"`
	Coverage  float64 `json:"coverage"`
	// ByWater tells that it is explained with the water deducted and would not be
	// without.
	ByWater bool `json:"byWater"`
	// ImpliedWater is the water fraction on the first scale that would close the
	// difference, and may lie outside 0 to 1.
	ImpliedWater float64 `json:"impliedWater"`
	// Text reads like "-3.1 % ± 2.4 %: not explained".
	Text    string         `json:"text"`
	Notices []units.Notice `json:"notices,omitempty"`
}

// Reconcile compares what left by one scale with what arrived at another.
//
//	D = W₂ − (W₁ − Σ losses),  u² = u₁² + u₂² + Σ u_l²,  z = D/u
//
// The difference counts as explained within coverage standard uncertainties
// (zero means 2, about 95 %); the text gives ± that band.
//
// Errors: ErrDomain for tickets or losses that cannot be, losses of more than the
// first scale shows, or a negative coverage.
//
// Source: JCGM 100:2008 eq. 10 and sec. 6.2 (from memory).
func Reconcile(first, second Scale, losses []KnownLoss, coverage float64) (Reconciliation, error) {
	const fn = "biomass.Reconcile"
	a, errA := first.Total()
	b, errB := second.Total()
	all := []error{units.AtField("first", errA), units.AtField("second", errB), units.NonNegative(fn, "coverage", coverage, "")}
	lost, variance := 0.0, 0.0
	for i, l := range losses {
		all = append(all, units.NonNegative(fn, indexed("losses", i)+".mass", l.Mass.Kilograms(), "kg"),
			units.NonNegative(fn, indexed("losses", i)+".se", l.SE.Kilograms(), "kg"))
		lost += l.Mass.Kilograms()
		variance += l.SE.Kilograms() * l.SE.Kilograms()
	}
	expected := a.Net.Kilograms() - lost
	if errA == nil && !(expected > 0) {
		all = append(all, &units.InputError{Func: fn, Field: "losses", Value: lost, Unit: "kg", Max: a.Net.Kilograms(),
			Reason: "the known losses are not below what the first scale shows"})
	}
	if err := errors.Join(all...); err != nil {
		return Reconciliation{}, err
	}
	if coverage == 0 {
		coverage = 2
	}
	variance += a.SE.Kilograms()*a.SE.Kilograms() + b.SE.Kilograms()*b.SE.Kilograms()
	se, d := math.Sqrt(variance), b.Net.Kilograms()-expected
	r := Reconciliation{First: a, Second: b, Coverage: coverage,
		Expected: units.Kilograms.Of(expected), Difference: units.Kilograms.Of(d), SE: units.Kilograms.Of(se),
		Relative: d / expected, RelativeSE: se / expected,
		Explained: math.Abs(d) <= coverage*se}
	if se > 0 {
		r.Z = d / se
	}
	asWeighed := (a.Net + a.Water).Kilograms() // with the water left in
	r.ImpliedWater = 1 - (b.Net.Kilograms()+lost)/asWeighed
	r.ByWater = r.Explained && a.Water > 0 && math.Abs(d-a.Water.Kilograms()) > coverage*se
	r.describe()
	return r, nil
}

func (r *Reconciliation) describe() {
	verdict := "not explained"
	switch {
	case r.ByWater:
		verdict = "explained by water"
	case r.Explained:
		verdict = "explained"
	}
	r.Text = fmt.Sprintf("%+.1f %% ± %.1f %%: %s", 100*r.Relative, 100*r.Coverage*r.RelativeSE, verdict)
	if !r.Explained {
		r.Notices = append(r.Notices, units.Notice{Code: CodeUnexplained, Severity: units.Warning, Field: "difference",
			Value: r.Difference.Kilograms(), Limit: math.Copysign(r.Coverage*r.SE.Kilograms(), r.Difference.Kilograms()), Unit: "kg",
			Message: fmt.Sprintf("the second scale differs by more than the stated uncertainties; a water fraction of %.1f %% on the first scale would close it", 100*r.ImpliedWater)})
	}
}
