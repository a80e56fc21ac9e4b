package hydraulics

import (
	"errors"
	"fmt"
	"strings"

	"pondwright.example/units"
)

// Loss is the local loss of one fitting: h = K V²/2g with V the speed in the
// bore that the fitting is listed under, where K is a Coefficient plus
// Laminar/Re. Fitting losses of the handbooks are bands: Low and High enclose
// what published data and shop practice give for the same words.
type Loss struct {
	Name        string  `json:"name,omitzero"`
	Coefficient float64 `json:"coefficient"`         // typical value
	Low         float64 `json:"low,omitzero"`        // band; both zero means no band is known
	High        float64 `json:"high,omitzero"`       // band; both zero means no band is known
	Laminar     float64 `json:"laminar,omitzero"`    // K1 of Hooper's two-K method; zero for handbook constants
	Unspecific  bool    `json:"unspecific,omitzero"` // the name leaves the geometry open: the high end is used
	Source      string  `json:"source,omitzero"`
}

// LossEnd says which value of its band a fitting is given. It is [TypicalLoss],
// [LowLoss] or [HighLoss].
type LossEnd uint8

// The choices of LossEnd.
const (
	TypicalLoss LossEnd = iota // typical; the high end where the fitting is unspecific
	LowLoss                    // low end: most flow, for the strength of what it hits
	HighLoss                   // high end: for sizing pumps and drain times
)

// K returns the coefficient at one end of the band, by definition of [LossEnd].
func (l Loss) K(end LossEnd) float64 {
	low, high := l.Low, l.High
	if low == 0 && high == 0 {
		low, high = l.Coefficient, l.Coefficient
	}
	switch {
	case end == LowLoss:
		return low
	case end == HighLoss || l.Unspecific:
		return high
	}
	return l.Coefficient
}

// CustomLoss returns a fitting with a coefficient of the user's own, known
// without a band.
func CustomLoss(name string, k float64) Loss { return Loss{Name: name, Coefficient: k, Source: "user"} }

// Times returns n equal fittings in one.
func (l Loss) Times(n int) Loss {
	m := float64(n)
	l.Name = fmt.Sprintf("%d × %s", n, l.Name)
	l.Coefficient, l.Low, l.High, l.Laminar = m*l.Coefficient, m*l.Low, m*l.High, m*l.Laminar
	return l
}

// OnBore returns the loss restated for the velocity in a pipe of bore to when it
// was given on that in bore from: K changes with the fourth power of the bore.
//
// Source: continuity, by definition of the loss coefficient.
func (l Loss) OnBore(from, to units.Length) (Loss, error) {
	const fn = "hydraulics.Loss.OnBore"
	if err := errors.Join(units.Positive(fn, "from", from.Metres(), "m"), units.Positive(fn, "to", to.Metres(), "m")); err != nil {
		return Loss{}, err
	}
	r := to.Metres() / from.Metres()
	r4 := r * r * r * r
	l.Coefficient, l.Low, l.High = r4*l.Coefficient, r4*l.Low, r4*l.High
	l.Laminar *= r4 * r // K1/Re: Re changes with the inverse of the bore
	return l.checked()
}

// checked returns the loss, or what is wrong with it and no loss.
func (l Loss) checked() (Loss, error) {
	if err := l.Validate(); err != nil {
		return Loss{}, err
	}
	return l, nil
}

// Validate reports coefficients no fitting has: not finite, a band upside down,
// above 1e4, or negative where the fitting is not the run or branch of a
// combining flow (those go down to -1).
func (l Loss) Validate() error {
	const fn = "hydraulics.Loss"
	errs := []error{
		units.Within(fn, "coefficient", l.Coefficient, -1, 1e4, ""),
		units.Within(fn, "laminar", l.Laminar, 0, 1e6, ""),
	}
	if l.Low != 0 || l.High != 0 {
		errs = append(errs, units.Within(fn, "low", l.Low, -1, l.Coefficient, ""), units.Within(fn, "high", l.High, l.Coefficient, 1e4, ""))
	}
	return errors.Join(errs...)
}

// notice tells that the words of the fitting leave its geometry open.
func (l Loss) notice(field string) units.Notice {
	return units.Notice{Code: CodeFittingUnspecified, Severity: units.Caution, Field: field, Value: l.High, Limit: l.Low,
		Message: fmt.Sprintf("%q leaves the geometry open: K lies between %.3g and %.3g, and %.3g is used", l.Name, l.Low, l.High, l.K(TypicalLoss)),
		Source:  l.Source}
}

// key is how names are compared: lower case, single spaces, no hyphens.
func key(s string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("-", " ", "_", " ", ",", " ").Replace(strings.ToLower(s))), " ")
}
