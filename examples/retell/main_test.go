package main

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/examples/drainplan"
	"pondwright.example/units"
)

const heronFlat = "../harvestday/heronflat"

func call(args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	code = run(args, &out, &errs)
	return code, strings.Join(strings.Fields(out.String()), " "), errs.String()
}

// staff runs the farm's night with an outlet that passes a share of its design
// and reads the staff to the centimetre every half hour.
func staff(t *testing.T, share float64, hours float64) (args []string, ready time.Time) {
	t.Helper()
	n, err := drainplan.Open(heronFlat)
	if err != nil {
		t.Fatal(err)
	}
	p := n.Plan
	p.Gates[0].Clogging = []drawdown.StageFactor{{Stage: 0, Factor: share}}
	r, err := p.Run()
	if err != nil {
		t.Fatal(err)
	}
	for after := 0.5; after <= hours; after += 0.5 {
		at := p.Opening.Add(time.Duration(after * float64(time.Hour)))
		stage := math.Round(100*r.Hydrograph.Stage(at).Metres()) / 100
		text := fmt.Sprintf("%s %.2f m", at.Format("15:04"), stage)
		if len(args)%4 == 0 { // some hands read feet
			text = fmt.Sprintf("%s %.3f ft", at.Format("15:04"), units.Length(stage).In(units.Feet))
		}
		args = append(args, "-stage", text)
	}
	return append(args, heronFlat), r.Ready
}

func number(t *testing.T, pattern, out string) float64 {
	t.Helper()
	m := regexp.MustCompile(pattern).FindStringSubmatch(out)
	if m == nil {
		t.Fatalf("%s is not in %s", pattern, out)
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The outlet that made the readings passed 62 % of its design.
func TestFindsTheFouledOutlet(t *testing.T) {
	args, ready := staff(t, 0.62, 4)
	code, out, errs := call(args...)
	if code != 0 || errs != "" {
		t.Fatalf("exit %d: %s", code, errs)
	}
	found := number(t, `outlet is at (\d+) % of design`, out)
	give := number(t, `of design \(give or take (\d+)\)`, out)
	if !(math.Abs(found-62) <= 2*give && give < 20) {
		t.Errorf("found %v %% ± %v, the readings were made at 62 %%\n%s", found, give, out)
	}
	for _, want := range []string{"0.8", " ft)", "Planned ready: Mon 01:", "will be missed", "Were the outlet as designed", "look at the screen", "never by hand"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
	m := regexp.MustCompile(`between (Mon \d\d:\d\d) and (Mon \d\d:\d\d)`).FindStringSubmatch(out)
	if m == nil {
		t.Fatalf("no band in %s", out)
	}
	if truth := drainplan.At(ready); truth < m[1] || truth > m[2] {
		t.Errorf("the pond is ready at %s, outside %s to %s", truth, m[1], m[2])
	}
}

// Readings off the plan's own course leave the plan as it is.
func TestReadingsAsPlanned(t *testing.T) {
	args, ready := staff(t, 1, 4)
	_, out, _ := call(args...)
	if found := number(t, `outlet is at (\d+) % of design`, out); !(found > 90 && found < 110) {
		t.Errorf("found %v %%\n%s", found, out)
	}
	if !strings.Contains(out, "Planned ready: "+drainplan.At(ready)) || strings.Contains(out, "Were the outlet") {
		t.Errorf("ready %s\n%s", drainplan.At(ready), out)
	}
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		code int
		want string
	}{
		"no reading":    {[]string{heronFlat}, 2, "retell [OPTIONS]"},
		"no unit":       {[]string{"-stage", "18:00 0.86", heronFlat}, 1, "0.86 m is 2.82152 ft"},
		"no hour":       {[]string{"-stage", "0.86 m", heronFlat}, 1, "24-hour clock"},
		"two bad":       {[]string{"-stage", "18:00 0.86", "-stage", "7 pm 0.8 m", heronFlat}, 1, "7 pm"},
		"out of order":  {[]string{"-stage", "19:00 0.86 m", "-stage", "18:00 0.9 m", heronFlat}, 1, "reading 2 is not later"},
		"above pond":    {[]string{"-stage", "19:00 8.6 m", heronFlat}, 1, "readings[0].stage"},
		"not a folder":  {[]string{"-stage", "19:00 0.8 m", "nowhere"}, 1, "not a folder"},
		"bad opening":   {[]string{"-opened", "5", "-stage", "19:00 0.8 m", heronFlat}, 1, "-opened"},
		"bare from":     {[]string{"-from", "0.9", "-stage", "19:00 0.8 m", heronFlat}, 2, "has no unit"},
		"bad asked for": {[]string{"-by", "x", "-stage", "19:00 0.8 m", heronFlat}, 1, "-by"},
	} {
		code, out, errs := call(c.args...)
		if code != c.code || out != "" || !strings.Contains(errs, c.want) {
			t.Errorf("%s: exit %d, printed %q, said %q, want %q", name, code, out, errs, c.want)
		}
	}
}
