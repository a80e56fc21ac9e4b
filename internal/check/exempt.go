package check

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// exemptions are the lines of testdata/uncovered.txt:
//
//	# comment
//	Name: reason               no outside row is needed for Name
//	Type.*: reason             nor for any method of Type
//	docs Name: reason          Name needs no source and no example
type exemptions struct {
	coverage, docs map[string]string
}

func readExemptions(dir string) (exemptions, error) {
	ex := exemptions{coverage: map[string]string{}, docs: map[string]string{}}
	path := filepath.Join(dir, "testdata", "uncovered.txt")
	b, err := os.ReadFile(path)
	if os.IsNotExist(err) {
		return ex, nil
	}
	if err != nil {
		return ex, err
	}
	n := 0
	for line := range strings.Lines(string(b)) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		name, reason, ok := strings.Cut(line, ":")
		name, reason = strings.TrimSpace(name), strings.TrimSpace(reason)
		if !ok || reason == "" {
			return ex, fmt.Errorf(`%s:%d: want "Name: reason"`, path, n)
		}
		into := ex.coverage
		if rest, ok := strings.CutPrefix(name, "docs "); ok {
			into, name = ex.docs, strings.TrimSpace(rest)
		}
		if _, twice := into[name]; twice {
			return ex, fmt.Errorf("%s:%d: %s is listed twice", path, n, name)
		}
		into[name] = reason
	}
	return ex, nil
}

// exempt returns the key of list that covers the symbol, or "".
func exempt(list map[string]string, s symbol) string {
	if _, ok := list[s.name]; ok {
		return s.name
	}
	if key := s.receiver + ".*"; s.receiver != "" {
		if _, ok := list[key]; ok {
			return key
		}
	}
	return ""
}

// readPackage reads what the package in dir exports and what it exempts; when
// that fails it fails t and ok is false.
func readPackage(t TB, dir string) (s surface, ex exemptions, ok bool) {
	t.Helper()
	s, err := readSurface(dir)
	if err == nil {
		ex, err = readExemptions(dir)
	}
	if err != nil {
		t.Fatalf("%v", err)
	}
	return s, ex, err == nil
}
