package main

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

func call(args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	code = run(args, &out, &errs)
	return code, out.String(), errs.String()
}

func printed(t *testing.T, pattern, out string) float64 {
	t.Helper()
	m := regexp.MustCompile(pattern).FindStringSubmatch(out)
	if m == nil {
		t.Fatalf("%s is not in\n%s", pattern, out)
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(m[1], ",", ""), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Derived by hand: 2600 kg in four tanks of 2.25 m3 are 650/2250 = 0.289 kg/L of
// tank; at 1020 kg/m3 they displace 637 L, which leaves 1613 L and 0.403 kg/L of
// water. At 300 mg/(kg h) they take at least 0.3·2.6·9 = 7.0 kg in 9 h, and the
// doubling of the demand with 10 K adds less than a quarter for 3.5 K.
func TestTrout(t *testing.T) {
	code, out, errs := call("-demand", "300 mg/kg/h", "-animals", "5732 lb")
	if code != 0 || errs != "" {
		t.Fatalf("exit %d: %s", code, errs)
	}
	for _, want := range []string{"0.289 kg/L (2.41 lb/US gal)", "0.403 kg/L (3.36 lb/US gal)", "1,610 L (426 US gal); the animals lift it by 637 L",
		"2,600 kg (5,730 lb), trout, in 4 tanks of 2,250 L (594 US gal)", "10.0 °C (50.0 °F)", "300 mg/(kg·h), as given", "cylinders of 6.91 m3 (244 ft3)",
		"CO2", "NH3-N", "K (", "°F)", "largest load", "no oil, grease or smoking"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
	if used := printed(t, `taken up +([\d.,]+) kg`, out); !(used >= 7.0 && used < 8.8) {
		t.Errorf("oxygen taken up %v kg, want 7.0 to 8.8", used)
	}
	for _, bad := range []string{"NaN", "Inf", "%!"} {
		if strings.Contains(out, bad) {
			t.Errorf("%q is in\n%s", bad, out)
		}
	}
	for line := range strings.Lines(out) {
		if n := len([]rune(line)); n > 101 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
}

// The largest load keeps every limit, a fiftieth more does not.
func TestLargestLoad(t *testing.T) {
	base := []string{"-flow", "3 kg/h", "-most-ammonia", "0.3 mg/L"}
	_, out, _ := call(base...)
	most := printed(t, `largest load +([\d.,]+) kg`, out)
	if _, out, _ := call(append(base, "-animals", fmt.Sprintf("%v kg", 0.99*most))...); strings.Contains(out, "PASSED") {
		t.Errorf("at 0.99 of %v kg a limit is passed:\n%s", most, out)
	}
	if _, out, _ := call(append(base, "-animals", fmt.Sprintf("%v kg", 1.02*most))...); !strings.Contains(out, "PASSED") {
		t.Errorf("at 1.02 of %v kg no limit is passed:\n%s", most, out)
	}
}

func TestKinds(t *testing.T) {
	if code, out, errs := call("-kind", "catfish", "-animals", "20000 lb", "-each", "1.66 lb", "-tank", "2906 US gal", "-tanks", "1", "-hours", "45m", "-water", "72 °F"); code != 0 || !strings.Contains(out, "1 tank of") || !strings.Contains(out, "Boyd, Romaire & Johnston") || !strings.Contains(out, "TRANS_LOAD_BASIS") {
		t.Errorf("exit %d %s\n%s", code, errs, out)
	}
	if code, out, errs := call("-kind", "other", "-demand", "250 mg/kg/h", "-least-oxygen", "4 mg/L"); code != 0 || !strings.Contains(out, "live animals") {
		t.Errorf("exit %d %s\n%s", code, errs, out)
	}
	if code, out, errs := call("-hours", "0s"); code != 0 || strings.Contains(out, "NaN") {
		t.Errorf("no haul: exit %d %s\n%s", code, errs, out)
	}
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		code int
		want string
	}{
		"bare number":    {[]string{"-animals", "2600"}, 2, "2600 kg is 5732.02 lb"},
		"which gallon":   {[]string{"-tank", "594 gal"}, 2, "US gal"},
		"which ton":      {[]string{"-animals", "2 ton"}, 2, "short ton"},
		"no basis":       {[]string{"-alkalinity", "100 mg/L"}, 2, "CaCO3"},
		"too many":       {[]string{"-animals", "12 t"}, 1, "only less than 9180 kg leaves any water"},
		"no tank":        {[]string{"-tanks", "0"}, 1, "1 to 100 tanks"},
		"unknown animal": {[]string{"-kind", "eel"}, 1, "trout, catfish or other"},
		"no demand":      {[]string{"-kind", "other"}, 1, "-demand"},
		"boiling":        {[]string{"-water", "95 °C"}, 1, "95"},
		"a stray word":   {[]string{"trout"}, 2, "livehaul [OPTIONS]"},
	} {
		code, out, errs := call(c.args...)
		if code != c.code || out != "" || !strings.Contains(errs, c.want) {
			t.Errorf("%s: exit %d, printed %q, said %q, want %q", name, code, out, errs, c.want)
		}
	}
}
