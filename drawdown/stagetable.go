package drawdown

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"

	"pondwright.example/units"
)

// StageArea is one row of a stage-area table: the water surface Area when the
// water stands at Stage, a height above the pond's datum.
type StageArea struct {
	Stage units.Length `json:"stage"`
	Area  units.Area   `json:"area"`
}

// TableOption loosens one check of [NewStageTable]: [AllowOverhang].
type TableOption uint8

// AllowOverhang accepts an area that shrinks as the stage rises, as in a
// covered tank or a culvert basin. An open pond does not overhang, so without
// it such a row is taken for a typing error.
const AllowOverhang TableOption = 1

// StageTable is a pond as a table of water surface areas at rising stages,
// with the area linear from row to row and the volume its exact integral, so
// that dV/dh = A holds everywhere inside the table. Build one with
// [NewStageTable] or [Tabulate].
//
// Outside the table the methods stay finite by this rule: Area is that of the
// nearest row; Volume is zero below the bottom row and grows with the top
// row's area above the top row (vertical walls); Stage answers with the bottom
// for a volume of zero or less and with the vertical-wall stage above the top.
// A plan that leaves [StageTable.Bottom] to [StageTable.Top] should say so;
// the methods do not.
//
// A StageTable is immutable and safe for concurrent use. Its methods allocate
// nothing except where they return a slice. The zero StageTable holds no
// water: every method returns zero.
type StageTable struct {
	rows     []tableRow
	overhang bool
}

// tableRow is one row with what evaluation needs beside it: the volume below
// the row and the slope of the area up to the next row (zero in the last).
type tableRow struct {
	stage, area, volume, slope float64
}

// NewStageTable builds a pond from rows of rising stage. The volume between
// two rows is by trapezoid, V = (A1+A2)/2 (h2-h1), which is exact for an area
// linear in stage.
//
// It needs two rows or more with strictly rising stages, areas not negative
// and, unless [AllowOverhang] is given, never falling. Rows are never sorted,
// merged or averaged: an unsorted table or one stage with two areas is usually
// a typing error, and the error names the rows. Every problem is reported at
// once as a *units.InputError with the path of the field, such as
// stages[3].area (counted from 0; messages count rows from 1).
//
// Source: average-end-area rule, common practice in earthwork and reservoir
// surveys.
func NewStageTable(rows []StageArea, options ...TableOption) (StageTable, error) {
	overhang := false
	for _, o := range options {
		overhang = overhang || o == AllowOverhang
	}
	if err := checkStageRows(rows, overhang); err != nil {
		return StageTable{}, err
	}
	t := StageTable{rows: make([]tableRow, len(rows)), overhang: overhang}
	for i, r := range rows {
		t.rows[i] = tableRow{stage: float64(r.Stage), area: float64(r.Area)}
		if i == 0 {
			continue
		}
		lo := &t.rows[i-1]
		dh := t.rows[i].stage - lo.stage
		lo.slope = (t.rows[i].area - lo.area) / dh
		t.rows[i].volume = lo.volume + 0.5*(lo.area+t.rows[i].area)*dh
	}
	if top := t.rows[len(rows)-1].volume; math.IsInf(top, 0) {
		return StageTable{}, &units.InputError{Func: stageTableFunc, Field: "stages", Value: top, Unit: "m3",
			Reason: "the volume overflows: check the units of stage and area"}
	}
	return t, nil
}

const stageTableFunc = "drawdown.NewStageTable"

func checkStageRows(rows []StageArea, overhang bool) error {
	var all []error
	bad := func(i int, field string, v float64, unit, format string, args ...any) {
		all = append(all, &units.InputError{Func: stageTableFunc, Field: fmt.Sprintf("stages[%d].%s", i, field),
			Value: v, Unit: unit, Reason: fmt.Sprintf(format, args...)})
	}
	if len(rows) < 2 {
		all = append(all, &units.InputError{Func: stageTableFunc, Field: "stages", Value: float64(len(rows)), Unit: "rows",
			Reason: "a table needs at least two rows of stage and area"})
	}
	for i, r := range rows {
		h, a := float64(r.Stage), float64(r.Area)
		if err := units.Finite(stageTableFunc, fmt.Sprintf("stages[%d].stage", i), h, "m"); err != nil {
			all = append(all, err)
		}
		if err := units.NonNegative(stageTableFunc, fmt.Sprintf("stages[%d].area", i), a, "m2"); err != nil {
			all = append(all, err)
		}
		if i == 0 {
			continue
		}
		h0, a0 := float64(rows[i-1].Stage), float64(rows[i-1].Area)
		switch {
		case h == h0 && a == a0:
			bad(i, "stage", h, "m", "rows %d and %d are the same; remove one", i, i+1)
		case h == h0:
			bad(i, "stage", h, "m", "rows %d and %d give one stage two areas, %.6g m2 and %.6g m2; keep one, or give a ledge two stages a millimetre apart", i, i+1, a0, a)
		case h < h0:
			bad(i, "stage", h, "m", "row %d lies below row %d at %.6g m; stages must rise from row to row (rows are not sorted for you)", i+1, i, h0)
		}
		if a < a0 && h > h0 && !overhang {
			bad(i, "area", a, "m2", "row %d has less area than row %d with %.6g m2; a pond does not overhang (say AllowOverhang for a tank that does)", i+1, i, a0)
		}
		if a == 0 && a0 == 0 && h > h0 {
			bad(i, "area", a, "m2", "rows %d and %d both have no area, so there is no water between them", i, i+1)
		}
	}
	return errors.Join(all...)
}

