package units

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// TestParse reads what people and machines write.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		typ, text string
		want      float64
	}{
		// numbers
		{"Length", "4.5 m", 4.5},
		{"Length", "4.5m", 4.5},
		{"Length", " 4.5  m ", 4.5},
		{"Length", "+4.5 m", 4.5},
		{"Length", "-4.5 m", -4.5},
		{"Length", "−4.5 m", -4.5}, // U+2212
		{"Length", ".5 m", 0.5},
		{"Length", "5. m", 5},
		{"Length", "4.5e3 m", 4500},
		{"Length", "4.5E-3 m", 0.0045},
		{"Length", "0 m", 0},
		{"Flow", "1 250 m3/h", 1250. * (1. / 3600)},
		{"Flow", "1 250 000.5 L/s", 1250.0005},
		{"Flow", "1\u202f250 L/s", 1.25}, // narrow space
		{"Flow", "1,250,000 L/s", 1250},
		{"Flow", "1,250.5 L/s", 1.2505},
		{"Flow", "1.250 L/s", 0.00125},
		// fractions, feet and inches
		{"Length", "1/2 in", 0.5 * 0.0254},
		{"Length", "-1/2 in", -0.5 * 0.0254},
		{"Length", "12 1/2 in", 12.5 * 0.0254},
		{"Length", "12-1/2 in", 12.5 * 0.0254},
		{"Length", "-12 1/2 in", -12.5 * 0.0254},
		{"Length", "12½ in", 12.5 * 0.0254},
		{"Length", "12 ½ in", 12.5 * 0.0254},
		{"Length", "¾ in", 0.75 * 0.0254},
		{"Length", "4 ft 6 in", 54 * 0.0254},
		{"Length", "4 ft, 6 in", 54 * 0.0254},
		{"Length", "4 feet 6 inches", 54 * 0.0254},
		{"Length", "-4 ft 6 in", -54 * 0.0254},
		{"Length", "-0 ft 6 in", -6 * 0.0254},
		{"Length", `4' 6"`, 54 * 0.0254},
		{"Length", `4'6"`, 54 * 0.0254},
		{"Length", `4'-6 1/2"`, 54.5 * 0.0254},
		{"Length", "4′ 6″", 54 * 0.0254},
		{"Length", `6"`, 6 * 0.0254},
		{"Length", "4'", 4 * 0.3048},
		{"Length", "4 ft 6 1/2 in", 54.5 * 0.0254},
		{"Mass", "5 lb 3 oz", 83 * 0.45359237 / 16},
		// prefixes, powers, superscripts, words
		{"Length", "5 µm", 5e-6},
		{"Length", "5 μm", 5e-6}, // Greek mu
		{"Length", "5 um", 5e-6},
		{"Length", "5 kilometres", 5000},
		{"Length", "5 millimeters", 0.005},
		{"Length", "5 dm", 0.5},
		{"Volume", "5 hL", 0.5},
		{"Volume", "5 m³", 5},
		{"Volume", "5 m^3", 5},
		{"Volume", "5 cubic metres", 5},
		{"Volume", "5 cu ft", 5 * 0.028316846592},
		{"Volume", "5 cu.ft", 5 * 0.028316846592},
		{"Volume", "2 acre-ft", 2 * 1233.48183754752},
		{"Volume", "2 acre feet", 2 * 1233.48183754752},
		{"Volume", "5 cc", 5e-6},
		{"Area", "5 sq ft", 5 * 0.09290304},
		{"Area", "5 square feet", 5 * 0.09290304},
		{"Area", "5 ac", 5 * 4046.8564224},
		{"Flow", "230 m³/h", 230. / 3600},
		{"Flow", "230 m3 per hour", 230. / 3600},
		{"Flow", "230 cubic metres per hour", 230. / 3600},
		{"Flow", "5 L·s⁻¹", 0.005},
		{"Flow", "5 L.s-1", 0.005},
		{"Flow", "5 L s-1", 0.005},
		{"Flow", "5 cfs", 5 * 0.028316846592},
		{"Flow", "5 US gpm", 5 * 0.003785411784 / 60},
		{"Flow", "5 US MGD", 5e6 * 0.003785411784 / 86400},
		{"Mass", "5 kg", 5},
		{"Mass", "5 kilograms", 5},
		{"Mass", "5 lbs", 5 * 0.45359237},
		{"Mass", "5 short tons", 10000 * 0.45359237},
		{"Mass", "5 metric tons", 5000},
		{"Power", "5 PS", 5 * 735.49875},
		{"Power", "2 tons of refrigeration", 24000 * 1055.05585262 / 3600},
		{"Energy", "5 kW·h", 1.8e7},
		{"Energy", "5 kW h", 1.8e7},
		{"Energy", "5 BTU", 5 * 1055.05585262},
		{"Energy", "5 N·m", 5},
		{"Torque", "5 N·m", 5},
		{"Torque", "5 N m", 5},
		{"Torque", "5 lbf-ft", 5 * 1.3558179483314004},
		{"RotationalSpeed", "540 r/min", 540 * 2 * math.Pi / 60},
		{"RotationalSpeed", "540 RPM", 540 * 2 * math.Pi / 60},
		{"Displacement", "80 cc/rev", 80e-6},
		{"Displacement", "4.9 in3/r", 4.9 * 1.6387064e-5},
		{"HeatTransferCoefficient", "5 W/m2/K", 5},
		{"HeatTransferCoefficient", "5 W m-2 K-1", 5},
		{"HeatTransferCoefficient", "5 W/(m²·K)", 5},
		{"ResistancePerLength", "5 Ω/km", 0.005},
		{"ResistancePerLength", "5 Ohm/km", 0.005},
		{"TempDelta", "5 °C", 5},
		{"TempDelta", "9 °F", 5},
		{"Frequency", "50 Hz", 50},
		{"CountPerMass", "20/lb", 20 / 0.45359237},
		{"CountPerMass", "20 count/lb", 20 / 0.45359237},
		{"CountPerMass", "20 per lb", 20 / 0.45359237},
		{"CountPerMass", "20 shrimp per lb", 20 / 0.45359237},
		{"CountPerMass", "44 1/kg", 44},
		{"CountPerArea", "15 {animals}/m2", 15},
		{"Slope", "2 %", 0.02},
		{"Slope", "1 mm/m", 0.001},
		{"MassFraction", "2 %", 0.02},
		{"MassFraction", "2 ppm", 2e-6},
		{"MassFraction", "2 ppmw", 2e-6},
		{"MassFraction", "2 mg/kg", 2e-6},
		{"Angle", "90 deg", math.Pi / 2},
		{"Angle", "90°", math.Pi / 2},
		{"Rate", "0.3 /d", 0.3 / 86400},
		{"Rate", "0.3 d-1", 0.3 / 86400},
		{"SpecificHeat", "1 kcal_IT/(kg·K)", 4186.8},
		{"Velocity", "3 knots", 3 * 1852. / 3600},
		{"Length", "5 in.", 5 * 0.0254},
		{"Area", "5 sq. ft.", 5 * 0.09290304},
		{"Pressure", "10 in H2O", 2490.8891},
		{"Pressure", "760 mm Hg", 760 * 133.322387415},
		{"Energy", "5 kilowatt hours", 1.8e7},
		// UCUM codes
		{"Length", "5 [in_i]", 5 * 0.0254},
		{"Length", "5 [ft_i]", 5 * 0.3048},
		{"Length", "5 [ft_us]", 5 * 1200. / 3937},
		{"Area", "5 har", 50000},
		{"Area", "5 [acr_us]", 5 * 4046.872609874252},
		{"Volume", "5 [gal_us]", 5 * 0.003785411784},
		{"Volume", "5 [gal_br]", 5 * 0.00454609},
		{"Volume", "5 [foz_us]", 5 * 0.003785411784 / 128},
		{"Flow", "100 [gal_us]/min", 100 * 0.003785411784 / 60},
		{"Mass", "5 [lb_av]", 5 * 0.45359237},
		{"Mass", "5 [oz_av]", 5 * 0.45359237 / 16},
		{"Mass", "5 [ston_av]", 10000 * 0.45359237},
		{"Mass", "5 [gr]", 5 * 0.45359237 / 7000},
		{"Density", "1 kg.m-3", 1},
		{"Pressure", "5 [psi]", 5 * 6894.757293168361},
		{"Pressure", "5 m[H2O]", 5 * 9806.65},
		{"Pressure", "50 cm[H2O]", 4903.325},
		{"Pressure", "5 [in_i'H2O]", 5 * 249.08891},
		{"Pressure", "760 mm[Hg]", 760 * 133.322387415},
		{"Power", "5 [HP]", 5 * 745.6998715822702},
		{"Energy", "5 [Btu_IT]", 5 * 1055.05585262},
		{"Energy", "5 [Btu_th]", 5 * 1054.3502644888888},
		{"TempDelta", "5 Cel", 5},
		{"TempDelta", "9 [degF]", 5},
		// the basis
		{"Pressure", "29 psid", 29 * 6894.757293168361},
		{"Pressure", "2 bar{difference}", 2e5},
		{"Pressure", "10 ft of water", 10 * 2989.06692},
		{"GaugePressure", "29 psig", 29 * 6894.757293168361},
		{"GaugePressure", "2 barg", 2e5},
		{"GaugePressure", "2 bar(g)", 2e5},
		{"GaugePressure", "200 kPa gauge", 2e5},
		{"GaugePressure", "200 kPa{gauge}", 2e5},
		{"AbsolutePressure", "14.7 psia", 14.7 * 6894.757293168361},
		{"AbsolutePressure", "1013 mbar(a)", 101300},
		{"AbsolutePressure", "101.325 kPa abs", 101325},
		{"LoadPerTankVolume", "40 kg/m3{tank}", 40},
		{"LoadPerTankVolume", "40 kg/m3 {tank}", 40},
		{"LoadPerTankVolume", "40 kg/m3 tank", 40},
		{"LoadPerTankVolume", "2 lb/[gal_us]{tank}", 2 * 119.82642731689663},
		{"LoadPerWaterVolume", "40 g/L{water}", 40},
		{"PracticalSalinity", "30 ppt", 30},
		{"PracticalSalinity", "30 psu", 30},
		{"PracticalSalinity", "30 ‰", 30},
		{"AbsoluteSalinity", "35.2 g/kg{absolute}", 35.2},
		{"AbsoluteSalinity", "0.0352 kg/kg{absolute}", 35.2},
		{"Alkalinity", "120 mg/L{CaCO3}", 2.4},
		{"Alkalinity", "120 mg/L as CaCO3", 2.4},
		{"Alkalinity", "2.4 eq/m3", 2.4},
		{"ApparentPower", "5 kVA", 5000},
		{"ApparentPower", "5 kW{apparent}", 5000},
	} {
		got, err := caseNamed(t, c.typ).parse(c.text)
		if err != nil || math.Abs(got-c.want) > 4e-16*math.Abs(c.want) {
			t.Errorf("%s %q = %v, %v, want %v", c.typ, c.text, got, err, c.want)
		}
	}
}

