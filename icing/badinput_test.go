package icing

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pondwright.example/units"
)

// good is a load that every bad input below spoils in one place.
func good() Load {
	return Load{
		Product: 4614, ProductSpecificHeat: 3600, ProductTemperature: units.Celsius(29), FinalTemperature: units.Celsius(0),
		CarriedWater: 0.08, MakeUpWater: 1500, WaterSpecificHeat: 4000, Containers: 13, Conductance: 4.5,
		Ambient: units.Celsius(33), Hold: 6 * time.Hour, Ice: Ice{Temperature: units.Celsius(-3)}, Waste: 0.2,
	}
}

func TestBadLoadNamesTheField(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name  string
		spoil func(*Load)
		want  []string // in the message
	}{
		{"water at 45 °C", func(l *Load) { l.ProductTemperature = units.Celsius(45) }, []string{"productTemperature", "45 °C", "0 to 40 °C", "Fahrenheit"}},
		{"Fahrenheit as Celsius", func(l *Load) { l.WaterTemperature = units.Celsius(84) }, []string{"waterTemperature", "84 °C", "Fahrenheit"}},
		{"water at -4 °C", func(l *Load) { l.WaterTemperature = units.Celsius(-4) }, []string{"waterTemperature", "-4 °C"}},
		{"temperature not set", func(l *Load) { l.ProductTemperature = units.Temperature{} }, []string{"productTemperature", "not set"}},
		{"ice at +2 °C", func(l *Load) { l.Ice.Temperature = units.Celsius(2) }, []string{"ice.temperature", "2 °C", "0 °C or colder"}},
		{"target below freezing", func(l *Load) { l.FinalTemperature = units.Celsius(-1) }, []string{"finalTemperature", "-1 °C"}},
		{"target above start", func(l *Load) { l.FinalTemperature = units.Celsius(30) }, []string{"finalTemperature", "30 °C", "0 to 29 °C"}},
		{"negative product", func(l *Load) { l.Product = -1 }, []string{"product", "-1 kg"}},
		{"NaN product", func(l *Load) { l.Product = units.Mass(nan) }, []string{"product", "NaN"}},
		{"infinite make-up", func(l *Load) { l.MakeUpWater = units.Mass(math.Inf(1)) }, []string{"makeUpWater", "+Inf"}},
		{"carried water in per cent", func(l *Load) { l.CarriedWater = 8 }, []string{"carriedWater", "8", "0 to 1"}},
		{"specific heat in kJ", func(l *Load) { l.ProductSpecificHeat = 3.6 }, []string{"productSpecificHeat", "0.0036 kJ/(kg K)"}},
		{"waste in per cent", func(l *Load) { l.Waste = 20 }, []string{"waste", "20"}},
		{"ambient missing", func(l *Load) { l.Ambient = units.Temperature{} }, []string{"ambient", "-40 to 60 °C"}},
		{"negative hold", func(l *Load) { l.Hold = -time.Hour }, []string{"hold", "-1 h"}},
		{"negative containers", func(l *Load) { l.Containers = -1 }, []string{"containers", "-1"}},
		{"sun of 80 K", func(l *Load) { l.Sun = 80 }, []string{"sun", "80 K"}},
		{"latent heat of steam", func(l *Load) { l.Ice.LatentHeat = 2257e3 }, []string{"ice.latentHeat", "2257 kJ/kg", "250 to 340"}},
	} {
		l := good()
		c.spoil(&l)
		b, err := l.Balance()
		if err == nil {
			t.Errorf("%s: no error, order %v", c.name, b.Order)
			continue
		}
		if !errors.Is(err, units.ErrDomain) {
			t.Errorf("%s: %v is not ErrDomain", c.name, err)
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", c.name, err, w)
			}
		}
		if b != (Balance{}) {
			t.Errorf("%s: a result beside the error: %+v", c.name, b)
		}
	}
}

func TestEveryBadFieldIsReportedAtOnce(t *testing.T) {
	l := good()
	l.Product, l.Waste, l.Ice.Temperature = -5, 3, units.Celsius(2)
	err := l.Validate()
	for _, w := range []string{"product", "waste", "ice.temperature"} {
		if err == nil || !strings.Contains(err.Error(), w) {
			t.Errorf("%v does not name %s", err, w)
		}
	}
}

