package drawdown

import (
	"fmt"
	"math"
	"sort"
	"time"

	"pondwright.example/units"
)

// Tailwater is the water beyond the outlets: its level above the pond's datum
// at every moment. [ConstantTailwater], [*TideTable], [*HarmonicTide] and
// [*TailwaterSeries] satisfy it and tell the solver their corners; any other
// type works too and is walked in steps of at most [PlainOutletStep].
type Tailwater interface {
	Level(at time.Time) units.Length
}

// ConstantTailwater is a level that never changes, above the pond's datum.
type ConstantTailwater units.Length

// Level returns the constant.
func (c ConstantTailwater) Level(time.Time) units.Length { return units.Length(c) }

// TailwaterPoint is a level read at a time, on the series' own datum.
type TailwaterPoint struct {
	At    time.Time    `json:"at"`
	Level units.Length `json:"level"`
}

// TailwaterSeries is a tailwater read at times, linear between them. Levels
// stand on the series' own datum, whose zero lies ZeroAbovePond above the
// pond's; a missing offset is an error, never zero. Surge is added throughout.
type TailwaterSeries struct {
	Points        []TailwaterPoint `json:"points"`
	Datum         Datum            `json:"datum"`
	ZeroAbovePond *units.Length    `json:"zeroAbovePond"`
	Surge         units.Length     `json:"surge,omitempty"`
}

// Validate reports every problem of the series.
func (s *TailwaterSeries) Validate() error {
	const fn = "drawdown.TailwaterSeries"
	if s == nil {
		return noTide(fn)
	}
	all := checkOffset(fn, s.Datum, s.ZeroAbovePond, s.Surge)
	if len(s.Points) < 2 {
		all = append(all, &units.InputError{Func: fn, Field: "points", Value: float64(len(s.Points)), Unit: "rows", Reason: "at least two readings are needed"})
	}
	for i, p := range s.Points {
		if err := units.Finite(fn, fmt.Sprintf("points[%d].level", i), float64(p.Level), "m"); err != nil {
			all = append(all, err)
		}
		if i > 0 && !p.At.After(s.Points[i-1].At) {
			all = append(all, &units.InputError{Func: fn, Field: fmt.Sprintf("points[%d].at", i), Value: p.At.Sub(s.Points[i-1].At).Seconds(), Unit: "s",
				Reason: fmt.Sprintf("row %d is not later than row %d; readings are not sorted for you", i+1, i)})
		}
	}
	return joinErrors(all)
}

// Level returns the level above the pond's datum, linear between readings and
// held beyond the first and last; a plan that leaves the series stops there.
//
// Source: linear interpolation, by definition.
func (s *TailwaterSeries) Level(at time.Time) units.Length {
	if s == nil {
		return 0
	}
	n := len(s.Points)
	if n == 0 || s.ZeroAbovePond == nil {
		return 0
	}
	i := sort.Search(n, func(i int) bool { return s.Points[i].At.After(at) })
	z := s.Points[max(0, min(i, n-1))].Level
	if i > 0 && i < n {
		a, b := s.Points[i-1], s.Points[i]
		z = a.Level + (b.Level-a.Level)*units.Length(at.Sub(a.At).Seconds()/b.At.Sub(a.At).Seconds())
	}
	return z + *s.ZeroAbovePond + s.Surge
}

func (s *TailwaterSeries) curve(epoch time.Time) *tailCurve {
	zero := float64(*s.ZeroAbovePond + s.Surge)
	c := &tailCurve{begin: s.Points[0].At.Sub(epoch).Seconds(), end: s.Points[len(s.Points)-1].At.Sub(epoch).Seconds()}
	for i := 0; i+1 < len(s.Points); i++ {
		a, b := s.Points[i], s.Points[i+1]
		span := b.At.Sub(a.At).Seconds()
		c.pieces = append(c.pieces, tailPiece{kind: linearPiece, from: a.At.Sub(epoch).Seconds(),
			mean: float64(a.Level) + zero, rate: float64(b.Level-a.Level) / span})
	}
	return c
}

// noTide refuses a nil pointer in place of a tailwater.
func noTide(fn string) error {
	return &units.InputError{Func: fn, Field: "", Value: math.NaN(), Reason: "no tailwater was given: leave the plan's Tailwater nil for a free outfall"}
}

// checkOffset holds a tailwater to naming its datum and its offset.
func checkOffset(fn string, d Datum, zero *units.Length, surge units.Length) []error {
	var all []error
	if d == "" {
		all = append(all, &units.InputError{Func: fn, Field: "datum", Kind: ErrDatumMissing, Value: math.NaN(), Unit: "m",
			Reason: "the datum has no name: say what the levels are measured from"})
	}
	if zero == nil {
		all = append(all, &units.InputError{Func: fn, Field: "zeroAbovePond", Kind: ErrDatumMissing, Value: math.NaN(), Unit: "m",
			Reason: "the height of the tide datum's zero above the pond's is missing; an unknown offset is not zero"})
	} else if err := units.Finite(fn, "zeroAbovePond", float64(*zero), "m"); err != nil {
		all = append(all, err)
	}
	if err := units.Finite(fn, "surge", float64(surge), "m"); err != nil {
		all = append(all, err)
	}
	return all
}

