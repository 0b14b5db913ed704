//go:build !race

package builtin

const underRace = false
