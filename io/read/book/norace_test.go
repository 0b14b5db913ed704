//go:build !race

package book

const underRace = false
