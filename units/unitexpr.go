package units

import (
	"math"
	"strings"
)

// A unit expression is what UCUM and the trade write: atoms with prefixes and
// powers, joined by a point, a space, a stroke or "per", with brackets and
// annotations: kg/m3{tank}, [gal_us]/min, W/(m2·K), kg.m-3, count per lb.
type unitParser struct {
	s     string
	at    int
	basis string // the annotation met
	why   string // what is wrong, when something is
	words []string
	from  int // where the ambiguous word stands
}

// scale is the size of a unit in coherent SI: num/den times a power of ten,
// kept apart so that decimal prefixes cost no digit.
type scale struct {
	num, den float64
	exp10    int
	dim      dimension
}

// of returns v units.
func (f scale) of(v float64) float64 {
	v *= f.num
	if f.den != 1 {
		v /= f.den
	}
	switch {
	case f.exp10 > 0:
		v *= math.Pow10(f.exp10)
	case f.exp10 < 0:
		v /= math.Pow10(-f.exp10)
	}
	return v
}

// times returns f multiplied by g to the power n.
func (f scale) times(g scale, n int) scale {
	if n < 0 {
		n = -n
		g = scale{g.den, g.num, -g.exp10, g.dim.inverse()}
	}
	for range n {
		f.num *= g.num
		f.den *= g.den
		f.exp10 += g.exp10
		f.dim = f.dim.times(g.dim)
	}
	return f
}

// unknownUnit starts the reason for a name that is not in the table.
const unknownUnit = "has an unknown unit "

// maxPower is the largest power an atom or bracket may carry.
const maxPower = 4

// parseUnit reads a whole unit expression.
func parseUnit(s string) (scale, *unitParser) {
	p := &unitParser{s: s}
	f := p.product(0)
	if p.why == "" && p.at < len(p.s) {
		p.why = "has " + quoteShort(p.s[p.at:]) + " where a unit should go on"
	}
	return f, p
}

// product reads factors joined by multiplication and division.
func (p *unitParser) product(depth int) scale {
	f := scale{num: 1, den: 1}
	if depth > 4 {
		p.why = "has too many brackets"
		return f
	}
	sign, divided := 1, false
	for n := 0; p.why == ""; n++ {
		spaces := p.skipSpaces()
		if p.at == len(p.s) || p.s[p.at] == ')' {
			if n == 0 || sign < 0 {
				p.why = "ends where a unit should follow"
			}
			return f
		}
		joined := n == 0 || spaces
		switch {
		case p.take("/"), p.takeWord("per"):
			sign, divided, joined = -1, true, true
			p.skipSpaces()
		case n > 0 && (p.take(".") || p.take("·") || p.take("*") || p.take("-")):
			joined, spaces = true, true
			p.skipSpaces()
		}
		if !joined {
			p.why = "has " + quoteShort(p.s[p.at:]) + " where a unit should go on"
			return f
		}
		if n > 40 {
			p.why = "has too many factors"
			return f
		}
		if p.annotation() {
			continue
		}
		if sign > 0 && divided {
			p.why = "multiplies after a stroke: write brackets, as in W/(m2·K), or a second stroke"
			return f
		}
		g := p.factor(depth)
		f = p.bounded(f.times(g, sign))
		sign = 1
	}
	return f
}

// factor reads one atom, number one, annotation or bracket with its power.
func (p *unitParser) factor(depth int) scale {
	one := scale{num: 1, den: 1}
	if p.annotation() || p.why != "" {
		return one
	}
	power := 1
	switch {
	case p.takeWord("cubic"), p.takeWord("cu"):
		power = 3
	case p.takeWord("square"), p.takeWord("sq"):
		power = 2
	}
	p.skipSpaces()
	var f scale
	switch {
	case p.take("("):
		f = p.product(depth + 1)
		if p.why == "" && !p.take(")") {
			p.why = "lacks a closing bracket"
		}
	case p.take("1"):
		f = one
	default:
		f = p.atom()
	}
	if p.why != "" {
		return one
	}
	power *= p.power()
	if power > maxPower || power < -maxPower {
		p.why = "has a power above 4"
		return one
	}
	p.annotation()
	return p.bounded(one.times(f, power))
}

// bounded refuses a dimension that has grown past any quantity, long before it
// could overflow.
func (p *unitParser) bounded(f scale) scale {
	for _, n := range f.dim {
		if n > 3*maxPower || n < -3*maxPower {
			p.why = "has a dimension above 12"
		}
	}
	if f.exp10 > 300 || f.exp10 < -300 {
		p.why = "has prefixes beyond a float64"
	}
	return f
}

