// Package answer decides: what each program pays on a farm's base, how likely,
// which one leads, what to be warned of. One question per file; plain values
// in, plain structs out, no files and no printing. Start reading at Compare.
//
// It calls the law (package program) on given figures and on every draw of
// package odds; leaders, flags and totals are decided here and nowhere else,
// so that screen, page, workbook and JSON of one run agree. The JSON of its
// answers is part of the contract and documented in docs/formats.md.
package answer
