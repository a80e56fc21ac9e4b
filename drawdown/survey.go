package drawdown

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/internal/delaunay"
	"pondwright.example/units"
)

// SurveyPoint is one sounding or levelled point: X and Y on any plane grid, Z
// an elevation or a depth as the survey's Sense says.
type SurveyPoint struct {
	X units.Length `json:"x"`
	Y units.Length `json:"y"`
	Z units.Length `json:"z"`
}

// VerticalSense says which way the Z of a survey counts: [ElevationUp] or
// [DepthDown]. The zero value is "unstated", which [Survey.Bed] refuses: a survey
// must say.
type VerticalSense uint8

const (
	ElevationUp VerticalSense = iota + 1 // heights above Survey.Datum, positive up
	DepthDown                            // depths below Survey.WaterLevel, positive down
)

var senseNames = [...]string{"unstated", "elevation up", "depth down"}

// String returns "elevation up" or "depth down".
func (v VerticalSense) String() string {
	if int(v) < len(senseNames) {
		return senseNames[v]
	}
	return fmt.Sprintf("VerticalSense(%d)", uint8(v))
}

// MarshalText writes the sense's word.
func (v VerticalSense) MarshalText() ([]byte, error) {
	if int(v) >= len(senseNames) {
		return nil, fmt.Errorf("drawdown.VerticalSense: %d is not one of elevation up, depth down", uint8(v))
	}
	return []byte(senseNames[v]), nil
}

// UnmarshalText reads the sense's word.
func (v *VerticalSense) UnmarshalText(text []byte) error {
	for i, n := range senseNames {
		if string(text) == n {
			*v = VerticalSense(i)
			return nil
		}
	}
	return fmt.Errorf("drawdown.VerticalSense: %q is not one of elevation up, depth down", text)
}

// Survey is a pond bed as scattered points. [Survey.Bed] turns it into a
// surface of triangles with exact storage.
type Survey struct {
	Points []SurveyPoint `json:"points"`

	// Shore is the edge of the pond as a closed ring of points, in order in
	// either direction, the last joined to the first. Points outside it are
	// left out. Without a shore the pond ends at the hull of the points, which
	// may take in land; the result then carries a notice.
	Shore []SurveyPoint `json:"shore,omitempty"`

	// Islands are rings of ground that never floods, left out of the pond.
	Islands [][]SurveyPoint `json:"islands,omitempty"`

	// Breaklines are lines that the surface must follow instead of bridging:
	// the bottom and edges of a ditch, the toe of a bank.
	Breaklines [][]SurveyPoint `json:"breaklines,omitempty"`

	Sense      VerticalSense `json:"sense"`                // which way Z counts; must be said
	Datum      Datum         `json:"datum,omitempty"`      // of Z, for ElevationUp
	WaterLevel Level         `json:"waterLevel,omitzero"`  // surface the depths hang from, for DepthDown
	PondDatum  Datum         `json:"pondDatum"`            // datum of the resulting stages
	Ties       []DatumTie    `json:"ties,omitempty"`       // how the datums lie to each other
	LevelError units.Length  `json:"levelError,omitempty"` // standard error common to all Z (bench mark, rod, water level); zero means none stated
	MirrorSafe bool          `json:"mirrorSafe,omitempty"` // skip the check for mixed conventions: heights above and below zero of one size are real
}

// Notice codes of surveys.
const (
	CodeSurveyNoShore   = "DRAW_SURVEY_NO_SHORE"
	CodeSurveyOutside   = "DRAW_SURVEY_OUTSIDE"
	CodeSurveyDuplicate = "DRAW_SURVEY_DUPLICATE"
	CodeSurveySpike     = "DRAW_SURVEY_SPIKE"
	CodeSurveyLines     = "DRAW_SURVEY_LINES"
)

const surveyFunc = "drawdown.Survey.Bed"

// surveyVertices is every point of a survey in one list, with the name of each
// for messages and levels on the pond's datum.
type surveyVertices struct {
	xy    []delaunay.Point
	raw   []float64 // Z as surveyed
	z     []float64 // level on the pond's datum
	start []int     // first vertex of each group
	names []string  // field path of each group
	rings []bool    // whether a group is a ring
}

