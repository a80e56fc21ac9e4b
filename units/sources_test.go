package units

import (
	"testing"

	"pondwright.example/internal/check"
)

// TestEvidence holds every exported method that returns a number to a check row
// of an outside kind, and SOURCES.md to the tables.
func TestEvidence(t *testing.T) {
	check.Coverage(t, ".")
	check.Sources(t, ".")
}
