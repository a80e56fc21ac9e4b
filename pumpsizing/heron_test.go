package pumpsizing

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/units"
)

// within fails t when got is outside lo to hi.
func within(t *testing.T, what string, got, lo, hi float64) {
	t.Helper()
	if !(got >= lo && got <= hi) {
		t.Errorf("%s = %g, want %g to %g", what, got, lo, hi)
	}
}

func hasNotice(list []units.Notice, code string) bool {
	for _, n := range list {
		if n.Code == code {
			return true
		}
	}
	return false
}

func mustNotice(t *testing.T, list []units.Notice, code string) {
	t.Helper()
	if !hasNotice(list, code) {
		t.Errorf("notice %s is missing from %v", code, list)
	}
}

// finiteNotices fails t for a notice with NaN or Inf or without words.
func finiteNotices(t *testing.T, list []units.Notice) {
	t.Helper()
	for _, n := range list {
		if math.IsNaN(n.Value+n.Limit) || math.IsInf(n.Value+n.Limit, 0) || n.Message == "" || n.Code == "" {
			t.Errorf("notice %+v is not finite or has no message", n)
		}
	}
}

// points gives data-sheet points in m3/h and m.
func points(qh ...float64) []CurvePoint {
	var out []CurvePoint
	for i := 0; i+1 < len(qh); i += 2 {
		out = append(out, CurvePoint{Flow: units.CubicMetresPerHour.Of(qh[i]), Head: units.Metres.Of(qh[i+1])})
	}
	return out
}

// The invented shrimp pond Heron Flat: hydraulic fish pump, 254 mm hose to a
// table 3.6 m above the basin, tractor of 26 kW at the PTO.
func heronPump() PumpData {
	return PumpData{
		Name:       "invented 254 mm fish pump",
		Curve:      CurveData{Speed: units.RevolutionsPerMinute.Of(600), Points: points(0, 9, 100, 8.2, 200, 6.6, 300, 4.2, 350, 2.7)},
		Efficiency: EfficiencyData{Best: 0.55, BestFlow: units.CubicMetresPerHour.Of(240)},
	}
}

func heronSystem() hose { return hose{3.6, 0.254, 15, 0.0003, 1.9, 0.85e-6} }

func heronDrive() HydraulicDriveData {
	return HydraulicDriveData{
		Pump:         heronPump(),
		WaterDensity: 1018 * units.KilogramPerCubicMetre,
		Motor:        HydraulicMotor{80 * units.CubicCentimetrePerRevolution, 0.92, 0.88},
		Oil:          OilState{32 * units.Centistoke, 870 * units.KilogramPerCubicMetre},
		Line:         OilLine{Bore: 19 * units.Millimetre, Length: 30 * units.Metre},
		Valves:       4 * units.Bar,
		Return:       3 * units.Bar,
		OilPump:      OilPump{Overall: 0.85},
		Relief:       Relief{Set: 175 * units.BarGauge},
		Tractor:      &Tractor{Power: 26 * units.Kilowatt, Basis: PTOPower, EngineSpeed: 2000 * units.RevolutionPerMinute, AirTemp: units.Celsius(33)},
		Reservoir: &Reservoir{Oil: 87 * units.Kilogram, Loss: 15.6 * units.WattPerKelvin, Ambient: units.Celsius(33),
			Start: units.Celsius(33), Limit: units.Celsius(82)},
	}
}

var flow230 = units.CubicMetresPerHour.Of(230)

