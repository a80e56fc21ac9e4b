package drawdown_test

import (
	"fmt"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/units"
)

// The light of a harvest night.
func ExampleNightAfter() {
	place := drawdown.Place{Latitude: 29.9 * units.Degree, Longitude: -91.4 * units.Degree}
	evening := time.Date(2026, time.October, 20, 0, 0, 0, 0, time.FixedZone("CDT", -5*3600))
	n, err := drawdown.NightAfter(place, evening)
	if err != nil {
		fmt.Println(err)
		return
	}
	const clock = "Jan 2 15:04 MST"
	fmt.Println("last light ", n.LastLight.Format(clock))
	fmt.Println("first light", n.FirstLight.Format(clock))
	fmt.Println("sunrise    ", n.Sunrise.Format(clock))
	fmt.Printf("dark %.1f h, moonlit %.1f h, %.0f %% %v\n", n.Dark.Hours(), n.Moonlit.Hours(), 100*n.Midnight.Illuminated, n.Midnight.Phase)
	full, _ := drawdown.NextMoonPhase(evening, drawdown.FullMoon)
	fmt.Println("full moon  ", full.Format(clock))
	// Output:
	// last light  Oct 20 18:53 CDT
	// first light Oct 21 06:47 CDT
	// sunrise     Oct 21 07:11 CDT
	// dark 11.9 h, moonlit 7.7 h, 74 % waxing gibbous
	// full moon   Oct 25 23:11 CDT
}

// What the sun and the air do to the last water.
func ExampleHeatBalance_Warm() {
	h := drawdown.HeatBalance{Water: units.Celsius(27), Air: units.Celsius(31), Humidity: 0.65, Wind: 2 * units.MetrePerSecond,
		Solar: 750 * units.WattPerSquareMetre, Depth: 0.25 * units.Metre}
	w, err := h.Warm(3*time.Hour, units.Celsius(32))
	fmt.Printf("%.1f C after 3 h; 32 C after %.0f min %v\n", w.Water.Celsius(), w.TimeToLimit.Minutes(), err)
	// Output:
	// 32.6 C after 3 h; 32 C after 156 min <nil>
}

// Evaporation and storm water on a pond, from the day's weather.
func ExampleOpenWater_Evaporation() {
	lat := 29.9 * units.Degree
	sun, _ := drawdown.ExtraterrestrialRadiation(lat, 293)
	day, _ := drawdown.DaylightHours(lat, 293)
	moist, _ := drawdown.VapourPressure(units.Celsius(19))
	net, err := drawdown.SkyRadiation{Latitude: lat, DayOfYear: 293, Sunshine: 0.7, Highest: units.Celsius(28), Lowest: units.Celsius(17), Vapour: moist}.Net()
	fmt.Printf("%.0f above the air, %.1f h of day, net %.0f %v\n", sun, day.Hours(), net.Net, err)
	e, err := drawdown.OpenWater{Air: units.Celsius(23), Humidity: 0.75, Wind: 2 * units.MetrePerSecond, NetRadiation: net.Net}.Evaporation()
	fmt.Printf("%.1f mm a day %v\n", e.In(units.MillimetresPerDay), err)
	p, _ := drawdown.AirPressureFAO56(30 * units.Metre)
	gamma, _ := drawdown.PsychrometricConstant(p)
	storm, err := drawdown.RunoffDepth(3*units.Inch, 80)
	fmt.Printf("gamma %.1f Pa/K; a three inch storm sends %.0f mm %v\n", gamma, storm.In(units.Millimetres), err)
	// Output:
	// 308 W/m2 above the air, 11.1 h of day, net 128 W/m2 <nil>
	// 4.3 mm a day <nil>
	// gamma 67.1 Pa/K; a three inch storm sends 32 mm <nil>
}
