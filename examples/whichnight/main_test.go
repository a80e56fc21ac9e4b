package main

import (
	"bytes"
	"strings"
	"testing"
)

const heronFlat = "../harvestday/heronflat"

func call(args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	code = run(args, &out, &errs)
	return code, out.String(), errs.String()
}

// The tide comes 50 minutes later each day, so of two nights that are opened at
// the same hour the earlier one leaves more time before the tide shuts the pipe.
func TestRanksTheEarlierTide(t *testing.T) {
	code, out, errs := call("-first", "2027-03-14", "-nights", "3", "-work", "4h", "-draws", "60", heronFlat)
	if code != 0 || errs != "" {
		t.Fatalf("exit %d: %s", code, errs)
	}
	var order []string
	for line := range strings.Lines(out) {
		if len([]rune(line)) > 105 {
			t.Errorf("a line of %d columns: %s", len(line), line)
		}
		if f := strings.Fields(line); len(f) > 3 && (f[0] == "1" || f[0] == "2" || f[0] == "3") {
			order = append(order, f[2])
		}
	}
	if got := strings.Join(order, " "); got != "14 15 16" {
		t.Errorf("ranked %q, want 14 15 16 in\n%s", got, out)
	}
	for _, want := range []string{"0.90 m (2.95 ft)", "0.25 m (0.82 ft)", "0.10 m (0.33 ft)", "4 h 00 min of work before first light",
		"First: opened on Sun 14 Mar", "moon: lit", "ready 5 h", "vests, ladder"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "0001"} {
		if strings.Contains(out, bad) {
			t.Errorf("%q is in\n%s", bad, out)
		}
	}
	if _, again, _ := call("-first", "2027-03-14", "-nights", "3", "-work", "4h", "-draws", "60", heronFlat); again != out {
		t.Error("equal seeds gave unequal answers")
	}
}

// An opening after midnight belongs to the evening before.
func TestOpenedAfterMidnight(t *testing.T) {
	code, out, errs := call("-first", "2027-03-14", "-nights", "1", "-work", "4h", "-draws", "20", "-open", "02:00", heronFlat)
	if code != 0 || !strings.Contains(out, "opened on Mon 15 Mar") || !strings.Contains(out, "no opening makes it") {
		t.Errorf("exit %d %s\n%s", code, errs, out)
	}
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		code int
		want string
	}{
		"no folder":     {[]string{}, 2, "whichnight [OPTIONS] FOLDER"},
		"not a folder":  {[]string{"nowhere"}, 1, "nowhere is not a folder"},
		"a bad day":     {[]string{"-first", "14/3/27", "-work", "4h", heronFlat}, 1, "such as 2027-03-14"},
		"a bad hour":    {[]string{"-open", "5 pm", "-work", "4h", heronFlat}, 1, "24-hour clock"},
		"past the tide": {[]string{"-first", "2027-06-01", "-nights", "2", "-work", "4h", heronFlat}, 1, "the tide table runs from 12 Mar"},
		"none covered":  {[]string{"-first", "2027-06-01", "-work", "4h", heronFlat}, 1, "covers no whole night"},
		"too many":      {[]string{"-nights", "4000", "-work", "4h", heronFlat}, 1, "366"},
		"negative work": {[]string{"-work", "-4h", heronFlat}, 1, "negative"},
		"no draws":      {[]string{"-draws", "-3", "-work", "4h", heronFlat}, 1, "draws"},
	} {
		code, out, errs := call(c.args...)
		if code != c.code || out != "" || !strings.Contains(errs, c.want) {
			t.Errorf("%s: exit %d, printed %q, said %q, want %q", name, code, out, errs, c.want)
		}
	}
}
