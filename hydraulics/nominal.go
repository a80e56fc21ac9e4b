package hydraulics

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"pondwright.example/units"
)

// PipeSize is the geometry behind a nominal size. Bore is what formulas take.
type PipeSize struct {
	Name    string         `json:"name"`    // as understood, such as "NPS 12 schedule 40"
	Outside units.Length   `json:"outside"` // zero when assumed
	Wall    units.Length   `json:"wall"`    // zero when assumed
	Bore    units.Length   `json:"bore"`
	Source  string         `json:"source"`
	Notices []units.Notice `json:"notices,omitempty"`
}

// PipeStandard names a dimension standard for pipe. It is [NoStandard],
// [ASMEB3610], [ASMEB3619] or [HoseNominal].
type PipeStandard uint8

// The standards that [NominalPipe] knows.
const (
	NoStandard  PipeStandard = iota // the size is taken as the bore, with a notice
	ASMEB3610                       // ASME B36.10M welded and seamless steel, ASTM D1785 PVC by schedule
	ASMEB3619                       // ASME B36.19M stainless steel, schedules 5S, 10S, 40S, 80S
	HoseNominal                     // ISO 1307 hose: the nominal size is the bore
)

// steelPipe is the outside diameter and walls of a nominal pipe size, in inches.
// Zero: not listed.
type steelPipe struct {
	nps           float64
	od            float64
	s10, s40, s80 float64 // schedules of B36.10M
	std, xs       float64 // standard weight, extra strong
	s5s, s10s     float64 // B36.19M: 5S, 10S; 40S is std and 80S is xs to 12
}

var steelPipes = [...]steelPipe{
	{nps: 0.5, od: 0.840, s40: 0.109, s80: 0.147, std: 0.109, xs: 0.147, s5s: 0.065, s10s: 0.083},
	{nps: 0.75, od: 1.050, s40: 0.113, s80: 0.154, std: 0.113, xs: 0.154, s5s: 0.065, s10s: 0.083},
	{nps: 1, od: 1.315, s40: 0.133, s80: 0.179, std: 0.133, xs: 0.179, s5s: 0.065, s10s: 0.109},
	{nps: 1.25, od: 1.660, s40: 0.140, s80: 0.191, std: 0.140, xs: 0.191, s5s: 0.065, s10s: 0.109},
	{nps: 1.5, od: 1.900, s40: 0.145, s80: 0.200, std: 0.145, xs: 0.200, s5s: 0.065, s10s: 0.109},
	{nps: 2, od: 2.375, s40: 0.154, s80: 0.218, std: 0.154, xs: 0.218, s5s: 0.065, s10s: 0.109},
	{nps: 2.5, od: 2.875, s40: 0.203, s80: 0.276, std: 0.203, xs: 0.276, s5s: 0.083, s10s: 0.120},
	{nps: 3, od: 3.500, s40: 0.216, s80: 0.300, std: 0.216, xs: 0.300, s5s: 0.083, s10s: 0.120},
	{nps: 3.5, od: 4.000, s40: 0.226, s80: 0.318, std: 0.226, xs: 0.318, s5s: 0.083, s10s: 0.120},
	{nps: 4, od: 4.500, s40: 0.237, s80: 0.337, std: 0.237, xs: 0.337, s5s: 0.083, s10s: 0.120},
	{nps: 5, od: 5.563, s40: 0.258, s80: 0.375, std: 0.258, xs: 0.375, s5s: 0.109, s10s: 0.134},
	{nps: 6, od: 6.625, s40: 0.280, s80: 0.432, std: 0.280, xs: 0.432, s5s: 0.109, s10s: 0.134},
	{nps: 8, od: 8.625, s40: 0.322, s80: 0.500, std: 0.322, xs: 0.500, s5s: 0.109, s10s: 0.148},
	{nps: 10, od: 10.750, s40: 0.365, s80: 0.594, std: 0.365, xs: 0.500, s5s: 0.134, s10s: 0.165},
	{nps: 12, od: 12.750, s40: 0.406, s80: 0.688, std: 0.375, xs: 0.500, s5s: 0.156, s10s: 0.180},
	{nps: 14, od: 14.000, s10: 0.250, s40: 0.438, s80: 0.750, std: 0.375, xs: 0.500, s5s: 0.156, s10s: 0.188},
	{nps: 16, od: 16.000, s10: 0.250, s40: 0.500, s80: 0.844, std: 0.375, xs: 0.500, s5s: 0.165, s10s: 0.188},
	{nps: 18, od: 18.000, s10: 0.250, s40: 0.562, s80: 0.938, std: 0.375, xs: 0.500, s5s: 0.165, s10s: 0.188},
	{nps: 20, od: 20.000, s10: 0.250, s40: 0.594, s80: 1.031, std: 0.375, xs: 0.500, s5s: 0.188, s10s: 0.218},
	{nps: 24, od: 24.000, s10: 0.250, s40: 0.688, s80: 1.219, std: 0.375, xs: 0.500, s5s: 0.218, s10s: 0.250},
}

