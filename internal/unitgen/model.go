package main

import (
	"errors"
	"fmt"
	"go/constant"
	"slices"
	"strings"
	"unicode"
)

// The model is what the templates see.
type model struct {
	Types   []typeModel
	Sources []sourceModel
}

type typeModel struct {
	Name, Desc, Doc, Words, Reader, Basis, Metric, Other, Prefix string
	Lower, Dim                                                   string
	Base                                                         unitModel
	Units                                                        []unitModel
}

type unitModel struct {
	Name, Plural, Symbol, Words string
	Factor, Comment             string
	Value                       string // factor in decimal digits
	Exact                       bool
	Source                      string
}

type sourceModel struct{ Short, Full string }

// build turns the table into the model and refuses a table with a hole in it.
func build(dir string) (*model, error) {
	names, err := exactNames(dir)
	if err != nil {
		return nil, err
	}
	m := &model{}
	seen := map[string]string{}
	used := map[string]bool{}
	var faults []error
	claim := func(name, by string) {
		if old, ok := seen[name]; ok {
			faults = append(faults, fmt.Errorf("%s is declared by %s and by %s", name, old, by))
		}
		seen[name] = by
	}
	for _, q := range table {
		dim, err := dimension(q.dim)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", q.name, err))
		}
		t := typeModel{Name: q.name, Desc: q.desc, Doc: q.doc, Words: q.words, Reader: q.reader, Basis: q.basis,
			Metric: q.metric, Other: q.other, Prefix: q.prefix, Lower: lowerFirst(q.name), Dim: dim}
		if t.Desc == "" {
			t.Desc = q.name + "Unit"
		}
		claim(q.name, q.name)
		claim(t.Desc, q.name)
		for i, u := range q.units {
			um := unitModel{Name: u.name, Plural: plural(u), Symbol: u.symbol, Factor: u.factor,
				Exact: !strings.Contains(u.factor, "pi")}
			um.Words = words(um.Plural)
			claim(u.name, q.name)
			claim(um.Plural, q.name)
			src, ok := sources[u.source]
			if !ok {
				faults = append(faults, fmt.Errorf("%s: source %q is not listed", u.name, u.source))
			}
			used[u.source] = true
			um.Source = src.short
			v, err := names.eval(u.factor)
			if err != nil {
				faults = append(faults, fmt.Errorf("%s: %w", u.name, err))
				continue
			}
			if i == 0 && !constant.Compare(v, eql, constant.MakeInt64(1)) {
				faults = append(faults, fmt.Errorf("%s: the first unit must have factor 1", u.name))
			}
			um.Value = decimal(v)
			um.Comment = comment(u, um)
			t.Units = append(t.Units, um)
		}
		t.Base = t.Units[0]
		if t.Reader == "" {
			t.Reader = t.Base.Plural
		}
		for _, d := range []string{q.metric, q.other} {
			if !slices.ContainsFunc(t.Units, func(u unitModel) bool { return u.Plural == d }) {
				faults = append(faults, fmt.Errorf("%s: %q is not one of its descriptors", q.name, d))
			}
		}
		m.Types = append(m.Types, t)
	}
	shorts := map[string]string{}
	for key, src := range sources {
		if old, ok := shorts[src.short]; ok {
			faults = append(faults, fmt.Errorf("sources %q and %q share the label %q", old, key, src.short))
		}
		shorts[src.short] = key
		if !used[key] {
			faults = append(faults, fmt.Errorf("source %q is not used", key))
		}
	}
	for _, q := range table {
		for _, u := range q.units {
			if used[u.source] {
				used[u.source] = false
				m.Sources = append(m.Sources, sourceModel{sources[u.source].short, sources[u.source].full})
			}
		}
	}
	return m, errors.Join(faults...)
}

// comment is what stands beside the constant: symbol, definition, source.
func comment(u unit, m unitModel) string {
	var b strings.Builder
	b.WriteString(u.symbol)
	if u.note != "" {
		b.WriteString(", " + u.note)
	}
	if !m.Exact {
		b.WriteString(", rounded")
	}
	if u.source != "si" {
		b.WriteString("; " + m.Source)
	}
	return b.String()
}

// words spells a descriptor: USGallonsPerMinute is "US gallons per minute".
func words(name string) string {
	var b strings.Builder
	runes := []rune(name)
	for i, r := range runes {
		up := unicode.IsUpper(r)
		next := i+1 < len(runes) && unicode.IsLower(runes[i+1])
		prev := i > 0 && unicode.IsLower(runes[i-1])
		if up && i > 0 && (prev || next) {
			b.WriteByte(' ')
		}
		if up && next {
			r = unicode.ToLower(r)
		}
		b.WriteRune(r)
	}
	w := b.String()
	for _, kind := range []string{" diffusivity", " salinity"} {
		w = strings.TrimSuffix(w, kind) // there to tell the Go name apart
	}
	for _, basis := range []string{" tank", " water"} {
		if head, ok := strings.CutSuffix(w, basis); ok && !strings.HasSuffix(head, " of") {
			w = head + " of" + basis
		}
	}
	return strings.NewReplacer("fahrenheit", "Fahrenheit", "celsius", "Celsius", "btu", "Btu", "ca CO3", "as CaCO3",
		"hertzes", "hertz", "rises", "rise").Replace(w)
}

func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }
