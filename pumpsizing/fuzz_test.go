package pumpsizing

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"testing"

	"pondwright.example/units"
)

// FuzzMeet: any three points, system and speed give a finite duty or an error,
// never a panic or a NaN without one, and never a hang.
func FuzzMeet(f *testing.F) {
	f.Add(9.0, 100.0, 8.2, 200.0, 6.6, 3.6, 60.0, 520.0, uint8(0))
	f.Add(10.0, 72.0, 11.3, 144.0, 10.9, 10.4, 20.0, 600.0, uint8(2))
	f.Add(5.0, 100.0, 6.0, 200.0, 7.0, -3.0, 0.0, 10.0, uint8(3))
	f.Add(1e-300, 1e-300, 1e300, 1e200, 0.0, 1e-5, 1e300, 1e-10, uint8(4))
	f.Fuzz(func(t *testing.T, h0, q1, h1, q2, h2, lift, k, n float64, fit uint8) {
		m3h := units.CubicMetresPerHour.Of
		d := CurveData{Speed: rpm(600), Fit: Fit(fit % 6), Points: []CurvePoint{{Head: units.Length(h0)}, {Flow: m3h(q1), Head: units.Length(h1)}, {Flow: m3h(q2), Head: units.Length(h2)}}}
		c, err := FitCurve(d)
		if err != nil {
			return
		}
		finiteNotices(t, c.Notices())
		sys := QuadraticSystem{Static: units.Length(lift), Resistance: k}
		op, err := c.Meet(sys, rpm(n))
		finiteDuty(t, op, err)
		op, err = c.SpeedForFlow(sys, m3h(q1/2))
		finiteDuty(t, op, err)
	})
}

func finiteDuty(t *testing.T, op OperatingPoint, err error) {
	t.Helper()
	finiteNotices(t, op.Notices)
	if err != nil && !errors.Is(err, units.ErrRange) {
		return
	}
	for _, v := range []float64{float64(op.Flow), float64(op.Head), float64(op.Speed), op.SpeedRatio, float64(op.Lift), float64(op.ShutOffHead), float64(op.MinimumSpeed), float64(op.UnstableFlow)} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%+v, %v", op, err)
		}
	}
}

// FuzzReservoir: any lump of oil under any heat gives finite times or an error.
func FuzzReservoir(f *testing.F) {
	f.Add(60.0, 45.0, 30.0, 30.0, 65.0, 2500.0)
	f.Add(1e-9, 1e9, 30.0, 30.0, 30.0, 0.0)
	f.Fuzz(func(t *testing.T, oil, loss, ambient, start, limit, heat float64) {
		r := Reservoir{Oil: units.Mass(oil), Loss: units.ThermalConductance(loss), Ambient: units.Celsius(ambient), Start: units.Celsius(start), Limit: units.Celsius(limit)}
		h, err := r.Under(units.Watts.Of(heat))
		if err != nil {
			return
		}
		finiteNotices(t, h.Notices)
		if h.TimeToLimit < 0 || h.TimeConstant < 0 || math.IsNaN(h.Plateau.Kelvins()) || math.IsNaN(float64(h.InitialRate)) || math.IsInf(h.Plateau.Kelvins(), 0) {
			t.Errorf("%+v of %+v", h, r)
		}
	})
}

// FuzzDrive: a drive of any numbers gives a result without NaN or infinity, or
// an error.
func FuzzDrive(f *testing.F) {
	f.Add(9.0, 0.55, 240.0, 80.0, 0.92, 0.88, 32.0, 19.0, 30.0, 175.0, 26.0, 33.0, 87.0, 15.6, 230.0)
	f.Add(9.0, 0.55, 240.0, 4.9, 0.92, 0.88, 800.0, 6.0, 300.0, 95.0, 2.0, 55.0, 1.0, 0.0, 300.0)
	f.Add(1e-3, 1e-9, 1e9, 1e-3, 1e-9, 1e-9, 0.6, 199.0, 1e9, 399.0, 1e-9, -39.0, 1e-9, 1e9, 1e-9)
	f.Fuzz(func(t *testing.T, head, best, bestFlow, cc, ev, em, cSt, bore, length, relief, kw, air, oil, ua, q float64) {
		d := heronDrive()
		d.Pump.Curve.Points[0].Head = units.Length(head)
		d.Pump.Efficiency = EfficiencyData{Best: best, BestFlow: units.CubicMetresPerHour.Of(bestFlow)}
		d.Motor = HydraulicMotor{units.CubicCentimetresPerRevolution.Of(cc), ev, em}
		d.Oil.Viscosity = units.Centistokes.Of(cSt)
		d.Line = OilLine{Bore: units.Millimetres.Of(bore), Length: units.Length(length)}
		d.Relief.Set = units.BarsGauge.Of(relief)
		d.Tractor.Power, d.Tractor.AirTemp = units.Kilowatts.Of(kw), units.Celsius(air)
		d.Reservoir.Oil, d.Reservoir.Loss = units.Mass(oil), units.ThermalConductance(ua)
		h, err := NewHydraulicDrive(d)
		if err != nil {
			return
		}
		sys := QuadraticSystem{Static: 3.6, Resistance: 62.6}
		x, err := h.ForFlow(sys, units.CubicMetresPerHour.Of(q))
		finiteText(t, x, err)
		x, err = h.AtSpeed(sys, rpm(q))
		finiteText(t, x, err)
	})
}

// finiteText fails t when the JSON of a result holds a number that is none.
func finiteText(t *testing.T, x any, err error) {
	t.Helper()
	if err != nil && !errors.Is(err, units.ErrRange) {
		return
	}
	b, jerr := json.Marshal(x)
	if jerr != nil || bytes.Contains(b, []byte(`NaN`)) || bytes.Contains(b, []byte(`Inf`)) {
		t.Errorf("%s, %v, %v", b, jerr, err)
	}
}
