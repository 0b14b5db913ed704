// Package summary lays out a comparison for a terminal: the answer of a whole operation on
// one screen, or one farm in full. It makes report blocks of an answer.Comparison, works no
// figure out and decides nothing; all words that other outputs share come from wording.
// Start reading at Of.
package summary
