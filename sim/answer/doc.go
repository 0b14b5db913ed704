// Package answer holds what is asked and what is answered: a Question, and the
// Comparison with its parts, flags and numbers as every screen, page, workbook and
// JSON of one run shows them. The JSON is part of the contract and documented in
// docs/formats.md.
//
// These are plain structs. Nothing here draws, pays or decides: sim/compare answers
// the main question, sim/explain the others. Start reading at Comparison.
package answer