// wall returns the wall of a schedule in inches, zero when not listed.
func (p steelPipe) wall(std PipeStandard, schedule string) float64 {
	switch {
	case std == ASMEB3610 && schedule == "10":
		if p.s10 == 0 { // to NPS 12 as 10S
			return p.s10s
		}
		return p.s10
	case std == ASMEB3610 && schedule == "40":
		return p.s40
	case std == ASMEB3610 && schedule == "80":
		return p.s80
	case std == ASMEB3610 && schedule == "STD":
		return p.std
	case std == ASMEB3610 && schedule == "XS":
		return p.xs
	case std == ASMEB3619 && schedule == "5S":
		return p.s5s
	case std == ASMEB3619 && schedule == "10S":
		return p.s10s
	case std == ASMEB3619 && schedule == "40S" && p.nps <= 12:
		return p.std
	case std == ASMEB3619 && schedule == "80S" && p.nps <= 12:
		return p.xs
	}
	return 0
}

// NominalPipe returns the bore behind a nominal size in inches, such as 12 for a
// "12-inch pipe". Which bore that is depends on standard and schedule: 12.00 in
// hose, 11.938 in schedule 40 steel, 11.374 in schedule 80. With NoStandard the
// size itself is taken as the bore and a notice says so.
//
// Validity: sizes 1/2 to 24; schedules 10, 40, 80, STD, XS of ASME
// B36.10M and 5S, 10S, 40S, 80S (to 12) of B36.19M. ErrDomain for a pair that
// the tables do not hold.
//
// Source: ASME B36.10M-2018 and B36.19M-2018, dimensions proved
// against a general library's copy; ISO 1307 for hose.
func NominalPipe(inches float64, std PipeStandard, schedule string) (PipeSize, error) {
	const fn = "hydraulics.NominalPipe"
	if err := units.Within(fn, "inches", inches, 0.25, 120, "in"); err != nil {
		return PipeSize{}, err
	}
	size := strconv.FormatFloat(inches, 'g', -1, 64)
	switch std {
	case NoStandard, HoseNominal:
		p := PipeSize{Name: size + " in bore", Bore: units.Inches.Of(inches), Source: "ISO 1307"}
		if std == NoStandard {
			p.Source = "assumed"
			p.Notices = []units.Notice{{Code: CodeNominalAssumed, Severity: units.Caution, Field: "bore", Value: inches,
				Limit: inches, Unit: "in",
				Message: "a nominal size without standard and schedule is taken as the bore: real bores differ by up to 10 %, and flow by up to 30 %"}}
		}
		return p, nil
	case ASMEB3610, ASMEB3619:
	default:
		return PipeSize{}, units.Within(fn, "std", float64(std), 0, float64(HoseNominal), "")
	}
	sch := strings.ToUpper(strings.TrimSpace(strings.TrimPrefix(key(schedule), "schedule")))
	for _, row := range steelPipes {
		if row.nps != inches {
			continue
		}
		if t := row.wall(std, sch); t > 0 {
			return PipeSize{Name: "NPS " + size + " schedule " + sch, Outside: units.Inches.Of(row.od), Wall: units.Inches.Of(t),
				Bore: units.Inches.Of(row.od - 2*t), Source: std.String()}, nil
		}
		return PipeSize{}, &units.InputError{Func: fn, Field: "schedule", Value: math.NaN(),
			Reason: fmt.Sprintf("%q is not a schedule of NPS %s in %v: want 10, 40, 80, STD or XS (B36.10M), 5S, 10S, 40S or 80S (B36.19M)", schedule, size, std)}
	}
	return PipeSize{}, &units.InputError{Func: fn, Field: "inches", Value: inches, Unit: "in", Min: 0.5, Max: 24,
		Reason: "not a size of the table: 1/2 3/4 1 1 1/4 1 1/2 2 2 1/2 3 3 1/2 4 5 6 8 10 12 14 16 18 20 24"}
}

