package drawdown_test

import (
	"fmt"
	"math"

	"pondwright.example/drawdown"
	"pondwright.example/units"
)

// Soundings from a boat, depths below the water level of the day, inside a
// shore: the bed, its storage, its band and what cannot run out.
func ExampleSurvey_Bed() {
	var s drawdown.Survey
	s.Sense = drawdown.DepthDown
	s.WaterLevel = drawdown.Level{Height: 1.3 * units.Metre, Datum: "outlet invert"}
	s.PondDatum = "outlet invert"
	for i := range 36 { // a round pond of 40 m radius
		a := float64(i) * math.Pi / 18
		s.Shore = append(s.Shore, drawdown.SurveyPoint{X: units.Length(40 * math.Cos(a)), Y: units.Length(40 * math.Sin(a))})
	}
	for i := -7; i <= 7; i++ {
		for j := -7; j <= 7; j++ {
			x, y := 5*float64(i)+0.7*float64(j%2), 5*float64(j)
			if r := math.Hypot(x, y); r < 38 {
				s.Points = append(s.Points, drawdown.SurveyPoint{X: units.Length(x), Y: units.Length(y), Z: units.Length(1.2 * (1 - r*r/1600))})
			}
		}
	}
	bed, err := s.Bed()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d triangles from %.2f to %.2f, rim %.2f\n", bed.Triangles(), bed.Bottom(), bed.Top(), bed.Rim())
	fmt.Printf("at 1 m: %.0f, %.0f; 1000 m3 stand at %.3f\n", bed.Area(1*units.Metre), bed.Volume(1*units.Metre), bed.Stage(1000*units.CubicMetre))
	band := bed.Band(bed.Rim())
	fmt.Printf("full: %.0f, between %.0f and %.0f\n", band.Volume, band.Low, band.High)
	left, err := bed.Stranded(0, 0, 0.4*units.Metre)
	fmt.Printf("kept behind a sill of 0.4 m: %.0f %v\n", left.Volume, err)
	// Output:
	// 396 triangles from 0.10 m to 1.30 m, rim 1.30 m
	// at 1 m: 3745 m2, 1674 m3; 1000 m3 stand at 0.797 m
	// full: 2986 m3, between 2983 m3 and 3049 m3
	// kept behind a sill of 0.4 m: 181 m3 <nil>
}

// Depths and elevations in one file are refused, with both conventions named.
func ExampleSurvey_Bed_mixed() {
	s := drawdown.Survey{Sense: drawdown.ElevationUp, Datum: "water level", PondDatum: "water level"}
	for i := range 100 {
		z := -1.2 - 0.01*float64(i%7)
		if i%9 == 0 {
			z = -z // this crew wrote depths
		}
		s.Points = append(s.Points, drawdown.SurveyPoint{X: units.Length(i % 10), Y: units.Length(i / 10), Z: units.Length(z)})
	}
	_, err := s.Bed()
	fmt.Println(err)
	// Output:
	// drawdown.Survey.Bed: points = 12 points: impossible input: two sign conventions seem mixed: 12 values are positive and 88 negative, and neighbours of opposite sign differ by 2.46 m but by only 0.03 m in size (usual step 0.02 m); depths are positive down from the water surface, elevations positive up from a datum. Bring all to one, or set MirrorSafe if both are real
}
