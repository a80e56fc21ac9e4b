package icing

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"pondwright.example/units"
)

func near(got, want, rel float64) bool { return math.Abs(got-want) <= rel*math.Abs(want) }

// The heat that the ice takes up is the heat that product, water and walls give
// off, and the parts sum to the whole.
func TestHeatBalanceCloses(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		l := good()
		l.Product = units.Mass(10000 * rng.Float64())
		start := 5 + 30*rng.Float64()
		l.ProductTemperature = units.Celsius(start)
		l.FinalTemperature = units.Celsius(start * rng.Float64())
		l.WaterTemperature = units.Celsius(start + 3*rng.Float64())
		l.CarriedWater, l.MakeUpWater = 0.2*rng.Float64(), units.Mass(3000*rng.Float64())
		l.Hold = time.Duration(float64(20*time.Hour) * rng.Float64())
		l.Ice.FreeWater, l.Waste, l.MeltStays = 0.2*rng.Float64(), 0.5*rng.Float64(), rng.IntN(2) == 0
		b, err := l.Balance()
		if err != nil {
			t.Fatal(err)
		}
		if sum := b.Chill + b.Carried + b.MakeUp + b.Leak + b.Other; !near(float64(sum), float64(b.Melt), 1e-12) {
			t.Fatalf("parts %v, whole %v", sum, b.Melt)
		}
		if got := float64(b.Melt) * float64(b.Cooling); !near(got, float64(b.Heat), 1e-12) {
			t.Fatalf("ice takes %v J, gave %v J", got, b.Heat)
		}
		if !near(float64(b.Order)*(1-l.Waste), float64(b.Melt), 1e-12) {
			t.Fatalf("order %v, melt %v at waste %v", b.Order, b.Melt, l.Waste)
		}
	}
}

// The ice of a bath's balance, put into the bath, brings it to the temperature
// the balance was made for.
func TestBalanceAndEquilibriumAgree(t *testing.T) {
	l := Load{Product: 500, ProductTemperature: units.Celsius(28), FinalTemperature: units.Celsius(3), MakeUpWater: 400,
		MeltStays: true, Ice: Ice{Temperature: units.Celsius(-4)}}
	b, err := l.Balance()
	if err != nil {
		t.Fatal(err)
	}
	end, err := Equilibrium(Bath{IceMass: b.Melt, Ice: l.Ice, Water: 400, WaterTemperature: units.Celsius(28)}, Batch{Product: 500, Temperature: units.Celsius(28)})
	if err != nil || math.Abs(end.Temperature.Celsius()-3) > 1e-9 {
		t.Errorf("%v, %v: want 3 °C", end.Temperature, err)
	}
	most, err := Bath{IceMass: b.Melt, Ice: l.Ice, Water: 400, WaterTemperature: units.Celsius(28)}.Capacity(Batch{Temperature: units.Celsius(28)}, units.Celsius(3))
	if err != nil || !near(float64(most), 500, 1e-12) {
		t.Errorf("capacity %v, %v: want 500 kg", most, err)
	}
}

// Fresh water by TEOS-10 and by the plain balance differ only by the constants.
func TestFreshMixingAgreesWithPlainBalance(t *testing.T) {
	exact, err := MeltIntoSeawater(0, units.Celsius(28), 0.2, units.Celsius(0))
	if err != nil {
		t.Fatal(err)
	}
	plain, err := Equilibrium(Bath{IceMass: 0.2, Water: 0.8, WaterTemperature: units.Celsius(28), Ice: Ice{LatentHeat: 333.5e3}}, Batch{Temperature: units.Celsius(28)})
	if err != nil || math.Abs(exact.Temperature.Celsius()-plain.Temperature.Celsius()) > 0.01 {
		t.Errorf("exact %v, plain %v, %v", exact.Temperature, plain.Temperature, err)
	}
}

func TestMoreOfAnythingNeedsMoreIce(t *testing.T) {
	base, err := good().Balance()
	if err != nil {
		t.Fatal(err)
	}
	for name, f := range map[string]func(*Load){
		"product":  func(l *Load) { l.Product *= 1.1 },
		"warmth":   func(l *Load) { l.ProductTemperature = units.Celsius(30) },
		"carried":  func(l *Load) { l.CarriedWater = 0.1 },
		"make-up":  func(l *Load) { l.MakeUpWater *= 2 },
		"hours":    func(l *Load) { l.Hold *= 2 },
		"sun":      func(l *Load) { l.Sun = 10 },
		"waste":    func(l *Load) { l.Waste = 0.3 },
		"wet ice":  func(l *Load) { l.Ice.FreeWater = 0.1 },
		"warm ice": func(l *Load) { l.Ice.Temperature = units.Celsius(0) },
	} {
		l := good()
		f(&l)
		if b, err := l.Balance(); err != nil || b.Order <= base.Order {
			t.Errorf("%s: order %v, was %v, %v", name, b.Order, base.Order, err)
		}
	}
}

