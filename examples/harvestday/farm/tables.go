package farm

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"strings"
	"time"

	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/examples/internal/csvtable"
	"pondwright.example/units"
)

// Codes of the remarks about how a table was read.
const (
	CodeDuplicateRow = "FARM_DUPLICATE_ROW" // the same line twice, read once
	CodeMissingRow   = "FARM_MISSING_ROW"   // a gap in the running numbers
	CodeMidnight     = "FARM_MIDNIGHT"      // 24:00 read as 00:00 of the next day
)

// table reads one file and gathers its faults; ok is false when there is
// nothing to go through.
func (r *reader) table(file, field string, read func(*csvtable.Table)) {
	data, err := fs.ReadFile(r.folder, file)
	if err != nil {
		r.errs = append(r.errs, fmt.Errorf("%s: cannot be read: %s", file, reason(err)))
		r.bad = append(r.bad, field)
		return
	}
	t, _ := csvtable.Read(file, data)
	if t.Columns != nil {
		if len(t.Rows) == 0 {
			t.FaultAll("no lines below the headings")
		}
		read(t)
	}
	if faults := split(t.Err()); len(faults) > 0 {
		r.errs = append(r.errs, faults...)
		r.bad = append(r.bad, field)
	}
}

// rows goes through the lines, leaving out exact duplicates with a remark.
func (r *reader) rows(t *csvtable.Table, field string, f func(csvtable.Row)) {
	first := map[string]int{}
	for _, row := range t.Rows {
		key := strings.Join(row.Cells, "\x00")
		if at, dup := first[key]; dup {
			r.remark(CodeDuplicateRow, field, fmt.Sprintf("%s line %d repeats line %d and was read once", t.File, row.Line, at))
			continue
		}
		first[key] = row.Line
		f(row)
	}
}

// cell reads a quantity that must be there.
func cell[T any](t *csvtable.Table, row csvtable.Row, column int, parse func(string) (T, error)) T {
	var zero T
	if column < 0 {
		return zero
	}
	if row.Cells[column] == "" {
		t.Fault(row, column, "the cell is empty")
		return zero
	}
	x, _ := csvtable.Quantity(t, row, column, parse)
	return x
}

// maybe reads a quantity whose empty cell means zero.
func maybe[T any](t *csvtable.Table, row csvtable.Row, column int, parse func(string) (T, error)) T {
	var zero T
	if column < 0 || row.Cells[column] == "" {
		return zero
	}
	return cell(t, row, column, parse)
}

func text(row csvtable.Row, column int) string {
	if column < 0 {
		return ""
	}
	return row.Cells[column]
}

// whole reads a count.
func whole(t *csvtable.Table, row csvtable.Row, column int, empty string) int {
	if column < 0 {
		return 0
	}
	if row.Cells[column] == "" {
		t.Fault(row, column, "%s", empty)
		return 0
	}
	x, ok := t.Float(row, column)
	if ok && (x < 0 || x != math.Trunc(x) || x > 1e9) {
		t.Fault(row, column, "%q is not a count: a whole number from 0", row.Cells[column])
		return 0
	}
	return int(x)
}

func (r *reader) survey() {
	if len(r.in.Pond.Stages) > 0 {
		if _, err := fs.Stat(r.folder, "survey.csv"); err == nil {
			r.errs = append(r.errs, fmt.Errorf("%s: pond.stages and survey.csv both describe the pond; keep one", mainFile))
		}
		return
	}
	r.soundings("survey.csv", "pond.survey", &r.in.Pond.Survey)
	if _, err := fs.Stat(r.folder, "shore.csv"); err == nil {
		r.soundings("shore.csv", "pond.shore", &r.in.Pond.Shore)
	}
}

