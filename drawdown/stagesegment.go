package drawdown

import (
	"math"

	"pondwright.example/units"
)

// Segment is the piece of a [StageTable] between two rows, copied out so that
// a solver that stays inside it need not search: area linear, volume quadratic
// in stage. The first segment answers below the table and the last above it by
// the table's rule. Segments are plain values.
type Segment struct {
	lower, upper float64 // stages
	area, slope  float64 // area at lower, and its rise per metre
	volume       float64 // volume below lower
	first, last  bool
}

// Lower returns the stage at which the segment starts.
func (s Segment) Lower() units.Length { return units.Length(s.lower) }

// Upper returns the stage at which the segment ends.
func (s Segment) Upper() units.Length { return units.Length(s.upper) }

// Area returns the water surface at stage. Inside the segment, and beyond its
// ends where another segment follows, it is the segment's own straight line,
// so that a solver may overstep a corner a little without a jump.
func (s Segment) Area(stage units.Length) units.Area {
	return units.Area(s.area + s.slope*(s.clamp(float64(stage))-s.lower))
}

// Volume returns the water below stage.
func (s Segment) Volume(stage units.Length) units.Volume {
	h := float64(stage)
	x := s.clamp(h) - s.lower
	v := s.volume + x*(s.area+0.5*s.slope*x)
	if s.last && h > s.upper {
		v += (s.area + s.slope*x) * (h - s.upper) // vertical walls above the top row
	}
	return units.Volume(v)
}

// Stage returns the stage at which the pond holds volume, taking the
// segment's own quadratic beyond its ends where another segment follows.
func (s Segment) Stage(volume units.Volume) units.Length {
	dv := float64(volume) - s.volume
	if s.first && dv <= 0 {
		return units.Length(s.lower)
	}
	width := s.upper - s.lower
	if full := width * (s.area + 0.5*s.slope*width); s.last && dv >= full {
		top := s.area + s.slope*width
		if !(top > 0) {
			return units.Length(s.upper)
		}
		return units.Length(s.upper + (dv-full)/top)
	}
	// The root of dv = area x + slope x^2/2 in the form that does not cancel.
	disc := math.Max(0, s.area*s.area+2*s.slope*dv)
	den := s.area + math.Sqrt(disc)
	if den == 0 {
		return units.Length(s.lower)
	}
	return units.Length(s.lower + 2*dv/den)
}

// clamp holds a stage inside the table's ends.
func (s Segment) clamp(h float64) float64 {
	if s.first && h < s.lower {
		return s.lower
	}
	if s.last && h > s.upper {
		return s.upper
	}
	return h
}

// Segments returns how many segments the table has: one less than its rows.
func (t StageTable) Segments() int { return max(0, len(t.rows)-1) }

// Segment returns segment i, counted from 0 at the bottom. An index outside
// the table is answered with the nearest segment; a zero StageTable with the
// zero Segment.
func (t StageTable) Segment(i int) Segment {
	if len(t.rows) < 2 {
		return Segment{}
	}
	return t.segment(min(max(i, 0), len(t.rows)-2))
}

// Find returns the index of the segment that holds stage. A stage on a corner
// belongs to the segment above it; one outside the table to the first or last.
func (t StageTable) Find(stage units.Length) int {
	if len(t.rows) < 2 {
		return 0
	}
	return t.find(float64(stage))
}

func (t StageTable) segment(i int) Segment {
	lo, hi := &t.rows[i], &t.rows[i+1]
	return Segment{lower: lo.stage, upper: hi.stage, area: lo.area, slope: lo.slope, volume: lo.volume,
		first: i == 0, last: i == len(t.rows)-2}
}

// find returns the segment of a stage by bisection on the rows; NaN goes to
// the last.
func (t StageTable) find(h float64) int {
	lo, hi := 0, len(t.rows)-1
	for hi-lo > 1 {
		mid := int(uint(lo+hi) >> 1)
		if h < t.rows[mid].stage {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

// findVolume returns the segment that holds a volume.
func (t StageTable) findVolume(v float64) int {
	lo, hi := 0, len(t.rows)-1
	for hi-lo > 1 {
		mid := int(uint(lo+hi) >> 1)
		if v < t.rows[mid].volume {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}
