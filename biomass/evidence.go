package biomass

// Evidence says how much a sample can tell: [Replicated], [Single] or
// [NothingCaught].
type Evidence uint8

// From a sample that shows its own spread to one that shows nothing.
const (
	// Replicated: two or more observations; mean and interval are known.
	Replicated Evidence = iota
	// Single: one observation; a value without an interval.
	Single
	// NothingCaught: all observations are zero; only an upper bound is known.
	NothingCaught
)

var evidenceNames = [...]string{"replicated", "single observation", "nothing caught"}

// String returns the word for e.
func (e Evidence) String() string { return word("Evidence", evidenceNames[:], int(e)) }

// MarshalText writes the word for e.
func (e Evidence) MarshalText() ([]byte, error) {
	return marshalWord("Evidence", evidenceNames[:], int(e))
}

// UnmarshalText reads the word for an Evidence.
func (e *Evidence) UnmarshalText(text []byte) error {
	i, err := unmarshalWord("Evidence", evidenceNames[:], text)
	if err == nil {
		*e = Evidence(i)
	}
	return err
}