// In frost nothing leaks in, and no ice is made.
func TestFrostMeltsNothing(t *testing.T) {
	l := good()
	l.Ambient = units.Celsius(-10)
	if b, err := l.Balance(); err != nil || b.Leak != 0 {
		t.Errorf("leak %v, %v", b.Leak, err)
	}
	if r, err := MeltRate(4.5, units.Celsius(-10), 0, 0); err != nil || r != 0 {
		t.Errorf("rate %v, %v", r, err)
	}
}

func TestPlanOrdersAtP90(t *testing.T) {
	p, err := good().Plan(Crop{4030, 4614, 5198}, 400)
	if err != nil {
		t.Fatal(err)
	}
	if p.Order != p.High.Order || !(p.Low.Order < p.Median.Order && p.Median.Order < p.High.Order) {
		t.Errorf("order %v of %v, %v, %v", p.Order, p.Low.Order, p.Median.Order, p.High.Order)
	}
	// 0.313 kg/kg by the balance (0.307 with the ice's own cold), 0.29 by the
	// old FAO form, 0.33 by the rule of thumb, at 29 K.
	if c := p.Check; !(c.HeatBalance > 0.30 && c.HeatBalance < 0.32) || math.Abs(c.FAO-0.29) > 1e-9 || math.Abs(c.RuleOfThumb-0.3306) > 1e-9 {
		t.Errorf("cross-check %+v", c)
	}
	if hasCode(p.Notices, CodeRatioUnusual) {
		t.Errorf("0.6 kg/kg is usual: %v", p.Notices)
	}
	// A small catch pays for the whole tank of water.
	p, err = good().Plan(Crop{200, 300, 400}, 400)
	if err != nil || !hasCode(p.Notices, CodeRatioUnusual) || !hasCode(p.Notices, CodeMakeUpShare) {
		t.Errorf("300 kg in 1500 kg of slurry water: %v, %v", p.Notices, err)
	}
	for _, c := range []Crop{{0, 1, 2}, {3, 2, 4}, {1, 5, 4}, {1, units.Mass(math.NaN()), 4}} {
		if _, err := good().Plan(c, 0); err == nil {
			t.Errorf("crop %v: no error", c)
		}
	}
}

func TestInventoryAgreesWithBalance(t *testing.T) {
	v := Inventory{Remaining: good(), Rate: 0.5, Lead: time.Hour}
	b, _ := good().Balance()
	v.OnHand = b.Order
	s, err := v.Check()
	if err != nil || s.Shortfall != 0 || s.RunsOut != 0 || len(s.Notices) != 0 {
		t.Errorf("exactly enough: %+v, %v", s, err)
	}
	v.OnHand = b.Order / 2
	s, err = v.Check()
	if err != nil || !near(float64(s.Shortfall), float64(b.Order)/2, 1e-12) {
		t.Fatalf("half: %+v, %v", s, err)
	}
	l := good()
	l.Product = s.Covers
	if c, err := l.Balance(); err != nil || !near(float64(c.Order), float64(v.OnHand), 1e-9) {
		t.Errorf("covers %v kg, which need %v of %v, %v", s.Covers, c.Order, v.OnHand, err)
	}
	v.Lead = 24 * time.Hour
	if s, err = v.Check(); err != nil || !hasCode(s.Notices, CodeReorder) || s.CallIn != 0 {
		t.Errorf("late: %+v, %v", s, err)
	}
}

func TestSpoilageIntegralMatchesQuadrature(t *testing.T) {
	for _, law := range []Spoilage{TemperateHuss1995, TropicalDalgaardHuss1995} {
		for _, ab := range [][2]float64{{28, 0}, {0, 28}, {5, 5}, {4, 4 + 1e-9}, {-20, 10}, {-15, -12}, {3, -14}} {
			const n = 40000
			sum := 0.0
			for i := range n {
				sum += law.rate(ab[0]+(ab[1]-ab[0])*(float64(i)+0.5)/n) / n
			}
			if got := law.integral(ab[0], ab[1], 1); math.Abs(got-sum) > 1e-7*(1+sum) {
				t.Errorf("%v %v: %v, quadrature %v", law, ab, got, sum)
			}
		}
	}
}

