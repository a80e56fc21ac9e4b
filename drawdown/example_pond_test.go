package drawdown_test

import (
	"errors"
	"fmt"

	"pondwright.example/drawdown"
	"pondwright.example/units"
)

// The pond as a table of stages and areas, and where its last fifth begins.
func ExampleNewStageTable() {
	pond, err := drawdown.NewStageTable([]drawdown.StageArea{
		{Stage: 0 * units.Metre, Area: 40 * units.SquareMetre},
		{Stage: 0.3 * units.Metre, Area: 2800 * units.SquareMetre},
		{Stage: 1.2 * units.Metre, Area: 3400 * units.SquareMetre},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f from %.1f to %.1f\n", pond.Capacity(), pond.Bottom(), pond.Top())
	fmt.Printf("at 0.6 m: %.1f, %.1f\n", pond.Area(0.6*units.Metre), pond.Volume(0.6*units.Metre))
	fmt.Printf("500 m3 stand at %.3f\n", pond.Stage(500*units.CubicMetre))
	last, err := pond.FractionStage(0.2)
	fmt.Printf("the last fifth begins at %.3f %v\n", last, err)
	// Output:
	// 3216.0 m3 from 0.0 m to 1.2 m
	// at 0.6 m: 3000.0 m2, 1296.0 m3
	// 500 m3 stand at 0.326 m
	// the last fifth begins at 0.377 m <nil>
}

// A typing error in a table is named by its rows, never sorted away.
func ExampleNewStageTable_refused() {
	_, err := drawdown.NewStageTable([]drawdown.StageArea{
		{Stage: 0 * units.Metre, Area: 40 * units.SquareMetre},
		{Stage: 1.2 * units.Metre, Area: 3400 * units.SquareMetre},
		{Stage: 0.3 * units.Metre, Area: 2800 * units.SquareMetre},
	})
	fmt.Println(err)
	// Output:
	// drawdown.NewStageTable: stages[2].stage = 0.3 m: impossible input: row 3 lies below row 2 at 1.2 m; stages must rise from row to row (rows are not sorted for you)
}

// A solver that stays between two rows holds on to their segment.
func ExampleStageTable_Segment() {
	pond, err := drawdown.NewStageTable([]drawdown.StageArea{{Stage: 0, Area: 100}, {Stage: 1, Area: 300}, {Stage: 2, Area: 400}})
	if err != nil {
		fmt.Println(err)
		return
	}
	i := pond.Find(1.5 * units.Metre)
	s := pond.Segment(i)
	fmt.Println(i, "of", pond.Segments(), "from", s.Lower(), "to", s.Upper())
	fmt.Println(s.Area(1.5*units.Metre), s.Volume(1.5*units.Metre), s.Stage(362.5*units.CubicMetre))
	// Output:
	// 1 of 2 from 1 m to 2 m
	// 350 m2 362.5 m3 1.5 m
}

// A levee pond with a sloping floor, an internal drain and a catch basin.
func ExampleJoin() {
	floor, err1 := drawdown.RectangularPond{Length: 90, Width: 60, Fall: 0.3, SideSlope: 3, DeepEndSlope: 3, ShallowEndSlope: 3,
		Floor: 0, Crest: 1.4}.Shape()
	drain, err2 := drawdown.Ditch{Length: 85, BottomWidth: 0.6, SideSlope: 1, Lip: 0, NearDepth: 0.4, FarDepth: 0.1}.Shape()
	basin, err3 := drawdown.CatchBasin{Length: 5, Width: 4, Lip: 0, Depth: 1}.Shape()
	pond, err4 := drawdown.Join(floor, drain, basin)
	table, err5 := drawdown.Tabulate(pond, 1e-4)
	if err := errors.Join(err1, err2, err3, err4, err5); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f between %.2f and %.2f\n", pond.Volume(pond.Top()), pond.Bottom(), pond.Top())
	fmt.Printf("under the floor: %.1f\n", pond.Volume(0))
	fmt.Printf("at 0.8 m: %.0f, back to %.3f\n", pond.Area(0.8*units.Metre), pond.Stage(pond.Volume(0.8*units.Metre)))
	fmt.Printf("as a table: %.0f\n", table.Capacity())
	// Output:
	// 7522 m3 between -1.00 m and 1.40 m
	// under the floor: 38.7 m3
	// at 0.8 m: 6001 m2, back to 0.800 m
	// as a table: 7523 m3
}

// Three rules for the water between two contours of a round basin.
func ExampleConicVolume() {
	lower, upper, interval := 900*units.SquareMetre, 1600*units.SquareMetre, 1*units.Metre
	average, _ := drawdown.AverageEndVolume(lower, upper, interval)
	conic, _ := drawdown.ConicVolume(lower, upper, interval)
	prismoid, _ := drawdown.PrismoidalVolume(lower, 1225*units.SquareMetre, upper, interval)
	fmt.Printf("%.1f %.1f %.1f\n", average, conic, prismoid)
	// Output: 1250.0 m3 1233.3 m3 1233.3 m3
}

// The area inside an outline paced off with a positioning receiver.
func ExamplePolygonArea() {
	area, err := drawdown.PolygonArea([]drawdown.Corner{{X: 0, Y: 0}, {X: 62, Y: 4}, {X: 58, Y: 47}, {X: 3, Y: 41}})
	fmt.Println(area.Text(units.SquareMetres), err)
	round, err := drawdown.CircleArea(520 * units.Foot)
	fmt.Printf("%.3f %v\n", round.In(units.Acres), err)
	// Output:
	// 2459.5 m2 <nil>
	// 0.494 <nil>
}

// Levels of different datums meet only through a known offset.
func ExampleLevel_On() {
	high := drawdown.Level{Height: 1.3 * units.Metre, Datum: "tide datum"}
	_, err := high.On("outlet invert")
	fmt.Println(errors.Is(err, drawdown.ErrDatumMissing))
	offset := 0.6 * units.Metre // the invert lies 0.6 m above the zero of the tide tables
	stage, err := high.On("outlet invert", drawdown.DatumTie{From: "outlet invert", To: "tide datum", Offset: &offset})
	fmt.Printf("%.2f %v\n", stage, err)
	// Output:
	// true
	// 0.70 m <nil>
}

// What "about five acres and four feet" may hold.
func ExampleRoughPond_Estimate() {
	e, err := drawdown.RoughPond{Area: 5 * units.Acre, Depth: 4 * units.Foot}.Estimate()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f to %.0f, most likely near %.0f\n", e.P10, e.P90, e.P50)
	fmt.Printf("the shape makes %.0f %% of the doubt\n", 100*e.FromShape)
	// Output:
	// 9950 m3 to 24432 m3, most likely near 15591 m3
	// the shape makes 63 % of the doubt
}

// Groundwater beside a lined pond, and a bank that drains slower than the pond.
func ExampleLiner_LowestStage() {
	stage, err := drawdown.Liner{Groundwater: 0.7 * units.Metre, Floor: 0, Ballast: 150 * units.KilogramPerSquareMetre}.LowestStage()
	fmt.Printf("%.2f %v\n", stage, err)
	factor, err := drawdown.Bank{Slope: 3, Friction: 28 * units.Degree, Cohesion: 3 * units.Kilopascal, SlipDepth: 1 * units.Metre,
		Saturated: 1950 * units.KilogramPerCubicMetre}.SuddenDrawdownFactor()
	fmt.Printf("%.2f %v\n", factor, err)
	// Output:
	// 0.62 m <nil>
	// 1.30 <nil>
}
