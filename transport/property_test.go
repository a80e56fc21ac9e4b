package transport

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pondwright.example/units"
)

func near(got, want, rel float64) bool { return math.Abs(got-want) <= rel*math.Abs(want) }

// The three bases of a load turn into one another and back.
func TestLoadBasesRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for range 500 {
		tank := Tank{Volume: units.Volume(0.5 + 12*rng.Float64()), Freeboard: 0.2 * rng.Float64()}
		rho := units.Density(980 + 80*rng.Float64())
		m := units.Mass(0.95 * rng.Float64() * tank.room() * float64(rho))
		l, err := tank.Load(m, rho)
		if err != nil {
			t.Fatal(err)
		}
		for name, d := range map[string]LoadDensity{"tank": {PerTank: l.PerTank}, "water": {PerWater: l.PerWater}, "before": {PerWaterBefore: l.PerWaterBefore}} {
			if got, err := tank.Product(d, rho); err != nil || !near(float64(got), float64(m), 1e-9) {
				t.Errorf("%s: %v, want %v, %v", name, got, m, err)
			}
		}
		if v := float64(l.Water) + float64(l.Displaced); !near(v, tank.room(), 1e-12) {
			t.Errorf("water %v and animals %v do not fill %v", l.Water, l.Displaced, tank.room())
		}
	}
}

// Nothing is lost in packing, nothing overloaded.
func TestPackingAddsUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 2))
	for range 500 {
		c := Cargo{
			Product:   units.Mass(20000 * rng.Float64()),
			Container: Container{Volume: units.Volume(0.3 + rng.Float64()), Tare: 60, MaxGross: units.Mass(rng.IntN(2) * 900)},
			Filling:   Filling{Ice: rng.Float64(), Water: 0.2 * rng.Float64(), ProductBulk: 600, IceBulk: 450, Fill: 0.95},
			Available: rng.IntN(2) * rng.IntN(40),
		}
		for range rng.IntN(4) {
			c.Trucks = append(c.Trucks, Truck{Payload: units.Mass(2000 + 9000*rng.Float64()), Slots: rng.IntN(20), Layers: rng.IntN(3)})
		}
		if rng.IntN(2) == 0 {
			c.Others = []Boxes{{Container: Container{Volume: 0.66, Tare: 45}, Filling: Filling{Ice: 0.5, ProductBulk: 600, IceBulk: 450, Fill: 0.9}, Available: rng.IntN(20)}}
		}
		p, err := c.Pack()
		if err != nil {
			t.Fatal(err)
		}
		product, boxes, gross := float64(p.LeftBehind), p.Left, 0.0
		for i, l := range p.Loads {
			product += float64(l.Product)
			boxes += l.Containers
			gross += float64(l.Cargo)
			if l.Cargo > l.Payload*(1+1e-9) {
				t.Fatalf("truck %d carries %v of %v", i, l.Cargo, l.Payload)
			}
			if s := c.Trucks[i].Slots * max(1, c.Trucks[i].Layers); s > 0 && l.Containers > s {
				t.Fatalf("truck %d has %d boxes on %d places", i, l.Containers, s)
			}
		}
		if !near(product, float64(c.Product), 1e-9) || boxes != p.Containers {
			t.Fatalf("%v kg of %v, %d boxes of %d", product, c.Product, boxes, p.Containers)
		}
		if p.Left == 0 && !near(gross, float64(p.Gross), 1e-9) {
			t.Fatalf("gross %v on trucks, %v packed", gross, p.Gross)
		}
		if p.Each.Volume > c.Container.Volume*0.95*(1+1e-9) || c.Container.MaxGross > 0 && p.Each.Gross > c.Container.MaxGross*(1+1e-9) {
			t.Fatalf("box %+v overfilled", p.Each)
		}
	}
}

// Eight large bins run out, and small totes take the rest.
func TestSecondKindTakesTheRest(t *testing.T) {
	c := Cargo{
		Product:   5000,
		Container: Container{Name: "bin", Volume: 1, Tare: 60},
		Filling:   Filling{Product: 400, Ice: 0.3, ProductBulk: 600, IceBulk: 450, Fill: 1},
		Available: 8,
		Others:    []Boxes{{Container: Container{Name: "tote", Volume: 0.66, Tare: 45}, Filling: Filling{Product: 220, Ice: 0.5, ProductBulk: 600, IceBulk: 450, Fill: 1}}},
		Trucks:    []Truck{{Payload: 9000}},
	}
	p, err := c.Pack()
	if err != nil || len(p.Kinds) != 2 || p.Kinds[0].Containers != 8 || p.Kinds[1].Containers != 9 || p.LeftBehind != 0 {
		t.Fatalf("%+v, %v", p, err)
	}
	if last := p.Kinds[1].Last.Product; !near(float64(last), 5000-3200-8*220, 1e-12) || p.Last.Product != last {
		t.Errorf("last tote holds %v", last)
	}
	c.Others[0].Available = 3
	if p, err = c.Pack(); err != nil || !near(float64(p.LeftBehind), 5000-3200-660, 1e-12) || !hasCode(p.Notices, CodeLeftBehind) {
		t.Errorf("%+v, %v", p, err)
	}
	c.Others[0].Container.Volume = 0
	_, err = c.Pack()
	says(t, "second kind", err, "others[0].container.volume")
}

