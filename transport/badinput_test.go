package transport

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pondwright.example/units"
)

func goodHaul() Haul {
	return Haul{
		Tank: Tank{Volume: 9}, Product: 2600, Duration: 9 * time.Hour, Temperature: units.Celsius(10), Oxygen: 10e-3, PH: 7.6, Alkalinity: 1.5,
		Demand: DemandLaw{At: 300 * mgPerKgH, Base: units.Celsius(10)}, Conductance: 21, Ambient: units.Celsius(24),
		OxygenFlow: 1e-3, OxygenEfficiency: 0.3, Limits: TroutHaulLimits(),
	}
}

func says(t *testing.T, name string, err error, want ...string) {
	t.Helper()
	if err == nil {
		t.Errorf("%s: no error", name)
		return
	}
	for _, w := range want {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%s: %q does not say %q", name, err, w)
		}
	}
}

// Water colder than ice or warmer than any live haul.
func TestWaterTemperature(t *testing.T) {
	for _, c := range []float64{-1, 45, 86, math.NaN()} {
		h := goodHaul()
		h.Temperature = units.Celsius(c)
		p, err := h.Plan()
		says(t, "tank", err, "temperature", "0 to 40 °C")
		if len(p.Course) != 0 {
			t.Errorf("%v °C: a plan beside the error", c)
		}
	}
	h := goodHaul()
	h.Temperature = units.Temperature{}
	_, err := h.Plan()
	says(t, "not set", err, "temperature", "0 to 40 °C")
}

// A load without its basis is refused: in text, and as a number.
func TestLoadWithoutBasis(t *testing.T) {
	tank := Tank{Volume: 1}
	_, err := tank.Product(LoadDensity{}, 0)
	says(t, "no basis", err, "basis", "per tank volume", "per water left")
	_, err = tank.Product(LoadDensity{PerTank: 300, PerWater: 300}, 0)
	says(t, "two bases", err, "exactly one basis")
	var d units.LoadPerTankVolume
	says(t, "text", d.UnmarshalText([]byte("2.5 lb/gal")), "lb/gal")
	var w units.LoadPerWaterVolume
	says(t, "text", w.UnmarshalText([]byte("2.5 lb/gal")), "lb/gal")
}

// More animals than tank: an error that names the most it can hold, never a
// negative volume of water.
func TestMoreFishThanTank(t *testing.T) {
	tank := Tank{Volume: 8, Freeboard: 0.05}
	for _, m := range []units.Mass{7600, 7601, 1e9} {
		l, err := tank.Load(m, 1000)
		says(t, "too much", err, "product", "7600 kg")
		if !errors.Is(err, units.ErrNoSolution) || l.Water != 0 {
			t.Errorf("%v kg: water %v, %v", m, l.Water, err)
		}
	}
	// Four tonnes fit, at 1.1 kg per litre of water: danger, not silence.
	l, err := tank.Load(4000, 1000)
	if err != nil || !hasCode(l.Notices, CodeLoadHigh) {
		t.Errorf("%v, %v", l.Notices, err)
	}
	for _, n := range l.Notices {
		if n.Code == CodeLoadHigh && n.Severity != units.Danger {
			t.Errorf("severity %v", n.Severity)
		}
	}
	_, err = tank.Product(LoadDensity{PerTank: 960}, 1000)
	says(t, "load leaves no water", err, "7600 kg")
	h := goodHaul()
	h.Product = 9500
	_, err = h.Plan()
	says(t, "haul", err, "product", "9000 kg")
}

