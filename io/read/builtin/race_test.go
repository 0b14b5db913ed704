//go:build race

package builtin

// underRace is set where the race detector makes reading the agencies' files eight
// times as slow: the plain run before does that.
const underRace = true
