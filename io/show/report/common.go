package report

import "fencerow/sim/answer"

// CommonFlags returns the flags that every farm of a year has in the same words.
func CommonFlags(farms []answer.FarmPart) []answer.Flag { return commonFlags(farms) }
