package hydraulics_test

import (
	"fmt"

	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

// The drain of a lined pond: 0.30 m plastic pipe through the bank, a screen and
// a flap gate, rated while the tide stands below it and again when it is 0.2 m
// over the invert.
func ExampleNewOutletPipe() {
	drain, err := hydraulics.NewOutletPipe(hydraulics.OutletPipeSpec{
		Bore: 0.30 * units.Metre, Length: 18 * units.Metre, Roughness: 0.015 * units.Millimetre,
		LossSum: 0.5 + 1.2 + 1.0, EntryLoss: 0.05, Viscosity: 0.85 * units.Centistoke,
		Backflow: hydraulics.BackflowFlap,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, level := range []units.Length{1.4, 0.8, 0.4, 0.25} {
		fmt.Printf("%.2f m: %3.0f m3/h by the %v, %3.0f m3/h with the tide in\n", level.Metres(),
			drain.Discharge(level, -1).In(units.CubicMetresPerHour), drain.Control(level, -1),
			drain.Discharge(level, 0.2).In(units.CubicMetresPerHour))
	}
	rating, _ := hydraulics.NewRating(drain, -1, 0.01, 1.4, 100)
	for _, c := range rating.Changes {
		fmt.Printf("%.3f m: %v takes over\n", c.Level.Metres(), c.Above)
	}
	// Output:
	// 1.40 m: 677 m3/h by the full pipe, 663 m3/h with the tide in
	// 0.80 m: 486 m3/h by the full pipe, 467 m3/h with the tide in
	// 0.40 m: 299 m3/h by the full pipe, 267 m3/h with the tide in
	// 0.25 m: 171 m3/h by the inlet, 106 m3/h with the tide in
	// 0.173 m: inlet takes over
	// 0.295 m: part-full pipe takes over
	// 0.300 m: full pipe takes over
}

// The same drain by the two ways to end its pressure line. With the pond high
// they differ little; for the last water, with a screen, the centreline promises
// half as much again as the pipe gives.
func ExampleOutfallLine() {
	spec := hydraulics.OutletPipeSpec{
		Bore: 0.30 * units.Metre, Length: 18 * units.Metre, Roughness: 0.015 * units.Millimetre,
		LossSum: 2.7, EntryLoss: 0.05, Viscosity: 0.85 * units.Centistoke, Backflow: hydraulics.BackflowFlap,
	}
	for _, line := range []hydraulics.OutfallLine{hydraulics.OutfallCentreline, hydraulics.OutfallBrink} {
		spec.Outfall = line
		drain, err := hydraulics.NewOutletPipe(spec)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v:", line)
		for _, level := range []units.Length{1.4, 0.8, 0.4, 0.25} {
			fmt.Printf(" %.0f", drain.Discharge(level, -1).In(units.CubicMetresPerHour))
		}
		fmt.Println(" m3/h")
	}
	// Output:
	// centreline: 677 486 299 171 m3/h
	// brink: 636 433 231 108 m3/h
}

// What nobody chose is an error, not a guess.
func ExampleOutletPipeSpec_Validate() {
	_, err := hydraulics.NewOutletPipe(hydraulics.OutletPipeSpec{
		Bore: 300 * units.Metre, Length: 18 * units.Metre, LossSum: 2.7, Viscosity: 0.85 * units.Centistoke,
	})
	fmt.Println(err)
	// Output:
	// hydraulics.OutletPipeSpec: bore = 300 m: impossible input: must be a bore between 0 and 5 m; is it in millimetres or inches? (valid: 0 to 5 m)
	// hydraulics.OutletPipeSpec: backflow = 0: impossible input: say what a tailwater above the pond does: BackflowFlap (no flow) or BackflowReverse
}

// The worked example that circulates with the Water Measurement Manual: a notch
// of 2 ft in a channel of 4 ft, 1 ft above the bed, under 0.45 ft. Francis gives
// 1.92 cfs and Kindsvater-Carter 1.96.
func ExampleRectangularWeirSpec_Flow() {
	s := hydraulics.RectangularWeirSpec{Width: 2 * units.Foot, ChannelWidth: 4 * units.Foot, CrestHeight: 1 * units.Foot,
		Backflow: hydraulics.BackflowFlap}
	for _, m := range []hydraulics.WeirMethod{hydraulics.Francis1883, hydraulics.KindsvaterCarterUSBR} {
		s.Method = m
		q, err := s.Flow(0.45 * units.Foot)
		fmt.Printf("%.2f cfs %v\n", q.In(units.CubicFeetPerSecond), err)
	}
	_, err := s.Flow(2 * units.Centimetre)
	fmt.Println(err)
	// Output:
	// 1.92 cfs <nil>
	// 1.96 cfs <nil>
	// hydraulics.RectangularWeirSpec.Flow: head = 0.02 m: outside the published range: ISO 1438:2008, Kindsvater-Carter limits (from memory) (valid: at least 0.03 m)
}

// A tailwater over the crest by half the head leaves 0.84 of the free flow over a
// rectangular weir, and 0.93 through a notch.
func ExampleVillemonteRatio() {
	rect, _ := hydraulics.VillemonteRatio(0.2, 0.1, hydraulics.RectangularExponent)
	notch, _ := hydraulics.VillemonteRatio(0.2, 0.1, hydraulics.TriangularExponent)
	fmt.Printf("%.3f %.3f\n", rect, notch)
	// Output: 0.845 0.928
}

// A right-angled notch measures the seepage of a pond.
func ExampleNewVNotchWeir() {
	w, err := hydraulics.NewVNotchWeir(hydraulics.VNotchWeirSpec{Angle: 90 * units.Degree, ChannelWidth: 1, VertexHeight: 0.5,
		Backflow: hydraulics.BackflowFlap})
	fmt.Printf("%.2f L/s %v\n", w.Discharge(0.1, -1).In(units.LitresPerSecond), err)
	// Output: 4.41 L/s <nil>
}

// Water 0.2 m over a bank crest 1 m broad and 5 m wide.
func ExampleNewBroadCrest() {
	w, err := hydraulics.NewBroadCrest(hydraulics.BroadCrestSpec{Width: 5, Length: 1, CrestHeight: 1.5, Backflow: hydraulics.BackflowFlap})
	fmt.Printf("%.3f m3/s %v\n", w.Discharge(0.2, -1).CubicMetresPerSecond(), err)
	// Output: 0.659 m3/s <nil>
}

// The three boards of a monk, pulled one by one with the pond at 0.58 m.
func ExampleNewStoplogBay() {
	bay, err := hydraulics.NewStoplogBay(hydraulics.StoplogBaySpec{
		Boards: []units.Length{0.2, 0.2, 0.15}, Width: 0.8, ChannelWidth: 0.8, Thickness: 0.05,
		Leakage: 0.1 * units.LitrePerSecond, Backflow: hydraulics.BackflowFlap})
	if err != nil {
		fmt.Println(err)
		return
	}
	for n := 3; n >= 0; n-- {
		b, _ := bay.WithBoards(n)
		fmt.Printf("%d boards, crest %.2f m: %5.1f L/s, of which %.2f leak\n", n, b.Crest().Metres(),
			b.Discharge(0.58, -1).In(units.LitresPerSecond), b.Leakage(0.58, -1).In(units.LitresPerSecond))
	}
	// Output:
	// 3 boards, crest 0.55 m:   6.5 L/s, of which 0.14 leak
	// 2 boards, crest 0.40 m: 115.5 L/s, of which 0.11 leak
	// 1 boards, crest 0.20 m: 412.8 L/s, of which 0.06 leak
	// 0 boards, crest 0.00 m: 520.4 L/s, of which 0.00 leak
}

// A hole of 0.1 m2 a metre under water, and a 300 mm hole in a wall as it falls
// dry.
func ExampleNewOrifice() {
	q, _ := hydraulics.OrificeFlow(hydraulics.SharpOrifice, 0.01, 1)
	fmt.Printf("%.2f L/s\n", q.In(units.LitresPerSecond))
	o, err := hydraulics.NewOrifice(hydraulics.OrificeSpec{Diameter: 0.3, Coefficient: 0.6, Backflow: hydraulics.BackflowFlap})
	fmt.Printf("%.1f %.1f %.1f L/s %v\n", o.Discharge(1, -1).In(units.LitresPerSecond),
		o.Discharge(0.3, -1).In(units.LitresPerSecond), o.Discharge(0.1, -1).In(units.LitresPerSecond), err)
	// Output:
	// 27.02 L/s
	// 173.0 69.9 10.4 L/s <nil>
}

// A gate open 0.10 m under 1 m of water, free and with 0.8 m of tailwater.
func ExampleNewSluiceGate() {
	g, err := hydraulics.NewSluiceGate(hydraulics.SluiceGateSpec{Width: 1, Opening: 0.1, Backflow: hydraulics.BackflowFlap})
	fmt.Printf("%.3f m3/s %v, %.3f m3/s %v, %v\n", g.Discharge(1, 0).CubicMetresPerSecond(), g.Control(1, 0),
		g.Discharge(1, 0.8).CubicMetresPerSecond(), g.Control(1, 0.8), err)
	// Output: 0.262 m3/s gate, 0.131 m3/s drowned gate, <nil>
}

// The head that a 300 mm flap takes, and the velocity that a head opens it to.
func ExampleFlapHeadLoss() {
	h, _ := hydraulics.FlapHeadLoss(0.4, 0.3)
	v, _ := hydraulics.FlapVelocity(h, 0.3)
	fmt.Printf("%.1f mm, %.2f m/s\n", h.In(units.Millimetres), v.MetresPerSecond())
	// Output: 14.3 mm, 0.40 m/s
}

// A standpipe of 450 mm over a 300 mm pipe, rated with the control at each level.
func ExampleNewRiser() {
	r, err := hydraulics.NewRiser(hydraulics.RiserSpec{Diameter: 0.45, WeirCoefficient: 1.84, OrificeCoefficient: 0.6,
		PipeDiameter: 0.3, PipeLength: 15, ManningN: 0.011, LossSum: 2.1, OutletCentre: -1.2, Backflow: hydraulics.BackflowFlap})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f L/s 50 mm over the rim\n", r.Discharge(0.05, -2).In(units.LitresPerSecond))
	rating, _ := hydraulics.NewRating(r, -2, 0.01, 0.5, 50)
	for _, c := range rating.Changes {
		fmt.Printf("%.3f m: %v to %v\n", c.Level.Metres(), c.Below, c.Above)
	}
	z, _ := rating.LevelAt(200 * units.LitrePerSecond)
	fmt.Printf("200 L/s at %.2f m\n", z.Metres())
	// Output:
	// 29 L/s 50 mm over the rim
	// 0.162 m: weir to orifice
	// 0.246 m: orifice to full pipe
	// 200 L/s at 0.22 m
}

// HDS-5, chapter III, example 4: a box of 2134 mm with square edges at 16.99
// m3/s. Its performance table has 3.45 m of headwater, and 5.8 m3/s over the road
// at 0.16 m.
func ExampleNewCulvert() {
	c, err := hydraulics.NewCulvert(hydraulics.CulvertSpec{Span: 2.134, Rise: 2.134, Length: 61, Fall: 3.05, ManningN: 0.012,
		Invert: 30.480, Inlet: hydraulics.BoxWings90Or15, Backflow: hydraulics.BackflowFlap})
	if err != nil {
		fmt.Println(err)
		return
	}
	h, err := c.Headwater(16.99, 0)
	fmt.Printf("%.2f m by the %v %v\n", h.Headwater.Metres(), h.Control, err)
	fmt.Printf("%.2f m3/s at that level\n", c.Discharge(30.480+h.Headwater, 0).CubicMetresPerSecond())
	over, _ := hydraulics.OvertoppingFlow(0.552*2.70, 1, 60.96, 0.16)
	fmt.Printf("%.1f m3/s over the road\n", over.CubicMetresPerSecond())
	in, _ := hydraulics.EntranceHeadwater(5.481, 0.970, 0.5)
	fmt.Printf("%.3f m\n", in.Metres())
	// Output:
	// 3.48 m by the inlet <nil>
	// 16.99 m3/s at that level
	// 5.8 m3/s over the road
	// 5.966 m
}

// A siphon over a bank at sea level, and how high its crest could stand.
func ExampleNewSiphon() {
	crest := hydraulics.SiphonCrest{Atmosphere: 101325, VapourPressure: 4247, Density: 995.65, Velocity: 2, Loss: 0.8}
	z, _ := crest.MaxRise()
	fmt.Printf("boils %.2f m above the pond\n", z.Metres())
	s, err := hydraulics.NewSiphon(hydraulics.SiphonSpec{Bore: 0.15, Length: 20, Roughness: 0.1 * units.Millimetre, LossSum: 2.5,
		UpLength: 8, UpLossSum: 1, Intake: 0.3, Crest: 3, OutletCentre: -1,
		Atmosphere: 101325, VapourPressure: 4247, Density: 995.65, Viscosity: 0.8 * units.Centistoke})
	fmt.Printf("%.0f m3/h, breaks at %v %v\n", s.Discharge(1, -2).In(units.CubicMetresPerHour), s.BreaksAt(), err)
	// Output:
	// boils 8.94 m above the pond
	// 179 m3/h, breaks at 0.3 m <nil>
}

// An outlet gauged in the field.
func ExampleNewRatedOutlet() {
	o, err := hydraulics.NewRatedOutlet([]hydraulics.RatingPoint{
		{Level: 0, Flow: 0}, {Level: 0.2, Flow: 0.02}, {Level: 0.5, Flow: 0.09}, {Level: 1, Flow: 0.15}})
	fmt.Printf("%.1f L/s %v\n", o.Discharge(0.4, -1).In(units.LitresPerSecond), err)
	// Output: 67.6 L/s <nil>
}

// A monk: boards in a bay, and the pipe that drains it. A hand over the boards
// the overfall governs; with the pond high the pipe does, whatever the boards.
func ExampleNewStructuresInSeries() {
	bay, err := hydraulics.NewStoplogBay(hydraulics.StoplogBaySpec{Boards: []units.Length{0.2, 0.2}, Width: 0.6, ChannelWidth: 0.6,
		Thickness: 0.05, Backflow: hydraulics.BackflowFlap})
	if err != nil {
		fmt.Println(err)
		return
	}
	pipe, err := hydraulics.NewOutletPipe(hydraulics.OutletPipeSpec{Bore: 0.3, Length: 18, Roughness: 0.015 * units.Millimetre,
		LossSum: 2.7, EntryLoss: 0.05, Viscosity: 0.85 * units.Centistoke, Backflow: hydraulics.BackflowFlap})
	if err != nil {
		fmt.Println(err)
		return
	}
	monk, _ := hydraulics.NewStructuresInSeries(bay, pipe)
	for _, level := range []units.Length{0.5, 1.4} {
		fmt.Printf("%.1f m: %.0f m3/h by the %v, %.2f m in the bay behind the boards\n", level.Metres(),
			monk.Discharge(level, -1).In(units.CubicMetresPerHour), monk.Control(level, -1), monk.Between(level, -1).Metres())
	}
	two, _ := hydraulics.NewStructuresInParallel(pipe, pipe)
	fmt.Printf("two pipes %.0f m3/h\n", two.Discharge(1.4, -1).In(units.CubicMetresPerHour))
	// Output:
	// 0.5 m: 127 m3/h by the weir, 0.21 m in the bay behind the boards
	// 1.4 m: 676 m3/h by the full pipe, 1.40 m in the bay behind the boards
	// two pipes 1354 m3/h
}