// A haul of 0 h is a balance without a leak; one of 300 h is answered with a
// notice that one charge of ice is no longer the question.
func TestHaulHours(t *testing.T) {
	l := good()
	l.Hold = 0
	b, err := l.Balance()
	if err != nil || b.Leak != 0 {
		t.Errorf("0 h: leak %v, error %v", b.Leak, err)
	}
	l.Hold = 300 * time.Hour
	p, err := l.Plan(Crop{4000, 4614, 5200}, 400)
	if err != nil {
		t.Fatal(err)
	}
	if !hasCode(p.Notices, CodeHoldLong) {
		t.Errorf("300 h: no %s in %v", CodeHoldLong, p.Notices)
	}
}

func hasCode(list []units.Notice, code string) bool {
	for _, n := range list {
		if n.Code == code {
			return true
		}
	}
	return false
}

func TestScalarsRefuseWithNaN(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	c := units.Celsius
	for name, call := range map[string]func() (float64, error){
		"Theta biot 0":        func() (float64, error) { return Theta(Slab, 0, 1, 0) },
		"Theta biot NaN":      func() (float64, error) { return Theta(Slab, nan, 1, 0) },
		"Theta fourier < 0":   func() (float64, error) { return Theta(Slab, 1, -1, 0) },
		"Theta fourier Inf":   func() (float64, error) { return Theta(Sphere, 1, inf, 0) },
		"Theta position 2":    func() (float64, error) { return Theta(Cylinder, 1, 1, 2) },
		"Theta shape":         func() (float64, error) { return Theta(Shape(7), 1, 1, 0) },
		"MeanTheta NaN":       func() (float64, error) { return MeanTheta(Slab, 1, nan) },
		"Root 0":              func() (float64, error) { return Root(Slab, 1, 0) },
		"Amplitude":           func() (float64, error) { return Amplitude(Slab, -1, 1) },
		"ChillRatio 45 °C":    func() (float64, error) { return ChillRatio(3600, c(45), c(0), 0) },
		"ChillRatio cp":       func() (float64, error) { return ChillRatio(units.SpecificHeat(nan), c(25), c(0), 0) },
		"ChillRatio rising":   func() (float64, error) { return ChillRatio(3600, c(10), c(12), 0) },
		"ChillRatio latent":   func() (float64, error) { return ChillRatio(3600, c(10), c(2), 1) },
		"FrozenFraction":      func() (float64, error) { return FrozenFraction(1.2, 0, c(-1), c(-5)) },
		"FrozenFraction t":    func() (float64, error) { return FrozenFraction(0.8, 0.1, c(1), c(-5)) },
		"SlurryIceFraction 0": func() (float64, error) { return SlurryIceFraction(0, c(-1)) },
		"SlurryIceFraction T": func() (float64, error) { return SlurryIceFraction(20, c(-30)) },
		"Spoilage 70 °C":      func() (float64, error) { return TemperateHuss1995.Rate(c(70)) },
		"Spoilage law":        func() (float64, error) { return Spoilage(9).Rate(c(7)) },
		"Glaze":               func() (float64, error) { return Glaze(1, 2) },
		"Glaze all ice":       func() (float64, error) { return Glaze(1, 0) },
		"Drip":                func() (float64, error) { return Drip(0, 1) },
		"Sulphite":            func() (float64, error) { return Sulphite(9).SulphurDioxide() },
		"Sulphite demand":     func() (float64, error) { return Sulphite(9).OxygenDemand() },
		"RelativeRate":        func() (float64, error) { return RelativeRate(time.Hour, 0) },
		"Component":           func() (float64, error) { v, err := Component(99).SpecificHeat(c(5)); return float64(v), err },
		"Component T":         func() (float64, error) { v, err := Protein.Density(units.Temperature{}); return float64(v), err },
		"FreezingPoint":       func() (float64, error) { v, err := MeltingHeat(units.PracticalSalinity(nan)); return float64(v), err },
		"BrineSalinity":       func() (float64, error) { v, err := BrineSalinity(c(3)); return float64(v), err },
		"IceDensity +2":       func() (float64, error) { v, err := IceDensity(c(2)); return float64(v), err },
		"Ice.Cooling +2":      func() (float64, error) { v, err := Ice{Temperature: c(2)}.Cooling(c(0), 0); return float64(v), err },
		"Ice.Cooling out":     func() (float64, error) { v, err := Ice{}.Cooling(c(-1), 0); return float64(v), err },
		"Siebel":              func() (float64, error) { v, err := SiebelSpecificHeat(80, false); return float64(v), err },
		"Chen":                func() (float64, error) { v, err := ChenSpecificHeat(-0.1); return float64(v), err },
		"FAO sum":             func() (float64, error) { v, err := FAOSpecificHeat(0.5, 0.5, 0.5); return float64(v), err },
		"FishLatentHeat":      func() (float64, error) { v, err := FishLatentHeat(nan); return float64(v), err },
		"Wall none":           func() (float64, error) { v, err := Wall{}.U(); return float64(v), err },
		"Wall zero layer":     func() (float64, error) { v, err := Wall{Layers: []Layer{{0, 1}}}.U(); return float64(v), err },
		"MeltRate":            func() (float64, error) { v, err := MeltRate(-1, c(30), 0, 0); return float64(v), err },
		"MeltRate 86 F":       func() (float64, error) { v, err := MeltRate(1, c(86), 0, 0); return float64(v), err },
		"MeltOver":            func() (float64, error) { v, err := MeltOver(1, nil, 0); return float64(v), err },
		"SulphiteSalt 15 %":   func() (float64, error) { v, err := SulphiteSalt(100, 0.15); return float64(v), err },
		"Gross all glaze":     func() (float64, error) { v, err := Gross(100, 1); return float64(v), err },
		"ThicknessForMass":    func() (float64, error) { v, err := ThicknessForMass(0.01, 0, 1); return float64(v), err },
		"Body.Biot":           func() (float64, error) { return Body{Film: 100}.Biot() },
		"MakingHeat":          func() (float64, error) { v, err := MakingHeat(c(25), c(1), 0); return float64(v), err },
		"Brick":               func() (float64, error) { return Brick{}.Theta(time.Hour) },
		"FiniteCylinder": func() (float64, error) {
			return FiniteCylinder{Radius: 0.1, Length: 0.1, Film: 10}.Theta(-time.Hour, 0, 0)
		},
		"ChenFrozen": func() (float64, error) {
			v, err := ChenFrozenSpecificHeat(0.2, 0.8, 0.9, c(-1), c(-5))
			return float64(v), err
		},
		"BrineFreezing": func() (float64, error) { _, err := BrineFreezing(0.3); return nan, err },
		"BrineStrength": func() (float64, error) { v, err := BrineStrength(c(-30)); return float64(v), err },
		"SlurryDensity": func() (float64, error) { v, err := SlurryDensity(2, 1030, c(-2)); return float64(v), err },
		"SlurryCooling": func() (float64, error) { v, err := SlurryCooling(20, c(-2.5), c(-5)); return float64(v), err },
		"ChilledSeawater": func() (float64, error) {
			_, err := ChilledSeawater(Batch{Temperature: c(25)}, 0, 35, c(25), c(0), 0)
			return nan, err
		},
		"HalfDimensionFor": func() (float64, error) {
			v, err := Body{Film: 100}.HalfDimensionFor(c(28), c(0), c(0), time.Hour)
			return float64(v), err
		},
		"HalfDimensionFor 1µs": func() (float64, error) {
			v, err := Body{Film: 100}.HalfDimensionFor(c(28), c(0), c(4), 1000)
			return float64(v), err
		},
		"SunExcess":     func() (float64, error) { v, err := SunExcess(2, 1000, 10); return float64(v), err },
		"MidWallArea":   func() (float64, error) { v, err := MidWallArea(4, 3); return float64(v), err },
		"WaterActivity": func() (float64, error) { return WaterActivity(c(1)) },
		"Capacity not cooling": func() (float64, error) {
			v, err := Bath{IceMass: 1}.Capacity(Batch{Temperature: c(2)}, c(3))
			return float64(v), err
		},
	} {
		v, err := call()
		if err == nil {
			t.Errorf("%s: no error beside %v", name, v)
			continue
		}
		if !math.IsNaN(v) {
			t.Errorf("%s: %v beside %v, want NaN", name, v, err)
		}
		var in *units.InputError
		if !errors.As(err, &in) || in.Field == "" || in.Func == "" {
			t.Errorf("%s: %v does not name function and argument", name, err)
		}
	}
}

