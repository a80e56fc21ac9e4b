package drawdown

import (
	"fmt"
	"math"

	"pondwright.example/units"
)

// spikeSearch collects, for every point, how far it stands off its neighbours:
// off the surface they would make without it and off their median, whichever
// is less, so that the neighbours of a wrong point are not blamed for it.
type spikeSearch struct {
	index []int32
	off   []float64
	buf   []float64
}

func newSpikes() *spikeSearch { return &spikeSearch{} }

func (s *spikeSearch) offer(i int, miss float64, z []float64, near []int32) {
	s.buf = s.buf[:0]
	for _, j := range near {
		s.buf = append(s.buf, z[j])
	}
	d := z[i] - median(s.buf)
	if math.Abs(miss) < math.Abs(d) {
		d = miss
	}
	s.index = append(s.index, int32(i))
	s.off = append(s.off, d)
}

// spikes names the point that stands off most when it is out of all proportion
// to the others.
func (b *Bed) spikes(s *spikeSearch) {
	limit := math.Max(0.05, 8*1.4826*b.band.typical) // 1.4826 MAD is one standard deviation of a normal
	worst, n := -1, 0
	for k, d := range s.off {
		if math.Abs(d) > limit {
			n++
			if worst < 0 || math.Abs(d) > math.Abs(s.off[worst]) {
				worst = k
			}
		}
	}
	if n == 0 {
		return
	}
	b.Notices = append(b.Notices, units.Notice{Code: CodeSurveySpike, Severity: units.Caution,
		Field: b.vertices.path(int(s.index[worst])) + ".z", Value: s.off[worst], Limit: limit, Unit: "m",
		Message: fmt.Sprintf("points that stand off their neighbours by more than %.2g m: %d, the worst by %.3g m; check for typing errors, a change of units or of sign", limit, n, s.off[worst])})
}

// lines warns of soundings close together along tracks that lie far apart: the
// neighbours that predict a point are then on its own track. It does when more
// than half the area lies in triangles longer than lineRatio times their
// shortest side.
func (b *Bed) lines() {
	xy := b.vertices.xy
	_, points := b.vertices.group(0)
	total, slim, ratio := 0.0, 0.0, 0.0
	for _, t := range b.triangles {
		c := t.corner
		if int(c[0]) >= points || int(c[1]) >= points || int(c[2]) >= points {
			continue
		}
		short, _, long := sort3(sq(xy[c[0]], xy[c[1]]), sq(xy[c[1]], xy[c[2]]), sq(xy[c[2]], xy[c[0]]))
		total += t.plan
		if long > lineRatio*lineRatio*short {
			slim += t.plan
			ratio += t.plan * math.Sqrt(long/short)
		}
	}
	if !(slim > total/2) {
		return
	}
	ratio /= slim
	b.Notices = append(b.Notices, units.Notice{Code: CodeSurveyLines, Severity: units.Caution, Field: "points",
		Value: ratio, Limit: lineRatio,
		Message: fmt.Sprintf("soundings lie some %.2g times closer along their tracks than across, so the error band is too narrow; add cross tracks or breaklines", ratio)})
}

// lineRatio is the ratio of longest to shortest side above which half the area
// counts as surveyed in lines.
const lineRatio = 4