func TestEachLimitBinds(t *testing.T) {
	box := units.Mass(500)
	for want, truck := range map[Limit]Truck{
		ByMass:  {Payload: 4100, Slots: 20},
		ByCount: {Payload: 41000, Slots: 10, Layers: 2},
		ByAxle:  {Payload: 41000, Slots: 99, Axles: AxleLimits{Wheelbase: 5, LoadCentre: 3, FrontTare: 3000, RearTare: 2000, FrontLimit: 7000, RearLimit: 8000}},
	} {
		n, binds, err := truck.Capacity(box)
		if err != nil || binds != want {
			t.Errorf("%v: %d by %v, %v", want, n, binds, err)
		}
		if notes, err := truck.Weigh(units.Mass(n) * box); err != nil || hasCode(notes, CodeOverweight) {
			t.Errorf("%v: full truck: %v, %v", want, notes, err)
		}
		if notes, err := truck.Weigh(units.Mass(n+1) * box); want != ByCount && (err != nil || !hasCode(notes, CodeOverweight)) {
			t.Errorf("%v: one box more: %v, %v", want, notes, err)
		}
	}
	c := Container{Volume: 1, Tare: 50, MaxGross: 800}
	for want, f := range map[Limit]Filling{
		ByVolume: {Ice: 1, ProductBulk: 500, IceBulk: 400, Fill: 0.9},
		ByMass:   {Ice: 0.2, ProductBulk: 1050, IceBulk: 900, Fill: 1},
		ByChoice: {Product: 100, Ice: 0.2, ProductBulk: 600, IceBulk: 450, Fill: 1},
	} {
		if got, err := c.Fill(f); err != nil || got.Binds != want {
			t.Errorf("%v: %+v, %v", want, got, err)
		}
	}
	// A load behind the rear axle lightens the front: that limits too.
	tail := Truck{Payload: 50000, Axles: AxleLimits{Wheelbase: 4, LoadCentre: 5, FrontTare: 2000, RearTare: 2000}}
	n, binds, err := tail.Capacity(1000)
	if err != nil || binds != ByAxle || n != 8 {
		t.Errorf("overhang: %d by %v, %v", n, binds, err)
	}
	if notes, err := tail.Weigh(7000); err != nil || !hasCode(notes, CodeSteeringLight) {
		t.Errorf("overhang: %v, %v", notes, err)
	}
}

func TestScheduleKeepsItsRules(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	start := time.Date(2026, 6, 3, 1, 0, 0, 0, time.UTC)
	for range 300 {
		s := Schedule{Product: units.Mass(1000 + 30000*rng.Float64()), Start: start, Rate: units.MassFlow(rng.Float64() * float64(rng.IntN(2))),
			PondDocks: rng.IntN(3), PlantDocks: rng.IntN(3), MaxAge: 4 * time.Hour,
			Turn: Turn{Load: time.Duration(rng.IntN(60)) * time.Minute, Haul: time.Duration(rng.IntN(180)) * time.Minute, Unload: time.Duration(rng.IntN(60)) * time.Minute,
				Return: time.Duration(rng.IntN(180)) * time.Minute, Wash: 10 * time.Minute}}
		for range 1 + rng.IntN(4) {
			s.Haulers = append(s.Haulers, Hauler{Ready: start.Add(time.Duration(rng.IntN(120)) * time.Minute), Product: units.Mass(1000 + 6000*rng.Float64())})
		}
		if rng.IntN(2) == 0 {
			s.Windows = []Window{{start.Add(4 * time.Hour), start.Add(8 * time.Hour)}, {start.Add(12 * time.Hour), start.Add(20 * time.Hour)}}
		}
		p, err := s.Plan()
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		refused := 0
		for i, trip := range p.Trips {
			sum += float64(trip.Product)
			if trip.Loading.Before(s.Start) || trip.Departs.Sub(trip.Loading) < s.Turn.Load || trip.Departs.Before(s.at(sum).Add(-time.Microsecond)) {
				t.Fatalf("trip %d leaves before it is loaded: %+v", i, trip)
			}
			if trip.Arrives.Sub(trip.Departs) != s.Turn.Haul || trip.WaitPond < 0 || trip.WaitPlant < 0 || trip.Age < trip.Arrives.Sub(trip.First) {
				t.Fatalf("trip %d: %+v", i, trip)
			}
			if trip.Refused {
				refused++
				continue
			}
			if trip.Unloading.Before(trip.Arrives) || trip.Done.Sub(trip.Unloading) != s.Turn.Unload {
				t.Fatalf("trip %d: %+v", i, trip)
			}
			open := len(s.Windows) == 0
			for _, w := range s.Windows {
				open = open || !trip.Unloading.Before(w.Opens) && trip.Unloading.Before(w.Closes)
			}
			if !open {
				t.Fatalf("trip %d unloads at %v, outside the windows", i, trip.Unloading)
			}
			busy := 0
			for j, other := range p.Trips {
				if j != i && !other.Refused && !other.Unloading.After(trip.Unloading) && other.Done.After(trip.Unloading) {
					busy++
				}
			}
			if busy >= max(1, s.PlantDocks) {
				t.Fatalf("trip %d shares its dock", i)
			}
		}
		if !near(sum, float64(s.Product), 1e-9) {
			t.Fatalf("hauled %v of %v", sum, s.Product)
		}
		if (refused > 0) != hasCode(p.Notices, CodeWindowMissed) {
			t.Fatalf("%d refused, notices %v", refused, p.Notices)
		}
	}
}