func TestRangeErrorsStillAnswer(t *testing.T) {
	r, err := TemperateHuss1995.Rate(units.Celsius(24))
	if !errors.Is(err, units.ErrRange) || math.Abs(r-11.56) > 1e-9 {
		t.Errorf("24 °C: %v, %v", r, err)
	}
	tf, err := FreezingPoint(60, false)
	if !errors.Is(err, units.ErrRange) || tf.Celsius() > -3.3 || tf.Celsius() < -3.6 {
		t.Errorf("60 psu: %v, %v", tf, err)
	}
}

func TestCoreTimeRefuses(t *testing.T) {
	b := Body{Shape: Cylinder, HalfDimension: 0.0075, Film: 300}
	c := units.Celsius
	for _, x := range []struct {
		start, medium, target float64
		kind                  error
	}{
		{28, 0, 0, units.ErrNoSolution},   // the medium's own temperature
		{28, 0, -1, units.ErrNoSolution},  // beyond it
		{28, 4, 2, units.ErrNoSolution},   // bath warmer than the target
		{28, 28, 20, units.ErrNoSolution}, // no difference
		{28, 0, 30, units.ErrNoSolution},  // wrong way
		{28, -20, -5, units.ErrDomain},    // freezing, not chilling
	} {
		if d, err := b.CoreTime(c(x.start), c(x.medium), c(x.target)); !errors.Is(err, x.kind) || d != 0 {
			t.Errorf("%v: %v, %v; want %v", x, d, err, x.kind)
		}
	}
	if d, err := b.CoreTime(c(28), c(0), c(28)); err != nil || d != 0 {
		t.Errorf("already there: %v, %v", d, err)
	}
	b.HalfDimension = 0
	if _, err := b.CoreTime(c(28), c(0), c(4)); err == nil || !strings.Contains(err.Error(), "halfDimension") {
		t.Errorf("zero size: %v", err)
	}
}

