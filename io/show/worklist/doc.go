// Package worklist lays out lists for somebody who works through many farms: elections by
// county office, and calls by signer. It computes no figure, decides nothing and fills
// nothing in: what nobody typed stays blank or "not recorded here". Start reading at
// OfElections.
package worklist
