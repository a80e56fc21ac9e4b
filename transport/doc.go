// Package transport takes a harvest to the buyer's door: iced in containers on
// trucks, or alive in tanks of water.
//
// # Map
//
// Iced product:
//   - [Container], [Truck], [Cargo]: how many containers, on which truck, and
//     what binds (volume, mass, count or an axle); [AxleLoads], [BridgeFormula].
//   - [Road]: ice melted on the way; [ReeferLoad]: a cooled body.
//   - [Schedule]: loading, haul, queue and the plant's receiving windows;
//     [Turn], [Trips]: the same on the back of an envelope.
//
// Live animals:
//   - [Tank]: water left beside the animals, and the load per tank volume and
//     per water volume, which are never the same thing.
//   - [CatfishLoad], [TroutLoadFactor], [Practices]: what others have hauled.
//   - [LiaoDemand], [CatfishDemand], [Q10]: oxygen demand; [OxygenNeed],
//     [Cylinder], [AlarmTime]: its supply; [OxygenSaturation].
//   - [Carbonate], [CO2Solubility], [VentFlow]: carbon dioxide and pH;
//     [AmmoniaModel]: un-ionised ammonia.
//   - [IceToCool], [Temper], [SaltFor], [LossAllowance].
//   - [Haul]: all of it together over the hours, on [Mixed], a stirred tank;
//     [Haul.MostProduct]: the load that the tanks can carry.
//
// # Conventions
//
// SI inside; a load carries its basis in its type. Times carry their zone; no
// function reads a clock. A zero field means what its comment says.
//
// # Not in scope
//
// Routes, maps and traffic; vehicle law; the physiology of a species; sea and air
// freight. Limits of mass, hours, oxygen, carbon dioxide, ammonia and
// temperature are the user's data. Those shipped here are cited starting points,
// none of them a finding that animals or people are safe.
//
// # Cautions
//
// Gross mass and axle limits, load securing, driving hours and animal welfare in
// transit are ruled by local law; weigh the loaded truck. Tired drivers kill:
// count the hours on duty since the harvest began.
//
// Oxygen makes things burn: no oil, grease or smoking near it, cylinders chained
// and capped, regulators made for it. Liquid oxygen burns skin. A leak in a cab
// or box enriches its air; carbon dioxide, dry ice or sulphite fumes take the
// breathable air away: ventilate before anyone climbs in.
//
// Part-filled tanks surge and can overturn a truck: baffles, or full tanks.
// Electrical gear on wet trucks needs ground-fault protection and a qualified
// electrician.
//
// If the oxygen fails, minutes remain: an alarm, a spare regulator and a bottle
// within reach are part of the plan.
package transport

//go:generate go run pondwright.example/internal/check/sources .
