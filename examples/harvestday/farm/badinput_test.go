package farm_test

import (
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"pondwright.example/examples/harvestday/farm"
	"pondwright.example/examples/harvestday/plan"
)

// heron is a fresh copy of the good folder, to be spoilt.
func heron(t *testing.T) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	dir := os.DirFS("../heronflat")
	entries, err := fs.ReadDir(dir, ".")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		data, err := fs.ReadFile(dir, e.Name())
		if err != nil {
			t.Fatal(err)
		}
		out[e.Name()] = &fstest.MapFile{Data: data}
	}
	return out
}

func swap(t *testing.T, f fstest.MapFS, file, old, with string) {
	t.Helper()
	s := string(f[file].Data)
	if strings.Count(s, old) == 0 {
		t.Fatalf("%s does not hold %q", file, old)
	}
	f[file] = &fstest.MapFile{Data: []byte(strings.Replace(s, old, with, 1))}
}

func TestGoodFolder(t *testing.T) {
	in, notices, err := farm.Read(heron(t))
	if err != nil {
		t.Fatal(err)
	}
	if len(in.Pond.Survey) != 42 || len(in.Stock.Casts) != 24 || len(in.Stock.Weights) != 60 || len(in.Tide.Waters) != 43 {
		t.Errorf("read %d soundings, %d casts, %d weights, %d tides", len(in.Pond.Survey), len(in.Stock.Casts), len(in.Stock.Weights), len(in.Tide.Waters))
	}
	if len(notices) != 1 || notices[0].Code != farm.CodeDuplicateRow {
		t.Errorf("notices: %v", notices)
	}
	if _, err := plan.Make(in); err != nil {
		t.Error(err)
	}
}

// edit is one slip in a good folder and what the answer to it must say.
type edit struct {
	name, file, old, with string
	want                  []string // parts of the one error
}

func TestEachSlipGetsItsAnswer(t *testing.T) {
	stages := func(rows string) string {
		return `"rateLimit": "20 cm", "stages": [` + rows + `]`
	}
	for _, e := range []edit{
		{"unit missing", "harvest.json", `"0.60 m"`, `4.5`, []string{"tide.invert", "4.5", " m", "ft"}},
		{"unit missing in text", "harvest.json", `"0.60 m"`, `"4.5"`, []string{"tide.invert", "4.5", " m", "ft"}},
		{"unit missing in a table", "pump.csv", "head (m)", "head", []string{"pump.csv line 3", `column "head"`}},
		{"two levels at one spot", "survey.csv", "1,2.4,12.5,0\n", "1,2.4,12.5,0\n1,2.4,12.5,0.4\n", []string{"survey.csv line 4", "same spot as line 3"}},
		{"table's clock without a zone", "harvest.json", `"invert": "0.60 m",
    "zone": "+07:00"`, `"invert": "0.60 m",
    "zone": ""`, []string{"tide.zone", "+07:00"}},
		{"datum without its offset", "harvest.json", `"invert": "0.60 m",`, ``, []string{"tide.invert", "missing"}},
		{"datum without a name", "harvest.json", `"port datum"`, `""`, []string{"tide.datum", "DATUM_MISSING"}},
		{"roughness in the wrong unit", "harvest.json", `"0.015 mm"`, `"1.5 m"`, []string{"outlet.roughness", "1.5 m"}},
		{"pump curve of one point", "pump.csv", "100,8.2,600\n200,6.6,600\n300,4.2,600\n350,2.7,600\n", "", []string{"pump.points"}},
		{"pump curve at mixed speeds", "pump.csv", "200,6.6,600", "200,6.6,540", []string{"pump.points[2]", "540"}},
		{"relief in the wrong unit", "harvest.json", `"175 bar{gauge}"`, `"2500 bar{gauge}"`, []string{"drive.relief", "2500", "psi"}},
		{"relief without its basis", "harvest.json", `"175 bar{gauge}"`, `"175 bar"`, []string{"drive.relief", "gauge"}},
		{"survival above one", "harvest.json", `"survival": 0.80`, `"survival": 105`, []string{"stock.survival", "105"}},
		{"water too hot", "harvest.json", `"29 °C"`, `"45 °C"`, []string{"water.temperature", "45"}},
		{"ice above freezing", "harvest.json", `"-3 °C"`, `"2 °C"`, []string{"icing.ice", "2"}},
		{"a negative haul", "harvest.json", `"6 h"`, `"-6 h"`, []string{"haul.doorToDoor", "-6"}},
		{"NaN", "harvest.json", `"survival": 0.80`, `"survival": NaN`, []string{"line", "not valid JSON"}},
		{"ambiguous thousands", "containers.csv", "14,1000,", `14,"1,250",`, []string{"containers.csv line 2", "1,250", "1250", "1.250"}},
		{"a ton undefined", "harvest.json", `"2660 kg"`, `"3 ton"`, []string{"icing.onHand", "short ton", "long ton"}},
		{"a gallon undefined", "harvest.json", `"1500 L"`, `"400 gal"`, []string{"icing.makeUpWater", "gal"}},
		{"an empty cast", "casts.csv", "1;215;", "1;;", []string{"casts.csv line 2", "write 0"}},
		{"a count that is none", "casts.csv", "1;215;", "1;21,5;", []string{"casts.csv line 2", "whole number"}},
		{"a date in another order", "tide.csv", "2027-03-14 17:00:00", "14/03/2027 17:00", []string{"tide.csv line", "year-month-day"}},
		{"a word for the water", "tide.csv", "0.20,low", "0.20,slack", []string{"tide.csv line", "slack"}},
		{"unsorted tide", "tide.csv", "2027-03-14 17:00:00", "2027-03-11 17:00:00", []string{"tide.waters", "not later"}},
		{"unknown key", "harvest.json", `"flapGate"`, `"flapgate"`, []string{"outlet.flapgate", "unknown key", "flapGate"}},
		{"duplicate key", "harvest.json", `"full": "1.40 m",`, `"full": "1.40 m", "full": "1.50 m",`, []string{"pond.full", "twice"}},
		{"trailing text", "harvest.json", "\n}\n", "\n}\nthanks\n", []string{"thanks"}},
		{"asked before it is opened", "harvest.json", `"readyBy": "2027-03-15T03:00`, `"readyBy": "2027-03-14T03:00`, []string{"night.readyBy", "night.opening"}},
		{"level above the bank", "harvest.json", `"full": "1.40 m"`, `"full": "14 m"`, []string{"pond.full", "14"}},
		{"nothing to read", "harvest.json", heronJSON(t), "", []string{"harvest.json", "empty"}},
	} {
		f := heron(t)
		swap(t, f, e.file, e.old, e.with)
		one(t, e.name, f, e.want)
	}
	for _, e := range []struct {
		name, rows string
		want       []string
	}{
		{"unsorted stages", `{"stage":"0 m","area":"100 m2"},{"stage":"1 m","area":"900 m2"},{"stage":"0.5 m","area":"500 m2"}`, []string{"pond.stages[2]"}},
		{"one stage with two areas", `{"stage":"0 m","area":"100 m2"},{"stage":"1.5 m","area":"900 m2"},{"stage":"1.5 m","area":"950 m2"}`, []string{"pond.stages[2]"}},
		{"a pond that overhangs", `{"stage":"0 m","area":"100 m2"},{"stage":"1 m","area":"900 m2"},{"stage":"1.5 m","area":"800 m2"}`, []string{"pond.stages[2].area"}},
		{"an area of the wrong dimension", `{"stage":"0 m","area":"100 m2"},{"stage":"1 m","area":"900 m"}`, []string{"pond.stages[1].area"}},
	} {
		f := heron(t)
		delete(f, "survey.csv")
		swap(t, f, "harvest.json", `"rateLimit": "20 cm"`, stages(e.rows))
		one(t, e.name, f, e.want)
	}
}

