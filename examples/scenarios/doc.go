// Package scenarios holds tests only: whole harvests of invented farms worked
// through the packages and held against figures derived apart from them, one
// published haul, and the proof that what one package builds is what another
// asks for. It is the place to look for how the packages compose.
//
//	conform_test.go      which types satisfy whose interface, and that they behave
//	canebrake_test.go    4 ha of catfish, two drains, live to the plant
//	ledgespring_test.go  trout from a raceway, nine hours on the road at altitude
//	mesatarn_test.go     tilapia at 1950 m, no gravity drain, generator, iced
//	haultank_test.go     a published haul of catfish
//	example_test.go      decisions that take two packages, as Examples
//
// The shrimp pond Heron Flat is worked in harvestday/plan.
package scenarios
