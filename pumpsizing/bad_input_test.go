package pumpsizing

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pondwright.example/units"
)

func rpm(v float64) units.RotationalSpeed { return units.RevolutionsPerMinute.Of(v) }

// TestCurveAsItArrives holds the answers to data-sheet points as people type
// them: the fit that the data support, an error that names the point, or a
// notice.
func TestCurveAsItArrives(t *testing.T) {
	curve := func(qh ...float64) CurveData { return CurveData{Speed: rpm(600), Points: points(qh...)} }
	psi := curve(0, 9, 100, 8)
	psi.Points[1] = CurvePoint{Flow: psi.Points[1].Flow, Pressure: 11 * units.PoundPerSquareInch}
	psiDense := psi
	psiDense.Density = 998 * units.KilogramPerCubicMetre
	psiDense.Points = append([]CurvePoint(nil), psi.Points...)
	psiDense.Points[0] = CurvePoint{Pressure: 12 * units.PoundPerSquareInch}
	both := curve(0, 9, 100, 8)
	both.Points[1].Pressure = units.Bar
	mixed := curve(0, 9, 100, 8, 200, 6)
	mixed.Points[2].Speed = rpm(540)
	noSpeed := curve(0, 9, 100, 8, 200, 6)
	noSpeed.Speed = 0
	nan := curve(0, 9, 100, math.NaN(), 200, 6)
	inf := curve(0, 9, math.Inf(1), 8, 200, 6)

	for _, c := range []struct {
		name    string
		data    CurveData
		fault   string // text of the error, empty for none
		notices []string
	}{
		{"one point", curve(230, 3.86), "one point does not make a curve", nil},
		{"no point", CurveData{Speed: rpm(600)}, "points", nil},
		{"two points", curve(0, 9, 300, 4.2), "", []string{CodeCurveTwoPoints}},
		{"two points off shut-off", curve(100, 8.2, 300, 4.2), "", []string{CodeCurveTwoPoints, CodeCurveNoShutOff}},
		{"three on a line", curve(0, 9, 100, 7, 200, 5), "", []string{CodeCurveStraight}},
		{"three on a rising line", curve(0, 5, 100, 6, 200, 7), "", []string{CodeCurveStraight, CodeCurveRising}},
		{"hump", curve(0, 11, 72, 11.3, 144, 10.9, 216, 9.6, 288, 7.6), "", []string{CodeCurveRising}},
		{"two rising", curve(0, 5, 100, 6), "", []string{CodeCurveTwoPoints, CodeCurveRising}},
		{"bends upward", curve(0, 12, 72, 11.2, 144, 10.6, 216, 10.1, 288, 9.7), "", []string{CodeCurveConvex}},
		{"misread point", curve(0, 9, 100, 8.2, 200, 3.6, 300, 4.2, 350, 2.7), "", []string{CodeCurvePoorFit}},
		{"unsorted", curve(0, 9, 200, 6.6, 100, 8.2), "points[2].flow", nil},
		{"same flow twice", curve(0, 9, 100, 8.2, 100, 8.0), "points[2].flow", nil},
		{"negative head", curve(0, 9, 100, -8.2), "points[1].head", nil},
		{"negative flow", curve(-10, 9, 100, 8), "points[0].flow", nil},
		{"not a number", nan, "points[1].head", nil},
		{"infinite flow", inf, "points[1].flow", nil},
		{"no speed", noSpeed, "speed", nil},
		{"mixed speeds", mixed, "points[2].speed", nil},
		{"psi without density", psi, "points[1].pressure", nil},
		{"psi with density", psiDense, "", []string{CodeCurveTwoPoints}},
		{"head and pressure", both, "points[1]", nil},
		{"unknown fit", CurveData{Speed: rpm(600), Fit: 99, Points: points(0, 9, 100, 8)}, "fit", nil},
		{"power law of four", CurveData{Speed: rpm(600), Fit: PowerLaw, Points: points(0, 9, 100, 8, 200, 6, 300, 3)}, "exactly three", nil},
		{"no head at shut-off", curve(0, 0, 100, 8, 150, 9), "no head at zero flow", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := FitCurve(c.data)
			if c.fault != "" {
				var in *units.InputError
				if err == nil || !strings.Contains(err.Error(), c.fault) || !errors.As(err, &in) || !errors.Is(err, units.ErrDomain) {
					t.Fatalf("error %v, want one that names %q", err, c.fault)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			for _, code := range c.notices {
				mustNotice(t, got.Notices(), code)
			}
			finiteNotices(t, got.Notices())
			if h := got.ShutOffHead(rpm(600)).Metres(); !(h > 0) || math.IsInf(h, 0) {
				t.Errorf("shut-off head %g", h)
			}
		})
	}
}

// TestSeveralFaultsAtOnce: one call names every fault.
func TestSeveralFaultsAtOnce(t *testing.T) {
	d := heronDrive()
	d.Pump.Curve.Speed = 0
	d.Pump.Efficiency.Best = 55
	d.Motor.Displacement = 0
	d.Relief.Set = 2500 * units.BarGauge
	d.Line.Bore = 19 * units.Metre
	d.Reservoir.Limit = units.Temperature{}
	d.Tractor.EngineSpeed = -1
	err := d.Validate()
	if err == nil {
		t.Fatal("no error")
	}
	for _, path := range []string{"pump.curve.speed", "pump.efficiency.best", "motor.displacement", "relief.set", "line.bore", "reservoir.limit", "tractor.engineSpeed"} {
		if !strings.Contains(err.Error(), path) {
			t.Errorf("the error does not name %s:\n%v", path, err)
		}
	}
	if !strings.Contains(err.Error(), "0.55") {
		t.Errorf("55 should be answered with 0.55: %v", err)
	}
}

func TestDutyBeyondTheCurve(t *testing.T) {
	c, err := FitCurve(heronPump().Curve)
	if err != nil {
		t.Fatal(err)
	}
	// Last point 350 m3/h at 600 r/min.
	for _, x := range []struct {
		flow  float64
		kind  error
		codes bool
	}{{340, nil, false}, {370, nil, true}, {420, units.ErrRange, true}} {
		r := 1.0
		h := c.Head(units.CubicMetresPerHour.Of(x.flow), c.RatedSpeed())
		sys := SystemFunc(func(q units.Flow) units.Length {
			return units.Length(float64(h) * q.CubicMetresPerSecond() * 3600 / x.flow) // crosses at the flow, no lift
		})
		op, err := c.Meet(sys, c.RatedSpeed()*units.RotationalSpeed(r))
		if !errors.Is(err, x.kind) {
			t.Errorf("%g m3/h: error %v, want %v", x.flow, err, x.kind)
		}
		within(t, "flow", op.Flow.In(units.CubicMetresPerHour), x.flow-1e-6, x.flow+1e-6)
		if hasNotice(op.Notices, CodeExtrapolated) != x.codes {
			t.Errorf("%g m3/h: notice of extrapolation is %v", x.flow, !x.codes)
		}
	}
	// No head left to ask for within twice the last flow.
	_, err = c.Meet(QuadraticSystem{Static: -100}, c.RatedSpeed())
	if !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("a system that falls 100 m must have no operating point, got %v", err)
	}
}