// The warmer-reading rule never counts less than the straight line.
func TestWarmerReadingIsTheUpperBound(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	limits := []Limit{{Name: "4.4", Above: units.Celsius(4.4), Allowed: time.Hour}}
	warm, _ := NewExposure(limits, ExposureOptions{})
	line, _ := NewExposure(limits, ExposureOptions{Between: StraightLine})
	at := time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)
	for range 500 {
		at = at.Add(time.Duration(1+rng.IntN(900)) * time.Second)
		r := Reading{At: at, Temperature: units.Celsius(30 * rng.Float64())}
		if warm.Add(r) != nil || line.Add(r) != nil {
			t.Fatal("refused")
		}
	}
	w, l := warm.Report(), line.Report()
	if w.Equivalent <= l.Equivalent || w.Limits[0].Spent <= l.Limits[0].Spent || !w.Limits[0].Passed || !hasCode(w.Notices, CodeExposureLimit) {
		t.Errorf("warmer %+v, line %+v", w, l)
	}
}

func TestSlurryKeepsSaltAndHeat(t *testing.T) {
	for _, c := range []struct{ sp, t, share, ice float64 }{{35, 25, 0.3, -5}, {15, 28, 0.5, -10}, {5, 20, 0.6, -2}} {
		s, err := MeltIntoSeawater(units.PracticalSalinity(c.sp), units.Celsius(c.t), c.share, units.Celsius(c.ice))
		if err != nil {
			t.Fatal(err)
		}
		salt := (1 - s.IceFraction) * float64(s.Salinity)
		if !near(salt, (1-c.share)*absolute(units.PracticalSalinity(c.sp)), 1e-10) {
			t.Errorf("%v: salt %v", c, salt)
		}
		x := s.Temperature.Celsius()
		heat := s.IceFraction*iceEnthalpy(x) + (1-s.IceFraction)*seawaterEnthalpy(float64(s.Salinity), x)
		want := c.share*iceEnthalpy(c.ice) + (1-c.share)*seawaterEnthalpy(absolute(units.PracticalSalinity(c.sp)), c.t)
		if math.Abs(heat-want) > 1e-3 {
			t.Errorf("%v: heat %v, want %v J/kg", c, heat, want)
		}
	}
	for s := 1.0; s < 42; s += 3.7 {
		tf, err := FreezingPoint(units.PracticalSalinity(s), false)
		if err != nil {
			t.Fatal(err)
		}
		if b, err := BrineSalinity(tf); err != nil || !near(float64(b), absolute(units.PracticalSalinity(s)), 1e-7) {
			t.Errorf("%v psu: %v, %v", s, b, err)
		}
	}
}

func TestLeastStartJustSuffices(t *testing.T) {
	s := Store{Capacity: 15000, Production: 0.1, MeltRate: 1e-6}
	need, err := s.LeastStart(demand())
	if err != nil {
		t.Fatal(err)
	}
	s.Start = need
	if run, err := s.Run(demand()); err != nil || run.Shortfall > 1e-6 {
		t.Errorf("at the least start: short %v, %v", run.Shortfall, err)
	}
	s.Start = need - 1
	if run, err := s.Run(demand()); err != nil || run.Shortfall <= 0 {
		t.Errorf("below it: short %v, %v", run.Shortfall, err)
	}
}

