//go:build !race

package icing

const raceEnabled = false
