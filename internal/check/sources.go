package check

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Render returns the text of SOURCES.md for the package in dir: for every
// checked symbol the kinds of evidence, the sources and the tolerances of its
// rows, and the symbols that are checked in another way.
func Render(dir string) (string, error) {
	s, err := readSurface(dir)
	if err != nil {
		return "", err
	}
	tabs, err := readTables(dir)
	if err != nil {
		return "", err
	}
	ex, err := readExemptions(dir)
	if err != nil {
		return "", err
	}
	groups := map[string][]evidence{}
	rows := 0
	for _, tab := range tabs {
		for _, e := range tab.entries {
			groups[e.fn] = addEvidence(groups[e.fn], e)
			rows++
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# Sources of package %s\n\n", s.name)
	b.WriteString("Generated from the check tables in testdata by `go run pondwright.example/internal/check/sources`; do not edit.\n")
	b.WriteString("Every row is run by the package's tests. A tolerance without a word is relative; \"published\" rows are held to\n")
	b.WriteString("the digits the source prints, rows of independent code to the accuracy of the method.\n\n")
	fmt.Fprintf(&b, "%d check rows for %d symbols.\n", rows, len(groups))
	for _, fn := range sortedKeys(groups) {
		fmt.Fprintf(&b, "\n## %s\n\n| evidence | rows | tolerance | source | where |\n|---|---|---|---|---|\n", fn)
		list := groups[fn]
		slices.SortStableFunc(list, func(a, c evidence) int {
			return slices.Index(kinds, a.kind) - slices.Index(kinds, c.kind)
		})
		for _, ev := range list {
			fmt.Fprintf(&b, "| %s | %d | %s | %s | %s |\n", ev.kind, ev.rows, strings.Join(ev.tols, "; "), cell(ev.source), cell(strings.Join(ev.locators, "; ")))
		}
	}
	if len(ex.coverage) > 0 {
		b.WriteString("\n## Checked in another way\n\n| symbol | why it has no row |\n|---|---|\n")
		for _, name := range sortedKeys(ex.coverage) {
			fmt.Fprintf(&b, "| %s | %s |\n", cell(name), cell(ex.coverage[name]))
		}
	}
	return b.String(), nil
}

// evidence is the rows of one symbol that share kind and source.
type evidence struct {
	kind, source   string
	locators, tols []string
	rows           int
}

func addEvidence(list []evidence, e entry) []evidence {
	i := slices.IndexFunc(list, func(ev evidence) bool { return ev.kind == e.kind && ev.source == e.source })
	if i < 0 {
		list = append(list, evidence{kind: e.kind, source: e.source})
		i = len(list) - 1
	}
	ev := &list[i]
	ev.rows++
	if e.locator != "" && !slices.Contains(ev.locators, e.locator) {
		ev.locators = append(ev.locators, e.locator)
	}
	if !slices.Contains(ev.tols, e.tol.text) {
		ev.tols = append(ev.tols, e.tol.text)
	}
	return list
}

// cell makes text safe inside a Markdown table.
func cell(s string) string {
	return strings.ReplaceAll(strings.Join(strings.Fields(s), " "), "|", `\|`)
}

// Sources fails t when dir/SOURCES.md is not what Render gives.
func Sources(t TB, dir string) {
	t.Helper()
	want, err := Render(dir)
	if err != nil {
		t.Fatalf("%v", err)
		return
	}
	got, err := os.ReadFile(filepath.Join(dir, "SOURCES.md"))
	if err != nil {
		t.Fatalf("%v: write it with go run pondwright.example/internal/check/sources DIR", err)
		return
	}
	if string(got) != want {
		t.Errorf("SOURCES.md is stale: write it with go run pondwright.example/internal/check/sources DIR")
	}
}
