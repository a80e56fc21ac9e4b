package pumpsizing

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pondwright.example/units"
)

// randomPump is a falling curve with a system that it can lift at full speed.
func randomPump(rng *rand.Rand) (Curve, QuadraticSystem) {
	h0 := 4 + 20*rng.Float64()
	last := 0.02 + 0.2*rng.Float64()
	share := 0.6 + 0.35*rng.Float64() // of the head lost at the last point
	bend := rng.Float64()
	c, err := ParabolaCurve(ParabolaData{Speed: rpm(300 + 900*rng.Float64()), ShutOff: units.Length(h0),
		Linear: (1 - bend) * share * h0 / last, Square: bend * share * h0 / (last * last), Last: units.Flow(last)})
	if err != nil {
		panic(err)
	}
	return c, QuadraticSystem{Static: units.Length(h0 * 0.8 * rng.Float64()), Resistance: h0 / (last * last) * (0.3 + 2*rng.Float64())}
}

// At the operating point both ask for the same head, the speed for the flow is
// the speed again, a faster pump moves more, and the affinity laws carry the
// point of the curve.
func TestOperatingPointProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		c, sys := randomPump(rng)
		n := c.RatedSpeed() * units.RotationalSpeed(0.95+0.3*rng.Float64())
		op, err := c.Meet(sys, n)
		if err != nil {
			t.Fatalf("%+v: %v", sys, err)
		}
		if d := math.Abs((sys.Head(op.Flow) - op.Head).Metres()); d > 1e-9*op.Head.Metres() {
			t.Fatalf("heads differ by %g m", d)
		}
		back, err := c.SpeedForFlow(sys, op.Flow)
		if err != nil || math.Abs(float64(back.Speed/n)-1) > 1e-9 {
			t.Fatalf("speed for the flow: %v of %v, %v", back.Speed, n, err)
		}
		more, err := c.Meet(sys, n*1.02)
		if err != nil || !(more.Flow > op.Flow) {
			t.Fatalf("a faster pump moves %v after %v, %v", more.Flow, op.Flow, err)
		}
		duty, err := Affinity(Duty{Flow: op.Flow, Head: op.Head, Power: 1, Speed: n}, n*1.1)
		if err != nil {
			t.Fatal(err)
		}
		if got := c.Head(duty.Flow, duty.Speed); math.Abs(float64(got/duty.Head)-1) > 1e-12 {
			t.Fatalf("affinity point off the curve: %v, %v", got, duty.Head)
		}
		m, err := c.MinimumSpeed(sys.Static)
		if err != nil || math.Abs(float64(c.ShutOffHead(m.Start)-sys.Static)) > 1e-9 {
			t.Fatalf("shut-off head at the minimum speed %v, lift %v, %v", c.ShutOffHead(m.Start), sys.Static, err)
		}
	}
}

// A hump gives two crossings; the upper one is returned, and starting is told
// apart from running.
func TestDroopingCurve(t *testing.T) {
	d := CurveData{Speed: rpm(600), Fit: MonotoneCubic, Points: points(0, 10, 72, 11.3, 144, 11, 216, 9.6, 288, 7.6)}
	for _, fit := range []Fit{Quadratic, MonotoneCubic, StraightSegments} {
		d.Fit = fit
		c, err := FitCurve(d)
		if err != nil {
			t.Fatal(err)
		}
		mustNotice(t, c.Notices(), CodeCurveRising)
		op, err := c.Meet(QuadraticSystem{Static: 10.6, Resistance: 20}, rpm(600))
		if err != nil {
			t.Fatalf("%v: %v", fit, err)
		}
		if op.CanStart || !(op.UnstableFlow > 0 && op.UnstableFlow < op.Flow) {
			t.Errorf("%v: %+v", fit, op)
		}
		mustNotice(t, op.Notices, CodeCannotStart)
		mustNotice(t, op.Notices, CodeTwoCrossings)
		m, err := c.MinimumSpeed(10.6)
		if err != nil || !(m.Hold < rpm(600) && m.Start > rpm(600)) {
			t.Errorf("%v: minimum speeds %v and %v, %v", fit, m.Hold, m.Start, err)
		}
	}
}

// Every fit passes near its points, agrees with the others where the data are a
// parabola, and stays finite for any flow and speed.
func TestFitsAgree(t *testing.T) {
	d := heronPump().Curve
	for f := Quadratic; f <= StraightSegments; f++ {
		d.Fit = f
		c, err := FitCurve(d)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range d.Points {
			within(t, f.String(), c.Head(p.Flow, d.Speed).Metres(), p.Head.Metres()-1e-9, p.Head.Metres()+1e-9)
		}
		within(t, f.String()+" between points", c.Head(units.CubicMetresPerHour.Of(150), d.Speed).Metres(), 7.3, 7.6)
		for _, q := range []float64{-1, 0, 1e-300, 0.05, 1, 1e6} {
			for _, n := range []float64{-1, 0, 1e-6, 60, 1e6} {
				if h := c.Head(units.Flow(q), units.RotationalSpeed(n)).Metres(); math.IsNaN(h) || math.IsInf(h, 0) {
					t.Errorf("%v: head at %g, %g is %g", f, q, n, h)
				}
			}
		}
		op, err := c.Meet(heronSystem(), rpm(520))
		if err != nil {
			t.Fatal(err)
		}
		within(t, f.String()+" operating point", op.Flow.In(units.CubicMetresPerHour), 225, 232)
		back, err := c.SpeedForFlow(heronSystem(), op.Flow)
		if err != nil {
			t.Fatal(err)
		}
		within(t, f.String()+" speed back", back.Speed.In(units.RevolutionsPerMinute), 520-1e-6, 520+1e-6)
	}
}

