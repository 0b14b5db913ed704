// Package operation reads an operation file: the farms, bases and producers
// that one decision is about.
//
// It knows the keys of the format fencerow/operation/1 and what may stand
// there. It computes no payment and opens no other file: county_files and
// market_file are returned as written. Start reading at Parse.
package operation
