//go:build race

package pumpsizing

const raceEnabled = true
