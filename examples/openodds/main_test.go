package main

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

const heronFlat = "../harvestday/heronflat"

func call(args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	code = run(args, &out, &errs)
	return code, out.String(), errs.String()
}

// A later opening is never the likelier one, and both humps are told.
func TestOdds(t *testing.T) {
	code, out, errs := call("-draws", "400", "-open", "16:00,17:00,18:00,19:00", heronFlat)
	if code != 0 || errs != "" {
		t.Fatalf("exit %d: %s", code, errs)
	}
	last, rows := 101, 0
	for _, m := range regexp.MustCompile(`(?m)^Sun 1[6-9]:00  +(\d+) % \((\d+)-(\d+)\)`).FindAllStringSubmatch(out, -1) {
		p, _ := strconv.Atoi(m[1])
		low, _ := strconv.Atoi(m[2])
		high, _ := strconv.Atoi(m[3])
		if p > last || p < low || p > high || high-low < 1 || high-low > 12 {
			t.Errorf("odds %s after %d", m[0], last)
		}
		last, rows = p, rows+1
	}
	if rows != 4 || last > 50 {
		t.Errorf("%d openings, %d %% at the last, in\n%s", rows, last, out)
	}
	for _, want := range []string{"ready by Mon 03:00?", "0.90 m (2.95 ft)", "0.10 m (0.33 ft)", "losses of the outlet 20 %", "400 times",
		"down on the ebb (Sun", "shut in by the flood, down an ebb later (Mon 0"} {
		if !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "0001"} {
		if strings.Contains(out, bad) {
			t.Errorf("%q is in\n%s", bad, out)
		}
	}
}

// A whole night after the hour asked nothing is late.
func TestLaterHour(t *testing.T) {
	_, out, _ := call("-draws", "100", "-open", "14:00", "-by", "11:59", heronFlat)
	if !strings.Contains(out, "100 % (96-100)") {
		t.Errorf("got\n%s", out)
	}
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		code int
		want string
	}{
		"no folder":    {nil, 2, "openodds [OPTIONS] FOLDER"},
		"not a folder": {[]string{"nowhere"}, 1, "nowhere is not a folder"},
		"a bad hour":   {[]string{"-open", "16:00,5pm", heronFlat}, 1, `"5pm" is not a time`},
		"a bad end":    {[]string{"-by", "3", heronFlat}, 1, "-by"},
		"too late":     {[]string{"-open", "05:00", heronFlat}, 1, "not before the asked hour"},
		"few draws":    {[]string{"-draws", "5", heronFlat}, 1, "draws"},
	} {
		code, out, errs := call(c.args...)
		if code != c.code || out != "" || !strings.Contains(errs, c.want) {
			t.Errorf("%s: exit %d, printed %q, said %q, want %q", name, code, out, errs, c.want)
		}
	}
}
