// Package drawdown computes the lowering of a harvest pond: how much water it
// holds, how it runs out past an outlet and a tide, when the outlet must open
// so that the catch basin is ready at an asked hour, and what happens to the
// animals, the oxygen and the effluent in the last water.
//
// # The pond
//
//   - [StageTable]: areas at rising stages, what every other part works on.
//   - [Prismoid], [SlopedFloor], [Ditch], [Basin]: ponds from formulas, joined
//     by [Composite] and turned into a table by [Tabulate].
//   - [Survey]: scattered x, y, z points, triangulated inside the shore, with
//     the exact storage of the triangles and an error band.
//   - [RoughPond]: "about five acres and four feet", with an honest band.
//   - [Datum]: levels that say what they are measured from.
//
// # The last water
//
//   - [OxygenBudget]: minutes until crowded animals meet an oxygen limit and
//     the inflow that holds it.
//   - [CrowdingCurve]: the share of the stock moving with the water.
//   - [FlushCycles], [HeatBalance], [Effluent] and [SettlingBasin].
//
// # The night
//
//   - [SkyAt]: first light, sunrise and sunset, moon phase, rise and light.
//
// Levels are heights above one datum, the pond's; stage is the level of the
// water surface. Times of day are time.Time with a zone.
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