// Zero hours is a haul; three hundred is answered with a notice.
func TestHaulHours(t *testing.T) {
	h := goodHaul()
	h.Duration = 0
	p, err := h.Plan()
	if err != nil || p.OxygenUsed != 0 || p.Warming != 0 || len(p.Course) != 1 {
		t.Errorf("0 h: %+v, %v", p, err)
	}
	h = goodHaul()
	h.Duration = 300 * time.Hour
	h.Demand.Q10 = 1
	h.Demand.At = 3 * mgPerKgH
	p, err = h.Plan()
	if err != nil || !hasCode(p.Notices, CodeHoursLong) {
		t.Errorf("300 h: %v, %v", p.Notices, err)
	}
	h.Duration = -time.Hour
	_, err = h.Plan()
	says(t, "negative", err, "duration")
	r := Road{Containers: 5, Conductance: 4.5, Ambient: units.Celsius(30)}
	m, err := r.Melt(100)
	if err != nil || m.Melted != 0 || m.Left != 100 {
		t.Errorf("0 h: %+v, %v", m, err)
	}
	r.Haul = 300 * time.Hour
	m, err = r.Melt(100)
	if err != nil || !hasCode(m.Notices, CodeHoursLong) || !hasCode(m.Notices, CodeIceGone) || m.Left != 0 || m.Bare <= 0 {
		t.Errorf("300 h: %+v, %v", m, err)
	}
}

// Gross with tare, or payload; all three only when they agree.
func TestGrossOrPayload(t *testing.T) {
	for name, c := range map[string]struct {
		truck Truck
		want  []string
	}{
		"nothing":             {Truck{}, []string{"payload", "gross mass and the tare"}},
		"gross alone":         {Truck{Gross: 16000}, []string{"tare"}},
		"payload is gross":    {Truck{Gross: 16000, Tare: 8500, Payload: 16000}, []string{"payload", "16000 kg", "include the tare", "7340 to 7660"}},
		"they disagree":       {Truck{Gross: 16000, Tare: 8500, Payload: 9000}, []string{"payload", "9000 kg", "does not agree"}},
		"tare above gross":    {Truck{Gross: 8000, Tare: 8500}, []string{"tare"}},
		"negative":            {Truck{Payload: -1}, []string{"payload", "-1 kg"}},
		"NaN":                 {Truck{Payload: units.Mass(math.NaN())}, []string{"payload", "NaN"}},
		"negative slots":      {Truck{Payload: 1, Slots: -2}, []string{"slots"}},
		"axle without a base": {Truck{Payload: 1, Axles: AxleLimits{RearLimit: 1000}}, []string{"axles.wheelbase"}},
		"empty overweight":    {Truck{Payload: 1, Axles: AxleLimits{Wheelbase: 4, RearTare: 5000, RearLimit: 1000}}, []string{"axles.rearTare"}},
	} {
		_, err := c.truck.PayloadLimit()
		says(t, name, err, c.want...)
	}
	for _, tr := range []Truck{{Gross: 16000, Tare: 8500}, {Payload: 7500}, {Gross: 16000, Tare: 8500, Payload: 7450}} {
		if m, err := tr.PayloadLimit(); err != nil || m > 7500 || m < 7450 {
			t.Errorf("%+v: %v, %v", tr, m, err)
		}
	}
}

func TestBadHaulNamesEveryField(t *testing.T) {
	h := goodHaul()
	h.Product, h.PH, h.Alkalinity, h.Demand.At, h.Tank.Freeboard = -1, 15, 0, 0, 2
	_, err := h.Plan()
	says(t, "haul", err, "product", "ph", "alkalinity", "demand.at", "tank.freeboard")
	h = goodHaul()
	h.Demand.At = units.MassSpecificRate(300) // mg/(kg h) forgotten
	_, err = h.Plan()
	says(t, "rate", err, "demand.at", "0 to 5000 mg/(kg h)")
	h = goodHaul()
	h.Pressure = 760
	_, err = h.Plan()
	says(t, "mmHg as Pa", err, "pressure", "atm")
	h = goodHaul()
	h.Ambient = units.Temperature{}
	_, err = h.Plan()
	says(t, "ambient", err, "ambient")
}

