//go:build race

package main

// underRace says that the race detector runs, which finds nothing in a browser's pages: they are looked at without it.
const underRace = true
