package pumpsizing

import "slices"

// Threshold is a published or remembered figure of what animals bore in pumps,
// jets and pressure chambers. It is data to choose from, not a limit.
type Threshold struct {
	Quantity   string  `json:"quantity"`
	Animal     string  `json:"animal"`
	Value      float64 `json:"value"`
	Unit       string  `json:"unit,omitzero"`
	Finding    string  `json:"finding"`
	Source     string  `json:"source"`
	FromMemory bool    `json:"fromMemory,omitzero"` // the source was not at hand when this was written
}

const (
	neitzel   = "Neitzel et al., US Department of Energy factsheet on shear"
	water2023 = "review in Water 15:1888 (2023), table"
	borthwick = "Borthwick and Liston (2003), abstract"
	cook      = "Cook et al. (1997), criteria for fish in turbines"
	amaral    = "Amaral et al. (2020), abstract"
)

// thresholds is the data behind Thresholds.
var thresholds = []Threshold{
	{"strain rate", "juvenile salmonids and others", 500, "1/s", "no significant injury in a jet", neitzel, false},
	{"strain rate", "American eel", 800, "1/s", "no injury at more than this in a jet, 40 eels", "Pflugrath et al. (2021), abstract", false},
	{"pressure ratio", "Chinook salmon, 71 to 205 mm", 2.12, "", "infrequent injury, below 10 % deaths", water2023, false},
	{"pressure ratio", "Chinook salmon", 4.5, "", "considerable injury, about 55 % deaths", water2023, false},
	{"pressure ratio", "largemouth bass", 1.89, "", "25 % deaths in five days", water2023, false},
	{"pressure ratio", "largemouth bass", 2.77, "", "42 % deaths", water2023, false},
	{"pressure ratio", "perch", 3.0, "", "70 % deaths", water2023, false},
	{"pressure ratio", "sockeye salmon smolt", 3.06, "", "21 % deaths", water2023, false},
	{"pressure ratio", "silver perch, about 80 mm", 1.47, "", "onset of bleeding in the kidney", water2023, false},
	{"pressure ratio", "Murray cod, about 66 mm", 1.59, "", "onset of bleeding in the viscera", water2023, false},
	{"survival", "rainbow trout, 200 to 300 mm", 96.4, "%", "at once, helical single-vane pump, best of three speeds", borthwick, false},
	{"survival", "rainbow trout, 200 to 300 mm", 94.4, "%", "at once, same pump, worst speed", borthwick, false},
	{"survival", "rainbow trout, 200 to 300 mm", 88.0, "%", "after 96 h, same pump, worst of 94.0 to 88.0", borthwick, false},
	{"injury", "rainbow trout, 200 to 300 mm", 9.8, "%", "same pump, 2.5 to 9.8", borthwick, false},
	{"speed", "rainbow trout, 200 to 300 mm", 321, "r/min", "same pump: more abrasions and bruises at this speed", borthwick, false},
	{"injury", "rainbow trout, 200 to 300 mm", 10.4, "%", "Archimedes lift, below this", borthwick, false},
	{"lowest pressure", "fish in turbines", 68.9, "kPa", "design criterion, absolute", cook + "; Odeh (1999)", true},
	{"lowest pressure over acclimation", "fish in turbines", 0.6, "", "not below this", "Cada et al. (1997)", true},
	{"pressure rate", "fish in turbines", 551.6, "kPa/s", "design criterion", cook, true},
	{"strain rate", "fish in turbines", 180, "1/s", "design criterion", cook, true},
	{"tip speed", "fish in turbines", 12.192, "m/s", "ceiling, 40 ft/s", cook, true},
	{"tip speed", "fish in turbines", 6.096, "m/s", "preferred, 20 ft/s", cook, true},
	{"strike speed", "trout", 4.8, "m/s", "no deaths below", "EPRI (2008); van Esch (2012)", true},
	{"gap", "fish in turbines", 2.0, "mm", "at the runner, at most", cook, true},
	{"strike survival", "rainbow trout", 98.0, "%", "10 m/s, body twice the edge's thickness, edge slanted 30 degrees", amaral, false},
	{"strike survival", "rainbow trout", 26.8, "%", "same, square edge", amaral, false},
	{"strike survival", "rainbow trout, 200 mm", 68.0, "%", "10 m/s, struck at 0.58 of the length, tail side", amaral, false},
	{"strike survival", "rainbow trout, 200 mm", 7.9, "%", "10 m/s, struck at 0.36 of the length, head side", amaral, false},
}

// Thresholds returns what is published on a quantity ("pressure ratio", "strain
// rate", "tip speed", "survival", ...), or everything for an empty name. No
// entry concerns penaeid shrimp: none was found.
func Thresholds(quantity string) []Threshold {
	var out []Threshold
	for _, t := range thresholds {
		if quantity == "" || t.Quantity == quantity {
			out = append(out, t)
		}
	}
	return slices.Clip(out)
}

// SwimBladder says whether an animal has a swim bladder, on which the harm of
// low pressure depends: [BladderUnknown], [BladderNone] or [BladderPresent].
type SwimBladder uint8

// Swim bladders.
const (
	BladderUnknown SwimBladder = iota
	BladderNone                // crustaceans
	BladderPresent             // most finfish
)

// JudgePressure compares a pressure ratio with the lowest published onset of
// injury in fish with a swim bladder, 1.47. Crustaceans and unknown animals are
// answered with no data, never with ok.
func JudgePressure(ratio float64, bladder SwimBladder) (Verdict, string) {
	if bladder != BladderPresent || !(ratio > 0) {
		if bladder == BladderNone {
			return NoData, "no swim bladder: the ratio says nothing"
		}
		return NoData, "not known whether the animal has a swim bladder"
	}
	var first Threshold
	for _, t := range thresholds {
		if t.Quantity == "pressure ratio" && (first.Value == 0 || t.Value < first.Value) {
			first = t
		}
	}
	why := "lowest published onset " + num(first.Value) + ": " + first.Animal + ", " + first.Finding + " (" + first.Source + ")"
	switch {
	case ratio >= first.Value:
		return VerdictBeyond, why
	case ratio > 0.9*first.Value:
		return VerdictClose, why
	}
	return VerdictOK, why
}
