// Package law holds the numbers of the farm programs as dated, cited rows, and
// nothing else: no formula, no farm, no price of a market.
//
// One row is one value with one source. Start reading at Find. Row ids and
// source keys are never reused or renumbered. A new Act is new rows here and a
// page under docs/law; a changed formula is a new function in package program.
package law
