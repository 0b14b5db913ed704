//go:build race

package invented

// UnderRace is set where the race detector slows the draws tenfold: the tests over
// whole agency files then leave it to the plain run before.
const UnderRace = true
