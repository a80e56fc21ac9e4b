package pumpsizing

import (
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