func TestLiftAboveShutOff(t *testing.T) {
	p, err := NewPump(heronPump())
	if err != nil {
		t.Fatal(err)
	}
	op, err := p.Operate(heronSystem(), rpm(370), 1018)
	var in *units.InputError
	if !errors.Is(err, units.ErrNoSolution) || !errors.As(err, &in) {
		t.Fatalf("error %v", err)
	}
	// 600 sqrt(3.6/9), by hand.
	within(t, "minimum in the error", in.Min, 379.47, 379.48)
	within(t, "minimum in the result", op.MinimumSpeed.In(units.RevolutionsPerMinute), 379.47, 379.48)
	if op.Flow != 0 || op.ShaftPower != 0 || !strings.Contains(err.Error(), "minimum speed for the lift") {
		t.Errorf("%+v, %v", op, err)
	}
	mustNotice(t, op.Notices, CodeBelowMinSpeed)
	for _, n := range []units.RotationalSpeed{0, -5, units.RotationalSpeed(math.NaN()), units.RotationalSpeed(math.Inf(1))} {
		if _, err := p.Operate(heronSystem(), n, 1018); !errors.Is(err, units.ErrDomain) {
			t.Errorf("speed %v: %v", n, err)
		}
	}
	nowhere := SystemFunc(func(units.Flow) units.Length { return units.Length(math.NaN()) })
	if op, err := p.Operate(nowhere, rpm(500), 1018); !errors.Is(err, units.ErrDomain) || math.IsNaN(op.Lift.Metres()) {
		t.Errorf("a system without a head: %+v, %v", op, err)
	}
	if _, err := p.Operate(nil, rpm(500), 1018); err == nil {
		t.Error("no system must be an error")
	}
	if _, err := p.Operate(heronSystem(), rpm(520), 0); !errors.Is(err, units.ErrDomain) {
		t.Errorf("density zero: %v", err)
	}
}

