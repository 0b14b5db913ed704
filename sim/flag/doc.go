// Package flag raises what arithmetic misses: an election that is due, base that
// earns nothing, two counties, limits, figures that are projected, assumed or not
// confirmed. Each flag has a code, a severity, one message for people and a source.
//
// It looks at one farm in one crop year as Case has it, and changes no number. Start
// reading at the list of rules in flags.go.
package flag
