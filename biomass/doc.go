// Package biomass estimates what stands in a harvest pond and what comes out of
// it: the crop and its uncertainty before harvest, its size grades, its shell
// condition, what is still in the pond while it is being emptied, and why the
// weights at the bank and at the plant differ.
//
// # Map
//
//	the crop         crop.go castnet.go efficiency.go strata.go prior.go feed.go blend.go
//	                 estimate.go lognormal.go
//	mean weight      sample.go batches.go samplesize.go weightrange.go project.go
//	size grades      count.go classes.go lotgrade.go shares.go gradesample.go gradevalue.go
//	shell condition  softshell.go binomial.go
//	removals         removal.go twopass.go schnute.go removalposterior.go depletion.go
//	marks            recapture.go schnabel.go
//	while pumping    catchcurve.go curvefit.go fractionout.go bayes.go
//	the scale        ticket.go reconcile.go account.go partial.go
//	growth           growth.go lengthweight.go
//
// # What the answers are
//
// Estimates carry their spread: a median with the tenth and ninetieth
// percentile, the named errors that make it and the one that dominates. Ice,
// oxygen and trucks are ordered for the high percentile and tonnage is promised
// from the low one; the same figure should not serve both.
//
// A sampling error falls with the number of casts, the error of the catch
// efficiency does not. The efficiency is therefore an input with its own
// uncertainty, from the farm's own calibration; no default is offered, because
// no published figure holds for another net, thrower, bottom and species.
//
// Count classes are custom of the trade. Whether the animals are counted head-on
// or headless, per pound or per kilogram, the tail yield and on which side of a
// class edge a lot falls are stated by the caller; none of them is assumed.
//
// # Scope
//
// Closed populations over the hours or days of a harvest. Not in scope: stock
// assessment of open waters, accounting, contract prices, disease. Weights are
// live or drained wet weights; ice and water on the scale are deducted by the
// caller's own weigh-and-drain test.
//
// # Cautions
//
// Statistics plan a harvest; they do not certify it. Soft-shell, size and
// residue limits are the buyer's and the law's, given as data by the caller.
// Casting from a bank or boat at night is work over water: never alone, with a
// vest and a light. Local codes and licensed practice come first.
//
// # Sources
//
// Each function names its source; the check values are listed in SOURCES.md.
// Bibliographic details of textbooks are from memory unless a check row says
// that the printed value was read, or the function says where its equation was.
package biomass

//go:generate go run pondwright.example/internal/check/sources .
