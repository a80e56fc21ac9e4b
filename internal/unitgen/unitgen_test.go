package main

import (
	"bytes"
	"go/constant"
	"go/token"
	"os"
	"path/filepath"
	"testing"
)

const unitsDir = "../../units"

// TestFresh fails while a generated file is not what the table gives.
func TestFresh(t *testing.T) {
	files, err := generate(unitsDir)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join(unitsDir, name))
		if err != nil {
			t.Error(err)
		} else if !bytes.Equal(got, want) {
			t.Errorf("units/%s is stale: run go generate ./units", name)
		}
	}
}

// TestNoOrphan fails for a generated file that the generator no longer writes.
func TestNoOrphan(t *testing.T) {
	files, err := generate(unitsDir)
	if err != nil {
		t.Fatal(err)
	}
	found, err := filepath.Glob(filepath.Join(unitsDir, "*_gen*.go"))
	if err != nil || len(found) == 0 {
		t.Fatal(found, err)
	}
	for _, path := range found {
		if name := filepath.Base(path); files[name] == nil {
			t.Errorf("units/%s has no template", name)
		}
	}
}

func TestPlural(t *testing.T) {
	for name, want := range map[string]string{
		"Metre":                     "Metres",
		"CubicMetrePerHour":         "CubicMetresPerHour",
		"USGallonPerMinute":         "USGallonsPerMinute",
		"MetreOfWater":              "MetresOfWater",
		"TonOfRefrigeration":        "TonsOfRefrigeration",
		"PascalGauge":               "PascalsGauge",
		"AtmosphereAbsolute":        "AtmospheresAbsolute",
		"PercentByMass":             "PercentsByMass",
		"KilogramPerCubicMetreTank": "KilogramsPerCubicMetreTank",
		"PartPerMillionByMass":      "PartsPerMillionByMass",
	} {
		if got := plural(unit{name: name}); got != want {
			t.Errorf("plural of %s is %s, want %s", name, got, want)
		}
	}
	if got := plural(unit{name: "Foot", plural: "Feet"}); got != "Feet" {
		t.Errorf("an irregular plural became %s", got)
	}
}

func TestWords(t *testing.T) {
	for name, want := range map[string]string{
		"CubicMetresPerHour":         "cubic metres per hour",
		"USGallonsPerMinute":         "US gallons per minute",
		"BtusPerPoundFahrenheit":     "Btus per pound Fahrenheit",
		"BtusIT":                     "Btus IT",
		"CelsiusDegrees":             "Celsius degrees",
		"MilligramsPerLitreCaCO3":    "milligrams per litre as CaCO3",
		"PoundsPerSquareInchGauge":   "pounds per square inch gauge",
		"KilogramsPerCubicMetreTank": "kilograms per cubic metre of tank",
	} {
		if got := words(name); got != want {
			t.Errorf("words of %s are %q, want %q", name, got, want)
		}
	}
}

func TestDimension(t *testing.T) {
	if got, err := dimension("M M^-1 L2 T-2"); err != nil || got != "2, 1, -1, -2, 0, 0, 0, 0, 0, 0" {
		t.Errorf("%q, %v", got, err)
	}
	if got, err := dimension(""); err != nil || got != "0, 0, 0, 0, 0, 0, 0, 0, 0, 0" {
		t.Errorf("%q, %v", got, err)
	}
	for _, bad := range []string{"X", "Lx", "-1"} {
		if got, err := dimension(bad); err == nil {
			t.Errorf("%q became %q", bad, got)
		}
	}
}

func TestEval(t *testing.T) {
	names, err := exactNames(unitsDir)
	if err != nil {
		t.Fatal(err)
	}
	for expr, want := range map[string]string{
		"foot":                       "0.3048",
		"usGallon":                   "0.003785411784",
		"acre":                       "4046.8564224",
		"btu":                        "1055.05585262",
		"poundForce / (inch * inch)": "6894.75729317…",
		"1. / hour":                  "0.000277777777778…",
		"1e-3 / hour":                "2.77777777778…e-07",
		"2 * pi":                     "6.28318530718…",
	} {
		v, err := names.eval(expr)
		if err != nil {
			t.Errorf("%s: %v", expr, err)
			continue
		}
		if got := decimal(v); got != want {
			t.Errorf("%s is %s, want %s", expr, got, want)
		}
	}
	for _, bad := range []string{"1 / hour", "furlong", "foot +", "f(1)"} {
		if v, err := names.eval(bad); err == nil {
			t.Errorf("%q became %v", bad, v)
		}
	}
	if v, _ := names.eval("mile"); !constant.Compare(v, eql, constant.MakeFromLiteral("1609.344", token.FLOAT, 0)) {
		t.Errorf("a mile is %v", v)
	}
}
