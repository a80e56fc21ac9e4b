package drawdown

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Every kind of pond of this package can stand in a Plan.
var (
	_ Storage = StageTable{}
	_ Storage = Shape{}
	_ Storage = Bed{}
)

// Tabulate turns a pond with exact storage into a [StageTable] whose volume
// departs from it by at most tolerance times its capacity at any row (and by
// no more than the bend inside one interval between rows). Rows stand at the
// pond's corners and are halved until the trapezoid between two of them has its
// share of the error; a jump of the area gets two rows a micrometre apart. A
// tolerance of zero means 1e-5.
//
// It fails when the pond holds no water, or when tolerance is not between 1e-9
// and 0.1.
//
// Source: adaptive trapezoids, standard numerical practice.
func Tabulate(pond Storage, tolerance float64) (StageTable, error) {
	const fn = "drawdown.Tabulate"
	if tolerance == 0 {
		tolerance = 1e-5
	}
	if pond == nil {
		return StageTable{}, &units.InputError{Func: fn, Field: "pond", Value: math.NaN(), Reason: "no pond was given"}
	}
	lo, hi := float64(pond.Bottom()), float64(pond.Top())
	capacity := float64(pond.Volume(pond.Top()))
	err := errors.Join(
		units.Within(fn, "tolerance", tolerance, 1e-9, 0.1, ""),
		units.Positive(fn, "depth", hi-lo, "m"),
		units.Positive(fn, "capacity", capacity, "m3"))
	if err != nil {
		return StageTable{}, err
	}
	b := tableBuilder{pond: pond, perMetre: tolerance * capacity / (hi - lo)}
	corners := pond.Corners()
	stops := []float64{lo}
	if len(corners) <= 200 { // a surveyed bed has one per point and is halved instead
		for _, c := range corners {
			if h := float64(c); h > stops[len(stops)-1]+2*jumpWidth && h < hi-2*jumpWidth {
				stops = append(stops, h)
			}
		}
	}
	stops = append(stops, hi)
	b.row(lo)
	for i := 1; i < len(stops); i++ {
		b.fill(stops[i-1], stops[i], 0)
	}
	return NewStageTable(b.rows, AllowOverhang)
}

// jumpWidth is the height given to a jump of the area.
const jumpWidth = 1e-6

type tableBuilder struct {
	pond     Storage
	perMetre float64 // error allowed per metre of stage
	rows     []StageArea
}

func (b *tableBuilder) area(h float64) float64 { return float64(b.pond.Area(units.Length(h))) }

func (b *tableBuilder) row(h float64) {
	b.rows = append(b.rows, StageArea{units.Length(h), units.Area(b.area(h))})
}

// fill adds the rows above lo up to hi. The area just under hi may differ from
// that at hi.
func (b *tableBuilder) fill(lo, hi float64, depth int) {
	under := hi - jumpWidth
	if under <= lo {
		b.row(hi)
		return
	}
	au, ah := b.area(under), b.area(hi)
	al := b.area(lo)
	jump := math.Abs(ah-au)*(hi-lo) > 4*jumpWidth*(math.Abs(au-al)+math.Abs(ah)*1e-3)*4
	end := hi
	if jump {
		end = under
	}
	mid := 0.5 * (lo + end)
	exact := float64(b.pond.Volume(units.Length(end)) - b.pond.Volume(units.Length(lo)))
	trapezoid := 0.5 * (al + b.area(end)) * (end - lo)
	half := float64(b.pond.Volume(units.Length(mid)) - b.pond.Volume(units.Length(lo)))
	halfTrapezoid := 0.25 * (1.5*al + 0.5*b.area(end)) * (end - lo)
	share := b.perMetre * (end - lo)
	if depth < 40 && (math.Abs(exact-trapezoid) > share || math.Abs(half-halfTrapezoid) > 4*share) {
		b.fill(lo, mid, depth+1)
		b.fill(mid, hi, depth+1)
		return
	}
	if jump {
		b.row(under)
	}
	b.row(hi)
}
