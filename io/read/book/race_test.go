//go:build race

package book

// underRace is set where the race detector slows the database tenfold: the tests
// over whole agency files then leave it to the plain run before.
const underRace = true
