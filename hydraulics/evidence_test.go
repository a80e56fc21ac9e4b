package hydraulics

import (
	"testing"

	"pondwright.example/internal/check"
)

// Every exported formula has outside evidence, a source and an example.
func TestEvidence(t *testing.T) {
	check.Coverage(t, ".")
	check.Docs(t, ".")
}
