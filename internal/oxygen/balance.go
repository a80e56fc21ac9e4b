package oxygen

import "math"

// Balance is the oxygen in a mixed volume of water whose exchange and demand
// stay constant:
//
//	V dC/dt = Exchange (Source - C) - Demand
//
// Exchange joins inflow and everything that transfers oxygen in proportion to
// a deficit (surface, aerators); Source is the concentration each of them
// brings, weighted by its share. SI: m3, m3/s, kg/m3, kg/s.
//
// Source: mass balance of a stirred tank, by definition.
type Balance struct {
	Volume   float64
	Exchange float64
	Source   float64
	Demand   float64
}

// Tends returns the concentration that the balance tends to. Without exchange
// it falls without end while there is demand (-Inf) and otherwise stays at
// start.
func (b Balance) Tends(start float64) float64 {
	if b.Exchange > 0 {
		return b.Source - b.Demand/b.Exchange
	}
	switch {
	case b.Demand > 0:
		return math.Inf(-1)
	case b.Demand < 0:
		return math.Inf(1)
	}
	return start
}

// At returns the concentration after t seconds from start, by the closed form
// C = Ce + (C0 - Ce) exp(-t Exchange/V), written so that it holds without
// exchange too. It can be negative when no demand
// slackens, which the caller must cut off.
func (b Balance) At(start, t float64) float64 {
	drift := (b.Exchange*(b.Source-start) - b.Demand) / b.Volume
	x := b.Exchange / b.Volume * t
	if x == 0 {
		return start + drift*t
	}
	return start + drift*t*(-math.Expm1(-x)/x)
}

// TimeTo returns the seconds until the concentration meets limit coming from
// start, and whether it ever does. A limit on the side that the concentration
// moves away from is never met.
//
// Equation: t = (V/Exchange) ln((C0 - Ce)/(C1 - Ce)).
func (b Balance) TimeTo(start, limit float64) (seconds float64, met bool) {
	if start == limit {
		return 0, true
	}
	drift := (b.Exchange*(b.Source-start) - b.Demand) / b.Volume // dC/dt at start
	if drift == 0 || (limit-start)*drift < 0 {
		return math.Inf(1), false
	}
	// With y = rate (C1-C0)/drift, t = -ln(1-y)/rate, which tends to (C1-C0)/drift.
	rate := b.Exchange / b.Volume
	y := rate * (limit - start) / drift
	if !(y < 1) {
		return math.Inf(1), false
	}
	if y == 0 {
		return (limit - start) / drift, true
	}
	return -math.Log1p(-y) / rate, true
}

// InflowToHold returns the m3/s of water at concentration inflow that holds
// limit, beside the exchange already there, and whether any can.
//
// Equation: Q = (Demand - Exchange (Source - limit))/(inflow - limit), not below zero.
func (b Balance) InflowToHold(inflow, limit float64) (flow float64, possible bool) {
	need := b.Demand - b.Exchange*(b.Source-limit)
	if need <= 0 {
		return 0, true
	}
	if !(inflow > limit) {
		return math.Inf(1), false
	}
	return need / (inflow - limit), true
}