// SDRPipe returns the size of plastic pipe by outside diameter and standard
// dimension ratio, outside diameter over wall, as polyethylene (ISO 4427) and
// PVC (ISO 1452) are sold: "160 mm SDR 17".
//
// Equation: bore = outside (1 - 2/SDR). The least wall of the standards is
// rounded up to 0.1 mm, which this is not.
//
// Source: ISO 4065, definition of the ratio.
func SDRPipe(outside units.Length, sdr float64) (PipeSize, error) {
	const fn = "hydraulics.SDRPipe"
	if err := errors.Join(boreError(fn, "outside", outside), units.Within(fn, "sdr", sdr, 5, 65, "")); err != nil {
		return PipeSize{}, err
	}
	wall := outside.Metres() / sdr
	return PipeSize{Name: fmt.Sprintf("%.4g mm SDR %.3g", outside.In(units.Millimetres), sdr), Outside: outside, Wall: units.Length(wall),
		Bore: units.Length(outside.Metres() - 2*wall), Source: "ISO 4065"}, nil
}

// tubeOutside is the outside diameter in millimetres of steel tube by nominal
// diameter, series 1.
var tubeOutside = [...]struct {
	dn int
	od float64
}{{15, 21.3}, {20, 26.9}, {25, 33.7}, {32, 42.4}, {40, 48.3}, {50, 60.3}, {65, 76.1}, {80, 88.9}, {100, 114.3}, {125, 139.7}, {150, 168.3},
	{200, 219.1}, {250, 273.0}, {300, 323.9}, {350, 355.6}, {400, 406.4}, {450, 457.0}, {500, 508.0}, {600, 610.0}}

// SteelTube returns the size of metric steel tube by nominal diameter DN and
// wall: DN 150 with 4.5 mm has a bore of 159.3 mm.
//
// Validity: DN 15 to 600 of series 1; ErrDomain for another.
//
// Source: EN 10220, ISO 4200, outside diameters of series 1, from memory.
func SteelTube(dn int, wall units.Length) (PipeSize, error) {
	const fn = "hydraulics.SteelTube"
	for _, t := range tubeOutside {
		if t.dn != dn {
			continue
		}
		od := units.Millimetres.Of(t.od)
		if !(wall > 0 && wall < od/2) {
			return PipeSize{}, &units.InputError{Func: fn, Field: "wall", Value: wall.In(units.Millimetres),
				Unit: "mm", Min: 0, Max: t.od / 2, Reason: "wall thickness"}
		}
		return PipeSize{Name: fmt.Sprintf("DN %d × %.4g mm", dn, wall.In(units.Millimetres)), Outside: od, Wall: wall, Bore: od - 2*wall, Source: "EN 10220"}, nil
	}
	return PipeSize{}, &units.InputError{Func: fn, Field: "dn", Value: float64(dn), Min: 15, Max: 600,
		Reason: "not a nominal diameter of series 1: 15 20 25 32 40 50 65 80 100 125 150 200 250 300 350 400 450 500 600"}
}
