// Package pumpsizing sizes the lift of a pond harvest: the centrifugal pump
// that raises water and animals, and the drive behind it, hydraulic from a
// tractor's power take-off or electric from the mains or a generator. Every
// question can be asked forward (what flow at this speed) and backward (what
// speed, pressure and power for this flow).
//
// # Map
//
//	the system        System, SystemFunc, QuadraticSystem, Raised, TotalHead
//	the pump          CurveData and FitCurve (Curve), ParabolaCurve, AssumedCurve,
//	                  EfficiencyData, PumpData and NewPump (Pump), Affinity,
//	                  SteppedEfficiency, TrimmedDuty, SpecificSpeed
//	the two together  Curve.Meet, Curve.SpeedForFlow, Curve.MinimumSpeed,
//	                  Pump.Operate, Pump.ForFlow, Pump.PlatformSweep,
//	                  MeetParallel and MeetSeries for unequal pumps
//	suction           AtmosphericPressure, Suction (NPSH), NPSHFromGauge
//	the animals       ScreenAnimals, TipSpeed, Strike, PressureRatio, Thresholds:
//	                  screening only
//	oil hydraulics    HydraulicMotor, OilPump, MachineTest, Wilson, Schloesser,
//	                  Oil, OilLine, ValveRating, Relief, FlowControl, Reservoir
//	                  (oil temperature against time)
//	the tractor       PTOShafts, Tractor, DerateISO3046, TractorFuel
//	electricity       MotorEfficiency, PartLoadShare, ConverterEfficiency,
//	                  ElectricLoad, Cable, Generator
//	whole drives      HydraulicDrive and ElectricDrive: every intermediate of the
//	                  chain from the water to the PTO shaft or the generator,
//	                  backward from a flow and forward from a speed; Greatest
//	                  names the limit that binds, Explain what a gauge may mean
//	money             LiftEnergy, WaterPerAnimals, HarvestCost, Yardsticks
//
// # Conventions
//
// A displacement is a volume per revolution. Pressure across a machine is a
// units.Pressure; a reading against the atmosphere is a units.GaugePressure.
// Efficiencies are fractions, so that 60 for 60 % is refused. Heads are metres
// of the liquid pumped; power needs its density. Efficiency curves are read at
// the flow scaled back to rated speed.
//
// What is built (Curve, Efficiency, Pump, HydraulicDrive, ElectricDrive) is for
// use and has no JSON; store the data it was built from and build it again.
//
// # Out of scope
//
// Friction in the water hose and its fittings (a pipeline that satisfies
// System), the pond's level in time, protection and earthing of an electric
// supply, structural strength, and any promise that animals survive: the animal
// functions compare and rank, they do not predict deaths.
//
// # Cautions
//
// The results are planning figures. They defer to the makers' manuals, local
// codes and licensed people, and are not a machine-control or life-safety
// system.
//
//   - Power take-off shafts: shields on, no loose clothing, never step over a
//     turning shaft, engine off and key out before clearing a jam.
//   - Oil under pressure: a pinhole jet through the skin is a surgical
//     emergency; never feel for leaks by hand, bleed pressure first (a stopped
//     motor can hold pressure); hot oil burns.
//   - Electricity by water: ground-fault protection, bonded generator, cables
//     off the ground, work by a qualified electrician, lock-out before hands
//     go in a pump or anybody enters the water.
//   - Lifting and height: rated slings, nobody under a load, a platform that
//     stands with the hose full; sumps and basins drown people.
//
// Whole-drive results carry these cautions as notices.
package pumpsizing

//go:generate go run pondwright.example/internal/check/sources .