func heronJSON(t *testing.T) string { return string(heron(t)["harvest.json"].Data) }

// one demands exactly one error that holds all of want.
func one(t *testing.T, name string, f fs.FS, want []string) {
	t.Helper()
	_, _, err := farm.Read(f)
	if err == nil {
		t.Errorf("%s: accepted", name)
		return
	}
	lines := strings.Split(err.Error(), "\n")
	if len(lines) != 1 {
		t.Errorf("%s: %d errors for one slip:\n%v", name, len(lines), err)
	}
	for _, w := range want {
		if !strings.Contains(lines[0], w) {
			t.Errorf("%s: %q is not in: %s", name, w, lines[0])
		}
	}
}

// A folder with many slips names every one of them in one run.
func TestAllProblemsInOneRun(t *testing.T) {
	f := heron(t)
	swap(t, f, "harvest.json", `"0.015 mm"`, `"1.5 m"`)
	swap(t, f, "harvest.json", `"survival": 0.80`, `"survival": 105`)
	swap(t, f, "harvest.json", `"30 PSU"`, `30`)
	swap(t, f, "casts.csv", "1;215;", "1;many;")
	swap(t, f, "tide.csv", "0.20,low", "0.20,slack")
	delete(f, "trucks.csv")
	_, _, err := farm.Read(f)
	if err == nil {
		t.Fatal("accepted")
	}
	for _, w := range []string{"outlet.roughness", "stock.survival", "water.salinity", "casts.csv line 2", "tide.csv line 3", "trucks.csv"} {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%s is not named in:\n%v", w, err)
		}
	}
	if n := strings.Count(err.Error(), "\n") + 1; n != 6 {
		t.Errorf("%d problems named, want 6:\n%v", n, err)
	}
}

// What people save is read: the same night with other habits of writing.
func TestOtherHabits(t *testing.T) {
	f := heron(t)
	swap(t, f, "trucks.csv", "2027-03-15 03:30", "2027-03-14 24:00")
	swap(t, f, "pump.csv", "# read off the data sheet\nflow (m3/h),head (m),speed (rpm)\n0,9.0,600", "\ufeff# data sheet, US\nflow [m3/h],head (ft),speed\n0,9.0 m,600 rpm")
	swap(t, f, "pump.csv", "100,8.2,600\n200,6.6,600\n300,4.2,600\n350,2.7,600\n", "100,26.9,600 rpm\n\n200,21.65,600 rpm\n300,13.8,600 rpm\n350,8.9,600 rpm\n")
	swap(t, f, "casts.csv", "3;81;3,1;\n", "")
	in, notices, err := farm.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	if h := in.Pump.Points[2].Head.Metres(); h < 6.59 || h > 6.61 {
		t.Errorf("21.65 ft read as %g m", h)
	}
	codes := map[string]bool{}
	for _, n := range notices {
		codes[n.Code] = true
	}
	for _, c := range []string{farm.CodeMidnight, farm.CodeMissingRow, farm.CodeDuplicateRow} {
		if !codes[c] {
			t.Errorf("no remark %s", c)
		}
	}
	if in.Haul.Trucks[0].Ready.Day() != 15 || in.Haul.Trucks[0].Ready.Hour() != 0 {
		t.Errorf("24:00 read as %v", in.Haul.Trucks[0].Ready)
	}
}
