// Package personal lays out sheets for one reader: a producer's own, with no figure of
// anybody else, and a lender's. It computes no figure and decides nothing. Start reading
// at OfPerson.
package personal