func TestExposureRefuses(t *testing.T) {
	e, err := NewExposure(nil, ExposureOptions{})
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, r := range []Reading{{At: at, Temperature: units.Celsius(20)}, {At: at.Add(time.Minute), Temperature: units.Celsius(18)}} {
		if err := e.Add(r); err != nil {
			t.Fatal(err)
		}
	}
	before := e.Report()
	for _, r := range []Reading{
		{At: at, Temperature: units.Celsius(4)},                           // not in order
		{At: at.Add(time.Minute), Temperature: units.Celsius(4)},          // twice the same moment
		{At: at.Add(2 * time.Minute), Temperature: units.Temperature{}},   // not set
		{At: at.Add(2 * time.Minute), Temperature: units.Celsius(400)},    // no food
		{At: at.Add(2 * time.Minute), Temperature: units.Celsius(nanC())}, // NaN
	} {
		if err := e.Add(r); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%v: %v", r, err)
		}
	}
	if after := e.Report(); after.Equivalent != before.Equivalent || after.Readings != 2 {
		t.Errorf("a refused reading changed the account: %+v", after)
	}
}

func nanC() float64 { return math.NaN() }

// A condition that is no temperature must not let a rule on time fall silent.
func TestConditionOfALimit(t *testing.T) {
	for _, bad := range []units.Temperature{units.Celsius(nanC()), units.Celsius(math.Inf(1)), units.Celsius(500)} {
		for _, l := range []Limit{{Above: units.Celsius(10), Allowed: time.Hour, WhenEverAbove: bad}, {Above: units.Celsius(10), Allowed: time.Hour, WhenNeverAbove: bad}} {
			if _, err := NewExposure([]Limit{l}, ExposureOptions{}); !errors.Is(err, units.ErrDomain) || !strings.Contains(err.Error(), "limits[0].When") {
				t.Errorf("%v, %v: %v", l.WhenEverAbove, l.WhenNeverAbove, err)
			}
		}
	}
}

// Gaps between the animals make the heap lighter, not its flesh a better
// conductor.
func TestPorosity(t *testing.T) {
	solid, err := Shrimp.Properties(units.Celsius(5))
	if err != nil {
		t.Fatal(err)
	}
	heap := Shrimp
	heap.Porosity = 0.4
	p, err := heap.Properties(units.Celsius(5))
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(p.Density/solid.Density)-0.6) > 1e-12 || p.Diffusivity != solid.Diffusivity || p.Parallel != solid.Parallel {
		t.Errorf("solid %+v, heap %+v", solid, p)
	}
}
