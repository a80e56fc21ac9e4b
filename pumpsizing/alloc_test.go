package pumpsizing

import (
	"testing"

	"pondwright.example/units"
)

// The calls of a sweep or a sampling run, with inputs that raise no notice.
func hotCalls(t testing.TB) map[string]func() {
	c, err := FitCurve(heronPump().Curve)
	if err != nil {
		t.Fatal(err)
	}
	p, err := NewPump(heronPump())
	if err != nil {
		t.Fatal(err)
	}
	cubic := heronPump().Curve
	cubic.Fit = MonotoneCubic
	mc, err := FitCurve(cubic)
	if err != nil {
		t.Fatal(err)
	}
	var sys System = heronSystem()
	var quad System = QuadraticSystem{Static: 3.6, Resistance: 60}
	n, rho := rpm(520), 1018*units.KilogramPerCubicMetre
	line := OilLine{Bore: 19 * units.Millimetre, Length: 30 * units.Metre}
	oil := OilState{32 * units.Centistoke, 870 * units.KilogramPerCubicMetre}
	tank := *heronDrive().Reservoir
	tank.Limit = units.Celsius(150)
	tank.Loss = 100 * units.WattPerKelvin
	motor := HydraulicMotor{80 * units.CubicCentimetrePerRevolution, 0.92, 0.88}
	vg46, err := ISOVG(46)
	if err != nil {
		t.Fatal(err)
	}
	o, err := NewOil(vg46)
	if err != nil {
		t.Fatal(err)
	}
	return map[string]func(){
		"Curve.Head":              func() { c.Head(0.05, n) },
		"Curve.Meet":              func() { _, _ = c.Meet(sys, n) },
		"Curve.Meet/quadratic":    func() { _, _ = c.Meet(quad, n) },
		"Curve.Meet/cubic":        func() { _, _ = mc.Meet(sys, n) },
		"Curve.SpeedForFlow":      func() { _, _ = c.SpeedForFlow(sys, flow230) },
		"Pump.Operate":            func() { _, _ = p.Operate(sys, n, rho) },
		"Pump.ForFlow":            func() { _, _ = p.ForFlow(sys, flow230, rho) },
		"OilLine.Loss":            func() { _, _ = line.Loss(45*units.LitrePerMinute, oil) },
		"Reservoir.Under":         func() { _, _ = tank.Under(2 * units.Kilowatt) },
		"HydraulicMotor.Pressure": func() { _, _ = motor.Pressure(83 * units.NewtonMetre) },
		"Oil.Viscosity":           func() { _, _ = o.Viscosity(units.Celsius(50)) },
		"WaterPower":              func() { _, _ = WaterPower(0.06, 4, rho) },
	}
}

func TestNoAllocations(t *testing.T) {
	if raceEnabled {
		t.Skip("allocation counts mislead under the race detector")
	}
	for name, f := range hotCalls(t) {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s allocates %g times", name, n)
		}
	}
}

func BenchmarkHotCalls(b *testing.B) {
	for name, f := range hotCalls(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				f()
			}
		})
	}
}

func BenchmarkHydraulicDriveForFlow(b *testing.B) {
	h, err := NewHydraulicDrive(heronDrive())
	if err != nil {
		b.Fatal(err)
	}
	var sys System = heronSystem()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := h.ForFlow(sys, flow230); err != nil {
			b.Fatal(err)
		}
	}
}