// Every stop comes at the reserve, and the ice lasts to the door above it.
func TestReIcingLastsToTheDoor(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 500 {
		trip := Trip{Free: units.Mass(5 + 50*rng.Float64()), Conductance: units.ThermalConductance(1 + 5*rng.Float64()), Ambient: units.Celsius(40*rng.Float64() - 5),
			Duration: time.Duration(float64(100*time.Hour) * rng.Float64()), Reserve: 0.5 * rng.Float64()}
		p, err := trip.Plan()
		if err != nil {
			t.Fatal(err)
		}
		rate, err := MeltRate(trip.Conductance, trip.Ambient, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		melted := float64(rate) * trip.Duration.Seconds()
		if got := float64(trip.Free+p.Added-p.Left) - melted; math.Abs(got) > 1e-6 {
			t.Fatalf("%+v: ice does not add up by %v kg", trip, got)
		}
		if r := max(trip.Reserve, 0.2*boolFloat(trip.Reserve == 0)); float64(p.Left) < r*float64(trip.Free)-1e-6 {
			t.Fatalf("%+v: %v left", trip, p.Left)
		}
		for i := 1; i < len(p.Stops); i++ {
			if p.Stops[i].After <= p.Stops[i-1].After {
				t.Fatalf("stops out of order: %+v", p.Stops)
			}
		}
	}
	if _, err := (Trip{Free: 1, Conductance: 100, Ambient: units.Celsius(40), Duration: 1e6 * time.Hour}).Plan(); err == nil {
		t.Error("a thousand stops are no plan")
	}
	if _, err := (Trip{}).Plan(); err == nil {
		t.Error("no ice is no plan")
	}
}

func boolFloat(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// Ten tonnes of shrimp, part by part, with 15 % on top: 4,738.75 kg, 0.474 kg
// per kg. Derived by hand: chill in the bath 3,582.88, last 2 K 209.30, holding
// 46 totes for 10 h 328.47 kg.
func TestTenTonnes(t *testing.T) {
	ice := Ice{LatentHeat: 333500, SpecificHeat: 2100, Temperature: units.Celsius(-5)}
	sum := 0.0
	for _, l := range []Load{
		{Product: 10000, ProductSpecificHeat: 3600, ProductTemperature: units.Celsius(28), FinalTemperature: units.Celsius(2), MakeUpWater: 3000, Ice: ice, MeltStays: true},
		{Product: 10000, ProductSpecificHeat: 3600, ProductTemperature: units.Celsius(2), FinalTemperature: units.Celsius(0), Ice: ice},
		{ProductTemperature: units.Celsius(0), FinalTemperature: units.Celsius(0), Containers: 46, Conductance: 0.45 * 4.2, Ambient: units.Celsius(35), Hold: 10 * time.Hour, Ice: Ice{LatentHeat: 333500}},
	} {
		l.Waste = 0.15 / 1.15 // fifteen per cent on top of what melts
		b, err := l.Balance()
		if err != nil {
			t.Fatal(err)
		}
		sum += float64(b.Order)
	}
	if !near(sum, 4738.754, 1e-6) {
		t.Errorf("%v kg, want 4738.754", sum)
	}
}

func TestColdMediumIsNoticed(t *testing.T) {
	c, err := ChilledSeawater(Batch{Product: 300, Temperature: units.Celsius(15)}, 400, 42, units.Celsius(12), units.Celsius(-2), 0)
	if err != nil || c.Temperature.Celsius() > -1 || !hasCode(c.Notices, CodeFreezing) {
		t.Errorf("%+v, %v", c, err)
	}
	if _, cold := FreezingNotice(units.Celsius(-0.5)); cold {
		t.Error("-0.5 °C does not freeze flesh")
	}
}

// Derived by hand: a Monte Carlo of the shrimp night made apart from this package
// (200,000 draws: crop 4,614 kg with a CV of 9.9 %, 29 ± 0.7 °C, carried water
// triangular 3, 7, 20 %, specific heat 3.4 to 3.7, waste triangular 10, 20, 35 %,
// haul triangular 4, 5.5, 9 h, 40 to 90 W/K in all) gave P10, P50, P90 of 2,470,
// 2,820 and 3,240 kg; 2,660 kg is short with a probability of 0.71, 3,300 kg with
// 0.07.
func TestSpreadOfTheShrimpNight(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	triangle := func(a, m, b float64) float64 {
		u := rng.Float64()
		if c := (m - a) / (b - a); u < c {
			return a + math.Sqrt(u*(b-a)*(m-a))
		}
		return b - math.Sqrt((1-u)*(b-a)*(b-m))
	}
	const draws = 40000
	orders := make([]float64, draws)
	l := good()
	l.Containers = 1
	for i := range orders {
		l.Product = units.Mass(4614 * (1 + 0.099*rng.NormFloat64()))
		l.ProductTemperature = units.Celsius(29 + 0.7*rng.NormFloat64())
		l.CarriedWater = triangle(0.03, 0.07, 0.20)
		l.ProductSpecificHeat = units.SpecificHeat(3400 + 300*rng.Float64())
		l.Waste = triangle(0.10, 0.20, 0.35)
		l.Hold = time.Duration(triangle(4, 5.5, 9) * float64(time.Hour))
		l.Conductance = units.ThermalConductance(40 + 50*rng.Float64())
		b, err := l.Balance()
		if err != nil {
			t.Fatal(err)
		}
		orders[i] = float64(b.Order)
	}
	slices.Sort(orders)
	for p, want := range map[float64]float64{0.1: 2470, 0.5: 2820, 0.9: 3240} {
		if got := orders[int(p*draws)]; !near(got, want, 0.01) {
			t.Errorf("P%.0f = %.0f kg, want %.0f", 100*p, got, want)
		}
	}
	for kg, want := range map[float64]float64{2660: 0.71, 3300: 0.07} {
		n, _ := slices.BinarySearch(orders, kg)
		if got := 1 - float64(n)/draws; math.Abs(got-want) > 0.02 {
			t.Errorf("P(short with %.0f kg) = %.3f, want %.2f", kg, got, want)
		}
	}
}