// soundings reads points x, y, z; two levels at one spot are refused.
func (r *reader) soundings(file, field string, into *[]plan.Point) {
	r.table(file, field, func(t *csvtable.Table) {
		x, y := t.Require("x", "easting"), t.Require("y", "northing")
		z := t.Require("z", "level", "elevation", "depth")
		at := map[[2]units.Length]csvtable.Row{}
		r.rows(t, field, func(row csvtable.Row) {
			p := plan.Point{
				X: cell(t, row, x, units.ParseLength),
				Y: cell(t, row, y, units.ParseLength),
				Z: cell(t, row, z, units.ParseLength),
			}
			spot := [2]units.Length{p.X, p.Y}
			if other, twice := at[spot]; twice {
				t.Fault(row, z, "the same spot as line %d with another level", other.Line)
			}
			at[spot] = row
			*into = append(*into, p)
		})
	})
}

func (r *reader) casts() {
	r.table("casts.csv", "stock.casts", func(t *csvtable.Table) {
		station := t.Column("station", "cast", "no")
		count, area := t.Require("shrimp caught", "fish caught", "animals caught", "count"), t.Require("net area", "area")
		next := 1
		r.rows(t, "stock.casts", func(row csvtable.Row) {
			if station >= 0 && row.Cells[station] != "" {
				n := whole(t, row, station, "")
				if n > next {
					r.remark(CodeMissingRow, "stock.casts", fmt.Sprintf("casts.csv: stations %d to %d are missing before line %d; the estimate takes them as never thrown, not as empty", next, n-1, row.Line))
				}
				next = n + 1
			}
			r.in.Stock.Casts = append(r.in.Stock.Casts, plan.Cast{
				Count: whole(t, row, count, "the cell is empty; write 0 for an empty cast or take the line out"),
				Area:  cell(t, row, area, units.ParseArea),
			})
		})
	})
}

func (r *reader) weights() {
	r.table("weights.csv", "stock.weights", func(t *csvtable.Table) {
		w := t.Require("weight", "mass")
		// Two animals may well weigh the same: no line is a duplicate here.
		for _, row := range t.Rows {
			r.in.Stock.Weights = append(r.in.Stock.Weights, cell(t, row, w, units.ParseMass))
		}
	})
}

func (r *reader) pump() {
	r.table("pump.csv", "pump.points", func(t *csvtable.Table) {
		q, h, n := t.Require("flow"), t.Require("head"), t.Require("speed")
		r.rows(t, "pump.points", func(row csvtable.Row) {
			r.in.Pump.Points = append(r.in.Pump.Points, plan.PumpPoint{
				Flow:  cell(t, row, q, units.ParseFlow),
				Head:  cell(t, row, h, units.ParseLength),
				Speed: cell(t, row, n, units.ParseRotationalSpeed),
			})
		})
	})
}

func (r *reader) hose() {
	r.table("hose.csv", "hose.parts", func(t *csvtable.Table) {
		name, bore := t.Require("part"), t.Require("bore", "inside diameter")
		length, rough, loss := t.Require("length"), t.Require("roughness"), t.Require("loss k")
		// Two bends of one kind may stand in two equal lines.
		for _, row := range t.Rows {
			p := plan.HosePart{
				Name:      text(row, name),
				Bore:      cell(t, row, bore, units.ParseLength),
				Length:    maybe(t, row, length, units.ParseLength),
				Roughness: maybe(t, row, rough, units.ParseLength),
			}
			if loss >= 0 && row.Cells[loss] != "" {
				p.Loss, _ = t.Float(row, loss)
			}
			r.in.Hose.Parts = append(r.in.Hose.Parts, p)
		}
	})
}