// TestParseRefusals wants every refusal to say why in the given words.
func TestParseRefusals(t *testing.T) {
	for _, c := range []struct{ typ, text, why string }{
		// no unit
		{"Length", "4.5", "4.5 m is 14.7638 ft, 4.5 ft is 1.3716 m; write m, mm, cm, km, µm, in, ft, yd or mi"},
		{"Displacement", "4.9", "4.9 cm3/rev is 0.299016 in3/rev, 4.9 in3/rev is 80.2966 cm3/rev"},
		{"Length", "0", "no unit"},
		{"Length", "12 1/2", "no unit"},
		{"LoadPerTankVolume", "2.5", "write kg/m3{tank}, kg/m3{water} for a load per water volume"},
		{"PracticalSalinity", "30", "did you mean PSU?"},
		// not a number
		{"Length", "", "is empty"},
		{"Length", "  ", "is empty"},
		{"Length", "abc", "does not start with a number"},
		{"Length", "m", "does not start with a number"},
		{"Length", "NaN m", "does not start with a number"},
		{"Length", "+Inf m", "does not start with a number"},
		{"Length", "- m", "does not start with a number"},
		{"Length", "1e400 m", "does not fit"},
		{"Length", "1e308 km", "does not fit"},
		{"Length", "0x10 m", "unknown unit"},
		{"Length", "1_000 m", "unknown unit"},
		{"Length", "1" + strings.Repeat(" ", 300) + "m", "too long"},
		// separators
		{"Flow", "1,250 m3/h", "is it 1250 or 1.250?"},
		{"Flow", "1,25 m3/h", "comma"},
		{"Flow", "1,2500 m3/h", "comma"},
		{"Flow", "1250,000 m3/h", "mixes"},
		{"Flow", "1.250,5 m3/h", "mixes a decimal point"},
		// fractions and pairs
		{"Length", "4 ft 13 in", "fewer than 12 inches"},
		{"Length", "4.5 ft 6 in", "whole number of feet"},
		{"Length", "4 ft 6 m", "second number"},
		{"Length", "4 ft 6", "second number"},
		{"Length", "12 3/2 in", "fraction of one or more"},
		{"Length", "1/0 in", "where a unit should stand"},
		{"Mass", "5 lb 16 oz", "fewer than 16 ounces"},
		// dimensions
		{"Length", "5 kg", "is a mass (kg), not a length (m)"},
		{"Length", "5 m2", "is an area (m2), not a length (m)"},
		{"Length", "5 s", "is a time (s), not a length (m)"},
		{"Length", "5 m4", "is of dimension m4, not a length (m)"},
		{"Length", "5 %", "is a plain ratio, not a length (m)"},
		{"Flow", "5 kg/h", "is a mass flow (kg/s), not a flow (m3/s)"},
		{"Rate", "3 mg/(kg·h)", "is a mass-specific rate (kg/(kg·s)), not a first-order rate (/s)"},
		{"Rate", "50 Hz", "is a frequency (Hz)"},
		{"Frequency", "50 /s", "is a first-order rate (/s)"},
		{"RotationalSpeed", "540 /min", "is a first-order rate (/s), not a rotational speed (rad/s)"},
		{"Concentration", "5 ppm", "ratio without a basis"},
		{"Concentration", "5 mg/L as CaCO3", "is an alkalinity (meq/L)"},
		{"MassFraction", "5 ppt", "is a practical salinity (PSU)"},
		{"Slope", "5 %{mass}", "is a mass fraction (kg/kg), not a slope (m/m)"},
		{"Power", "5 kVA", "is an apparent power (VA), not a power (W)"},
		// ambiguous names
		{"Volume", "5 gal", "write US gal or imp gal"},
		{"Volume", "5 gallons", "write US gal or imp gal"},
		{"Volume", "5 fl oz", "write US fl oz or imp fl oz"},
		{"Volume", "5 oz", "write US fl oz or imp fl oz"},
		{"Length", "5 gal", "is a volume (m3), not a length (m)"},
		{"Volume", "5 gal.hp", "ambiguous; write US gal.hp or imp gal.hp"},
		{"Mass", "5 oz", "did you mean oz avdp?"},
		{"Mass", "5 ton", "write short ton, long ton or t"},
		{"Mass", "5 Tons", "write short ton, long ton or t"},
		{"Mass", "5 gr", "write grain or g"},
		{"Power", "5 tons", "did you mean TR?"},
		{"Power", "5 hp", "write mechanical hp or metric hp"},
		{"Power", "5 HP", "write mechanical hp or metric hp"},
		{"Flow", "100 gpm", "write US gal/min or imp gal/min"},
		{"Flow", "100 gal/min", "write US gal/min or imp gal/min"},
		{"Energy", "5 kcal", "write kcal_th or kcal_IT"},
		{"SpecificFuelConsumption", "0.4 lb/(hp·h)", "write lb/(mechanical hp·h) or lb/(metric hp·h)"},
		{"LoadPerTankVolume", "2.5 lb/gal", "write lb/US gal{tank}, lb/US gal{water} for a load per water volume, lb/imp gal{tank} or lb/imp gal{water}"},
		// the basis
		{"LoadPerTankVolume", "40 kg/m3", "write kg/m3{tank} or kg/m3{water} for a load per water volume"},
		{"LoadPerWaterVolume", "40 kg/m3", "write kg/m3{water} or kg/m3{tank} for a load per tank volume"},
		{"LoadPerTankVolume", "40 kg/m3{water}", "is a load per water volume (kg/m3{water}), not a load per tank volume"},
		{"Density", "40 kg/m3{tank}", "is a load per tank volume (kg/m3{tank}), not a density"},
		{"GaugePressure", "200 kPa", "write kPa{gauge} or kPa{absolute} for an absolute pressure"},
		{"AbsolutePressure", "200 kPa", "write kPa{absolute} or kPa{gauge} for a gauge pressure"},
		{"GaugePressure", "29 psia", "is an absolute pressure"},
		{"Pressure", "29 psig", "is a gauge pressure (Pa{gauge}), not a pressure difference (Pa)"},
		{"AbsoluteSalinity", "35 g/kg", "did you mean g/kg{absolute}?"},
		{"AbsoluteSalinity", "35 ppt", "is a practical salinity (PSU), not an absolute salinity"},
		{"Alkalinity", "120 mg/L", "write mg/L{CaCO3} or meq/L"},
		{"ApparentPower", "5 kW", "did you mean kW{apparent}?"},
		{"Length", "5 m{deep}", "annotation {deep}"},
		{"Pressure", "29 psig{absolute}", "says both gauge and absolute"},
		// expressions
		{"HeatTransferCoefficient", "5 W/m2·K", "multiplies after a stroke"},
		{"Flow", "5 m3/", "ends where a unit should follow"},
		{"Flow", "5 m3/h)", "where a unit should go on"},
		{"Flow", "5 (m3/h", "lacks a closing bracket"},
		{"Flow", "5 m3{", "lacks a closing brace"},
		{"Flow", "5 m^/h", "^ without a power"},
		{"Volume", "5 m9", "power above 4"},
		{"Volume", "5 (m2)3", "is of dimension m6, not a volume (m3)"},
		{"Slope", "5 ((((m4)4)4)4)4", "dimension above 12"},
		{"Flow", "5 m3/h/2", "where a unit should stand"},
		{"Flow", "5 ((((((m3", "too many brackets"},
		{"Volume", "5 Tm4/pm4/pm4/pm4/pm4/pK4/pK4", "prefixes beyond a float64"},
		{"Length", "5 " + strings.Repeat("m.m-1.", 25) + "m", "too many factors"},
		{"Length", "5 m{tank", "lacks a closing brace"},
		{"Flow", "5 m3}h", "where a unit should go on"},
		{"Length", "5 kg2.m", "is of dimension m·kg2, not a length (m)"},
		{"Energy", "5 cal", "write cal_th or cal_IT"},
		// near misses
		{"Length", "5 fooot", "did you mean foot?"},
		{"Length", "5 KM", "did you mean km?"},
		{"Length", "5 metrs", "did you mean metre?"},
		{"Mass", "5 Kg", "did you mean kg?"},
		{"Mass", "5 kgs", "did you mean kg?"},
		{"Pressure", "5 kpa", "did you mean kPa?"},
		{"Flow", "5 M3/H", "did you mean m3/h?"},
		{"Flow", "5 litrs/min", "did you mean litre/min?"},
		{"Length", "5 furlongs", "unknown unit"},
	} {
		tc := caseNamed(t, c.typ)
		got, err := tc.parse(c.text)
		var p *ParseError
		switch {
		case err == nil:
			t.Errorf("%s took %q as %v", c.typ, c.text, got)
		case !math.IsNaN(got):
			t.Errorf("%s %q gave %v beside its error", c.typ, c.text, got)
		case !errors.As(err, &p) || p.Type != c.typ || p.Text != c.text:
			t.Errorf("%s %q: %#v", c.typ, c.text, err)
		case !strings.Contains(err.Error(), c.why):
			t.Errorf("%s %q: %v does not say %q", c.typ, c.text, err, c.why)
		}
	}
}

