package check

import (
	"os"
	"path/filepath"
	"strings"
)

// Coverage fails t for every exported function or method of the package in dir
// that returns a number and has no row of an outside kind in its tables, unless
// testdata/uncovered.txt lists it with a reason. It also fails for a list entry
// that is no longer needed and for a table that no test file of the package
// names.
func Coverage(t TB, dir string) {
	t.Helper()
	s, ex, ok := readPackage(t, dir)
	if !ok {
		return
	}
	tabs, err := readTables(dir)
	if err != nil {
		t.Fatalf("%v", err)
		return
	}
	have := map[string]bool{}
	for _, tab := range tabs {
		for _, e := range tab.entries {
			if outside(e.kind) {
				have[e.fn] = true
			}
		}
	}
	needed := map[string]bool{}
	for _, sym := range s.symbols {
		if have[sym.name] {
			continue
		}
		if key := exempt(ex.coverage, sym); key != "" {
			needed[key] = true
			continue
		}
		t.Errorf("%s returns a number and has no row of kind %q, %q or %q in testdata; add one or list it in testdata/uncovered.txt with a reason",
			sym.name, Published, IndependentCode, DerivedByHand)
	}
	for _, key := range sortedKeys(ex.coverage) {
		if !needed[key] {
			t.Errorf("testdata/uncovered.txt lists %s, which is not an exported formula without outside rows: remove the line", key)
		}
	}
	unrunTables(t, dir, tabs)
}

// unrunTables fails t for a table whose name no test file mentions.
func unrunTables(t TB, dir string, tabs []table) {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(dir, "*_test.go"))
	if err != nil {
		t.Fatalf("%v", err)
		return
	}
	var tests strings.Builder
	for _, p := range paths {
		b, err := os.ReadFile(p)
		if err != nil {
			t.Fatalf("%v", err)
			return
		}
		tests.Write(b)
	}
	text := tests.String()
	if strings.Contains(text, "testdata/*.csv") {
		return
	}
	for _, tab := range tabs {
		base := filepath.Base(tab.path)
		if !strings.Contains(text, base) && !strings.Contains(text, `"`+strings.TrimSuffix(base, ".csv")+`"`) {
			t.Errorf("testdata/%s is run by no test", base)
		}
	}
}
