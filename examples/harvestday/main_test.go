package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func call(t *testing.T, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	code = run(args, &out, &errs, false)
	return code, out.String(), errs.String()
}

func TestEmbeddedNight(t *testing.T) {
	code, out, errs := call(t)
	if code != 0 || errs != "" {
		t.Fatalf("exit %d, said %q", code, errs)
	}
	for _, want := range []string{"RUN SHEET", "IN SHORT", "ORDERS OF THE NIGHT", "NOTICES", "TAKEN FOR GRANTED", "FOR EVERYBODY'S SAFETY",
		"m³/h", "US gpm", "10 people", "cliff", "latest opening if", "surgical emergency", "BIO_COUNT_STRADDLES_EDGE"} {
		if !strings.Contains(out, want) {
			t.Errorf("the run sheet lacks %q", want)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "0001-01-01", "Mon 00:00 - 00:00"} {
		if strings.Contains(out, bad) {
			t.Errorf("the run sheet holds %q", bad)
		}
	}
	for line := range strings.Lines(out) {
		if n := len([]rune(strings.TrimRight(line, "\n"))); n > 100 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
}

func TestFolderGivesTheSameNight(t *testing.T) {
	_, embedded, _ := call(t)
	_, folder, _ := call(t, "heronflat")
	if embedded != folder {
		t.Error("the folder heronflat and the embedded scenario differ")
	}
}

func TestFilesWritten(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "night")
	if code, _, errs := call(t, "-out", dir); code != 0 {
		t.Fatalf("exit %d: %s", code, errs)
	}
	data, err := os.ReadFile(filepath.Join(dir, "plan.json"))
	if err != nil {
		t.Fatal(err)
	}
	var plan map[string]any
	if err := json.Unmarshal(data, &plan); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"input", "crop", "openings", "lift", "ice", "haul", "notices", "assumed", "cautions"} {
		if plan[key] == nil {
			t.Errorf("plan.json lacks %q", key)
		}
	}
	page, err := os.ReadFile(filepath.Join(dir, "plan.html"))
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(page, []byte("<svg")); n != 7 {
		t.Errorf("%d pictures on the page, want 7", n)
	}
	for _, bad := range []string{"NaN", "Inf\"", "<script", "src=", "href=", "url(", "@import"} {
		if bytes.Contains(page, []byte(bad)) {
			t.Errorf("the page holds %q", bad)
		}
	}
}

func TestBadFolderWritesNothing(t *testing.T) {
	bad, dir := t.TempDir(), filepath.Join(t.TempDir(), "night")
	if err := os.CopyFS(bad, os.DirFS("heronflat")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(bad, "tide.csv"), []byte("time,height (m),water\n14/03/2027,1.3,high\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(bad, "trucks.csv")); err != nil {
		t.Fatal(err)
	}
	code, out, errs := call(t, "-out", dir, bad)
	if code != 1 || out != "" {
		t.Errorf("exit %d, printed %q", code, out)
	}
	for _, want := range []string{"tide.csv line 2", "trucks.csv", "2 problems; nothing was planned or written"} {
		if !strings.Contains(errs, want) {
			t.Errorf("%q is not in:\n%s", want, errs)
		}
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("a folder was made for a night that was not planned")
	}
	if code, _, errs := call(t, filepath.Join(bad, "nowhere")); code != 1 || !strings.Contains(errs, "not a folder") {
		t.Errorf("a folder that is not there: exit %d, %q", code, errs)
	}
	if code, _, _ := call(t, "one", "two"); code != 2 {
		t.Errorf("two folders: exit %d", code)
	}
}

func TestProgressOnATerminalOnly(t *testing.T) {
	var piped, terminal bytes.Buffer
	stopPiped, stop := progress(&piped, false), progress(&terminal, true)
	time.Sleep(1200 * time.Millisecond)
	stopPiped()
	stop()
	if piped.Len() != 0 {
		t.Errorf("written to a pipe: %q", piped.String())
	}
	if s := terminal.String(); !strings.Contains(s, "planning the night, 1 s") || !strings.HasSuffix(s, "\r\x1b[K") {
		t.Errorf("written to a terminal: %q", s)
	}
}
