// Package spoken lays an answer out as sentences to be read to somebody on the telephone:
// one farm after the other, no table, no picture, figures in round dollars.
//
// It formats what sim/answer decided and computes nothing. Start reading at Of.
package spoken