func TestEngineOrPTO(t *testing.T) {
	base := Tractor{Power: units.MechanicalHorsepowers.Of(35), EngineSpeed: rpm(2000), AirTemp: units.Celsius(33)}

	unstated, err := base.PTO()
	if err != nil {
		t.Fatal(err)
	}
	mustNotice(t, unstated.Notices, CodeEnginePower)
	within(t, "if PTO power, hp", unstated.IfPTO.In(units.MechanicalHorsepowers), 34.999, 35.001)
	within(t, "if engine power, hp", unstated.IfEngine.In(units.MechanicalHorsepowers), 30.099, 30.101)
	if unstated.Rated != unstated.IfEngine {
		t.Error("the lower reading must be used")
	}
	engine := base
	engine.Basis = EnginePower
	e, err := engine.PTO()
	if err != nil || e.Rated != unstated.IfEngine {
		t.Errorf("%+v, %v", e, err)
	}
	mustNotice(t, e.Notices, CodePTOFromEngine)

	slow := base
	slow.Basis, slow.EngineSpeed = PTOPower, rpm(540)
	s, err := slow.PTO()
	if err != nil {
		t.Fatal(err)
	}
	mustNotice(t, s.Notices, CodePTOSpeed)
	finiteNotices(t, s.Notices)

	hot := base
	hot.Basis = PTOPower
	cool := hot
	cool.AirTemp = units.Celsius(20)
	ph, _ := hot.PTO()
	pc, _ := cool.PTO()
	if !(ph.Available < pc.Available) || pc.Available > pc.Rated {
		t.Errorf("hot %v, cool %v, rated %v", ph.Available, pc.Available, pc.Rated)
	}
	high := hot
	high.AirPressure, _ = AtmosphericPressure(2000*units.Metre, StandardAtmosphere1976)
	pa, err := high.PTO()
	if err != nil || !(pa.Available < 0.8*ph.Rated) {
		t.Errorf("at 2000 m: %v of %v, %v", pa.Available, ph.Rated, err)
	}
	if _, err := PTORatio(rpm(540), rpm(1000)); !errors.Is(err, units.ErrDomain) || !strings.Contains(err.Error(), "PTO speed entered as engine speed") {
		t.Errorf("%v", err)
	}
}

func TestReliefInTheWrongUnit(t *testing.T) {
	err := Relief{Set: 2500 * units.BarGauge}.Validate()
	if !errors.Is(err, units.ErrDomain) || !strings.Contains(err.Error(), "172.4 bar") || !strings.Contains(err.Error(), "psi") {
		t.Errorf("2500 bar: %v", err)
	}
	if err := (Relief{Set: 2500 * units.PoundPerSquareInchGauge}).Validate(); err != nil {
		t.Errorf("2500 psi: %v", err)
	}
	d := heronDrive()
	for _, c := range []struct {
		set  units.GaugePressure
		code string
	}{{92 * units.BarGauge, CodeReliefMargin}, {80 * units.BarGauge, CodeReliefExceeded}} {
		d.Relief.Set = c.set
		h, err := NewHydraulicDrive(d)
		if err != nil {
			t.Fatal(err)
		}
		x, err := h.ForFlow(heronSystem(), flow230)
		if err != nil {
			t.Fatal(err)
		}
		mustNotice(t, x.Notices, c.code)
		if x.Feasible != (c.code == CodeReliefMargin) {
			t.Errorf("%v: feasible is %v", c.set, x.Feasible)
		}
	}
}

func TestDisplacementInTheWrongUnit(t *testing.T) {
	n, odd := PlausibleDisplacement("motor.displacement", units.CubicCentimetresPerRevolution.Of(4.9))
	if !odd || !strings.Contains(n.Message, "80.3 cm3/rev") || !strings.Contains(n.Message, "0.299 in3/rev") {
		t.Errorf("%v, %v", n, odd)
	}
	if n, odd := PlausibleDisplacement("motor.displacement", units.CubicInchesPerRevolution.Of(80)); !odd || !strings.Contains(n.Message, "80 cm3/rev") {
		t.Errorf("%v, %v", n, odd)
	}
	if _, odd := PlausibleDisplacement("motor.displacement", units.CubicInchesPerRevolution.Of(4.88)); odd {
		t.Error("4.88 in3 is usual")
	}
	motor := HydraulicMotor{units.CubicCentimetresPerRevolution.Of(4.9), 0.92, 0.88}
	n, odd, err := motor.MotorSupply(rpm(520), 45*units.LitrePerMinute)
	if err != nil || !odd || n.Code != CodeDisplacementUnit {
		t.Errorf("%v, %v, %v", n, odd, err)
	}
	motor.Displacement = units.CubicInchesPerRevolution.Of(4.9)
	if _, odd, _ := motor.MotorSupply(rpm(520), 45*units.LitrePerMinute); odd {
		t.Error("4.9 in3 fits 45 L/min")
	}
	if err := (HydraulicMotor{4.9, 0.9, 0.9}).Validate(); !errors.Is(err, units.ErrDomain) {
		t.Errorf("4.9 m3/rev: %v", err)
	}
	d := heronDrive()
	d.Motor.Displacement = units.CubicCentimetresPerRevolution.Of(4.88)
	h, err := NewHydraulicDrive(d)
	if err != nil {
		t.Fatal(err)
	}
	x, err := h.ForFlow(heronSystem(), flow230)
	if err != nil {
		t.Fatal(err)
	}
	mustNotice(t, x.Notices, CodeDisplacementUnit)
	mustNotice(t, x.Notices, CodeReliefExceeded)
}

