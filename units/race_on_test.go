//go:build race

package units

// raceEnabled tells that the race detector counts allocations of its own.
const raceEnabled = true
