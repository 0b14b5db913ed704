//go:build race

package invented

// UnderRace is set where the race detector makes simulation ten times slower: tests over
// whole agency files then leave it to the run without it.
const UnderRace = true