// TestNothingToPumpAgainst: a raised nothing and a nil function are systems in
// form only, and every solver says so.
func TestNothingToPumpAgainst(t *testing.T) {
	p, err := NewPump(heronPump())
	if err != nil {
		t.Fatal(err)
	}
	h, err := NewHydraulicDrive(heronDrive())
	if err != nil {
		t.Fatal(err)
	}
	unit := BankUnit{p.Curve(), rpm(600)}
	for name, sys := range map[string]System{"raised nothing": Raised{By: 1}, "nil function": SystemFunc(nil)} {
		for what, call := range map[string]func() error{
			"Meet":           func() error { _, err := p.Curve().Meet(sys, rpm(600)); return err },
			"SpeedForFlow":   func() error { _, err := p.Curve().SpeedForFlow(sys, flow230); return err },
			"Pump.Operate":   func() error { _, err := p.Operate(sys, rpm(600), 1000); return err },
			"drive":          func() error { _, err := h.ForFlow(sys, flow230); return err },
			"Greatest":       func() error { _, err := h.Greatest(sys, false); return err },
			"MeetParallel":   func() error { _, err := MeetParallel(sys, unit); return err },
			"MeetSeries":     func() error { _, err := MeetSeries(sys, unit); return err },
			"platform sweep": func() error { return p.PlatformSweep(sys, []units.Length{0}, rpm(600), 1000)[0].Err },
		} {
			var in *units.InputError
			if err := call(); !errors.Is(err, units.ErrDomain) || !errors.As(err, &in) {
				t.Errorf("%s against %s: %v", what, name, err)
			}
		}
	}
}

// TestAnswersThatOverflow: an answer too large for a float64 is an error, also
// beside one of range, and no struct beside an error holds a NaN.
func TestAnswersThatOverflow(t *testing.T) {
	big := math.MaxFloat64
	for name, call := range map[string]func() (float64, error){
		"SpecificSpeed":     func() (float64, error) { return SpecificSpeed(1e300, 1e15, 1e-3) },
		"SpecificSpeedUS":   func() (float64, error) { return SpecificSpeedUS(1e300, 1e15, 1e-3) },
		"SuctionSpecific":   func() (float64, error) { return SuctionSpecificSpeedUS(1e300, 1e15, 1e-3) },
		"TypeNumber":        func() (float64, error) { return TypeNumber(1e300, 1e15, 5e-324) },
		"SpecificFuel":      func() (float64, error) { return SpecificTractorFuel(big) },
		"SteppedEfficiency": func() (float64, error) { return SteppedEfficiency(0.02, 5e-324, 0.1, Ackeret1948) },
		"Anderson":          func() (float64, error) { return EfficiencyAnderson1980(5e-324, 1e300, 1000) },
		"TractorFuel":       func() (float64, error) { q, err := TractorFuel(big, 1e5, 1); return float64(q), err },
		"FuelLine": func() (float64, error) {
			q, err := FuelLine{1, 1, 2, units.Flow(big)}.At(1e300)
			return float64(q), err
		},
	} {
		if v, err := call(); !errors.Is(err, units.ErrDomain) || !math.IsNaN(v) {
			t.Errorf("%s: %g, %v", name, v, err)
		}
	}
	if d, err := SimilarDuty(Duty{Flow: units.Flow(big), Head: 1, Speed: 1}, 2, 10); d != (Duty{}) || err == nil {
		t.Errorf("SimilarDuty: %+v, %v", d, err)
	}
	if d, err := TrimmedDuty(Duty{Flow: 1, Head: 1, Speed: 1}, Impeller{0.3, 0.1}, 0.5, ConstantWidth); d != (Duty{}) || err == nil {
		t.Errorf("TrimmedDuty: %+v, %v", d, err)
	}
	if d, err := AssumedCurve(CurvePoint{Flow: 1, Head: units.Length(big)}, 60); len(d.Points) != 0 || !errors.Is(err, units.ErrDomain) {
		t.Errorf("AssumedCurve: %+v, %v", d, err)
	}
	if d, err := DerateISO3046(units.AbsolutePressure(math.NaN()), units.Celsius(20), Turbocharged); d != (EngineDerate{}) || err == nil {
		t.Errorf("DerateISO3046: %+v, %v", d, err)
	}
	if _, err := (Curve{}).InSeries(2).Meet(heronSystem(), 60); !errors.Is(err, units.ErrDomain) {
		t.Errorf("an empty curve: %v", err)
	}
}
