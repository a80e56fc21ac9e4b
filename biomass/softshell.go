package biomass

import (
	"fmt"

	"pondwright.example/units"
)

// Verdict is what a sample says of a limit: [Unknown], [Pass] or [Fail].
type Verdict uint8

// The zero Verdict is Unknown: the interval holds the limit.
const (
	Unknown Verdict = iota
	Pass            // the whole interval is at or below the limit
	Fail            // the whole interval is above the limit
)

var verdictNames = [...]string{"unknown", "pass", "fail"}

// String returns the word for v.
func (v Verdict) String() string { return word("Verdict", verdictNames[:], int(v)) }

// MarshalText writes the word for v.
func (v Verdict) MarshalText() ([]byte, error) {
	return marshalWord("Verdict", verdictNames[:], int(v))
}

// UnmarshalText reads the word for a Verdict.
func (v *Verdict) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Verdict", verdictNames[:], text)
	if err == nil {
		*v = Verdict(i)
	}
	return err
}

// SoftShellInput asks whether the shells are hard enough for the buyer.
type SoftShellInput struct {
	Soft   int `json:"soft"`   // soft or moulting animals in the sample
	Sample int `json:"sample"` // animals examined
	// Limit is the buyer's limit, a fraction from 0 to 1.
	Limit float64 `json:"limit"`
	// Level is the confidence of the interval; zero means 0.95.
	Level  float64        `json:"level"`
	Method BinomialMethod `json:"method"`
}

// SoftShell is the soft-shell fraction with its interval and the verdict.
type SoftShell struct {
	Fraction float64 `json:"fraction"`
	Low      float64 `json:"low"`
	High     float64 `json:"high"`
	Level    float64 `json:"level"`
	Verdict  Verdict `json:"verdict"`
	// Text reads like "5 of 120 = 4.2 % (1.4 to 9.5 %)".
	Text    string         `json:"text"`
	Notices []units.Notice `json:"notices,omitempty"`
}

// shellSample is the number of animals below which a limit of a few per cent
// cannot be judged.
const shellSample = 100

// Judge returns the soft-shell fraction of the sample with its interval, and
// whether the limit is met, missed, or undecided by a sample of this size. A
// sample of fewer than 100 animals raises a notice.
//
// Errors: ErrDomain for counts, a limit or a level that cannot be.
//
// Source: see [BinomialInterval]; the sample of 100 is common practice, no
// source.
func (in SoftShellInput) Judge() (SoftShell, error) {
	const fn = "biomass.SoftShellInput.Judge"
	if err := units.Within(fn, "limit", in.Limit, 0, 1, ""); err != nil {
		return SoftShell{}, err
	}
	low, high, err := BinomialInterval(in.Soft, in.Sample, in.Level, in.Method)
	if err != nil {
		return SoftShell{}, err
	}
	s := SoftShell{Fraction: float64(in.Soft) / float64(in.Sample), Low: low, High: high, Level: in.Level}
	if s.Level == 0 {
		s.Level = 0.95
	}
	switch {
	case high <= in.Limit:
		s.Verdict = Pass
	case low > in.Limit:
		s.Verdict = Fail
	}
	s.Text = fmt.Sprintf("%d of %d = %.1f %% (%.1f to %.1f %%)", in.Soft, in.Sample, 100*s.Fraction, 100*low, 100*high)
	if in.Sample < shellSample {
		s.Notices = append(s.Notices, units.Notice{Code: CodeSmallSample, Severity: units.Caution, Field: "sample",
			Value: float64(in.Sample), Limit: shellSample, Message: "fewer than 100 animals seldom decide a limit of a few per cent"})
	}
	return s, nil
}
