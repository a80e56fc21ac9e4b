//go:build !race

package units

const raceEnabled = false
