// Package payoff says what a program pays on a commodity base in every scenario. A
// Rate is what many farms share and is worked out once for its Key; a Claim turns it
// into dollars on one base; a Payoff holds the claims of one program on the bases of
// a commodity. The programs of a crop year are an ordered list (Instruments).
//
// A new program is a file with its rate and its payoff, rows of law, a test, and a
// place in that list. The room knows no producer's limit, no election and no words
// for people. Start reading at Instrument.
package payoff
