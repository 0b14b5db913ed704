// Package document turns the text of a YAML file into a tree of values as they
// were typed, and reads keys, numbers, words, crop years and commodities from
// it, noting every mistake with its line and column.
//
// A value is kept as its characters: 0417 stays "0417", 1e5 stays "1e5". What
// a value means is decided by the reader of each key. The package knows no
// file format of its own and computes nothing. Start reading at Parse, then at
// Reader.Fields.
//
// Much that YAML allows is refused, because it makes a farm file mean something
// else than a person reading it would think: anchors and aliases, merge keys,
// tags, directives, composed keys, several documents in one file.
package document