// annotation reads {tank} and its kin.
func (p *unitParser) annotation() bool {
	if !p.take("{") {
		return false
	}
	end := strings.IndexByte(p.s[p.at:], '}')
	if end < 0 {
		p.why = "lacks a closing brace"
		return false
	}
	word := strings.ToLower(p.s[p.at : p.at+end])
	p.at += end + 1
	switch word {
	case "count", "animals", "fish", "shrimp":
		return true
	case "gage":
		word = "gauge"
	case "abs":
		word = "absolute"
	case "diff":
		word = "difference"
	}
	if !knownBasis(word) {
		p.why = "has an annotation {" + word + "} that is none of " + strings.Join(bases, ", ")
		return false
	}
	p.setBasis(word)
	return true
}

func (p *unitParser) setBasis(word string) {
	if p.basis != "" && p.basis != word {
		p.why = "says both " + p.basis + " and " + word
	}
	p.basis = word
}

var bases = []string{"tank", "water", "gauge", "absolute", "difference", "caco3", "practical", "mass", "grade", "apparent", "count"}

func knownBasis(s string) bool {
	for _, b := range bases {
		if s == b {
			return true
		}
	}
	return false
}

// power reads 2, -1, ^3 after an atom; 1 when there is none.
func (p *unitParser) power() int {
	i := p.at
	caret := i < len(p.s) && p.s[i] == '^'
	if caret {
		i++
	}
	neg := false
	if i < len(p.s) && (p.s[i] == '-' || p.s[i] == '+') {
		neg = p.s[i] == '-'
		i++
	}
	end := digitsEnd(p.s, i)
	if end == i {
		if caret {
			p.why = "has a ^ without a power"
		}
		return 1
	}
	n := 0
	for ; i < end; i++ {
		if n = 10*n + int(p.s[i]-'0'); n > maxPower {
			break
		}
	}
	p.at = end
	if neg {
		n = -n
	}
	return n
}

// atom reads one unit name, the longest that the table knows.
func (p *unitParser) atom() scale {
	rest := p.s[p.at:]
	word := rest[:wordEnd(rest)]
	if word == "" {
		p.why = "has " + quoteShort(rest) + " where a unit should stand"
		if rest == "" {
			p.why = "ends where a unit should follow"
		}
		return scale{num: 1, den: 1}
	}
	// Names of two or three words first: US gal, fl oz, ton of refrigeration.
	for end, n := len(word), 0; n < 3; n++ {
		more := end
		for more < len(rest) && rest[more] == ' ' {
			more++
		}
		next := wordEnd(rest[more:])
		if next == 0 || more == end {
			break
		}
		end = more + next
		name := strings.Join(strings.Fields(rest[:end]), " ")
		if a, ok := findAtom(name); ok {
			p.at += end
			return p.use(a, 0)
		}
		if choices := ambiguous(name); choices != nil {
			p.from = p.at
			p.at += end
			p.words = choices
			p.why = "has " + quoteShort(name) + ", which is ambiguous"
			return scale{num: 1, den: 1}
		}
	}
	if a, ok := findAtom(word); ok {
		p.at += len(word)
		return p.use(a, 0)
	}
	if choices := ambiguous(word); choices != nil {
		p.from = p.at
		p.at += len(word)
		p.words = choices
		p.why = "has " + quoteShort(word) + ", which is ambiguous"
		return scale{num: 1, den: 1}
	}
	for _, pre := range prefixes {
		if name, ok := strings.CutPrefix(word, pre.sign); ok {
			if a, ok := findAtom(name); ok && a.prefix == pre.kind {
				p.at += len(word)
				return p.use(a, pre.exp10)
			}
		}
	}
	p.from = p.at
	p.why = unknownUnit + quoteShort(word)
	return scale{num: 1, den: 1}
}

func (p *unitParser) use(a *atomRecord, exp10 int) scale {
	if a.basis != "" {
		p.setBasis(a.basis)
	}
	return scale{num: a.num, den: 1, exp10: a.exp10 + exp10, dim: a.dim}
}

// wordEnd returns the length of the unit name at the start of s: letters, the
// signs ° ' " % and UCUM's square brackets with what they hold.
func wordEnd(s string) int {
	for i, r := range s {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r == '_', r == '%', r == '°', r == 'µ', r == 'Ω', r == 'Δ', r == '‰':
		case r == '[':
			if end := strings.IndexByte(s[i:], ']'); end > 0 {
				return i + end + 1
			}
			return i
		case r == '2' && strings.HasSuffix(s[:i], "H") && strings.HasPrefix(s[i:], "2O"): // mH2O
		default:
			return i
		}
	}
	return len(s)
}

func (p *unitParser) skipSpaces() bool {
	from := p.at
	for p.at < len(p.s) && p.s[p.at] == ' ' {
		p.at++
	}
	return p.at > from
}

func (p *unitParser) take(s string) bool {
	if strings.HasPrefix(p.s[p.at:], s) {
		p.at += len(s)
		return true
	}
	return false
}

// takeWord takes a whole word and the point or space after it.
func (p *unitParser) takeWord(w string) bool {
	rest := p.s[p.at:]
	if !strings.HasPrefix(rest, w) || len(rest) == len(w) || rest[len(w)] != ' ' && rest[len(w)] != '.' {
		return false
	}
	p.at += len(w) + 1
	return true
}
