package units

import (
	"math"
	"strings"
)

// suffixes are words after a unit that say the basis, and the annotation each
// stands for.
var suffixes = [...]struct{ words, annotation string }{
	{"(g)", "{gauge}"}, {"(gauge)", "{gauge}"}, {" gauge", "{gauge}"}, {" gage", "{gauge}"},
	{"(a)", "{absolute}"}, {"(abs)", "{absolute}"}, {" absolute", "{absolute}"}, {" abs", "{absolute}"},
	{" as CaCO3", "{CaCO3}"}, {" CaCO3", "{CaCO3}"},
	{" of tank", "{tank}"}, {" tank", "{tank}"}, {" water", "{water}"},
	{" grade", "{grade}"}, {" by mass", "{mass}"},
}

// annotate replaces a suffix by its annotation.
func annotate(unit string) string {
	for _, s := range suffixes {
		if head, ok := strings.CutSuffix(unit, s.words); ok && !strings.HasSuffix(head, " of") {
			return strings.TrimRight(head, " ") + s.annotation
		}
	}
	return unit
}

// unitFactor returns the size of unit in the type's own SI unit, or an error
// about text.
func (q *quantityRecord) unitFactor(text, unit string) (scale, error) {
	for i := range q.units {
		if q.units[i].symbol == unit {
			return scale{num: q.units[i].factor, den: 1}, nil
		}
	}
	unit = annotate(strings.TrimSuffix(unit, ".")) // in., lb.
	f, p := parseUnit(unit)
	if p.why != "" {
		return f, q.explain(text, unit, p)
	}
	f, basis := q.convention(f, p.basis)
	if f.dim != q.dim {
		return f, q.mismatch(text, unit, f.dim, basis)
	}
	if basis != q.basis {
		if basis == "" {
			return f, q.missingBasis(text, unit)
		}
		return f, q.mismatch(text, unit, f.dim, basis)
	}
	// Another spelling of a listed unit has exactly its size.
	size := f.of(1)
	for i := range q.units {
		if u := q.units[i].factor; math.Abs(size-u) <= 1e-14*u {
			return scale{num: u, den: 1}, nil
		}
	}
	return f, nil
}

// convention turns what the unit says into the dimension and size of the type
// where a convention stands between them.
func (q *quantityRecord) convention(f scale, basis string) (scale, string) {
	switch {
	case basis == "caco3" && f.dim == massPerVolumeDim:
		f.dim, basis = chargePerVolumeDim, ""
		f.num *= float64(MilligramPerLitreCaCO3) / float64(MilligramPerLitre)
	case basis == "mass" && f.dim == dimension{}:
		f.dim, basis = massFractionDim, ""
	case basis == "difference" && q == &pressureRecord,
		basis == "grade" && q == &slopeRecord,
		basis == "practical" && f.dim == salinityDim,
		basis == "count":
		basis = ""
	case basis == "" && q == &massFractionRecord && f.dim == dimension{}:
		f.dim = massFractionDim // a percent or ppm of a mass fraction is by mass
	}
	switch q {
	case &displacementRecord: // a revolution is its unit of angle
		f.num *= 2 * pi
	case &absoluteSalinityRecord: // it is held in g/kg
		f.exp10 += 3
	}
	return f, basis
}

// kind names what a dimension and basis measure, with the base unit, such as
// "a mass (kg)".
func kind(d dimension, basis string) string {
	if d == (dimension{}) && basis == "" {
		return "a plain ratio"
	}
	for _, q := range quantityRecords {
		if q.dim == d && q.basis == basis {
			return article(q.words) + " (" + q.units[0].symbol + ")"
		}
	}
	if d == timeDim {
		return "a time (s)"
	}
	s := "of dimension " + d.String()
	if basis != "" {
		s += " {" + basis + "}"
	}
	return s
}

func article(words string) string {
	if strings.ContainsAny(words[:1], "aeiou") {
		return "an " + words
	}
	return "a " + words
}