func TestBadCargoNamesTheField(t *testing.T) {
	good := Cargo{Product: 1000, Container: Container{Volume: 1, Tare: 60}, Filling: Filling{Ice: 0.5, ProductBulk: 600, IceBulk: 450, Fill: 0.95}, Trucks: []Truck{{Payload: 5000}}}
	for name, c := range map[string]struct {
		spoil func(*Cargo)
		want  string
	}{
		"product":   {func(c *Cargo) { c.Product = units.Mass(math.Inf(1)) }, "product"},
		"volume":    {func(c *Cargo) { c.Container.Volume = 0 }, "container.volume"},
		"bulk":      {func(c *Cargo) { c.Filling.ProductBulk = 0.6 }, "productBulk"},
		"ice bulk":  {func(c *Cargo) { c.Filling.IceBulk = 0 }, "iceBulk"},
		"fill":      {func(c *Cargo) { c.Filling.Fill = 95 }, "Fill"},
		"truck":     {func(c *Cargo) { c.Trucks[0].Payload = 0 }, "trucks[0].payload"},
		"max gross": {func(c *Cargo) { c.Container.MaxGross = 50 }, "container.maxGross"},
		"available": {func(c *Cargo) { c.Available = -1 }, "available"},
	} {
		g := good
		g.Trucks = []Truck{good.Trucks[0]}
		c.spoil(&g)
		_, err := g.Pack()
		says(t, name, err, c.want)
	}
}

func TestBadScheduleNamesTheField(t *testing.T) {
	start := time.Date(2026, 6, 3, 2, 0, 0, 0, time.UTC)
	good := Schedule{Product: 9000, Start: start, Rate: 0.5, Haulers: []Hauler{{Ready: start, Product: 4500}}, Windows: []Window{{start, start.Add(time.Hour)}}}
	for name, c := range map[string]struct {
		spoil func(*Schedule)
		want  string
	}{
		"start":     {func(s *Schedule) { s.Start = time.Time{} }, "start"},
		"no truck":  {func(s *Schedule) { s.Haulers = nil }, "haulers"},
		"payload":   {func(s *Schedule) { s.Haulers = []Hauler{{Product: 0}} }, "haulers[0].product"},
		"leg":       {func(s *Schedule) { s.Turn.Haul = -time.Hour }, "turn.haul"},
		"window":    {func(s *Schedule) { s.Windows = []Window{{start, start}} }, "windows[0]"},
		"order":     {func(s *Schedule) { s.Windows = append(s.Windows, s.Windows[0]) }, "windows[1]"},
		"rate":      {func(s *Schedule) { s.Rate = 1e-9 }, "rate"},
		"thimbles":  {func(s *Schedule) { s.Haulers = []Hauler{{Ready: start, Product: 0.1}} }, "haulers"},
		"docks":     {func(s *Schedule) { s.PlantDocks = -1 }, "plantDocks"},
		"NaN crop":  {func(s *Schedule) { s.Product = units.Mass(math.NaN()) }, "product"},
		"age limit": {func(s *Schedule) { s.MaxAge = -1 }, "maxAge"},
	} {
		g := good
		c.spoil(&g)
		_, err := g.Plan()
		says(t, name, err, c.want)
	}
}

