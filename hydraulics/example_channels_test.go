package hydraulics_test

import (
	"fmt"

	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

// Chow (1959), examples 6-2 and 4-2: 400 cfs in a trapezoid 20 ft wide with 2:1
// sides, slope 0.0016, n 0.025. The book finds a normal depth of 3.36 ft and a
// critical depth of 2.15 ft.
func ExampleNormalDepth() {
	s := hydraulics.TrapezoidalSection{BottomWidth: 20 * units.Foot, SideSlope: 2}
	q := 400 * units.CubicFootPerSecond
	yn, err := hydraulics.NormalDepth(s, q, 0.025, 0.0016)
	fmt.Printf("%.2f ft %v\n", yn.In(units.Feet), err)
	yc, err := hydraulics.CriticalDepth(s, q)
	fmt.Printf("%.2f ft %v\n", yc.In(units.Feet), err)
	f, _ := hydraulics.FroudeNumber(s, q, yn)
	e, _ := hydraulics.SpecificEnergy(s, q, yn)
	fmt.Printf("Froude number %.2f, energy %.2f ft\n", f, e.In(units.Feet))
	// Output:
	// 3.36 ft <nil>
	// 2.15 ft <nil>
	// Froude number 0.48, energy 3.67 ft
}

// Chow (1959), example 10-1: the backwater of a dam, 5 ft deep, up that channel
// to 3.40 ft. Exact integration gives 2386 ft; the book's steps about 2370.
func ExampleBackwaterLength() {
	r := hydraulics.ChannelReach{Section: hydraulics.TrapezoidalSection{BottomWidth: 20 * units.Foot, SideSlope: 2},
		Slope: 0.0016, ManningN: 0.025, Flow: 400 * units.CubicFootPerSecond, Coriolis: 1.10}
	x, err := hydraulics.BackwaterLength(r, 5*units.Foot, 3.40*units.Foot)
	fmt.Printf("%.0f ft %v\n", x.In(units.Feet), err)
	// Output: -2385 ft <nil>
}

// White, Fluid Mechanics, example 10.7: 10 m2/s at 1.25 m jumps to 3.46 m and
// loses 0.625 m and 61 kW per metre of width.
func ExampleJump() {
	s := hydraulics.RectangularSection{Width: 1}
	j, err := hydraulics.Jump(s, 10, 1.25)
	p, _ := hydraulics.JumpPower(998, 10, j.EnergyLoss)
	fmt.Printf("F %.2f, %.2f m, loss %.3f m, %.0f kW %v\n", j.Froude, j.Downstream.Metres(), j.EnergyLoss.Metres(), p.In(units.Kilowatts), err)
	y, _ := hydraulics.AlternateDepth(s, 10, 1.25)
	fmt.Printf("alternate depth %.2f m\n", y.Metres())
	// Output:
	// F 2.28, 3.46 m, loss 0.625 m, 61 kW <nil>
	// alternate depth 4.23 m
}

// A drain pipe of 300 mm running half full carries half its flow, and most of
// all just below its crown.
func ExampleCircularPartFull() {
	half, _ := hydraulics.CircularPartFull(0.5)
	most, _ := hydraulics.CircularPartFull(0.938)
	fmt.Printf("%.3f %.3f\n", half.Flow, most.Flow)
	s := hydraulics.CircularSection{Diameter: 0.3}
	u, err := hydraulics.ManningFlow(s, 0.15, 0.011, 0.005)
	fmt.Printf("%.1f L/s at %.2f m/s %v\n", u.Flow.In(units.LitresPerSecond), u.Velocity.MetresPerSecond(), err)
	fmt.Printf("%.4f m2, wet %.3f m, surface %.2f m of at most %v\n", s.Area(0.15).SquareMetres(),
		s.WettedPerimeter(0.15).Metres(), s.TopWidth(0.15).Metres(), s.MaxDepth())
	// Output:
	// 0.500 1.076
	// 40.4 L/s at 1.14 m/s <nil>
	// 0.0353 m2, wet 0.471 m, surface 0.30 m of at most 0.3 m
}

// The flow at critical depth in a 300 mm pipe under 0.2375 m of energy: what the
// mouth of a drain admits with the pond at 0.25 m.
func ExampleCriticalFlowCircular() {
	q, err := hydraulics.CriticalFlowCircular(0.3, 0.95*0.25)
	fmt.Printf("%.1f m3/h %v\n", q.In(units.CubicMetresPerHour), err)
	// Output: 171.2 m3/h <nil>
}
