// Unitgen writes the generated files of package units from the table in this
// directory: the types and their units, the methods every type has, the unit
// records behind them, and UNITS.md.
//
// Run it with
//
//	go generate ./units
//
// table.go lists the quantities and their units, sources.go the standards they
// come from, plural.go the naming rule; the templates are in templates.go.
// A test of this package fails while a generated file is stale.
package main