// mismatch says which quantity the unit belongs to and which is wanted.
func (q *quantityRecord) mismatch(text, unit string, d dimension, basis string) error {
	wanted := article(q.words) + " (" + q.units[0].symbol + ")"
	switch {
	case q == &alkalinityRecord && d == massPerVolumeDim:
		return q.fail(text, "says no basis for "+wanted, unit+"{CaCO3}", "meq/L")
	case d == dimension{} && strings.Contains(unit, "ppm"):
		return q.fail(text, "is a ratio without a basis, not "+wanted, q.symbols()...)
	}
	return q.fail(text, "is "+kind(d, basis)+", not "+wanted)
}

// missingBasis lists the bases a text of this dimension can have.
func (q *quantityRecord) missingBasis(text, unit string) error {
	return q.fail(text, "does not say on which basis it is "+article(q.words), q.withBasis(unit)...)
}

// withBasis returns unit with each basis its dimension can have, the type's own
// first.
func (q *quantityRecord) withBasis(unit string) []string {
	all := []string{unit + "{" + q.basis + "}"}
	for _, other := range quantityRecords {
		if other != q && other.dim == q.dim && other.basis != "" {
			all = append(all, unit+"{"+other.basis+"} for "+article(other.words))
		}
	}
	return all
}

// explain turns a fault in a unit expression into an error: choices for an
// ambiguous name, a near miss for an unknown one.
func (q *quantityRecord) explain(text, unit string, p *unitParser) error {
	switch {
	case p.words != nil:
		var fit, all []string
		var mismatch error
		for _, w := range p.words {
			alt := unit[:p.from] + w + unit[p.at:]
			all = append(all, alt)
			f, r := parseUnit(alt)
			if r.why != "" {
				continue
			}
			f, basis := q.convention(f, r.basis)
			switch {
			case f.dim != q.dim:
				mismatch = q.mismatch(text, alt, f.dim, basis)
			case basis == q.basis:
				fit = append(fit, alt)
			case basis == "":
				fit = append(fit, q.withBasis(alt)...)
			}
		}
		switch {
		case fit == nil && mismatch != nil:
			return mismatch
		case fit == nil:
			fit = all
		}
		return q.fail(text, p.why, fit...)
	case strings.HasPrefix(p.why, unknownUnit):
		if near := q.nearest(unit, p); near != "" {
			return q.fail(text, p.why, near)
		}
		return q.fail(text, p.why, q.symbols()...)
	}
	return q.fail(text, p.why)
}

// nearest returns the listed unit or the atom closest to what was written, or
// "" when nothing is close.
func (q *quantityRecord) nearest(unit string, p *unitParser) string {
	best, at := "", nearLimit(unit)
	for _, s := range q.symbols() {
		if d := distance(unit, s, at); d < at {
			best, at = s, d
		}
	}
	if best != "" {
		return best
	}
	word := unit[p.from:]
	word = word[:wordEnd(word)]
	at = nearLimit(word)
	for i := range atoms {
		for s := range strings.SplitSeq(atoms[i].names, ",") {
			d := distance(word, s, at)
			if d >= at {
				continue
			}
			alt := unit[:p.from] + s + unit[p.from+len(word):]
			if f, r := parseUnit(alt); r.why == "" {
				if f, _ := q.convention(f, r.basis); f.dim == q.dim {
					best, at = alt, d
				}
			}
		}
	}
	return best
}

// nearLimit returns how many edits are too many to guess from: only a change of
// case for one or two letters.
func nearLimit(s string) int {
	switch {
	case len(s) <= 2:
		return 1
	case len(s) <= 4:
		return 2
	}
	return 3
}

// distance is the number of edits from a to b, zero when only the case
// differs; it stops counting at limit.
func distance(a, b string, limit int) int {
	a, b = strings.ToLower(a), strings.ToLower(b)
	if len(a)-len(b) >= limit || len(b)-len(a) >= limit {
		return limit
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
