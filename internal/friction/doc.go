// Package friction holds the Darcy friction factor of pipes running full: the
// Colebrook-White equation solved to machine precision, laminar flow, a curve
// for all Reynolds numbers, and the explicit approximations of the literature.
//
// All functions take plain float64: the Reynolds number re = V D / nu and the
// relative roughness rel = e / D, both dimensionless. f is the Darcy factor
// (four times Fanning's) in h = f (L/D) V²/2g.
//
// The functions of this package check nothing: they return NaN for arguments
// without an answer. Package hydraulics wraps them with errors and ranges.
package friction

//go:generate go run logtable_gen.go
