package pumpsizing

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func vg46(t *testing.T) Oil {
	t.Helper()
	d, err := ISOVG(46)
	if err != nil {
		t.Fatal(err)
	}
	o, err := NewOil(d)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func TestOilCourseTable(t *testing.T) {
	check.Run(t, "testdata/oil_course.csv", checks{
		"HydraulicDrive.OilCourse": func(r check.Row) (float64, error) {
			d := heronDrive()
			d.Reservoir.Ambient, d.Reservoir.Start = units.Celsius(r.Float("start_c")), units.Celsius(r.Float("start_c"))
			d.Reservoir.Limit = units.Celsius(120)
			h, err := NewHydraulicDrive(d)
			if err != nil {
				return 0, err
			}
			until := time.Duration(r.Float("seconds") * 1e9)
			c, err := h.OilCourse(heronSystem(), flow230, vg46(t), until/4, until)
			if err != nil {
				return 0, err
			}
			last := c.Steps[len(c.Steps)-1]
			if len(c.Steps) != 5 || last.After != until {
				t.Errorf("%d steps, the last after %v", len(c.Steps), last.After)
			}
			if r.Text("quantity") == "pressure bar" {
				return last.PumpPressure.In(units.Bars), nil
			}
			return last.Temperature.Celsius(), nil
		},
	})
}

// With an oil that hardly thins the course is the closed form.
func TestOilCourseAgreesWithClosedForm(t *testing.T) {
	thick, err := NewOil(OilData{T1: units.Celsius(-20), Viscosity1: 32.001 * units.Centistoke, T2: units.Celsius(180), Viscosity2: 31.999 * units.Centistoke})
	if err != nil {
		t.Fatal(err)
	}
	d := heronDrive()
	d.Line.Length = 1 * units.Millimetre // or the oil's density would change its loss
	h, err := NewHydraulicDrive(d)
	if err != nil {
		t.Fatal(err)
	}
	want, err := h.ForFlow(heronSystem(), flow230)
	if err != nil {
		t.Fatal(err)
	}
	c, err := h.OilCourse(heronSystem(), flow230, thick, time.Minute, 2*time.Hour)
	if err != nil {
		t.Fatal(err)
	}
	if !c.ReachesLimit {
		t.Fatal("the limit must be reached")
	}
	within(t, "time to the limit", c.TimeToLimit.Seconds()/want.OilHeating.TimeToLimit.Seconds(), 0.9999, 1.0001)
	for i := 1; i < len(c.Steps); i++ {
		if !c.Steps[i-1].Temperature.Less(c.Steps[i].Temperature) || c.Steps[i].After <= c.Steps[i-1].After {
			t.Fatalf("step %d does not rise: %+v", i, c.Steps[i])
		}
	}
	finiteNotices(t, c.Notices)
	mustNotice(t, c.Notices, CodeOilTemperature)
}

func TestOilCourseFaults(t *testing.T) {
	h, err := NewHydraulicDrive(heronDrive())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ every, until time.Duration }{{0, time.Hour}, {time.Minute, 0}, {time.Millisecond, time.Hour}} {
		if _, err := h.OilCourse(heronSystem(), flow230, vg46(t), c.every, c.until); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%v, %v: %v", c.every, c.until, err)
		}
	}
	if _, err := h.OilCourse(heronSystem(), -1, vg46(t), time.Minute, time.Hour); !errors.Is(err, units.ErrDomain) {
		t.Errorf("negative flow: %v", err)
	}
	bare := heronDrive()
	bare.Reservoir = nil
	if h, err = NewHydraulicDrive(bare); err != nil {
		t.Fatal(err)
	}
	if _, err := h.OilCourse(heronSystem(), flow230, vg46(t), time.Minute, time.Hour); !errors.Is(err, units.ErrDomain) {
		t.Errorf("no reservoir: %v", err)
	}
	// A jam in a small tank runs to the end of the oil's data and stops there.
	hot := heronDrive()
	hot.Reservoir.Oil, hot.Reservoir.Loss = 5, 0
	if h, err = NewHydraulicDrive(hot); err != nil {
		t.Fatal(err)
	}
	c, err := h.OilCourse(heronSystem(), flow230, vg46(t), time.Minute, 10*time.Hour)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "last temperature", c.Steps[len(c.Steps)-1].Temperature.Celsius(), 149.999, 150.001)
}

func TestOilInverts(t *testing.T) {
	o := vg46(t)
	for _, c := range []float64{-10, 20, 60, 95} {
		v, err := o.Viscosity(units.Celsius(c))
		if err != nil {
			t.Fatal(err)
		}
		back, err := o.TemperatureFor(v)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "temperature back", back.Celsius(), c-1e-9, c+1e-9)
	}
	if _, err := o.TemperatureFor(units.KinematicViscosity(math.NaN())); !errors.Is(err, units.ErrDomain) {
		t.Errorf("%v", err)
	}
	if o.Name() != "ISO VG 46" {
		t.Error(o.Name())
	}
	if _, err := ISOVG(40); !errors.Is(err, units.ErrDomain) {
		t.Errorf("%v", err)
	}
}
