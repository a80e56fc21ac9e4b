package drawdown

import (
	"errors"
	"math"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// crowded is a warm pond's oxygen without any supply.
func crowded(stock units.Mass) OxygenBudget {
	return OxygenBudget{Stock: stock, Respiration: 350 * units.MilligramPerKilogramHour, Start: 6 * units.MilligramPerLitre, Limit: 3 * units.MilligramPerLitre, Temperature: units.Celsius(28)}
}

// Without supply the oxygen lasts (C0 - Cc) V/(R B), so the point of no return
// of a vertical tank is V = V(safe)/(1 + q (C0 - Cc)/(R B)).
func TestNoReturnAgainstClosedForm(t *testing.T) {
	check.Run(t, "testdata/noreturn.csv", map[string]func(check.Row) (float64, error){
		"Refill.NoReturn": func(r check.Row) (float64, error) {
			q := Refill{Pond: basin{10000, 1, 0, 2}, Flow: units.Flow(r.Float("flow_m3_h") / 3600), Safe: units.Length(r.Float("safe_m")), Now: 1, Oxygen: crowded(units.Mass(r.Float("stock_kg")))}
			p, err := q.NoReturn()
			return float64(p.Stage), err
		},
	})
}

func TestNoReturnCases(t *testing.T) {
	r := Refill{Pond: linedPond, Flow: 0.1, Safe: 1.0, Now: 0.3, Oxygen: crowded(6000)}
	p, err := r.NoReturn()
	if err != nil {
		t.Fatal(err)
	}
	if !(p.Stage > 0.3) || p.GoBack || len(p.Notices) != 1 || p.RefillNow <= p.OxygenNow {
		t.Errorf("%+v", p)
	}
	r.Now = p.Stage + 0.001
	if q, err := r.NoReturn(); err != nil || !q.GoBack || q.RefillBy < 0 || q.RefillBy > 5*time.Minute || len(q.Notices) != 0 {
		t.Errorf("just above: %+v, %v", q, err)
	}
	// Aerated beyond its need the pond may be as low as it likes.
	r.Oxygen.Aeration = units.MassFlow(1)
	r.Now = 0.3
	if q, err := r.NoReturn(); err != nil || !q.Lasts || !q.GoBack || q.Stage != linedPond.Bottom() {
		t.Errorf("aerated: %+v, %v", q, err)
	}
	slow := Refill{Pond: linedPond, Flow: 1e-5, Safe: 1.4, Now: 0.3, Oxygen: crowded(600000)}
	if _, err := slow.NoReturn(); !errors.Is(err, units.ErrNoSolution) && err != nil {
		t.Errorf("hopeless: %v", err)
	}
	for _, bad := range []Refill{{}, {Pond: linedPond, Safe: 1, Now: 0.5}, {Pond: linedPond, Flow: 1, Safe: 9, Now: 0.5}, {Pond: linedPond, Flow: 1, Safe: 0, Now: 0.5},
		{Pond: linedPond, Flow: 1, Safe: 1, Now: units.Length(math.NaN())}, {Pond: linedPond, Flow: 1, Safe: 1, Now: 0.5}} {
		if _, err := bad.NoReturn(); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

// The stage to stop at the day before: from it the night is just in time, and
// from a little higher it is not; the oxygen lasts at the lowest and not below.
func TestPreDrainTarget(t *testing.T) {
	d := PreDrain{Night: evening(clock(1, 17, 0), 0), Opening: clock(1, 17, 0), ReadyBy: clock(2, 2, 20), Oxygen: crowded(2000), Hold: 4 * time.Hour}
	a, err := d.Target()
	if err != nil {
		t.Fatal(err)
	}
	if !a.Feasible || a.Ready.After(d.ReadyBy) || a.Stage != a.Highest || a.Highest < 0.9 || a.Highest > 1.2 {
		t.Errorf("%+v", a)
	}
	p := d.Night
	p.Stage, p.Opening = a.Highest+0.001, d.Opening
	if r, _ := p.Run(); !r.Ready.After(d.ReadyBy) {
		t.Errorf("a millimetre higher is ready %v", r.Ready)
	}
	o := d.Oxygen
	o.Volume = linedPond.Volume(a.Lowest)
	if look, _ := o.Outlook(); look.TimeToLimit < d.Hold || look.TimeToLimit > d.Hold+time.Minute {
		t.Errorf("at the lowest the oxygen lasts %v", look.TimeToLimit)
	}
	d.Hold = 48 * time.Hour
	if a, err = d.Target(); err != nil || a.Feasible || len(a.Notices) != 1 {
		t.Errorf("torn: %+v, %v", a, err)
	}
	d.ReadyBy = clock(1, 17, 1)
	if a, err = d.Target(); err == nil && !(a.Highest < 0.26) {
		t.Errorf("a minute: %+v", a)
	}
	d.ReadyBy = clock(1, 16, 0)
	if _, err = d.Target(); !errors.Is(err, units.ErrDomain) {
		t.Errorf("ready before open: %v", err)
	}
}