// TestChoicesParse wants each choice of a refusal to be one the parser takes.
func TestChoicesParse(t *testing.T) {
	for _, c := range []struct{ typ, text string }{
		{"Volume", "5 gal"}, {"Mass", "5 ton"}, {"Power", "5 hp"}, {"Flow", "5 gpm"}, {"Energy", "5 kcal"}, {"Mass", "5 gr"},
		{"LoadPerTankVolume", "5 lb/gal"}, {"GaugePressure", "5 psi"}, {"Alkalinity", "5 mg/L"}, {"Length", "5 metrs"},
	} {
		tc := caseNamed(t, c.typ)
		_, err := tc.parse(c.text)
		var p *ParseError
		if !errors.As(err, &p) || len(p.Choices) == 0 {
			t.Errorf("%s %q: %v has no choices", c.typ, c.text, err)
			continue
		}
		for _, choice := range p.Choices {
			unit, other, ofAnother := strings.Cut(choice, " for a")
			if _, err := tc.parse("5 " + unit); (err != nil) != ofAnother {
				t.Errorf("%s %q: the choice %q%s gives %v", c.typ, c.text, unit, other, err)
			}
		}
	}
}

func TestGenericParse(t *testing.T) {
	if x, err := Parse[Flow]("230 m3/h"); err != nil || x != 230*CubicMetrePerHour {
		t.Errorf("%v, %v", x, err)
	}
	if x, err := Parse[Flow]("230"); err == nil {
		t.Errorf("took a bare number as %v", x)
	}
}
