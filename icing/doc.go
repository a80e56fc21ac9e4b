// Package icing answers what it takes to chill a harvest and keep it cold: how
// much ice, how long until the core is cold, what the product has been through.
//
// # Map
//
// Ice for a harvest:
//   - [Load] and its method [Load.Balance]: the ice melted by the product, the
//     water carried with it, the slurry's make-up water and the containers'
//     heat leak, and the ice to order for them.
//   - [Load.Plan]: the same at the P10, P50 and P90 of the crop; ice is ordered
//     at P90, since too little loses the crop and too much costs only ice.
//   - [Inventory]: the ice left against the harvest still to come.
//   - [Store]: an ice machine, a store and a demand, hour by hour.
//   - [Ice]: the ice as delivered; [IceSpecificHeat], [IceDensity]: pure ice.
//
// Baths and salt water: [Bath] (a chill tank), [Equilibrium], [TwoLumps],
// [FreezingPoint], [SlurryIceFraction], [MeltIntoSeawater], [ChilledSeawater],
// [BrineFreezing].
//
// Containers: [Wall] (U of a layered wall), [MeltRate], [FitMeltTest],
// [ReserveTime], [Trip] (when to re-ice), [Tote] (what fits).
//
// Cooling of a body: [Body] with [Body.CoreTime], [Theta], [MeanTheta],
// [FiniteCylinder], [Brick].
//
// The product: [Composition], [Component], specific heats, [FrozenFraction];
// [Exposure] (time above the user's limits), [Spoilage] (storage life),
// [SulphiteSalt], [Glaze], [Drip].
//
// # Conventions
//
// SI inside; temperatures are [units.Temperature] and fractions run from 0 to 1.
// A mass of ice is a mass of ice as delivered. A zero field means what its
// comment says.
//
// # Not in scope
//
// Freezing time, refrigeration machinery, microbiology, legal limits. Limits of
// time at temperature, sulphite residue and the like are the user's data; the
// sets shipped here are cited starting points, none of them a finding that a
// product is fit to eat.
//
// # Cautions
//
// A calculation is not a food-safety authority. Keep the records your hazard
// plan, buyer and local law ask for, measured with a calibrated thermometer in
// the product: an ice bath that looks full of ice can stand at 9 to 15 °C.
//
// Use ice made from potable water for food. Slurry colder than -1 °C can freeze
// the surface of the product and salts it.
//
// Sulphites (sodium metabisulphite, sodium bisulphite) give off sulphur dioxide,
// more so with acid; people have died in closed holds and truck boxes, and
// asthma can be set off by traces. Ventilate, wear eye and breathing protection,
// label the product, neutralise the bath before discharge, never drain it to a
// pond, and follow local law and the label.
//
// Spent air over dry ice or in closed tanks holds no oxygen to breathe. Lids,
// bins and wet floors injure; lift within the limits of your place of work.
package icing

//go:generate go run pondwright.example/internal/check/sources .
