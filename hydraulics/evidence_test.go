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

// SOURCES.md is what the tables render to; internal/check/sources writes it.
func TestSources(t *testing.T) { check.Sources(t, ".") }
