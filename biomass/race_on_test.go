//go:build race

package biomass

// raceEnabled tells that the race detector is on, under which allocation counts
// say nothing.
const raceEnabled = true
