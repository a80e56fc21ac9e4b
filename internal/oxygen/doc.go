// Package oxygen holds what drawdown and transport share about dissolved gas:
//
//   - [Saturation]: oxygen saturation of fresh and sea water at any pressure,
//     after Benson & Krause, Garcia & Gordon or Weiss.
//   - [Balance]: the oxygen balance of a mixed volume of water in closed form:
//     the concentration it tends to, when it meets a limit, and the inflow that
//     holds it.
//   - [UnionizedAmmonia]: the toxic fraction of ammonia in fresh water.
//
// Temperatures are units.Temperature; everything else is a quantity of package
// units or, in Balance, a plain SI number named as such.
package oxygen
