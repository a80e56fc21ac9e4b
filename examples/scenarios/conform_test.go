package scenarios_test

import (
	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/pumpsizing"
)

// What one package builds is what another asks for, though neither knows the
// other: every structure of hydraulics lets water out of a pond of drawdown.
var (
	_ drawdown.Outlet = hydraulics.OutletPipe{}
	_ drawdown.Outlet = hydraulics.Orifice{}
	_ drawdown.Outlet = hydraulics.RectangularWeir{}
	_ drawdown.Outlet = hydraulics.VNotchWeir{}
	_ drawdown.Outlet = hydraulics.BroadCrest{}
	_ drawdown.Outlet = hydraulics.StoplogBay{}
	_ drawdown.Outlet = hydraulics.SluiceGate{}
	_ drawdown.Outlet = hydraulics.Culvert{}
	_ drawdown.Outlet = hydraulics.Riser{}
	_ drawdown.Outlet = hydraulics.Siphon{}
	_ drawdown.Outlet = hydraulics.RatedOutlet{}
	_ drawdown.Outlet = hydraulics.StructuresInSeries{}
	_ drawdown.Outlet = hydraulics.StructuresInParallel{}
	_ drawdown.Outlet = hydraulics.Structure(nil)
)

// These also tell where their law is not smooth, so that the pond is drained in
// long steps.
var (
	_ drawdown.KinkedOutlet = hydraulics.OutletPipe{}
	_ drawdown.KinkedOutlet = hydraulics.Orifice{}
	_ drawdown.KinkedOutlet = hydraulics.RectangularWeir{}
	_ drawdown.KinkedOutlet = hydraulics.VNotchWeir{}
	_ drawdown.KinkedOutlet = hydraulics.BroadCrest{}
	_ drawdown.KinkedOutlet = hydraulics.StoplogBay{}
	_ drawdown.KinkedOutlet = hydraulics.Siphon{}
	_ drawdown.KinkedOutlet = hydraulics.RatedOutlet{}
	_ drawdown.KinkedOutlet = hydraulics.Riser{}
	_ drawdown.KinkedOutlet = hydraulics.SluiceGate{}
	_ drawdown.KinkedOutlet = hydraulics.Culvert{}
	_ drawdown.KinkedOutlet = hydraulics.StructuresInSeries{}
	_ drawdown.KinkedOutlet = hydraulics.StructuresInParallel{}
)

// Every line of hydraulics, with its lift, is what a pump of pumpsizing works
// against.
var (
	_ pumpsizing.System = hydraulics.Pipeline{}
	_ pumpsizing.System = hydraulics.SeriesLine{}
	_ pumpsizing.System = hydraulics.ParallelLine{}
	_ pumpsizing.System = hydraulics.SquareLine{}
	_ pumpsizing.System = hydraulics.Line(nil)
)

// A pump of pumpsizing with its hose is the lift curve that a dewatering table of
// hydraulics is worked with, and an outlet of drawdown, through one closure each;
// see liftCurve and pumpOver.
var (
	_ hydraulics.LiftCurve = liftCurve(pumpsizing.Pump{}, nil, 0, 0)
	_ drawdown.Outlet      = pumpOver(pumpsizing.Pump{}, nil, 0, 0, 0)
)
