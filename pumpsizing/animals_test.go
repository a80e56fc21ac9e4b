package pumpsizing

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pondwright.example/units"
)

func TestScreenAnimals(t *testing.T) {
	d := AnimalDuty{Flow: flow230, Hose: 254 * units.Millimetre, Speed: rpm(520), Impeller: 0.35 * units.Metre,
		FreePassage: 150 * units.Millimetre, BodyHeight: 20 * units.Millimetre, Solids: 0.05}
	s, err := ScreenAnimals(d, DefaultAnimalLimits())
	if err != nil {
		t.Fatal(err)
	}
	within(t, "hose velocity", s.HoseVelocity.MetresPerSecond(), 1.2608, 1.2610)
	for _, f := range s.Flags {
		if f.Verdict != VerdictOK || f.Source == "" {
			t.Errorf("%+v", f)
		}
	}
	mustNotice(t, s.Notices, CodeAnimalDefault)

	d.Solids, d.Speed, d.Flow, d.FreePassage = 0.2, rpm(700), units.CubicMetresPerHour.Of(100), 20*units.Millimetre
	s, err = ScreenAnimals(d, DefaultAnimalLimits())
	if err != nil {
		t.Fatal(err)
	}
	beyond := 0
	for _, f := range s.Flags {
		if f.Verdict == VerdictBeyond {
			beyond++
			if !(f.Margin < 0) {
				t.Errorf("%+v", f)
			}
		}
	}
	if beyond != 4 {
		t.Errorf("%d flags beyond, want too slow, tip speed, solids and passage: %+v", beyond, s.Flags)
	}
	mustNotice(t, s.Notices, CodeAnimalLimit)
	finiteNotices(t, s.Notices)

	// Without limits nothing is judged, and nothing is called ok.
	s, err = ScreenAnimals(d, AnimalLimits{Kind: "Penaeus vannamei"})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range s.Flags {
		if f.Verdict != NoData {
			t.Errorf("%+v", f)
		}
	}
	mustNotice(t, s.Notices, CodeAnimalNoData)
	if _, err := ScreenAnimals(AnimalDuty{Solids: 12}, AnimalLimits{}); !errors.Is(err, units.ErrDomain) || !strings.Contains(err.Error(), "solids") || !strings.Contains(err.Error(), "flow") {
		t.Errorf("%v", err)
	}
}

func TestJudgePressure(t *testing.T) {
	for _, c := range []struct {
		ratio   float64
		bladder SwimBladder
		want    Verdict
	}{
		{1.1, BladderPresent, VerdictOK}, {1.4, BladderPresent, VerdictClose}, {1.6, BladderPresent, VerdictBeyond},
		{1.1, BladderUnknown, NoData}, {1.1, BladderNone, NoData}, {math.NaN(), BladderPresent, NoData},
	} {
		got, why := JudgePressure(c.ratio, c.bladder)
		if got != c.want || why == "" {
			t.Errorf("%g, %d: %v, %q, want %v", c.ratio, c.bladder, got, why, c.want)
		}
	}
}

func TestStrikeFaultsAndCap(t *testing.T) {
	s := Strike{Flow: 0.05, Speed: rpm(900), Eye: 0.2, Blades: 3, Body: 0.4}
	x, err := s.Ratio()
	if err != nil || x.Probability != 1 || !(x.Uncapped > 1) {
		t.Errorf("%+v, %v", x, err)
	}
	for name, bad := range map[string]Strike{
		"blades": {Flow: 0.05, Speed: rpm(900), Eye: 0.2, Body: 0.4}, "body": {Flow: 0.05, Speed: rpm(900), Eye: 0.2, Blades: 1},
		"flow": {Speed: rpm(900), Eye: 0.2, Blades: 1, Body: 0.1}, "hub": {Flow: 0.05, Speed: rpm(900), Eye: 0.2, Hub: 0.2, Blades: 1, Body: 0.1},
	} {
		if _, err := bad.Ratio(); !errors.Is(err, units.ErrDomain) || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Unequal pumps: a bank of equal ones is the scaled curve, flows or heads add,
// and a weak pump is told.
func TestBanks(t *testing.T) {
	strong, err := FitCurve(heronPump().Curve)
	if err != nil {
		t.Fatal(err)
	}
	weak, err := FitCurve(CurveData{Speed: rpm(600), Points: points(0, 5, 100, 4.2, 200, 2.2)})
	if err != nil {
		t.Fatal(err)
	}
	n := rpm(560)
	sys := QuadraticSystem{Static: 3.6, Resistance: 62.6}
	two, err := MeetParallel(sys, BankUnit{strong, n}, BankUnit{strong, n})
	if err != nil {
		t.Fatal(err)
	}
	want, err := strong.InParallel(2).Meet(sys, n)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "parallel flow", float64(two.Flow/want.Flow), 1-1e-9, 1+1e-9)
	behind, err := MeetSeries(QuadraticSystem{Static: 9, Resistance: 300}, BankUnit{strong, n}, BankUnit{strong, n})
	if err != nil {
		t.Fatal(err)
	}
	if want, err = strong.InSeries(2).Meet(QuadraticSystem{Static: 9, Resistance: 300}, n); err != nil {
		t.Fatal(err)
	}
	within(t, "series flow", float64(behind.Flow/want.Flow), 1-1e-9, 1+1e-9)

	mixed, err := MeetParallel(QuadraticSystem{Static: 5.2, Resistance: 62.6}, BankUnit{strong, rpm(600)}, BankUnit{weak, rpm(600)})
	if err != nil {
		t.Fatal(err)
	}
	if mixed.Flows[1] != 0 || mixed.Flow != mixed.Flows[0] {
		t.Errorf("%+v", mixed)
	}
	mustNotice(t, mixed.Notices, CodeReversedHead)
	brake, err := MeetSeries(QuadraticSystem{Static: 1, Resistance: 20}, BankUnit{strong, rpm(600)}, BankUnit{weak, rpm(500)})
	if err != nil {
		t.Fatal(err)
	}
	within(t, "heads add", float64(brake.Heads[0]+brake.Heads[1]-brake.Head), -1e-12, 1e-12)
	mustNotice(t, brake.Notices, CodeReversedHead)

	for name, err := range map[string]error{
		"lift":  second(MeetParallel(QuadraticSystem{Static: 12}, BankUnit{strong, n})),
		"lift2": second(MeetSeries(QuadraticSystem{Static: 30}, BankUnit{strong, n}, BankUnit{weak, n})),
	} {
		if !errors.Is(err, units.ErrNoSolution) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, err := range map[string]error{
		"none":    second(MeetParallel(sys)),
		"unbuilt": second(MeetSeries(sys, BankUnit{Speed: n})),
		"nil":     second(MeetSeries(nil, BankUnit{strong, n})),
		"speed":   second(MeetParallel(sys, BankUnit{strong, 0})),
	} {
		if !errors.Is(err, units.ErrDomain) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func second[T any](_ T, err error) error { return err }
