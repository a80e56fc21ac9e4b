// Package drawdown computes the lowering of a harvest pond: how much water it
// holds, how it runs out past an outlet and a tide, when the outlet must open
// so that the catch basin is ready at an asked hour, and what happens to the
// animals, the oxygen and the effluent in the last water.
//
// # The pond
//
//   - [StageTable]: areas at rising stages, the quickest pond for the solver.
//   - [RectangularPond], [Ditch], [CatchBasin], [ContourShape]: ponds from
//     formulas, put together by [Join].
//   - [Survey] and [Bed]: scattered x, y, z points, triangulated inside the
//     shore, with the exact storage of the triangles, an error band
//     ([Bed.Band]) and the water that cannot run out ([Bed.Stranded]).
//   - [RoughPond]: "about five acres and four feet", with an honest band.
//   - [Tabulate]: any of them as a StageTable to a stated error.
//   - [SiltedEvenly], [SiltedLevel], [Liner], [Bank]: mud, and what falling
//     water does to liners and banks.
//   - [Level] and [Datum]: levels that say what they are measured from.
//
// # The drain and the clock
//
//   - [Plan]: a pond, its gates, what flows in, the water beyond, and a clock;
//     [Plan.Run] drains it once, [NewSolver] as often as wanted without allocating.
//   - [Result]: ready time, [Event], stalls, [Balance] and [Hydrograph].
//   - [SteadyDrain]: how long, with nothing going by the clock, as an integral.
//   - [Outlet], [KinkedOutlet]: what lets water out, one method and an optional
//     second; [Gate] puts one in its place with moves, pauses, a float switch, a
//     fouling screen and a [Backflow]; [ChannelOutlet] backs up its own channel.
//   - [TideTable], [HarmonicTide], [TailwaterSeries], [ConstantTailwater],
//     [Surged]: the [Tailwater], each on its own datum with its offset;
//     [NewConstituent] works out the astronomy; [NextTurning], [NextPassing],
//     [TimesAbove] read them.
//   - [Inflow], [Rain], [Leakage], [RunoffDepth]: what else comes and goes.
//   - [Neighbour] in a plan, and [Exchange] alone: water to and from the pond next
//     door.
//   - Backwards: [OpeningSearch] and [Solver.LatestOpening] with every [Cliff],
//     [Plan.RequiredOutlet] and [Plan.RequiredPump] for a deadline,
//     [Plan.BoardsForRate] for a rate of fall, [PreDrain], [Refill].
//   - [Plan.Calibrate]: the plan corrected by stages read while it drains.
//   - [SkyAt], [NightAfter], [NextMoonPhase]: light and moon of a place and
//     date; [RankNights] ranks the nights.
//
// # The last water
//
//   - [OxygenBudget]: minutes until crowded animals meet an oxygen limit, and
//     the inflow that holds it; [Refill] finds the point of no return and
//     [PreDrain] the stage that suits both the night and the oxygen.
//   - [Crowd]: density and delivery of animals as the stage falls.
//   - [FlushCycles]: refilling and pumping out, and the value of one more.
//   - [HeatBalance]: warming of shallow water; [OpenWater]: evaporation.
//   - [Effluent], [HoldBackStage], [SettlingArea], [Outfall]: what leaves.
//
// Levels are heights above one datum, the pond's; stage is the level of the
// water surface. Times of day are time.Time with a zone. Calendar days for the
// sun are those of the time's own zone.
//
// # Out of scope
//
// Outlet hydraulics (package hydraulics rates weirs, orifices and culverts; here
// they are an interface), wind set-up, stratification, and dates: the package
// ranks nights, people choose them.
//
// # Cautions
//
// The package plans; it controls nothing and is no life-safety authority.
// Ponds and catch basins drown people: vests, ladder, lights, nobody alone at
// night, no one in front of an opening gate. Mud traps. Sumps can hold hydrogen
// sulphide and too little oxygen: confined-space rules apply. Keep electricity
// away from the water or behind ground-fault protection set up by a licensed
// electrician. Fast drawdown can slip a bank or lift a liner; limits are the
// engineer's. Discharge limits are those of the permit. Local codes and
// licensed practice come before any number printed here.
package drawdown

//go:generate go run pondwright.example/internal/check/sources .
