// Package hydraulics computes how water, oil and animals in water move through
// the pipes, hoses and structures of a farm pond: friction and fitting losses,
// pipelines and networks, drains and control structures, the carrying of
// animals, pressure surge, and the weights and thrusts of full hose.
//
// # Map
//
//	liquids      Fluid, FreshWater, SeaWater, Oil; AirPressure by altitude
//	friction     Colebrook and the explicit forms, FrictionFactor, HazenWilliams
//	sizes        NominalPipe, SDRPipe, SteelTube; WallRoughnesses by material
//	fittings     Bend, Entrance, Valve, BarRack, NamedFitting: a Loss with its band
//	lines        Pipe for a question, Pipeline to keep; HoseSpec; Series, Parallel;
//	             SquareLine and CurveLine for a measured curve or a pump
//	networks     Network: heads and flows of branched and looped lines
//	animals      Mixture, TerminalSpeed, HoldUp, MinimumSpeed, ExtraFriction
//	transients   WaveSpeed, Joukowsky, ClosureSurge
//	loads        FilledHoseMass, SupportSpan, HoseTension, BendThrust, JetReaction
//	openings     Orifice, SluiceGate, RectangularWeir, VNotchWeir, BroadCrest
//	drains       OutletPipe, StoplogBay, Riser, Culvert, Siphon, flap gates;
//	             StructuresInSeries, StructuresInParallel; Rating, RatedOutlet
//	channels     Manning, critical and normal depth, jump, gradually varied flow
//	tables       Grate, Rack, Chute, DewateringTable, ReturnHose
//
// # Conventions
//
// Heads are heights of the liquid that flows. A loss coefficient K belongs to
// V²/2g in the bore that its doc comment names. Friction factors are Darcy's,
// four times Fanning's. Levels are heights above one datum.
//
// A built object, such as a [Pipeline], is validated once; its methods then
// return plain values without error or allocation, finite for every finite
// argument. A single formula returns a value and an error; beside
// units.ErrDomain the value is NaN, beside units.ErrRange it is the value
// extrapolated. What the reader of a result must know stands in its Notices.
//
// Every structure tells by Kinks at which levels its discharge is not smooth, so
// that a pond is drained past it in long steps.
//
// Descriptions (SurgeSpec, HoseSpec, ...) and results are plain values that come
// back from JSON as they went in, with quantities beside their units and choices
// in words; errors name a field as JSON does, such as runs[0].bore. A built
// object has no JSON and marshals to {}: store the description it was built from,
// which most tell by a Spec method, and build it again. The lines of a
// NetworkSpec are built objects and are not in its JSON.
//
// # Not in this package
//
// Pumps and their speed belong to pumpsizing, the emptying of a pond in time to
// drawdown, heat to icing and transport. Open-channel routing, sediment and
// two-phase air flow are not covered.
//
// # Cautions
//
// The numbers plan; they do not guard. A line under pressure stores energy: a
// hose whips when a coupling lets go, a column of water pulls a wall down when a
// gate shuts. Keep people off bends and out of line with couplings, never feel
// for a leak of hydraulic oil, keep hands out of intakes, and follow local codes
// and licensed practice for lifting, electricity by water and work over water.
package hydraulics

//go:generate go run pondwright.example/internal/check/sources .