func (r *reader) tide() {
	loc, _ := plan.ParseZone(r.in.Tide.Zone) // a wrong one is told by meaning
	r.table("tide.csv", "tide.waters", func(t *csvtable.Table) {
		at, height, kind := t.Require("time"), t.Require("height"), t.Require("water", "kind")
		r.rows(t, "tide.waters", func(row csvtable.Row) {
			w := plan.TideTurn{Height: cell(t, row, height, units.ParseLength), Time: r.clock(t, row, at, loc)}
			switch k := strings.ToLower(text(row, kind)); k {
			case "high", "hw", "h":
				w.High = true
			case "low", "lw", "l":
			default:
				t.Fault(row, kind, "%q is neither high nor low water", k)
			}
			r.in.Tide.Waters = append(r.in.Tide.Waters, w)
		})
	})
}

func (r *reader) containers() {
	r.table("containers.csv", "haul.containers", func(t *csvtable.Table) {
		kind, number, volume := t.Require("kind"), t.Require("number"), t.Require("volume")
		tare, gain := t.Require("tare"), t.Require("heat gain")
		product := t.Require("product each")
		r.rows(t, "haul.containers", func(row csvtable.Row) {
			r.in.Haul.Containers = append(r.in.Haul.Containers, plan.Container{
				Name:    text(row, kind),
				Number:  whole(t, row, number, "the cell is empty"),
				Volume:  cell(t, row, volume, units.ParseVolume),
				Tare:    cell(t, row, tare, units.ParseMass),
				Gain:    cell(t, row, gain, units.ParseThermalConductance),
				Product: cell(t, row, product, units.ParseMass),
			})
		})
	})
}

func (r *reader) trucks() {
	loc, _ := plan.ParseZone(r.in.Place.Zone)
	r.table("trucks.csv", "haul.trucks", func(t *csvtable.Table) {
		name, payload := t.Require("truck"), t.Require("payload")
		slots, layers, ready := t.Require("floor positions"), t.Require("layers"), t.Require("ready to load")
		r.rows(t, "haul.trucks", func(row csvtable.Row) {
			r.in.Haul.Trucks = append(r.in.Haul.Trucks, plan.Truck{
				Name:    text(row, name),
				Payload: cell(t, row, payload, units.ParseMass),
				Slots:   whole(t, row, slots, "the cell is empty; write 0 if floor space does not limit"),
				Layers:  whole(t, row, layers, "the cell is empty"),
				Ready:   r.clock(t, row, ready, loc),
			})
		})
	})
}

// clock reads a date and time. A time without its own offset is of the zone
// loc; without that it is refused, since an hour's error is a tide's error.
func (r *reader) clock(t *csvtable.Table, row csvtable.Row, column int, loc *time.Location) time.Time {
	if column < 0 {
		return time.Time{}
	}
	s := strings.Replace(row.Cells[column], "T", " ", 1)
	if day, rest, ok := strings.Cut(s, " "); ok && strings.HasPrefix(rest, "24:00") {
		if d, err := time.Parse(time.DateOnly, day); err == nil {
			s = d.AddDate(0, 0, 1).Format(time.DateOnly) + " 00:00" + rest[len("24:00"):]
			r.remark(CodeMidnight, t.File, fmt.Sprintf("%s line %d: 24:00 was read as 00:00 of the next day", t.File, row.Line))
		}
	}
	var errZone = errors.New("no zone")
	read := func() (time.Time, error) {
		for _, f := range []string{"2006-01-02 15:04:05Z07:00", "2006-01-02 15:04Z07:00"} {
			if x, err := time.Parse(f, s); err == nil {
				return x, nil
			}
		}
		for _, f := range []string{time.DateTime, "2006-01-02 15:04"} {
			if x, err := time.Parse(f, s); err == nil {
				if loc == nil {
					return x, errZone
				}
				return time.ParseInLocation(f, s, loc)
			}
		}
		return time.Time{}, errors.New("form")
	}
	x, err := read()
	switch {
	case errors.Is(err, errZone):
		// The missing offset is told once, where it belongs.
	case err != nil:
		t.Fault(row, column, "%q is not a date and time; write year-month-day hour:minute, such as 2027-03-14 17:00", row.Cells[column])
	}
	return x
}
