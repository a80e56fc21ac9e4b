package pumpsizing

import (
	"errors"
	"strings"
	"testing"

	"pondwright.example/units"
)

// Readings made from the model with one fault each are traced back to it.
func TestExplainFindsTheFaultPutIn(t *testing.T) {
	h, err := NewHydraulicDrive(heronDrive())
	if err != nil {
		t.Fatal(err)
	}
	sys := heronSystem()
	n := rpm(520)
	plan, err := h.AtSpeed(sys, n)
	if err != nil {
		t.Fatal(err)
	}
	read := func(d DriveDuty) Reading {
		return Reading{Speed: n, Flow: d.Pump.Flow, PumpPressure: units.PascalsGauge.Of(d.PumpPressure.Pascals())}
	}
	f, err := h.Explain(sys, read(plan))
	if err != nil || !f.Agrees {
		t.Errorf("the plan itself: %+v, %v", f, err)
	}

	clogged := sys
	clogged.k += 12
	d, err := h.AtSpeed(clogged, n)
	if err != nil {
		t.Fatal(err)
	}
	f, err = h.Explain(sys, read(d))
	if err != nil || f.Agrees {
		t.Fatalf("%+v, %v", f, err)
	}
	found := false
	for _, e := range f.Explanations {
		if strings.Contains(e.Cause, "resistance") {
			found = true
			q := d.Pump.Flow.CubicMetresPerSecond()
			within(t, "extra loss", e.Amount, (clogged.loss(q)-sys.loss(q))*0.999, (clogged.loss(q)-sys.loss(q))*1.001)
			within(t, "misfit", e.Misfit, -1e-6, 1e-6)
		}
	}
	if !found {
		t.Errorf("more resistance is missing: %+v", f.Explanations)
	}

	// 20 % less head, at the same power for wear and at less for air.
	for _, c := range []struct {
		cause string
		best  float64 // efficiency over that of the sound pump
	}{{"worn impeller", 0.8}, {"air in the pump", 1}} {
		faulty := heronDrive()
		pts := append([]CurvePoint(nil), faulty.Pump.Curve.Points...)
		for i := range pts {
			pts[i].Head *= 0.8
		}
		faulty.Pump.Curve.Points = pts
		faulty.Pump.Efficiency.Best *= c.best
		hf, err := NewHydraulicDrive(faulty)
		if err != nil {
			t.Fatal(err)
		}
		if d, err = hf.AtSpeed(sys, n); err != nil {
			t.Fatal(err)
		}
		if f, err = h.Explain(sys, read(d)); err != nil {
			t.Fatal(err)
		}
		found = false
		for _, e := range f.Explanations {
			if strings.Contains(e.Cause, c.cause) {
				found = true
				within(t, c.cause+", head lost", e.Amount, 0.1999, 0.2001)
				within(t, c.cause+", misfit", e.Misfit, -1e-9, 1e-9)
			}
		}
		if !found {
			t.Errorf("%q is missing: %+v", c.cause, f.Explanations)
		}
		if best := f.Explanations[0]; c.best == 1 && !strings.Contains(best.Cause, c.cause) {
			t.Errorf("best is %q, want %q", best.Cause, c.cause)
		}
	}

	// Cold oil: the planned flow, 15 bar more.
	cold := read(plan)
	cold.PumpPressure += 15 * units.BarGauge
	if f, err = h.Explain(sys, cold); err != nil || len(f.Explanations) < 2 {
		t.Fatalf("%+v, %v", f, err)
	}
	within(t, "best misfit", f.Explanations[0].Misfit, -1e-9, 1e-9)
	for _, e := range f.Explanations {
		if strings.Contains(e.Cause, "braked") { // D dp em/(2 pi) by hand: 80e-6 x 15e5 x 0.88/(2 pi)
			within(t, "braking torque", e.Amount, 16.80, 16.82)
		}
	}

	for _, bad := range []Reading{{}, {Speed: n, Flow: -1, PumpPressure: 1}, {Speed: n, Flow: 0.05}} {
		if _, err := h.Explain(sys, bad); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
	if _, err := h.Explain(sys, Reading{Speed: rpm(300), Flow: 0.05, PumpPressure: 50 * units.BarGauge}); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("below the minimum speed: %v", err)
	}
}