// tailCurve is a tailwater as numbers: seconds since an epoch, metres above the
// pond's datum, in smooth pieces.
type tailCurve struct {
	pieces     []tailPiece // rising in from; the first also holds before it
	begin, end float64     // where the data begin and end; infinite when they do not
	plain      bool        // corners unknown
}

type pieceKind uint8

const (
	constantPiece pieceKind = iota
	linearPiece
	cosinePiece
	wavesPiece
	foreignPiece
)

// tailPiece is one smooth piece:
//
//	mean + rate (t-from) + amplitude cos(omega (t-from) + phase)
//
// or a sum of waves, or somebody else's Tailwater.
type tailPiece struct {
	kind                                     pieceKind
	from, mean, rate, amplitude, omega, wave float64 // wave is the phase
	waves                                    []wave
	foreign                                  Tailwater
	epoch                                    time.Time
	table                                    *tailTable // of a cosine or waves inside a Solver
}

// wave is one term amplitude cos(omega t + phase).
type wave struct{ amplitude, omega, phase float64 }

func (p *tailPiece) at(t float64) float64 {
	if p.table != nil {
		if z, ok := p.table.at(p, t-p.from); ok {
			return z
		}
	}
	switch p.kind {
	case constantPiece:
		return p.mean
	case linearPiece:
		return p.mean + p.rate*(t-p.from)
	case cosinePiece:
		return p.mean + p.amplitude*math.Cos(p.omega*(t-p.from)+p.wave)
	case wavesPiece:
		sum := p.mean
		for i := range p.waves {
			w := &p.waves[i]
			sum += w.amplitude * math.Cos(w.omega*t+w.phase)
		}
		return sum
	}
	return float64(p.foreign.Level(clockAt(p.epoch, t)))
}

func (p *tailPiece) slope(t float64) float64 {
	if p.table != nil {
		if d, ok := p.table.slope(p, t-p.from); ok {
			return d
		}
	}
	switch p.kind {
	case constantPiece:
		return 0
	case linearPiece:
		return p.rate
	case cosinePiece:
		return -p.amplitude * p.omega * math.Sin(p.omega*(t-p.from)+p.wave)
	case wavesPiece:
		sum := 0.0
		for i := range p.waves {
			w := &p.waves[i]
			sum -= w.amplitude * w.omega * math.Sin(w.omega*t+w.phase)
		}
		return sum
	}
	return p.at(t+1) - p.at(t) // per second
}

// nextTurn returns the first time after t at which the piece turns, or +Inf.
func (p *tailPiece) nextTurn(t float64) float64 {
	switch p.kind {
	case cosinePiece:
		k := math.Floor((p.omega*(t-p.from)+p.wave)/math.Pi) + 1
		next := p.from + (k*math.Pi-p.wave)/p.omega
		if next <= t {
			next += math.Pi / p.omega
		}
		return next
	case wavesPiece:
		return p.scanTurn(t)
	}
	return math.Inf(1)
}

// scanTurn walks a sum of waves in sixteenths of its shortest period until the
// slope changes sign.
func (p *tailPiece) scanTurn(t float64) float64 {
	fastest := 0.0
	for _, w := range p.waves {
		fastest = math.Max(fastest, math.Abs(w.omega))
	}
	if fastest == 0 {
		return math.Inf(1)
	}
	step := 2 * math.Pi / fastest / 16
	a := t + 1e-3
	ga := p.slope(a)
	for range 100_000 {
		b := a + step
		gb := p.slope(b)
		if (ga > 0) != (gb > 0) {
			return bisectTurn(p, a, b, ga > 0)
		}
		a, ga = b, gb
	}
	return math.Inf(1)
}

func bisectTurn(p *tailPiece, a, b float64, rising bool) float64 {
	for b-a > 1e-6 {
		m := (a + b) / 2
		if (p.slope(m) > 0) == rising {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2
}

// find returns the piece that holds at t.
func (c *tailCurve) find(t float64) int {
	i := 0
	for i+1 < len(c.pieces) && t >= c.pieces[i+1].from {
		i++
	}
	return i
}

func (c *tailCurve) at(t float64) float64 {
	t = math.Max(c.begin, math.Min(c.end, t))
	return c.pieces[c.find(t)].at(t)
}

// curveOf turns any Tailwater into numbers.
func curveOf(t Tailwater, epoch time.Time) *tailCurve {
	inf := math.Inf(1)
	switch v := t.(type) {
	case nil:
		return nil
	case ConstantTailwater:
		return &tailCurve{pieces: []tailPiece{{kind: constantPiece, mean: float64(v)}}, begin: -inf, end: inf}
	case interface{ curve(time.Time) *tailCurve }:
		return v.curve(epoch)
	}
	return &tailCurve{pieces: []tailPiece{{kind: foreignPiece, foreign: t, epoch: epoch}}, begin: -inf, end: inf, plain: true}
}

// clockAt is the wall clock s seconds after epoch, in the epoch's zone.
func clockAt(epoch time.Time, s float64) time.Time {
	whole, frac := math.Modf(s)
	return epoch.Add(time.Duration(whole)*time.Second + time.Duration(math.Round(frac*1e9)))
}
