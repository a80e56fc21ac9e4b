//go:build race

package icing

const raceEnabled = true
