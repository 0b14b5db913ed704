package chart

import (
	"math"

	"fencerow/program"
)

// tick is a place of an axis with its text.
type tick struct {
	at   float64
	text string
}

// mostSteps is how many steps an axis has at most.
const mostSteps = 5

// ticks are three to five steps of 1, 2 or 5 times a power of ten, from zero to the
// first that is not below the highest value.
func ticks(highest float64) (all []tick) {
	if !(highest > 0) {
		highest = 1
	}
	power := int(math.Floor(math.Log10(highest))) - 1
	factor := 1.0
	for highest > mostSteps*factor*math.Pow10(power) {
		switch factor {
		case 1:
			factor = 2
		case 2:
			factor = 5
		default:
			factor, power = 1, power+1
		}
	}
	step := factor * math.Pow10(power)
	for k := 0; k == 0 || all[k-1].at < highest; k++ {
		at := float64(k) * step
		if k == 0 {
			all = append(all, tick{0, "0"})
			continue
		}
		all = append(all, tick{at, program.Text(at, max(0, -power))})
	}
	return all
}
