// Package check runs the tables of check values that every calculation package
// of the module keeps in its testdata directory, and holds each package to
// them.
//
//   - [Run] computes every row of one table and compares it with the expected
//     value.
//   - [Coverage] fails when an exported formula has no row of an outside kind.
//   - [Docs] fails when an exported formula names no source or has no example.
//   - [Sources] fails when the package's SOURCES.md is not what its tables
//     render to; the command internal/check/sources writes it.
//
// # Tables
//
// A table is a CSV file with a header. Lines that begin with # are comments.
// These columns have a fixed meaning:
//
//	func      exported symbol that the row checks: Name, or Type.Method
//	expected  the number expected, or "error TEXT": the call must fail and
//	          its error must contain TEXT
//	tol       "1e-6" is relative to expected, "abs 0.01" is absolute
//	kind      published, independent code, derived by hand, common practice,
//	          from memory or regression
//	source    author, year, title; library and version; the method in words
//	locator   equation, table, example, page; may be empty
//	case      optional name of the row
//	note      optional remark
//	unit      optional unit of expected
//
// All other columns are inputs of the row, named with their unit, such as
// length_m. A blank cell is an input that the row does not have. A row fails
// when its function leaves a filled input unread.
//
// # Kinds
//
// The kinds published, independent code and derived by hand are outside
// evidence: they do not come from the code under test. A row of kind
// regression only tells that a value has moved.
package check
