// Package odds says what national prices and county yields may be, given what
// is known today, and sums up what follows from them.
//
// It knows distributions, correlations and scenarios. It knows no rule of the farm
// programs: it makes prices and yields by scenario, the law is applied elsewhere, and
// what comes back is summarized here. Even rounding to published digits is passed in.
//
// Start reading at Sampler, which makes the standard normals behind every
// price and county yield; Price.Draw and Yield.Draw turn them into dollars and
// bushels; Summarize, Share and PercentilesOf describe figures by scenario.
// A price or yield depends on seed, number of scenarios, crop year and its own name, and
// on nothing else: no other farm, county or commodity of a file can move it. The same seed
// gives the same bytes on the same machine, on any number of processors.
//
// Every number of the model is a row of parameters.csv with its source, or
// marked there as a judgement.
package odds
