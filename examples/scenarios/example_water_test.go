package scenarios_test

import (
	"fmt"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

// How much water is in the pond, how long does it take, and what governs the
// outlet at each stage? A pipe of hydraulics drains a pond of drawdown.
func Example_hoursToDrain() {
	pond, pipes := canePond(1), caneDrains(2, 3.4)
	fmt.Printf("%.0f m3, %.2f acre-feet\n", pond.Capacity().CubicMetres(), pond.Capacity().In(units.AcreFeet))
	for _, level := range []units.Length{1.6 * units.Metre, 0.9 * units.Metre, 0.1 * units.Metre} {
		fmt.Printf("%.1f m: %.0f m3/h by the %v\n", level.Metres(), pipes.Discharge(level, -1*units.Metre).In(units.CubicMetresPerHour), pipes.Control(level, -1*units.Metre))
	}
	run, err := drawdown.Plan{
		Pond: pond, Start: morning, Stage: 1.6 * units.Metre, Target: 0.45 * units.Metre,
		Gates:   []drawdown.Gate{{Name: "drains", Outlet: pipes}},
		Inflows: []drawdown.Inflow{{Name: "well", Rate: units.CubicMetresPerHour.Of(75)}},
	}.Run()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("0.45 m after %.1f h\n", run.Elapsed.Hours())
	// Output:
	// 46655 m3, 37.82 acre-feet
	// 1.6 m: 1285 m3/h by the full pipe
	// 0.9 m: 921 m3/h by the full pipe
	// 0.1 m: 29 m3/h by the part-full pipe
	// 0.45 m after 46.9 h
}
