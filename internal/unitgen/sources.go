package main

// source is a document a definition comes from.
type source struct {
	short string // shown beside each unit
	full  string // listed once in UNITS.md
}

var sources = map[string]source{
	"si":      {"SI Brochure 9, 2.3", "BIPM, The International System of Units (SI Brochure), 9th edition 2019, section 2.3 (base and derived units) and section 3 (decimal prefixes)."},
	"nonsi":   {"SI Brochure 9, table 8", "BIPM, SI Brochure, 9th edition 2019, section 4, table 8 and its notes: non-SI units accepted for use with the SI (min, h, d, °, ha, L, t) and the nautical mile."},
	"yard":    {"SP 811, B.6", "NIST Special Publication 811 (2008), A. Thompson and B. N. Taylor, Guide for the Use of the SI, appendix B.6: international yard and pound agreement of 1 July 1959, yd = 0.9144 m and lb = 0.45359237 kg exactly."},
	"hb44":    {"HB 44, app. C, avoirdupois", "NIST Handbook 44, appendix C, General tables of units of measurement: avoirdupois and troy masses."},
	"acre":    {"HB 44, app. C, acre of international feet", "NIST Handbook 44, appendix C: an acre is 43 560 square feet. Taken here with the international foot, as the United States does since the survey foot was retired on 1 January 2023 (Federal Register 85 FR 62698); the survey acre is 4 parts per million larger."},
	"usgal":   {"HB 44, app. C, gallon", "NIST Handbook 44, appendix C: the US gallon is 231 cubic inches, the US fluid ounce its 128th part."},
	"impgal":  {"SP 811, B.8, gallon", "NIST SP 811 (2008), appendix B.8: the imperial (Canadian and UK) gallon is 4.54609 L exactly, the imperial fluid ounce its 160th part."},
	"gravity": {"3rd CGPM 1901", "3rd General Conference on Weights and Measures (1901), standard acceleration of gravity 9.80665 m/s2; SI Brochure 9, appendix 1."},
	"force":   {"SP 811, B.8, pound-force", "NIST SP 811 (2008), appendix B.8: pound-force and kilogram-force are the pound and the kilogram under standard gravity, exactly."},
	"bar":     {"SP 811, table 9", "NIST SP 811 (2008), table 9 and appendix B.8: bar = 100 kPa exactly."},
	"atm":     {"10th CGPM 1954", "10th General Conference on Weights and Measures (1954), resolution 4: standard atmosphere 101 325 Pa."},
	"water":   {"SP 811, B.8, conventional water", "NIST SP 811 (2008), appendix B.8, 'conventional' heads of water: water of 1000 kg/m3 under standard gravity. A real head needs the water's density: Length.Pressure(density)."},
	"mercury": {"SP 811, B.8, conventional mercury", "NIST SP 811 (2008), appendix B.8, 'conventional' millimetre of mercury: 13 595.1 kg/m3 under standard gravity, 133.322387415 Pa."},
	"hp":      {"SP 811, B.8, horsepower", "NIST SP 811 (2008), appendix B.8: horsepower of 550 ft·lbf/s, here from the exact foot and pound-force."},
	"pshp":    {"SP 811, B.8, metric horsepower", "NIST SP 811 (2008), appendix B.8: metric horsepower of 75 kgf·m/s, 735.49875 W."},
	"btu":     {"SP 811, B.8, Btu_IT", "NIST SP 811 (2008), appendix B.8 and its note: the International Table Btu is 1055.05585262 J exactly, from 1 Btu/(lb·°F) = 1 kcal_IT/(kg·K)."},
	"cal":     {"SP 811, B.8, calorie", "NIST SP 811 (2008), appendix B.8 and its note: International Table calorie 4.1868 J (5th International Conference on the Properties of Steam, 1956) and thermochemical calorie 4.184 J, exactly."},
	"tr":      {"SP 811, B.8, ton of refrigeration", "NIST SP 811 (2008), appendix B.8: ton of refrigeration of 12 000 Btu_IT per hour."},
	"rev":     {"SI Brochure 9, table 8, angle", "BIPM, SI Brochure, 9th edition 2019: plane angle in radians, 1 rev = 2 pi rad, 1 degree = pi/180 rad. Pi is rounded."},
	"cgs":     {"SP 811, B.8, poise and stokes", "NIST SP 811 (2008), appendix B.8: centipoise = 1 mPa·s, centistokes = 1 mm2/s, exactly."},
	"ppm":     {"SI Brochure 9, 5.4.7", "BIPM, SI Brochure, 9th edition 2019, section 5.4.7: percent and parts per million of a stated quantity."},
	"pss":     {"UNESCO 1981 (PSS-78)", "UNESCO Technical Papers in Marine Science 36 (1981), The Practical Salinity Scale 1978: a ratio without a unit; PSU is a common label only."},
	"teos":    {"IOC et al. 2010 (TEOS-10)", "IOC, SCOR and IAPSO (2010), The international thermodynamic equation of seawater 2010, Manuals and Guides 56: Absolute Salinity in g/kg."},
	"meq":     {"definition", "An equivalent is a mole of charge; meq/L = mol/m3."},
	"caco3":   {"Standard Methods 2320 B", "APHA, AWWA, WEF, Standard Methods for the Examination of Water and Wastewater, method 2320 B: alkalinity as CaCO3 is the acid's equivalents times 50 000 mg. The formula was read as other laboratories restate it, not in the method itself."},
	"degf":    {"SP 811, B.8, degree Fahrenheit", "NIST SP 811 (2008), appendix B.8: a degree Fahrenheit is 5/9 K; t(°C) = (t(°F) - 32)/1.8."},
}
