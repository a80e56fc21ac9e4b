package main

import "strings"

// pluralStops are the words before which English puts the plural: cubic metres
// per hour, metres of water, bars gauge.
var pluralStops = []string{"Per", "Of", "Gauge", "Absolute", "By"}

// plural returns the descriptor's name for a unit: the s goes to the noun, in
// front of the first stop word. Irregular names are given in the table.
func plural(u unit) string {
	if u.plural != "" {
		return u.plural
	}
	at := len(u.name)
	for _, w := range pluralStops {
		if i := strings.Index(u.name, w); i > 0 && i < at {
			at = i
		}
	}
	return u.name[:at] + "s" + u.name[at:]
}