// Bottom returns the stage of the lowest row, where the pond is empty.
func (t StageTable) Bottom() units.Length {
	if len(t.rows) == 0 {
		return 0
	}
	return units.Length(t.rows[0].stage)
}

// Top returns the stage of the highest row.
func (t StageTable) Top() units.Length {
	if len(t.rows) == 0 {
		return 0
	}
	return units.Length(t.rows[len(t.rows)-1].stage)
}

// Capacity returns the volume below the top row.
func (t StageTable) Capacity() units.Volume {
	if len(t.rows) == 0 {
		return 0
	}
	return units.Volume(t.rows[len(t.rows)-1].volume)
}

// Corners returns the stages of all rows, rising: the levels at which the slope
// of the area changes and an integrator does well to restart. The slice is
// fresh.
func (t StageTable) Corners() []units.Length {
	c := make([]units.Length, len(t.rows))
	for i, r := range t.rows {
		c[i] = units.Length(r.stage)
	}
	return c
}

// Rows returns a copy of the rows the table was built from.
func (t StageTable) Rows() []StageArea {
	rows := make([]StageArea, len(t.rows))
	for i, r := range t.rows {
		rows[i] = StageArea{Stage: units.Length(r.stage), Area: units.Area(r.area)}
	}
	return rows
}

// Area returns the water surface at stage, linear between rows and that of the
// nearest row outside the table.
func (t StageTable) Area(stage units.Length) units.Area {
	if len(t.rows) == 0 {
		return 0
	}
	return t.segment(t.find(float64(stage))).Area(stage)
}

// Volume returns the water below stage: the integral of Area from the bottom
// row up. It is zero below the bottom and grows with the top row's area above
// the top.
func (t StageTable) Volume(stage units.Length) units.Volume {
	if len(t.rows) == 0 {
		return 0
	}
	return t.segment(t.find(float64(stage))).Volume(stage)
}

// Stage returns the stage at which the pond holds volume: the inverse of
// Volume, in closed form. It is the bottom row's stage for a volume of zero or
// less.
func (t StageTable) Stage(volume units.Volume) units.Length {
	if len(t.rows) == 0 {
		return 0
	}
	return t.segment(t.findVolume(float64(volume))).Stage(volume)
}

// FractionStage returns the stage below which the given fraction (0 to 1) of
// the table's capacity lies: at fraction 0.2 the level at which the last fifth
// of the water begins. A fraction outside 0 to 1 is an error.
//
// Source: by definition, V(h) = fraction V(top).
func (t StageTable) FractionStage(fraction float64) (units.Length, error) {
	if err := units.Within("drawdown.StageTable.FractionStage", "fraction", fraction, 0, 1, ""); err != nil {
		return units.Length(math.NaN()), err
	}
	return t.Stage(units.Volume(fraction) * t.Capacity()), nil
}

// Equal reports whether two tables have the same rows, as comparing packages ask.
func (t StageTable) Equal(u StageTable) bool {
	return t.overhang == u.overhang && slices.Equal(t.rows, u.rows)
}

// stageTableJSON is the written form of a StageTable.
type stageTableJSON struct {
	Stages        []StageArea `json:"stages"`
	AllowOverhang bool        `json:"allowOverhang,omitempty"`
}

// MarshalJSON writes the rows, each value with its unit, and the zero StageTable
// as null.
func (t StageTable) MarshalJSON() ([]byte, error) {
	if len(t.rows) == 0 {
		return []byte("null"), nil
	}
	return json.Marshal(stageTableJSON{Stages: t.Rows(), AllowOverhang: t.overhang})
}

// UnmarshalJSON reads rows and checks them as NewStageTable does; null is the zero
// StageTable.
func (t *StageTable) UnmarshalJSON(b []byte) error {
	if string(b) == "null" {
		*t = StageTable{}
		return nil
	}
	var in stageTableJSON
	if err := json.Unmarshal(b, &in); err != nil {
		return err
	}
	var options []TableOption
	if in.AllowOverhang {
		options = append(options, AllowOverhang)
	}
	built, err := NewStageTable(in.Stages, options...)
	if err != nil {
		return err
	}
	*t = built
	return nil
}