func (v *surveyVertices) add(name string, ring bool, pts []SurveyPoint) {
	v.start = append(v.start, len(v.xy))
	v.names = append(v.names, name)
	v.rings = append(v.rings, ring)
	for _, p := range pts {
		v.xy = append(v.xy, delaunay.Point{X: float64(p.X), Y: float64(p.Y)})
		v.raw = append(v.raw, float64(p.Z))
	}
}

// path returns the field path of vertex i, such as shore[3].
func (v *surveyVertices) path(i int) string {
	for g := len(v.start) - 1; g >= 0; g-- {
		if i >= v.start[g] {
			return fmt.Sprintf("%s[%d]", v.names[g], i-v.start[g])
		}
	}
	return ""
}

func (v *surveyVertices) group(g int) (first, count int) {
	end := len(v.xy)
	if g+1 < len(v.start) {
		end = v.start[g+1]
	}
	return v.start[g], end - v.start[g]
}

// maxFaults is how many faults of one kind are named one by one.
const maxFaults = 20

func (s Survey) vertices() (*surveyVertices, error) {
	v := &surveyVertices{}
	v.add("points", false, s.Points)
	var all []error
	ringOf := func(name string, pts []SurveyPoint) {
		v.add(name, true, pts)
		if len(pts) < 3 {
			all = append(all, &units.InputError{Func: surveyFunc, Field: name, Value: float64(len(pts)), Unit: "points",
				Reason: "a ring needs at least three points"})
		}
	}
	if len(s.Shore) > 0 {
		ringOf("shore", s.Shore)
	}
	for i, r := range s.Islands {
		ringOf(fmt.Sprintf("islands[%d]", i), r)
	}
	for i, l := range s.Breaklines {
		v.add(fmt.Sprintf("breaklines[%d]", i), false, l)
		if len(l) < 2 {
			all = append(all, &units.InputError{Func: surveyFunc, Field: fmt.Sprintf("breaklines[%d]", i), Value: float64(len(l)),
				Unit: "points", Reason: "a line needs at least two points"})
		}
	}
	faults := 0
	for i, p := range v.xy {
		if p.Valid() && !math.IsNaN(v.raw[i]) && math.Abs(v.raw[i]) < 1e6 {
			continue
		}
		if faults++; faults <= maxFaults {
			for _, c := range []struct {
				name  string
				value float64
				ok    bool
			}{{"x", p.X, delaunay.Point{X: p.X}.Valid()}, {"y", p.Y, delaunay.Point{Y: p.Y}.Valid()},
				{"z", v.raw[i], !math.IsNaN(v.raw[i]) && math.Abs(v.raw[i]) < 1e6}} {
				if !c.ok {
					all = append(all, &units.InputError{Func: surveyFunc, Field: v.path(i) + "." + c.name, Value: c.value, Unit: "m",
						Reason: "must be a finite number of a size that a survey can have"})
				}
			}
		}
	}
	if faults > maxFaults {
		all = append(all, &units.InputError{Func: surveyFunc, Field: "points", Value: float64(faults), Unit: "points",
			Reason: "so many points are not finite in all; the first are named above"})
	}
	all = append(all, units.NonNegative(surveyFunc, "levelError", float64(s.LevelError), "m"))
	all = append(all, s.toPondDatum(v))
	return v, errors.Join(all...)
}

// toPondDatum turns the surveyed Z into levels on the pond's datum.
func (s Survey) toPondDatum(v *surveyVertices) error {
	v.z = make([]float64, len(v.raw))
	if s.PondDatum == "" {
		return &units.InputError{Func: surveyFunc, Field: "pondDatum", Value: math.NaN(), Kind: ErrDatumMissing,
			Reason: "name the datum that the pond's stages shall have"}
	}
	switch s.Sense {
	case ElevationUp:
		shift, err := Level{0, s.Datum}.On(s.PondDatum, s.Ties...)
		if err != nil {
			return units.AtField("datum", err)
		}
		for i, r := range v.raw {
			v.z[i] = r + float64(shift)
		}
	case DepthDown:
		water, err := s.WaterLevel.On(s.PondDatum, s.Ties...)
		if err != nil {
			return units.AtField("waterLevel", err)
		}
		for i, r := range v.raw {
			v.z[i] = float64(water) - r
		}
	default:
		return &units.InputError{Func: surveyFunc, Field: "sense", Value: float64(s.Sense),
			Reason: "say whether Z is an elevation, positive up (ElevationUp), or a depth below the water, positive down (DepthDown)"}
	}
	return nil
}

