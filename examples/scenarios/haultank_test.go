package scenarios_test

import (
	"testing"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/transport"
	"pondwright.example/units"
)

// Kind: published. Abstract of a journal article on three 12 V aerators and two
// oxygen diffusers in a hauling tank of 2,650 L with 908 kg of channel catfish 23
// cm long; author and journal were not shown in the record read (ACNP index of
// journals, record 46294645). It prints: 521 g of fish per litre; loading 21 min,
// then 4 h; 21.5 to 23.5 °C; pH 7.70 to 6.70; total ammonia nitrogen 0.7 to 12.8
// mg/L, un-ionised 0.015 to 0.032 mg/L; oxygen from above 20 to 2.2 mg/L in the
// first 50 min.
//
// The water volume is not printed. It is taken as the tank less the fish at 1
// kg/L, 1,742 L, and the rates derived by hand from that carry 15 %.
const (
	testTank = 2650 * units.Litre
	testFish = 908 * units.Kilogram
)

// 521 g/L is per litre of the water left, half a unit of its last digit; per
// litre of tank it is 343.
func TestHaulTankLoad(t *testing.T) {
	l := must(transport.Tank{Volume: testTank}.Load(testFish, 0))
	within(t, "load, g/L of water", 1000*l.PerWater.In(units.KilogramsPerLitreWater), 520.5, 521.5)
	near(t, "load, kg/L of tank", l.PerTank.In(units.KilogramsPerLitreTank), 0.343, 0.0015)
	near(t, "water, L", l.Water.In(units.Litres), 1742, 1e-9)
	noticed(t, l.Notices, transport.CodeLoadBasis)
}

// Un-ionised ammonia from what else is printed, half a unit of its last digit
// and of those of pH, temperature and total ammonia (1.2, 0.4 and 0.4 %; 7 % at
// the start, where 0.7 has one digit). Two packages answer.
func TestHaulTankUnionisedAmmonia(t *testing.T) {
	for _, c := range []struct{ celsius, pH, total, want, inputs float64 }{
		{21.5, 7.70, 0.7, 0.015, 0.087},
		{23.5, 6.70, 12.8, 0.032, 0.020},
	} {
		total := units.MilligramsPerLitre.Of(c.total)
		slack := 0.0005 + c.inputs*c.want
		got := must(transport.Emerson1975.Unionised(total, units.Celsius(c.celsius), c.pH, 0))
		within(t, "un-ionised ammonia, mg/L", got.In(units.MilligramsPerLitre), c.want-slack, c.want+slack)
		share := must(drawdown.UnionizedAmmonia(units.Celsius(c.celsius), c.pH))
		within(t, "the same beside a pond, mg/L", share*c.total, c.want-slack, c.want+slack)
	}
}

// Rates by hand: 12.1 mg/L over 4 h in 1,742 L are 5.8 mg/(kg h) of nitrogen; 2.0
// K over 4 h in water and fish are 1.47 kW; 15 % each.
func TestHaulTankRates(t *testing.T) {
	water := must(transport.Tank{Volume: testTank}.Load(testFish, 0)).Water
	rise := must(transport.AmmoniaRise(testFish, 5.8*units.MilligramPerKilogramHour, 4, water))
	near(t, "rise of ammonia nitrogen, mg/L", rise.In(units.MilligramsPerLitre), 12.8-0.7, 0.15)

	// The oxygen demand whose heat is 1.47 kW, 13.6 kJ a gram: 429 mg/(kg h).
	demand := 429 * units.MilligramPerKilogramHour
	near(t, "heat of the fish, kW", must(transport.HeatOf(testFish, demand)).In(units.Kilowatts), 1.47, 0.15)
	h := transport.Haul{
		Tank: transport.Tank{Volume: testTank}, Product: testFish, Duration: 4 * time.Hour,
		Temperature: units.Celsius(21.5), Oxygen: 20 * units.MilligramPerLitre, Ammonia: 0.7 * units.MilligramPerLitre,
		PH: 7.70, Alkalinity: 2 * units.MilliequivalentPerLitre, // not printed
		Demand:         transport.DemandLaw{At: demand, Base: units.Celsius(21.5), Q10: 1},
		CarbonQuotient: 0.9, AmmoniaQuotient: nitrogenPerOxygen(5.8*units.MilligramPerKilogramHour, demand),
		OxygenFlow: must(transport.OxygenNeed(testFish, demand, 0.1)), OxygenEfficiency: 0.1,
		Limits: transport.CatfishHaulLimits(),
	}
	p := must(h.Plan())
	near(t, "warming, K", p.Warming.Kelvins(), 2.0, 0.15)
	near(t, "ammonia nitrogen at the end, mg/L", p.End.Ammonia.In(units.MilligramsPerLitre), 12.8, 0.15)
	// The aerators drove off some of the CO2, at a rate that is not printed: with
	// none of it gone the pH falls below 6.70, with all of it gone it does not.
	if p.End.PH >= 6.70 {
		t.Errorf("in a shut tank pH falls to %.2f only", p.End.PH)
	}
	h.CarbonKLa = 60 * units.PerHour
	if open := must(h.Plan()); open.End.PH <= 6.70 {
		t.Errorf("in a tank wide open pH falls to %.2f", open.End.PH)
	}
}

// From 20 to 2.2 mg/L took 50 min with all aerators on: without them the fish
// would have had 4.8 min, by hand 17.8 mg/L of 1,742 L over 429 mg/(kg h). Two
// packages answer.
func TestHaulTankAlarm(t *testing.T) {
	water := must(transport.Tank{Volume: testTank}.Load(testFish, 0)).Water
	demand, from, to := 429*units.MilligramPerKilogramHour, 20*units.MilligramPerLitre, 2.2*units.MilligramPerLitre
	d := must(transport.AlarmTime(water, testFish, demand, from, to))
	near(t, "without supply, min", d.Minutes(), 4.8, 0.15)
	o := must(drawdown.OxygenBudget{Volume: water, Stock: testFish, Respiration: demand, Start: from, Limit: to, Temperature: units.Celsius(21.5)}.Outlook())
	near(t, "the same in a catch basin, min", o.Unsupplied.Minutes(), d.Minutes(), 1e-9)
}
