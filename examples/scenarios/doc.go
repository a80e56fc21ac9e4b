// Package scenarios holds tests only: whole harvests of invented farms worked
// through the packages and held against figures derived apart from them, one
// published haul, and the proof that what one package builds is what another
// asks for. It is the place to look for how the packages compose.
//
//	conform_test.go          which types satisfy whose interface
//	outlet_test.go           every structure of hydraulics drains a pond of drawdown
//	system_test.go           every line of hydraulics loads a pump of pumpsizing
//	agree_test.go            packages that answer one question give one answer
//	canebrake_test.go        4 ha of catfish, two drains, live to the plant
//	ledgespring_test.go      trout from a raceway, nine hours on the road at altitude
//	mesatarn_test.go         tilapia at 1950 m, no gravity drain, generator, iced
//	haultank_test.go         a published haul of catfish
//	example_water_test.go    Examples: decisions about water and pump
//	example_product_test.go  Examples: decisions about crop, ice and haul
//
// The shrimp pond Heron Flat is worked in harvestday/plan.
//
// Nothing here is advice on a machine, a life or a food: the packages' own
// cautions apply, and local codes and licensed people come first.
package scenarios