// mesh triangulates the vertices with rings and breaklines forced and returns
// the triangles of the pond.
func (s Survey) mesh(v *surveyVertices) (*delaunay.Triangulation, [][3]int32, []units.Notice, error) {
	tr, err := delaunay.New(v.xy)
	if err != nil {
		return nil, nil, nil, &units.InputError{Func: surveyFunc, Field: "points", Value: float64(len(v.xy)), Unit: "points",
			Reason: "the points span no area: at least three, not on one line, are needed"}
	}
	notices, err := v.duplicates(tr)
	if err != nil {
		return nil, nil, nil, err
	}
	for g := 1; g < len(v.start); g++ {
		first, n := v.group(g)
		var err error
		if v.rings[g] {
			ring := make([]int, n)
			for i := range ring {
				ring[i] = first + i
			}
			err = tr.Ring(ring)
		} else {
			for i := first; i+1 < first+n && err == nil; i++ {
				err = tr.Constrain(i, i+1)
			}
		}
		var c *delaunay.CrossingError
		if errors.As(err, &c) {
			return nil, nil, nil, &units.InputError{Func: surveyFunc, Field: v.names[g], Value: float64(c.U - first),
				Unit: "point number", Reason: fmt.Sprintf("the line from %s to %s crosses the line from %s to %s; shore, islands and breaklines may touch but not cross",
					v.path(c.U), v.path(c.V), v.path(c.A), v.path(c.B))}
		}
		if err != nil {
			return nil, nil, nil, err
		}
	}
	triangles := tr.Inside()
	if len(triangles) == 0 {
		return nil, nil, nil, &units.InputError{Func: surveyFunc, Field: "shore", Value: 0, Unit: "triangles",
			Reason: "the shore encloses no area"}
	}
	if len(s.Shore) == 0 {
		notices = append(notices, units.Notice{Code: CodeSurveyNoShore, Severity: units.Caution, Field: "shore",
			Message: "no shore was given, so the pond ends at the hull of the points, which can take in land"})
	}
	return tr, triangles, notices, nil
}

// duplicates accepts points surveyed twice with one level and refuses two
// levels at one place.
func (v *surveyVertices) duplicates(tr *delaunay.Triangulation) ([]units.Notice, error) {
	var all []error
	clash := 0
	for _, d := range tr.Duplicates() {
		if v.raw[d.Index] == v.raw[d.Of] {
			continue
		}
		if clash++; clash <= maxFaults {
			lo, hi := min(d.Index, d.Of), max(d.Index, d.Of)
			all = append(all, &units.InputError{Func: surveyFunc, Field: v.path(hi) + ".z", Value: v.raw[hi], Unit: "m",
				Reason: fmt.Sprintf("%s and %s stand at one place (%.10g, %.10g) with two levels, %.6g and %.6g m",
					v.path(lo), v.path(hi), v.xy[lo].X, v.xy[lo].Y, v.raw[lo], v.raw[hi])})
		}
	}
	if clash > maxFaults {
		all = append(all, &units.InputError{Func: surveyFunc, Field: "points", Value: float64(clash), Unit: "points",
			Reason: "so many places have two levels in all; the first are named above"})
	}
	if n := len(tr.Duplicates()); n > 0 && clash == 0 && len(v.start) == 1 {
		return []units.Notice{{Code: CodeSurveyDuplicate, Severity: units.Info, Field: "points", Value: float64(n), Unit: "points",
			Message: fmt.Sprintf("points that repeat others were used once: %d", n)}}, nil
	}
	return nil, errors.Join(all...)
}
