package drawdown

import (
	"testing"

	"pondwright.example/internal/check"
)

func TestEveryFormulaHasEvidence(t *testing.T) { check.Coverage(t, ".") }

func TestEveryFormulaIsDocumented(t *testing.T) { check.Docs(t, ".") }

func TestSourcesAreCurrent(t *testing.T) { check.Sources(t, ".") }