// The power has a limit at no flow where efficiency is zero.
func TestPowerAtNoFlow(t *testing.T) {
	for _, e := range []EfficiencyData{
		{Best: 0.55, BestFlow: units.CubicMetresPerHour.Of(240)},
		{Points: []EfficiencyPoint{{units.CubicMetresPerHour.Of(100), 0.36}, {units.CubicMetresPerHour.Of(240), 0.55}, {units.CubicMetresPerHour.Of(350), 0.42}}},
	} {
		d := heronPump()
		d.Efficiency = e
		p, err := NewPump(d)
		if err != nil {
			t.Fatal(err)
		}
		sys := QuadraticSystem{Static: 3.6}
		at, err := p.ForFlow(sys, 0, 1018)
		if err != nil {
			t.Fatal(err)
		}
		near, err := p.ForFlow(sys, 1e-7, 1018)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "power at no flow over power near it", float64(at.ShaftPower/near.ShaftPower), 0.999, 1.001)
		within(t, "shaft power, kW", at.ShaftPower.In(units.Kilowatts), 0.3, 3)
		full, err := p.ForFlow(sys, flow230, 1018)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "power is rho g Q H/e", float64(full.ShaftPower)*full.Efficiency/float64(full.WaterPower), 1-1e-12, 1+1e-12)
	}
}

func TestResultsMarshal(t *testing.T) {
	h, err := NewHydraulicDrive(heronDrive())
	if err != nil {
		t.Fatal(err)
	}
	d, err := h.ForFlow(heronSystem(), flow230)
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(d)
	if err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(b, &out); err != nil {
		t.Fatal(err)
	}
	in, err := json.Marshal(heronDrive())
	if err != nil {
		t.Fatal(err)
	}
	var back HydraulicDriveData
	if err := json.Unmarshal(in, &back); err != nil {
		t.Fatalf("%v in %s", err, in)
	}
	if diff := cmp.Diff(heronDrive(), back, cmp.Comparer(func(a, b units.Temperature) bool { return a == b })); diff != "" {
		t.Errorf("input does not survive JSON: %s", diff)
	}
}

// A curve that bends upward rises again beyond its data; the crossing inside
// them is found all the same.
func TestConvexCurveMeetsInsideItsData(t *testing.T) {
	d := CurveData{Speed: rpm(600), Points: points(0, 12, 72, 10, 144, 8.6, 216, 7.8, 288, 7.6)}
	c, err := FitCurve(d)
	if err != nil {
		t.Fatal(err)
	}
	mustNotice(t, c.Notices(), CodeCurveConvex)
	op, err := c.Meet(QuadraticSystem{Static: 4, Resistance: 1500}, rpm(600))
	if err != nil {
		t.Fatal(err)
	}
	within(t, "flow", op.Flow.In(units.CubicMetresPerHour), 150, 216)
}

// Pumps side by side share the flow and the power; the torque is that of one.
func TestPumpsTogether(t *testing.T) {
	one, err := NewPump(heronPump())
	if err != nil {
		t.Fatal(err)
	}
	d := heronPump()
	d.Parallel = 2
	two, err := NewPump(d)
	if err != nil {
		t.Fatal(err)
	}
	a, err := one.Operate(QuadraticSystem{Static: 3.6, Resistance: 62.6}, rpm(520), 1018)
	if err != nil {
		t.Fatal(err)
	}
	b, err := two.Operate(QuadraticSystem{Static: 3.6, Resistance: 62.6 / 4}, rpm(520), 1018)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "flow", float64(b.Flow/a.Flow), 2-1e-9, 2+1e-9)
	within(t, "power", float64(b.ShaftPower/a.ShaftPower), 2-1e-9, 2+1e-9)
	within(t, "torque", float64(b.Torque/a.Torque), 1-1e-9, 1+1e-9)
	within(t, "efficiency", b.Efficiency/a.Efficiency, 1-1e-9, 1+1e-9)
	d.Series = -1
	if err := d.Validate(); err == nil {
		t.Error("a negative number of pumps must be an error")
	}
}

func TestEmptyValuesAreRefused(t *testing.T) {
	if _, err := (Curve{}).Meet(QuadraticSystem{}, 1); err == nil {
		t.Error("Meet")
	}
	if _, err := (Curve{}).SpeedForFlow(QuadraticSystem{Static: 1}, 0.1); err == nil {
		t.Error("SpeedForFlow")
	}
	if _, err := (Curve{}).MinimumSpeed(1); err == nil {
		t.Error("MinimumSpeed")
	}
	if _, err := (Pump{}).Operate(QuadraticSystem{Static: 1}, 1, 1000); err == nil {
		t.Error("Operate")
	}
	if _, err := (HydraulicDrive{}).ForFlow(QuadraticSystem{Static: 1}, 0.1); err == nil {
		t.Error("HydraulicDrive")
	}
	if _, err := (ElectricDrive{}).ForFlow(QuadraticSystem{Static: 1}, 0.1); err == nil {
		t.Error("ElectricDrive")
	}
	if h := (Curve{}).Head(0.1, 1); h != 0 {
		t.Error(h)
	}
	if e := (Efficiency{}).At(0.1, 1); e != 0 {
		t.Error(e)
	}
}
