package units_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"time"

	"pondwright.example/units"
)

// A pond's drawdown in whatever units people have at hand.
func Example() {
	area := 2.5 * units.Acre
	depth := 4 * units.Foot
	volume := area.Times(depth)
	flow := volume.Per(18 * time.Hour)

	fmt.Println(volume)
	fmt.Println(units.Digits(volume, units.USGallons, 3))
	fmt.Println(units.Digits(flow, units.USGallonsPerMinute, 3))
	fmt.Printf("%.3g\n", flow)
	// Output:
	// 12334.8 m3
	// 3260000 US gal
	// 3020 US gal/min
	// 0.19 m3/s
}

func ExampleParseFlow() {
	for _, text := range []string{"230 m3/h", "1000 [gal_us]/min", "2.2 cubic feet per second", "1000 gpm", "230"} {
		flow, err := units.ParseFlow(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(flow.Text(units.CubicMetresPerHour))
	}
	// Output:
	// 230 m3/h
	// 227.125 m3/h
	// 224.269 m3/h
	// units.Flow: "1000 gpm" has "gpm", which is ambiguous; write US gal/min or imp gal/min
	// units.Flow: "230" has no unit: 230 m3/h is 1012.66 US gal/min, 230 US gal/min is 52.2387 m3/h; write m3/s, m3/min, m3/h, m3/d, L/s, L/min, L/h, ft3/s, ft3/min, US gal/min, US gal/h, imp gal/min, US Mgal/d or acre·ft/d
}

func ExampleParseLength() {
	hose, err := units.ParseLength("4 ft 6 1/2 in")
	fmt.Println(hose, err)
	fmt.Println(hose.FeetInches(16))
	_, err = units.ParseLength("4.5")
	fmt.Println(err)
	// Output:
	// 1.3843 m <nil>
	// 4 ft 6 1/2 in
	// units.Length: "4.5" has no unit: 4.5 m is 14.7638 ft, 4.5 ft is 1.3716 m; write m, mm, cm, km, µm, in, ft, yd or mi
}

func ExampleParseLoadPerTankVolume() {
	_, err := units.ParseLoadPerTankVolume("2.5 lb/US gal")
	fmt.Println(err)
	load, _ := units.ParseLoadPerTankVolume("2.5 lb/US gal{tank}")
	fmt.Println(load)
	// Output:
	// units.LoadPerTankVolume: "2.5 lb/US gal" does not say on which basis it is a load per tank volume; write lb/US gal{tank} or lb/US gal{water} for a load per water volume
	// 299.566 kg/m3{tank}
}

func ExampleTemperature() {
	water := units.Celsius(28.5)
	ice := units.Fahrenheit(32)
	fmt.Println(water, water.Fahrenheit())
	fmt.Println(units.Digits(water.Sub(ice), units.FahrenheitDegrees, 3))
	// Output:
	// 28.5 °C 83.3
	// 51.3 Δ°F
}

func ExampleLength_UnmarshalJSON() {
	var pump struct {
		Lift  units.Length `json:"lift"`
		Speed units.RotationalSpeed
	}
	err := json.Unmarshal([]byte(`{"lift": "12 ft", "speed": {"value": 540, "unit": "rpm"}}`), &pump)
	fmt.Println(pump.Lift, pump.Speed.Text(units.RevolutionsPerMinute), err)
	// Output: 3.6576 m 540 rpm <nil>
}

// Descriptors are values too: keep the reader's choice and print by it.
func ExampleFlowUnit() {
	var show units.FlowUnit
	if err := show.UnmarshalText([]byte("L/s")); err != nil {
		fmt.Println(err)
	}
	flow := 230 * units.CubicMetrePerHour
	fmt.Println(flow.Text(show), show)
	for _, u := range units.All[units.FlowUnit]()[:3] {
		fmt.Println(u.Symbol(), u.Factor(), u.Exact())
	}
	// Output:
	// 63.8889 L/s litres per second
	// m3/s 1 true
	// m3/min 0.016666666666666666 true
	// m3/h 0.0002777777777777778 true
}

func ExampleLength_UnmarshalText() {
	set := flag.NewFlagSet("plan", flag.ContinueOnError)
	var depth units.Length
	set.TextVar(&depth, "depth", 4*units.Foot, "depth at the standpipe, with its unit")
	fmt.Println(set.Parse([]string{"-depth", "5 ft 3 in"}), depth)
	// Output: <nil> 1.6002 m
}

func ExampleDisplacement_Times() {
	motor := 4.9 * units.CubicInchPerRevolution
	speed := 1200 * units.RevolutionPerMinute
	oil := motor.Times(speed)
	fmt.Println(units.Digits(oil, units.USGallonsPerMinute, 3))
	fmt.Println(units.Digits(motor.Torque(2000*units.PoundPerSquareInch), units.PoundForceFeet, 3))
	// Output:
	// 25.5 US gal/min
	// 130 lbf·ft
}

func ExampleLength_Pressure() {
	head := 12 * units.Foot
	fmt.Println(units.Digits(head.Pressure(1*units.GramPerCubicCentimetre), units.PoundsPerSquareInch, 3))
	// Output: 5.2 psi
}

func ExampleInterp() {
	stage := []units.Length{0, 2 * units.Foot, 4 * units.Foot}
	area := []units.Area{0.2 * units.Acre, 1.5 * units.Acre, 2.5 * units.Acre}
	a, err := units.Interp(3*units.Foot, stage, area)
	fmt.Println(units.Digits(a, units.Acres, 3), err)
	// Output: 2 acre <nil>
}

func ExampleSum() {
	fmt.Println(units.Sum(0.5*units.ShortTon, 300*units.Pound, 20*units.Kilogram).Text(units.Pounds))
	// Output: 1344.09 lb
}

func ExampleMean() {
	m, err := units.Mean(19*units.Gram, 21*units.Gram, 23*units.Gram)
	fmt.Println(units.Prefixed(m, 3), err)
	// Output: 21 g <nil>
}