func TestScalarsRefuseWithNaN(t *testing.T) {
	nan := math.NaN()
	c := units.Celsius
	for name, call := range map[string]func() (float64, error){
		"OxygenSaturation NaN":  func() (float64, error) { v, err := OxygenSaturation(c(nan), 0, 0); return float64(v), err },
		"OxygenSaturation mmHg": func() (float64, error) { v, err := OxygenSaturation(c(20), 0, 760); return float64(v), err },
		"OxygenUnderGas":        func() (float64, error) { v, err := OxygenUnderGas(21, c(20), 0, 0); return float64(v), err },
		"OxygenPerKilogram":     func() (float64, error) { return OxygenPerKilogram(c(20), -1) },
		"OxygenGasDensity":      func() (float64, error) { v, err := OxygenGasDensity(c(20), 200e5); return float64(v), err },
		"OxygenNeed eta 0":      func() (float64, error) { v, err := OxygenNeed(1, 1e-7, 0); return float64(v), err },
		"Cylinder": func() (float64, error) {
			v, err := Cylinder{Gas: 7, Full: 2e7, Now: 3e7}.Oxygen()
			return float64(v), err
		},
		"PKa":                func() (float64, error) { return Emerson1975.PKa(c(nan), 0) },
		"PKa model":          func() (float64, error) { return AmmoniaModel(9).PKa(c(20), 0) },
		"Fraction pH":        func() (float64, error) { return Emerson1975.Fraction(c(20), 15, 0) },
		"Unionised":          func() (float64, error) { v, err := Emerson1975.Unionised(-1, c(20), 7, 0); return float64(v), err },
		"AsNH3":              func() (float64, error) { v, err := AsNH3(-1); return float64(v), err },
		"AmmoniaRise":        func() (float64, error) { v, err := AmmoniaRise(1, 1, 1, 0); return float64(v), err },
		"AmmoniaExcretion":   func() (float64, error) { v, err := AmmoniaExcretion(1e-7, 2); return float64(v), err },
		"CO2Production":      func() (float64, error) { v, err := CO2Production(1e-7, 0); return float64(v), err },
		"CO2Solubility":      func() (float64, error) { return CO2Solubility(c(nan), 0) },
		"SteadyCO2":          func() (float64, error) { v, err := SteadyCO2(1, 1, 0, 0); return float64(v), err },
		"CO2After":           func() (float64, error) { v, err := CO2After(1, 1, 1, 0, 0, -1); return float64(v), err },
		"StripLimit":         func() (float64, error) { v, err := StripLimit(-1, 1, c(20), 0, 0); return float64(v), err },
		"VentFlow below air": func() (float64, error) { v, err := VentFlow(1, 0, 0.5, c(20), 0); return float64(v), err },
		"LiaoDemand":         func() (float64, error) { v, err := LiaoDemand(Trout, 0, c(10)); return float64(v), err },
		"LiaoDemand group":   func() (float64, error) { v, err := LiaoDemand(5, 1, c(10)); return float64(v), err },
		"CatfishDemand":      func() (float64, error) { v, err := CatfishDemand(5, c(20)); return float64(v), err },
		"Q10 same":           func() (float64, error) { return Q10(1, 2, c(10), c(10)) },
		"DemandAt":           func() (float64, error) { v, err := DemandAt(1, 0, c(10), c(11)); return float64(v), err },
		"HeatOf":             func() (float64, error) { v, err := HeatOf(-1, 1); return float64(v), err },
		"CatfishLoad 30 h":   func() (float64, error) { v, err := CatfishLoad(0.5, 30, c(18)); return float64(v), err },
		"CatfishLoadFactor":  func() (float64, error) { return CatfishLoadFactor(c(65), c(18)) },
		"IceToCool":          func() (float64, error) { v, err := IceToCool(-1, 1, c(10), 0); return float64(v), err },
		"IceToHold":          func() (float64, error) { v, err := IceToHold(-1, 1, c(10), 0); return float64(v), err },
		"ChillerPower":       func() (float64, error) { v, err := ChillerPower(1, 1, 0); return float64(v), err },
		"SaltFor less":       func() (float64, error) { v, err := SaltFor(100, 0.01, 0.005); return float64(v), err },
		"SaltByVolume":       func() (float64, error) { v, err := SaltByVolume(1, 400); return float64(v), err },
		"ReeferLoad":         func() (float64, error) { v, err := ReeferLoad(0, 100, c(30), c(0)); return float64(v), err },
		"ReeferUnit":         func() (float64, error) { v, err := ReeferUnit(-5); return float64(v), err },
		"BridgeFormula":      func() (float64, error) { v, err := BridgeFormula(1, 5); return float64(v), err },
		"AxleLoads":          func() (float64, error) { v, _, err := AxleLoads(0, nil); return float64(v), err },
		"Tank.Product": func() (float64, error) {
			v, err := Tank{Volume: 1}.Product(LoadDensity{PerTank: -1}, 0)
			return float64(v), err
		},
		"GrossMass":        func() (float64, error) { v, err := Loaded{Water: 1}.GrossMass(1, 1); return float64(v), err },
		"PayloadForAge":    func() (float64, error) { v, err := Turn{Haul: 2}.PayloadForAge(1, 1); return float64(v), err },
		"PressureAt":       func() (float64, error) { v, err := PressureAt(50000); return float64(v), err },
		"LoadForDelivered": func() (float64, error) { v, err := LoadForDelivered(1, 1); return float64(v), err },
		"PlummerBusenberg": func() (float64, error) { v, _, err := PlummerBusenberg1982(c(-4)); return v, err },
	} {
		v, err := call()
		if err == nil || !math.IsNaN(v) {
			t.Errorf("%s: %v beside %v, want NaN and an error", name, v, err)
			continue
		}
		var in *units.InputError
		if !errors.As(err, &in) || in.Field == "" || in.Func == "" {
			t.Errorf("%s: %v does not name function and argument", name, err)
		}
	}
	for name, call := range map[string]func() error{
		"Trips":         func() error { _, err := Trips(100, 0); return err },
		"Trucks":        func() error { _, err := Turn{}.Trucks(0, 100); return err },
		"OldestAge":     func() error { _, err := Turn{}.OldestAge(0, 100); return err },
		"Count":         func() error { _, err := Cylinder{Gas: 7, Full: 2e7, Now: 1e6, Least: 1e6}.Count(5); return err },
		"Endurance":     func() error { _, err := Endurance(1, 0); return err },
		"AlarmTime":     func() error { _, err := AlarmTime(1, 1, 1, 2e-3, 5e-3); return err },
		"BagTime":       func() error { _, err := BagTime(1, 2, 1, 1); return err },
		"Temper":        func() error { _, err := Temper(c(20), c(nan), 1); return err },
		"TemperTime":    func() error { _, _, err := TemperTime(1, c(20), c(10), 0, 1); return err },
		"LossAllowance": func() error { _, err := LossAllowance(100, 1, 0); return err },
		"FromPH":        func() error { _, err := Carbonate{}.FromPH(1, 7); return err },
		"FromCarbon":    func() error { _, err := freshCarbonate(293).FromCarbon(0, 1); return err },
		"FromCO2":       func() error { _, err := freshCarbonate(293).FromCO2(1, 0); return err },
		"AddCO2": func() error {
			_, err := freshCarbonate(293).AddCO2(Water{Alkalinity: 1}, units.Concentration(nan))
			return err
		},
		"SeaCarbonate": func() error { _, err := SeaCarbonate(c(20), 0.5); return err },
		"FreshC":       func() error { _, err := FreshCarbonate(c(99)); return err },
		"Capacity":     func() error { _, _, err := Truck{Payload: 1}.Capacity(0); return err },
		"Weigh":        func() error { _, err := Truck{Payload: 1}.Weigh(-1); return err },
		"Departure":    func() error { _, err := Window{}.LatestDeparture(-1); return err },
		"Melt":         func() error { _, err := Road{Ambient: c(95)}.Melt(1); return err },
		"Mixed":        func() error { _, err := Mixed{}.After(MixedState{}, 1); return err },
	} {
		err := call()
		var in *units.InputError
		if !errors.As(err, &in) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestRangeErrorsStillAnswer(t *testing.T) {
	for name, call := range map[string]func() (float64, error){
		"Emerson at sea": func() (float64, error) { return Emerson1975.Fraction(units.Celsius(20), 8, 30) },
		"Lueker at 10":   func() (float64, error) { c, err := SeaCarbonate(units.Celsius(20), 10); return c.PK1, err },
		"big catfish":    func() (float64, error) { v, err := CatfishLoad(0.752, 1, units.Celsius(22)); return float64(v), err },
		"far factor":     func() (float64, error) { return TroutLoadFactor(units.Celsius(5), units.Celsius(20)) },
		"hot trout":      func() (float64, error) { v, err := LiaoDemand(Trout, 0.3, units.Celsius(26)); return float64(v), err },
		"tipping": func() (float64, error) {
			f, _, err := AxleLoads(4, []PlacedMass{{3000, 2}, {9000, 6}})
			return float64(f), err
		},
	} {
		v, err := call()
		if err == nil || math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s: %v, %v", name, v, err)
		}
	}
}