// Derived by hand: the parabola 9 - 0.4 x - 0.4 x^2 (x in 100 m3/h) passes
// through all five points; hose loss by Darcy-Weisbach and Colebrook; speed
// from H0 r^2 - b Q r - (a Q^2 + H) = 0; efficiency at Q/r; 2 pi T/(D em) for
// the motor; 64/Re in the oil line; all losses to the oil. The bands are what
// another engineer's coefficients would give.
func TestHeronFlatDrive(t *testing.T) {
	h, err := NewHydraulicDrive(heronDrive())
	if err != nil {
		t.Fatal(err)
	}
	d, err := h.ForFlow(heronSystem(), flow230)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "head", d.Pump.Head.Metres(), 3.8, 4.1)
	within(t, "speed r/min", d.Pump.Speed.In(units.RevolutionsPerMinute), 505, 540)
	within(t, "shaft kW", d.Pump.ShaftPower.In(units.Kilowatts), 4.2, 5.2)
	within(t, "efficiency", d.Pump.Efficiency, 0.53, 0.55)
	within(t, "oil pump bar", d.PumpPressure.In(units.Bars), 78, 92)
	within(t, "oil L/min", d.OilFlow.In(units.LitresPerMinute), 43, 47)
	within(t, "PTO kW", d.PTOPower.In(units.Kilowatts), 6.8, 8.5)
	within(t, "heat kW", d.HeatToOil.In(units.Kilowatts), 2.6, 3.1)
	within(t, "minutes to 82 C", d.OilHeating.TimeToLimit.Minutes(), 40, 90)
	within(t, "stall K/min", 60*float64(d.Stall.InitialRate), 4.3, 5.1)
	within(t, "relief free share", d.ReliefFree, 0.5, 0.55)
	if !d.Feasible {
		t.Error("the duty should be feasible")
	}
	for _, code := range []string{CodeOilTemperature, CodeSafetyPTO, CodeSafetyOil, CodeScope} {
		mustNotice(t, d.Notices, code)
	}
	finiteNotices(t, d.Notices)

	// From 50 C to 80 C at stall without a tank that loses heat: about 6.5 min.
	hot := Reservoir{Oil: 87 * units.Kilogram, Ambient: units.Celsius(33), Start: units.Celsius(50), Limit: units.Celsius(80)}
	stall, err := hot.Under(units.Watts.Of(175e5 * d.OilFlow.CubicMetresPerSecond()))
	if err != nil {
		t.Fatal(err)
	}
	within(t, "stall minutes 50 to 80 C", stall.TimeToLimit.Minutes(), 5.8, 7)

	// With 60 W/K the oil levels off near 80 C.
	cooled := heronDrive()
	cooled.Reservoir.Loss = 60 * units.WattPerKelvin
	hc, err := NewHydraulicDrive(cooled)
	if err != nil {
		t.Fatal(err)
	}
	dc, err := hc.ForFlow(heronSystem(), flow230)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "plateau C", dc.OilHeating.Plateau.Celsius(), 78, 82)

	// The platform 0.6 m higher, same flow: 544 r/min, 90 bar, 8.4 kW, +-3 %.
	up, err := h.ForFlow(Raised{heronSystem(), 0.6 * units.Metre}, flow230)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "raised r/min", up.Pump.Speed.In(units.RevolutionsPerMinute), 544*0.97, 544*1.03)
	within(t, "raised bar", up.PumpPressure.In(units.Bars), 90*0.97, 90*1.03)
	within(t, "raised kW", up.PTOPower.In(units.Kilowatts), 8.4*0.97, 8.4*1.03)
}

// Derived by hand: at 520 r/min lifts of 3.0, 3.6, 4.2 and 4.8 m give 254, 230,
// 204 and 174 m3/h by the same parabola and hose, rounded.
func TestPlatformSweep(t *testing.T) {
	p, err := NewPump(heronPump())
	if err != nil {
		t.Fatal(err)
	}
	n := units.RevolutionsPerMinute.Of(520)
	raises := []units.Length{-0.6, 0, 0.6, 1.2, 4}
	steps := p.PlatformSweep(heronSystem(), raises, n, 1018)
	for i, want := range []float64{254, 230, 204, 174} {
		within(t, "flow m3/h", steps[i].Duty.Flow.In(units.CubicMetresPerHour), want-1, want+1)
		if steps[i].Fault != "" {
			t.Errorf("step %d: %s", i, steps[i].Fault)
		}
	}
	last := steps[4]
	if !errors.Is(last.Err, units.ErrNoSolution) || last.Fault == "" || !(last.Duty.MinimumSpeed > n) {
		t.Errorf("a lift of 7.6 m at 520 r/min must fail with the minimum speed, got %+v", last)
	}
	same := p.PlatformSweepForFlow(heronSystem(), raises[:4], flow230, 1018)
	for i := 1; i < len(same); i++ {
		if !(same[i].Duty.Speed > same[i-1].Duty.Speed && same[i].Duty.ShaftPower > same[i-1].Duty.ShaftPower) {
			t.Errorf("a higher platform must cost speed and power: %+v", same[i])
		}
	}
}

// Derived by hand: shut-off head at 400 r/min is 9 (400/600)^2 = 4.0 m; the
// speed for 3.6 m is 600 sqrt(3.6/9) = 379.5 r/min.
func TestMinimumSpeedOfHeronPump(t *testing.T) {
	c, err := FitCurve(heronPump().Curve)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "shut-off at 400", c.ShutOffHead(units.RevolutionsPerMinute.Of(400)).Metres(), 3.9999999, 4.0000001)
	m, err := c.MinimumSpeed(3.6)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "minimum speed", m.Start.In(units.RevolutionsPerMinute), 379.473, 379.474)
	op, err := c.Meet(heronSystem(), units.RevolutionsPerMinute.Of(400))
	if err != nil {
		t.Fatal(err)
	}
	mustNotice(t, op.Notices, CodeNearMinSpeed)
}