// Un-ionised and ionised ammonia are all of it; the share rises with pH and
// warmth; the total-scale and NBS-type models differ by their scales, up to 0.15.
func TestAmmoniaModelsAgree(t *testing.T) {
	for s := 5.0; s <= 34; s += 4 {
		for c := 10.0; c <= 30; c += 5 {
			a, e1 := Bell2008.PKa(units.Celsius(c), units.PracticalSalinity(s))
			b, e2 := CleggWhitfield1995.PKa(units.Celsius(c), units.PracticalSalinity(s))
			if e1 != nil || e2 != nil || !(a-b > 0 && a-b < 0.16) {
				t.Errorf("S %v, %v °C: Bell %v, Clegg & Whitfield %v, %v %v", s, c, a, b, e1, e2)
			}
		}
	}
	fresh, _ := Emerson1975.PKa(units.Celsius(25), 0)
	sea, _ := CleggWhitfield1995.PKa(units.Celsius(25), 0)
	if math.Abs(fresh-sea) > 0.005 {
		t.Errorf("at zero salinity: %v and %v", fresh, sea)
	}
}

func TestCarbonateRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	for range 2000 {
		c := freshCarbonate(273.15 + 40*rng.Float64())
		if rng.IntN(2) == 0 {
			c, _ = SeaCarbonate(units.Celsius(2+33*rng.Float64()), units.PracticalSalinity(19+20*rng.Float64()))
		}
		a := units.Alkalinity(0.05 + 8*rng.Float64())
		w, err := c.FromPH(a, 4.5+4*rng.Float64())
		if err != nil {
			continue // borate alone can exceed a small alkalinity at high pH
		}
		x, err := c.FromCarbon(a, w.Carbon)
		if err != nil || math.Abs(x.PH-w.PH) > 1e-7 || !near(float64(x.CO2), float64(w.CO2), 1e-6) {
			t.Fatalf("%+v back %+v, %v", w, x, err)
		}
		y, err := c.FromCO2(a, w.CO2)
		if err != nil || math.Abs(y.PH-w.PH) > 1e-7 {
			t.Fatalf("%+v back %+v, %v", w, y, err)
		}
		more, err := c.AddCO2(w, 20e-3)
		if err != nil || more.PH >= w.PH || more.CO2 <= w.CO2 {
			t.Fatalf("20 mg/L more: %+v after %+v, %v", more, w, err)
		}
	}
}

func TestCatfishLoadRisesAndFallsAsItShould(t *testing.T) {
	last := 0.0
	for _, g := range []float64{0.05, 0.2, 0.5, 1, 2, 5, 20, 100, 300, 450} {
		v, err := CatfishLoad(units.Grams.Of(g), 10, units.Fahrenheit(65))
		if err != nil || float64(v) < last {
			t.Errorf("%v g: %v after %v, %v", g, v, last, err)
		}
		last = float64(v)
	}
	last = math.Inf(1)
	for h := 8.0; h <= 16; h++ {
		v, err := CatfishLoad(50*units.Gram, h, units.Fahrenheit(65))
		if err != nil || float64(v) > last {
			t.Errorf("%v h: %v after %v, %v", h, v, last, err)
		}
		last = float64(v)
	}
}