// The drive worked forward from the PTO returns the duty that the backward
// question started from, and the power balance closes.
func TestDriveInverts(t *testing.T) {
	data := heronDrive()
	data.OilPump = OilPump{Displacement: 45 * units.CubicCentimetrePerRevolution, Volumetric: 0.93, Hydromechanical: 0.9}
	data.StepUp = 3
	h, err := NewHydraulicDrive(data)
	if err != nil {
		t.Fatal(err)
	}
	back, err := h.ForFlow(heronSystem(), flow230)
	if err != nil {
		t.Fatal(err)
	}
	fwd, err := h.FromPTO(heronSystem(), back.PTOSpeed)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "flow ratio", float64(fwd.Pump.Flow/back.Pump.Flow), 1-1e-9, 1+1e-9)
	within(t, "power ratio", float64(fwd.PTOPower/back.PTOPower), 1-1e-9, 1+1e-9)
	sum := back.Pump.WaterPower + back.Losses.Impeller + back.Losses.Motor + back.Losses.Line + back.Losses.Valves + back.Losses.OilPump
	within(t, "power balance", float64(sum/back.PTOPower), 1-1e-12, 1+1e-12)
	within(t, "torque x speed", back.PTOTorque.Times(back.PTOSpeed).Watts()/back.PTOPower.Watts(), 1-1e-12, 1+1e-12)
	within(t, "heat", float64((back.HeatToOil-back.PTOPower+back.Pump.ShaftPower)/back.PTOPower), -1e-12, 1e-12)
}

func TestGreatestNamesWhatBinds(t *testing.T) {
	sys := heronSystem()
	data := heronDrive()
	data.Relief.Set = 95 * units.BarGauge
	h, err := NewHydraulicDrive(data)
	if err != nil {
		t.Fatal(err)
	}
	g, err := h.Greatest(sys, false)
	if err != nil {
		t.Fatal(err)
	}
	if g.Binding != "relief margin" {
		t.Errorf("binding = %q, want relief margin", g.Binding)
	}
	within(t, "pressure at the limit", g.Duty.PumpPressure.In(units.Bars), 0.85*95-0.01, 0.85*95+0.01)

	data = heronDrive()
	data.Tractor.Power = 9 * units.Kilowatt
	if h, err = NewHydraulicDrive(data); err != nil {
		t.Fatal(err)
	}
	if g, err = h.Greatest(sys, false); err != nil || g.Binding != "PTO power" {
		t.Errorf("binding = %q, %v, want PTO power", g.Binding, err)
	}
	within(t, "load at the limit", g.Duty.Tractor.LoadAtSpeed, 0.7999, 0.8001)

	if _, err = h.Greatest(sys, true); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("15.6 W/K cannot hold 82 C at any flow, got %v", err)
	}
	data.Reservoir.Loss = 45 * units.WattPerKelvin
	if h, err = NewHydraulicDrive(data); err != nil {
		t.Fatal(err)
	}
	if g, err = h.Greatest(sys, true); err != nil || g.Binding != "oil temperature" {
		t.Errorf("binding = %q, %v, want oil temperature", g.Binding, err)
	}
	within(t, "heat at the limit", g.Duty.HeatToOil.Watts(), 45*49-0.5, 45*49+0.5)

	data = heronDrive()
	data.Relief.Set = 20 * units.BarGauge
	if h, err = NewHydraulicDrive(data); err != nil {
		t.Fatal(err)
	}
	if _, err = h.Greatest(sys, false); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("a relief of 20 bar must be too small for the lift, got %v", err)
	}
}

func TestReservoirProperties(t *testing.T) {
	r := *heronDrive().Reservoir
	p := 2844 * units.Watt
	h, err := r.Under(p)
	if err != nil {
		t.Fatal(err)
	}
	at, err := r.At(h.TimeToLimit, p)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "temperature at the time to the limit", at.Celsius(), 82-1e-6, 82+1e-6)
	start, _ := r.At(0, p)
	within(t, "temperature at the start", start.Celsius(), 33-1e-9, 33+1e-9)
	long, err := r.At(1000*time.Hour, 500*units.Watt)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "after a long time", long.Celsius(), 33+500/15.6-1e-6, 33+500/15.6+1e-6)
	if _, err := r.At(1000*time.Hour, 100*units.Kilowatt); err == nil {
		t.Error("burnt oil must be an error")
	}
	// The linear limit and the closed form agree for a tank that loses little.
	little := r
	little.Loss = 1e-7
	none := r
	none.Loss = 0
	a, _ := little.Under(p)
	b, _ := none.Under(p)
	within(t, "little loss over none", a.TimeToLimit.Seconds()/b.TimeToLimit.Seconds(), 1-1e-6, 1+1e-6)
}
